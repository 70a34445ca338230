"""How fast a cutter is fed for what it bites."""

from __future__ import annotations

from dataclasses import dataclass

from jawcam.tools.engagement import thinning
from jawcam.tools.limits import Limits

__all__ = ["LEAST", "Pace"]

LEAST = 0.3
"""Of the feed by the table: a cutter that is fed less rubs, so that limits lower it no further
(common practice, no source)."""


@dataclass(frozen=True)
class Pace:
    """mm and mm/min. feed: of a bite up to `full` wide; slot_feed: of one over the whole diameter,
    evenly less in between. thin: whether a bite of less than half the diameter is fed faster, so
    that its thickest chip stays the same, up to `thinning`'s bound. most: the machine's highest
    feed. limits: what to keep within in cuts of `depth`; None: nothing."""

    dia: float
    feed: float
    slot_feed: float
    full: float
    thin: bool = False
    most: float = float("inf")
    depth: float = 0.0
    limits: Limits | None = None

    def asked(self, width: float) -> float:
        """The feed for a bite, whatever it does to spindle and cutter."""
        if width <= self.full:
            raised = thinning(width, self.dia) if self.thin else 1.0
            return min(self.feed * raised, self.most)
        share = min((width - self.full) / max(self.dia - self.full, 1e-9), 1.0)
        return min(self.feed + (self.slot_feed - self.feed) * share, self.most)

    def at(self, width: float) -> float:
        """The feed for a bite within the limits, but never less than `LEAST` of the one asked; a
        wider bite never gets a higher one."""
        return self.within(self.asked(width), width)

    def within(self, feed: float, width: float) -> float:
        """A feed, or what of it keeps a bite within the limits, but no less than `LEAST` of the one
        asked for that bite."""
        if self.limits is None:
            return feed
        most = self.limits.most(min(width, self.dia), self.depth)
        return min(feed, max(most, LEAST * self.asked(width)))

    def bears(self, width: float) -> bool:
        """Whether the least feed for a bite keeps within the limits."""
        if self.limits is None:
            return True
        return self.limits.most(min(width, self.dia), self.depth) >= LEAST * self.asked(width)
