"""Bows: they leave and meet walls along them, are alike at both ends, and bite no more than asked.

What a bow bites off beside a front is measured here by another engine (GEOS): the area that each
bit of its way adds to what is cleared.
"""

from __future__ import annotations

import math

import numpy as np
import pytest
import shapely
from hypothesis import assume, given
from hypothesis import strategies as st

from jawcam.geometry.cut import tangent_at
from jawcam.geometry.rim import Spot, rim_of
from jawcam.geometry.shapes import Arc, Point, Region, circle, polygon
from jawcam.geometry.uncut import Front, Lump
from jawcam.mill.bow import TIGHT, bow
from jawcam.mill.bow_ends import ends_of, opposite
from jawcam.mill.bow_judging import farthest, judged
from jawcam.mill.bows import Cast, cast, nibble
from jawcam.mill.engaged import bitten, edges_of, nearest
from jawcam.mill.law import Law
from jawcam.mill.spiral import spiral

LUMP = Lump([[0, 0], [1, 0], [1, 1]], 1.0, (0, 0, 1, 1))
CHANNEL = Region(polygon([(-50, -6), (50, -6), (50, 6), (-50, 6)]))


def front_of(points: list[Point]) -> Front:
    return Front(tuple(points), False, LUMP)


def swept(points: np.ndarray, radius: float) -> shapely.Geometry:
    return shapely.LineString(points).buffer(radius, quad_segs=64)


@given(
    st.floats(-math.pi, math.pi),
    st.floats(0.1, 2.9),
    st.floats(0.5, 40.0),
    st.sampled_from([0.0, 0.1, 0.3, 0.5]),
)
def test_a_bow_goes_from_wall_to_wall_along_them(
    way: float, half: float, chord: float, share: float
):
    end = (chord * math.cos(way + half), chord * math.sin(way + half))
    found = bow((0.0, 0.0), (math.cos(way), math.sin(way)), end, share, 0.0)
    assume(found is not None)
    assert found is not None
    path = found.path()
    assert path.start == pytest.approx((0.0, 0.0), abs=1e-9)
    assert path.end == pytest.approx(end, abs=1e-7)
    first, last = path.segments[0], path.segments[-1]
    begins, ends = tangent_at(first, first.start), tangent_at(last, last.end)
    assert begins == pytest.approx((math.cos(way), math.sin(way)), abs=1e-7)
    # mirrored at the chord: turned by twice the angle between it and the start
    assert ends == pytest.approx((math.cos(way + 2 * half), math.sin(way + 2 * half)), abs=1e-6)
    for a, b in zip(path.segments, path.segments[1:], strict=False):
        assert tangent_at(a, a.end) == pytest.approx(tangent_at(b, b.start), abs=1e-6)
    radii = [leg.radius for leg in found.legs]
    if share:
        assert radii == pytest.approx([TIGHT * radii[1], radii[1], TIGHT * radii[1]])


def test_a_bow_of_one_arc_is_the_circle_that_both_walls_touch():
    found = bow((0.0, 0.0), (1.0, 0.0), (0.0, 10.0), 0.0, 0.0)
    assert found is not None
    assert [leg.radius for leg in found.legs] == pytest.approx([5.0])
    assert found.length == pytest.approx(5 * math.pi)


@pytest.mark.parametrize("half", [0.0, math.pi])
def test_no_bow_turns_hardly_at_all_or_all_round(half: float):
    assert bow((0.0, 0.0), (1.0, 0.0), (math.cos(half), math.sin(half)), 0.2, 0.0) is None


def test_drawn_out_a_bow_begins_behind_the_wall_and_ends_as_before():
    found = bow((0.0, 0.0), (1.0, 0.0), (0.0, 10.0), 0.3, 0.4)
    assert found is not None
    radius = found.legs[0].radius
    x, y = found.start
    assert (x, y) == pytest.approx((-radius * math.sin(0.4), radius * (1 - math.cos(0.4))))
    assert found.led_in(1.0).end == found.end
    assert found.led_in(1.0).path().end == pytest.approx(found.end, abs=1e-9)


def test_places_along_a_bow_lie_on_its_arcs():
    found = bow((0.0, 0.0), (1.0, 0.0), (2.0, 9.0), 0.3, 0.4)
    assert found is not None
    places, headings, ways = found.places(0.25)
    assert ways[-1] == pytest.approx(found.length)
    assert np.diff(ways).max() <= 0.25
    assert np.hypot(*headings.T) == pytest.approx(1.0)
    for arc in found.path().segments:
        assert isinstance(arc, Arc)
        near = [abs(math.dist(place, arc.centre) - arc.radius) < 1e-7 for place in places.tolist()]
        assert sum(near) >= 3


@pytest.mark.parametrize("width", [0.2, 1.0, 3.0, 5.0])
def test_beside_a_straight_front_the_bite_is_what_reaches_over_it(width: float):
    # plane geometry: a disc bites off as much as its edge lies beyond a straight front
    edges = edges_of([front_of([(-20.0, 0.0), (20.0, 0.0)])], 0.5)
    places = np.array([[0.0, 4.0 - width], [3.0, 4.0 - width]])
    headings = np.array([[1.0, 0.0], [1.0, 0.0]])
    assert bitten(places, headings, edges, 4.0) == pytest.approx(width, abs=1e-9)
    assert nearest((0.0, 4.0 - width), edges) == pytest.approx(abs(4.0 - width))


@given(st.floats(4.5, 30.0), st.floats(0.05, 2.5))
def test_inside_a_round_front_the_bite_goes_by_the_law_of_cosines(edge: float, more: float):
    radius, at = 4.0, edge - 4.0 + more
    assume(at > 0.2)
    points = [(edge * math.cos(a), edge * math.sin(a)) for a in np.linspace(0, 2 * math.pi, 4001)]
    edges = edges_of([front_of(points)], 0.5)
    cosine = (edge**2 - at**2 - radius**2) / (2 * at * radius)
    assume(-0.9 < cosine < 0.999)
    place, heading = np.array([[at, 0.0]]), np.array([[0.0, 1.0]])
    assert bitten(place, heading, edges, radius) == pytest.approx(radius * (1 - cosine), abs=5e-3)


def test_what_a_front_ahead_leaves_cleared_does_not_count():
    edges = edges_of([front_of([(-20.0, 0.0), (20.0, 0.0)])], 0.5)
    behind = edges_of([front_of([(20.0, -2.0), (-20.0, -2.0)])], 0.5)  # cleared again below y = -2
    places, headings = np.array([[0.0, 1.0]]), np.array([[1.0, 0.0]])
    assert bitten(places, headings, edges, 4.0) == pytest.approx(3.0)
    assert bitten(places, headings, [*edges, *behind], 4.0) == pytest.approx(2.0)


def test_a_turn_of_the_spiral_bites_off_what_is_asked():
    radius, width = 4.0, 1.0
    cleared = shapely.Point(0, 0).buffer(3.6 + radius, quad_segs=256)
    turns = spiral((0.0, 0.0), 3.6, 16.0, radius, width)
    for turn in turns:
        for half in turn.segments:
            assert isinstance(half, Arc)
            for share in (0.1, 0.5, 0.9):
                places = [half.point(share + 0.01 * k) for k in range(4)]
                piece = swept(np.array(places), radius)
                been = [half.point(share * k / 40) for k in range(41)]
                here = cleared.union(swept(np.array(been), radius))
                way = half.length * 0.03
                assert piece.difference(here).area / way <= 1.03 * width
            cleared = cleared.union(
                swept(np.array([half.point(k / 60) for k in range(61)]), radius)
            )
    assert turns[-1].segments[-1].end == pytest.approx((-16.0, 0.0)) or (
        turns[-1].segments[-1].end == pytest.approx((16.0, 0.0))
    )
    assert shapely.Point(0, 0).buffer(19.98).difference(cleared).area < 0.01


@given(st.floats(-90, 90), st.floats(1.0, 6.0), st.floats(0.02, 30.0), st.floats(0.1, 0.45))
def test_a_spiral_always_comes_to_an_end(x: float, first: float, more: float, share: float):
    turns = spiral((x, -x / 3), first, first + more, 4.0, share * 4.0)
    halves = [half for turn in turns for half in turn.segments]
    assert len(halves) < 400
    for half in halves[-2:]:
        assert isinstance(half, Arc)
        assert half.radius == pytest.approx(first + more)


def test_the_ends_of_a_front_are_where_the_cutter_meets_nothing_of_it():
    law = Law(4.0, 1.0, rim_of(CHANNEL, 1.0, 6.0))
    # what a bow of one arc from (0, -6) to (0, 6) leaves: a half circle of 6 + 4
    turn = np.linspace(-math.pi / 2, math.pi / 2, 400)[3:-3]
    front = front_of([(10 * math.cos(a), 10 * math.sin(a)) for a in turn])
    ends = ends_of(front, law)
    assert ends is not None
    assert law.rim.point(ends[0]) == pytest.approx((0.0, -6.0), abs=0.3)
    assert law.rim.point(ends[1]) == pytest.approx((0.0, 6.0), abs=0.3)
    for spot in ends:
        assert nearest(law.rim.point(spot), edges_of([front], 0.5)) >= 4.0 - 0.005


def test_opposite_in_a_wedge_is_as_far_from_its_corner():
    rim = rim_of(Region(polygon([(0, 0), (40, 0), (0, 40)])), 1.0, 6.0)
    found = opposite(rim, Spot(0, 12.0), Spot(2, 20.0), 0.5)  # on the side that comes down x = 0
    assert found is not None
    assert rim.point(found) == pytest.approx((0.0, 12.0), abs=1e-6)


def test_opposite_on_a_circle_is_found_by_the_chord():
    # any two spots of a circle are touched by one circle: that itself
    rim = rim_of(Region(circle((0, 0), 10)), 1.0, 6.0)
    found = opposite(rim, Spot(0, 2.0), Spot(0, 15.0), 0.5)
    assert found is not None
    assert abs(found.way - 15.0) < 1.0


@pytest.mark.parametrize("width", [0.5, 1.0, 1.6])
def test_the_best_bow_along_a_channel_keeps_to_the_bite(width: float):
    radius = 4.0
    law = Law(radius, width, rim_of(CHANNEL, 1.0, 6.0))
    turn = np.linspace(-math.pi / 2, math.pi / 2, 900)
    been = [(6 * math.cos(a), 6 * math.sin(a)) for a in turn]
    cleared = swept(np.array([(-30, 6), *been[::-1], (-30, -6), (-30, 0), (5, 0)]), radius)
    front = front_of([(10 * math.cos(a), 10 * math.sin(a)) for a in turn[4:-4]])
    found = cast(law, front, edges_of([front], 0.5), Cast(0.0, width / 2, 0.3))
    assert found is not None
    one = found[0].bow
    assert law.width < found[0].peak <= law.most
    places = one.places(0.05)[0]
    step, here = 8, cleared
    for k in range(0, len(places) - step, step):
        piece = swept(places[k : k + step + 1], radius)
        way = float(np.hypot(*np.diff(places[k : k + step + 1], axis=0).T).sum())
        assert piece.difference(here).area / way <= 1.15 * width
        here = here.union(piece)
    assert here.difference(cleared).area == pytest.approx(found[0].area, rel=0.06)


def test_no_bow_is_found_where_every_one_bites_off_too_much():
    law = Law(4.0, 1.0, rim_of(CHANNEL, 1.0, 6.0))
    front = front_of([(0.0, -10.0 + 0.05 * k) for k in range(401)])
    edges = edges_of([front], 0.5)
    far = farthest(law, lambda by: judged(_straight(by), law, edges), 3.0)
    assert far is None or far[0].peak <= law.most


def _straight(by: float):
    found = bow((3.0 + abs(by), -6.0), (1.0, 0.0), (3.0 + abs(by), 6.0), 0.0, 0.0)
    assert found is not None
    return found


def test_a_nibble_ends_in_what_is_cleared():
    law = Law(4.0, 1.0, rim_of(CHANNEL, 1.0, 6.0))
    # a cusp on the lower wall, cleared all above
    cusp = [(-3.0 + 0.1 * k, -10.0 + 2.0 - abs(-3.0 + 0.1 * k) / 1.5) for k in range(61)]
    front = front_of(cusp)
    found = nibble(law, front, edges_of([front], 0.5), Cast(0.0, 0.3, 0.0))
    assert found is not None
    assert 0 < found[0].peak <= law.most
    assert nearest(found[0].bow.end, edges_of([front], 0.5)) >= 4.0 - 0.01
