"""The jaws closed on a part that they touch at several heights: the first wall to meet decides."""

from __future__ import annotations

import math

import pytest
from closing_help import BLANKS, TOLERANCE, closed, closed_at, half_turn, level, pocket

from jawcam.geometry.shapes import Region, circle, from_bulges, polygon
from jawcam.hold.closing import Wall, closing
from jawcam.hold.closing_words import words
from jawcam.units import Units


def disc(radius, clearance, top, floor, at=(0, 0)):
    return level(circle(at, radius), Region(circle(at, radius + clearance)), top, floor)


def test_of_a_stack_of_discs_the_tightest_decides():
    stack = [disc(20, 0.3, 0, -3), disc(12, 0.1, -3, -7), disc(8, 0.2, -7, -10)]
    found = closed_at(stack, touch=1e-9)
    assert found.travel == pytest.approx(0.2, abs=1e-6)
    for jaw, way in ((found.back, 1), (found.front, -1)):
        (contact,) = jaw.places
        assert contact.at == pytest.approx((0, way * 12), abs=0.002)
        assert contact.normal == pytest.approx(way * 90, abs=0.01)
        assert (contact.top, contact.floor) == (-3, -7)
        assert contact.centre == (0, 0)


def test_all_levels_that_touch_are_told_from_the_top_down():
    stack = [disc(20, 0.1, 0, -3), disc(12, 0.1, -3, -7), disc(8, 0.1 + 0.003, -7, -10)]
    found = closed_at(stack, touch=0.005)
    heights = [(0, -3), (-3, -7), (-7, -10)]
    assert [(c.top, c.floor) for c in found.back.places] == heights
    assert [(c.top, c.floor) for c in found.front.places] == heights


def test_the_two_jaws_may_meet_the_part_at_different_heights():
    """Above, the part lies off the middle of its pocket: 0.4 to the back and 0.2 to the front."""
    above = Wall(
        (polygon([(-9, -9), (9, -9), (9, 9), (-9, 9)]),),
        (Region(polygon([(-10, -9.2), (10, -9.2), (10, 9.4), (-10, 9.4)])),),
        0,
        -4,
    )
    found = closed_at([above, disc(6, 0.3, -4, -8)])
    assert (found.back.approach, found.front.approach) == pytest.approx((0.3, 0.2))
    assert found.shift == pytest.approx(0.05)
    assert [c.floor for c in found.back.places] == [-8]
    assert [c.floor for c in found.front.places] == [-4]


def test_two_bosses_below_meet_before_the_plate_above():
    """A plate with 0.5 all round; under it two bosses, each in a pocket of its own."""
    plate = level(polygon([(-30, -12), (30, -12), (30, 12), (-30, 12)]), plate_pocket(), 0, -5)
    spots = [(-18.0, 0.0), (18.0, 0.0)]
    bosses = Wall(
        tuple(circle(at, 8) for at in spots),
        tuple(Region(circle(at, 8.1)) for at in spots),
        -5,
        -9,
    )
    found = closed_at([plate, bosses], touch=1e-9)
    assert found.travel == pytest.approx(0.2, abs=1e-6)
    for jaw, way in ((found.back, 1), (found.front, -1)):
        assert [c.at for c in jaw.places] == [
            pytest.approx((x, way * 8), abs=0.002) for x, _ in spots
        ]
        assert {c.floor for c in jaw.places} == {-9}
    assert closed_at([plate]).travel == pytest.approx(1.0)
    assert words(found, Units.MM)[1] == (
        "back jaw touches at X -18 (90 deg, Z -5 to -9), X 18 (90 deg, Z -5 to -9)"
    )
    # braced by two bosses, nothing turns, but all is held below the middle of 9 mm
    assert words(found, Units.MM)[3:] == (foot(-5),)


def foot(z):
    return f"caution: the jaws touch the part only from Z {z} down, by its foot: it may tip"


def plate_pocket():
    return Region(polygon([(-30.5, -12.5), (30.5, -12.5), (30.5, 12.5), (-30.5, 12.5)]))


def test_outlines_that_overlap_are_told_once():
    """A plate and a strip along its back edge: what both have is one contact 20 long."""
    plate = polygon([(-10, -9), (10, -9), (10, 9), (-10, 9)])
    strip = polygon([(-4, 2), (6, 2), (6, 9), (-4, 9)])
    wall = Wall((plate, strip), (pocket(plate, 0.05, 0.1),), 0, -8)
    (contact,) = closed_at([wall]).back.places
    assert (contact.start, contact.end) == (pytest.approx((-10, 9)), pytest.approx((10, 9)))
    assert contact.length == pytest.approx(20, abs=1e-6)
    # an outline within another never touches
    inner = polygon([(-4, -2), (6, -2), (6, 2), (-4, 2)])
    same = closed_at([Wall((plate, inner), wall.pockets, 0, -8)]).back.places
    assert [(c.start, c.end, c.length) for c in same] == [
        (contact.start, contact.end, contact.length)
    ]


def test_a_wall_between_two_pockets_of_a_level_stops_no_part_behind_it():
    back = polygon([(-5, 20), (5, 20), (5, 30), (-5, 30)])
    front = polygon([(-5, -10), (5, -10), (5, 10), (-5, 10)])
    wall = Wall((back, front), (pocket(back, 0.2), pocket(front, 0.3)), 0, -8)
    found = closed_at([wall])
    assert found.back.approach == pytest.approx(0.2)
    assert [c.at[1] for c in found.back.places] == [pytest.approx(30)]
    assert found.front.approach == pytest.approx(0.3)


def test_where_a_round_part_touches_is_told_as_an_angle():
    one = closed(circle((3, 0), 10), Region(circle((3, 0), 10.2)), touch=1e-9)
    assert words(one, Units.MM)[1:] == (
        "back jaw touches at X 3 (90 deg)",
        "front jaw touches at X 3 (-90 deg)",
    )
    mouth = closed(circle((0, 0), 4), Region(box(-2, -8, 2, 8)), gap=10, touch=1e-6)
    assert words(mouth, Units.MM)[1] == "back jaw touches at X -2 (120 deg), X 2 (60 deg)"


def box(x0, y0, x1, y1):
    return polygon([(x0, y0), (x1, y0), (x1, y1), (x0, y1)])


def test_heights_and_angles_are_told_of_a_stepped_part():
    """sqrt(A2 - x2) - sqrt(R2 - x2) = s bounds the stretch, as in a pocket of one level."""
    reach = 0.2 + 0.005
    y = (10.2**2 - 10**2 - reach**2) / (2 * reach)
    lean = math.degrees(math.asin(y / 10))
    x, length = math.sqrt(100 - y**2), 20 * math.radians(90 - lean)
    square = level(box(-3, -3, 3, 3), Region(box(-3.1, -3.2, 3.1, 3.2)), -3, -8)
    found = closed_at([disc(10, 0.2, 0, -3), square], gap=2)
    assert words(found, Units.MM)[1] == (
        f"back jaw touches at X {-x:.2f} to X {x:.2f} ({length:.2f} mm, "
        f"{180 - lean:.1f} to {lean:.1f} deg, Z 0 to -3), X -3 to X 3 (6 mm, Z -3 to -8)"
    )


def test_a_hollow_has_no_angle():
    """Both corners of a tongue of the back jaw meet it between its lips."""
    bend = -math.tan(math.radians(30))
    part = from_bulges([(-9, -9, 0), (9, -9, 0), (9, 9, bend), (-9, 9, 0)])
    deep = 9 - 9 * math.tan(math.radians(30))
    cavity = from_bulges([(-10, -10, 0), (10, -10, 0), (10, 20, 0), (4, 20, 0), (4, deep + 3, 0),
                          (-4, deep + 3, 0), (-4, 20, 0), (-10, 20, 0)])  # fmt: skip
    found = closed(part, Region(cavity), touch=1e-6)
    assert [c.centre for c in found.back.places] == [None, None]
    assert words(found, Units.MM)[1] == "back jaw touches at X -4, X 4"


def test_a_stretch_round_and_straight_has_no_angle():
    slot = from_bulges([(-9, -6, 0), (9, -6, 1), (9, 6, 0), (-9, 6, 1)])
    (contact,) = closed(slot, pocket(slot, 0.1)).back.places
    assert contact.centre is None


def test_a_part_held_at_the_same_place_at_two_heights_may_turn_all_the_same():
    tip = polygon([(-20, 0), (-5, -10), (20, 0), (5, 10)])
    cavity = pocket(tip, 0.1)
    told = words(closed_at([level(tip, cavity, 0, -3), level(tip, cavity, -3, -6)]), Units.MM)
    assert told[1] == "back jaw touches at X 5 (Z 0 to -6)"
    assert sum(line.startswith("caution") for line in told) == 2


# contacts that are told as one


def taper(radius, step, count, top=0.0, high=1.0, clearance=0.1, at=(0, 0)):
    """Discs that shrink downwards by `step` each."""
    return [
        disc(radius - k * step, clearance, top - k * high, top - (k + 1) * high, at)
        for k in range(count)
    ]


def test_the_steps_of_a_taper_are_told_as_one_with_the_widest():
    """The widest stretch is that of the largest disc, sqrt(A2 - x2) - sqrt(R2 - x2) = s."""
    reach = 0.1 + 0.005
    lean = math.degrees(math.asin((20.1**2 - 20**2 - reach**2) / (2 * reach) / 20))
    x, length = 20 * math.cos(math.radians(lean)), 40 * math.radians(90 - lean)
    found = closed_at(taper(20, 0.1, 6))
    assert len(found.back.places) == 6
    assert [line.partition("touches at ")[2] for line in words(found, Units.MM)[1:]] == [
        f"X {-x:.2f} to X {x:.2f} ({length:.2f} mm, {way * (180 - lean):.1f} to {way * lean:.1f} "
        "deg, Z 0 to -6, in 6 steps)"
        for way in (1, -1)
    ]


def entries(walls, **blanks):
    """Height and steps of each place that the back jaw is said to touch at."""
    line = words(closed_at(walls, **blanks), Units.MM)[1].removeprefix("back jaw touches at ")
    return [place.partition("Z ")[2].rstrip(")") for place in line.split("), ")]


def test_a_shoulder_ends_a_taper():
    flange, spigot = disc(30, 0.1, 0, -3), disc(8, 0.1, -6, -10)
    assert entries([flange, *taper(20, 0.1, 3, top=-3), spigot]) == [
        "0 to -3", "-3 to -6, in 3 steps", "-6 to -10",
    ]  # fmt: skip


@pytest.mark.parametrize(("high", "places"), [(0.510, 1), (0.511, 2)])
def test_a_step_whose_corner_stands_far_off_a_taper_is_a_shoulder(high, places):
    """2.5 wide and h high, its corner is 2.5 h / hypot(2.5, h) off: 0.5 at h = 2.5 / sqrt(24)."""
    found = entries([disc(20, 0.1, 0, -high), disc(17.5, 0.1, -high, -9)])
    assert len(found) == places


def test_steps_about_other_centres_or_with_air_between_are_told_apart():
    beside = [disc(20, 0.1, 0, -1), disc(19.9, 0.1, -1, -2, at=(0.02, 0))]
    assert entries(beside) == ["0 to -1", "-1 to -2"]
    first, _, *others = taper(20, 0.1, 5)
    loose = disc(19.9, 0.5, -1, -2)
    assert entries([first, loose, *others]) == ["0 to -1", "-2 to -5, in 3 steps"]


def test_two_tapers_beside_each_other_are_two_entries():
    both = [
        Wall((*a.parts, *b.parts), (*a.pockets, *b.pockets), a.top, a.floor)
        for a, b in zip(taper(8, 0.1, 4, at=(-20, 0)), taper(8, 0.1, 4, at=(20, 0)), strict=True)
    ]
    assert entries(both) == ["0 to -4, in 4 steps"] * 2


def test_an_upright_wall_through_several_slabs_is_told_once_without_steps():
    walls = [disc(20, 0.1, -k, -k - 1) for k in range(5)]
    assert entries(walls) == ["0 to -5"]
    square = [level(box(-9, -9, 9, 9), plate_pocket(), -k, -k - 1) for k in range(5)]
    assert entries(square) == ["0 to -5"]


# held by the foot alone, or by a rim


@pytest.mark.parametrize(("top", "cautions"), [(-4.0, 0), (-4.001, 1)])
def test_a_part_held_below_the_middle_of_its_depth_may_tip(top, cautions):
    loose, tight = disc(20, 0.5, 0, top), disc(20, 0.1, top, -8)
    assert words(closed_at([loose, tight]), Units.MM)[3:] == (foot("-4"),) * cautions


def test_a_shallow_part_does_not_tip():
    for depth, count in ((3.999, 3), (4.0, 4)):
        walls = [disc(20, 0.5, 0, -2.5), disc(20, 0.1, -2.5, -depth)]
        assert len(words(closed_at(walls), Units.MM)) == count


def test_one_jaw_that_holds_higher_up_is_enough():
    above = Wall((circle((0, 0), 20),), (Region(circle((0, 0.4), 20.5)),), 0, -5)
    found = closed_at([above, disc(20, 0.1, -5, -8)])
    assert {c.top for c in found.back.places} == {-5}
    assert max(c.top for c in found.front.places) == 0
    assert not any("tip" in line for line in words(found, Units.MM))


def test_of_a_part_that_lies_below_the_jaw_top_its_own_height_counts():
    assert len(words(closed_at([disc(20, 0.1, -6, -11)]), Units.MM)) == 3


@pytest.mark.parametrize(("reach", "cautions"), [(1.0, 0), (0.999, 1)])
def test_a_pocket_that_hardly_reaches_into_a_jaw_is_a_caution(reach, cautions):
    """The gap is 6."""
    part, cavity = box(-10, -9, 10, 2.9 + reach), Region(box(-10.1, -9.1, 10.1, 3 + reach))
    told = words(closed(part, cavity), Units.MM)
    line = "caution: the pocket reaches only 0.999 mm into the back jaw"
    assert told[3:] == (line,) * cautions
    front = words(closed_at([half_turn(level(part, cavity))]), Units.MM)
    assert front[3:] == (line.replace("back", "front"),) * cautions


def test_a_relief_makes_a_shallow_pocket_no_deeper():
    part, plain = box(-10, -9, 10, 3.4), Region(box(-10.1, -9.1, 10.1, 3.5))
    relief = [(-10.1, -9.1), (10.1, -9.1), (10.1, 5), (9, 5), (9, 3.5), (-10.1, 3.5)]
    wall = level(part, Region(polygon(relief)))
    found = closing([wall], BLANKS, TOLERANCE, mouth=[plain])
    assert found.back.reach == pytest.approx(0.5)
    assert found.front.reach == pytest.approx(6.1)
    assert words(found, Units.INCH)[-1] == (
        "caution: the pocket reaches only 0.0197 in into the back jaw"
    )


def test_what_goes_on_below_one_corner_of_a_mouth_is_not_told_of_the_other():
    """The disc meets both corners of the upper mouth, and below the right one only."""
    ball = circle((0, 0), 4)
    walls = [
        level(ball, Region(box(-2, -8, 2, 8)), 0, -2),
        level(ball, Region(box(-3, -8, 2, 8)), -2, -4),
    ]
    found = closed_at(walls, gap=10, touch=1e-6)
    assert words(found, Units.MM)[1] == (
        "back jaw touches at X -2 (120 deg, Z 0 to -2), X 2 (60 deg, Z 0 to -4)"
    )
