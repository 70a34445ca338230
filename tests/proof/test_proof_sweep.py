"""Areas that a round cutter sweeps, against closed forms."""

import math
from dataclasses import replace
from itertools import pairwise

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from proof_pen import move

from jawcam.proof.move import below, portion, within
from jawcam.proof.sweep import CHORD, PATH_CHORD, path, swept

FINE = 1e-7


def area_of(moves, chord=FINE):
    return shapely.area(shapely.union_all(swept(moves, chord)[0]))


def rectangle(width, height):
    points = [(-width / 2, -height / 2), (width / 2, -height / 2), (width / 2, height / 2)]
    points += [(-width / 2, height / 2), points[0]]
    return [move("line", (*a, 0.0), (*b, 0.0)) for a, b in pairwise(points)]


def test_a_slot_is_its_length_times_the_diameter_and_a_disc():
    """L D + pi D^2 / 4 with L 50 and D 10."""
    slot = move("line", (0.0, 0.0, -2.0), (30.0, 40.0, -2.0))
    assert area_of([slot]) == pytest.approx(578.5398, abs=1e-4)


def test_a_plunge_is_a_disc():
    assert area_of([move("line", (1, 2, 0), (1, 2, -3))]) == pytest.approx(78.5398, abs=1e-4)


def test_a_rectangular_pocket_is_cleared_but_for_its_corners():
    """60 x 40 with D 10: 2400 - (4 - pi) 25. Rings 4 mm apart leave nothing inside."""
    rings = [(50, 30), (42, 22), (34, 14), (26, 6)]
    moves = [one for sides in rings for one in rectangle(*sides)]
    assert sum(one.length for one in moves) == pytest.approx(448.0)
    assert area_of(moves) == pytest.approx(2378.5398, abs=1e-4)


def test_a_circle_sweeps_a_ring_or_a_disc():
    def circle(radius):
        place = (radius, 0.0, -1.0)
        return move("arc", place, place, turn=math.tau)

    assert area_of([circle(11.0)]) == pytest.approx(4 * math.pi * 11 * 5, abs=1e-3)
    assert area_of([circle(3.0)]) == pytest.approx(math.pi * 8**2, abs=1e-3)


@given(
    radius=st.floats(5.0, 40.0),
    turn=st.floats(0.1, 3.0) | st.floats(-3.0, -0.1),
    angle=st.floats(-3.0, 3.0),
)
@settings(max_examples=40, deadline=None)
def test_an_arc_sweeps_its_length_times_the_diameter_and_a_disc(radius, turn, angle):
    """Pappus; true while the sweep doesn't meet itself and the cutter fits inside the arc."""
    start = (radius * math.cos(angle), radius * math.sin(angle), 0.0)
    end = (radius * math.cos(angle + turn), radius * math.sin(angle + turn), 0.0)
    true = radius * abs(turn) * 10 + math.pi * 25
    got = area_of([move("arc", start, end, turn=turn)], CHORD)
    assert true - CHORD * (2 * radius * abs(turn) + 10 * math.pi) <= got <= true + 1e-9


def test_an_arc_tighter_than_the_cutter():
    """Half a turn of radius 2 with a cutter of radius 5: half a disc of radius 7 on one side, half
    of what two discs of radius 5 cover on the other, their centres 4 apart."""
    arc = move("arc", (2.0, 0.0, 0.0), (-2.0, 0.0, 0.0), turn=math.pi)
    in_common = 2 * 25 * math.acos(2 / 5) - 4 / 2 * math.sqrt(4 * 25 - 16)
    true = math.pi * 49 / 2 + (2 * math.pi * 25 - in_common) / 2
    assert area_of([arc]) == pytest.approx(true, abs=1e-4)


@st.composite
def any_move(draw):
    coordinate = st.floats(-20.0, 20.0)
    start = (draw(coordinate), draw(coordinate), 0.0)
    if draw(st.booleans()):
        return move("line", start, (draw(coordinate), draw(coordinate), 0.0))
    centre = (draw(coordinate), draw(coordinate))
    turn = draw(st.floats(0.05, math.tau)) * draw(st.sampled_from((1, -1)))
    radius = math.dist(start[:2], centre)
    angle = math.atan2(start[1] - centre[1], start[0] - centre[0]) + turn
    end = (centre[0] + radius * math.cos(angle), centre[1] + radius * math.sin(angle), 0.0)
    return move("arc", start, end, centre=centre, turn=turn)


def distance_to(one, x, y):
    """Of a point and the true path, worked out another way than by shapes."""
    if one.kind == "line":
        a, b = np.array(one.start[:2]), np.array(one.end[:2])
        along = np.dot((x, y) - a, b - a) / max(float(np.dot(b - a, b - a)), 1e-300)
        return math.dist((x, y), a + np.clip(along, 0, 1) * (b - a))
    cx, cy = one.centre
    turned = (math.atan2(y - cy, x - cx) - one.start_angle) * math.copysign(1, one.turn) % math.tau
    if turned <= abs(one.turn):
        return abs(math.dist((x, y), one.centre) - one.radii[0])
    return min(math.dist((x, y), one.start[:2]), math.dist((x, y), one.end[:2]))


@given(any_move(), st.lists(st.tuples(st.floats(-30, 30), st.floats(-30, 30)), min_size=5))
@settings(max_examples=150, deadline=None)
def test_what_is_swept_is_what_lies_within_a_radius_of_the_path(one, points):
    area = shapely.union_all(swept([one])[0])
    assert area.is_valid
    for x, y in points:
        inside, far = shapely.contains_xy(area, x, y), distance_to(one, x, y)
        assert not inside or far <= 5.0 + 1e-9, "never too large"
        assert inside or far >= 5.0 - 1.5 * CHORD, "hardly too small"


@given(any_move())
@settings(max_examples=60, deadline=None)
def test_the_centre_line_stays_on_the_path(one):
    line = path(one)
    points = shapely.get_coordinates(line)
    assert max(distance_to(one, x, y) for x, y in points) < 1e-9
    middles = (points[:-1] + points[1:]) / 2
    assert max((distance_to(one, x, y) for x, y in middles), default=0) <= PATH_CHORD * 1.001


@pytest.mark.parametrize("radius", [4.999999, 5.0, 5.0 + 1e-9, 5.005, 5.02])
@pytest.mark.parametrize("turn", [0.001, 2.0, math.pi, 3.2, 6.283])
def test_an_arc_about_as_tight_as_the_cutter_is_still_an_area(radius, turn):
    end = (radius * math.cos(turn), radius * math.sin(turn), 0.0)
    shapes = swept([move("arc", (radius, 0.0, 0.0), end, turn=turn)])[0]
    assert shapely.is_valid(shapes).all()
    assert shapely.contains_xy(shapely.union_all(shapes), radius, 0.0)


def test_a_helix_of_many_turns_sweeps_what_one_turn_does():
    place = (8.0, 0.0, 0.0)
    once = move("arc", place, place, turn=math.tau)
    often = move("arc", place, (8.0, 0.0, -4.0), turn=5 * math.tau)
    assert area_of([often], CHORD) == area_of([once], CHORD)
    assert often.length == pytest.approx(math.hypot(5 * math.tau * 8, 4))


def test_an_arc_whose_radii_differ_a_little_is_followed_evenly():
    arc = move("arc", (10.0, 0.0, 0.0), (0.0, 10.002, 0.0), turn=math.pi / 2)
    x, y, _ = arc.at(0.5)
    assert math.hypot(x, y) == pytest.approx(10.001)
    assert arc.at(1.0) == (0.0, 10.002, 0.0)
    assert shapely.get_coordinates(path(arc))[-1].tolist() == [0.0, 10.002]


def test_below_cuts_a_move_at_a_height():
    ramp = move("line", (0.0, 0.0, 1.0), (10.0, 0.0, -4.0))
    assert below(ramp, 0.0).start == pytest.approx((2.0, 0.0, 0.0))
    assert below(ramp, 0.0).end == ramp.end
    assert below(ramp, 2.0) is ramp
    assert below(ramp, -4.1) is None
    up = move("arc", (8.0, 0.0, -2.0), (8.0, 0.0, 2.0), turn=math.tau)
    half = below(up, 0.0)
    assert half.end == pytest.approx((-8.0, 0.0, 0.0))
    assert half.turn == pytest.approx(math.pi)


def test_within_cuts_a_move_at_two_heights():
    ramp = move("line", (0.0, 0.0, 1.0), (10.0, 0.0, -4.0))
    piece = within(ramp, -2.0, 0.0)
    assert piece.start == pytest.approx((2.0, 0.0, 0.0))
    assert piece.end == pytest.approx((6.0, 0.0, -2.0))
    rising = within(replace(ramp, start=ramp.end, end=ramp.start), -2.0, 0.0)
    assert (rising.start, rising.end) == (
        pytest.approx((6.0, 0.0, -2.0)),
        pytest.approx((2.0, 0.0, 0.0)),
    )
    assert within(ramp, -9.0, 2.0) is ramp
    assert within(ramp, 1.5, 2.0) is None
    assert within(ramp, -9.0, -4.5) is None


def test_portions_add_up():
    helix = move("arc", (8.0, 0.0, 0.0), (8.0, 0.0, -2.0), turn=math.tau)
    thirds = [portion(helix, k / 3, (k + 1) / 3) for k in range(3)]
    assert sum(one.length for one in thirds) == pytest.approx(helix.length)
    whole = shapely.union_all(swept(thirds, CHORD)[0])
    assert shapely.area(whole) == pytest.approx(area_of([helix], CHORD), abs=0.01)


def test_no_moves_sweep_nothing():
    shapes, owners = swept([])
    assert len(shapes) == len(owners) == 0
