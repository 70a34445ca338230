"""What holds on between blocks. Expected: NISTIR 6556 sections 3.5 to 3.7 where not said
otherwise."""

from __future__ import annotations

import math

import pytest
from reader_help import ISO, NIST, blocks, clean, codes, faults, path


def unknown(program):
    """The axes of which the last move didn't know where it began."""
    start = program.cuts[-1].start
    return "".join(axis for axis, at in zip("XYZ", start, strict=True) if math.isnan(at))


def changes(program):
    """All changes but the end, as kind and value."""
    return [(change.kind, change.value) for change in program.changes if change.kind != "end"]


def test_feed_per_minute():
    """Section 3.5.19."""
    cuts = clean("G1 X30 F60", "X0", "F25 X1", "G0 X2").cuts
    assert [cut.feed for cut in cuts] == [60, 60, 25, 0]


def test_inverse_time():
    """Section 3.5.19: F2 is half a minute, in which 30 mm are 60 mm/min."""
    assert clean("G93 G1 X30 F2").cuts[0].feed == pytest.approx(60)
    assert clean("G93 G1 X3 Z-4 F2").cuts[0].feed == pytest.approx(10)
    assert clean("G93 G20 G1 X3 F2").cuts[0].feed == pytest.approx(3 * 25.4 * 2)


def test_inverse_time_needs_f_in_every_cutting_block():
    """Section 3.5.19; a rapid needs none."""
    program = blocks("G93 G1 X30 F2", "X0", "G2 X10 I5", "G0 X3", "G1 X4 F1")
    assert [(fault.code, fault.line) for fault in program.faults] == [("R209", 2), ("R209", 3)]
    assert program.cuts[-2].start == (10, 0, 0)


def test_a_feed_does_not_hold_on_from_one_feed_mode_to_the_other():
    """Ours: 2 per minute is no 2 mm/min; the proof judges a cut without a feed."""
    assert clean("G93 G1 X30 F2", "G94 X0").cuts[1].feed == 0


def test_a_cut_without_any_feed_is_recorded_as_such():
    """Ours: the proof judges it."""
    assert clean("G1 X30").cuts[0].feed == 0


def test_inch():
    """1 inch is 25.4 mm; S10: a program starts in mm."""
    program = clean("G1 X1 F2", "G20 X1 F10", "G21 X1", control="rs274ngc-mill")
    assert [cut.end[0] for cut in program.cuts] == [1, 25.4, 1]
    assert [cut.feed for cut in program.cuts] == [2, 254, 10]
    assert program.units == "mm"
    assert clean("G70", control=ISO).units == "inch"


def test_everything_is_unknown_at_first():
    """Ours."""
    program = clean("G0 X1", "Y2", "Z3", "X4", start=None)
    starts = [str(cut.start) for cut in program.cuts]
    assert starts == [
        "(nan, nan, nan)",
        "(1.0, nan, nan)",
        "(1.0, 2.0, nan)",
        "(1.0, 2.0, 3.0)",
    ]


def test_an_increment_from_an_unknown_place_is_unknown():
    assert str(clean("G91 G0 X1", start=None).cuts[0].end) == "(nan, nan, nan)"


def test_g92_counts_from_where_the_tip_is():
    """Section 3.5.18: at X4, G92 X7 makes an offset of -3, and G92 X9 then one of -5. Cuts are
    told without it: X7 leads to 4 still."""
    lines = ("G0 X4", "G92 X7", "G0 X8")
    assert path(clean(*lines))[1] == ("T", 5, 0, 0)
    assert path(clean("G0 X4", "G92 X7", "G92 X9", "G0 X9", "X10"))[1:] == [
        ("T", 4, 0, 0),
        ("T", 5, 0, 0),
    ]
    assert path(clean(*lines, "G92.1", "G0 X8"))[2] == ("T", 8, 0, 0)
    assert path(clean(*lines, "G92.2", "G0 X8", "G92.3", "X8"))[2:] == [
        ("T", 8, 0, 0),
        ("T", 5, 0, 0),
    ]
    assert path(clean(*lines, "G92.1", "G92.3", "G0 X8"))[2] == ("T", 8, 0, 0)
    assert faults("G92") == [("R309", "1:1")]


def test_g92_at_an_unknown_place_starts_the_axes_there():
    """Common practice, no source: older programs begin so."""
    program = clean("G92 X0 Y0 Z50", "G0 X10", start=None)
    assert program.cuts[0].start == (0, 0, 50)
    assert unknown(clean("G92 X0 Y0", "G0 X1", "G92.1", "G0 Z1", start=(0, 0, 0))) == ""
    assert unknown(clean("G92 X0 Z9", "G0 Y1", "G92.1", "G0 Y3", start=None)) == "XZ"


def test_machine_coordinates():
    """Section 3.5.12: not modal, and only under G0 or G1."""
    program = clean("G0 X1 Y2 Z3", "G53 Z-2", "X4")
    assert len(program.cuts) == 2
    assert changes(program) == [("machine", "G53 Z-2")]
    assert (program.changes[0].line, program.changes[0].column) == (2, 1)
    assert unknown(program) == "Z"
    assert codes("G53 G1 X1 F5") == []
    assert faults("G53 X1") == [("R210", "1:1")]
    assert faults("G53 G2 X1 I1 F5") == [("R210", "1:1")]
    assert faults("G0 G53") == [("R309", "1:4")]


def test_home_by_way_of_a_point():
    """Section 3.5.8: a rapid to the point, then to where only the machine knows."""
    program = clean("G91 G28 Z5", "G90 G0 X1", start=(1, 2, 3))
    assert path(program)[0] == ("T", 1, 2, 8)
    assert changes(program) == [("machine", "G28 Z5")]
    assert unknown(program) == "XYZ"
    bare = clean("G30", "G0 X1")
    assert len(bare.cuts) == 1
    assert unknown(bare) == "XYZ"


def test_the_other_kind_sends_home_the_axes_that_are_named():
    """Common practice, no source."""
    assert unknown(clean("G91 G28 Z0", "G90 G0 X1.", control=ISO)) == "Z"
    assert unknown(clean("G28", "G90 G0 X1.", control=ISO)) == "XYZ"


def test_work_offsets():
    """Sections 3.5.13: nine of them. How far one lies from another isn't in the text."""
    words = ["G54", "G55", "G56", "G57", "G58", "G59", "G59.1", "G59.2", "G59.3"]
    for number, word in enumerate(words, 1):
        assert clean(word, "G0 X1").cuts[0].work_offset == number
    assert clean("G0 X1").cuts[0].work_offset == 1
    assert unknown(clean("G0 X1", "G54", "G0 X2")) == ""
    assert unknown(clean("G0 X1", "G55", "G0 X2")) == "XYZ"


@pytest.mark.parametrize("control", [NIST, ISO])
def test_another_station_by_way_of_machine_zero(control):
    """Sections 3.5.12 and 3.5.13: up in machine coordinates, the other offset, across, down."""
    lines = ("G54 G0 X1. Y2. Z3.", "G53 G0 Z0.", "G55", "G0 X4. Y5.", "Z6.", "G54", "X7. Y8.")
    program = clean(*lines, control=control)
    assert changes(program) == [("machine", "G53 Z0")]
    places = [(str(cut.start), cut.work_offset) for cut in program.cuts[1:]]
    assert places == [
        ("(nan, nan, nan)", 2),
        ("(4.0, 5.0, nan)", 2),
        ("(nan, nan, nan)", 1),
    ]
    assert str(program.cuts[1].end) == "(4.0, 5.0, nan)"


def test_a_work_offset_of_which_one_origin_alone_is_known():
    """Ours: how far it lies from the other is known along no axis but those that both tell."""
    lines = ("G10 L2 P1 X100 Y0 Z-50", "G10 L2 P2 Y9", "G0 X10 Y20 Z5", "G55", "G0 X0")
    assert str(clean(*lines).cuts[1].start) == "(nan, 11.0, nan)"
    assert unknown(clean("G10 L2 P2 X100 Y0 Z-50", "G0 X1", "G55", "G0 X2")) == "XYZ"


def test_an_offset_and_a_move_in_one_block():
    """Section 3.8, table 8: the work offset comes first."""
    cut = clean("G0 X1 Y2 Z3", "G55 X5").cuts[1]
    assert (str(cut.start), str(cut.end)) == ("(nan, nan, nan)", "(5.0, nan, nan)")


def test_a_start_is_told_in_the_work_offset_that_is_used_first():
    """Ours."""
    assert clean("G55", "G0 X1", start=(1, 2, 3)).cuts[0].start == (1, 2, 3)


def test_work_offsets_that_the_program_sets_are_known():
    """Section 3.5.5: G10 L2 P1 to P9, machine coordinates of an origin."""
    program = clean(
        "G10 L2 P1 X100 Y0 Z-50",
        "G10 L2 P2 X160 Y0 Z-50",
        "G0 X10 Y20 Z5",
        "G55",
        "G0 X0",
        "G10 L2 P2 X150",
        "G0 X0",
    )
    assert [cut.start for cut in program.cuts] == [(0, 0, 0), (-50, 20, 5), (10, 20, 5)]
    assert faults("G10 P1 X1") == [("R309", "1:1")]
    assert faults("G10 L2 X1") == [("R309", "1:1")]
    assert faults("G10 L2 P10 X1") == [("R308", "1:8")]
    assert faults("G10 L1 P1 X1") == [("R308", "1:5")]


def test_tool_length_offset_in_the_reports_sample():
    """Section 5, table 10: tools of length 2 and 1; with the shorter one in force Z 0.5 reads
    -0.5."""
    program = clean("g1 x3 z0.5 f20", "t2", "m6 g43 h2", "g1 x0", lengths={1: 2.0, 2: 1.0})
    assert program.cuts[1].start == (3, 0, -0.5)
    assert (program.cuts[1].tool, program.cuts[1].length_offset) == (2, 2)
    assert changes(program) == [("tool", "2")]


def test_tool_length_offsets_replace_each_other_and_end():
    """Section 3.5.11."""
    lines = ("G43 H1", "G0 X1", "G43 H2", "X2", "G49", "X3")
    program = clean(*lines, lengths={1: 2.0, 2: 1.0})
    assert [cut.start[2] for cut in program.cuts] == [-2, -1, 0]
    assert [cut.length_offset for cut in program.cuts] == [1, 2, 0]
    assert [cut.start[2] for cut in clean(*lines).cuts] == [0, 0, 0]
    assert clean("G43 H0", "G0 X1", lengths={}).cuts[0].start == (0, 0, 0)
    assert faults("G43 H3", lengths={1: 2.0}) == [("R404", "1:5")]
    assert faults("G43") == [("R309", "1:1")]
    assert faults("G43 H-1") == [("R308", "1:5")]
    assert faults("G0 X1 H1") == [("R306", "1:7")]


@pytest.mark.parametrize(
    ("line", "place"),
    [("S-1", "1:1"), ("T-1", "1:1"), ("G4 P-1", "1:4"), ("G1 X1 F-1", "1:7")],
)
def test_numbers_that_must_not_be_below_zero(line, place):
    """Sections 3.5.4 and 3.7; F: ours."""
    assert faults(line) == [("R308", place)]


def test_axis_words_without_motion():
    """Section 3.5.15: an error under G80, and at the start."""
    assert faults("X1") == [("R202", "1:1")]
    assert faults("G0 X1", "G80", "F9 Y2 X1") == [("R202", "3:4")]
    assert faults("G80 X1") == [("R202", "1:5")]


def test_motion_without_axis_words():
    """Sections 3.5.1 and 3.5.2: errors; the other kind: common practice."""
    assert faults("G90 G0") == [("R201", "1:5")]
    assert codes("G90 G0", "G1 F100", "X1.", control=ISO) == []


def test_dwell():
    """Section 3.5.4: P seconds."""
    assert changes(clean("G4 P2.5")) == [("dwell", "2.5 s")]
    assert faults("G4") == [("R309", "1:1")]


def test_tool_change():
    """Section 3.6.3: to the tool chosen last; the spindle stops and the axes stay."""
    program = clean("T3", "S900 M3", "G0 X1", "M6", "G0 X2")
    assert [(cut.tool, cut.spindle) for cut in program.cuts] == [(0, "cw"), (3, "off")]
    assert program.cuts[1].start == (1, 0, 0)
    assert clean("T3 M6 S900 M3", "G0 X1").cuts[0].spindle == "cw"
    assert faults("T1.5") == [("R307", "1:1")]


def test_spindle_and_coolant():
    """Sections 3.6.2 and 3.6.4."""
    program = clean("S900", "M3", "S950", "S950", "M4 S100", "M5", "S50", "M7", "M8", "M9")
    assert changes(program) == [
        ("spindle", "cw 900"),
        ("spindle", "cw 950"),
        ("spindle", "ccw 100"),
        ("spindle", "off"),
        ("coolant", "mist"),
        ("coolant", "flood"),
        ("coolant", "off"),
    ]


def test_stops():
    """Section 3.6.1; M48 and M49 change nothing that is read."""
    assert changes(clean("M0", "M1", "M60", "M48", "M49")) == [
        ("stop", "M0"),
        ("stop", "M1"),
        ("stop", "M60"),
    ]


@pytest.mark.parametrize("axis", "ABC")
def test_rotary_axes_are_not_read(axis):
    """Ours: they are in the language, but three axes are all that is read."""
    assert faults(f"G0 X1 {axis}90") == [("R606", "1:7")]


def test_probing_is_not_read():
    """Ours; section 3.5.7."""
    assert faults("G38.2 Z-1 F10") == [("R607", "1:1")]


@pytest.mark.parametrize("word", ["P1", "Q1", "L1", "D1", "H1", "R1", "I1", "J1", "K1"])
def test_words_that_nothing_uses(word):
    """Sections 3.5 and 3.7; D: appendix B."""
    assert faults(f"G1 X1 F9 {word}") == [("R306", "1:10")]


def test_places_count_from_one_and_name_the_motion_word_or_the_first_axis():
    program = clean("N10 G90 G1 X1 F9", "  Y2", "(a) F9 Y3 X2", "\tG0 X1")
    assert [(cut.line, cut.column) for cut in program.cuts] == [(1, 9), (2, 3), (3, 8), (4, 2)]
