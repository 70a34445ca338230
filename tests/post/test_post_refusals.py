"""A dialect that can't say it refuses, names all of it, and tells the mend."""

from __future__ import annotations

from dataclasses import replace

import pytest
from post_cases import EVERY_KIND, MILLS, ZERO, load, text_of

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


TAPE = load("eia274d-tape")


def test_numbers_of_more_digits_than_there_are():
    numbers = replace(
        NIST.numbers, feed_digits=PerUnit(mm=3, inch=2), speed_digits=4, digits=PerUnit(4, 3)
    )
    narrow = replace(NIST, numbers=numbers)
    assert "a feed of 1000 mm/min has more digits than can be written, 3" in refused(
        narrow, Rapid((0, 0, 0)), LineFeed((1, 0, 0), 1000)
    )
    assert "a feed of 100 in/min has more digits than can be written, 2" in refused(
        narrow, Rapid((0, 0, 0)), LineFeed((1, 0, 0), 2540), units=Units.INCH
    )
    assert "a speed of 10000 rpm has more digits than can be written, 4" in refused(
        narrow, Spindle(10000)
    )
    assert "a speed of 9999.7 rpm has more digits than can be written, 4" in refused(
        narrow, Spindle(9999.7)
    )
    fits = (Spindle(9999), Rapid((0, 0, 0)), LineFeed((1, 0, 0), 999))
    assert "F999" in text_of(fits, narrow, Units.MM, (0, 0, 0))


@pytest.mark.parametrize("name", MILLS)
@pytest.mark.parametrize(
    ("motions", "units", "word"),
    [
        ((Rapid((10000.0, 0, 0)),), Units.MM, "a coordinate is beyond the largest"),
        ((Rapid((0, 0, 25400.0)),), Units.INCH, "a coordinate is beyond the largest"),
        ((ToolChange(100, "drill"),), Units.MM, "tool number 100 can't be written"),
        ((Compensate("left", 100),), Units.MM, "offset register 100 can't be written"),
        ((WorkOffset(17),), Units.MM, "there is no work offset 17"),
    ],
)
def test_what_does_not_fit_is_refused_by_every_post(name, motions, units, word):
    what, fault = next(iter(refused(load(name), *motions, units=units).items()))
    assert word in what
    assert fault.mend


def test_an_arc_through_more_than_one_quadrant_without_the_pass_that_mends_it():
    passes = tuple(name for name in TAPE.passes if name != "split_at_quadrants")
    arc = ArcFeed((-5.0, 0.0, 0.0), (0.0, 0.0), True, 100)
    (fault,) = refused(replace(TAPE, passes=passes), Rapid((5.0, 0.0, 0.0)), arc).values()
    assert fault.what == "an arc through more than one quadrant can't be written"
    assert "split_at_quadrants" in fault.mend
    text = text_of((Rapid((5.0, 0.0, 0.0)), arc), TAPE, Units.MM, (0.0, 0.0, 0.0))
    assert text.count("G03") == 2


def test_a_full_turn_without_it_is_named_as_one():
    passes = tuple(name for name in TAPE.passes if name != "split_at_quadrants")
    turn = ArcFeed((5.0, 0.0, 0.0), (0.0, 0.0), True, 100)
    found = refused(replace(TAPE, passes=passes), Rapid((5.0, 0.0, 0.0)), turn)
    assert "a full circle can't be written" in found


def test_a_centre_as_a_point_must_be_a_coordinate():
    # Both ends are within 9999 mm of zero, the centre of the second arc is not.
    absolute = replace(NIST, arcs=replace(NIST.arcs, centre="absolute"))
    start = Rapid((9000.0, 0.0, 0.0))
    near, far = (ArcFeed((9000.0, 100.0, 0.0), (x, 50.0), True, 100) for x in (8500.0, 10500.0))
    assert "I8500. J50." in text_of((start, near), absolute, Units.MM, (0.0, 0.0, 0.0))
    (what,) = refused(absolute, start, far)
    assert "a coordinate is beyond the largest" in what
    assert text_of((start, far), NIST, Units.MM, (0.0, 0.0, 0.0))


def test_a_cut_too_short_to_be_written_and_too_far_off_to_be_merged():
    moves = replace(NIST.moves, shortest=PerUnit(0.01, 0.0004), merge_chord=PerUnit(0.001, 0.0))
    dialect = replace(NIST, moves=moves)
    path = [(5, 0), (5, 0.009), (9, 0.009)]
    motions = (Rapid((0, 0, 0)), *(LineFeed((*place, 0), 100) for place in path))
    (fault,) = refused(dialect, *motions).values()
    assert fault.what == "a cut shorter than the 0.01 mm that can be written at least"
    assert fault.place.at == "X 5 Y 0.009 Z 0"
    assert "moves.merge_chord" in fault.mend
    wider = replace(dialect, moves=replace(moves, merge_chord=PerUnit(0.01, 0.0)))
    lines = text_of(motions, wider, Units.MM, (0, 0, 0)).splitlines()
    assert lines[-2:] == ["G1 X5. Y0.009 F100", "X9."]
