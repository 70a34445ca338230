"""Rapids in a bend: the way itself, and what it meets, each on both sides of its limit."""

import itertools
import math
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st
from proof_pen import TARGET, Pen, disc_pocket, move, program

from jawcam.hold.target import Bolt, Vise
from jawcam.proof.dogleg import dogleg, legs
from jawcam.proof.limits import Limits
from jawcam.proof.rapids import rapids
from jawcam.proof.scene import scene_of
from jawcam.proof.times import drive_of
from jawcam.proof.untold import untold
from jawcam.tools.cutter import HolderStep
from jawcam.tools.machine import Machine

WAYS = st.floats(-100, 100).map(lambda v: round(v, 3))
POINTS = st.tuples(WAYS, WAYS, WAYS)


def scene(pen, target, told, control="either"):
    machine = Machine(rapids=told)
    run = replace(program(pen), rapids=control)
    drive = drive_of(machine, target.units)
    return scene_of(run, target, limits=Limits(), drive=drive, others=(), machine=machine)


def graded(pen, target, told, control="either"):
    set_up = scene(pen, target, told, control)
    return [(one.code, one.grade) for check in (rapids, dogleg) for one in check(set_up)]


def test_all_axes_set_off_together_and_arrive_one_after_the_other():
    """Ways of 3, 5 and 8: at 45 degrees in space for 3, in plan for 2 more, straight for 3."""
    bent = legs(move("rapid", (1.0, 2.0, 10.0), (4.0, 7.0, 2.0)))
    assert [leg.start for leg in bent] == [(1.0, 2.0, 10.0), (4.0, 5.0, 7.0), (4.0, 7.0, 5.0)]
    assert bent[-1].end == (4.0, 7.0, 2.0)


def test_a_way_along_one_axis_or_evenly_along_all_does_not_bend():
    for end in ((9.0, 0.0, 0.0), (0.0, 0.0, -9.0), (9.0, -9.0, 0.0), (9.0, 9.0, -9.0)):
        straight = move("rapid", (0.0, 0.0, 0.0), end)
        assert legs(straight) == (straight,)


@given(POINTS, POINTS)
def test_a_bent_way_leads_to_its_end_each_axis_at_the_same_rate_or_at_rest(start, end):
    bent = legs(move("rapid", start, end))
    assert (bent[0].start, bent[-1].end) == (start, end)
    assert all(a.end == b.start for a, b in itertools.pairwise(bent))
    gone = [0.0, 0.0, 0.0]
    for leg in bent:
        ways = [b - a for a, b in zip(leg.start, leg.end, strict=True)]
        steps = {round(abs(way), 6) for way in ways} - {0.0}
        assert len(steps) <= 1
        gone = [was + abs(way) for was, way in zip(gone, ways, strict=True)]
    assert gone == pytest.approx([abs(b - a) for a, b in zip(start, end, strict=True)], abs=1e-6)


def bent_in_pocket(corner):
    """At the first level the cutter's centre may go as far out as 10.85. A rapid from (10, y) to
    (0, 10.84), so that the bend is at (corner, 10.84)."""
    pen = Pen().rapid(3.0, 0.0).rapid(z=10.0).rapid(z=0.5).feed(z=0.0).circle(-3.0, turns=3)
    for radius in (3.0, 6.0, 9.0, 10.85):
        pen.feed(radius, 0.0).circle()
    pen.feed(10.0, 10.84 - (10.0 - corner)).rapid(0.0, 10.84)
    return pen.rapid(z=10.0)


EDGE = math.sqrt(10.85**2 - 10.84**2)
"""Where a bend meets the edge of what is cleared: 0.4656."""


@pytest.mark.parametrize(("off", "code"), [(-0.1, None), (0.1, "P503")])
def test_a_bend_that_leaves_what_is_cleared_goes_through_material(off, code):
    """0.1 farther the corner is (10.84 x 0 + 0.5656 x 0.1) / 10.85 = 0.005 beyond the edge."""
    pen = bent_in_pocket(EDGE + off)
    codes = [found for found, grade in graded(pen, TARGET, "dog-leg") if grade == "stop"]
    assert codes == ([code] if code else [])


def test_how_a_bend_is_told_depends_on_what_is_known_of_the_rapids():
    pen = bent_in_pocket(2.0)
    assert graded(pen, TARGET, "dog-leg") == [("P503", "stop")]
    assert graded(pen, TARGET, None) == [("P502", "warn")]
    assert graded(pen, TARGET, "straight") == []
    assert graded(pen, TARGET, None, "straight") == [], "as this kind of control runs them"
    assert graded(pen, TARGET, None, "dog-leg") == [("P503", "stop")]
    assert graded(pen, TARGET, "dog-leg", "straight") == [("P503", "stop")], "the job knows best"


def test_rates_that_differ_may_bend_a_rapid_elsewhere_within_its_box():
    """From the edge at (10.85, 0) to that at (0, 10.85): the ways are equal, the corner isn't
    cleared."""
    pen = Pen().rapid(3.0, 0.0).rapid(z=10.0).rapid(z=0.5).feed(z=0.0).circle(-3.0, turns=3)
    for radius in (3.0, 6.0, 9.0, 10.85):
        pen.feed(radius, 0.0).circle()
    pen.rapid(0.0, 10.85).rapid(z=10.0)
    assert graded(pen, TARGET, "dog-leg") == [("P502", "warn")]


def test_where_a_bend_meets_material_is_told():
    (finding,) = rapids(scene(bent_in_pocket(2.0), TARGET, "dog-leg"))
    assert finding.z == -3.0
    assert math.hypot(finding.x, finding.y) == pytest.approx(14.85, abs=2e-3)


def over_bolt():
    """After the pocket, at Z 5 from (-20, -6) to (60, 14): straight far from the bolt, but bent it
    runs along Y 14 from X 0 on."""
    return disc_pocket().rapid(-20.0, -6.0).rapid(z=5.0).rapid(60.0, 14.0).rapid(z=10.0)


@pytest.mark.parametrize(("y", "hit"), [(24.01, False), (23.99, True)])
def test_a_bend_past_a_bolt_that_stands_high(y, hit):
    """The bolt's radius is 6, the cutter's 4."""
    target = replace(TARGET, bolts=(Bolt(30.0, y, 12.0, 8.0),))
    assert graded(over_bolt(), target, "dog-leg") == ([("P504", "stop")] if hit else [])
    assert graded(over_bolt(), target, None) == ([("P504", "warn")] if hit else [])
    assert graded(over_bolt(), target, "straight") == []


@pytest.mark.parametrize(("top", "hit"), [(4.99, False), (5.01, True)])
def test_a_bend_over_a_bolt(top, hit):
    target = replace(TARGET, bolts=(Bolt(30.0, 14.0, 12.0, top),))
    assert graded(over_bolt(), target, "dog-leg") == ([("P504", "stop")] if hit else [])


def test_a_bend_takes_the_holder_along():
    """The face of the holder is 5 + 40 high there."""
    wide = replace(TARGET.cutters[0], holder=(HolderStep(60.0, 50.0),))
    for top, hit in ((44.99, False), (45.01, True)):
        target = replace(TARGET, cutters=(wide,), bolts=(Bolt(30.0, 40.0, 12.0, top),))
        found = dogleg(scene(over_bolt(), target, "dog-leg"))
        assert [(one.code, "with its holder" in one.what) for one in found] == [
            ("P504", True)
        ] * hit


def test_a_bend_into_the_vises_own_jaw():
    """Down aslant from Z 10 to behind the jaw: straight it passes over it, bent it is down too
    soon."""
    pen = disc_pocket().rapid(y=-36.0).rapid(y=-95.0, z=0.5).rapid(z=10.0)
    target = replace(TARGET, vise=Vise(4.0, back=30.0))
    assert graded(pen, target, "straight") == []
    assert graded(pen, target, "dog-leg") == [("P504", "stop")]


def test_the_report_says_that_both_ways_are_judged_where_nobody_knows():
    said = "whether rapids bend: they may, and both ways are judged"
    assert said in untold(scene(disc_pocket(), TARGET, None))
    assert said not in untold(scene(disc_pocket(), TARGET, None, "straight"))
    assert said not in untold(scene(disc_pocket(), TARGET, "dog-leg"))
