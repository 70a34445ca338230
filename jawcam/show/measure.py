"""What a program amounts to: lengths, times, its deepest point, the tools it calls."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from operator import attrgetter

import numpy as np

from jawcam.reader.cuts import Cut
from jawcam.show.arrays import Moves
from jawcam.show.trace import RAPID, Trace

__all__ = ["Measures", "in_order", "measure"]


@dataclass(frozen=True)
class Measures:
    """cutting, rapid: path lengths in mm; minutes, rapid_minutes: the time they take at the
    programmed feeds and at the rapid rate, stops and speeding up left out; unfed: how many feed
    moves have no feed. first: number of the first feed move, deepest: of the one that first gets
    to the lowest Z; both None when the program only moves rapidly. lowest: that point, mm.
    """

    cutting: float
    rapid: float
    minutes: float
    rapid_minutes: float
    unfed: int
    first: int | None
    deepest: int | None
    lowest: tuple[float, float, float] | None


def measure(moves: Moves, trace: Trace, rapid_rate: float) -> Measures:
    """Moves and their trace, both in mm -> measures; `rapid_rate` in mm/min, above 0."""
    length, feeding = moves.length, ~moves.rapid
    fed = feeding & (moves.feed > 0)
    rapid = float(length[moves.rapid].sum())
    deepest, lowest = _deepest(trace)
    return Measures(
        cutting=float(length[feeding].sum()),
        rapid=rapid,
        minutes=float((length[fed] / moves.feed[fed]).sum()),
        rapid_minutes=rapid / rapid_rate,
        unfed=int((feeding & ~fed).sum()),
        first=int(np.argmax(feeding)) if feeding.any() else None,
        deepest=deepest,
        lowest=lowest,
    )


def _deepest(trace: Trace) -> tuple[int | None, tuple[float, float, float] | None]:
    """The first feed move that gets to the lowest Z, and the point where it does."""
    pieces = np.flatnonzero(trace.look != RAPID)
    if len(pieces) == 0:
        return None, None
    heights = np.stack([trace.start[pieces, 2], trace.end[pieces, 2]], axis=1)
    row, last = divmod(int(np.argmin(heights)), 2)
    piece = int(pieces[row])
    x, y, z = (trace.end if last else trace.start)[piece].tolist()
    return int(trace.move[piece]), (x, y, z)


def in_order(cuts: Sequence[Cut], what: str) -> list[int]:
    """The values of the cuts' field `what` in the order in which they first come up."""
    return list(dict.fromkeys(map(attrgetter(what), cuts)))
