"""From pyclipper's polygons back to exact lines and arcs.

Nothing is fitted. `trace` says which piece of the offset each run of polygon edges is, every
piece lies on a known line or circle, and neighbours are cut off where these meet in closed form.
With distance 0 the same holds for unions and differences.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

import numpy as np

from jawcam.geometry.carriers import Floats, Ints
from jawcam.geometry.shapes import Arc, Line, Path, Segment
from jawcam.geometry.source import Source
from jawcam.geometry.trace import Bools, Runs, trace

__all__ = ["recover"]

ASTRAY = 0.05
"""mm; where two lines or circles run side by side, their crossing may lie far from where the
flattened copies part. The place between them is as true there, and safe."""


def recover(source: Source, contour: Sequence[Sequence[int]]) -> Path | None:
    """One of pyclipper's closed contours -> the exact closed path, None if it is only a sliver."""
    runs = trace(source, contour)
    while len(runs) > 1:
        ends = _joints(source, runs)
        starts = np.roll(ends, 1, axis=0)
        passed = _passed(source, runs, starts, ends)
        if not passed.any():
            return Path(tuple(_segments(source, runs, ends)))
        runs = runs.only(~passed)
    return _whole_circle(source, runs) if len(runs) else None


def _joints(source: Source, runs: Runs) -> Floats:
    """Where each run ends and the next one begins, (n, 2)."""
    following = np.roll(runs.owner, -1)
    own, other = runs.carriers.take(runs.owner), runs.carriers.take(following)
    joints = own.meet(other, runs.end)
    astray = np.hypot(*(joints - runs.end).T) > ASTRAY
    joints[astray] = ((own.foot(runs.end) + other.foot(runs.end)) / 2)[astray]
    touch = _touching_points(
        source,
        np.where(runs.forward, runs.owner, following),
        np.where(runs.forward, following, runs.owner),
    )
    # in the flattened copy they part up to a chord's length away: chord = sqrt(8 r sagitta)
    bend = np.maximum(own.bend(), other.bend()) + abs(source.distance)
    reach = np.sqrt(8 * bend * source.tolerance.chord) + 10 * source.tolerance.chord
    near = np.hypot(*(touch - runs.end).T) <= reach  # nan is not near
    joints[near] = touch[near]
    return joints


def _touching_points(source: Source, first: Ints, second: Ints) -> Floats:
    """Where the pieces of two owners touch, for those that follow each other in the source and
    touch there; nan for others. (Their crossing, computed, would be ill-conditioned.)"""
    count = source.count
    points = np.full((len(first), 2), np.nan)
    before, behind = first % count, second % count
    to_corner = (first < count) & (second == count + first)
    points[to_corner] = source.arriving[before[to_corner]]
    off_corner = (first >= count) & (first < 2 * count) & (second == source.after[before])
    points[off_corner] = source.leaving[behind[off_corner]]
    smooth = (first < count) & (second == source.after[before]) & source.touching[before]
    points[smooth] = (source.arriving[before[smooth]] + source.leaving[behind[smooth]]) / 2
    return points


def _passed(source: Source, runs: Runs, starts: Floats, ends: Floats) -> Bools:
    """Runs whose joints passed each other: in the flattened copy there was a hair of that piece
    left, in truth its neighbours meet without it."""
    carriers = runs.carriers.take(runs.owner)
    normal = carriers.rows[:, :2]
    on = ends - starts
    backward = on[:, 1] * normal[:, 0] - on[:, 0] * normal[:, 1] < 0
    first, last = starts - normal, ends - normal  # of circles, these columns are the centre
    turn = np.arctan2(last[:, 1], last[:, 0]) - np.arctan2(first[:, 1], first[:, 0])
    sweep = np.where(_turns_left(source, runs), turn, -turn) % (2 * math.pi)
    expected = runs.length / np.where(carriers.straight, 1.0, carriers.rows[:, 2])
    wrapped = np.abs(sweep - expected) > math.pi
    return np.where(carriers.straight, backward == runs.forward, wrapped) & on.any(axis=1)


def _segments(source: Source, runs: Runs, ends: Floats) -> list[Segment]:
    """The exact segments of the runs, from joint to joint; what shrank to a point is left out."""
    straight = runs.carriers.straight[runs.owner].tolist()
    ccw = (_turns_left(source, runs)).tolist()
    points = [(x, y) for x, y in (ends + 0.0).tolist()]
    centres = [(x, y) for x, y, _ in runs.carriers.rows[runs.owner].tolist()]
    segments: list[Segment] = []
    start = points[-1]
    for end, centre, left, line in zip(points, centres, ccw, straight, strict=True):
        if end != start:
            segments.append(Line(start, end) if line else Arc(start, end, centre, left))
            start = end
    return segments


def _turns_left(source: Source, runs: Runs) -> Bools:
    """Whether each run, if it is an arc, turns left."""
    extra = len(runs.carriers.straight) - 2 * source.count
    left = np.concatenate((source.left, np.zeros(extra, dtype=np.bool_)))
    turns: Bools = left[runs.owner] == runs.forward
    return turns


def _whole_circle(source: Source, runs: Runs) -> Path | None:
    """A contour with a single owner: a full circle, begun where its source begins."""
    if runs.carriers.straight[runs.owner[0]]:
        return None
    owner = int(runs.owner[0])
    near = source.leaving[owner % source.count][None, :]
    x, y = source.carriers.take(runs.owner).foot(near)[0].tolist()
    cx, cy, _ = source.carriers.rows[owner].tolist()
    return Path((Arc((x, y), (x, y), (cx, cy), bool(source.left[owner] == runs.forward[0])),))
