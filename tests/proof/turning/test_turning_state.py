"""The state in which a lathe cuts, and how its programs begin and end."""

from dataclasses import replace

import pytest
from axle_pen import axle, shape, whole
from turning_pen import (
    Pen,
    codes,
    found,
    judged,
    program,
)

from jawcam.proof.limits import Limits
from jawcam.proof.times import drive_of
from jawcam.proof.turning.prove import MOST, prove_turning
from jawcam.proof.turning.scene import scene_of
from jawcam.proof.turning.state import state
from jawcam.reader.cuts import Change
from jawcam.tools.machine import Machine


def test_a_clamp_left_out_and_speeds_too_high():
    css = {"surface": 180.0, "rpm": 0.0}
    pen = shape(Pen().with_state(**css))
    report = judged(pen, axle())
    assert [c for c in found(report) if c[0] == "T115"] == [("T115", 1)]
    pen = shape(Pen().with_state(**css, clamp=3000.0))
    assert [c for c in found(judged(pen, axle())) if c[0] == "T116"] == [("T116", 1)]
    pen = shape(Pen().with_state(rpm=2600.0))
    assert [c for c in found(judged(pen, axle())) if c[0] == "T117"] == [("T117", 1)]


def test_a_clamp_told_after_constant_surface_speed():
    pen = whole()
    surface, clamp = Change("spindle", "cw 180 m/min", 0, 4), Change("clamp", "2000", 0, 9)
    whole_ = program(pen)
    late = replace(whole_, changes=(surface, clamp, *whole_.changes))
    assert codes(prove_turning(late, axle())) == ["T115"]
    early = replace(whole_, changes=(clamp._replace(column=2), surface, *whole_.changes))
    assert codes(prove_turning(early, axle())) == []


def test_a_clamp_that_is_not_told_again_after_a_tool_change():
    """Some controls forget it there; the first surface speed of each tool is named."""
    pen = whole()
    lines = [c.line for c in pen.changes if c.kind == "tool"]
    surface = [Change("spindle", "cw 180 m/min", line, col) for line in lines for col in (4, 6)]
    once = [Change("clamp", "2000", lines[0], 3)]
    again = [Change("clamp", "2000", line, 3) for line in lines]
    whole_ = program(pen)
    report = prove_turning(replace(whole_, changes=(*once, *surface, *whole_.changes)), axle())
    assert [(f.code, f.grade, f.line) for f in report.findings] == [
        ("T115", "warn", line) for line in lines[1:]
    ]
    report = prove_turning(replace(whole_, changes=(*again, *surface, *whole_.changes)), axle())
    assert report.findings == ()


@pytest.mark.parametrize(
    ("change", "code"),
    [
        ({"spindle": "off", "per_turn": False}, "T101"),
        ({"rpm": 0.0, "per_turn": False}, "T101"),
        ({"spindle": "off"}, "T108"),
        ({"feed": 0.0}, "T102"),
        ({"spindle": "ccw"}, "T105"),
        ({"plane": "XY", "kind": "arc"}, "T113"),
        ({"tool": 0}, "T103"),
        ({"tool": 19}, "T104"),
        ({"length_offset": 0}, "T121"),
        ({"length_offset": 4}, "T122"),
        ({"work_offset": 2}, "T110"),
        ({"start": (float("nan"), 0.0, 1.0)}, "T111"),
    ],
)
def test_the_state_of_a_cut(change, code):
    pen = whole()
    line = next(c.line for c in pen.cuts if c.kind == "line")
    cuts = tuple(c._replace(**change) if c.line == line else c for c in pen.cuts)
    assert (code, line) in found(prove_turning(replace(program(pen), cuts=cuts), axle()))


def set_up(program, goal):
    drive = drive_of(Machine(), goal.units)
    return scene_of(program, goal, limits=Limits(), drive=drive, machine=Machine())


def test_the_job_says_which_way_the_spindle_turns_for_a_tool():
    """A left-hand tool too wants M3 unless the job has it upside down."""
    pen = whole()
    back = tuple(c._replace(spindle="ccw") for c in pen.cuts)
    other = replace(program(pen), cuts=back)
    for hand in ("right", "left", "neutral"):
        up = tuple(replace(tool, hand=hand) for tool in axle().tools)
        down = tuple(replace(tool, turns="counter-clockwise") for tool in up)
        for tools, right, wrong in ((up, program(pen), other), (down, other, program(pen))):
            goal = axle(tools=tools)
            assert "T105" not in {finding.code for finding in state(set_up(right, goal))}
            told = [(finding.code, finding.line) for finding in state(set_up(wrong, goal))]
            against = [c for c in told if c[0] == "T105"]
            # all the feeds of the program are one stretch
            assert against == [("T105", next(c.line for c in pen.cuts if c.kind == "line"))]


def test_compensation_by_the_control_is_noted():
    pen = Pen()
    pen.side = "right"
    pen.rapid(3.0, 23.0).feed(x=21.0).home()
    assert any(f.code == "T114" for f in judged(pen, axle()).findings)


def test_beginnings_and_ends():
    pen = whole()
    report = prove_turning(program(pen, ended=False), axle())
    assert codes(report) == ["T107"]
    on = tuple(c for c in program(pen).changes if c.kind != "spindle")
    left_on = prove_turning(
        program(pen, changes=(*on, Change("spindle", "cw 800", 900, 1))), axle()
    )
    assert [f.code for f in left_on.findings] == ["T120"]
    near = Pen().rapid(0.5, 21.0)
    assert found(judged(near, axle()))[:2] == [("T112", 1), ("T109", 1)]
    within = Pen().rapid(-5.0, 15.0)
    (first, *_) = judged(within, axle()).findings
    assert (first.code, first.grade) == ("T112", "stop")


def test_moves_in_machine_coordinates():
    pen = Pen().rapid(3.0, 23.0).feed(x=19.0).feed(z=0.5)
    machine = Change("machine", "X0 Z0", 4, 1)
    report = prove_turning(program(pen, changes=(machine, Change("end", "M30", 5, 1))), axle())
    assert "T119" in codes(report)
    assert "T109" not in codes(report)
    machine = Change("machine", "X0", 4, 1)
    report = prove_turning(program(pen, changes=(machine, Change("end", "M30", 5, 1))), axle())
    assert not {"T119", "T109"} & set(codes(report))


def test_many_of_one_kind_are_counted():
    pen = Pen().rapid(3.0, 23.0)
    for k in range(14):
        pen.rapid(z=-2.0 * k).rapid(x=18.0).rapid(x=23.0)
    hits = [f for f in judged(pen.home(), axle()).findings if f.code == "T501"]
    assert len(hits) == MOST
    assert hits[-1].what.endswith("more like this)")
    assert hits[0].source == f"block {hits[0].line}"
