"""The rest of the roughing: what a large cutter left, for the smaller one that can reach it."""

from __future__ import annotations

from jawcam.geometry.combine import intersection, union
from jawcam.geometry.narrow import too_narrow
from jawcam.geometry.offset import grow, shrink
from jawcam.geometry.rings import Ring, rings
from jawcam.mill.work import Work

__all__ = ["rest_pockets"]

REACH = 2.2
"""Finishing cutter radii round a place left by roughing: a cutter that touches the place lies
within its diameter of it, and a little more."""


def rest_pockets(work: Work) -> tuple[Ring, ...]:
    """Rings for the finishing cutter round the places that roughing left, reaching far enough
    into what is cleared that it can take each of them whole."""
    if work.finish.dia >= work.rough.dia:
        return ()
    inner = shrink([work.cavity], work.setup.rough.leave, work.tolerance)
    left = too_narrow(inner, work.rough.dia, work.tolerance)
    radius = work.finish.dia / 2
    near = [grow([place.region], REACH * radius, work.tolerance) for place in left]
    around = union([region for regions in near for region in regions], work.tolerance)
    pockets = intersection(around, inner, work.tolerance)
    return rings(pockets, radius, work.finish.stepover, work.tolerance)
