"""Cutters with rounded ends: what they leave on the floor and at its foot, by closed forms of a
circle, and what they don't leave."""

import math
from dataclasses import replace

import pytest
from proof_pen import DISC, GOOD, MILL, TARGET, Pen, disc_pocket, judged, move, ring_out

from jawcam.hold.target import Level
from jawcam.proof.form import height_over_tip, rounding
from jawcam.proof.limits import Limits
from jawcam.proof.rounded import as_flats
from jawcam.tools.cutter import Cutter

ROUGH = 0.05
"""mm over a floor at which it is looked at what is left, a little below it here."""

BALL = Cutter(3, "ball end mill", 8.0, flutes=3, flute_len=22.0, stickout=40.0)


def with_tool(*tools):
    return replace(TARGET, cutters=tools)


def bull(corner):
    return replace(MILL, kind="bull-nose end mill", corner_radius=corner)


def left(report):
    return [f.amount for f in report.findings if f.code == "P301"]


@pytest.mark.parametrize("corner", [0.2, 0.5, 1.5, 4.0])
def test_each_flat_cutter_is_as_wide_as_the_round_at_its_height(corner):
    tool = BALL if corner == 4.0 else bull(corner)
    assert rounding(tool) == corner
    flats = as_flats(move("line", (0.0, 0.0, -6.0), (9.0, 0.0, -6.0)), Limits())
    assert len(flats) == 1, "a flat one is itself"
    one = replace(move("line", (0.0, 0.0, -6.0), (9.0, 0.0, -6.0)), cutter=tool)
    flats = as_flats(one, Limits())
    for flat in flats:
        height = height_over_tip(tool, flat.radius)
        assert flat.low + 6.0 == pytest.approx(float(height), abs=1e-9) or flat.low == -6.0
        assert flat.cutter.kind == tool.kind
    assert flats[-1].radius == 4.0
    assert flats[0].radius == pytest.approx(4.0 - corner, abs=0.1)


@pytest.mark.parametrize("corner", [0.5, 1.0, 2.0])
def test_a_bull_nose_leaves_a_fillet_at_the_foot_of_the_wall(corner):
    """At the height h over the floor the round is c - sqrt(c^2 - (c - h)^2) off the wall."""
    report = judged(GOOD, with_tool(bull(corner)))
    h = 0.98 * ROUGH
    wide = corner - math.sqrt(corner**2 - (corner - h) ** 2)
    assert max(left(report)) == pytest.approx(wide, abs=2e-3)
    assert report.figures.left_over == pytest.approx(wide, abs=2e-3)
    assert {f.code for f in report.findings} <= {"P301", "P403"}
    assert report.figures.gouge < 0.002


def test_what_is_cleaned_with_a_flat_cutter_is_proven():
    tools = (replace(bull(1.0), number=4), MILL)
    pen = disc_pocket(pen=Pen().call(4)).call(3)
    assert judged(disc_pocket(pen=pen), with_tool(*tools)).findings == ()


def test_the_wall_of_a_deep_pocket_is_cut_by_the_flank():
    """Only the foot is left: 1 mm above the floor a bull-nose of 0.5 mm has cut all."""
    shallow = replace(with_tool(bull(0.5)), levels=(Level(0.0, -5.0, (DISC,)),))
    report = judged(GOOD, shallow)
    assert left(report) == []
    assert "P401" in {f.code for f in report.findings}, "for it is too deep"


def test_a_wall_cut_too_wide_is_a_gouge_all_the_same():
    for tool in (bull(0.5), BALL):
        report = judged(disc_pocket(wall=11.07), with_tool(tool))
        (gouge,) = [f.amount for f in report.findings if f.code == "P201"]
        assert gouge == pytest.approx(0.02, abs=1e-3)


def test_a_ball_leaves_scallops_between_its_passes():
    """3 mm apart they are R - sqrt(R^2 - 1.5^2) high, too high for a floor; half a millimetre
    apart 0.008 mm, which a floor of 0.001 mm is not either."""
    wide = judged(ring_out(Pen().rapid(3.0, 0.0).rapid(z=1.0), 11.05, -6.0), with_tool(BALL))
    assert max(left(wide)) > 1.0
    fine = Pen().rapid(0.5, 0.0).rapid(z=1.0)
    fine = judged(ring_out(fine, 11.05, -6.0, start=0.5, wide=0.5), with_tool(BALL))
    h = 0.98 * ROUGH
    foot = 4.0 - math.sqrt(16 - (4 - h) ** 2)
    assert max(left(fine)) == pytest.approx(foot, abs=2e-3)
    assert "P403" in {f.code for f in fine.findings}


def test_a_ball_that_goes_back_its_way_at_rapid_meets_nothing():
    def back(y):
        pen = Pen().rapid(-30.0, 15.0).rapid(z=1.0).feed(z=-2.0).feed(x=0.0)
        return [f.code for f in judged(pen.rapid(-30.0, y), with_tool(BALL)).findings]

    assert "P501" not in back(15.0)
    assert "P501" in back(16.0)


def test_the_floors_that_it_leaves_are_not_those_of_its_round():
    (level,) = judged(GOOD, with_tool(bull(1.0))).figures.levels
    z, area = level
    assert z == -6.0
    flat = judged(GOOD).figures.levels[0][1]
    assert 0.8 * flat < area < flat
