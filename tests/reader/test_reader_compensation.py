"""Cutter radius compensation as far as its words go. Expected: NISTIR 6556 appendix B and section
3.5.10. Cuts are the programmed contour; how the cutter is led beside it is for the proof."""

from __future__ import annotations

import pytest
from reader_help import ISO, clean, codes, faults


def test_side_and_register_go_with_each_cut():
    program = clean("G1 X1 F9", "G41 D4 X2", "X3", "G40 X4", "G42 D5 X5")
    assert [(cut.side, cut.register) for cut in program.cuts] == [
        ("off", 0),
        ("left", 4),
        ("left", 4),
        ("off", 0),
        ("right", 5),
    ]
    assert [cut.end[0] for cut in program.cuts] == [1, 2, 3, 4, 5]


def test_without_d_the_number_of_the_tool_is_taken():
    """Section 3.5.10."""
    assert clean("T7 M6", "G41", "G1 X1 F9").cuts[0].register == 7
    assert clean("T7 M6", "G41 D0", "G1 X1 F9").cuts[0].register == 0


def test_the_other_kind_needs_its_d():
    """Common practice, no source."""
    assert faults("T7 M6", "G41", control=ISO) == [("R309", "2:1")]
    assert codes("G41 D7", control=ISO) == []


@pytest.mark.parametrize(("word", "code"), [("D-1", "R308"), ("D1.5", "R307")])
def test_d_is_a_whole_number_from_zero(word, code):
    assert faults(f"G41 {word}") == [(code, "1:5")]


def test_only_in_the_xy_plane():
    assert faults("G18 G41 D1") == [("R402", "1:5")]
    assert codes("G18", "G17 G41 D1") == []


@pytest.mark.parametrize("again", ["G41", "G42", "G41 D2"])
def test_not_while_it_is_on(again):
    assert faults("G41 D1", again) == [("R401", "2:1")]
    assert codes("G41 D1", "G40", again.split()[0] + " D1") == []


def test_d_goes_with_its_word_only():
    assert faults("D1") == [("R306", "1:1")]
    assert faults("G41 D1", "G1 X1 F9 D2") == [("R306", "2:10")]
    assert faults("G41 D1 D2") == [("R301", "1:8")]


@pytest.mark.parametrize(
    "line",
    [
        "G53 G0 X1",
        "G28",
        "G28 X1",
        "G30 X1",
        "G54",
        "G55",
        "G59.3",
        "G92 X1",
        "G92.1",
        "G92.2",
        "G92.3",
        "G10 L2 P1 X1",
        "G20",
        "G21",
        "G18",
        "G19",
        "G81 X1 Z-1 R2",
    ],
)
def test_words_that_are_forbidden_while_it_is_on(line):
    assert faults("G41 D1", line) == [("R403", "2:1")]
    assert "R403" not in codes("G41 D1", "G40", line)


def test_other_words_are_allowed_while_it_is_on():
    assert codes("G41 D1", "G17 G90", "G1 X1 F9", "G91 X1", "G43 H1", "M8", "G4 P1", "G0 Z9") == []


def test_a_block_may_end_it_and_go_home():
    """Section 3.8: compensation comes before G28 and G53, but after planes and units."""
    assert codes("G41 D1", "G40 G28 Z0") == []
    assert codes("G41 D1", "G40 G0 G53 Z0") == []
    assert codes("G41 D1", "G40 G20") == ["R403"]
