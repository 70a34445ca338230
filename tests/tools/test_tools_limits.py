"""What spindle and cutter bear, and the feeds that keep within it."""

import dataclasses
import math

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from jawcam.tools.bend import FLUTED, bend, edge_in_cut
from jawcam.tools.force import group_of
from jawcam.tools.limits import Limits, first_bend
from jawcam.tools.machine import Machine
from jawcam.tools.pace import LEAST, Pace
from jawcam.tools.settle import settle, too_much
from jawcam.tools.spindle import given_at, on_curve
from jawcam.units import Units

N21 = group_of("wrought aluminium, group N21")
MILL = Limits(10, 3, 6366.2, N21.kc, N21.mc)

# --- bending ---------------------------------------------------------------------------------


def test_a_solid_bar_and_a_fluted_cutter_bend_as_worked_out():
    """REFERENCE M20, M21: 100 N at 40 mm on 10 mm of carbide, 600 GPa."""
    assert 1000 * bend(100, 40, 10, share=1) == pytest.approx(7.243, abs=1e-3)
    assert FLUTED == 0.8
    assert 1000 * bend(100, 40, 10) == pytest.approx(17.684, abs=1e-3)


def test_twice_the_length_bends_eight_times_and_twice_the_diameter_a_sixteenth():
    """REFERENCE M22."""
    assert bend(100, 80, 10) / bend(100, 40, 10) == pytest.approx(8)
    assert bend(100, 40, 20) / bend(100, 40, 10) == pytest.approx(1 / 16)


@pytest.mark.parametrize(
    ("angle", "flutes", "edges"),
    [(60, 3, 1), (120, 3, 1), (121, 3, 2), (180, 3, 2), (180, 4, 2), (181, 4, 3), (360, 2, 2)],
)
def test_straight_flutes_are_in_the_work_one_by_one(angle, flutes, edges):
    assert edge_in_cut(5, angle, 10, flutes, helix=0) == pytest.approx(5 * edges)


def test_of_a_winding_edge_no_more_is_in_the_work_than_it_climbs_there():
    # r phi / tan(helix) on the unrolled cutter: 5 x 0.6435 / tan 30 degrees
    assert edge_in_cut(50, 36.87, 10, 1) == pytest.approx(5.573, abs=1e-3)
    assert edge_in_cut(2, 90, 10, 2) == pytest.approx(2)


@given(st.floats(0.1, 40), st.floats(1, 180), st.floats(2, 20), st.integers(1, 8), st.floats(0, 50))
def test_the_most_edge_in_the_work_is_no_less_than_the_mean_and_no_more_than_all(
    depth, angle, dia, flutes, helix
):
    """The mean over a turn is depth x flutes x angle / 360, whatever the helix."""
    found = edge_in_cut(depth, angle, dia, flutes, helix)
    assert depth * flutes * angle / 360 <= found * (1 + 1e-9)
    assert found <= depth * flutes * (1 + 1e-9)
    turned = 2 * depth * math.tan(math.radians(helix)) / dia

    def sampled(first):
        """Of each flute, what lies in the work with the first one's tip at an angle."""
        turns = [first + 2 * math.pi * k / flutes for k in range(flutes * (2 + int(turned)))]
        inside = (min(t, math.radians(angle)) - max(t - turned, 0.0) for t in turns)
        return sum(max(one, 0.0) for one in inside) * depth / turned

    assume(turned > 1e-3)
    assert max(sampled(k / 10) for k in range(63)) <= found * (1 + 1e-9)


# --- power, torque, force --------------------------------------------------------------------


def test_power_and_torque_of_a_cut_are_those_worked_out():
    """REFERENCE M19: aluminium, D 10 z 3, 200 m/min, 0.06 mm, 10 deep, 1 wide."""
    specific, chip = MILL.specific(1145.92, 1)
    assert chip == pytest.approx(0.018648, rel=1e-3)
    assert specific == pytest.approx(1894.3, rel=1e-3)
    assert MILL.power_of(1145.92, 1, 10) == pytest.approx(0.3618, rel=1e-3)
    assert MILL.torque_of(1145.92, 1, 10) == pytest.approx(0.5427, rel=1e-3)


def test_the_force_is_that_of_the_edges_in_the_work():
    """kc b h of REFERENCE 2.4: one edge, as deep as it climbs within 36.87 degrees."""
    force = MILL.force(1145.92, 1, 10)
    assert force == pytest.approx(1894.3 * 5.573 * 0.018648, rel=1e-3)


def test_the_highest_feed_is_the_one_that_reaches_the_bound():
    held = dataclasses.replace(MILL, power=0.2, given="power 0.25 kW", stickout=60, bend=0.01)
    assert held.power_of(held.most_by_power(1, 10), 1, 10) == pytest.approx(0.2)
    assert held.bend_of(held.most_by_bend(1, 10), 1, 10) == pytest.approx(0.01)
    assert held.most(1, 10) == min(held.most_by_power(1, 10), held.most_by_bend(1, 10))
    assert MILL.most(1, 10) == math.inf


def test_a_spring_pass_cuts_what_bending_left():
    held = dataclasses.replace(MILL, stickout=60)
    allowed = 0.01
    assert first_bend(held, 900, 20, allowed, 0, 0.2) == allowed
    once = first_bend(held, 900, 20, allowed, 1, 0.2)
    assert once > allowed
    assert held.bend_of(900, once, 20) == pytest.approx(allowed)
    twice = first_bend(held, 900, 20, allowed, 2, 0.2)
    assert held.bend_of(900, twice, 20) == pytest.approx(once) or twice == 0.2
    stiff = dataclasses.replace(MILL, stickout=1)
    assert first_bend(stiff, 900, 20, allowed, 1, 0.2) == 0.2


def test_a_spindle_gives_the_least_of_what_is_told_of_it():
    assert given_at(Machine(), 5000) is None
    power = given_at(Machine(power=2.0), 5000)
    assert power.power == pytest.approx(1.6)  # times 0.8
    assert power.words == "power 2 kW"
    torque = given_at(Machine(power=2.0, torque=3.0, efficiency=1.0), 3000)
    assert torque.power == pytest.approx(2 * math.pi * 3000 * 3 / 60000)
    assert torque.words == "torque 3 N m"
    curve = Machine(curve=((1000, 0.5), (5000, 2.5)), efficiency=1.0)
    assert given_at(curve, 3000).power == pytest.approx(1.5)
    assert given_at(curve, 3000).words == "power 1.5 kW at 3000 rpm"


def test_a_curve_is_straight_between_its_rows_and_of_one_torque_below():
    curve = ((1000, 0.5), (3000, 2.0), (8000, 1.5))
    found = [on_curve(curve, rpm) for rpm in (500, 1000, 2000, 3000, 5500, 8000, 20000)]
    assert found == pytest.approx([0.25, 0.5, 1.25, 2.0, 1.75, 1.5, 1.5])


# --- the pace --------------------------------------------------------------------------------


def test_feeds_rise_as_chips_thin_and_fall_to_that_of_a_slot():
    pace = Pace(10, 1000, 500, full=5, thin=True)
    assert [pace.at(width) for width in (1, 2, 5, 7.5, 10)] == pytest.approx(
        [1666.67, 1250, 1000, 750, 500], abs=0.01
    )
    assert pace.at(0.01) == 2000
    assert dataclasses.replace(pace, most=1100).at(1) == 1100
    assert dataclasses.replace(pace, thin=False).at(1) == 1000


SETTLED = st.fixed_dictionaries(
    {
        "stickout": st.floats(5, 150),
        "bend": st.floats(0.001, 0.2),
        "power": st.floats(0.01, 3),
    }
)


def paced(depth=5.0, **limits):
    return Pace(
        10,
        1000,
        500,
        full=5,
        thin=True,
        depth=depth,
        limits=dataclasses.replace(MILL, given="power", **limits),
    )


@given(SETTLED, st.floats(0.05, 10), st.floats(0.05, 10))
def test_a_wider_bite_never_gets_a_higher_feed(limits, one, other):
    narrow, wide = sorted((one, other))
    pace = settle(paced(**limits), (4, 10), Units.MM).pace
    assert pace.at(wide) <= pace.at(narrow) * (1 + 1e-9)


@given(SETTLED, st.sampled_from(["stickout", "bend", "power"]), st.floats(1.01, 3), st.floats(1, 9))
def test_more_stick_out_or_less_power_or_tolerance_never_raises_a_feed(limits, key, by, width):
    worse = {**limits, key: limits[key] * by if key == "stickout" else limits[key] / by}
    before = settle(paced(**limits), (4, 10), Units.MM).pace
    after = settle(paced(**worse), (4, 10), Units.MM).pace
    assert after.at(width) <= before.at(width) * (1 + 1e-9)
    assert after.depth <= before.depth * (1 + 1e-6)


@given(SETTLED, st.sampled_from([4, 10]))
def test_what_is_settled_keeps_within_or_says_so(limits, width):
    settled = settle(paced(**limits), (4, 10), Units.MM)
    pace, bounds = settled.pace, paced(**limits).limits
    over = too_much(bounds, pace.at(width), width, pace.depth, Units.MM)
    assert not over or settled.cautions
    assert pace.at(width) >= LEAST * paced(**limits).asked(width) * (1 - 1e-9)


@given(SETTLED, st.floats(0.1, 10))
def test_a_pace_is_never_held_to_less_than_the_least(limits, width):
    pace = paced(**limits)
    assert pace.at(width) >= LEAST * pace.asked(width) * (1 - 1e-9)
    assert pace.at(width) <= pace.asked(width)
    assert pace.bears(width) == (pace.limits.most(width, pace.depth) >= LEAST * pace.asked(width))


def test_feed_goes_first_and_depth_only_when_it_has_gone_as_far_as_it_may():
    easy = settle(paced(stickout=20, bend=0.1), (4, 10), Units.MM)
    assert (easy.told, easy.cautions) == (("", ""), ())
    assert easy.pace == paced(stickout=20, bend=0.1)
    held = settle(paced(power=0.4), (4, 10), Units.MM)
    assert held.pace.depth == 5
    assert held.pace.at(4) < 1020
    assert MILL.power_of(held.pace.at(4), 4, 5) == pytest.approx(0.4)
    assert held.told[0].startswith("feed held to ")
    assert held.told[1].startswith("full width held to ")
    long = settle(paced(stickout=90, bend=0.03), (4, 10), Units.MM)
    assert long.pace.at(4) == pytest.approx(0.3 * paced().asked(4))
    assert long.pace.depth < 5
    assert "deep at a time: 0.03 mm bend at 90 mm stick-out" in long.told[0]


def test_a_wall_is_stepped_only_where_that_does():
    """Two of its three flutes are in a wall 20 mm high at a time, and one in a third of that: 0.2
    mm of stock engage 21 of the 120 degrees between them, and the edge winds by 221."""
    cut = {"shallowest": 20 / 3, "what": "wall"}
    slender = dataclasses.replace(MILL, dia=6, rpm=8000, stickout=26)

    def wall(bend):
        limits = dataclasses.replace(slender, bend=bend)
        pace = Pace(6, 1219, 610, full=0.3, depth=20.0, limits=limits)
        return settle(pace, (0.2,), Units.MM, **cut)

    least = LEAST * 1219
    both, one = (slender.bend_of(least, 0.2, depth) for depth in (20.0, 20 / 3))
    assert both > 1.3 * one
    stepped = wall((both + one) / 2)
    assert 20 / 3 <= stepped.pace.depth < 20
    assert "mm deep at a time" in stepped.told[0]
    assert stepped.cautions == ()
    hopeless = wall(one / 2)
    assert hopeless.pace.depth == 20
    assert hopeless.told == ("wall held to 366 mm/min, the least",)
    (caution,) = hopeless.cautions
    assert "20 mm deep, comes to" in caution


def test_numbers_of_the_job_stand_and_what_they_exceed_is_told():
    pace = paced(power=0.1, stickout=90, bend=0.03)
    own = settle(pace, (4, 10), Units.MM, own_feed=True)
    assert own.pace.at(4) == pace.asked(4)
    assert own.told == ("", "")
    assert len(own.cautions) == 2
    assert "kW" in own.cautions[0]
    assert "bend at 90 mm stick-out, more than 0.03 mm" in own.cautions[0]
    deep = settle(pace, (4, 10), Units.MM, own_depth=True)
    assert deep.pace.depth == pace.depth
    assert deep.cautions


def test_figures_come_in_the_units_of_the_job():
    said = settle(paced(stickout=60, bend=0.03), (4, 10), Units.INCH).told[0]
    assert "in/min" in said
    assert "bend at 2.3622 in stick-out" in said
    assert " mm" not in said
