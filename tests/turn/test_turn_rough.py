"""Roughing: what it leaves, how deep it goes, what it never touches."""

from __future__ import annotations

import itertools
import math
from dataclasses import replace

import pytest
import shapely
from hypothesis import Phase, given, settings
from hypothesis import strategies as st
from shapely.geometry import box
from turn_help import (
    QUARTER,
    TOLERANCE,
    bar,
    boring,
    height,
    in_front,
    left_hand,
    low_point,
    moves,
    planned,
    ran,
    right_hand,
    shape,
    thickness,
    turned,
    workpiece,
)
from turn_profiles import profiles

from jawcam.errors import InputError
from jawcam.geometry.offset import grow, shrink
from jawcam.geometry.shapes import Arc, Line, Region, polygon
from jawcam.motion.moves import LineFeed, Rapid
from jawcam.turn.edge import Workpiece
from jawcam.turn.finish import Finishing, finish
from jawcam.turn.reach import reachable
from jawcam.turn.rough import Roughing, left_for_next, rough
from jawcam.turn.trail import TurnTrail

ALONG = Roughing(depth=1.0, feed=0.2, leave=0.2, leave_face=0.2)
PROFILE = replace(ALONG, way="profile")
WAYS = pytest.mark.parametrize("job", [ALONG, PROFILE], ids=["along", "profile"])

STEPPED = turned(
    [(0, 6, 0), (-1, 7, 0), (-12, 7, 0), (-12, 9, QUARTER), (-14, 11, 0), (-20, 11, 0),
     (-26, 13, 0), (-40, 13, 0)]
)  # fmt: skip
NECKED = turned(
    [(0, 9, 0), (-10, 9, 0), (-13, 7, 0), (-18, 7, 0), (-18, 10, 0), (-24, 10, 0), (-28, 8, 0),
     (-34, 8, 0), (-36, 12, 0)]
)  # fmt: skip


def allowed(work, edge, job):
    """All that may stay: what the tool can't reach, with the stock to leave."""
    # no right-hand tool comes over the edge of what stands behind the limit
    top = work.free + (10 if edge.hand == "right" else -2)
    behind = bar(top, front=work.limit, back=-70)
    solid = reachable(work.part, edge, TOLERANCE, beside=[behind])
    grown = grow(solid, edge.radius + job.leave, TOLERANCE)
    (region,) = shrink(grown, edge.radius, TOLERANCE)
    return shape(region)


def check(work, edge, job):
    """No gouge, all that can be reached gone, nothing behind the limit cut, no rapid in stock."""
    trail, lathe = ran(rough, work, edge, job)
    zone = box(-55, 0, -0.001, 60)
    least = shape(grow([work.part], job.leave - 0.002, TOLERANCE)[0])
    assert least.intersection(zone).difference(lathe.left).buffer(-0.0005).is_empty
    front = in_front(work.limit, job.leave + 0.02)
    most = allowed(work, edge, job).buffer(0.01)
    assert lathe.left.intersection(front).difference(most).buffer(-0.0005).is_empty
    behind = box(-80, -1, work.limit + job.leave_face - 0.001, 60)
    stock = shape(work.stock)
    assert stock.intersection(behind).difference(lathe.left).buffer(-0.0005).is_empty
    assert lathe.depth < 0.004
    return trail, lathe


@WAYS
@pytest.mark.parametrize("radius", [0.4, 0.8, 1.2])
def test_it_leaves_what_is_to_be_left(radius, job):
    _, lathe = check(workpiece(STEPPED, 16), right_hand(radius), job)
    for z, true in ((-5, 7), (-16, 11), (-30, 13), (-45, 13)):
        assert height(lathe.left, z) == pytest.approx(true + 0.2, abs=0.005)
    slant = 0.2 * math.hypot(2, 6) / 6
    assert height(lathe.left, -23) == pytest.approx(12 + slant, abs=0.005)


@WAYS
def test_radius_and_faces_may_be_left_differently(job):
    for leave, leave_face in ((0.3, 0.1), (0.1, 0.3)):
        job = replace(job, leave=leave, leave_face=leave_face)
        _, lathe = ran(rough, workpiece(STEPPED, 16), right_hand(0.8), job)
        assert height(lathe.left, -5) == pytest.approx(7 + leave, abs=0.005)
        assert height(lathe.left, -12 + leave_face + 0.01) < 8.9
        assert height(lathe.left, -12 + leave_face - 0.01) > 8.95
        # nothing is left at the limit but the stock that is to be left there
        assert height(lathe.left, -50 + leave_face + 0.01) < 15.5
        assert height(lathe.left, -50 + leave_face - 0.01) == pytest.approx(16)


def test_passes_along_z_are_even_and_no_deeper_than_allowed():
    trail = planned(
        rough, workpiece(turned([(0, 10, 0), (-40, 10, 0)]), 16), right_hand(0.8), ALONG
    )
    heights = [
        b.to[1]
        for a, b in itertools.pairwise(trail.motions)
        if isinstance(b, LineFeed) and a.to[1] == b.to[1] and b.to[0] < a.to[0] - 5
    ]
    # from 16 down to 10.2 in passes of at most 1: 6 of 5.8 / 6 each
    assert heights == pytest.approx([16 - 5.8 * k / 6 for k in range(1, 7)], abs=1e-6)


def test_a_step_little_below_a_pass_is_cut_too():
    # passes at 15.033, 14.067, 13.1 ...; behind its collar the second step wants 13.05
    part = turned(
        [(0, 10, 0), (-20, 10, 0), (-20, 14, 0), (-24, 14, 0), (-27, 12.85, 0), (-40, 12.85, 0)]
    )
    _, lathe = ran(rough, workpiece(part, 16), right_hand(0.8, falls=40), ALONG)
    assert height(lathe.left, -30) == pytest.approx(13.05, abs=0.005)


def test_pockets_are_finished_one_by_one_and_entered_along_their_wall():
    edge = right_hand(0.8, falls=40)
    trail, _ = check(workpiece(NECKED, 14), edge, replace(ALONG, depth=0.7))
    deep = [
        way
        for motion, way in moves(trail, edge)
        if not isinstance(motion, Rapid)
        if min(way.start[1], way.end[1]) < 9.0 + 0.8 + 0.15
        if way.start[0] < -10.5
    ]
    sides = ["right" if way.end[0] > -20 else "left" for way in deep]
    assert [side for side, _ in itertools.groupby(sides)] == ["right", "left"]
    down = [w for w in deep if w.end[1] < w.start[1] - 0.05 and w.end[0] < w.start[0] - 0.05]
    slopes = [
        (w.start[1] - w.end[1]) / (w.start[0] - w.end[0]) for w in down if isinstance(w, Line)
    ]
    assert slopes
    assert all(
        slope in (pytest.approx(2 / 3, abs=1e-4), pytest.approx(0.5, abs=1e-4)) for slope in slopes
    )


@WAYS
def test_nothing_passes_the_limit(job):
    edge = right_hand(0.8)
    trail, _ = check(workpiece(STEPPED, 16, limit=-31.0), edge, job)
    finish(trail, workpiece(STEPPED, 16, limit=-31.0), edge, Finishing(0.1), TOLERANCE)
    assert min(motion.to[0] for motion in trail.motions) == pytest.approx(-31.0)
    assert all(motion.to[0] >= -31 - 1e-6 for motion in trail.motions)


@WAYS
def test_a_left_hand_tool_roughs_towards_the_free_end(job):
    part = turned([(0, 8, 0), (-8, 8, 0), (-14, 12, 0), (-20, 12, 0), (-24, 10, 0), (-40, 10, 0)])
    edge = left_hand(0.8, falls=40)
    trail, lathe = check(workpiece(part, 15), edge, job)
    assert height(lathe.left, -4) == pytest.approx(8.2, abs=0.005)
    assert height(lathe.left, -32) == pytest.approx(10.2, abs=0.005)
    cuts = [
        b.to[0] - a.to[0] for a, b in itertools.pairwise(trail.motions) if isinstance(b, LineFeed)
    ]
    assert sum(step for step in cuts if step > 0) > 10 * -sum(step for step in cuts if step < 0)


@WAYS
def test_a_bore_is_roughed_from_the_drilled_hole_outwards(job):
    rows = [(-60, 30), (-60, 8), (-30, 8), (-30, 12), (-20, 14), (-1, 14), (0, 15), (0, 30)]
    part = Region(polygon(rows))
    work = Workpiece(part, bar(30, hole=6), -50, 5)
    edge = boring(0.4, falls=25)
    trail, lathe = ran(rough, work, edge, job)
    for z, true in ((-5, 14), (-15, 14), (-40, 8)):
        assert low_point(lathe.left, z) == pytest.approx(true - 0.2, abs=0.005)
    gouged = shape(part).intersection(box(-55, 0, -0.001, 60)).difference(lathe.left)
    assert gouged.buffer(-0.0005).is_empty
    assert lathe.depth < 0.004
    assert min(motion.to[1] for motion in trail.motions) == pytest.approx(5)


def test_the_end_that_was_not_faced_yet_is_left_to_facing():
    work = workpiece(STEPPED, 16, front=1.5)
    trail, lathe = ran(rough, work, right_hand(0.8), ALONG)
    assert height(lathe.left, 1.2) < 6.2
    assert height(lathe.left, 1.2) > 4
    assert height(lathe.left, -0.5) == pytest.approx(6.5 + 0.2 * math.sqrt(2), abs=0.005)
    assert lathe.depth < 0.004
    assert max(motion.to[0] for motion in trail.motions) == pytest.approx(1.5 + 2.0)


def test_a_ball_is_roughed_to_its_pole():
    ball = turned([(0, 0, QUARTER), (-10, 10, 0), (-40, 10, 0)])
    _, lathe = ran(rough, workpiece(ball, 12), right_hand(0.8), ALONG)
    for z in (-0.5, -2, -5, -9):
        true = math.sqrt(10.2**2 - (10 + z) ** 2)
        assert height(lathe.left, z) == pytest.approx(true, abs=0.01)


def test_stock_that_is_gone_is_not_cut_again():
    work = workpiece(STEPPED, 16)
    trail = TurnTrail()
    done = replace(work, stock=Region(polygon([(-70, 0), (0, 0), (0, 5), (-70, 5)])))
    rough(trail, done, right_hand(0.8), ALONG, TOLERANCE)
    assert trail.motions == []


@WAYS
def test_no_pass_and_no_way_between_touches_what_to_keep_off(job):
    jaw = Region(polygon([(-60, 10), (-45, 10), (-45, 40), (-60, 40)]))
    work = replace(workpiece(STEPPED, 16), keep_off=(jaw,))
    trail = TurnTrail()
    with pytest.raises(InputError) as caught:
        rough(trail, work, right_hand(0.8), job, TOLERANCE)
    (fault,) = caught.value.faults
    assert fault.place.at.startswith("Z -4")
    assert "diameter 3" in fault.place.at
    assert trail.motions == []
    rough(trail, replace(work, limit=-44.9), right_hand(0.8), job, TOLERANCE)
    assert trail.motions


def test_a_tailstock_in_the_way_is_named():
    centre = Region(polygon([(0, 0), (1, 7), (60, 7), (60, 0)]))
    work = replace(workpiece(STEPPED, 16), keep_off=(centre,))
    with pytest.raises(InputError, match="tailstock"):
        rough(TurnTrail(), work, right_hand(0.8), ALONG, TOLERANCE)


@WAYS
def test_the_way_is_exact_where_the_profile_is(job):
    trail = planned(rough, workpiece(STEPPED, 16), right_hand(0.8), job)
    arcs = [way for _, way in moves(trail, right_hand(0.8)) if isinstance(way, Arc)]
    assert any(math.dist(arc.centre, (-14, 9)) < 1e-4 for arc in arcs)
    assert len(trail.motions) < 130


@settings(max_examples=8, deadline=None, phases=[Phase.generate])
@given(profiles(), st.sampled_from([0.4, 0.8, 1.2]), st.sampled_from([5.0, 32.0, 60.0]))
def test_any_part_is_roughed_along_z(part, radius, falls):
    check(workpiece(part, 25), right_hand(radius, falls), replace(ALONG, depth=1.8))


@settings(max_examples=4, deadline=None, phases=[Phase.generate])
@given(profiles(), st.sampled_from([0.4, 0.8, 1.2]), st.sampled_from([5.0, 32.0, 60.0]))
def test_any_part_is_roughed_parallel_to_its_profile(part, radius, falls):
    check(workpiece(part, 25), right_hand(radius, falls), replace(PROFILE, depth=1.8))


@settings(max_examples=8, deadline=None, phases=[Phase.generate])
@given(profiles(), st.sampled_from([0.4, 0.8, 1.2]), st.sampled_from([5.0, 32.0, 60.0]))
def test_any_part_is_finished(part, radius, falls):
    work, edge = workpiece(part, 25), right_hand(radius, falls)
    none = Roughing(depth=2.0, feed=0.2, leave=0.0, leave_face=0.0)
    near = allowed(work, edge, replace(none, leave=0.3)).intersection(shape(work.stock))
    trail, lathe = ran(finish, work, edge, Finishing(0.1), left=near)
    zone = box(-49.9, 0, -0.001, 60)
    assert shape(part).intersection(zone).difference(lathe.left).buffer(-0.001).is_empty
    most = allowed(work, edge, none).buffer(0.002)
    stays = lathe.left.intersection(in_front(-50, 0.01)).difference(most)
    assert thickness(stays) < 0.001
    assert lathe.depth == 0
    assert trail.motions[0] == trail.motions[-1]


def test_what_a_slimmer_insert_still_gets_at_is_its_stock():
    """The neck between Z -10 and -18, 2 mm deep; all else is roughed already."""
    work = workpiece(NECKED, 14, limit=-50)
    wide, slim = right_hand(0.8, falls=5), right_hand(0.4, falls=52)
    stock = left_for_next(work, wide, slim, ALONG, TOLERANCE, least=0.4)
    assert stock is not None
    left = shape(stock)
    assert left.contains(shapely.Point(-16, 8.2))
    assert not left.intersects(box(-9, 9.3, 0, 14))
    trail = TurnTrail()
    rough(trail, replace(work, stock=stock), slim, ALONG, TOLERANCE)
    feeds = [one.to for one in trail.motions if isinstance(one, LineFeed)]
    assert feeds
    assert all(-36 < z < -9 for z, _, _ in feeds)


@pytest.mark.parametrize(("following", "least"), [(right_hand(0.8, falls=5), 0.01), (None, 9.0)])
def test_no_place_for_the_next_insert(following, least):
    """None for the same insert, none where a larger disc is asked for."""
    wide, slim = right_hand(0.8, falls=5), right_hand(0.4, falls=52)
    work = workpiece(NECKED, 14, limit=-50)
    assert left_for_next(work, wide, following or slim, ALONG, TOLERANCE, least=least) is None
