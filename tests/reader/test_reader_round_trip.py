"""Random programs, printed by a few lines of our own here and read back."""

from __future__ import annotations

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from reader_help import ISO, NIST

from jawcam.reader.read import read

PLACES = st.integers(-99999, 99999).map(lambda steps: steps / 1000)
POINTS = st.tuples(PLACES, PLACES, PLACES)
FEEDS = st.integers(1, 9999).map(float)
ARC = st.tuples(
    st.sampled_from(["arc cw", "arc ccw"]),
    st.tuples(PLACES, PLACES).filter(lambda offset: math.hypot(*offset) > 1),
    st.integers(0, 11),
    PLACES,
    FEEDS,
)
MOVES = st.lists(
    st.one_of(st.tuples(st.just("rapid"), POINTS), st.tuples(st.just("line"), POINTS, FEEDS), ARC),
    min_size=1,
    max_size=8,
)
STYLES = st.sampled_from(["plain", "modal", "remarks"])


def number(value):
    """Three decimals, or as many as a float has, always with the point."""
    text = f"{value:.3f}" if round(value, 3) == value else f"{value:.15f}"
    return "0." if float(text) == 0 else text


def printed(moves, style):
    """Blocks for moves, and for each its kind, end, centre, turn and feed."""
    lines, expected, at, last = ["G21 G90 G17", "G0 X0. Y0. Z0."], [], (0.0, 0.0, 0.0), None
    for kind, *what in moves:
        centre, turn = None, 0.0
        if kind in ("rapid", "line"):
            end, words = what[0], ""
        else:
            offset, twelfths, z, _ = what
            centre = (at[0] + offset[0], at[1] + offset[1])
            radius, begin = math.hypot(*offset), math.atan2(-offset[1], -offset[0])
            turn = (twelfths or 12) * math.pi / 6 * (1 if kind == "arc ccw" else -1)
            x, y = math.cos(begin + turn), math.sin(begin + turn)
            end = (centre[0] + radius * x, centre[1] + radius * y, z)
            end = end if twelfths else (at[0], at[1], z)
            words = f" I{number(offset[0])} J{number(offset[1])}"
        word = {"rapid": "G0", "line": "G1", "arc cw": "G2", "arc ccw": "G3"}[kind]
        feed = 0.0 if kind == "rapid" else what[-1]
        axes = " ".join(f"{axis}{number(value)}" for axis, value in zip("XYZ", end, strict=True))
        speed = f" F{feed:g}" if feed else ""
        first = "" if style == "modal" and word == last else word + " "
        remark = " (grind on)" if style == "remarks" else ""
        lines.append(f"{first}{axes}{words}{speed}{remark}")
        expected.append(("arc" if centre else kind, end, centre, turn, feed))
        at, last = end, word
    return "\n".join([*lines, "M30"]), expected


def same(cut, move):
    """Whether a cut is the move, to 1e-9 mm and 1e-9 radians."""
    kind, end, centre, turn, feed = move
    assert (cut.kind, cut.feed) == (kind, feed)
    assert cut.end == pytest.approx(end, abs=1e-9)
    assert cut.turn == pytest.approx(turn, abs=1e-9)
    if centre:
        assert cut.centre == pytest.approx(centre, abs=1e-9)


@given(MOVES, STYLES, st.sampled_from([NIST]))
@settings(max_examples=100, deadline=None)
def test_what_is_printed_is_read(moves, style, control):
    text, expected = printed(moves, style)
    program = read(text, control)
    assert program.faults == ()
    assert len(program.cuts) == len(expected) + 1
    for cut, move in zip(program.cuts[1:], expected, strict=True):
        same(cut, move)
    for one, following in zip(program.cuts, program.cuts[1:], strict=False):
        assert one.end == following.start


@given(MOVES, st.sampled_from(["G90", "G91"]), st.sampled_from(["G20", "G21"]))
@settings(max_examples=100, deadline=None)
def test_the_quick_way_and_the_long_way_read_the_same(moves, distance, units):
    """A remark sends a block the long way round."""
    quick = printed(moves, "plain")[0].replace("G21 G90", f"{units} {distance} G92 Y3")
    slow = quick.replace("\n", " (remark)\n")
    one, other = (read(text, NIST, start=(1, 2, 3)) for text in (quick, slow))
    assert one.cuts == other.cuts
    assert one.faults == other.faults


BITS = st.sampled_from(
    ["N1", "G0", "G1", "G2", "G3", "X1", "X2.5", "Y-.5", "Z3.", "I1", "I.5", "J0", "F9", "X.", "I-"]
)


@given(st.lists(st.lists(BITS, max_size=5).map(" ".join), max_size=8), st.sampled_from([NIST, ISO]))
@settings(max_examples=150, deadline=None)
def test_the_quick_way_never_overlooks_a_fault(lines, control):
    """The same with blocks that may be faulty in any way."""
    one = read("\n".join([*lines, "M2"]), control, start=(0, 0, 0))
    other = read(
        "\n".join([*(f"{line} (remark)" for line in lines), "M2"]), control, start=(0, 0, 0)
    )
    assert str(one.cuts) == str(other.cuts)  # nan is never equal
    assert one.faults == other.faults
