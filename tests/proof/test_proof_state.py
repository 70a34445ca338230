"""Spindle, feed, tool and offsets at each cut; how a program begins and ends."""

from dataclasses import replace

import pytest
from proof_pen import GOOD, NAN, TARGET, WALL, Pen, at_line, disc_pocket, found, judged, program

from jawcam.proof.prove import prove
from jawcam.reader.cuts import Change


@pytest.mark.parametrize(
    ("code", "grade", "changes"),
    [
        ("P101", "stop", {"spindle": "off"}),
        ("P101", "stop", {"rpm": 0.0}),
        ("P102", "stop", {"feed": 0.0}),
        ("P105", "stop", {"spindle": "ccw"}),
        ("P108", "warn", {"length_offset": 0}),
        ("P109", "warn", {"length_offset": 43}),
        ("P111", "note", {"side": "left"}),
    ],
)
def test_the_state_of_one_cut(code, grade, changes):
    report = judged(at_line(GOOD.cuts, WALL, **changes))
    assert [(f.code, f.grade, f.line) for f in report.findings] == [(code, grade, WALL)]


def test_the_length_offset_of_another_tool_of_the_job_is_a_stop():
    other = replace(TARGET, cutters=(*TARGET.cutters, replace(TARGET.cutters[0], number=43)))
    report = prove(program(at_line(GOOD.cuts, WALL, length_offset=43)), other)
    assert [(f.code, f.grade, f.line) for f in report.findings] == [("P109", "stop", WALL)]
    assert "T43, another tool" in report.findings[0].what


def test_a_stretch_of_cuts_without_what_they_need_is_one_finding():
    cuts = [cut._replace(feed=0.0) if 8 <= cut.line <= 11 else cut for cut in GOOD.cuts]
    assert found(judged(cuts)) == [("P102", 8)]


def test_moves_in_another_work_offset_are_not_proven_unless_another_setup_answers():
    pen = disc_pocket()
    stray = pen.cuts[-1]._replace(work_offset=2, line=pen.line + 1)
    assert found(judged([*pen.cuts, stray])) == [("P110", stray.line)]
    assert found(judged([*pen.cuts, stray], others=[2])) == []


def test_a_tool_that_the_job_does_not_have_cuts_nothing_that_counts():
    codes = [
        code for code, _ in found(judged([c._replace(tool=9, length_offset=9) for c in GOOD.cuts]))
    ]
    assert codes == ["P104", "P301", "P301", "P402"]


def test_an_upright_arc_is_not_proven():
    cuts = at_line(GOOD.cuts, WALL, plane="XZ")
    assert ("P203", WALL) in found(judged(cuts))


def test_the_spindle_should_stop_and_the_tool_rise():
    running = program(GOOD, changes=(Change("machine", "Z0", 0, 1), Change("end", "M30", 99, 1)))
    assert found(prove(running, TARGET)) == [("P107", 0)]
    low = program(GOOD.cuts[:-1])
    assert found(prove(low, TARGET)) == [("P115", GOOD.cuts[-2].line)]


def test_a_tool_change_low_down_is_warned_of():
    at = WALL + 1  # after the lead-out, before the retract
    changes = (*program(GOOD).changes, Change("tool", "3", at, 50))
    changes = tuple(sorted(changes, key=lambda change: change.line))
    assert ("P115", at) in found(prove(program(GOOD, changes=changes), TARGET))


def test_the_first_approach():
    start = GOOD.cuts[0]._replace(kind="line", feed=100.0)
    assert found(judged([start, *GOOD.cuts[1:]])) == [("P113", 1)]
    low = at_line(GOOD.cuts, 2, end=(3.0, 0.0, 9.0))
    report = judged(at_line(low, 3, start=(3.0, 0.0, 9.0)))
    assert [(f.code, f.grade) for f in report.findings] == [("P114", "warn")]
    sideways = Pen((NAN, NAN, -2.0)).rapid(3.0, 0.0)
    assert ("P114", 1) in found(judged(disc_pocket(pen=sideways.rapid(z=10.0))))
    unraised = program(GOOD, changes=program(GOOD).changes[1:])
    assert found(prove(unraised, TARGET)) == [("P112", 1)]
