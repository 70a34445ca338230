"""The jaws closed on a part that they touch at several heights: the first wall to meet decides."""

from __future__ import annotations

import math

import pytest
from closing_help import closed, closed_at, level, pocket

from jawcam.geometry.shapes import Region, circle, from_bulges, polygon
from jawcam.hold.closing import Wall, words
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
    assert len(words(found, Units.MM)) == 3  # braced by two bosses: nothing turns


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
    assert told[1] == "back jaw touches at X 5 (Z 0 to -3), X 5 (Z -3 to -6)"
    assert sum(line.startswith("caution") for line in told) == 2
