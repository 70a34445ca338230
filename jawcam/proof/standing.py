"""What still stands of the blanks round the part of a tool above its flutes, move by move.

Material that stays for good is found at once for all moves. Only what is cut later, and so stands
at the time, is looked for move by move, near those moves alone that come close to it.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import groupby, pairwise

import numpy as np
import shapely

from jawcam.proof.bodies import Body
from jawcam.proof.move import Move, below, portion, slices
from jawcam.proof.stock import Stock
from jawcam.proof.sweep import path, swept

__all__ = ["Met", "first_met", "rise"]

Met = tuple[Move, shapely.Geometry]
"""A move, or the slice of it, and what its body meets in plan."""


def first_met(stock: Stock, moves: Sequence[Move], body: Body, lift: float) -> Met | None:
    """The first of some moves, in order, on which a body meets what stands; None if none does.
    lift: by how much the body is taken higher."""
    under = body.height + lift
    low = [move for move in moves if move.low + under < stock.top]
    for near in _near(stock, low, body.radius, under):
        for move in near:
            for met in _met(stock, move, body.radius, under):
                return met
    return None


def rise(stock: Stock, moves: Sequence[Move], radius: float, lift: float) -> float:
    """How far what stands within a radius of the way of some moves rises above their tips at most,
    mm, 0 if nothing does; of a sloping move above its lowest. lift: heights nearer than this are
    one."""
    floors = np.unique(stock.low[stock.low == stock.high])[::-1].tolist()
    heights = [stock.top, *(z for z in floors if z < stock.top - lift)]
    most = 0.0
    for high, floor in pairwise([*heights, -np.inf]):
        some = [move for move in moves if high - move.low > most]
        if not some:
            break
        stays = shapely.difference(stock.solid, stock.cleared(floor + lift))
        tracks = np.array([path(move) for move in some], dtype=object)
        shapely.prepare(stays)
        found = shapely.dwithin(stays, tracks, radius)
        most = max([most, *(high - m.low for m, yes in zip(some, found, strict=True) if yes)])
        some = [move for move in some if high - move.low > most]
        for near in _near(stock, some, radius, None, floor + lift):
            for move in sorted(near, key=lambda move: move.low):
                if high - move.low > most and _met_at(stock, move, radius, floor + lift):
                    most = high - move.low
    return most


def _near(
    stock: Stock,
    moves: Sequence[Move],
    radius: float,
    under: float | None,
    z: float = 0.0,
) -> Iterator[list[Move]]:
    """Of each run of moves those that come within a radius of what stands before the run. under:
    how far above the tips that counts from, or else from the height `z` on."""
    floors = np.unique(stock.low[stock.low == stock.high])
    runs = groupby(moves, lambda m: 0 if under is None else np.searchsorted(floors, m.low + under))
    for _, some in runs:
        run = list(some)
        height = z if under is None else min(move.low for move in run) + under
        stands = stock.uncut(stock.solid, height, run[0].index)
        tracks = np.array([path(move) for move in run], dtype=object)
        shapely.prepare(stands)
        close = shapely.dwithin(stands, tracks, radius)
        yield [move for move, yes in zip(run, close, strict=True) if yes]


def _met(stock: Stock, move: Move, radius: float, under: float) -> Iterator[Met]:
    """What a body meets on a move, slice by slice of a sloping one."""
    pieces = slices(move)
    for number, piece in enumerate(pieces, start=1):
        so_far = portion(move, 0.0, number / len(pieces))
        met = _uncut(stock, piece, radius, piece.low + under, so_far)
        if not met.is_empty:
            yield piece, met


def _met_at(stock: Stock, move: Move, radius: float, z: float) -> bool:
    return not _uncut(stock, move, radius, z, move).is_empty


def _uncut(stock: Stock, move: Move, radius: float, z: float, own: Move) -> shapely.Geometry:
    """What stands above `z` within a radius of a move's way, before it and without what the cutter
    itself has cleared there. own: the move so far."""
    wide = replace(move, cutter=replace(move.cutter, dia=2 * radius))
    met = stock.uncut(shapely.union_all(swept([wide])[0]), z, move.index)
    cleared = below(own, z) if own.kind != "rapid" else None
    if met.is_empty or cleared is None:
        return met
    return shapely.difference(met, shapely.union_all(swept([cleared])[0]))
