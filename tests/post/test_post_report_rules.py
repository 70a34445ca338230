"""What the posts write against the rules of NISTIR 6556, The NIST RS274NGC Interpreter - Version 3,
August 2000 (sections beside each check). Dialects that are no RS274/NGC are held to them too, with
their own words for the units."""

from __future__ import annotations

import functools
import math
import re
from dataclasses import replace

import pytest
from post_cases import EVERY_KIND, MILLS, ZERO, load, text_of
from post_edit import edited
from post_mini_reader import GROUPS, MACHINE
from post_mini_reader import read as read_small
from post_styles import style_of
from sample_programs import planned

from jawcam.motion.moves import (
    ArcFeed,
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
from jawcam.reader.read import read
from jawcam.units import Units

NIST = load("rs274ngc-mill")
ORIGIN = (0.0, 0.0, 0.0)
every_mill = pytest.mark.parametrize("name", MILLS)
M_GROUPS = (  # table 4
    {0, 1, 2, 30, 60},
    {6},
    {3, 4, 5},
    {7, 8, 9},
    {48, 49},
)


@functools.cache
def blocks(name, units=Units.MM):
    """Words and values of each block, of every kind of motion and of a sample with compensation."""
    found = []
    (lever,) = planned("crank-lever")
    for motions, zero in ((EVERY_KIND, ZERO), (lever.motions, ORIGIN)):
        dialect = load(name)
        passes = tuple(one for one in dialect.passes if one != "repeats_to_calls")
        # The small reader calls no subprograms.
        text = text_of(motions, replace(dialect, passes=passes), units, zero)
        got = read_small(text, style=style_of(name), mismatch=(99, 99))
        found.append(list(zip(got.words, got.values, strict=True)))
    return tuple(found)


@functools.cache
def lever_text(name, units):
    (lever,) = planned("crank-lever")
    return text_of(lever.motions, load(name), units, ORIGIN)


def codes(words, letter="G"):
    return {f"{letter}{float(word[1:]):g}" for word in words if word[0] == letter}


@every_mill
@pytest.mark.parametrize("units", Units)
def test_no_line_is_longer_than_256_characters(name, units):
    """Section 3.3."""
    assert max(map(len, lever_text(name, units).splitlines())) <= 256


@every_mill
@pytest.mark.parametrize("units", Units)
def test_every_number_has_a_digit_and_none_an_exponent(name, units):
    """Section 3.3.2.1: a sign, digits, one point at most; no exponent form."""
    bare = re.sub(r"\(.*?\)|[%$]\d*", "", lever_text(name, units))
    words = re.findall(r"[A-Z][^A-Z\s]*", bare)
    assert len(words) > 500
    assert all(re.fullmatch(r"[A-Z][+-]?(\d+\.?\d*|\.\d+)", word) for word in words)


@every_mill
def test_a_block_holds_a_letter_once_and_one_word_of_each_modal_group(name):
    """Section 3.3.5 and table 4; four M words at most."""
    for part in blocks(name):
        for words, _ in part:
            letters = [word[0] for word in words if word[0] not in "GM"]
            assert len(letters) == len({*letters}), words
            for group in GROUPS:
                assert len(codes(words) & group) <= 1, words
            ms = [int(word[1:]) for word in words if word[0] == "M"]
            assert len(ms) <= 4
            assert all(len({*ms} & group) <= 1 for group in M_GROUPS), words


def arc_lines(*moves, dialect=NIST):
    text = text_of((ToolChange(1, "a"), *moves), dialect, Units.MM, ORIGIN)
    return [line for line in text.splitlines() if re.search(r"G0?[23] ", line)], text


def test_the_example_of_an_arc_by_its_centre():
    """Section 3.5.3.2: from X7 Y7 to X10 Y16 about (10, 11), I and J counted from the start even
    under G90 (section 3.5.17). It climbs to Z9 from 0."""
    arc = ArcFeed((10.0, 16.0, 9.0), (10.0, 11.0), False, 100)
    (line,), _ = arc_lines(Rapid((7.0, 7.0, 0.0)), arc)
    assert line == "G2 X10. Y16. Z9. I3. J4. F100"
    cut = read(arc_lines(Rapid((7.0, 7.0, 0.0)), arc)[1], NIST.control).cuts[-1]
    assert math.degrees(cut.turn) == pytest.approx(-143.1301, abs=1e-4)
    length = math.hypot(5 * cut.turn, 9)
    assert length == pytest.approx(15.3952, abs=1e-4)


@pytest.mark.parametrize("turn", [10, 90, 164, 166, 180, 200, 300, 359])
def test_an_arc_by_its_radius_is_never_near_half_a_turn_or_a_whole_one(tmp_path, turn):
    """Section 3.5.3.1: a positive radius up to 180 degrees; well under 165 is trusted, half a turn
    and nearly a whole one are not. The end is never the start, and an axis word is there."""
    dialect = edited(
        tmp_path,
        {
            "arcs.centre": '"radius"',
            "arcs.full_circles": "false",
            "arcs.largest_sweep": "165",
            "passes": '["split_full_circles", "split_arcs"]',
        },
    )
    angle = math.radians(turn)
    end = (5 * math.cos(angle), 5 * math.sin(angle), 0.0)
    _, text = arc_lines(
        Rapid((5.0, 0.0, 0.0)), ArcFeed(end, (0.0, 0.0), True, 100), dialect=dialect
    )
    found = [cut for cut in read(text, dialect.control).cuts if cut.kind == "arc"]
    assert all(math.degrees(cut.turn) <= 165 for cut in found)
    assert sum(cut.turn for cut in found) == pytest.approx(angle, abs=1e-3)
    radii = re.findall(r"R(\S+)", text)
    assert len(radii) == len(found) == math.ceil(turn / 165)
    assert all(
        float(radius) == pytest.approx(5, abs=0.1 if turn < 90 else 0.002) for radius in radii
    )


@every_mill
def test_an_arc_tells_an_end_and_a_centre(name):
    """Section 3.5.3.2: one axis word of the plane at least, a full circle's too, and one offset at
    least."""
    motion = ""
    for part in blocks(name):
        for words, values in part:
            motion = next(
                iter(codes(words) & {"G0", "G1", "G2", "G3", "G81", "G82", "G83"}), motion
            )
            if motion in ("G2", "G3") and values.keys() & {*"XYZIJ"}:
                assert values.keys() & {*"XY"}, words
                assert values.keys() & {*"IJ"}, words
                assert any(values.get(letter) for letter in "IJ"), words


def test_a_helix_tells_its_third_axis_and_the_feed_along_it():
    """Section 3.5.3 and 2.1.2.6: F counts along the helix, so the feed planned is the one written,
    whatever its rise."""
    start, turn = Rapid((5.0, 0.0, 0.0)), ArcFeed((5.0, 0.0, -2.0), (0.0, 0.0), True, 321)
    (line,), _ = arc_lines(start, turn)
    assert line == "G3 X5. Y0. Z-2. I-5. J0. F321"


def compensated(name):
    """The stretches of blocks from G41 or G42 to G40, both within."""
    for part in blocks(name):
        stretch = None
        for words, values in part:
            on = codes(words) & {"G41", "G42"}
            assert not (on and stretch is not None), "appendix B.2: not while it is on"
            if on:
                stretch = []
            if stretch is not None:
                stretch.append((words, values))
            if "G40" in codes(words):
                if stretch is not None:
                    yield stretch
                stretch = None
        assert stretch is None, "it is never left on"


FORBIDDEN = {"G53", "G28", "G30", "G10", "G92", "G18", "G19", "G20", "G21", "G70", "G71"} | {
    f"G{n:g}" for n in (38.2, 54, 55, 56, 57, 58, 59, 59.1, 59.2, 59.3, 81, 82, 83, 41.5)
}


@every_mill
def test_under_compensation_nothing_is_written_that_a_control_refuses_then(name):
    """Section 3.5.10 and appendix B: D a whole number from 0 and only with its word; on in a block
    with a straight move, before that move; neither again, nor another side; no offsets, units,
    planes, machine coordinates or cycles; no change of the tool; off in a block with a move, from
    where the tool then is."""
    stretches = list(compensated(name))
    assert len(stretches) == 3  # left and right of every kind, the wall of the sample
    for stretch in stretches:
        (first, values), *rest = stretch
        assert {*values} >= {"D"}
        assert values["D"] == int(values["D"]) >= 0
        assert values.keys() & {*"XY"}
        for words, told in rest:
            assert not codes(words) & FORBIDDEN, words
            assert "D" not in told, words
            assert "T" not in told, words
        assert rest[-1][1].keys() & {*"XYZ"}
        assert not codes(first) & FORBIDDEN


@every_mill
def test_the_lead_in_leaves_room_for_a_correction(name):
    """Appendix B.3: the first point may not be nearer than the correction (the register holds a
    small one, from 0), and arcs that are hollow for the cutter must be larger than it."""
    (lever,) = planned("crank-lever")
    program = read(text_of(lever.motions, load(name), Units.MM, ORIGIN), load(name).control)
    cuts = program.cuts
    entries = [n for n, cut in enumerate(cuts) if cut.side != "off" and cuts[n - 1].side == "off"]
    assert len(entries) == 1
    for n in entries:
        assert cuts[n].kind == "line"
        assert math.dist(cuts[n].start, cuts[n].end) > 0.5
    hollow = [
        math.dist(cut.start[:2], cut.centre) for cut in cuts if cut.side == "left" and cut.turn > 0
    ]
    assert hollow
    assert min(hollow) > 0.1


@every_mill
def test_compensation_leaves_the_feeds_as_they_are(name):
    """Section 2.1.2.6 with appendix B: under G94 the feed is that of the tip's own path."""
    dialect = load(name)
    path = (
        LineFeed((1.0, 0, -1), 300),
        ArcFeed((1.0, 8, -1), (1.0, 4), True, 222),
        LineFeed((0, 8, -1), 300),
    )
    head = (Begin("a"), WorkOffset(1), ToolChange(3, "a"), Spindle(900), Rapid((0.0, 0.0, -1.0)))
    on, off = (
        read(text_of((*head, *some, End()), dialect, Units.MM, ORIGIN), dialect.control)
        for some in ((Compensate("left", 3), *path[:2], Compensate("off"), path[2]), path)
    )
    told = [[cut.feed for cut in got.cuts if cut.kind != "rapid"] for got in (on, off)]
    assert told[0] == told[1] != []


def holes(*places, clear, start, bottom):
    return tuple(Drill(at, clear, start, bottom, 9.0) for at in places)


CYCLES = {
    "example 1 of section 3.5.16.1": (
        (1, 2, 3),
        holes((4, 5), clear=3, start=2.8, bottom=1.5),
        "T 4 5 3 | T 4 5 2.8 | F 4 5 1.5 | T 4 5 3",
    ),
    "example 2 of section 3.5.16.1": (
        (1, 2, 4.8),
        holes((5, 7), (9, 12), (13, 17), clear=4.8, start=4.8, bottom=4.2),
        (
            "T 5 7 4.8 | F 5 7 4.2 | T 5 7 4.8 | T 9 12 4.8 | F 9 12 4.2 | T 9 12 4.8"
            " | T 13 17 4.8 | F 13 17 4.2 | T 13 17 4.8"
        ),
    ),
    "table 10": (
        (30, 1, 1),
        holes((33, 3), (36, 5), clear=1, start=1, bottom=0.2),
        "T 33 3 1 | F 33 3 0.2 | T 33 3 1 | T 36 5 1 | F 36 5 0.2 | T 36 5 1",
    ),
    "appendix C.3, lines n0030 to n0050": (
        (0, 0, 0.2),
        (
            *holes((3, 4), clear=0.2, start=0.2, bottom=-1.1),
            *holes((4, 4), (5, 4), (6, 4), clear=0.2, start=0.2, bottom=-0.9),
            Rapid((6, 4, 0.3)),
            *holes((6, 2), clear=0.3, start=0.3, bottom=-0.8),
        ),
        (
            "T 3 4 0.2 | F 3 4 -1.1 | T 3 4 0.2 | T 4 4 0.2 | F 4 4 -0.9 | T 4 4 0.2"
            " | T 5 4 0.2 | F 5 4 -0.9 | T 5 4 0.2 | T 6 4 0.2 | F 6 4 -0.9 | T 6 4 0.2"
            " | T 6 4 0.3 | T 6 2 0.3 | F 6 2 -0.8 | T 6 2 0.3"
        ),
    ),
}


@every_mill
@pytest.mark.parametrize("units", Units)
@pytest.mark.parametrize("source", CYCLES)
def test_cycles_and_cycles_written_out_are_the_moves_of_the_report(name, units, source):
    """In the units of the program, which is what the report's numbers are in."""
    start, drills, expected = CYCLES[source]

    def told(point):
        return tuple(value * units.in_mm for value in point)

    motions = [Rapid(told(start))]
    for one in drills:
        if isinstance(one, Rapid):
            motions.append(Rapid(told(one.to)))
            continue
        heights = told((one.clear, one.start, one.bottom))
        motions.append(Drill(told((*one.at, 0))[:2], *heights, 90.0))
    dialect = load(name)
    head = (Begin("holes"), WorkOffset(1), ToolChange(1, "drill"), Spindle(900))
    text = text_of((*head, *motions, End()), dialect, units, ORIGIN)
    program = read(text, dialect.control)
    assert program.faults == ()
    cuts = [cut for cut in program.cuts if not any(map(math.isnan, (*cut.start, *cut.end)))]
    first = next(n for n, cut in enumerate(cuts) if cut.start == pytest.approx(told(start)))
    want = [part.split() for part in expected.split(" | ")]
    got = cuts[first : first + len(want)]
    for cut, (kind, *place) in zip(got, want, strict=True):
        assert cut.kind == {"T": "rapid", "F": "line"}[kind]
        assert cut.end == pytest.approx(told(map(float, place)), abs=1e-3)


@every_mill
def test_nothing_is_taken_over_from_the_program_before(name):
    """Section 3.6.1: M2 and M30 leave units and the tool length offset as they are; and a program
    may have been stopped half way. So all modes are told before the first cut."""
    for part in blocks(name):
        told, moved = set(), set()
        for words, values in part:
            told |= codes(words)
            if MACHINE & codes(words):
                continue
            moved |= values.keys() & {*"XYZ"}
            if "Z" in values:
                break
        assert told & {"G20", "G21", "G70", "G71"}
        assert {"G40", "G80", "G90", "G94"} <= told
        assert told & {"G54", "G55"}
        assert "G17" in told or name.endswith("-tape")  # which knows no other plane
        assert "G43" in told or not load(name).tools.length_on
        assert {"X", "Y", "Z"} <= moved | {*"XYZ"}


@every_mill
def test_after_g80_axes_come_with_a_word_of_motion(name):
    """Section 3.5.15: axis words while G80 is active are an error."""
    ended = False
    for part in blocks(name):
        for words, values in part:
            motion = codes(words) & {"G0", "G1", "G2", "G3", "G81", "G82", "G83"}
            if ended and values.keys() & {*"XYZ"} and not MACHINE & codes(words):
                assert motion, words
            ended = "G80" in codes(words) or (ended and not motion)
