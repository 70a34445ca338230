"""What a dialect can't say. It must refuse: it never leaves out or guesses."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Iterator, Sequence

from jawcam.errors import FaultList, Place
from jawcam.motion.arcs import is_helix, moves_from, sweep
from jawcam.motion.holes import pecks
from jawcam.motion.moves import (
    ArcFeed,
    Compensate,
    Coolant,
    Drill,
    Dwell,
    LineFeed,
    Motion,
    Point3,
    Rapid,
    Spindle,
    ToolChange,
    WorkOffset,
)
from jawcam.motion.passes import ArcLimits
from jawcam.post.cycles import template
from jawcam.post.page import SECONDS_DECIMALS
from jawcam.post.tables import Dialect
from jawcam.units import Units

__all__ = ["peck_refusals", "refusals"]

_Refusal = tuple[str, str]  # what can't be said, and how to mend it
_MOST_PECKS = 9999


def peck_refusals(motions: Sequence[Motion], dialect: Dialect, units: Units) -> FaultList:
    """The pecks that are too small to be written, or to be written out."""
    return _collected(
        motions,
        dialect,
        units,
        lambda _, motion: _pecked(motion, dialect, units) if isinstance(motion, Drill) else (),
    )


def refusals(
    motions: Sequence[Motion], dialect: Dialect, units: Units, limits: ArcLimits
) -> FaultList:
    """All that `dialect` can't say of `motions` (mm, seen from the program's zero), each once,
    with the first place where it is."""
    return _collected(
        motions,
        dialect,
        units,
        lambda start, motion: _refused(start, motion, dialect, units, limits),
    )


def _collected(
    motions: Sequence[Motion],
    dialect: Dialect,
    units: Units,
    judge: Callable[[Point3 | None, Motion], Iterable[_Refusal]],
) -> FaultList:
    places: dict[_Refusal, list[Point3 | None]] = {}
    for start, motion in moves_from(motions):
        here = start
        if isinstance(motion, Rapid | LineFeed | ArcFeed):
            here = motion.to
        elif isinstance(motion, Drill):
            here = (*motion.at, motion.bottom)
        for refusal in judge(start, motion):
            places.setdefault(refusal, []).append(here)
    faults = FaultList()
    for (what, mend), points in places.items():
        at = "" if points[0] is None else units.point(*points[0])
        more = f" (and {len(points) - 1} more like it)" if len(points) > 1 else ""
        faults.add(f"{what}{more}", Place(dialect.name, at=at), mend)
    return faults


def _refused(
    start: Point3 | None, motion: Motion, dialect: Dialect, units: Units, limits: ArcLimits
) -> Iterator[_Refusal]:
    if isinstance(motion, Rapid | LineFeed | ArcFeed):
        yield from _point(motion.to, dialect, units)
    if isinstance(motion, LineFeed | ArcFeed | Drill):
        yield from _feed(motion.feed, dialect, units)
    if isinstance(motion, ArcFeed) and start is not None:
        yield from _arc(start, motion, dialect, limits)
    if isinstance(motion, Drill):
        yield from _hole(motion, dialect, units)
    yield from _word(motion, dialect)


def _word(motion: Motion, dialect: Dialect) -> Iterator[_Refusal]:
    match motion:
        case WorkOffset(number):
            yield from _offset(number, dialect)
        case ToolChange(number):
            if not 1 <= number <= dialect.tools.largest:
                what = f"tool number {number} can't be written, the largest is "
                yield what + str(dialect.tools.largest), "give the tool another number"
        case Spindle():
            yield from _spindle(motion, dialect)
        case Coolant(kind):
            if not getattr(dialect.coolant, kind):
                yield f"there is no word for coolant {kind!r}", "use another coolant or post"
        case Dwell(seconds):
            if not dialect.moves.dwell:
                yield "there is no word for a dwell", "drill without it, or use another post"
            yield from _seconds(seconds)
        case Compensate():
            yield from _compensation(motion, dialect)


def _offset(number: int, dialect: Dialect) -> Iterator[_Refusal]:
    words = dialect.work_offsets
    if not 1 <= number <= len(words):
        has = f"it has {len(words)}, {words[0]} to {words[-1]}" if words else "it has none"
        yield f"there is no work offset {number}: {has}", "choose another or spread the stations"


def _spindle(spindle: Spindle, dialect: Dialect) -> Iterator[_Refusal]:
    words = dialect.spindle
    word = words.off if spindle.rpm <= 0 else words.cw if spindle.clockwise else words.ccw
    if not word:
        way = "clockwise" if spindle.clockwise else "counter-clockwise"
        what = "a stop" if spindle.rpm <= 0 else f"a {way} start"
        yield f"there is no word for {what} of the spindle", "use another post"
    if spindle.rpm > 0 and round(spindle.rpm, dialect.numbers.speed_decimals) == 0:
        yield f"a speed of {spindle.rpm:g} rpm would be written as 0", "raise the speed"


def _compensation(compensate: Compensate, dialect: Dialect) -> Iterator[_Refusal]:
    words = dialect.compensation
    if not getattr(words, compensate.side):
        what = f"there are no words for cutter compensation {compensate.side}"
        yield what, "plan the finish pass without compensation, or use another post"
    if compensate.side != "off" and not 0 <= compensate.register <= words.largest_register:
        what = f"offset register {compensate.register} can't be written, the largest is "
        yield what + str(words.largest_register), "choose another register"


def _point(to: Point3, dialect: Dialect, units: Units) -> Iterator[_Refusal]:
    largest = dialect.numbers.largest.of(units)
    if any(not abs(units.from_mm(value)) <= largest for value in to):
        what = f"a coordinate is beyond the largest that can be written, {largest:g}"
        yield what, "put the zero nearer to the work"


def _feed(feed: float, dialect: Dialect, units: Units) -> Iterator[_Refusal]:
    decimals = dialect.numbers.feed_decimals.of(units)
    if not round(units.from_mm(feed), decimals) > 0:
        yield f"a feed of {units.say(feed)}/min would be written as 0", "raise the feed"


def _arc(start: Point3, arc: ArcFeed, dialect: Dialect, limits: ArcLimits) -> Iterator[_Refusal]:
    words, turn = dialect.arcs, sweep(start, arc)
    if not (words.ccw if arc.ccw else words.cw):
        yield "arcs can't be written", _add("arcs_to_lines")
    if turn == math.tau and not words.full_circles:
        yield "a full circle can't be written", _add("split_full_circles")
    elif limits.too_wide(start, arc):
        what = f"an arc of more than {words.largest_sweep:g} degrees can't be written"
        yield what, _add("split_arcs")
    if is_helix(start, arc) and not words.helices:
        yield "an arc that rises or falls can't be written", _add("helices_to_lines")
    if limits.too_large(start, arc):
        yield "an arc has too large a radius to be written", _add("large_arcs_to_lines")


def _hole(hole: Drill, dialect: Dialect, units: Units) -> Iterator[_Refusal]:
    for height in (hole.clear, hole.bottom):
        yield from _point((*hole.at, height), dialect, units)
    if hole.dwell:
        yield from _seconds(hole.dwell)
    if not template(hole, dialect.cycles):
        pecked = "pecked " if hole.peck is not None else ""
        dwelling = " with a dwell" if hole.dwell else ""
        what = f"there are no words for the cycle of a {pecked}hole{dwelling}"
        yield what, _add("cycles_to_moves")


def _pecked(hole: Drill, dialect: Dialect, units: Units) -> Iterator[_Refusal]:
    if hole.peck is None:
        return
    decimals = dialect.numbers.decimals.of(units)
    if not round(units.from_mm(hole.peck), decimals) > 0:
        yield f"a peck of {units.say(hole.peck)} would be written as 0", "make it larger"
    elif (count := pecks(hole)) > _MOST_PECKS:
        yield f"a hole in {count} pecks: {_MOST_PECKS} is the most", "make them larger"


def _seconds(seconds: float) -> Iterator[_Refusal]:
    if not round(seconds, SECONDS_DECIMALS) > 0:
        yield f"a dwell of {seconds:g} s would be written as 0", "make it longer, or leave it out"


def _add(name: str) -> str:
    return f"add {name!r} to the passes of the post"
