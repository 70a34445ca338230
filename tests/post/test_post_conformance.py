"""What must hold of every post that ships, whichever it is; of every mill's, where it says so."""

from __future__ import annotations

import math

import pytest
from post_cases import EVERY_KIND, FINISH, HEAD, LATHES, MILLS, ROUGH, ZERO, load, text_of
from post_mini_reader import MACHINE, read
from post_styles import style_of

from jawcam.motion.moves import (
    ArcFeed,
    Begin,
    Drill,
    Dwell,
    End,
    LineFeed,
    Rapid,
    Remark,
    ToolChange,
)
from jawcam.post.dialect import names
from jawcam.resources import folder
from jawcam.units import Units

every_mill = pytest.mark.parametrize("name", MILLS)
both_units = pytest.mark.parametrize("units", Units)


def test_every_file_in_the_folder_is_a_post():
    assert names() == tuple(sorted(path.stem for path in folder("posts").glob("*.toml")))
    assert {"rs274ngc-mill", "iso6983-mill", "din66025-mill"} <= set(MILLS)
    assert {"eia274d-mill", "eia274d-tape"} <= set(MILLS)
    assert {"rs274ngc-lathe", "iso6983-lathe"} <= set(LATHES)
    assert {*MILLS, *LATHES} == set(names())


@pytest.mark.parametrize("name", names())
def test_a_post_says_what_it_is(name):
    dialect = load(name)
    assert dialect.name == name
    assert dialect.title
    assert "\n" not in dialect.title
    assert dialect.control


def places(motion):
    """The points that a motion leads to; of a hole all but the depths between."""
    if isinstance(motion, Rapid | LineFeed | ArcFeed):
        return [motion.to]
    if isinstance(motion, Drill):
        return [(*motion.at, height) for height in (motion.start, motion.bottom, motion.clear)]
    return []


@every_mill
@both_units
def test_the_text_says_the_positions_that_were_planned_in_their_order(name, units):
    text = text_of(EVERY_KIND, load(name), units, ZERO)
    ends = iter(move.end for move in read(text, style=style_of(name)).moves)
    half_step = units.in_mm * 10.0 ** -load(name).numbers.decimals.of(units) / 2 + 1e-9
    for place in (place for motion in EVERY_KIND for place in places(motion)):
        want = dict(zip("XYZ", (a - b for a, b in zip(place, ZERO, strict=True)), strict=True))
        assert any(
            end.keys() == want.keys()
            and all(abs(end[axis] - want[axis]) <= half_step for axis in want)
            for end in ends
        ), place


@every_mill
@both_units
def test_a_full_turn_is_cut_all_round(name, units):
    turn = (Rapid((3.0, 0, 5)), ArcFeed((3.0, 0, 5), (1.0, 0), False, 100), End())
    text = text_of((*HEAD, ToolChange(1, "a"), *turn), load(name), units, ZERO)
    arcs = [move for move in read(text, style=style_of(name)).moves if move.kind == "arc"]
    # A piece in each quadrant has a centre of its own, each off by up to a step of the radius 2.
    step = units.in_mm * 10.0 ** -load(name).numbers.decimals.of(units)
    slack = 1e-3 if len(arcs) <= 2 else len(arcs) * step / 2
    assert sum(arc.turn for arc in arcs) == pytest.approx(-math.tau, abs=slack)


@every_mill
@both_units
def test_the_same_motions_give_the_same_text(name, units):
    assert text_of(EVERY_KIND, load(name), units, ZERO) == text_of(
        tuple(EVERY_KIND), load(name), units, ZERO
    )


@every_mill
def test_compensation_stands_on_the_block_of_a_line(name):
    # NISTIR 6556 section 3.5.10: it is on before the move on the same line.
    text = text_of((*HEAD, *ROUGH, *FINISH, End()), load(name), Units.MM, ZERO)
    read_back = read(text, style=style_of(name))
    blocks = [words for words in read_back.words if {"G41", "G42"} & set(words)]
    assert len(blocks) == 1
    assert any(word[0] == "D" and float(word[1:]) == 3 for word in blocks[0])
    assert any(word[0] in "XY" for word in blocks[0])
    after = read_back.words[read_back.words.index(blocks[0]) :]
    offs = [words for words in after if "G40" in words]
    assert len(offs) == 1
    assert any(word[0] in "XY" for word in offs[0])


@every_mill
def test_the_length_offset_comes_with_the_first_height_or_with_the_tool(name):
    text = text_of((*HEAD, *ROUGH, End()), load(name), Units.MM, ZERO)
    got = read(text, style=style_of(name))
    if not load(name).tools.length_on:
        assert [values["T"] for values in got.values if "T" in values] == [303]
        return
    (block,) = [n for n, words in enumerate(got.words) if "G43" in words]
    values = got.values[block]
    assert values["Z"] == 25
    earlier = zip(got.words[:block], got.values[:block], strict=True)
    assert all("Z" not in words or MACHINE & {*codes} for codes, words in earlier)
    assert values.get("H", values.get("D")) == 3


@every_mill
def test_comments_hold_what_a_person_needs_and_nothing_forbidden(name):
    odd = "Größe (Ø8 ±0,1)\n{x} %\t naïve; żółw"
    motions = (Begin("jaws", (odd,)), ToolChange(2, "Fräser (lang)"), Remark("Seite 2"), End())
    text = text_of(motions, load(name), Units.MM, ZERO)
    comments = read(text, style=style_of(name)).comments
    assert any("groe" in comment.lower() and "naive" in comment.lower() for comment in comments)
    assert any("t" in c.lower() and "fraeser" in c.lower() for c in comments)
    assert any("seite 2" in comment.lower() for comment in comments)


@every_mill
@both_units
def test_another_work_offset_tells_every_axis_anew(name, units):
    text = text_of(EVERY_KIND, load(name), units, ZERO)
    blocks = read(text, style=style_of(name)).words
    chosen = [n for n, words in enumerate(blocks) if {"G54", "G55"} & {*words}]
    assert len(chosen) == 4
    for n in chosen[1:]:
        axes = {word[0] for words in blocks[n + 1 : n + 3] for word in words}
        assert {"X", "Y", "Z"} <= axes


@every_mill
def test_before_another_work_offset_the_tool_has_risen(name):
    text = text_of(EVERY_KIND, load(name), Units.MM, ZERO)
    got = read(text, style=style_of(name))
    for n, words in enumerate(got.words):
        if n > 5 and {"G54", "G55"} & {*words}:
            before = next(m for m in range(n - 1, 0, -1) if "Z" in got.values[m])
            assert got.values[before]["Z"] == 25 or MACHINE & {*got.words[before]}


@every_mill
@both_units
def test_a_pecked_hole_is_cut_in_its_pecks(name, units):
    motions = (Rapid((0, 0, 5)), Drill((0, 0), 5, 1, -10, 150, peck=4.0), Rapid((0, 0, 9)), End())
    text = text_of((*HEAD, ToolChange(1, "drill"), *motions), load(name), units, ZERO)
    downs = [
        move.end["Z"] for move in read(text, style=style_of(name)).moves if move.kind == "line"
    ]
    assert downs == pytest.approx([-3, -7, -10], abs=2 * units.in_mm * 1e-3)


@every_mill
@both_units
def test_a_dwell_is_in_the_text(name, units):
    motions = (Rapid((0, 0, 5)), Drill((0, 0), 5, 1, -2, 150, dwell=0.25), Dwell(2), End())
    text = text_of((*HEAD, ToolChange(1, "drill"), *motions), load(name), units, ZERO)
    style = style_of(name)
    times = [values["P"] for values in read(text, style=style).values if "P" in values]
    assert [time / style.second for time in times] == [0.25, 2]


@every_mill
@both_units
def test_a_program_can_be_taken_up_at_any_tool(name, units):
    """From the block that loads it on, all that its cuts need is told anew: the spindle, the word
    of motion, all three axes, and the feed before the first cut. Common practice, no source."""
    text = text_of(EVERY_KIND, load(name), units, ZERO)
    got = read(text, style=style_of(name))
    loads = [
        n
        for n, words in enumerate(got.words)
        if any(word[0] == "M" and float(word[1:]) == 6 for word in words)
    ]
    assert len(loads) == 4
    for n in loads:
        told, axes = set(), set()
        for words, values in zip(got.words[n + 1 :], got.values[n + 1 :], strict=False):
            codes = {f"{word[0]}{float(word[1:]):g}" for word in words if word[0] in "GM"}
            if axes or values.keys() & {*"XYZ"}:
                assert axes or codes & {"G0"}, words  # the first move says that it is a rapid
            axes |= values.keys() & {*"XYZ"}
            told |= codes | values.keys()
            if codes & {"G1", "G2", "G3", "G81", "G82", "G83"}:
                break
        assert axes == {*"XYZ"}
        assert told & {"M3", "M4"}
        assert {"S", "F"} <= told


@every_mill
def test_the_head_tells_from_what_height_tools_are_changed(name):
    """Where that is the height over the work and not the machine's own; no word where one tool does
    it all, or where the tool goes to machine zero."""
    clear = any("{clear}" in line for line in load(name).tools.leave)
    text = text_of(EVERY_KIND, load(name), Units.MM, ZERO).upper()
    assert ("(TOOLS ARE CHANGED FROM Z 25: RAISE THAT" in text) == clear
    alone = text_of((*HEAD, *ROUGH, End()), load(name), Units.MM, ZERO).upper()
    assert "TOOLS ARE CHANGED" not in alone
