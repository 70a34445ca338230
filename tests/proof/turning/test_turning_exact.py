"""Parts cut along exact paths of the nose's middle are proven, to closed forms."""

import math
from dataclasses import replace

import pytest
from turning_pen import CNMG, TURN, Pen, codes, face, judged, level_passes, target

R = CNMG.radius


def test_a_cylinder_is_proven():
    goal = target((0.0, 0.0), (0.0, 15.0), (-30.0, 15.0), (-30.0, 20.0))
    pen = level_passes(face(Pen()), 15.0, -30.0)
    pen.rapid(3.0, 23.0).rapid(x=15.0).feed(z=-30.0).feed(x=23.0).home()
    report = judged(pen, goal)
    # the corner at the shoulder keeps the nose's radius: a disc of R (sqrt 2 - 1)^2 across twice
    (left,) = [f for f in report.findings if f.grade != "note"]
    assert left.code == "T301"
    assert left.amount == pytest.approx(2 * R * (math.sqrt(2) - 1) ** 2, abs=1e-3)
    assert (left.z, left.x) == pytest.approx((-29.86, 2 * 15.14), abs=0.02)
    assert report.figures.gouge <= 0.0005


def cylinder():
    goal = target((0.0, 0.0), (0.0, 15.0), (-50.0, 15.0))
    pen = level_passes(face(Pen()), 15.0, -50.8)
    return pen, goal


def with_fillet(radius, end, fillet):
    """A cylinder with an inside fillet at the shoulder of the bar, an arc ending at Z `end`."""
    bulge = -math.tan(math.pi / 8)
    return target(
        (0.0, 0.0),
        (0.0, radius),
        (end + fillet, radius, bulge),
        (end, radius + fillet),
        (end, 20.0),
        limit=-50.0,
    )


def test_a_shoulder_with_the_nose_s_own_radius_is_proven():
    report = judged(level_passes(face(Pen()), 15.0, -30.0), with_fillet(15.0, -30.0, R))
    assert codes(report) == []
    assert report.figures.gouge <= 0.0005
    assert report.figures.left_over == 0.0


def test_volume_and_area_removed():
    report = judged(level_passes(face(Pen()), 15.0, -30.0), with_fillet(15.0, -30.0, R))
    corner = R * R * (1 - math.pi / 4)
    assert report.figures.area == pytest.approx(20.0 + 30.0 * 5.0 - corner, abs=1e-3)
    low = 15.0 + R * (1 - (10 - 3 * math.pi) / (12 - 3 * math.pi))  # of the corner's centroid
    whole = math.pi * (400.0 * 1.0 + (400.0 - 225.0) * 30.0)
    assert report.figures.volume == pytest.approx(whole - math.tau * low * corner, rel=1e-3)


def tip(centre):
    """The set point of a right-hand outside tool with its nose there."""
    return centre[0] - R, centre[1] - R


def test_a_taper_cut_along_its_nose_s_path_is_proven():
    # from (0, 12) to (-25, 17)
    length = math.hypot(25.0, 5.0)
    way, normal = (-25.0 / length, 5.0 / length), (5.0 / length, 25.0 / length)
    goal = target((0.0, 0.0), (0.0, 12.0), (-25.0, 17.0), (-25.0, 20.0))
    first = tip((normal[0] * R - way[0] * 3, 12.0 + normal[1] * R - way[1] * 3))
    # the nose comes down to the taper where the shoulder stops it
    along = (-25.0 + R - normal[0] * R) / way[0]
    last = tip((normal[0] * R + way[0] * along, 12.0 + normal[1] * R + way[1] * along))
    pen = level_passes(face(Pen()), 17.2, -24.9)
    pen.rapid(3.0, 23.0).rapid(x=14.5).feed(z=-12.0).feed(x=17.2).rapid(z=3.0)
    pen.rapid(*first).feed(*last).feed(x=23.0).home()
    report = judged(pen, goal)
    assert report.figures.gouge <= 0.0005
    (left,) = [f for f in report.findings if f.grade != "note"]  # the corner at the shoulder
    assert left.code == "T301"
    assert left.z < -24.0


def test_a_quarter_round_cut_along_its_nose_s_path_is_proven():
    # rounds the free end's corner by 3 mm; a shoulder with the nose's own radius
    goal = target(
        (0.0, 0.0),
        (0.0, 12.0, math.tan(math.pi / 8)),
        (-3.0, 15.0),
        (-30.0 + R, 15.0, -math.tan(math.pi / 8)),
        (-30.0, 15.0 + R),
        (-30.0, 20.0),
    )
    pen = level_passes(face(Pen()), 15.0, -30.0)
    middle = (-3.0 - R, 12.0 - R)  # of the set point's arc: about the part's, shifted by the nose
    pen.rapid(3.0, 23.0).rapid(x=12.0 - R).feed(z=middle[0] + 3.0 + R)
    pen.arc(-3.0 - R, 15.0, middle, ccw=True).feed(z=-8.0).feed(x=23.0).home()
    report = judged(pen, goal)
    assert codes(report) == []
    assert report.figures.gouge <= 0.0005
    assert report.figures.left_over == 0.0


# Imaginary tip driven along the line itself: the trade's formula, R (sin A + cos A - 1) normal to
# the line, A its angle to Z.
@pytest.mark.parametrize(
    ("angle", "over_r"),
    [(5, 0.083350), (15, 0.224745), (30, 0.366025), (45, 0.414214), (60, 0.366025)],
)
@pytest.mark.parametrize("nose", [0.4, 0.8, 1.2])
def test_without_compensation_the_material_that_stays_is_found(angle, over_r, nose):
    a = math.radians(angle)
    length = min(6.0 / math.tan(a), 45.0)
    top = 9.0 + length * math.tan(a)
    tool = replace(TURN, insert=replace(CNMG, radius=nose))
    goal = target((0.0, 0.0), (0.0, 9.0), (-length, top), tools=(tool,))
    pen = level_passes(face(Pen(), nose=nose), top, -50.0)
    pen.rapid(4.0, 23.0).rapid(x=9.0 - 3.0 * math.tan(a)).feed(z=3.0)
    pen.feed(-length, top).feed(z=-50.0).feed(x=23.0).home()
    report = judged(pen, goal)
    # apart from the corner at the limit
    (left,) = [f for f in report.findings if f.code == "T301" and f.z > -49.0]
    assert left.amount == pytest.approx(nose * over_r, abs=1e-3)
    assert report.figures.gouge <= 0.0005


def test_tip_along_cylinders_and_faces_leaves_nothing():
    pen, goal = cylinder()
    report = judged(pen, goal)
    assert "T204" in codes(report)  # it runs 0.8 mm behind the limit


def test_facing_at_constant_surface_speed_takes_the_closed_form_s_time():
    # D 100 to the axis, 200 m/min, 0.2 mm/turn, clamp 2500 rpm: pi (r1^2 - r2^2) / (1000 v f)
    # + r2 / (f n) = 0.183617 + 0.025465 min
    goal = target((0.0, 0.0), (0.0, 15.0), (-50.0, 15.0))
    pen = Pen().with_state(surface=200.0, clamp=2500.0, rpm=0.0)
    pen.rapid(0.0, 50.0).feed(x=0.0).rapid(z=60.0)
    assert judged(pen, goal).figures.feed_minutes == pytest.approx(0.183617 + 0.025465, abs=1e-6)


def test_turning_takes_its_length_over_feed_and_speed():
    # L 50, f 0.2, 150 m/min on D 40: 12.566 s
    goal = target((0.0, 0.0), (0.0, 15.0), (-50.0, 15.0))
    pen = Pen().with_state(surface=150.0, clamp=2500.0)
    pen.rapid(5.0, 20.0).feed(z=-45.0).home()
    assert judged(pen, goal).figures.feed_minutes * 60 == pytest.approx(12.566, abs=1e-3)
