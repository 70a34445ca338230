"""What a setup sheet is put together from: steps, scales, lengths, widths of letters."""

import math
from dataclasses import replace

import pytest
import show_demos as demo
import show_turned as turned
from hypothesis import given
from hypothesis import strategies as st

from jawcam.reader.cuts import Change
from jawcam.show.lettering import wrap
from jawcam.show.plain_letters import plain_width
from jawcam.show.sheet_scale import SCALES, is_small, scale_words, scales
from jawcam.show.sheet_steps import steps
from jawcam.show.sheet_tools import at_least, registers
from jawcam.show.sheet_turned_tools import reaches
from jawcam.tools.turner import Turner
from jawcam.units import Units


def program(*rows, changes=()):
    """One with a cut for each row (line, tool, kind, calls), a comment for each (line, words)."""
    pen = demo.Pen()
    pen.rapid(0, 0, 5)
    (first,) = pen.cuts
    cuts = tuple(
        first._replace(line=row[0], tool=row[1], kind=row[2], calls=row[3])
        for row in rows
        if len(row) == 4
    )
    comments = tuple(row for row in rows if len(row) == 2)
    return replace(demo.program(cuts), cuts=cuts, comments=comments, changes=tuple(changes))


def told(made, each=1.0):
    return [tuple(step) for step in steps(made, dict.fromkeys(range(len(made.cuts)), each))]


def test_a_cut_belongs_to_the_last_comment_before_it():
    made = program(
        (3, "roughing"), (4, 1, "line", ()), (5, 1, "line", ()), (6, "wall"), (6, 1, "line", ())
    )
    assert told(made) == [(3, 1, "roughing", 2.0), (6, 1, "wall", 1.0)]


def test_rapids_alone_are_no_step():
    made = program((3, "away"), (4, 1, "rapid", ()), (5, "wall"), (6, 1, "line", ()))
    assert told(made) == [(5, 1, "wall", 1.0)]


def test_a_comment_of_another_tool_is_not_taken():
    load = Change("tool", "2", 5, 1)
    made = program((3, "roughing"), (4, 1, "line", ()), (6, 2, "line", ()), changes=[load])
    assert told(made) == [(3, 1, "roughing", 1.0), (6, 2, "", 1.0)]


def test_levels_of_one_kind_are_one_step():
    rows = [
        row
        for k in (1, 2, 3)
        for row in ((k * 9, f"floor, level {k} of 3"), (k * 9 + 1, 1, "line", ()))
    ]
    assert told(program(*rows)) == [(9, 1, "floor: 3 levels", 3.0)]


def test_a_level_that_is_alone_keeps_its_words():
    made = program((3, "floor, level 1 of 3"), (4, 1, "line", ()))
    assert told(made) == [(3, 1, "floor, level 1 of 3", 1.0)]


def test_cuts_of_a_subprogram_stand_where_it_is_called():
    made = program(
        (3, "roughing"),
        (90, 1, "line", (4,)),
        (5, "wall"),
        (90, 1, "line", (6,)),
        (90, 1, "line", (7,)),
    )
    made = replace(made, comments=(*made.comments, (89, "the ring")))
    assert told(made) == [(3, 1, "roughing", 1.0), (5, 1, "wall", 2.0)]


def test_scales_are_those_of_iso_5455():
    """ISO 5455: 1, 2 and 5 times powers of ten, enlarged or reduced (from memory)."""
    for scale in SCALES:
        power = 10 ** math.floor(math.log10(scale) + 1e-9)
        assert min(abs(scale / power - k) for k in (1, 2, 5)) < 1e-9
    assert [scale_words(scale) for scale in (10.0, 1.0, 0.5, 0.02)] == [
        "10:1",
        "1:1",
        "1:2",
        "1:50",
    ]


SIZES = st.floats(0.5, 2000.0)


@given(SIZES, SIZES)
def test_the_largest_scale_that_fits_comes_first(wide, high):
    room = (180.0, 120.0)
    found = scales((wide, high), room)
    assert found == sorted(found, reverse=True)
    assert wide * found[0] <= room[0]
    assert high * found[0] <= room[1]
    larger = [scale for scale in SCALES if scale > found[0]]
    assert all(wide * scale > room[0] or high * scale > room[1] for scale in larger)
    assert not any(max(wide, high) * scale < 20.0 for scale in found[1:])
    assert is_small((wide, high), found[0]) == (max(wide, high) * found[0] < 35.0)


@given(st.floats(0.0, 500.0), st.sampled_from(Units))
def test_what_a_tool_needs_at_least_is_never_rounded_down(length, units):
    step = 0.01 if units is Units.INCH else 0.1
    told_length = float(at_least(length, units))
    assert units.from_mm(length) - 2e-6 <= told_length < units.from_mm(length) + step + 1e-9


def test_registers_are_those_in_force():
    pen = demo.Pen()
    pen.rapid(0, 0, 0)
    cut = pen.cuts[0]
    on = cut._replace(length_offset=4, side="left", register=23)
    assert registers([cut._replace(length_offset=4, register=9), on]) == "H4 D23"
    assert registers([cut._replace(length_offset=0)]) == ""


def test_letters_are_as_wide_as_their_metrics_say():
    """From memory of the metrics of the 14 standard fonts: thousandths of the size."""
    assert plain_width("A", 1000.0, "normal") == pytest.approx(667)
    assert plain_width("i n", 1000.0, "normal") == pytest.approx(222 + 278 + 556)
    assert plain_width("0", 1000.0, "bold") == pytest.approx(556)
    assert plain_width("\u00fc", 1000.0, "normal") == plain_width("u", 1000.0, "normal")


def test_a_word_too_long_for_a_line_begins_on_the_line_that_it_follows():
    lines = wrap("setup " + "n" * 60, 40.0, 8.0)
    assert lines[0].startswith("setup nn")
    assert "".join(lines).replace(" ", "") == "setup" + "n" * 60


def pin_with(kind, number, *cuts, **looks):
    """The pin's target with one more tool, and a program with its cuts: rows of (kind, Z, X)."""
    target = turned.pin_target()
    tool = Turner(number, kind, **looks)
    pen = turned.Pen().call(number)
    for way, z, x in cuts:
        getattr(pen, "rapid" if way == "rapid" else "feed")(z, x)
    return turned.program(pen), replace(target, tools=(*target.tools, tool))


def test_a_drill_reaches_from_the_front_to_its_point():
    made, target = pin_with(
        "drill", 71, ("rapid", 5.0, 0.0), ("feed", -20.0, 0.0), ("rapid", 5.0, 0.0), dia=6.0
    )
    front = max(z for z, _, _ in target.stock)
    assert reaches(made, target)[71] == pytest.approx(front + 20.0)


def test_a_grooving_tool_reaches_from_where_it_goes_to_feed_to_its_floor():
    made, target = pin_with(
        "grooving", 72, ("rapid", -10.0, 9.0), ("feed", -10.0, 6.0), ("feed", -10.0, 9.0), width=2.0
    )
    assert reaches(made, target)[72] == pytest.approx(3.0)


def test_a_turning_tool_reaches_with_its_holder():
    target = turned.pin_target()
    numbers = {tool.number for tool in target.tools if tool.kind == "turning"}
    assert numbers
    assert not numbers & set(reaches(turned.pin_program(), target))
