"""From pyclipper's polygons back to exact lines and arcs.

Nothing is fitted. `trace` says which piece of the offset each run of polygon edges is, every
piece lies on a known line or circle, and neighbours are cut off where these meet in closed form.
Where outlines touch themselves all along that can fail; the contour is then given as it stands.
With distance 0 the same holds for unions and differences.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

import numpy as np
import pyclipper

from jawcam.geometry.carriers import Floats, Ints
from jawcam.geometry.flatten import SCALE
from jawcam.geometry.shapes import Arc, Line, Path, Segment, polygon
from jawcam.geometry.source import Source
from jawcam.geometry.trace import Bools, Runs, trace

__all__ = ["recover"]

ASTRAY = 0.05
"""mm; where two lines or circles run side by side, their crossing may lie far from where the
flattened copies part. The place between them is as true there, and safe."""

_ASTRAY_ALONG_LONG = 0.25
"""mm; the same where both pieces are four times as long at least, so that a crossing so far along
can't pass their other ends. At one degree a sagitta of 0.0005 mm moves the crossing by 0.06."""


def recover(source: Source, contour: Sequence[Sequence[int]]) -> Path | None:
    """One of pyclipper's closed contours -> the exact closed path, None if it is only a sliver.

    Should the pieces found not enclose the contour's area (outlines that touch themselves all
    along can come to that), the contour is given as it stands, in straight lines.
    """
    runs = trace(source, contour)
    while len(runs) > 1:
        ends = _joints(source, runs)
        starts = np.roll(ends, 1, axis=0)
        sweeps = _sweeps(source, runs, starts, ends)
        passed = _passed(runs, sweeps, ends - starts)
        if not passed.any():
            if not _encloses(source, runs, sweeps, starts, ends, contour):
                return polygon([(x / SCALE, y / SCALE) for x, y in contour])
            segments = _segments(source, runs, ends)
            return Path(tuple(segments)) if segments else None
        runs = runs.only(~passed)
    return _whole_circle(source, runs) if len(runs) else None


def _encloses(
    source: Source,
    runs: Runs,
    sweeps: Floats,
    starts: Floats,
    ends: Floats,
    contour: Sequence[Sequence[int]],
) -> bool:
    """Whether the pieces enclose the contour's area, but for what flattening accounts for."""
    chords = starts[:, 0] * ends[:, 1] - starts[:, 1] * ends[:, 0]
    carriers = runs.carriers.take(runs.owner)
    radius = carriers.bend()
    side = np.where(_turns_left(source, runs), 1.0, -1.0)
    bows = np.where(carriers.straight, 0.0, side * radius**2 * (sweeps - np.sin(sweeps)))
    area = float(chords.sum() + bows.sum()) / 2
    slack = 4 * source.tolerance.chord * float(runs.length.sum()) + 1e-3
    return bool(abs(area - pyclipper.Area(contour) / SCALE**2) <= slack)


def _joints(source: Source, runs: Runs) -> Floats:
    """Where each run ends and the next one begins, (n, 2)."""
    following = np.roll(runs.owner, -1)
    joints = _touching_points(
        source,
        np.where(runs.forward, runs.owner, following),
        np.where(runs.forward, following, runs.owner),
    )
    # in the flattened copy they part up to a chord's length away: chord = sqrt(8 r sagitta)
    bends = runs.carriers.bend()
    bend = np.maximum(bends[runs.owner], bends[following]) + abs(source.distance)
    reach = np.sqrt(8 * bend * source.tolerance.chord) + 10 * source.tolerance.chord
    off = joints - runs.end
    cross = np.flatnonzero(~(np.hypot(off[:, 0], off[:, 1]) <= reach))  # nan is not near
    if len(cross):
        joints[cross] = _crossings(runs, cross, following[cross])
    return joints


def _crossings(runs: Runs, cross: Ints, following: Ints) -> Floats:
    """Where some of the runs cross those that follow them."""
    near = runs.end[cross]
    own, other = runs.carriers.take(runs.owner[cross]), runs.carriers.take(following)
    points = own.meet(other, near)
    shorter = np.minimum(runs.length[cross], np.roll(runs.length, -1)[cross])
    limit = np.maximum(ASTRAY, np.minimum(_ASTRAY_ALONG_LONG, shorter / 4))
    astray = ~(np.hypot(*(points - near).T) <= limit)
    points[astray] = ((own.foot(near) + other.foot(near)) / 2)[astray]
    return points


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


def _sweeps(source: Source, runs: Runs, starts: Floats, ends: Floats) -> Floats:
    """The angle that each run turns through about its circle's centre, in radians, in its own
    direction; for a line it means nothing."""
    centre = runs.carriers.rows[runs.owner][:, :2]
    first, last = starts - centre, ends - centre
    turn = np.arctan2(last[:, 1], last[:, 0]) - np.arctan2(first[:, 1], first[:, 0])
    sweeps: Floats = np.where(_turns_left(source, runs), turn, -turn) % (2 * math.pi)
    return sweeps


def _passed(runs: Runs, sweeps: Floats, on: Floats) -> Bools:
    """Runs whose joints passed each other: in the flattened copy there was a hair of that piece
    left, in truth its neighbours meet without it. on: from start to end."""
    carriers = runs.carriers.take(runs.owner)
    normal = carriers.rows[:, :2]
    backward = on[:, 1] * normal[:, 0] - on[:, 0] * normal[:, 1] < 0
    expected = runs.length / np.where(carriers.straight, 1.0, carriers.rows[:, 2])
    wrapped = np.abs(sweeps - expected) > math.pi
    return np.where(carriers.straight, backward == runs.forward, wrapped) & on.any(axis=1)


def _segments(source: Source, runs: Runs, ends: Floats) -> list[Segment]:
    """The exact segments of the runs, from joint to joint; what shrank to a point is left out."""
    straight = runs.carriers.straight[runs.owner].tolist()
    ccw = (_turns_left(source, runs)).tolist()
    points = list(zip(*(ends + 0.0).T.tolist(), strict=True))
    centres = zip(*runs.carriers.rows[runs.owner, :2].T.tolist(), strict=True)
    starts = [points[-1], *points[:-1]]
    return [
        Line(start, end) if line else Arc(start, end, centre, left)
        for start, end, centre, left, line in zip(
            starts, points, centres, ccw, straight, strict=True
        )
        if start != end
    ]


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
