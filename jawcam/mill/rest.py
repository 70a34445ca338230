"""The rest of the roughing: what a large cutter left, for the smaller one that can reach it."""

from __future__ import annotations

from collections.abc import Sequence

from jawcam.geometry.combine import intersection, union
from jawcam.geometry.hull import hull
from jawcam.geometry.narrow import too_narrow
from jawcam.geometry.offset import grow, shrink
from jawcam.geometry.rings import Ring, rings
from jawcam.geometry.shapes import Region
from jawcam.tolerance import Tolerance

__all__ = ["rest_pockets"]

REACH = 2.2
"""Finishing cutter radii round a place left by roughing: a cutter that touches the place lies
within its diameter of it, and a little more."""

SMALL = 0.25
"""Finishing cutter radii: a place where no larger disc fits is left to the wall pass."""


def rest_pockets(
    pockets: Sequence[Region],
    leave: float,
    rough_dia: float,
    dia: float,
    stepover: float,
    tolerance: Tolerance,
    skipped: Sequence[Region] = (),
) -> tuple[Ring, ...]:
    """Rings for a finishing cutter of `dia` mm round the places that one of `rough_dia` left,
    reaching far enough into what is cleared that it can take each of them whole.

    A small place right at the wall is none: the floor and wall passes take it, fed as its bite
    allows. leave: the stock on the wall, in mm; skipped: where the larger cutter's centre had room
    but no way down.
    """
    if dia >= rough_dia:
        return ()
    radius = dia / 2
    inner = shrink(pockets, leave, tolerance)
    beyond = shrink(pockets, dia - radius * SMALL, tolerance)
    left = [
        place.region
        for place in too_narrow(inner, rough_dia, tolerance)
        if place.size > SMALL * radius or intersection([place.region], beyond, tolerance)
    ]
    left += grow(skipped, rough_dia / 2, tolerance)
    hulls = [hull(place.outer, SMALL * radius / 4) for place in left]
    near = [grow([place], REACH * radius, tolerance) for place in hulls]
    around = union([region for regions in near for region in regions], tolerance)
    rested = intersection(around, inner, tolerance)
    return rings(rested, radius, stepover, tolerance)
