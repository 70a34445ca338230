"""Changing one thing in a job moves what must move, and nothing else."""

import re
from dataclasses import replace

import numpy as np
import pytest
from whole_jobs import JOB, job_with, make_one, rounded_drawing
from whole_words import blocks

WORD = re.compile(r"([A-Z])(-?[\d.]+)")


@pytest.fixture(scope="module")
def made(tmp_path_factory):
    """Calls for a job with some of its texts changed; each is made once."""
    known = {}

    def make(*changes):
        if changes not in known:
            folder = tmp_path_factory.mktemp("job")
            known[changes] = make_one(folder, job_with(*changes), rounded_drawing())
        return known[changes]

    return make


WIDE = ("gap = 4", "gap = 6")
FRONT_FACE = ("rough = {", 'zero = { y = "front face" }\nrough = {')


def words(text):
    """Each block's words, without comments and empty lines."""
    bare = [re.sub(r"\(.*\)", "", line).strip() for line in text.splitlines()]
    return [[(letter, float(v)) for letter, v in WORD.findall(line)] for line in bare if line]


def moved(text, other):
    """By how much each word differs: letter -> the differences. The words must be the same."""
    differences = {}
    for mine, theirs in zip(words(text), words(other), strict=True):
        assert [letter for letter, _ in mine] == [letter for letter, _ in theirs]
        for (letter, a), (_, b) in zip(mine, theirs, strict=True):
            differences.setdefault(letter, set()).add(round(b - a, 6))
    return differences


def comments(text):
    return re.findall(r"\((.*)\)", text)


def test_gap_moves_the_blanks_and_not_the_pocket(made):
    """Zero at mid gap: the spacer is thicker by 2 mm, the pocket stays where it was."""
    narrow, wide = made(), made(WIDE)
    assert all(found == {0.0} for found in moved(narrow.text, wide.text).values())
    assert narrow.target.silhouette == wide.target.silhouette
    assert (narrow.target.blanks.gap, wide.target.blanks.gap) == (4, 6)


def test_gap_changes_nothing_but_its_own_line_in_the_comments(made):
    before, after = comments(made().text), comments(made(WIDE).text)
    changed = [(a, b) for a, b in zip(before, after, strict=True) if a != b]
    assert changed == [
        tuple(f"cut on a spacer lower than the pocket: gap {gap} mm" for gap in (4, 6))
    ]


def test_gap_shifts_all_y_words_by_half_the_change_from_a_jaw_face(made):
    """The front face moves 1 mm away from mid gap, and with it the zero that is touched off."""
    found = moved(made(FRONT_FACE).text, made(WIDE, FRONT_FACE).text)
    assert found.pop("Y") == {1.0}
    assert all(differences == {0.0} for differences in found.values())


def test_zero_shifts_what_is_written_and_not_what_is_cut(made):
    """The front face lies at Y -2: every Y word is 2 mm more."""
    plain, faced = made(), made(FRONT_FACE)
    found = moved(plain.text, faced.text)
    assert found.pop("Y") == {2.0}
    assert all(differences == {0.0} for differences in found.values())
    assert faced.figures.area == pytest.approx(plain.figures.area, rel=1e-9)
    assert faced.report.ok


def test_zero_at_the_bottom_shifts_z_words_alone(made):
    """The blanks are 30 mm high. (The retract in machine coordinates stays.)"""
    bottom = made(("rough = {", 'zero = { z = "bottom" }\nrough = {'))
    found = moved(made().text, bottom.text)
    assert found.pop("Z") == {30.0, 0.0}
    assert all(differences == {0.0} for differences in found.values())
    heights = [
        (a.end[2], b.end[2]) for a, b in zip(blocks(made().text), blocks(bottom.text), strict=True)
    ]
    assert all(b - a == pytest.approx(30) for a, b in heights[1:])


def test_thickness_of_the_part_moves_nothing(made):
    thick = made(("thickness = 9", "thickness = 11"))
    assert all(found == {0.0} for found in moved(made().text, thick.text).values())


def test_tool_number_changes_the_words_that_name_it(made):
    """T and the length offset H; nothing else."""
    found = moved(made().text, made(("number = 2", "number = 7")).text)
    assert found.pop("T") == found.pop("H") == {5.0}
    assert all(differences == {0.0} for differences in found.values())


def test_work_offset_changes_its_word_alone(made):
    """Where it is chosen and where the person is told."""
    other = made(('post = "rs274ngc-mill"', 'post = "rs274ngc-mill"\nwork_offset = 2'))
    pairs = zip(made().text.splitlines(), other.text.splitlines(), strict=True)
    assert [(a, b) for a, b in pairs if a != b] == [
        ("(work offset 1 is G54)", "(work offset 2 is G55)"),
        ("G54", "G55"),
    ]


def way(text):
    """Every move's kind, end and centre; lines that go straight on are one, wherever they are cut
    for another feed."""
    found = []
    for block in blocks(text):
        if found and straight_on(found[-1], block):
            found[-1] = replace(found[-1], end=block.end)
        else:
            found.append(block)
    return [(block.kind, *np.nan_to_num([*block.end, *block.centre])) for block in found]


def straight_on(block, following):
    if (block.kind, following.kind) != ("line", "line"):
        return False
    first, second = (np.subtract(one.end, one.start) for one in (block, following))
    off = np.linalg.norm(np.cross(first, second)) / np.linalg.norm(first + second)
    return bool(first @ second > 0 and off < 2e-3)


def test_feeds_change_neither_where_the_cutter_goes_nor_any_word_but_f_and_s(made):
    """rpm and feed by hand; what may differ besides is where a line is cut for its feeds."""
    plain, other = made().text, made(("flutes = 3", "flutes = 3\nrpm = 4000\nfeed = 500")).text
    assert way(other) == way(plain)
    assert {v for block in words(other) for letter, v in block if letter == "S"} == {4000.0}
    feeds = [{block.feed for block in blocks(text)} for text in (plain, other)]
    assert [500.0 in found for found in feeds] == [False, True]
    rest = [
        [[word for word in block if word[0] not in "XYZIJFS"] for block in words(text)]
        for text in (plain, other)
    ]
    assert [block for block in rest[0] if block] == [block for block in rest[1] if block]


def test_depth_shifts_the_floor_and_keeps_the_plan(made):
    """One level either way: the ring blocks are the same in X and Y, I and J."""
    deep = made(("depth = 5", "depth = 4.5"))
    assert JOB.count("depth = 5") == 1
    plan = [
        [(b.kind, b.end[:2], b.centre) for b in blocks(whole.text) if b.level and b.end[2] < 0]
        for whole in (made(), deep)
    ]
    assert plan[0] == plan[1]
