"""Subprograms behind a program's end, called by M98 P and ended by M99. ISO 6983 leaves these words
to the control; what is expected here is common practice, no source."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st
from reader_help import ISO, NIST

from jawcam.reader.control import Subprograms
from jawcam.reader.controls import CONTROLS
from jawcam.reader.read import read, read_as

CALLING = "iso6983-mill-subprograms"
HEAD = ["O5", "G71 G90", "G00 X0. Y0. Z5."]
STEP = ["O1001", "G01 X3. F100", "Y4.", "M99"]


def run(*lines, control=CALLING):
    return read("\n".join(lines), control)


def wrong(*lines, control=CALLING):
    """Codes and places of the faults."""
    found = run(*lines, control=control).faults
    return [(fault.code, f"{fault.line}:{fault.column}") for fault in found]


def clean(*lines, control=CALLING):
    program = run(*lines, control=control)
    assert program.faults == ()
    assert program.ended
    return program


def told(program):
    """Each cut's end and line, and the lines of its calls."""
    return [(cut.end, cut.line, cut.calls) for cut in program.cuts]


def test_a_call_runs_the_blocks_of_its_number_and_goes_on_behind_it():
    program = clean(*HEAD, "M98 P1001", "G00 Z9.", "M30", *STEP)
    assert told(program) == [
        ((0, 0, 5), 3, ()),
        ((3, 0, 5), 8, (4,)),
        ((3, 4, 5), 9, (4,)),
        ((3, 4, 9), 5, ()),
    ]


def test_it_may_be_called_again_from_elsewhere():
    program = clean(*HEAD, "M98 P1001", "G00 X0. Y0.", "Z2.", "M98 P1001", "M30", *STEP)
    cuts = program.cuts
    assert [cut.end for cut in cuts if cut.line == 11] == [(3, 4, 5), (3, 4, 2)]
    assert [cut.calls for cut in cuts if cut.line == 11] == [(4,), (7,)]
    assert [cut.step for cut in cuts] == sorted(cut.step for cut in cuts)
    assert len({cut.step for cut in cuts}) == len(cuts)


def test_modes_hold_on_into_it_and_out_of_it():
    program = clean(*HEAD, "G91 G01 F50", "M98 P7", "X1.", "M30", "O7", "X2. F80", "M99")
    assert [(cut.end[0], cut.feed) for cut in program.cuts] == [(0, 0), (2, 80), (3, 80)]


def test_a_move_in_the_block_of_the_call_comes_first():
    program = clean(*HEAD, "G00 X9. M98 P1001", "M30", *STEP)
    assert [cut.end[:2] for cut in program.cuts] == [(0, 0), (9, 0), (3, 0), (3, 4)]


def test_one_calls_another_four_deep():
    subs = []
    for n in range(1, 5):
        call = [f"M98 P{n + 1}"] if n < 4 else []
        subs += [f"O{n}", f"G01 X{n}. F100", *call, f"Y{n}.", "M99"]
    program = clean(*HEAD[1:], "M98 P1", "M30", *subs)
    assert [cut.end[:2] for cut in program.cuts[1:]] == [
        (1, 0),
        (2, 0),
        (3, 0),
        (4, 0),
        (4, 4),
        (4, 3),
        (4, 2),
        (4, 1),
    ]
    assert [cut.calls for cut in program.cuts[1:5]] == [(3,), (3, 7), (3, 7, 12), (3, 7, 12, 17)]
    subs[-2:-2] = ["M98 P5"]
    lines = [*HEAD[1:], "M98 P1", "M30", *subs, "O5", "M99"]
    assert wrong(*lines) == [("R614", "22:5")]


def test_what_a_head_may_look_like():
    for head in ("O1001", "o1001 (RINGS)", "N500 O1001", "O 1001", ":1001", "/O1001", "(A) O1001"):
        program = clean(*HEAD, "M98 P1001", "M30", head, *STEP[1:])
        assert [cut.end for cut in program.cuts[1:]] == [(3, 0, 5), (3, 4, 5)]
    program = clean(*HEAD, "M98 P1001", "M30", "O1001 G01 X3. F100", "Y4. M99", "%")
    assert [cut.line for cut in program.cuts[1:]] == [6, 7]


def test_percent_signs_blanks_and_comments_between():
    lines = ["%", *HEAD, "M98 P1001", "M30", "", "(ONCE)", *STEP, "", "(TWICE)", "O7", "M99", "%"]
    assert len(clean(*lines).cuts) == 3
    assert len(clean(*lines, "O9 left over").cuts) == 3


def test_comments_and_faults_in_it_are_told_once():
    program = run(*HEAD, "M98 P7", "M98 P7", "M30", "O7 (RING)", "X?", "M99")
    assert program.comments == ((7, "RING"),)
    (fault,) = program.faults
    assert (fault.code, fault.line, fault.calls) == ("R103", 8, (4,))


def test_a_change_in_it_tells_its_call():
    program = clean(*HEAD, "M98 P7", "M30", "O7", "M08", "M99")
    on = next(change for change in program.changes if change.kind == "coolant")
    assert (on.line, on.calls, on.value) == (7, (4,), "flood")
    assert program.changes[-1].calls == ()


@pytest.mark.parametrize("call", ["M98 P1002", "M98 P1", "M98 P1001 P1"])
def test_a_call_of_what_is_not_there(call):
    program = run(*HEAD, call, "X1.", "G00 X1. Y1. Z1.", "M30", *STEP)
    assert {fault.line for fault in program.faults} == {4}
    # Nobody knows where the tip is until it is told anew.
    assert [str(value) for value in program.cuts[1].start] == ["nan"] * 3
    assert program.cuts[2].end == (1, 1, 1)
    assert program.cuts[-1].line == 6


def test_the_number_of_a_call():
    assert wrong(*HEAD, "M98", "M30", *STEP) == [("R309", "4:1")]
    assert wrong(*HEAD, "M98 P1.5", "M30", *STEP) == [("R307", "4:5")]
    assert wrong(*HEAD, "M98 P31001", "M30", *STEP) == [("R308", "4:5")]
    assert wrong(*HEAD, "M98 P0", "M30", *STEP) == [("R308", "4:5")]
    assert wrong(*HEAD, "M98 P1001 L3", "M30", *STEP) == [("R306", "4:11")]
    assert wrong(*HEAD, "G01 M98 P1002", "M30", *STEP) == [("R608", "4:9")]


def test_a_call_inside_itself():
    """By the shortest way, by way of another, and of the main program's own number."""
    assert wrong(*HEAD, "M98 P7", "M30", "O7", "M98 P7", "M99") == [("R609", "7:5")]
    both = ["O7", "M98 P8", "M99", "O8", "M98 P7", "M99"]
    assert wrong(*HEAD, "M98 P7", "M30", *both) == [("R609", "10:5")]
    assert wrong(*HEAD, "M98 P5", "M30") == [("R609", "4:5")]
    program = run(*HEAD, "M98 P7", "M30", "O7", "G91 G01 X1. F9", "M98 P7", "M99")
    assert [cut.line for cut in program.cuts] == [3, 7]


def test_a_missing_return():
    """Told at the head, whether it is called or not; the run goes back where it must."""
    assert wrong(*HEAD, "M98 P7", "M30", "O7", "G01 X1. F9") == [("R611", "6:1")]
    assert wrong(*HEAD, "M30", "N9 O7", "G01 X1. F9", *STEP) == [("R611", "5:4")]
    program = run(*HEAD, "M98 P7", "X8.", "M30", "O7", "G01 X1. F9", *STEP)
    assert [cut.end[0] for cut in program.cuts] == [0, 1, 8]
    program = run(*HEAD, "M98 P7", "X8.", "M30", "O7", "G01 X1. F9", "%")
    assert [cut.end[0] for cut in program.cuts] == [0, 1, 8]
    nest = ["O7", "M98 P8", "O8", "M98 P9", "O9", "G01 X1. F9"]
    program = run(*HEAD, "M98 P7", "X8.", "M30", *nest)
    assert [cut.end[0] for cut in program.cuts] == [0, 1, 8]
    assert program.cuts[-1].calls == ()
    assert wrong(*HEAD, "M98 P7", "M30", "O7", "G01 X1. F9 (M99)") == [("R611", "6:1")]


def test_a_return_in_the_main_program():
    assert wrong(*HEAD, "M99", "M30") == [("R610", "4:1")]
    assert wrong(*HEAD, "M99") == [("R610", "4:1"), ("R601", "4:1")]


def test_text_behind_an_end_that_is_no_subprogram():
    assert wrong(*HEAD, "M30", "", "(x)", " G00 X1.", "X2.", *STEP) == [("R613", "7:2")]
    assert wrong(*HEAD, "M30", *STEP, "(x)", "G00 X1.", "X2.") == [("R613", "10:1")]
    assert wrong(*HEAD, "M30", *STEP, "G00 X1.", "%", "X2.") == [("R613", "9:1")]
    assert wrong(*HEAD, "M30", "%", "G00 X1.") == []
    assert wrong("G00 X1.", "%", "G00 X1.") == []
    # the kinds without subprograms run nothing behind the end: NISTIR 6556 section 3.1
    assert wrong("G0 X1.", "M30", "G0 X2.", control=NIST) == []
    assert wrong("G00 X1.", "M30", "O7", "M99", control=ISO) == []


def test_a_main_program_that_runs_on_into_a_subprogram():
    assert wrong(*HEAD, "M98 P1001", *STEP) == [("R601", "4:1")]
    assert wrong(*HEAD, *STEP) == [("R601", "3:1")]


def test_an_end_inside_a_subprogram_ends_all():
    program = clean(*HEAD, "M98 P7", "G00 X9.", "M30", "O7", "M30", "M99")
    assert len(program.cuts) == 1
    assert program.changes[-1][:3] == ("end", "M30", 8)


def test_two_of_one_number():
    assert wrong(*HEAD, "M98 P1001", "M30", *STEP, *STEP) == [("R612", "10:1")]
    assert wrong(*HEAD, "M30", "O0005", "M99") == [("R612", "5:1")]
    program = run(*HEAD, "M98 P7", "M30", "O7", "G01 X1. F9", "M99", "O7", "G01 X2.", "M99")
    assert program.cuts[-1].end[0] == 1


def test_a_number_in_the_middle_of_a_line():
    assert wrong(*HEAD, "M98 P7", "M30", "O7", "G01 O8 X1. F9", "M99") == [("R605", "7:5")]


def test_other_letters_and_depths_are_rows_of_the_table():
    row = replace(CONTROLS[CALLING], subprograms=Subprograms("L", 99, deepest=1))
    program = read_as("\n".join([*HEAD, "M98 L7", "M30", "O7", "G01 X1. F9", "M99"]), row)
    assert program.faults == ()
    assert program.cuts[-1].end[0] == 1
    program = read_as("\n".join([*HEAD, "M98 P7", "M30", "O7", "G01 X1. F9", "M99"]), row)
    assert [fault.code for fault in program.faults] == ["R309"]


def test_no_lathe_and_no_other_kind_calls():
    """Where one does, the proof of that machine must follow it (`when` in place of `line`)."""
    assert [row.name for row in CONTROLS.values() if row.subprograms] == [
        CALLING,
        "iso6983-mill-g20",
    ]
    for row in CONTROLS.values():
        means = {meaning for group in row.groups for meaning in group.codes.values()}
        assert ({"call", "return"} <= means) == (row.subprograms is not None)


@st.composite
def nests(draw):
    """A main program and up to four others, each calling later ones only; as lines with calls, and
    as what is to be run with none."""
    bodies = {}
    for number in range(4, -1, -1):
        lines, plain = [], []
        for _ in range(draw(st.integers(0, 4))):
            callee = draw(st.sampled_from([0, *range(number + 1, 5)]))
            if callee:
                lines.append(f"M98 P{callee}")
                plain += bodies[callee][1]
            else:
                axis, mode = draw(st.sampled_from("XYZ")), draw(st.sampled_from(["G90", "G91"]))
                block = f"{mode} G01 {axis}{draw(st.integers(-9, 9))}. F50"
                lines.append(block)
                plain.append(block)
        bodies[number] = (lines, plain)
    subs = [
        f"O{n}\n" + "\n".join([*bodies[n][0], "M99"]) for n in draw(st.permutations([1, 2, 3, 4]))
    ]
    whole = "\n".join(["G71", "G00 X0. Y0. Z0.", *bodies[0][0], "M30", *subs])
    return whole, "\n".join(["G71", "G00 X0. Y0. Z0.", *bodies[0][1], "M30"])


@given(nests())
def test_calls_give_what_their_blocks_written_out_give(texts):
    calling, plain = (read(text, CALLING) for text in texts)
    assert calling.faults == plain.faults == ()
    assert [cut[:14] for cut in calling.cuts] == [cut[:14] for cut in plain.cuts]
    lines = texts[0].split("\n")
    for cut in calling.cuts:
        assert all(lines[line - 1].startswith("M98") for line in cut.calls)
        assert bool(cut.calls) == (cut.line > lines.index("M30") + 1)
