"""What a lathe's dialect can't say, and what belongs to the other kind of machine."""

from __future__ import annotations

from dataclasses import replace

import pytest
from lathe_cases import EVERY_KIND
from post_cases import EVERY_KIND as EVERY_MILLING
from post_cases import LATHES, MILLS, load

from jawcam.errors import InputError
from jawcam.motion.moves import (
    ArcFeed,
    Compensate,
    Coolant,
    Drill,
    FeedPer,
    LineFeed,
    Rapid,
    Spindle,
    SurfaceSpeed,
    ThreadCut,
    ToolChange,
    WorkOffset,
)
from jawcam.post.fields import PerUnit
from jawcam.post.write import write
from jawcam.units import Units

NIST, ISO = load("rs274ngc-lathe"), load("iso6983-lathe")
HERE = Rapid((5.0, 10.0, 0))
TURNING = Spindle(900)


def refused(dialect, *motions, units=Units.MM):
    with pytest.raises(InputError) as caught:
        write(motions, dialect, units=units)
    assert all(fault.mend for fault in caught.value.faults)
    return {fault.what: fault for fault in caught.value.faults}


def only(dialect, *motions, units=Units.MM):
    (fault,) = refused(dialect, *motions, units=units).values()
    return fault


@pytest.mark.parametrize("name", MILLS)
@pytest.mark.parametrize(
    ("motion", "word"),
    [
        (SurfaceSpeed(100, 2000), "constant surface speed"),
        (FeedPer("turn"), "count by the turn"),
        (FeedPer("minute"), "count by the minute"),
        (ThreadCut((-9.0, 5.0, 0), 1.5), "threads"),
    ],
)
def test_a_mill_takes_no_turning(name, motion, word):
    fault = only(load(name), motion)
    assert word in fault.what
    assert "mill's" in fault.what
    assert "lathe" in fault.mend
    assert len(refused(load(name), *EVERY_KIND)) == 4


@pytest.mark.parametrize("name", LATHES)
def test_a_lathe_takes_no_milling(name):
    dialect = load(name)
    assert "hole" in only(dialect, Drill((0.0, 0.0), 5.0, 1.0, -3.0, 90)).what
    for move in (Rapid((1, 2, 3)), LineFeed((1, 2, -0.1), 0.1)):
        fault = only(dialect, move)
        assert "third axis" in fault.what
        assert fault.place.at.startswith("X 4 Z 1")
    assert "third axis" in only(dialect, HERE, ArcFeed((5, 10, 1), (6, 10), True, 0.1)).what
    assert len(refused(dialect, *EVERY_MILLING)) == 2


@pytest.mark.parametrize("clamp", [0, -5, 0.4, float("nan")])
def test_constant_surface_speed_needs_its_clamp(clamp):
    whats = refused(NIST, SurfaceSpeed(100, clamp))
    assert any("without the highest rpm" in what for what in whats)


def test_speeds_above_the_largest_of_the_post():
    slow = replace(NIST, spindle=replace(NIST.spindle, largest=2000))
    assert "a speed of 2001 rpm is more than" in only(slow, Spindle(2001)).what
    assert "a clamp of 2001 rpm is more than" in only(slow, SurfaceSpeed(90, 2001)).what
    assert write((Spindle(2000), SurfaceSpeed(90, 2000)), slow, units=Units.MM)


def test_words_that_a_dialect_lacks():
    spindle = replace(NIST.spindle, surface="", clamp="", ccw="")
    poor = replace(
        NIST,
        spindle=spindle,
        feed=replace(NIST.feed, per_minute=""),
        thread=replace(NIST.thread, word=""),
        compensation=replace(NIST.compensation, left=""),
        coolant=replace(NIST.coolant, mist=""),
    )
    whats = refused(
        poor,
        HERE,
        SurfaceSpeed(90, 900),
        Spindle(900, clockwise=False),
        FeedPer("minute"),
        LineFeed((4, 10, 0), 90),
        ThreadCut((-5, 10, 0), 1.5),
        Compensate("left"),
        Coolant("mist"),
        WorkOffset(12),
    )
    for part in (
        "no words for constant surface speed",
        "counter-clockwise start",
        "no word for feeds per minute",
        "no word for a pass of a thread",
        "compensation left",
        "coolant 'mist'",
        "no work offset 12",
    ):
        assert any(part in what for what in whats), part
    assert len(whats) == 7
    per_minute = replace(NIST, feed=replace(NIST.feed, per_turn=""))
    assert "feeds per turn" in only(per_minute, HERE, LineFeed((4, 10, 0), 0.1)).what


@pytest.mark.parametrize("lead", [0, -1.5, 0.0004, 25.4 / 11])
def test_a_lead_too_fine_for_the_decimals(lead):
    """11 threads to the inch are 2.30909... mm: three decimals are 4 parts in 100000 off, two 4 in
    10000."""
    coarse = replace(NIST, numbers=replace(NIST.numbers, lead_decimals=PerUnit(2, 3)))
    fault = only(coarse, TURNING, HERE, ThreadCut((-5, 10, 0), lead))
    assert "can't be written in 2 decimals" in fault.what
    assert fault.place.at == "X 20 Z -5"


@pytest.mark.parametrize("name", LATHES)
@pytest.mark.parametrize("units", Units)
def test_the_leads_of_standard_threads_can_be_written(name, units):
    """Pitches of ISO 261 and threads to the inch of ASME B1.1."""
    metric = [0.25, 0.35, 0.4, 0.5, 0.7, 0.75, 0.8, 1, 1.25, 1.5, 1.75, 2, 2.5, 3, 3.5, 4, 6]
    inch = [80, 72, 64, 56, 48, 44, 40, 36, 32, 28, 24, 20, 18, 16, 14, 13, 12, 11, 10, 9, 8, 4.5]
    for lead in (*metric, *(25.4 / threads for threads in inch)):
        assert write((TURNING, HERE, ThreadCut((-5, 10, 0), lead)), load(name), units=units)


def test_a_thread_needs_a_steady_speed_and_a_way_along_z():
    thread = ThreadCut((-5, 10, 0), 1.5)
    assert "constant surface speed" in only(NIST, SurfaceSpeed(90, 900), HERE, thread).what
    assert write((SurfaceSpeed(90, 900), HERE, TURNING, thread), NIST, units=Units.MM)
    across = ThreadCut((5.0, 3.0, 0), 1.5)
    assert "doesn't run along Z" in only(NIST, TURNING, HERE, across).what


def test_numbers_that_would_be_written_as_nothing():
    assert "/turn would be written as 0" in only(NIST, HERE, LineFeed((4, 9, 0), 0.0004)).what
    slow = (HERE, FeedPer("minute"), LineFeed((4, 9, 0), 0.4))
    assert "/min would be written as 0" in only(NIST, *slow).what
    assert write((HERE, LineFeed((4, 9, 0), 0.4)), NIST, units=Units.MM)
    assert "surface speed of 0.2" in only(NIST, SurfaceSpeed(0.2, 900)).what


def test_x_counts_twice_for_the_largest_coordinate():
    assert "beyond the largest" in only(NIST, Rapid((0, 5000, 0))).what
    radius = replace(NIST, lathe=replace(NIST.lathe, x="radius"))
    assert write((Rapid((0, 5000, 0)),), radius, units=Units.MM)


def test_work_beyond_the_tool_change_position():
    """Then the way there would lead through the work. It is X 200 Z 150, or X 8 Z 6 inches."""
    assert "X 200" in only(ISO, Rapid((0.0, 100.1, 0))).what
    assert "Z 150" in only(ISO, Rapid((150.1, 10.0, 0))).what
    assert "Z 6" in only(ISO, Rapid((152.5, 10.0, 0)), units=Units.INCH).what
    assert write((Rapid((150, 100, 0)),), ISO, units=Units.MM)
    assert write((Rapid((150.1, 100.1, 0)),), NIST, units=Units.MM)


@pytest.mark.parametrize("change", [ToolChange(100, "a"), ToolChange(0, "a")])
def test_a_tool_number_that_does_not_fit(change):
    assert "the largest is 99" in only(ISO, change).what


@pytest.mark.parametrize("offset", [100, -1])
def test_a_tool_offset_that_does_not_fit(offset):
    assert "tool offset" in only(ISO, ToolChange(3, "a", offset)).what
