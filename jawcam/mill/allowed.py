"""How far a cutter may bend beside a wall, what it cuts there, and how far a wall may be off."""

from __future__ import annotations

from jawcam.job.model import Setup
from jawcam.part.fits import zone

__all__ = ["BEND_SHARE", "LIGHT", "floor_left", "wall_foot", "wall_tolerance"]

BEND_SHARE = 0.5
"""Of the stock left on the wall, when roughing, and of the wall's tolerance, when finishing: how
far a cutter may bend (common practice, no source)."""

TOLERANCE = 0.02
"""mm that a wall may be off where the job asks for no more clearance than that (common practice, no
source)."""

LIGHT = 0.1
"""mm: a wall pass is never taken to have less to cut (common practice, no source)."""


def wall_tolerance(setup: Setup) -> float:
    """How far the wall may be off in mm: what the job asks for; where its fit is in letters, what
    keeps the pocket, cut to the middle of its limits, within them on both sides; else its
    clearance, and no less than `TOLERANCE`."""
    fit = setup.fit
    if setup.finish.tolerance is not None:
        return setup.finish.tolerance
    if not fit.letters or fit.size is None:
        return max(fit.grip, TOLERANCE)
    hole = zone(fit.size, fit.letters.split("/")[0])
    return (hole.upper - hole.lower) / 4


def floor_left(setup: Setup, wall: float) -> float:
    """How much of the floor (mm) still stands when a wall `wall` mm high is finished."""
    return min(setup.rough.leave_floor, wall / 2) if setup.finish.first == "wall" else 0.0


def wall_foot(setup: Setup, dia: float, wall: float) -> float:
    """What a cutter of `dia` mm takes of that floor all across, at the foot of the wall, as the
    width (mm) that comes to as much along all of the wall."""
    return dia * floor_left(setup, wall) / wall
