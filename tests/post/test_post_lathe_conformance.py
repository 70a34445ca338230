"""What must hold of every post of a lathe that ships, whichever it is."""

from __future__ import annotations

import math
import re

import pytest
from lathe_cases import EVERY_KIND, HEAD, ROUGH
from post_cases import LATHES, load

from jawcam.motion.moves import (
    ArcFeed,
    End,
    FeedPer,
    LineFeed,
    Rapid,
    Spindle,
    SurfaceSpeed,
    ThreadCut,
    ToolChange,
)
from jawcam.post.write import write
from jawcam.reader.read import read
from jawcam.units import Units

every_lathe = pytest.mark.parametrize("name", LATHES)
both_units = pytest.mark.parametrize("units", Units)


def text_of(name, units, motions=EVERY_KIND):
    return write(motions, load(name), units=units)


def program_of(name, units, motions=EVERY_KIND):
    program = read(text_of(name, units, motions), load(name).control)
    assert program.faults == ()
    return program


@every_lathe
@both_units
def test_the_text_says_the_positions_that_were_planned_in_their_order(name, units):
    """X in steps of a diameter, so half a step of X is a quarter of one in the radius."""
    step = units.in_mm * 10.0 ** -load(name).numbers.decimals.of(units)
    ends = iter(cut.end for cut in program_of(name, units).cuts)
    for motion in EVERY_KIND:
        if isinstance(motion, Rapid | LineFeed | ArcFeed | ThreadCut):
            z, x, _ = motion.to
            assert any(
                abs(end[0] - x) <= step / 4 + 1e-9 and abs(end[2] - z) <= step / 2 + 1e-9
                for end in ends
            ), motion


@every_lathe
@both_units
def test_tools_offsets_speeds_and_sides(name, units):
    program = program_of(name, units)
    cutting = [cut for cut in program.cuts if cut.kind != "rapid"]
    assert list(dict.fromkeys((cut.tool, cut.length_offset) for cut in cutting)) == [
        (1, 1),
        (2, 12),
        (5, 5),
        (7, 7),
        (9, 9),
    ]
    by_tool = {cut.tool: cut for cut in cutting}
    for tool, surface, clamp in ((1, 180, 2500), (2, 240, 3000), (9, 110, 1500)):
        cut = by_tool[tool]
        assert cut.surface == pytest.approx(surface, abs=0.16)  # half a ft/min
        assert (cut.clamp, cut.rpm, cut.spindle) == (clamp, 0, "cw")
    assert [(by_tool[n].surface, by_tool[n].rpm, by_tool[n].spindle) for n in (5, 7)] == [
        (0, 1800, "cw"),
        (0, 900, "ccw"),
    ]
    sided = [(cut.side, cut.register) for cut in cutting if cut.side != "off"]
    assert sided == [("right", 12)] * 2
    assert {cut.plane for cut in program.cuts} == {"XZ"}
    assert {cut.start[1] for cut in program.cuts} == {0.0}


@every_lathe
@both_units
def test_feeds_count_as_they_were_planned(name, units):
    numbers = load(name).numbers
    turn = units.in_mm * 10.0 ** -numbers.turn_decimals.of(units) / 2 + 1e-9
    minute = units.in_mm * 10.0 ** -numbers.feed_decimals.of(units) / 2 + 1e-9
    cuts = [c for c in program_of(name, units).cuts if c.kind != "rapid"]
    wanted, by = [], "turn"
    for motion in EVERY_KIND:
        if isinstance(motion, FeedPer):
            by = motion.unit
        elif isinstance(motion, LineFeed | ArcFeed):
            wanted.append((motion.feed, by == "turn", 0.0))
        elif isinstance(motion, ThreadCut):
            wanted.append((motion.lead, True, motion.lead))
    assert len(cuts) == len(wanted)
    for cut, (feed, per_turn, lead) in zip(cuts, wanted, strict=True):
        assert cut.per_turn == per_turn
        assert cut.feed == pytest.approx(feed, abs=turn if per_turn else minute)
        assert cut.lead == pytest.approx(lead, rel=1e-4)


@every_lathe
def test_a_feed_is_told_anew_when_it_counts_by_something_else(name):
    """0.1 inch a turn and 0.1 inch a minute are the same F."""
    start = (*HEAD, ToolChange(1, "a"), Spindle(500), Rapid((1.0, 5.0, 0)))
    turn, minute = LineFeed((0.0, 5.0, 0), 2.54), LineFeed((-1.0, 5.0, 0), 2.54)
    text = text_of(name, Units.INCH, (*start, turn, FeedPer("minute"), minute, End()))
    feeds = [line.split() for line in text.splitlines() if line.endswith("F0.1")]
    words = load(name).feed
    assert [words.per_turn in line for line in feeds] == [True, False]
    assert [words.per_minute in line for line in feeds] == [False, True]


@every_lathe
@both_units
def test_every_constant_surface_speed_has_its_clamp_in_the_block_before(name, units):
    motions = (
        *HEAD,
        ToolChange(1, "a"),
        SurfaceSpeed(100, 2000),
        Rapid((1.0, 5.0, 0)),
        SurfaceSpeed(100, 2000),
        SurfaceSpeed(90, 1800),
        Spindle(500),
        SurfaceSpeed(100, 2000),
        ToolChange(2, "b"),
        SurfaceSpeed(100, 2000),
        End(),
    )
    lines = [re.sub(r"N\d+ ", "", line) for line in text_of(name, units, motions).splitlines()]
    starts = [n for n, line in enumerate(lines) if line.startswith("G96")]
    assert len(starts) == 5
    clamps = [re.fullmatch(r"G(50|92) S(\d+)", lines[n - 1]) for n in starts]
    assert [found and found[2] for found in clamps] == ["2000", "2000", "1800", "2000", "2000"]


@every_lathe
def test_words_come_in_the_usual_order(name):
    for line in text_of(name, Units.MM).splitlines():
        letters = "".join(re.findall(r"[XZIKF](?=[-0-9.])", "" if "(" in line else line))
        assert re.fullmatch("X?Z?I?K?F?", letters), line


@every_lathe
@both_units
def test_arcs_keep_their_way_round_and_their_centres(name, units):
    step = units.in_mm * 10.0 ** -load(name).numbers.decimals.of(units)
    arcs = [cut for cut in program_of(name, units).cuts if cut.kind == "arc"]
    wanted = [motion for motion in EVERY_KIND if isinstance(motion, ArcFeed)]
    assert len(arcs) == len(wanted)
    for cut, arc in zip(arcs, wanted, strict=True):
        assert (cut.turn > 0) == arc.ccw
        assert abs(cut.turn) < math.pi
        assert cut.centre == pytest.approx(arc.centre, abs=5 * step)


@every_lathe
def test_the_tool_comes_in_along_one_axis_after_the_other(name):
    """After a change from far out: along Z first, or as the post says."""
    cuts = program_of(name, Units.MM, (*HEAD, *ROUGH, End())).cuts
    first = next(n for n, cut in enumerate(cuts) if cut.end[0] == 17.0)
    along_z, across = cuts[first - 1 : first + 1]
    assert along_z.end[2] == across.end[2] == 2.0
    assert str(along_z.end[0]) == str(along_z.start[0])


@every_lathe
@both_units
def test_the_same_motions_give_the_same_text(name, units):
    assert text_of(name, units) == text_of(name, units, tuple(EVERY_KIND))


@every_lathe
def test_zero_shifts_what_is_written(name):
    """(Z, X, 0), as the motions are."""
    shifted = write(EVERY_KIND, load(name), units=Units.MM, zero=(-10.0, 0.0, 0.0))
    cuts = read(shifted, load(name).control).cuts
    plain = program_of(name, Units.MM).cuts
    assert cuts[-4].end[2] == pytest.approx(plain[-4].end[2] + 10)
    threads = [cut.end[2] for cut in cuts if cut.lead]
    assert threads == pytest.approx([-8, -8, -9])


@every_lathe
@both_units
def test_a_dwell_is_as_long_as_it_was_planned(name, units):
    changes = program_of(name, units).changes
    assert [change.value for change in changes if change.kind == "dwell"] == ["0.25 s"]
