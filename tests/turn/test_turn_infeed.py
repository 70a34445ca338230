"""Depths of the passes of a thread."""

import math
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from jawcam.errors import InternalError
from jawcam.turn.infeed import (
    LAST_BITE,
    even_chips,
    flank_shift,
    gentle_start,
    last_bite,
    passes_for,
    with_spring,
)


def increments(depths):
    return [high - low for low, high in pairwise((0.0, *depths))]


# Infeed tables of makers of threading tools; the longer ones worked from a sqrt(i / N). M10, M20
# and 1/2-13 (in inches).
@pytest.mark.parametrize(
    ("depth", "depths", "off"),
    [
        (0.920, [0.376, 0.531, 0.651, 0.751, 0.840, 0.920], 5e-4),
        (
            1.534,
            [0.4851, 0.6860, 0.8402, 0.9702, 1.0847, 1.1882, 1.2834, 1.3721, 1.4553, 1.5340],
            1e-4,
        ),
        (0.04719, [0.0167, 0.0236, 0.0289, 0.0334, 0.0373, 0.0409, 0.0441, 0.0472], 1e-4),
    ],
)
def test_even_chips(depth, depths, off):
    assert even_chips(depth, len(depths)) == pytest.approx(depths, abs=off)


def test_the_bites_of_even_chips():
    bites = [0.3756, 0.1556, 0.1194, 0.1006, 0.0887, 0.0802]
    assert increments(even_chips(0.920, 6)) == pytest.approx(bites, abs=1e-4)
    assert last_bite(even_chips(0.920, 6)) == pytest.approx(bites[-1], abs=1e-4)
    assert last_bite(even_chips(0.920, 1)) == 0.920


# A maker's rule, with its own example.
def test_a_gentle_start():
    depths = gentle_start(0.94, 6)
    assert depths == pytest.approx([0.230, 0.420, 0.595, 0.728, 0.841, 0.940], abs=1e-3)
    printed = [0.23, 0.19, 0.17, 0.13, 0.11, 0.10]  # to two places
    assert increments(depths) == pytest.approx(printed, abs=6e-3)


# 29 1/2 degrees: US Navy training manual 14345, figure 6-91; the numbers are d / cos and d tan.
@pytest.mark.parametrize(
    ("angle", "travel", "shift"), [(29.5, 1.0570, 0.5205), (30, 1.0623, 0.5312)]
)
def test_infeed_along_the_flank(angle, travel, shift):
    assert math.hypot(0.920, flank_shift(0.920, angle)) == pytest.approx(travel, abs=1e-4)
    assert flank_shift(0.920, angle) == pytest.approx(shift, abs=1e-4)


# An old table for a slide at 29 degrees and a depth of 0.6495 P, by threads per inch.
@pytest.mark.parametrize(
    ("per_inch", "travel"), [(8, 0.0928), (10, 0.0742), (13, 0.0570), (16, 0.0464), (20, 0.0371)]
)
def test_a_slide_at_29_degrees(per_inch, travel):
    depth = 0.64952 / per_inch
    assert math.hypot(depth, flank_shift(depth, 29)) == pytest.approx(travel, abs=2e-4)


# The tables above have 6 passes for M10, 10 for M20 and 8 for 13 threads per inch.
def test_passes_by_pitch():
    assert [passes_for(pitch) for pitch in (1.5, 2.5, 25.4 / 13)] == [6, 10, 8]
    counts = [passes_for(tenths / 10) for tenths in range(1, 121)]
    assert counts == sorted(counts)
    assert (counts[0], counts[-1]) == (3, 32)


# A guide for the last pass, 0.05 to 0.10 mm, as makers give it.
@pytest.mark.parametrize("pitch", [1, 1.25, 1.5, 1.75, 2, 2.5, 3])
def test_the_usual_passes_keep_to_the_guide_for_the_last(pitch):
    least, most = LAST_BITE
    assert least <= last_bite(even_chips(0.61343 * pitch, passes_for(pitch))) <= most


def test_spring_passes_repeat_the_last():
    assert with_spring((0.3, 0.5), 2) == (0.3, 0.5, 0.5, 0.5)
    assert with_spring((0.3, 0.5), 0) == (0.3, 0.5)


@given(st.floats(0.01, 10), st.integers(1, 40), st.sampled_from([even_chips, gentle_start]))
def test_passes_go_deeper_by_less_each_time_and_end_at_the_depth(depth, passes, rule):
    depths = rule(depth, passes)
    assert len(depths) == passes
    assert depths[-1] == depth
    bites = increments(depths)
    assert min(bites) > 0
    later = bites if rule is even_chips else bites[2:]
    assert all(low >= high for low, high in pairwise(later))


@given(st.floats(0.01, 10), st.integers(1, 40))
def test_even_chips_take_even_areas(depth, passes):
    squares = [high**2 - low**2 for low, high in pairwise((0.0, *even_chips(depth, passes)))]
    assert squares == pytest.approx([depth**2 / passes] * passes)


@pytest.mark.parametrize(("depth", "passes"), [(0, 3), (-1, 3), (1, 0), (math.nan, 2)])
def test_no_depth_and_no_passes_are_a_bug(depth, passes):
    with pytest.raises(InternalError):
        even_chips(depth, passes)
    with pytest.raises(InternalError):
        gentle_start(depth, passes)
