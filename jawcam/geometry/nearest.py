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
    rows: Floats
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
        along = ends - starts
        size = np.maximum(lengths * lengths, 1e-30)
        rows = np.vstack((starts.T, along.T, size))
        return EdgeIndex(starts, ends, rows, cell, low, columns, keys[order], edges[order])

    def nearest(self, points: Floats) -> tuple[Ints, Floats]:
        """Points (m, 2) -> the number of the nearest edge of each and its distance in mm; a point
        with no edge within reach gets -1 and an infinite distance."""
        counts, edge = self._candidates(points)
        gap = self.gap(edge, np.repeat(points, counts, axis=0))
        found = np.full(len(points), -1, dtype=np.int64)
        gaps = np.full(len(points), np.inf)
        some = np.flatnonzero(counts)
        if len(some):
            many = counts[some]
            gaps[some] = np.minimum.reduceat(gap, np.cumsum(many) - many)
            which = np.repeat(some, many)
            best = np.flatnonzero(gap == gaps[which])[::-1]  # of equals, the first is kept
            found[which[best]] = edge[best]
        return found, gaps

    def gap(self, edge: Ints, points: Floats) -> Floats:
        """The distance in mm of each point from the edge named for it."""
        x, y, dx, dy, size = self.rows.take(edge, axis=1)
        px, py = points[:, 0] - x, points[:, 1] - y
        share = np.clip((px * dx + py * dy) / size, 0.0, 1.0)
        gaps: Floats = np.hypot(px - share * dx, py - share * dy)
        return gaps

    def _candidates(self, points: Floats) -> tuple[Ints, Ints]:
        """How many edges lie in the cell of each point and in neighbouring ones, and which."""
        cells = ((points - self.low) // self.cell).astype(np.int64)
        rows = cells[:, 1][:, None] + np.array([-1, 0, 1])
        left = rows * self.columns + (cells[:, 0] - 1)[:, None]
        low = np.searchsorted(self.keys, left.ravel(), side="left")
        high = np.searchsorted(self.keys, (left + 2).ravel(), side="right")
        counts = high - low
        steps = np.arange(counts.sum()) + np.repeat(low - np.cumsum(counts) + counts, counts)
        return counts.reshape(-1, 3).sum(axis=1), self.edges[steps]


def _sizes(vectors: Floats) -> Floats:
    """Their lengths."""
    sizes: Floats = np.hypot(vectors[:, 0], vectors[:, 1])
    return sizes
