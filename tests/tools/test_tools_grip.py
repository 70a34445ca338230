"""What jaws and screws bear."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from jawcam.tools.grip import (
    COLLET_FRICTION,
    EN_1550_SHARE,
    JAW_FRICTION,
    WORK_FACTOR,
    allowed_speed,
    centrifugal_force,
    force_at_rest,
    friction,
    grip_torque,
    lost_at_most,
    screw_force,
    screw_force_by_friction,
    screw_torque,
    single_face_hold,
    two_jaw_bearing,
    two_jaw_hold,
)

# An example of the chuck calculation of VDI 3106, top jaws only: 3 jaws of 5.33 kg at 107 mm.
MOMENT = 3 * 5.33 * 0.107
forces = st.floats(10, 1e5)
factors = st.floats(1.5, 4)


# A chuck data sheet in the manner of VDI 3106.
@pytest.mark.parametrize(
    ("surface", "row"),
    [
        ("ground", (0.07, 0.12, 0.20)),
        ("machined", (0.10, 0.20, 0.35)),
        ("raw", (0.15, 0.30, 0.45)),
    ],
)
def test_clamping_coefficients(surface, row):
    jaws = ("smooth", "diamond", "serrated")
    assert tuple(friction(surface, "steel", jaw) for jaw in jaws) == row
    assert tuple(JAW_FRICTION[surface]) == jaws


@pytest.mark.parametrize(
    ("work", "factor", "other"),
    [("aluminium", 0.95, 0.97), ("brass", 0.90, 0.92), ("grey iron", 0.80, 0.80)],
)
def test_other_parts_hold_less_well_than_steel(work, factor, other):
    """The same sheet; of two makers' factors the lower is taken."""
    assert friction("machined", work) == pytest.approx(0.10 * factor)
    assert WORK_FACTOR[work] <= other


def test_collets():
    """A chuck data sheet: round and along."""
    assert COLLET_FRICTION == {
        "ground": (0.06, 0.08),
        "machined": (0.10, 0.13),
        "raw": (0.14, 0.16),
    }


def test_centrifugal_force():
    """VDI 3106, worked: three jaws of 1 kg at 80 mm and 3000 rpm."""
    assert centrifugal_force(3 * 1 * 0.080, 3000) == pytest.approx(23687.05, abs=0.01)


def test_the_force_at_rest_of_a_chuck():
    """VDI 3106, worked: 3000 N asked for at 1200 rpm, both factors 1.5."""
    lost = centrifugal_force(MOMENT, 1200)
    of_one_jaw = MOMENT / 3
    assert of_one_jaw == pytest.approx(0.57031, abs=1e-5)
    assert lost == pytest.approx(27018, abs=1)
    assert force_at_rest(3000, 0, chuck_factor=1) == 4500
    assert force_at_rest(3000, lost) == pytest.approx(47277, abs=1)


def test_a_bore_gripped_from_inside_gains_by_speed():
    assert force_at_rest(3000, 1000, inside=True) == pytest.approx(1.5 * (4500 - 1000))
    assert force_at_rest(3000, 1000) == pytest.approx(1.5 * (4500 + 1000))


def test_the_speed_allowed():
    """VDI 3106, the same example the other way round."""
    assert allowed_speed(47277, 4500, MOMENT) == pytest.approx(1200.0, abs=0.1)


def test_no_speed_is_allowed_without_the_force_at_rest():
    assert allowed_speed(6000, 4500, MOMENT) == 0


@given(forces, st.floats(10, 6000), st.floats(0.01, 5), factors, factors)
def test_at_the_speed_allowed_the_chuck_has_just_the_force_it_needs(needed, rpm, moment, cut, own):
    lost = centrifugal_force(moment, rpm)
    at_rest = force_at_rest(needed, lost, cutting_factor=cut, chuck_factor=own)
    found = allowed_speed(at_rest, cut * needed, moment, chuck_factor=own)
    assert centrifugal_force(moment, found) == pytest.approx(lost, abs=1e-6 * at_rest)


def test_the_limit_of_en_1550():
    """Fc <= 0.67 Fsp0: the example loses 0.571 of its force."""
    lost, at_rest = 27018, 47277
    assert lost / at_rest == pytest.approx(0.571, abs=0.001)
    assert EN_1550_SHARE == 0.67
    assert lost <= lost_at_most(at_rest) == pytest.approx(31676, abs=1)


def test_grip_torque():
    """Worked: 0.20, 30 kN on a diameter of 50 mm."""
    assert grip_torque(0.20, 30_000, 50) == pytest.approx(150)


def test_a_vise_screw_by_its_thread_friction():
    """Hibbeler, Statics, 14th edition, problem 8-76: a couple of 35 N on 250 mm, mean radius 6 mm,
    lead 8 mm, friction 0.27; 2.85 kN."""
    force = screw_force_by_friction(35 * 0.250, 6, 8, 0.27)
    assert force == pytest.approx(2851.0, abs=1)


def test_a_vise_screw_by_its_efficiency():
    """F = 2 pi T eta / lead, worked: 40 N m, 0.35, 5 mm."""
    assert screw_force(40, 5, 0.35) == pytest.approx(17593, abs=1)


@given(st.floats(0.1, 200), st.floats(2, 10), st.floats(0.1, 1))
def test_a_screw_the_other_way_round(torque, lead, efficiency):
    assert screw_torque(screw_force(torque, lead, efficiency), lead, efficiency) == pytest.approx(
        torque
    )


@given(st.floats(0.1, 200), st.floats(5, 20), st.floats(2, 10))
def test_a_screw_without_friction_wastes_nothing(torque, radius, lead):
    assert screw_force_by_friction(torque, radius, lead, 0) == pytest.approx(
        screw_force(torque, lead, 1)
    )


@given(st.floats(0.1, 200), st.floats(5, 20), st.floats(2, 10), st.floats(0.05, 0.4))
def test_friction_wastes_what_the_angles_say(torque, radius, lead, mu):
    """The efficiency of a screw: tan(theta) / tan(theta + phi)."""
    theta = math.atan(lead / (2 * math.pi * radius))
    efficiency = math.tan(theta) / math.tan(theta + math.atan(mu))
    assert screw_force_by_friction(torque, radius, lead, mu) == pytest.approx(
        screw_force(torque, lead, efficiency)
    )


@pytest.mark.parametrize(("mu", "force"), [(0.15, 6667), (0.20, 5000)])
def test_two_jaws_hold(mu, force):
    """F >= K Fc / (2 mu), worked: 800 N, K 2.5; one face alone would need twice as much."""
    assert two_jaw_hold(800, 2.5, mu) == pytest.approx(force, abs=1)
    assert single_face_hold(800, 2.5, mu) == pytest.approx(2 * force, abs=1)


@given(forces, factors, st.floats(0.05, 0.5))
def test_jaws_that_press_as_hard_as_needed_bear_what_is_asked(cutting, safety, mu):
    needed = two_jaw_hold(cutting, safety, mu)
    assert two_jaw_bearing(mu, needed) == pytest.approx(safety * cutting)
