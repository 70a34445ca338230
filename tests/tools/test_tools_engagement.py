"""How far round a cutter is in the work, and what that makes of its chip."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from jawcam.errors import InternalError
from jawcam.tools.engagement import (
    THIN_MOST,
    chip_thinning,
    engaged,
    engaged_inside,
    engaged_outside,
    fresh_width,
    thinning,
)
from jawcam.tools.force import mean_chip

SHARES = st.floats(0.001, 0.999)


# cos phi = 1 - 2 ae / D, a printed list and a textbook: REFERENCE M1
@pytest.mark.parametrize(
    ("share", "angle"),
    [
        (0.04, 23.07),
        (0.05, 25.84),
        (0.1, 36.87),
        (0.2, 53.13),
        (0.3, 66.42),
        (0.4, 78.46),
        (0.5, 90),
        (1, 180),
    ],
)
def test_the_engaged_angle_is_that_of_the_printed_list(share, angle):
    assert engaged(share * 10, 10) == pytest.approx(angle, abs=0.01)


# D / (2 sqrt(ae (D - ae))), REFERENCE M2; 0.1 -> 1 / 0.6 is printed too
@pytest.mark.parametrize(
    ("share", "factor"),
    [
        (0.02, 3.5714),
        (0.05, 2.2942),
        (0.1, 1.6667),
        (0.15, 1.4003),
        (0.2, 1.2500),
        (0.25, 1.1547),
        (0.3, 1.0911),
        (0.4, 1.0206),
    ],
)
def test_chips_thin_by_the_closed_form(share, factor):
    assert chip_thinning(share * 12, 12) == pytest.approx(factor, abs=1e-4)


def test_the_worked_example_of_thin_chips():
    """REFERENCE M3: a chip of 0.002 in at a tenth of the diameter: 0.00333 in a tooth, 36.9
    degrees."""
    assert 0.002 * chip_thinning(0.05, 0.5) == pytest.approx(0.00333, abs=1e-5)
    assert engaged(0.05, 0.5) == pytest.approx(36.9, abs=0.05)


# REFERENCE M4
@pytest.mark.parametrize(
    ("share", "mean"), [(0.05, 0.2217), (0.1, 0.3108), (0.2, 0.4314), (0.5, 0.6366), (1, 0.6366)]
)
def test_the_mean_chip_is_that_of_the_closed_form(share, mean):
    assert mean_chip(1.0, share * 8, 8) == pytest.approx(mean, abs=1e-4)


# REFERENCE M5, M6, M7: cutters of radius 5
@pytest.mark.parametrize(
    ("radius", "width", "angle"), [(8, 1, 60), (12, 1, 47.823), (20, 1, 42.269), (8, 2, 86.177)]
)
def test_inside_a_round_wall_a_cutter_is_engaged_farther(radius, width, angle):
    assert engaged_inside(width, radius, 5) == pytest.approx(angle, abs=1e-3)


@pytest.mark.parametrize(("radius", "angle"), [(8, 29.631), (20, 33.280)])
def test_outside_a_round_wall_a_cutter_is_engaged_less(radius, angle):
    assert engaged_outside(1, radius, 5) == pytest.approx(angle, abs=1e-3)


def test_both_come_to_the_straight_wall_s_in_the_limit():
    for found in (engaged_inside(1, 1e7, 5), engaged_outside(1, 1e7, 5), engaged(1, 10)):
        assert found == pytest.approx(36.870, abs=1e-3)


def test_a_wall_that_a_cutter_cannot_follow_has_no_engaged_angle():
    with pytest.raises(InternalError):
        engaged_inside(1, 5, 5)


@given(st.floats(5.5, 200), SHARES)
def test_what_is_cut_fresh_to_a_length_of_way_is_the_ring_s_area_over_the_way(radius, share):
    """Between R - ae and R, over a way of 2 pi (R - r): whatever the way's curvature."""
    width = share * min(2 * (radius - 5), 10)
    area = math.pi * (radius**2 - (radius - width) ** 2)
    fresh = fresh_width(engaged_inside(width, radius, 5), 10)
    if width < 2 * (radius - 5):  # beyond that the middle is cut by every part of the way
        assert fresh == pytest.approx(area / (2 * math.pi * (radius - 5)), abs=1e-6)


@given(st.floats(1, 30), SHARES)
def test_the_straight_width_comes_back_from_its_engaged_angle(dia, share):
    assert fresh_width(engaged(share * dia, dia), dia) == pytest.approx(share * dia)


@given(SHARES, SHARES)
def test_a_narrower_bite_never_thins_chips_less_and_never_beyond_the_bound(one, other):
    narrow, wide = sorted((one, other))
    assert 1 <= thinning(wide * 8, 8) <= thinning(narrow * 8, 8) <= THIN_MOST
    assert thinning(narrow * 8, 8) <= chip_thinning(narrow * 8, 8)
    assert thinning(0, 8) == THIN_MOST
