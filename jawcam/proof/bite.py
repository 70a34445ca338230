"""What the cutters bite off all along a program: how wide, how deep, how much a minute.

A bite is told as the mean over a quarter of the cutter's diameter of way, as a person would say it;
what a sharp corner makes of it for a moment is more. Cells are `CELLS` to the smallest cutter's
diameter.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

import numpy as np
import shapely
from numpy.typing import NDArray

from jawcam.proof.curve import Floats
from jawcam.proof.field import Taken, field_of, reach_of, take
from jawcam.proof.move import Move, Point3

__all__ = ["WINDOW", "Bites", "bites_of", "sums", "windows"]

CELLS, FINE = 40.0, 16.0
"""Cells and steps to a diameter."""

MOST_CELLS = 1e6
"""In all, for the sake of time: figures are told with every proof."""

WINDOW = 0.25
"""Diameters of way over which a bite is told."""


@dataclass(frozen=True)
class Bites:
    """The bites of feed moves, in order, a row for each step of their way.

    number: of its move in `moves`; width: of what is cut fresh, mm, 0 while the cutter goes up or
    down; thick: how thick it is on the average there, mm; depth: the thickest that is cut in one
    go, mm; rate: mm3/min, 0 where the program gives no feed; volume: mm3; way: the step's length,
    mm; cut: how much of it meets material, mm; run: the same number for steps that follow each
    other at one height.
    """

    moves: tuple[Move, ...]
    number: NDArray[np.intp]
    along: Floats
    way: Floats
    width: Floats
    thick: Floats
    depth: Floats
    rate: Floats
    volume: Floats
    cut: Floats
    run: NDArray[np.intp]

    def move(self, row: int) -> Move:
        """The move that a step is of."""
        return self.moves[int(self.number[row])]

    def place(self, row: int) -> Point3:
        """Where the tip is when a step begins; of a move straight down its end."""
        move = self.move(row)
        return move.end if move.upright else move.at(self.along[row] / move.flat_length)

    def by(self, tool: int) -> NDArray[np.intp]:
        """The rows of one tool."""
        own = np.array([move.cutter.number == tool for move in self.moves], dtype=np.bool_)
        return np.flatnonzero(own[self.number])


def bites_of(
    moves: Sequence[Move], feeds: Sequence[float], solid: shapely.Geometry, top: float
) -> Bites:
    """Feed moves, in order, and the mm/min of each -> their bites out of a solid up to `top`."""
    taken = _taken(moves, solid, top)
    run = _runs(moves, taken)
    first, last = windows(taken.way, run, _window(moves, taken))
    feed = np.array([*feeds, 0.0], dtype=float)[taken.move]
    upright = taken.length == 0
    # in the air above its cut, a move straight down bites nothing
    way = np.where(upright, np.minimum(taken.depth, taken.way), taken.way)
    length, area = sums(taken.length, first, last), sums(taken.area, first, last)
    volume, travel = sums(taken.volume, first, last), sums(way, first, last)
    short = np.where(upright, 0.0, _window(moves, taken))  # less way than this tells too much
    time = _per(sums(_per(way, feed), first, last) * np.maximum(travel, short), travel)
    slow = sums(np.where(feed > 0, 0.0, 1.0), first, last) > 0
    return Bites(
        tuple(moves),
        taken.move,
        taken.along,
        taken.way,
        np.minimum(_per(area, np.maximum(length, short)), _window(moves, taken) / WINDOW),
        _per(volume, area),
        taken.depth,
        np.where(slow, 0.0, _per(volume, time)),
        taken.volume,
        _cut(moves, taken, run, way),
        run,
    )


def _taken(moves: Sequence[Move], solid: shapely.Geometry, top: float) -> Taken:
    """What they take of a field just large enough."""
    if not moves or solid.is_empty:
        box, cell = (0.0, 0.0, 1.0, 1.0), 1.0
    else:
        boxes = np.array([reach_of(move) for move in moves])
        within = np.array(solid.bounds)
        low = np.clip(boxes[:, :2].min(axis=0), within[:2], within[2:])
        high = np.clip(boxes[:, 2:].max(axis=0), within[:2], within[2:])
        box = (*low.tolist(), *high.tolist())
        cell = min(move.cutter.dia for move in moves) / CELLS
    return take(field_of(solid, top, box, cell, MOST_CELLS), moves, FINE)


def _runs(moves: Sequence[Move], taken: Taken) -> NDArray[np.intp]:
    """The number of the run that each row is in."""
    if not len(taken.move):
        return taken.move
    begins = [True]
    for a, b in pairwise(moves):
        level = a.low == a.high == b.low == b.high
        begins.append(not level or a.end != b.start or a.cutter != b.cutter)
    runs: NDArray[np.intp] = (np.cumsum(begins) - 1)[taken.move]
    return runs


def _window(moves: Sequence[Move], taken: Taken) -> Floats:
    """Over how much way each row's bite is told, mm."""
    dias = np.array([*(move.cutter.dia for move in moves), 0.0])
    window: Floats = WINDOW * dias[taken.move]
    return window


def windows(
    way: Floats, run: NDArray[np.intp], wide: Floats
) -> tuple[NDArray[np.intp], NDArray[np.intp]]:
    """The first and the last of the rows that each row's bite is told over: from the row itself
    on, near its run's end from as far back as needed. way: of each row, mm; run: the number of the
    run that it is in, rising; wide: over how much way its bite is told, mm."""
    ends = np.cumsum(way)
    starts, rows = ends - way, np.arange(len(ends))
    opens = np.searchsorted(run, run, side="left")
    closes = np.searchsorted(run, run, side="right") - 1
    back = np.searchsorted(starts, ends[closes] - wide + 1e-9, side="right") - 1
    first = np.maximum(np.minimum(rows, back), opens)
    last = np.minimum(np.searchsorted(ends, starts[first] + wide - 1e-9), closes)
    return first, np.maximum(last, first)


def sums(values: Floats, first: NDArray[np.intp], last: NDArray[np.intp]) -> Floats:
    """What the values of the rows from `first` to `last` come to, row by row."""
    total = np.concatenate(([0.0], np.cumsum(values)))
    found: Floats = np.maximum(total[last + 1] - total[first], 0.0)
    return found


def _per(a: Floats, b: Floats) -> Floats:
    """Divide, 0 where b is 0."""
    return np.divide(a, b, out=np.zeros_like(a), where=b > 1e-12)


def _cut(moves: Sequence[Move], taken: Taken, run: NDArray[np.intp], way: Floats) -> Floats:
    """How much of each row's way meets material. Thin bites are found by few cells: what lies
    between two rows of a run that meet some, no farther apart than a window, does too."""
    met = np.flatnonzero(taken.volume > 0)
    cut = np.zeros_like(way)
    cut[met] = way[met]
    ends = np.cumsum(taken.way)
    wide = _window(moves, taken)
    for a, b in pairwise(met.tolist()):
        if b - a > 1 and run[a] == run[b] and ends[b - 1] - ends[a] <= wide[a]:
            cut[a + 1 : b] = way[a + 1 : b]
    return cut
