"""Which piece of the source each edge of an offset polygon came from.

Each edge of pyclipper's polygon is walked back by the offset distance along its own normal. Its
foot lies on the flattened source, near the segment that it is parallel to or the corner that it
goes round; the one whose line or circle fits the edge better owns it. Neighbouring edges with
one owner make a run.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from jawcam.errors import InternalError
from jawcam.geometry.carriers import Carriers, Floats, Ints
from jawcam.geometry.flatten import SCALE
from jawcam.geometry.source import Source

__all__ = ["Bools", "Runs", "trace"]

Bools = npt.NDArray[np.bool_]

SLIVER = 2e-5
"""mm; a run of edges shorter than this is pyclipper's integer rounding, not geometry."""


@dataclass(frozen=True)
class Runs:
    """Runs of neighbouring polygon edges in order, one row each: their owner, whether they run
    the owner's way, their length in mm, and the polygon point (n, 2) where they end."""

    owner: Ints
    forward: Bools
    length: Floats
    end: Floats

    def __len__(self) -> int:
        return len(self.owner)

    def only(self, keep: Bools) -> Runs:
        """The runs marked in `keep`; those that become neighbours of one owner are made one."""
        return _grouped(
            Runs(self.owner[keep], self.forward[keep], self.length[keep], self.end[keep])
        )


def trace(source: Source, contour: Sequence[Sequence[int]]) -> Runs:
    """One of pyclipper's closed contours -> its runs; slivers and vanished arcs are left out.

    Raises InternalError when an edge lies where no piece of the source can have put it.
    """
    points = np.array(contour, dtype=np.float64) / SCALE
    owner, forward, length = _owners(source, points)
    runs = _grouped(Runs(owner, forward, length, np.roll(points, -1, axis=0)))
    vanished = ~source.carriers.straight & (source.carriers.rows[:, 2] <= source.tolerance.path / 2)
    return runs.only((runs.length > SLIVER) & ~vanished[runs.owner])


def _grouped(runs: Runs) -> Runs:
    """Neighbours (the last and the first too) with one owner and one direction, made one."""
    key = runs.owner * 2 + runs.forward
    last = np.flatnonzero(key != np.roll(key, -1))
    if len(last) == 0:  # a single owner all round, or nothing at all
        return Runs(
            runs.owner[:1],
            runs.forward[:1],
            runs.length.sum(keepdims=True)[: len(key)],
            runs.end[:1],
        )
    total = np.cumsum(runs.length)[last]
    length = np.diff(total, prepend=total[-1] - runs.length.sum())
    return Runs(runs.owner[last], runs.forward[last], length, runs.end[last])


def _owners(source: Source, points: Floats) -> tuple[Ints, Bools, Floats]:
    """Per polygon edge: its owner, whether it runs the owner's way, its length in mm."""
    ends = np.roll(points, -1, axis=0)
    along = ends - points
    length = np.hypot(along[:, 0], along[:, 1])
    edge, gap, misfit = _nearest_edges(source, points, along, ends, 0.5)
    owner = source.flat.owner[edge]
    if len(source.corners):
        corner, _ = source.corner_index.nearest(_feet(source, points, along, 0.5))
        at = source.count + source.corners[corner]
        off = _misfit(source.carriers.take(at), points, ends, source.tolerance.chord)
        off[corner < 0] = np.inf
        owner = np.where(off < misfit, at, owner)
        misfit = np.minimum(misfit, off)
    slack = 4 * source.tolerance.chord
    doubtful = np.flatnonzero(misfit > slack)
    if len(doubtful):  # perhaps the foot just met a joint, where others are as near
        again = _nearest_edges(source, points[doubtful], along[doubtful], ends[doubtful], 0.29)
        better = again[2] < misfit[doubtful]
        edge[doubtful[better]], misfit[doubtful[better]] = again[0][better], again[2][better]
        owner[doubtful[better]] = source.flat.owner[again[0][better]]
    lost = (misfit > slack) & (gap > slack)
    for k in np.flatnonzero(lost & (length > slack)):
        owner[k] = _corner_of(source, points[k], ends[k])
        lost[k] = False
    forward = ((source.index.ends[edge] - source.index.starts[edge]) * along).sum(axis=1) >= 0
    forward |= owner >= source.count
    return _filled(owner, lost), forward, np.where(lost, 0.0, length)


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


def _corner_of(source: Source, start: Floats, end: Floats) -> int:
    """The corner whose arc an edge is a clipped chord of, searched among them all: of outlines
    with dense corners another corner may be nearer to the foot."""
    numbers = source.count + source.corners
    if len(numbers):
        carriers = source.carriers.take(numbers)
        many = (len(numbers), 2)
        off = _misfit(
            carriers,
            np.broadcast_to(start, many),
            np.broadcast_to(end, many),
            source.tolerance.chord,
        )
        best = int(np.argmin(off))
        if off[best] <= 4 * source.tolerance.chord:
            return int(numbers[best])
    raise InternalError(f"an offset edge at X {start[0]:.4f} Y {start[1]:.4f} has no source")


def _filled(owner: Ints, lost: Bools) -> Ints:
    """Edges with no owner (all of them tiny) take that of the edge before."""
    if not lost.any():
        return owner
    count = len(owner)
    kept = np.maximum.accumulate(np.where(np.tile(lost, 2), 0, np.arange(2 * count)))
    return owner[kept[count:] % count]
