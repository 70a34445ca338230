"""The shapes of lathe tools, from their own numbers, and what they sweep."""

import math
from dataclasses import replace

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from turning_pen import BORE, CNMG, DRILL, GROOVE, THREAD, TURN, VNMG, Pen, program, target

from jawcam.proof.turning.form import edge_length, form_of
from jawcam.proof.turning.holder import holder_of
from jawcam.proof.turning.path import moves_of, track
from jawcam.proof.turning.sweep import folded, swept
from jawcam.tools.turner import Insert, Turner


# Edge lengths that ISO 1832 sizes are named by (C12, D15, V16, T16, S12, W08 and so on), mm.
@pytest.mark.parametrize(
    ("shape", "angle", "size", "edge"),
    [
        ("C", 80.0, 12.7, 12.9),
        ("C", 80.0, 9.525, 9.7),
        ("D", 55.0, 12.7, 15.5),
        ("D", 55.0, 9.525, 11.6),
        ("V", 35.0, 9.525, 16.6),
        ("T", 60.0, 9.525, 16.5),
        ("S", 90.0, 12.7, 12.7),
        ("W", 80.0, 12.7, 8.7),
        ("W", 80.0, 9.525, 6.5),
        ("K", 55.0, 16.15, 16.15),
    ],
)
def test_edges_are_as_long_as_the_standard_says(shape, angle, size, edge):
    assert edge_length(Insert("", shape, angle, 0.0, size, 0.8)) == pytest.approx(edge, abs=0.06)


@pytest.mark.parametrize(
    ("hand", "inside", "nose"),
    [
        ("right", False, (0.8, 0.8)),
        ("left", False, (-0.8, 0.8)),
        ("neutral", False, (0.0, 0.8)),
        ("right", True, (0.8, -0.8)),
        ("left", True, (-0.8, -0.8)),
    ],
)
def test_the_set_point_is_the_corner_of_the_nose_s_box(hand, inside, nose):
    form = form_of(replace(TURN, hand=hand, inside=inside, approach=93.0))
    assert form.nose == pytest.approx(nose)
    assert form.discs == (pytest.approx((*nose, 0.8)),)


def test_the_edges_lie_as_the_approach_and_the_insert_say():
    shape = shapely.Polygon(form_of(replace(TURN, approach=93.0)).outline)
    z0, x0, _, _ = shape.bounds
    assert (z0, x0) == pytest.approx((0.0, 0.0), abs=1e-4)
    # the main edge leans 3 degrees back, the trailing edge rises by 180 - 93 - 80 = 7
    for at, angle in (((1.0, 10.0), 87.0), ((10.0, 1.0), 7.0)):
        ring = shape.exterior
        here = ring.project(shapely.Point(at))
        a, b = (ring.interpolate(here + d) for d in (-0.5, 0.5))
        lean = math.degrees(math.atan2(b.y - a.y, b.x - a.x)) % 180
        assert lean == pytest.approx(angle, abs=1e-6)


def test_every_outline_is_convex_and_counter_clockwise():
    neutral = replace(TURN, insert=VNMG, hand="neutral", approach=72.5)
    rounded = replace(TURN, insert=Insert("RCMT", "R", 0.0, 7.0, 8.0, 4.0), hand="neutral")
    tools = (TURN, neutral, rounded, GROOVE, THREAD, DRILL, BORE, replace(TURN, hand="left"))
    tools += (
        replace(GROOVE, inside=True),
        replace(THREAD, inside=True),
        replace(BORE, hand="left"),
    )
    for tool in tools:
        form = form_of(tool)
        for corners in (
            form.outline,
            form.core,
            *(h for h in holder_of(tool, form) if h is not None),
        ):
            ring = shapely.LinearRing(corners)
            assert ring.is_ccw, tool
            polygon = shapely.Polygon(corners)
            assert polygon.convex_hull.area == pytest.approx(polygon.area, rel=1e-12), tool
        whole = shapely.union_all(
            [shapely.Polygon(form.core)]
            + [shapely.Point(z, x).buffer(r, quad_segs=200) for z, x, r in form.discs]
        )
        rim = shapely.symmetric_difference(whole, shapely.Polygon(form.outline))
        assert shapely.buffer(rim, -2e-4).is_empty, tool


def test_a_tool_that_its_numbers_don_t_tell_has_no_form():
    assert form_of(replace(TURN, insert=None)) is None
    assert form_of(replace(GROOVE, width=None)) is None
    assert form_of(replace(DRILL, dia=None)) is None
    # a trailing edge that would lean below the surface
    assert form_of(replace(TURN, insert=replace(CNMG, angle=90.0, shape="S"))) is None


def test_a_drill_s_point_is_as_long_as_its_angle_says():
    # D 16, 118 degrees: 8 / tan 59 = 4.807
    assert sorted(form_of(DRILL).outline[:, 0])[1] == pytest.approx(4.8069, abs=1e-4)


@settings(max_examples=40)
@given(st.floats(0.05, 20.0), st.floats(0.1, 6.0), st.floats(0.0, 6.2), st.booleans())
def test_an_arc_sweeps_what_the_tool_covers_on_its_way(radius, turn, begin, ccw):
    middle = (-10.0, 40.0)
    start = (middle[0] + radius * math.cos(begin), middle[1] + radius * math.sin(begin))
    end_angle = begin + turn * (1 if ccw else -1)
    end = (middle[0] + radius * math.cos(end_angle), middle[1] + radius * math.sin(end_angle))
    pen = Pen()
    pen.at = start
    pen.arc(*end, middle, ccw=ccw)
    whole = program(pen)
    (move,) = moves_of(whole, target((0.0, 0.0), (0.0, 15.0)))
    form = form_of(TURN)
    (area,) = swept(form, [move])
    places = track(move, 1e-4)[:: max(1, len(track(move, 1e-4)) // 60)]
    shapes = shapely.polygons(form.outline[None] + places[:, None, :])
    union = shapely.union_all(shapes)
    # all of it, to 0.0002 mm, and nothing that isn't near one of its places
    assert shapely.buffer(shapely.difference(union, area), -1e-4).is_empty
    step = max(float(np.max(np.hypot(*np.diff(places, axis=0).T))) if len(places) > 1 else 0.0, 0.0)
    last = math.dist(places[-1], end)
    assert area.within(shapely.buffer(union, step + last + 2e-4))


def test_what_goes_past_the_axis_is_folded_up():
    area = shapely.box(0.0, -3.0, 2.0, 1.0)
    assert folded(area).bounds == (0.0, 0.0, 2.0, 3.0)
    assert folded(shapely.box(0.0, 1.0, 2.0, 3.0)).bounds == (0.0, 1.0, 2.0, 3.0)


def test_a_block_begins_where_the_overhang_ends():
    tool = Turner(9, "turning", insert=CNMG, overhang=40.0)
    holder = holder_of(tool, form_of(tool))
    assert holder.block[:, 1].min() == 40.0
    assert holder_of(TURN, form_of(TURN)).block is None
