"""Shanks and holders against the blanks, bolts and the vise, each on both sides of its limit.

The stepped pocket is round: of the radius 20 down to Z -3, of 12 down to Z -8. The centre of a mill
of 8 mm runs at the radius 8 round its lower wall, at 16 round the upper one.
"""

import math
from dataclasses import replace

import pytest
from proof_pen import MILL, TARGET, Pen, disc_pocket, found, judged, program, ring_out

from jawcam.hold.target import Bolt, Level, Vise
from jawcam.proof.limits import Limits
from jawcam.proof.needs import needs
from jawcam.proof.obstacles import obstacles
from jawcam.proof.reach import reach
from jawcam.proof.scene import scene_of
from jawcam.proof.shank import shanks
from jawcam.proof.times import drive_of
from jawcam.proof.untold import unjudged, untold
from jawcam.tools.cutter import HolderStep
from jawcam.tools.machine import Machine

STICK_OUT_KEEP = Limits().holder


def disc(radius):
    return ((radius, 0.0, 1.0), (-radius, 0.0, 1.0))


STEPPED = replace(
    TARGET,
    grip=0.0,
    levels=(Level(0.0, -3.0, (disc(20.0), disc(12.0))), Level(-3.0, -8.0, (disc(12.0),))),
)


def with_tool(target=TARGET, **told):
    return replace(target, cutters=(replace(MILL, **told),))


def stepped_pocket(pen=None, deep=8.0):
    """From the top down, all that is cut at one height before the next: bites of 2.5 or 3 mm."""
    pen = pen or Pen()
    pen.rapid(3.0, 0.0).rapid(z=10.0).rapid(z=0.5).feed(z=0.0)
    pen.circle(-3.0, turns=3)
    ring_out(pen, 16.0, -3.0)
    for z in (-5.5, -8.0):
        pen.feed(3.0, 0.0).circle(z, turns=3)
        ring_out(pen, deep, z)
    return pen.feed(x=3.0).rapid(z=10.0)


def scene(pen, target):
    drive = drive_of(Machine(), target.units)
    return scene_of(program(pen), target, limits=Limits(), drive=drive, others=())


def told(pen, target, *checks):
    """What some checks find, by themselves."""
    set_up = scene(pen, target)
    return [finding for check in checks or (reach, shanks, obstacles) for finding in check(set_up)]


def codes(pen, target, *checks):
    return [finding.code for finding in told(pen, target, *checks)]


def need(pen, target):
    (one,) = needs(scene(pen, target))
    return one


def holder(*steps):
    return tuple(HolderStep(dia, length) for dia, length in steps)


@pytest.mark.parametrize(("flutes", "rubs"), [(5.998, True), (6.0, False)])
def test_a_shank_as_thick_as_the_cutter_rubs_on_the_wall_below_the_jaw_top(flutes, rubs):
    target = with_tool(flute_len=flutes, shank=8.0)
    report = judged(disc_pocket(), target)
    assert {code for code, _ in found(report)} == ({"P803"} if rubs else set())
    for finding in report.findings:
        assert finding.what == (
            "the shank of T3 (dia 8 mm) rubs on the blanks: its flutes are 0.002 mm too short"
        )
        assert finding.amount == pytest.approx(0.002)
    assert report.figures.needs[0].flutes == pytest.approx(6.0)


@pytest.mark.parametrize(
    ("shank", "least"),
    [(7.0, 3.0), (8.0, 5.0), (12.0, 5.0), (23.9, 5.0), (24.0, 8.0), (30.0, 8.0)],
)
def test_how_long_flutes_must_be_follows_from_what_the_shank_meets(shank, least):
    """Thinner than the cutter it meets nothing, and the flutes are as long as the thickest bite;
    else it meets the lower wall or the shelf 5 above the tip, from the radius 12 on the upper wall,
    8 above it."""
    pen = stepped_pocket()
    assert need(pen, with_tool(STEPPED, shank=shank)).flutes == pytest.approx(least, abs=1e-6)
    for length in (least - 0.002, least):
        findings = told(pen, with_tool(STEPPED, shank=shank, flute_len=length))
        code = {"P801" if shank < 8 else "P803"} if length < least else set()
        assert {finding.code for finding in findings} == code, (shank, length)
        assert all(finding.grade == "stop" for finding in findings)


@pytest.mark.parametrize(("radius", "least"), [(10.9, 5.0), (11.1, 8.0)])
def test_how_far_a_tool_must_stand_out_follows_from_what_its_holder_meets(radius, least):
    """With 1 mm to spare: the shelf at Z -3, or from the radius 20 - 8 - 1 on the upper wall."""
    pen, keep = stepped_pocket(), STICK_OUT_KEEP
    target = with_tool(STEPPED, holder=holder((2 * radius, 40.0)), shank=7.0)
    out = need(pen, target).stickout
    assert out == pytest.approx(least + keep, abs=1e-6)
    low = {"P804"} if radius == 10.9 else {"P805"}  # the wall is 0.9 away: near, not met
    rows = [(out, set()), (out - 0.01, {"P805"}), (out - keep - 0.01, low)]
    for length, expected in rows:
        target = with_tool(STEPPED, holder=holder((2 * radius, 40.0)), stickout=length, shank=7.0)
        assert set(codes(pen, target)) == expected, length


def test_a_holder_that_hits_is_told_where_it_first_does_and_how_to_mend_it():
    """To a sixteenth of a turn of the helix that takes it below the jaw top."""
    target = with_tool(holder=holder((30.0, 40.0)), stickout=5.0, shank=7.0, flute_len=6.0)
    (finding,) = judged(disc_pocket(), target).findings
    assert (finding.code, finding.grade) == ("P804", "stop")
    assert (finding.what, finding.mend) == (
        "the holder of T3 (dia 30 mm) runs into the blanks: it stands out 2 mm too little",
        "let it stand out 7 mm at least, or take a slimmer holder",
    )
    assert finding.amount == pytest.approx(2.0)
    assert finding.z == pytest.approx(-1 / 16)
    assert math.hypot(finding.x, finding.y) == pytest.approx(10.85 + 4.0, abs=1e-3)


def test_the_wider_steps_of_a_holder_count_by_how_high_they_begin():
    """A slim nose of 5 mm length below a flange: the flange must stay 1 above the jaw top."""
    nose = with_tool(holder=holder((8.5, 5.0), (60.0, 30.0)))
    assert need(disc_pocket(), nose).stickout == pytest.approx(7.0), "the nose touches the wall"
    slim = with_tool(STEPPED, holder=holder((8.5, 2.0), (60.0, 30.0)), shank=7.0)
    assert need(stepped_pocket(), slim).stickout == pytest.approx(8.0 + 1.0 - 2.0)


def test_what_is_cut_later_stands_in_the_holders_way_too():
    """Bored to the seat before the level above is opened: the same pocket in the end."""
    early = Pen().rapid(3.0, 0.0).rapid(z=10.0).rapid(z=0.5).feed(z=0.0)
    early.circle(-8.0, turns=8)
    ring_out(early, 8.0, -8.0)
    early.feed(x=3.0).feed(z=0.5)
    pen = stepped_pocket(pen=early)
    target = with_tool(STEPPED, holder=holder((21.8, 40.0)), shank=7.0)
    assert need(stepped_pocket(), target).stickout == pytest.approx(6.0)
    assert need(pen, target).stickout == pytest.approx(9.0)


def test_a_thin_shank_lets_a_bite_be_no_thicker_than_the_flutes():
    """The wall in one go, 6 deep, with what the rings leave before it."""
    for flutes, stops in ((5.998, True), (6.0, False)):
        target = with_tool(flute_len=flutes, shank=7.0)
        findings = told(disc_pocket(rings=(3.0, 6.0, 9.0, 10.5)), target)
        graded = [(finding.code, finding.grade) for finding in findings]
        assert graded == ([("P801", "stop")] if stops else []), flutes


BOLT_AT = 30.0
SIDE = BOLT_AT - 6.0 - 11.05
"""How far the tool's centre keeps off the bolt's side when it cuts the wall."""


@pytest.mark.parametrize(
    ("off", "graded"),
    [
        (1.01, []),
        (0.99, [("P805", "warn")]),
        (0.01, [("P805", "warn")]),
        (-0.01, [("P804", "stop")]),
    ],
)
def test_a_holder_beside_a_bolt_that_stands_higher_than_its_face(off, graded):
    """The holder's face is 4 above the jaw top at the seat, the bolt's top 8."""
    target = with_tool(holder=holder((2 * (SIDE - off), 40.0)), stickout=10.0)
    target = replace(target, bolts=(Bolt(BOLT_AT, 0.0, 12.0, 8.0),))
    findings = told(disc_pocket(), target)
    assert [(finding.code, finding.grade) for finding in findings] == graded


@pytest.mark.parametrize(
    ("out", "expected"),
    [(15.0, []), (14.99, ["P805"]), (14.01, ["P805"]), (13.99, ["P804"])],
)
def test_a_holder_above_a_bolt(out, expected):
    """The bolt's top is 14 above the seat; the least that is kept is 1."""
    target = with_tool(holder=holder((60.0, 40.0)), stickout=out)
    target = replace(target, bolts=(Bolt(BOLT_AT, 0.0, 12.0, 8.0),))
    assert codes(disc_pocket(), target) == expected
    assert need(disc_pocket(), target).stickout == pytest.approx(15.0)


def test_a_shank_thicker_than_the_cutter_hits_a_bolt_that_the_cutter_misses():
    for off, hits in ((0.01, False), (-0.01, True)):
        target = with_tool(flute_len=8.0, shank=2 * (SIDE - off))
        target = replace(target, bolts=(Bolt(BOLT_AT, 0.0, 12.0, 8.0),))
        assert codes(disc_pocket(), target) == (["P803"] if hits else []), off


def across(y=0.0, z=10.0):
    """After the pocket, at Z 10 to X -30, then down to a height and back in Y."""
    return disc_pocket().rapid(-30.0, 0.0).rapid(z=z).rapid(y=y).rapid(z=10.0)


@pytest.mark.parametrize(("y", "expected"), [(27.99, []), (28.01, ["P708"]), (29.01, ["P707"])])
def test_a_cutter_beside_the_vises_own_jaw(y, expected):
    """It stands 33 from mid gap, 4 above the jaw top; the cutter's radius is 4."""
    target = replace(TARGET, vise=Vise(4.0))
    assert codes(across(y, 2.0), target) == expected


@pytest.mark.parametrize(("z", "expected"), [(5.01, []), (4.99, ["P708"]), (3.99, ["P707"])])
def test_a_cutter_above_the_vises_own_jaw(z, expected):
    target = replace(TARGET, vise=Vise(4.0))
    assert codes(across(40.0, z), target) == expected


def test_a_vise_ends_where_the_job_says_so():
    for around, hit in (
        (Vise(4.0), True),
        (Vise(4.0, width=51.9), False),
        (Vise(4.0, width=52.1), True),
        (Vise(4.0, back=2.9), False),
    ):
        target = replace(TARGET, vise=around)
        pen = disc_pocket().rapid(-30.0, 40.0).rapid(z=2.0).rapid(z=10.0)
        assert ("P707" in codes(pen, target, obstacles)) == hit, around


@pytest.mark.parametrize(("bed", "hit"), [(None, True), (-30.0, True), (-31.5, False)])
def test_the_vises_bed_is_under_the_blanks_or_where_the_job_says(bed, hit):
    """Beside the blanks down to Z -30.01, their own height being 30."""
    target = replace(TARGET, vise=Vise(-5.0, bed=bed))
    pen = disc_pocket().rapid(50.0, 0.0).rapid(z=-30.01).rapid(z=10.0)
    assert ("P707" in codes(pen, target, obstacles)) == hit


def test_the_report_says_what_the_job_does_not_tell():
    said = untold(scene(disc_pocket(), with_tool(flute_len=None, stickout=None)))
    assert "flutes of T3: long enough" in said
    assert "shank of T3: as thick as the cutter" in said
    assert "stick-out of T3: far enough" in said
    assert "the vise's own jaws and its bed" in unjudged(scene(disc_pocket(), TARGET))
    target = with_tool(shank=8.0, holder=holder((30.0, 40.0)))
    told = scene(disc_pocket(), replace(target, vise=Vise(-5.0, 100.0, 50.0, -31.0)))
    said = (*untold(told), *unjudged(told))
    assert not any("T3" in words or "vise" in words for words in said)


def test_needs_are_those_of_each_tool_in_the_order_of_their_cuts():
    """Without a holder the clearance of 10 is kept over the jaw top."""
    other = replace(MILL, number=5, dia=6.0)
    pen = disc_pocket().rapid(3.0, 0.0)
    pen.call(5).rapid(3.0, 0.0).rapid(z=10.0).feed(z=-2.0).rapid(z=10.0)
    target = replace(TARGET, cutters=(MILL, other))
    rows = [(one.tool, one.flutes, one.stickout, one.lowest) for one in needs(scene(pen, target))]
    assert rows == [(3, 6.0, 16.0, -6.0), (5, 2.0, 12.0, -2.0)]
