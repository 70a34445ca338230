"""U and W, which count on from where the tip is, on the kinds of lathe that read them: common
practice, no source."""

import math

import pytest

from jawcam.reader.read import read

KIND = "iso6983-lathe-g98"
HEAD = ["G21 G99 G18", "G97 S500 M03", "G00 X40. Z5."]


def cuts(*lines):
    program = read("\n".join([*HEAD, *lines, "M30"]), KIND)
    assert program.faults == ()
    return [cut for cut in program.cuts if cut.line > len(HEAD)]


def ends(*lines):
    return [(cut.end[0], cut.end[2]) for cut in cuts(*lines)]


def test_u_counts_a_diameter_and_w_a_length_from_where_the_tip_is():
    assert ends("G01 U-10. F0.2", "W-7.", "U2. W-1.", "X30. W-2.", "U4. Z0.") == [
        (15, 5),
        (15, -2),
        (16, -3),
        (15, -5),
        (17, 0),
    ]


def test_an_arc_may_end_by_them():
    (arc,) = cuts("G03 U10. W-5. R5. F0.1")
    assert (arc.end[0], arc.end[2]) == (25, 0)
    assert abs(arc.turn) == pytest.approx(math.pi / 2)


def test_a_pass_of_a_thread_may_end_by_w():
    assert ends("G00 U-4.", "G32 W-20. F1.5") == [(18, 5), (18, -15)]


def test_home_by_u0_and_w0_goes_straight_there():
    program = read("G21 G99\nG28 U0\nG28 W0.\nM30", KIND)
    assert program.faults == ()
    assert program.cuts == ()
    assert [change.value for change in program.changes if change.kind == "machine"] == [
        "G28 U0",
        "G28 W0.",
    ]


def test_both_words_of_one_axis_are_refused():
    program = read("\n".join([*HEAD, "G01 X30. U-2. F0.2", "M30"]), KIND)
    assert [(fault.code, fault.line, fault.column) for fault in program.faults] == [("R301", 4, 10)]


@pytest.mark.parametrize("kind", ["iso6983-lathe", "rs274ngc-lathe", "din66025-lathe"])
def test_other_lathes_have_no_such_words(kind):
    program = read("G0 X40. Z5.\nG1 U-2. F1.\nM30\n", kind)
    assert "R101" in [fault.code for fault in program.faults]


def test_a_word_that_ends_a_cycle_may_stand_beside_one_for_the_motion_on_one_kind():
    """Common practice, no source."""
    head = "G21 G00 G17 G40 G80 G90\nX1. Y2.\nM30\n"
    program = read(head, "iso6983-mill-g20")
    assert program.faults == ()
    assert [cut.kind for cut in program.cuts] == ["rapid"]
    twice = read(head.replace("G00", "G80"), "iso6983-mill-g20")
    assert [fault.code for fault in twice.faults][:1] == ["R302"]
    elsewhere = read(head.replace("G21", "G71"), "iso6983-mill")
    assert [fault.code for fault in elsewhere.faults][:1] == ["R302"]
