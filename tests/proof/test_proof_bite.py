"""How wide, how deep and how full the bites are, against handbook values and closed forms (M16 and
so on are the names of the milling values)."""

import math
from dataclasses import replace
from itertools import pairwise

import numpy as np
import pytest
import shapely
from proof_pen import GOOD, MILL, TARGET, Pen, at_line, disc_pocket, judged, move

from jawcam.proof.bite import WINDOW, bites_of
from jawcam.tools.cutter import Cutter

BLOCK = shapely.box(-60, -60, 60, 60)


def bites(moves, feed=600.0, solid=BLOCK, top=0.0):
    feeds = feed if isinstance(feed, list) else [feed] * len(moves)
    return bites_of(moves, feeds, solid, top)


def line(*points, z=-2.0, cutter=None, dia=10.0):
    moves = [move("line", (*a, z), (*b, z), dia=dia) for a, b in pairwise(points)]
    return [replace(one, cutter=cutter) for one in moves] if cutter else moves


def circle(radius, z=-2.0):
    place = (radius, 0.0, z)
    return move("arc", place, place, turn=math.tau)


@pytest.mark.parametrize(("wall", "r", "rim", "centre"), [(10, 5, 500, 250), (25, 6, 300, 228)])
def test_m16_inside_an_arc_the_centre_s_feed_cuts_what_the_rim_s_would(wall, r, rim, centre):
    """F (R - r) / R, from a feeds handbook: a layer 1 mm wide and 2 mm deep goes round at the feed
    of the wall. Cells count to about a hundredth, as everywhere here."""
    moves = [
        replace(one, cutter=Cutter(1, "end mill", 2.0 * r))
        for one in (circle(wall - 1 - r), circle(wall - r))
    ]
    made = bites(moves, float(centre))
    own = made.number == 1
    area = (wall**2 - (wall - 1) ** 2) / 2  # mm2 a radian
    assert np.median(made.rate[own]) == pytest.approx(area * 2 * rim / wall, rel=0.015)


@pytest.mark.parametrize(("wall", "r", "rim", "centre"), [(10, 5, 500, 750), (25, 6, 300, 372)])
def test_m17_and_outside(wall, r, rim, centre):
    """F (R + r) / R, likewise."""
    boss = shapely.buffer(shapely.Point(0, 0), wall + 1, quad_segs=256)
    one = replace(circle(wall + r), cutter=Cutter(1, "end mill", 2.0 * r))
    made = bites([one], float(centre), boss)
    area = ((wall + 1) ** 2 - wall**2) / 2
    assert np.median(made.rate) == pytest.approx(area * 2 * rim / wall, rel=0.015)


def test_m18_the_volume_a_minute_is_width_by_depth_by_feed():
    """10 mm deep, 1 mm wide at 3000 mm/min: 30 cm3."""
    first, second = (
        line((-40.0, 0.0), (40.0, 0.0), z=-10.0),
        line((-40.0, 1.0), (40.0, 1.0), z=-10.0),
    )
    made = bites([*first, *second], 3000.0)
    own = (made.number == 1) & (np.abs(made.along - 40) < 20)
    assert made.rate[own].mean() == pytest.approx(30e3, rel=2e-3)
    assert made.rate[own].max() == pytest.approx(30e3, rel=0.06)
    assert made.width[own].mean() == pytest.approx(1.0, rel=2e-3)
    assert made.thick[own] == pytest.approx(10.0)
    assert made.depth[own].max() == pytest.approx(10.0)


@pytest.mark.parametrize("start", [0.0, 4.0])
def test_a_plunge_cuts_its_disc_at_its_feed_and_nothing_in_the_air_above(start):
    down = move("line", (0.0, 0.0, start), (0.0, 0.0, -3.0))
    made = bites([down], 200.0)
    assert made.rate == pytest.approx([math.pi * 25 * 200], rel=0.01)
    assert made.width.tolist() == [0.0]
    assert made.depth == pytest.approx([3.0])
    assert made.cut == pytest.approx([3.0])
    assert made.place(0) == (0.0, 0.0, -3.0)


def test_a_slot_is_as_wide_as_its_cutter_and_no_wider():
    (slot,) = line((-40.0, 3.0), (40.0, 17.0))
    made = bites([slot])
    assert made.width.max() <= 10.0
    assert np.median(made.width) == pytest.approx(10.0, abs=0.05)
    assert np.median(made.rate) == pytest.approx(10 * 2 * 600, rel=5e-3)
    row = 40
    assert made.move(row) is slot
    assert math.dist(made.place(row)[:2], slot.start[:2]) == pytest.approx(made.along[row])


def test_a_bite_is_told_over_a_quarter_of_the_diameter():
    """A slot 1.25 mm long into a block fills half of such a way."""
    edge = shapely.box(0, -60, 60, 60)
    made = bites(line((-20.0, 0.0), (-3.75, 0.0)), solid=edge)
    widest = made.width.max()
    segment = 25 * math.acos(0.75) - 3.75 * math.sqrt(25 - 3.75**2)
    assert widest == pytest.approx(segment / (WINDOW * 10), rel=0.03)
    made = bites(line((0.0, 0.0), (0.4, 0.0)), solid=shapely.box(4.9, -60, 60, 60))
    assert made.width.max() < 1.0, "a short move is told over no less"


def test_bites_go_on_from_move_to_move():
    """The same straight cut in one piece or in fifty; what the cutter leaves is no part of it."""
    whole = bites(line((-40.0, 0.0), (40.0, 0.0)))
    points = [(x, 0.0) for x in np.linspace(-40, 40, 51)]
    pieces = bites(line(*points))
    assert pieces.width.max() == pytest.approx(whole.width.max(), rel=0.02)
    assert len(set(pieces.run.tolist())) == 1
    apart = bites([*line((-40.0, 0.0), (-20.0, 0.0)), *line((20.0, 0.0), (40.0, 0.0))])
    assert len(set(apart.run.tolist())) == 2


def test_the_feed_of_each_move_counts():
    made = bites(line((-40.0, 0.0), (0.0, 0.0), (40.0, 0.0)), [600.0, 300.0])
    for number, rate in ((0, 12000), (1, 6000)):
        own = (made.number == number) & (made.along < 30)
        assert np.median(made.rate[own]) == pytest.approx(rate, rel=0.01)
    assert bites(line((-40.0, 0.0), (40.0, 0.0)), 0.0).rate.max() == 0


def test_what_meets_nothing_is_air():
    """Half of the way beside the block, all of a second pass, none of a bite of 0.03 mm."""
    edge = shapely.box(0, -60, 60, 60)
    made = bites(line((-45.0, 0.0), (35.0, 0.0)), solid=edge)
    assert made.cut.sum() == pytest.approx(40.0, abs=0.7)
    again = bites([*line((-40.0, 0.0), (40.0, 0.0)), *line((40.0, 0.0), (-40.0, 0.0))])
    assert again.cut[again.number == 1].sum() == 0
    light = bites([*line((-40.0, 0.0), (40.0, 0.0)), *line((-40.0, 0.03), (40.0, 0.03))])
    assert light.cut[light.number == 1].sum() > 78


def test_no_moves_bite_nothing():
    assert len(bites([]).width) == 0
    made = bites(line((0.0, 0.0), (9.0, 0.0)), solid=shapely.Polygon())
    assert made.volume.sum() == made.width.max() == 0


# --- what cutters of other shapes take -----------------------------------------------------------


def test_a_drill_takes_a_cylinder_and_its_point():
    """pi r^2 h, and a third of it over the point's length."""
    drill = Cutter(4, "drill", 5.0)
    down = replace(move("line", (0.0, 0.0, 1.0), (0.0, 0.0, -12.0)), cutter=drill)
    point = 2.5 / math.tan(math.radians(59))
    want = math.pi * 2.5**2 * (12 - point + point / 3)
    assert bites([down]).volume.sum() == pytest.approx(want, rel=0.01)


def test_a_chamfer_mill_takes_a_triangle_along_an_edge():
    """Half of its width by its depth, by the length of the edge."""
    cone = Cutter(7, "chamfer mill", 6.0, angle=90.0, tip_dia=0.5)
    edge = shapely.box(-30, 0.0, 30, 60)
    moves = line((-40.0, -1.0), (40.0, -1.0), z=-1.25, cutter=cone)  # 1.5 mm wide at the top
    made = bites(moves, solid=edge)
    assert made.volume.sum() == pytest.approx(60 * 0.5 * 0.5 / 2, rel=0.01)
    assert np.median(made.width) == pytest.approx(0.5, rel=0.05)


def test_a_ball_end_takes_its_segment():
    """A slot of depth h with a ball of radius R: the segment R^2 acos(1 - h / R) - ... of a circle
    along the way, and a cap at its ends."""
    ball, depth = Cutter(6, "ball end mill", 8.0), 2.0
    made = bites(line((-20.0, 0.0), (20.0, 0.0), z=-depth, cutter=ball))
    angle = math.acos(1 - depth / 4)
    segment = 16 * (angle - math.sin(angle) * math.cos(angle))
    cap = math.pi * depth**2 * (12 - depth) / 3
    assert made.volume.sum() == pytest.approx(40 * segment + cap, rel=3e-3)
    assert made.depth.max() == pytest.approx(depth, abs=1e-3)


# --- the figures of each tool -------------------------------------------------------------------


def test_the_removed_volume_is_that_of_the_pocket():
    in_gap = 2 * (3 * math.sqrt(15.05**2 - 9) + 15.05**2 * math.asin(3 / 15.05))
    want = 6 * (math.pi * 15.05**2 - in_gap)
    assert judged(GOOD).figures.volume == pytest.approx(want, rel=2e-3)


def test_the_volume_counts_drills_and_slopes():
    """A hole deeper than the pocket, 5 mm wide; a ramp that nothing follows."""
    target = replace(TARGET, cutters=(*TARGET.cutters, Cutter(4, "drill", 5.0)))
    plain = judged(GOOD).figures.volume
    hole = disc_pocket().call(4).rapid(28.0, 12.0).rapid(z=10.0).feed(z=-15.0).rapid(z=10.0)
    point = 2.5 / math.tan(math.radians(59))
    want = math.pi * 2.5**2 * (15 - 2 / 3 * point)
    figures = judged(hole, target).figures
    assert figures.volume - plain == pytest.approx(want, rel=0.02)
    assert [tool.tool for tool in figures.tools] == [3, 4]
    assert figures.tools[1].volume == pytest.approx(want, rel=0.02)
    assert figures.tools[1].width is None
    ramp = disc_pocket().rapid(30.0, 12.0).rapid(z=0.0).feed(35.0, 12.0, -1.0).rapid(z=10.0)
    assert judged(ramp).figures.volume - plain > 30


def test_each_tool_s_peaks_stand_by_their_lines_and_places():
    """A slot in one jaw, entered at half the feed; a deeper one in the other, a pass beside it."""
    pen = Pen().rapid(-30.0, 20.0).rapid(z=0.0)
    pen.feed(z=-1.0).feed(x=38.0)  # line 4: 8 wide, 1 deep
    pen.rapid(z=5.0).rapid(-30.0, -20.0).feed(z=-3.0)
    pen.feed(x=38.0)  # line 8: 8 wide, 3 deep
    pen.feed(y=-18.0).feed(x=-30.0)  # line 10: 2 wide
    zero = (10.0, -5.0, 2.0)
    moved = [
        cut._replace(
            start=tuple(a - b for a, b in zip(cut.start, zero, strict=True)),
            end=tuple(a - b for a, b in zip(cut.end, zero, strict=True)),
        )
        for cut in at_line(pen.cuts, 3, feed=300.0)
    ]
    (tool,) = judged(moved, replace(TARGET, zero=zero)).figures.tools
    assert tool.width.line == 4
    assert tool.width.most == pytest.approx(8.0, abs=0.05)
    assert tool.depth.line == 7, "straight down"
    assert tool.depth.most == pytest.approx(3.0)
    assert tool.rate.line == 7
    assert tool.rate.most == pytest.approx(math.pi * 16 * 600, rel=0.02)
    assert (tool.rate.x + 10.0, tool.rate.y - 5.0, tool.rate.z + 2.0) == (-30.0, -20.0, -3.0)
    way = 1.0 + 68 + 8 + 68 + 2 + 68
    assert tool.air == pytest.approx(5 / way, abs=0.01), "5 mm down above the blank"


def test_a_tool_that_cuts_nothing_has_no_bites():
    (tool,) = judged(Pen().rapid(0.0, 0.0).rapid(z=10.0).feed(x=30.0)).figures.tools
    assert (tool.width, tool.depth, tool.rate, tool.volume) == (None, None, None, 0.0)
    assert tool.air == 1.0
    (tool,) = judged(Pen().rapid(0.0, 0.0).rapid(z=10.0)).figures.tools
    assert tool.air is None
    assert MILL.number == tool.tool
