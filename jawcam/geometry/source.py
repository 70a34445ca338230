"""What an offset comes from: closed paths, a distance, and every piece that the result may have.

An offset at distance d has only three kinds of pieces: a line of the source moved d along its
normal, an arc of the source with d more or less radius, and an arc of radius d round a corner of
the source. Each such piece has an owner number here and lies on a known line or circle.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from jawcam.geometry.carriers import Carriers, Floats, Ints
from jawcam.geometry.flatten import Flat, flatten
from jawcam.geometry.nearest import EdgeIndex
from jawcam.geometry.shapes import Arc, Path, Segment
from jawcam.tolerance import Tolerance

__all__ = ["Source", "prepare"]


@dataclass(frozen=True)
class Source:
    """Closed paths with the inside on their left, and the distance that they are grown by.

    Owner i is segment i, counted through all paths; owner `count + i` is the corner at the end
    of segment i. after[i]: the segment that follows i. carriers: the line or circle of every
    owner's piece. left: whether that piece, run forward, turns left. leaving[i], arriving[i]:
    the offset of segment i's start and end point along its own normal there. touching[i]:
    whether i and the next go over into each other without a corner. convex[i]: whether the
    offset goes round the corner at the end of i. before[i]: the segment before i. `index` finds
    the flattened edge nearest to a point.
    """

    distance: float
    tolerance: Tolerance
    flat: Flat
    after: Ints
    carriers: Carriers
    left: npt.NDArray[np.bool_]
    leaving: Floats
    arriving: Floats
    touching: npt.NDArray[np.bool_]
    index: EdgeIndex
    convex: npt.NDArray[np.bool_]
    before: Ints

    @property
    def count(self) -> int:
        """How many segments there are."""
        return len(self.after)


def prepare(paths: Sequence[Path], distance: float, tolerance: Tolerance) -> Source:
    """Closed paths -> the source of an offset by `distance` mm (> 0 grows, 0 only traces)."""
    segments = [s for path in paths for s in path.segments]
    after = _following([len(path.segments) for path in paths])
    flat = flatten(paths, tolerance.chord, distance)
    starts = np.array([s.start for s in segments])
    ends = starts[after]  # each begins exactly where the one before ends
    carriers, left, at_start, at_end = _moved(segments, starts, ends, distance)
    turn = _turns(at_end, at_start[after])
    slight = np.abs(distance * turn) <= tolerance.path / 4
    # a turn right about (a cusp) is rounded whichever sign rounding gave it
    away = (turn * distance > 0) | (np.abs(turn) > math.pi - 1e-6)
    # a corner whose arc and whose mitre are one within tolerance gets the mitre: fewer pieces
    spike = abs(distance) * (1 / np.cos(np.minimum(np.abs(turn), 1.0) / 2) - 1)
    convex = away & (spike > tolerance.path / 4) & ~slight
    half_chord = math.sqrt(2 * abs(distance) * tolerance.chord) + tolerance.chord
    return Source(
        distance,
        tolerance,
        flat,
        after,
        carriers.and_circles(ends, abs(distance)),
        np.concatenate((left, np.full(len(segments), distance > 0))),
        starts + distance * _right_of(at_start),
        ends + distance * _right_of(at_end),
        slight & (np.abs(turn) < 0.1),
        EdgeIndex.of(flat.points, flat.points[flat.following], half_chord),
        convex,
        np.argsort(after),
    )


def _following(counts: Sequence[int]) -> Ints:
    """For closed paths of so many segments each: the number of the segment after each one."""
    after = np.arange(1, sum(counts) + 1)
    lasts = np.cumsum(counts) - 1
    after[lasts] = lasts + 1 - np.array(counts)
    return after


def _moved(
    segments: Sequence[Segment], starts: Floats, ends: Floats, distance: float
) -> tuple[Carriers, npt.NDArray[np.bool_], Floats, Floats]:
    """The carriers of the segments' offsets (an arc turned inside out has a radius <= 0), whether
    each turns left, and the unit tangents at its start and its end."""
    arcs = {k: s for k, s in enumerate(segments) if isinstance(s, Arc)}
    which = np.fromiter(arcs, dtype=np.int64, count=len(arcs))
    curved, ccw = np.zeros((2, len(segments)), dtype=np.bool_)
    centres = np.zeros((len(segments), 2))
    curved[which] = True
    ccw[which] = [arc.ccw for arc in arcs.values()]
    centres[which] = [arc.centre for arc in arcs.values()] if arcs else 0.0
    sign = np.where(ccw, 1.0, -1.0)
    radial, final = starts - centres, ends - centres
    chord = ends - starts
    at_start = np.where(curved[:, None], _left_of(radial) * sign[:, None], chord)
    at_end = np.where(curved[:, None], _left_of(final) * sign[:, None], chord)
    at_start /= np.hypot(at_start[:, 0], at_start[:, 1])[:, None]
    at_end /= np.hypot(at_end[:, 0], at_end[:, 1])[:, None]
    normal = _right_of(at_start)
    level = (starts * normal).sum(axis=1) + distance
    radius = np.hypot(radial[:, 0], radial[:, 1]) + sign * distance
    rows = np.where(
        curved[:, None], np.column_stack((centres, radius)), np.column_stack((normal, level))
    )
    return Carriers(~curved, rows), ccw, at_start, at_end


def _turns(before: Floats, behind: Floats) -> Floats:
    """The angles from one direction to the next, in radians, positive to the left."""
    cross = before[:, 0] * behind[:, 1] - before[:, 1] * behind[:, 0]
    turns: Floats = np.arctan2(cross, (before * behind).sum(axis=1))
    return turns


def _right_of(vectors: Floats) -> Floats:
    return np.column_stack((vectors[:, 1], -vectors[:, 0]))


def _left_of(vectors: Floats) -> Floats:
    return np.column_stack((-vectors[:, 1], vectors[:, 0]))
