"""What is cleared when, and how much is taken away."""

import math
from dataclasses import replace

import pytest
import shapely
from proof_pen import move

from jawcam.proof.discs import discs
from jawcam.proof.stock import stock_of

SOLID = shapely.box(-100, -100, 100, 100)


def stock(*moves):
    return stock_of([replace(one, index=i) for i, one in enumerate(moves)], SOLID)


def slot(z, y=0.0):
    return move("line", (-20.0, y, z), (20.0, y, z))


def test_a_cut_clears_all_above_it_and_nothing_below():
    made = stock(slot(-5.0))
    area = 40 * 10 + math.pi * 25
    assert made.cleared(-5.0).area == pytest.approx(area, abs=0.01)
    assert made.cleared(-1.0).area == pytest.approx(area, abs=0.01)
    assert made.cleared(-5.1).is_empty


def test_a_ramp_clears_down_to_a_height_where_it_is_that_low():
    made = stock(move("line", (-20.0, 0.0, 0.0), (20.0, 0.0, -4.0)))
    assert made.cleared(-3.0).area == pytest.approx(10 * 10 + math.pi * 25, abs=0.01)


def test_only_earlier_cuts_count_for_what_a_move_meets():
    made = stock(slot(-2.0), slot(-4.0))
    disc = shapely.Point(0, 0).buffer(4.0)
    assert not made.uncut(disc, -4.0, before=1).is_empty
    assert made.uncut(disc, -2.0, before=1).is_empty
    assert made.uncut(disc, -4.0, before=2).is_empty
    outside = shapely.Point(0, 200).buffer(4.0)
    assert made.uncut(outside, -4.0, before=0).is_empty


def test_a_move_along_the_edge_of_what_is_cleared_meets_nothing():
    made = stock(slot(-2.0))
    along = replace(slot(-2.0), index=5)
    assert made.touched(along, spare=0.001, lift=0.001).is_empty
    aside = replace(slot(-2.0, y=0.01), index=5)
    assert not made.touched(aside, spare=0.001, lift=0.001).is_empty


def test_the_area_of_slots_at_two_levels():
    """A slot of L 50 and D 10 covers 578.5398 mm2; what slopes to its floor counts as well."""
    one = move("line", (-25.0, 0.0, -2.0), (25.0, 0.0, -2.0))
    assert stock(one).area() == pytest.approx(578.5398, abs=0.01)
    beside = replace(one, start=(-25.0, 50.0, -1.0), end=(25.0, 50.0, -1.0))
    assert stock(beside, one).area() == pytest.approx(2 * 578.5398, abs=0.02)
    ramp = replace(one, start=(-25.0, 50.0, -1.0), end=(25.0, 50.0, -3.0))
    assert stock(ramp, one).area() == pytest.approx(2 * 578.5398, abs=0.02)
    assert stock().area() == 0.0


def test_the_discs_left_of_a_corner():
    """Of a right corner rounded with r 5, one of r (sqrt 2 - 1) / (sqrt 2 + 1) diameter 2 r."""
    corner = shapely.difference(shapely.box(0, 0, 5, 5), shapely.Point(0, 0).buffer(5, 400))
    (disc,) = discs(corner, 0.02)
    true = 2 * 5 * (math.sqrt(2) - 1) / (math.sqrt(2) + 1)
    assert disc.dia == pytest.approx(true, abs=2e-3)
    assert disc.x == pytest.approx(5 - true / 2, abs=2e-3)
    assert discs(corner, true + 0.01) == []


def test_pieces_that_hang_by_a_thread_count_apart():
    thread = shapely.box(0, 0, 10, 0.01)
    ends = [shapely.box(-1, -1, 0, 1), shapely.box(10, -1, 12, 1)]
    found = discs(shapely.union_all([thread, *ends]), 0.02)
    assert [disc.dia for disc in found] == pytest.approx([1.0, 2.0], abs=5e-3)
    assert discs(shapely.Polygon(), 0.02) == []
