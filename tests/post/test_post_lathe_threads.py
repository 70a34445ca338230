"""Threads as a cycle and written out: the same cuts, and the proof finds the same in both."""

from __future__ import annotations

import re
from dataclasses import replace

import pytest
from post_cases import load
from thread_cases import CASES, OUTSIDE, TAPERED, TWO_STARTS, motions_of, passes, target_of

from jawcam.errors import InputError
from jawcam.motion.moves import Compensate, End, LineFeed, Rapid, Spindle, ThreadCut
from jawcam.post.fields import PerUnit
from jawcam.post.write import write
from jawcam.proof.turning.prove import prove_turning
from jawcam.reader.read import read
from jawcam.units import Units

CYCLE = load("iso6983-lathe-g98")
OUT = replace(CYCLE, thread=replace(CYCLE.thread, form="written out"))
ALONE = replace(CYCLE, thread=replace(CYCLE.thread, word=""))
STRAIGHT = replace(CYCLE, thread=replace(CYCLE.thread, cycle_taper=""))
RADII = replace(CYCLE, control="iso6983-lathe-g98-radius", lathe=replace(CYCLE.lathe, x="radius"))
both_units = pytest.mark.parametrize("units", Units)
every_thread = pytest.mark.parametrize("cut", CASES.values(), ids=CASES)


def program_of(dialect, motions, units=Units.MM):
    program = read(write(motions, dialect, units=units), dialect.control)
    assert program.faults == ()
    return program


def threads(program):
    return [cut for cut in program.cuts if cut.lead]


def blocks(dialect, *motions, units=Units.MM):
    text = write((*motions, End()), dialect, units=units)
    return [re.sub(r"^N\d+ ", "", line) for line in text.splitlines()]


def of_threads(dialect, *motions, **more):
    """The blocks from the first that is a pass of a thread."""
    lines = blocks(dialect, Spindle(600), *motions, **more)
    first = next(n for n, line in enumerate(lines) if re.search(r"G(92|32|33) X?", line))
    return lines[first : lines.index("M05")]


@every_thread
@both_units
@pytest.mark.parametrize("dialect", [CYCLE, RADII], ids=["diameter", "radius"])
def test_both_forms_are_read_back_as_the_same_cuts(cut, units, dialect):
    """All alike but the line, and the X at which a tapered pass begins in the air: its difference
    is written as a radius, a diameter in half its steps."""
    out = replace(dialect, thread=replace(dialect.thread, form="written out"))
    cycled, written = (program_of(one, motions_of(cut), units) for one in (dialect, out))
    assert len(threads(cycled)) == len(cut.depths) * cut.thread.starts
    for one, other in zip(threads(cycled), threads(written), strict=True):
        assert one._replace(line=0, column=0, start=other.start) == other._replace(line=0, column=0)
        step = units.in_mm * 10.0 ** -dialect.numbers.centre_decimals.of(units)
        within = step / 2 + 1e-9 if cut is TAPERED else 1e-9
        assert abs(one.start[0] - other.start[0]) <= within
        assert one.start[2] == pytest.approx(other.start[2], abs=1e-9)
    assert len(cycled.lines) < len(written.lines) - 2 * len(threads(cycled))


@every_thread
@both_units
def test_the_rapids_of_both_forms_lead_along_the_same_lines(cut, units):
    """Between the passes at the radius to go back at, in and out straight across."""
    for dialect in (CYCLE, OUT):
        cuts = program_of(dialect, motions_of(cut), units).cuts
        passes_at = [n for n, one in enumerate(cuts) if one.lead]
        for n in passes_at:
            across, thread, out, back = cuts[n - 1 : n + 3]
            assert across.start[2] == across.end[2] == thread.start[2]
            assert out.start[2] == out.end[2] == back.start[2]
            assert across.start[0] == out.end[0] == back.start[0] == back.end[0]
            assert out.end[0] == pytest.approx(cut.clear, abs=units.in_mm * 5e-5)


@every_thread
@both_units
@pytest.mark.parametrize("dialect", [CYCLE, OUT, load("rs274ngc-lathe"), load("din66025-lathe")])
def test_the_proof_finds_nothing_in_either_form(cut, units, dialect):
    report = prove_turning(program_of(dialect, motions_of(cut), units), target_of(cut))
    assert [finding for finding in report.findings if finding.grade != "note"] == []
    assert report.ok


@every_thread
@both_units
@pytest.mark.parametrize("dialect", [CYCLE, OUT], ids=["cycle", "written out"])
def test_a_wrong_lead_is_found_in_either_form(cut, units, dialect):
    motions = [
        replace(motion, lead=motion.lead * 1.01) if isinstance(motion, ThreadCut) else motion
        for motion in motions_of(cut)
    ]
    report = prove_turning(program_of(dialect, motions, units), target_of(cut))
    assert "T403" in {finding.code for finding in report.findings}
    assert not report.ok


def test_a_pass_too_deep_is_found_on_its_line_in_either_form():
    deep = replace(OUTSIDE, depths=(0.8, 1.2, 1.56))
    for dialect in (CYCLE, OUT):
        program = program_of(dialect, motions_of(deep))
        found = [f for f in prove_turning(program, target_of(OUTSIDE)).findings if f.code == "T404"]
        assert [f.line for f in found] == [threads(program)[-1].line]


def test_the_cycle_in_its_own_words():
    """29.5 degrees move the tool 0.415 along for the first 0.734 less deep, 0.189 for 0.334."""
    assert of_threads(CYCLE, *passes(OUTSIDE)) == [
        "G99 G92 X18.4 Z-17.585 F2.5",
        "G00 Z5.189",
        "G92 X17.6 Z-17.811 F2.5",
        "G00 Z5.",
        "G92 X16.932 Z-18. F2.5",
    ]
    assert of_threads(OUT, *passes(OUTSIDE))[:6] == [
        "G99 G32 Z-17.585 F2.5",
        "G00 X26.",
        "Z5.189",
        "X17.6",
        "G32 Z-17.811 F2.5",
        "G00 X26.",
    ]


def test_passes_from_one_place_are_one_word_each():
    """Straight in: the cycle stays in force, and its numbers with it."""
    straight = replace(OUTSIDE, flank=0, depths=(0.8, 1.2, 1.534, 1.534))
    lines = ["G99 G92 X18.4 Z-18. F2.5", "X17.6", "X16.932", "X16.932"]
    assert of_threads(CYCLE, *passes(straight)) == lines
    nothing = replace(CYCLE, blocks=replace(CYCLE.blocks, modal=()))
    again = of_threads(nothing, *passes(straight))
    assert again[1:] == [f"G92 {x} Z-18. F2.5" for x in ("X17.6", "X16.932", "X16.932")]
    words = replace(CYCLE, blocks=replace(CYCLE.blocks, modal=("motion",)))
    again = of_threads(words, *passes(straight))
    assert again[1:] == [f"{x} Z-18. F2.5" for x in ("X17.6", "X16.932", "X16.932")]


def test_what_changes_while_the_cycle_is_in_force_is_told():
    at, across = Rapid((5.0, 15.0, 0.0)), Rapid((5.0, 12.0, 0.0))

    def box(z, x, lead):
        yield across
        yield ThreadCut((z, x, 0.0), lead)
        yield Rapid((z, 15.0, 0.0))
        yield at

    motions = (*box(-9.0, 12.0, 1.0), *box(-9.0, 12.25, 1.0), *box(-9.5, 12.25, 1.0))
    motions = (at, *motions, *box(-9.5, 12.25, 2.0), *box(-9.5, 12.0, 2.0))
    assert of_threads(CYCLE, *motions) == [
        "G99 G92 X24. Z-9. F1.",
        "X24.5 R-0.25",
        "X24.5 Z-9.5",
        "X24.5 F2.",
        "X24. R0.",
    ]
    written = threads(program_of(OUT, (Spindle(600), *motions, End())))
    cycled = threads(program_of(CYCLE, (Spindle(600), *motions, End())))
    assert [(c.start, c.end, c.lead) for c in cycled] == [(c.start, c.end, c.lead) for c in written]


def test_a_feed_is_told_anew_after_a_lead_in_its_letter():
    feed = LineFeed((30.0, 12.9, 0.0), 0.2)
    start = LineFeed((30.0, 13.0, 0.0), 0.2)
    lines = blocks(CYCLE, Rapid((31.0, 13.0, 0.0)), start, Spindle(600), *passes(OUTSIDE), feed)
    assert lines[-6].startswith("G01 X25.8 Z30. F0.2")


def test_compensation_that_ends_before_a_cycle_stands_alone():
    to = LineFeed((5.0, 13.0, 0.0), 0.1)
    motions = (Rapid((9.0, 13.0, 0.0)), Compensate("left"), to, Compensate("off"))
    start = Rapid(to.to)
    across = (Rapid((5.0, 9.0, 0.0)), ThreadCut((-9.0, 9.0, 0.0), 1.0))
    away = (Rapid((-9.0, 13.0, 0.0)), start)
    lines = blocks(CYCLE, Spindle(600), *motions, *across, *away)
    at = next(n for n, line in enumerate(lines) if "G92" in line)
    assert lines[at - 2 : at + 1] == [
        "G99 G01 G41 Z5. F0.1",
        "G40",
        "G92 X18. Z-9. F1.",
    ]


def test_without_a_word_for_the_taper_tapered_passes_are_written_out():
    assert not re.search(r"G92 X", write(motions_of(TAPERED), STRAIGHT, units=Units.MM))
    assert write(motions_of(TAPERED), STRAIGHT, units=Units.MM) == write(
        motions_of(TAPERED), OUT, units=Units.MM
    )
    both = (*passes(TAPERED), *passes(TWO_STARTS))
    assert sum("G92 X" in line for line in of_threads(STRAIGHT, *both)) == 4


def refused(dialect, motions, units=Units.MM):
    with pytest.raises(InputError) as caught:
        write(motions, dialect, units=units)
    assert all(fault.mend for fault in caught.value.faults)
    return [fault.what for fault in caught.value.faults]


def test_a_control_with_a_cycle_alone():
    assert (
        program_of(ALONE, motions_of(OUTSIDE)).cuts == program_of(CYCLE, motions_of(OUTSIDE)).cuts
    )
    slant = (
        Spindle(600),
        Rapid((5.0, 12.0, 0.0)),
        Rapid((5.0, 9.0, 0.0)),
        ThreadCut((-9.0, 9.0, 0.0), 1.0),
        ThreadCut((-10.0, 12.0, 0.0), 1.0),
        End(),
    )
    (what,) = refused(ALONE, slant)
    assert "the cycle of this post can't say" in what
    assert "(and 1 more like it)" in what
    straight = replace(ALONE, thread=replace(ALONE.thread, cycle_taper=""))
    (what,) = refused(straight, motions_of(TAPERED))
    assert "no word for its taper (and 1 more like it)" in what
    neither = replace(OUT, thread=replace(OUT.thread, word=""))
    assert any("no word for a pass of a thread" in what for what in refused(neither, slant))


def test_a_lead_that_its_decimals_do_not_hold():
    """11 to the inch are 2.309 mm to three decimals, 4 parts in 100000 off; 2.31 is 4 in 10000."""
    for decimals, held in ((3, True), (2, False)):
        numbers = replace(CYCLE.numbers, lead_decimals=PerUnit(decimals, decimals))
        dialect = replace(CYCLE, numbers=numbers)
        if held:
            assert threads(program_of(dialect, motions_of(TAPERED)))[0].lead == 2.309
        else:
            (what,) = refused(dialect, motions_of(TAPERED))
            assert what.startswith("a lead of 2.309091 mm can't be written in 2 decimals")
