"""Centring and drilling on the axis of a lathe."""

import itertools
import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from jawcam.errors import InputError, Place
from jawcam.motion.moves import Dwell, LineFeed, Rapid
from jawcam.turn.drill import AxisDrill, centre_axis, drill_axis, point_length
from jawcam.turn.trail import TurnTrail

USUAL = {"top": 0, "depth": 20, "clear": 5, "dia": 8, "feed": 0.12, "rpm": 1200}


def drilled(at=None, **more):
    trail = TurnTrail(at=at)
    drill_axis(trail, AxisDrill(**{**USUAL, **more}))
    return trail.motions


def feeds(motions):
    return [motion.to[0] for motion in motions if isinstance(motion, LineFeed)]


@pytest.mark.parametrize(("angle", "share"), [(90, 0.5), (118, 0.300430), (140, 0.181985)])
def test_the_length_of_a_point(angle, share):
    """Common practice: 0.3 of the diameter at 118 degrees."""
    assert point_length(10, angle) == pytest.approx(10 * share, abs=1e-5)


def test_a_hole_in_one_go():
    motions = drilled(point_angle=90)
    assert motions == [
        Rapid((5, 0, 0)),
        Rapid((1, 0, 0)),
        LineFeed((pytest.approx(-24), 0, 0), 0.12),
        Dwell(0.05),
        Rapid((5, 0, 0)),
    ]


@given(st.floats(1, 80), st.floats(0.5, 30), st.floats(-5, 2))
def test_pecks_come_all_the_way_out_and_go_back_in_to_half_a_millimetre(depth, peck, top):
    motions = drilled(depth=depth, peck=peck, top=top)
    down = feeds(motions)
    assert down[-1] == pytest.approx(top - depth - 4 / math.tan(math.radians(59)))
    assert max(a - b for a, b in itertools.pairwise([top, *down])) <= peck + 1e-9
    for a, b, c in zip(motions, motions[1:], motions[2:], strict=False):
        if isinstance(a, LineFeed) and isinstance(b, Rapid):
            assert b.to == (top + 1, 0, 0)
            assert c.to == (pytest.approx(min(a.to[0] + 0.5, top + 1)), 0, 0)
    assert {motion.to[1] for motion in motions if not isinstance(motion, Dwell)} == {0}


def test_beside_the_bar_the_tool_goes_out_before_it_goes_to_the_axis():
    assert drilled(at=(-10, 30))[:2] == [Rapid((5, 30, 0)), Rapid((5, 0, 0))]
    assert drilled(at=(100, 80))[0] == Rapid((5, 0, 0))


@pytest.mark.parametrize(("dia", "drill", "tip"), [(6, 6, -2.7), (20, 8, -3.6), (4, 8, -2)])
def test_a_centre_is_nine_tenths_as_wide_as_the_drill_or_as_the_centre_drill(dia, drill, tip):
    trail = TurnTrail()
    centre_axis(trail, AxisDrill(**{**USUAL, "dia": dia, "point_angle": 90}), drill)
    assert feeds(trail.motions) == [pytest.approx(tip)]
    assert trail.at == (5, 0)


def test_a_drill_that_is_too_short():
    with pytest.raises(InputError) as caught:
        drilled(point_angle=90, reach=23.5, where=Place("spindle.toml", key="setup[1].drill"))
    (one,) = caught.value.faults
    assert one.what == "the hole is 24 mm deep with its point, the drill reaches 23.5 mm"
    assert str(one.place) == "spindle.toml: setup[1].drill: Z -24 X 0 (diameter)"
    assert "24 mm" in one.mend
    assert drilled(point_angle=90, reach=24.0)
