"""A dialect that can't say it refuses, names all of it, and tells the mend."""

from __future__ import annotations

from dataclasses import replace

import pytest
from post_cases import EVERY_KIND, ZERO, text_of

from jawcam.errors import InputError
from jawcam.motion.moves import (
    ArcFeed,
    Begin,
    Compensate,
    Coolant,
    Drill,
    Dwell,
    LineFeed,
    Rapid,
    Spindle,
    ToolChange,
    WorkOffset,
)
from jawcam.post.dialect import load
from jawcam.post.fields import PerUnit
from jawcam.units import Units

NIST = load("rs274ngc-mill")
POOR = replace(
    NIST,
    passes=(),
    work_offsets=("G54",),
    coolant=replace(NIST.coolant, mist=""),
    spindle=replace(NIST.spindle, ccw=""),
    compensation=replace(NIST.compensation, left=""),
    cycles=replace(NIST.cycles, drill="", dwell="", peck=""),
    arcs=replace(NIST.arcs, full_circles=False, helices=False, largest_sweep=90),
)


HOLE = Drill((1.0, 2.0), 5.0, 1.0, -3.0, 90)


def refused(dialect, *motions, units=Units.MM):
    with pytest.raises(InputError) as caught:
        text_of(motions, dialect, units, (0.0, 0.0, 0.0))
    return {fault.what: fault for fault in caught.value.faults}


def test_all_that_a_poor_dialect_lacks_is_named_at_once():
    with pytest.raises(InputError) as caught:
        text_of(EVERY_KIND, POOR, Units.MM, ZERO)
    text = str(caught.value)
    for part in (
        "no work offset 2",
        "counter-clockwise start",
        "coolant 'mist'",
        "compensation left",
        "full circle",
        "rises or falls",
        "more than 90 degrees",
        "add 'helices_to_lines' to the passes",
        "add 'split_full_circles' to the passes",
        "add 'split_arcs' to the passes",
        "the cycle of a hole (and 3 more like it)",
        "the cycle of a hole with a dwell",
        "the cycle of a pecked hole",
        "add 'cycles_to_moves' to the passes of the post",
    ):
        assert part in text
    assert all(fault.mend for fault in caught.value.faults)


def test_the_passes_named_in_the_mend_do_mend_it():
    motions = [
        m for m in EVERY_KIND if not isinstance(m, WorkOffset | Spindle | Coolant | Compensate)
    ]
    passes = ("cycles_to_moves", "helices_to_lines", "split_full_circles", "split_arcs")
    able = replace(POOR, passes=passes)
    assert text_of(motions, able, Units.MM, ZERO).count("\n") > 70


def test_a_pecked_hole_with_a_dwell_needs_words_of_its_own():
    hole = replace(HOLE, peck=2.0, dwell=0.5)
    (fault,) = refused(NIST, hole).values()
    assert fault.what == "there are no words for the cycle of a pecked hole with a dwell"
    assert fault.place.at == "X 1 Y 2 Z -3"
    cycles = replace(NIST.cycles, peck_dwell="G83 {hole} Q{peck} P{dwell}")
    text = text_of((hole,), replace(NIST, cycles=cycles), Units.MM, (0, 0, 0))
    assert "G83 X1. Y2. Z-3. R1. Q2. P0.5 F90" in text
    text = text_of((hole,), load("iso6983-mill"), Units.MM, (0, 0, 0))
    assert "G04 P0.5" in text


def test_a_dwell_without_a_word():
    mute = replace(NIST, moves=replace(NIST.moves, dwell=""))
    assert refused(mute, Dwell(1)).keys() == {"there is no word for a dwell"}
    out = replace(mute, passes=("cycles_to_moves",))
    assert refused(out, replace(HOLE, dwell=1)).keys() == {"there is no word for a dwell"}
    assert text_of((HOLE,), out, Units.MM, (0, 0, 0))


@pytest.mark.parametrize("dialect", [NIST, load("iso6983-mill")])
@pytest.mark.parametrize(
    ("change", "word"),
    [
        ({"feed": 0.3}, "a feed of 0.3 mm/min would be written as 0"),
        ({"peck": 0.0004}, "a peck of 0 mm would be written as 0"),
        ({"peck": 0.0}, "a peck of 0 mm would be written as 0"),
        ({"peck": -1.0}, "a peck of -1 mm would be written as 0"),
        ({"peck": 0.001, "bottom": -9.0}, "a hole in 10000 pecks: 9999 is the most"),
        ({"dwell": 0.0004}, "a dwell of 0.0004 s would be written as 0"),
        ({"at": (1e4, 0.0)}, "a coordinate is beyond the largest"),
        ({"at": (0.0, -1e4)}, "a coordinate is beyond the largest"),
        ({"clear": 1e4}, "a coordinate is beyond the largest"),
        ({"bottom": -1e4}, "a coordinate is beyond the largest"),
    ],
)
def test_a_hole_of_which_a_number_can_not_be_written(dialect, change, word):
    assert all(word in what for what in refused(dialect, replace(HOLE, **change)))


def test_many_of_one_kind_are_one_fault_with_the_first_place():
    moves = [Rapid((0, 0, 0)), *(LineFeed((n, 0, 2e4), 1) for n in (1, 2, 3))]
    (fault,) = refused(NIST, *moves).values()
    assert "2 more" in fault.what
    assert fault.place.at == "X 1 Y 0 Z 20000"


@pytest.mark.parametrize("number", [0, 100])
def test_a_tool_number_that_does_not_fit(number):
    (fault,) = refused(NIST, ToolChange(number, "drill")).values()
    assert "the largest is 99" in fault.what


def test_an_offset_register_that_does_not_fit():
    # NISTIR 6556 appendix B: a non-negative integer.
    assert refused(NIST, Compensate("right", -1))
    assert refused(NIST, Compensate("right", 100))


def test_numbers_that_would_be_written_as_nothing():
    motions = (Spindle(0.3), Rapid((0, 0, 0)), LineFeed((1, 0, 0), 0.3))
    assert len(refused(NIST, *motions)) == 2
    assert refused(NIST, Rapid((0, 0, 0)), LineFeed((1, 0, 0), -5))


def test_a_coordinate_too_large_in_either_unit():
    assert refused(NIST, Rapid((0, -10000, 0)))
    assert refused(NIST, Rapid((0, float("nan"), 0)))
    assert refused(NIST, Rapid((25400.0, 0, 0)), units=Units.INCH)
    assert text_of((Rapid((9998, 0, 0)),), NIST, Units.MM, (0, 0, 0))
    assert text_of((Rapid((25000, 0, 0)),), NIST, Units.INCH, (0, 0, 0))


def test_a_radius_too_large_without_the_pass_that_mends_it():
    arc = ArcFeed((100.0, 100.0, 0), (0, 100.0), True, 100)
    arcs = replace(NIST.arcs, largest_radius=PerUnit(mm=50.0, inch=2.0))
    motions = (Rapid((0, 0, 0)), arc)
    (fault,) = refused(replace(NIST, passes=(), arcs=arcs), *motions).values()
    assert "large_arcs_to_lines" in fault.mend
    able = replace(NIST, passes=("large_arcs_to_lines",), arcs=arcs)
    assert "G3" not in text_of(motions, able, Units.MM, (0, 0, 0))


def test_a_line_too_long_is_refused():
    # NISTIR 6556 section 3.3: 256 characters.
    (fault,) = refused(NIST, Begin("x" * 260)).values()
    assert "256 is the most" in fault.what
