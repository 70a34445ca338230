"""A turned part's slopes and rounds taken as steps that the part lies inside."""

from __future__ import annotations

import itertools
import math
from collections.abc import Sequence

from jawcam.geometry.shapes import Arc, Line, Point, Segment

__all__ = ["stands_off", "stops"]


def stops(segment: Segment, step: float) -> list[Point]:
    """Points (along, radius) of a piece of a half profile, both its ends included, such that
    a disc between two neighbours, as large as the larger, stands at most `step` mm off the piece.

    A round turns by half a turn at most. It bulges where it runs clockwise, as at outer corners;
    otherwise it is hollow.
    """
    if isinstance(segment, Arc):
        return _round_stops(segment, step)
    return _taper_stops(segment, step)


def stands_off(segment: Segment, points: Sequence[Point]) -> float:
    """How far the corner of the largest step between these stops of a segment stands off it."""
    worst = 0.0
    for a, b in itertools.pairwise(points):
        if isinstance(segment, Arc):
            low, high = sorted((a, b), key=lambda p: p[1])
            off = math.dist((low[0], high[1]), segment.centre) - segment.radius
            worst = max(worst, -off if segment.ccw else off)
        else:
            worst = max(worst, _height(a, b))
    return worst


def _height(a: Point, b: Point) -> float:
    """How far the corner of a right triangle is from its longest side, from a to b."""
    along, across = abs(b[0] - a[0]), abs(b[1] - a[1])
    return along * across / math.hypot(along, across)


def _taper_stops(line: Line, step: float) -> list[Point]:
    count = max(1, math.ceil(_height(line.start, line.end) / step - 1e-9))
    (z0, r0), (z1, r1) = line.start, line.end
    shares = (k / count for k in range(1, count))
    middle = [(z0 + (z1 - z0) * share, r0 + (r1 - r0) * share) for share in shares]
    return [line.start, *middle, line.end]


def _round_stops(arc: Arc, step: float) -> list[Point]:
    """Angles are counted from the radius to the crest, or to the bottom of a hollow round."""
    z, r = arc.centre
    radius, side = arc.radius, -1 if arc.ccw else 1
    first = math.atan2(arc.start[0] - z, side * (arc.start[1] - r))
    last = math.atan2(arc.end[0] - z, side * (arc.end[1] - r))
    angles: list[float] = []
    if first < -1e-9:
        rising = _even(max(0.0, -last), -first, step / radius, hollow=arc.ccw)
        angles += [-angle for angle in reversed(rising)]
    if last > 1e-9:
        falling = _even(max(0.0, first), last, step / radius, hollow=arc.ccw)
        angles += falling[1:] if angles else falling
    middle = [(z + radius * math.sin(a), r + side * radius * math.cos(a)) for a in angles[1:-1]]
    return [arc.start, *middle, arc.end]


def _even(first: float, last: float, step: float, *, hollow: bool) -> list[float]:
    """As few angles from `first` to `last` as `step` (in radii) takes, the steps between them
    standing off about equally."""
    count = len(_turns(first, last, step, hollow=hollow))
    low, high = 0.0, step
    for _ in range(30):
        middle = (low + high) / 2
        few = middle > 0 and len(_turns(first, last, middle, count, hollow=hollow)) <= count
        low, high = (low, middle) if few else (middle, high)
    return _turns(first, last, high, hollow=hollow)


def _turns(
    first: float, last: float, step: float, most: int | None = None, *, hollow: bool
) -> list[float]:
    """Angles of stops on a unit circle, 0 <= first < last <= a quarter turn; no more than one
    above `most`.

    From angle a to b the corner of a bulging step is (sin b, cos a), so sin^2 b + cos^2 a may
    reach (1 + step)^2; that of a hollow one is (sin a, cos b), and sin^2 a + cos^2 b may go down
    to (1 - step)^2.
    """
    angles = [first]
    while angles[-1] < last and (most is None or len(angles) <= most):
        if hollow:
            cosine2 = max(1 - step, 0.0) ** 2 - math.sin(angles[-1]) ** 2
            reached = math.acos(math.sqrt(cosine2)) if cosine2 > 0 else last
        else:
            sine2 = (1 + step) ** 2 - math.cos(angles[-1]) ** 2
            reached = math.asin(math.sqrt(sine2)) if sine2 < 1 else last
        angles.append(min(reached, last))
    return angles
