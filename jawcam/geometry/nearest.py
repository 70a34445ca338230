"""Finds, for many points at once, the nearest of many short straight edges.

A uniform grid: edges are cut into pieces no longer than a cell, each piece is filed under the
cell of its middle, and a point looks at its own cell and the eight around it.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

__all__ = ["EdgeIndex"]

Floats = npt.NDArray[np.float64]
Ints = npt.NDArray[np.int64]


@dataclass(frozen=True)
class EdgeIndex:
    """Edges from `starts` to `ends`, both (n, 2) in mm, filed in a grid."""

    starts: Floats
    ends: Floats
    cell: float
    low: Floats
    columns: int
    keys: Ints
    edges: Ints

    @staticmethod
    def of(starts: Floats, ends: Floats, reach: float) -> EdgeIndex:
        """File the edges; every edge within `reach` mm of a point will be found."""
        lengths = _sizes(ends - starts)
        cell = float(max(lengths.sum() / max(2 * len(lengths), 1), reach))
        pieces = np.maximum(1, np.ceil(lengths / cell)).astype(np.int64)
        edges = np.repeat(np.arange(len(lengths)), pieces)
        number = np.arange(len(edges)) - np.repeat(np.cumsum(pieces) - pieces, pieces)
        share = ((number + 0.5) / pieces[edges])[:, None]
        middles = starts[edges] * (1 - share) + ends[edges] * share
        low = middles.min(axis=0, initial=np.inf) - 2 * cell
        cells = ((middles - low) // cell).astype(np.int64)
        columns = int(cells[:, 0].max(initial=0)) + 4
        keys = cells[:, 1] * columns + cells[:, 0]
        order = np.argsort(keys, kind="stable")
        return EdgeIndex(starts, ends, cell, low, columns, keys[order], edges[order])

    def nearest(self, points: Floats) -> tuple[Ints, Floats]:
        """Points (m, 2) -> the number of the nearest edge of each and its distance in mm; a point
        with no edge within reach gets -1 and an infinite distance."""
        which, edge = self._candidates(points)
        gap = self.gap(edge, points[which])
        found = np.full(len(points), -1, dtype=np.int64)
        gaps = np.full(len(points), np.inf)
        if len(which):
            first = np.flatnonzero(np.diff(which, prepend=-1))
            least = np.minimum.reduceat(gap, first)
            best = np.flatnonzero(gap == np.repeat(least, np.diff(first, append=len(which))))
            best = best[np.flatnonzero(np.diff(which[best], prepend=-1))]
            found[which[best]], gaps[which[best]] = edge[best], gap[best]
        return found, gaps

    def gap(self, edge: Ints, points: Floats) -> Floats:
        """The distance in mm of each point from the edge named for it."""
        a, along = self.starts[edge], self.ends[edge] - self.starts[edge]
        size = np.maximum((along * along).sum(axis=1), 1e-30)
        share = np.clip(((points - a) * along).sum(axis=1) / size, 0.0, 1.0)
        off = points - a - share[:, None] * along
        return _sizes(off)

    def _candidates(self, points: Floats) -> tuple[Ints, Ints]:
        """All pairs (point, edge) that lie in the same or in neighbouring cells."""
        cells = ((points - self.low) // self.cell).astype(np.int64)
        rows = cells[:, 1][:, None] + np.array([-1, 0, 1])
        left = rows * self.columns + (cells[:, 0] - 1)[:, None]
        low = np.searchsorted(self.keys, left.ravel(), side="left")
        high = np.searchsorted(self.keys, (left + 2).ravel(), side="right")
        counts = high - low
        which = np.repeat(np.repeat(np.arange(len(points)), 3), counts)
        steps = np.arange(len(which)) - np.repeat(np.cumsum(counts) - counts, counts)
        return which, self.edges[np.repeat(low, counts) + steps]


def _sizes(vectors: Floats) -> Floats:
    """Their lengths."""
    sizes: Floats = np.hypot(vectors[:, 0], vectors[:, 1])
    return sizes
