"""A program as a whole: percent signs, ends, heads, kinds of control. Expected: NISTIR 6556 section
3.1 where not said otherwise."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from reader_help import ISO, NIST, ZERO

from jawcam.errors import InputError
from jawcam.reader.controls import CONTROLS
from jawcam.reader.read import read


def found(*lines, control=NIST):
    """Codes and places of the faults of a whole program."""
    program = read("\n".join(lines), control)
    return [(fault.code, f"{fault.line}:{fault.column}") for fault in program.faults]


@pytest.mark.parametrize("end", ["M2", "M30"])
def test_an_end_word_ends_it(end):
    program = read(f"G0 X1\n{end}\nG0 X2 )(\n", NIST)
    assert program.ended
    assert program.faults == ()
    assert len(program.cuts) == 1
    assert program.changes[-1][:3] == ("end", end, 2)


def test_percent_signs_end_it_too():
    program = read("\n % \nG0 X1\n\t%\nG0 X2 )(\n", NIST)
    assert program.ended
    assert program.faults == ()
    assert len(program.cuts) == 1
    assert program.changes[-1][:4] == ("end", "%", 4, 2)


def test_both_may_be_there():
    assert found("%", "G0 X1", "M2", "%", "left over") == []
    assert found("G0 X1", "M2", "%") == []


def test_without_percent_signs_an_end_word_is_needed():
    assert found("G0 X1", "X2") == [("R601", "2:1")]
    assert found("") == [("R601", "1:1")]
    assert not read("G0 X1", NIST).ended


def test_a_first_percent_sign_needs_a_second():
    assert found("%", "G0 X1", "M2") == [("R603", "3:1")]
    assert found("%", "G0 X1") == [("R603", "2:1")]


def test_percent_signs_in_the_wrong_place():
    assert found("G0 X1", "%", "M2") == [("R602", "2:1")]
    assert found("(title)", "%", "M2") == [("R602", "2:1")]
    assert found("% title", "G0 X1", "%") == [("R602", "1:1")]
    assert found("%", "G0 X1 %", "M2", "%") == [("R101", "2:7")]


def test_the_other_kind_takes_percent_signs_or_leaves_them():
    """Common practice, no source."""
    for lines in (
        ("%", "G0 X1.", "M30", "%"),
        ("%", "G0 X1.", "M30"),
        ("G0 X1.", "M30", "%"),
        ("G0 X1.", "M30"),
        ("(title)", "%", "G0 X1.", "M30"),
        ("G0 X1.", "%"),
    ):
        assert found(*lines, control=ISO) == []
        assert len(read("\n".join(lines), ISO).cuts) == 1
    assert found("%", "G0 X1.", control=ISO) == [("R601", "2:1")]


def test_a_program_number_heads_a_program_of_the_other_kind():
    """Common practice, no source."""
    for head in ("O0007", ":7", "o7 (jaws)", "%\nO7", "(jaws)\nO7 G0 X1."):
        assert found(*head.split("\n"), "G0 X1.", "M30", control=ISO) == []
    assert found("G0 X1.", "O7", "M30", control=ISO) == [("R605", "2:1")]
    assert found("G90", "N10 :7", "M30", control=ISO) == [("R605", "2:5")]
    assert found("O7", "O8", "M30", control=ISO) == [("R605", "2:1")]
    assert found("O7", "M2") == [("R101", "1:1")]


def test_lines_comments_and_name_are_kept():
    text = "%\r\n(jaws)\r\nG0 X1\r\rM2\n%"
    program = read(text, NIST, "side-two.nc")
    assert program.name == "side-two.nc"
    assert program.lines == ("%", "(jaws)", "G0 X1", "", "M2", "%")
    assert program.comments == ((2, "jaws"),)
    assert program.changes[-1].line == 5


def test_a_hand_written_program_of_the_other_kind():
    """In the manner of a person at a desk: loose layout, words where they please."""
    text = """%
    O0042 (CRANK LEVER JAWS)
    N5 G71 G90 G17 G40 G80
    G54 T03 M06 ; """.replace(" ; ", "")
    lines = [
        *text.split("\n"),
        "(8 MM END MILL)",
        "M03 S3000 G00 X0 Y-10. Z25.",
        "G43 H3 Z5. M8",
        "",
        "G01 F150 Z-2.",
        "F400. Y10.",
        "G03 J-10. I0",
        "X10. Y0. R10. G02",
        "G00 Z50. M09",
        "G91 G28 Z0",
        "M30",
        "%",
    ]
    program = read("\n".join(lines), ISO)
    assert program.faults == ()
    assert [cut.kind for cut in program.cuts] == [
        "rapid",
        "rapid",
        "line",
        "line",
        "arc",
        "arc",
        "rapid",  # and home by no way: no move in the program's own axes
    ]
    assert [cut.feed for cut in program.cuts] == [0, 0, 150, 400, 400, 400, 0]
    assert program.cuts[5].centre == pytest.approx((0, 0), abs=1e-9)


def test_kinds_of_control_are_found_by_name():
    with pytest.raises(InputError, match="did you mean 'rs274ngc-mill'"):
        read("M2", "rs274-mill")
    with pytest.raises(InputError, match=r"known kinds: din66025-lathe, .*, rs274ngc-mill$"):
        read("M2", "")
    assert all(name == row.name for name, row in CONTROLS.items())


@given(st.text(max_size=60), st.sampled_from(sorted(CONTROLS)))
@settings(max_examples=150)
def test_no_text_is_ever_too_bad_to_be_read(text, control):
    """It gives faults or cuts, never an exception."""
    program = read(text, control, start=ZERO)
    assert all(1 <= fault.line <= max(len(program.lines), 1) for fault in program.faults)
    assert all(fault.column >= 1 for fault in program.faults)
    assert all(fault.what and fault.mend for fault in program.faults)


WORDS = st.lists(
    st.builds(
        str.__add__,
        st.sampled_from([*"GMXYZIJKRFSTHDLPQNO#[]/%()", "G0", "G2", "G8", "G9", "G1", "M", "#"]),
        st.sampled_from(["", "0", "1", "2", "3.", "-1", "83", "[1/0]", "#1", "=1", "99999999999"]),
    ),
    max_size=6,
).map(" ".join)


@given(st.lists(WORDS, max_size=6), st.sampled_from(sorted(CONTROLS)))
@settings(max_examples=150)
def test_no_jumble_of_words_is_too_bad_to_be_read(lines, control):
    """It gives faults or cuts, never an exception."""
    program = read("\n".join(lines), control, start=ZERO, lengths={1: 50.0})
    assert all(1 <= fault.line <= max(len(program.lines), 1) for fault in program.faults)


def test_a_program_tells_how_its_control_runs_rapids():
    """NISTIR 6556, 3.5.1, from memory: coordinated linear motion; ISO 6983 leaves the way open."""
    assert read("%\nM2\n%\n", "rs274ngc-mill").rapids == "straight"
    assert read("M30\n", "iso6983-mill").rapids == "either"
