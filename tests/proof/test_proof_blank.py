"""The blanks, the bolts in them, and how far the cutter reaches."""

from dataclasses import replace

import pytest
from proof_pen import GOOD, MILL, TARGET, judged

from jawcam.hold.target import Bolt
from jawcam.tools.cutter import Cutter


@pytest.mark.parametrize(
    ("off", "code", "grade"), [(-0.01, "P705", "stop"), (0.5, "P706", "warn"), (1.01, None, None)]
)
def test_a_bolt_in_the_way(off, code, grade):
    bolt = Bolt(0.0, 15.05 + 5.0 + off, 10.0, -2.0)
    report = judged(GOOD, replace(TARGET, bolts=(bolt,)))
    assert [(f.code, f.grade) for f in report.findings] == ([(code, grade)] if code else [])
    assert report.figures.bolt_clearance == pytest.approx(off, abs=1e-3)
    for finding in report.findings:
        assert (finding.x, finding.y) == (0.0, bolt.y)
        assert finding.amount == pytest.approx(off, abs=1e-3)


def test_a_bolt_below_the_cutter_counts_by_its_depth():
    low = Bolt(5.0, 10.0, 10.0, -8.0)
    report = judged(GOOD, replace(TARGET, bolts=(low,)))
    assert report.findings == ()
    assert report.figures.bolt_clearance == pytest.approx(2.0)
    touching = replace(TARGET, bolts=(replace(low, top=-5.0),))
    assert [f.code for f in judged(GOOD, touching).findings] == ["P705"]


def test_the_floor_left_under_the_cut():
    def blank(height):
        blanks = replace(TARGET.blanks, height=height)
        report = judged(GOOD, replace(TARGET, blanks=blanks))
        return [(f.code, f.grade) for f in report.findings], report.figures.floor_left

    assert blank(8.5) == ([], pytest.approx(2.5))
    assert blank(7.5) == ([("P702", "warn")], pytest.approx(1.5))
    assert blank(5.0) == ([("P701", "stop")], pytest.approx(-1.0))


@pytest.mark.parametrize(
    ("width", "thickness", "code"),
    [(80, 12.6, "P704"), (80, 12.0, "P703"), (31, 30, "P704"), (30, 30, "P703"), (34, 14, None)],
)
def test_the_walls_left_beside_and_behind(width, thickness, code):
    blanks = replace(TARGET.blanks, width=width, thickness=thickness)
    codes = [f.code for f in judged(GOOD, replace(TARGET, blanks=blanks)).findings]
    assert codes == ([code, code] if code else [])


def test_the_cutter_reaches():
    def tool(**changes):
        report = judged(GOOD, replace(TARGET, cutters=(replace(MILL, **changes),)))
        return [(f.code, f.grade) for f in report.findings]

    assert tool(flute_len=6.0, stickout=16.0) == []
    assert tool(flute_len=5.9) == [("P801", "stop")]
    assert tool(stickout=15.0) == [("P802", "warn")]
    assert tool(flute_len=None, stickout=None) == []


@pytest.mark.parametrize("kind", ["drill", "chamfer mill"])
def test_cutters_that_leave_slopes_are_not_proven(kind):
    tool = Cutter(3, kind, 8.0)
    codes = [f.code for f in judged(GOOD, replace(TARGET, cutters=(tool,))).findings]
    assert codes.count("P202") == 1
