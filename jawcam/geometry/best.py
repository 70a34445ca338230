"""The one line, arc or circle that a run of points lies by, if there is one."""

from __future__ import annotations

import math
from collections.abc import Sequence

import numpy as np
import numpy.typing as npt

from jawcam.geometry.shapes import Arc, Line, Point, Segment

__all__ = ["Array", "arc_by", "line_by", "off", "point", "ring_by"]

Array = npt.NDArray[np.float64]


def line_by(dots: Array, slack: float) -> Line | None:
    """The line from the first to the last point, if all the others lie by it, in order."""
    whole = Line(point(dots[0]), point(dots[-1]))
    if whole.length == 0 or float(np.max(off(whole, dots))) > slack:
        return None
    along = (dots - dots[0]) @ (dots[-1] - dots[0])
    return whole if bool(np.all(np.diff(along) > 0)) else None


def arc_by(dots: Array, slack: float) -> Arc | None:
    """The arc from the first to the last point, if all the others lie by it, in order.

    With the chord between (-h, 0) and (h, 0) the centre is (0, c), and each point (u, v) says
    2 c v = u**2 + v**2 - h**2; c is the least-squares answer.
    """
    chord = dots[-1] - dots[0]
    size = math.hypot(*chord)
    if size == 0 or len(dots) < 3:
        return None
    along = chord / size
    normal = np.array([-along[1], along[0]])
    middle = (dots[0] + dots[-1]) / 2
    rel = dots[1:-1] - middle
    u, v = rel @ along, rel @ normal
    weight = float(v @ v)
    if weight == 0:
        return None
    centre = middle + normal * float(v @ (u * u + v * v - size * size / 4)) / (2 * weight)
    spokes = dots - centre
    radii = np.hypot(*spokes.T)
    turns = np.diff(np.unwrap(np.arctan2(spokes[:, 1], spokes[:, 0])))
    one_way = bool(np.all(turns > 0) or np.all(turns < 0))
    if not one_way or abs(float(turns.sum())) >= 2 * math.pi:
        return None
    if float(np.max(np.abs(radii - radii[0]))) > slack:
        return None
    return Arc(point(dots[0]), point(dots[-1]), point(centre), bool(turns[0] > 0))


def ring_by(dots: Array, slack: float) -> Arc | None:
    """The full circle that all points of a closed run lie on, by least squares."""
    if len(dots) < 3:
        return None
    middle = dots.mean(axis=0)
    rel = dots - middle
    (a, b, c), *_ = np.linalg.lstsq(
        np.column_stack([2 * rel, np.ones(len(rel))]), (rel * rel).sum(axis=1), rcond=None
    )
    square = float(c + a * a + b * b)
    spokes = rel - (a, b)
    turns = np.diff(np.unwrap(np.arctan2(*(np.vstack([spokes, spokes[:1]]).T[::-1]))))
    once = math.isclose(abs(float(turns.sum())), 2 * math.pi, rel_tol=1e-6)
    if square <= 0 or not once or not (np.all(turns > 0) or np.all(turns < 0)):
        return None
    radius = math.sqrt(square)
    if float(np.max(np.abs(np.hypot(*spokes.T) - radius))) > slack:
        return None
    centre = point(middle + np.array([a, b]))
    first = spokes[0] * (radius / math.hypot(*spokes[0]))
    start = (centre[0] + float(first[0]), centre[1] + float(first[1]))
    return Arc(start, start, centre, bool(turns[0] > 0))


def off(piece: Segment, dots: Array) -> Array:
    """How far points lie off the line or circle that a segment is part of."""
    if isinstance(piece, Arc):
        apart: Array = np.hypot(*(dots - piece.centre).T)
        apart -= piece.radius
        return np.abs(apart)
    along = (np.array(piece.end) - piece.start) / (piece.length or 1.0)
    rel = dots - piece.start
    across: Array = rel[:, 0] * along[1] - rel[:, 1] * along[0]
    return np.abs(across)


def point(p: Sequence[float] | Array) -> Point:
    """A pair of plain numbers."""
    return (float(p[0]), float(p[1]))
