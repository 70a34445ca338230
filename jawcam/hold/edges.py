"""Outlines taken apart into edges that have one height over each X.

Everything here is seen from the back jaw, which comes down on the part from +Y.
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

import numpy as np

from jawcam.geometry.carriers import Floats, Ints
from jawcam.geometry.shapes import Line, Path, Point, Region, Segment
from jawcam.job.model import Blanks

__all__ = ["SLIVER", "Edges", "part_edges", "shared", "wall_edges"]

SLIVER = 1e-5
"""mm along X; what overlaps by less slides past."""

_TINY = 1e-9  # mm along X; an edge narrower than this stands upright

_Row = tuple[float, float, float, float, float, float, float]


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

    def height(self, number: int, at: float) -> float:
        """The Y of one edge over an X."""
        return float(self.take(np.array([number])).heights(np.array([at]))[0])

    def centre(self, number: int) -> Point | None:
        """The centre of the circle whose upper half an edge lies on, None if it does not."""
        _, _, x, y, _, _, bend = self.rows[:, number].tolist()
        return (x, y) if bend > 0 else None


def part_edges(parts: Iterable[Path]) -> Edges:
    """The edges of closed, counter-clockwise outlines that face +Y."""
    return _edges(parts)[0]


def wall_edges(pockets: Sequence[Region], blanks: Blanks) -> Edges:
    """The edges of the back blank that face -Y once the pockets (which may not overlap) are cut:
    its pieces of their walls, and its flat face beside their mouths."""
    paths = [path for pocket in pockets for path in pocket.paths]
    near, far, half = blanks.gap / 2, blanks.gap / 2 + blanks.thickness, blanks.width / 2
    upper, lower = _edges(paths)
    crossings = (*_crossings(paths, near), *_crossings(paths, far))
    marks = np.unique([-half, half, *(x for x in crossings if abs(x) < half)])
    first, last = marks[:-1], marks[1:]
    numbers, strips = np.nonzero(shared(upper, first, last) > _TINY)
    walls = upper.rows[:, numbers]
    walls[0] = np.maximum(walls[0], first[strips])
    walls[1] = np.minimum(walls[1], last[strips])
    high = Edges(walls).heights((walls[0] + walls[1]) / 2)
    walls = walls[:, (high >= near) & (high <= far)]
    # the face stands where an even number of the pockets' edges lie beyond it
    middle = ((first + last) / 2)[:, None]
    border = Edges(np.hstack((upper.rows, lower.rows)))
    beyond = (border.rows[0] <= middle) & (middle < border.rows[1])
    beyond &= border.heights(middle) > near
    standing = (beyond.sum(axis=1) % 2 == 0) & (last - first > SLIVER)
    face = np.zeros((7, int(standing.sum())))
    face[0], face[1], face[3] = first[standing], last[standing], near
    return Edges(np.hstack((walls, face)))


def shared(edges: Edges, left: Floats, right: Floats) -> Floats:
    """How much of X each edge (rows) shares with each stretch from left to right (columns)."""
    starts, ends = edges.rows[0][:, None], edges.rows[1][:, None]
    shared: Floats = np.minimum(ends, right) - np.maximum(starts, left)
    return shared


def _crossings(paths: Iterable[Path], level: float) -> list[float]:
    """Every X where a boundary may cross Y = level, and the ends of what runs along it."""
    found: list[float] = []
    for segment in itertools.chain.from_iterable(path.segments for path in paths):
        (x0, y0), (x1, y1) = segment.start, segment.end
        found += [x for x, y in (segment.start, segment.end) if abs(y - level) < SLIVER]
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
