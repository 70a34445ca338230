"""The cutter's path made ready to draw: arcs flattened, moves of one look joined to strands."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from jawcam.show.arrays import Floats, Ints, Moves
from jawcam.units import Units

__all__ = ["ENTRY", "FEED", "RAPID", "Strands", "Trace", "flatten", "in_units", "strands"]

RAPID, FEED, ENTRY = 0, 1, 2
"""The looks of a move; ENTRY is any feed move that rises or falls."""


@dataclass(frozen=True)
class Trace:
    """Straight pieces in the order of the program: start and end (n, 3), the look of each and
    the number of the move that it belongs to.
    """

    start: Floats
    end: Floats
    look: Ints
    move: Ints


@dataclass(frozen=True)
class Strands:
    """Polylines of one look: points (k, 3) of each, and the middle Z of each, (n,)."""

    points: tuple[Floats, ...]
    z: Floats


def flatten(moves: Moves, chord: float) -> Trace:
    """Moves -> straight pieces; no piece is farther than `chord` off its arc. Ends are exact."""
    count = _pieces(moves, chord)
    look = np.where(moves.rapid, RAPID, np.where(moves.level, FEED, ENTRY)).astype(np.int8)
    move: Ints = np.repeat(np.arange(len(count), dtype=np.int32), count)
    last = np.cumsum(count, dtype=np.int64) - 1
    ends = moves.end[move]
    inner = np.ones(len(move), dtype=np.bool_)
    inner[last] = False
    within = np.flatnonzero(inner)
    owner = move[within]
    step = within - (last - count)[owner]
    ends[within] = _on_arc(moves, owner, step / count[owner])
    starts = np.empty_like(ends)
    starts[1:] = ends[:-1]
    starts[last - count + 1] = moves.start
    return Trace(starts, ends, look[move], move)


def in_units(trace: Trace, units: Units) -> Trace:
    """A trace in mm -> the same in other units."""
    if units is Units.MM:
        return trace
    return replace(trace, start=trace.start / units.in_mm, end=trace.end / units.in_mm)


def strands(trace: Trace, look: int) -> Strands:
    """The pieces of one look, joined where one follows the other without a gap and, in level
    feed moves, at the same Z; from the highest strand to the deepest.
    """
    chosen = np.flatnonzero(trace.look == look)
    if len(chosen) == 0:
        return Strands((), np.zeros(0))
    begin, end = trace.start[chosen], trace.end[chosen]
    cut = (begin[1:] != end[:-1]).any(axis=1)
    if look == FEED:
        level = np.round(end[:, 2], 9)
        cut |= level[1:] != level[:-1]
    first = np.concatenate([[0], np.flatnonzero(cut) + 1])
    last = np.concatenate([first[1:], [len(chosen)]])
    points = [np.vstack([begin[a : a + 1], end[a:b]]) for a, b in zip(first, last, strict=True)]
    middle = np.array([(line[:, 2].min() + line[:, 2].max()) / 2 for line in points])
    order = np.argsort(-middle, kind="stable")
    return Strands(tuple(points[i] for i in order), middle[order])


def _pieces(moves: Moves, chord: float) -> Ints:
    """How many straight pieces each move takes: sagitta = r (1 - cos(half angle)) <= chord.

    Upright arcs take ten times as many, since the deepest point is read from them.
    """
    radius = np.maximum(*moves.radii)
    finer = np.where(moves.upright, chord / 100, chord)
    share = np.clip(finer / np.maximum(radius, chord), 1e-8, 0.3)
    pieces = np.ceil(np.abs(moves.turn) / (2 * np.arccos(1 - share)))
    return np.where(moves.arc, np.maximum(pieces, 1), 1).astype(np.int64)


def _on_arc(moves: Moves, move: Ints, share: Floats) -> Floats:
    """Points at `share` of the way along the given moves, which are arcs."""
    first, second, third = moves.axes[move].T
    rows = np.arange(len(move))
    start, end, centre = moves.start[move], moves.end[move], moves.centre[move]
    angle = np.arctan2(start[rows, second] - centre[:, 1], start[rows, first] - centre[:, 0])
    angle += share * moves.turn[move]
    at_start, at_end = (radii[move] for radii in moves.radii)
    radius = at_start + share * (at_end - at_start)
    points = np.empty((len(move), 3))
    points[rows, first] = centre[:, 0] + radius * np.cos(angle)
    points[rows, second] = centre[:, 1] + radius * np.sin(angle)
    points[rows, third] = start[rows, third] + share * (end[rows, third] - start[rows, third])
    return points
