"""What the dialect of a lathe can't say."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Literal

from jawcam.motion.moves import (
    ArcFeed,
    Drill,
    FeedPer,
    LineFeed,
    Motion,
    Point3,
    Rapid,
    Spindle,
    SurfaceSpeed,
    ThreadCut,
    ToolChange,
)
from jawcam.motion.passes import ArcLimits
from jawcam.post.lathe_tables import LatheDialect
from jawcam.post.refuse_words import Refusal, arc, per_minute, point, turning, word
from jawcam.units import Units

__all__ = ["LatheJudge", "no_lathe", "unboxed"]

_LEAD_OFF = 1e-4
"""The most that a lead may be off when it is written, as a share of it: 0.01 mm in a thread of
100 mm; common practice, no source."""


def no_lathe(motion: Motion) -> Iterator[Refusal]:
    """A motion of a mill."""
    if isinstance(motion, Drill):
        what = "this post is a lathe's and has no cycle for a hole"
        yield what, "write the hole out along the axis, or choose the post of a mill"
    if isinstance(motion, Rapid | LineFeed | ArcFeed | ThreadCut) and motion.to[2] != 0:
        what = "this post is a lathe's and has no third axis"
        yield what, "plan in Z and X alone, or choose the post of a mill"


def unboxed(start: Point3 | None, motion: Motion, dialect: LatheDialect) -> Iterator[Refusal]:
    """A pass of a thread that didn't go into a cycle, where there is no other word for one."""
    thread = dialect.thread
    if thread.word or not isinstance(motion, ThreadCut):
        return
    if start is not None and start[1] != motion.to[1] and not thread.cycle_taper:
        what = "a tapered pass of a thread, and the cycle of this post has no word for its taper"
    else:
        what = "a pass of a thread that the cycle of this post can't say: one from where the tool "
        what += "stands straight across, along, straight out and back"
    yield what, "use a post that has a word for a pass by itself, thread.word"


class LatheJudge:
    """Judges the motions of a lathe's program in their order.

    feed_by: what the feeds count by; surface: constant surface speed is in force.
    """

    def __init__(self, dialect: LatheDialect, units: Units, limits: ArcLimits) -> None:
        self._dialect, self._units, self._limits = dialect, units, limits
        self._feed_by: Literal["turn", "minute"] = "turn"
        self._surface = False

    def refused(self, start: Point3 | None, motion: Motion) -> Iterator[Refusal]:
        """All that can't be said of one motion from `start`, given those before it."""
        dialect, units = self._dialect, self._units
        if isinstance(motion, Rapid | LineFeed | ArcFeed | ThreadCut):
            yield from point(motion.to, dialect, units)
            yield from self._beyond_home(motion.to)
        if isinstance(motion, LineFeed | ArcFeed):
            yield from self._feed(motion.feed)
        if isinstance(motion, ArcFeed) and start is not None:
            yield from arc(start, motion, dialect, self._limits)
        yield from word(motion, dialect)
        match motion:
            case ToolChange():
                self._surface = False
                if not 0 <= motion.offset <= dialect.tools.largest:
                    what = f"tool offset {motion.offset} can't be written, the largest is "
                    yield what + str(dialect.tools.largest), "choose another offset"
            case Spindle(rpm):
                self._surface = False
                yield from self._too_fast(rpm, "speed")
            case SurfaceSpeed():
                self._surface = True
                yield from self._surface_speed(motion)
            case FeedPer(unit):
                self._feed_by = unit
            case ThreadCut():
                yield from self._thread(start, motion)

    def _beyond_home(self, to: Point3) -> Iterator[Refusal]:
        """The way to the tool-change position must lead away from the work."""
        tools, units = self._dialect.tools, self._units
        lines = (*tools.first, *tools.leave, *self._dialect.program.end)
        homes = zip(("x", "z"), tools.home.of(units), self._dialect.axes, strict=True)
        for name, home, axis in homes:
            place = units.from_mm(to[axis.index] * axis.factor)
            if place > home and any(f"{{home_{name}}}" in line for line in lines):
                what = f"the work goes beyond the tool-change position, {axis.letter} {home:g}"
                yield what, "set tools.home in the post further out, clear of all tools"

    def _feed(self, feed: float) -> Iterator[Refusal]:
        numbers, units = self._dialect.numbers, self._units
        if self._feed_by == "minute":
            if not self._dialect.feed.per_minute:
                yield "there is no word for feeds per minute", "plan feeds per turn"
            yield from per_minute(feed, self._dialect, units)
            return
        if not self._dialect.feed.per_turn:
            yield "there is no word for feeds per turn", "plan feeds per minute"
        if not round(units.from_mm(feed), numbers.turn_decimals.of(units)) > 0:
            yield f"a feed of {units.say(feed)}/turn would be written as 0", "raise the feed"

    def _too_fast(self, rpm: float, name: str) -> Iterator[Refusal]:
        largest = self._dialect.spindle.largest
        if not rpm <= largest:
            what = f"a {name} of {rpm:g} rpm is more than the largest of the post, {largest:g}"
            yield what, "lower it, or mend spindle.largest if the machine may turn faster"

    def _surface_speed(self, surface: SurfaceSpeed) -> Iterator[Refusal]:
        decimals = self._dialect.numbers.speed_decimals
        yield from turning(self._dialect, clockwise=surface.clockwise)
        if not self._dialect.spindle.surface:
            what = "there are no words for constant surface speed"
            yield what, "plan speeds in rpm, or use another post"
        if not round(surface.clamp, decimals) > 0:
            what = "constant surface speed without the highest rpm that the spindle may reach"
            yield what, "give the clamp"
        yield from self._too_fast(surface.clamp, "clamp")
        if not round(surface.speed, decimals) > 0:
            what = f"a surface speed of {surface.speed:g} m/min would be written as 0"
            yield what, "raise the speed"

    def _thread(self, start: Point3 | None, cut: ThreadCut) -> Iterator[Refusal]:
        units, thread = self._units, self._dialect.thread
        if not (thread.word or thread.form == "cycle"):
            yield "there is no word for a pass of a thread", "use another post"
        if self._surface:
            what = "a thread at constant surface speed, whose speed changes from pass to pass"
            yield what, "give a speed in rpm before it"
        decimals = self._dialect.numbers.lead_decimals.of(units)
        lead = units.from_mm(cut.lead)
        if not (lead > 0 and abs(round(lead, decimals) - lead) <= _LEAD_OFF * lead):
            what = f"a lead of {lead:.7g} {units.value} can't be written in {decimals} decimals"
            yield what, "write the program in the other unit, or use another post"
        step = 10.0 ** -self._dialect.numbers.decimals.of(units)
        if start is not None and abs(units.from_mm(start[0] - cut.to[0])) < step:
            yield "a pass of a thread that doesn't run along Z", "give it a length"
