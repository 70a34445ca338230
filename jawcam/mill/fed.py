"""The feed of each block of a path, from what it bites."""

from __future__ import annotations

import itertools
import math
from collections.abc import Callable, Sequence

import numpy as np

from jawcam.geometry.carriers import Floats
from jawcam.geometry.cut import part_of, point_at, tangent_at
from jawcam.geometry.shapes import Arc, Line, Path, Segment
from jawcam.mill.bite import Cleared, front
from jawcam.mill.pieces import ALIKE, marks_along, pieces
from jawcam.tools.engagement import engaged_inside, engaged_outside, fresh_width
from jawcam.tools.feeds import arc_feed
from jawcam.tools.pace import Pace

__all__ = ["ARC_LEAST", "ARC_MOST", "cleared_blocks", "evened", "wall_feeds"]

ARC_LEAST, ARC_MOST = 0.25, 1.5
"""Bounds of what an arc makes of the centre's feed along a wall (common practice, no source)."""


def wall_feeds(path: Path, widths: Sequence[float], pace: Pace) -> list[float]:
    """The feed of the centre for each segment of a path along a wall on its right, from its bite.

    On arcs it is that which gives the cutter's edge the same feed along the wall,
    F (R - r) / R inside and F (R + r) / R outside, within bounds; and nowhere more than what
    spindle and cutter bear at the angle that they are engaged there.
    """
    feeds = []
    for segment, width in zip(path.segments, widths, strict=True):
        share, bite = _arc_share(segment, pace.dia / 2), _arc_bite(segment, width, pace.dia / 2)
        feed = min(pace.asked(width) * share, pace.most)
        feeds.append(pace.within(feed, bite))
    return evened(feeds)


def _arc_share(segment: Segment, cutter: float) -> float:
    """What an arc makes of the centre's feed."""
    if not isinstance(segment, Arc):
        return 1.0
    wall = segment.radius + cutter if segment.ccw else segment.radius - cutter
    if wall <= 0:
        return 1.0  # round a sharp corner the wall has no length
    share = arc_feed(1.0, wall, cutter, inside=segment.ccw)
    return min(max(share, ARC_LEAST), ARC_MOST)


def _arc_bite(segment: Segment, width: float, cutter: float) -> float:
    """The straight cut's bite that engages a cutter as far as `width` mm along this one does."""
    if not isinstance(segment, Arc):
        return width
    if segment.ccw:
        angle = engaged_inside(width, segment.radius + cutter, cutter)
    else:
        angle = engaged_outside(width, max(segment.radius - cutter, 0.0), cutter)
    return fresh_width(angle, 2 * cutter)


def cleared_blocks(path: Path, cleared: Sequence[Cleared], pace: Pace) -> tuple[Path, list[float]]:
    """A path that clears, and the feed of each of its segments, from the bite that it really takes
    beside what is cleared. A line whose bite is much wider at its ends, as before a corner, is cut
    there; an arc isn't, as a control's last digits would bend its pieces."""
    radius, rate = pace.dia / 2, _rounded(pace)
    marks = marks_along(path, radius)
    spots = [_spots(segment, some) for segment, some in zip(path.segments, marks, strict=True)]
    points, headings = (np.concatenate(some) for some in zip(*spots, strict=True))
    edge, last = front(points, headings, radius), 0
    for area in cleared:
        edge = edge.after(area)
    parts: list[tuple[int, float, float]] = []
    feeds: list[float] = []
    for number, some in enumerate(marks):
        first, last = last, last + len(some)
        own = edge.rows(first, last)
        if own.widths.max() > radius:
            own = own.after(
                Cleared((), radius, _near(path.segments[:number], own.points, pace.dia))
            )
        own_feeds = [rate(width) for width in own.widths.tolist()]
        found = [(some[0], some[-1], min(own_feeds))]
        if isinstance(path.segments[number], Line):
            found = pieces(some, own_feeds, radius)
        for begin, end, feed in found:
            parts.append((number, begin, end))
            feeds.append(feed)
    blocks: list[Segment] = []
    paid: list[float] = []
    for (number, feed), group in itertools.groupby(
        zip(parts, evened(feeds), strict=True), key=lambda one: (one[0][0], one[1])
    ):
        ways = [part for part, _ in group]
        blocks.append(part_of(path.segments[number], ways[0][1], ways[-1][2]))
        paid.append(feed)
    return Path(tuple(blocks)), paid


def _spots(segment: Segment, marks: Sequence[float]) -> tuple[Floats, Floats]:
    """The points at some marks of a segment, and the direction that it passes each in."""
    points = [point_at(segment, mark) for mark in marks]
    return np.array(points), np.array([tangent_at(segment, point) for point in points])


def _near(segments: Sequence[Segment], points: Floats, reach: float) -> tuple[Path, ...]:
    """Those of a ring's earlier segments that may come within `reach` mm of some points."""
    (x0, y0), (x1, y1) = points.min(axis=0) - reach, points.max(axis=0) + reach
    found = []
    for segment in segments:
        path = Path((segment,))
        a0, b0, a1, b1 = path.box
        if a0 <= x1 and x0 <= a1 and b0 <= y1 and y0 <= b1:
            found.append(path)
    return tuple(found)


def evened(feeds: Sequence[float]) -> list[float]:
    """Feeds of blocks in a row, those that hardly differ made equal, never higher."""
    found: list[float] = []
    group: list[float] = []
    for feed in [*feeds, math.inf]:
        if group and max(*group, feed) > ALIKE * min(*group, feed):
            found += [round(min(group), 1)] * len(group)
            group = []
        group.append(feed)
    return found


def _rounded(pace: Pace) -> Callable[[float], float]:
    """The pace, asked once for all bites that are nearly alike."""
    step, known = pace.dia / 200, dict[int, float]()

    def rate(width: float) -> float:
        number = math.ceil(width / step - 1e-6)
        if number not in known:
            known[number] = pace.at(number * step)
        return known[number]

    return rate
