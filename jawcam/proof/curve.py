"""Arcs by points: how many, and where."""

from __future__ import annotations

import math

import numpy as np
from numpy.typing import NDArray

from jawcam.hold.target import Loop

__all__ = ["Floats", "arc_of_bulge", "loop_points", "quad_segs", "steps"]

Floats = NDArray[np.float64]


def steps(radius: float, turn: float, chord: float) -> int:
    """Into how many equal chords to divide an arc of `turn` radians so that none lies farther
    than `chord` off it: the sagitta of a chord over the angle a is radius (1 - cos(a / 2))."""
    if radius <= chord:
        return max(1, math.ceil(abs(turn) / (math.pi / 3)))
    return max(1, math.ceil(abs(turn) / (2 * math.acos(1 - chord / radius))))


def quad_segs(radius: float, chord: float) -> int:
    """The chords of a quarter circle, for the same."""
    return steps(radius, math.pi / 2, chord)


def arc_of_bulge(
    start: tuple[float, float], end: tuple[float, float], bulge: float
) -> tuple[float, float, float, float, float]:
    """A piece with a bulge -> centre x, y, radius, the angle of its start and its signed turn.

    With b = tan(turn / 4) and the chord c: radius c (1 + b^2) / (4 |b|), the centre to the left of
    the chord's middle by c (1 - b^2) / (4 b).
    """
    (x0, y0), (x1, y1) = start, end
    off = (1 - bulge * bulge) / (4 * bulge)
    cx, cy = (x0 + x1) / 2 - (y1 - y0) * off, (y0 + y1) / 2 + (x1 - x0) * off
    radius = math.hypot(x1 - x0, y1 - y0) * (1 + bulge * bulge) / (4 * abs(bulge))
    return cx, cy, radius, math.atan2(y0 - cy, x0 - cx), 4 * math.atan(bulge)


def loop_points(loop: Loop, chord: float) -> Floats:
    """A loop -> its points (n, 2), all on it, no chord farther than `chord` off its arc."""
    pieces: list[Floats] = []
    for (x0, y0, bulge), (x1, y1, _) in zip(loop, loop[1:] + loop[:1], strict=True):
        pieces.append(np.array([(x0, y0)]))
        if bulge == 0 or (x0, y0) == (x1, y1):
            continue
        cx, cy, radius, angle, turn = arc_of_bulge((x0, y0), (x1, y1), bulge)
        count = steps(radius, turn, chord)
        angles = angle + turn * np.arange(1, count) / count
        pieces.append(np.column_stack((cx + radius * np.cos(angles), cy + radius * np.sin(angles))))
    return np.concatenate(pieces)
