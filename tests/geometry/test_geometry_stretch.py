"""Stretches of closed paths: by length, and where they run far from something."""

from __future__ import annotations

import itertools
import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from jawcam.geometry.measure import nearest_on
from jawcam.geometry.shapes import Arc, Line, Region, circle, from_bulges, polygon
from jawcam.geometry.stretch import far_stretches, stretch

SQUARE = polygon([(0, 0), (10, 0), (10, 10), (0, 10)])
QUARTER = math.tan(math.pi / 8)
SLOT = from_bulges([(-5, -2, 0), (5, -2, 1), (5, 2, 0), (-5, 2, QUARTER), (-7, 0, QUARTER)])


def test_a_stretch_begins_and_ends_within_segments():
    found = stretch(SQUARE, 8, 13)
    assert found.segments == (Line((8, 0), (10, 0)), Line((10, 0), (10, 3)))


def test_a_stretch_may_run_on_over_the_beginning():
    found = stretch(SQUARE, 38, 43)
    assert found.segments == (Line((0, 2), (0, 0)), Line((0, 0), (3, 0)))
    assert stretch(SQUARE, 78, 83) == found  # a turn later


def test_a_stretch_of_a_circle_is_an_arc_about_its_centre():
    (arc,) = stretch(circle((1, 2), 4), 2 * math.pi, 4 * math.pi).segments
    assert isinstance(arc, Arc)
    assert arc.centre == (1, 2)
    assert arc.start == pytest.approx((1, 6))
    assert arc.end == pytest.approx((-3, 2))
    before, after = stretch(circle((1, 2), 4), 7 * math.pi, 9 * math.pi).segments
    assert before.end == after.start == (5, 2)


def test_a_stretch_ends_at_a_joint_rather_than_a_hair_beside_it():
    assert stretch(SQUARE, 9.995, 20.004).segments == (Line((10, 0), (10, 10)),)


@settings(max_examples=60)
@given(st.floats(0, 60), st.floats(0.05, 0.999))
def test_a_stretch_is_as_long_as_asked_and_lies_on_its_path(start, share):
    found = stretch(SLOT, start, start + share * SLOT.length)
    assert found.length == pytest.approx(share * SLOT.length, abs=0.021)
    for before, after in itertools.pairwise(found.segments):
        assert before.end == after.start
    for segment in found.segments:
        assert math.dist(nearest_on(SLOT, segment.start)[1], segment.start) < 1e-9
        assert math.dist(nearest_on(SLOT, segment.end)[1], segment.end) < 1e-9


def test_corners_are_far_from_what_lies_inside():
    """From a square 2 inside, its corners are 2.83 off: 2.5 is passed 1.5 beyond its sides."""
    inside = Region(polygon([(2, 2), (8, 2), (8, 8), (2, 8)]))
    found = far_stretches(SQUARE, [inside], 2.5, 0.1)
    assert [path.segments[0].end for path in found] == [(10, 0), (10, 10), (0, 10), (0, 0)]
    for path in found:
        assert [s.length for s in path.segments] == pytest.approx([0.6, 0.6], abs=1e-5)


def test_what_runs_near_for_less_than_is_added_is_left_out_no_more():
    inside = Region(polygon([(2, 2), (8, 2), (8, 8), (2, 8)]))
    assert far_stretches(SQUARE, [inside], 2.9, 0.1) == ()
    assert [p.length for p in far_stretches(SQUARE, [inside], 1.9, 0.1)] == [40]
    # near for 9 mm of each side
    assert len(far_stretches(SQUARE, [inside], 2.5, 4.4)) == 4
    (whole,) = far_stretches(SQUARE, [inside], 2.5, 4.6)
    assert whole.length == pytest.approx(40)
    assert math.dist(whole.start, (5, 5)) < math.hypot(5, 3.1)  # not begun in a corner


def test_the_whole_path_counts_as_far_from_nothing():
    assert [p.length for p in far_stretches(SQUARE, [], 1.0, 0.1)] == [40]
