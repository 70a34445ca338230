"""The designations of indexable inserts after ISO 1832: text -> Insert."""

from __future__ import annotations

import math
import re
from collections.abc import Iterable
from dataclasses import dataclass

from jawcam.errors import Fault, InputError, Place
from jawcam.tools.turner import Insert

__all__ = [
    "CLEARANCES",
    "CORNERS",
    "DesignationError",
    "Slip",
    "corners",
    "edge_length",
    "parse",
]

CLEARANCES = {"A": 3, "B": 5, "C": 7, "D": 15, "E": 20, "F": 25, "G": 30, "N": 0, "P": 11}
"""Normal clearance in degrees by its letter: ISO 1832."""

CORNERS: dict[str, tuple[float, ...]] = {
    "C": (80, 100) * 2,
    "D": (55, 125) * 2,
    "E": (75, 105) * 2,
    "K": (55, 125) * 2,  # its other two sides are shorter, but the designation doesn't say
    "M": (86, 94) * 2,
    "S": (90,) * 4,
    "T": (60,) * 3,
    "V": (35, 145) * 2,
    "W": (80, 160) * 3,
}
"""The corners of each shape that turns, in degrees, from the nose round: equal-sided all of them.
Round inserts have none."""

_INSCRIBED = (3.97, 4.76, 5.56, 6.35, 7.94, 9.525, 12.7, 15.875, 19.05, 25.4)
# Where cutting off the decimals would give two circles the same digits: as tool makers' tables
# print them (common practice, no source).
_PRINTED = {"C": {"03": 3.97, "04": 4.76}, "W": {"L3": 4.76, "03": 5.56}}
_SPARE = 0.01  # tables start from rounded edges: 11 mm where it is 10.998
_THICKNESS = re.compile(r"0[1-9]|1[0-2]|T[0-69]")
_LETTERS = (
    ("shape", "".join(sorted("R" + "".join(CORNERS)))),
    ("clearance", "".join(CLEARANCES)),
    ("tolerance", "ACEFGHJKLMNU"),
    ("type", "ABCFGHJMNQRTUWX"),
)
_REFUSED = {
    ("shape", "A"): "is a parallelogram for milling",
    ("shape", "B"): "is a parallelogram for milling",
    ("shape", "L"): "is a rectangle, which turns no profile",
    ("clearance", "O"): "leaves the clearance open",
}
_INCH_FORM = re.compile(r"[A-Z]{4}\d{1,3}[A-Z]*")
_LENGTH = 10  # signs of a designation without what the maker adds


@dataclass(frozen=True)
class Slip:
    """One thing wrong in a designation: what, the sign's column from 1, how to mend it."""

    what: str
    column: int
    mend: str


class DesignationError(InputError):
    """A designation that ISO 1832 doesn't know or that turns nothing. slips: all that is wrong in
    it, from the left."""

    def __init__(self, designation: str, slips: Iterable[Slip]) -> None:
        self.slips = tuple(sorted(slips, key=lambda slip: slip.column))
        super().__init__(
            Fault(slip.what, Place(at=f"{designation!r}, character {slip.column}"), slip.mend)
            for slip in self.slips
        )


def parse(designation: str) -> Insert:
    """Read the designation of an insert after ISO 1832, in mm, such as "DCMT11T304".

    Blanks and hyphens may stand between its parts, and behind it whatever its maker adds. A round
    insert has no angle (0) and half its size for a radius. Raises DesignationError with all that
    is wrong.
    """
    text, columns, tail = _taken_apart(designation)
    slips = [
        _wrong_letter(what, known, sign, column)
        for (what, known), sign, column in zip(_LETTERS, text, columns, strict=False)
        if sign not in known
    ]
    if len(text) < _LENGTH:
        raise DesignationError(designation, [*slips, _stops_short(text, len(designation) + 1)])
    if not _THICKNESS.fullmatch(text[6:8]):
        mend = "write two signs, such as 04 or T3"
        slips.append(Slip(f"{text[6:8]!r} is no thickness of inserts", columns[6], mend))
    if tail[:1].isdecimal():
        mend = "two signs each for edge, thickness and nose radius, then none or a letter"
        slips.append(Slip("this is a digit too many", columns[9] + 1, mend))
    shape, size, radius = text[0], 0.0, 0.0
    if shape == "R" or shape in CORNERS:
        size = _size(text, columns[4], slips)
        radius = _radius(text, size, columns[8], slips)
    if slips:
        raise DesignationError(designation, slips)
    angle = float(CORNERS[shape][0]) if shape in CORNERS else 0.0
    return Insert(text + tail, shape, angle, float(CLEARANCES[text[1]]), size, radius)


def _taken_apart(designation: str) -> tuple[str, list[int], str]:
    """The signs of a designation in capitals, the column of each, and the maker's own behind."""
    columns = [at for at, sign in enumerate(designation, 1) if not sign.isspace() and sign != "-"]
    columns = columns[:_LENGTH]
    signs = (designation[column - 1] for column in columns)
    text = "".join(sign.upper() if sign.isascii() else sign for sign in signs)
    return text, columns, designation[columns[-1] :].strip() if len(text) == _LENGTH else ""


def _wrong_letter(what: str, known: str, sign: str, column: int) -> Slip:
    why = _REFUSED.get((what, sign), f"is no letter for the {what} of a turning insert")
    return Slip(f"{sign!r} {why}", column, "choose from " + ", ".join(known))


def _stops_short(text: str, column: int) -> Slip:
    if _INCH_FORM.fullmatch(text):
        mend = "write the one in mm, such as CNMG120408 for CNMG432"
        return Slip("this is the designation in inches", 5, mend)
    mend = "write four letters, then two signs each for edge, thickness and nose radius"
    return Slip("this stops short", column, f"{mend}, such as DCMT11T304")


def _size(text: str, column: int, slips: list[Slip]) -> float:
    """The inscribed circle, or of K the edge; 0 and a slip if there is none."""
    shape, digits = text[0], text[4:6]
    if shape == "K" or (shape == "R" and text[8:] != "00"):
        if digits.isdecimal() and int(digits) > 2:
            return float(digits)
        slips.append(Slip(f"{digits!r} is no size in mm", column, "write two digits, such as 16"))
        return 0.0
    known = _sizes(shape)
    if digits not in known:
        mend = f"choose from {', '.join(sorted(known))}"
        slips.append(Slip(f"no size {digits!r} of {shape} inserts is known", column, mend))
    return known.get(digits, 0.0)


def _sizes(shape: str) -> dict[str, float]:
    """The circles of a shape by their digits: the whole millimetres of its edge."""
    found: dict[str, list[float]] = {}
    for circle in _INSCRIBED:
        edge = circle if shape == "R" else _side(CORNERS[shape], circle)
        found.setdefault(f"{math.floor(edge + _SPARE):02d}", []).append(circle)
    plain = {digits: circles[0] for digits, circles in found.items() if len(circles) == 1}
    return plain | _PRINTED.get(shape, {})


def _radius(text: str, size: float, column: int, slips: list[Slip]) -> float:
    digits = text[8:]
    if text[0] == "R":
        if digits not in {"M0", "00"}:
            mend = "write M0 for a diameter in mm, 00 for one in inches"
            slips.append(Slip(f"a round insert has no nose radius {digits!r}", column, mend))
        return size / 2
    if not digits.isdecimal() or digits == "00":
        mend = "write the nose radius in tenths of a millimetre, such as 04 or 08"
        slips.append(Slip(f"{digits!r} is no nose radius to turn with", column, mend))
        return 0.0
    radius = int(digits) / 10
    if size and 2 * radius >= size:
        what = f"a nose radius of {radius:g} mm is too large for this insert"
        slips.append(Slip(what, column, "write a smaller one, in tenths of a millimetre"))
    return radius


def _side(corners: tuple[float, ...], circle: float) -> float:
    """The side of an equal-sided shape about a circle: from each corner to where the circle
    touches it is r / tan(corner / 2). Of a rhombus that is d / sin(corner)."""
    return circle / 2 * sum(1 / math.tan(math.radians(corner / 2)) for corner in corners[:2])


def edge_length(insert: Insert) -> float:
    """How long the edge of an insert is from corner to corner, mm; of a round one, its
    diameter."""
    if insert.shape in {"K", "R"}:
        return insert.size
    return _side(corners(insert), insert.size)


def corners(insert: Insert) -> tuple[float, ...]:
    """The corners of an insert in degrees, from the nose round; of a shape unknown here, those of
    a rhombus with its angle."""
    return CORNERS.get(insert.shape, (insert.angle, 180 - insert.angle) * 2)
