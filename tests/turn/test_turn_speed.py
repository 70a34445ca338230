"""How fast the spindle turns along a cut: no jump where a cut begins, or where the diameter runs
out."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from jawcam.motion.moves import Dwell, LineFeed, Rapid, Spindle, SurfaceSpeed
from jawcam.turn.speed import fixed, held_from, started, turns_per_minute

CUT = [Rapid((3, 18, 0)), Rapid((3, 10, 0)), LineFeed((-5, 10, 0), 0.2), Rapid((3, 18, 0))]


def test_the_diameter_at_which_the_clamp_is_reached():
    """D = 1000 vc / (pi n): 200 m/min and 2500 rpm meet on 25.4648 mm."""
    assert 2 * held_from(SurfaceSpeed(200, 2500)) == pytest.approx(25.4648, abs=1e-4)
    assert held_from(Spindle(800)) is None


@given(st.floats(10, 800), st.floats(100, 6000))
def test_there_the_surface_speed_and_the_fixed_one_are_the_same(surface, clamp):
    speed = SurfaceSpeed(surface, clamp)
    radius = held_from(speed)
    outside = turns_per_minute(speed, radius * 1.000001)
    assert outside == pytest.approx(turns_per_minute(fixed(speed), radius), rel=1e-5)
    assert outside == pytest.approx(1000 * surface / (math.tau * radius), rel=1e-5)


@pytest.mark.parametrize("clockwise", [True, False])
def test_a_cut_begins_at_the_speed_that_it_goes_on_with(clockwise):
    """100 m/min on 20 mm: 1591.5 rpm. Rapids come first; nothing else of the cut changes."""
    speed = SurfaceSpeed(100, 2500, clockwise)
    first, *rest = started(CUT, speed)
    assert first == Spindle(round(100_000 / (20 * math.pi)), clockwise)
    assert rest == [*CUT[:2], speed, *CUT[2:]]


def test_a_cut_that_begins_below_the_clamp_s_diameter_begins_at_the_clamp():
    first, *_ = started([Rapid((3, 1, 0)), LineFeed((-5, 1, 0), 0.2)], SurfaceSpeed(100, 2500))
    assert first == Spindle(2500)


def test_a_fixed_speed_is_told_at_once_and_so_is_one_that_nobody_comes_to():
    assert list(started(CUT, Spindle(800))) == [Spindle(800), *CUT]
    assert list(started([Dwell(1)], SurfaceSpeed(100, 2500))) == [
        SurfaceSpeed(100, 2500),
        Dwell(1),
    ]
