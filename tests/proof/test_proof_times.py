"""How long moves take on a machine that speeds up and slows down, against mechanics (v^2 = u^2 +
2 a s, a = v^2 / r; any textbook)."""

import math
from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from proof_pen import GOOD, TARGET, Pen, judged, program

from jawcam.proof.prove import prove
from jawcam.proof.spent import between
from jawcam.proof.times import Drive, Leg, drive_of, seconds
from jawcam.reader.cuts import Change
from jawcam.tools.machine import Machine
from jawcam.units import Units

DRIVE = Drive(rapid=6000.0, accel=1000.0, corner=300.0, tool_change=10.0)
X, Y = (1.0, 0.0, 0.0), (0.0, 1.0, 0.0)


def leg(length, speed, begin=X, end=None, **more):
    return Leg(length, speed, begin, end or begin, **more)


def test_a_long_move_speeds_up_runs_and_slows_down():
    """200 mm at 100 mm/s with 1 m/s2: 2 s and a tenth."""
    assert seconds([leg(200.0, 100.0)], DRIVE) == pytest.approx([2.1])


def test_a_short_one_never_gets_to_its_speed():
    """Up over half of it and down again: 2 sqrt(s / a)."""
    assert seconds([leg(4.0, 100.0)], DRIVE) == pytest.approx([2 * math.sqrt(4 / 1000)])


def test_pieces_of_a_straight_move_are_run_through():
    whole = seconds([leg(200.0, 100.0)], DRIVE)[0]
    for count in (2, 7, 1000):
        assert sum(seconds([leg(200.0 / count, 100.0)] * count, DRIVE)) == pytest.approx(whole)
    stopped = seconds([leg(100.0, 100.0), leg(100.0, 100.0, rest=True)], DRIVE)
    assert sum(stopped) == pytest.approx(whole + 0.1)


def test_round_a_square_corner_it_runs_at_what_the_machine_lets_pass():
    """300 mm/min: from and to 5 mm/s."""
    times = seconds([leg(100.0, 50.0), leg(100.0, 50.0, Y)], DRIVE)
    # what speeding up from u to v takes more than its way at v: (v - u)^2 / (2 a v)
    each = 2.0 + (50 - 0) ** 2 / 2000 / 50 + (50 - 5) ** 2 / 2000 / 50
    assert times == pytest.approx([each, each])


@pytest.mark.parametrize(("degrees", "share"), [(90.0, 1.0), (60.0, math.sqrt(2)), (10.0, 8.1126)])
def test_the_blunter_the_corner_the_faster(degrees, share):
    """The jump of the velocity is 2 v sin(angle / 2): the same at each."""
    turned = (math.cos(math.radians(degrees)), math.sin(math.radians(degrees)), 0.0)
    times = seconds([leg(100.0, 50.0), leg(100.0, 50.0, turned)], DRIVE)
    passed = min(5.0 * share, 50.0)
    lost = (50**2 + (50 - passed) ** 2) / 2000 / 50
    assert times[0] == pytest.approx(2.0 + lost, rel=1e-4)


def test_an_arc_is_run_no_faster_than_its_radius_allows():
    """The root of a r: of 2.5 mm with 1 m/s2 50 mm/s; at 40 it makes no difference."""
    slow = seconds([leg(100.0, 90.0, bend=2.5)], DRIVE)
    assert slow == pytest.approx(seconds([leg(100.0, 50.0)], DRIVE))
    assert seconds([leg(9.0, 40.0, bend=2.5)], DRIVE) == seconds([leg(9.0, 40.0)], DRIVE)


def test_no_legs_take_no_time():
    assert seconds([], DRIVE) == []


LEG = st.builds(
    lambda length, speed, angle, bend: leg(
        length, speed, (math.cos(angle), math.sin(angle), 0.0), bend=bend
    ),
    st.floats(0.001, 50),
    st.floats(1, 200),
    st.floats(0, 6.28),
    st.sampled_from([math.inf, 0.5, 8.0]),
)


@given(st.lists(LEG, min_size=1, max_size=12))
def test_time_is_never_less_than_at_full_speed_and_a_better_machine_is_never_slower(legs):
    ideal = [one.length / one.speed for one in legs]
    times = np.array(seconds(legs, DRIVE))
    assert (times >= np.array(ideal) - 1e-9).all()
    for better in (replace(DRIVE, accel=3000.0), replace(DRIVE, corner=3000.0)):
        assert sum(seconds(legs, better)) <= times.sum() + 1e-9
    stopping = [replace(one, rest=True) for one in legs]
    assert sum(seconds(stopping, DRIVE)) >= times.sum() - 1e-9
    alone = [seconds([one], DRIVE)[0] for one in legs]
    assert sum(seconds(stopping, DRIVE)) == pytest.approx(sum(alone))


def test_what_the_job_doesn_t_say_of_its_machine_is_told():
    said = Machine(rapid=9000.0, accel=3000.0, corner=100.0, tool_change=4.0)
    assert drive_of(said, Units.MM) == Drive(9000.0, 3000.0, 100.0, 4.0)
    assumed = drive_of(Machine(accel=3000.0), Units.INCH).assumed
    assert len(assumed) == 2
    assert all("in/min" in word or "s for a tool change" in word for word in assumed)


# --- of whole programs --------------------------------------------------------------------------


def test_figures_add_up_by_tool_and_by_kind():
    figures = judged(GOOD, machine=Machine(accel=500.0)).figures
    (tool,) = figures.tools
    assert tool.minutes == pytest.approx(figures.minutes)
    assert figures.feed_minutes == pytest.approx(figures.feed_length / 600)
    assert figures.rapid_minutes == pytest.approx(figures.rapid_length / 10000)
    slow = judged(GOOD, machine=Machine(accel=50.0)).figures
    assert slow.ramp_minutes > figures.ramp_minutes > 0
    assert slow.feed_minutes == figures.feed_minutes


def test_a_straight_cut_between_two_stops_takes_v_over_a_more():
    pen = Pen((0.0, 0.0, 20.0)).feed(x=30.0)
    for accel in (50.0, 500.0):
        figures = judged(pen, machine=Machine(accel=accel)).figures
        assert figures.ramp_minutes * 60 == pytest.approx(10 / accel)


def test_a_circle_is_run_through_and_a_word_between_two_cuts_is_a_stop():
    """Two half circles are one; where the coolant is turned on between them the machine stops."""
    pen = Pen((11.0, 0.0, 20.0)).arc(-11.0, 0.0, (0.0, 0.0)).arc(11.0, 0.0, (0.0, 0.0))
    whole = Pen((11.0, 0.0, 20.0)).circle()
    machine = Machine(accel=100.0, corner=1.0)
    through = judged(pen, machine=machine).figures.ramp_minutes
    assert through == pytest.approx(judged(whole, machine=machine).figures.ramp_minutes)
    stop = Change("coolant", "on", pen.cuts[1].line, 1)
    halted = program(pen)
    halted = replace(halted, changes=(stop, *halted.changes))
    report = prove(halted, TARGET, machine=machine)
    assert report.figures.ramp_minutes == pytest.approx(through + 10 / 100 / 60)


def test_a_small_circle_is_run_as_slowly_as_the_machine_can_hold_it():
    """11 mm at 2 mm/s2: the root of a r is 4.69 mm/s, not 10; a helix of the same turn bends with
    r / cos^2 of its slope."""
    way, speed = math.tau * 11, math.sqrt(2.0 * 11)
    figures = judged(Pen((11.0, 0.0, 20.0)).circle(), machine=Machine(accel=2.0)).figures
    assert figures.minutes * 60 == pytest.approx(way / speed + speed / 2)
    rise = 40.0
    bend = 11 * (1 + (rise / way) ** 2)
    speed = math.sqrt(2.0 * bend)
    figures = judged(Pen((11.0, 0.0, 20.0)).circle(z=60.0), machine=Machine(accel=2.0)).figures
    assert figures.minutes * 60 == pytest.approx(math.hypot(way, rise) / speed + speed / 2)


def test_tool_changes_and_dwells_belong_to_what_is_cut_next_to_them():
    """A change to the offset that is cut next, a dwell to the one that was cut last."""
    pen = Pen((0.0, 0.0, 20.0)).feed(x=10.0).feed(x=20.0).feed(x=30.0)
    cuts = [pen.cuts[0], pen.cuts[1]._replace(work_offset=2), pen.cuts[2]._replace(work_offset=2)]
    changes = (
        Change("tool", "3", 0, 1),
        Change("dwell", "1.5 s", 1, 9),
        Change("tool", "4", 2, 1),
        Change("dwell", "3 s", 3, 9),
    )
    whole = program(cuts, changes=changes)
    drive = replace(DRIVE, tool_change=12.0)
    assert between(whole, 1, drive) == pytest.approx((0.2, 0.025))
    assert between(whole, 2, drive) == pytest.approx((0.2, 0.05))
