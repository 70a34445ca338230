"""The order of work for a pocket in soft jaws: a target in, neutral motions out."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from jawcam.mill.chosen import Chosen
from jawcam.mill.compensation import largest_register
from jawcam.mill.head import head
from jawcam.mill.relief import relieve_corners
from jawcam.mill.rough import Clearing, clear_level, levels
from jawcam.mill.trail import Trail
from jawcam.mill.wall import Wall, finish_wall
from jawcam.mill.work import Work
from jawcam.motion.moves import Coolant, End, Motion, Remark, Spindle, ToolChange, WorkOffset

__all__ = ["PASSES", "plan"]


def plan(work: Work) -> tuple[Motion, ...]:
    """The motions for one setup, in jaw coordinates, each tool loaded once.

    Raises InputError when a cutter finds no way down or no room for what was asked.
    """
    trail = Trail()
    chosen = (work.rough, work.finish)
    trail.add(head(work.setup, work.target, chosen, largest_register(work.finished)))
    trail.add(WorkOffset(work.target.work_offset))
    loaded = None
    for name, which, cut in PASSES:
        one: Chosen = getattr(work, which)
        part = Trail()
        part.at = trail.at if loaded == one.cutter.number else None
        cut(part, work)
        if not part.motions:
            continue
        if loaded != one.cutter.number:
            _load(trail, work, one)
            loaded = one.cutter.number
        trail.add(Remark(name), *part.motions)
        trail.at = part.at
    trail.rapid(*trail.plan, work.target.clearance)
    trail.add(Coolant("off"), Spindle(0), End())
    return tuple(trail.motions)


def _load(trail: Trail, work: Work, chosen: Chosen) -> None:
    if trail.at is not None:
        trail.rapid(*trail.plan, work.target.clearance)
        trail.add(Coolant("off"), Spindle(0))
    trail.add(
        ToolChange(chosen.cutter.number, chosen.describe(work.target.units)),
        Spindle(chosen.rpm),
        Coolant(work.setup.coolant),
    )


def _rough(trail: Trail, work: Work) -> None:
    """Down to the rough floor, level by level, leaving stock on the walls."""
    clearing = work.clearing(work.rough, work.rims(work.rough))
    _clear_levels(trail, clearing, work.rough_floor, work.rough.stepdown)


def _rest(trail: Trail, work: Work) -> None:
    """What the roughing cutter could not reach and the smaller finishing cutter can."""
    clearing = work.clearing(work.finish, work.rest, (work.roughed,))
    _clear_levels(trail, clearing, work.rough_floor, work.finish.stepdown)


def _clear_levels(trail: Trail, clearing: Clearing, floor: float, stepdown: float) -> None:
    top = 0.0
    for level in levels(floor, stepdown):
        clear_level(trail, clearing, top, level)
        top = level


def _floor(trail: Trail, work: Work) -> None:
    """The stock left on the floor, with the finishing cutter: a light cut at any width, but for
    corners that are cut there for the first time."""
    if work.rough_floor > work.target.floor:
        clearing = work.clearing(work.finish, work.rims(work.finish), work.cleared)
        light = replace(clearing, feed=work.setup.finish.feed or work.finish.feed)
        clear_level(trail, light, work.rough_floor, work.target.floor)


def _wall(trail: Trail, work: Work) -> None:
    """The wall."""
    finish, asked = work.finish, work.setup.finish
    wall = Wall(
        dia=finish.dia,
        leave=work.setup.rough.leave,
        stepover=finish.stepover,
        feed=asked.feed or finish.feed,
        slot_feed=finish.slot_feed,
        plunge_feed=finish.plunge_feed,
        ramp=work.setup.rough.ramp,
        heights=tuple(levels(work.target.floor, finish.stepdown)),
        air=work.air,
        spring=asked.spring,
        lead=asked.lead,
        compensation=asked.compensation,
        centre_cutting=finish.cutter.centre_cutting,
        cleared=work.cleared,
        free=work.free,
        place=work.place,
    )
    for region in work.finished:
        finish_wall(trail, wall, region)


def _reliefs(trail: Trail, work: Work) -> None:
    """Corners bored out so that the part seats."""
    relieve_corners(
        trail,
        work.target.reliefs,
        levels(work.target.floor, work.finish.stepdown),
        work.finish.slot_feed,
        work.free,
        work.finished,
        work.air,
    )


PASSES: tuple[tuple[str, str, Callable[[Trail, Work], None]], ...] = (
    ("roughing", "rough", _rough),
    ("rest of the roughing", "finish", _rest),
    ("floor", "finish", _floor),
    ("wall", "finish", _wall),
    ("corner relief", "finish", _reliefs),
)
"""In order of work: what the program calls the pass, whose cutter it takes, and what cuts it."""
