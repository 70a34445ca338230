"""The lathe's travel, each end on both sides of its limit."""

from dataclasses import replace

import pytest
from axle_pen import axle
from turning_pen import TOOLS, TURN, Pen, judged, program

from jawcam.proof.limits import Limits
from jawcam.proof.times import drive_of
from jawcam.proof.turning.prove import prove_turning
from jawcam.proof.turning.scene import scene_of
from jawcam.proof.turning.travel import travel
from jawcam.proof.turning.untold import unjudged, untold
from jawcam.reader.cuts import Change
from jawcam.tools.machine import Machine, Travel


def with_tip(tip=(0.0, 0.0), **at):
    """The axle, its origin so far up; T1's tip stands off so far, None if nobody knows."""
    return axle(tools=(replace(TURN, tip=tip), *TOOLS[1:]), travel_at=Travel(**at))


def path():
    """X radii 23 down to 15 and out to 60, Z 3 to -20 and back to 50."""
    return Pen().rapid(3.0, 23.0).feed(x=15.0).feed(z=-20.0).rapid(x=60.0).rapid(z=50.0)


def scene(target, machine, pen, **changes):
    drive = drive_of(machine, target.units)
    run = replace(program(pen), **changes)
    return scene_of(run, target, limits=Limits(), drive=drive, machine=machine)


def found(target, goes, pen=None, **changes):
    machine = Machine(lathe_travel=Travel(**goes))
    return [one.code for one in travel(scene(target, machine, pen or path(), **changes))]


@pytest.mark.parametrize(
    ("goes", "at", "code"),
    [
        ({"x": 160.0}, {"x": 40.0}, None),  # 40 + 2 x 60 = 160
        ({"x": 159.99}, {"x": 40.0}, "T801"),
        ({"x": 160.0}, {"x": -29.99}, None),  # -30 + 2 x 15 = 0
        ({"x": 160.0}, {"x": -30.01}, "T801"),
        ({"z": 80.0}, {"z": 30.0}, None),  # 30 + 50 = 80
        ({"z": 79.99}, {"z": 30.0}, "T801"),
        ({"z": 80.0}, {"z": 20.0}, None),  # 20 - 20 = 0
        ({"z": 80.0}, {"z": 19.99}, "T801"),
    ],
)
def test_every_move_must_stay_within_the_travel(goes, at, code):
    assert found(with_tip(**at), goes) == ([code] if code else [])


@pytest.mark.parametrize(("at", "wrong"), [(100.0, False), (100.01, True), (-15.01, True)])
def test_where_the_control_takes_radii_x_counts_by_radius(at, wrong):
    """100 + 60 = 160; -15 + 15 = 0."""
    assert found(with_tip(), {"x": 160.0}, x="length") == []
    target = with_tip(x=at)
    assert bool(found(target, {"x": 160.0}, x="length")) == wrong


@pytest.mark.parametrize(("tip", "wrong"), [(10.0, False), (9.99, True)])
def test_a_tip_that_stands_out_farther_lets_the_slide_stay_behind(tip, wrong):
    """By diameter: 50 + 120 - 10 = 160."""
    target = with_tip((tip, 0.0), x=50.0)
    assert bool(found(target, {"x": 160.0})) == wrong


@pytest.mark.parametrize(("goes", "wrong"), [(90.0, False), (89.99, True)])
def test_moves_must_not_span_more_than_x_goes_where_no_origin_is_told(goes, wrong):
    """2 x 60 - 2 x 15 = 90."""
    assert found(with_tip(), {"x": goes}) == (["T802"] if wrong else [])
    unknown = with_tip(None, x=1000.0)
    assert found(unknown, {"x": goes}) == (["T802"] if wrong else []), "the origin alone won't do"


def test_tools_of_unknown_tips_are_judged_each_by_itself():
    """T1 spans 70 in Z, T2 another 70 elsewhere."""
    pen = path().call(2).rapid(3.0, 60.0).rapid(z=73.0).rapid(x=50.0)
    assert found(with_tip(None), {"z": 70.0}, pen) == []
    both = (replace(TURN, tip=(0.0, 0.0)), replace(TOOLS[1], tip=(0.0, 0.0)), *TOOLS[2:])
    assert found(axle(tools=both), {"z": 70.0}, pen) == ["T802"]


def test_an_approach_from_a_place_not_told_counts_by_its_end():
    pen = Pen().rapid(3.0, 200.0)
    assert found(with_tip(), {"x": 160.0}, pen) == []
    target = with_tip(x=0.0)
    assert found(target, {"x": 160.0}, pen) == ["T801"]


def test_the_next_tool_starts_where_the_slide_stands_by_the_last_one():
    """T1 is changed at X 2 x 60; the tip of T2 is then 40 nearer to the axis, so that its first
    cut starts where the reader, which knows no tips, doesn't have it."""
    tools = (replace(TURN, tip=(0.0, 0.0)), replace(TOOLS[1], tip=(-40.0, 0.0)), *TOOLS[2:])
    pen = path()
    pen.line += 1
    pen.changes.append(Change("tool", "2", pen.line, 1))
    pen.tool = 2  # from where the first one stands
    pen.rapid(x=23.0)
    target = axle(tools=tools, travel_at=Travel(x=0.0))
    assert found(target, {"x": 120.0}, pen) == []


def test_a_move_beyond_is_told_with_how_far_and_how_to_mend_it():
    target = with_tip(x=50.0)
    machine = Machine(lathe_travel=Travel(x=160.0))
    (one,) = travel(scene(target, machine, path()))
    assert one.what == (
        "X, by diameter, goes 10 mm beyond the upper end of its travel of 160 mm; so does line 5"
    )
    assert (one.line, one.x, one.z) == (4, 120.0, -20.0)
    assert one.amount == pytest.approx(10.0)
    assert one.mend == "retract less far in X, or change the tool nearer to the work"


@pytest.mark.parametrize(("value", "code"), [("-160", None), ("-160.5", "T803"), ("161", "T803")])
def test_a_place_in_machine_coordinates_is_no_farther_from_their_zero_than_the_axis_goes(
    value, code
):
    pen = path()
    pen.changes.append(Change("machine", f"G53 X{value}", pen.line + 1, 1))
    assert found(with_tip(), {"x": 160.0}, pen) == ([code] if code else [])
    pen.changes[-1] = Change("machine", f"G28 X{value}", pen.line + 1, 1)
    assert found(with_tip(), {"x": 160.0}, pen) == [], "the place on the way counts elsewhere"


def test_the_report_says_what_is_not_told():
    said = scene(with_tip(None), Machine(), path())
    assert "the travel of X, Z" in unjudged(said)
    assert "the blocks that hold T1" in unjudged(said)
    assert "holders of T1: as wide as their shanks all along" in untold(said)
    assert "whether rapids bend: they may, and both ways are judged" in untold(said)
    said = scene(with_tip(None), Machine(lathe_travel=Travel(x=500.0)), path())
    assert "the travel of Z" in unjudged(said)
    assert "where the origin stands in X: only the span of the moves is judged" in untold(said)
    assert "how far the tips of T1 stand off: only the span of each is judged" in untold(said)
    tools = (replace(TURN, tip=(0.0, 0.0), overhang=40.0), *TOOLS[1:])
    whole = axle(tools=tools, travel_at=Travel(x=30.0, z=80.0))
    machine = Machine(lathe_travel=Travel(x=500.0, z=500.0), rapids="straight")
    report = prove_turning(program(path()), whole, machine=machine)
    assert report.figures.unjudged == ()
    assert not any("travel" in words or "span" in words for words in report.figures.untold)


def test_without_a_travel_nothing_is_found():
    assert not [f for f in judged(path(), axle()).findings if f.code.startswith("T8")]
