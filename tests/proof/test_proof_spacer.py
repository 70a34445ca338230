"""The spacer in the gap, each side of its limits: the gap is 6 mm wide, from Y -3 to 3."""

import math
from dataclasses import replace

import pytest
from proof_pen import MILL, TARGET, Pen, disc_pocket, program

from jawcam.hold.target import Spacer
from jawcam.proof.bodies import STEPS, cutting
from jawcam.proof.dogleg import dogleg
from jawcam.proof.limits import Limits
from jawcam.proof.obstacles import obstacles
from jawcam.proof.scene import scene_of
from jawcam.proof.shank import shanks
from jawcam.proof.times import drive_of
from jawcam.proof.untold import untold
from jawcam.tools.cutter import Cutter, HolderStep
from jawcam.tools.machine import Machine

SLIM = replace(MILL, dia=5.0)
DRILL = Cutter(3, "drill", 5.0, angle=90.0)


def scene(pen, spacers, cutter=SLIM, machine=None):
    target = replace(TARGET, cutters=(cutter,), spacers=tuple(spacers))
    machine = machine or Machine()
    drive = drive_of(machine, target.units)
    return scene_of(program(pen), target, limits=Limits(), drive=drive, others=(), machine=machine)


def told(pen, *spacers, check=obstacles, **options):
    return [(f.code, f.grade) for f in check(scene(pen, spacers, **options))]


def along(y=0.0, z=-1.0):
    """Down outside the blanks, and through the gap."""
    return Pen().rapid(60.0, y).rapid(z=10.0).rapid(z=z).rapid(x=-60.0).rapid(z=10.0)


@pytest.mark.parametrize(
    ("top", "graded"),
    [
        (-2.01, []),
        (-1.99, [("P710", "warn")]),
        (-1.01, [("P710", "warn")]),
        (-0.99, [("P709", "stop")]),
    ],
)
def test_a_cutter_over_it(top, graded):
    """At Z -1, at rapid; 1 mm is kept."""
    assert told(along(), Spacer(top)) == graded


@pytest.mark.parametrize(("end", "graded"), [(-64.51, []), (-63.49, ["P710"]), (-62.49, ["P709"])])
def test_a_cutter_beside_its_end(end, graded):
    """The path ends at X -60, the cutter's rim at -62.5."""
    assert [code for code, _ in told(along(), Spacer(0.0, (-70.0, end)))] == graded


@pytest.mark.parametrize(("y", "graded"), [(6.51, []), (6.49, ["P710"]), (5.49, ["P709"])])
def test_it_is_as_wide_as_the_gap(y, graded):
    """3 of the gap, 2.5 of the cutter and 1 that is kept."""
    assert [code for code, _ in told(along(y), Spacer(0.0))] == graded


def test_where_its_length_is_not_told_it_is_longer_than_the_jaws():
    pen = Pen().rapid(300.0, 0.0).rapid(z=10.0).rapid(z=-1.0).rapid(z=10.0)
    assert told(pen, Spacer(-0.5)) == [("P709", "stop")]
    assert told(pen, Spacer(-0.5, (-40.0, 40.0))) == []


def test_each_of_several_is_told_by_its_number_with_place_and_depth():
    first, second = Spacer(-0.5, (20.0, 30.0)), Spacer(-0.25, (-30.0, -20.0))
    found = obstacles(scene(along(), (first, second)))
    assert [(f.what, f.amount) for f in found] == [
        ("T3 goes at rapid 0.5 mm into spacer 1", pytest.approx(-0.5)),
        ("T3 goes at rapid 0.75 mm into spacer 2", pytest.approx(-0.75)),
    ]
    assert (found[0].x, found[0].y, found[0].z) == pytest.approx((30.0, 0.0, -0.5))
    assert (found[1].x, found[1].y, found[1].z) == pytest.approx((-20.0, 0.0, -0.25))
    (only,) = obstacles(scene(along(), (first,)))
    assert only.what == "T3 goes at rapid 0.5 mm into the spacer"


@pytest.mark.parametrize(("y", "hits"), [(3.0, True), (4.6, True), (4.9, True), (5.25, False)])
def test_a_drill_s_point_passes_where_its_full_diameter_would_not(y, hits):
    """With a point of 90 degrees 2 mm below the spacer's top it is 2 mm in radius there, so that it
    goes past from Y 5 on; its steps are a sixteenth of its radius wide."""
    pen = Pen().rapid(30.0, y).rapid(z=10.0).feed(z=-4.0).rapid(z=10.0)
    codes = [code for code, _ in told(pen, Spacer(-2.0), cutter=DRILL)]
    assert ("P709" in codes) == hits


def test_the_steps_of_a_point_lie_round_it():
    steps = cutting(DRILL)
    assert len(steps) == STEPS
    assert [step.radius for step in steps][-1] == 2.5
    assert all(step.height <= step.radius for step in steps)
    assert max(step.radius - step.height for step in steps) == pytest.approx(2.5 / STEPS)
    ball = cutting(replace(SLIM, kind="ball end mill"))
    for step in ball:
        round_ = math.sqrt(max(2.5**2 - (2.5 - step.height) ** 2, 0.0))
        assert step.radius >= round_ - 1e-9
    assert [(step.radius, step.height) for step in cutting(SLIM)] == [(2.5, 0.0)]


def test_a_shank_and_a_holder_over_it():
    """The pocket of 6 mm is cut beside it, where it stands up to the jaw top."""
    thick = replace(MILL, flute_len=5.0, shank=12.0)
    beside = Spacer(0.0, (15.1, 40.0))
    found = shanks(scene(disc_pocket(), (beside,), cutter=thick))
    assert ("P803", "the shank of T3 goes 1 mm into the spacer") in [
        (f.code, f.what) for f in found
    ]
    held = replace(MILL, stickout=5.5, holder=(HolderStep(20.0, 60.0),))
    found = shanks(scene(disc_pocket(), (beside,), cutter=held))
    assert ("P804", "the holder of T3 goes 0.5 mm into the spacer") in [
        (f.code, f.what) for f in found
    ]


def test_a_rapid_that_bends_into_it():
    """From X 20, Y 20 to X 60, Y 5: straight it is at Y 12.5 or more as long as the spacer lasts,
    bent it is at Y 5, 0.5 in it, from X 35 on."""
    pen = Pen().rapid(20.0, 20.0).rapid(z=10.0).rapid(z=-1.0).rapid(60.0, 5.0).rapid(z=10.0)
    end = Spacer(0.0, (34.0, 40.0))
    assert told(pen, end) == []
    machine = Machine(rapids="dog-leg")
    assert told(pen, end, check=dogleg, machine=machine) == [("P504", "stop")]


def test_what_is_not_told_of_it_is_named():
    def said(*spacers):
        return [words for words in untold(scene(along(), spacers)) if "spacer" in words]

    assert said() == ["the spacer in the gap: lower than any cut"]
    assert said(Spacer(-12.0)) == ["how long the spacer is: longer than the jaws"]
    assert said(Spacer(-12.0, (-60.0, -40.0))) == []
    two = (Spacer(-12.0, (-60.0, -40.0)), Spacer(-12.0))
    assert said(*two) == ["how long spacer 2 is: longer than the jaws"]
    shut = replace(TARGET, blanks=replace(TARGET.blanks, gap=0.0))
    closed = replace(scene(along(), ()), target=shut)
    assert not any("spacer" in words for words in untold(closed)), "without a gap there is none"
