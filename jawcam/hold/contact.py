"""Where a jaw's wall meets the part as it closes along Y.

Both are taken apart into edges that have one height over each X. Over the X that a wall's edge
and an edge of the part share, the air between the two is widest or narrowest at the ends or
where their slopes are equal, and that X is a closed form: no search, and as exact as the arcs.
Everything here is seen from the back jaw, which comes down on the part from +Y.
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterable
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from jawcam.geometry.carriers import Floats, Ints
from jawcam.geometry.shapes import Line, Path, Point, Region, Segment
from jawcam.job.model import Blanks
from jawcam.tolerance import Tolerance

__all__ = ["Edges", "Span", "meet", "part_edges", "wall_edges"]

_SLIVER = 1e-5  # mm along X; what overlaps by less slides past
_LEVEL = 1e-7  # mm along Y; walls that part by less touch all along
_TINY = 1e-9  # mm along X; an edge narrower than this stands upright

_Row = tuple[float, float, float, float, float, float, float]


@dataclass(frozen=True)
class Span:
    """A touching stretch of one edge of the part, from `start` to `end` with X rising, in mm.
    edge: its number; at: where it has the least `air`, the middle if that is as good; normal:
    the direction from the part into the wall there, in degrees from +X."""

    edge: int
    start: Point
    end: Point
    at: Point
    air: float
    normal: float


@dataclass(frozen=True)
class Edges:
    """Pieces of outline with one height over each X, columns of `rows` (7, n): the X where each
    begins and ends; a point on it and its slope if it is straight, the centre (and slope 0) if it
    is an arc; the radius, 0 if straight; 1 for an upper half of a circle, -1 for a lower one."""

    rows: Floats

    def take(self, which: Ints) -> Edges:
        """The edges with the given numbers."""
        return Edges(self.rows[:, which])

    def heights(self, at: Floats) -> Floats:
        """The Y of each edge over the X given for it."""
        _, _, x, y, slope, radius, bend = self.rows
        across = at - x
        high: Floats = y + slope * across + bend * np.sqrt(np.maximum(radius**2 - across**2, 0.0))
        return high

    def sines(self) -> tuple[Floats, Floats]:
        """Each edge's rise as the sine of its angle: (level, rate) of level + rate * X."""
        _, _, x, _, slope, radius, bend = self.rows
        rate = -bend / np.where(bend == 0, 1.0, radius)
        return slope / np.hypot(1.0, slope) - rate * x, rate

    def angles(self, at: Floats) -> Floats:
        """The angle that each edge rises by over the X given for it, in degrees."""
        level, rate = self.sines()
        rise: Floats = np.degrees(np.arcsin(np.clip(level + rate * at, -1.0, 1.0)))
        return rise

    def length(self, number: int, left: float, right: float) -> float:
        """The length of one edge between two X, in mm."""
        _, _, x, _, slope, radius, bend = self.rows[:, number].tolist()
        if not bend:
            return (right - left) * math.hypot(1.0, slope)
        first, last = (math.asin(min(max((a - x) / radius, -1.0), 1.0)) for a in (left, right))
        return float(radius * (last - first))


def part_edges(part: Path) -> Edges:
    """The edges of a closed, counter-clockwise outline that face +Y."""
    return _edges([part])[0]


def wall_edges(cavity: Region, blanks: Blanks) -> Edges:
    """The edges of the back blank that face -Y once the cavity is cut: its pieces of the
    cavity's wall, and its flat face beside the mouth."""
    near, far, half = blanks.gap / 2, blanks.gap / 2 + blanks.thickness, blanks.width / 2
    upper, lower = _edges(cavity.paths)
    crossings = (*_crossings(cavity.paths, near), *_crossings(cavity.paths, far))
    marks = np.unique([-half, half, *(x for x in crossings if abs(x) < half)])
    first, last = marks[:-1], marks[1:]
    numbers, strips = np.nonzero(_shared(upper, first, last) > _TINY)
    walls = upper.rows[:, numbers]
    walls[0] = np.maximum(walls[0], first[strips])
    walls[1] = np.minimum(walls[1], last[strips])
    high = Edges(walls).heights((walls[0] + walls[1]) / 2)
    walls = walls[:, (high >= near) & (high <= far)]
    # the face stands where an even number of the cavity's edges lie beyond it
    middle = ((first + last) / 2)[:, None]
    border = Edges(np.hstack((upper.rows, lower.rows)))
    beyond = (border.rows[0] <= middle) & (middle < border.rows[1])
    beyond &= border.heights(middle) > near
    standing = (beyond.sum(axis=1) % 2 == 0) & (last - first > _SLIVER)
    face = np.zeros((7, int(standing.sum())))
    face[0], face[1], face[3] = first[standing], last[standing], near
    return Edges(np.hstack((walls, face)))


def meet(walls: Edges, part: Edges, touch: float, tolerance: Tolerance) -> tuple[float, list[Span]]:
    """How far the walls can come down before they meet the part, in mm (infinite if they never
    do), and where they then touch: all that would with `touch` mm more. The part must lie in the
    cavity; where its wall cuts into the part the travel is 0."""
    facing = _facing(walls, part, tolerance)
    if not len(facing.left):
        return math.inf, []
    gaps = np.minimum(facing.gaps(facing.left), facing.gaps(facing.right))
    travel = max(0.0, float(gaps.min()))
    return travel, _spans(facing, travel + touch)


@dataclass(frozen=True)
class _Facing:
    """Stretches of X over which an edge of the wall lies above an edge of the part, and the air
    between only grows or only shrinks; numbers: which edge of the part."""

    wall: Edges
    part: Edges
    numbers: Ints
    left: Floats
    right: Floats

    def gaps(self, at: Floats) -> Floats:
        """The air between, along Y."""
        return self.wall.heights(at) - self.part.heights(at)

    def take(self, which: Ints) -> _Facing:
        return _Facing(
            self.wall.take(which),
            self.part.take(which),
            self.numbers[which],
            self.left[which],
            self.right[which],
        )


def _facing(walls: Edges, part: Edges, tolerance: Tolerance) -> _Facing:
    above, below = np.nonzero(_shared(walls, part.rows[0], part.rows[1]) > _SLIVER)
    wall, top = walls.take(above), part.take(below)
    left = np.maximum(wall.rows[0], top.rows[0])
    right = np.minimum(wall.rows[1], top.rows[1])
    # the air stops shrinking where both rise alike
    (level, rate), (other, other_rate) = wall.sines(), top.sines()
    alike = rate == other_rate
    turn = (other - level) / np.where(alike, 1.0, rate - other_rate)
    turn = np.clip(np.where(alike, right, turn), left, right)
    twice = np.concatenate((np.arange(len(left)), np.arange(len(left))))
    halves = _Facing(
        wall.take(twice),
        top.take(twice),
        below[twice],
        np.concatenate((left, turn)),
        np.concatenate((turn, right)),
    )
    # a wall that is exact to the path tolerance may seem to lie that much within the part
    highest = np.maximum(halves.gaps(halves.left), halves.gaps(halves.right))
    real = (halves.right - halves.left > 0) & (highest > -tolerance.path)
    return halves.take(np.nonzero(real)[0])


def _spans(facing: _Facing, limit: float) -> list[Span]:
    """The stretches over which the air is no more than `limit`."""
    left_in, right_in = facing.gaps(facing.left) <= limit, facing.gaps(facing.right) <= limit
    which = np.nonzero(left_in | right_in)[0]
    facing, left_in, right_in = facing.take(which), left_in[which], right_in[which]
    inner = np.where(left_in, facing.left, facing.right)
    outer = np.where(left_in, facing.right, facing.left)
    ends, beyond = inner, outer
    for _ in range(50):  # halving takes any stretch below a nanometre
        middle = (ends + beyond) / 2
        touching = facing.gaps(middle) <= limit
        ends, beyond = np.where(touching, middle, ends), np.where(touching, beyond, middle)
    ends = np.where(left_in & right_in, outer, ends)
    x0, x1 = np.minimum(inner, ends), np.maximum(inner, ends)
    at, middle = np.where(facing.gaps(x0) <= facing.gaps(x1), x0, x1), (x0 + x1) / 2
    at = np.where(np.abs(facing.gaps(middle) - facing.gaps(at)) < _LEVEL, middle, at)
    ys = [facing.part.heights(x).tolist() for x in (x0, x1, at)]
    starts, finishes, places = (
        list(zip(x.tolist(), y, strict=True)) for x, y in zip((x0, x1, at), ys, strict=True)
    )
    air, normals = facing.gaps(at).tolist(), (90.0 + _rises(facing, at)).tolist()
    columns = (facing.numbers.tolist(), starts, finishes, places, air, normals)
    return [Span(*row) for row in zip(*columns, strict=True)]


def _rises(facing: _Facing, at: Floats) -> Floats:
    """The slope of the wall at each place of contact, in degrees; the part's own where the wall
    has a corner (the edge of the jaw's face)."""
    cornered = ~_inside(facing.wall, at) & _inside(facing.part, at)
    rises: Floats = np.where(cornered, facing.part.angles(at), facing.wall.angles(at))
    return rises


def _inside(edges: Edges, at: Floats) -> npt.NDArray[np.bool_]:
    """Whether each X lies clear of its edge's ends."""
    clear: npt.NDArray[np.bool_] = np.minimum(at - edges.rows[0], edges.rows[1] - at) > _SLIVER
    return clear


def _shared(edges: Edges, left: Floats, right: Floats) -> Floats:
    """How much of X each edge (rows) shares with each stretch from left to right (columns)."""
    starts, ends = edges.rows[0][:, None], edges.rows[1][:, None]
    shared: Floats = np.minimum(ends, right) - np.maximum(starts, left)
    return shared


def _crossings(paths: Iterable[Path], level: float) -> list[float]:
    """Every X where a boundary may cross Y = level, and the ends of what runs along it."""
    found: list[float] = []
    for segment in itertools.chain.from_iterable(path.segments for path in paths):
        (x0, y0), (x1, y1) = segment.start, segment.end
        found += [x for x, y in (segment.start, segment.end) if abs(y - level) < _SLIVER]
        if isinstance(segment, Line):
            if (y0 - level) * (y1 - level) < 0:
                found.append(x0 + (level - y0) * (x1 - x0) / (y1 - y0))
        elif abs(level - segment.centre[1]) < segment.radius:
            reach = math.sqrt(segment.radius**2 - (level - segment.centre[1]) ** 2)
            found += [segment.centre[0] - reach, segment.centre[0] + reach]
    return found


def _edges(paths: Iterable[Path]) -> tuple[Edges, Edges]:
    """A region's boundary -> its edges that face +Y, then those that face -Y. With the inside on
    the left, the former run towards -X."""
    facing: tuple[list[_Row], list[_Row]] = ([], [])
    for segment in itertools.chain.from_iterable(path.segments for path in paths):
        for row, back in _rows(segment):
            facing[0 if back else 1].append(row)
    upper, lower = (Edges(np.array(rows, dtype=float).reshape(-1, 7).T) for rows in facing)
    return upper, lower


def _rows(segment: Segment) -> list[tuple[_Row, bool]]:
    """The edges of a segment, and whether each runs towards -X; an arc is cut at its leftmost
    and rightmost points."""
    marks = [segment.start, segment.end]
    halves = [0.0]
    if not isinstance(segment, Line):
        sign = 1 if segment.ccw else -1
        (cx, cy), sweep = segment.centre, segment.sweep
        first = math.atan2(segment.start[1] - cy, segment.start[0] - cx)
        turns = sorted((angle - first) * sign % (2 * math.pi) for angle in (0.0, math.pi))
        inner = [t for t in turns if _TINY < t < sweep - _TINY]
        marks[1:1] = [segment.point(t / sweep) for t in inner]
        middles = [(a + b) / 2 for a, b in itertools.pairwise([0.0, *inner, sweep])]
        halves = [math.copysign(1.0, math.sin(first + sign * t)) for t in middles]
    rows: list[tuple[_Row, bool]] = []
    for (a, b), bend in zip(itertools.pairwise(marks), halves, strict=True):
        left, right = min(a, b), max(a, b)
        if right[0] - left[0] <= _TINY:
            continue
        if isinstance(segment, Line):
            row = (left[0], right[0], *left, (right[1] - left[1]) / (right[0] - left[0]), 0.0, 0.0)
        else:
            row = (left[0], right[0], *segment.centre, 0.0, segment.radius, bend)
        rows.append((row, b[0] < a[0]))
    return rows
