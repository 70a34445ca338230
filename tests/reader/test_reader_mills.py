"""Mills after DIN 66025 and EIA RS-274-D: short programs, each worked out by hand beside it.

How digits without a point, suppressed zeros and unsigned I and J are read is common practice with
no source at hand; the arcs lie on 3-4-5 triangles, so that their points can be checked by hand.
"""

from __future__ import annotations

import math
from dataclasses import replace

import pytest
from reader_help import ISO, NIST, ZERO

from jawcam.reader.controls import CONTROLS
from jawcam.reader.read import read, read_as

DIN, EIA, TAPE = "din66025-mill", "eia274d-mill", "eia274d-tape"


def ends_of(program):
    """Kind and end of each cut, rounded to 1e-9 mm."""
    assert program.faults == ()
    return [(cut.kind, *(round(value, 9) for value in cut.end)) for cut in program.cuts]


def faults_of(*lines, control, start=ZERO):
    """Codes and places of what is wrong with the lines."""
    row = CONTROLS[control] if isinstance(control, str) else control
    program = read_as("\n".join(lines), row, start=start)
    return [(fault.code, f"{fault.line}:{fault.column}") for fault in program.faults]


DIN_PROGRAM = """
%0041
(GRINDER PLATE)
N1 G71 G17 G40 G80 G90 G94
N2 G54
N3 T04 M06
N4 S1200 M03
N5 G00 X10 Y-2.5
N6 G43 Z25 D04
N7 M08
N8 Z1
N9 G01 Z-.5 F120
N10 G41 X12.5 F300 D23
N11 G03 X15 Y0 I0 J2.5
N12 G01 G40 Y5
N13 G04 P0.5
N14 G00 Z25
N15 M09
N16 M05
N17 M30
""".lstrip()


def test_din_word_by_word():
    program = read(DIN_PROGRAM, DIN)
    assert ends_of(program)[2:] == [
        ("rapid", 10, -2.5, 1),
        ("line", 10, -2.5, -0.5),
        ("line", 12.5, -2.5, -0.5),
        ("arc", 15, 0, -0.5),  # a quarter about (12.5, 0)
        ("line", 15, 5, -0.5),
        ("rapid", 15, 5, 25),
    ]
    cuts = program.cuts
    assert cuts[5].centre == (12.5, 0)
    assert cuts[5].turn == pytest.approx(math.pi / 2)
    assert [cut.feed for cut in cuts] == [0, 0, 0, 120, 300, 300, 300, 0]
    assert [(cut.tool, cut.length_offset, cut.register) for cut in cuts[3:6]] == [
        (4, 4, 0),
        (4, 4, 23),
        (4, 4, 23),
    ]
    assert [cut.side for cut in cuts[3:7]] == ["off", "left", "left", "off"]
    changes = [(change.kind, change.value) for change in program.changes]
    assert changes == [
        ("tool", "4"),
        ("spindle", "cw 1200"),
        ("coolant", "flood"),
        ("dwell", "0.5 s"),
        ("coolant", "off"),
        ("spindle", "off"),
        ("end", "M30"),
    ]
    assert program.comments == ((2, "GRINDER PLATE"),)


@pytest.mark.parametrize("head", ["%", "%7", "% 0041"])
def test_din_begins_with_a_percent_sign_and_a_number(head):
    assert faults_of(head, "N1 G00 X1", "N2 M30", control=DIN) == []


@pytest.mark.parametrize("word", ["G20", "G21", "G28", "G49", "G53", "O5", "H4", "R5"])
def test_words_that_din_does_not_have(word):
    (code, _), *_ = faults_of(f"N1 G00 {word} X1", "N2 M30", control=DIN)
    assert code in ("R101", "R303", "R306")


def test_a_length_in_din_needs_its_register():
    assert faults_of("G43 Z5", "M30", control=DIN) == [("R309", "1:1")]


# Three digits right of the point in mm, four in inches: X15000 is 15 mm, X15000 is 1.5 in.
EIA_PROGRAM = """
%
(GRINDER PLATE)
N0010 G71 G17 G40 G49 G80 G90 G94
N0020 G54
N0030 T04 M06
N0040 S1200 M03
N0050 G00 X10000 Y-2500
N0060 G43 Z25000 H04
N0070 Z1
N0080 G01 Z-500 F120
N0090 X+12500 F80
N0100 G03 X15000 Y0 I0 J2500
N0110 G04 P500
N0120 G00 Z25000
N0130 M05
N0140 G70
N0150 G01 X10000 Y0 F125
N0160 M30
%
""".lstrip()


def test_digits_whose_last_one_has_its_place():
    program = read(EIA_PROGRAM, EIA)
    assert ends_of(program)[2:] == [
        ("rapid", 10, -2.5, 0.001),
        ("line", 10, -2.5, -0.5),
        ("line", 12.5, -2.5, -0.5),
        ("arc", 15, 0, -0.5),
        ("rapid", 15, 0, 25),
        ("line", 25.4, 0, 25),
    ]
    assert [cut.feed for cut in program.cuts[3:]] == [120, 80, 80, 0, 12.5 * 25.4]
    assert {cut.rpm for cut in program.cuts} == {1200}
    assert ("dwell", "0.5 s") in [(change.kind, change.value) for change in program.changes]


def test_a_unit_word_counts_for_its_whole_block():
    program = read("G01 X15000 G70 F10\nM30", EIA, start=ZERO)
    assert ends_of(program) == [("line", 38.1, 0, 0)]  # 1.5 in
    assert program.cuts[0].feed == 25.4


def test_ten_times_too_far_is_seen():
    """The same digits in a format of one decimal less."""
    row = CONTROLS[EIA]
    tenths = replace(row.implied["X"], mm=(4, 2))
    program = read_as("G00 X15000\nM30", replace(row, implied={"X": tenths}), start=ZERO)
    assert ends_of(program) == [("rapid", 150, 0, 0)]


@pytest.mark.parametrize(
    ("word", "code"),
    [
        ("X1.5", "R113"),
        ("X1.", "R113"),
        ("X12345678", "R113"),
        ("X-12345678", "R113"),
        ("F123456", "R113"),
    ],
)
def test_what_is_not_in_its_format(word, code):
    assert faults_of(f"G01 Y1 {word}", "M30", control=EIA) == [(code, "1:8")]


def test_the_mend_tells_the_format():
    program = read("G00 X12345678\nM30", EIA, start=ZERO)
    assert program.faults[0].mend == (
        "write 4 before the point that isn't written and 3 after it, no leading zeros"
    )


def test_a_cycle_without_points():
    """NISTIR 6556 section 3.5.16.1, example 1, in whole thousandths."""
    program = read("G81 G98 X4000 Y5000 Z1500 R2800 F9\nG80\nM30", EIA, start=(1, 2, 3))
    assert [end[1:] for end in ends_of(program)] == [(4, 5, 3), (4, 5, 2.8), (4, 5, 1.5), (4, 5, 3)]


# Four digits left of the point in mm, three in inches: X+0015 is 15 mm, X+0015 is 1.5 in. The arcs
# go round (0, 0) at 10, one in each quadrant, the last one back.
TAPE_PROGRAM = """
%$
(GRINDER PLATE)$
N0001G71G40G80G90G94$
N0002G54$
N0003T0409M06$
N0004S01200M03$
N0005G00X+001Y+0$
N0006Z+0025$
N0007Z+0000001$
N0008G01Z-00005F0012$
N0009G03X+0006Y+0008I001J0F0008$
N0010X+0Y+001I0006J0008$
N0011X-0008Y+0006I0J001$
N0012X-001Y+0I0008J0006$
N0013G02X-0008Y+0006I001J0$
N0014G04P00500$
N0015G00Z+0025$
N0016M05$
N0017G70$
N0018G01X+0015F0012$
N0019M30$
%$
""".lstrip()


def test_a_tape():
    program = read(TAPE_PROGRAM, TAPE)
    assert ends_of(program)[2:] == [
        ("rapid", 10, 0, 0.001),
        ("line", 10, 0, -0.5),
        ("arc", 6, 8, -0.5),
        ("arc", 0, 10, -0.5),
        ("arc", -8, 6, -0.5),
        ("arc", -10, 0, -0.5),
        ("arc", -8, 6, -0.5),
        ("rapid", -8, 6, 25),
        ("line", 38.1, 6, 25),
    ]
    arcs = [cut for cut in program.cuts if cut.kind == "arc"]
    assert [cut.centre for cut in arcs] == [pytest.approx((0, 0), abs=1e-12)] * 5
    small, large = math.atan2(3, 4), math.atan2(4, 3)
    turns = [large, small, large, small, -small]
    assert [cut.turn for cut in arcs] == pytest.approx(turns)
    assert [cut.feed for cut in program.cuts[3:6]] == [120, 80, 80]
    assert program.cuts[-1].feed == 12 * 25.4
    assert {(cut.tool, cut.length_offset, cut.rpm) for cut in program.cuts} == {(4, 9, 1200)}
    assert ("dwell", "0.5 s") in [(change.kind, change.value) for change in program.changes]


@pytest.mark.parametrize("ccw", [True, False])
@pytest.mark.parametrize("quadrant", range(4))
def test_the_quadrant_follows_from_the_direction_and_the_end(quadrant, ccw):
    """From 10 degrees into a quadrant to 50 degrees, or back, about (3, -4)."""
    angles = [math.radians(quadrant * 90 + degrees) for degrees in (10, 50)]
    (x, y), (to_x, to_y) = (
        (3 + 20 * math.cos(a), -4 + 20 * math.sin(a)) for a in (angles if ccw else angles[::-1])
    )
    words = f"X{to_x:.9f} Y{to_y:.9f} I{abs(x - 3):.9f} J{abs(y + 4):.9f} F9"
    row = replace(CONTROLS[NIST], centre="unsigned")
    program = read_as(f"{'G3' if ccw else 'G2'} {words}\nM2", row, start=(x, y, 0))
    (cut,) = program.cuts
    assert program.faults == ()
    assert cut.centre == pytest.approx((3, -4), abs=1e-6)
    assert math.degrees(cut.turn) == pytest.approx(40 if ccw else -40)


@pytest.mark.parametrize(
    ("block", "code"),
    [
        ("N1G03X+0Y+001I001J0$", None),
        ("N1G03X-0006Y+0008I001J0$", "R213"),  # on into the second quadrant
        ("N1G02X+0Y+001I001J0$", "R204"),  # the other way round: its centre is (20, 0)
        ("N1G03X+0Y+0I0005J0$", "R213"),  # half a turn
        ("N1G03X+001Y+0I0005J0$", "R213"),  # a full one
        ("N1G03X+0Y+001I-001J0$", "R308"),
        ("N1G03X+0Y+001$", "R203"),
    ],
)
def test_arcs_that_stay_in_a_quadrant_and_others(block, code):
    found = faults_of(block, "N2M30$", control=TAPE, start=(10.0, 0.0, 0.0))
    assert [fault for fault, _ in found] == ([code] if code else [])


@pytest.mark.parametrize(
    ("lines", "expected"),
    [
        (("G00X+0001$", "N2M30$"), [("R114", "1:1")]),
        (("N1G00X+0001", "N2M30$"), [("R115", "1:12")]),
        (("N1G00X+0001$", "/N2M01$", "N3M30$"), []),
        (("N1g00X+0001$", "N2M30$"), [("R101", "1:3")]),
        (("N1G00X+0001(Plate)$", "N2M30$"), [("R101", "1:14")]),
        (("N1M03M08$", "N2M30$"), [("R305", "1:6")]),
        (("N1S120M03$", "N2M30$"), [("R113", "1:3")]),
        (("N1G43H03$", "N2M30$"), [("R303", "1:3"), ("R101", "1:6")]),
        ((f"N1G00X+0001{' ' * 70}$", "N2M30$"), [("R107", "1:81")]),
        (("N12345G00X+0001$", "N2M30$"), [("R104", "1:1")]),
    ],
)
def test_what_a_tape_needs_in_each_block(lines, expected):
    assert faults_of(*lines, control=TAPE) == expected


def test_the_offset_in_a_tool_word_is_in_force_once_the_tool_is():
    text = "N1T0305M06$\nN2T0406$\nN3G00X+0001$\nN4M06$\nN5X+0002$\nN6M30$"
    program = read(text, TAPE, start=ZERO)
    assert [(cut.tool, cut.length_offset) for cut in program.cuts] == [(3, 5), (4, 6)]


def test_comments_that_end_with_their_line():
    row = replace(CONTROLS[NIST], comment=(";", ""))
    program = read_as("; (grinder) plate\nG0 X1 ; and ; on\nX2\nM2", row, start=ZERO)
    assert program.faults == ()
    assert program.comments == ((1, " (grinder) plate"), (2, " and ; on"))
    assert [cut.end[0] for cut in program.cuts] == [1, 2]
    assert faults_of("G0 X1 (no)", "M2", control=row) == [("R101", "1:7")]
    assert faults_of("G0 X1;2", "M2", control=row) == []


def test_a_time_in_milliseconds_or_by_another_letter():
    row = replace(CONTROLS[ISO], dwell=("X", 0.001))
    program = read_as("G04 X250.\nG00 X1.\nM30", row, start=ZERO)
    assert program.changes[0].value == "0.25 s"
    assert ends_of(program) == [("rapid", 1, 0, 0)]
    assert faults_of("G04 P9", "M30", control=row)[0][0] == "R309"


@pytest.mark.parametrize(("number", "offset"), [(1, 7), (48, 54)])
def test_work_offsets_by_two_words(number, offset):
    """Common practice, no source: G54.1 P1 is the seventh."""
    program = read(f"G54.1 P{number}\nG00 X1.\nG54\nX2.\nM30", ISO, start=ZERO)
    assert program.faults == ()
    assert [cut.work_offset for cut in program.cuts] == [offset, 1]


@pytest.mark.parametrize(("words", "code"), [("", "R309"), (" P0", "R308"), (" P49", "R308")])
def test_a_work_offset_that_there_is_none_of(words, code):
    assert faults_of(f"G54.1{words}", "M30", control=ISO)[0][0] == code
