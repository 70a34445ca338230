"""The tests' own reader, held to the published examples first."""

from __future__ import annotations

import math

import pytest
from post_mini_reader import read


def test_the_example_of_the_report():
    # NISTIR 6556 section 3.5.3.2: at X7 Y7, this has its centre at (10, 11) and a radius of 5.
    arc = read("G21 G0 X7 Y7 Z0\nG17 G2 X10 Y16 I3 J4 Z9\n").moves[-1]
    assert arc.centre == pytest.approx((10, 11))
    assert arc.radii == pytest.approx((5, 5))
    assert math.degrees(arc.turn) == pytest.approx(-143.1301)  # worked out by hand


def test_the_cycle_of_the_report():
    # NISTIR 6556 section 3.5.16.1, example 1, from (1, 2, 3).
    moves = read("G21 G0 X1 Y2 Z3\nG90 G81 G98 X4 Y5 Z1.5 R2.8\nG80\n").moves[1:]
    assert [(move.kind, *move.end.values()) for move in moves] == [
        ("rapid", 4, 5, 3),
        ("rapid", 4, 5, 2.8),
        ("line", 4, 5, 1.5),
        ("rapid", 4, 5, 3),
    ]


@pytest.mark.parametrize(
    "block",
    [
        "G81 X4 Y5 Z1.5 R2.8",
        "G98 G81 X4 Y5 Z1.5",
        "G98 G83 X4 Y5 Z1.5 R2.8",
        "G98 G81 X4 Y5 Z1.5 R3.1",
        "G98 G81 X4 Y5 Z1.5 R2.8\nG0 Z9",
    ],
)
def test_a_cycle_that_is_not_all_there(block):
    with pytest.raises(AssertionError):
        read(f"G21 G0 X1 Y2 Z3\n{block}\n")


@pytest.mark.parametrize(
    ("unit", "ends", "start"),
    [("G21", ("10.0019", "10.0021"), "I5"), ("G20", ("1.00019", "1.00021"), "I0.5")],
)
def test_the_limit_on_the_two_radii(unit, ends, start):
    # NISTIR 6556 section 3.5.3.2: 0.002 mm or 0.0002 inch; half a turn differs by all of it.
    good, bad = (f"{unit} G0 X0 Y0\nG2 X{end} Y0 {start} J0\n" for end in ends)
    assert len(read(good).moves) == 2
    with pytest.raises(AssertionError, match=r"3\.5\.3\.2"):
        read(bad)
