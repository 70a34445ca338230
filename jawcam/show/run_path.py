"""The path in the order of its moves, as a run through the program needs it: at any move, what is
done until then.

Each way of drawing, rapid or feed at about one depth, has one line for all its stretches, with gaps
between them; what is done is the first part of each line.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from jawcam.show.arrays import Bools, Floats, Ints
from jawcam.show.trace import Trace

__all__ = ["Drawn", "RunPath", "run_path", "slimmed"]

MOST = 200_000
"""So many pieces are drawn at once; a longer path is drawn as finely as that allows."""

COARSEST = 4000
"""The path's extent by the finest squares that it is slimmed to."""


@dataclass(frozen=True)
class Drawn:
    """One line with gaps (rows of nan), and after which of its points each piece is done."""

    points: Floats
    pieces: Ints
    after: Ints

    def until(self, piece: int) -> Floats:
        """What is done when the first `piece` pieces of the path are."""
        count = int(np.searchsorted(self.pieces, piece))
        done: Floats = self.points[: int(self.after[count - 1]) if count else 0]
        return done


@dataclass(frozen=True)
class RunPath:
    """The lines of each way of drawing, by its number, and how many pieces are done after each
    move, (moves,)."""

    drawn: dict[int, Drawn]
    done: Ints


def run_path(trace: Trace, seen: tuple[Floats, Floats], ways: Ints, moves: int) -> RunPath:
    """seen: start and end of each piece of the trace in a view, (n, 2) each; ways: the way of
    drawing of each; moves: how many there are."""
    start, end = seen
    lines = {}
    for way in np.unique(ways).tolist():
        pieces = np.flatnonzero(ways == way)
        first, last = start[pieces], end[pieces]
        fresh = np.ones(len(pieces), dtype=np.bool_)
        fresh[1:] = (first[1:] != last[:-1]).any(axis=1)
        after = np.cumsum(np.where(fresh, 3, 1))
        points = np.full((int(after[-1]), 2), np.nan)
        points[after - 1] = last
        points[after[fresh] - 2] = first[fresh]
        lines[int(way)] = Drawn(points, pieces, after)
    done = np.searchsorted(trace.move, np.arange(moves), side="right")
    return RunPath(lines, done)


def slimmed(trace: Trace) -> Trace:
    """A trace of no more pieces than can be drawn at once, about: those that follow each other
    within one small square, or cube, are joined, larger ones as long as there are too many."""
    if len(trace.look) <= MOST:
        return trace
    low = np.minimum(trace.start.min(axis=0), trace.end.min(axis=0))
    high = np.maximum(trace.start.max(axis=0), trace.end.max(axis=0))
    size = float((high - low).max()) / COARSEST
    while True:
        slim = _joined(trace, low, size)
        if len(slim.look) <= MOST or size * 40 > float((high - low).max()):
            return slim
        size *= 2


def _joined(trace: Trace, low: Floats, size: float) -> Trace:
    cells = np.floor((trace.end - low) / size)
    new: Bools = np.ones(len(trace.look), dtype=np.bool_)  # begins a piece of the slimmer trace
    new[1:] = (
        (cells[1:] != cells[:-1]).any(axis=1)
        | (trace.look[1:] != trace.look[:-1])
        | (trace.start[1:] != trace.end[:-1]).any(axis=1)
    )
    first = np.flatnonzero(new)
    last = np.append(first[1:], len(new)) - 1
    return Trace(trace.start[first], trace.end[last], trace.look[first], trace.move[last])
