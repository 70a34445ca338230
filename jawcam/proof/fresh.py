"""The fresh width of a cutter all along a program, exact but for rounding.

At each step the front half of the cutter's edge is looked at: the parts of it that no move before
has come over are cutting. The cutter is a disc, so that whichever way its path bends, the part of
its edge between the angles a and b off the way ahead takes R (sin b - sin a) in area for each mm of
way: the sum is the fresh width, on a straight front R (1 - cos of the engaged angle). Where a part
begins and ends is found by looking closer and closer. A part narrower than R pi / 64 may be missed
at a step, but comes under another place of the edge a little farther on.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Sequence
from typing import NamedTuple

import numpy as np
import shapely
from numpy.typing import NDArray

from jawcam.proof.covered import Pieces, distances, pieces_of, reached_before
from jawcam.proof.curve import Floats
from jawcam.proof.field import level_pieces, reach_of
from jawcam.proof.move import Move, moves_in, raised
from jawcam.reader.cuts import Program
from jawcam.tools.cutter import Cutter

__all__ = ["Fresh", "fresh_widths"]

_FAN = np.linspace(-math.pi / 2, math.pi / 2, 65)
"""Where on its edge a cutter is looked at: angles off the way ahead."""

_FAN_CHORD = 1e-3
"""Of the radius; the edge lies no farther off the chords between those places."""

_ROUNDS, _SHARES = 5, np.linspace(0.0, 1.0, 9)
"""How often it is looked closer at where a part begins or ends, and where between the last two."""

_ROWS = 32  # steps that are worked out at once
_SLACK = 1e-6  # mm; so near its edge a cutter may have come over a point or not


class Fresh(NamedTuple):
    """Steps of one tool's way at feed, in order, a row for each.

    line: of the program; x, y, z: the tip half-way through the step, in the program's axes, mm;
    way: the step's length in plan, mm; feed: mm/min; width: cut fresh there, mm; depth: the
    thickest that is cut there, mm; falls: whether the tip goes down meanwhile, as into the work.
    """

    line: NDArray[np.intp]
    x: Floats
    y: Floats
    z: Floats
    way: Floats
    feed: Floats
    width: Floats
    depth: Floats
    falls: NDArray[np.bool_]


def fresh_widths(
    program: Program,
    cutters: Sequence[Cutter],
    tool: int,
    *,
    solid: shapely.Geometry | None = None,
    top: float = 0.0,
    work_offset: int = 1,
    step: float | None = None,
) -> Fresh:
    """What the tool of that number cuts fresh, all along its way at feed, from the program alone.

    cutters: all whose moves clear something; they count as flat-ended, drills from their full
    diameter up. solid: the material in plan, in the program's axes and mm, None = everywhere; top:
    its height; step: the most that a step may be long, mm, None = a fortieth of the diameter. Moves
    straight up or down clear, but have no rows; rapids clear nothing. Raises KeyError when none of
    the cutters has that number.
    """
    dia = {cutter.number: cutter.dia for cutter in cutters}[tool]
    moves = [m for m in moves_in(program, cutters, work_offset, top) if m.kind != "rapid"]
    whole = [(m, piece) for m in moves for _, piece in level_pieces(_as_flat(m))]
    edge = _edge_of([piece for _, piece in whole], solid, top)
    blocks = [
        _with_move(m, program, block)
        for number, (m, piece) in enumerate(whole)
        if m.cutter.number == tool and not piece.upright
        for block in edge.blocks(number, piece, step or dia / 40)
    ]
    line, x, y, z, way, feed, width, depth, falls = (
        np.concatenate(blocks, axis=1) if blocks else np.empty((9, 0))
    )
    return Fresh(line.astype(np.intp), x, y, z, way, feed, width, depth, falls > 0)


def _as_flat(move: Move) -> Move:
    """A drill clears its full diameter above its point only."""
    return raised(move, move.cutter.point_length) if move.cutter.kind == "drill" else move


def _with_move(move: Move, program: Program, block: Floats) -> Floats:
    """Rows of x, y, z, way, width and depth -> all that `Fresh` holds."""
    x, y, z, way, width, depth = block
    like = np.ones_like(x)
    feed = program.cuts[move.index].feed * like
    falls = float(move.end[2] < move.start[2]) * like
    return np.stack((move.line * like, x, y, z, way, feed, width, depth, falls))


class _Steps(NamedTuple):
    """Steps of a piece, its number among all; along: how far on its way each is, x, y: where;
    heading: which way it goes there, radians."""

    number: int
    piece: Move
    along: Floats
    x: Floats
    y: Floats
    heading: Floats

    def on_edge(self, rows: NDArray[np.intp], off: Floats) -> tuple[Floats, Floats, Floats]:
        """Points on the cutter's edge, angles off the way ahead, and how far along that is."""
        at, r = self.heading[rows] + off, self.piece.radius
        x: Floats = self.x[rows] + r * np.cos(at)
        y: Floats = self.y[rows] + r * np.sin(at)
        return x, y, self.along[rows]


Look = Callable[[Floats, Floats, Floats], Floats]
"""Points x, y, each at its place along the way -> how high the material stands there."""


class _Edge(NamedTuple):
    """All pieces; rows: where each of them, in order, is among those; tree: where they reach."""

    pieces: Pieces
    rows: NDArray[np.intp]
    tree: shapely.STRtree
    solid: shapely.Geometry | None
    top: float

    def blocks(self, number: int, piece: Move, step: float) -> Iterator[Floats]:
        """x, y, z, way, width and depth of a piece's steps, (6, n), some at a time."""
        count = max(1, math.ceil(piece.flat_length / step - 1e-9))
        way = piece.flat_length / count
        for along in np.array_split((np.arange(count) + 0.5) * way, math.ceil(count / _ROWS)):
            steps = _Steps(number, piece, along, *_places(piece, along))
            width, depth = _cut(steps, self._looking(steps))
            same = np.ones_like(along)
            yield np.stack((steps.x, steps.y, piece.low * same, way * same, width, depth))

    def _looking(self, steps: _Steps) -> Look:
        """What looks at the pieces near these steps only."""
        piece = steps.piece
        rows = np.repeat(np.arange(len(steps.x)), len(_FAN))
        x, y, _ = steps.on_edge(rows, np.tile(_FAN, len(steps.x)))
        over = piece.radius * _FAN_CHORD
        x0, x1 = float(x.min()) - over, float(x.max()) + over
        y0, y1 = float(y.min()) - over, float(y.max()) + over
        some = self.tree.query(shapely.box(x0, y0, x1, y1))
        before = self.pieces.some(self.rows[some[some < steps.number]]).lowest()
        pieces = before.near((x0 + x1) / 2, (y0 + y1) / 2, math.hypot(x1 - x0, y1 - y0) / 2)

        def look(x: Floats, y: Floats, along: Floats) -> Floats:
            over = distances(pieces, x, y) <= pieces.radius[:, None] + _SLACK
            stands = np.where(over, pieces.z[:, None], self.top)
            heights: Floats = stands.min(axis=0, initial=self.top)
            if piece.kind == "arc":
                own = reached_before(piece, x, y, along)
                heights = np.where(own, np.minimum(heights, piece.low), heights)
            if self.solid is None:
                return heights
            solid: NDArray[np.bool_] = shapely.contains_xy(self.solid, x, y)
            return np.where(solid, heights, -np.inf)

        return look


def _edge_of(pieces: Sequence[Move], solid: shapely.Geometry | None, top: float) -> _Edge:
    table = pieces_of(pieces)
    boxes = np.array([reach_of(piece) for piece in pieces], dtype=float).reshape(len(pieces), 4)
    if solid is not None:
        shapely.prepare(solid)
    return _Edge(
        table, np.argsort(table.number), shapely.STRtree(shapely.box(*boxes.T)), solid, top
    )


def _cut(steps: _Steps, look: Look) -> tuple[Floats, Floats]:
    """Width and depth of each step."""
    rows, low = np.arange(len(steps.x)), steps.piece.low
    fan = np.tile(_FAN, len(rows))
    heights = look(*steps.on_edge(np.repeat(rows, len(_FAN)), fan)).reshape(len(rows), len(_FAN))
    cuts = heights > low + _SLACK
    both = (cuts[:, :-1] & cuts[:, 1:]).astype(float)
    width: Floats = both @ np.diff(np.sin(_FAN))
    row, k = np.nonzero(cuts[:, :-1] != cuts[:, 1:])
    if len(row):
        begin = _FAN[k + ~cuts[row, k]]
        inside, outside = begin, _FAN[k + cuts[row, k]]
        each, pairs = np.repeat(row, len(_SHARES) - 2), np.arange(len(row))
        for _ in range(_ROUNDS):
            grid = inside[:, None] + (outside - inside)[:, None] * _SHARES
            met = look(*steps.on_edge(each, grid[:, 1:-1].ravel())) > low + _SLACK
            cutting = np.cumprod(met.reshape(len(row), -1), axis=1).sum(axis=1)
            inside, outside = grid[pairs, cutting], grid[pairs, cutting + 1]
        np.add.at(width, row, np.abs(np.sin((inside + outside) / 2) - np.sin(begin)))
    depth: Floats = np.where(cuts, heights - low, 0.0).max(axis=1)
    return steps.piece.radius * width, depth


def _places(piece: Move, along: Floats) -> tuple[Floats, Floats, Floats]:
    """x, y and the heading at some places of a piece's way."""
    (x0, y0, _), (x1, y1, _) = piece.start, piece.end
    if piece.kind != "arc":
        t = along / piece.flat_length
        heading = np.full(len(along), math.atan2(y1 - y0, x1 - x0))
        return x0 + (x1 - x0) * t, y0 + (y1 - y0) * t, heading
    sense, bend = math.copysign(1.0, piece.turn), sum(piece.radii) / 2
    angle = piece.start_angle + sense * along / bend
    (cx, cy), side = piece.centre, sense * math.pi / 2
    return cx + bend * np.cos(angle), cy + bend * np.sin(angle), angle + side
