"""Drilled holes: where the tool is after one, what it is written out as, and its rounding."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from jawcam.errors import InternalError
from jawcam.motion.arcs import moves_from
from jawcam.motion.holes import BACK_OFF, pecks
from jawcam.motion.moves import ArcFeed, Drill, Dwell, LineFeed, Rapid, ToolChange
from jawcam.motion.passes import PASSES, ArcLimits, shifted
from jawcam.motion.rounding import Grid, rounded
from jawcam.units import Units

MM_3 = Grid(Units.MM, 3, 3, 0.002)
HOLE = Drill((4.0, 5.0), 3.0, 2.8, 1.5, 90)


def out(*motions):
    return list(PASSES["cycles_to_moves"](motions, ArcLimits()))


def steps(*motions):
    """Moves in short: T traverse, F feed, D dwell."""
    return [
        ("D", m.seconds) if isinstance(m, Dwell) else ("FT"[isinstance(m, Rapid)], *m.to)
        for m in motions
    ]


def test_the_first_example_of_the_report():
    # NISTIR 6556 section 3.5.16.1: from (1, 2, 3), G81 G98 X4 Y5 Z1.5 R2.8.
    assert steps(*out(Rapid((1, 2, 3)), HOLE))[1:] == [
        ("T", 4, 5, 3),
        ("T", 4, 5, 2.8),
        ("F", 4, 5, 1.5),
        ("T", 4, 5, 3),
    ]


def test_three_holes_in_a_row():
    # Section 3.5.16.1, example 2, from (1, 2, 3) after its rise to 4.8.
    holes = [Drill((x, y), 4.8, 4.8, 4.2, 90) for x, y in ((5, 7), (9, 12), (13, 17))]
    assert [steps(*out(hole)) for hole in holes] == [
        [("T", x, y, 4.8), ("T", x, y, 4.8), ("F", x, y, 4.2), ("T", x, y, 4.8)]
        for x, y in ((5, 7), (9, 12), (13, 17))
    ]
    once = rounded(out(Rapid((1, 2, 4.8)), *holes), MM_3)
    assert [kind for kind, *_ in steps(*once)] == [*"T", *"TFT" * 3]


def test_a_dwell_at_the_bottom():
    # Section 3.5.16.2.
    assert steps(*out(replace(HOLE, dwell=0.5)))[2:] == [
        ("F", 4, 5, 1.5),
        ("D", 0.5),
        ("T", 4, 5, 3),
    ]


def test_pecks():
    # Section 3.5.16.3; how far back down is "a bit" there.
    hole = Drill((0, 0), 9, 1, -9, 90, peck=4.0, dwell=0.5)
    assert BACK_OFF == 0.5
    assert steps(*out(hole)) == [
        ("T", 0, 0, 9),
        ("T", 0, 0, 1),
        ("F", 0, 0, -3),
        ("T", 0, 0, 1),
        ("T", 0, 0, -2.5),
        ("F", 0, 0, -7),
        ("T", 0, 0, 1),
        ("T", 0, 0, -6.5),
        ("F", 0, 0, -9),
        ("D", 0.5),
        ("T", 0, 0, 9),
    ]


def test_a_peck_smaller_than_the_way_back_stays_below_the_start():
    hole = Drill((0, 0), 9, 1, 0.4, 90, peck=0.2)
    assert max(m.to[2] for m in out(hole)[1:-1]) == 1


@given(st.floats(0.1, 200), st.floats(0.05, 50))
def test_pecks_reach_the_bottom_and_none_is_deeper_than_it_may_be(depth, peck):
    hole = Drill((0, 0), 5, 1, 1 - depth, 90, peck=peck)
    downs = [m.to[2] for m in out(hole) if isinstance(m, LineFeed)]
    assert len(downs) == pecks(hole)
    assert downs[-1] == hole.bottom
    for above, below in zip([1, *downs], downs, strict=False):
        assert 0 < above - below <= peck + 1e-6


@pytest.mark.parametrize("peck", [0.1, 0.3, 0.7, 1.1, 2.3])
def test_pecks_that_come_out_even_are_no_more_than_that(peck):
    for count in range(1, 40):
        assert pecks(Drill((0, 0), 5, 1, 1 - count * peck, 90, peck=peck)) == count


def test_the_tool_stands_at_clear_afterwards():
    arc = ArcFeed((2.0, 5.0, 3.0), (3.0, 5.0), True, 90)
    starts = [start for start, _ in moves_from((ToolChange(1, "a"), HOLE, arc, HOLE))]
    assert starts == [None, None, (4.0, 5.0, 3.0), (2.0, 5.0, 3.0)]


@pytest.mark.parametrize(
    ("here", "hole"),
    [
        ((0.0, 0.0, 3.1), HOLE),
        ((0.0, 0.0, 2.9), HOLE),
        ((0.0, 0.0, 3.0), replace(HOLE, start=3.1)),
        ((0.0, 0.0, 3.0), replace(HOLE, bottom=2.9)),
    ],
)
def test_holes_that_no_cycle_drills(here, hole):
    with pytest.raises(InternalError):
        list(moves_from((Rapid(here), hole)))


def test_a_hole_is_seen_from_zero():
    assert shifted((replace(HOLE, peck=2.0, dwell=1.0),), (1.0, 2.0, 3.0)) == (
        Drill((3.0, 3.0), 0.0, 2.8 - 3.0, -1.5, 90, peck=2.0, dwell=1.0),
    )


@pytest.mark.parametrize("units", Units)
def test_all_numbers_are_rounded(units):
    grid = Grid(units, 3, 3, 0.002)
    hole = Drill((1.23456, 2.34567), 5.00012, 1.00049, -2.71828, 90, peck=0.77777)
    first, done = rounded((Rapid((0, 0, 5.00012)), hole), grid)
    assert done.clear == first.to[2]
    for field in ("clear", "start", "bottom", "peck"):
        value = getattr(done, field)
        at = units.from_mm(value) * 1000
        assert at == pytest.approx(round(at), abs=1e-6)
        # A peck may grow so that no more are needed than before.
        slack = 0.5 if field != "peck" else 1.5
        assert abs(value - getattr(hole, field)) <= slack * grid.step + 1e-9
    assert math.dist(done.at, hole.at) <= 0.71 * grid.step
    assert (done.feed, done.dwell) == (90, 0.0)


@given(st.floats(0, 1), st.floats(0.5, 60), st.integers(1, 9), st.sampled_from(Units))
def test_a_rounded_hole_takes_no_more_pecks(start, depth, count, units):
    hole = Drill((0, 0), 5, start, start - depth, 90, peck=depth / count)
    assert pecks(hole) == count
    (done,) = rounded((hole,), Grid(units, 3, 3, 0.002))
    assert pecks(done) <= count
    assert abs(done.peck - hole.peck) <= 2 * units.to_mm(0.001)


def test_a_move_to_where_a_hole_has_left_the_tool_is_needless():
    there = Rapid((4.0, 5.0, 3.0))
    assert rounded((Rapid((1, 2, 3)), HOLE, there), MM_3) == (Rapid((1, 2, 3)), HOLE)
    down = Rapid((4.0, 5.0, 1.5))
    assert rounded((Rapid((1, 2, 3)), HOLE, down), MM_3)[2:] == (down,)
