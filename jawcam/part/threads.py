"""Screw threads by their designation: basic sizes of ISO metric and unified inch threads.

ISO 68-1, ISO 724, ISO 261 and ISO 965-1; ASME B1.1. All in mm and degrees. The limits of size are
in thread_limits.
"""

from __future__ import annotations

import math
import re
from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction

from jawcam.units import MM_PER_INCH

__all__ = ["COARSE", "UNIFIED", "ThreadError", "ThreadSize", "readings", "thread_of"]

_COARSE = {
    0.25: (1.0, 1.1, 1.2),
    0.3: (1.4,),
    0.35: (1.6, 1.8),
    0.4: (2.0,),
    0.45: (2.2, 2.5),
    0.5: (3.0,),
    0.6: (3.5,),
    0.7: (4.0,),
    0.75: (4.5,),
    0.8: (5.0,),
    1.0: (6.0, 7.0),
    1.25: (8.0, 9.0),
    1.5: (10.0, 11.0),
    1.75: (12.0,),
    2.0: (14.0, 16.0),
    2.5: (18.0, 20.0, 22.0),
    3.0: (24.0, 27.0),
    3.5: (30.0, 33.0),
    4.0: (36.0, 39.0),
    4.5: (42.0, 45.0),
    5.0: (48.0, 52.0),
    5.5: (56.0, 60.0),
    6.0: (64.0, 68.0),
}
COARSE = {major: pitch for pitch, majors in _COARSE.items() for major in majors}
"""Nominal diameter -> pitch of the ISO metric coarse series, mm (ISO 261, from memory)."""

# Threads per inch -> nominal diameters, as gauge numbers and in sixteenths of an inch.
_GAUGES: dict[str, dict[float, Iterable[int]]] = {
    "UNC": {64: (1,), 56: (2,), 48: (3,), 40: (4, 5), 32: (6, 8), 24: (10, 12)},
    "UNF": {
        80: (0,),
        72: (1,),
        64: (2,),
        56: (3,),
        48: (4,),
        44: (5,),
        40: (6,),
        36: (8,),
        32: (10,),
        28: (12,),
    },
    "UNEF": {32: (12,)},
}
_SIXTEENTHS: dict[str, dict[float, Iterable[int]]] = {
    "UNC": {20: (4,), 18: (5,), 16: (6,), 14: (7,), 13: (8,), 12: (9,), 11: (10,), 10: (12,)}
    | {9: (14,), 8: (16,), 7: (18, 20), 6: (22, 24), 5: (28,), 4.5: (32, 36)}
    | {4: range(40, 65, 4)},
    "UNF": {28: (4,), 24: (5, 6), 20: (7, 8), 18: (9, 10), 16: (12,), 14: (14,)}
    | {12: range(16, 25, 2)},
    "UNEF": {32: (4, 5, 6), 28: (7, 8), 24: (9, 10, 11), 20: range(12, 17), 18: range(17, 28)},
}
_MOST_GAUGE = 12


def _of_gauge(number: int) -> float:
    return (60 + 13 * number) / 1000


UNIFIED: dict[str, dict[float, float]] = {
    series: {
        _of_gauge(gauge): pitch for pitch, gauges in _GAUGES[series].items() for gauge in gauges
    }
    | {size / 16: pitch for pitch, sizes in _SIXTEENTHS[series].items() for size in sizes}
    for series in _GAUGES
}
"""Series -> nominal diameter in inches -> threads per inch (ASME B1.1, from memory)."""

_CROSS = "[x\N{MULTIPLICATION SIGN}]"
_METRIC = re.compile(
    rf"""M (?P<dia> [0-9]+ (?:\.[0-9]+)? )
    (?: [ ]? {_CROSS} [ ]? (?: Ph (?P<lead> [0-9]*\.?[0-9]+ ) P )? (?P<pitch> [0-9]*\.?[0-9]+ ) )?
    (?: [ -] (?P<class> (?:[0-9]+[a-z]){{1,2}} | (?:[0-9]+[A-Z]){{1,2}} ) )?""",
    re.VERBOSE,
)
_INCH = re.compile(
    r"""(?: \#(?P<gauge> [0-9]+ )
        | (?: (?P<whole> [0-9]+ )[ -] )? (?P<part> [0-9]+/[0-9]*[1-9][0-9]* )
        | (?P<dia> [0-9]*\.?[0-9]+ )
    )
    - (?P<per_inch> [0-9]+ (?:\.[0-9]+)? )
    (?: [ ] (?P<series> UN (?: R? (?: C | F | EF )? | S ) ) )?
    (?: [ -] (?P<class> [123][AB] ) )?""",
    re.VERBOSE,
)
_MEND = 'write it such as "M20x2.5 6g" or "1/2-13 UNC 2A"'
_CLOSE = 1e-9


class ThreadError(ValueError):
    """A thread that can't be read or worked out: `what` is wrong and how to `mend` it."""

    def __init__(self, what: str, mend: str) -> None:
        super().__init__(f"{what}: {mend}")
        self.what, self.mend = what, mend


@dataclass(frozen=True)
class ThreadSize:
    """A thread's basic sizes in mm.

    series: "M", or that of a unified thread such as "UNC", "" if none was said; grade: the class
    as written, such as "6g" or "2B", "" for none; inside: what the class tells, None without one.
    """

    designation: str
    series: str
    major: float
    pitch: float
    starts: int = 1
    grade: str = ""
    inside: bool | None = None

    @property
    def metric(self) -> bool:
        """Whether it is an ISO metric thread; a unified one otherwise."""
        return self.series == "M"

    @property
    def flanks(self) -> float:
        """Degrees between its flanks (ISO 68-1, ASME B1.1)."""
        return 60.0

    @property
    def lead(self) -> float:
        """How far a nut goes in one turn."""
        return self.starts * self.pitch

    @property
    def height(self) -> float:
        """H, the height of the sharp triangle of 60 degrees (ISO 68-1)."""
        return math.sqrt(3) / 2 * self.pitch

    @property
    def pitch_diameter(self) -> float:
        """d2 = d - 3/4 H (ISO 724); of a unified thread rounded to four places of an inch, as
        ASME B1.1 bids."""
        exact = self.major - 0.75 * self.height
        return exact if self.metric else round(exact / MM_PER_INCH, 4) * MM_PER_INCH

    @property
    def minor(self) -> float:
        """d1 = d - 5/4 H (ISO 724): the bore of an inside thread."""
        return self.major - 1.25 * self.height

    @property
    def root(self) -> float:
        """d3 = d - 17/12 H (ISO 724, DIN 13): across an outside thread's rounded root."""
        return self.major - 17 / 12 * self.height

    @property
    def lead_angle(self) -> float:
        """The slope of the helix at the pitch diameter, degrees."""
        return math.degrees(math.atan(self.lead / (math.pi * self.pitch_diameter)))

    @property
    def wire(self) -> float:
        """The diameter of the wires that touch its flanks at the pitch line: P / (2 cos 30)."""
        return self.pitch / (2 * math.cos(math.radians(30)))

    def over_wires(self, pitch_diameter: float) -> float:
        """The size over three such wires of an outside thread with a pitch diameter: d2 + 3 w - H
        (for flanks of 60 degrees, its lead neglected)."""
        return pitch_diameter + 3 * self.wire - self.height

    @property
    def outside_depth(self) -> float:
        """h3 = 17/24 H = 0.61343 P (DIN 13): from crest to root of an outside thread. A unified
        one is cut as deep; its own height, 11/16 H, is not to be less."""
        return 17 / 24 * self.height

    @property
    def inside_depth(self) -> float:
        """5/8 H = 0.54127 P (ISO 68-1): from the bore to the basic major diameter."""
        return 0.625 * self.height

    @property
    def depth(self) -> float:
        """The depth on radius: an inside one if its class says so, an outside one otherwise."""
        return self.inside_depth if self.inside else self.outside_depth


def thread_of(designation: str) -> ThreadSize:
    """Read a designation: ``M20``, ``M20x2.5 6g``, ``M20xPh5P2.5``, ``1/2-13 UNC 2A``, ``1/2-13``.

    A bare whole number up to 12 before threads per inch is a gauge number if a series has that
    gauge with that pitch (``10-32``), and inches otherwise (``1-8``). Raises ThreadError.
    """
    return readings(designation)[0]


def readings(designation: str) -> tuple[ThreadSize, ...]:
    """Give all that a designation may mean, likeliest first: two where a number may be of inches
    or of a gauge, one otherwise; gauge n is 0.060 + 0.013 n inches (ASME B1.1). Raises
    ThreadError."""
    if match := _METRIC.fullmatch(designation):
        return (_metric(designation, match),)
    if match := _INCH.fullmatch(designation):
        return _unified(designation, match)
    raise _unread(designation)


def _unread(designation: str) -> ThreadError:
    if designation.rstrip().upper().endswith("LH"):
        what = f'"{designation}" is a left-hand thread, and none is cut here'
        return ThreadError(what, "leave LH out if a right-hand one will do")
    return ThreadError(f'"{designation}" is no designation of a thread', _MEND)


def _metric(designation: str, match: re.Match[str]) -> ThreadSize:
    major = float(match["dia"])
    pitch = float(match["pitch"]) if match["pitch"] else COARSE.get(major, 0.0)
    if major > 0 and not match["pitch"] and not pitch:
        raise ThreadError(
            f"M{match['dia']} has no pitch in the coarse series",
            f'write its pitch, such as "M{match["dia"]}x1.5"',
        )
    lead = float(match["lead"]) if match["lead"] else pitch
    if not 0 < pitch < major:
        raise _unread(designation)
    starts = round(lead / pitch)
    if starts < 1 or abs(starts * pitch - lead) > _CLOSE:
        raise ThreadError(
            f"the lead {lead:g} of {designation} is no whole number of its pitch {pitch:g}",
            'write the lead after Ph and the pitch after P, such as "M20xPh5P2.5"',
        )
    grade = match["class"] or ""
    inside = grade[-1].isupper() if grade else None
    return ThreadSize(designation, "M", major, pitch, starts, grade, inside)


def _unified(designation: str, match: re.Match[str]) -> tuple[ThreadSize, ...]:
    per_inch, series = float(match["per_inch"]), match["series"] or ""
    sizes = [size for size in _inches(match) if per_inch > 0 and size * per_inch > 1]
    if not sizes:
        raise _unread(designation)
    # UNRC is UNC with a rounded root
    rows = UNIFIED.get(series.replace("UNR", "UN"), {})
    told = [size for size in sizes if size not in rows or rows[size] == per_inch]
    if not told:
        right = " or ".join(f"{rows[size]:g}" for size in sizes)
        raise ThreadError(
            f"{designation.partition('-' + match['per_inch'])[0]} {series} has {right} threads per "
            f"inch, not {per_inch:g}",
            f'write {right}, or "UNS" for a pitch of your own',
        )
    listed = [size for size in told if any(row.get(size) == per_inch for row in UNIFIED.values())]
    grade = match["class"] or ""
    inside = grade[-1] == "B" if grade else None
    return tuple(
        ThreadSize(
            designation,
            series,
            size * MM_PER_INCH,
            MM_PER_INCH / per_inch,
            grade=grade,
            inside=inside,
        )
        for size in dict.fromkeys((*listed, *told))
    )


def _inches(match: re.Match[str]) -> tuple[float, ...]:
    """The nominal diameters that may be meant, in inches."""
    if match["gauge"]:
        gauge = int(match["gauge"])
        return (_of_gauge(gauge),) if gauge <= _MOST_GAUGE else ()
    if match["part"]:
        return (int(match["whole"] or 0) + float(Fraction(match["part"])),)
    size = match["dia"]
    if size.isdigit() and int(size) <= _MOST_GAUGE:
        return float(size), _of_gauge(int(size))
    return (float(size),)
