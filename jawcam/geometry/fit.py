"""Arcs and lines in place of curves and of polylines, within a tolerance.

A smooth curve becomes a chain of biarcs: two arcs that meet tangentially and that share the
end points of their piece of the curve. A biarc reaches as far as the tolerance lets it; the
number of arcs then goes with tolerance ** (-1/3) (for chords it would be -1/2).
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Callable, Sequence
from functools import partial

import numpy as np

from jawcam.geometry.best import Array, arc_by, line_by, off, point, ring_by
from jawcam.geometry.shapes import Arc, Line, Path, Point, Segment

__all__ = ["Sample", "fit_arcs", "recover"]

Sample = tuple[Point, Point]
"""A point of a curve and the direction in which the curve runs there."""

_SAFE = 0.95  # the share of the tolerance used: the curve is only looked at where it is sampled
_EXACT = 0.01  # the share of it within which a piece is a line or an arc, not merely like one
_LEANS = (0.7, 0.55, 0.4, 0.0)  # shares of the full lean that are tried
_WIDEST = math.radians(30)  # a polyline that turns more than this at a vertex has a corner there
_CHORDS = 4  # that many chords at least make an arc of a polyline
_UNEVEN = 3.0  # a chord longer than this many times the median is a flat, not part of the arc


def fit_arcs(samples: Sequence[Sample], tolerance: float) -> Path:
    """Arcs and lines for a curve, tangential wherever it is smooth, all in mm.

    The samples run along the curve, so dense that their chords lie within an eighth of the
    tolerance of it. The same point twice in a row is a break: a corner if the directions differ,
    otherwise a place where the curve changes its nature. Equal first and last points close it.
    A curve that is a line or an arc (to 1 % of the tolerance) comes out as just that.
    """
    points = np.array([point for point, _ in samples], dtype=float)
    ways = np.array([way for _, way in samples], dtype=float)
    ways /= np.hypot(ways[:, 0], ways[:, 1])[:, None]
    moves = np.diff(points, axis=0).any(axis=1)
    if tuple(points[0]) == tuple(points[-1]) and float(ways[0] @ ways[-1]) > math.cos(_WIDEST):
        ring = ring_by(points[:-1][moves], _SAFE * tolerance)
        if ring:
            return Path((ring,))
    breaks = [0, *(np.flatnonzero(~moves) + 1), len(points)]
    segments: list[Segment] = []
    for first, last in itertools.pairwise(breaks):
        if last - first > 1:
            segments += _span(points[first:last], ways[first:last], tolerance)
    return Path(tuple(_merged(segments, _EXACT * tolerance)))


def recover(points: Sequence[Point], tolerance: float, *, closed: bool = True) -> Path:
    """The lines and arcs that a polyline stands for, all in mm.

    Every point lies within the tolerance of the path, and a piece begins and ends at a point.
    Points are taken for an arc if at least four even chords turn the same way by up to 30
    degrees each: what turns more, such as a hexagon, keeps its corners. A `closed` one need not
    repeat its first point.
    """
    rows = [point(p) for p in points]
    rows = [p for k, p in enumerate(rows) if k == 0 or p != rows[k - 1]]
    if closed and rows[0] == rows[-1]:
        rows.pop()
    dots = np.array(rows)
    ring = ring_by(dots, tolerance) if closed and _rounds(np.vstack([dots, dots[:2]])) else None
    if ring:
        return Path((ring,))
    shares = (0.001, 0.01, 0.1, 1.0)
    paths = [Path(tuple(_pieces(dots, tolerance * share, closed=closed))) for share in shares]
    # A looser fit with as many pieces only blurs where one ends and the next begins.
    return min(paths, key=lambda path: len(path.segments))


# --- a curve ---------------------------------------------------------------------------------


def _span(points: Array, ways: Array, tolerance: float) -> list[Segment]:
    """A smooth piece of a curve as segments."""
    exact = line_by(points, _EXACT * tolerance) or arc_by(points, _EXACT * tolerance)
    if exact:
        return [exact]
    allowed = _SAFE * tolerance
    chains = [_chain(points, _leaning(points, ways, allowed, lean), allowed) for lean in _LEANS]
    return min(chains, key=len)


def _leaning(points: Array, ways: Array, deviation: float, share: float) -> Array:
    """The directions, leant off the curve's so that each single arc runs as far as it can.

    Arcs of length h that follow a curve whose curvature k grows steadily cross it at a slope of
    -k' h**2 / 12 where they meet, and lie off it by k' h**3 / 124.7 (by integrating the difference
    of the curvatures twice). Just that slope leaves nothing for the growth of k' itself, so only a
    share of it is taken. The ends of the piece do not lean.
    """
    steps = np.hypot(*np.diff(points, axis=0).T)
    turns = np.arctan2(
        ways[:-1, 0] * ways[1:, 1] - ways[:-1, 1] * ways[1:, 0], (ways[:-1] * ways[1:]).sum(axis=1)
    )
    bends = turns / steps
    growth = np.zeros(len(points))
    growth[1:-1] = np.diff(bends) / ((steps[:-1] + steps[1:]) / 2)
    lean = -share * np.cbrt(growth) * (124.7 * deviation) ** (2 / 3) / 12
    cos, sin = np.cos(lean), np.sin(lean)
    x, y = ways.T
    return np.column_stack([x * cos - y * sin, x * sin + y * cos])


def _chain(points: Array, ways: Array, allowed: float) -> list[Segment]:
    """Biarcs from end to end of a smooth piece, each as long as it can be."""

    def biarc(first: int, last: int) -> list[Segment]:
        return _biarc(points[first : last + 1], ways[first], ways[last], allowed)

    def holds(first: int, last: int) -> bool:
        return _follows(biarc(first, last), points[first : last + 1], allowed)

    stops = [0]
    while stops[-1] < len(points) - 1:
        stops.append(_longest(stops[-1] + 1, len(points) - 1, partial(holds, stops[-1])))
    if len(stops) > 2:  # the last one may be a sliver, so it shares with the one before
        middle = (stops[-3] + stops[-1]) // 2
        if holds(stops[-3], middle) and holds(middle, stops[-1]):
            stops[-2] = middle
    return [piece for pair in itertools.pairwise(stops) for piece in biarc(*pair)]


def _biarc(run: Array, way: Array, way_out: Array, allowed: float) -> list[Segment]:
    """Two arcs (or lines) from the first to the last point, leaving and arriving in the given
    directions, whose tangents at either end are equally long up to where they meet. One line if
    they would turn by more than a quarter each.
    """
    a, b = run[0], run[-1]
    across = b - a
    along = float(across @ (way + way_out))
    square = float(across @ across)
    root = math.sqrt(along * along + 2 * max(0.0, 1 - float(way @ way_out)) * square)
    if along + root > 0:
        length = square / (along + root)
        joint = point((a + b + length * (way - way_out)) / 2)
        first = _tangent_arc(point(a), way, joint, _EXACT * allowed)
        second = _tangent_arc(point(b), -way_out, joint, _EXACT * allowed).reversed()
        if all(isinstance(s, Line) or s.sweep <= math.pi / 2 for s in (first, second)):
            return [first, second]
    return [Line(point(a), point(b))]


def _tangent_arc(start: Point, way: Array, end: Point, straight: float) -> Segment:
    """The arc that leaves `start` in the direction `way` and reaches `end`.

    A line if its sagitta would be less than `straight` (a quarter of how far `end` lies off the
    direction) and it turns by less than a thousandth of a radian.
    """
    across = (end[0] - start[0], end[1] - start[1])
    across_way = float(way[0]) * across[1] - float(way[1]) * across[0]
    square = across[0] ** 2 + across[1] ** 2
    if abs(across_way) <= min(4 * straight, 0.0005 * math.sqrt(square)):
        return Line(start, end)
    radius = square / (2 * across_way)
    centre = (start[0] - radius * float(way[1]), start[1] + radius * float(way[0]))
    return Arc(start, end, centre, across_way > 0)


def _follows(biarc: list[Segment], run: Array, allowed: float) -> bool:
    """Whether a biarc stays by the points of its piece, without any turn of its own."""
    if len(run) == 2:
        return True
    if len(biarc) == 1:
        return line_by(run, allowed) is not None
    joint = np.array(biarc[0].end)
    if isinstance(biarc[0], Arc):
        spoke = (joint - np.array(biarc[0].centre)) * (1 if biarc[0].ccw else -1)
        ahead = np.array([-spoke[1], spoke[0]])
    else:
        ahead = joint - run[0]
    late = (run - joint) @ ahead > 0
    for piece, dots in zip(biarc, (run[~late], run[late]), strict=True):
        if len(dots) and float(np.max(off(piece, dots))) > allowed:
            return False
    return True


# --- a polyline ------------------------------------------------------------------------------


def _pieces(dots: Array, tolerance: float, *, closed: bool) -> list[Segment]:
    """The lines and arcs of a polyline."""
    if not closed:
        return [piece for _, piece in _greedy(dots, tolerance)]
    trial = _greedy(np.vstack([dots, dots[:1]]), tolerance)
    # The first piece began anywhere, maybe amid an arc; where the longest run ended one truly ends.
    ends = [0, *(end for end, _ in trial[:-1])]
    at = max(range(1, len(ends)), key=lambda k: ends[k] - ends[k - 1]) if len(ends) > 1 else 0
    turned = np.roll(dots, -ends[at], axis=0)
    return [piece for _, piece in _greedy(np.vstack([turned, turned[:1]]), tolerance)]


def _greedy(dots: Array, tolerance: float) -> list[tuple[int, Segment]]:
    """Lines and arcs along a polyline, each as long as it can be, and at which point each ends."""
    pieces: list[tuple[int, Segment]] = []
    last, begin = len(dots) - 1, 0
    while begin < last:

        def straight(end: int, begin: int = begin) -> bool:
            return line_by(dots[begin : end + 1], tolerance) is not None

        def bent(end: int, begin: int = begin) -> bool:
            run = dots[begin : end + 1]
            return _rounds(run) and arc_by(run, tolerance) is not None

        end = _longest(begin + 1, last, straight)
        piece: Segment | None = Line(point(dots[begin]), point(dots[end]))
        least = begin + _CHORDS
        if least <= last and bent(least):
            further = _longest(least, last, bent)
            if further > end:
                end, piece = further, arc_by(dots[begin : further + 1], tolerance)
        if piece:
            pieces.append((end, piece))
        begin = end
    return pieces


def _rounds(run: Array) -> bool:
    """Whether the chords of a run could stand for one arc: all turn one way, gently, evenly."""
    chords = np.diff(run, axis=0)
    cross = chords[:-1, 0] * chords[1:, 1] - chords[:-1, 1] * chords[1:, 0]
    turns = np.arctan2(cross, (chords[:-1] * chords[1:]).sum(axis=1))
    lengths = np.hypot(*chords.T)
    return bool(
        (np.all(turns > 0) or np.all(turns < 0))
        and np.max(np.abs(turns)) <= _WIDEST
        and np.max(lengths) <= _UNEVEN * np.median(lengths)
    )


# --- both ------------------------------------------------------------------------------------


def _longest(first: int, last: int, holds: Callable[[int], bool]) -> int:
    """The furthest index that holds, by strides that double and then halve; `first` is given."""
    good, stride = first, 1
    while good + stride <= last and holds(good + stride):
        good += stride
        stride *= 2
    bad = min(good + stride, last + 1)
    while bad - good > 1:
        middle = (good + bad) // 2
        good, bad = (middle, bad) if holds(middle) else (good, middle)
    return good


def _merged(segments: list[Segment], slack: float) -> list[Segment]:
    """Neighbours that are one line or one arc, made one."""
    merged: list[Segment] = []
    for piece in segments:
        one = _one(merged[-1], piece, slack) if merged else None
        if one:
            merged[-1] = one
        else:
            merged.append(piece)
    return merged


def _one(a: Segment, b: Segment, slack: float) -> Segment | None:
    if isinstance(a, Line) and isinstance(b, Line):
        return line_by(np.array([a.start, a.end, b.end]), slack)
    if isinstance(a, Arc) and isinstance(b, Arc) and a.ccw == b.ccw:
        same = math.dist(a.centre, b.centre) <= slack and abs(a.radius - b.radius) <= slack
        if same and a.sweep + b.sweep < 2 * math.pi - 1e-6:
            return arc_by(np.array([a.start, a.point(0.5), a.end, b.point(0.5), b.end]), slack)
    return None
