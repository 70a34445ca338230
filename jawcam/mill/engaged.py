"""What a cutter bites off at many places of a way at once, beside the fronts that stand there.

The cutter is a disc. Where a front leaves its circle ahead, what lies to the right of that point is
cutting; where one comes in, what lies to the right of it is not. So the fresh width is the sum of
R - u over the points where fronts leave, less that of those where they come in, u being how far a
point lies to the right of the way; whichever way path and fronts bend.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from jawcam.geometry.uncut import Front

__all__ = ["Edge", "Floats", "bitten", "edges_of", "nearest"]

Floats = NDArray[np.float64]

_NOTHING = 0.02  # of the radius: a bite less than 0 by no more is none
_LEAST = 1e-18  # mm2; the square of a chord is taken for no less


class Edge(NamedTuple):
    """A front as numbers. points: (n, 2), mm, cleared on the left; chords: from each to the next,
    long: their squared lengths, mm2; box: x0, y0, x1, y1."""

    points: Floats
    chords: Floats
    long: Floats
    box: tuple[float, float, float, float]


def edges_of(fronts: Iterable[Front], spacing: float) -> list[Edge]:
    """Fronts as numbers, their points no more than `spacing` mm apart; a closed one ends where it
    begins."""
    found = []
    for front in fronts:
        points = np.array((*front.points, front.points[0]) if front.closed else front.points)
        points = _closer(points, spacing)
        chords = np.diff(points, axis=0)
        long = np.maximum((chords * chords).sum(axis=1), _LEAST)
        found.append(Edge(points, chords, long, _box(points)))
    return found


def _closer(points: Floats, spacing: float) -> Floats:
    """A row of points with more of them on what is long between two."""
    steps = np.diff(points, axis=0)
    counts = np.maximum(np.ceil(np.hypot(*steps.T) / spacing).astype(int), 1)
    if (counts == 1).all():
        return points
    chord = np.repeat(np.arange(len(counts)), counts)
    share = (np.arange(len(chord)) - np.repeat(np.cumsum(counts) - counts, counts)) / counts[chord]
    found: Floats = np.concatenate((points[chord] + share[:, None] * steps[chord], points[-1:]))
    return found


def bitten(places: Floats, headings: Floats, edges: Sequence[Edge], radius: float) -> Floats:
    """The fresh width of a cutter of `radius` mm at each of some places (n, 2) of a way with unit
    headings (n, 2), mm. Where its whole front half is buried that shows just before and after; the
    fronts' points must lie much nearer to each other than the radius."""
    widths = np.zeros(len(places))
    x0, y0, x1, y1 = _box(places)
    box = (x0 - radius, y0 - radius, x1 + radius, y1 + radius)
    for edge in edges:
        if _meet(edge.box, box):
            _add(widths, places, headings, _part(edge.points, box), radius)
    # with the left hand in material the last piece has no end yet; a little less than nothing is
    # what comes of crossings that are known to a hair's breadth only
    return np.where(widths < -_NOTHING * radius, widths + 2 * radius, np.maximum(widths, 0.0))


def nearest(place: tuple[float, float], edges: Sequence[Edge]) -> float:
    """How far a place lies from the nearest of some fronts, mm."""
    (x, y), least = place, math.inf
    for edge in edges:
        x0, y0, x1, y1 = edge.box
        far = max(x0 - x, 0.0, x - x1) ** 2 + max(y0 - y, 0.0, y - y1) ** 2
        if far >= least:
            continue
        (ax, ay), (dx, dy) = edge.points[:-1].T, edge.chords.T
        ox, oy = x - ax, y - ay
        share = np.minimum(np.maximum((ox * dx + oy * dy) / edge.long, 0.0), 1.0)
        ox -= share * dx
        oy -= share * dy
        least = min(least, float((ox * ox + oy * oy).min()))
    return math.sqrt(least)


def _box(points: Floats) -> tuple[float, float, float, float]:
    xs, ys = points.T
    return (float(xs.min()), float(ys.min()), float(xs.max()), float(ys.max()))


def _meet(a: tuple[float, float, float, float], b: tuple[float, float, float, float]) -> bool:
    return a[0] <= b[2] and a[2] >= b[0] and a[1] <= b[3] and a[3] >= b[1]


def _part(points: Floats, box: tuple[float, float, float, float]) -> Floats:
    """From the first to the last point in a box, and one more at either end."""
    xs, ys = points.T
    near = np.flatnonzero((xs >= box[0]) & (xs <= box[2]) & (ys >= box[1]) & (ys <= box[3]))
    return points[max(0, near[0] - 1) : near[-1] + 2] if len(near) else points[:0]


def _add(widths: Floats, places: Floats, headings: Floats, points: Floats, radius: float) -> None:
    """Add what one front gives to the widths."""
    if len(points) < 2:
        return
    (px, py), (qx, qy) = places.T, points.T
    square, other = qx - px[:, None], qy - py[:, None]
    square *= square
    other *= other
    square += other
    within = square < radius * radius
    crossed = np.flatnonzero(within[:, 1:] != within[:, :-1])
    if not len(crossed):
        return
    at, k = np.divmod(crossed, len(points) - 1)
    ax, ay, bx, by = qx[k] - px[at], qy[k] - py[at], qx[k + 1] - px[at], qy[k + 1] - py[at]
    wx, wy = bx - ax, by - ay
    long, half = wx * wx + wy * wy, ax * wx + ay * wy
    root = np.sqrt(np.maximum(half * half - long * (ax * ax + ay * ay - radius * radius), 0.0))
    leaves = within[at, k]
    share = np.where(leaves, root - half, -root - half) / long
    x, y = ax + share * wx, ay + share * wy
    hx, hy = headings[at].T
    right = x * hy - y * hx
    signed = np.where(leaves, radius - right, right - radius) * ((x * hx + y * hy) > 0)
    widths += np.bincount(at, signed, len(widths))
