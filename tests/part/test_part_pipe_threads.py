"""Tapered pipe threads: their sizes against the standards' own formulas and older tables."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from jawcam.part.pipe_threads import pipe_thread
from jawcam.part.threads import ThreadError

INCH = 25.4

# ISO 7-1 and BS 21, both from memory: the gauge diameter in mm and in thousandths of an inch, the
# gauge length in mm and in turns of the thread, as the older table gives it.
ISO = [
    ("1/8", 28, 9.728, 383, 4.0, 4.375),
    ("1/4", 19, 13.157, 518, 6.0, 4.5),
    ("3/8", 19, 16.662, 656, 6.4, 4.75),
    ("1/2", 14, 20.955, 825, 8.2, 4.5),
    ("3/4", 14, 26.441, 1041, 9.5, 5.25),
    ("1", 11, 33.249, 1309, 10.4, 4.5),
    ("1 1/4", 11, 41.910, 1650, 12.7, 5.5),
    ("1 1/2", 11, 47.803, 1882, 12.7, 5.5),
    ("2", 11, 59.614, 2347, 15.9, 6.875),
    ("2 1/2", 11, 75.184, 2960, 17.5, 7.5625),
    ("3", 11, 87.884, 3460, 20.6, 8.9375),
    ("4", 11, 113.030, 4450, 25.4, 11.0),
    ("6", 11, 163.830, 6450, 28.6, 12.375),
]


@pytest.mark.parametrize(("size", "per_inch", "major", "mils", "length", "turns"), ISO)
def test_iso_pipe_threads(size, per_inch, major, mils, length, turns):
    for name in (f"R {size}", f"R{size}", f"Rc {size}"):
        thread = pipe_thread(name)
        assert thread.major == major == pytest.approx(mils / 1000 * INCH, abs=0.0015)
        assert thread.pitch == pytest.approx(INCH / per_inch)
        assert thread.gauge_length == length == pytest.approx(turns * INCH / per_inch, abs=0.055)
        assert thread.flanks == 55
        assert thread.inside is name.startswith("Rc")


# Whitworth's form: the sharp triangle is P / (2 tan 27.5 degrees) high, two thirds of it remain.
@pytest.mark.parametrize("size", [row[0] for row in ISO])
def test_the_depth_is_two_thirds_of_the_sharp_triangle(size):
    thread = pipe_thread(f"R {size}")
    sharp = thread.pitch / 2 / math.tan(math.radians(27.5))
    assert thread.depth == pytest.approx(2 / 3 * sharp, rel=1e-5)


# ASME B1.20.1, tables, from memory: E0 and E1 in inches. K0, across the root at the small end.
ASME = [
    ("1/8", 27, 0.36351, 0.37360),
    ("1/4", 18, 0.47739, 0.49163),
    ("3/8", 18, 0.61201, 0.62701),
    ("1/2", 14, 0.75843, 0.77843),
    ("3/4", 14, 0.96768, 0.98887),
    ("1", 11.5, 1.21363, 1.23863),
    ("1 1/4", 11.5, 1.55713, 1.58338),
    ("1 1/2", 11.5, 1.79609, 1.82234),
    ("2", 11.5, 2.26902, 2.29627),
]


@pytest.mark.parametrize(("size", "per_inch", "small", "gauge"), ASME)
def test_asme_pipe_threads(size, per_inch, small, gauge):
    for name in (f"{size} NPT", f"{size}-{per_inch:g} NPT", f"{size.replace(' ', '-')} NPT"):
        thread = pipe_thread(name)
        pitch_diameter = thread.major - thread.depth
        assert pitch_diameter / INCH == pytest.approx(gauge, abs=1e-5)
        assert (pitch_diameter - thread.gauge_length / 16) / INCH == pytest.approx(small, abs=1e-5)
        assert thread.pitch == pytest.approx(INCH / per_inch)
        assert thread.depth == pytest.approx(0.8 * INCH / per_inch)
        assert (thread.flanks, thread.inside) == (60, None)


def test_the_root_of_half_inch_npt():
    """K0 of 1/2-14 NPT is 0.7013 in (ASME B1.20.1, from memory)."""
    thread = pipe_thread("1/2-14 NPT")
    small, _ = thread.crests(15, inside=False)
    assert (small - 2 * thread.depth) / INCH == pytest.approx(0.7013, abs=1e-4)


@given(
    st.sampled_from([row[0] for row in ISO]),
    st.sampled_from(["R {}", "Rc {}", "{} NPT"]),
    st.floats(5, 40),
)
def test_both_taper_by_one_in_sixteen(size, form, length):
    if form.startswith("{") and size not in {row[0] for row in ASME}:
        return
    thread = pipe_thread(form.format(size))
    for inside in (False, True):
        small, large = thread.crests(length, inside=inside)
        assert large - small == pytest.approx(length / 16)
    # an outside one of the gauge length and the mouth of an inside one are one thread there
    _, outside = thread.crests(thread.gauge_length, inside=False)
    _, mouth = thread.crests(length, inside=True)
    assert outside == pytest.approx(thread.major)
    assert mouth == pytest.approx(thread.major - 2 * thread.depth)


@pytest.mark.parametrize(
    "name", ["", "M20", "1/2-13 UNC", "R", "Rp 1/2", "G 1/2", "1/2 npt", "NPT", "r 1/2", "R 1/2 LH"]
)
def test_other_threads_are_none(name):
    assert pipe_thread(name) is None


@pytest.mark.parametrize(
    ("name", "what", "mend"),
    [
        ("R 5/8", "no pipe thread R 5/8", "1/16, 1/8, 1/4"),
        ("Rc 7", "no pipe thread Rc 7", "1/2"),
        ("5/8 NPT", "no pipe thread 5/8 NPT", "1/2"),
        ("1/2-13 NPT", "1/2 NPT has 14 threads per inch, not 13", '"1/2-14 NPT"'),
        ("1-11 NPT", "1 NPT has 11.5 threads per inch, not 11", '"1-11.5 NPT"'),
    ],
)
def test_sizes_that_there_are_not(name, what, mend):
    with pytest.raises(ThreadError) as caught:
        pipe_thread(name)
    assert what in caught.value.what
    assert mend in caught.value.mend
