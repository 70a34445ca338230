"""Canned cycles, expanded. Expected: NISTIR 6556 section 3.5.16 where not said otherwise."""

from __future__ import annotations

import pytest
from reader_help import ISO, blocks, clean, codes, faults, path


def test_g81_absolute():
    """Section 3.5.16.1, example 1, from 1, 2, 3: back to the old Z under G98."""
    program = clean("G90 G81 G98 X4 Y5 Z1.5 R2.8 F9", start=(1, 2, 3))
    assert path(program) == [("T", 4, 5, 3), ("T", 4, 5, 2.8), ("F", 4, 5, 1.5), ("T", 4, 5, 3)]


def test_g81_incremental_three_times():
    """Section 3.5.16.1, example 2, from 1, 2, 3."""
    program = clean("G91 G81 G98 X4 Y5 Z-0.6 R1.8 L3 F9", start=(1, 2, 3))
    holes = [
        move
        for x, y in ((5, 7), (9, 12), (13, 17))
        for move in (("T", x, y, 4.8), ("F", x, y, 4.2), ("T", x, y, 4.8))
    ]
    assert path(program) == [("T", 1, 2, 4.8), *holes]


def test_g81_twice_in_the_reports_sample():
    """Section 5, table 10, from 30, 1, -0.5."""
    program = clean("g91 g81 x3 y2 z-0.8 r1.5 l2 f9", start=(30, 1, -0.5))
    assert path(program) == [
        ("T", 30, 1, 1),
        ("T", 33, 3, 1),
        ("F", 33, 3, 0.2),
        ("T", 33, 3, 1),
        ("T", 36, 5, 1),
        ("F", 36, 5, 0.2),
        ("T", 36, 5, 1),
    ]


def test_depth_holds_on_and_means_an_increment_under_g91():
    """Appendix C.3, its lines n0030 to n0050 with tool length 2; moves worked out by hand."""
    program = clean(
        "g43 h1",
        "g81 x3 y4 r0.2 z-1.1 f9",
        "x1 y0 r0 g91 l3",
        "y-2 r0.1",
        lengths={1: 2.0},
    )
    assert program.cuts[0].start == (0, 0, -2)
    holes = [
        move for x in (4, 5, 6) for move in (("T", x, 4, 0.2), ("F", x, 4, -0.9), ("T", x, 4, 0.2))
    ]
    assert path(program) == [
        ("T", 0, 0, 0.2),
        ("T", 3, 4, 0.2),
        ("F", 3, 4, -1.1),
        ("T", 3, 4, 0.2),
        *holes,
        ("T", 6, 4, 0.3),
        ("T", 6, 2, 0.3),
        ("F", 6, 2, -0.8),
        ("T", 6, 2, 0.3),
    ]


def test_g99_returns_to_r():
    """Section 3.5.20."""
    program = clean("G99 G81 X4 Z-1 R2 F9", "X5", "G98 X6", start=(0, 0, 10))
    assert path(program) == [
        ("T", 4, 0, 10),
        ("T", 4, 0, 2),
        ("F", 4, 0, -1),
        ("T", 4, 0, 2),
        ("T", 5, 0, 2),
        ("F", 5, 0, -1),
        ("T", 5, 0, 2),
        ("T", 6, 0, 2),
        ("F", 6, 0, -1),
        ("T", 6, 0, 2),
    ]


def test_g82_dwells_at_the_bottom():
    program = clean("G82 X1 Z-1 R2 P0.5 F9", "X2", start=(0, 0, 2))
    assert path(program)[:3] == [("T", 1, 0, 2), ("F", 1, 0, -1), ("T", 1, 0, 2)]
    assert [(c.kind, c.value, c.line) for c in program.changes[:2]] == [
        ("dwell", "0.5 s", 1),
        ("dwell", "0.5 s", 2),
    ]


def test_g83_pecks():
    """How far a peck's rapid stays off the bottom is "a bit": 0.254 mm, common practice."""
    program = clean("G99 G83 X1 Z-3 R1 Q1.5 F9", start=(0, 0, 5))
    assert path(program) == [
        ("T", 1, 0, 5),
        ("T", 1, 0, 1),
        ("F", 1, 0, -0.5),
        ("T", 1, 0, 1),
        ("T", 1, 0, -0.246),
        ("F", 1, 0, -2),
        ("T", 1, 0, 1),
        ("T", 1, 0, -1.746),
        ("F", 1, 0, -3),
        ("T", 1, 0, 1),
    ]


def test_pecks_that_come_out_even_are_no_more_than_that():
    """Ours: what is left for lack of digits is no peck."""
    for count in range(1, 30):
        program = clean(f"G98 G83 X1 Z-{count * 0.7:.1f} R0 Q.7 F9", start=(0, 0, 5))
        assert sum(cut.kind == "line" for cut in program.cuts) == count


def test_pecks_come_out_to_the_height_before_the_cycle_under_g98():
    """Section 3.5.16.3: out to the clear Z, which is the old one here."""
    program = clean("G98 G83 X0 Z-3 R1 Q2 F9", start=(0, 0, 5))
    assert [z for _, _, _, z in path(program)] == [1, -1, 5, -0.746, -3, 5]


def test_a_cycle_goes_on_after_g80_with_all_its_words_only():
    """Section 3.5.16: numbers hold on while the same cycle is used on lines in a row."""
    lines = ["G98 G81 X1 Y1 Z-1 R2 F9", "G80", "G0 X5 Y5", "G98 G81 X6 Y5 Z-3 R1"]
    program = clean(*lines, start=(0, 0, 9))
    assert path(program)[-4:] == [("T", 6, 5, 9), ("T", 6, 5, 1), ("F", 6, 5, -3), ("T", 6, 5, 9)]
    assert codes(*lines[:2], "X2") == ["R202"]


def test_a_cycle_right_after_another_work_offset():
    """Ours: nothing of the other's place is left, neither the height nor X and Y."""
    program = clean("G0 X1 Y2 Z9", "G55", "G98 G81 X6 Y5 Z-3 R1 F9", start=(0, 0, 9))
    assert str(program.cuts[1].start) == "(nan, nan, nan)"
    assert str(program.cuts[1].end) == "(6.0, 5.0, nan)"
    assert path(program)[2:] == [("T", 6, 5, 1), ("F", 6, 5, -3), ("T", 6, 5, 1)]
    assert {cut.work_offset for cut in program.cuts[1:]} == {2}


def test_g85_and_g89_feed_out():
    feeds = [("F", 1, 0, -1), ("F", 1, 0, 2)]
    assert path(clean("G85 X1 Z-1 R2 F9", start=(0, 0, 2)))[1:] == feeds
    program = clean("G89 X1 Z-1 R2 P1 F9", start=(0, 0, 2))
    assert path(program)[1:] == feeds
    assert program.changes[0].value == "1 s"


def test_g86_stops_the_spindle_and_starts_it_again():
    program = clean("S800 M3", "G86 X1 Z-1 R2 P1 F9", start=(0, 0, 2))
    assert [cut.spindle for cut in program.cuts] == ["cw", "cw", "off"]
    assert [change.value for change in program.changes[1:4]] == ["1 s", "off", "cw 800"]
    assert faults("G86 X1 Z-1 R2 P1 F9") == [("R506", "1:1")]


@pytest.mark.parametrize("word", ["G84", "G87", "G88"])
def test_cycles_that_are_not_read_are_named_once(word):
    """Ours."""
    program = blocks(f"{word} X1 Y1 Z-1 R2 F9", "X2", "G0 X3 Y3 Z9")
    assert [(fault.code, fault.line, fault.column) for fault in program.faults] == [("R501", 1, 1)]
    assert path(program) == [("T", 3, 3, 9)]


def test_a_cycle_in_another_plane():
    """Section 3.5.16: along the axis that stands on the plane."""
    program = clean("G18 G99 G81 X4 Z1 Y-2 R3 F9", start=(0, 5, 0))
    assert path(program) == [("T", 4, 5, 1), ("T", 4, 3, 1), ("F", 4, -2, 1), ("T", 4, 3, 1)]


def test_cycles_in_inch_and_under_a_shift():
    """1 inch is 25.4 mm; G92 shifts R and depth like any other coordinate."""
    program = clean("G20 G92 Z0", "G81 X1 Z-.1 R.1 F1", start=(0, 0, 10))
    ends = [cut.end[2] for cut in program.cuts]
    assert ends == pytest.approx([12.54, 12.54, 7.46, 12.54])


@pytest.mark.parametrize(
    ("lines", "code"),
    [
        (["G81 X1 R2 F9"], "R502"),
        (["G81 X1 Z-1 F9"], "R502"),
        (["G81 X1 Z-1 R2 F9", "G82 X2 P1"], "R502"),
        (["G82 X1 Z-1 R2 F9"], "R502"),
        (["G83 X1 Z-1 R2 F9"], "R502"),
        (["G89 X1 Z-1 R2 F9"], "R502"),
        (["G82 X1 Z-1 R2 P-1 F9"], "R308"),
        (["G83 X1 Z-1 R2 Q0 F9"], "R308"),
        (["G83 X1 Z-1 R2 Q-1 F9"], "R308"),
        (["G83 X1 Z-100 R2 Q.01 F9"], "R504"),
        (["G81 X1 Z-1 R-2 F9"], "R503"),
        (["G91 G81 X1 Z1 R1 F9"], "R503"),
        (["G81 X1 Z-1 R2 L0 F9"], "R308"),
        (["G81 X1 Z-1 R2 L1.5 F9"], "R307"),
        (["G81 X1 Z-1 R2 L99999 F9"], "R308"),
        (["G93 G81 X1 Z-1 R2 F9"], "R505"),
        (["G41 D1 G1 X1 F9", "G81 X1 Z-1 R2"], "R403"),
        (["G81 F9"], "R201"),
        (["G81 X1 Z-1 R2 Q1 F9"], "R306"),
    ],
)
def test_what_a_cycle_refuses(lines, code):
    """Section 3.5.16; the greatest counts: ours."""
    assert codes(*lines) == [code]


def test_the_repeat_count_does_not_hold_on():
    program = clean("G91 G99 G81 X1 Z-1 R0 L2 F9", "X1")
    assert [cut.end[0] for cut in program.cuts if cut.kind == "line"] == [1, 2, 3]


def test_a_cycle_from_an_unknown_height():
    """Ours: the rapid to the hole is at a height that nobody knows, the rest is known."""
    program = clean("G81 X1. Y0 Z-1. R2. F9", "X2.", control=ISO, start=None)
    assert str(program.cuts[0].end) == "(1.0, 0.0, nan)"
    assert path(program)[1:] == [
        ("T", 1, 0, 2),
        ("F", 1, 0, -1),
        ("T", 1, 0, 2),
        ("T", 2, 0, 2),
        ("F", 2, 0, -1),
        ("T", 2, 0, 2),
    ]


def test_blocks_without_axis_words_drill_nothing():
    assert len(clean("G81 X1 Z-1 R2 F9", "M8", "F12", "G80", start=(0, 0, 2)).cuts) == 3
