"""Drilled holes: as the cycles of NISTIR 6556 section 3.5.16 where a post has them, else as moves,
and either way the same holes."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from post_cases import EVERY_KIND, MILLS, ZERO, load, text_of

from jawcam.errors import InternalError
from jawcam.motion.moves import (
    Begin,
    Compensate,
    Drill,
    Dwell,
    End,
    LineFeed,
    Rapid,
    Remark,
    Spindle,
    ToolChange,
    WorkOffset,
)
from jawcam.reader.controls import CONTROLS
from jawcam.reader.read import read
from jawcam.units import Units

DIALECTS = {name: load(name) for name in MILLS}
CYCLES = DIALECTS["rs274ngc-mill"].cycles
CYCLED = tuple(
    name
    for name, dialect in DIALECTS.items()
    if any("G81" in group.codes for group in CONTROLS[dialect.control].groups)
)
"""The posts whose controls read a drilling cycle."""


def native(dialect):
    """The dialect with the words of cycles."""
    passes = tuple(name for name in dialect.passes if name != "cycles_to_moves")
    return replace(dialect, passes=passes, cycles=CYCLES)


def written_out(dialect):
    """The dialect without."""
    none = replace(CYCLES, drill="", dwell="", peck="", peck_dwell="")
    return replace(dialect, passes=("cycles_to_moves", *dialect.passes), cycles=none)


def lines_of(*motions, post="rs274ngc-mill", units=Units.MM, zero=(0.0, 0.0, 0.0)):
    return text_of(motions, DIALECTS[post], units, zero).splitlines()


def path_of(*motions, post="rs274ngc-mill"):
    """The moves read back: T traverse, F feed, and the end."""
    text = text_of((*motions, End()), DIALECTS[post], Units.MM, (0.0, 0.0, 0.0))
    cuts = read(text, DIALECTS[post].control).cuts
    return [("T" if cut.kind == "rapid" else "F", *cut.end) for cut in cuts]


AT = (ToolChange(1, "drill"), Rapid((1, 2, 3)))


@pytest.mark.parametrize("post", MILLS)
def test_the_first_example_of_the_report(post):
    # Section 3.5.16.1, example 1: from (1, 2, 3), G81 G98 X4 Y5 Z1.5 R2.8.
    moves = path_of(*AT, Drill((4, 5), 3, 2.8, 1.5, 9), post=post)[2:]
    assert moves == [("T", 4, 5, 3), ("T", 4, 5, 2.8), ("F", 4, 5, 1.5), ("T", 4, 5, 3)]


def test_the_words_of_each_kind_of_hole():
    plain = Drill((4, 5), 3, 1, -2, 90)
    holes = (plain, replace(plain, dwell=0.5), replace(plain, peck=1.25))
    assert lines_of(*AT, *holes)[-3:] == [
        "G98 G81 X4. Y5. Z-2. R1. F90",
        "G98 G82 X4. Y5. Z-2. R1. P0.5",
        "G98 G83 X4. Y5. Z-2. R1. Q1.25",
    ]


def test_numbers_are_seen_from_zero_in_the_units_of_the_program():
    hole = Drill((25.4, 0), 12.7, 2.54, -25.4, 127, peck=5.08)
    lines = lines_of(Rapid((0, 0, 12.7)), hole, units=Units.INCH, zero=(0, -25.4, -2.54))
    assert lines[-1] == "G98 G83 X1. Y1. Z-0.9 R0.2 Q0.2 F5."


def test_a_cycle_ends_before_anything_else_and_all_is_written_anew():
    hole = Drill((4, 5), 3, 1, -2, 90)
    for after in (Remark("x"), Spindle(0), Dwell(1), WorkOffset(2), ToolChange(2, "a"), End()):
        lines = lines_of(*AT, hole, hole, after)
        assert lines.count("G80") == 1
        assert lines[lines.index("G98 G81 X4. Y5. Z-2. R1.") + 1] == "G80", after
    assert lines_of(*AT, hole, hole, Rapid((4, 6, 3)))[-2:] == ["G80", "G0 Y6."]
    assert lines_of(*AT, hole, LineFeed((4, 5, 2), 90))[-2:] == ["G80", "G1 Z2."]


def test_the_first_hole_of_a_tool_is_come_to_as_any_place():
    assert lines_of(ToolChange(3, "drill"), Drill((4, 5), 9, 1, -2, 90))[-3:] == [
        "G0 X4. Y5.",
        "G43 H3 Z9.",
        "G98 G81 X4. Y5. Z-2. R1. F90",
    ]


def test_the_height_over_a_hole_counts_for_the_clear_height():
    motions = (ToolChange(3, "drill"), Drill((4, 5), 9, 1, -2, 90), Rapid((4, 5, 3)), End())
    lines = text_of(motions, native(DIALECTS["iso6983-mill"]), Units.MM, (0, 0, 0)).splitlines()
    assert lines[-3].endswith("G00 Z9.")


def test_compensation_ends_before_a_hole():
    # NISTIR 6556 appendix B: no canned cycle under cutter compensation.
    hole = Drill((4, 5), 3, 1, -2, 90)
    line = LineFeed((2, 2, 3), 90)
    lines = lines_of(*AT, Compensate("left", 1), line, Compensate("off"), hole)
    assert lines[-2:] == ["G40", "G98 G81 X4. Y5. Z-2. R1."]
    with pytest.raises(InternalError, match="waiting"):
        lines_of(*AT, Compensate("left", 1), hole)


def test_a_hole_is_drilled_from_its_clear_height_alone():
    # Section 3.5.16: under G98 the tool returns to the height that it came from.
    for z in (2.9, 3.1):
        with pytest.raises(InternalError, match="not from its clear"):
            lines_of(Rapid((0, 0, z)), Drill((4, 5), 3, 1, -2, 90))
    with pytest.raises(InternalError, match="out of order"):
        lines_of(Rapid((0, 0, 3)), Drill((4, 5), 3, 1, 2, 90))


@pytest.mark.parametrize("units", Units)
def test_no_peck_more_than_planned_for_the_sake_of_rounding(units):
    # 10.5 / 3.5: three pecks; in inches 3.5 is rounded, and three times that is short of 10.5.
    for start in (0.0, 0.0004, 1.0004):
        hole = Drill((0, 0), 3, start, start - 10.5, 90, peck=3.5)
        text = text_of((Rapid((0, 0, 3)), hole, End()), DIALECTS["rs274ngc-mill"], units, (0, 0, 0))
        downs = [cut for cut in read(text, "rs274ngc-mill").cuts if cut.kind == "line"]
        assert len(downs) == 3


def whole(cuts):
    """All that cuts are but their places in the text."""
    return [cut._replace(line=0, column=0, step=0, calls=()) for cut in cuts]


def cells(cuts, units):
    """Feeds and level rapids, their ends in steps of the program: how a peck comes out and back to
    where it was is the control's own way. nan where the text hasn't told an axis."""
    step = units.in_mm * 10.0 ** -(4 if units is Units.INCH else 3)
    return [
        (cut.kind, cut.tool, cut.work_offset, *(value / step for value in cut.end))
        for cut in cuts
        if cut.kind != "rapid" or cut.start[:2] != cut.end[:2]
    ]


def test_most_controls_have_cycles():
    assert len(CYCLED) >= 4


@pytest.mark.parametrize("units", Units)
@pytest.mark.parametrize("name", CYCLED)
def test_cycles_drill_what_their_moves_would(name, units):
    plain = tuple(replace(m, peck=None) if isinstance(m, Drill) else m for m in EVERY_KIND)
    pair = [way(DIALECTS[name]) for way in (native, written_out)]
    for motions in (plain, EVERY_KIND):
        one, other = (read(text_of(motions, d, units, ZERO), d.control) for d in pair)
        assert one.faults == other.faults == ()
        assert [c[:2] for c in one.changes] == [c[:2] for c in other.changes]
        if motions is plain:
            assert str(whole(one.cuts)) == str(whole(other.cuts))  # nan is never equal
        assert len(cells(one.cuts, units)) > 30
        for a, b in zip(cells(one.cuts, units), cells(other.cuts, units), strict=True):
            assert a == pytest.approx(b, abs=0.01, nan_ok=True)


class Planned:
    """The feeds and level rapids of motions as `cells` has them, worked out anew: kind, tool,
    offset, X, Y, Z (None: not told yet) in whole steps, and by how many Z may differ."""

    def __init__(self, motions, units):
        self.step = units.in_mm * 10.0 ** -(4 if units is Units.INCH else 3)
        self.out, self.at, self.tool, self.offset, self.fresh = [], (None, None, None), 0, 1, True
        for motion in motions:
            match motion:
                case ToolChange(number):
                    self.tool, self.fresh = number, True
                case WorkOffset(number) if number != self.offset:
                    self.offset, self.fresh, self.at = number, True, (None, None, None)
                case Rapid(to):
                    self.rapid(to)
                case LineFeed(to):
                    self.line(to)
                case Drill():
                    self.hole(motion)

    def cell(self, point):
        return tuple(round(value / self.step) for value in point)

    def note(self, kind, x, y, z, slack):
        self.out.append((kind, self.tool, self.offset, x, y, z, slack))

    def rapid(self, to):
        x, y, z = self.cell(to)
        if (x, y) != self.at[:2]:  # at first it goes across before anything is known of Z
            self.note("rapid", x, y, None if self.fresh else z, 0)
        self.at, self.fresh = (x, y, z), False

    def line(self, to, slack=0):
        if self.cell(to) != self.at:
            self.note("line", *self.cell(to), slack)
        self.at = self.cell(to)

    def hole(self, hole):
        self.rapid((*hole.at, hole.clear))
        depth, count = hole.start, 0
        while hole.peck and depth - hole.peck > hole.bottom + 1e-6:
            depth, count = depth - hole.peck, count + 1
            self.line((*hole.at, depth), slack=count + 1)
        self.line((*hole.at, hole.bottom))
        self.at = self.cell((*hole.at, hole.clear))


def is_same(got, want):
    """Whether the text says a place, to the step; of a depth between, to `slack` steps."""
    *words, x, y, z, slack = want
    level = all(abs(a - b) <= 0.01 for a, b in zip(got[3:5], (x, y), strict=True))
    return [*got[:3]] == words and level and (z is None or abs(got[5] - z) <= slack + 0.01)


PLACES = st.floats(-90, 90)


@st.composite
def holes(draw, clear):
    """A hole; its last peck no mere rounding."""
    start = clear - draw(st.sampled_from([0.0, 0.0007, 1.0, 3.3333]))
    depth = draw(st.floats(1, 30))
    peck = draw(st.one_of(st.none(), st.just(0)))
    if peck is not None:
        peck = depth / (draw(st.integers(1, 5)) - draw(st.floats(0, 0.8)))
    dwell = draw(st.sampled_from([0.0, 0.25])) if peck is None else 0.0
    at = (draw(PLACES), draw(PLACES))
    return Drill(at, clear, start, start - depth, 150, peck=peck, dwell=dwell)


@st.composite
def jobs(draw):
    """Stations, tools, moves and holes in any order."""
    motions = [Begin("holes"), WorkOffset(1), ToolChange(1, "drill"), Spindle(900)]
    motions.append(Rapid((0.0, 0.0, 20.0)))
    for _ in range(draw(st.integers(1, 6))):
        kind = draw(st.sampled_from(["rapid", "line", "holes", "holes", "offset", "tool", "say"]))
        z = draw(st.floats(5, 25))
        to = Rapid((draw(PLACES), draw(PLACES), z))
        match kind:
            case "rapid":
                motions.append(to)
            case "line":
                motions.append(LineFeed(to.to, 200))
            case "holes":
                motions.append(to)
                motions.extend(draw(st.lists(holes(z), min_size=1, max_size=3)))
            case "offset":
                motions += [WorkOffset(draw(st.integers(1, 3))), to]
            case "tool":
                motions += [ToolChange(draw(st.integers(1, 9)), "drill"), Spindle(800), to]
            case "say":
                motions.append(Remark("on with it"))
    return (*motions, End())


@settings(max_examples=150, deadline=None)
@given(
    jobs(), st.sampled_from(MILLS), st.sampled_from([native, written_out]), st.sampled_from(Units)
)
def test_any_job_of_holes_and_stations_is_read_as_it_was_planned(motions, name, way, units):
    dialect = written_out(DIALECTS[name]) if name not in CYCLED else way(DIALECTS[name])
    program = read(text_of(motions, dialect, units, (0.0, 0.0, 0.0)), dialect.control)
    assert program.faults == ()
    got, want = cells(program.cuts, units), Planned(motions, units).out
    assert len(got) == len(want)
    for one, other in zip(got, want, strict=True):
        assert is_same(one, other), (one, other)
    for one, following in zip(program.cuts, program.cuts[1:], strict=False):
        for a, b in zip(one.end, following.start, strict=True):
            assert a == b or math.isnan(b)
    dwells = [change.value for change in program.changes if change.kind == "dwell"]
    assert dwells == ["0.25 s"] * sum(isinstance(m, Drill) and m.dwell > 0 for m in motions)
