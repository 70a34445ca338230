"""Several stations in one program: up, the other work offset, across and down."""

from __future__ import annotations

from dataclasses import replace

import pytest
from post_cases import MILLS, load, text_of

from jawcam.motion.moves import (
    Begin,
    Compensate,
    Drill,
    End,
    LineFeed,
    Rapid,
    Spindle,
    ToolChange,
    WorkOffset,
)
from jawcam.post.write import write
from jawcam.reader.read import read
from jawcam.units import Units

NIST, ISO = load("rs274ngc-mill"), load("iso6983-mill")
TOOL = (ToolChange(3, "end mill 8"), Spindle(900))


def station(number, zero=(0.0, 0.0, 0.0), clear=20.0):
    """The work at a station, as seen from its own zero."""
    x, y, z = zero
    return (
        WorkOffset(number),
        Rapid((5 - x, 6 - y, clear - z)),
        Rapid((5 - x, 6 - y, 2 - z)),
        LineFeed((9 - x, 6 - y, -1 - z), 300),
        Rapid((9 - x, 6 - y, clear - z)),
    )


def lines_of(*motions, dialect=NIST):
    return text_of(motions, dialect, Units.MM, (0.0, 0.0, 0.0)).splitlines()


def about(lines, word):
    """The last such line, two before and two after, without sequence numbers and blank lines."""
    bare = [" ".join(w for w in line.split() if w[0] != "N") for line in lines]
    bare = [line for line in bare if line]
    at = len(bare) - 1 - bare[::-1].index(word)
    return bare[at - 2 : at + 3]


def test_machine_zero_of_z_between_stations():
    lines = lines_of(*TOOL, *station(1), *station(2))
    assert about(lines, "G55") == ["G0 Z20.", "G53 G0 Z0.", "G55", "G0 X5. Y6.", "Z20."]


def test_a_clear_height_between_stations_where_the_tool_is_not_there_yet():
    high = (*station(1), Rapid((9, 6, 40)), Rapid((9, 6, 12)))
    lines = lines_of(*TOOL, *high, *station(2), dialect=ISO)
    assert about(lines, "G55") == ["Z12.", "G00 Z40.", "G55", "G00 X5. Y6.", "Z20."]
    lines = lines_of(*TOOL, *station(1), *station(2), dialect=ISO)
    assert about(lines, "G55") == ["G01 X9. Z-1. F300", "G00 Z20.", "G55", "G00 X5. Y6.", "Z20."]


def test_the_clear_height_is_that_of_the_work_offset_in_force():
    # The second station's zero lies 30 lower: the same height is Z50 there.
    second = (*station(2, (0, 0, -30)), Rapid((9, 6, 33)))
    end = lines_of(*TOOL, *station(1), *second, End(), dialect=ISO)
    assert about(end, "M30")[:2] == ["M05", "G00 Z50."]
    back = (*station(1), Rapid((9, 6, 3)), ToolChange(4, "a"))
    lines = lines_of(*TOOL, *station(1), *second, *back, dialect=ISO)
    assert about(lines, "T04 M06")[:2] == ["G00 Z20.", "(T04 A)"]
    assert about(lines, "G54")[:2] == ["Z33.", "G00 Z50."]


@pytest.mark.parametrize("dialect", [NIST, ISO])
def test_where_nothing_has_moved_there_is_nothing_to_rise_from(dialect):
    first = lines_of(Begin("a"), WorkOffset(2), *TOOL, dialect=dialect)
    assert sum("Z" in line for line in first) == len(dialect.tools.first)
    changed = lines_of(*TOOL, *station(1), ToolChange(4, "a"), WorkOffset(2), dialect=dialect)
    assert changed[-1].endswith("G55")
    assert changed[-2].endswith("M06" if dialect is ISO else "M6")
    after = (*TOOL, *station(1), ToolChange(4, "a"), *station(2))
    assert any("G43 H" in line for line in lines_of(*after, dialect=dialect)[-5:])


def test_a_work_offset_in_force_makes_no_lines():
    assert lines_of(*TOOL, *station(1), WorkOffset(1)) == lines_of(*TOOL, *station(1))


def test_compensation_and_a_cycle_end_before():
    # NISTIR 6556 appendix B: neither G53 nor another work offset under cutter compensation.
    line = LineFeed((12, 6, 20), 300)
    motions = (*TOOL, *station(1), Compensate("left", 3), line, Compensate("off"))
    lines = lines_of(*motions, *station(2))
    assert about(lines, "G55")[:3] == ["G40", "G53 G0 Z0.", "G55"]
    hole = Drill((5, 6), 20, 1, -3, 90)
    lines = lines_of(*TOOL, *station(1), hole, *station(2))
    assert about(lines, "G55")[:3] == ["G80", "G53 G0 Z0.", "G55"]


def test_between_stations_without_lines():
    dialect = replace(NIST, stations=replace(NIST.stations, between=()))
    lines = lines_of(*TOOL, *station(1), *station(2), dialect=dialect)
    assert about(lines, "G55") == ["G1 X9. Z-1. F300", "G0 Z20.", "G55", "G0 X5. Y6.", "Z20."]


@pytest.mark.parametrize("name", MILLS)
@pytest.mark.parametrize("units", Units)
def test_stations_that_have_their_own_zeros_already(name, units):
    zeros = ((0.0, 0.0, 0.0), (-65.0, -20.0, -30.0))
    parts = [station(n, zero) for n, zero in enumerate(zeros, 1)]
    text = write((Begin("two"), *TOOL, *parts[0], *parts[1], End()), load(name), units=units)
    program = read(text, load(name).control)
    assert program.faults == ()
    for n, zero in enumerate(zeros, 1):
        cut = next(c for c in program.cuts if c.kind == "line" and c.work_offset == n)
        wanted = tuple(a - b for a, b in zip((9, 6, -1), zero, strict=True))
        assert cut.end == pytest.approx(wanted, abs=0.002)
