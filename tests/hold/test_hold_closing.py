"""How the jaws close on the part: closed forms, and another engine's answer on random shapes."""

import dataclasses
import itertools
import math

import pytest
from closing_by_area import approach_by_area, pair
from closing_help import BLANKS, TOLERANCE, closed, half_turn, level, pocket
from hypothesis import given, settings
from hypothesis import strategies as st

from jawcam.errors import InputError, Place
from jawcam.geometry.combine import union
from jawcam.geometry.offset import grow, shrink
from jawcam.geometry.shapes import Region, circle, from_bulges, polygon
from jawcam.geometry.transform import moved, turned
from jawcam.hold.closing import MARGIN, TOUCH, check_closing, closing
from jawcam.hold.closing_words import words
from jawcam.units import Units

POINT = 1e-9  # mm; with so little more travel a round thing touches at a point


def joined(*regions):
    (region,) = union(regions, TOLERANCE)
    return region


def box(x0, y0, x1, y1):
    return Region(polygon([(x0, y0), (x1, y0), (x1, y1), (x0, y1)]))


def slot(x0, x1, radius):
    """A part with straight sides and round ends."""
    return from_bulges([(x0, -radius, 0), (x1, -radius, 1), (x1, radius, 0), (x0, radius, 1)])


def lever(large, small, apart):
    """Two bosses joined by their outer tangents, the large one at X 0."""
    lean = math.asin((large - small) / apart)
    cos, sin = math.cos(lean), math.sin(lean)
    rows = [
        (large * sin, -large * cos, 0),
        (apart + small * sin, -small * cos, math.tan((math.pi - 2 * lean) / 4)),
        (apart + small * sin, small * cos, 0),
        (large * sin, large * cos, math.tan((math.pi + 2 * lean) / 4)),
    ]
    return from_bulges(rows)


# a disc of radius 10 in a pocket of radius 10.2


def test_a_disc_meets_each_jaw_when_it_has_travelled_the_clearance():
    disc = circle((0, 0), 10)
    found = closed(disc, pocket(disc, 0.2), touch=POINT)
    assert found.travel == pytest.approx(0.4, abs=1e-6)
    assert found.gap_left == pytest.approx(6 - 0.4, abs=1e-6)
    assert found.shift == pytest.approx(0, abs=1e-6)
    for jaw, way in ((found.back, 1), (found.front, -1)):
        assert jaw.travel == jaw.approach == pytest.approx(0.2, abs=1e-6)
        (contact,) = jaw.places
        assert contact.at == pytest.approx((0, way * 10), abs=0.001)
        assert contact.length < 0.01
        assert contact.normal == pytest.approx(way * 90, abs=0.01)


def test_a_disc_touches_as_far_as_a_little_more_travel_brings_the_wall():
    """sqrt(A2 - x2) - sqrt(R2 - x2) = s, solved for x; A the pocket's radius, s = c + touch."""
    radius, grip = 10.0, 0.2
    disc = circle((0, 0), radius)
    reach = grip + TOUCH
    y = ((radius + grip) ** 2 - radius**2 - reach**2) / (2 * reach)
    x = math.sqrt(radius**2 - y**2)
    (contact,) = closed(disc, pocket(disc, grip)).back.places
    assert contact.start == pytest.approx((-x, y), abs=1e-4)
    assert contact.end == pytest.approx((x, y), abs=1e-4)
    assert contact.length == pytest.approx(2 * radius * math.asin(x / radius), abs=1e-4)
    assert contact.at == pytest.approx((0, radius), abs=1e-6)


def test_without_clearance_there_is_nothing_to_travel_and_the_wall_touches_all_along():
    disc = circle((0, 0), 10)
    found = closed(disc, pocket(disc, 0))
    assert found.travel == pytest.approx(0, abs=1e-6)
    for jaw in (found.back, found.front):
        (contact,) = jaw.places
        assert contact.length == pytest.approx(
            2 * 10 * math.acos(3 / 10), abs=0.02
        )  # down to the gap


@pytest.mark.parametrize("grip", [0.0, 0.2])
def test_side_play_leaves_the_travel_and_the_disc_touches_the_flat_at_a_point(grip):
    """The swept pocket's top is flat over 2 * side; R - sqrt(R2 - x2) = touch there."""
    disc = circle((0, 0), 2)
    found = closed(disc, pocket(disc, grip, side=0.15), gap=1)
    assert found.travel == pytest.approx(2 * grip, abs=1e-6)
    (contact,) = found.back.places
    half = math.sqrt(2 * 2 * TOUCH - TOUCH**2)
    assert half < 0.15
    assert (contact.start[0], contact.end[0]) == pytest.approx((-half, half), abs=1e-4)
    assert contact.at[0] == pytest.approx(0, abs=0.01)
    assert contact.normal == pytest.approx(90, abs=1e-3)


# a square turned by 45 degrees: the wall runs c * sqrt(2) above its flats along Y, c above its tip


def test_a_square_on_its_tip_touches_with_the_tip_alone():
    """|x| + sqrt(c2 - x2) = c + touch bounds what touches: the pocket is round about the tip."""
    grip = 0.3
    square = polygon([(10, 0), (0, 10), (-10, 0), (0, -10)])
    found = closed(square, pocket(square, grip))
    reach = grip + TOUCH
    half = (reach - math.sqrt(reach**2 - 2 * (reach**2 - grip**2))) / 2
    for jaw, way in ((found.back, 1), (found.front, -1)):
        assert jaw.approach == pytest.approx(grip, abs=1e-6)
        (contact,) = jaw.places
        assert contact.at == pytest.approx((0, way * 10), abs=1e-6)
        assert contact.normal == pytest.approx(way * 90, abs=0.01)
        assert (contact.start[0], contact.end[0]) == pytest.approx((-half, half), abs=1e-4)
        assert contact.length == pytest.approx(2 * half * math.sqrt(2), abs=1e-4)


def test_with_the_tip_in_a_relief_the_flats_touch_all_along():
    grip, relief = 0.3, 2.0
    square = polygon([(10, 0), (0, 10), (-10, 0), (0, -10)])
    cavity = joined(pocket(square, grip), Region(circle((0, 10), relief)))
    found = closed(square, cavity, touch=1e-6)
    assert found.back.approach == pytest.approx(grip * math.sqrt(2), abs=1e-6)
    left, right = found.back.places
    assert (left.normal, right.normal) == pytest.approx((135, 45), abs=1e-4)
    # from the gap's face up to where the relief begins on the wall
    face = 3 - grip * math.sqrt(2)
    top = 10 + grip / math.sqrt(2) - math.sqrt(relief**2 - grip**2) / math.sqrt(2)
    top -= grip * math.sqrt(2)
    assert right.end == pytest.approx((10 - face, face), abs=1e-4)
    assert right.start[0] == pytest.approx(
        grip / math.sqrt(2) + math.sqrt(relief**2 - grip**2) / math.sqrt(2), abs=1e-4
    )
    assert left.start == pytest.approx((-right.end[0], face), abs=1e-4)
    assert right.length == pytest.approx((right.end[0] - right.start[0]) * math.sqrt(2), abs=1e-6)
    assert found.front.approach == pytest.approx(grip, abs=1e-6)
    assert found.shift == pytest.approx(grip * (math.sqrt(2) - 1) / 2, abs=1e-6)


# flats and bends


def test_a_part_flat_on_the_back_touches_over_the_whole_flat_and_at_a_point_in_front():
    bulge = math.tan((2 * math.pi - 2 * math.acos(0.6)) / 4)
    d_shape = from_bulges([(8, 6, 0), (-8, 6, bulge)])
    found = closed(d_shape, pocket(d_shape, 0.1), touch=1e-7)
    (flat,) = found.back.places
    assert flat.start == pytest.approx((-8, 6), abs=1e-5)
    assert flat.end == pytest.approx((8, 6), abs=1e-5)
    assert flat.at == pytest.approx((0, 6), abs=1e-6)
    assert flat.length == pytest.approx(16, abs=1e-5)
    (bend,) = found.front.places
    assert bend.at == pytest.approx((0, -10), abs=0.03)
    assert bend.length < 0.1
    assert found.travel == pytest.approx(0.2, abs=1e-6)


def test_a_flat_drawn_in_pieces_touches_as_one():
    pieces = polygon([(-9, -5), (9, -5), (9, 5), (4, 5), (1, 5), (-9, 5)])
    (flat,) = closed(pieces, pocket(pieces, 0.05, side=0.1)).back.places
    assert (flat.start, flat.end) == (pytest.approx((-9, 5)), pytest.approx((9, 5)))
    assert flat.length == pytest.approx(18, abs=1e-6)


def test_of_two_bosses_only_the_larger_touches():
    """The wall lies c above the boss's top along Y, c / cos(lean) above the leaning tangents."""
    part = lever(10, 6, 25)
    found = closed(part, pocket(part, 0.5), touch=1e-6)
    assert found.travel == pytest.approx(1.0, abs=1e-6)
    for jaw, way in ((found.back, 1), (found.front, -1)):
        (contact,) = jaw.places
        assert contact.at == pytest.approx((0, way * 10), abs=0.05)
        assert contact.length < 0.2


def test_two_bosses_of_a_size_touch_along_the_straight_between():
    part = slot(-15, 15, 6)
    (contact,) = closed(part, pocket(part, 0.1), touch=1e-8).back.places
    assert (contact.start[0], contact.end[0]) == pytest.approx((-15, 15), abs=0.01)
    assert contact.at == pytest.approx((0, 6), abs=1e-6)
    assert contact.normal == pytest.approx(90, abs=1e-6)


def test_both_horns_of_a_part_touch():
    horns = [(-10, -8), (10, -8), (10, 8), (4, 8), (0, 2), (-4, 8), (-10, 8)]
    found = closed(polygon(horns), pocket(polygon(horns), 0.05), touch=1e-7)
    assert [(c.start[0], c.end[0]) for c in found.back.places] == [
        pytest.approx((-10, -4), abs=1e-5),
        pytest.approx((4, 10), abs=1e-5),
    ]
    assert len(found.front.places) == 1


# what a round cutter leaves in the corners, and the jaw's own corners


def test_a_square_rides_on_its_corners_where_the_cutter_left_too_much():
    """Corner of the part at (a, a), of the pocket rounded to r: c - r + sqrt(2 r c - c2)."""
    a, grip, r = 10.0, 1.0, 3.0
    square = box(-a, -a, a, a).outer
    (as_cut,) = grow(
        shrink([box(-a - grip, -a - grip, a + grip, a + grip)], r, TOLERANCE), r, TOLERANCE
    )
    found = closed(square, as_cut)
    assert found.back.approach == pytest.approx(
        grip - r + math.sqrt(2 * r * grip - grip**2), abs=1e-5
    )
    left, right = found.back.places
    assert (left.at, right.at) == (
        pytest.approx((-a, a), abs=1e-6),
        pytest.approx((a, a), abs=1e-6),
    )
    lean = math.degrees(math.asin((r - grip) / r))
    assert (left.normal, right.normal) == pytest.approx((90 + lean, 90 - lean), abs=1e-3)


def test_the_corners_of_the_mouth_meet_what_is_wider_than_the_mouth():
    disc = circle((0, 0), 4)
    found = closed(disc, box(-2, -8, 2, 8), gap=10)
    assert found.back.approach == pytest.approx(5 - math.sqrt(12), abs=1e-6)
    left, right = found.back.places
    assert (left.normal, right.normal) == pytest.approx((120, 60), abs=1e-4)
    assert right.at == pytest.approx((2, math.sqrt(12)), abs=1e-6)
    assert found.front.places[0].normal == pytest.approx(-120, abs=1e-4)


def test_a_wall_under_the_part_does_not_stop_the_jaw():
    """The hook's nose hangs 1 above a lip of the back jaw, which moves away from it; the stem
    has 3 above it and meets first what is over the nose, 2 away."""
    hook = polygon([(-2, -6), (2, -6), (2, 12), (8, 12), (8, 16), (-2, 16)])
    cavity = Region(
        polygon([(-3, -7), (3, -7), (3, 11), (9, 11), (9, 18), (1, 18), (1, 19), (-3, 19)])
    )
    found = closed(hook, cavity, touch=1e-6)
    assert found.back.approach == pytest.approx(2, abs=1e-9)
    (contact,) = found.back.places
    assert (contact.start, contact.end) == (pytest.approx((1, 16)), pytest.approx((8, 16)))
    assert found.front.approach == pytest.approx(1, abs=1e-9)


# which jaw moves


@pytest.mark.parametrize(
    ("moving", "back", "front", "shift"),
    [("both", 0.25, 0.25, 0.05), ("front", 0.0, 0.5, 0.3), ("back", 0.5, 0.0, -0.2)],
)
def test_the_jaw_that_moves_has_all_the_travel(moving, back, front, shift):
    """A pocket 0.3 away at the back and 0.2 in front."""
    part, cavity = box(-10, -9, 10, 9).outer, box(-10.5, -9.2, 10.5, 9.3)
    found = closed(part, cavity, moving=moving)
    assert found.travel == pytest.approx(0.5)
    assert found.gap_left == pytest.approx(5.5)
    assert (found.back.travel, found.front.travel) == pytest.approx((back, front))
    assert (found.back.approach, found.front.approach) == pytest.approx((0.3, 0.2))
    assert found.shift == pytest.approx(shift)
    assert found.back.places[0].start == pytest.approx((-10, 9))


# what can't be closed


def test_no_gap_left_is_an_error_that_says_the_gap_to_cut_at():
    disc = circle((0, 0), 10)
    found = closed(disc, pocket(disc, 0.05), gap=0.08)
    with pytest.raises(InputError) as caught:
        check_closing(found, Units.MM, Place("lever.toml", 9, key="setup[1].jaws.gap"))
    (fault,) = caught.value.faults
    assert str(fault) == (
        "lever.toml:9: setup[1].jaws.gap: the jaws meet each other before they grip the part: "
        "they must close by 0.1 mm, and the gap they are cut at is 0.08 mm\n"
        "    to mend: cut them at a gap of 0.6 mm or more"
    )
    mended = closed(disc, pocket(disc, 0.05), gap=0.6)
    check_closing(mended, Units.MM, Place())
    assert mended.gap_left == pytest.approx(MARGIN, abs=1e-6)
    with pytest.raises(InputError, match=r"0\.0039 in.* 0\.0031 in\n.*0\.0236 in"):
        check_closing(found, Units.INCH, Place())


def test_faces_that_just_meet_hold_nothing():
    disc = circle((0, 0), 10)
    with pytest.raises(InputError, match="meet each other"):
        check_closing(closed(disc, pocket(disc, 0), gap=0), Units.MM, Place())


def test_a_part_beside_the_blanks_is_never_met():
    disc = circle((90, 0), 10)
    found = closed(disc, pocket(disc, 0.05))
    assert found.travel == math.inf
    with pytest.raises(InputError) as caught:
        check_closing(found, Units.MM, Place())
    assert [fault.what.split(" never")[0] for fault in caught.value.faults] == [
        "the back jaw",
        "the front jaw",
    ]


# words


def test_the_operator_is_told_travel_gap_and_places():
    part = box(-3.2, -9, 4.1, 9).outer
    assert words(closed(part, pocket(part, 0.05)), Units.MM) == (
        "jaws close by 0.1 mm onto the part, leaving 5.9 mm of gap",
        "back jaw touches at X -3.2 to X 4.1 (7.3 mm)",
        "front jaw touches at X -3.2 to X 4.1 (7.3 mm)",
    )
    assert words(closed(part, pocket(part, 0.0508), moving="front"), Units.INCH) == (
        (
            "jaws close by 0.004 in onto the part, leaving 0.2322 in of gap; "
            "the part is pushed 0.002 in to the back"
        ),
        "back jaw touches at X -0.126 to X 0.161 (0.287 in)",
        "front jaw touches at X -0.126 to X 0.161 (0.287 in)",
    )


def test_many_places_are_counted():
    teeth = [p for x in range(-12, 12, 4) for p in ((x, 8), (x + 2, 8), (x + 2, 5), (x + 4, 5))]
    comb = polygon([*reversed(teeth), (-12, -8), (12, -8)])
    line = words(closed(comb, pocket(comb, 0.05)), Units.MM)[1]
    assert line == (
        "back jaw touches at X -12 to X -10 (2 mm), X -9.95 to X -8.05 (1.9 mm), "
        "X -8 to X -6 (2 mm), X -5.95 to X -4.05 (1.9 mm), 8 more places"
    )


def caution(jaw, x):
    return (
        f"caution: the {jaw} jaw touches at one short place only, at X {x}, off the part's middle "
        "at X 0: the part may turn"
    )


def test_a_part_between_two_tips_that_pass_each_other_may_turn():
    skew = polygon([(-20, 0), (-5, -10), (20, 0), (5, 10)])
    told = words(closed(skew, pocket(skew, 0.1)), Units.MM)
    assert told[1:] == (
        "back jaw touches at X 5",
        "front jaw touches at X -5",
        caution("back", 5),
        caution("front", -5),
    )


@pytest.mark.parametrize(
    "points",
    [
        [(-20, -8), (20, -8), (5, 10)],  # the flat in front bears on both sides of the tip
        [(-20, 0), (0, -10), (20, 0), (0, 10)],  # both tips in the middle
    ],
)
def test_a_braced_or_central_tip_is_no_cause_for_caution(points):
    part = polygon(points)
    assert len(words(closed(part, pocket(part, 0.1)), Units.MM)) == 3


# random shapes


@st.composite
def stars(draw, radii=(8, 24)):
    """A star-shaped outline of lines and arcs, off the middle; its hollow sides bend so little
    that they can't cross near a tip."""
    count = draw(st.integers(3, 8))
    far = draw(st.lists(st.floats(*radii), min_size=count, max_size=count))
    bulge = st.one_of(st.just(0.0), st.floats(-0.1, -0.01), st.floats(0.01, 0.3))
    bends = draw(st.lists(bulge, min_size=count, max_size=count))
    angles = [2 * math.pi * k / count for k in range(count)]
    rows = [
        (r * math.cos(a), r * math.sin(a), b) for r, a, b in zip(far, angles, bends, strict=True)
    ]
    star = turned(from_bulges(rows), draw(st.floats(0, 360)))
    return moved(star, draw(st.floats(-5, 5)), draw(st.floats(-5, 5)))


HOOKED = [
    [(-9, -14), (-3, -14), (-3, 8), (8, 8), (8, 3), (3, 3), (3, -2), (13, -2), (13, 14), (-9, 14)],
    [(-15, -9), (15, -9), (15, 9), (9, 9), (9, -2), (3, -2), (3, 9), (-3, 7), (-3, -2), (-15, 9)],
]


@st.composite
def hooks(draw):
    """An outline that a line along Y crosses several times."""
    return turned(polygon(draw(st.sampled_from(HOOKED))), draw(st.floats(0, 360)))


@st.composite
def walls(draw, top):
    """A part in a pocket that is its own, and more where another outline reaches out of it."""
    part = draw(st.one_of(stars(), hooks()))
    (cavity,) = grow([Region(part)], draw(st.floats(0.05, 1.5)), TOLERANCE)
    if draw(st.booleans()):
        cavity = joined(cavity, Region(draw(stars(radii=(8, 28)))))
    return level(part, cavity, top, top - 4)


@st.composite
def held(draw):
    """One level of a pocket, or two, and the blanks."""
    levels = [draw(walls(0.0)), *draw(st.lists(walls(-4.0), max_size=1))]
    return levels, dataclasses.replace(BLANKS, gap=draw(st.floats(0, 25)))


def stretches(shapes, travel):
    """The X from which to which a jaw would overlap the part."""
    over = shapes.overlap(travel)
    boxes = [piece.bounds for piece in getattr(over, "geoms", [over]) if piece.area > 0]
    return [(x0, x1) for x0, _, x1, _ in boxes]


@given(held())
@settings(max_examples=30, deadline=None)
def test_the_jaws_stop_where_the_first_level_would_overlap_the_part(case):
    levels, blanks = case
    found = closing(levels, blanks, TOLERANCE)
    for jaw, way in ((found.back, -1), (found.front, 1)):
        nearest = min(approach_by_area(*wall.parts, *wall.pockets, blanks, way) for wall in levels)
        assert jaw.approach == pytest.approx(nearest, abs=0.002)


@given(held())
@settings(max_examples=30, deadline=None)
def test_a_little_more_travel_overlaps_at_the_places_told_and_nowhere_else(case):
    levels, blanks = case
    found = closing(levels, blanks, TOLERANCE)
    for jaw, way in ((found.back, -1), (found.front, 1)):
        met = 0
        for wall in levels:
            shapes = pair(*wall.parts, *wall.pockets, blanks, way, 2e-5)
            told = [(c.start[0], c.end[0]) for c in jaw.places if c.top == wall.top]
            less, more = (stretches(shapes, jaw.approach + TOUCH + d) for d in (-5e-4, 5e-4))
            met += len(less)
            assert all(any(a - 1e-3 < x0 and x1 < b + 1e-3 for a, b in told) for x0, x1 in less)
            ends = [x for stretch in told for x in stretch]
            assert all(any(x0 - 5e-3 < x < x1 + 5e-3 for x0, x1 in more) for x in ends)
        assert met


@given(held())
@settings(max_examples=30, deadline=None)
def test_turned_about_the_jaws_change_places(case):
    levels, blanks = case
    found = closing(levels, blanks, TOLERANCE)
    around = closing([half_turn(wall) for wall in levels], blanks, TOLERANCE)
    assert around.travel == pytest.approx(found.travel, abs=1e-3)
    assert around.shift == pytest.approx(-found.shift, abs=1e-3)
    there = sorted((c.floor, *c.at) for c in around.back.places)
    here = sorted((c.floor, -c.at[0], -c.at[1]) for c in found.front.places)
    assert there == [pytest.approx(at, abs=1e-4) for at in here]


@given(st.one_of(stars(), hooks()), st.floats(0.01, 1), st.floats(0.01, 0.3))
@settings(max_examples=30, deadline=None)
def test_a_pocket_of_even_clearance_closes_by_just_that(part, grip, side):
    """Along Y no wall is nearer than the clearance, and the part's top is no farther."""
    assert closed(part, pocket(part, grip, side), gap=1).travel == pytest.approx(
        2 * grip, abs=TOLERANCE.path
    )


@given(held())
@settings(max_examples=30, deadline=None)
def test_contacts_run_along_the_part_and_apart_from_each_other(case):
    levels, blanks = case
    found = closing(levels, blanks, TOLERANCE)
    for jaw in (found.back, found.front):
        assert jaw.places
        for contact in jaw.places:
            assert contact.start[0] <= contact.at[0] <= contact.end[0]
            assert contact.length >= math.dist(contact.start, contact.end) - 0.02
        for one, next_one in itertools.pairwise(jaw.places):
            apart = math.dist(one.end, next_one.start) > TOLERANCE.join
            assert apart or one.floor > next_one.floor
