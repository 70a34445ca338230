"""What stands round a tool, against points of the blank that are cut one move after the other."""

from dataclasses import replace

import numpy as np
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from proof_pen import move

from jawcam.proof.bodies import Body
from jawcam.proof.standing import first_met, rise
from jawcam.proof.stock import stock_of

HALF, RADIUS = 15.0, 3.0
SOLID = shapely.box(-HALF, -HALF, HALF, HALF)
X, Y = (values.ravel() for values in np.meshgrid(*[np.linspace(-14.9, 14.9, 40)] * 2))
SPOTS = st.tuples(st.integers(-12, 12), st.integers(-12, 12))
DEEP = st.integers(1, 6).map(float)
PASSES = st.lists(st.tuples(SPOTS, SPOTS, DEEP, DEEP), min_size=1, max_size=8)


def cuts(rows):
    """Straight cuts of a cutter of 6 mm, level or sloping, one after the other."""
    made = []
    for index, (a, b, first, last) in enumerate(rows):
        start, end = (*map(float, a), -first), (*map(float, b), -last)
        one = move("line", start, end, dia=2 * RADIUS)
        made.append(replace(one, index=index))
    return made


def from_way(one, x, y):
    """How far points are from a cut's way, and the portion of it that is next to them."""
    way = np.subtract(one.end[:2], one.start[:2])
    long = float(way @ way)
    off = np.column_stack((x, y)) - one.start[:2]
    t = np.clip(off @ way / long, 0.0, 1.0) if long else np.zeros(len(x))
    return np.hypot(*(off - t[:, None] * way).T), t


def stands(moves, radius):
    """The most that a point within a radius rises above a tip when its cut begins, the points that
    the cut itself takes left out. Level cuts alone."""
    heights, most = np.zeros(len(X)), 0.0
    for one in moves:
        aside, _ = from_way(one, X, Y)
        beside = (aside <= radius - 0.01) & (aside > RADIUS + 0.01)
        most = max(most, float((heights[beside] - one.low).max(initial=0.0)))
        inside = aside <= RADIUS
        heights[inside] = np.minimum(heights[inside], one.low)
    return most


@settings(max_examples=40)
@given(PASSES, st.floats(3.5, 12.0))
def test_nothing_that_stands_at_any_time_is_missed(rows, radius):
    moves = cuts([(a, b, first, first) for a, b, first, _ in rows])
    found = rise(stock_of(moves, SOLID), moves, radius, 0.001)
    assert found >= stands(moves, radius) - 1e-6
    assert found <= -min(one.low for one in moves)


@settings(max_examples=40)
@given(PASSES, st.floats(3.5, 12.0))
def test_a_body_as_high_as_that_meets_nothing_and_a_little_lower_something(rows, radius):
    moves = cuts([(a, b, first, first) for a, b, first, _ in rows])
    stock = stock_of(moves, SOLID)
    high = rise(stock, moves, radius, 0.001)
    assert first_met(stock, moves, Body("holder", radius, high), 0.001) is None
    if high > 0:
        met = first_met(stock, moves, Body("holder", radius, high - 0.5), 0.001)
        assert met is not None
        assert not met[1].is_empty


@settings(max_examples=25)
@given(PASSES, st.floats(3.5, 12.0))
def test_a_body_above_all_that_rises_meets_nothing_on_sloping_ways_either(rows, radius):
    moves = cuts(rows)
    stock = stock_of(moves, SOLID)
    high = rise(stock, moves, radius, 0.001)
    assert first_met(stock, moves, Body("holder", radius, high), 0.001) is None


def test_the_first_cut_that_meets_something_is_told():
    """The second goes deeper beside what the first has left."""
    moves = cuts([((-8, 0), (8, 0), 2.0, 2.0), ((-8, 0), (8, 0), 5.0, 5.0)])
    stock = stock_of(moves, SOLID)
    assert rise(stock, moves, 4.0, 0.001) == 5.0
    for height, index in ((1.9, 0), (2.0, 1), (4.9, 1), (5.0, None)):
        met = first_met(stock, moves, Body("shank", 4.0, height), 0.001)
        assert (met and met[0].index) == index, height
