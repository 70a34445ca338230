"""What the posts write, read back by the reader, which shares no code with them."""

from __future__ import annotations

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from post_cases import EVERY_KIND, MILLS, ZERO, load, text_of
from post_paths import assert_same
from post_programs import programs

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
from jawcam.reader.read import read
from jawcam.units import Units

DIALECTS = {name: load(name) for name in MILLS}
START = (Rapid((10.0, 0.0, 20.0)), Rapid((10.0, 0.0, -2.0)))


@pytest.mark.parametrize("units", Units)
@pytest.mark.parametrize("name", MILLS)
def test_every_kind_of_motion_is_read_without_a_fault(name, units):
    program = read(text_of(EVERY_KIND, load(name), units, ZERO), load(name).control)
    assert program.faults == ()
    assert program.ended
    assert program.units == units.value
    cutting = [cut for cut in program.cuts if cut.kind != "rapid"]
    assert {cut.side for cut in cutting} == {"off", "left", "right"}
    assert {(cut.tool, cut.length_offset) for cut in cutting} == {(n, n) for n in (3, 12, 5, 6)}
    assert {cut.work_offset for cut in program.cuts} == {1, 2}
    assert {cut.register for cut in cutting if cut.side != "off"} == {3, 12}
    assert {(cut.tool, cut.spindle, cut.rpm) for cut in cutting} == {
        (3, "cw", 7958),
        (12, "ccw", 4000),
        (5, "cw", 3000),
        (6, "cw", 2800),
    }
    kinds = [change.kind for change in program.changes]
    assert kinds.count("tool") == 4
    dwells = [change.value for change in program.changes if change.kind == "dwell"]
    assert dwells == ["0.25 s"] * 2 + ["1.5 s"] * 2


@st.composite
def paths(draw):
    """Arcs and lines, end to end."""
    here, moves = START[-1].to, []
    for _ in range(draw(st.integers(1, 8))):
        x, y = draw(st.floats(-90, 90)), draw(st.floats(-90, 90))
        z = draw(st.sampled_from([here[2], -3.5]))
        bow = draw(st.sampled_from([0.0, 0.05, 0.4, 3.0, -1.0, "full"]))
        if bow == "full" and math.dist((x, y), here[:2]) > 0.01:
            moves.append(ArcFeed((*here[:2], z), (x, y), draw(st.booleans()), 250))
        elif bow and bow != "full" and math.dist((x, y), here[:2]) > 1e-6:
            # The centre lies across the chord, 1 / bow times its half away.
            middle = ((x + here[0]) / 2, (y + here[1]) / 2)
            across = (-(y - here[1]) / 2 / bow, (x - here[0]) / 2 / bow)
            centre = (middle[0] + across[0], middle[1] + across[1])
            moves.append(ArcFeed((x, y, z), centre, draw(st.booleans()), 250))
        else:
            moves.append(LineFeed((x, y, z), 250))
        here = moves[-1].to
    return tuple(moves)


@settings(max_examples=60, deadline=None)
@given(paths(), st.sampled_from(MILLS), st.sampled_from(Units))
def test_any_path_is_read_without_a_fault_and_ends_where_it_should(path, name, units):
    motions = (Begin("path"), ToolChange(1, "end mill"), Spindle(5000), *START, *path, End())
    text = text_of(motions, DIALECTS[name], units, (0.0, 0.0, 0.0))
    program = read(text, DIALECTS[name].control)
    assert program.faults == ()
    last = [cut for cut in program.cuts if cut.kind != "rapid"] or [program.cuts[-1]]
    step = units.in_mm * 10.0 ** -DIALECTS[name].numbers.decimals.of(units)
    assert math.dist(last[-1].end, path[-1].to) <= step
    turned = sum(abs(cut.turn) for cut in program.cuts if cut.kind == "arc")
    assert turned <= math.tau * len(path) + 0.01


@settings(max_examples=150, deadline=None)
@given(programs(), st.sampled_from(MILLS), st.sampled_from(Units))
def test_any_program_is_read_back_to_the_moves_that_were_planned(motions, name, units):
    dialect = DIALECTS[name]
    program = read(text_of(motions, dialect, units, (0.0, 0.0, 0.0)), dialect.control)
    assert program.faults == ()
    assert program.ended
    assert_same(program, motions, dialect, units)
    dwells = [m.seconds for m in motions if isinstance(m, Dwell)]
    dwells += [m.dwell for m in motions if isinstance(m, Drill) and m.dwell]
    told = [float(c.value.split()[0]) for c in program.changes if c.kind == "dwell"]
    assert sorted(told) == sorted(dwells)


@pytest.mark.parametrize("name", MILLS)
def test_every_work_offset_of_a_post_is_read_as_the_one_it_is(name):
    """Those beyond six too, whatever word they have."""
    dialect = DIALECTS[name]
    for number in range(1, len(dialect.work_offsets) + 1):
        work = (*START, LineFeed((12.0, 0.0, -2.0), 90))
        motions = (Begin("a"), WorkOffset(number), ToolChange(1, "a"), Spindle(900), *work, End())
        program = read(text_of(motions, dialect, Units.MM, (0.0, 0.0, 0.0)), dialect.control)
        assert program.faults == ()
        assert {cut.work_offset for cut in program.cuts if cut.kind == "line"} == {number}


def test_posts_with_more_than_six_work_offsets_ship():
    assert {len(DIALECTS[name].work_offsets) for name in MILLS} >= {6, 9, 12}
