"""The order of visits against every order there is (brute force), and what must hold of any."""

from __future__ import annotations

import itertools
import math
import random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from jawcam.mill.order import Stop, in_order, way_between
from jawcam.mill.trail import Trail
from jawcam.mill.visits import visit, visit_stops

ROUNDING = 0.001  # mm; ways are compared to 0.0001 mm, each of up to nine


def drawn(seed: int, count: int, *, apart: float) -> list[Stop]:
    """Places strewn over a pair of jaws, each left up to `apart` mm from where it is come to."""
    dice = random.Random(seed)  # noqa: S311 (no secret)
    found = []
    for _ in range(count):
        x, y = dice.uniform(-60, 60), dice.uniform(-30, 30)
        found.append(Stop((x, y), (x + dice.uniform(0, apart), y + dice.uniform(0, apart))))
    return found


def length(stops, order, here) -> float:
    return way_between([stops[k] for k in order], here)


def shortest(stops, here) -> float:
    """By every order there is."""
    return min(length(stops, order, here) for order in itertools.permutations(range(len(stops))))


def by_nearest(stops, here) -> list[int]:
    """From each to the nearest one that is left, the first the leftmost where nobody knows where
    the cutter is; written anew."""
    left, order = set(range(len(stops))), []
    while left:
        if here is None:
            best = min(left, key=lambda k: stops[k].start)
        else:
            best = min(left, key=lambda k: (round(math.dist(here, stops[k].start), 4), k))
        left.remove(best)
        order.append(best)
        here = stops[best].end
    return order


@pytest.mark.parametrize("here", [None, (-60.0, -30.0), (5.0, 2.0)])
@pytest.mark.parametrize("apart", [0.0, 20.0])
def test_up_to_eight_places_it_is_the_shortest_way_or_nearly_so(here, apart):
    equal, cases = 0, 0
    for seed, count in itertools.product(range(12), (3, 5, 7)):
        stops = drawn(seed, count, apart=apart)
        best = shortest(stops, here)
        found = length(stops, in_order(stops, here), here)
        assert best - ROUNDING <= found <= 1.02 * best
        equal += found <= best + ROUNDING
        cases += 1
    assert equal >= 0.97 * cases


@pytest.mark.parametrize("seed", range(3))
def test_eight_places_against_all_their_orders(seed):
    stops, here = drawn(seed, 8, apart=10.0), (0.0, 0.0)
    assert length(stops, in_order(stops, here), here) <= 1.01 * shortest(stops, here)


@pytest.mark.parametrize("count", [60, 230])
def test_many_places_come_well_below_the_order_by_the_nearest(count):
    stops, here = drawn(1, count, apart=0.0), (0.0, 0.0)
    by_hand = length(stops, by_nearest(stops, here), here)
    assert length(stops, in_order(stops, here), here) < 0.95 * by_hand


PLACE = st.tuples(st.integers(-60, 60), st.integers(-30, 30))
STOPS = st.lists(st.tuples(PLACE, PLACE), max_size=14).map(lambda rows: [Stop(*r) for r in rows])


@settings(max_examples=80)
@given(STOPS, st.none() | PLACE)
def test_every_place_once_and_never_a_longer_way_than_the_plain_orders(stops, here):
    order = in_order(stops, here)
    assert sorted(order) == list(range(len(stops)))
    assert in_order(stops, here) == order
    found = length(stops, order, here)
    assert found <= length(stops, range(len(stops)), here) + ROUNDING
    assert found <= length(stops, by_nearest(stops, here), here) + ROUNDING


@pytest.mark.parametrize("seed", range(3))
@pytest.mark.parametrize("apart", [0.0, 15.0])
def test_no_stretch_turned_round_and_no_few_places_moved_make_it_shorter(seed, apart):
    stops, here = drawn(seed, 36, apart=apart), (0.0, 0.0)
    order = in_order(stops, here)
    found = length(stops, order, here)
    for i, j in itertools.combinations(range(len(order) + 1), 2):
        others = [[*order[:i], *order[i:j][::-1], *order[j:]]]
        for few in range(1, min(3, j - i) + 1):
            row, rest = order[i : i + few], order[i + few : j]
            others += [[*order[:i], *rest, *some, *order[j:]] for some in (row, row[::-1])]
        assert found <= min(length(stops, one, here) for one in others) + ROUNDING


@pytest.mark.parametrize("seed", range(2))
def test_of_many_places_no_stretch_turned_round_makes_it_shorter(seed):
    stops, here = drawn(seed, 190, apart=0.0), (0.0, 0.0)
    places = [here, *(stops[k].start for k in in_order(stops, here))]
    for i, j in itertools.combinations(range(1, len(places)), 2):
        a, b, c = places[i - 1], places[i], places[j]
        gain = math.dist(a, b) - math.dist(a, c)
        for d in places[j + 1 : j + 2]:
            gain += math.dist(c, d) - math.dist(b, d)
        assert gain <= ROUNDING


def test_a_row_is_run_along_from_the_nearer_end():
    row = [Stop((x, 0.0), (x, 0.0)) for x in (10.0, -30.0, 50.0, 30.0, -10.0)]
    assert in_order(row, (60.0, 0.0)) == [2, 3, 0, 4, 1]
    assert in_order(row) == [1, 4, 0, 3, 2]


def test_where_a_place_is_left_counts():
    # closed form: there and back is 10 + 10, the other way round 0 + 10 + 0
    there, back = Stop((0.0, 0.0), (10.0, 0.0)), Stop((0.0, 0.0), (0.0, 0.0))
    assert in_order([there, back], (0.0, 0.0)) == [1, 0]


# --- cuts in that order ----------------------------------------------------------------------


def get_to(trail: Trail, to) -> None:
    trail.rapid(*to, 5.0)
    trail.rapid(*to, -1.0)


def cut_of(stop: Stop):
    def cut(trail: Trail) -> None:
        get_to(trail, stop.start)
        trail.feed(*stop.end, -2.0, 300.0)
        trail.rapid(*stop.end, 5.0)

    return cut


@pytest.mark.parametrize("at", [None, (20.0, 10.0, 5.0)])
@pytest.mark.parametrize("count", [1, 2, 7])
def test_cuts_whose_places_only_show_when_they_are_made_come_out_as_those_that_are_known(at, count):
    stops = drawn(3, count, apart=15.0)
    cuts = [cut_of(stop) for stop in stops]
    trails = [Trail(), Trail(), Trail()]
    for trail in trails:
        trail.at = at
    visit(trails[0], cuts, get_to)
    visit_stops(trails[1], list(zip(stops, cuts, strict=True)))
    for number in in_order(stops, at[:2] if at else None):
        cuts[number](trails[2])
    assert trails[0].motions == trails[1].motions == trails[2].motions
    assert trails[0].at == trails[2].at


def test_no_cuts_are_no_motions():
    trail = Trail()
    visit(trail, [], get_to)
    visit_stops(trail, [])
    assert trail.motions == []
