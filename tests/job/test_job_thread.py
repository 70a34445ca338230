"""Designations of threads: which can be read, and the diameters that they stand for."""

import pytest

from jawcam.job.thread import is_inside, majors
from jawcam.job.words import WrongValueError


# The nominal diameter of an ISO metric thread is its major diameter in mm (ISO 261); that of a
# unified one is in inches, or of gauge n 0.060 + 0.013 n inches (ASME B1.1).
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
        ("10-32 UNF 2A", [254, 4.826]),
        ("1-8 UNC 2A", [25.4, 1.8542]),
        ("0-80 UNF", [1.524]),
    ],
)
def test_a_designation_gives_the_major_diameter(designation, mm):
    assert majors(designation) == pytest.approx(tuple(mm))


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


# Capitals and B are of inside threads (ISO 965-1, ASME B1.1).
@pytest.mark.parametrize(
    ("designation", "inside"),
    [
        ("M20x2.5 6g", False),
        ("M20x2.5 6H", True),
        ("M20x2.5", None),
        ("1/2-13 UNC 2A", False),
        ("1/2-13 UNC 2B", True),
        ("1/2-13 UNC", None),
        ("nonsense", None),
    ],
)
def test_the_class_tells_inside_from_outside(designation, inside):
    assert is_inside(designation) is inside
