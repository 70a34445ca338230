"""Tapered pipe threads by their designation: ISO 7-1 (R and Rc) and ASME B1.20.1 (NPT).

Both taper by 1 in 16 on the diameter, have their flanks square to the axis and their pitch along
it, and are told by the plane where a gauge stops. All in mm and degrees. Both tables are written
down from memory; the tests hold them against the standards' own formulas and against each other.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass

from jawcam.part.threads import ThreadError
from jawcam.units import MM_PER_INCH

__all__ = ["TAPER", "PipeThread", "pipe_thread"]

TAPER = 1 / 16
"""How fast the diameter grows along the axis (ISO 7-1, ASME B1.20.1)."""

# ISO 7-1: nominal size -> threads per inch, major diameter at the gauge plane, gauge length, mm
_ISO = {
    "1/16": (28, 7.723, 4.0),
    "1/8": (28, 9.728, 4.0),
    "1/4": (19, 13.157, 6.0),
    "3/8": (19, 16.662, 6.4),
    "1/2": (14, 20.955, 8.2),
    "3/4": (14, 26.441, 9.5),
    "1": (11, 33.249, 10.4),
    "1 1/4": (11, 41.910, 12.7),
    "1 1/2": (11, 47.803, 12.7),
    "2": (11, 59.614, 15.9),
    "2 1/2": (11, 75.184, 17.5),
    "3": (11, 87.884, 20.6),
    "4": (11, 113.030, 25.4),
    "5": (11, 138.430, 28.6),
    "6": (11, 163.830, 28.6),
}

# ASME B1.20.1: nominal size -> threads per inch, outside diameter of the pipe and the gauge
# length L1, inches
_ASME = {
    "1/16": (27, 0.3125, 0.160),
    "1/8": (27, 0.405, 0.1615),
    "1/4": (18, 0.540, 0.2278),
    "3/8": (18, 0.675, 0.240),
    "1/2": (14, 0.840, 0.320),
    "3/4": (14, 1.050, 0.339),
    "1": (11.5, 1.315, 0.400),
    "1 1/4": (11.5, 1.660, 0.420),
    "1 1/2": (11.5, 1.900, 0.420),
    "2": (11.5, 2.375, 0.436),
    "2 1/2": (8, 2.875, 0.682),
    "3": (8, 3.500, 0.766),
    "4": (8, 4.500, 0.844),
    "6": (8, 6.625, 0.958),
}

_SIZE = r"(?P<size> (?:[1-9] [ -])? [0-9]+/[0-9]+ | [1-9] )"
_OF_ISO = re.compile(rf"(?P<letters> Rc? ) [ ]? {_SIZE}", re.VERBOSE)
_OF_ASME = re.compile(rf"{_SIZE} (?: - (?P<per_inch> [0-9]+ (?:\.5)? ) )? [ ] NPT", re.VERBOSE)
_ISO_DEPTH = 0.640327
_ASME_DEPTH = 0.8


@dataclass(frozen=True)
class PipeThread:
    """A tapered pipe thread, in mm and degrees.

    major: the diameter across the crests of the outside thread in the gauge plane; gauge_length:
    from its small end to that plane, which is an inside thread's mouth; depth: from crest to root
    on radius, square to the axis; flanks: the angle between them; inside: what the letters tell,
    None where they don't.
    """

    designation: str
    major: float
    pitch: float
    depth: float
    flanks: float
    gauge_length: float
    inside: bool | None

    def crests(self, length: float, *, inside: bool) -> tuple[float, float]:
        """The diameters across the crests at the small and at the large end of so long a thread,
        an outside one from its small end on, an inside one from its mouth in."""
        if inside:
            mouth = self.major - 2 * self.depth
            return mouth - TAPER * length, mouth
        small = self.major - TAPER * self.gauge_length
        return small, small + TAPER * length


def pipe_thread(designation: str) -> PipeThread | None:
    """Read ``R 1/2``, ``Rc 1 1/4`` (ISO 7-1) or ``1/2-14 NPT``, ``1/2 NPT`` (ASME B1.20.1); None
    for what has none of these forms. Raises ThreadError for a size that the tables lack."""
    if match := _OF_ISO.fullmatch(designation):
        per_inch, major, length = _row(_ISO, match, designation)
        pitch, inside = MM_PER_INCH / per_inch, match["letters"] == "Rc"
        return PipeThread(designation, major, pitch, _ISO_DEPTH * pitch, 55.0, length, inside)
    if match := _OF_ASME.fullmatch(designation):
        per_inch, outside, length = _row(_ASME, match, designation)
        if match["per_inch"] and float(match["per_inch"]) != per_inch:
            size = designation.partition("-" + match["per_inch"])[0]
            what = f"{size} NPT has {per_inch:g} threads per inch, not {match['per_inch']}"
            raise ThreadError(what, f'write "{size}-{per_inch:g} NPT"')
        pitch = 1 / per_inch
        # the pitch diameter at the small end, E0 = D - (0.05 D + 1.1) P, and in the gauge plane
        middle = outside - (0.05 * outside + 1.1) * pitch + TAPER * length
        major = (middle + _ASME_DEPTH * pitch) * MM_PER_INCH
        depth = _ASME_DEPTH * pitch * MM_PER_INCH
        rest = (60.0, length * MM_PER_INCH, None)
        return PipeThread(designation, major, pitch * MM_PER_INCH, depth, *rest)
    return None


def _row(
    table: Mapping[str, tuple[float, float, float]], match: re.Match[str], designation: str
) -> tuple[float, float, float]:
    size = match["size"].replace("-", " ")
    if size not in table:
        known = ", ".join(table)
        raise ThreadError(f"there is no pipe thread {designation}", f"the sizes are {known}")
    return table[size]
