"""What a pocket may have beside plain walls: levels, holes, grooves, edges; and the part in it."""

import math
from dataclasses import replace

import numpy as np
import pytest
import shapely
import show_demos as demo
import show_pockets as pockets
from hypothesis import given, settings
from hypothesis import strategies as st
from matplotlib.patches import Circle

from jawcam.hold.target import Level, Relief, Section
from jawcam.show.backplot import backplot
from jawcam.show.bodies import slices
from jawcam.show.cutaway import body_cut, bore_cut, meets, pocket_cut, section_at
from jawcam.show.outlines import filled, solid
from jawcam.show.picture import picture
from jawcam.show.scene import Bore, sections, setting
from jawcam.units import Units

HUB = setting(pockets.hub_target(grip=0.0, side=0.0), Units.MM, 0.005)


def _drawn(program, target, units=Units.MM):
    figure = backplot(program, target=target, units=units)
    return {axes.get_label(): axes for axes in figure.axes}


@pytest.fixture(scope="module")
def dressed():
    return _drawn(pockets.dressed_program(), pockets.dressed_target(side=0.0))


def _named(axes, gid):
    return [line.get_xydata() for line in axes.lines if line.get_gid() == gid]


def _scene(target):
    return setting(target, Units.MM, 0.005)


def _section_x(program, target, units=Units.MM):
    return section_at(picture(program, target, units, (), 10000.0))


# --- the cavity ------------------------------------------------------------------------------


def test_each_level_holds_those_below_it():
    wide, deep = pockets.box_outline(-5, -5, 5, 5), pockets.box_outline(2, -2, 9, 2)
    target = demo.lever_target(
        levels=(Level(0.0, -3.0, (wide,)), Level(-3.0, -6.0, (deep,))), side=0.0
    )
    top, low = _scene(target).levels
    assert (top.top, top.floor, low.top, low.floor) == (0.0, -3.0, -3.0, -6.0)
    assert low.cavity.area == pytest.approx(28)
    assert top.cavity.area == pytest.approx(100 + 4 * 4)


def test_each_level_is_grown_and_slid():
    scene = _scene(pockets.hub_target(grip=0.5, side=0.25))
    for level, (_, _, radius) in zip(scene.levels, pockets.HUB_STEPS, strict=True):
        x1, y1 = radius + 0.75, radius + 0.5
        assert level.cavity.bounds == pytest.approx((-x1, -y1, x1, y1), abs=0.01)


def test_a_hollow_within_walls_is_cut_away():
    ring = shapely.Point(0, 0).buffer(10) - shapely.Point(0, 0).buffer(6)
    assert filled(ring).area == pytest.approx(shapely.Point(0, 0).buffer(10).area)
    assert filled(shapely.box(0, 0, 1, 1)).equals(shapely.box(0, 0, 1, 1))
    boxes = ((-9, -9, 9, -6), (-9, 6, 9, 9), (-9, -9, -6, 9), (6, -9, 9, 9))
    frame = tuple(pockets.box_outline(*box) for box in boxes)
    target = demo.lever_target(levels=(Level(0.0, -4.0, frame),), side=0.0)
    assert _scene(target).cavity.area == pytest.approx(18 * 18)


def test_a_relief_widens_the_levels_that_it_reaches_and_no_others():
    shallow = Relief((18.0, 8.0), (20.0, 9.0), 1.5, (20.0, 9.0), -3.0)
    deep = Relief((-18.0, 8.0), (-20.0, 9.0), 1.5, (-20.0, 9.0), -8.0)
    scene = _scene(pockets.hub_target(reliefs=(shallow, deep)))
    right, left = shapely.Point(20.0, 9.0), shapely.Point(-20.0, 9.0)
    assert [level.cavity.contains(right) for level in scene.levels] == [True, False, False, False]
    assert [level.cavity.contains(left) for level in scene.levels] == [True, True, False, False]


def test_a_relief_that_ends_between_the_floors_is_cut_to_its_own_depth():
    relief = Relief((20.0, 9.0), (20.0, 9.0), 2.0, (20.0, 9.0), -2.0)
    scene = _scene(pockets.hub_target(reliefs=(relief,)))
    assert scene.cavity.contains(shapely.Point(20.0, 9.0))
    assert not scene.levels[0].cavity.contains(shapely.Point(21.0, 9.0))
    assert pocket_cut(scene, 20.0).bounds == pytest.approx((7.0, -2.0, 11.0, 0.0), abs=0.01)


def test_overlapping_silhouettes_are_drawn_as_one():
    loops = (pockets.box_outline(-5, -5, 5, 5), pockets.box_outline(0, -3, 20, 3))
    scene = _scene(demo.lever_target(silhouette=loops, holes=()))
    assert scene.part.geom_type == "Polygon"
    assert scene.part.area == pytest.approx(100 + 15 * 6)


@pytest.mark.parametrize(("units", "scale"), [(Units.MM, 1.0), (Units.INCH, 25.4)])
def test_the_edges_of_lower_levels_are_on_the_plan(units, scale):
    target = pockets.hub_target(grip=0.02, side=0.0)
    plan = _drawn(pockets.hub_program(), target, units)["plan"]
    for number, (_, _, radius) in enumerate(pockets.HUB_STEPS[1:], start=2):
        [ring] = _named(plan, f"level-{number}")
        away = np.hypot(*ring.T) * scale
        assert away == pytest.approx(np.full(len(ring), radius + 0.02), abs=0.01)


def test_two_floors_are_two_rings_on_the_plan():
    plan = _drawn(pockets.bosses_program(), pockets.bosses_target(side=0.0))["plan"]
    middles = sorted(round(float(ring[:, 0].mean())) for ring in _named(plan, "level-2"))
    assert middles == [-29, 29]


def test_a_plain_pocket_has_none_of_it():
    figure = backplot(demo.program(demo.pocket_cuts()), target=demo.lever_target())
    names = {line.get_gid() for axes in figure.axes for line in axes.lines}
    assert names & {"level-2", "groove", "edge", "drilled", "facing"} == set()
    words = " ".join(text.get_text() for axes in figure.axes for text in axes.texts)
    for word in ("level ", "levels", "groove", "drilled", "faced", "edge", "station"):
        assert word not in words.replace("level feed", "").replace("feed, level", "")


# --- what is cut beside the walls ------------------------------------------------------------


def test_the_pockets_section_is_stepped():
    cut = pocket_cut(HUB, 0.0)
    areas = sum(2 * r * (top - floor) for top, floor, r in pockets.HUB_STEPS)
    assert cut.area == pytest.approx(areas, rel=1e-3)
    for top, floor, r in pockets.HUB_STEPS:
        at = sections(shapely.transform(cut, np.fliplr), (top + floor) / 2)
        assert at == [pytest.approx((-r, r), abs=0.01)]


def test_the_groove_runs_along_the_foot_of_the_wall(dressed):
    scene = _scene(pockets.dressed_target(edge=0.0, drilled=(), side=0.0))
    cut = shapely.transform(pocket_cut(scene, -29.0), np.fliplr)
    assert sections(cut, -8.3) == [
        pytest.approx((-17, -15), abs=0.01),
        pytest.approx((15, 17), abs=0.01),
    ]
    assert cut.bounds[0] == pytest.approx(-8.6)
    inner = min(_named(dressed["plan"], "groove"), key=lambda ring: np.ptp(ring[:, 0]))
    assert (inner[:, 0].min(), inner[:, 0].max()) == pytest.approx((-44, 36), abs=0.01)


@pytest.mark.parametrize(("angle", "depth"), [(90.0, 0.7), (60.0, 0.7 / math.tan(math.pi / 6))])
def test_the_broken_edge_falls_as_the_cutters_flank_does(angle, depth):
    tool = replace(pockets.CHAMFER, angle=angle)
    scene = _scene(pockets.dressed_target(cutters=(tool,), drilled=(), side=0.0))
    assert scene.edge_depth == pytest.approx(depth)
    cut = shapely.transform(pocket_cut(scene, -29.0), np.fliplr)
    for share in (0.1, 0.5, 0.9):
        [(low, high)] = sections(cut, -depth * share)
        assert (-low, high) == pytest.approx((17 + 0.7 * (1 - share),) * 2, abs=0.01)


def test_the_broken_edge_is_a_line_on_the_blanks_only(dressed):
    points = np.vstack(_named(dressed["plan"], "edge"))
    wall = solid((demo.lever_outline(),), 0.005)
    away = [shapely.distance(wall, shapely.Point(point)) for point in points]
    assert away == pytest.approx([0.7] * len(points), abs=0.02)
    assert np.abs(points[:, 1]).min() >= 3.0 - 1e-9
    assert {bool(y > 0) for y in points[:, 1]} == {True, False}


def test_drilled_holes_are_circles_with_crossed_lines_on_the_plan(dressed):
    plan = dressed["plan"]
    rings = [p for p in plan.patches if isinstance(p, Circle) and p.get_gid() == "drilled"]
    assert {(*p.get_center(), 2 * p.get_radius()) for p in rings} == {
        (hole.x, hole.y, hole.dia) for hole in pockets.HOLES
    }
    lines = _named(plan, "drilled")
    assert len(lines) == 2 * len(rings)
    middles = {tuple(line.mean(axis=0)) for line in lines}
    assert middles == {(hole.x, hole.y) for hole in pockets.HOLES}


def test_holes_that_the_section_meets_are_cut_and_others_hidden(dressed):
    scene = _scene(pockets.dressed_target())
    assert [meets(bore, 52.0) for bore in scene.bores] == [True, True, False]
    assert [meets(bore, 49.4) for bore in scene.bores] == [False, False, False]
    cut = pocket_cut(scene, 52.0)
    assert cut.bounds == pytest.approx((-12.5, -17.5, 12.5, 0.0), abs=1e-5)
    hidden = _named(dressed["side"], "drilled")
    assert len(hidden) == 3
    assert {float(points[:, 1].min()) for points in hidden} == {-17.5, -8.9}


@given(share=st.floats(-0.99, 0.99), half=st.floats(30, 80))
@settings(max_examples=30)
def test_a_drills_point_cut_beside_its_axis_lies_on_its_cone(share, half):
    slope = math.tan(math.radians(half))
    bore = Bore(3.0, 4.0, 2.5, -10.0, -10.0 - 2.5 / slope)
    off = 2.5 * share
    corners = shapely.get_coordinates(bore_cut(bore, 3.0 + off, 0.0))
    low = corners[corners[:, 1] < -1]
    away = np.hypot(low[:, 0] - 4.0, off)
    assert low[:, 1] == pytest.approx(bore.tip + away / slope, abs=1e-9)
    assert corners[:, 1].max() == 0.0


def test_what_is_faced_off_stands_over_both_blanks(dressed):
    first, second = _named(dressed["side"], "facing")
    assert first.tolist() == [[-43, 0], [-43, 0.8], [-3, 0.8], [-3, 0]]
    assert second.tolist() == [[3, 0], [3, 0.8], [43, 0.8], [43, 0]]


# --- the part --------------------------------------------------------------------------------


def test_a_standing_turned_part_shows_its_shoulders_and_its_taper():
    scene = _scene(pockets.hub_target(holes=()))
    cut = body_cut(scene, 0.0)
    corners = [
        (-10, -22), (10, -22), (10, -13), (13, -13), (14, -3), (19, -3), (19, 3), (12, 3),
        (12, 11), (-12, 11), (-12, 3), (-19, 3), (-19, -3), (-14, -3), (-13, -13), (-10, -13),
    ]  # fmt: skip
    assert cut.symmetric_difference(shapely.Polygon(corners)).area < 0.3
    assert cut.exterior.coords[0] == pytest.approx((-10, -22), abs=0.01)


def test_holes_are_taken_out_of_the_part_alone():
    cut = body_cut(HUB, 0.0)
    assert len(shapely.get_parts(cut)) == 2
    assert cut.area == pytest.approx(
        body_cut(_scene(pockets.hub_target(holes=())), 0).area - 8 * 33
    )
    assert pocket_cut(HUB, 0.0).contains(shapely.Point(0.0, -20.0))


def test_a_taper_cut_beside_the_axis_is_a_hyperbola():
    body = pockets.disc_body(((-10.0, 5.0), (0.0, 15.0)))
    scene = _scene(pockets.hub_target(body=body, holes=()))
    cut = shapely.transform(body_cut(scene, 4.0), np.fliplr)
    for z in (-9.0, -6.0, -2.5):
        [(low, high)] = sections(cut, z)
        half = math.sqrt((15 + z) ** 2 - 16)
        assert (-low, high) == pytest.approx((half, half), abs=0.06)


def test_a_lying_turned_part_shows_its_circle():
    scene = _scene(pockets.shaft_target())
    for x, radius in ((-20.0, 8.0), (-10.0, 15.0), (20.0, 10.0)):
        cut = body_cut(scene, x)
        assert cut.area == pytest.approx(math.pi * radius**2, rel=0.02)
        corners = shapely.get_coordinates(cut)
        assert np.hypot(*corners.T) == pytest.approx(np.full(len(corners), radius), rel=0.03)


def test_sections_at_one_height_are_a_step():
    cut = body_cut(_scene(pockets.bosses_target(holes=())), -29.0)
    assert cut.bounds == pytest.approx((-17, -9, 17, 4), abs=0.01)
    assert cut.area == pytest.approx(26 * 5 + 34 * 8, rel=1e-3)


def test_outlines_that_do_not_correspond_change_halfway():
    body = (
        Section(-8.0, (pockets.box_outline(-5, -5, 5, 5),)),
        Section(0.0, (pockets.box_outline(-5, -9, 5, -6), pockets.box_outline(-5, 6, 5, 9))),
    )
    cut = shapely.transform(
        body_cut(_scene(demo.lever_target(body=body, holes=())), 0.0), np.fliplr
    )
    assert sections(cut, -4.1) == [pytest.approx((-5, 5))]
    assert sections(cut, -3.9) == [pytest.approx((-9, -6)), pytest.approx((6, 9))]


def test_only_what_changes_gets_slices_between():
    body = pockets.disc_body(pockets.HUB_ROWS)
    heights = [z for z, _ in slices(body, 0.005)]
    assert heights == sorted(heights)
    between = [z for z in heights if z not in {row[0] for row in pockets.HUB_ROWS}]
    assert between
    assert all(-13 < z < -3 for z in between)


def test_the_part_stands_proud_in_the_side_view():
    side = _drawn(pockets.hub_program(), pockets.hub_target())["side"]
    [part] = [p for p in side.patches if p.get_gid() == "part"]
    extents = part.get_path().get_extents()
    assert (extents.y0, extents.y1) == pytest.approx((-22, 11))
    assert (extents.x0, extents.x1) == pytest.approx((-19, 19), abs=0.01)


# --- where it is cut -------------------------------------------------------------------------


def test_a_turned_part_is_cut_at_its_axis():
    assert _section_x(pockets.hub_program(), pockets.hub_target()) == pytest.approx(0, abs=1e-6)
    moved = pockets.hub_target(zero=(-50.0, 0.0, 0.0))
    found = _section_x(pockets.hub_program(), moved, Units.INCH)
    assert found == pytest.approx(50 / 25.4, abs=1e-6)


def test_of_two_floors_the_larger_one_is_cut():
    found = _section_x(pockets.bosses_program(), pockets.bosses_target())
    assert found == pytest.approx(-29.0, abs=1e-6)


def test_a_lying_part_is_cut_where_it_is_large():
    found = _section_x(pockets.shaft_program(), pockets.shaft_target())
    assert -14 < found < -6


def test_a_place_that_shows_more_levels_goes_before_the_middle_of_the_floor():
    steps = ((0.0, -2.0, -30, 30), (-2.0, -4.0, -30, -10), (-4.0, -6.0, -30, -26))
    levels = [Level(a, b, (pockets.box_outline(c, -9 - a, d, 9 + a),)) for a, b, c, d in steps]
    island = pockets.box_outline(20, -3, 29, 3)
    levels[2] = replace(levels[2], outlines=(*levels[2].outlines, island))
    found = _section_x(
        demo.program(demo.pocket_cuts()),
        demo.lever_target(
            **{**demo.upright(levels[0].outlines[0], -6.0), "levels": tuple(levels)}, holes=()
        ),
    )
    assert -30 < found < -26


def test_a_hole_drilled_beside_the_pocket_does_not_draw_the_section_to_it():
    program, target = pockets.dressed_program(), pockets.dressed_target()
    found = _section_x(program, target)
    assert sections(_scene(target).cavity, found)
