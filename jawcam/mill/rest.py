"""The rest of the roughing: what a large cutter left, for the smaller one that can reach it."""

from __future__ import annotations

from jawcam.geometry.combine import intersection, union
from jawcam.geometry.hull import hull
from jawcam.geometry.narrow import too_narrow
from jawcam.geometry.offset import grow, shrink
from jawcam.geometry.rings import Ring, rings
from jawcam.mill.work import Work

__all__ = ["rest_pockets"]

REACH = 2.2
"""Finishing cutter radii round a place left by roughing: a cutter that touches the place lies
within its diameter of it, and a little more."""

SMALL = 0.25
"""Finishing cutter radii: a place where no larger disc fits is left to the wall pass."""


def rest_pockets(work: Work) -> tuple[Ring, ...]:
    """Rings for the finishing cutter round the places that roughing left, reaching far enough
    into what is cleared that it can take each of them whole.

    A small place right at the wall is none: the wall pass takes it, fed as its bite allows.
    """
    if work.finish.dia >= work.rough.dia:
        return ()
    radius = work.finish.dia / 2
    inner = shrink([work.cavity], work.setup.rough.leave, work.tolerance)
    beyond = shrink([work.cavity], work.finish.dia - radius * SMALL, work.tolerance)
    left = [
        place.region
        for place in too_narrow(inner, work.rough.dia, work.tolerance)
        if place.size > SMALL * radius or intersection([place.region], beyond, work.tolerance)
    ]
    hulls = [hull(place.outer, SMALL * radius / 4) for place in left]
    near = [grow([place], REACH * radius, work.tolerance) for place in hulls]
    around = union([region for regions in near for region in regions], work.tolerance)
    pockets = intersection(around, inner, work.tolerance)
    return rings(pockets, radius, work.finish.stepover, work.tolerance)
