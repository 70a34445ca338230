"""Limits and fits after ISO 286."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from jawcam.part.fits import GRADES, STEPS, FitError, limits_of_fit, tolerance, zone

MICRON = 1e-3
SAME = 1e-9
LEAST = (1, *STEPS[:-1])  # where each step begins; the first is reckoned from 1 mm
MULTIPLIERS = {5: 7, 6: 10, 7: 16, 8: 25, 9: 40, 10: 64, 11: 100}
BOTH = ("d", "e", "f", "g", "h", "js")
sizes = st.floats(0.01, 500)
grades = st.sampled_from(GRADES)


def mean(step):
    """The geometric mean of a step, on which ISO 286-1 bases its formulas."""
    return math.sqrt(LEAST[step] * STEPS[step])


def microns(value):
    return pytest.approx(value * MICRON, abs=SAME)


# ISO 286-1, tables 1 and 4, as printed.
@pytest.mark.parametrize(
    ("step", "it", "g", "f"),
    [
        ((6, 10), {6: 9, 7: 15, 8: 22, 9: 36}, -5, -13),
        ((10, 18), {6: 11, 7: 18, 8: 27, 9: 43}, -6, -16),
        ((18, 30), {6: 13, 7: 21, 8: 33, 9: 52}, -7, -20),
        ((30, 50), {6: 16, 7: 25, 8: 39, 9: 62}, -9, -25),
    ],
)
def test_the_printed_tables(step, it, g, f):
    over, including = step
    for size in (over + 0.001, including):
        for grade, width in it.items():
            assert tolerance(size, grade) == microns(width)
            assert zone(size, f"g{grade}").upper == microns(g)
            assert zone(size, f"f{grade}").upper == microns(f)


# Worked from the same tables.
@pytest.mark.parametrize(
    ("size", "name", "least", "largest"),
    [
        (20, "H7", 20.000, 20.021),
        (20, "g6", 19.980, 19.993),
        (20, "f7", 19.959, 19.980),
        (20, "h6", 19.987, 20.000),
        (40, "H7", 40.000, 40.025),
        (40, "g6", 39.975, 39.991),
    ],
)
def test_limits_of_size(size, name, least, largest):
    found = zone(size, name)
    assert size + found.lower == pytest.approx(least, abs=SAME)
    assert size + found.upper == pytest.approx(largest, abs=SAME)


@pytest.mark.parametrize(
    ("letters", "least", "most"), [("H7/g6", 0.007, 0.041), ("H7 / h6", 0, 0.034)]
)
def test_the_play_of_a_fit(letters, least, most):
    fit = limits_of_fit(20, letters)
    assert (fit.least, fit.most) == (pytest.approx(least, abs=SAME), pytest.approx(most, abs=SAME))


def reckoned_tolerance(step, grade):
    """A multiple of i = 0.45 D^(1/3) + 0.001 D, in um: ISO 286-1, annex A."""
    return MULTIPLIERS[grade] * (0.45 * mean(step) ** (1 / 3) + 0.001 * mean(step))


# The tables are rounded: within 1 um or 3 % of the formula.
@pytest.mark.parametrize("grade", GRADES)
@pytest.mark.parametrize("step", range(1, len(STEPS)), ids=lambda step: f"to {STEPS[step]} mm")
def test_standard_tolerances_follow_their_formula(grade, step):
    reckoned = reckoned_tolerance(step, grade)
    found = tolerance(STEPS[step], grade) / MICRON
    assert found == pytest.approx(reckoned, abs=max(1.0, 0.03 * reckoned))


@pytest.mark.parametrize("grade", GRADES)
def test_the_first_step_has_somewhat_more_than_its_formula(grade):
    """By up to 16 %."""
    reckoned = reckoned_tolerance(0, grade)
    assert reckoned < tolerance(3, grade) / MICRON < 1.16 * reckoned


# ISO 286-1, annex A, as given in textbooks; those of d, e and n from memory. The tables are
# rounded: within 1 um or 3 % of the formula.
@pytest.mark.parametrize(
    ("letter", "factor", "power"),
    [("d", -16, 0.44), ("e", -11, 0.41), ("f", -5.5, 0.41), ("g", -2.5, 0.34), ("n", 5, 0.34)],
)
def test_fundamental_deviations_follow_their_formula(letter, factor, power):
    for step, size in enumerate(STEPS[1:], start=1):
        reckoned = factor * mean(step) ** power
        found = zone(size, f"{letter}6")
        deviation = (found.upper if factor < 0 else found.lower) / MICRON
        assert deviation == pytest.approx(reckoned, abs=max(1.0, 0.03 * abs(reckoned)))


def test_the_first_step_has_deviations_of_its_own():
    """Up to 3 mm: from memory."""
    for letter, least in (("d", 20), ("e", 14), ("f", 6), ("g", 2)):
        assert zone(3, f"{letter}6").upper == microns(-least)
    for letter, least in (("k", 0), ("m", 2), ("n", 4), ("p", 6)):
        assert zone(3, f"{letter}6").lower == microns(least)


def test_m_lies_off_by_what_it7_is_wider_than_it6():
    """ISO 286-1, annex A, from memory."""
    for size in STEPS[1:]:
        assert zone(size, "m6").lower == pytest.approx(
            tolerance(size, 7) - tolerance(size, 6), abs=SAME
        )


def test_p_clears_an_h7_hole_or_just_fills_it():
    """ISO 286-1, annex A, from memory: IT7 and 0 to 5 um more."""
    for size in STEPS[1:]:
        over = (zone(size, "p6").lower - tolerance(size, 7)) / MICRON
        assert -1e-6 <= over <= 5 + 1e-6


def test_k_lies_on_the_nominal_size_or_just_above():
    """0.6 D^(1/3) um, from memory."""
    for step, size in enumerate(STEPS[1:], start=1):
        reckoned = 0.6 * mean(step) ** (1 / 3)
        assert zone(size, "k6").lower / MICRON == pytest.approx(reckoned, abs=1.0)


@given(sizes, grades, st.sampled_from(BOTH))
def test_a_hole_is_its_shaft_mirrored(size, grade, letter):
    shaft, hole = zone(size, f"{letter}{grade}"), zone(size, f"{letter.upper()}{grade}")
    assert (hole.lower, hole.upper) == pytest.approx((-shaft.upper, -shaft.lower), abs=SAME)


@given(sizes, grades)
def test_h_touches_the_nominal_size_and_js_lies_evenly_about_it(size, grade):
    assert zone(size, f"H{grade}").lower == 0 == zone(size, f"h{grade}").upper
    assert zone(size, f"JS{grade}").middle == 0 == zone(size, f"js{grade}").middle


@given(sizes, st.sampled_from((*BOTH, "k", "m", "n", "p")), st.sampled_from((5, 6, 7)))
def test_every_zone_is_as_wide_as_its_grade(size, letter, grade):
    found = zone(size, f"{letter}{grade}")
    assert found.upper - found.lower == pytest.approx(tolerance(size, grade), abs=SAME)


@given(sizes, sizes, grades, st.sampled_from(("D", "E", "F", "G", "H", "JS")))
def test_a_larger_size_has_no_less_room(one, other, grade, letter):
    small, large = (zone(size, f"{letter}{grade}") for size in sorted((one, other)))
    assert large.upper >= small.upper
    assert tolerance(max(one, other), grade) >= tolerance(min(one, other), grade)


@given(sizes, st.sampled_from(("D", "H", "JS")), st.sampled_from(("g", "h", "n", "p")), grades)
def test_most_play_is_more_than_the_least_by_both_tolerances(size, hole, shaft, grade):
    fit = limits_of_fit(size, f"{hole}{grade}/{shaft}6")
    both = tolerance(size, grade) + tolerance(size, 6)
    assert fit.most - fit.least == pytest.approx(both, abs=SAME)


@pytest.mark.parametrize(
    ("size", "name", "what", "mend"),
    [
        (20, "Q7", 'no tolerance class "Q"', "a hole of D E F G H JS"),
        (20, "K7", 'no tolerance class "K"', "a shaft of d e f g h js k m n p"),
        (20, "Js7", 'no tolerance class "Js"', "a hole of"),
        (20, "H4", "no grade 4", "from 5 to 11"),
        (20, "H12", "no grade 12", "from 5 to 11"),
        (20, "k8", "not k8", "take one of these"),
        (20, "k14", "no grade 14", "from 5 to 11"),
        (0, "H7", "a nominal size of 0 mm", "up to 500 mm"),
        (-3, "H7", "a nominal size of -3 mm", "up to 500 mm"),
        (500.01, "H7", "a nominal size of 500.01 mm", "up to 500 mm"),
        (math.nan, "H7", "a nominal size of nan mm", "up to 500 mm"),
        (20, "", "no tolerance class", "such as H7"),
        (20, "7H", "no tolerance class", "such as H7"),
        (20, "H7.5", "no tolerance class", "such as H7"),
    ],
)
def test_what_the_tables_lack_is_refused(size, name, what, mend):
    with pytest.raises(FitError) as caught:
        zone(size, name)
    assert what in caught.value.what
    assert mend in caught.value.mend


@pytest.mark.parametrize("letters", ["H7", "g6/H7", "H7/", "/g6", "H7/H7", "g6/g6", "H7-g6"])
def test_what_is_no_fit_is_refused(letters):
    with pytest.raises(FitError, match="is no fit: write the hole's class in capitals"):
        limits_of_fit(20, letters)
