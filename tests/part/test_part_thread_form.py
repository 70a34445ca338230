"""What a stretch with a thread is turned or bored to, and how deep its thread is cut."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from jawcam.part.piece import Piece
from jawcam.part.thread_form import ThreadFitError, form_of, majors, thread_side
from jawcam.part.thread_limits import limits_of
from jawcam.part.threads import COARSE, ThreadError, thread_of
from jawcam.units import Units

MM, INCH = Units.MM, Units.INCH
H = math.sqrt(3) / 2


def form(thread, dia, length=20.0, *, inside=False, units=MM, limits=None):
    start, end = dia if isinstance(dia, tuple) else (dia, dia)
    piece = Piece(start, end, length, thread=thread, limits=limits)
    return form_of(piece, inside=inside, units=units)


# M10x1.5 6H: minor 8.376 to 8.676, pitch 9.026 to 9.206 (ASME B1.13M, table). A sharp V whose point
# is P/8 wide has the pitch diameter 3/4 H below what it cuts to.
def test_the_bore_of_m10_gets_the_middle_of_its_limits():
    made = form("M10x1.5 6H", 10, inside=True)
    assert made.first == made.last == pytest.approx((8.376 + 8.676) / 2, abs=5e-4)
    across = made.first + 2 * made.depth
    assert across - 0.75 * H * 1.5 == pytest.approx((9.026 + 9.206) / 2, abs=5e-4)
    assert across > 10  # it clears a bolt of the largest size
    assert (made.pitch, made.starts, made.flanks) == (1.5, 1, 60)


@pytest.mark.parametrize("bore", [8.376, 8.5, 8.676])
def test_a_bore_within_the_limits_is_kept(bore):
    made = form("M10x1.5 6H", bore, inside=True)
    assert made.first == made.last == bore
    assert made.first + 2 * made.depth == pytest.approx(9.116 + 0.75 * H * 1.5, abs=5e-4)


def test_a_bore_with_limits_of_its_own_gets_their_middle():
    made = form("M10x1.5 6H", 8.4, inside=True, limits=(0.2, 0.1))
    assert made.first == pytest.approx(8.55)


# M10x1.5 6g: major 9.732 to 9.968, pitch 8.862 to 8.994, across the root 7.938 to 8.128
# (a calculation sheet by ISO 965-1, ISO 965-3 and DIN 13-19). The root is rounded by H/6, which
# lies H/3 below the pitch diameter.
def test_m10_is_turned_to_the_middle_of_its_limits():
    made = form("M10x1.5 6g", 10)
    assert made.first == made.last == pytest.approx((9.732 + 9.968) / 2, abs=5e-4)
    root = made.first - 2 * made.depth
    assert root + 2 / 3 * H * 1.5 == pytest.approx((8.862 + 8.994) / 2, abs=5e-4)
    assert 7.938 < root < 8.128


# 1/2-13 UNC 2A: major 0.4876 to 0.4985, pitch 0.4435 to 0.4485 in; 2B: minor 0.417 to 0.434, pitch
# 0.4500 to 0.4565 in (ASME B1.1, worked from its formulas; 2B from memory).
def test_unified_threads_likewise():
    bolt = form("1/2-13 UNC 2A", 12.7)
    assert bolt.first / 25.4 == pytest.approx((0.4876 + 0.4985) / 2, abs=1e-4)
    root = (bolt.first - 2 * bolt.depth) / 25.4
    assert root + 2 / 3 * H / 13 == pytest.approx((0.4435 + 0.4485) / 2, abs=1e-4)
    nut = form("1/2-13 UNC 2B", 12.7, inside=True)
    assert nut.first / 25.4 == pytest.approx((0.417 + 0.434) / 2, abs=1e-3)
    across = (nut.first + 2 * nut.depth) / 25.4
    assert across - 0.75 * H / 13 == pytest.approx((0.4500 + 0.4565) / 2, abs=1e-4)


def test_without_a_class_it_is_the_common_one():
    assert form("M20", 20) == form("M20x2.5 6g", 20)
    assert form("M20", 20, inside=True) == form("M20x2.5 6H", 20, inside=True)
    assert form("1/2-13 UNC", 12.7) == form("1/2-13 UNC 2A", 12.7)


def test_starts_are_told():
    for name, inside in (("M20xPh5P2.5 6g", False), ("M20xPh5P2.5 6H", True)):
        made = form(name, 20, inside=inside)
        assert (made.pitch, made.starts) == (2.5, 2)
        assert made.depth == form(name.replace("Ph5P", ""), 20, inside=inside).depth


def test_own_limits_of_an_outside_thread_win():
    made = form("M20x2.5 6g", 20, limits=(-0.1, -0.2))
    assert made.first == pytest.approx(19.85)
    assert made.first - 2 * made.depth == pytest.approx(
        form("M20x2.5 6g", 20).first - 2 * form("M20x2.5 6g", 20).depth
    )


@given(st.sampled_from(sorted(set(COARSE))))
def test_a_bolt_goes_into_its_nut(major):
    """The crest of each clears the root of the other, and the flanks of both the pitch line."""
    if COARSE[major] < 0.35:
        return
    bolt, nut = form(f"M{major:g}", major), form(f"M{major:g}", major, inside=True)
    assert bolt.first < nut.first + 2 * nut.depth
    assert bolt.first - 2 * bolt.depth < nut.first
    size = thread_of(f"M{major:g}")
    middle = bolt.first - 2 * bolt.depth + 2 / 3 * size.height
    limits = limits_of(size)
    assert limits.pitch.least < middle < limits.pitch.most


# --- tapers ------------------------------------------------------------------------------------


# The gauge plane of R 1/2 is 8.2 mm from the small end and has 20.955 mm (ISO 7-1).
def test_a_pipe_thread_gets_its_own_cone():
    made = form("R 1/2", (20.44, 21.38), 15)
    assert made.first + 8.2 / 16 == pytest.approx(20.955)
    assert made.last - made.first == pytest.approx(15 / 16)
    assert made.flanks == 55
    back = form("R 1/2", (21.38, 20.44), 15)
    assert (back.first, back.last) == (made.last, made.first)


def test_an_inside_pipe_thread_has_its_gauge_plane_at_its_mouth():
    made = form("Rc 1/2", (18.63, 17.63), 16, inside=True)
    assert made.first + 2 * made.depth == pytest.approx(20.955)
    assert made.first - made.last == pytest.approx(1)
    either = form("1/2 NPT", (18.32, 17.32), 16, inside=True)
    assert either.flanks == 60


def test_a_metric_thread_on_a_taper_keeps_the_taper_and_its_basic_depth():
    made = form("M20x1.5", (20, 21), 16)
    assert (made.first, made.last, made.pitch) == (20, 21, 1.5)
    assert made.depth == pytest.approx(17 / 24 * H * 1.5)
    within = form("M20x1.5", (19, 18), 16, inside=True)
    assert within.depth == pytest.approx(5 / 8 * H * 1.5)


# --- what doesn't go together --------------------------------------------------------------------


@pytest.mark.parametrize(
    ("thread", "dia", "inside", "key", "what", "mend"),
    [
        ("M20", 19.97, False, "dia", "major diameter of M20 is 20 mm", "give it as dia"),
        (
            "M12x1.75 6H",
            9.8,
            True,
            "dia",
            "the bore of M12x1.75 6H is 10.106 mm to 10.441 mm before its thread is cut, not 9.8",
            "or 12 mm, the thread's own",
        ),
        ("M12x1.75 6H", 10.6, True, "dia", "10.441 mm", "such a dia"),
        ("M20 6H", 20, False, "thread", "a thread inside a bore", "6g or 2A"),
        ("1/2-13 UNC 2A", 10.8, True, "thread", "a thread on the outside", "6H or 2B"),
        ("Rc 1/2", (20.4, 21.4), False, "thread", "inside a bore", "of pipe threads R"),
        ("M20x1.5 6g", (20, 21), False, "thread", "class 6g", '"M20x1.5"'),
        ("M20x1.5-6g", (20, 21), False, "thread", "class 6g", '"M20x1.5"'),
        ("M20x1.5", (20, 32), False, "dia", "taper of 16.7 degrees", "15 at most"),
        ("M20x1.5", (20.1, 21), False, "dia", "nowhere has the major diameter", "begin or end"),
        ("M20x1.5", (17.9, 17.5), True, "dia", "minor diameter of M20x1.5, 18.376 mm", "begin"),
        ("R 1/2", 20.955, False, "dia", "crests go from 20.442 to 21.692", "[20.442, 21.692]"),
        ("R 1/2", (20.4, 21.7), False, "dia", "R 1/2 tapers 1 in 16", "other way round"),
        ("Rc 1/2", (18, 17), True, "dia", "its bore goes from 17.382 to 18.632", "dia = [17.382"),
    ],
)
def test_a_thread_that_does_not_go_with_its_stretch(thread, dia, inside, key, what, mend):
    with pytest.raises(ThreadFitError) as caught:
        form(thread, dia, inside=inside)
    assert caught.value.key == key
    assert what in caught.value.what
    assert mend in caught.value.mend


def test_a_pipe_thread_shorter_than_to_its_gauge_plane():
    with pytest.raises(ThreadFitError) as caught:
        form("R 1/2", (20.442, 20.942), 8)
    assert caught.value.key == "len"
    assert "8.2 mm long up to its gauge plane" in caught.value.what


def test_a_mend_in_inches():
    with pytest.raises(ThreadFitError) as caught:
        form("1/2 NPT", (20, 21), 15.24, units=INCH)
    assert "dia = [0.8156, 0.8531]" in caught.value.mend


def test_a_class_without_limits_is_told():
    with pytest.raises(ThreadError, match="no limits here for class 6e"):
        form("M20x2.5 6e", 20)


# Capitals and B are of inside threads (ISO 965-1, ASME B1.1), Rc of pipe threads (ISO 7-1).
@pytest.mark.parametrize(
    ("thread", "inside"),
    [
        *(("R 1/2", False), ("Rc 1/2", True), ("1/2 NPT", None), ("M20", None), ("M20 6H", True)),
        *(("M20x2.5 6g", False), ("1/2-13 UNC 2A", False), ("1/2-13 UNC 2B", True)),
    ],
)
def test_the_side_of_a_thread(thread, inside):
    assert thread_side(thread) is inside


def test_the_majors_of_a_thread():
    assert majors("R 1/2") == (20.955,)
    assert majors("12-8 UN") == pytest.approx((304.8, 5.4864))
