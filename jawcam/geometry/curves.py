"""Splines and ellipses as rational Bezier pieces, and these as samples for `fit_arcs`."""

from __future__ import annotations

import itertools
import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from jawcam.geometry.best import Array, point
from jawcam.geometry.fit import Sample
from jawcam.geometry.shapes import Point

__all__ = ["Piece", "bspline", "closed_through", "ellipse", "samples"]

_MOST_CHORDS = 4096


@dataclass(frozen=True)
class Piece:
    """A rational Bezier curve. control: rows (w x, w y, w); breaks: whether the curve may turn a
    corner or change its nature where this piece begins.
    """

    control: Array
    breaks: bool


def ellipse(centre: Point, major: Point, ratio: float, first: float, last: float) -> list[Piece]:
    """The counter-clockwise piece of an ellipse from parameter `first` to `last`, in radians.

    major: from the centre to the end of the major axis; ratio: minor to major axis. Each piece
    is the affine image of a circular arc within one quadrant, exact as a rational quadratic
    curve with the weights 1, cos(half angle), 1.
    """
    minor = (-major[1] * ratio, major[0] * ratio)
    quarter = math.pi / 2
    inner = [k * quarter for k in range(math.ceil(first / quarter), math.ceil(last / quarter))]
    stops = [first, *(stop for stop in inner if first + 1e-9 < stop < last - 1e-9), last]
    pieces = []
    for a, b in itertools.pairwise(stops):
        half, middle = (b - a) / 2, (a + b) / 2
        weight = math.cos(half)
        unit = ((math.cos(a), math.sin(a), 1), (math.cos(middle), math.sin(middle), weight))
        rows = [
            (
                centre[0] * w + major[0] * x + minor[0] * y,
                centre[1] * w + major[1] * x + minor[1] * y,
                w,
            )
            for x, y, w in (*unit, (math.cos(b), math.sin(b), 1))
        ]
        pieces.append(Piece(np.array(rows, dtype=float), breaks=True))
    return pieces


def bspline(
    controls: Sequence[Point], weights: Sequence[float], knots: Sequence[float], degree: int
) -> list[Piece]:
    """A B-spline (rational where weights are given) as one Bezier piece per span of its knots.

    Runs over the domain of its basis, from knot number `degree` to the last but `degree`. A knot
    of multiplicity `degree` or more is a break. The Bezier points are values of the blossom
    (Ramshaw, "Blossoms are polar forms", 1989). Raises ValueError, in words, if the numbers
    contradict each other.
    """
    _check_spline(controls, weights, knots, degree)
    w = np.array(weights or [1.0] * len(controls), dtype=float)
    rows = np.column_stack([np.array(controls, dtype=float) * w[:, None], w])
    same = 1e-9 * (knots[-1] - knots[0])
    pieces = []
    for k in range(degree, len(controls)):
        a, b = knots[k], knots[k + 1]
        if b - a <= same:
            continue
        local = rows[k - degree : k + 1]
        control = [
            _blossom(local, knots, k, [a] * (degree - j) + [b] * j) for j in range(degree + 1)
        ]
        often = sum(1 for knot in knots if abs(knot - a) <= same)
        pieces.append(Piece(np.array(control), breaks=often >= degree))
    if not pieces:
        raise ValueError("its knots leave nothing to draw")
    return pieces


def closed_through(points: Sequence[Point]) -> list[Piece]:
    """The closed cubic spline through points, curvature continuous, knots by chord length.

    points: at least three, the first one not repeated. Its slopes m at the points solve the
    usual cyclic system h1 m0 + 2 (h0 + h1) m1 + h0 m2 = 3 (h1 d0 + h0 d1), where h are the
    lengths of the chords on either side and d their directions.
    """
    dots = np.array(points, dtype=float)
    count = len(dots)
    steps = np.roll(dots, -1, axis=0) - dots
    after = np.hypot(*steps.T)
    before = np.roll(after, 1)
    slopes = steps / after[:, None]
    matrix = np.zeros((count, count))
    for k in range(count):
        matrix[k, k - 1] += after[k]
        matrix[k, k] += 2 * (before[k] + after[k])
        matrix[k, (k + 1) % count] += before[k]
    right = 3 * (after[:, None] * np.roll(slopes, 1, axis=0) + before[:, None] * slopes)
    tangents = np.linalg.solve(matrix, right)
    pieces = []
    for k in range(count):
        n, third = (k + 1) % count, after[k] / 3
        control = [dots[k], dots[k] + third * tangents[k], dots[n] - third * tangents[n], dots[n]]
        pieces.append(Piece(np.column_stack([control, np.ones(4)]), breaks=False))
    return pieces


def samples(pieces: Sequence[Piece], tolerance: float) -> list[Sample]:
    """Samples of pieces that follow each other, as dense as `fit_arcs` wants them.

    Ends that meet to within 1e-6 mm are made to meet exactly, so that the curve is closed.
    """
    found: list[Sample] = []
    for piece in pieces:
        some = _sampled(piece.control, tolerance / 8)
        if found and some:
            some[0] = (found[-1][0], some[0][1])
        found += some if piece.breaks or not found else some[1:]
    if found and math.dist(found[0][0], found[-1][0]) <= 1e-6:
        found[-1] = (found[0][0], found[-1][1])
    return found


def _sampled(control: Array, sagitta: float) -> list[Sample]:
    """Samples of one piece, closer and closer until its chords lie near enough; none if the
    piece is but a point.
    """
    count = 8
    while True:
        dots, ways = _values(control, np.linspace(0, 1, 2 * count + 1))
        chords = dots[2::2] - dots[:-2:2]
        rel = dots[1::2] - dots[:-2:2]
        lengths = np.hypot(*chords.T)
        if not lengths.any():
            return []
        off = np.abs(chords[:, 0] * rel[:, 1] - chords[:, 1] * rel[:, 0])
        if count >= _MOST_CHORDS or not np.any(off > sagitta * lengths):
            break
        count *= 2
    return _with_directions(dots, ways)


def _with_directions(dots: Array, ways: Array) -> list[Sample]:
    """Pairs of point and direction. Where the curve stands still (the direction has no length)
    the chords on either side stand in for it, and two such samples mark the corner.
    """
    found: list[Sample] = []
    speeds = np.hypot(*ways.T)
    still = speeds <= 1e-9 * speeds.max()
    for k, way in enumerate(ways):
        if found and point(dots[k]) == found[-1][0]:
            continue
        if not still[k]:
            found.append((point(dots[k]), point(way)))
            continue
        for other in (k - 1, k + 1):
            if 0 <= other < len(dots) and point(dots[other]) != point(dots[k]):
                chord = (dots[other] - dots[k]) * (other - k)
                found.append((point(dots[k]), point(chord)))
    return found


def _values(control: Array, at: Array) -> tuple[Array, Array]:
    """Points and derivatives of a rational Bezier curve (de Casteljau's scheme)."""
    rows = [np.outer(np.ones(len(at)), row) for row in control]
    share = at[:, None]
    while len(rows) > 2:
        rows = [(1 - share) * a + share * b for a, b in itertools.pairwise(rows)]
    value = (1 - share) * rows[0] + share * rows[1]
    slope = (len(control) - 1) * (rows[1] - rows[0])
    dots = value[:, :2] / value[:, 2:]
    return dots, (slope[:, :2] - dots * slope[:, 2:]) / value[:, 2:]


def _blossom(local: Array, knots: Sequence[float], span: int, at: Sequence[float]) -> Array:
    """The polar form of a span of a B-spline, at as many values as its degree."""
    degree = len(at)
    rows = local.copy()
    for r in range(1, degree + 1):
        for j in range(degree, r - 1, -1):
            low = knots[span - degree + j]
            share = (at[r - 1] - low) / (knots[span + j - r + 1] - low)
            rows[j] = (1 - share) * rows[j - 1] + share * rows[j]
    last: Array = rows[degree]
    return last


def _check_spline(
    controls: Sequence[Point], weights: Sequence[float], knots: Sequence[float], degree: int
) -> None:
    if degree < 1 or len(controls) <= degree:
        raise ValueError(f"degree {degree} does not go with {len(controls)} control points")
    if len(knots) != len(controls) + degree + 1:
        raise ValueError(
            f"it has {len(knots)} knots instead of {len(controls) + degree + 1} "
            f"({len(controls)} control points, degree {degree})"
        )
    if not all(map(math.isfinite, (*knots, *weights))):
        raise ValueError("a knot or a weight is not a number")
    if any(b < a for a, b in itertools.pairwise(knots)):
        raise ValueError("its knots run backwards")
    if weights and (len(weights) != len(controls) or min(weights) <= 0):
        raise ValueError("its weights must be positive, one for each control point")
