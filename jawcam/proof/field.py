"""The blanks as a field of heights, and what every move takes of it, in the order of the cuts.

Whether a wall or a floor is right is judged by exact areas (`stock`). What only the order of the
cuts tells, how much a cutter bites off at each place of its way, is counted here in small cells: a
cell belongs to the moment at which the cutter first reaches its point, known in closed form for
lines and arcs. The points stand in rows and columns, each row and column shifted by another part of
a cell, so that no straight cut runs along a row of them and has it wholly or not at all. A count of
cells is thus uncertain by less than the square root of those on its rim.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise
from typing import NamedTuple

import numpy as np
import shapely
from numpy.typing import NDArray

from jawcam.proof.curve import Floats
from jawcam.proof.form import height_over_tip
from jawcam.proof.move import Move, portion

__all__ = ["Field", "Taken", "field_of", "level_pieces", "reach_of", "take"]

_GRAZE = 2e-5  # mm; thinner layers are rounded numbers
_SLOPE_STEP = 0.05  # mm; a sloping move is cut into pieces that fall by no more, each level
_CELLS = 3e6  # at most, for memory's sake
_ASIDE, _UP = (math.sqrt(5) - 1) / 2, math.sqrt(2) - 1  # of a cell, from each row or column on


class Field(NamedTuple):
    """Heights of the material in cells of `cell` mm square, minus infinity where there is nothing.
    x, y: the middles of the columns and of the rows; across, along: the point of each cell, X and
    Y; these and the heights: (rows, columns)."""

    cell: float
    x: Floats
    y: Floats
    across: Floats
    along: Floats
    heights: NDArray[np.float32]

    def window(self, box: Sequence[float]) -> tuple[slice, slice]:
        """The rows and columns whose points may lie in a box (x0, y0, x1, y1)."""
        x0, y0, x1, y1 = box
        half = self.cell / 2
        rows = slice(*np.searchsorted(self.y, (y0 - half, y1 + half)))
        return rows, slice(*np.searchsorted(self.x, (x0 - half, x1 + half)))


@dataclass(frozen=True)
class Taken:
    """What the moves take, a row for each step of their way, in order.

    move: which of the moves; along: where on it the step begins, mm in plan; length: of the step
    in plan, 0 of a move straight up or down; way: its length in space, mm; area: of material that
    is cut in plan, mm2, 0 while the cutter goes up or down; volume: mm3; depth: the thickest that
    is cut in one go, mm.
    """

    move: NDArray[np.intp]
    along: Floats
    length: Floats
    way: Floats
    area: Floats
    volume: Floats
    depth: Floats

    @property
    def width(self) -> Floats:
        """The fresh width: area for each mm of way; 0 while the cutter goes down. On a straight
        front it is the radial depth of cut, R (1 - cos of the engaged angle)."""
        none = np.zeros_like(self.area)
        return np.divide(self.area, self.length, out=none, where=self.length > 0)


def field_of(
    solid: shapely.Geometry, top: float, box: Sequence[float], cell: float, most: float = _CELLS
) -> Field:
    """Material up to `top` wherever `solid` is, in plan, within a box (x0, y0, x1, y1) in mm. The
    cells are larger than asked where there would be more than `most` of them."""
    x0, y0, x1, y1 = box
    cell = max(cell, math.sqrt((x1 - x0) * (y1 - y0) / most))
    x, up = _points(x0, x1, cell, _UP)
    y, aside = _points(y0, y1, cell, _ASIDE)
    heights: NDArray[np.float32] = np.full((len(y), len(x)), -np.inf, dtype=np.float32)
    field = Field(cell, x, y, x + aside[:, None], y[:, None] + up, heights)
    for part in shapely.get_parts(solid):
        left, low, right, high = shapely.bounds(part)
        rows, columns = field.window((left, low, right, high))
        px, py = field.across[rows, columns], field.along[rows, columns]
        here = (px >= left) & (px <= right) & (py >= low) & (py <= high)
        if shapely.area(part) < (right - left) * (high - low) * (1 - 1e-9):
            shapely.prepare(part)
            here = shapely.contains_xy(part, px, py)
        heights[rows, columns][here] = top
    return field


def _points(low: float, high: float, cell: float, shift: float) -> tuple[Floats, Floats]:
    """The middles of cells from `low` to `high`, and by how much what lies across is shifted."""
    numbers: Floats = np.arange(max(1.0, math.ceil((high - low) / cell)))
    return low + cell * (numbers + 0.5), cell * (numbers * shift % 1.0 - 0.5)


def take(field: Field, moves: Iterable[Move], fine: float) -> Taken:
    """Run the moves through the field, which is changed by it; fine: how many steps to the cutter's
    diameter are told by themselves, or a few more. A sloping move is taken in level pieces, each at
    its lowest."""
    rows = [_taken(field, number, move, fine) for number, move in enumerate(moves)]
    table = np.concatenate(rows, axis=1) if rows else np.empty((7, 0))
    return Taken(table[0].astype(np.intp), *table[1:])


def _taken(field: Field, number: int, move: Move, fine: float) -> Floats:
    """The rows of one move, (7, n)."""
    count = max(1, math.ceil(move.flat_length * fine / move.cutter.dia - 1e-9))
    size = move.flat_length / count
    area, volume, depth = np.zeros(count), np.zeros(count), np.zeros(count)
    for begin, piece in level_pieces(move):
        met = _met(field, piece)
        if met is None:
            continue
        along, drop = met
        index = np.zeros(len(along), dtype=np.intp)
        if size > 0:
            index = np.minimum(((begin + along) / size).astype(np.intp), count - 1)
        cell = field.cell**2
        if move.high - move.low <= _GRAZE:
            area += np.bincount(index, minlength=count) * cell
        volume += np.bincount(index, weights=drop, minlength=count) * cell
        np.maximum.at(depth, index, drop)
    who, begins = np.full(count, float(number)), size * np.arange(count)
    sizes, ways = np.full(count, size), np.full(count, move.length / count)
    return np.stack((who, begins, sizes, ways, area, volume, depth))


def level_pieces(move: Move) -> list[tuple[float, Move]]:
    """A move as level pieces and how far along it each begins."""
    fall = move.high - move.low
    if fall <= _GRAZE:
        return [(0.0, move)]
    if move.upright:
        return [(0.0, _level(move))]
    count = math.ceil(fall / _SLOPE_STEP)
    parts = [k / count for k in range(count + 1)]
    return [(t0 * move.flat_length, _level(portion(move, t0, t1))) for t0, t1 in pairwise(parts)]


def _level(move: Move) -> Move:
    low = move.low
    return replace(move, start=(*move.start[:2], low), end=(*move.end[:2], low))


def _met(field: Field, piece: Move) -> tuple[Floats, Floats] | None:
    """The cells that a level piece cuts: how far along it, and by how much. Lowers them."""
    rows, columns = field.window(reach_of(piece))
    window = field.heights[rows, columns]
    low = piece.low
    over = window > low + _GRAZE
    heights = window[over]
    if not len(heights):
        return None
    x, y = field.across[rows, columns][over], field.along[rows, columns][over]
    hit, along, off = _reached(piece, x, y)
    left = low + height_over_tip(piece.cutter, off)
    drop = heights[hit] - left
    cut = drop > _GRAZE
    heights[hit[cut]] = left[cut]
    window[over] = heights
    return (along[cut], drop[cut]) if cut.any() else None


def reach_of(piece: Move) -> tuple[float, float, float, float]:
    """The box round what a move can reach in plan: x0, y0, x1, y1."""
    points = [piece.start[:2], piece.end[:2]]
    if piece.kind == "arc":
        cx, cy = piece.centre
        reach = max(piece.radii)
        quarter = math.pi / 2
        first, last = sorted((piece.start_angle, piece.start_angle + piece.turn))
        for number in range(math.ceil(first / quarter), math.floor(last / quarter) + 1):
            angle = number * quarter
            points.append((cx + reach * math.cos(angle), cy + reach * math.sin(angle)))
    xs, ys = zip(*points, strict=True)
    r = piece.radius
    return min(xs) - r, min(ys) - r, max(xs) + r, max(ys) + r


def _reached(piece: Move, x: Floats, y: Floats) -> tuple[NDArray[np.intp], Floats, Floats]:
    """Which of some points a piece's cutter reaches, how far along the piece it first does, and how
    near its middle ever comes to them; mm in plan."""
    return (_from_arc if piece.kind == "arc" else _from_line)(piece, x, y)


def _from_line(piece: Move, x: Floats, y: Floats) -> tuple[NDArray[np.intp], Floats, Floats]:
    (ax, ay, _), length = piece.start, piece.flat_length
    ux, uy = 1.0, 0.0
    if length > 0:
        ux, uy = (piece.end[0] - ax) / length, (piece.end[1] - ay) / length
    dx, dy = x - ax, y - ay
    aside: Floats = np.abs(dx * uy - dy * ux)
    ahead = dx * ux + dy * uy
    off = np.hypot(aside, ahead - np.minimum(np.maximum(ahead, 0.0), length))
    hit = np.flatnonzero(off <= piece.radius)
    half = np.sqrt(piece.radius**2 - aside[hit] ** 2)
    return hit, np.minimum(np.maximum(ahead[hit] - half, 0.0), length), off[hit]


def _from_arc(piece: Move, x: Floats, y: Floats) -> tuple[NDArray[np.intp], Floats, Floats]:
    """The cutter's middle is at the angle a from the arc's start; it reaches a point at the angle p
    and the distance d of the centre while cos(a - p) >= (r^2 + d^2 - R^2) / (2 r d)."""
    (cx, cy), turn = piece.centre, abs(piece.turn)
    bend = sum(piece.radii) / 2
    away: Floats = np.hypot(x - cx, y - cy)
    off = np.abs(away - bend)
    near = np.flatnonzero(off <= piece.radius + _GRAZE)
    x, y, away, off = x[near], y[near], away[near], off[near]
    angle = (np.arctan2(y - cy, x - cx) - piece.start_angle) * math.copysign(1.0, piece.turn)
    angle %= 2 * math.pi
    beyond = np.flatnonzero(angle > turn)
    (x0, y0, _), (x1, y1, _) = piece.start, piece.end
    bx, by = x[beyond], y[beyond]
    off[beyond] = np.minimum(np.hypot(bx - x0, by - y0), np.hypot(bx - x1, by - y1))
    hit = np.flatnonzero(off <= piece.radius)
    angle, away = angle[hit], away[hit]
    cosine = (bend**2 + away**2 - piece.radius**2) / np.maximum(2 * bend * away, 1e-99)
    half = np.arccos(np.minimum(np.maximum(cosine, -1.0), 1.0))
    at_start = (angle - half <= 0) | (angle + half >= 2 * math.pi)
    along = np.where(at_start, 0.0, np.minimum(angle - half, turn)) * bend
    return near[hit], along, off[hit]
