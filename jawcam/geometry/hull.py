"""The convex hull."""

from __future__ import annotations

from collections.abc import Iterable

from jawcam.geometry.flatten import polyline
from jawcam.geometry.shapes import Path, Point, Region, polygon

__all__ = ["hull"]


def hull(path: Path, chord: float) -> Region:
    """The smallest convex region round a path whose arcs are cut to chords, no farther than
    `chord` mm off (monotone chain: Andrew, Information Processing Letters 9(5), 1979)."""
    points = sorted({p for segment in path.segments for p in polyline(segment, chord)})
    return Region(polygon([*_chain(points)[:-1], *_chain(reversed(points))[:-1]]))


def _chain(points: Iterable[Point]) -> list[Point]:
    chain: list[Point] = []
    for p in points:
        while len(chain) > 1 and _right(chain[-2], chain[-1], p):
            chain.pop()
        chain.append(p)
    return chain


def _right(a: Point, b: Point, c: Point) -> bool:
    """Whether a, b, c do not turn left."""
    return (b[0] - a[0]) * (c[1] - b[1]) - (b[1] - a[1]) * (c[0] - b[0]) <= 0
