"""A growing list of motions that knows where the cutter is."""

from __future__ import annotations

from collections.abc import Sequence

from jawcam.errors import InternalError
from jawcam.geometry.shapes import Line, Path, Point, Segment
from jawcam.motion.moves import ArcFeed, LineFeed, Motion, Point3, Rapid

__all__ = ["Trail"]


class Trail:
    """Motions so far, in jaw coordinates; `at` is None until the first move after a tool change."""

    def __init__(self) -> None:
        self.motions: list[Motion] = []
        self.at: Point3 | None = None

    def add(self, *motions: Motion) -> None:
        """Add motions that do not move the cutter."""
        self.motions.extend(motions)

    def rapid(self, x: float, y: float, z: float) -> None:
        """Go there at full speed, if not there already."""
        if self.at != (x, y, z):
            self.at = (x, y, z)
            self.motions.append(Rapid(self.at))

    def feed(self, x: float, y: float, z: float, feed: float) -> None:
        """Cut straight there, if not there already."""
        if self.at != (x, y, z):
            self.at = (x, y, z)
            self.motions.append(LineFeed(self.at, feed))

    def follow(self, segment: Segment, z: float, feed: float) -> None:
        """Cut along a segment that begins at the cutter's place, ending at height z."""
        if isinstance(segment, Line):
            self.feed(*segment.end, z, feed)
            return
        self.at = (*segment.end, z)
        self.motions.append(ArcFeed(self.at, segment.centre, segment.ccw, feed))

    def trace(self, path: Path, z: float, feeds: Sequence[float]) -> None:
        """Cut along a path at height z, with one feed for each of its segments."""
        for segment, feed in zip(path.segments, feeds, strict=True):
            self.follow(segment, z, feed)

    @property
    def plan(self) -> Point:
        """The cutter's place seen from above. Raises InternalError if nobody knows it."""
        if self.at is None:
            raise InternalError("a link was planned from an unknown place")
        return self.at[:2]
