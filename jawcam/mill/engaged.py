"""What a cutter bites off at many places of a way at once, beside the fronts that stand there.

The cutter is a disc. Where a front leaves its circle ahead, what lies to the right of that point is
cutting; where one comes in, what lies to the right of it is not. So the fresh width is the sum of
R - u over the points where fronts leave, less that of those where they come in, u being how far a
point lies to the right of the way; whichever way path and fronts bend.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from jawcam.geometry.uncut import Front

__all__ = ["Edge", "Floats", "bitten", "edges_of", "nearest"]

Floats = NDArray[np.float64]


class Edge(NamedTuple):
    """A front as numbers. points: (n, 2), mm, cleared on the left; low, high: corners of its
    box."""

    points: Floats
    low: Floats
    high: Floats


def edges_of(fronts: Iterable[Front], spacing: float) -> list[Edge]:
    """Fronts as numbers, their points no more than `spacing` mm apart; a closed one ends where it
    begins."""
    found = []
    for front in fronts:
        points = np.array((*front.points, front.points[0]) if front.closed else front.points)
        points = _closer(points, spacing)
        found.append(Edge(points, points.min(axis=0), points.max(axis=0)))
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
    low, high = places.min(axis=0) - radius, places.max(axis=0) + radius
    for edge in edges:
        if (edge.low <= high).all() and (edge.high >= low).all():
            _add(widths, places, headings, _part(edge.points, low, high), radius)
    # with the left hand in material the last piece has no end yet
    return np.where(widths < -1e-6, widths + 2 * radius, widths)


def nearest(place: tuple[float, float], edges: Sequence[Edge]) -> float:
    """How far a place lies from the nearest of some fronts, mm."""
    least = np.inf
    for edge in edges:
        starts, ways = edge.points[:-1], np.diff(edge.points, axis=0)
        off = np.array(place) - starts
        share = (off * ways).sum(axis=1) / np.maximum((ways * ways).sum(axis=1), 1e-18)
        off -= np.clip(share, 0.0, 1.0)[:, None] * ways
        least = min(least, float((off * off).sum(axis=1).min(initial=np.inf)))
    return float(np.sqrt(least))


def _part(points: Floats, low: Floats, high: Floats) -> Floats:
    """From the first to the last point within reach, and one more at either end."""
    near = np.flatnonzero(((points >= low) & (points <= high)).all(axis=1))
    return points[max(0, near[0] - 1) : near[-1] + 2] if len(near) else points[:0]


def _add(widths: Floats, places: Floats, headings: Floats, points: Floats, radius: float) -> None:
    """Add what one front gives to the widths."""
    dx, dy = (points[None, :, k] - places[:, None, k] for k in (0, 1))
    off = dx * dx + dy * dy - radius * radius
    within = off < 0
    at, k = np.nonzero(within[:, 1:] != within[:, :-1])
    if not len(at):
        return
    ax, ay = dx[at, k], dy[at, k]
    wx, wy = dx[at, k + 1] - ax, dy[at, k + 1] - ay
    long, half = wx * wx + wy * wy, ax * wx + ay * wy
    root = np.sqrt(np.maximum(half * half - long * off[at, k], 0.0))
    leaves = within[at, k]
    share = np.where(leaves, root - half, -root - half) / long
    x, y = ax + share * wx, ay + share * wy
    (hx, hy), ahead = headings[at].T, (x * headings[at, 0] + y * headings[at, 1]) > 0
    right = x * hy - y * hx
    np.add.at(widths, at, np.where(leaves, radius - right, right - radius) * ahead)
