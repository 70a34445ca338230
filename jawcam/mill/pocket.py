"""The pocket level by level: roughed, and when the rest of that is done floored and walled.

All roughing comes first, from the top down; then each level's floor and wall, from the top down
too, so that nothing stands above where the cutter goes.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import replace
from functools import partial

from jawcam.geometry.rings import Ring
from jawcam.mill.bite import CORNER, Cleared
from jawcam.mill.entry import has_way_down
from jawcam.mill.operation import Operation
from jawcam.mill.rough import Clearing, clear_down, clear_level, is_covered, levels
from jawcam.mill.steady import SteadyRing, clear_steadily
from jawcam.mill.trail import Trail
from jawcam.mill.wall import Wall, finish_walls
from jawcam.mill.work import LevelWork, Work
from jawcam.tools.pace import Pace

__all__ = ["floors_and_walls", "roughing"]


def roughing(work: Work) -> Iterator[Operation]:
    """Down to each rough floor in stepdowns, leaving stock on the walls."""
    for level in work.roughed_together:
        clearing = level.clearing(work.rough, level.rough_rims)
        if clearing.rings:
            yield Operation(
                level.named("roughing"),
                work.rough,
                partial(
                    _steps,
                    clearing=clearing,
                    level=level,
                    stepdown=work.rough.stepdown,
                    steady=level.steadily,
                ),
            )


def floors_and_walls(work: Work) -> Iterator[Operation]:
    """The stock left on each floor and wall, the two of a level in the order asked for."""
    for level in work.levels:
        both = [Operation(level.named("wall"), work.finish, partial(_wall, level=level))]
        if level.floored:
            floor = Operation(level.named("floor"), work.finish, partial(_floor, level=level))
            both.insert(1 if level.wall_first else 0, floor)
        yield from both


def _steps(
    trail: Trail,
    clearing: Clearing,
    level: LevelWork,
    stepdown: float,
    *,
    steady: Sequence[SteadyRing] = (),
) -> None:
    top = level.stock_top
    floors = levels(level.rough_floor, stepdown, top)
    if steady:
        clear_steadily(trail, clearing, steady, top, floors)
    else:
        clear_down(trail, clearing, top, floors)


def _floor(trail: Trail, level: LevelWork) -> None:
    """With the finishing cutter: a light cut at any width, but for corners that are cut there for
    the first time. Beside a finished wall, where the floor is cut already, it keeps off that."""
    work, cleared = level.work, level.cleared
    rims = _off_the_wall(level) if level.wall_first else None
    if rims is None:
        rims = level.rims(work.finish, level.pockets)
    if level.wall_first:
        ways = tuple(path for region in level.finished for path in region.paths)
        cleared = (*cleared, Cleared((), work.finish.dia / 2, ways))
    clearing = level.clearing(work.finish, rims, cleared, level.deeper)
    feed = work.setup.finish.feed or work.finish.feed
    full = min(CORNER * clearing.stepover, clearing.dia)
    pace = Pace(clearing.dia, feed, clearing.slot_feed, full)
    light = replace(clearing, feed=feed, pace=pace)
    clear_level(trail, light, level.rough_floor if level.is_last else level.top, level.floor)


def _off_the_wall(level: LevelWork) -> tuple[Ring, ...] | None:
    """Rings for the floor that keep a stepover off the finished wall, but for spots that its own
    pass has cleared; None where there would be no way down to one."""
    finish = level.work.finish
    rims = level.rims(finish, level.pockets, finish.stepover)
    job = level.clearing(finish, rims)
    left = tuple(ring for ring in rims if not is_covered(job, ring))
    down = (has_way_down(ring.region, ring.middle, job) for ring in left)
    return left if all(down) else None


def _wall(trail: Trail, level: LevelWork) -> None:
    wall = _wall_of(level, levels(level.floor, level.work.finish.stepdown, level.top))
    finish_walls(trail, wall, level.finished)


def _wall_of(level: LevelWork, heights: Sequence[float]) -> Wall:
    """How a level's wall is finished, where need be at several heights."""
    work = level.work
    finish, asked = work.finish, work.setup.finish
    pace = finish.wall_pace(work.setup.rough.leave)
    return Wall(
        dia=finish.dia,
        leave=work.setup.rough.leave,
        stepover=finish.stepover,
        pace=replace(pace, feed=asked.feed) if asked.feed else pace,
        slot_feed=finish.slot_feed,
        plunge_feed=finish.plunge_feed,
        ramp=work.setup.rough.ramp,
        top=level.top,
        heights=tuple(heights),
        light=tuple(levels(level.floor, finish.wall_step or math.inf, level.top)),
        air=work.air,
        spring=asked.spring,
        lead=asked.lead,
        compensation=asked.compensation,
        centre_cutting=finish.cutter.centre_cutting,
        cleared=level.cleared,
        free=level.free if level.floored and not level.wall_first else level.emptied,
        place=work.place,
        standing=level.rough_floor if level.is_last and level.wall_first else None,
    )
