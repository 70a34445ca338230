"""What a dialect of any kind can't say: each refusal is what is wrong, and how to mend it."""

from __future__ import annotations

import math
from collections.abc import Iterator

from jawcam.motion.arcs import sweep
from jawcam.motion.moves import (
    ArcFeed,
    Compensate,
    Coolant,
    Dwell,
    Motion,
    Point3,
    Spindle,
    ToolChange,
    WorkOffset,
)
from jawcam.motion.passes import ArcLimits
from jawcam.motion.quadrants import in_one_quadrant
from jawcam.post.page import SECONDS_DECIMALS
from jawcam.post.tables import Dialect
from jawcam.units import Units

__all__ = ["Refusal", "add", "arc", "per_minute", "point", "seconds", "turning", "word"]

Refusal = tuple[str, str]


def word(motion: Motion, dialect: Dialect) -> Iterator[Refusal]:
    """A motion that has no word, or not with these numbers."""
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
        case Dwell():
            yield from _dwell(motion, dialect)
        case Compensate(side):
            if not getattr(dialect.compensation, side):
                what = f"there are no words for cutter compensation {side}"
                yield what, "plan the finish pass without compensation, or use another post"


def _offset(number: int, dialect: Dialect) -> Iterator[Refusal]:
    words = dialect.work_offsets
    if not 1 <= number <= len(words):
        has = f"it has {len(words)}, {words[0]} to {words[-1]}" if words else "it has none"
        yield f"there is no work offset {number}: {has}", "choose another or spread the stations"


def _spindle(spindle: Spindle, dialect: Dialect) -> Iterator[Refusal]:
    rpm = spindle.rpm
    yield from turning(dialect, clockwise=spindle.clockwise if rpm > 0 else None)
    written, digits = round(rpm, dialect.numbers.speed_decimals), dialect.numbers.speed_digits
    if rpm > 0 and written == 0:
        yield f"a speed of {rpm:g} rpm would be written as 0", "raise the speed"
    if written >= 10**digits:
        what = f"a speed of {rpm:g} rpm has more digits than can be written, {digits}"
        yield what, "lower the speed"


def _dwell(dwell: Dwell, dialect: Dialect) -> Iterator[Refusal]:
    if not dialect.moves.dwell:
        yield "there is no word for a dwell", "drill without it, or use another post"
    yield from seconds(dwell.seconds)


def turning(dialect: Dialect, *, clockwise: bool | None) -> Iterator[Refusal]:
    """A direction of the spindle, or None for its stop, that has no word."""
    words = dialect.spindle
    if not (words.off if clockwise is None else words.cw if clockwise else words.ccw):
        way = "clockwise" if clockwise else "counter-clockwise"
        what = "a stop" if clockwise is None else f"a {way} start"
        yield f"there is no word for {what} of the spindle", "use another post"


def point(to: Point3, dialect: Dialect, units: Units) -> Iterator[Refusal]:
    """A coordinate (mm) that is too large."""
    largest = dialect.numbers.largest.of(units)
    written = (value * factor for value, factor in zip(to, dialect.factors, strict=True))
    if any(not abs(units.from_mm(value)) <= largest for value in written):
        what = f"a coordinate is beyond the largest that can be written, {largest:g}"
        yield what, "put the zero nearer to the work"


def per_minute(feed: float, dialect: Dialect, units: Units) -> Iterator[Refusal]:
    """A feed in mm/min that is too small or too large."""
    numbers = dialect.numbers
    written = round(units.from_mm(feed), numbers.feed_decimals.of(units))
    if not written > 0:
        yield f"a feed of {units.say(feed)}/min would be written as 0", "raise the feed"
    if written >= 10 ** numbers.feed_digits.of(units):
        what = f"a feed of {units.say(feed)}/min has more digits than can be written, "
        yield what + str(numbers.feed_digits.of(units)), "lower the feed"


def arc(start: Point3, move: ArcFeed, dialect: Dialect, limits: ArcLimits) -> Iterator[Refusal]:
    """An arc that can't be written as one."""
    words, turn = dialect.arcs, sweep(start, move)
    if not (words.ccw if move.ccw else words.cw):
        yield "arcs can't be written", add("arcs_to_lines")
    if turn == math.tau and not words.full_circles:
        yield "a full circle can't be written", add("split_full_circles")
    elif limits.too_wide(start, move):
        what = f"an arc of more than {words.largest_sweep:g} degrees can't be written"
        yield what, add("split_arcs")
    if words.centre == "unsigned" and not in_one_quadrant(start, move):
        what = "an arc through more than one quadrant can't be written"
        yield what, add("split_at_quadrants")
    if limits.too_large(start, move):
        yield "an arc has too large a radius to be written", add("large_arcs_to_lines")


def seconds(time: float) -> Iterator[Refusal]:
    """A stay that is too short."""
    if not round(time, SECONDS_DECIMALS) > 0:
        yield f"a dwell of {time:g} s would be written as 0", "make it longer, or leave it out"


def add(name: str) -> str:
    """The mend that a rewrite is."""
    return f"add {name!r} to the passes of the post"
