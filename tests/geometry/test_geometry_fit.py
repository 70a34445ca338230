"""Curves and polylines as arcs and lines, against closed forms."""

import math

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from jawcam.geometry.fit import fit_arcs, recover
from jawcam.geometry.shapes import Arc, Line

TOL = 0.0005


def curve(at, slope, first, last, count):
    return [(at(t), slope(t)) for t in np.linspace(first, last, count).tolist()]


def ellipse(count, a=20, b=10):
    rows = curve(
        lambda t: (a * math.cos(t), b * math.sin(t)),
        lambda t: (-a * math.sin(t), b * math.cos(t)),
        0,
        2 * math.pi,
        count,
    )
    return [*rows[:-1], (rows[0][0], rows[-1][1])]


def flat(path, sagitta=1e-6):
    points = [path.start]
    for segment in path.segments:
        if isinstance(segment, Arc):
            count = math.ceil(segment.sweep / (2 * math.acos(1 - sagitta / segment.radius)))
            points += [segment.point(k / count) for k in range(1, count)]
        points.append(segment.end)
    return points


def within(path, points, tolerance):
    """Whether path and dense polyline lie within tolerance of each other, both ways."""
    mine = flat(path, tolerance / 50)
    pairs = ((mine, points), (points, mine))
    for dots, others in pairs:
        line = shapely.LineString(others)
        shapely.prepare(line)
        if not shapely.dwithin(line, shapely.points(dots), tolerance).all():
            return False
    return True


def headings(segment):
    """The directions at a segment's start and end, in radians."""
    if isinstance(segment, Line):
        (x0, y0), (x1, y1) = segment.start, segment.end
        return (math.atan2(y1 - y0, x1 - x0),) * 2
    quarter = math.pi / 2 if segment.ccw else -math.pi / 2
    cx, cy = segment.centre
    ends = (segment.start, segment.end)
    return tuple(math.atan2(y - cy, x - cx) + quarter for x, y in ends)


def worst_kink(path, *, closed):
    pairs = list(zip(path.segments, path.segments[1:], strict=False))
    if closed:
        pairs.append((path.segments[-1], path.segments[0]))
    turns = (headings(b)[0] - headings(a)[1] for a, b in pairs)
    return max(abs(math.remainder(turn, 2 * math.pi)) for turn in turns)


def connected(path):
    return all(a.end == b.start for a, b in zip(path.segments, path.segments[1:], strict=False))


# --- curves ----------------------------------------------------------------------------------


@pytest.mark.parametrize("tolerance", [0.01, 0.004, 0.0005, 0.0001])
def test_an_ellipse_stays_within_tolerance_both_ways_and_smooth(tolerance):
    path = fit_arcs(ellipse(4001), tolerance)
    dense = [(20 * math.cos(t), 10 * math.sin(t)) for t in np.linspace(0, 2 * math.pi, 40001)]
    assert within(path, dense, tolerance)  # closed form, every fit (both ways)
    assert path.closed
    assert connected(path)
    assert worst_kink(path, closed=True) < 1e-9
    assert path.area == pytest.approx(200 * math.pi, abs=tolerance * path.length)


def test_an_ellipse_of_20_by_10_takes_at_most_60_arcs():
    path = fit_arcs(ellipse(4001), TOL)
    assert len(path.segments) <= 60
    assert all(isinstance(segment, Arc) for segment in path.segments)


def test_the_number_of_arcs_grows_with_the_cube_root():
    # Law for arc splines: count ~ tolerance ** (-1/3), so an eighth of it takes twice as many;
    # chords would take 2.8 times as many. (From memory; derived in fit.py for biarcs.)
    counts = [len(fit_arcs(ellipse(8001), tol).segments) for tol in (0.008, 0.001, 0.000125)]
    assert 1.7 <= counts[1] / counts[0] <= 2.3
    assert 1.7 <= counts[2] / counts[1] <= 2.3


def test_a_circle_is_one_full_arc():
    rows = curve(
        lambda t: (3 + 7 * math.cos(t), -2 + 7 * math.sin(t)),
        lambda t: (-math.sin(t), math.cos(t)),
        0.3,
        0.3 + 2 * math.pi,
        400,
    )
    path = fit_arcs([*rows[:-1], (rows[0][0], rows[-1][1])], TOL)
    (arc,) = path.segments
    assert arc.start == arc.end
    assert arc.radius == pytest.approx(7, abs=1e-9)
    assert arc.centre == pytest.approx((3, -2), abs=1e-9)
    assert arc.ccw


def test_a_circle_run_clockwise_stays_clockwise():
    rows = [((math.cos(t), -math.sin(t)), (-math.sin(t), -math.cos(t))) for t in np.arange(64) / 10]
    rows = rows[:63]
    path = fit_arcs([*rows, (rows[0][0], rows[0][1])], TOL)
    assert path.area == pytest.approx(-math.pi, abs=1e-9)


def test_an_open_arc_is_one_arc_and_a_straight_curve_one_line():
    arc = curve(
        lambda t: (5 * math.cos(t), 5 * math.sin(t)),
        lambda t: (-math.sin(t), math.cos(t)),
        1,
        5.5,
        200,
    )
    (piece,) = fit_arcs(arc, TOL).segments
    assert isinstance(piece, Arc)
    assert piece.radius == pytest.approx(5, abs=1e-9)
    assert piece.length == pytest.approx(5 * 4.5, abs=1e-9)
    line = curve(lambda t: (t**3, 2 * t**3), lambda _: (1, 2), 0, 1, 50)
    assert fit_arcs(line, TOL).segments == (Line((0.0, 0.0), (1.0, 2.0)),)


def test_corners_stay_corners():
    """Two parabolas y = x (2 - x) and its mirror image meet at a corner at either end."""
    up = curve(lambda t: (t, t * (2 - t)), lambda t: (1, 2 - 2 * t), 0, 2, 400)
    down = [((x, -y), (-dx, dy)) for (x, y), (dx, dy) in reversed(up)]
    path = fit_arcs([*up, *down], 0.0002)
    assert path.closed
    assert connected(path)
    assert path.area == pytest.approx(-2 * 4 / 3, abs=0.0002 * path.length)
    assert any(segment.end == (2.0, 0.0) for segment in path.segments)
    assert worst_kink(path, closed=True) == pytest.approx(math.pi - 2 * math.atan(2), abs=1e-9)


def test_a_break_without_a_corner_keeps_line_and_arc_apart():
    line = curve(lambda t: (t, 0.0), lambda _: (1, 0), -10, 0, 30)
    arc = curve(
        lambda t: (4 * math.sin(t), 4 - 4 * math.cos(t)),
        lambda t: (math.cos(t), math.sin(t)),
        0,
        2,
        100,
    )
    first, second = fit_arcs([*line, *arc], TOL).segments
    assert isinstance(first, Line)
    assert second.radius == pytest.approx(4, abs=1e-9)


def test_an_inflected_curve_is_followed():
    rows = curve(lambda t: (t, math.sin(t)), lambda t: (1, math.cos(t)), 0, 12, 4000)
    path = fit_arcs(rows, TOL)
    assert within(path, [point for point, _ in rows], TOL)
    assert worst_kink(path, closed=False) < 2e-3
    assert len(path.segments) < 60


@settings(max_examples=12, deadline=None)
@given(
    st.floats(0.1, 1.0),
    st.floats(-0.2, 0.2),
    st.integers(2, 5),
    st.sampled_from([1e-4, 5e-4, 5e-3]),
)
def test_any_smooth_closed_curve_is_followed(a, b, waves, tolerance):
    def at(t):
        r = 10 + a * math.cos(waves * t) + b * math.sin(t)
        return (r * math.cos(t), r * math.sin(t))

    def slope(t):
        r = 10 + a * math.cos(waves * t) + b * math.sin(t)
        dr = -a * waves * math.sin(waves * t) + b * math.cos(t)
        return (dr * math.cos(t) - r * math.sin(t), dr * math.sin(t) + r * math.cos(t))

    rows = curve(at, slope, 0, 2 * math.pi, 3001)
    path = fit_arcs([*rows[:-1], (rows[0][0], rows[-1][1])], tolerance)
    assert path.closed
    assert connected(path)
    assert within(path, [at(t) for t in np.linspace(0, 2 * math.pi, 20001)], tolerance)


# --- polylines -------------------------------------------------------------------------------


def ring(count, radius=7.0, centre=(3.0, -2.0), start=0.1):
    return [
        (centre[0] + radius * math.cos(a), centre[1] + radius * math.sin(a))
        for a in (start + 2 * math.pi * k / count for k in range(count))
    ]


def rounded(width=60.0, height=44.0, radius=6.0, chords=8):
    corners = ((1, 1, 0), (-1, 1, 90), (-1, -1, 180), (1, -1, 270))
    return [
        (
            sx * (width / 2 - radius) + radius * math.cos(math.radians(first + 90 * k / chords)),
            sy * (height / 2 - radius) + radius * math.sin(math.radians(first + 90 * k / chords)),
        )
        for sx, sy, first in corners
        for k in range(chords + 1)
    ]


@pytest.mark.parametrize("count", [13, 16, 24, 60, 100, 999])
def test_points_on_one_circle_are_one_circle(count):
    # Closed form: radius and centre recovered to 1e-6.
    (arc,) = recover(ring(count), TOL).segments
    assert arc.start == arc.end
    assert arc.radius == pytest.approx(7, abs=1e-6)
    assert arc.centre == pytest.approx((3, -2), abs=1e-6)


def test_unevenly_spread_points_on_a_circle_are_one_circle():
    steps = [1 + 0.4 * math.sin(3 * k) for k in range(80)]
    angles = np.cumsum(steps) / sum(steps) * 2 * math.pi
    (arc,) = recover([(2 * math.cos(a), 2 * math.sin(a)) for a in angles.tolist()], TOL).segments
    assert arc.radius == pytest.approx(2, abs=1e-6)


@pytest.mark.parametrize("count", [3, 4, 6, 8])
def test_a_polygon_with_real_corners_is_no_circle(count):
    path = recover(ring(count), TOL)
    assert len(path.segments) == count
    assert all(isinstance(segment, Line) for segment in path.segments)


@pytest.mark.parametrize("chords", [4, 8, 30, 300])
@pytest.mark.parametrize("shift", [0, 1, 3, 20])
def test_a_rounded_rectangle_is_four_lines_and_four_arcs(chords, shift):
    # Closed form: exact, wherever the polyline begins.
    points = rounded(chords=chords)
    path = recover([*points[shift:], *points[:shift]], TOL)
    kinds = [type(segment) for segment in path.segments]
    assert (kinds.count(Line), kinds.count(Arc)) == (4, 4)
    for segment in path.segments:
        if isinstance(segment, Arc):
            assert segment.radius == pytest.approx(6, abs=1e-9)
            assert segment.sweep == pytest.approx(math.pi / 2, abs=1e-9)
    assert path.area == pytest.approx(60 * 44 - 36 * (4 - math.pi), abs=1e-9)
    assert path.closed
    assert connected(path)


def test_reversing_and_mirroring_change_neither_area_nor_length():
    # Closed form: reversing the input, mirroring it.
    path = recover(rounded(), TOL)
    back = recover(rounded()[::-1], TOL)
    mirror = recover([(-x, y) for x, y in rounded()], TOL)
    for other in (back, mirror):
        assert other.area == pytest.approx(-path.area, abs=1e-9)
        assert other.length == pytest.approx(path.length, abs=1e-9)


def test_a_straight_run_is_one_line():
    # Closed form: exact.
    run = [(k / 10, k / 5) for k in range(50)]
    assert recover(run, TOL, closed=False).segments == (Line((0.0, 0.0), (4.9, 9.8)),)


def test_a_flat_on_a_circle_stays_a_flat():
    """All points of a D lie on one circle; the long chord between two of them is a line."""
    points = [
        (5 * math.cos(math.radians(a)), 5 * math.sin(math.radians(a))) for a in range(-160, 161, 5)
    ]
    path = recover(points, TOL)
    assert sorted(type(segment).__name__ for segment in path.segments) == ["Arc", "Line"]
    sweep = math.radians(320)
    assert path.area == pytest.approx(12.5 * (sweep - math.sin(sweep)), abs=1e-9)


def test_rounded_coordinates_are_fitted_within_tolerance():
    points = [(round(x, 3), round(y, 3)) for x, y in rounded(chords=24)]
    path = recover(points, 0.002)
    assert len(path.segments) == 8
    line = shapely.LineString(flat(path))
    assert shapely.distance(shapely.points(points), line).max() <= 0.002


def test_an_open_polyline_keeps_its_ends():
    points = [(-5.0, 0.0), *((math.cos(a), 1 + math.sin(a)) for a in np.linspace(-1.57, 1, 20))]
    path = recover(points, TOL, closed=False)
    assert path.start == points[0]
    assert path.end == pytest.approx(points[-1])
    assert connected(path)
