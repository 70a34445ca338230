"""What tools keep off at a chuck and a tailstock, and what is said of work that stands out."""

import math

import pytest

from jawcam.geometry.shapes import Region, polygon
from jawcam.hold.chucked import chuck_words, jaw_face, keep_off
from jawcam.hold.tailstock import BODY, centre_of
from jawcam.job.turn_model import Chuck, PartingOff, Speeds, Stock, TurnSetup
from jawcam.units import Units


def setup(chuck, **more):
    return TurnSetup("end", "rs274ngc-lathe", 1, "A", Stock(32.0), chuck, **more)


def said(chuck, stands_out, thick, units=Units.MM):
    return list(chuck_words(setup(chuck), stands_out, thick, units))


def test_the_jaws_hold_the_far_end_and_off_a_bar_what_lies_behind_the_part():
    assert jaw_face(setup(Chuck(18.0)), 50.0) == -32.0
    assert jaw_face(setup(Chuck(30.0, jaws=40.0), part_off=PartingOff()), 50.0) == -70.0


def test_jaws_chuck_and_centre_are_kept_off():
    stock = Region(polygon([(-50, 0), (1, 0), (1, 16), (-50, 16)]))
    chuck = Chuck(18.0, dia=120.0, jaw_height=25.0, jaws=40.0, tailstock=True)
    jaw, body, centre = keep_off(setup(chuck), stock, -32.0)
    assert {(z, x) for z, x, _ in jaw} == {(-72, 16), (-32, 16), (-32, 41), (-72, 41)}
    assert {x for _, x, _ in body} == {0, 60}
    assert max(z for z, _, _ in body) == -72
    assert min(z for z, _, _ in centre) == 1
    assert max(x for _, x, _ in centre) == BODY
    assert len(list(keep_off(setup(Chuck(18.0)), stock, -32.0))) == 2


def test_a_centre_is_a_cone_of_60_degrees_from_the_rim_of_its_hole():
    rows = [(z, x) for z, x, _ in centre_of(6.0, 1.0)]
    (z0, rim), (z1, body) = rows[-1], rows[-2]
    assert (z0, rim) == (0, 3)
    assert body == BODY
    assert math.degrees(math.atan2(body - rim, z1 - z0)) == pytest.approx(30)
    area = sum(a[0] * b[1] - b[0] * a[1] for a, b in zip(rows, [*rows[1:], rows[0]], strict=True))
    assert area > 0  # counter-clockwise


def test_a_hole_wider_than_the_body_is_filled_by_it():
    assert {x for _, x, _ in centre_of(24.0, 1.0)} == {0, 12}


# More than about 3 times the diameter unsupported: a trade guide, common practice, no source.
@pytest.mark.parametrize(
    ("stands_out", "thick", "tailstock", "warned"),
    [
        (30.0, 10.0, False, False),
        (30.1, 10.0, False, True),
        (64.0, 9.5, False, True),
        (64.0, 9.5, True, False),
    ],
)
def test_work_that_stands_far_out_is_warned_of(stands_out, thick, tailstock, warned):
    words = said(Chuck(18.0, tailstock=tailstock), stands_out, thick)
    assert words[0] == (
        f"the chuck holds 18 mm, the work stands {stands_out:g} mm out of its jaws, "
        f"{stands_out / thick:.1f} times its least diameter"
    )
    cautions = [line for line in words if line.startswith("caution")]
    assert len(cautions) == warned
    assert all("3 times" in line and "tailstock" in line for line in cautions)


def test_the_grip_that_is_lost_by_turning():
    """W7, VDI 3106: F = sum of m r w^2: three jaws of 1 kg on 80 mm at 3000 rpm lose 23.687 kN;
    EN 1550 lets two thirds of the force at rest be lost, 0.67 x 30 = 20.1 kN."""
    chuck = Chuck(18.0, force=30_000.0, jaw_mass=1.0, jaw_radius=80.0, max_rpm=3000.0)
    words = list(chuck_words(setup(chuck), 20.0, 20.0, Units.MM))
    assert "at 2500 rpm the jaws lose 16.4 of 30.0 kN of grip" in words  # the clamp is 2500 rpm
    fast = setup(chuck, speeds=Speeds(clamp=4000.0))
    words = list(chuck_words(fast, 20.0, 20.0, Units.MM))
    assert "at 3000 rpm the jaws lose 23.7 of 30.0 kN of grip" in words
    assert any("20.1 kN (EN 1550)" in line for line in words)
