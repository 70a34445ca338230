"""What is said of a chuck's grip while the outside is roughed, against worked figures."""

import math
from types import SimpleNamespace

import pytest

from jawcam.job.turn_model import Chuck
from jawcam.turn.gripping import grip_words
from jawcam.units import Units

JAWS = {"jaw_mass": 0.8, "jaw_radius": 55.0}


def said(material="mild steel", clamp=2500.0, depth=1.934, held=16.0, **chuck):
    """Of stock 32 mm across, roughed at 0.2 mm a turn by an edge at 95 degrees."""
    given = {"force": 30_000.0, **JAWS, **chuck}
    jaws = ((-60.0, held, 0.0), (-20.0, held, 0.0), (-20.0, 46.0, 0.0), (-60.0, 46.0, 0.0))
    work = SimpleNamespace(
        setup=SimpleNamespace(chuck=Chuck(18.0, **given)),
        job=SimpleNamespace(part=SimpleNamespace(material=material), units=Units.MM),
        held=SimpleNamespace(
            target=SimpleNamespace(keep_off=(jaws,)),
            stock=SimpleNamespace(outer=SimpleNamespace(box=(-80.0, 0.0, 1.0, 16.0))),
        ),
    )
    driven = SimpleNamespace(
        clamp=clamp, speeds=SimpleNamespace(feed=0.2), tool=SimpleNamespace(approach=95.0)
    )
    return list(grip_words(work, driven, depth))


def test_the_grip_is_held_against_the_torque_of_the_cut():
    """Kienzle with kc1.1 1350 and mc 0.21: 732 N on a radius of 16 mm. Friction 0.1 of 30 kN, less
    what 3 x 0.8 kg on 55 mm lose at 2500 1/min (VDI 3106), on the same radius: 33.5 N m."""
    first, *_ = said()
    slope = math.sin(math.radians(95))
    thick, width = 0.2 * slope, 1.934 / slope
    asked = 1350 * thick**-0.21 * thick * width * 16 / 1000
    lost = 3 * 0.8 * 0.055 * (math.pi * 2500 / 30) ** 2
    bears = 0.1 * (30_000 - lost) * 16 / 1000
    assert (round(asked), round(bears)) == (12, 34)
    assert "takes 12 N m on 32 mm" in first
    assert f"bears 34 N m on 32 mm at 2500 rpm, {bears / asked:.1f} times that" in first
    assert "friction 0.1 of smooth jaws, P1 of VDI 3323" in first


def test_too_high_a_speed_is_told_with_the_one_that_is_allowed():
    """n = 30 / pi sqrt((Fsp0 / 1.5 - 1.5 Fspz) / sum(m r)) (VDI 3106), Fspz the cut's force over a
    friction of 0.1; told in whole turns, never more than it is."""
    _, caution = said()
    thick, width = 0.2 * math.sin(math.radians(95)), 1.934 / math.sin(math.radians(95))
    spare = 30_000 / 1.5 - 1.5 * 1350 * thick**-0.21 * thick * width / 0.1
    most = 30 / math.pi * math.sqrt(spare / (3 * 0.8 * 0.055))
    assert most == pytest.approx(2495, abs=1)
    assert f"hold up to {math.floor(most)} rpm (VDI 3106" in caution
    assert len(said(clamp=2400.0)) == 1


@pytest.mark.parametrize("change", [{"held": 6.0}, {"depth": 4.0}, {"force": 18_000.0}])
def test_a_grip_that_bears_too_little_is_warned_of(change):
    assert any(line.startswith("caution: 2 times are the least") for line in said(**change))


def test_a_material_that_is_not_known_is_told():
    assert said(material="") == [
        "the chuck's grip is not held against a cut: it is not known how hard the material is"
    ]


def test_nothing_is_said_without_the_chuck_s_force():
    assert said(force=None, jaw_mass=None, jaw_radius=None) == []
