"""What is found when one thing in a right program is wrong."""

from dataclasses import replace

import pytest
from axle_pen import axle, groove, shape, whole
from hypothesis import given, settings
from hypothesis import strategies as st
from turning_pen import (
    CNMG,
    FRONT,
    REAR,
    STOCK_RADIUS,
    TOOLS,
    TURN,
    Pen,
    box,
    codes,
    face,
    found,
    judged,
    level_passes,
    target,
)

from jawcam.hold.turn_target import TurnLeft
from jawcam.tools.machine import Machine


def test_the_right_program_is_proven():
    report = judged(whole(), axle())
    assert found(report) == []
    assert report.ok
    assert report.figures.gouge <= 0.0005


def test_a_nose_radius_wrong_by_0_4():
    other = replace(TURN, insert=replace(CNMG, radius=0.4))
    report = judged(whole(), axle(tools=(other, *TOOLS[1:])))
    assert "T201" in codes(report)  # the chamfer's path, and the shoulder's fillet
    gouge = max(f.amount for f in report.findings if f.code == "T201")
    assert gouge == pytest.approx(0.4 * (2**0.5 - 1), abs=1e-3)


def test_a_larger_nose_leaves_the_chamfer_thick():
    other = replace(TURN, insert=replace(CNMG, radius=1.2))
    report = judged(whole(), axle(tools=(other, *TOOLS[1:])))
    left = [f.amount for f in report.findings if f.code == "T301"]
    assert max(left) == pytest.approx(0.4 * (2**0.5 - 1), abs=2e-3)


def test_a_pass_0_01_too_deep():
    report = judged(whole(off=-0.01), axle())
    (gouge,) = [f for f in report.findings if f.code == "T201"]
    assert gouge.amount == pytest.approx(0.01, abs=1e-4)
    assert gouge.x == pytest.approx(2 * 9.99, abs=1e-3)
    assert gouge.line == next(
        c.line for c in whole(off=-0.01).cuts if c.kind == "line" and c.end[0] == 9.99
    )


@settings(max_examples=15)
@given(st.floats(0.0025, 1.5))
def test_a_gouge_is_as_deep_as_the_cylinder_is_too_thin(off):
    report = judged(groove(shape(Pen(), off=-off)), axle(threads=()))
    assert report.figures.gouge == pytest.approx(off, abs=1e-4)
    assert "T201" in codes(report)


def test_a_chamfer_left_out():
    report = judged(whole(chamfer=False), axle())
    (left,) = [f for f in report.findings if f.code == "T301"]
    assert (left.z, left.x) == pytest.approx(
        (-0.439, 2 * 9.561), abs=0.01
    )  # the triangle's incircle
    assert codes(report) == ["T301"]


def test_what_the_job_foretold_only_warns():
    pen = whole(chamfer=False)
    foretold = TurnLeft(-0.439, 9.561, 0.88, "left to the file")
    report = judged(pen, axle(left=(foretold,)))
    (left,) = [f for f in report.findings if f.code == "T302"]
    assert report.ok
    assert left.what.endswith("left to the file")
    assert report.figures.left_over == left.amount
    small = replace(foretold, size=0.5)
    assert codes(judged(pen, axle(left=(small,)))) == ["T301"]


def test_the_fillet_at_the_limit_is_only_noted():
    # behind the limit the bar is thicker than the part, which the other end's setup will turn
    goal = target((0.0, 0.0), (0.0, 15.0), (-50.0, 15.0))
    part = replace(goal, finished=box(-70.0, 0.0, 0.0, 15.0))
    report = judged(level_passes(face(Pen()), 15.0, -50.0), part)
    assert [f.code for f in report.findings] == ["T303"]
    assert codes(judged(level_passes(face(Pen()), 15.0, -50.0), goal)) == ["T301"]
    assert codes(judged(level_passes(face(Pen()), 15.0, -49.5), part)) == ["T301"]


def test_a_groove_too_narrow():
    report = judged(whole(high=-21.1), axle())
    assert codes(report) == ["T301"]
    (left,) = [f for f in report.findings if f.code == "T301"]
    assert left.amount == pytest.approx(0.1, abs=0.05)


def test_a_groove_out_of_place():
    assert codes(judged(whole(low=-22.05), axle())) == ["T201"]


def test_a_rapid_across_the_shoulder():
    pen = shape(Pen())
    pen.rapid(3.0, 10.0 + 1.0).rapid(z=-21.0).rapid(-39.0, 15.5).home()
    report = judged(pen, axle())
    (hit,) = [f for f in report.findings if f.code == "T501"]
    assert hit.line == pen.cuts[-3].line
    assert hit.z == pytest.approx(-22.0, abs=0.05)


def test_a_rapid_into_the_stock():
    pen = Pen().rapid(3.0, 23.0).rapid(-10.0, 18.0)
    report = judged(pen.home(), axle())
    assert ("T501", 2) in found(report)


def test_a_rapid_that_bends_into_the_stock():
    # in step it passes the bar's corner 3 mm off, one axis after the other it doesn't
    pen = Pen().rapid(3.0, 16.0).rapid(-1.0, 30.0).home()
    assert ("T502", 2) in found(judged(pen, axle()))
    for told, grades in (("straight", []), ("dog-leg", ["stop"]), (None, ["warn"])):
        report = judged(pen, axle(), machine=Machine(rapids=told))
        assert [f.grade for f in report.findings if f.code == "T502"] == grades
    pen = Pen().rapid(3.0, 16.0).rapid(3.0, 30.0).rapid(z=-1.0).home()
    assert {"T501", "T502"} & set(codes(judged(pen, axle()))) == set()


def test_a_tool_in_the_jaw_and_behind_the_limit():
    pen = level_passes(face(Pen()), 19.0, -56.0)
    report = judged(pen, axle())
    assert {"T204", "T601"} <= set(codes(report))
    assert any(f.code == "T601" and f.z == pytest.approx(-55.0, abs=0.1) for f in report.findings)


def test_an_edge_in_a_wall_that_is_too_steep():
    # a valley whose far wall falls at 30 degrees, cut by a tool whose trailing edge rises by 5
    goal = target((0.0, 0.0), (0.0, 15.0), (-10.0, 15.0), (-20.0, 9.226), (-30.0, 9.226))
    pen = level_passes(face(Pen()), 15.0, -49.0)
    pen.rapid(-9.5, 23.0).feed(x=14.8).feed(-20.0, 9.226 + 0.4).feed(z=-30.0).feed(x=23.0).home()
    report = judged(pen, goal)
    assert "T202" in codes(report)


def test_a_holder_in_the_work():
    # a groove deeper than the blade reaches
    goal = target((0.0, 0.0), (0.0, 20.0), (-20.0, 20.0), (-20.0, 8.0), (-23.0, 8.0), (-23.0, 20.0))
    pen = Pen(3)
    pen.rapid(-23.0, 23.0).feed(x=8.0).rapid(x=23.0).home()
    assert "T602" in codes(judged(pen, goal))


def test_a_tool_that_cuts_on_its_way_back():
    goal = target((0.0, 0.0), (0.0, 15.0), (-50.0, 15.0))
    pen = Pen().rapid(-30.0, 25.0).feed(x=19.0).feed(z=3.0).home()
    report = judged(pen, goal)
    assert ("T603", 3) in found(report)


def parted_target():
    """A pin of 15 mm radius, 30 mm long, parted off a bar."""
    return replace(
        target((0.0, 0.0), (0.0, 15.0), (-30.0, 15.0)),
        finished=box(-30.0, 0.0, 0.0, 15.0),
        stock=box(REAR, FRONT, 0.0, STOCK_RADIUS),
        limit=-50.0,
        parted=-30.0,
    )


def part_off(x, z=-33.0):
    pen = level_passes(face(Pen()), 15.0, -35.0)
    pen.call(4).rapid(z, 23.0).feed(x=x).rapid(x=23.0)
    return pen.home()


def test_a_part_parted_off_is_proven():
    assert found(judged(part_off(-0.2), parted_target())) == []


def test_a_part_that_hangs_on_the_bar():
    report = judged(part_off(1.0), parted_target())
    (hangs,) = [f for f in report.findings if f.code == "T701"]
    assert hangs.amount == pytest.approx(2.0, abs=0.1)


def test_a_part_too_long():
    report = judged(part_off(-0.2, z=-33.1), parted_target())
    (long,) = [f for f in report.findings if f.code == "T702"]
    assert long.amount == pytest.approx(0.1, abs=1e-3)
    assert codes(judged(part_off(-0.2, z=-32.9), parted_target())) == ["T201"]
