"""Which points level pieces of moves have come over, in closed form, for many points at once."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from jawcam.proof.curve import Floats
from jawcam.proof.move import Move

__all__ = ["Pieces", "distances", "pieces_of", "reached_before"]


class Pieces(NamedTuple):
    """Level pieces, the lines before the arcs, a row for each, lengths in mm and in plan.

    number: which of the moves; like: the same for those that clear the same; radius: the cutter's;
    z: of the tip; x0, y0, x1, y1: the ends; ux, uy: the way of a line, of an arc the way from its
    centre to its middle; length; cx, cy, bend, first, turn: of an arc."""

    lines: int
    number: NDArray[np.intp]
    like: NDArray[np.intp]
    radius: Floats
    z: Floats
    x0: Floats
    y0: Floats
    x1: Floats
    y1: Floats
    ux: Floats
    uy: Floats
    length: Floats
    cx: Floats
    cy: Floats
    bend: Floats
    first: Floats
    turn: Floats

    def some(self, which: NDArray[np.intp]) -> Pieces:
        """Some of the rows."""
        which = np.sort(which)
        lines = int(np.searchsorted(which, self.lines))
        table = [values[which] for values in self[3:]]
        return Pieces(lines, self.number[which], self.like[which], *table)

    def lowest(self) -> Pieces:
        """Of pieces that clear the same only the lowest."""
        order = np.lexsort((self.z, self.like))
        _, first = np.unique(self.like[order], return_index=True)
        return self.some(order[first])

    def near(self, x: float, y: float, reach: float) -> Pieces:
        """Those that come over anything within `reach` of a point, mm."""
        off = distances(self, np.array([x]), np.array([y]))[:, 0]
        return self.some(np.flatnonzero(off <= self.radius + reach))


def pieces_of(moves: Sequence[Move]) -> Pieces:
    """Level moves -> the same as arrays."""
    tracks: dict[object, int] = {}
    like = np.array([tracks.setdefault(move.track, len(tracks)) for move in moves], dtype=np.intp)
    arc = np.array([move.kind == "arc" and not move.upright for move in moves], dtype=np.bool_)
    order = np.argsort(arc, kind="stable")
    table = np.array([_row(move) for move in moves], dtype=float).reshape(len(moves), 14)
    lines = int(np.count_nonzero(~arc))
    return Pieces(lines, order, like[order], *table[order].T)


def _row(move: Move) -> tuple[float, ...]:
    (x0, y0, z), (x1, y1, _) = move.start, move.end
    length = move.flat_length
    begin = (move.radius, z, x0, y0, x1, y1)
    if move.kind == "arc":
        middle = move.start_angle + move.turn / 2
        bend, way = sum(move.radii) / 2, (math.cos(middle), math.sin(middle))
        return (*begin, *way, length, *move.centre, bend, move.start_angle, move.turn)
    way = ((x1 - x0) / length, (y1 - y0) / length) if length > 0 else (1.0, 0.0)
    return (*begin, *way, length, 0.0, 0.0, 0.0, 0.0, 0.0)


def distances(pieces: Pieces, x: Floats, y: Floats) -> Floats:
    """How near the middle of each piece's cutter comes to each of some points: (pieces, points)."""
    off = np.empty((len(pieces.z), len(x)))
    if pieces.lines:
        off[: pieces.lines] = _off_lines(pieces, slice(pieces.lines), x, y)
    if pieces.lines < len(off):
        off[pieces.lines :] = _off_arcs(pieces, slice(pieces.lines, None), x, y)
    return off


def _off_lines(pieces: Pieces, rows: slice, x: Floats, y: Floats) -> Floats:
    dx, dy = x - pieces.x0[rows, None], y - pieces.y0[rows, None]
    ux, uy, length = pieces.ux[rows, None], pieces.uy[rows, None], pieces.length[rows, None]
    ahead = dx * ux + dy * uy
    aside = dx * uy - dy * ux
    ahead -= np.minimum(np.maximum(ahead, 0.0), length)
    off: Floats = np.sqrt(ahead * ahead + aside * aside)
    return off


def _off_arcs(pieces: Pieces, rows: slice, x: Floats, y: Floats) -> Floats:
    """A point lies beside an arc, not beyond its ends, where it is off the way to its middle by
    half the turn at most."""
    dx, dy = x - pieces.cx[rows, None], y - pieces.cy[rows, None]
    away = np.sqrt(dx * dx + dy * dy)
    facing = dx * pieces.ux[rows, None] + dy * pieces.uy[rows, None]
    half = np.minimum(np.abs(pieces.turn[rows, None]) / 2, math.pi)
    beside = facing >= np.cos(half) * away - 1e-12
    ax, ay = x - pieces.x0[rows, None], y - pieces.y0[rows, None]
    bx, by = x - pieces.x1[rows, None], y - pieces.y1[rows, None]
    ends = np.sqrt(np.minimum(ax * ax + ay * ay, bx * bx + by * by))
    return np.where(beside, np.abs(away - pieces.bend[rows, None]), ends)


def reached_before(arc: Move, x: Floats, y: Floats, along: Floats) -> NDArray[np.bool_]:
    """Whether an arc's cutter has come over points before it was `along` its way, mm. Its middle at
    the angle a from the start reaches a point at the angle p and the distance d from the centre
    while cos(a - p) >= (r^2 + d^2 - R^2) / (2 r d)."""
    (cx, cy), bend = arc.centre, sum(arc.radii) / 2
    away: Floats = np.hypot(x - cx, y - cy)
    angle = (np.arctan2(y - cy, x - cx) - arc.start_angle) * math.copysign(1.0, arc.turn)
    angle %= math.tau
    cosine = (bend**2 + away**2 - arc.radius**2) / np.maximum(2 * bend * away, 1e-99)
    half = np.arccos(np.minimum(np.maximum(cosine, -1.0), 1.0))
    at_start = (angle - half <= 0) | (angle + half >= math.tau)
    since = np.where(at_start, 0.0, angle - half) * bend
    before: NDArray[np.bool_] = since < along - _JUST
    return before


_JUST = 1e-4
"""mm of way; what the cutter reaches since is reached now."""
