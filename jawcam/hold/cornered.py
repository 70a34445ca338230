"""Corners level by level: what a round cutter leaves in each, and the pockets as they are cut."""

from __future__ import annotations

from collections.abc import Sequence

from jawcam.errors import FaultList, InputError
from jawcam.geometry.shapes import Region
from jawcam.hold.cavity import CutLevel, blank_regions
from jawcam.hold.corners import Corners, corners_of, pocket_as_cut
from jawcam.hold.target import Hole, Relief
from jawcam.job.model import Job, Setup
from jawcam.job.places import place_in_setup
from jawcam.tolerance import Tolerance
from jawcam.tools.choose import numbered
from jawcam.tools.cutter import Cutter

__all__ = ["corners_by_level", "levels_as_cut"]


def corners_by_level(
    job: Job,
    setup: Setup,
    levels: Sequence[CutLevel],
    cutter: Cutter,
    tolerance: Tolerance,
    faults: FaultList,
) -> Corners:
    """What the cutter leaves in all the levels' corners, and what is done about it. cutter: the
    smallest that gets at them.

    What is below passes through a level on its way down, so its corners count there too. What
    can't be done is noted in `faults`.
    """
    drill, where = None, place_in_setup(job, setup)
    if setup.corners.relief == "drilled" and setup.corners.tool is not None:
        at = place_in_setup(job, setup, "corners.tool")
        drill = numbered(job.tools, setup.corners.tool, at, kinds=("drill",))
    found: list[Corners] = []
    for number, level in enumerate(levels):
        outlines = tuple(dict.fromkeys(p for one in levels[number:] for p in one.outlines))
        try:
            corners = corners_of(
                outlines,
                level.pockets,
                blank_regions(setup.jaws),
                cutter.dia,
                tolerance,
                style=setup.corners,
                drill=drill,
                floor=level.floor,
                units=job.units,
                place=where,
            )
            found.append(corners)
        except InputError as error:
            faults.faults.extend(f for f in error.faults if f not in faults.faults)
    return Corners(
        _deepest_reliefs([relief for one in found for relief in one.reliefs]),
        _deepest_holes([hole for one in found for hole in one.drilled]),
        tuple(spot for one in found for spot in one.unreached),
    )


def levels_as_cut(
    levels: Sequence[CutLevel], corners: Corners, cutter: Cutter, tolerance: Tolerance
) -> tuple[tuple[Region, ...], ...]:
    """Each level's pockets as they will be, the reliefs of deeper levels included. cutter: the
    smallest that gets at their corners."""
    return tuple(
        pocket_as_cut(
            level.pockets,
            Corners(
                tuple(relief for relief in corners.reliefs if relief.floor <= level.floor),
                tuple(hole for hole in corners.drilled if hole.floor <= level.floor),
                (),
            ),
            cutter.dia,
            tolerance,
        )
        for level in levels
    )


def _deepest_reliefs(reliefs: Sequence[Relief]) -> tuple[Relief, ...]:
    """Of those in one corner, for several levels, the deepest: it does for all."""
    best: dict[tuple[float, float], Relief] = {}
    for relief in sorted(reliefs, key=lambda relief: relief.floor):
        x, y = relief.corner
        best.setdefault((round(x, 3), round(y, 3)), relief)
    return tuple(relief for relief in reliefs if relief in best.values())


def _deepest_holes(holes: Sequence[Hole]) -> tuple[Hole, ...]:
    """The same of holes."""
    best: dict[tuple[float, float], Hole] = {}
    for hole in sorted(holes, key=lambda hole: hole.floor):
        best.setdefault((round(hole.x, 3), round(hole.y, 3)), hole)
    return tuple(hole for hole in holes if hole in best.values())
