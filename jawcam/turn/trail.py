"""A growing list of motions on a lathe that knows where the tool is."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field

from jawcam.geometry.shapes import Line, Point, Segment
from jawcam.motion.moves import ArcFeed, LineFeed, Motion, Rapid

__all__ = ["TurnTrail"]


@dataclass
class TurnTrail:
    """Motions so far; `at` is where the tool is, (z, x) in mm with x a radius, None until the first
    move after a tool change. Points of its motions are (z, x, 0)."""

    motions: list[Motion] = field(default_factory=list)
    at: Point | None = None

    def add(self, *motions: Motion) -> None:
        """Add motions that do not move the tool."""
        self.motions.extend(motions)

    def rapid(self, z: float, x: float) -> None:
        """Go there at full speed, if not there already."""
        if self.at != (z, x):
            self.at = (z, x)
            self.motions.append(Rapid((z, x, 0.0)))

    def feed(self, z: float, x: float, feed: float) -> None:
        """Cut straight there, if not there already."""
        if self.at != (z, x):
            self.at = (z, x)
            self.motions.append(LineFeed((z, x, 0.0), feed))

    def follow(self, segment: Segment, feed: float) -> None:
        """Cut along a segment that begins where the tool is."""
        if isinstance(segment, Line):
            self.feed(*segment.end, feed)
            return
        self.at = segment.end
        self.motions.append(ArcFeed((*segment.end, 0.0), segment.centre, segment.ccw, feed))

    def trace(self, segments: Iterable[Segment], feed: float) -> None:
        """Cut along segments that follow each other from where the tool is."""
        for segment in segments:
            self.follow(segment, feed)
