"""Endless lines and whole circles, many at once, and where they meet in closed form."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

__all__ = ["Carriers", "Floats", "Ints"]

Floats = npt.NDArray[np.float64]
Ints = npt.NDArray[np.int64]


@dataclass(frozen=True)
class Carriers:
    """Lines and circles as rows of three: the unit normal and the level of a line (all points p
    with normal . p = level), the centre and the radius of a circle."""

    straight: npt.NDArray[np.bool_]
    rows: Floats

    def take(self, which: Ints) -> Carriers:
        """The carriers with the given numbers."""
        return Carriers(self.straight[which], self.rows[which])

    def and_circles(self, centres: Floats, radius: float) -> Carriers:
        """These carriers, followed by circles of one radius round `centres` (n, 2)."""
        more = np.column_stack((centres, np.full(len(centres), radius)))
        none = np.zeros(len(centres), dtype=np.bool_)
        return Carriers(np.concatenate((self.straight, none)), np.concatenate((self.rows, more)))

    def and_lines(self, rows: Sequence[tuple[float, float, float]]) -> Carriers:
        """These carriers, followed by lines given as (normal x, normal y, level)."""
        if not rows:
            return self
        more = np.ones(len(rows), dtype=np.bool_)
        return Carriers(np.concatenate((self.straight, more)), np.concatenate((self.rows, rows)))

    def off(self, points: Floats) -> Floats:
        """How far each point (n, 2) lies off the carrier in its row, in mm: outward of a circle
        and along the normal of a line is positive."""
        a, b, c = self.rows.T
        line = points[:, 0] * a + points[:, 1] * b - c
        circle = np.hypot(points[:, 0] - a, points[:, 1] - b) - c
        off: Floats = np.where(self.straight, line, circle)
        return off

    def bend(self) -> Floats:
        """The radius of each circle, 0 for a line."""
        return np.where(self.straight, 0.0, np.abs(self.rows[:, 2]))

    def foot(self, points: Floats) -> Floats:
        """The nearest point on the carrier in its row for each point (n, 2)."""
        toward = points - self.rows[:, :2]
        size = np.maximum(np.hypot(toward[:, 0], toward[:, 1]), 1e-300)
        out = np.where(self.straight[:, None], self.rows[:, :2], toward / size[:, None])
        return points - out * self.off(points)[:, None]

    def meet(self, others: Carriers, near: Floats) -> Floats:
        """The common point of each carrier with the other of its row that is nearest to `near`.

        Carriers that miss each other by a hair (they only touch in the flattened copies) give
        the point half-way between their nearest points.
        """
        points = (self.foot(near) + others.foot(near)) / 2
        both, neither = self.straight & others.straight, ~self.straight & ~others.straight
        for rows, solve in (
            (np.flatnonzero(both), _line_line),
            (np.flatnonzero(self.straight & ~others.straight), _line_circle),
            (np.flatnonzero(~self.straight & others.straight), _circle_line),
            (np.flatnonzero(neither), _circle_circle),
        ):
            if len(rows):
                found = solve(self.rows[rows], others.rows[rows], near[rows])
                good = np.isfinite(found).all(axis=1)
                points[rows[good]] = found[good]
        return points


def _line_line(a: Floats, b: Floats, _: Floats) -> Floats:
    cross = a[:, 0] * b[:, 1] - a[:, 1] * b[:, 0]
    cross = np.where(np.abs(cross) < 1e-9, np.nan, cross)
    x = (a[:, 2] * b[:, 1] - b[:, 2] * a[:, 1]) / cross
    return np.column_stack((x, (a[:, 0] * b[:, 2] - b[:, 0] * a[:, 2]) / cross))


def _line_circle(line: Floats, circle: Floats, near: Floats) -> Floats:
    normal, centre, radius = line[:, :2], circle[:, :2], circle[:, 2]
    off = line[:, 2] - (centre * normal).sum(axis=1)
    room = (radius - off) * (radius + off)
    half = np.sqrt(np.where(room < 0, np.nan, room))[:, None]
    return _nearer(
        centre + normal * off[:, None], np.column_stack((-normal[:, 1], normal[:, 0])) * half, near
    )


def _circle_line(circle: Floats, line: Floats, near: Floats) -> Floats:
    return _line_circle(line, circle, near)


def _circle_circle(a: Floats, b: Floats, near: Floats) -> Floats:
    """Two circles meet where their radical line meets either of them."""
    toward = b[:, :2] - a[:, :2]
    apart = np.hypot(toward[:, 0], toward[:, 1])
    apart = np.where(apart < 1e-9, np.nan, apart)
    normal = toward / apart[:, None]
    along = (apart + (a[:, 2] - b[:, 2]) * (a[:, 2] + b[:, 2]) / apart) / 2
    level = (a[:, :2] * normal).sum(axis=1) + along
    return _line_circle(np.column_stack((normal, level)), a, near)


def _nearer(middle: Floats, aside: Floats, near: Floats) -> Floats:
    """Of middle + aside and middle - aside, the one nearer to `near`."""
    side = np.where(((near - middle) * aside).sum(axis=1) < 0, -1.0, 1.0)
    return middle + aside * side[:, None]
