"""What the roughing cutter left, cut by the finishing one before it finishes anything."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import partial

from jawcam.geometry.shapes import Path, Region
from jawcam.mill.bite import Cleared
from jawcam.mill.fed import cleared_blocks
from jawcam.mill.links import hop
from jawcam.mill.operation import Operation
from jawcam.mill.order import Stop
from jawcam.mill.rough import clear_down, levels
from jawcam.mill.runs import Run, in_the_clear
from jawcam.mill.trail import Trail
from jawcam.mill.visits import visit_stops
from jawcam.mill.work import LevelWork, Work

__all__ = ["resting"]


def resting(work: Work) -> Iterator[Operation]:
    """Only where the roughing cutter could not reach and the smaller one can: from what is cleared
    where that touches the place, else down by a helix or a ramp."""
    for level in work.roughed_together:
        if level.rest.groups or level.rest.rings:
            cut = partial(_rest, level=level)
            yield Operation(level.named("rest of the roughing"), work.finish, cut)


def _rest(trail: Trail, level: LevelWork) -> None:
    work, rest = level.work, level.rest
    floors = levels(level.rough_floor, work.finish.stepdown, level.stock_top)
    radii = level.roughed.radius, work.finish.dia / 2
    clear = in_the_clear(level.roughed.centre, *radii, work.tolerance)
    visit_stops(
        trail,
        [
            (
                Stop(group[0].down, group[-1].up),
                partial(_pick_out, level=level, group=group, clear=clear, floors=floors),
            )
            for group in rest.groups
        ],
    )
    clearing = level.clearing(work.finish, rest.rings, (level.roughed,))
    clear_down(trail, clearing, level.stock_top, floors)


def _pick_out(
    trail: Trail,
    level: LevelWork,
    group: Sequence[Run],
    clear: tuple[Region, ...],
    floors: Sequence[float],
) -> None:
    """A place down to its floor, from the inside out at each height."""
    work, finish = level.work, level.work.finish
    fed = _fed(level, group)
    for z in floors:
        for run, (blocks, feeds) in zip(group, fed, strict=True):
            hop(trail, run.down, z, clear, work.air)
            trail.feed(*run.down, z, finish.plunge_feed)
            trail.feed(*run.path.start, z, finish.slot_feed)
            trail.trace(blocks, z, feeds)
            trail.feed(*run.up, z, finish.feed)


def _fed(level: LevelWork, group: Sequence[Run]) -> list[tuple[Path, list[float]]]:
    """The blocks of each run and their feeds, by what is cleared before it."""
    finish, been = level.work.finish, [level.roughed]
    found = []
    for run in group:
        found.append(cleared_blocks(run.path, been, finish.clearing_pace))
        been.append(Cleared((), finish.dia / 2, (run.path,)))
    return found
