"""Faults planted in good programs: each turns the proof red, and names the line that has it."""

import dataclasses
import math
import re

import numpy as np
import pytest
import shapely
from whole_jobs import only
from whole_words import blocks, section

from jawcam.proof.prove import prove

WALL, FLOOR = "wall", "floor"


@pytest.fixture(scope="module")
def disc(drawn):
    """A disc of 16 mm: all its rings are full circles."""
    return drawn("washer")


@pytest.fixture(scope="module", params=["lever", "disc"])
def whole(request):
    """The sample with all kinds of passes, and the disc."""
    return request.getfixturevalue(request.param)


def judged(whole, text, target=None):
    """The report on another text."""
    return prove(whole.read_again(text), target or whole.target)


def stops(report):
    """The codes and lines of what stops a program."""
    assert not report.ok
    return {(f.code, f.line) for f in report.findings if f.grade == "stop"}


def changed(text, line, pattern, new):
    """The text with one thing changed in one line."""
    lines = text.splitlines()
    lines[line - 1], count = re.subn(pattern, new, lines[line - 1])
    assert count == 1
    return "\n".join(lines) + "\n"


def without(text, numbers):
    kept = [line for n, line in enumerate(text.splitlines(), 1) if n not in numbers]
    return "\n".join(kept) + "\n"


def inserted(text, after, *new):
    lines = text.splitlines()
    return "\n".join([*lines[:after], *new, *lines[after:]]) + "\n"


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
    assert judged(whole, whole.text) == whole.report


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
    assert all(f.x * x < 0 for f in report.findings if f.code == "P301")


def ring_of(text, level):
    """The blocks of the wall pass between its lead-in and its lead-out."""
    cuts = section(text, WALL, level=level)
    arcs = [b.line for b in cuts if b.arc]
    return [b for b in cuts if arcs[0] < b.line < arcs[-1]]


def room_for_centre(whole):
    """Where the cutter's centre may be: inside the first round of the wall pass."""
    ring = ring_of(whole.text, whole.target.floor)
    ring = ring[: len(ring) // (1 + whole.made.setup.finish.spring)]
    return shapely.Polygon(np.concatenate([b.points(1e-5)[:, :2] for b in ring]))


@pytest.mark.parametrize("letter", ["I", "J"])
def test_centre_off_in_an_arc_of_the_roughing_is_found(lever, letter):
    arcs = [b for b in section(lever.text, "roughing") if b.arc and b.level]
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


# --- blocks left out ---------------------------------------------------------------------------


def test_wall_pass_left_out_is_found(whole):
    """What lies between the lead-in and the lead-out: it begins and ends at one point, so that
    the program is as well formed without it."""
    ring = [b.line for b in ring_of(whole.text, whole.target.floor)]
    report = judged(whole, without(whole.text, ring))
    codes = {code for code, _ in stops(report)}
    assert "P301" in codes
    assert codes <= {"P301", "P601"}  # the corner reliefs now plunge into what the wall pass left
    left = max(f.amount for f in report.findings if f.code == "P301")
    assert left > 0.15  # the stock to leave of 0.2, somewhat less where roughing rounded a corner


def test_floor_pass_left_out_is_found(whole):
    """Its blocks with those that reach for it: the wall pass comes down by itself."""
    lines = whole.text.splitlines()
    first = 1 + lines.index(f"({FLOOR})")
    last = lines.index(f"({WALL})")
    down = next(b for b in section(whole.text, FLOOR))
    kept = without(whole.text, range(first + 1, last + 1))
    # the wall's first moves name only what changes: say all of it once
    at = kept.splitlines().index(f"({WALL})") + 1
    text = inserted(
        kept, at, f"G0 Z{whole.target.clearance:g}", f"X{down.start[0]:g} Y{down.start[1]:g}"
    )
    report = judged(whole, text)
    found = [f for f in report.findings if f.code in ("P301", "P403") and f.grade == "stop"]
    assert found
    assert all(room_for_centre(whole).contains(shapely.Point(f.x, f.y)) for f in found)


def test_corner_relief_left_out_is_found(lever):
    """The second of the two: from the first block at its corner on."""
    second = max(lever.target.reliefs, key=lambda relief: relief.start[0])
    reliefs = section(lever.text, "corner relief")
    x = round(second.start[0], 3)
    lines = [b.line for b in reliefs if b.end[0] >= x]
    report = judged(lever, without(lever.text, lines))
    assert {code for code, _ in stops(report)} == {"P301"}
    (found,) = [f for f in report.findings if f.code == "P301"]
    assert math.dist((found.x, found.y), second.corner) < 1.5


def test_outermost_rings_left_out_are_found(disc):
    """Roughing and finishing stop one ring early."""
    text = disc.text
    for name, level in (("roughing", -4.9), (FLOOR, -5.0)):
        rings = [b for b in section(text, name, level=level) if b.arc]
        outer = max(rings, key=lambda b: b.radii[0])
        text = without(text, [outer.line])
    text = without(text, [b.line for b in ring_of(text, -5.0)])
    assert "P301" in {code for code, _ in stops(judged(disc, text))}
