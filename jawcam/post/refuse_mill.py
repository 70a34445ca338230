"""What the dialect of a mill can't say."""

from __future__ import annotations

import math
from collections.abc import Iterator

from jawcam.motion.arcs import is_helix
from jawcam.motion.holes import pecks
from jawcam.motion.moves import (
    ArcFeed,
    Compensate,
    Drill,
    FeedPer,
    LineFeed,
    Motion,
    Point3,
    Rapid,
    SurfaceSpeed,
    ThreadCut,
)
from jawcam.motion.passes import ArcLimits
from jawcam.post.cycles import template
from jawcam.post.mill_tables import MillDialect
from jawcam.post.refuse_words import Refusal, add, arc, per_minute, point, seconds, word
from jawcam.units import Units

__all__ = ["no_mill", "on_mill", "too_short"]

_MOST_PECKS = 9999


def no_mill(motion: Motion, dialect: MillDialect, units: Units) -> Iterator[Refusal]:
    """A motion of a lathe, or pecks too small to be written, or to be written out."""
    mend = "choose the post of a lathe"
    match motion:
        case SurfaceSpeed():
            yield "this post is a mill's and has no constant surface speed", mend
        case FeedPer(unit):
            yield f"this post is a mill's: its feeds don't count by the {unit} by choice", mend
        case ThreadCut():
            yield "this post is a mill's and cuts no threads with a single point", mend
        case Drill():
            yield from _pecked(motion, dialect, units)


def on_mill(
    start: Point3 | None, motion: Motion, dialect: MillDialect, units: Units, limits: ArcLimits
) -> Iterator[Refusal]:
    """All that can't be said of one motion from `start`."""
    if isinstance(motion, Rapid | LineFeed | ArcFeed):
        yield from point(motion.to, dialect, units)
    if isinstance(motion, LineFeed | ArcFeed | Drill):
        yield from per_minute(motion.feed, dialect, units)
    if isinstance(motion, ArcFeed) and start is not None:
        yield from arc(start, motion, dialect, limits)
        if dialect.arcs.centre == "absolute":
            yield from point((*motion.centre, 0.0), dialect, units)
        if is_helix(start, motion) and not dialect.arcs.helices:
            yield "an arc that rises or falls can't be written", add("helices_to_lines")
    if isinstance(motion, Drill):
        yield from _hole(motion, dialect, units)
    yield from word(motion, dialect)
    if isinstance(motion, Compensate):
        yield from _register(motion, dialect)


def too_short(
    start: Point3 | None, motion: Motion, dialect: MillDialect, units: Units
) -> Iterator[Refusal]:
    """A cut of the rounded motions that is shorter than the control takes and didn't merge."""
    if start is None or not isinstance(motion, LineFeed | ArcFeed):
        return
    least = dialect.moves.shortest.of(units)
    length = units.from_mm(math.dist(start, motion.to))
    if 0 < length < least - 1e-9:
        what = f"a cut shorter than the {least:g} {units.value} that can be written at least"
        yield what, "let the post merge it, moves.merge_chord, or lower moves.shortest"


def _register(compensate: Compensate, dialect: MillDialect) -> Iterator[Refusal]:
    largest = dialect.compensation.largest_register
    if compensate.side != "off" and not 0 <= compensate.register <= largest:
        what = f"offset register {compensate.register} can't be written, the largest is "
        yield what + str(largest), "choose another register"


def _hole(hole: Drill, dialect: MillDialect, units: Units) -> Iterator[Refusal]:
    for height in (hole.clear, hole.bottom):
        yield from point((*hole.at, height), dialect, units)
    if hole.dwell:
        yield from seconds(hole.dwell)
    if not template(hole, dialect.cycles):
        pecked = "pecked " if hole.peck is not None else ""
        dwelling = " with a dwell" if hole.dwell else ""
        what = f"there are no words for the cycle of a {pecked}hole{dwelling}"
        yield what, add("cycles_to_moves")


def _pecked(hole: Drill, dialect: MillDialect, units: Units) -> Iterator[Refusal]:
    if hole.peck is None:
        return
    decimals = dialect.numbers.decimals.of(units)
    if not round(units.from_mm(hole.peck), decimals) > 0:
        yield f"a peck of {units.say(hole.peck)} would be written as 0", "make it larger"
    elif (count := pecks(hole)) > _MOST_PECKS:
        yield f"a hole in {count} pecks: {_MOST_PECKS} is the most", "make them larger"
