"""Arcs. Expected: NISTIR 6556 section 3.5.3 where not said otherwise."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest
from reader_help import ISO, blocks, clean, codes, faults

from jawcam.reader.controls import CONTROLS
from jawcam.reader.read import read_as

DEGREE = math.pi / 180


def test_radii_may_differ_by_two_micrometres_in_mm():
    """Section 3.5.3.2: an error above 0.002 mm. From X0 Y0 round X5 Y0 the radius is 5."""
    assert codes("G21 G2 X10.0019 I5 J0 F10") == []
    assert faults("G21 G2 X10.0021 I5 J0 F10") == [("R204", "1:17")]
    assert codes("G2 X9.9981 I5 J0 F10") == []
    assert codes("G2 X9.9979 I5 J0 F10") == ["R204"]


def test_radii_may_differ_by_two_tenths_of_a_thou_in_inch():
    """Section 3.5.3.2: an error above 0.0002 inch."""
    assert codes("G20 G2 X1.00019 I.5 J0 F1") == []
    assert codes("G20 G2 X1.00021 I.5 J0 F1") == ["R204"]


def test_radii_on_the_limit_itself_are_accepted():
    """Section 3.5.3.2: "more than"."""
    assert codes("G2 X10.002 I5 J0 F10", "G20 G2 X[10.002/25.4+1.0002] I.5 F1") == []


def test_the_other_kind_allows_more():
    """Common practice, no source: 0.005 mm and 0.0005 inch."""
    assert codes("G71 G2 X10.0049 I5. J0 F10", control=ISO) == []
    assert codes("G71 G2 X10.0051 I5. J0 F10", control=ISO) == ["R204"]
    assert codes("G70 G2 X1.00049 I.5 J0 F10", control=ISO) == []
    assert codes("G70 G2 X1.00051 I.5 J0 F10", control=ISO) == ["R204"]


def test_the_message_gives_both_radii_in_the_units_of_the_program():
    assert "5 at its start and 5.0021 at its end" in blocks("G2 X10.0021 I5 F1").faults[0].what
    inch = blocks("G20 G2 X1.00021 I.5 F1").faults[0].what
    assert "0.5 at its start and 0.50021 at its end" in inch


def test_after_a_refused_arc_the_tip_is_at_its_end():
    """Ours: else the next arc would be refused too."""
    program = blocks("G2 X11 I5 F100", "G1 X20")
    assert [cut.kind for cut in program.cuts] == ["line"]
    assert program.cuts[0].start == (11, 0, 0)


@pytest.mark.parametrize("distance", ["G90", "G91"])
def test_the_centre_is_an_increment_in_both_distance_modes(distance):
    """Section 3.5.17: I, J and K always are."""
    end = "X10 Y16" if distance == "G90" else "X3 Y9"
    cut = clean(f"{distance} G2 {end} I3 J4 F10", start=(7, 7, 0)).cuts[0]
    assert cut.centre == (10, 11)
    assert cut.end == (10, 16, 0)


def test_the_example_of_the_report():
    """Section 3.5.3.2, from X7 Y7: radius 5 about X10 Y11. Sweep and lengths worked out."""
    cut = clean("G17 G2 X10 Y16 I3 J4 Z9 F10", start=(7, 7, 0)).cuts[0]
    assert cut.kind == "arc"
    assert cut.centre == (10, 11)
    assert math.dist(cut.start[:2], cut.centre) == 5
    assert cut.turn / DEGREE == pytest.approx(-143.1301, abs=1e-4)
    assert abs(cut.turn) * 5 == pytest.approx(12.4905, abs=1e-4)
    assert math.hypot(cut.turn * 5, 9) == pytest.approx(15.3952, abs=1e-4)


def test_the_sign_of_r_tells_the_smaller_arc_from_the_greater():
    """Section 3.5.3.1. A chord of 6 at radius 5: the centre lies 4 beside its middle."""
    small = clean("G3 X6 R5 F10").cuts[0]
    great = clean("G3 X6 R-5 F10").cuts[0]
    assert small.centre == pytest.approx((3, 4))
    assert great.centre == pytest.approx((3, -4))
    half = 2 * math.asin(0.6)
    assert small.turn == pytest.approx(half)
    assert great.turn == pytest.approx(2 * math.pi - half)
    clockwise = clean("G2 X6 R5 F10", "G2 X0 R-5").cuts
    assert clockwise[0].centre == pytest.approx((3, -4))
    assert clockwise[0].turn == pytest.approx(-half)
    assert clockwise[1].centre == pytest.approx((3, -4))
    assert clockwise[1].turn == pytest.approx(half - 2 * math.pi)


def test_a_half_turn_by_its_radius():
    """Section 3.5.3.1: allowed, if not advised."""
    cut = clean("G3 X10 R5 F10").cuts[0]
    assert cut.centre == pytest.approx((5, 0))
    assert cut.turn == pytest.approx(math.pi)
    assert codes("G3 X10 R4.9981 F10") == []
    assert faults("G3 X10 R4.9979 F10") == [("R206", "1:8")]


def test_an_arc_by_its_radius_needs_another_end_point():
    """Section 3.5.3.1: errors."""
    assert faults("G3 X0 Y0 R5 F10") == [("R205", "1:10")]
    assert faults("G3 Z1 R5 F10") == [("R203", "1:1")]
    assert codes("G3 R5 F10") == ["R201"]


def test_a_full_circle_by_its_centre():
    """Section 3.5.3.2: its end is its start, and one axis word of the plane must be there."""
    assert clean("G3 X0 I5 F10").cuts[0].turn == pytest.approx(2 * math.pi)
    assert clean("G2 Y0 J-5 F10").cuts[0].turn == pytest.approx(-2 * math.pi)
    assert faults("G3 I5 F10") == [("R203", "1:1")]
    assert faults("G3 Z1 I5 F10") == [("R203", "1:1")]


def test_a_full_circle_after_sums_that_do_not_come_out_even():
    """0.1 + 0.2 is not 0.3 to a computer, but it is to a control."""
    assert clean("G91 G0 X0.1", "X0.2", "G90 G3 X0.3 I5 F10").cuts[2].turn == 2 * math.pi


def test_the_other_kind_takes_a_full_circle_without_axis_words():
    """Common practice, no source."""
    program = clean("G3 I-5. F10", "Z-1. I-5.", control=ISO, start=(5, 0, 0))
    assert [cut.turn for cut in program.cuts] == [2 * math.pi] * 2
    assert program.cuts[1].end == (5, 0, -1)


def test_an_end_just_short_of_the_start_is_nearly_a_full_turn():
    """The rule seen from its dangerous side: by a rounded end, a dot becomes a whole turn."""
    dot, turn = clean("G3 X10 Y0.001 I-5 F1", "G3 X10 Y0 I-5 J-0.001", start=(10, 0, 0)).cuts
    assert dot.turn == pytest.approx(0.0002)
    assert turn.turn == pytest.approx(2 * math.pi - 0.0002)


def test_an_end_beside_the_start_on_one_ray_is_a_full_turn():
    """Section 4.3.6.1: a turn is above 0 and up to 360 degrees."""
    cuts = clean("G2 X0.001 I-5 F1", "G3 X0 I-5").cuts
    assert [cut.turn for cut in cuts] == [-2 * math.pi, 2 * math.pi]


def test_arcs_without_centre_or_end():
    """Section 3.5.3.2: errors."""
    assert faults("G2 X10 F10") == [("R203", "1:1")]
    assert faults("G2 F10") == [("R201", "1:1")]
    assert faults("G1 X1 F10", "G2 X5 I2", "X9") == [("R203", "3:1")]


def test_an_arc_without_radius():
    """Ours: its centre is its start."""
    assert faults("G2 X0 Y0 I0 J0 F10") == [("R205", "1:10")]


def test_one_centre_word_is_enough():
    """Section 3.5.3.2: the other is 0."""
    assert clean("G2 X10 I5 F10").cuts[0].centre == (5, 0)
    assert clean("G2 Y10 J5 F10").cuts[0].centre == (0, 5)


def test_centre_and_radius_together_or_a_centre_off_the_plane():
    """Ours: each word must have its use."""
    assert faults("G2 X10 I5 R5 F10") == [("R207", "1:11")]
    assert faults("G2 X10 I5 K1 F10") == [("R306", "1:11")]


def test_a_helix_is_an_arc_with_its_third_axis():
    """Section 3.5.3.2."""
    cut = clean("G3 X0 Y10 Z-2 I-10 F100", start=(10, 0, 0)).cuts[0]
    assert (cut.end, cut.centre) == ((0, 10, -2), (0, 0))
    assert cut.turn == pytest.approx(math.pi / 2)


def test_inverse_time_counts_along_the_helix():
    """Sections 2.1.2.6 and 3.5.19: a quarter of radius 10 that falls 2 is the hypotenuse of
    5 pi and 2 long, worked out by hand; F4 takes a quarter of a minute for it."""
    cut = clean("G93 G3 X0 Y10 Z-2 I-10 F4", start=(10, 0, 0)).cuts[0]
    assert cut.feed == pytest.approx(4 * math.hypot(5 * math.pi, 2))


@pytest.mark.parametrize(
    ("plane", "words", "start", "end", "centre", "name"),
    [
        ("G17", "X0 Y10 I-10", (10, 0, 5), (0, 10, 5), (0, 0), "XY"),
        ("G18", "Z0 X10 K-10", (0, 5, 10), (10, 5, 0), (0, 0), "XZ"),
        ("G19", "Y0 Z10 J-10", (5, 10, 0), (5, 0, 10), (0, 0), "YZ"),
    ],
)
def test_counter_clockwise_in_each_plane(plane, words, start, end, centre, name):
    """Section 4.3.6.1: seen from the plane's positive third axis; XZ is Z, then X."""
    cut = clean(f"{plane} G3 {words} F10", start=start).cuts[0]
    assert (cut.end, cut.centre, cut.plane) == (end, centre, name)
    assert cut.turn == pytest.approx(math.pi / 2)


def test_an_arc_by_its_radius_in_the_xz_plane():
    """Sections 3.5.3.1 and 4.3.6.1: from Z10 to X10 counter-clockwise about the origin."""
    cut = clean("G18 G3 X10 Z0 R10 F10", start=(0, 0, 10)).cuts[0]
    assert cut.centre == pytest.approx((0, 0), abs=1e-12)
    assert cut.turn == pytest.approx(math.pi / 2)


def test_the_radius_arc_of_the_reports_sample():
    """Section 5, table 10: from X3 Y1, canonical centre 1.5000, 7.8476, clockwise, to Z 0.5."""
    program = clean("g1 x3 y1 f20.0", "g2 x[6-[4*3/2]] r 7.01 z0.5")
    line, arc = program.cuts
    assert (line.kind, line.end, line.feed) == ("line", (3, 1, 0), 20)
    assert arc.end == (0, 1, 0.5)
    assert arc.centre == pytest.approx((1.5, 7.8476), abs=1e-4)
    assert arc.centre[1] == pytest.approx(1 + math.sqrt(7.01**2 - 1.5**2), abs=1e-9)
    assert arc.turn == pytest.approx(-2 * math.asin(1.5 / 7.01))


def test_an_arc_from_nobody_knows_where_is_unknown_but_no_fault():
    """Ours."""
    cut = clean("G2 X10 I5 F10", start=None).cuts[0]
    assert math.isnan(cut.centre[0])
    assert math.isnan(cut.turn)


def test_arcs_in_inch():
    """1 inch is 25.4 mm; F in inch/min."""
    cut = clean("G20 G3 X2 I1 F10").cuts[0]
    assert cut.end == pytest.approx((50.8, 0, 0))
    assert cut.centre == pytest.approx((25.4, 0))
    assert cut.feed == 254


def test_a_kind_with_absolute_centres():
    """The table's other rule: I and J are the centre itself, both written."""
    row = replace(CONTROLS["rs274ngc-mill"], centre="absolute")
    program = read_as("G2 X10 Y16 I10 J11 F1\nM2", row, start=(7, 7, 0))
    assert program.faults == ()
    assert program.cuts[0].centre == (10, 11)
    shifted = read_as("G92 X8 Y8\nG2 X11 Y17 I11 J12 F1\nM2", row, start=(7, 7, 0))
    assert shifted.cuts[0].centre == (10, 11)
    half = read_as("G2 X10 Y16 I10 F1\nM2", row, start=(7, 7, 0))
    assert [fault.code for fault in half.faults] == ["R203"]


def test_a_kind_without_arcs_by_their_radius():
    """The table's other rule."""
    row = replace(CONTROLS["rs274ngc-mill"], radius_arcs=False)
    program = read_as("G2 X10 R5 F1\nM2", row, start=(0, 0, 0))
    assert [(fault.code, fault.column) for fault in program.faults] == [("R208", 8)]
