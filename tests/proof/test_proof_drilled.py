"""Drilled holes beside the pocket."""

from dataclasses import replace

import pytest
import shapely
from proof_pen import GOOD, TARGET, disc_pocket, judged, program

from jawcam.hold.target import Blanks, Bolt, Hole
from jawcam.proof.limits import Limits
from jawcam.proof.scene import scene_of
from jawcam.proof.times import drive_of
from jawcam.tools.cutter import Cutter
from jawcam.tools.machine import Machine

DRILL, SPOT = Cutter(4, "drill", 5.0), Cutter(5, "spot drill", 8.0)
OTHER = Cutter(6, "drill", 4.0)
HOLE = Hole(28.0, 12.0, 5.0, -6.0, -6.0 - DRILL.point_length, 4, "stop")
DRILLED = replace(TARGET, drilled=(HOLE,), cutters=(*TARGET.cutters, DRILL, SPOT, OTHER))
BOTTOM = HOLE.tip
DRIVE = drive_of(Machine(), TARGET.units)


def drilled(*feeds, x=28.0, y=12.0, tool=4, pen=None):
    """The pocket, then a hole: fed down to each height in turn, up to 1 mm in between and at rapid
    down again to a little above."""
    pen = (pen or disc_pocket()).call(tool).rapid(x, y).rapid(z=10.0).rapid(z=1.0)
    for z in feeds:
        pen.feed(z=z).rapid(z=1.0)
        pen.rapid(z=z + 0.2)
    return pen.rapid(z=10.0)


def told(pen, target=DRILLED):
    return [f for f in judged(pen, target).findings if f.code != "P112"]


def codes(pen, target=DRILLED):
    return [f.code for f in told(pen, target)]


def test_a_correct_hole_has_no_findings():
    assert codes(drilled(BOTTOM)) == []
    assert codes(drilled(-2.0, -4.0, BOTTOM)) == [], "pecked"
    assert codes(drilled(BOTTOM, pen=drilled(-1.0, tool=5))) == [], "spotted first"


def test_holes_are_counted_as_removed_and_left_out_of_the_floors():
    plain, with_hole = judged(GOOD).figures, judged(drilled(BOTTOM), DRILLED).figures
    assert with_hole.area - plain.area == pytest.approx(19.635, abs=0.01)
    assert with_hole.floor_left == plain.floor_left
    assert with_hole.floor_error == pytest.approx(0)
    assert with_hole.wall_left == pytest.approx(40 - 28 - 2.5)
    assert with_hole.levels == plain.levels


@pytest.mark.parametrize(
    ("pen", "code", "amount"),
    [
        (GOOD, "P901", None),
        (drilled(BOTTOM, x=28.05), "P902", 0.05),
        (drilled(BOTTOM + 0.1), "P903", 0.1),
        (drilled(BOTTOM - 0.1), "P904", 0.1),
        (drilled(BOTTOM, tool=6), "P905", 1.0),
    ],
)
def test_what_may_be_wrong_with_a_hole(pen, code, amount):
    (finding,) = told(pen)
    assert (finding.code, finding.grade) == (code, "stop")
    if amount is not None:
        assert finding.amount == pytest.approx(amount, abs=1e-6)
    assert finding.x == pytest.approx(28.0, abs=0.06)


def test_a_hole_within_the_limits_is_a_good_one():
    assert codes(drilled(BOTTOM + 0.0009, x=28.0015)) == []


def test_drills_may_go_down_nowhere_else():
    assert codes(drilled(-3.0, x=35.0, pen=drilled(BOTTOM))) == ["P906"]
    spotted = drilled(-1.0, x=35.0, tool=5, pen=drilled(BOTTOM))
    assert codes(spotted) == ["P906"]
    pen = drilled(BOTTOM)
    pen.rapid(z=1.0).feed(z=-1.0).feed(x=30.0).rapid(z=10.0)
    assert set(codes(pen)) == {"P906"}


def test_a_rapid_beyond_what_is_drilled():
    pen = disc_pocket().call(4).rapid(28.0, 12.0).rapid(z=10.0).rapid(z=1.0)
    pen.feed(z=-3.0).rapid(z=1.0).rapid(z=-3.0).feed(z=-4.0).rapid(z=1.0).rapid(z=-4.1)
    line = pen.line
    pen.feed(z=BOTTOM).rapid(z=10.0)
    assert [(f.code, f.line) for f in told(pen)] == [("P501", line)]
    first = disc_pocket().call(4).rapid(28.0, 12.0).rapid(z=10.0).rapid(z=-1.0)
    first.feed(z=BOTTOM).rapid(z=10.0)
    assert codes(first) == ["P501"]


def test_a_rapid_down_in_the_cleared_pocket_to_a_hole_in_its_floor():
    deep = replace(HOLE, x=8.0, y=8.0, floor=-9.0, tip=-9.0 - DRILL.point_length)
    pen = disc_pocket().call(4).rapid(8.0, 8.0).rapid(z=10.0).rapid(z=-5.9).feed(z=deep.tip)
    assert codes(pen.rapid(z=10.0), replace(DRILLED, drilled=(deep,))) == []


@pytest.mark.parametrize(("z", "wide"), [(-3.2, False), (-3.3, True)])
def test_a_spot_is_as_wide_as_a_broken_edge_at_the_most(z, wide):
    """Of a point of 90 degrees 2 z; at the most 1.2 x 5 + 0.5."""
    assert codes(drilled(BOTTOM, pen=drilled(z, tool=5))) == (["P907"] if wide else [])


def test_the_floor_under_a_hole():
    def blank(height):
        blanks = Blanks(width=80.0, height=height, thickness=30.0, gap=6.0)
        return codes(drilled(BOTTOM), replace(DRILLED, blanks=blanks))

    assert blank(9.6) == []
    assert blank(9.4) == ["P702"]
    assert blank(8.0 - 0.6) == ["P702", "P701"]


def test_a_bolt_beside_a_hole():
    bolt = Bolt(28.0, 19.4, 10.0, -4.0)
    assert codes(drilled(BOTTOM), replace(DRILLED, bolts=(bolt,))) == ["P705"]


def test_a_hole_in_a_corner_counts_as_cleared():
    """A hole that reaches beyond the pocket's wall: the mill need not cut there, and may."""
    hole = replace(HOLE, x=10.0, y=11.0, kind="relief")
    pen = drilled(BOTTOM, x=10.0, y=11.0)
    assert codes(pen, replace(DRILLED, drilled=(hole,))) == []


def test_a_drill_clears_as_far_down_as_its_full_diameter_goes():
    scene = scene_of(program(drilled(BOTTOM)), DRILLED, limits=Limits(), drive=DRIVE, others=())
    middle = shapely.Point(HOLE.x, HOLE.y)
    assert shapely.contains(scene.stock.cleared(HOLE.floor + 1e-6), middle)
    assert not shapely.contains(scene.stock.cleared(HOLE.floor - 0.01), middle)
    across = drilled(BOTTOM)
    across.rapid(z=1.0).feed(z=-1.0).feed(x=33.0).rapid(z=10.0)
    scene = scene_of(program(across), DRILLED, limits=Limits(), drive=DRIVE, others=())
    assert not shapely.contains_xy(scene.stock.cleared(-1.0), 33.0, 12.0), "not by going across"


def test_without_holes_to_drill_a_drill_is_an_unproven_cutter():
    assert "P202" in codes(drilled(BOTTOM), replace(DRILLED, drilled=()))
