"""The tests' own reader, held to the published examples first."""

from __future__ import annotations

import math

import pytest
from post_mini_reader import read
from post_styles import STYLES


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


EIA, TAPE = STYLES["eia274d-mill"], STYLES["eia274d-tape"]


@pytest.mark.parametrize(
    ("style", "inch", "text", "value"),
    [
        (EIA, False, "15", 0.015),
        (EIA, False, "-15000", -15),
        (EIA, True, "15000", 1.5),
        (TAPE, False, "+0015", 15),
        (TAPE, False, "-0000015", -0.015),
        (TAPE, True, "+0015", 1.5),
        (TAPE, True, "+0", 0),
    ],
)
def test_numbers_without_points(style, inch, text, value):
    # Worked out by hand: four digits left of the point and three right of it, in inches 3 and 4.
    assert style.value("X", text, inch=inch) == value


@pytest.mark.parametrize(
    ("style", "text"),
    [(EIA, "1.5"), (EIA, "12345678"), (EIA, "015"), (TAPE, "+00150"), (TAPE, "12345678")],
)
def test_numbers_that_break_their_format(style, text):
    with pytest.raises(AssertionError):
        style.value("X", text, inch=False)


def test_an_arc_of_one_quadrant():
    # From (10, 0) round (0, 0) to (6, 8), a 3-4-5 triangle.
    head = "N1G71$\nN2G00X+001Y+0$\n"
    arc = read(f"{head}N3G03X+0006Y+0008I001J0$\n", style=TAPE).moves[-1]
    assert arc.centre == pytest.approx((0, 0))
    assert arc.turn == pytest.approx(math.atan2(8, 6))
    with pytest.raises(AssertionError, match="one quadrant"):
        read(f"{head}N3G03X-0006Y+0008I001J0$\n", style=TAPE)
