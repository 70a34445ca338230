"""Distances, insides, the roomiest place, and what is too narrow."""

import math

import numpy as np
import pytest
import shapely
from geos_reference import geos, ring
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from outlines import POLYGONS, outlines, rounded_rectangle

from jawcam.geometry.combine import difference
from jawcam.geometry.cut import begun_near, tangent_at
from jawcam.geometry.measure import contains, inside_distances, nearest_on, roomiest
from jawcam.geometry.narrow import too_narrow
from jawcam.geometry.offset import grow, shrink
from jawcam.geometry.shapes import Path, Region, circle, from_bulges, polygon
from jawcam.tolerance import Tolerance

TOLERANCE = Tolerance()


@settings(max_examples=40, deadline=None)
@given(outlines(), st.integers(0, 2**32 - 1))
def test_inside_distances_agree_with_geos(path: Path, seed: int):
    assume(shapely.Polygon(ring(path, 1e-4)).is_valid)
    shape = geos((Region(path),))
    points = np.random.default_rng(seed).uniform(-32, 32, (100, 2))
    spots = shapely.points(points)
    expected = shapely.distance(shape.exterior, spots)
    expected[~shapely.contains(shape, spots)] *= -1
    assert np.abs(inside_distances([Region(path)], points) - expected).max() < 5e-5


def test_a_point_on_the_chord_of_a_hollow_arc_is_outside():
    hollow = from_bulges([(0, 0, 0), (10, 0, 0), (10, 8, -0.5), (0, 8, 0)])
    for x in (3.0, 5.0, 7.25):
        assert not contains([Region(hollow)], (x, 8.0))
    bulging = from_bulges([(0, 0, 0), (10, 0, 0), (10, 8, 0.5), (0, 8, 0)])
    assert contains([Region(bulging)], (5.0, 8.0))


def test_holes_are_outside():
    assert contains([POLYGONS["frame"]], (10, 10))
    assert not contains([POLYGONS["frame"]], (40, 40))


@pytest.mark.parametrize("name", POLYGONS)
def test_the_roomiest_place_agrees_with_geos(name: str):
    region = POLYGONS[name]
    at, room = roomiest(region)
    disc = shapely.maximum_inscribed_circle(geos((region,)), 1e-3).length
    assert room == pytest.approx(disc, abs=0.012)
    assert inside_distances([region], np.array([at]))[0] == pytest.approx(room, abs=1e-9)


@pytest.mark.parametrize(("corner", "share"), [(90, 0.214602), (60, 0.684853)])
def test_a_round_cutter_leaves_the_closed_form_in_a_sharp_corner(corner: float, share: float):
    # r^2 (cot(theta / 2) - (pi - theta) / 2), plane geometry
    half = math.radians(corner / 2)
    wedge = polygon([(0, 0), (90 * math.cos(half), -90 * math.sin(half)),
                     (90 * math.cos(half), 90 * math.sin(half))])  # fmt: skip
    reached = grow(shrink([Region(wedge)], 5, TOLERANCE), 5, TOLERANCE)
    corners = difference([Region(wedge)], reached, TOLERANCE)
    assert len(corners) == 3
    tip = min(corners, key=lambda region: region.outer.box[0])
    assert tip.area == pytest.approx(share * 25, abs=1e-4)
    places = too_narrow([Region(wedge)], 10, TOLERANCE)
    assert len(places) == 3
    # the largest disc beside the cutter's in a corner: r (1 - sin) / (1 + sin)
    sine = math.sin(half)
    expected = 10 * (1 - sine) / (1 + sine)
    assert min(places, key=lambda p: math.hypot(*p.at)).size == pytest.approx(expected, abs=0.003)


def test_a_neck_is_named_with_its_place_and_width():
    places = too_narrow([POLYGONS["dumb-bell"]], 8, TOLERANCE)
    neck = max(places, key=lambda place: place.size)
    assert neck.size == pytest.approx(6, abs=0.01)
    assert 30 < neck.at[0] < 60
    assert neck.at[1] == pytest.approx(15, abs=0.1)


def test_a_path_begun_elsewhere_is_the_same_path():
    path = rounded_rectangle(60, 44, 6)
    for near in ((0, -30), (29, -21), (24.0, -22.0), (-40, 3)):
        other = begun_near(path, near)
        assert other.start == pytest.approx(nearest_on(path, near)[1])
        assert other.closed
        assert other.length == pytest.approx(path.length, abs=1e-9)
        assert other.area == pytest.approx(path.area, abs=1e-9)
    (arc,) = begun_near(circle((0, 0), 5), (0, 9)).segments
    assert arc.start == pytest.approx((0, 5))
    assert tangent_at(arc, arc.start) == pytest.approx((-1, 0))
