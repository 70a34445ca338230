"""The rewrites: the same path in fewer kinds of words."""

from __future__ import annotations

import itertools
import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from jawcam.errors import InternalError
from jawcam.motion.arcs import chorded, moves_from, point_on, radius, split, sweep
from jawcam.motion.moves import (
    ArcFeed,
    Begin,
    Compensate,
    Drill,
    Dwell,
    LineFeed,
    Rapid,
    Remark,
    ToolChange,
    WorkOffset,
)
from jawcam.motion.passes import PASSES, ArcLimits, shifted

START = (5.0, 0.0, 2.0)
QUARTER = ArcFeed((0.0, 5.0, 2.0), (0.0, 0.0), True, 100)
CIRCLE = ArcFeed(START, (0.0, 0.0), False, 100)
HELIX = ArcFeed((5.0, 0.0, -1.0), (0.0, 0.0), True, 100)


def run(name, *motions, **limits):
    return PASSES[name]((Rapid(START), *motions), ArcLimits(**limits))[1:]


def test_the_sweep_of_the_example_of_the_report():
    # NISTIR 6556 section 3.5.3.2: from (7, 7) to (10, 16) round (10, 11), clockwise, radius 5.
    arc = ArcFeed((10.0, 16.0, 9.0), (10.0, 11.0), False, 100)
    start = (7.0, 7.0, 0.0)
    assert radius(start, arc) == pytest.approx(5)
    assert math.degrees(sweep(start, arc)) == pytest.approx(143.1301)
    # The length along the helix, by Pythagoras over the arc unrolled.
    points = [point_on(start, arc, n / 10000) for n in range(10001)]
    length = sum(math.dist(a, b) for a, b in itertools.pairwise(points))
    assert length == pytest.approx(15.3952, abs=1e-4)


def test_ends_above_the_start_are_a_full_turn():
    assert sweep(START, HELIX) == math.tau
    assert sweep(START, CIRCLE) == math.tau
    assert 0 <= sweep(START, ArcFeed((5.0, 1e-7, 2.0), (0.0, 0.0), True, 1)) < 1e-6


def test_a_full_circle_becomes_two_halves():
    first, second = run("split_full_circles", CIRCLE)
    assert first.to == pytest.approx((-5, 0, 2))
    assert second.to == START
    assert (first.centre, first.ccw) == (CIRCLE.centre, CIRCLE.ccw)
    assert run("split_full_circles", QUARTER) == (QUARTER,)


def test_a_helix_is_split_in_height_as_well():
    assert run("split_full_circles", HELIX)[0].to == pytest.approx((-5, 0, 0.5))


@pytest.mark.parametrize(("degrees", "pieces"), [(360, 1), (180, 2), (120, 3), (100, 4), (90, 4)])
def test_arcs_are_split_no_more_than_needed(degrees, pieces):
    parts = run("split_arcs", CIRCLE, largest_sweep=math.radians(degrees))
    assert len(parts) == pieces
    assert parts[-1].to == START


def test_helices_alone_become_lines():
    lines = run("helices_to_lines", QUARTER, CIRCLE, HELIX, helix_chord=0.01)
    assert lines[0] == QUARTER
    assert isinstance(lines[1], ArcFeed)
    assert {type(line) for line in lines[2:]} == {LineFeed}
    assert lines[-1].to == HELIX.to


def test_large_arcs_alone_become_lines():
    large = ArcFeed((0.0, 500.0, 2.0), (-500.0 + 5.0, 0.0), True, 100)
    out = run("large_arcs_to_lines", QUARTER, largest_radius=5.0)
    assert out == (QUARTER,)
    out = run("large_arcs_to_lines", large, largest_radius=100.0)
    assert {type(line) for line in out} == {LineFeed}


@given(
    st.floats(0.01, 500),
    st.floats(0.01, 6.28),
    st.floats(-10, 10),
    st.booleans(),
    st.sampled_from([0.001, 0.01]),
)
def test_lines_stay_within_the_chord_tolerance(size, turn, rise, ccw, chord):
    start = (size, 0.0, 0.0)
    angle = turn if ccw else -turn
    arc = ArcFeed((size * math.cos(angle), size * math.sin(angle), rise), (0.0, 0.0), ccw, 100)
    here = start
    for line in chorded(start, arc, chord):
        middle = math.dist(((here[0] + line.to[0]) / 2, (here[1] + line.to[1]) / 2), (0, 0))
        assert size - chord * 1.001 <= middle <= size * (1 + 1e-9)
        assert math.hypot(*line.to[:2]) == pytest.approx(size)
        here = line.to
    assert here == arc.to


def test_the_parts_of_an_arc_sweep_what_it_did():
    here, total = START, 0.0
    for part in split(START, HELIX, 7):
        total += sweep(here, part)
        here = part.to
    assert total == pytest.approx(math.tau)


@pytest.mark.parametrize("name", PASSES)
def test_a_pass_leaves_all_else_alone(name):
    head = (Begin("x", ("y",)), ToolChange(1, "a"), Rapid(START))
    others = (*head, Remark("b"), Compensate("off"), Dwell(1.0))
    lines = (LineFeed((1.0, 2.0, 3.0), 50), Rapid((1.0, 2.0, 9.0)))
    assert PASSES[name]((*others, *lines), ArcLimits(math.pi, 1.0, 0.01)) == (*others, *lines)


@pytest.mark.parametrize("name", sorted(PASSES.keys() - {"cycles_to_moves"}))
def test_a_pass_for_arcs_leaves_holes_alone_and_knows_where_they_end(name):
    hole = Drill((5.0, 0.0), 2.0, 1.0, -3.0, 50, peck=1.0)
    out = PASSES[name]((Rapid((0.0, 0.0, 2.0)), hole, HELIX), ArcLimits(math.pi, 1.0, 0.01))
    assert out[1] == hole
    assert out[2:] == run(name, HELIX, largest_sweep=math.pi, largest_radius=1.0, chord=0.01)


@pytest.mark.parametrize("name", PASSES)
def test_the_feed_and_the_end_are_kept(name):
    for arc in (QUARTER, CIRCLE, HELIX):
        out = run(name, arc, largest_sweep=1.0, largest_radius=1.0)
        assert {motion.feed for motion in out} == {100}
        assert out[-1].to == arc.to


def test_all_points_are_seen_from_zero():
    motions = (Rapid(START), QUARTER, Remark("x"), LineFeed((1.0, 1.0, 1.0), 5))
    assert shifted(motions, (1.0, 2.0, 3.0)) == (
        Rapid((4.0, -2.0, -1.0)),
        ArcFeed((-1.0, 3.0, -1.0), (-1.0, -2.0), True, 100),
        Remark("x"),
        LineFeed((0.0, -1.0, -2.0), 5),
    )


@pytest.mark.parametrize("break_", [Begin("a"), ToolChange(1, "a"), WorkOffset(2)])
def test_no_point_is_known_after_a_break(break_):
    motions = (Rapid(START), break_, Rapid(START), QUARTER)
    assert [start for start, _ in moves_from(motions)] == [None, START, None, START]
    with pytest.raises(InternalError, match="no known point"):
        list(moves_from((Rapid(START), break_, QUARTER)))
