"""Modal groups and the order of execution. Expected: NISTIR 6556 sections 3.4 (table 4) and 3.8
(table 8)."""

from __future__ import annotations

import itertools

import pytest
from reader_help import ISO, blocks, clean, codes, faults

from jawcam.reader.controls import CONTROLS
from jawcam.reader.modal import index

TABLE_4 = {
    "motion": "G0 G1 G2 G3 G38.2 G80 G81 G82 G83 G84 G85 G86 G87 G88 G89",
    "plane": "G17 G18 G19",
    "distance": "G90 G91",
    "feed mode": "G93 G94",
    "units": "G20 G21",
    "cutter radius compensation": "G40 G41 G42",
    "tool length offset": "G43 G49",
    "return": "G98 G99",
    "coordinate system": "G54 G55 G56 G57 G58 G59 G59.1 G59.2 G59.3",
    "path control": "G61 G61.1 G64",
    "not modal": "G4 G10 G28 G30 G53 G92 G92.1 G92.2 G92.3",
    "stopping": "M0 M1 M2 M30 M60",
    "tool change": "M6",
    "spindle": "M3 M4 M5",
    "coolant": "M7 M8 M9",
    "override": "M48 M49",
}


def test_the_words_of_the_report_and_no_others():
    """Table 4."""
    table = index(CONTROLS["rs274ngc-mill"].groups)
    assert {code.word for code in table.values()} == set(" ".join(TABLE_4.values()).split())


@pytest.mark.parametrize("group", TABLE_4)
def test_two_words_of_one_group_are_a_fault(group):
    """Section 3.4."""
    for first, second in itertools.permutations(TABLE_4[group].split(), 2):
        found = faults(f"{first} {second}")
        assert ("R302", f"1:{len(first) + 2}") in found, (first, second)


def test_one_word_of_each_group_is_none():
    """Section 3.4."""
    line = "G1 G17 G91 G94 G21 G40 G49 G98 G54 G64 X1 F50 M3 M6 M8 M48"
    assert codes(f"T1 {line}") == []


@pytest.mark.parametrize("motion", ["G0", "G1", "G81"])
@pytest.mark.parametrize("once", ["G10 L2 P1", "G28", "G30", "G92"])
def test_two_words_that_both_use_the_axis_words(motion, once):
    """Section 3.4."""
    assert "R304" in codes(f"{once} {motion} X1 Y1 F1")


def test_words_that_do_not_use_the_axis_words_go_with_motion():
    """Section 3.4: G4 and G53; G80 moves nothing."""
    assert codes("G4 P1 G1 X1 F10", "G53 G0 Z0", "G80 G92 X1 Y1", "G80 G28 X0") == []


@pytest.mark.parametrize(
    "word",
    ["G5", "G33", "G50", "G70", "G71", "G95", "G96", "G97", "G44", "G59.4", "M10", "M97", "G-1"],
)
def test_words_that_are_not_in_the_language(word):
    """Table 4; G33, G50, G70, G71, G95 to G97 belong to other dialects."""
    assert faults(f"G0 X1 {word}") == [("R303", "1:7")]


@pytest.mark.parametrize(
    ("word", "control"),
    [
        (word, name)
        for word in ("M98", "M99", "G65", "G66", "G67")
        for name, row in CONTROLS.items()
        if row.point != "implied" and (word[0] == "G" or row.subprograms is None)
    ],
)
def test_subprograms_and_macros_are_not_read(word, control):
    """Ours: they are named, with what to do about them."""
    program = blocks(f"G0 X1. {word} P100", control=control)
    assert [(fault.code, fault.column) for fault in program.faults] == [("R604", 8)]
    assert "write the blocks out" in program.faults[0].mend
    told = "iso6983-mill-subprograms" in program.faults[0].mend
    assert told == (word[0] == "M" and "Y" in CONTROLS[control].axes)


def test_the_other_kind_chooses_units_with_g70_and_g71():
    """ISO and DIN 66025 lists: G70 inch, G71 metric; G20 to G24 are unassigned."""
    assert codes("G70", "G71", control=ISO) == []
    program = blocks("G21", control=ISO)
    assert [fault.code for fault in program.faults] == ["R303"]
    assert "G70 and G71" in program.faults[0].mend
    assert "G20 and G21" in blocks("G71").faults[0].mend


def test_spindle_starts_before_the_move_of_its_block():
    """Table 8, steps 4, 7 and 20."""
    cut = clean("G1 X1 M3 S500 F100").cuts[0]
    assert (cut.spindle, cut.rpm, cut.feed) == ("cw", 500, 100)


def test_the_tool_is_chosen_before_it_is_changed():
    """Table 8, steps 5 and 6."""
    assert clean("M6 T4", "G0 X1").cuts[0].tool == 4


def test_units_distance_and_offset_change_before_the_move_of_their_block():
    """Table 8, steps 12, 15, 17 and 20."""
    program = clean("G0 X1", "X1 G91 G20 G55 G0", start=None)
    assert program.cuts[1].work_offset == 2
    assert clean("G0 X1", "X1 G91 G20").cuts[1].end[0] == pytest.approx(26.4, abs=1e-12)


def test_length_offset_and_compensation_change_before_the_move_of_their_block():
    """Table 8, steps 13 and 14; appendix B."""
    cut = clean("G1 X1 F9 G41 D2 G43 H3").cuts[0]
    assert (cut.side, cut.register, cut.length_offset) == ("left", 2, 3)
    assert clean("G1 G41 D2 X1 F9", "X2 G40").cuts[1].side == "off"


def test_dwell_comes_before_and_stop_after_the_move_of_a_block():
    """Table 8, steps 10, 20 and 21: the move is made although M2 is on its line."""
    program = clean("G1 X1 F100 G4 P0.5 M0")
    assert [(change.kind, change.value) for change in program.changes] == [
        ("dwell", "0.5 s"),
        ("stop", "M0"),
        ("end", "M2"),
    ]
    assert len(clean("G0 X1", "X2 M30").cuts) == 2


def test_modes_hold_on_until_they_change():
    """Section 3.4."""
    program = clean("G91 G1 X1 F100", "X1", "G90 X10", "G0 Y1", "Y2")
    assert [(cut.kind, cut.end[0], cut.end[1]) for cut in program.cuts] == [
        ("line", 1, 0),
        ("line", 2, 0),
        ("line", 10, 0),
        ("rapid", 10, 1),
        ("rapid", 10, 2),
    ]


def test_a_faulty_block_changes_modes_but_moves_nothing():
    """Ours: one fault shall not bring others with it, nor a position that nobody knows."""
    program = blocks("G0 X5 Y5 Z5", "G1 G91 X1 Y1 Q7..5 F100", "Z1")
    assert [fault.code for fault in program.faults] == ["R103"]
    assert [cut.kind for cut in program.cuts] == ["rapid", "line"]
    assert str(program.cuts[1].start) == "(nan, nan, 5.0)"
    assert program.cuts[1].end[2] == 6
    assert program.cuts[1].feed == 100
