"""A pocket's clearance from the letters of a fit."""

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from jawcam.errors import InputError, Place
from jawcam.hold.fit import FAR_OFF, fitted
from jawcam.job.model import Fit
from jawcam.part.fits import zone
from jawcam.units import Units

PLACE = Place("lever.toml", 12, key="setup[1].fit.letters")
SAME = 1e-9


def fit_on(letters, held, size=None, units=Units.MM):
    return fitted(Fit(letters=letters, size=size), held, units, PLACE)


def refused(letters, held, size=None):
    with pytest.raises(InputError) as caught:
        fit_on(letters, held, size)
    (fault,) = caught.value.faults
    assert fault.place == PLACE
    return fault


def test_a_fit_in_figures_is_taken_as_it_is():
    assert fitted(Fit(grip=0.03, size=20), 20, Units.MM, PLACE) == fitted(
        Fit(grip=0.03), None, Units.MM, PLACE
    )
    assert fitted(Fit(grip=0.03), None, Units.MM, PLACE).grip == 0.03
    assert fitted(Fit(grip=0.03), None, Units.MM, PLACE).notes == ()


# 20H7 is 20.000 to 20.021, 20g6 19.980 to 19.993 (ISO 286-2).
def test_a_pocket_is_cut_to_the_middle_of_its_limits():
    found = fit_on("H7/g6", 20)
    assert found.grip == pytest.approx(0.0105 / 2, abs=SAME)
    (line,) = found.notes
    assert line == (
        "fit H7/g6 on 20 mm: pocket 20.000 to 20.021 mm, part 19.980 to 19.993 mm, "
        "play 0.007 to 0.041 mm, cut to 20.0105 mm"
    )


def test_the_pocket_alone():
    found = fit_on("H7", 20)
    assert found.grip == pytest.approx(0.0105 / 2, abs=SAME)
    assert found.notes == ("fit H7 on 20 mm: pocket 20.000 to 20.021 mm, cut to 20.0105 mm",)


def test_an_outline_is_drawn_at_the_size_of_its_fit():
    assert fit_on("H7/g6", None, size=20) == fit_on("H7/g6", 20)


def test_a_part_drawn_at_the_middle_of_its_own_limits_gets_the_rest():
    """20g6 is drawn at 19.9865; the pocket is still to be 20.0105 wide."""
    found = fit_on("H7/g6", 19.9865, size=20)
    assert 19.9865 + 2 * found.grip == pytest.approx(20.0105, abs=SAME)
    assert found.notes == fit_on("H7/g6", 20).notes


def test_inches_are_told_fine_enough():
    (line,) = fit_on("H7/g6", 25.4 * 0.75, units=Units.INCH).notes
    assert line == (
        "fit H7/g6 on 0.75 in: pocket 0.75000 to 0.75083 in, part 0.74921 to 0.74972 in, "
        "play 0.00028 to 0.00161 in, cut to 0.75041 in"
    )


def test_a_part_that_may_be_larger_than_its_pocket_is_told():
    """20p6 is 20.022 to 20.035 (ISO 286-2)."""
    line, caution = fit_on("H7/p6", 20).notes
    assert "part 20.022 to 20.035 mm, play -0.035 to -0.001 mm" in line
    assert caution == (
        "caution: the part may be up to 0.035 mm larger than the pocket, and then bears on the "
        "pocket's rims only"
    )


def test_a_part_that_may_just_fill_its_pocket_is_no_matter():
    assert len(fit_on("H7/h6", 20).notes) == 1


def test_a_fit_for_another_size_than_the_one_held_is_told():
    assert len(fit_on("H7", 20 - FAR_OFF + 0.001, size=20).notes) == 1
    _, caution = fit_on("H7", 15, size=20).notes
    assert caution == (
        "caution: the fit is for 20 mm, but where it is held the part is drawn at 15 mm"
    )


def test_a_pocket_smaller_than_the_part_is_refused():
    fault = refused("H7", 20.03, size=20)
    assert fault.what == (
        "the pocket would be smaller than the part: H7 makes it 20.0105 mm, "
        "and the part is drawn at 20.030 mm where it is held"
    )
    assert "leave size out" in fault.mend


def test_an_outline_needs_its_size():
    fault = refused("H7/g6", None)
    assert "lacks the size that it is for" in fault.what
    assert fault.mend.startswith("give size")


@pytest.mark.parametrize(
    ("letters", "held", "what"),
    [
        ("Q7/g6", 20, '"Q"'),
        ("H7/q6", 20, '"q"'),
        ("H14", 20, "no grade 14"),
        ("H7/k9", 20, "not k9"),
        ("g6", 20, '"g6" is no class for a pocket'),
        ("g6/H7", 20, '"g6/H7" is no fit'),
        ("H7/", 20, '"H7/" is no fit'),
        (" ", 20, '" " is no class for a pocket'),
        ("H7", 600, "a nominal size of 600 mm"),
    ],
)
def test_what_the_tables_lack_is_refused_with_its_place(letters, held, what):
    fault = refused(letters, held)
    assert what in fault.what
    assert fault.mend.endswith("or give the clearance as grip in figures")


@given(
    st.floats(1, 500),
    st.floats(-0.4, 0.4),
    st.sampled_from(("D8", "F7", "G6", "H7", "H11", "JS9")),
)
def test_the_pocket_comes_out_within_its_limits_however_the_part_is_drawn(size, off, letters):
    limits = zone(size, letters)
    assume(off <= limits.middle)
    grip = fit_on(letters, size + off, size=size).grip
    assert grip >= 0
    assert size + off + 2 * grip == pytest.approx(size + limits.middle, abs=1e-8)
    assert limits.lower < off + 2 * grip < limits.upper
