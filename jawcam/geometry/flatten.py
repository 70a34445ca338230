"""Exact paths -> the finely flattened integer copies that pyclipper works on.

Every flattened edge remembers the segment that it came from; `recover.py` needs that to find the
way back. pyclipper truncates fractions without a word, so points are rounded here.
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from jawcam.errors import InternalError
from jawcam.geometry.shapes import Arc, Line, Path, Point, Segment

__all__ = ["SCALE", "Flat", "flatten", "polyline"]

SCALE = 1e6
"""Clipper units per mm. Up to 1,073 mm from the origin pyclipper stays in its fast 64-bit range."""

LARGEST = 1e6
"""mm; far above any part, far below where pyclipper aborts the process (2^62 units)."""

Floats = npt.NDArray[np.float64]
Ints = npt.NDArray[np.int64]


@dataclass(frozen=True)
class Flat:
    """Flattened closed paths. rings: integer points of each; points: all of them in mm, (n, 2);
    edge i runs from points[i] to points[following[i]] and came from segment number `owner[i]`
    (counted through all paths)."""

    rings: tuple[list[list[int]], ...]
    points: Floats
    following: Ints
    owner: Ints


def flatten(paths: Sequence[Path], chord: float, distance: float = 0.0) -> Flat:
    """Closed paths -> their flattened copy, no chord farther than `chord` mm off its arc, nor off
    the arc that this becomes when it is offset by `distance` mm to its right."""
    rings: list[list[list[int]]] = []
    points: list[Floats] = []
    following: list[Ints] = []
    lengths: list[int] = []  # of each segment's piece of its ring
    count = 0
    for path in paths:
        pieces = [
            [s.start] if isinstance(s, Line) else polyline(s, chord, distance)[:-1]
            for s in path.segments
        ]
        corners: list[Point] = list(itertools.chain.from_iterable(pieces))
        lengths.extend(len(piece) for piece in pieces)
        scaled = np.rint(np.array(corners) * SCALE).astype(np.int64)
        if np.abs(scaled).max() > LARGEST * SCALE:
            raise InternalError(f"a point lies more than {LARGEST} mm from the origin")
        rings.append(scaled.tolist())
        points.append(scaled / SCALE)
        following.append(count + (np.arange(len(corners)) + 1) % len(corners))
        count += len(corners)
    owner = np.repeat(np.arange(len(lengths)), lengths)
    return Flat(tuple(rings), np.concatenate(points), np.concatenate(following), owner)


def polyline(segment: Segment, chord: float, distance: float = 0.0) -> list[Point]:
    """The points of a segment's flattened copy, both ends included; they lie on the segment.
    chord, distance: as for `flatten`."""
    if isinstance(segment, Line):
        return [segment.start, segment.end]
    count = arc_steps(segment, chord, distance)
    cx, cy = segment.centre
    angle = math.atan2(segment.start[1] - cy, segment.start[0] - cx)
    turn = segment.sweep / count * (1 if segment.ccw else -1)
    r = segment.radius
    middle = [
        (cx + r * math.cos(angle + k * turn), cy + r * math.sin(angle + k * turn))
        for k in range(1, count)
    ]
    return [segment.start, *middle, segment.end]


def arc_steps(arc: Arc, chord: float, distance: float = 0.0) -> int:
    """How many chords an arc needs: sagitta = r (1 - cos(half angle)) <= chord, with the larger of
    the radii that it has before and after an offset by `distance` mm to its right."""
    r = max(arc.radius, arc.radius + (distance if arc.ccw else -distance))
    if chord >= r:
        return max(1, math.ceil(arc.sweep / (math.pi / 2)))
    return max(
        1, math.ceil(arc.sweep / (2 * math.acos(1 - chord / r))), 3 if arc.start == arc.end else 1
    )
