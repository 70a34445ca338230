"""Short cuts merged: no point is moved, none is left out that the path needs."""

from __future__ import annotations

import itertools
import math

import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from jawcam.motion.moves import ArcFeed, Compensate, LineFeed, Rapid, Remark, ToolChange
from jawcam.motion.short import merged

BEGIN = Rapid((0.0, 0.0, 0.0))


def lines(*points, feed=100):
    return [LineFeed((float(x), float(y), 0.0), feed) for x, y in points]


def ends(motions):
    return [motion.to[:2] for motion in motions]


def test_nothing_is_short_where_nothing_may_be():
    path = (BEGIN, *lines((0.001, 0), (0.002, 0)))
    assert merged(path, 0.0, 0.0) == path


def test_short_steps_along_a_line_are_one():
    path = (BEGIN, *lines(*((n * 0.001, 0) for n in range(1, 11))))
    assert ends(merged(path, 0.01, 0.0))[1:] == [(0.01, 0)]


def test_the_last_cut_is_merged_backwards_and_its_end_kept():
    path = (BEGIN, *lines((5, 0), (5.004, 0)))
    assert ends(merged(path, 0.01, 0.001))[1:] == [(5.004, 0)]


def test_a_corner_stays_where_leaving_it_out_would_show():
    path = (BEGIN, *lines((5, 0), (5, 0.009), (9, 0.009)))
    assert merged(path, 0.01, 0.001) == path
    assert len(merged(path, 0.01, 0.01)) == 3


def test_a_short_cut_by_itself_stays_as_it_is():
    path = (BEGIN, *lines((0.005, 0)), Rapid((0.005, 0.0, 9.0)))
    assert merged(path, 0.01, 0.01) == path


@pytest.mark.parametrize(
    "between",
    [
        Rapid((5.0, 0.0, 1.0)),
        Remark("x"),
        Compensate("off"),
        ArcFeed((5.0, 2.0, 0.0), (5.0, 1.0), True, 100),
    ],
)
def test_nothing_is_merged_over_what_is_no_line(between):
    path = (BEGIN, *lines((5, 0)), between, *lines((5.001, 0), (5.001, 0.002)))
    assert between in merged(path, 0.01, 0.01)
    assert (5.0, 0.0) in ends(m for m in merged(path, 0.01, 0.01) if isinstance(m, LineFeed))


def test_nor_over_a_change_of_feed():
    path = (BEGIN, *lines((5, 0)), *lines((5.001, 0), feed=50))
    assert merged(path, 0.01, 0.01) == path


def test_a_short_arc_counts_as_a_line_if_it_is_flat():
    arc = ArcFeed((5.004, 0.0, 0.0), (5.002, -1.0), False, 100)  # rises 2e-6
    path = (BEGIN, *lines((5, 0)), arc, *lines((9, 0)))
    assert ends(merged(path, 0.01, 0.001))[1:] == [(5.004, 0), (9, 0)]
    round_trip = ArcFeed((5.0, 0.0, 0.0), (5.001, 0.0), False, 100)  # a full turn of 0.002
    path = (BEGIN, *lines((5, 0)), round_trip, *lines((9, 0)))
    assert round_trip in merged(path, 0.01, 0.001)


def test_from_no_known_point_nothing_is_done():
    path = (ToolChange(1, "a"), *lines((1, 0), (1.001, 0)))
    assert merged(path, 0.01, 0.01)[:2] == path[:2]


STEPS = st.integers(-200, 200).map(lambda n: n / 10000)
POINTS = st.lists(
    st.tuples(STEPS, STEPS, st.sampled_from([0.0, 0.0, 0.003])), min_size=2, max_size=40
)


@settings(max_examples=200, deadline=None)
@given(POINTS, st.sampled_from([0.005, 0.02]), st.sampled_from([0.0, 0.001, 0.01]))
def test_the_path_stays_near_and_ends_where_it_did(steps, shortest, chord):
    places = list(itertools.accumulate(steps, lambda a, b: tuple(p + q for p, q in zip(a, b))))  # noqa: B905
    path = [Rapid(places[0]), *(LineFeed(place, 100) for place in places[1:])]
    out = merged(path, shortest, chord)
    assert out[-1].to == path[-1].to
    assert [m for m in path if m in out] == list(out) or len({*places}) < len(places)
    # GEOS measures how far what is left lies from what was, in plan, both ways.
    was, now = (
        shapely.LineString([motion.to[:2] for motion in motions]) for motions in (path, out)
    )
    assert shapely.hausdorff_distance(was, now, densify=0.05) <= chord + 1e-9
    for before, motion, after in zip(out, out[1:], out[2:], strict=False):
        if math.dist(before.to, motion.to) < shortest and chord >= shortest:
            assert math.dist(before.to, after.to) > 0
