"""The cavity: the outline grown, slid, relieved."""

import math

import numpy as np
import pytest
import shapely
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from proof_pen import DISC

from jawcam.hold.target import Blanks, Relief
from jawcam.proof.cavity import (
    blanks_area,
    filled,
    gap_area,
    grown,
    outline_area,
    relief_area,
    shrunk,
    slid,
)
from jawcam.proof.curve import loop_points
from jawcam.proof.sweep import CAVITY_CHORD

FINE = 1e-8


def quarter(sweep):
    return math.tan(sweep / 4)


def contour():
    """The contour of NISTIR 6556 table 12, counter-clockwise; its arcs have radius 1."""
    slope = math.atan2(0.8, -0.6)  # from the last arc's centre to its start
    return (
        (2.0, 3.0, quarter(slope - math.pi / 2)),
        (1.4, 2.8, 0.0),
        (-2.6, -0.2, quarter(math.pi - slope + math.pi / 2)),
        (-2.0, -2.0, 0.0),
        (2.0, -2.0, quarter(math.pi / 2)),
        (3.0, -1.0, 0.0),
        (3.0, 2.0, quarter(math.pi / 2)),
    )


def test_the_published_contour_has_its_area_and_length():
    """NISTIR 6556 table 12: 18 + pi and 12 + 2 pi."""
    area = grown(contour(), 0.0, FINE)
    assert area.area == pytest.approx(18 + math.pi, abs=1e-6)
    assert area.length == pytest.approx(12 + 2 * math.pi, abs=1e-6)


def test_the_published_contour_grows_as_published():
    """NISTIR 6556 table 13, the offset by 0.5: A + L r + pi r^2, and its corner points."""
    area = grown(contour(), 0.5, FINE)
    assert area.area == pytest.approx(31.068583, abs=1e-5)
    assert area.length == pytest.approx(21.424778, abs=1e-5)
    for point in [(2, 3.5), (3.5, 2), (3.5, -1), (2, -2.5), (-2, -2.5), (-2.9, 0.2), (1.1, 3.2)]:
        assert shapely.distance(area.exterior, shapely.Point(point)) < 1e-6


def test_a_sharp_corner_grows_round():
    square = tuple((x, y, 0.0) for x, y in ((0, 0), (10, 0), (10, 10), (0, 10)))
    assert grown(square, 1.0, FINE).area == pytest.approx(100 + 40 + math.pi, abs=1e-5)
    assert grown(square, -1.0, FINE).area == pytest.approx(64, abs=1e-9)


def test_an_inward_arc_grows_tighter_until_it_is_gone():
    """A square with half a disc of radius 2 cut out of its lower side."""
    bay = ((0, 0, 0.0), (3, 0, -1.0), (7, 0, 0.0), (10, 0, 0.0), (10, 10, 0.0), (0, 10, 0.0))
    assert grown(bay, 0.0, FINE).area == pytest.approx(100 - 2 * math.pi, abs=1e-5)
    inner = grown(bay, 1.0, FINE)
    assert shapely.distance(inner.exterior, shapely.Point(5, 1)) == pytest.approx(0, abs=1e-6)
    assert shapely.distance(inner.exterior, shapely.Point(5, 0)) == pytest.approx(1, abs=1e-6)
    filled = grown(bay, 2.5, FINE)
    assert len(filled.interiors) == 0
    assert shapely.contains_xy(filled, 5, 0.5)


@pytest.mark.parametrize("reach", [0.0, 0.05, 0.3, 2.0])
def test_growing_keeps_to_its_chord(reach):
    area = grown(DISC, reach, CAVITY_CHORD)
    points = shapely.get_coordinates(area)
    assert np.hypot(*points.T) == pytest.approx(15 + reach, abs=1e-9)
    middles = (points[:-1] + points[1:]) / 2
    assert np.hypot(*middles.T).min() >= 15 + reach - CAVITY_CHORD * 1.001


def test_points_of_a_loop_lie_on_it():
    points = loop_points(DISC, 1e-3)
    assert np.hypot(*points.T) == pytest.approx(15.0, abs=1e-12)
    assert len(points) >= math.pi / math.acos(1 - 1e-3 / 15)


def test_a_convex_outline_slides_by_its_height():
    disc = grown(DISC, 0.0, 1e-6)
    assert slid(disc, 0.4).area == pytest.approx(disc.area + 0.8 * 30, abs=1e-6)
    assert slid(disc, 0.0) is disc


@st.composite
def stars(draw):
    radii = draw(st.lists(st.floats(2.0, 20.0), min_size=4, max_size=14))
    angles = [math.tau * k / len(radii) + 0.1 for k in range(len(radii))]
    points = [(r * math.cos(a), r * math.sin(a)) for r, a in zip(radii, angles, strict=True)]
    return shapely.Polygon([(round(x, 3), round(y, 3)) for x, y in points])


@given(stars(), st.floats(0.05, 6.0))
@settings(max_examples=50, deadline=None)
def test_sliding_agrees_with_sliding_triangle_by_triangle(star, side):
    """A triangle that slides along a line covers the hull of its two ends."""
    assume(star.is_valid)
    ends = [(-side, 0.0), (side, 0.0)]
    hulls = [
        shapely.convex_hull(
            shapely.union_all([shapely.transform(one, lambda p, e=e: p + e) for e in ends])
        )
        for one in shapely.get_parts(shapely.constrained_delaunay_triangles(star))
    ]
    true = shapely.union_all(hulls)
    assert shapely.symmetric_difference(slid(star, side), true).area < 1e-6


def test_a_relief_is_what_a_cutter_sweeps_along_it():
    relief = Relief((15.0, 0.0), (17.0, 0.0), 2.0, (15.0, 0.0), -6.0)
    assert relief_area(relief).area == pytest.approx(2 * 4 + math.pi * 4, abs=1e-3)


def test_holes_of_a_cavity_are_filled():
    """Two bows that only meet at their ends."""
    bow = shapely.box(-10, -10, 10, 10).difference(shapely.box(-8, -8, 8, 12))
    ring = shapely.union(bow, shapely.box(-10, 8, 10, 10))
    assert len(ring.interiors) == 1
    assert filled(ring).area == pytest.approx(400)
    assert filled(bow) is bow
    dented = ((-10, -10, 0.0), (10, -10, 0.0), (10, 10, 0.0), (0.1, 10, 0.0), (0.1, 5, 0.0))
    dented += ((5, 5, 0.0), (5, -5, 0.0), (-5, -5, 0.0), (-5, 5, 0.0), (-0.1, 5, 0.0))
    dented += ((-0.1, 10, 0.0), (-10, 10, 0.0))
    assert outline_area(dented, 0.2, 0.0).area == pytest.approx(400 + 80 * 0.2, abs=0.2)


def test_shrinking_takes_off_a_band_along_the_edge():
    square, disc = shapely.box(0, 0, 10, 10), grown(DISC, 0.0, CAVITY_CHORD)
    assert shrunk(square, 1.0).area == pytest.approx(64)
    assert shrunk(disc, 2.0).area == pytest.approx(math.pi * 13**2, abs=0.01)
    notched = shapely.difference(square, shapely.box(6, 6, 10, 10))
    left = shrunk(notched, 1.0)
    assert left.area == pytest.approx(64 - 16 + (1 - math.pi / 4), abs=1e-3), "round the corner"
    hollow = shapely.difference(square, shapely.box(4, 4, 6, 6))
    assert shrunk(hollow, 1.0).area == pytest.approx(64 - 4 - 8 - math.pi, abs=1e-3)


@given(stars(), st.floats(0.05, 3.0))
@settings(max_examples=40, deadline=None)
def test_shrinking_keeps_all_that_is_farther_than_the_width_from_the_edge(star, width):
    assume(star.is_valid)
    left = shrunk(star, width)
    for x, y in np.random.default_rng(7).uniform(-20, 20, (200, 2)):
        point = shapely.Point(x, y)
        far = shapely.distance(point, star.boundary) if shapely.contains(star, point) else -1.0
        if abs(far - width) > 1e-3:
            assert shapely.contains(left, point) == (far > width)


def test_the_blanks_stand_a_gap_apart():
    blanks = Blanks(width=80.0, height=30.0, thickness=25.0, gap=6.0)
    assert blanks_area(blanks).bounds == (-40, -28, 40, 28)
    assert blanks_area(blanks).area == 2 * 80 * 25
    assert shapely.intersection(blanks_area(blanks), gap_area(blanks)).area == 0
