"""What still stands of the blanks round the part of a tool above its flutes, move by move.

Material that stays for good, or until a tool has done, is found at once for all its moves. Only
what is cut meanwhile is looked for move by move, near those moves alone that come close to it.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import pairwise

import numpy as np
import shapely

from jawcam.proof.bodies import Body
from jawcam.proof.move import Move, below, portion, slices
from jawcam.proof.stock import Stock
from jawcam.proof.sweep import path, swept

__all__ = ["Met", "first_met", "rise"]

FEW = 4
"""So few moves are looked at one by one."""

Met = tuple[Move, shapely.Geometry]
"""A move, or the slice of it, and what its body meets in plan."""


def first_met(stock: Stock, moves: Sequence[Move], body: Body, lift: float) -> Met | None:
    """The first of some moves, in order, on which a body meets what stands; None if none does.
    lift: by how much the body is taken higher."""
    under = body.height + lift
    low = [move for move in moves if move.low + under < stock.top]
    return _first(stock, low, body.radius, under)


def _first(stock: Stock, moves: Sequence[Move], radius: float, under: float) -> Met | None:
    """The same, by halves, as ever less stands. under: how far above its tip the body begins."""
    if not moves:
        return None
    stands = stock.uncut(stock.solid, min(move.low for move in moves) + under, moves[0].index)
    near = _close(moves, stands, radius)
    if len(near) <= FEW:
        return next((met for move in near for met in _met(stock, move, radius, under)), None)
    half = len(near) // 2
    before = _first(stock, near[:half], radius, under)
    return before or _first(stock, near[half:], radius, under)


def rise(stock: Stock, moves: Sequence[Move], radius: float, lift: float) -> float:
    """How far what stands within a radius of the way of a tool's moves rises above their tips at
    most, mm, 0 if nothing does; of a sloping move above its lowest. lift: heights nearer than this
    are one."""
    floors = np.unique(stock.low[stock.low == stock.high])[::-1].tolist()
    heights = [stock.top, *(z for z in floors if z < stock.top - lift)]
    most = 0.0
    for high, floor in pairwise([*heights, -np.inf]):
        z = floor + lift
        some = _above(moves, high, most)
        if not some:
            break
        stays = shapely.difference(stock.solid, stock.cleared(z))
        most = max([most, *(high - move.low for move in _close(some, stays, radius))])
        most = _higher(stock, _above(some, high, most), radius, (high, z), most)
    return most


def _above(moves: Sequence[Move], high: float, most: float) -> list[Move]:
    """The moves that a height is farther above than `most`."""
    return [move for move in moves if high - move.low > most]


def _higher(
    stock: Stock,
    moves: Sequence[Move],
    radius: float,
    band: tuple[float, float],
    most: float,
) -> float:
    """The farthest that the upper end of a band of heights is above the tips of those moves that
    meet anything in it, by halves; `most` if that is more."""
    if not moves:
        return most
    high, z = band
    near = _close(moves, stock.uncut(stock.solid, z, moves[0].index), radius)
    if len(near) <= FEW:
        met = (m for m in near if not _uncut(stock, m, radius, z, m).is_empty)
        return max([most, *(high - move.low for move in met)])
    stands = stock.uncut(stock.solid, z, near[-1].index)  # and so before each of the others too
    most = max([most, *(high - move.low for move in _close(near, stands, radius))])
    half = len(near) // 2
    for part in (near[:half], near[half:]):
        most = _higher(stock, _above(part, high, most), radius, band, most)
    return most


def _close(moves: Sequence[Move], stands: shapely.Geometry, radius: float) -> list[Move]:
    """The moves whose way comes within a radius of what stands."""
    if not moves or stands.is_empty:
        return []
    tracks = np.array([path(move) for move in moves], dtype=object)
    shapely.prepare(stands)
    near = shapely.dwithin(stands, tracks, radius)
    return [move for move, yes in zip(moves, near, strict=True) if yes]


def _met(stock: Stock, move: Move, radius: float, under: float) -> Iterator[Met]:
    """What a body meets on a move, slice by slice of a sloping one."""
    pieces = slices(move)
    for number, piece in enumerate(pieces, start=1):
        so_far = portion(move, 0.0, number / len(pieces))
        met = _uncut(stock, piece, radius, piece.low + under, so_far)
        if not met.is_empty:
            yield piece, met


def _uncut(stock: Stock, move: Move, radius: float, z: float, own: Move) -> shapely.Geometry:
    """What stands above `z` within a radius of a move's way, before it and without what the cutter
    itself has cleared there. own: the move so far."""
    if z >= stock.top:
        return shapely.Polygon()
    wide = replace(move, cutter=replace(move.cutter, dia=2 * radius))
    met = stock.uncut(shapely.union_all(swept([wide])[0]), z, move.index)
    cleared = below(own, z) if own.kind != "rapid" else None
    if met.is_empty or cleared is None:
        return met
    return shapely.difference(met, shapely.union_all(swept([cleared])[0]))
