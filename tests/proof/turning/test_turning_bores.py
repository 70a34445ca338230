"""Bores: drilled, bored to size, and what bars run into."""

import math
from dataclasses import replace

import pytest
from turning_pen import BORE, DRILL, TOOLS, Pen, codes, found, judged, target

from jawcam.hold.turn_target import Thread
from jawcam.tools.turner import Turner

B = -math.tan(math.pi / 8)
POINT = 8.0 / math.tan(math.radians(59.0))


def bushing(**changes):
    """A bar of 15 mm radius, faced by others, with a hole of 16 mm opened to 18 for 20 mm."""
    goal = target(
        (-28.0, 0.0),
        (-28.0 + POINT, 8.0),
        (-20.0, 8.0),
        (-20.0, 9.0 - 0.4, B),
        (-20.0 + 0.4, 9.0),
        (0.0, 9.0),
        (0.0, 20.0),
        (-50.0, 20.0),
    )
    bar = ((-80.0, 0.0, 0.0), (0.0, 0.0, 0.0), (0.0, 20.0, 0.0), (-80.0, 20.0, 0.0))
    return replace(goal, stock=bar, **changes)


def drilled(pen, depth=-28.0):
    pen.rapid(60.0, 0.0).rapid(z=3.0).feed(z=-15.0).rapid(z=3.0).rapid(z=-14.0).feed(z=depth)
    return pen.rapid(z=60.0)


def bored(pen, radius=9.0):
    pen.call(7).rapid(60.0, 7.0).rapid(z=3.0)
    for x in (8.6, radius):
        pen.rapid(x=x).feed(z=-20.0).feed(x=7.5).rapid(z=3.0)
    return pen.rapid(z=60.0)


def test_a_drilled_and_bored_hole_is_proven():
    report = judged(bored(drilled(Pen(6))), bushing())
    assert codes(report) == []
    assert report.figures.gouge <= 0.0005
    cone = math.pi * 64 * POINT / 3
    hole = cone + math.pi * 64 * (8.0 - POINT) + math.pi * 81 * 20
    corner = 0.4**2 * (1 - math.pi / 4) * math.tau * 8.9
    assert report.figures.volume == pytest.approx(hole - corner, rel=1e-4)


def test_a_hole_too_deep_too_shallow_and_off_the_axis():
    assert codes(judged(bored(drilled(Pen(6), depth=-28.1)), bushing())) == ["T201"]
    assert codes(judged(bored(drilled(Pen(6), depth=-27.9)), bushing())) == ["T301"]
    pen = Pen(6).rapid(60.0, 1.0).rapid(z=3.0).feed(z=-10.0).rapid(z=60.0)
    assert "T106" in codes(judged(pen, bushing()))


def test_a_bore_too_wide():
    report = judged(bored(drilled(Pen(6)), radius=9.01), bushing())
    (gouge,) = [f for f in report.findings if f.code == "T201"]
    assert gouge.amount == pytest.approx(0.01, abs=1e-3)


def test_a_bar_that_is_too_thick_for_the_hole():
    thick = replace(BORE, shank=20.0, least_bore=22.0)
    report = judged(bored(drilled(Pen(6))), bushing(tools=(*TOOLS[:6], thick)))
    assert "T602" in codes(report)


def test_a_bar_that_stands_out_too_little():
    short = replace(BORE, overhang=15.0)
    report = judged(bored(drilled(Pen(6))), bushing(tools=(*TOOLS[:6], short)))
    assert "T602" in codes(report)
    assert not report.ok


def test_a_drill_s_chuck_in_the_work():
    short = replace(DRILL, overhang=25.0, shank=30.0)
    report = judged(drilled(Pen(6)), bushing(tools=(*TOOLS[:5], short, BORE)))
    assert "T602" in codes(report)


def test_a_bar_retracted_into_the_far_wall():
    pen = drilled(Pen(6)).call(7).rapid(60.0, 7.0).rapid(z=-10.0).rapid(x=2.0)
    report = judged(pen.rapid(z=60.0), bushing())
    assert ("T501", pen.cuts[-2].line) in found(report)


def test_a_groove_and_a_thread_in_a_bore():
    inner = Turner(8, "grooving", width=2.0, reach=2.0, inside=True, shank=8.0, least_bore=16.0)
    vee = Turner(9, "threading", inside=True, shank=8.0, least_bore=16.0)
    thread = Thread(0.0, -8.0, 9.0, 9.0, 0.92, 1.5, inside=True)
    goal = target(
        (-28.0, 0.0),
        (-28.0 + POINT, 8.0),
        (-20.0, 8.0),
        (-20.0, 9.0 - 0.4, B),
        (-20.0 + 0.4, 9.0),
        (-10.0, 9.0),
        (-10.0, 10.0),
        (-8.0, 10.0),
        (-8.0, 9.0),
        (0.0, 9.0),
        (0.0, 20.0),
        (-50.0, 20.0),
    )
    goal = replace(bushing(), finished=goal.finished, threads=(thread,), tools=(*TOOLS, inner, vee))

    def cut(*, bottom=10.0, deep=9.92):
        pen = bored(drilled(Pen(6))).call(8).rapid(60.0, 7.0)
        pen.rapid(z=-10.0).feed(x=bottom).feed(x=7.0).rapid(z=60.0).call(9).rapid(60.0, 7.0)
        for x in (9.5, deep):
            pen.rapid(z=4.0).rapid(x=x).thread(-8.75, x, 1.5).rapid(x=7.0).rapid(z=4.0)
        return pen.rapid(z=60.0)

    assert codes(judged(cut(), goal)) == []
    assert codes(judged(cut(bottom=10.01), goal)) == ["T201"]
    assert "T301" in codes(judged(cut(bottom=9.9), goal))
    assert codes(judged(cut(deep=9.93), goal)) == ["T404"]
    assert codes(judged(cut(deep=9.9), goal)) == ["T405"]
