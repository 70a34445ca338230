"""The cavity by height, against closed forms and GEOS."""

from __future__ import annotations

import itertools
import math

import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from jawcam.geometry.flatten import polyline
from jawcam.geometry.shapes import Path, Region, circle, polygon
from jawcam.hold.cavity import MOST_LEVELS, cavity_levels, pockets_of
from jawcam.part.solid import Slab
from jawcam.tolerance import Tolerance

TOLERANCE = Tolerance()


def stack(*radii_and_heights):
    """Slabs of discs about the origin from the underside up: (radius, height) each."""
    slabs, bottom = [], 0.0
    for radius, height in radii_and_heights:
        slabs.append(Slab(bottom, bottom + height, (circle((0, 0), radius),)))
        bottom += height
    return slabs


def heights(levels):
    return [(level.top, level.floor) for level in levels]


def radii(levels):
    return [level.pockets[0].outer.box[2] for level in levels]


def area(regions):
    return sum(region.outer.area for region in regions)


def shape(path: Path) -> shapely.Polygon:
    return shapely.Polygon([p for s in path.segments for p in polyline(s, 1e-4)[:-1]])


def test_a_stack_that_widens_upwards_has_a_level_for_each_disc():
    levels = cavity_levels(stack((10, 4), (15, 3), (20, 9)), 12.0, 0.0, 0.0, TOLERANCE)
    assert heights(levels) == [(0.0, -5.0), (-5.0, -8.0), (-8.0, -12.0)]
    assert radii(levels) == [20, 15, 10]


def test_what_is_narrower_above_needs_the_room_of_what_passes_through():
    """A knob on its wide end: it goes in from above, so that the wall is upright to the top."""
    levels = cavity_levels(stack((20, 4), (8, 6), (15, 5)), 12.0, 0.0, 0.0, TOLERANCE)
    assert heights(levels) == [(0.0, -12.0)]
    assert radii(levels) == [20]
    assert len(levels[0].outlines) == 3


def test_equal_neighbours_are_one_level():
    levels = cavity_levels(stack((10, 2), (10, 3), (12, 4), (11, 3)), 10.0, 0.05, 0.0, TOLERANCE)
    assert heights(levels) == [(0.0, -5.0), (-5.0, -10.0)]
    assert radii(levels) == pytest.approx([12.05, 10.05])


def test_what_stands_above_the_jaw_top_is_left_out():
    levels = cavity_levels(stack((10, 4), (15, 3), (40, 9)), 7.0, 0.0, 0.0, TOLERANCE)
    assert heights(levels) == [(0.0, -3.0), (-3.0, -7.0)]


def test_a_level_is_cut_off_at_the_jaw_top():
    (level,) = cavity_levels(stack((10, 4)), 3.0, 0.0, 0.0, TOLERANCE)
    assert (level.top, level.floor) == (0.0, -3.0)


def test_two_feet_are_two_pockets_and_the_plate_above_them_one():
    feet = (circle((-24, 0), 8), circle((24, 0), 8))
    plate = (polygon([(-35, -18), (35, -18), (35, 18), (-35, 18)]),)
    levels = cavity_levels([Slab(0, 6, feet), Slab(6, 12, plate)], 9.0, 0.1, 0.0, TOLERANCE)
    assert [len(level.pockets) for level in levels] == [1, 2]
    # Steiner: an outline of area A and length L grown by r has A + L r + pi r^2
    assert area(levels[0].pockets) == pytest.approx(70 * 36 + 212 * 0.1 + math.pi * 0.01)
    assert area(levels[1].pockets) == pytest.approx(2 * math.pi * 8.1**2)


def test_outlines_that_overlap_are_united_before_they_are_grown():
    """Two squares of 10 that share a half: a rectangle of 15 by 10."""
    squares = [polygon([(x, 0), (x + 10, 0), (x + 10, 10), (x, 10)]) for x in (0, 5)]
    grown = pockets_of(squares, 0.5, 0.0, TOLERANCE)
    assert area(grown) == pytest.approx(15 * 10 + 50 * 0.5 + math.pi * 0.25)


def test_a_cavity_partly_wider_below_covers_both():
    """Neither outline holds the other: the level above is what both cover."""
    low = polygon([(-20, -5), (20, -5), (20, 5), (-20, 5)])
    high = polygon([(-5, -20), (5, -20), (5, 20), (-5, 20)])
    slabs = [Slab(0, 4, (low,)), Slab(4, 9, (high,))]
    levels = cavity_levels(slabs, 8.0, 0.0, 0.0, TOLERANCE)
    assert area(levels[0].pockets) == pytest.approx(2 * 400 - 100)
    assert area(levels[1].pockets) == pytest.approx(400)


@settings(max_examples=25, deadline=None)
@given(
    st.lists(st.tuples(st.floats(3, 30), st.floats(0.5, 8)), min_size=1, max_size=6),
    st.floats(0.0, 0.5),
    st.floats(0.0, 0.5),
    st.floats(0.2, 1.0),
)
def test_the_cavity_at_any_height_is_all_that_passes_there(discs, grip, side, share):
    """Closed form: a disc of the largest radius from there down, grown, and slid along X."""
    depth = sum(height for _, height in discs) * share
    levels = cavity_levels(stack(*discs), depth, grip, side, TOLERANCE)
    assert levels[0].top == 0.0
    assert levels[-1].floor == pytest.approx(-depth)
    for level in levels:
        middle = (level.top + level.floor) / 2 + depth
        bottom, widest = 0.0, 0.0
        for radius, height in discs:
            widest = max(widest, radius) if bottom < middle else widest
            bottom += height
        r = widest + grip
        assert area(level.pockets) == pytest.approx(math.pi * r * r + 4 * r * side, rel=1e-6)


@settings(max_examples=20, deadline=None)
@given(
    st.lists(
        st.tuples(st.floats(-15, 15), st.floats(-15, 15), st.floats(2, 12)),
        min_size=2,
        max_size=5,
    )
)
def test_each_level_covers_those_below_it(discs):
    slabs = [Slab(k, k + 1, (circle((x, y), r),)) for k, (x, y, r) in enumerate(discs)]
    levels = cavity_levels(slabs, float(len(slabs)), 0.05, 0.0, TOLERANCE)
    shapes = [shapely.union_all([shape(p.outer) for p in one.pockets]) for one in levels]
    for above, below in itertools.pairwise(shapes):
        assert below.difference(above.buffer(1e-3)).area < 1e-6
    everything = shapely.union_all([shapely.Point(x, y).buffer(r + 0.05, 128) for x, y, r in discs])
    filled = shapely.union_all(
        [shapely.Polygon(part.exterior) for part in shapely.get_parts(everything)]
    )
    assert shapes[0].symmetric_difference(filled).area < 0.002 * filled.area


def test_holes_of_the_part_are_no_holes_of_the_pocket():
    """Three bars round a hollow: it is cut away too."""
    bars = [
        polygon([(-20, -20), (20, -20), (20, -10), (-20, -10)]),
        polygon([(-20, -20), (-10, -20), (-10, 20), (-20, 20)]),
        polygon([(10, -20), (20, -20), (20, 20), (10, 20)]),
        polygon([(-20, 10), (20, 10), (20, 20), (-20, 20)]),
    ]
    (pocket,) = pockets_of(bars, 0.0, 0.0, TOLERANCE)
    assert pocket == Region(pocket.outer)
    assert area([pocket]) == pytest.approx(1600)


def test_steps_without_end_are_not_worked_out():
    """One more than are cut is enough to know that they are too many."""
    stepped = stack(*((10 + 0.1 * k, 0.2) for k in range(300)))
    assert len(cavity_levels(stepped, 60.0, 0.0, 0.0, TOLERANCE)) == MOST_LEVELS + 1
