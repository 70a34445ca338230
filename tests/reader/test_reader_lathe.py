"""Lathes. Expected: the words of EIA RS-274-D and DIN 66025 as the comments say; diameters,
G50 S and G92 S, T with its offset: common practice, no source."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest

from jawcam.reader.controls import CONTROLS
from jawcam.reader.read import read, read_as

NIST, ISO = "rs274ngc-lathe", "iso6983-lathe"
START = (50.0, 0.0, 20.0)
both = pytest.mark.parametrize("control", [NIST, ISO])


def blocks(*lines, control=ISO, start=START):
    row = CONTROLS[control] if isinstance(control, str) else control
    return read_as("\n".join([*lines, "M2"]), row, start=start)


def clean(*lines, **more):
    program = blocks(*lines, **more)
    assert program.faults == ()
    return program


def faults(*lines, **more):
    return [(fault.code, f"{fault.line}:{fault.column}") for fault in blocks(*lines, **more).faults]


@both
def test_x_is_a_diameter_and_the_plane_is_z_x(control):
    cut = clean("G0 X30. Z-2.5", control=control).cuts[0]
    assert cut.start == (50, 0, 20)
    assert cut.end == (15, 0, -2.5)
    assert cut.plane == "XZ"
    assert clean("G91 G0 X-3. Z1.", control=control).cuts[0].end == (48.5, 0, 21)
    radius = replace(CONTROLS[control], x="length")
    assert clean("G0 X30. Z-2.5", control=radius).cuts[0].end == (30, 0, -2.5)


@pytest.mark.parametrize(("word", "control"), [("G20", NIST), ("G70", ISO)])
def test_inches(word, control):
    cut = clean(f"{word} G0 X1. Z-1.", control=control).cuts[0]
    assert cut.end == pytest.approx((12.7, 0, -25.4))


@both
def test_what_is_not_known_is_x_and_z_alone(control):
    program = clean("G0 X30.", "G53 G0 X0.", "Z1.", start=None, control=control)
    assert str(program.cuts[0].start) == "(nan, 0.0, nan)"
    assert str(program.cuts[1].start) == "(nan, 0.0, nan)"
    assert [change.value for change in program.changes if change.kind == "machine"] == ["G53 X0"]


@both
def test_i_is_a_radius_and_g3_turns_from_z_to_x(control):
    """NISTIR 6556 section 4.3.6.1: the XZ plane's first axis is Z. A quarter from the face to the
    diameter: round of 2 on a bar of 20, counter-clockwise with Z to the right and X upwards."""
    lines = ("G0 X16. Z0.", "G95 G3 X20. Z-2. I0. K-2. F0.1")
    cut = clean(*lines, control=control).cuts[1]
    assert cut.centre == (-2, 8)
    assert cut.turn == pytest.approx(math.pi / 2)
    assert cut.end == (10, 0, -2)
    by_radius = clean(lines[0], "G95 G3 X20. Z-2. R2. F0.1", control=control).cuts[1]
    assert by_radius.centre == pytest.approx(cut.centre)
    assert by_radius.turn == pytest.approx(cut.turn)
    assert [code for code, _ in faults(lines[0], "G3 X20. Z-2. I4. K-2. F1", control=control)] == [
        "R204"
    ]


@both
def test_a_front_turret_exchanges_ways_and_sides(control):
    front = replace(CONTROLS[control], mirrored=True)
    program = clean("G41", "G0 X16. Z0.", "G2 X20. Z-2. I0. K-2. F0.1", control=front)
    assert program.cuts[1].turn == pytest.approx(math.pi / 2)
    assert program.cuts[1].side == "right"
    assert CONTROLS[f"{control}-front"] == replace(
        front, name=f"{control}-front", title=CONTROLS[f"{control}-front"].title
    )


@both
def test_feeds_per_turn_and_per_minute(control):
    lines = ("G95 G1 X20. F0.2", "Z0.", "G94 Z-5.", "F120 Z-9.", "G95 Z-10. F.1")
    cuts = clean(*lines, control=control).cuts
    assert [(cut.per_turn, cut.feed) for cut in cuts] == [
        (True, 0.2),
        (True, 0.2),
        (False, 0),
        (False, 120),
        (True, 0.1),
    ]
    assert clean("G1 X20. F0.2", control=control).cuts[0].per_turn


@pytest.mark.parametrize(("word", "control"), [("G20", NIST), ("G70", ISO)])
def test_feeds_and_surface_speeds_in_inches(word, control):
    """A surface foot is 12 inches of 25.4 mm."""
    cut = clean(f"{word} G96 S100 M3", "G95 G1 X1. F0.01", control=control).cuts[0]
    assert cut.feed == pytest.approx(0.254)
    assert cut.surface == pytest.approx(30.48)
    late = clean("G96 S100 M3", f"{word} G1 X1. F0.01", control=control).cuts[0]
    assert late.surface == pytest.approx(30.48)


@pytest.mark.parametrize(("word", "control"), [("G50", NIST), ("G92", ISO)])
def test_surface_speed_rpm_and_clamp(word, control):
    program = clean(
        "G97 S800 M3",
        "G0 X20.",
        f"{word} S2500",
        "G0 Z9.",
        "G96 S180",
        "G0 Z8.",
        "S150",
        "G0 Z7.",
        "G97",
        "G0 Z6.",
        "G97 S600 M4",
        "G0 Z5.",
        control=control,
    )
    assert [(cut.rpm, cut.surface, cut.clamp) for cut in program.cuts] == [
        (800, 0, 0),
        (800, 0, 2500),
        (0, 180, 2500),
        (0, 150, 2500),
        (0, 0, 2500),
        (600, 0, 2500),
    ]
    told = [change.value for change in program.changes if change.kind == "spindle"]
    assert told == ["cw 800", "cw 180 m/min", "cw 150 m/min", "ccw 600"]
    # Without a clamp: no fault of the text, but a matter of the proof.
    assert clean("G96 S180 M3", "G1 X9. F1", control=control).cuts[0].clamp == 0
    assert faults(word, control=control) == [("R309", "1:1")]
    assert faults(f"{word} X9. S900", control=control) == [("R306", "1:5")]
    assert faults(f"{word} S-5", control=control) == [("R308", "1:5")]


@both
def test_each_row_has_its_own_clamp(control):
    word = {NIST: "G92", ISO: "G50"}[control]
    assert faults(f"{word} S2000", control=control) == [("R303", "1:1")]


@both
def test_threads(control):
    program = clean(
        "G97 S600 M3 G95 F0.3",
        "G0 X18. Z5.",
        "G33 Z-20. K1.5",
        "X19. Z-21. K1.5",
        "G0 X30.",
        "G33 Z-40. F2.",
        "G1 X40.",
        control=control,
    )
    threads = [cut for cut in program.cuts if cut.lead]
    assert [(cut.kind, cut.lead, cut.feed, cut.per_turn) for cut in threads] == [
        ("line", 1.5, 1.5, True),
        ("line", 1.5, 1.5, True),
        ("line", 2, 2, True),
    ]
    assert [cut.end for cut in threads] == [(9, 0, -20), (9.5, 0, -21), (15, 0, -40)]
    assert program.cuts[-1].lead == 0
    assert program.cuts[-1].feed == 2  # F has been the lead and stays in force


@both
@pytest.mark.parametrize(
    ("block", "found"),
    [
        ("G33 Z-9.", ("R211", "2:1")),
        ("G33 Z-9. K-1.", ("R308", "2:10")),
        ("G33 Z-9. K0.", ("R308", "2:10")),
        ("M5 G33 Z-9. K1.", ("R212", "2:4")),
        ("G33 K1.", ("R201", "2:1")),
        ("G33 Z-9. K1. I1.", ("R306", "2:14")),
    ],
)
def test_threads_that_would_be_refused(control, block, found):
    program = blocks("S500 M3", block, "G0 X9.", control=control)
    assert [(fault.code, f"{fault.line}:{fault.column}") for fault in program.faults] == [found]
    assert program.cuts[-1].kind == "rapid"


def test_leads_in_inches():
    assert clean("G20 S9 M3", "G33 Z-1. K0.05", control=NIST).cuts[0].lead == pytest.approx(1.27)


def test_t_turns_the_turret_and_holds_the_offset():
    program = clean(
        "T0303 S500 M3",
        "G0 X9.",
        "T0312",
        "G0 X8.",
        "T0300",
        "G0 X7.",
        "T1104 G0 X6.",
        "T0",
        "G0 X5.",
    )
    assert [(cut.tool, cut.length_offset, cut.spindle) for cut in program.cuts] == [
        (3, 3, "cw"),
        (3, 12, "cw"),
        (3, 0, "cw"),
        (11, 4, "cw"),
        (11, 0, "cw"),
    ]
    told = [(change.value, change.line) for change in program.changes if change.kind == "tool"]
    assert told == [("3", 1), ("11", 7)]
    assert faults("T3") == [("R308", "1:1")]
    assert faults("T0303 M6") == [("R303", "1:7")]


def test_t_and_m6_with_the_offset_of_g43():
    cut = clean("T3 M6", "G43 H13", "S9 M3 G0 X9.", control=NIST).cuts[0]
    assert (cut.tool, cut.length_offset) == (3, 13)


@both
def test_nose_compensation_in_the_plane_of_the_lathe(control):
    first = {NIST: ("T2 M6", "G43 H5"), ISO: ("T0205",)}[control]
    program = clean(*first, "G1 G42 X20. F0.1", "G40 X30.", "G41 Z1.", control=control)
    assert [(cut.side, cut.register) for cut in program.cuts] == [
        ("right", 5),
        ("off", 0),
        ("left", 5),
    ]
    assert faults("G41", "G42", control=control) == [("R401", "2:1")]
    assert faults("G17 G41", control=control) == [("R402", "1:5")]
    assert faults("G41", "G17", control=control) == [("R403", "2:1")]
    assert faults("G41", "G18", control=control) == []
    assert faults("G41", "G28 X9.", control=control) == [("R403", "2:1")]


@both
def test_words_of_a_mill_are_faults_in_their_places(control):
    for word, code in (("Y1.", "R101"), ("A1.", "R101"), ("J1.", "R101"), ("G81", "R303")):
        assert faults(f"G0 X1. {word}", control=control) == [(code, "1:8")], word


@both
def test_words_of_a_lathe_are_unknown_to_a_mill(control):
    mill = control.replace("lathe", "mill")
    for word in ("G33", "G95", "G96", "G97", "G50"):
        assert faults(f"G0 X1. {word}", control=mill)[0] == ("R303", "1:8")


@both
def test_the_way_home(control):
    program = clean("G0 X20. Z1.", "G28 X40.", "G0 X10. Z9.", control=control)
    assert program.cuts[1].end == (20, 0, 1)
    here = program.cuts[2].start
    assert math.isnan(here[0])
    assert here[1] == 0
    assert math.isnan(here[2]) == (control == NIST)


@both
def test_another_work_offset(control):
    program = clean("G0 X20. Z1.", "G55", "G0 X30. Z2.", control=control)
    assert str(program.cuts[1].start) == "(nan, 0.0, nan)"
    assert program.cuts[1].work_offset == 2


def test_a_program_of_the_trade():
    """By hand: a face and a shoulder, words in any order."""
    text = """%
    O0007 (AXLE OF THE GRINDER)
    N10 G71 G18 G40 G90
    N20 T0101 (TURNING)
    N30 G92 S2800
    N40 M04 G96 S200
    N50 G00 X34. Z0. M08
    N60 G95 G01 X-1.6 F.15
    N70 G00 Z1. X22.
    N80 G42 G01 Z-20. F0.2
    N90 G02 Z-23. X28. I3. K0
    N100 G40 X36.
    N110 G00 X200. Z150. M09
    N120 M30
    %"""
    program = read(text, ISO)
    found = [(fault.code, fault.line, fault.column) for fault in program.faults]
    # G02 is still in force in N100, where no centre stands.
    assert found == [("R203", 12, 14)]
    assert [cut.kind for cut in program.cuts] == ["rapid", "line", "rapid", "line", "arc", "rapid"]
    assert {cut.spindle for cut in program.cuts} == {"ccw"}
    assert program.ended
