"""Nose radius compensation left to the control: the text holds the profile itself."""

import math

import pytest
from turning_pen import CNMG, Pen, codes, face, judged, level_passes, target

R = CNMG.radius
B = math.tan(math.pi / 8)


def spindle():
    """Chamfer, cylinder, outside round, inside round, taper and an inside corner that is blunt
    enough to be no corner to the nose."""
    return target(
        (0.0, 0.0),
        (0.0, 8.0),
        (-2.0, 10.0),
        (-12.0, 10.0),
        (-12.0, 11.0, B),
        (-13.0, 12.0),
        (-18.0, 12.0, -B),
        (-20.0, 14.0),
        (-20.0, 15.0),
        (-50.0, 15.0),
    )


def roughed():
    pen = level_passes(face(Pen()), 15.2, -50.0)
    for x, z in ((12.5, -18.0), (10.5, -11.0)):
        pen.rapid(3.0, 23.0).rapid(x=x).feed(z=z).feed(x=18.0).rapid(x=23.0)
    return pen.home()


def contour(pen):
    """Along the profile, towards the chuck: the tool is on the right of its way."""
    pen.rapid(3.0, 23.0)
    pen.side = "right"
    pen.rapid(2.0, 6.0).feed(-2.0, 10.0).feed(z=-12.0).feed(x=11.0)
    pen.arc(-13.0, 12.0, (-13.0, 11.0), ccw=True)
    pen.feed(z=-18.0).arc(-20.0, 14.0, (-18.0, 14.0), ccw=False)
    pen.feed(x=15.0).feed(z=-49.0).feed(x=21.0)
    pen.side = "off"
    return pen.rapid(-45.0, 25.0).home()


def test_the_profile_is_what_is_left_but_for_the_corner():
    report = judged(contour(roughed()), spindle())
    left = [f for f in report.findings if f.code == "T301"]
    assert report.figures.gouge <= 0.0005
    # the one sharp inside corner, at (-12, 10), keeps the nose's round
    assert [(f.z, f.x) for f in left][-1] == pytest.approx((-11.86, 20.28), abs=0.03)
    corner = next(f for f in left if abs(f.z + 11.86) < 0.05)
    assert corner.amount == pytest.approx(2 * R * (math.sqrt(2) - 1) ** 2, abs=1e-3)


def test_inside_corners_of_tapers_are_cut_short_where_the_paths_cross():
    goal = target((0.0, 0.0), (0.0, 10.0), (-10.0, 10.5), (-30.0, 15.0), (-50.0, 15.0))
    pen = level_passes(face(Pen()), 15.0, -50.0)
    pen.rapid(3.0, 23.0)
    pen.side = "right"
    pen.rapid(2.0, 9.9).feed(-10.0, 10.5).feed(-30.0, 15.0).feed(z=-49.0)
    pen.side = "off"
    report = judged(pen.rapid(-45.0, 25.0).home(), goal)
    assert [f for f in report.findings if f.code == "T301" and f.z > -49.0] == []
    assert report.figures.gouge <= 0.0005


def test_a_valley_between_two_rounds_keeps_the_nose_s_round():
    # two rounds of a knob, 8.944 mm in radius, that meet at 26.57 degrees to the axis
    b = math.tan(math.asin(4.0 / math.hypot(4.0, 8.0)) / 2)
    goal = target(
        (0.0, 0.0), (0.0, 10.0), (-2.0, 10.0, b), (-10.0, 10.0, b), (-18.0, 10.0), (-18.0, 15.0)
    )
    pen = level_passes(face(Pen()), 15.0, -50.0)
    pen.rapid(3.0, 23.0).rapid(x=11.0).feed(z=-17.5).feed(x=16.0).home()
    pen.call(2).rapid(3.0, 23.0)
    pen.side = "right"
    pen.rapid(2.0, 10.0).feed(z=-2.0).arc(-10.0, 10.0, (-6.0, 2.0), ccw=True)
    pen.arc(-18.0, 10.0, (-14.0, 2.0), ccw=True).feed(x=21.0)
    pen.side = "off"
    report = judged(pen.rapid(-15.0, 25.0).home(), goal)
    assert report.figures.gouge <= 0.0005
    (valley,) = [f for f in report.findings if f.code == "T301" and -12 < f.z < -8]
    # a disc on the line of symmetry that touches the nose and both rounds of radius r
    r = math.hypot(4.0, 8.0)
    below = math.sqrt((r + R) ** 2 - 16.0) - R
    assert valley.amount == pytest.approx((16.0 + below**2 - r**2) / (below + r), abs=5e-4)
    assert valley.z == pytest.approx(-10.0, abs=0.01)


def test_the_wrong_side_gouges():
    pen = contour(roughed())
    pen.cuts = [c._replace(side="left") if c.side == "right" else c for c in pen.cuts]
    report = judged(pen, spindle())
    assert "T201" in codes(report)
    assert report.figures.gouge > R


def test_an_inside_arc_that_the_nose_does_not_fit_into():
    goal = spindle()
    pen = Pen()
    pen.rapid(3.0, 23.0)
    pen.side = "right"
    pen.feed(2.0, 12.0).feed(z=-18.0).arc(-18.5, 12.5, (-18.0, 12.5), ccw=False).feed(x=22.0)
    pen.side = "off"
    report = judged(pen.rapid(-10.0, 25.0).home(), goal)
    assert "T118" in codes(report)
