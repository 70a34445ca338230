"""Finishing: what a nose leaves along the path, where the set point runs, ways in and out."""

from __future__ import annotations

import itertools
import math
from dataclasses import replace

import pytest
from turn_help import (
    QUARTER,
    TOLERANCE,
    boring,
    height,
    left_hand,
    low_point,
    planned,
    ran,
    right_hand,
    turned,
    workpiece,
)

from jawcam.errors import InputError
from jawcam.geometry.shapes import Region, polygon
from jawcam.motion.moves import ArcFeed, Compensate, LineFeed, Rapid
from jawcam.turn.edge import Workpiece
from jawcam.turn.finish import ROOMY, Finishing, finish
from jawcam.turn.trail import TurnTrail

RADII = (0.4, 0.8, 1.2)
JOB = Finishing(feed=0.1)
WITH_CONTROL = Finishing(feed=0.1, compensation="control", register=4)

CHAMFERED = turned([(0, 9, 0), (-1, 10, 0), (-30, 10, 0), (-32, 12, 0)])
ROUNDED = turned([(0, 7, QUARTER), (-3, 10, 0), (-20, 10, 0), (-20, 13, QUARTER), (-22, 15, 0)])
HOLLOW = turned([(0, 10, 0), (-17, 10, -QUARTER), (-20, 13, 0), (-20, 15, 0)])


@pytest.mark.parametrize("radius", RADII)
def test_a_cylinder_and_chamfers_come_out_true(radius):
    _, lathe = ran(finish, workpiece(CHAMFERED, 10.5), right_hand(radius), JOB)
    for z in (-0.01, -0.2, -0.5, -0.99):
        assert height(lathe.left, z) == pytest.approx(9 - z, abs=0.002)
    for z in (-1.01, -5, -29):
        assert height(lathe.left, z) == pytest.approx(10, abs=0.002)
    # the hollow corner at -30 stays round; the chamfer is free from where the nose touches it
    touch = radius * math.tan(math.radians(22.5)) * math.cos(math.radians(45))
    assert height(lathe.left, -30 - touch - 0.01) == pytest.approx(10 + touch + 0.01, abs=0.002)
    assert height(lathe.left, -30 + 0.001) > 10.01


@pytest.mark.parametrize("radius", RADII)
def test_quarter_rounds_come_out_true(radius):
    _, lathe = ran(finish, workpiece(ROUNDED, 16), right_hand(radius), JOB)
    for z in (-0.02, -0.1, -1, -2, -2.9):
        assert height(lathe.left, z) == pytest.approx(7 + math.sqrt(9 - (3 + z) ** 2), abs=0.002)
    for z in (-20.02, -20.5, -21, -21.9):
        assert height(lathe.left, z) == pytest.approx(13 + math.sqrt(4 - (22 + z) ** 2), abs=0.002)


@pytest.mark.parametrize("radius", RADII)
def test_a_hollow_comes_out_true(radius):
    _, lathe = ran(finish, workpiece(HOLLOW, 16), right_hand(radius), JOB)
    for z in (-17.1, -18, -19, -19.9, -19.98):
        assert height(lathe.left, z) == pytest.approx(13 - math.sqrt(9 - (17 + z) ** 2), abs=0.002)


@pytest.mark.parametrize("radius", RADII)
def test_arcs_of_the_set_point_grow_on_bulges_and_shrink_in_hollows(radius):
    # common practice: with the set point at the corner of the nose's box, a convex radius r becomes
    # r + R about the centre shifted by (-R, -R), a concave one r - R
    for part, centre, size in (
        (ROUNDED, (-3, 7), 3 + radius),
        (ROUNDED, (-22, 13), 2 + radius),
        (HOLLOW, (-17, 13), 3 - radius),
    ):
        trail = planned(finish, workpiece(part, 16), right_hand(radius), JOB)
        shifted = (centre[0] - radius, centre[1] - radius)
        arcs = [
            (before, motion)
            for before, motion in itertools.pairwise(trail.motions)
            if isinstance(motion, ArcFeed) and math.dist(motion.centre, shifted) < 1e-4
        ]
        assert len(arcs) == 1
        before, motion = arcs[0]
        assert math.dist(motion.to[:2], motion.centre) == pytest.approx(size, abs=1e-5)
        assert math.dist(before.to[:2], motion.centre) == pytest.approx(size, abs=1e-5)


def test_the_set_point_runs_on_the_diameter_and_shifts_along_a_chamfer():
    # with the nose's centre R sqrt(1/2) off a 45 degree line both ways, the set point lies
    # R (1 - sqrt(1/2)) = R x 0.292893 nearer to the axis and to the chuck; along Z that
    # makes R x 0.585786 between line and path (angle 45: R (1 - tan 22.5), common practice)
    trail = planned(finish, workpiece(CHAMFERED, 10.5), right_hand(0.8), JOB)
    cuts = [m.to for m in trail.motions if isinstance(m, LineFeed)]
    flat = [to for to in cuts if abs(to[1] - 10) < 1e-6]
    assert flat
    begin = next(m.to for m in trail.motions if isinstance(m, LineFeed) and m.to[1] > 8)
    assert begin[0] == pytest.approx(-0.8 * (1 - math.sqrt(0.5)), abs=1e-6)
    assert begin[1] == pytest.approx(9 - 0.8 * (1 - math.sqrt(0.5)), abs=1e-6)
    off = 9 - begin[0] - begin[1]  # along Z from the path to the chamfer's line z = 9 - x
    assert off == pytest.approx(0.585786 * 0.8, abs=1e-6)


@pytest.mark.parametrize("part", [CHAMFERED, ROUNDED, HOLLOW])
def test_it_comes_in_along_the_first_piece_and_leaves_straight_out_at_the_limit(part):
    work = workpiece(part, 16)
    trail, lathe = ran(finish, work, right_hand(0.8), JOB)
    points = [m.to[:2] for m in trail.motions]
    assert points[0] == points[-1] == (0.8 + 2.0 - 0.8, 18.0)
    feeds = [k for k, m in enumerate(trail.motions) if not isinstance(m, Rapid)]
    last = feeds[-1]
    assert points[last] == pytest.approx((-50, 18))
    assert points[last - 1][0] == pytest.approx(-50)
    a, b = points[feeds[0]], points[feeds[0] + 1]
    if part is HOLLOW:  # a cylinder: straight in at its own height
        assert a[1] == b[1] == pytest.approx(10)
    assert lathe.depth == 0


def test_two_moves_in_a_row_never_end_in_one_place():
    for part, job in itertools.product((CHAMFERED, ROUNDED, HOLLOW), (JOB, WITH_CONTROL)):
        trail = planned(finish, workpiece(part, 16), right_hand(0.8), job)
        ends = [m.to for m in trail.motions if not isinstance(m, Compensate)]
        assert all(math.dist(a, b) > 1e-4 for a, b in itertools.pairwise(ends))


def test_a_left_hand_tool_finishes_the_other_way():
    part = turned([(0, 10, 0), (-10, 10, 0), (-16, 16, 0), (-30, 16, 0)])
    work = workpiece(part, 18)
    trail, lathe = ran(finish, work, left_hand(0.8, falls=50), JOB)
    for z in (-1, -9, -12, -15, -20):
        true = 10 if z > -10 else min(-z, 16)
        assert height(lathe.left, z) == pytest.approx(true, abs=0.002 if z != -9 else 0.4)
    cuts = [m.to[0] for m in trail.motions if not isinstance(m, Rapid)]
    assert cuts == sorted(cuts)


def test_a_bore_comes_out_true():
    rows = [(-60, 30), (-60, 8), (-30, 8), (-20, 12), (-1, 12), (0, 13), (0, 30)]
    part = Region(polygon(rows))
    stock = Region(polygon([(-70, 30), (-70, 7), (0, 7), (0, 30)]))
    work = Workpiece(part, stock, -50, 5)
    trail, lathe = ran(finish, work, boring(0.4), JOB)
    for z in (-0.5, -1.5, -10, -22, -29, -35, -49):
        true = 13 + z if z > -1 else 12 if z > -20 else 12 + (z + 20) * 0.4 if z > -30 else 8
        assert low_point(lathe.left, z) == pytest.approx(true, abs=0.002)
    assert lathe.depth == 0
    assert min(m.to[1] for m in trail.motions) == pytest.approx(5)


# --- compensation left to the control --------------------------------------------------------


def test_the_control_is_given_the_profile_itself():
    trail = planned(finish, workpiece(CHAMFERED, 14), right_hand(0.8), WITH_CONTROL)
    kinds = [type(m).__name__ for m in trail.motions]
    on, off = [k for k, kind in enumerate(kinds) if kind == "Compensate"]
    assert trail.motions[on] == Compensate("right", 4)
    assert trail.motions[off] == Compensate("off")
    points = [m.to[:2] for m in trail.motions[on + 1 : off]]
    # the hollows at the taper's foot and at the limit are rounded a little wider than the nose:
    # an arc of radius r in a corner of 135 degrees begins r tan(22.5 degrees) from it
    r = 0.8 * ROOMY
    off_foot = r * math.tan(math.pi / 8)
    expected = [
        (0, 9),
        (-1, 10),
        (-30 + off_foot, 10),
        (-30 - off_foot / math.sqrt(2), 10 + off_foot / math.sqrt(2)),
        (-32, 12),
        (-50 + r, 12),
        (-50, 12 + r),
        (-50, 16),
    ]
    assert [pytest.approx(p, abs=1e-5) for p in points[1:]] == expected
    # straight in along the chamfer, and straight out, both longer than the nose's radius
    first, second, third = (trail.motions[on - 1].to[:2], points[0], points[1])
    assert math.dist(first, second) > 0.8
    cross = (second[0] - first[0]) * (third[1] - first[1])
    assert cross == pytest.approx((second[1] - first[1]) * (third[0] - first[0]), abs=1e-9)
    assert math.dist(trail.motions[off + 1].to[:2], points[-1]) > 0.8


@pytest.mark.parametrize(
    ("edge", "side"),
    [(right_hand(0.4), "right"), (left_hand(0.4), "left"), (boring(0.4), "left")],
)
def test_the_side_of_the_compensation_follows_the_tool(edge, side):
    if edge.inside:
        part = Region(polygon([(-60, 30), (-60, 8), (0, 8), (0, 30)]))
        stock = Region(polygon([(-70, 30), (-70, 7), (0, 7), (0, 30)]))
        work = Workpiece(part, stock, -50, 5)
    else:
        work = workpiece(turned([(0, 10, 0), (-40, 10, 0)]), 11)
    trail = TurnTrail()
    finish(trail, work, edge, WITH_CONTROL, TOLERANCE)
    sides = [m.side for m in trail.motions if isinstance(m, Compensate)]
    assert sides == [side, "off"]


def test_a_hollow_as_tight_as_the_nose_is_made_wider_for_the_control():
    """A control stops at a hollow that is no wider than the nose (NISTIR 6556, appendix B)."""
    trail = planned(finish, workpiece(HOLLOW, 16), right_hand(3.0), WITH_CONTROL)
    turns = list(itertools.pairwise(trail.motions))
    hollows = [
        math.dist(before.to[:2], arc.centre)
        for before, arc in turns
        if isinstance(arc, ArcFeed) and not arc.ccw
    ]
    assert hollows
    assert min(hollows) == pytest.approx(3.0 * ROOMY)


def test_jaws_in_the_way_are_named_with_their_place():
    jaw = Region(polygon([(-60, 10), (-45, 10), (-45, 40), (-60, 40)]))
    work = workpiece(CHAMFERED, 14)
    trail = TurnTrail()
    with pytest.raises(InputError) as caught:
        finish(trail, replace(work, keep_off=(jaw,)), right_hand(0.8), JOB, TOLERANCE)
    (fault,) = caught.value.faults
    assert "Z -4" in fault.place.at
    assert "diameter" in fault.place.at
    short = replace(work, limit=-44.0, keep_off=(jaw,))
    finish(trail, short, right_hand(0.8), JOB, TOLERANCE)
    assert trail.motions
