"""The rim of a region as something to feel for and to slide along, quickly, a place at a time."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import NamedTuple

import numpy as np

from jawcam.geometry.cut import point_at, tangent_at
from jawcam.geometry.measure import distances, inside_distances
from jawcam.geometry.shapes import Arc, Line, Path, Point, Region, Segment

__all__ = ["Rim", "Spot", "rim_of"]

_SAME = 1e-7  # mm; nearer points are one
_STRAIGHT = 1e-6  # sine of the angle at a joint that is no corner


class Spot(NamedTuple):
    """A place on a rim: `way` mm along its piece `number`."""

    number: int
    way: float


class _Form(NamedTuple):
    """A piece as `_nearest` wants it. round: 1 of an arc to the left, -1 to the right, 0 of a line;
    centre: of an arc, of a line its vector; size: its radius, of a line the square of its length;
    middle, narrow: the direction of an arc's middle and the cosine of half its sweep."""

    start: Point
    end: Point
    round: int
    centre: Point
    size: float
    middle: Point
    narrow: float


@dataclass(frozen=True)
class Rim:
    """The boundary of a region, the inside on the left. pieces: of all its paths, in a row;
    after, before: the numbers of each piece's neighbours; bends: the sine of the turn where each
    begins; forms: the pieces made ready; corner, cell: of the squares that `near` and `deep` are
    kept by, in mm."""

    pieces: tuple[Segment, ...]
    forms: tuple[_Form, ...]
    after: tuple[int, ...]
    before: tuple[int, ...]
    bends: tuple[float, ...]
    corner: Point
    cell: float
    near: dict[tuple[int, int], tuple[int, ...]]
    deep: frozenset[tuple[int, int]]

    def gap(self, place: Point) -> float:
        """How far inside a place lies, mm, negative outside; a cell where it is deep inside."""
        found = self._nearest(place)
        return self.cell if found is None else self._signed(place, *found)

    def feel(self, place: Point) -> tuple[float, Spot | None]:
        """How far inside a place lies, mm, negative outside, and the spot nearest to it. Deep
        inside only that it lies a cell away at least, and no spot."""
        found = self._nearest(place)
        if found is None:
            return self.cell, None
        number, foot, _ = found
        return self._signed(place, *found), Spot(number, _way_to(self.pieces[number], foot))

    def _nearest(self, place: Point) -> tuple[int, Point, float] | None:
        """The nearest piece, its point nearest to a place and how far off that is; None deep
        inside."""
        x, y = place
        square = (
            math.floor((x - self.corner[0]) / self.cell),
            math.floor((y - self.corner[1]) / self.cell),
        )
        if square in self.deep:
            return None
        best, number, foot = math.inf, -1, place
        for one in self.near.get(square, range(len(self.pieces))):
            fx, fy = _foot(self.forms[one], x, y)
            apart = (fx - x) ** 2 + (fy - y) ** 2
            if apart < best:
                best, number, foot = apart, one, (fx, fy)
        return number, foot, math.sqrt(best)

    def _signed(self, place: Point, number: int, foot: Point, apart: float) -> float:
        """The distance from the nearest point of a piece, negative outside."""
        form = self.forms[number]
        bend = 0.0
        if math.dist(foot, form.start) < _SAME:
            bend = self.bends[number]
        elif math.dist(foot, form.end) < _SAME:
            bend = self.bends[self.after[number]]
        if abs(bend) > _STRAIGHT:  # nearest to a corner: outside of a left turn, inside of a right
            return apart if bend < 0 else -apart
        if form.round:
            (cx, cy), (x, y) = form.centre, place
            inside = (math.hypot(x - cx, y - cy) <= form.size) == (form.round > 0)
        else:
            (ax, ay), (dx, dy) = form.start, form.centre
            inside = dx * (place[1] - ay) - dy * (place[0] - ax) >= 0
        return apart if inside else -apart

    def point(self, spot: Spot) -> Point:
        """Where a spot is."""
        return point_at(self.pieces[spot.number], spot.way)

    def heading(self, spot: Spot) -> Point:
        """The unit direction in which the rim runs at a spot."""
        return tangent_at(self.pieces[spot.number], self.point(spot))

    def back(self, spot: Spot, by: float) -> Spot:
        """The spot `by` mm before another."""
        number, way = spot
        while way < by:
            by -= way
            number = self.before[number]
            way = self.pieces[number].length
        return Spot(number, way - by)

    def ahead(self, spot: Spot, by: float) -> Spot:
        """The spot `by` mm after another; before it with less than 0."""
        if by < 0:
            return self.back(spot, -by)
        number, way = spot
        while (room := self.pieces[number].length - way) < by:
            by -= room
            number, way = self.after[number], 0.0
        return Spot(number, way + by)

    def between(self, first: Spot, last: Spot, most: float) -> list[Spot] | None:
        """The spots at the joints on the way from one spot on to another, and that one; None if
        it is farther than `most` mm."""
        found: list[Spot] = []
        number, way, total = first.number, first.way, 0.0
        while total <= most:
            if number == last.number and last.way >= way - _SAME:
                return [*found, last] if total + last.way - way <= most else None
            total += self.pieces[number].length - way
            number, way = self.after[number], 0.0
            found.append(Spot(number, 0.0))
        return None


def rim_of(region: Region, cell: float, reach: float) -> Rim:
    """The rim of a region. cell: mm, of the squares that it is looked up by; reach: how far
    outside the region places will be felt for, mm."""
    pieces = tuple(piece for path in region.paths for piece in path.segments)
    after, before = _neighbours([len(path.segments) for path in region.paths])
    bends = tuple(_bend(pieces[k], piece) for k, piece in zip(before, pieces, strict=True))
    x0, y0, x1, y1 = region.outer.box
    corner = (x0 - reach - cell, y0 - reach - cell)
    columns, rows = (math.ceil((b - a + 2 * reach) / cell) + 2 for a, b in ((x0, x1), (y0, y1)))
    xs = corner[0] + cell * (np.arange(columns) + 0.5)
    ys = corner[1] + cell * (np.arange(rows) + 0.5)
    middles = np.stack(np.meshgrid(xs, ys, indexing="ij"), axis=-1).reshape(-1, 2)
    room = inside_distances([region], middles)
    half = cell * math.sqrt(0.5)
    deep = np.flatnonzero(room > cell + half)
    near: dict[tuple[int, int], list[int]] = {}
    for number, piece in enumerate(pieces):
        apart = distances([Path((piece,))], middles)
        for at in np.flatnonzero(apart <= np.abs(room) + 2 * half + _SAME).tolist():
            near.setdefault(divmod(at, rows), []).append(number)
    return Rim(
        pieces,
        tuple(_form(piece) for piece in pieces),
        after,
        before,
        bends,
        corner,
        cell,
        {square: tuple(numbers) for square, numbers in near.items()},
        frozenset(divmod(at, rows) for at in deep.tolist()),
    )


def _neighbours(counts: Sequence[int]) -> tuple[tuple[int, ...], tuple[int, ...]]:
    after: list[int] = []
    before: list[int] = []
    for count in counts:
        first = len(after)
        after += [first + (k + 1) % count for k in range(count)]
        before += [first + (k - 1) % count for k in range(count)]
    return tuple(after), tuple(before)


def _bend(a: Segment, b: Segment) -> float:
    (ax, ay), (bx, by) = tangent_at(a, a.end), tangent_at(b, b.start)
    return ax * by - ay * bx


def _form(piece: Segment) -> _Form:
    if isinstance(piece, Line):
        dx, dy = piece.end[0] - piece.start[0], piece.end[1] - piece.start[1]
        return _Form(piece.start, piece.end, 0, (dx, dy), dx * dx + dy * dy, (0.0, 0.0), 0.0)
    (x, y), (cx, cy), radius = piece.point(0.5), piece.centre, piece.radius
    middle = ((x - cx) / radius, (y - cy) / radius)
    narrow = math.cos(piece.sweep / 2)
    bow = 1 if piece.ccw else -1
    return _Form(piece.start, piece.end, bow, piece.centre, radius, middle, narrow)


def _foot(form: _Form, x: float, y: float) -> Point:
    """The point of a piece nearest to another."""
    if not form.round:
        (ax, ay), (dx, dy) = form.start, form.centre
        share = ((x - ax) * dx + (y - ay) * dy) / form.size
        if share <= 0:
            return form.start
        return form.end if share >= 1 else (ax + share * dx, ay + share * dy)
    cx, cy = form.centre
    ux, uy = x - cx, y - cy
    size = math.hypot(ux, uy)
    if size < _SAME:
        return form.start
    if ux * form.middle[0] + uy * form.middle[1] >= size * form.narrow:
        scale = form.size / size
        return (cx + ux * scale, cy + uy * scale)
    near_start = math.dist((x, y), form.start) <= math.dist((x, y), form.end)
    return form.start if near_start else form.end


def _turned(arc: Arc, x: float, y: float) -> float:
    """The angle from an arc's start to the direction of a point, the way that it runs."""
    cx, cy = arc.centre
    first = math.atan2(arc.start[1] - cy, arc.start[0] - cx)
    turn = math.atan2(y - cy, x - cx) - first
    return (turn if arc.ccw else -turn) % (2 * math.pi)


def _way_to(piece: Segment, foot: Point) -> float:
    """How far along a piece its own point lies."""
    if math.dist(foot, piece.start) < _SAME:
        return 0.0
    if isinstance(piece, Line):
        return math.dist(piece.start, foot)
    if math.dist(foot, piece.end) < _SAME:
        return piece.length
    return min(_turned(piece, *foot), piece.sweep) * piece.radius
