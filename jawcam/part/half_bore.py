"""The bore that a job's table tells beside a half profile that was drawn: it must stay inside."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from jawcam.errors import FaultList, Place
from jawcam.geometry.combine import difference
from jawcam.geometry.shapes import Line, Path, Point, Region, Segment, polygon
from jawcam.part.piece import Piece
from jawcam.part.table import stretches
from jawcam.tolerance import Tolerance
from jawcam.units import Units

__all__ = ["check_bore"]

_NEAR = 1e-6  # mm; what arithmetic leaves between lengths that are meant to be the same
_WALL = 0.001  # mm; the least between a bore and the outside


def check_bore(
    profile: Sequence[Segment],
    bore: Sequence[Piece],
    *,
    units: Units,
    place: Callable[[str], Place],
    tolerance: Tolerance,
) -> None:
    """Raise InputError for a bore that is too long for the part or breaks out of it.

    profile: from the rim of end A to that of end B as points (along, radius) in mm; place: makes
    a place from ``bore`` or, for the second stretch, ``bore[2]``.
    """
    rows, faults, end = stretches(bore), FaultList(), profile[-1].end[0]
    if not rows:
        return
    if rows[-1].end > end + _NEAR:
        what = f"the bore is {units.say(rows[-1].end)} long, and the part only {units.say(end)}"
        faults.add(what, place("bore"), "make it shorter")
        faults.raise_if_any()
    body = _body(profile, end)
    for row in rows:
        corners: list[Point] = [
            (row.begin, 0.0),
            (min(row.end, end), 0.0),
            (min(row.end, end), row.last + _WALL),
            (row.begin, row.first + _WALL),
        ]
        if difference([Region(polygon(corners))], [body], tolerance):
            where = place(f"bore[{row.number}]")
            faults.add("the bore is as wide as the part is there", where, "make it smaller")
    faults.raise_if_any()


def _body(profile: Sequence[Segment], end: float) -> Region:
    """What lies between a half profile and the axis."""
    first, last = profile[0].start, profile[-1].end
    down = (Line(last, (end, 0.0)), Line((end, 0.0), (0.0, 0.0)), Line((0.0, 0.0), first))
    around = Path((*profile, *(one for one in down if one.start != one.end)))
    return Region(around if around.area > 0 else around.reversed())
