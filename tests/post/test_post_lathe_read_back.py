"""Random turning, written and read back by the reader, which shares no code with the posts."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from post_cases import LATHES, load

from jawcam.motion.moves import (
    ArcFeed,
    Begin,
    Dwell,
    End,
    FeedPer,
    LineFeed,
    Rapid,
    Spindle,
    SurfaceSpeed,
    ThreadCut,
    ToolChange,
)
from jawcam.post.write import write
from jawcam.reader.controls import CONTROLS
from jawcam.reader.read import read
from jawcam.units import Units

SHIPPED = [load(name) for name in LATHES]
OTHERWISE = [
    replace(
        dialect,
        control=f"{dialect.control}{'-front' * front}{'-radius' * radius}",
        lathe=replace(
            dialect.lathe,
            x="radius" if radius else "diameter",
            turret="front" if front else "rear",
        ),
    )
    for dialect in SHIPPED
    for front, radius in ((False, True), (True, False), (True, True))
]
Z, X = st.floats(-80, 5), st.floats(0, 40)
FEEDS = st.sampled_from([0.05, 0.12, 0.3])


@st.composite
def jobs(draw):
    """Motions that follow one another, with what is in force at each cut: (motion, per turn,
    surface speed, rpm)."""
    motions, told = [Begin("job"), ToolChange(1, "turning")], []
    by, surface, rpm, here = "turn", 0.0, 0.0, None
    for _ in range(draw(st.integers(1, 14))):
        kinds = ["rapid", "line", "arc", "arc", "thread", "box", "box", "state", "state"]
        kind = draw(st.sampled_from(kinds))
        to = (draw(Z), draw(X), 0.0)
        if kind == "state":
            motions.append(draw(st.sampled_from(STATES)))
            match motions[-1]:
                case FeedPer(unit):
                    by = unit
                case SurfaceSpeed(speed):
                    surface, rpm = speed, 0.0
                case Spindle(speed):
                    surface, rpm = 0.0, speed
            continue
        steady = bool(rpm) and here is not None and abs(to[0] - here[0]) > 0.01
        for motion in moves(draw, kind, here, to, by, steady=steady):
            motions.append(motion)
            told.append((motion, by == "turn", surface, rpm))
            here = motion.to
    return tuple(motions), told


def moves(draw, kind, here, to, by, *, steady):
    """The next move of a kind, or the four of a box; steady: threads can be cut to there."""
    if here is None:
        return (Rapid(to),)
    if kind == "box" and steady:
        return box(here, to, draw(st.sampled_from([0.0, 0.5])), draw(Z))
    if kind == "thread" and steady:
        return (ThreadCut(to, draw(st.sampled_from([0.5, 1.5, 25.4 / 11, 25.4 / 13]))),)
    feed = feed_of(by, draw(FEEDS))
    if kind == "arc" and math.dist(to, here) > 1e-3:
        arc = bowed(here, to, draw(st.sampled_from([0.1, 1.0, -0.7])), draw(st.booleans()))
        return (replace(arc, feed=feed),)
    return (Rapid(to) if kind in ("rapid", "box") else LineFeed(to, feed),)


STATES = (
    FeedPer("minute"),
    FeedPer("turn"),
    SurfaceSpeed(150, 3000),
    Spindle(1200),
    Spindle(700, clockwise=False),
    Dwell(0.5),
)


def feed_of(by, feed):
    return feed if by == "turn" else 1000 * feed


def box(here, to, taper, back):
    """Four moves that a thread cycle says, if the next begins on the right side."""
    return (
        Rapid((here[0], to[1], 0.0)),
        ThreadCut((to[0], to[1] + taper, 0.0), 1.5),
        Rapid((to[0], here[1], 0.0)),
        Rapid((back, here[1], 0.0)),
    )


def bowed(here, to, bow, ccw):
    """An arc whose centre lies across the chord, 1 / bow times its half away."""
    middle = ((to[0] + here[0]) / 2, (to[1] + here[1]) / 2)
    across = (-(to[1] - here[1]) / 2 / bow, (to[0] - here[0]) / 2 / bow)
    return ArcFeed(to, (middle[0] + across[0], middle[1] + across[1]), ccw, 0.1)


def turn_of(start, arc):
    (cz, cx), (sz, sx, _), (ez, ex, _) = arc.centre, start, arc.to
    turn = (math.atan2(ex - cx, ez - cz) - math.atan2(sx - cx, sz - cz)) % math.tau
    return turn if arc.ccw else turn - math.tau


def check(motions, told, dialect, units):
    program = read(write((*motions, End()), dialect, units=units), dialect.control)
    assert program.faults == ()
    # Where no move was planned, the tool goes to the place of its change and there once more.
    assert not told or all(cut.start != cut.end for cut in program.cuts)
    step = units.in_mm * 10.0 ** -dialect.numbers.decimals.of(units)
    x_step = step if dialect.lathe.x == "radius" else step / 2
    cuts, start, spare = iter(program.cuts), None, 3  # to the tool change and in from there
    cycles = dialect.thread.form == "cycle"
    # A cycle says where it begins by the radius that it grows by, in steps of a radius.
    taper = step / 2 if cycles else 0.0
    for at, (motion, *state) in enumerate(told):
        z, x, _ = motion.to
        before = [type(one) for one, *_ in told[max(at - 2, 0) : at]]
        # It goes back to where it began, from where the next may lie farther along.
        spare += cycles and before == [ThreadCut, Rapid]
        across = x_step / 2 + 1e-9
        if told[at + 1 : at + 2] and isinstance(told[at + 1][0], ThreadCut):
            across += taper
        if start is not None and math.dist(start, motion.to) < 2 * step:
            spare, start = spare + 1, motion.to  # it may have become nothing
            continue
        took = []
        for cut in cuts:
            took.append(cut)
            near = abs(cut.end[0] - x) <= across
            if near and abs(cut.end[2] - z) <= step / 2 + 1e-9:
                break
        else:
            raise AssertionError(motion)
        if isinstance(motion, ArcFeed):
            turn = turn_of(start, motion)
            if abs(turn) > 0.2 and math.dist(start[:2], motion.centre) > 50 * step:
                assert sum(cut.turn for cut in took) == pytest.approx(turn, abs=0.05)
        else:
            assert len(took) <= 1 + spare
        told_alike(took[-1], motion, *state)
        start, spare = motion.to, 0


def told_alike(cut, motion, per_turn, surface, rpm):
    """Whether the last of a motion's cuts says what was in force."""
    kind = {Rapid: "rapid", LineFeed: "line", ThreadCut: "line"}.get(type(motion), cut.kind)
    assert cut.kind == kind
    assert cut.surface == pytest.approx(surface, abs=0.16)
    assert (cut.rpm, cut.spindle != "off") == (rpm, bool(rpm or surface))
    assert cut.clamp == 3000 or not surface
    if isinstance(motion, ThreadCut):
        assert cut.lead == pytest.approx(motion.lead, rel=1e-4)
    elif not isinstance(motion, Rapid):
        assert cut.per_turn == per_turn
        # 0.05 mm is 0.002 inch less 1.6 %; four decimals.
        assert cut.feed == pytest.approx(motion.feed, rel=0.03)
        assert cut.lead == 0


@settings(max_examples=120, deadline=None)
@given(jobs(), st.sampled_from(SHIPPED), st.sampled_from(Units))
def test_any_turning_is_read_as_it_was_planned(job, dialect, units):
    check(*job, dialect, units)


@settings(max_examples=60, deadline=None)
@given(jobs(), st.sampled_from(OTHERWISE), st.sampled_from(Units))
def test_the_same_in_radii_and_from_a_front_turret(job, dialect, units):
    check(*job, dialect, units)


def test_each_way_to_see_a_lathe_has_its_control():
    assert {dialect.control for dialect in (*SHIPPED, *OTHERWISE)} == {
        name for name, row in CONTROLS.items() if row.axes == "XZ"
    }
