"""Stretches of closed paths: by lengths along them, and those that run far outside of regions."""

from __future__ import annotations

import itertools
from collections.abc import Sequence

import numpy as np

from jawcam.geometry.carriers import Floats
from jawcam.geometry.cut import along, begun_near
from jawcam.geometry.measure import inside_distances
from jawcam.geometry.shapes import Arc, Line, Path, Point, Region, Segment

__all__ = ["far_stretches", "stretch"]

SPACING = 0.1
"""mm; what is farther off for less than this, and at no joint of the path, may be overlooked."""

HALVINGS = 24
"""How often the place where a stretch begins or ends is narrowed down by half."""

JOINT = 0.01
"""mm; a stretch does not begin or end nearer to a joint than this, but there."""

_NIL = 1e-9  # mm


def far_stretches(
    path: Path, regions: Sequence[Region], far: float, more: float
) -> tuple[Path, ...]:
    """The stretches of a closed path that run more than `far` mm outside of regions, each longer
    by `more` mm at both ends; where two then meet they are one. If nothing is left out, the whole
    path, begun where it is nearest to the regions."""
    ways, points = _marks(path)
    gaps = _outside(regions, points)
    over = gaps > far
    if not over.any():
        return ()
    near = _near(path, regions, far, ways, over)
    quiet = [(start + more, end - more) for start, end in near if end - start > 2 * more]
    if not quiet:
        x, y = points[int(np.argmin(gaps))].tolist()
        return (begun_near(path, (x, y)),)
    beginnings = [end for _, end in quiet]
    ends = [start for start, _ in quiet[1:]] + [quiet[0][0] + path.length]
    return tuple(stretch(path, a, b) for a, b in zip(beginnings, ends, strict=True))


def stretch(path: Path, start: float, end: float) -> Path:
    """What of a closed path lies between two lengths along it, in mm, the second of which may be
    beyond the end, where the path begins anew; in exact pieces of its lines and arcs."""
    laps = (*path.segments, *path.segments)
    joints = [0.0, *itertools.accumulate(segment.length for segment in laps)]
    whole = int(start // path.length) * path.length
    first, last = _settled(start - whole, joints), _settled(end - whole, joints)
    pieces = []
    for segment, way in zip(laps, joints, strict=False):
        a, b = max(first - way, 0.0), min(last - way, segment.length)
        if b - a > _NIL:
            pieces.append(_piece(segment, a, b))
    return Path(tuple(pieces))


def _settled(way: float, joints: Sequence[float]) -> float:
    nearest = min(joints, key=lambda joint: abs(joint - way))
    return nearest if abs(nearest - way) < JOINT else way


def _marks(path: Path) -> tuple[Floats, Floats]:
    """Points all along a closed path, every joint among them, and the lengths that they are at."""
    ways: list[float] = []
    points: list[Point] = []
    done = 0.0
    for segment in path.segments:
        some = along(segment, SPACING)[:-1]
        ways += [done + segment.length * k / len(some) for k in range(len(some))]
        points += some
        done += segment.length
    return np.array(ways), np.array(points)


def _outside(regions: Sequence[Region], points: Floats) -> Floats:
    gaps: Floats = np.maximum(-inside_distances(regions, points), 0.0)
    return gaps


def _near(
    path: Path, regions: Sequence[Region], far: float, ways: Floats, over: np.ndarray
) -> list[tuple[float, float]]:
    """From where to where a path runs near the regions: lengths along it, in order, the last pair
    ending beyond the path's end if it runs on over its beginning."""
    turns = np.flatnonzero(over != np.roll(over, -1))
    if not len(turns):
        return []
    bounds = _crossings(path, regions, far, ways, over, turns)
    if not over[turns[0]]:  # the first is the end of a near one
        bounds = [*bounds[1:], bounds[0] + path.length]
    return list(zip(bounds[::2], bounds[1::2], strict=True))


def _crossings(
    path: Path,
    regions: Sequence[Region],
    far: float,
    ways: Floats,
    over: np.ndarray,
    turns: np.ndarray,
) -> list[float]:
    """Where between each of the marks `turns` and the next one the path comes to be far off."""
    first, after = ways[turns], np.append(ways[1:], path.length)[turns]
    out = over[turns]
    outer, inner = np.where(out, first, after), np.where(out, after, first)
    for _ in range(HALVINGS):
        middle = (outer + inner) / 2
        still = _outside(regions, np.array([_at(path, way) for way in middle])) > far
        outer, inner = np.where(still, middle, outer), np.where(still, inner, middle)
    return [float(way) for way in inner]


def _at(path: Path, way: float) -> Point:
    for segment in path.segments[:-1]:
        if way <= segment.length:
            return _on(segment, way)
        way -= segment.length
    return _on(path.segments[-1], way)


def _piece(segment: Segment, first: float, last: float) -> Segment:
    start = segment.start if first <= _NIL else _on(segment, first)
    end = segment.end if last >= segment.length - _NIL else _on(segment, last)
    if isinstance(segment, Line):
        return Line(start, end)
    return Arc(start, end, segment.centre, segment.ccw)


def _on(segment: Segment, way: float) -> Point:
    share = way / segment.length
    if isinstance(segment, Arc):
        return segment.point(share)
    (x0, y0), (x1, y1) = segment.start, segment.end
    return (x0 + (x1 - x0) * share, y0 + (y1 - y0) * share)
