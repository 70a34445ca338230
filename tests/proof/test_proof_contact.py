"""Where a rapid first meets uncut material, by plane geometry."""

import math

import pytest
from proof_pen import Pen, disc_pocket, judged


def contact(pen, code="P501"):
    """Of the first rapid that meets any: the point, and its line."""
    first = next(f for f in judged(pen).findings if f.code == code)
    return (first.x, first.y, first.z), first.line


def test_square_on_at_a_wall_it_is_the_wall_s_nearest_point():
    """From outside the blanks, which end at X 40."""
    at, line = contact(Pen().rapid(50.0, 15.0).rapid(z=-2.0).rapid(x=-50.0))
    assert at == pytest.approx((40.0, 15.0, -2.0), abs=0.02)
    assert line == 3


@pytest.mark.parametrize("slope", [0.5, 2.0])
def test_slanting_at_a_wall_it_is_square_to_the_wall(slope):
    """The disc of 4 mm touches the line X 40 where its middle is 4 mm off."""
    start = (50.0, 15.0)
    end = (30.0, 15.0 + 20.0 * slope * 0.2)
    at, _ = contact(Pen().rapid(*start).rapid(z=-2.0).rapid(*end))
    share = (50.0 - 44.0) / (50.0 - 30.0)
    assert at == pytest.approx((40.0, 15.0 + share * (end[1] - 15.0), -2.0), abs=0.1)


def test_past_a_corner_it_is_the_corner():
    """The blank's corner at X 40, Y 33, 2 mm aside of the way."""
    at, _ = contact(Pen().rapid(50.0, 35.0).rapid(z=-2.0).rapid(x=-50.0))
    assert at == pytest.approx((40.0, 33.0, -2.0), abs=0.02)


def test_on_a_slope_it_is_told_how_high_the_tip_is_then():
    """Falling evenly from 0 at X 60 to -10 at X 20; the edge at X 40 is met at X 44."""
    at, _ = contact(Pen().rapid(60.0, 15.0).rapid(z=0.0).rapid(20.0, 15.0, -10.0))
    assert at == pytest.approx((40.0, 15.0, -4.0), abs=0.03)


def test_straight_down_it_is_the_top_of_what_stands_there():
    at, _ = contact(Pen().rapid(30.0, 15.0).rapid(z=-5.0))
    assert at == pytest.approx((30.0, 15.0, 0.0), abs=0.02)
    pen = disc_pocket()
    at, _ = contact(pen.rapid(3.0, 0.0).rapid(z=-7.0))
    assert at == pytest.approx((3.0, 0.0, -6.0), abs=0.02)


def test_out_of_a_pocket_it_is_the_pocket_s_wall():
    """Across the disc of 15.05 mm, 5 mm above its middle: the wall is met where a circle of the
    difference of both radii is left."""
    pen = disc_pocket()
    pen.rapid(0.0, 6.0).rapid(z=-3.0).rapid(x=30.0)
    at, _ = contact(pen)
    middle = math.sqrt((15.05 - 4) ** 2 - 36)
    away = math.hypot(middle, 6.0)
    want = (middle * 15.05 / away, 6.0 * 15.05 / away, -3.0)
    assert at == pytest.approx(want, abs=0.3)
