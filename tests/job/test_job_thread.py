"""Designations of threads: which can be read, and the diameters that they stand for."""

import pytest

from jawcam.job.thread import majors
from jawcam.job.words import WrongValueError


# The nominal diameter of an ISO metric thread is its major diameter in mm (ISO 261); that of a
# unified one is in inches, or of gauge n 0.060 + 0.013 n inches (ASME B1.1), that of a pipe thread
# its diameter in the gauge plane (ISO 7-1).
@pytest.mark.parametrize(
    ("designation", "mm"),
    [
        ("M20", [20]),
        ("M20x2.5", [20]),
        ("M20x2.5 6g", [20]),
        ("M20x2.5-6g", [20]),
        ("M20 x 2.5 5g6g", [20]),
        ("M20\N{MULTIPLICATION SIGN}2.5 6H", [20]),
        ("M2.5x0.45 6g", [2.5]),
        ("1/2-13 UNC 2A", [12.7]),
        ("1/2-13 UNC", [12.7]),
        ("1 1/4-7 UNC 2A", [31.75]),
        ("1-1/4-12 UNF 3A", [31.75]),
        (".500-20 UNF 2A", [12.7]),
        ("5/16-32 UNEF 2A", [7.9375]),
        ("#10-32 UNF 2A", [4.826]),
        ("10-32 UNF 2A", [4.826, 254]),
        ("12-8 UN", [304.8, 5.4864]),
        ("1-8 UNC 2A", [25.4]),
        ("M20xPh5P2.5 6g", [20]),
        ("R 1/2", [20.955]),
        ("0-80 UNF", [1.524]),
    ],
)
def test_a_designation_gives_the_major_diameter(designation, mm):
    assert majors(designation) == pytest.approx(tuple(mm))


@pytest.mark.parametrize(
    ("designation", "what", "mend"),
    [
        ("M20xPh4P2.5", "no whole number of its pitch", "after Ph"),
        ("M21", "no pitch in the coarse series", "M21x1.5"),
        ("1/2-14 UNC", "13 threads per inch, not 14", "UNS"),
        ("R 5/8", "no pipe thread R 5/8", "1/2"),
        ("1/2-13 NPT", "14 threads per inch, not 13", "1/2-14 NPT"),
    ],
)
def test_what_is_no_thread_is_refused_with_its_mend(designation, what, mend):
    with pytest.raises(WrongValueError) as caught:
        majors(designation)
    assert what in caught.value.what
    assert mend in caught.value.mend


@pytest.mark.parametrize(
    "designation",
    [
        *("20x2.5", "m20", "M", "M0", "M20x0", "M20x20", "M20x", "M20x2,5", "M20 fine", "M20 6gg"),
        *("M20x2.5 6gH", "1/2", "1/2 UNC", "1/2-13", "1/2-13 2A", "1/2-0 UNC", "1/0-13 UNC"),
        *("1/2-13 UNC 4A", "1/2-13 UNC 2C", "#13-20 UNC", "0/2-13 UNC", "M\N{SUPERSCRIPT TWO}"),
    ],
)
def test_what_is_no_designation_is_refused(designation):
    with pytest.raises(WrongValueError, match="no designation of a thread") as caught:
        majors(designation)
    assert "M20x2.5 6g" in caught.value.mend
