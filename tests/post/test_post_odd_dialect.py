"""A dialect with odd habits is one more file, and no line of code."""

from __future__ import annotations

import re
from dataclasses import replace
from pathlib import Path

import pytest
from hypothesis import given, reject, settings
from hypothesis import strategies as st
from post_cases import EVERY_KIND, ZERO, text_of
from post_mini_reader import read
from post_paths import assert_same
from post_programs import programs

from jawcam.errors import InputError
from jawcam.motion.moves import (
    ArcFeed,
    Begin,
    Drill,
    Dwell,
    End,
    LineFeed,
    Rapid,
    Spindle,
    ToolChange,
    WorkOffset,
)
from jawcam.motion.passes import shifted
from jawcam.post.dialect import load
from jawcam.reader.controls import CONTROLS
from jawcam.reader.modal import Group
from jawcam.reader.read import read_as
from jawcam.resources import folder
from jawcam.units import Units

SHIPPED = (folder("posts") / "rs274ngc-mill.toml").read_text(encoding="utf-8")
RADIUS_WORDS = {
    "passes": '["split_full_circles", "split_arcs"]',
    "decimals": "{ mm = 4, inch = 5 }",
    "spaces": "false",
    "blank_lines": "false",
    "step": "5",
    "trailing_zeros": "true",
    "modal": '["coordinates"]',
    "case": '"upper"',
    "approach": '"together"',
    "centre": '"radius"',
    "full_circles": "false",
    "largest_sweep": "90",
}
ABSOLUTE_CENTRES = {
    "centre": '"absolute"',
    "centre_decimals": "{ mm = 3, inch = 4 }",
    "point": '"as needed"',
    "leading_zero": "false",
    "open": '""',
    "head": '["%"]',
    "close": '""',
    "modal": "[]",
}
FEW_DECIMALS = {
    "decimals": "{ mm = 2, inch = 3 }",
    "centre_decimals": "{ mm = 2, inch = 3 }",
}
WHOLE_STEPS = {"point": '"never"', "centre_decimals": "{ mm = 3, inch = 4 }"}


@pytest.fixture
def odd(tmp_path):
    """Write a post that differs in the given keys and load it."""

    def build(changes):
        text = SHIPPED
        for key, value in changes.items():
            text, count = re.subn(rf"(?m)^{key} = .*$", f"{key} = {value}", text)
            assert count, key
        (tmp_path / "odd.toml").write_text(text, encoding="utf-8")
        return load("odd.toml", near=tmp_path)

    return build


@pytest.mark.parametrize("units", Units)
def test_arcs_by_radius_without_spaces_and_with_sequence_numbers(odd, units):
    text = text_of(EVERY_KIND, odd(RADIUS_WORDS), units, ZERO)
    arcs = [move for move in read(text).moves if move.kind == "arc"]
    assert len(arcs) > 10
    assert not re.search(r"[IJ]\d", text)
    assert max(abs(arc.turn) for arc in arcs) < 1.58


def test_the_look_of_it(odd):
    motions = (ToolChange(1, "drill"), Rapid((1, 2, 3)), ArcFeed((2, 3, 3), (1, 3), True, 80))
    assert text_of(motions, odd(RADIUS_WORDS), Units.MM, (0, 0, 0)).splitlines() == [
        "N10G53G0Z0.",
        "(T1 DRILL)",
        "N15T1M6",
        "N20G0G43H1X1.0000Y2.0000Z3.0000",
        "N25G3X2.0000Y3.0000R1.0000F80",
    ]


@pytest.mark.parametrize("units", Units)
def test_arcs_by_absolute_centres_and_nothing_modal(odd, units):
    text = text_of(EVERY_KIND, odd(ABSOLUTE_CENTRES), units, ZERO)
    moves = read(text, centre="absolute").moves
    assert sum(move.kind == "arc" for move in moves) == sum(
        isinstance(motion, ArcFeed) for motion in EVERY_KIND
    )
    assert "(" not in text
    level = [line for line in text.splitlines() if line.startswith("G3 ") and "Z" not in line]
    assert len(level) == sum(move.kind == "arc" for move in moves) - 1  # the helix tells its Z
    assert not re.search(r"\.(?!\d)|[A-Z]-?0\.", text.replace("Z0.\n", ""))
    cutting = [line for line in text.splitlines() if line.startswith(("G1", "G2 ", "G3"))]
    assert all({"X", "Y", "F"} <= set(line) for line in cutting)


@pytest.mark.parametrize("units", Units)
def test_with_too_few_decimals_for_the_radius_rule_arcs_still_pass_it(odd, units):
    dialect = odd(FEW_DECIMALS)
    motions = [ToolChange(1, "a"), Rapid((7.777, 0, 0))]
    for n in range(1, 40):
        end = (7.777 + n * 0.813, n * n * 0.0331, 0.0)
        x, y = motions[-1].to[:2]
        middle = ((x + end[0]) / 2, (y + end[1]) / 2)
        centre = (middle[0] - (end[1] - y) * 0.4, middle[1] + (end[0] - x) * 0.4)
        motions.append(ArcFeed(end, centre, n % 2 == 0, 100))
    moves = read(text_of(motions, dialect, units, (0, 0, 0))).moves
    assert {move.kind for move in moves} == {"rapid", "line", "arc"}


def test_whole_steps(odd):
    motions = (ToolChange(1, "a"), Rapid((0, 0, 1.5)), LineFeed((-0.25, 10, 1.5), 80))
    text = text_of(motions, odd(WHOLE_STEPS), Units.MM, (0, 0, 0))
    assert text.splitlines()[-3:] == ["G0 X0 Y0", "G43 H1 Z1500", "G1 X-250 Y10000 F80"]


# What follows is of a whole file, with habits that no shipped post has.
UNLIKE_ANY = load("unlike-any.toml", near=Path(__file__).parent)


def _odd_control():
    """How a control with those habits reads: a row of its own, and no line of code."""
    row = CONTROLS["iso6983-mill"]
    units = Group("units", "units", {"G20": "inch", "G21": "mm"})
    groups = tuple(units if group.name == "units" else group for group in row.groups)
    return replace(
        row,
        name="odd",
        title="a control that nobody builds",
        groups=groups,
        comment=(";", ""),
        dwell=("P", 0.001),
        radius_arcs=True,
    )


ODD_CONTROL = _odd_control()
OFFSETS = {"G54": 1, "G55": 2, "G54.1 P1": 7, "G54.1 P2": 8}


@pytest.mark.parametrize("units", Units)
def test_a_dialect_unlike_any_that_ships_is_read_back_without_a_fault(units):
    plain = tuple(replace(m, peck=None) if isinstance(m, Drill) else m for m in EVERY_KIND)
    program = read_as(text_of(EVERY_KIND, UNLIKE_ANY, units, ZERO), ODD_CONTROL)
    assert program.faults == ()
    program = read_as(text_of(plain, UNLIKE_ANY, units, ZERO), ODD_CONTROL)
    assert program.faults == ()
    assert program.ended
    assert_same(program, shifted(plain, ZERO), UNLIKE_ANY, units)
    dwells = [change.value for change in program.changes if change.kind == "dwell"]
    assert dwells == ["0.25 s"] * 2 + ["1.5 s"] * 2


@settings(max_examples=25, deadline=None)
@given(programs(), st.sampled_from(Units))
def test_any_program_in_it_is_read_back_to_the_moves_that_were_planned(motions, units):
    try:
        text = text_of(motions, UNLIKE_ANY, units, (0.0, 0.0, 0.0))
    except InputError as error:  # a cut too short for this control with nothing to merge it into
        if all("shorter" in fault.what for fault in error.faults):
            reject()
        raise
    program = read_as(text, ODD_CONTROL)
    assert program.faults == ()
    assert_same(program, motions, UNLIKE_ANY, units)


def test_how_it_looks():
    motions = (
        Begin("ä (1)", ("Ø 8",)),
        WorkOffset(4),
        ToolChange(1, "drill"),
        Spindle(900),
        Rapid((1, 2, 3)),
        ArcFeed((2, 3, 3), (1, 3), True, 80),
        Dwell(0.25),
        ToolChange(2, "reamer"),
        End(),
    )
    assert text_of(motions, UNLIKE_ANY, Units.MM, (0, 0, 0)).splitlines() == [
        ";AE , 1",
        ";DIA 8",
        ";WORK OFFSET 4 IS G54.1 P2",
        "G40 G80 G90",
        "G21 G17 G94",
        "G54.1 P2",
        "G91 G28 Z0.",
        "G90",
        "",
        ";TOOL 1 IS DRILL",
        "N00010 T1 M6",
        "M3 S900",
        "Y+2.0000 X+1.0000 G00",
        "Z+3.0000 G00 G43 H1",
        "F80 Y+3.0000 X+2.0000 R1.0000 G03",
        "G04 P250",
        "M5",
        "G91 G28 Z0.",
        "G90",
        "/M01",
        "",
        ";TOOL 2 IS REAMER",
        "N00110 T2 M6",
        "",
        "G91 G28 Z0.",
        "G90",
        "M02",
    ]


@pytest.mark.parametrize("word", OFFSETS)
def test_work_offsets_beyond_six_are_words_of_a_list(word):
    number = list(OFFSETS).index(word) + 1
    motions = (
        WorkOffset(number),
        ToolChange(1, "a"),
        Rapid((1, 2, 3)),
        LineFeed((2, 2, 3), 90),
        End(),
    )
    program = read_as(text_of(motions, UNLIKE_ANY, Units.MM, (0, 0, 0)), ODD_CONTROL)
    assert program.faults == ()
    assert program.cuts[-1].work_offset == OFFSETS[word]
