"""Facing: past the axis, even passes, the finished Z, what tools can't face."""

from __future__ import annotations

import itertools
import math
from dataclasses import replace

import pytest
from turn_help import (
    TOLERANCE,
    bar,
    boring,
    height,
    left_hand,
    moves,
    planned,
    ran,
    right_hand,
    shape,
    tool_of,
    turned,
    workpiece,
)

from jawcam.errors import InputError
from jawcam.geometry.shapes import Region, from_bulges
from jawcam.hold.tailstock import centre_of
from jawcam.motion.moves import LineFeed, Rapid, Spindle, SurfaceSpeed
from jawcam.turn.face import Facing, finish_face, rough_face
from jawcam.turn.trail import TurnTrail

PART = turned([(0, 10, 0), (-40, 10, 0)])
STEADY = Spindle(800)
JOB = Facing(feed=0.15, speed=STEADY, depth=1.0, leave=0.1)


@pytest.mark.parametrize("radius", [0.4, 0.8, 1.2])
def test_roughing_leaves_what_is_to_be_left_and_finishing_nothing(radius):
    work, edge = workpiece(PART, 12, front=2.5), right_hand(radius)
    _, lathe = ran(rough_face, work, edge, JOB)
    assert lathe.left.bounds[2] == pytest.approx(0.1, abs=1e-6)
    assert lathe.depth == 0
    trail, lathe = ran(finish_face, work, edge, JOB, left=lathe.left)
    assert lathe.left.bounds[2] == pytest.approx(0, abs=1e-6)
    assert lathe.left.equals_exact(shape(bar(12)), 1e-4) or (
        lathe.left.symmetric_difference(shape(bar(12))).area < 1e-4
    )
    assert lathe.depth == 0
    # the set point, at the foremost corner of the nose's box, goes past the axis by its radius
    assert min(m.to[1] for m in trail.motions) == pytest.approx(-radius - 0.1)
    beyond = [m.to[0] for m in trail.motions if isinstance(m, LineFeed) and m.to[1] < 0]
    assert beyond == pytest.approx([0, 0.5])


def test_passes_are_even_and_each_begins_at_the_free_radius():
    trail = TurnTrail()
    rough_face(trail, workpiece(PART, 12, front=2.5), right_hand(0.8), JOB, TOLERANCE)
    levels = [
        b.to[0]
        for a, b in itertools.pairwise(trail.motions)
        if isinstance(b, LineFeed) and a.to[0] == b.to[0]
    ]
    assert levels == pytest.approx([1.7, 0.9, 0.1])  # 2.4 in three passes of 0.8
    assert trail.motions[0] == trail.motions[-1] == Rapid((4.5, 14.0, 0.0))


def test_it_goes_into_a_bore_that_is_there():
    work = replace(workpiece(PART, 12, front=1), stock=bar(12, front=1, hole=4))
    trail, lathe = ran(finish_face, work, right_hand(0.8), replace(JOB, hole=4))
    assert min(m.to[1] for m in trail.motions) == pytest.approx(4 - 0.1 - 0.8)
    assert lathe.left.bounds[2] == pytest.approx(0, abs=1e-6)


def test_where_the_clamp_is_reached_the_speed_is_fixed_and_on_the_way_out_set_free_again():
    """D = 1000 v / (pi n): 100 m/min and 2500 rpm meet on 12.732 mm. The control counts from the
    set point, which stands a nose's radius nearer to the axis than the nose's centre."""
    speed = SurfaceSpeed(100, 2500)
    job = replace(JOB, speed=speed)
    trail = planned(rough_face, workpiece(PART, 12, front=2.5), right_hand(0.8), job)
    fixed = [k for k, motion in enumerate(trail.motions) if isinstance(motion, Spindle)]
    assert len(fixed) == 3  # one in each pass
    for k in fixed:
        before, now, on, off, again, up = trail.motions[k - 1 : k + 5]
        assert isinstance(before, LineFeed)
        assert 2 * before.to[1] == pytest.approx(100_000 / (2500 * math.pi))
        assert now == Spindle(2500)
        assert on.to[1] == pytest.approx(-0.9)
        assert off.to[0] == pytest.approx(on.to[0] + 0.5)
        assert again == speed
        assert isinstance(up, Rapid)
        assert up.to[1] > 12


def test_into_a_bore_wider_than_that_the_speed_is_never_fixed():
    job = replace(JOB, speed=SurfaceSpeed(100, 2500), hole=8)
    work = replace(workpiece(PART, 12, front=1), stock=bar(12, front=1, hole=8))
    trail = planned(finish_face, work, right_hand(0.8), job)
    assert not any(isinstance(motion, Spindle) for motion in trail.motions)


def test_the_way_is_the_same_at_either_speed():
    work, edge = workpiece(PART, 12, front=2.5), right_hand(0.4)
    lathes = [
        ran(rough_face, work, edge, replace(JOB, speed=speed))[1]
        for speed in (STEADY, SurfaceSpeed(100, 2500))
    ]
    assert lathes[0].left.symmetric_difference(lathes[1].left).area < 1e-9


def test_nothing_is_roughed_where_no_more_than_the_leave_stands():
    trail = TurnTrail()
    rough_face(trail, workpiece(PART, 12, front=0.1), right_hand(0.8), JOB, TOLERANCE)
    assert trail.motions == []


@pytest.mark.parametrize("edge", [left_hand(0.8), boring(0.8), right_hand(0.8, rises=75)])
def test_a_tool_that_cannot_face_is_refused(edge):
    trail = TurnTrail()
    with pytest.raises(InputError) as caught:
        finish_face(trail, workpiece(PART, 12), edge, JOB, TOLERANCE)
    assert caught.value.faults[0].mend
    assert trail.motions == []


SLIM = right_hand(0.4, falls=32)


def centred(hole, front=1.0):
    """The part with a tailstock's centre in it."""
    centre = Region(from_bulges(list(centre_of(hole, front))))
    return workpiece(PART, 12, front=front, keep_off=(centre,))


def test_beside_a_tailstock_s_centre_the_face_is_cut_down_to_its_rim():
    """A cone of 60 degrees from a rim of 3 mm radius: a nose of radius r that touches both it and
    the face ends r (1 + sin 30) / cos 30 outside of the rim, and 0.2 mm are kept off it."""
    work = centred(6.0)
    for job in (replace(JOB, speed=SurfaceSpeed(100, 2500)), JOB):
        trail = TurnTrail()
        low = finish_face(trail, work, SLIM, job, TOLERANCE)
        assert low == pytest.approx(3 + 0.4 * 1.5 / math.cos(math.radians(30)) + 0.2, abs=1e-4)
        cuts = [m.to for m in trail.motions if isinstance(m, LineFeed)]
        assert cuts[-2][:2] == pytest.approx((0, low - 0.4))
        # the way out: aslant, off the cone
        assert cuts[-1][:2] == pytest.approx((0.5, low - 0.4 + 0.5))
    trail, lathe = ran(finish_face, work, SLIM, JOB)
    cone = shape(work.keep_off[0])
    tool = tool_of(lathe.edge)
    for _, way in moves(trail, SLIM):
        assert not lathe.swept(way, tool).intersects(cone)
    # what stays round the centre, as the nose leaves it: its own centre is at Z 0.4
    assert height(lathe.left, 0.5) == pytest.approx(low - math.sqrt(0.4**2 - 0.1**2), abs=1e-3)


def test_roughing_keeps_off_the_centre_more_the_farther_out_it_cuts():
    trail = TurnTrail()
    rough_face(trail, centred(6.0), SLIM, replace(JOB, depth=0.3), TOLERANCE)
    lows = [b.to[1] for a, b in itertools.pairwise(trail.motions)
            if isinstance(b, LineFeed) and a.to[0] == b.to[0]]  # fmt: skip
    slope = [(a - b) / 0.3 for a, b in itertools.pairwise(lows)]
    assert slope == pytest.approx([math.tan(math.radians(30))] * 2, abs=1e-3)


def test_a_tailstock_that_leaves_no_way_in_is_named():
    centre = Region(from_bulges(list(centre_of(None, 0.0))))
    for edge, part in ((right_hand(0.8), PART), (SLIM, turned([(0, 9, 0), (-40, 9, 0)]))):
        work = workpiece(part, 8, keep_off=(centre,))
        with pytest.raises(InputError, match="would touch the tailstock's centre") as caught:
            finish_face(TurnTrail(), work, edge, JOB, TOLERANCE)
        assert "slimmer insert" in caught.value.faults[0].mend
