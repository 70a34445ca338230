"""Numbers, filled lines and clean comments."""

from __future__ import annotations

import re
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st
from post_cases import load

from jawcam.errors import InternalError
from jawcam.post.text import clean, comment_lines, filled, number

NIST = load("rs274ngc-mill")
ISO = load("iso6983-mill")


@pytest.mark.parametrize(
    ("changes", "texts"),
    [
        ({}, ["5.", "0.5", "-0.05", "0.", "12.346"]),
        ({"trailing_zeros": True}, ["5.000", "0.500", "-0.050", "0.000", "12.346"]),
        ({"point": "as needed"}, ["5", "0.5", "-0.05", "0", "12.346"]),
        ({"leading_zero": False}, ["5.", ".5", "-.05", "0.", "12.346"]),
        ({"point": "never"}, ["5000", "500", "-50", "0", "12346"]),
    ],
)
def test_the_ways_to_write_a_number(changes, texts):
    numbers = replace(NIST.numbers, **changes)
    assert [number(v, 3, numbers) for v in (5, 0.5, -0.05, -0.0001, 12.3456)] == texts


@pytest.mark.parametrize(
    ("suppress", "signed", "texts"),
    [
        ("leading", False, ["5000", "500", "-50", "0", "12346"]),
        ("trailing", False, ["0005", "00005", "-000005", "0", "0012346"]),
        ("none", False, ["0005000", "0000500", "-0000050", "0000000", "0012346"]),
        ("trailing", True, ["+0005", "+00005", "-000005", "+0", "+0012346"]),
    ],
)
def test_digits_without_a_point(suppress, signed, texts):
    """EIA RS-274-D: the point is implied by a format, here X4.3; worked out by hand."""
    numbers = replace(NIST.numbers, point="never")
    got = [
        number(v, 3, numbers, digits=4, suppress=suppress, signed=signed)
        for v in (5, 0.5, -0.05, -0.0001, 12.3456)
    ]
    assert got == texts


def test_whole_numbers_without_a_point():
    numbers = replace(NIST.numbers, point="never")
    assert number(300, 0, numbers, digits=5, suppress="trailing") == "003"
    assert number(300, 0, numbers, digits=5, suppress="none") == "00300"
    assert number(300, 0, NIST.numbers, digits=5, suppress="none") == "300"  # as ever with points


def test_a_sign_before_everything():
    assert [number(v, 3, NIST.numbers, signed=True) for v in (1.4, -1.4, 0)] == [
        "+1.4",
        "-1.4",
        "+0.",
    ]


def test_more_digits_than_there_are_places_is_a_bug():
    numbers = replace(NIST.numbers, point="never")
    with pytest.raises(InternalError, match="don't go into 7 digits"):
        number(12345, 3, numbers, digits=4, suppress="trailing")


@given(st.floats(-9999, 9999), st.sampled_from(["leading", "trailing", "none"]))
def test_digits_without_a_point_say_the_value(value, suppress):
    numbers = replace(NIST.numbers, point="never")
    text = number(value, 3, numbers, digits=4, suppress=suppress)
    digits = text.lstrip("-")
    whole = digits.ljust(7, "0") if suppress == "trailing" else digits.rjust(7, "0")
    assert len(whole) == 7
    assert abs(int(whole) / 1000 - abs(value)) <= 0.0005 + 1e-9
    assert text.startswith("-") == (round(value * 1000) < 0)


@given(st.floats(-1e6, 1e6), st.integers(1, 6))
def test_a_number_is_plain_digits_near_its_value(value, decimals):
    # NISTIR 6556 section 3.3.2.1: a sign, digits, a point; no exponent.
    text = number(value, decimals, NIST.numbers)
    assert re.fullmatch(r"-?\d+\.\d*", text)
    assert abs(float(text) - value) <= 0.5001 * 10.0**-decimals + 1e-9


def test_places_are_filled_and_padded():
    assert filled("T{tool:2} M6 {tool}", {"tool": "7"}) == "T07 M6 7"


def test_letters_that_a_control_lacks_are_spelled_out():
    assert clean("Ø8 ±0,1 für Ärger, déjà vu", NIST.comments) == "dia 8 +-0,1 fuer AErger, deja vu"
    assert clean("Kurbel (lang) 90°", ISO.comments) == "KURBEL LANG 90 DEG"
    assert clean("a\n\tb   c", NIST.comments) == "a b c"


@given(st.text(max_size=300), st.sampled_from([NIST, ISO]))
def test_any_text_becomes_comments_that_the_control_takes(text, dialect):
    for line in comment_lines(text, dialect.comments):
        assert line[0] + line[-1] == "()"
        assert set(line[1:-1]) <= set(dialect.comments.characters)
        assert 2 < len(line) <= dialect.comments.max_length


def test_comments_that_end_with_their_line():
    comments = replace(NIST.comments, open=";", close="")
    assert comment_lines("Side two (flip)", comments) == [";Side two [flip]"]
    assert comment_lines("x " * 60, comments)[0] == ";" + ("x " * 38).strip()


def test_a_dialect_without_comments_writes_none():
    assert comment_lines("hello", replace(NIST.comments, open="", close="")) == []
