"""In which order several places are visited: by a short way from one to the next.

Each place is come to at one point and left at another. First each is followed by the nearest that
is left; then a stretch of the order is turned round (2-opt: Croes, Operations Research 6(6), 1958)
or up to three places in a row are moved elsewhere, either way round (Or-opt: Or, thesis,
Northwestern University, 1976; both from memory), whichever saves most, until nothing does. Where
there are few places that is tried from several of them.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from itertools import pairwise
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from jawcam.geometry.shapes import Point

__all__ = ["Stop", "in_order", "way_between"]

MOVED = 3
"""The most places in a row that are moved together."""

TRIED = 400
"""Places in all the orders that are tried, so that many places don't take long; of half as many
places one order only is bettered."""

FINEST = 1e4  # to the mm: in whole numbers rounding decides nothing, and every change is an end

Ways = NDArray[np.int64]


class Stop(NamedTuple):
    """A place to visit: where the cutter gets to it and where it is when all is done there, seen
    from above, in mm."""

    start: Point
    end: Point


def in_order(stops: Sequence[Stop], here: Point | None = None) -> list[int]:
    """The numbers of the stops in the order in which they are visited.

    here: where the cutter is; None where nobody knows, so that the way to the first one doesn't
    count. The way between the stops is never longer than in the order given, nor than from each to
    the nearest; the same stops give the same order.
    """
    if len(stops) < 2:
        return list(range(len(stops)))
    ways = _ways(stops, here)
    tries = [_nearest(ways, first) for first in _firsts(stops, ways)]
    tries.append([*range(len(stops) + 1), 0])
    if len(stops) > TRIED // 2:  # from the best of them only
        tries = [min(tries, key=lambda order: _length(order, ways))]
    better = (_bettered(order, ways) for order in tries)
    best = min(better, key=lambda order: _length(order, ways))
    return [number - 1 for number in best[1:-1]]


def way_between(stops: Sequence[Stop], here: Point | None = None) -> float:
    """How far it is from stop to stop in the order given, from where the cutter is, mm."""
    legs = [math.dist(a.end, b.start) for a, b in pairwise(stops)]
    if here is not None and stops:
        legs.append(math.dist(here, stops[0].start))
    return math.fsum(legs)


def _ways(stops: Sequence[Stop], here: Point | None) -> Ways:
    """From each to each. Number 0 stands for where the cutter is, and for the end, to which it is
    no way from anywhere: so the order runs from 0 to 0."""
    starts, ends = (np.array([stop[k] for stop in stops]) for k in (0, 1))
    ways = np.zeros((len(stops) + 1, len(stops) + 1))
    ways[1:, 1:] = np.hypot(*(ends[:, None] - starts[None]).transpose(2, 0, 1))
    if here is not None:
        ways[0, 1:] = np.hypot(*(starts - np.array(here)).T)
    return np.rint(ways * FINEST).astype(np.int64)


def _length(order: Sequence[int], ways: Ways) -> int:
    return int(ways[order[:-1], order[1:]].sum())


def _firsts(stops: Sequence[Stop], ways: Ways) -> list[int]:
    """The places that it is tried to begin with: those nearest to where the cutter is, or else
    farthest to the left."""
    count = max(1, TRIED // len(stops))
    near = sorted(range(1, len(ways)), key=lambda k: (ways[0, k], stops[k - 1].start))
    return near[:count]


def _nearest(ways: Ways, first: int) -> list[int]:
    """From each to the nearest that is left; of equals the first in the order given."""
    left = list(range(1, len(ways)))
    left.remove(first)
    order = [0, first]
    while left:
        order.append(min(left, key=lambda one: (ways[order[-1], one], one)))
        left.remove(order[-1])
    return [*order, 0]


def _bettered(order: list[int], ways: Ways) -> list[int]:
    """The order changed for as long as a change makes it shorter."""
    while True:
        gain, better = min(_changes(order, ways), key=lambda change: change[0])
        if gain >= 0:
            return order
        order = better


def _changes(order: list[int], ways: Ways) -> Iterator[tuple[int, list[int]]]:
    """The best change of each kind: how much longer it makes the order, and what comes of it."""
    yield _turned(order, ways)
    for count in range(1, min(MOVED, len(order) - 3) + 1):
        yield _moved(order, ways, count, back=False)
        if count > 1:
            yield _moved(order, ways, count, back=True)


def _turned(order: list[int], ways: Ways) -> tuple[int, list[int]]:
    """The best stretch to visit backwards; each place in it is still come to at its start."""
    at = np.array(order)
    before, here, after = at[:-2], at[1:-1], at[2:]
    onward = np.concatenate(([0], np.cumsum(ways[here[:-1], here[1:]])))
    back = np.concatenate(([0], np.cumsum(ways[here[1:], here[:-1]])))
    more = back - onward
    # rows: where the stretch begins; columns: where it ends
    longer = ways[before[:, None], here[None]] + ways[here[:, None], after[None]]
    longer += (more - ways[here, after])[None] - (more + ways[before, here])[:, None]
    longer[np.tril_indices(len(here))] = 0
    first, last = divmod(int(longer.argmin()), len(here))
    better = [*order[: first + 1], *order[last + 1 : first : -1], *order[last + 2 :]]
    return int(longer[first, last]), better


def _moved(order: list[int], ways: Ways, count: int, *, back: bool) -> tuple[int, list[int]]:
    """The best `count` places in a row to visit elsewhere, in turn or backwards."""
    at = np.array(order)
    heads, tails = at[1 : -count or None], at[count:-1]
    heads = heads[: len(tails)]
    out = ways[at[: len(tails)], at[count + 1 :]] - ways[at[: len(tails)], heads]
    out -= ways[tails, at[count + 1 :]]
    if back:
        for step in range(1, count):
            one, other = at[step : step + len(tails)], at[step + 1 : step + 1 + len(tails)]
            out += ways[other, one] - ways[one, other]
        heads, tails = tails, heads
    # rows: the first place that is moved; columns: the gap that they are put in
    longer = ways[at[None, :-1], heads[:, None]] + ways[tails[:, None], at[None, 1:]]
    longer += out[:, None] - ways[at[:-1], at[1:]][None]
    rows, gaps = np.ogrid[: len(heads), : len(at) - 1]
    longer[(gaps >= rows) & (gaps <= rows + count)] = 0
    first, gap = divmod(int(longer.argmin()), len(at) - 1)
    row = order[first + 1 : first + 1 + count]
    rest = [*order[: first + 1], *order[first + 1 + count :]]
    into = gap + 1 if gap < first else gap + 1 - count
    if back:
        row.reverse()
    return int(longer[first, gap]), [*rest[:into], *row, *rest[into:]]
