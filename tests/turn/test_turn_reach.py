"""What the slopes of a tool's edges keep it out of, against closed forms and a second engine."""

from __future__ import annotations

import itertools
import math

import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely.geometry import MultiPoint, Polygon
from turn_help import QUARTER, TOLERANCE, bar, boring, left_hand, right_hand, shape, turned
from turn_profiles import profiles

from jawcam.geometry.shapes import Arc, Region, polygon
from jawcam.turn.reach import left_for_others, reachable, rounded_off

NECKED = turned([(0, 10, 0), (-15, 10, 0), (-15, 8, 0), (-30, 8, 0), (-30, 10, 0), (-40, 10, 0)])


def edge_points(regions):
    return [s.start for region in regions for s in region.outer.segments]


def has_corner(regions, point):
    return any(math.dist(p, point) < 1e-5 for p in edge_points(regions))


def test_behind_an_edge_the_trailing_edge_leaves_a_ramp():
    (solid,) = reachable(NECKED, right_hand(0.8, falls=30), TOLERANCE)
    # from the edge at (-15, 10) down at 30 degrees: 2 mm lower after 2 / tan 30 = 3.464 mm
    foot = -15 - 2 / math.tan(math.radians(30))
    assert has_corner([solid], (foot, 8))
    assert solid.area - NECKED.area == pytest.approx(2 * (-15 - foot) / 2 + 60, abs=1e-4)


def test_a_shallow_edge_never_gets_to_the_bottom():
    solid = reachable(NECKED, right_hand(0.8, falls=5), TOLERANCE)
    assert has_corner(solid, (-30, 10 - 15 * math.tan(math.radians(5))))


def test_a_square_shoulder_towards_the_chuck_is_reached_and_a_ramp_stays_for_less_than_90():
    square = turned([(0, 10, 0), (-20, 10, 0), (-20, 14, 0), (-40, 14, 0)])
    assert has_corner(reachable(square, right_hand(0.8), TOLERANCE), (-20, 10))
    solid = reachable(square, right_hand(0.8, rises=60), TOLERANCE)
    assert has_corner(solid, (-20 + 4 / math.tan(math.radians(60)), 10))


def test_a_left_hand_tool_is_a_mirrored_right_hand_one():
    for falls in (7, 30, 55):
        (right,) = reachable(NECKED, right_hand(0.8, falls), TOLERANCE)
        (left,) = reachable(NECKED, left_hand(0.8, falls), TOLERANCE)
        # the neck lies between -30 and -15, so its mirror image is shifted by 45
        assert left.area == pytest.approx(right.area, abs=1e-4)
        for z, x in edge_points([right]):
            if 8 <= x < 9.999 and -30 < z < -15:
                assert has_corner([left], (-45 - z, x))


def test_a_bore_is_a_mirrored_outside():
    rows = [(-60, 30), (-60, 10), (-30, 10), (-30, 12), (-15, 12), (-15, 10), (0, 10), (0, 30)]
    part = Region(polygon(rows))
    solid = reachable(part, boring(0.4, falls=30), TOLERANCE)
    foot = -15 - 2 / math.tan(math.radians(30))
    assert has_corner(solid, (foot, 12))
    (place,) = left_for_others(part, solid, boring(0.4, falls=30), TOLERANCE)
    assert -20 < place.at[0] < -15
    assert 10 < place.at[1] < 12


def test_the_shadow_of_an_arc_begins_where_its_slope_is_the_limit():
    # a half round of radius 5 on the outside, centre (-20, 10); at 30 degrees the trailing edge
    # touches it 30 degrees left of its top: (-20 - 5 sin 30, 10 + 5 cos 30)
    half = turned([(0, 10, 0), (-15, 10, 1), (-25, 10, 0), (-50, 10, 0)])
    (solid,) = reachable(half, right_hand(0.8, falls=30), TOLERANCE)
    touch = (-20 - 5 * 0.5, 10 + 5 * math.sqrt(0.75))
    assert has_corner([solid], touch)
    assert has_corner([solid], (touch[0] - (touch[1] - 10) / math.tan(math.radians(30)), 10))
    arcs = [s for s in solid.outer.segments if isinstance(s, Arc)]
    assert sum(arc.radius for arc in arcs) == pytest.approx(5 * len(arcs), abs=1e-5)


def test_what_stays_is_named_with_its_place_and_size():
    edge = right_hand(0.8, falls=30)
    places = left_for_others(NECKED, reachable(NECKED, edge, TOLERANCE), edge, TOLERANCE)
    (place,) = places
    # a triangle of 3.4641 x 2: the circle within has the diameter a + b - c
    width = 2 / math.tan(math.radians(30))
    assert place.size == pytest.approx(width + 2 - 4, abs=0.01)
    assert -15 - width < place.at[0] < -15
    assert 8 < place.at[1] < 10
    ahead = left_for_others(
        NECKED, reachable(NECKED, edge, TOLERANCE), edge, TOLERANCE, limit=-15.0
    )
    assert ahead == ()


def test_nothing_stays_of_what_the_slopes_allow():
    part = turned([(0, 9, 0), (-1, 10, 0), (-20, 10, 0), (-25, 9.5, 0), (-30, 14, 0)])
    edge = right_hand(0.8)
    assert left_for_others(part, reachable(part, edge, TOLERANCE), edge, TOLERANCE) == ()


def test_a_bore_is_not_left_by_outside_tools():
    ring = Region(polygon([(-40, 5), (0, 5), (0, 12), (-40, 12)]))
    edge = right_hand(0.8)
    solid = reachable(ring, edge, TOLERANCE)
    assert left_for_others(ring, solid, edge, TOLERANCE) == ()
    assert not any(0 < x < 12 - 1e-6 for _, x in edge_points(solid))


def test_where_the_nose_is_too_round_is_named_too_if_asked_for():
    square = turned([(0, 10, 0), (-20, 10, 0), (-20, 14, 0), (-40, 14, 0)])
    edge = right_hand(0.8)
    solid = rounded_off(reachable(square, edge, TOLERANCE), 0.8, TOLERANCE)
    (place,) = left_for_others(square, solid, edge, TOLERANCE)
    # the largest disc between a square corner and a round of R: R (3 - 2 sqrt 2) in radius
    assert place.size == pytest.approx(2 * 0.8 * (3 - 2 * math.sqrt(2)), abs=0.01)
    assert math.dist(place.at, (-20, 10)) < 0.3


def test_what_stands_behind_the_limit_casts_its_shadow():
    part = turned([(0, 10, 0), (-40, 10, 0)])
    chucked = bar(15, back=-70, front=-30)
    (solid,) = reachable(part, left_hand(0.8, falls=45), TOLERANCE, beside=[chucked])
    assert has_corner([solid], (-25, 10))


def by_brute_force(part, falls, rises):
    """Everything under the tool's wedge turned upside down, by shapely's hulls."""
    feet = [(0.0, 0.0)]
    for angle in (180 + falls, 360 - min(rises, 90)):
        turn = math.radians(angle)
        feet.append((500 * math.cos(turn), 500 * math.sin(turn)))
    swept = [part]
    ring = list(part.exterior.coords)
    for a, b in itertools.pairwise(ring):
        swept.append(MultiPoint([(p[0] + f[0], p[1] + f[1]) for p in (a, b) for f in feet]))
    return shapely.union_all([swept[0], *(points.convex_hull for points in swept[1:])])


@settings(max_examples=25, deadline=None)
@given(profiles(), st.sampled_from([3.0, 7.0, 32.0, 60.0]), st.sampled_from([62.5, 90.0, 93.0]))
def test_it_is_the_part_under_the_tool_turned_upside_down(part, falls, rises):
    edge = right_hand(0.8, falls, rises)
    solid = shapely.union_all([shape(r, 1e-4) for r in reachable(part, edge, TOLERANCE)])
    expected = by_brute_force(shape(part, 1e-4), falls, rises)
    within = Polygon([(-59.9, 0), (30, 0), (30, 100), (-59.9, 100)])
    apart = solid.symmetric_difference(expected).intersection(within)
    assert apart.buffer(-0.0005).is_empty
    assert QUARTER < 1
