"""Crossings and insides, by hand and against shapely."""

import itertools
import math
import random

import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from part_help import polygon

from jawcam.geometry.crossing import crossings, encloses
from jawcam.geometry.shapes import Arc, Line, Path, circle, from_bulges
from jawcam.geometry.shapes import polygon as corners_of

NEAR = 0.005


def places(*paths):
    return [pytest.approx(crossing.at, abs=1e-9) for crossing in crossings(paths, NEAR)]


def test_a_bow_tie_crosses_in_its_middle():
    assert places(corners_of([(0, 0), (10, 10), (10, 0), (0, 10)])) == [(5, 5)]


def test_a_line_through_an_arc_of_the_same_outline():
    """Half disc of radius 5 with a spike through its rim at Y 3 and Y 3.5."""
    path = Path(
        (
            Line((-5.0, 0.0), (5.0, 0.0)),
            Arc((5.0, 0.0), (0.0, 5.0), (0.0, 0.0), ccw=True),
            Line((0.0, 5.0), (0.0, 3.0)),
            Line((0.0, 3.0), (8.0, 3.0)),
            Line((8.0, 3.0), (8.0, 3.5)),
            Line((8.0, 3.5), (-5.0, 3.5)),
            Line((-5.0, 3.5), (-5.0, 0.0)),
        )
    )
    found = places(path)
    assert (4.0, 3.0) in found
    assert (math.sqrt(25 - 3.5**2), 3.5) in found
    assert (0.0, 3.5) in found
    assert len(found) == 3


def test_two_circles_cross_at_3_4_5():
    assert sorted(c.at for c in crossings([circle((0, 0), 5), circle((6, 0), 5)], NEAR)) == [
        pytest.approx((3, -4)),
        pytest.approx((3, 4)),
    ]


@pytest.mark.parametrize(
    ("path", "count"),
    [
        (circle((0, 0), 5), 0),
        (from_bulges([(0, 0, 1), (10, 0, 1)]), 0),
        (from_bulges([(0, 0, 1), (10, 0, 0)]), 0),
        (from_bulges([(0, 0, 0), (10, 0, 1), (10, 6, 0), (0, 6, 1)]), 0),
        (corners_of([(0, 0), (10, 0), (10, 10)]), 0),
    ],
)
def test_clean_outlines_have_none(path, count):
    assert len(crossings([path], NEAR)) == count
    assert len(crossings([path.reversed()], NEAR)) == count


def test_touching_at_a_corner_and_along_an_edge_counts():
    eight = [(0, 0), (4, 0), (2, 2), (4, 4), (0, 4), (2, 2)]
    assert (2, 2) in places(corners_of(eight))
    square = [(0, 0), (4, 0), (4, 4), (0, 4)]
    assert places(corners_of(square), corners_of([(x + 4, y + 1) for x, y in square]))


def test_an_outline_that_folds_back_on_itself():
    spike = corners_of([(0, 0), (10, 0), (10, 5), (10, 2), (10, 10), (0, 10)])
    assert places(spike)
    out, back = Arc((5.0, 0.0), (0.0, 5.0), (0.0, 0.0), ccw=True), (3.0, 4.0)
    folded = Path((out, Arc((0.0, 5.0), back, (0.0, 0.0), ccw=False), Line(back, (5.0, 0.0))))
    assert places(folded)


def test_a_flat_triangle_folds_back():
    assert places(corners_of([(0, 0), (10, 0), (5, 0)]))


def test_a_smooth_joint_is_no_crossing_however_it_is_turned():
    """Line and arc of radius 400 that meet tangentially; the corners are plain."""
    for degrees in range(0, 360, 7):
        a = math.radians(degrees)

        def at(x, y, a=a):
            return (x * math.cos(a) - y * math.sin(a), x * math.sin(a) + y * math.cos(a))

        arc = Arc(at(400, 0), at(0, 400), at(0, 0), ccw=True)
        ends = [at(0, 400), at(-300, 400), at(-300, 0), at(400, 0)]
        path = Path((arc, *(Line(p, q) for p, q in itertools.pairwise(ends))))
        assert crossings([path], NEAR) == ()


def crescent(off):
    """Half a disc of radius 10 less half a disc of about 6 that touches it inside at (10, 0)."""
    radius = math.hypot(6, off)
    return Path(
        (
            Arc((10.0, 0.0), (-10.0, 0.0), (0.0, 0.0), ccw=True),
            Line((-10.0, 0.0), (4 - radius, off)),
            Arc((4 - radius, off), (10.0, 0.0), (4.0, off), ccw=False),
        )
    )


def test_a_cusp_is_no_crossing_even_if_moved_by_a_hair():
    """Off by 0.002 the arcs cut each other again 0.01 beside the cusp, in a lens of 1e-6."""
    assert crossings([crescent(0.0)], NEAR) == ()
    assert crossings([crescent(0.002)], NEAR) == ()
    assert len(crossings([crescent(1.0)], NEAR)) == 1


def test_neighbours_that_cross_again_far_from_their_joint():
    """The line leaves the arc's end and cuts through the arc at (3, 4)."""
    path = Path(
        (
            Arc((5.0, 0.0), (-3.0, 4.0), (0.0, 0.0), ccw=True),
            Line((-3.0, 4.0), (4.5, 4.0)),
            Line((4.5, 4.0), (4.5, -1.0)),
            Line((4.5, -1.0), (5.0, 0.0)),
        )
    )
    assert (3, 4) in places(path)


def test_loops_are_told_apart():
    (crossing,) = crossings([circle((9, 9), 1), circle((0, 0), 5), circle((10, 0), 5)], NEAR)
    assert (crossing.first, crossing.second) == (1, 2)
    assert crossing.at == pytest.approx((5, 0), abs=1e-6)


@settings(max_examples=60, deadline=None)
@given(st.integers(0, 10**6), st.integers(4, 14))
def test_polygons_agree_with_shapely_on_whether_they_are_simple(seed, count):
    rng = random.Random(seed)  # noqa: S311 - a repeatable shape
    spread = rng.choice([0.5, 3.0, 30.0])
    points = [
        (
            40 * math.cos(a) + rng.uniform(-spread, spread),
            40 * math.sin(a) + rng.uniform(-spread, 9),
        )
        for a in (2 * math.pi * k / count for k in range(count))
    ]
    assert (crossings([corners_of(points)], NEAR) == ()) == shapely.LinearRing(points).is_simple


@settings(max_examples=40, deadline=None)
@given(st.integers(0, 10**6))
def test_insides_agree_with_shapely(seed):
    rng = random.Random(seed)  # noqa: S311 - a repeatable shape
    rows = [
        (r * math.cos(a), r * math.sin(a), rng.uniform(-0.6, 0.6))
        for a in (2 * math.pi * k / 7 for k in range(7))
        for r in [rng.uniform(20, 60)]
    ]
    path = from_bulges(rows)
    other = polygon(path)
    if not other.is_valid:
        return
    edge = other.exterior
    for _ in range(40):
        x, y = rng.uniform(-80, 80), rng.uniform(-80, 80)
        if edge.distance(shapely.Point(x, y)) > 1e-3:
            assert encloses(path, (x, y)) == other.contains(shapely.Point(x, y))


def test_many_segments_are_no_trouble():
    count = 2000
    points = [
        (
            (100 + 5 * (k % 2)) * math.cos(2 * math.pi * k / count),
            (100 + 5 * (k % 2)) * math.sin(2 * math.pi * k / count),
        )
        for k in range(count)
    ]
    points[700], points[702] = points[702], points[700]
    assert len(crossings([corners_of(points)], NEAR)) >= 1
