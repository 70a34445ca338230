"""The jaws and the part as drawn shapes."""

import math
from dataclasses import replace

import numpy as np
import pytest
import shapely
import show_demos as demo

from jawcam.hold.target import Relief
from jawcam.show.outlines import bulged, cavity
from jawcam.show.scene import sections, setting
from jawcam.units import Units


def test_bulges_flatten_to_their_arcs():
    points = bulged(demo.circle_outline(3.0, 4.0, 10.0), 0.001)
    away = np.hypot(points[:, 0] - 3.0, points[:, 1] - 4.0)
    assert away == pytest.approx(np.full(len(points), 10.0))
    assert shapely.Polygon(points).area == pytest.approx(math.pi * 100, rel=2e-4)


def test_a_negative_bulge_curves_inward():
    rows = ((0.0, 0.0, -1.0), (10.0, 0.0, 0.0), (10.0, 10.0, 0.0), (0.0, 10.0, 0.0))
    area = shapely.Polygon(bulged(rows, 0.001)).area
    assert area == pytest.approx(100 - math.pi * 25 / 2, rel=1e-3)


def test_lever_outline_has_both_bosses():
    lever = shapely.Polygon(bulged(demo.lever_outline(), 0.001))
    assert lever.bounds == pytest.approx((-46.0, -17.0, 38.0, 17.0), abs=0.01)


def test_cavity_grows_by_grip_all_round_and_by_side_along_x():
    part = shapely.box(-10, -5, 10, 5)
    grown = cavity(part, 0.5, 0.25)
    assert grown.bounds == pytest.approx((-10.75, -5.5, 10.75, 5.5))
    # A box grown with round corners, then swept: two quarter-round ends and the middle between.
    corners = math.pi * 0.25 + 2 * 0.5 * (20 + 10)
    assert grown.area == pytest.approx(200 + corners + 0.5 * 11, rel=1e-4)


def test_swept_cavity_leaves_nothing_of_a_slanted_edge_out():
    part = shapely.Polygon([(0, 0), (10, 10), (0, 10)])
    swept = cavity(part, 0.0, 3.0)
    assert swept.area == pytest.approx(50 + 6 * 10)
    assert swept.geom_type == "Polygon"


def test_shapes_stand_in_the_pictures_units_from_the_programs_origin():
    target = demo.lever_target(zero=(-65.0, -43.0, -38.0))
    scene = setting(target, Units.INCH, 0.01)
    assert scene.blanks[0].bounds == pytest.approx((0, 0, 130 / 25.4, 40 / 25.4))
    assert scene.blanks[1].bounds == pytest.approx((0, 46 / 25.4, 130 / 25.4, 86 / 25.4))
    assert scene.part.bounds[0] == pytest.approx((65 - 46) / 25.4, abs=1e-3)
    heights = (scene.top, scene.bottom, scene.floor, scene.part_top, scene.clearance)
    assert [z * 25.4 for z in heights] == pytest.approx([38, 0, 30, 42, 43])


def test_holes_are_no_part_but_stay_in_the_cavity():
    scene = setting(demo.lever_target(), Units.MM, 0.01)
    centre = shapely.Point(-29.0, 0.0)
    assert not scene.part.contains(centre)
    assert scene.cavity.contains(centre)


def test_corner_reliefs_widen_the_cavity():
    relief = Relief((36.0, 4.0), (42.0, 9.0), 2.0, (42.0, 9.0), -8.0)
    scene = setting(replace(demo.lever_target(), reliefs=(relief,)), Units.MM, 0.01)
    assert scene.cavity.contains(shapely.Point(43.0, 9.5))
    assert scene.reliefs[0].shape.area == pytest.approx(
        math.pi * 4 + 4 * math.hypot(6, 5), rel=1e-3
    )


def test_sections_are_the_stretches_inside():
    ring = shapely.Point(0, 0).buffer(10, 64) - shapely.Point(0, 0).buffer(6, 64)
    spans = sections(ring, 0.0)
    assert spans == [pytest.approx((-10, -6)), pytest.approx((6, 10))]
    assert sections(ring, 11.0) == []
