"""The pocket's edges, broken by a chamfer mill."""

import math
from dataclasses import replace

import pytest
from proof_pen import GOOD, TARGET, Pen, disc_pocket, judged

from jawcam.hold.target import Level, Relief, Unreached
from jawcam.proof.form import radius_at, slope
from jawcam.tools.cutter import Cutter

MILL = Cutter(9, "chamfer mill", 6.0, angle=90.0, tip_dia=0.4)
EDGED = replace(TARGET, edge=0.4, edge_tool=9, cutters=(*TARGET.cutters, MILL))
DEEP = -1.0
REACH = 15.05 + 0.4 - 1.2
"""With its tip 1 mm deep the cone's radius at the jaw top is 1.2 mm."""


def edged(radius=REACH, z=DEEP, turn=1.0):
    """The pocket, then the edge all round."""
    pen = disc_pocket().call(9).rapid(10.0, 0.0).rapid(z=10.0).rapid(z=z).feed(radius, 0.0)
    pen.circle(turns=turn) if turn == 1.0 else pen.arc(0.0, radius, (0.0, 0.0))
    return pen.feed(0.0, pen.at[1] / 2).rapid(z=10.0)


def told(pen, target=EDGED):
    return [f for f in judged(pen, target).findings if f.code != "P112"]


def codes(pen, target=EDGED):
    return [f.code for f in told(pen, target)]


def test_the_radius_of_a_cone():
    """0.2 at its tip, growing by 1 mm a mm up to 3."""
    assert [radius_at(MILL, h) for h in (-0.1, 0.0, 1.0, 2.8, 5.0)] == pytest.approx(
        [0.0, 0.2, 1.2, 3.0, 3.0]
    )
    assert slope(replace(MILL, angle=60.0)) == pytest.approx(1 / math.sqrt(3))


def test_a_correct_edge_has_no_findings():
    assert codes(edged()) == []


def test_an_edge_left_out_and_one_left_out_in_part():
    whole = told(edged(radius=11.0))
    assert {f.code for f in whole} == {"P911"}
    in_gap = 2 * math.asin(3 / 15.05)
    assert [f.amount for f in whole] == pytest.approx([15.05 * (math.pi - in_gap)] * 2, abs=0.05)
    part = told(edged(turn=0.25))
    assert {f.code for f in part} == {"P911"}
    assert sum(f.amount for f in part) < 0.76 * sum(f.amount for f in whole)
    for finding in part:
        assert finding.x < 0.1 or finding.y < 0.1
        assert math.hypot(finding.x, finding.y) == pytest.approx(15.05, abs=1e-3)
    assert codes(GOOD) == ["P911", "P911"]


@pytest.mark.parametrize(
    ("out", "code"),
    [(-0.05, "P911"), (-0.01, None), (0.0015, None), (0.01, "P912"), (0.79, "P912"), (0.9, "P913")],
)
def test_how_far_the_cone_keeps_off_the_wall(out, code):
    """0.8 mm nearer the point itself, of 0.2 mm radius, is at the wall but for 0.01 mm."""
    found = told(edged(radius=REACH + out - (0.2 if out == 0.79 else 0.0)))
    assert {f.code for f in found} == ({code} if code else set())
    if code == "P912":
        wide = out if out < 0.5 else 0.59
        assert found[0].amount == pytest.approx(wide, abs=1e-3)
    if code == "P913":
        assert found[0].amount == pytest.approx(0.2 - (0.8 - out), abs=1e-3)


def test_the_depth_makes_the_width():
    assert codes(edged(z=DEEP - 0.1)) == ["P912"]
    assert set(codes(edged(z=DEEP + 0.1))) == {"P911"}


def test_a_tip_above_the_chamfers_lower_end():
    """It leaves a step, but cuts nothing that must stay."""
    assert set(codes(edged(radius=15.05, z=-0.2))) == {"P911"}
    assert set(codes(edged(radius=15.06, z=-0.2))) == {"P911", "P913"}


def test_a_sloping_pass_counts_where_it_is_deep_enough():
    """From 0.6 mm to 1 mm deep in one turn: within the last twentieth of it."""
    pen = disc_pocket().call(9).rapid(10.0, 0.0).rapid(z=10.0).rapid(z=-0.6).feed(REACH, 0.0)
    found = told(pen.circle(DEEP).feed(10.0).rapid(z=10.0))
    assert {f.code for f in found} == {"P911"}
    whole = sum(f.amount for f in told(edged(radius=11.0)))
    assert sum(f.amount for f in found) >= 0.95 * whole


def test_an_edge_above_the_cone():
    """With its tip 2.9 mm deep the shank's 3 mm are reached 0.1 mm below the jaw top."""
    assert codes(edged(radius=15.05 + 0.4 - 3.1 + 0.1, z=-2.9)) == ["P914"]


def test_the_axis_beyond_the_wall_is_measured_by_how_far():
    finding, *rest = told(edged(radius=16.0))
    assert finding.code == "P913"
    assert {f.code for f in rest} == {"P911"}
    assert finding.amount == pytest.approx(0.2 + 0.95, abs=2e-3)


def test_the_tool_keeps_above_the_floors_and_off_the_walls_below():
    assert codes(edged(radius=15.45 - 6.2, z=-6.0, turn=1.0))[:1] == ["P911"]
    deep = told(edged(radius=9.0, z=-6.01))
    assert "P913" in {f.code for f in deep}
    stepped = replace(
        EDGED,
        levels=(
            Level(0.0, -0.8, TARGET.levels[0].outlines),
            Level(-0.8, -6.0, (((10.0, 0.0, 1.0), (-10.0, 0.0, 1.0)),)),
        ),
    )
    assert "P913" in codes(edged(), stepped), "its tip would be below the upper floor"


def test_other_angles():
    """60 degrees: 0.4 mm wide and 0.6928 deep."""
    slim = replace(MILL, angle=60.0)
    target = replace(EDGED, cutters=(*TARGET.cutters, slim))
    radius = 15.05 + 0.4 - 0.2 - 1.0 / math.sqrt(3)
    assert codes(edged(radius=radius), target) == []
    assert codes(edged(radius=radius + 0.01), target) == ["P912"]


HALF = 15.0
SQUARE = ((-HALF, -HALF, 0.0), (HALF, -HALF, 0.0), (HALF, HALF, 0.0), (-HALF, HALF, 0.0))


def square(sides=4, reach=HALF - 0.8):
    """A square pocket, then its edge along some of its sides."""
    pen = Pen().rapid(0.0, 0.0).rapid(z=10.0).feed(z=0.0).feed(3.0).circle(-6.0, turns=6)
    for ring in (3.0, 7.0, 11.0):
        pen.feed(ring, -ring).feed(ring, ring).feed(-ring, ring).feed(-ring, -ring)
        pen.feed(ring, -ring)
    pen.rapid(z=10.0).call(9).rapid(0.0, 0.0).rapid(z=10.0).rapid(z=DEEP)
    if sides:
        pen.feed(reach, -reach)
    ends = [(reach, reach), (-reach, reach), (-reach, -reach), (reach, -reach)]
    for x, y in ends[:sides]:
        pen.feed(x, y)
    return pen.feed(0.0, 0.0).rapid(z=10.0)


def test_a_side_left_out():
    target = replace(EDGED, levels=(Level(0.0, -6.0, (SQUARE,)),), grip=0.0)
    whole = [f for f in told(square(), target) if f.code[:2] == "P9"]
    assert whole == [], "the cone's 0.8 mm come up to all that the mill's 4 mm leave of the corners"
    (missing,) = [f for f in told(square(3), target) if f.code[:2] == "P9"]
    assert missing.code == "P911"
    assert missing.y < -14
    assert missing.amount == pytest.approx(22.0 + 2 * 4.0, abs=8.0)


def test_corners_rounded_more_than_the_cone_must_be_broken():
    """Cut round 4 mm, then led round 6 mm: the cone misses what is between."""
    size = 2 * 4.0 * (math.sqrt(2) - 1) / (math.sqrt(2) + 1)
    at = HALF - size / 2
    corner = Unreached(at, at, size, "a sharp corner", seats=True, floor=-6.0)
    corners = [replace(corner, x=x, y=y) for x in (-at, at) for y in (-at, at)]
    target = replace(EDGED, levels=(Level(0.0, -6.0, (SQUARE,)),), grip=0.0)
    target = replace(target, unreached=tuple(corners))
    pen = square(0)
    pen.rapid(0.0, 0.0).rapid(z=DEEP)
    reach, bend = HALF - 0.8, 9.0
    pen.feed(0.0, -reach).feed(bend, -reach).arc(reach, -bend, (bend, -bend)).feed(reach, bend)
    pen.arc(bend, reach, (bend, bend)).feed(-bend, reach).arc(-reach, bend, (-bend, bend))
    pen.feed(-reach, -bend).arc(-bend, -reach, (-bend, -bend)).feed(0.0, -reach)
    found = told(pen.feed(0.0, 0.0).rapid(z=10.0), target)
    assert [f.code for f in found if f.code[:2] == "P9"] == ["P911"] * 4


def test_corners_that_the_cone_can_not_get_into_are_noted():
    """Corners sharper than its 0.8 mm: cut with a mill of 1 mm they are rounded 0.5 mm."""
    tiny = Cutter(4, "end mill", 1.0, centre_cutting=True)
    target = replace(EDGED, levels=(Level(0.0, -6.0, (SQUARE,)),), grip=0.0)
    target = replace(target, cutters=(*target.cutters, tiny))
    pen = square(0).call(4).rapid(0.0, 0.0).rapid(z=10.0).rapid(z=-6.0)
    at = HALF - 0.5
    pen.feed(at, 0.0).feed(at, at).feed(-at, at).feed(-at, -at).feed(at, -at).feed(at, 0.0)
    pen.feed(at - 4.0, 0.0)
    for x, y in ((1, 1), (-1, 1), (-1, -1), (1, -1)):
        pen.rapid(z=10.0).rapid(x * 11.0, y * 11.0).rapid(z=-6.0)
        for off in (12.5, 13.2, 13.8, 14.3):
            pen.feed(x * off, y * 11.0).feed(x * off, y * off).feed(x * 11.0, y * off)
            pen.feed(x * 11.0, y * 11.0)
    pen.rapid(z=10.0).call(9).rapid(0.0, 0.0).rapid(z=10.0).rapid(z=DEEP)
    reach = HALF - 0.8
    pen.feed(reach, 0.0).feed(reach, reach).feed(-reach, reach).feed(-reach, -reach)
    pen.feed(reach, -reach).feed(reach, 0.0).feed(0.0).rapid(z=10.0)
    found = told(pen, target)
    assert [(f.code, f.grade) for f in found if f.code[:2] == "P9"] == [("P915", "note")]
    assert 1.0 < next(f.amount for f in found if f.code == "P915") < 4 * 2 * 0.8


def test_reliefs_need_not_be_broken():
    relief = Relief((13.0, 5.0), (15.0, 5.5), 2.0, (16.0, 5.5), -6.0)
    tool = Cutter(4, "end mill", 4.0, centre_cutting=True)
    target = replace(EDGED, reliefs=(relief,), cutters=(*EDGED.cutters, tool))
    pen = edged().call(4).rapid(13.0, 5.0).rapid(z=10.0).rapid(z=1.0).feed(z=-6.0)
    pen.feed(15.0, 5.5).feed(13.0, 5.0).rapid(z=10.0)
    found = told(pen, target)
    assert [(f.code, f.grade) for f in found] == [("P915", "note")]


def test_the_edge_tool_at_rapid():
    """Down in the middle of the pocket it is clear, nearer to the wall than its radius it isn't."""

    def down(y):
        pen = edged().rapid(0.0, y).rapid(z=-0.5).rapid(z=10.0)
        return codes(pen)

    assert down(0.0) == []
    assert down(14.3) == [], "0.7 mm of radius at the jaw top"
    assert down(14.5) == ["P501"]
    pen = disc_pocket().call(9).rapid(0.0, 10.0).rapid(z=10.0)
    early = pen.rapid(0.0, 14.5).rapid(z=DEEP)
    line = early.line
    early.feed(0.0, REACH).arc(0.0, -REACH, (0.0, 0.0)).arc(0.0, REACH, (0.0, 0.0))
    assert ("P501", line) in [(f.code, f.line) for f in told(early.rapid(z=10.0))]
