"""Characters, words and values. Expected: NISTIR 6556, The NIST RS274NGC Interpreter - Version 3,
August 2000, section 3.3 (and its appendix C.2, whose values are taken, not its text)."""

from __future__ import annotations

import math

import pytest
from reader_help import ISO, blocks, clean, codes, faults, x_of


def test_a_line_of_256_characters_is_read_and_one_more_is_too_long():
    """Section 3.3."""
    line = "G0 X1 (".ljust(255, "-") + ")"
    assert len(line) == 256
    assert codes(line) == []
    assert faults(line.replace("(", "(-")) == [("R107", "1:257")]


def test_a_long_plain_line_is_too_long_too():
    """Section 3.3."""
    assert codes("G0 X1" + " " * 251) == []
    assert codes("G0 X1" + " " * 252) == ["R107"]


def test_block_delete_then_number_then_words_in_any_order():
    """Sections 3.3 and 2.2.2; the block delete switch is taken to be off."""
    assert x_of("/N5 (turn) F100 X7 (and) G1 Y2") == 7
    assert faults("N5 /G0 X1") == [("R101", "1:4")]


def test_blanks_and_tabs_mean_nothing():
    """Section 3.3: its own example of g0x +0. 12 34y 7."""
    cut = clean("g0x +0. 12\t34y 7").cuts[0]
    assert cut.end == (0.1234, 7, 0)
    assert cut == clean("g0 x+0.1234 y7").cuts[0]


def test_small_letters_are_as_good_and_empty_lines_mean_nothing():
    """Section 3.3."""
    program = clean("", "g1 x1 y2 f60", " \t ", "G1 X3")
    assert [cut.end[0] for cut in program.cuts] == [1, 3]
    assert [cut.line for cut in program.cuts] == [2, 4]


def test_line_numbers_have_one_to_five_digits_and_may_repeat():
    """Section 3.3.1: N000009 is illegal."""
    assert codes("N0 G0 X1", "N99999 X2", "N3 X3", "N3 X4", "N 1 2 X5") == []
    assert faults("N000009 G0 X1") == [("R104", "1:1")]
    assert faults("N G0 X1") == [("R104", "1:1")]
    assert faults("N1.5 G0 X1") == [("R104", "1:1")]
    assert faults("G0 N4 X1") == [("R104", "1:4")]


@pytest.mark.parametrize("letter", "EOUVW")
def test_letters_that_are_not_in_the_language(letter):
    """Table 3."""
    assert faults(f"G0 X1 {letter}2") == [("R101", "1:7")]


@pytest.mark.parametrize(
    ("text", "value"),
    [
        ("1", 1),
        ("1.", 1),
        (".5", 0.5),
        ("+.5", 0.5),
        ("-0.5", -0.5),
        ("007.2500", 7.25),
        ("+2", 2),
        ("1.2345678901234567", 1.2345678901234567),
    ],
)
def test_numbers(text, value):
    """Section 3.3.2.1."""
    assert x_of(f"G0 X{text}") == value


@pytest.mark.parametrize(
    ("line", "place"),
    [("X", "1:5"), ("X+", "1:5"), ("X.", "1:5"), ("X--1", "1:5"), ("X1..2", "1:5"), ("XY2", "1:5")],
)
def test_what_is_no_number(line, place):
    """Section 3.3.2.1: at least one digit, one sign, one point."""
    assert faults(f"G0 {line}") == [("R103", place)]


def test_there_is_no_exponent():
    """Appendix E.2: 1E3 is a 1 and a letter that isn't in the language."""
    assert faults("G0 X1E3") == [("R101", "1:6")]


def test_a_number_too_large_to_be_meant():
    """Ours, no source: a slip, and sums of it would not be exact."""
    assert codes("G0 X1000000000") == []
    assert faults("G0 X1000000001") == [("R106", "1:5")]
    assert faults(f"G0 X{'9' * 200}") == [("R106", "1:5")]


def test_close_to_a_whole_number():
    """Section 3.3.2.1: within 0.0001; ten times a G word likewise."""
    assert codes("G1.000009 X1 F1", "M7.00009", "G43 H1.00009") == []
    assert codes("G1.00002 X1 F1") == ["R303"]
    assert codes("M7.0002") == ["R303"]
    assert faults("G43 H1.0002") == [("R307", "1:5")]
    assert clean("G59.1", "G0 X1").cuts[0].work_offset == 7


def test_a_comment_closes_on_its_line_and_holds_no_other():
    """Section 3.3.4."""
    assert faults("G0 X1 (open") == [("R102", "1:7")]
    assert faults("G0 X1 )") == [("R102", "1:7")]
    assert faults("G0 X1 (a (b) c)") == [("R102", "1:7")]
    assert faults("G0 X1 ; no comment here") == [("R101", "1:7")]


def test_of_several_comments_the_last_is_used():
    """Section 3.3.5."""
    program = clean("(one) G0 X1 (two)", "X2", "(MSG, three)")
    assert program.comments == ((1, "two"), (3, "MSG, three"))


def test_a_comment_does_not_join_digits():
    """Section 3.3.4: comments stand between words."""
    assert faults("G0 X1(a)2") == [("R101", "1:9")]


def test_repeated_letters_are_faults():
    """Section 3.3.5: any letter but G and M at most once."""
    assert faults("G1 X1 F10 X2") == [("R301", "1:11")]
    assert codes("G90 G1 G21 X1 F10 M3 M8 M48") == []


def test_no_more_than_four_m_words():
    """Section 3.3.5."""
    assert codes("T1 M6 M3 M8 M48") == []
    assert faults("T1 M6 M3 M8 M48 M0") == [("R305", "1:17")]


def test_the_order_of_words_means_nothing():
    """Section 3.3.6."""
    assert clean("G1 X5 Y6 F100 G90 G17").cuts[0].end == clean("F100 G17 Y6 G90 X5 G1").cuts[0].end


def test_a_parameter_is_set_once_its_line_is_read():
    """Section 3.3.3: with #3=15, the line "#3=6 G1 X#3" goes to X15."""
    program = clean("#3=15", "F100", "#3=6 G1 X#3", "X#3")
    assert [cut.end[0] for cut in program.cuts] == [15, 6]


def test_parameters_by_parameters_and_expressions():
    """Section 3.3.3."""
    lines = ("#1=2", "#2=5", "#[1+2]=7", "#5399=9")
    assert x_of(*lines, "G0 X##1") == 5
    assert x_of(*lines, "G0 X#[#1+1]") == 7
    assert x_of(*lines, "G0 X[#5399 - # 2]") == 4


@pytest.mark.parametrize("index", ["0", "5400", "-1", "1.5"])
def test_parameters_that_do_not_exist(index):
    """Section 3.3.3: #1 to #5399."""
    assert faults(f"G0 X#{index}") == [("R110", "1:5")]
    assert faults(f"#{index}=3") == [("R110", "1:1")]


def test_a_parameter_without_a_value_is_a_fault_and_its_axis_unknown():
    """Ours: what a control still holds from before isn't in the text."""
    program = blocks("G0 X1 Y1", "X#100", "Y2")
    assert [(fault.code, fault.line) for fault in program.faults] == [("R110", 2)]
    assert math.isnan(program.cuts[-1].end[0])
    assert program.cuts[-1].end[1] == 2


@pytest.mark.parametrize(
    ("text", "value"),
    [
        ("[1--3]", 4),
        ("[2/5]", 0.4),
        ("[15 MOD 4.0]", 3),
        ("[1+2*3-4/5]", 6.2),
        ("[2 or 2]", 1),
        ("[2 xor 2]", 0),
        ("sin[30]", 0.5),
        ("tan[60]", 1.7321),
        ("atan[1.7321]/[1.0]", 60),
        ("round[-.499]", 0),
        ("round[-.5001]", -1),
        ("round[9.975]", 10),
        ("fix[-.499]", -1),
        ("fix[9.975]", 9),
        ("fup[-.5001]", 0),
        ("fup[2.444]", 3),
        ("exp[2.3026]", 10),
        ("[2**3.0]", 8),
        ("sqrt[[3**2]+[4**2]]", 5),
        ("sqrt[3**2+4**2]", 5),
    ],
)
def test_expressions(text, value):
    """Appendix C.2; what goes in has four decimals, so what comes out is near the round value."""
    assert x_of(f"G0 X{text}") == pytest.approx(value, rel=5e-5)


@pytest.mark.parametrize(
    ("text", "value"),
    [
        ("[2.0/3*1.5-5.5/11.0]", 0.5),  # section 3.3.2.3
        ("[2**3**2]", 64),
        ("[10-4-3]", 3),
        ("[8/4*2]", 4),
        ("[1+1 and 0]", 0),
        ("[2 AND -1]", 1),
        ("[0 or 0]", 0),
        ("[-7 mod 4]", 1),
        ("[2*[3+4]]", 14),
        ("abs[-3]", 3),
        ("acos[0.5]", 60),
        ("cos[60]", 0.5),
        ("ln[1]", 0),
        ("asin[0.5]", 30),  # section 5, table 10
        ("[6-[4*3/2]]", 0),  # section 5, table 10
    ],
)
def test_operators_go_from_left_to_right_in_three_groups(text, value):
    """Sections 3.3.2.3 and 3.3.2.4; worked out by hand."""
    assert x_of(f"G0 X{text}") == pytest.approx(value, abs=1e-12)


@pytest.mark.parametrize(
    ("text", "code", "column"),
    [
        ("asim[0.5]", "R108", 5),  # section 5, table 10: an unknown word that starts with a
        ("atan[1]", "R108", 12),
        ("[1+2", "R108", 9),
        ("[1 2", "R108", 9),
        ("[1+]", "R103", 8),
        ("-[1]", "R103", 5),
        ("[1/0]", "R109", 7),
        ("[5 mod 0]", "R109", 8),
        ("[-8**0.5]", "R109", 8),
        ("[10**400]", "R109", 8),
        ("sqrt[-1]", "R109", 5),
        ("ln[0]", "R109", 5),
        ("acos[2]", "R109", 5),
        ("exp[1000]", "R109", 5),
        ("exp[30]", "R106", 5),
        ("[" * 31 + "1" + "]" * 31, "R108", 35),
    ],
)
def test_expressions_without_a_value(text, code, column):
    """Sections 3.3.2.3 and 3.3.2.4; depth and size: ours, no source."""
    assert faults(f"G0 X{text}") == [(code, f"1:{column}")]


def test_all_faults_of_a_line_are_named_and_columns_count_from_one():
    assert faults("N10 G1 X1..5 Y2 ZA I3 F1,0") == [
        ("R103", "1:9"),
        ("R103", "1:18"),
        ("R101", "1:25"),
    ]


def test_a_foreign_character_is_named():
    for mark in "é\x00\ufeff\u00a0²\u0664":
        assert faults(f"G0 X1 {mark}") == [("R101", "1:7")]


def test_a_control_without_expressions_refuses_them():
    """Common practice, no source."""
    assert faults("G0 X[1.+2.]", control=ISO) == [("R111", "1:5")]
    assert faults("G0 X#1", control=ISO) == [("R111", "1:5")]
    assert faults("#1=5.", control=ISO) == [("R111", "1:1")]


def test_a_control_that_counts_steps_needs_decimal_points():
    """Common practice, no source: X10 is 10 mm to one such control and 0.01 mm to another."""
    assert x_of("G0 X10.", control=ISO) == 10
    assert x_of("G0 X0", "G1 X.5 F100", control=ISO) == 0.5
    assert faults("G1 X10 Y1. F100", control=ISO) == [("R105", "1:4")]
    assert faults("G2 X10. I5 F100", control=ISO) == [("R105", "1:9")]
    assert codes("G1 X10 Y1 F100") == []


def test_a_blank_inside_a_number():
    """Common practice, no source; NISTIR 6556 section 3.3 allows it."""
    assert faults("G0 X1 0.", control=ISO) == [("R112", "1:5")]
    assert x_of("G0 X 10. (blank before)", control=ISO) == 10
    assert x_of("G0 X1 0.") == 10
