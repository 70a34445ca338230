"""Faults planted in good programs: each turns the proof red, and names the line that has it."""

import dataclasses
import math
import re

import numpy as np
import pytest
import shapely
from whole_edit import (
    FLOOR,
    WALL,
    changed,
    inserted,
    judged,
    ring_of,
    room_for_centre,
    stops,
)
from whole_jobs import only
from whole_words import blocks, section

from jawcam.proof.prove import prove


def nudged(block, letter, by):
    """A block's text with one of its words changed by so much."""
    found = re.search(rf"{letter}(-?[\d.]+)", block.text)
    value = f"{float(found[1]) + by:.4f}".rstrip("0")
    return block.text.replace(found[0], f"{letter}{value}")


def reach_after(text, line, room):
    """How far the centre line of a changed block now runs out of its room."""
    (block,) = [b for b in blocks(text) if b.line == line]
    points = shapely.points(block.points(1e-4, 0.5)[:, :2])
    return float(shapely.distance(points, room).max())


def radii_after(block, letter, by):
    """An arc's radii with its centre moved so."""
    x, y = block.centre
    centre = (x + by, y) if letter == "I" else (x, y + by)
    return math.dist(block.start[:2], centre), math.dist(block.end[:2], centre)


def test_clean_program_has_nothing_that_stops_it(whole):
    report = judged(whole, whole.text)
    assert report.ok
    assert {f.code for f in report.findings} <= {"P111"}  # cutter compensation, which is asked for


def test_clean_program_is_judged_as_it_was_when_made(whole):
    assert prove(whole.read_again(whole.text), whole.target) == whole.report


# --- centres -----------------------------------------------------------------------------------


@pytest.mark.parametrize("by", [0.01, -0.01])
@pytest.mark.parametrize("letter", ["I", "J"])
def test_centre_off_in_any_arc_of_the_wall_is_found(whole, letter, by):
    """By the control's own rule where the two radii no longer agree (NISTIR 6556 section
    3.5.3.2), else as a gouge where the arc now bulges out. (Proven for one of these.)"""
    arcs = [b for b in section(whole.text, WALL, level=whole.target.floor) if b.arc]
    room, refused, gouging = room_for_centre(whole), 0, []
    for arc in arcs:
        text = changed(whole.text, arc.line, re.escape(arc.text), nudged(arc, letter, by))
        if abs(np.subtract(*radii_after(arc, letter, by))) > 0.002:
            assert ("R204", arc.line) in {(f.code, f.line) for f in whole.read_again(text).faults}
            refused += 1
        elif reach_after(text, arc.line, room) > 0.004:
            gouging.append((arc.line, text))
    assert refused + len(gouging) >= min(len(arcs) - 1, 6)
    for line, text in gouging[:1]:
        assert ("P201", line) in stops(judged(whole, text))


def test_centre_off_so_that_a_full_circle_is_too_small_is_found(disc):
    """It begins on the wall and its centre is a hundredth nearer: on the far side the pocket is
    two hundredths short. Its radii agree, and it gouges nothing."""
    (circle,) = ring_of(disc.text, -5.0)
    x, _, _ = circle.start
    nearer = nudged(circle, "I", 0.01 if x > 0 else -0.01)
    report = judged(disc, changed(disc.text, circle.line, re.escape(circle.text), nearer))
    assert {code for code, _ in stops(report)} == {"P301"}
    worst = max(report.findings, key=lambda f: f.amount or 0.0)
    assert worst.x * x < 0
    assert worst.amount == pytest.approx(0.02, abs=0.001)


@pytest.mark.parametrize("letter", ["I", "J"])
def test_centre_off_in_an_arc_inside_the_pocket_is_found(lever, letter):
    names = ("roughing", "rest of the roughing", "floor")
    cuts = [block for name in names for block in section(lever.text, name)]
    arcs = [b for b in cuts if b.arc and b.level]
    bent = [b for b in arcs if abs(np.subtract(*radii_after(b, letter, 0.01))) > 0.002]
    assert len(bent) >= 20
    for arc in bent[::3]:
        text = changed(lever.text, arc.line, re.escape(arc.text), nudged(arc, letter, 0.01))
        assert ("R204", arc.line) in {(f.code, f.line) for f in lever.read_again(text).faults}
    assert ("R204", arc.line) in stops(judged(lever, text))


# --- depth -------------------------------------------------------------------------------------


@pytest.mark.parametrize("name", [FLOOR, WALL])
def test_depth_a_hundredth_too_deep_is_found(whole, name):
    seat = whole.target.floor
    line = next(b.line for b in section(whole.text, name) if b.end[2] == seat)
    text = changed(whole.text, line, rf"Z{seat:g}\.", f"Z{seat - 0.01:g}")
    found = [f for f in judged(whole, text).findings if f.code == "P401"]
    assert [f.line for f in found] == [line]
    assert found[0].amount == pytest.approx(0.01)


@pytest.mark.parametrize("name", [FLOOR, WALL])
def test_depth_a_hundredth_too_high_is_found(whole, name):
    seat = whole.target.floor
    line = next(b.line for b in section(whole.text, name) if b.end[2] == seat)
    text = changed(whole.text, line, rf"Z{seat:g}\.", f"Z{seat + 0.01:g}")
    found = [f for f in judged(whole, text).findings if f.code == "P403"]
    assert found
    assert all(f.line >= line and f.amount == pytest.approx(0.01) for f in found)


# --- rapids ------------------------------------------------------------------------------------


def test_rapid_through_the_blank_is_found(whole):
    """Across and back, low down, after the wall: into the corner of the back blank."""
    after = section(whole.text, WALL, level=whole.target.floor)[-1]
    x, y, _ = after.end
    words = ("G0 X30. Y30.", f"X{x:g} Y{y:g}")
    text = inserted(whole.text, after.line, *words)
    found = stops(judged(whole, text))
    assert {("P501", after.line + 1), ("P501", after.line + 2)} & found
    assert {line for code, line in found if code == "P501"} <= {after.line + 1, after.line + 2}


def test_rapid_down_into_the_blank_is_found(whole):
    """The first feed down from the hover turned into a rapid."""
    line = next(b.line for b in section(whole.text, "roughing") if b.end[2] < b.start[2])
    z = min(b.end[2] for b in section(whole.text, "roughing"))
    text = inserted(whole.text, line - 1, f"G0 Z{z:g}")
    assert ("P501", line) in stops(judged(whole, text))


# --- the cutter --------------------------------------------------------------------------------


def with_cutters(whole, more):
    cutters = (dataclasses.replace(c, dia=c.dia + 2 * more) for c in whole.target.cutters)
    return dataclasses.replace(whole.target, cutters=tuple(cutters))


def test_cutter_with_a_radius_two_hundredths_larger_gouges(whole):
    report = judged(whole, whole.text, with_cutters(whole, 0.02))
    found = [f for f in report.findings if f.code == "P201"]
    assert found
    walls = {b.line for b in blocks(whole.text) if b.section in (WALL, "corner relief")}
    assert {f.line for f in found} <= walls
    assert max(f.amount for f in found) == pytest.approx(0.02, abs=0.001)


def test_cutter_with_a_radius_two_hundredths_smaller_leaves_material(whole):
    report = judged(whole, whole.text, with_cutters(whole, -0.02))
    assert {code for code, _ in stops(report)} == {"P301"}


def test_cutter_with_a_diameter_two_hundredths_larger_gouges(disc):
    report = judged(disc, disc.text, with_cutters(disc, 0.01))
    assert {code for code, _ in stops(report)} == {"P201"}


def test_cutter_with_a_diameter_two_hundredths_smaller_leaves_material(disc):
    """The wall is then left a hundredth short all round: a pocket that grips too early."""
    report = judged(disc, disc.text, with_cutters(disc, -0.01))
    assert {code for code, _ in stops(report)} == {"P301"}


def test_one_cause_is_told_in_a_readable_number_of_findings(disc):
    """A cutter that is too small all round is one mistake; nobody reads hundreds of lines."""
    report = judged(disc, disc.text, with_cutters(disc, -0.02))
    assert len(report.findings) <= 25


# --- words left out ----------------------------------------------------------------------------


def first_feed(text, tool=None):
    return next(b for b in blocks(text) if b.kind != "rapid" and tool in (None, b.tool))


def test_missing_spindle_start_is_found(whole):
    """Of the last tool; the one before it was stopped at the change."""
    tool = blocks(whole.text)[-1].tool
    call = only(whole.text, rf"^T{tool} M6")
    start = only(whole.text, r" M3$", after=call)
    text = changed(whole.text, start, " M3", "")
    assert ("P101", first_feed(text, tool).line) in stops(judged(whole, text))


def test_spindle_the_wrong_way_round_is_found(disc):
    text = re.sub(r" M3\b", " M4", disc.text)
    assert {code for code, _ in stops(judged(disc, text))} == {"P105"}


def test_missing_feed_is_found(whole):
    """Feeds are modal, so that only without the first of them there is none."""
    line = first_feed(whole.text).line
    text = changed(whole.text, line, r" F[\d.]+", "")
    assert stops(judged(whole, text)) == {("P102", line)}


def test_unknown_tool_is_found(whole):
    first = next(b for b in blocks(whole.text))
    text = re.sub(rf"^T{first.tool} M6", "T9 M6", whole.text, flags=re.MULTILINE)
    assert ("P104", first.line) in stops(judged(whole, text))


def test_missing_end_is_found(disc):
    text = re.sub(r"^M30\n", "", disc.text, flags=re.MULTILINE)
    report = judged(disc, text.replace("%\n", ""))
    assert {code for code, _ in stops(report)} & {"R601", "P106"}


def test_other_work_offset_is_found(disc):
    text = disc.text.replace("\nG54\n", "\nG55\n")
    assert "P110" in {code for code, _ in stops(judged(disc, text))}


def test_word_with_a_typing_error_is_found(disc):
    """A letter O for a nought, as typed at a control."""
    cut = section(disc.text, WALL, level=disc.target.floor)[1]
    text = changed(disc.text, cut.line, re.escape(cut.text), cut.text.replace(".", ".O", 1))
    assert cut.line in {line for code, line in stops(judged(disc, text)) if code.startswith("R")}
