"""Two more kinds of lathe: feeds by G98 and G99 with a thread cycle round a box (common practice,
no source), and DIN 66025 with the program's number behind the percent sign (from memory)."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest

from jawcam.reader.controls import CONTROLS
from jawcam.reader.read import read, read_as

G98, DIN, ISO = "iso6983-lathe-g98", "din66025-lathe", "iso6983-lathe"
START = (50.0, 0.0, 20.0)


def blocks(*lines, control=G98, start=START):
    row = CONTROLS[control] if isinstance(control, str) else control
    return read_as("\n".join([*lines, "M2"]), row, start=start)


def clean(*lines, **more):
    program = blocks(*lines, **more)
    assert program.faults == ()
    return program


def faults(*lines, **more):
    return [(fault.code, f"{fault.line}:{fault.column}") for fault in blocks(*lines, **more).faults]


def path(program):
    """Each move as its kind, X (a radius), Z and lead."""
    return [
        (cut.kind, *(round(number, 9) for number in (cut.end[0], cut.end[2], cut.lead)))
        for cut in program.cuts
    ]


def test_feeds_the_other_way_round():
    cuts = clean("G99 G1 X20. F0.2", "G98 Z-5. F120", "G99 Z-6. F.1").cuts
    assert [(cut.per_turn, cut.feed) for cut in cuts] == [(True, 0.2), (False, 120), (True, 0.1)]
    for word in ("G94", "G95", "G90", "G91", "G70", "G71"):
        assert faults(f"G0 X1. {word}") == [("R303", "1:8")]
    for word in ("G98", "G99", "G32", "G20", "G21"):
        assert faults(f"G0 X1. {word}", control=ISO) == [("R303", "1:8")]
    assert clean("G20 G99 G1 X1. F.01").cuts[0].feed == pytest.approx(0.254)


@pytest.mark.parametrize("kind", [G98, DIN, ISO, "rs274ngc-lathe"])
def test_a_program_says_whether_its_x_words_are_diameters(kind):
    wide, narrow = (clean("G0 X20.", control=name) for name in (kind, f"{kind}-radius"))
    assert (wide.x, wide.cuts[0].end[0]) == ("diameter", 10.0)
    assert (narrow.x, narrow.cuts[0].end[0]) == ("length", 20.0)


def test_the_clamp_is_g50_and_g92_is_none():
    program = clean("G50 S2500", "G96 S180 M3", "G99 G1 X9. F1")
    assert (program.cuts[0].clamp, program.cuts[0].surface) == (2500, 180)
    assert faults("G92 S2500") == [("R201", "1:1")]
    assert faults("G50 X9. S900") == [("R306", "1:5")]


def test_a_stay_is_counted_in_milliseconds():
    (dwell,) = [c.value for c in clean("G0 X9.", "G4 P1500").changes if c.kind == "dwell"]
    assert dwell == "1.5 s"
    assert faults("G4 X1.5")[0][0] == "R309"


def test_a_single_pass_has_its_lead_in_f():
    cut = clean("S600 M3", "G32 X18. Z-20. F1.5").cuts[0]
    assert (cut.end, cut.lead, cut.per_turn) == ((9, 0, -20), 1.5, True)
    assert faults("S600 M3", "G32 Z-20. K1.5") == [("R211", "2:1")]


def test_a_box_goes_round_once_a_block():
    program = clean("S600 M3 G0 X24. Z5.", "G92 X19.2 Z-30. F1.5", "X18.6", "X18.16")
    assert path(program)[1:] == [
        move
        for x in (9.6, 9.3, 9.08)
        for move in (
            ("rapid", x, 5, 0),
            ("line", x, -30, 1.5),
            ("rapid", 12, -30, 0),
            ("rapid", 12, 5, 0),
        )
    ]
    lines = [(cut.line, cut.column) for cut in program.cuts[1:]]
    assert lines == [place for place in ((2, 1), (3, 1), (4, 1)) for _ in range(4)]
    assert {cut.per_turn for cut in program.cuts if cut.lead} == {True}
    # By hand, in the same words as the written out form of another kind.
    out = ["S600 M3 G0 X24. Z5."]
    for x in ("19.2", "18.6", "18.16"):
        out += [f"G0 X{x}", "G33 Z-30. K1.5", "G0 X24.", "Z5."]
    assert path(clean(*out, control=ISO)) == path(program)


def test_a_box_inside_a_bore_and_one_that_begins_elsewhere():
    program = clean("S600 M3 G0 X16. Z4.", "G92 X18.4 Z-12. F2.", "G0 Z3.8", "G92 X18.8 Z-12.2 F2.")
    assert path(program)[1:] == [
        ("rapid", 9.2, 4, 0),
        ("line", 9.2, -12, 2),
        ("rapid", 8, -12, 0),
        ("rapid", 8, 4, 0),
        ("rapid", 8, 3.8, 0),
        ("rapid", 9.4, 3.8, 0),
        ("line", 9.4, -12.2, 2),
        ("rapid", 8, -12.2, 0),
        ("rapid", 8, 3.8, 0),
    ]


@pytest.mark.parametrize(("control", "x"), [(G98, 36), (f"{G98}-radius", 18)])
def test_a_tapered_box_has_the_difference_of_radii_in_r(control, x):
    """ISO 7-1: 1 in 16 on the diameter, so 32 mm of Z are 1 mm of radius; the start is thinner."""
    program = clean("S600 M3 G0 X99. Z2.", f"G92 X{x}. Z-30. R-1. F2.309", control=control)
    assert path(program)[1:3] == [("rapid", 17, 2, 0), ("line", 18, -30, 2.309)]
    held = clean("S600 M3 G0 X99. Z2.", f"G92 X{x}. Z-30. R-1. F2.", f"X{x}. R0", control=control)
    assert path(held)[5:7] == [("rapid", 18, 2, 0), ("line", 18, -30, 2)]
    holds = clean("S600 M3 G0 X99. Z2.", f"G92 X{x}. Z-30. R-1. F2.", f"X{x}.", control=control)
    assert path(holds)[5:7] == path(holds)[1:3]


def test_a_box_in_inches():
    program = clean("G20 S600 M3 G0 X1.2 Z.2", "G92 X.9 Z-1. R-.03125 F.05")
    _, (_, x, z, _), (_, end_x, end_z, lead), *_ = path(program)
    assert (x, z) == pytest.approx((0.41875 * 25.4, 5.08))
    assert (end_x, end_z, lead) == pytest.approx((0.45 * 25.4, -25.4, 1.27))


@pytest.mark.parametrize(
    ("block", "found"),
    [
        ("G92 X18. Z-9.", ("R211", "2:1")),
        ("G92 X18. F1.", ("R502", "2:1")),
        ("G92 Z-9. F1.", ("R502", "2:1")),
        ("G92 X18. Z-9. F0", ("R308", "2:15")),
        ("G92 X18. Z-9. F-1.", ("R308", "2:15")),
        ("G92 X18. Z-9. F1. K1.", ("R306", "2:19")),
        ("M5 G92 X18. Z-9. F1.", ("R212", "2:4")),
        ("G92 F1.", ("R201", "2:1")),
    ],
)
def test_boxes_that_would_be_refused(block, found):
    assert faults("S500 M3 G0 X30. Z2.", block, "G0 X9. Z9.") == [found]


def test_a_box_holds_on_only_as_long_as_it_is_in_force():
    start = ("S500 M3 G0 X30. Z2.", "G92 X19. Z-9. F1.")
    assert faults(*start, "G0 Z1.", "G92 X18.5") == [("R502", "4:1")]
    assert faults(*start, "G21", "X18.5") == [("R502", "4:1")]
    assert faults(*start, "G92 X18.5", "Z-8.", "F1.5 X18.") == []
    assert faults(*start, "G80", "X18.5") == [("R202", "4:1")]
    # A block without an axis word changes the feed and goes nowhere.
    assert len(clean(*start, "F2.").cuts) == len(clean(*start).cuts)


def test_increments_are_not_read_in_a_box():
    row = replace(CONTROLS[G98], groups=(*CONTROLS[G98].groups, *_distance()))
    found = blocks("S500 M3 G0 X30. Z2.", "G91 G92 X-1. Z-9. F1.", "G90 G0 X9. Z9.", control=row)
    assert [(fault.code, fault.line) for fault in found.faults] == [("R501", 2)]
    assert math.isnan(found.cuts[-1].start[0])


def _distance():
    return [group for group in CONTROLS[ISO].groups if group.name == "distance"]


def test_a_mirrored_box_is_the_same_box():
    lines = ("S500 M3 G0 X30. Z2.", "G92 X19. Z-9. F1.")
    assert path(clean(*lines, control=f"{G98}-front")) == path(clean(*lines))


def test_the_number_stands_behind_the_percent_sign():
    text = "%0012\nN1 G71 G18 G90 G95 G97\nN2 T0101 S500 M3\nN3 G0 X30 Z2\nN4 G1 Z-5 F0.2\nN5 M30\n"
    program = read(text, DIN)
    assert program.faults == ()
    assert program.cuts[-1].end == (15, 0, -5)
    assert read(text + "%\n", DIN).faults == ()
    assert read(text.replace("%0012", "%"), DIN).faults == ()
    for head in ("%0012 G0 X9", "%-3", "%123456789", "% A"):
        found = read(text.replace("%0012", head), DIN).faults
        assert [(fault.code, fault.line) for fault in found] == [("R602", 1)], head
    assert read(text, ISO).faults[0].code == "R602"
    late = read(text.replace("N3", "%7\nN3"), DIN)
    assert [(fault.code, fault.line) for fault in late.faults] == [("R602", 4)]


def test_din_takes_whole_numbers_and_a_lead_in_k_alone():
    program = clean("S500 M3 G0 X30 Z2", "G33 Z-20 K2", control=DIN)
    assert (program.cuts[1].end, program.cuts[1].lead) == ((15, 0, -20), 2)
    assert faults("S500 M3", "G33 Z-20 F2", control=DIN) == [("R211", "2:1")]
    assert clean("G92 S2000", "G96 S200 M3", "G1 X9 F1", control=DIN).cuts[0].clamp == 2000
    assert faults("O12", control=DIN) == [("R101", "1:1")]
