"""Corners picked out: where the finishing cutter was too round for the pocket, a smaller one
follows the wall, from just before to just after what is left."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import replace
from functools import partial

import numpy as np

from jawcam.errors import FaultList
from jawcam.geometry.combine import intersection
from jawcam.geometry.narrow import Narrow, substantial, too_narrow
from jawcam.geometry.offset import shrink
from jawcam.geometry.shapes import Region
from jawcam.geometry.stretch import far_stretches
from jawcam.hold.cavity import blank_regions
from jawcam.mill.bite import CORNER, Cleared, bites
from jawcam.mill.fed import wall_feeds
from jawcam.mill.links import hop
from jawcam.mill.operation import Operation
from jawcam.mill.order import Stop
from jawcam.mill.rough import levels
from jawcam.mill.runs import BLEND, LEAST, Run, beside, by_place, in_the_clear, meets
from jawcam.mill.trail import Trail
from jawcam.mill.visits import visit_stops
from jawcam.mill.work import LevelWork, Work

__all__ = ["corner_used", "corner_words", "corners", "runs"]


def corners(work: Work) -> Iterator[Operation]:
    """What the finishing cutter left of each level's wall, for a smaller one.

    Raises InputError where the smaller one can't get at it from where the finishing one has been.
    """
    if work.corner.cutter.number == work.finish.cutter.number:
        return
    for level in work.levels:
        found = runs(level)
        if found:
            yield Operation("corners", work.corner, partial(_pick, level=level, found=found))


def corner_words(work: Work) -> tuple[str, ...]:
    """What the person should know of the smaller cutter, if there is one and it is used."""
    register = work.setup.finish.compensation
    if not corner_used(work) or register is None or not _picked(work):
        return ()
    number = work.corner.cutter.number
    told = (
        f"caution: tool {number} picks out the corners without compensation: what register "
        f"{register} widens or narrows the pocket by shows there as a step"
    )
    return (told,)


def corner_used(work: Work) -> bool:
    """Whether there is a smaller cutter for the corners and anything for it to do."""
    return work.corner is not work.finish and (bool(work.target.reliefs) or _picked(work))


def _picked(work: Work) -> bool:
    return next(corners(work), None) is not None


def runs(level: LevelWork) -> tuple[Run, ...]:
    """Where the smaller cutter goes at a level, the farthest from the wall first.

    One run along the wall does for most corners; where what is left is too wide for that, more of
    them lie inside, a stepover apart. Raises InputError with each place that has no way in.
    """
    left = _left(level)
    if not left:
        return ()
    work, radius = level.work, level.work.corner.dia / 2
    clear, faults = _clear_of(level), FaultList()
    cleared = [Cleared(level.finished, work.finish.dia / 2)]
    found: list[Run] = []
    margins = np.arange(radius, work.finish.dia / 2, work.corner.stepover).tolist()
    for margin in reversed(margins):
        been = []
        for region in shrink(level.pockets, margin, work.tolerance):
            some = _along(level, region, left, clear, cleared)
            if some is not None:
                found += some
                been.append(region)
            elif margin == radius or _needed(level, region):
                _no_way_in(level, region, faults)
        cleared.append(Cleared(tuple(been), radius))
    faults.raise_if_any()
    return tuple(found)


def _left(level: LevelWork) -> tuple[Narrow, ...]:
    """What the finishing cutter left of the blanks."""
    work = level.work
    rests = [rest.region for rest in too_narrow(level.pockets, work.finish.dia, work.tolerance)]
    blanks = blank_regions(work.target.blanks)
    return substantial(intersection(rests, blanks, work.tolerance), work.tolerance)


def _clear_of(level: LevelWork) -> tuple[Region, ...]:
    """Where the smaller cutter touches nothing that the finishing one left, nor the wall."""
    work = level.work
    radii = work.finish.dia / 2, work.corner.dia / 2
    return in_the_clear(level.finished, *radii, work.tolerance)


def _along(
    level: LevelWork,
    region: Region,
    left: Sequence[Narrow],
    clear: tuple[Region, ...],
    cleared: Sequence[Cleared],
) -> list[Run] | None:
    """The runs along the border of where the smaller cutter's centre may be; None if there is no
    way in to one of them."""
    finish, radius = cleared[0], level.work.corner.dia / 2
    far = finish.radius - radius + LEAST
    found = []
    for outline in region.paths:
        for path in far_stretches(outline, finish.centre, far, BLEND):
            if not meets(path, [one.region for one in left], radius):
                continue
            down, up = beside(path.start, clear, (region,)), beside(path.end, clear, (region,))
            if down is None or up is None:
                return None
            found.append(Run(down, path, up, tuple(bites(path, radius, cleared))))
    return found


def _needed(level: LevelWork, region: Region) -> bool:
    """Whether anything inside is out of reach for the run outside of it."""
    corner = level.work.corner
    return bool(shrink([region], corner.dia / 2 - corner.stepover, level.work.tolerance))


def _no_way_in(level: LevelWork, region: Region, faults: FaultList) -> None:
    """Note each place left that the cutter would cut on its way round a region."""
    work, say = level.work, level.work.job.units.say
    for one in too_narrow(level.pockets, work.finish.dia, work.tolerance):
        place = replace(work.place, at=work.job.units.point(*one.at))
        known = any(fault.place == place for fault in faults.faults)
        if known or not meets(region.outer, [one.region], work.corner.dia / 2):
            continue
        faults.add(
            f"the pocket is only {say(one.size)} wide here, too narrow for tool "
            f"{work.finish.cutter.number}, {say(work.finish.dia)}, which is to finish it, and from "
            f"where that gets to, tool {work.corner.cutter.number} has no way in",
            place,
            f"finish with an end mill of less than {say(one.size)}",
        )


def _pick(trail: Trail, level: LevelWork, found: Sequence[Run]) -> None:
    """The runs of each place from the inside out, from place to place by a short way."""
    stops, clear = [], _clear_of(level)
    for group in by_place(found, level.work.corner.dia):
        cut = partial(_pick_out, level=level, found=group, clear=clear)
        stops.append((Stop(group[0].down, group[-1].up), cut))
    visit_stops(trail, stops)


def _pick_out(
    trail: Trail, level: LevelWork, found: Sequence[Run], clear: tuple[Region, ...]
) -> None:
    work, corner = level.work, level.work.corner
    usual = max(work.setup.rough.leave, 0.1)
    pace = corner.wall_pace(work.setup.rough.leave)
    feed = min(pace.feed, work.setup.finish.feed or math.inf)
    slow = min(pace.slot_feed, feed)
    pace = replace(pace, feed=feed, slot_feed=slow)
    for run in found:
        feeds = wall_feeds(run.path, run.widths, pace)
        for z in _heights(level, light=max(run.widths) <= CORNER * usual):
            hop(trail, run.down, max(z, level.floor), clear, work.air)
            trail.feed(*run.down, z, corner.plunge_feed)
            trail.feed(*run.path.start, z, slow)
            trail.trace(run.path, z, feeds)
            trail.feed(*run.up, z, feed)


def _heights(level: LevelWork, *, light: bool) -> list[float]:
    """The Z of each cut down to a level's floor, and where the groove runs along the wall, to its
    floor too: it is as wide as the finishing cutter, so that all that was left lies in it."""
    work = level.work
    heights = levels(level.floor, work.corner.stepdown, level.top)
    heights = heights[-1:] if light else heights
    groove = work.target.groove
    if groove is None or level is not work.levels[-1]:
        return heights
    return [*heights, *levels(level.floor - groove.depth, work.corner.stepdown, level.floor)]
