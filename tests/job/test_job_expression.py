"""Expressions: what they come to, what is wrong with them and where, and that nothing runs."""

import ast
import math
import operator
import pathlib

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

import jawcam.job
from jawcam.job.expression import MAX_DEPTH, MAX_LENGTH, evaluate, references
from jawcam.job.quantity import Dims, Quantity, measure
from jawcam.job.words import WrongValueError
from jawcam.units import Units

NAMES = {
    "gap": Quantity(6.0, bare=True),
    "wall": Quantity(10.0, Dims(length=1)),
    "count": Quantity(3.0, bare=True),
    "faulty": None,
}


def value(text, kind="length", units=Units.MM):
    return measure(evaluate(text, NAMES, units), kind, units)


# 25.4 mm to the inch: ISO 31-1; the rest is arithmetic.
@pytest.mark.parametrize(
    ("text", "mm"),
    [
        ("9.5 mm", 9.5),
        ("9.5mm", 9.5),
        ("3/8 in", 9.525),
        ('3/8"', 9.525),
        ("1 1/4 in", 31.75),
        ('1 1/4"', 31.75),
        ("-1 1/4 in", -31.75),
        (".5 inch", 12.7),
        ("10 thou", 0.254),
        ("2.5 cm", 25),
        ("30 um", 0.03),
        ("1e-1 mm", 0.1),
        ("10 mm - 3/8 in", 0.475),
        ("2 * 3/8 in", 19.05),
        ("2 * (1 mm + 2 mm)", 6),
        ("7 mm - 2 mm - 1 mm", 4),
        ("-wall / 2", -5),
        ("--wall", 10),
        ("wall * wall / (5 mm)", 20),
        ("sqrt(wall * wall + 24 mm * 24 mm)", 26),
        ("wall * sin(30)", 5),
        ("wall * cos(60 deg)", 5),
        ("wall * tan(45°)", 10),
        ("abs(3 mm - wall)", 7),
        ("min(wall, 12 mm, 1 in)", 10),
        ("max(wall)", 10),
        ("12 mm/min(2, 3)", 6),
    ],
)
@pytest.mark.parametrize("units", Units)
def test_a_length_with_units_is_the_same_in_every_job(text, mm, units):
    assert value(text, units=units) == pytest.approx(mm, abs=1e-12)


@pytest.mark.parametrize(
    ("text", "in_units"),
    [("8", 8), ("gap / 2", 3), ("1 1/4", 1.25), ("3/8", 0.375), ("2 * gap + 1", 13)],
)
def test_bare_numbers_count_in_the_units_of_the_job(text, in_units):
    assert value(text) == pytest.approx(in_units)
    assert value(text, units=Units.INCH) == pytest.approx(in_units * 25.4)


def test_a_bare_number_added_to_a_length_counts_in_the_units_of_the_job():
    assert value("gap / 2 + 0.5 mm") == pytest.approx(3.5)
    assert value("gap / 2 + 0.5 mm", units=Units.INCH) == pytest.approx(3 * 25.4 + 0.5)
    assert value("max(1, 20 mm)", units=Units.INCH) == pytest.approx(25.4)


def test_a_bare_number_multiplied_with_a_length_is_a_plain_number():
    assert value("count * wall", units=Units.INCH) == pytest.approx(30)


def test_a_bare_number_times_a_plain_one_stays_bare():
    for text in ("10 * sin(30)", "sin(30) * 10", "10 * sin(90) / 2"):
        assert value(text, units=Units.INCH) == pytest.approx(5 * 25.4)
    with pytest.raises(WrongValueError, match="a plain number, but a length is due"):
        value("sin(30) / 2")


def test_bare_numbers_serve_where_a_plain_number_is_due():
    assert value("count * 2", "whole") == 6
    assert value("wall / (4 mm)", "number") == pytest.approx(2.5)


@pytest.mark.parametrize(
    ("text", "kind", "expected"),
    [
        ("30 in/min", "feed", 762),
        ("800 mm/min", "feed", 800),
        ("6000 rpm * 3 * 0.05 mm", "feed", 900),
        ("6000 rpm", "speed", 6000),
        ("6000", "speed", 6000),
        ("90 deg / 2", "angle", 45),
    ],
)
def test_feeds_speeds_and_angles(text, kind, expected):
    assert value(text, kind) == pytest.approx(expected)


# 1 lbf = 4.448 221 615 260 5 N exactly (NIST SP 811, appendix B.8); an inch is 0.0254 m.
@pytest.mark.parametrize(
    ("text", "kind", "expected"),
    [
        ("900 N", "force", 900),
        ("12 kN", "force", 12000),
        ("1 lbf", "force", 4.4482216152605),
        ("2700", "force", 2700),
        ("2 * 3 kN + 50", "force", 6050),
        ("40 N m", "torque", 40),
        ("40 Nm", "torque", 40),
        ("40N \t m", "torque", 40),
        ("3/8 N m", "torque", 0.375),
        ("40", "torque", 40),
        ("30 N m + 10", "torque", 40),
        ("max(30 N m, 40)", "torque", 40),
        ("100 N * 400 mm", "torque", 40),
        ("350 lbf in", "torque", 350 * 4.4482216152605 * 0.0254),
        ("30 lbf ft", "torque", 30 * 4.4482216152605 * 0.3048),
        ("350 in * 1 lbf", "torque", 350 * 4.4482216152605 * 0.0254),
        ("40 N m / (5 mm)", "force", 8000),
    ],
)
@pytest.mark.parametrize("units", Units)
def test_forces_and_torques_are_the_same_in_every_job(text, kind, expected, units):
    assert value(text, kind, units) == pytest.approx(expected, rel=1e-12)


def test_a_bare_feed_counts_in_job_units_per_minute():
    assert value("30", "feed", Units.INCH) == pytest.approx(762)


@pytest.mark.parametrize(
    ("text", "kind", "expected"),
    [
        ("2 m/s2", "acceleration", 2000),
        ("2000 mm/s2 / 2", "acceleration", 1000),
        ("80 in/s2", "acceleration", 2032),
        ("1 m/s2 + 1000 mm/s2", "acceleration", 2000),
        ("600 mm/min / (0.05 s)", "acceleration", 200),
        ("8 s", "time", 8),
        ("10 mm / (600 mm/min)", "time", 1),
        ("8", "time", 8),
        ("4 s + 2", "time", 6),
    ],
)
@pytest.mark.parametrize("units", Units)
def test_accelerations_and_times_are_the_same_in_every_job(text, kind, expected, units):
    assert value(text, kind, units) == pytest.approx(expected, rel=1e-12)


def test_a_bare_acceleration_counts_in_job_units_each_second():
    assert value("2000", "acceleration") == pytest.approx(2000)
    assert value("80", "acceleration", Units.INCH) == pytest.approx(2032)
    assert value("40 in/s2 + 40", "acceleration", Units.INCH) == pytest.approx(2032)


@pytest.mark.parametrize(
    ("text", "column", "what", "mend"),
    [
        ("", 1, "empty", "a number"),
        ("   ", 1, "empty", ""),
        ("9,5 mm", 2, "comma", "9.5"),
        ("2 gap", 3, "operator is missing before 'gap'", "between"),
        ("gap mm", 5, "operator is missing before 'mm'", "* 1 mm"),
        ("1 mm 2 mm", 6, "operator is missing", ""),
        ("1..2", 3, "operator is missing", ""),
        ("5 furlong", 3, "no unit 'furlong'", "mm"),
        ("350 in lbf", 8, "operator is missing before 'lbf'", "* 1 lbf"),
        ("40 N gap", 6, "operator is missing before 'gap'", ""),
        ("40 N m + 3 mm", 8, "a torque and a length can't be added", ""),
        ("5 MM", 3, "no unit 'MM'", "did you mean mm?"),
        ("gup + 1", 1, "no name 'gup'", "did you mean gap?"),
        ("zebra", 1, "no name 'zebra'", "[let]"),
        ("sqr(2)", 1, "no function 'sqr'", "did you mean sqrt?"),
        ("hypot(2, 3)", 1, "no function 'hypot'", "sqrt, sin"),
        ("min", 1, "brackets", "min(...)"),
        ("sqrt(2, 5)", 1, "takes one value", "9.5"),
        ("sqrt()", 6, "value is missing before ')'", ""),
        ("(1 + 2", 1, "never closed", ")"),
        ("1 + 2)", 6, "no ( for this", ""),
        ("1 +", 4, "stops short", ""),
        ("* 2", 1, "value is missing before '*'", ""),
        ("2 ** 3", 4, "value is missing before '*'", "a * a"),
        ("2 ^ 3", 3, "'^' has no meaning", ""),
        ("1 / 0", 3, "divides by zero", ""),
        ("1 / (gap - 6)", 3, "divides by zero", ""),
        ("1/0 in", 3, "divides by zero", ""),
        ("1 3/0 in", 5, "divides by zero", ""),
        ("1e999", 1, "too large", ""),
        ("1e200 * 1e200", 7, "too large", ""),
        ("wall + 3 deg", 6, "a length and an angle can't be added", ""),
        ("wall - wall / wall", 6, "a length and a plain number can't be subtracted", ""),
        ("sqrt(0 - 1)", 1, "no square root of -1", ""),
        ("sqrt(wall)", 1, "no square root of a length", ""),
        ("sin(wall)", 1, "an angle is due", ""),
        ("tan(90)", 1, "no tangent", ""),
    ],
)
def test_faults_are_placed_and_explained(text, column, what, mend):
    with pytest.raises(WrongValueError) as caught:
        evaluate(text, NAMES, Units.MM)
    assert caught.value.column == column
    assert what in caught.value.what
    assert mend in caught.value.mend


@pytest.mark.parametrize(
    ("text", "kind", "what", "mend"),
    [
        ("wall", "whole", "a length, but a whole number is due", "without a unit"),
        ("wall / wall", "length", "a plain number, but a length is due", "3 mm"),
        ("wall * wall", "length", "an area, but a length is due", ""),
        ("3 / 8 in", "length", "divided by a length", "without blanks"),
        ("30 deg", "length", "an angle, but a length is due", ""),
        ("10 mm", "feed", "a length, but a feed is due", "mm/min"),
        ("10 mm", "speed", "a length, but a spindle speed is due", "rpm"),
        ("40 N", "torque", "a force, but a torque is due", "40 N m"),
        ("40 N m", "force", "a torque, but a force is due", "12 kN"),
        ("40 N", "length", "a force, but a length is due", "3 mm"),
        ("5 / 2", "whole", "2.5, but a whole number is due", ""),
        ("wall * wall * wall * wall", "length", "a mixture of units", ""),
    ],
)
def test_a_quantity_of_the_wrong_kind_is_refused(text, kind, what, mend):
    with pytest.raises(WrongValueError) as caught:
        value(text, kind)
    assert what in caught.value.what
    assert mend in caught.value.mend


def test_length_and_depth_are_capped():
    deep = "(" * (MAX_DEPTH - 1) + "1" + ")" * (MAX_DEPTH - 1)
    assert value(deep) == 1
    for text, what in (
        (f"({deep})", "nested more than"),
        ("-" * MAX_DEPTH + "1", "nested more than"),
        ("1" + "+1" * MAX_LENGTH, "characters"),
    ):
        with pytest.raises(WrongValueError, match=what):
            evaluate(text, NAMES, Units.MM)


def test_references_are_names_and_no_functions():
    assert references("max(gap, wall) + gap * 2 mm") == ("gap", "wall")
    assert references("2 ? gap") == ()


HOSTILE = [
    "__import__('os').system('true')",
    "__import__(os)",
    "().__class__.__bases__[0].__subclasses__()",
    "[x for x in (1, 2)]",
    "lambda: 1",
    "open('/etc/passwd')",
    "open(gap)",
    "eval(1)",
    "exec(1)",
    "getattr(gap, 1)",
    "gap.__class__",
    "gap.value",
    "globals()",
    "f'{gap}'",
    "'a' * 9",
    '"3/8"',
    "9**9**9**9",
    "1 if 1 else 2",
    "gap := 3",
    "gap = 3",
    "1; 2",
    "1\n2",
    "1 # 2",
    "{1: 2}",
    "0x10",
    "1_000",
    "1j",
    "True",
    "None",
    "nan",
    "inf",
    "$gap",
    "`gap`",
    "${gap}",
    "\\x41",
    "\x00",
    "\N{FULLWIDTH DIGIT ONE}",
    "\N{ARABIC-INDIC DIGIT THREE} mm",
]


@pytest.mark.parametrize("text", HOSTILE)
def test_nothing_but_arithmetic_is_understood(text):
    with pytest.raises(WrongValueError):
        evaluate(text, NAMES, Units.MM)


def test_every_path_from_text_to_value_avoids_evaluation_by_python():
    modules = sorted(pathlib.Path(jawcam.job.__path__[0]).glob("*.py"))
    assert modules
    for module in modules:
        nodes = ast.walk(ast.parse(module.read_text(encoding="utf-8")))
        names = {node.id for node in nodes if isinstance(node, ast.Name)}
        assert not names & {"eval", "exec", "compile", "__import__", "globals", "vars"}, module


# --- against Python's own reading of the same arithmetic ---------------------------------------

_WORK = {
    ast.Add: operator.add,
    ast.Sub: operator.sub,
    ast.Mult: operator.mul,
    ast.Div: operator.truediv,
}


def by_python(node):
    if isinstance(node, ast.Constant):
        return float(node.value)
    if isinstance(node, ast.UnaryOp):
        worked = by_python(node.operand)
        return -worked if isinstance(node.op, ast.USub) else worked
    return _WORK[type(node.op)](by_python(node.left), by_python(node.right))


NUMBERS = st.one_of(
    st.integers(0, 999).map(str),
    st.decimals(0, 99, places=3, allow_nan=False).map(lambda d: f"{d:f}"),
    st.sampled_from(["1e3", "2.5e-2", ".5", "7."]),
)
BLANKS = st.sampled_from(["", " ", "  "])
ARITHMETIC = st.recursive(
    NUMBERS,
    lambda inner: st.one_of(
        st.tuples(inner, BLANKS, st.sampled_from("+-*/"), BLANKS, inner).map("".join),
        st.tuples(st.just("("), BLANKS, inner, BLANKS, st.just(")")).map("".join),
        st.tuples(st.sampled_from("+-"), inner).map("".join),
    ),
    max_leaves=12,
)


@settings(max_examples=400, deadline=None)
@given(ARITHMETIC.filter(lambda text: len(text) <= MAX_LENGTH))
def test_arithmetic_agrees_with_that_of_python(text):
    try:
        expected = by_python(ast.parse(text, mode="eval").body)
    except ZeroDivisionError:
        expected = math.inf
    if not math.isfinite(expected):
        with pytest.raises(WrongValueError):
            evaluate(text, {}, Units.MM)
    else:
        assert evaluate(text, {}, Units.MM).value == pytest.approx(expected, rel=1e-12, abs=1e-300)


@settings(max_examples=300, deadline=None)
@given(st.text(alphabet="0123456789.eE+-*/() ,\"°mingapwsqrt/'_\n", max_size=40))
def test_any_text_is_worked_out_or_refused(text):
    try:
        result = evaluate(text, NAMES, Units.INCH)
    except WrongValueError as error:
        refused = error
    else:
        assert math.isfinite(result.value)
        return
    assert refused.what
    assert 0 <= refused.column <= len(text) + 1
