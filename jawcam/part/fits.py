"""Limits and fits of ISO 286 for sizes up to 500 mm.

Standard tolerances IT5 to IT11; holes D E F G H JS and shafts d e f g h js k m n p, k in grades
5 to 7 only (beyond them the standard has other deviations). What the tables lack is refused.

Of ISO 286-1 the values IT6 to IT9, g and f from 6 to 50 mm were compared with a print; the others
are written down from memory and held, in the tests, against the formulas they were made with.
"""

from __future__ import annotations

import re
from dataclasses import dataclass

__all__ = ["GRADES", "STEPS", "Fit", "FitError", "Zone", "limits_of_fit", "tolerance", "zone"]

STEPS = (3, 6, 10, 18, 30, 50, 80, 120, 180, 250, 315, 400, 500)
"""The steps of nominal size in mm: each reaches over the one before it and up to its own."""

_MICRON = 1e-3

# Micrometres by step.
_IT = {
    5: (4, 5, 6, 8, 9, 11, 13, 15, 18, 20, 23, 25, 27),
    6: (6, 8, 9, 11, 13, 16, 19, 22, 25, 29, 32, 36, 40),
    7: (10, 12, 15, 18, 21, 25, 30, 35, 40, 46, 52, 57, 63),
    8: (14, 18, 22, 27, 33, 39, 46, 54, 63, 72, 81, 89, 97),
    9: (25, 30, 36, 43, 52, 62, 74, 87, 100, 115, 130, 140, 155),
    10: (40, 48, 58, 70, 84, 100, 120, 140, 160, 185, 210, 230, 250),
    11: (60, 75, 90, 110, 130, 160, 190, 220, 250, 290, 320, 360, 400),
}
GRADES = tuple(_IT)
"""The standard tolerance grades that the table holds."""

# Fundamental deviations: of shafts d to h the upper one, holes D to H the same with the other
# sign below; of shafts k to p the lower one.
_UPPER = {
    "d": (-20, -30, -40, -50, -65, -80, -100, -120, -145, -170, -190, -210, -230),
    "e": (-14, -20, -25, -32, -40, -50, -60, -72, -85, -100, -110, -125, -135),
    "f": (-6, -10, -13, -16, -20, -25, -30, -36, -43, -50, -56, -62, -68),
    "g": (-2, -4, -5, -6, -7, -9, -10, -12, -14, -15, -17, -18, -20),
    "h": (0,) * len(STEPS),
}
_LOWER = {
    "k": (0, 1, 1, 1, 2, 2, 2, 3, 3, 4, 4, 4, 5),
    "m": (2, 4, 6, 7, 8, 9, 11, 13, 15, 17, 20, 21, 23),
    "n": (4, 8, 10, 12, 15, 17, 20, 23, 27, 31, 34, 37, 40),
    "p": (6, 12, 15, 18, 22, 26, 32, 37, 43, 50, 56, 62, 68),
}
_EVEN = "js"
_SHAFTS = (*_UPPER, _EVEN, *_LOWER)
_HOLES = tuple(letter.upper() for letter in (*_UPPER, _EVEN))
_K_GRADES = (5, 6, 7)
_CLASS = re.compile(r"([A-Za-z]+)(\d+)")


class FitError(ValueError):
    """A fit that can't be worked out: `what` is wrong and how to `mend` it."""

    def __init__(self, what: str, mend: str) -> None:
        super().__init__(f"{what}: {mend}")
        self.what, self.mend = what, mend


@dataclass(frozen=True)
class Zone:
    """A tolerance zone: the lower and the upper deviation from the nominal size, in mm."""

    lower: float
    upper: float

    @property
    def middle(self) -> float:
        """The deviation halfway between the two."""
        return (self.lower + self.upper) / 2


@dataclass(frozen=True)
class Fit:
    """A hole and a shaft of one nominal size; least, most: their play in mm, below 0 where the
    shaft is the larger."""

    hole: Zone
    shaft: Zone

    @property
    def least(self) -> float:
        """The play of the smallest hole on the largest shaft."""
        return self.hole.lower - self.shaft.upper

    @property
    def most(self) -> float:
        """The play of the largest hole on the smallest shaft."""
        return self.hole.upper - self.shaft.lower


def tolerance(size: float, grade: int) -> float:
    """The standard tolerance of a nominal size (mm) in an IT grade, in mm: ISO 286-1. Raises
    FitError beyond the table."""
    step = _step(size)
    if grade not in _IT:
        raise FitError(
            f"there is no grade {grade} in the table of standard tolerances",
            f"take a grade from {GRADES[0]} to {GRADES[-1]}",
        )
    return _IT[grade][step] * _MICRON


def zone(size: float, name: str) -> Zone:
    """The tolerance zone of a nominal size (mm) in a class such as "H7" (a hole) or "g6" (a
    shaft): ISO 286-1 and -2. js and JS are half the tolerance either way, not rounded. Raises
    FitError for a class or a size that the tables don't hold."""
    letters, grade = _class(name)
    width = tolerance(size, grade)
    step = _step(size)
    if letters.lower() == _EVEN:
        return Zone(-width / 2, width / 2)
    if letters in _UPPER:
        upper = _UPPER[letters][step] * _MICRON
        return Zone(upper - width, upper)
    if letters in _LOWER:
        lower = _LOWER[letters][step] * _MICRON
        return Zone(lower, lower + width)
    lower = -_UPPER[letters.lower()][step] * _MICRON
    return Zone(lower, lower + width)


def limits_of_fit(size: float, letters: str) -> Fit:
    """The two zones and the play of a fit such as "H7/g6" on a nominal size in mm. Raises
    FitError as `zone` does, and for what is no hole with its shaft."""
    hole, slash, shaft = (part.strip() for part in letters.partition("/"))
    if not (slash and hole[:1].isupper() and shaft[:1].islower()):
        raise FitError(
            f'"{letters}" is no fit',
            "write the hole's class in capitals, a stroke and the shaft's, such as H7/g6",
        )
    return Fit(zone(size, hole), zone(size, shaft))


def _step(size: float) -> int:
    """Which step a size belongs to."""
    if not 0 < size <= STEPS[-1]:
        raise FitError(
            f"there are no limits for a nominal size of {size:g} mm",
            f"fits are tabled for more than 0 and up to {STEPS[-1]} mm",
        )
    return next(index for index, top in enumerate(STEPS) if size <= top)


def _class(name: str) -> tuple[str, int]:
    """Take a class apart into its letters and its grade, both known."""
    if not (found := _CLASS.fullmatch(name.strip())):
        raise FitError(f'"{name}" is no tolerance class', "write letter and grade, such as H7")
    letters, grade = found[1], int(found[2])
    if letters not in (*_HOLES, *_SHAFTS):
        raise FitError(
            f'the tables hold no tolerance class "{letters}"',
            f"take a hole of {' '.join(_HOLES)} or a shaft of {' '.join(_SHAFTS)}",
        )
    if letters == "k" and grade in _IT and grade not in _K_GRADES:
        raise FitError(
            f"the tables hold k in grades {_K_GRADES[0]} to {_K_GRADES[-1]} only, not k{grade}",
            "take one of these",
        )
    return letters, grade
