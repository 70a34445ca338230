"""What lathe tools cut off and how long it takes, against the closed forms of any textbook."""

import math
from dataclasses import replace

import pytest
from axle_pen import axle, whole
from turning_pen import DRILL, TOOLS, Pen, judged, level_passes, program, target

from jawcam.hold.turn_target import Thread
from jawcam.proof.turning.prove import prove_turning
from jawcam.reader.cuts import Change
from jawcam.tools.machine import Machine

GOAL = target((0.0, 0.0), (0.0, 15.0), (-50.0, 15.0))


def tools(pen, goal=GOAL, **options):
    return judged(pen, goal, **options).figures.tools


def test_the_depth_of_cut_and_the_volume_a_minute_of_a_level_pass():
    """From 20 mm radius to 17.5 at 0.2 mm a turn and 1000 turns a minute: pi (20^2 - 17.5^2) 200
    mm3/min."""
    (tool,) = tools(level_passes(Pen(), 17.5, -40.0))
    assert tool.depth.most == pytest.approx(2.5, abs=1e-3)
    assert tool.rate.most == pytest.approx(math.pi * (400 - 17.5**2) * 200, rel=1e-3)
    assert tool.depth.line == tool.rate.line == 3
    assert (tool.rate.x, tool.rate.y) == pytest.approx((35.0, 0.0))
    assert tool.width is None


def test_at_constant_surface_speed_a_face_is_cut_ever_faster():
    """v = 157 m/min at 20 mm radius is 1250 turns a minute; half-way in it is twice as many, over
    half of the way round: the volume a minute stays, 1000 v f depth."""
    pen = Pen().with_state(surface=157.0, clamp=9000.0)
    pen.rapid(3.0, 23.0).rapid(z=0.0).feed(x=5.0).rapid(z=5.0)
    (tool,) = tools(pen)
    assert tool.rate.most == pytest.approx(157e3 * 0.2 * 1.0, rel=0.03)
    assert tool.depth.most == pytest.approx(1.0, abs=1e-3)


def test_a_plunge_is_as_deep_as_the_blade_is_wide():
    pen = Pen(3).rapid(-30.0, 23.0).feed(x=15.0).rapid(x=23.0)
    (tool,) = tools(pen)
    assert tool.depth.most == pytest.approx(3.0, abs=1e-3)
    corners = 2 * 0.2**2 * (1 - math.pi / 4)
    ring = math.pi * (400 - 225) * 3.0
    assert tool.volume == pytest.approx(ring - corners * math.tau * 15.05, rel=1e-4)
    assert tool.air == pytest.approx(3 / 8, abs=0.01), "3 of its 8 mm are outside"


def test_a_drill_cuts_to_its_radius():
    point = 8.0 / math.tan(math.radians(59.0))
    goal = replace(GOAL, tools=(*TOOLS, DRILL))
    (tool,) = tools(Pen(6).rapid(60.0, 0.0).rapid(z=3.0).feed(z=-20.0).rapid(z=60.0), goal)
    assert tool.depth.most == pytest.approx(8.0, abs=1e-3)
    assert tool.rate.most == pytest.approx(math.pi * 64 * 200, rel=1e-3)
    cone = math.pi * 64 * point / 3
    assert tool.volume == pytest.approx(cone + math.pi * 64 * (21.0 - point), rel=1e-4)


def test_the_same_way_again_is_air():
    """41 of 43 mm, then out along the shoulder, which the nose and the leaning edge have left a
    little fuller; once more 43."""
    pen = level_passes(Pen(), 15.0, -40.0, depth=5.0)
    pen.rapid(3.0, 23.0).rapid(x=15.0).feed(z=-40.0).home()
    (tool,) = tools(pen)
    assert tool.air == pytest.approx(1 - (41 + 3) / (43 + 3 + 43), abs=0.02)


def test_what_the_tools_take_makes_up_the_whole():
    figures = judged(whole(), axle()).figures
    assert [tool.tool for tool in figures.tools] == [1, 3, 5]
    assert math.fsum(tool.volume for tool in figures.tools) == pytest.approx(figures.volume)
    assert all(tool.volume > 0 for tool in figures.tools)


def vee(thread, radius, turns):
    """A V of the thread's depth d all along: d^2 tan(half its angle) in section, its centroid d / 3
    below the crest, round `turns` times (Pappus)."""
    half = math.radians(thread.flanks) / 2
    depth = thread.depth
    inwards = radius + depth / 3 if thread.inside else radius - depth / 3
    return depth**2 * math.tan(half) * math.tau * inwards * turns


@pytest.mark.parametrize("starts", [1, 2])
@pytest.mark.parametrize("flanks", [60.0, 55.0])
def test_a_thread_takes_a_groove_s_section_round_and_round(starts, flanks):
    """Over a bar's end, 20 mm long: as many turns as pitches."""
    thread = Thread(1.0, -19.0, 20.0, 20.0, 1.2, 2.5, starts, flanks=flanks)
    cutters = [replace(t, pitch_angle=flanks) if t.number == 5 else t for t in TOOLS]
    goal = replace(GOAL, threads=(thread,), tools=tuple(cutters))
    pen = Pen(5).rapid(20.0, 23.0)
    for start in range(starts):
        for depth in (0.5, 0.9, 1.2):
            pen.rapid(z=6.0 + 2.5 * start).rapid(x=20.0 - depth)
            pen.thread(-19.0, 20.0 - depth, 2.5 * starts)
            pen.rapid(x=23.0)
    figures = judged(pen, goal).figures
    assert figures.volume == pytest.approx(vee(thread, 20.0, 20.0 / 2.5), rel=1e-3)
    assert figures.tools[0].volume == figures.volume
    assert figures.tools[0].depth is None
    assert 0.1 < figures.tools[0].air < 0.3


def test_speeding_up_counts_by_the_machine_s_figures():
    """A straight cut of 46 mm at 200 mm/min between stops: v / a more than its length over v."""
    pen = Pen().rapid(6.0, 18.0).feed(z=-40.0)
    for accel in (100.0, 1000.0):
        figures = judged(pen, GOAL, machine=Machine(accel=accel)).figures
        more = (200 / 60) / accel / 60
        assert figures.feed_minutes == pytest.approx(46 / 200)
        assert figures.ramp_minutes == pytest.approx(more, rel=1e-6)
    assumed = judged(pen, GOAL, machine=Machine(accel=1.0, corner=1.0, tool_change=1.0)).figures
    assert assumed.assumed == ()
    assert len(judged(pen, GOAL).figures.assumed) == 3


def test_a_word_between_two_cuts_is_a_stop_and_a_thread_s_pass_begins_at_rest():
    """200 mm/min: v / a more for each stop on the way; a lead of 0.2 mm is as fast."""
    machine = Machine(accel=20.0, corner=1.0)
    more = (200 / 60) / 20 / 60
    pen = Pen().rapid(6.0, 18.0).feed(z=-20.0).feed(z=-40.0)
    assert judged(pen, GOAL, machine=machine).figures.ramp_minutes == pytest.approx(more)
    whole_ = program(pen)
    stop = Change("coolant", "on", pen.cuts[2].line, 9)
    halted = replace(whole_, changes=(stop, *whole_.changes))
    figures = prove_turning(halted, GOAL, machine=machine).figures
    assert figures.ramp_minutes == pytest.approx(2 * more)
    pen = Pen(5).rapid(6.0, 18.0).feed(z=-20.0).thread(-40.0, 18.0, 0.2)
    assert judged(pen, GOAL, machine=machine).figures.ramp_minutes == pytest.approx(2 * more)


def test_tool_changes_count_too():
    pen = level_passes(Pen(), 15.0, -40.0).call(3).rapid(-30.0, 23.0).feed(x=19.0).home()
    figures = judged(pen, GOAL, machine=Machine(tool_change=6.0)).figures
    assert figures.change_minutes == pytest.approx(0.2)
    assert figures.minutes > figures.feed_minutes + figures.rapid_minutes + 0.2


def test_a_program_without_cuts_has_no_bites():
    report = prove_turning(program(Pen().rapid(60.0, 60.0)), GOAL)
    assert report.figures.tools == () or report.figures.tools[0].depth is None
    assert report.figures.volume == 0
