"""Which piece of the source each edge of an offset polygon came from.

Each edge of pyclipper's polygon is walked back by the offset distance along its own normal. Its
foot lies on the flattened source, near the segment that it is parallel to or the corner that it
goes round; the one whose line or circle fits the edge better owns it. Neighbouring edges with
one owner make a run.
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from jawcam.geometry.carriers import Carriers, Floats, Ints
from jawcam.geometry.flatten import SCALE
from jawcam.geometry.source import Source

__all__ = ["Bools", "Runs", "trace"]

Bools = npt.NDArray[np.bool_]


@dataclass(frozen=True)
class Runs:
    """Runs of neighbouring polygon edges in order, one row each: their owner, whether they run
    the owner's way, their length in mm, and the polygon point (n, 2) where they end.

    carriers: those of the source's owners, and of the edges that have none: straight lines with
    the numbers from 2 * count on.
    """

    owner: Ints
    forward: Bools
    length: Floats
    end: Floats
    carriers: Carriers

    def __len__(self) -> int:
        return len(self.owner)

    def only(self, keep: Bools) -> Runs:
        """The runs marked in `keep`; those that become neighbours of one owner are made one."""
        kept = (self.owner[keep], self.forward[keep], self.length[keep], self.end[keep])
        return _grouped(Runs(*kept, self.carriers))


def trace(source: Source, contour: Sequence[Sequence[int]]) -> Runs:
    """One of pyclipper's closed contours -> its runs; what is shorter than the tolerance and arcs
    that vanish are left out."""
    flat = itertools.chain.from_iterable(contour)
    points = np.fromiter(flat, dtype=np.float64, count=2 * len(contour)).reshape(-1, 2) / SCALE
    runs = _grouped(_owners(source, points))
    vanishing = source.tolerance.path / 2
    vanished = ~runs.carriers.straight & (runs.carriers.rows[:, 2] <= vanishing)
    keep = (runs.length > source.tolerance.path / 4) & ~vanished[runs.owner]
    return runs if keep.all() else runs.only(keep)


def _grouped(runs: Runs) -> Runs:
    """Neighbours (the last and the first too) with one owner and one direction, made one."""
    key = runs.owner * 2 + runs.forward
    last = np.flatnonzero(key != np.roll(key, -1))
    if len(last) == 0:  # a single owner all round, or nothing at all
        whole = runs.length.sum(keepdims=True)[: len(key)]
        return Runs(runs.owner[:1], runs.forward[:1], whole, runs.end[:1], runs.carriers)
    total = np.cumsum(runs.length)[last]
    length = np.diff(total, prepend=total[-1] - runs.length.sum())
    return Runs(runs.owner[last], runs.forward[last], length, runs.end[last], runs.carriers)


def _owners(source: Source, points: Floats) -> Runs:
    """Every polygon edge as a run of its own."""
    ends = np.roll(points, -1, axis=0)
    along = ends - points
    length = np.hypot(along[:, 0], along[:, 1])
    edge, gap, misfit = _nearest_edges(source, points, along, ends, 0.5)
    owner = source.flat.owner[edge]
    if source.distance != 0:
        _try_corners(source, owner, misfit, points, ends)
    slack = 4 * source.tolerance.chord
    doubtful = np.flatnonzero(misfit > slack)
    if len(doubtful):  # perhaps the foot just met a joint, where others are as near
        again = _nearest_edges(source, points[doubtful], along[doubtful], ends[doubtful], 0.29)
        better = again[2] < misfit[doubtful]
        edge[doubtful[better]], misfit[doubtful[better]] = again[0][better], again[2][better]
        owner[doubtful[better]] = source.flat.owner[again[0][better]]
    lost = (misfit > slack) & (gap > slack)
    carriers = _find_lost(source, owner, np.flatnonzero(lost & (length > slack)), points, ends)
    lost &= length <= slack
    forward = ((source.index.ends[edge] - source.index.starts[edge]) * along).sum(axis=1) >= 0
    forward |= owner >= source.count
    return Runs(_filled(owner, lost), forward, np.where(lost, 0.0, length), ends, carriers)


def _try_corners(source: Source, owner: Ints, misfit: Floats, points: Floats, ends: Floats) -> None:
    """Give edges to a corner at either end of their owner where it fits them better."""
    some = np.flatnonzero(misfit > 4 / SCALE)  # the others fit but for integer rounding
    a, b, nearest = points[some], ends[some], owner[some]
    for corner in (source.before[nearest], nearest):
        circles = source.carriers.take(source.count + corner)
        off = _misfit(circles, a, b, source.tolerance.chord)
        better = (off < misfit[some]) & source.convex[corner]
        owner[some[better]] = source.count + corner[better]
        misfit[some[better]] = off[better]


def _find_lost(source: Source, owner: Ints, lost: Ints, points: Floats, ends: Floats) -> Carriers:
    """Owners for edges that neither their foot nor the nearest corner explains, put into `owner`:
    any corner that fits, or else the edge itself as it stands, which is within tolerance too.
    (Between pieces shorter than the tolerance the flattened copy turns where the source does
    not.) Returns the source's carriers and those of such edges."""
    rows: list[tuple[float, float, float]] = []
    circles = source.carriers.take(np.arange(source.count, 2 * source.count))
    for k in lost.tolist():
        many = (source.count, 2)
        first, last = np.broadcast_to(points[k], many), np.broadcast_to(ends[k], many)
        off = _misfit(circles, first, last, source.tolerance.chord)
        best = int(np.argmin(off))
        if source.distance != 0 and off[best] <= 4 * source.tolerance.chord:
            owner[k] = source.count + best
            continue
        owner[k] = 2 * source.count + len(rows)
        dx, dy = (ends[k] - points[k]) / math.dist(points[k], ends[k])
        rows.append((dy, -dx, dy * points[k, 0] - dx * points[k, 1]))
    return source.carriers.and_lines(rows)


def _feet(source: Source, points: Floats, along: Floats, share: float) -> Floats:
    """Points at `share` of the way along polygon edges, walked back to the flattened source."""
    length = np.maximum(np.hypot(along[:, 0], along[:, 1]), 1e-12)
    normal = np.column_stack((-along[:, 1], along[:, 0])) / length[:, None]
    return points + share * along + normal * source.distance


def _nearest_edges(
    source: Source, points: Floats, along: Floats, ends: Floats, share: float
) -> tuple[Ints, Floats, Floats]:
    """Per polygon edge: the flattened edge that its foot lies on, how far off the foot is, and
    how far the polygon edge lies off that edge's carrier."""
    edge, gap = source.index.nearest(_feet(source, points, along, share))
    misfit = _misfit(source.carriers.take(source.flat.owner[edge]), points, ends, 0.0)
    return edge, gap, np.where(edge < 0, np.inf, misfit)


def _misfit(carriers: Carriers, points: Floats, ends: Floats, chord: float) -> Floats:
    """How far the worse end of each edge lies off its carrier, not counting up to `chord` inward
    (the ends of a clipped chord of an arc lie that much inside it)."""
    first, last = carriers.off(points), carriers.off(ends)
    return np.maximum(np.maximum(first, last), -np.minimum(first, last) - chord)


def _filled(owner: Ints, lost: Bools) -> Ints:
    """Edges with no owner (all of them tiny) take that of the edge before."""
    if not lost.any():
        return owner
    count = len(owner)
    kept = np.maximum.accumulate(np.where(np.tile(lost, 2), 0, np.arange(2 * count)))
    filled: Ints = owner[kept[count:] % count]
    return filled
