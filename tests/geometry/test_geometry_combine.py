"""Unions, differences, slides along X and nested rings."""

import math

import numpy as np
import pytest
import shapely
from geos_reference import geos, ring, thickest
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from outlines import POLYGONS, outlines, rounded_rectangle
from shapely import affinity

from jawcam.geometry.combine import difference, intersection, union
from jawcam.geometry.rings import Ring, rings
from jawcam.geometry.shapes import Arc, Region, circle, from_bulges, polygon, to_bulges
from jawcam.geometry.sweep import slid_along_x
from jawcam.geometry.transform import mirrored, moved, turned
from jawcam.tolerance import Tolerance

TOLERANCE = Tolerance()
PLATE = Region(polygon([(0, 0), (60, 0), (60, 40), (0, 40)]))
DISC = Region(circle((60, 20), 10))


def test_a_disc_on_an_edge_joins_and_cuts_exactly():
    half = math.pi * 50
    for result, area in (
        (union([PLATE, DISC], TOLERANCE), 2400 + half),
        (difference([PLATE], [DISC], TOLERANCE), 2400 - half),
        (intersection([PLATE], [DISC], TOLERANCE), half),
    ):
        (region,) = result
        assert region.area == pytest.approx(area, abs=1e-9)
        assert sum(isinstance(s, Arc) for s in region.outer.segments) == 1


def test_a_disc_inside_becomes_a_hole():
    (region,) = difference([PLATE], [Region(circle((30, 20), 8))], TOLERANCE)
    assert region.area == pytest.approx(2400 - math.pi * 64, abs=1e-9)
    assert len(region.holes) == 1
    assert region.holes[0].area < 0


@settings(max_examples=40, deadline=None)
@given(outlines(), outlines(), st.sampled_from([union, difference, intersection]))
def test_random_combinations_agree_with_geos(one, two, combine):
    two = moved(two, 7.3, 3.1)
    for path in (one, two):
        assume(shapely.Polygon(ring(path, 1e-4)).is_valid)
    a, b = Region(one), Region(two)
    result = union([a, b], TOLERANCE) if combine is union else combine([a], [b], TOLERANCE)
    expected = getattr(geos((a,)), combine.__name__)(geos((b,)))
    assert thickest(geos(result).symmetric_difference(expected)) <= 0.0005


def test_a_disc_slid_along_x_is_a_stadium():
    (region,) = slid_along_x(Region(circle((0, 0), 10)), 0.1, TOLERANCE)
    assert region.area == pytest.approx(100 * math.pi + 20 * 0.2, abs=1e-9)
    assert len(region.outer.segments) == 4


@settings(max_examples=25, deadline=None)
@given(outlines(), st.sampled_from([0.05, 0.15, 0.6]))
def test_slides_agree_with_geos(path, reach):
    assume(shapely.Polygon(ring(path, 1e-4)).is_valid)
    points = np.array(ring(path))
    strips = [
        shapely.Polygon([(a[0] - reach, a[1]), (b[0] - reach, b[1]), (b[0] + reach, b[1]),
                         (a[0] + reach, a[1])])
        for a, b in zip(points, np.roll(points, -1, axis=0), strict=True)
        if abs(a[1] - b[1]) > 1e-7
    ]  # fmt: skip
    still = shapely.Polygon(points)
    ends = [affinity.translate(still, shift) for shift in (-reach, reach)]
    expected = shapely.union_all([*ends, *(strip.buffer(0) for strip in strips)])
    slid = geos(slid_along_x(Region(path), reach, TOLERANCE))
    assert thickest(slid.symmetric_difference(expected)) <= 0.0005


def lengths(ring: Ring) -> list[float]:
    return [ring.region.outer.length] + [x for inner in ring.inner for x in lengths(inner)]


def test_rings_of_a_60_by_40_pocket():
    # closed form: loops 50 x 30, 42 x 22, 34 x 14 and 26 x 6 for a 10 mm cutter and 4 mm stepover
    (outer,) = rings([PLATE], 5, 4, TOLERANCE)
    assert lengths(outer) == pytest.approx([160, 128, 96, 64], abs=1e-6)
    assert sum(lengths(outer)) == pytest.approx(448, abs=1e-6)


def test_what_a_10_mm_cutter_reaches_of_a_60_by_40_pocket():
    (outer,) = rings([PLATE], 5, 4, TOLERANCE)
    reached = geos((outer.region,)).buffer(5, quad_segs=2000)
    assert reached.area == pytest.approx(2400 - (4 - math.pi) * 25, abs=1e-4)


def test_rings_of_a_dumb_bell_branch():
    (outer,) = rings([POLYGONS["dumb-bell"]], 2, 2, TOLERANCE)
    assert [inner.level for inner in outer.inner] == [1, 1]
    assert all(len(inner.inner) == 1 for inner in outer.inner)


def test_a_ring_round_a_circle_is_one_arc_and_round_a_rounded_rectangle_eight_pieces():
    (disc,) = rings([Region(circle((3, 4), 20))], 4, 3, TOLERANCE)
    (plate,) = rings([Region(rounded_rectangle(60, 44, 8))], 4, 3, TOLERANCE)
    while disc.inner:
        assert len(disc.region.outer.segments) == 1
        (disc,) = disc.inner
    assert len(plate.region.outer.segments) == 8
    assert len(plate.inner[0].region.outer.segments) == 8


def test_bulges_there_and_back():
    for path in (rounded_rectangle(60, 44, 6), circle((1, 2), 5), circle((1, 2), 5, ccw=False)):
        again = from_bulges(to_bulges(path))
        assert again.area == pytest.approx(path.area, abs=1e-9)
        assert again.length == pytest.approx(path.length, abs=1e-9)


def test_turning_and_mirroring_keep_area_and_sense():
    path = moved(rounded_rectangle(60, 44, 6), 12, -3)
    assert turned(path, 33).area == pytest.approx(path.area, abs=1e-9)
    assert mirrored(path).area == pytest.approx(path.area, abs=1e-9)
    assert turned(path, 90).box == pytest.approx((-19, -18, 25, 42), abs=1e-9)
    assert mirrored(path).box == pytest.approx((-42, -25, 18, 19), abs=1e-9)
