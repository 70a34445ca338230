"""A cutter's pace and depth of cut brought within what spindle and cutter bear.

Feed comes first; where the least feed is still too much, the depth of cut goes; where the job has
given either, it stands, and the person is told.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import partial

from jawcam.tools.limits import Limits
from jawcam.tools.pace import LEAST, Pace
from jawcam.tools.reasons import feed_words
from jawcam.units import Units

__all__ = ["SHALLOWEST", "Settled", "settle", "too_much"]

SHALLOWEST = 0.05
"""Of the diameter: limits lower the depth of cut no further (common practice, no source)."""


@dataclass(frozen=True)
class Settled:
    """A pace whose feeds keep within its limits at its depth (mm). told: for each width what holds
    its feed, in words, "" if nothing; cautions: what it exceeds all the same."""

    pace: Pace
    told: tuple[str, ...]
    cautions: tuple[str, ...] = ()


def settle(
    pace: Pace,
    widths: Sequence[float],
    units: Units,
    *,
    own_feed: bool = False,
    own_depth: bool = False,
    shallowest: float | None = None,
    what: str = "feed",
) -> Settled:
    """Bring a pace within its limits for bites of each of `widths` mm.

    own_feed, own_depth: whether the job gives them, so that they stand; shallowest: how deep a cut
    is at least (mm), and where that is too much still, the depth isn't touched; None: `SHALLOWEST`,
    to which it is lowered even if that doesn't do. what: the first width's cut, in words.
    """
    limits, free = pace.limits, tuple("" for _ in widths)
    names = (what, *("full width" for _ in widths[1:]))
    if limits is None:
        return Settled(pace, free)
    if own_feed:
        own = replace(pace, limits=None)
        return Settled(own, free, _cautions(own, limits, widths, names, units))
    if all(pace.bears(width) for width in widths):
        return Settled(pace, tuple(map(partial(_held, pace, limits, units), names, widths)))
    slow = _slowed(pace)
    told = f"{what} held to {feed_words(slow.asked(widths[0]), units)}"
    tight = min(widths, key=lambda width: limits.most(width, slow.depth) / slow.asked(width))
    depth = slow.depth if own_depth else _depth(slow, limits, widths, shallowest)
    if depth < slow.depth:
        slow = replace(slow, depth=depth)
        told += f" and no more than {units.say(slow.depth)} deep at a time"
    within = all(limits.most(width, slow.depth) >= slow.asked(width) for width in widths)
    told += f": {_reason(limits, tight, pace.depth, units)}" if within else ", the least"
    return Settled(slow, (told, *free[1:]), _cautions(slow, limits, widths, names, units))


def too_much(limits: Limits, feed: float, width: float, depth: float, units: Units) -> str:
    """What a cut at a feed asks of spindle or cutter that they don't bear; "" if nothing."""
    said = []
    if feed > limits.most_by_power(width, depth) * (1 + 1e-9):
        power, torque = (f(feed, width, depth) for f in (limits.power_of, limits.torque_of))
        said.append(f"{power:.2g} kW and {torque:.2g} N m at the cutter, more than {limits.given}")
    if feed > limits.most_by_bend(width, depth) * (1 + 1e-9):
        bend, most = limits.bend_of(feed, width, depth), limits.bend or 0.0
        said.append(f"{_bend_words(bend, limits, units)}, more than {units.say(round(most, 4))}")
    return " and ".join(said)


def _slowed(pace: Pace) -> Pace:
    """At the least share of every feed, whatever the bite."""
    feed, slot_feed, most = (LEAST * f for f in (pace.feed, pace.slot_feed, pace.most))
    return replace(pace, feed=feed, slot_feed=slot_feed, most=most, limits=None)


def _depth(slow: Pace, limits: Limits, widths: Sequence[float], shallowest: float | None) -> float:
    """The greatest depth up to its own at which a pace bears all widths, by halving."""

    def bears(depth: float) -> bool:
        return all(limits.most(width, depth) >= slow.asked(width) for width in widths)

    least = SHALLOWEST * slow.dia if shallowest is None else shallowest
    low, high = min(least, slow.depth), slow.depth
    if not bears(low) and shallowest is not None:
        return high
    for _ in range(40):
        depth = (low + high) / 2
        low, high = (depth, high) if bears(depth) else (low, depth)
    return low


def _cautions(
    pace: Pace, limits: Limits, widths: Sequence[float], names: Sequence[str], units: Units
) -> tuple[str, ...]:
    said = []
    for width, name in zip(widths, names, strict=True):
        feed = pace.asked(width)
        if over := too_much(limits, feed, width, pace.depth, units):
            bite = f"{units.say(width)} wide, {units.say(pace.depth)} deep"
            said.append(f"{name} {feed_words(feed, units)}, {bite}, comes to {over}")
    return tuple(said)


def _held(pace: Pace, limits: Limits, units: Units, name: str, width: float) -> str:
    """What holds a feed, in words."""
    feed = pace.at(width)
    if feed >= pace.asked(width):
        return ""
    said = _reason(limits, width, pace.depth, units)
    return f"{name} held to {feed_words(feed, units)}: {said}"


def _reason(limits: Limits, width: float, depth: float, units: Units) -> str:
    """Why a feed is held: what gives the least, or how far the cutter bends then."""
    if limits.most_by_power(width, depth) < limits.most_by_bend(width, depth):
        return limits.given
    return _bend_words(limits.bend or 0.0, limits, units)


def _bend_words(bend: float, limits: Limits, units: Units) -> str:
    return f"{units.say(round(bend, 4))} bend at {units.say(limits.stickout or 0)} stick-out"
