"""Each kind of entity against closed-form area and perimeter, and against shapely's area."""

import math

import numpy as np
import pytest
import shapely
from part_help import (
    INCH,
    TOLERANCE,
    arcs,
    continuous,
    dots,
    ellipse_length,
    new_drawing,
    polygon,
    read,
    within,
)

from jawcam.geometry.shapes import Arc, Line
from jawcam.tolerance import Tolerance
from jawcam.units import Units

FLIP = {"extrusion": (0, 0, -1)}
QUARTER = math.tan(math.pi / 8)  # the bulge of a quarter circle


def circle(space):
    space.add_circle((3, 4), 5)


def half_disc(space):
    space.add_arc((0, 0), 5, 270, 90)
    space.add_line((0, 5), (0, -5))


def three_quarters(space):
    space.add_arc((0, 0), 4, 90, 360)
    space.add_line((0, 0), (4, 0))
    space.add_line((0, 4), (0, 0))


def square(space):
    for a, b in (((0, 0), (7, 0)), ((7, 7), (7, 0)), ((7, 7), (0, 7)), ((0, 7), (0, 0))):
        space.add_line(a, b)


def rounded(space):
    rows = [(0, 2, 0), (0, 8, -QUARTER), (2, 10, 0), (18, 10, -QUARTER), (20, 8, 0)]
    rows += [(20, 2, -QUARTER), (18, 0, 0), (2, 0, -QUARTER)]
    space.add_lwpolyline(rows, format="xyb", close=True)


def rounded_backwards(space):
    rows = [(2, 0, 0), (18, 0, QUARTER), (20, 2, 0), (20, 8, QUARTER), (18, 10, 0)]
    rows += [(2, 10, QUARTER), (0, 8, 0), (0, 2, QUARTER)]
    space.add_lwpolyline(rows, format="xyb", close=True)


def slot(space):
    rows = [(0, 0, 0), (10, 0, 1), (10, 6, 0), (0, 6, 1)]
    space.add_polyline2d(rows, format="xyb", close=True)


def triangle_in_space(space):
    space.add_polyline3d([(0, 0, 5), (6, 0, 5), (0, 8, 5)], close=True)


def flipped_circle(space):
    space.add_circle((3, 4), 5, dxfattribs=FLIP)


def flipped_half(space):
    space.add_arc((0, 0), 5, 270, 90, dxfattribs=FLIP)
    space.add_line((0, 5), (0, -5))


def flipped_slot(space):
    rows = [(0, 0, 0), (10, 0, 1), (10, 6, 0), (0, 6, 1)]
    space.add_lwpolyline(rows, format="xyb", close=True, dxfattribs=FLIP)


def round_ellipse(space):
    space.add_ellipse((1, 2), (3, 4), 1.0)


ROUNDED = 20 * 10 - 4 * (4 - math.pi)
EXACT = [
    (circle, 25 * math.pi, 10 * math.pi, 1),
    (half_disc, 12.5 * math.pi, 5 * math.pi + 10, 1),
    (three_quarters, 12 * math.pi, 6 * math.pi + 8, 1),
    (square, 49, 28, 0),
    (rounded, ROUNDED, 2 * 16 + 2 * 6 + 4 * math.pi, 4),
    (rounded_backwards, ROUNDED, 2 * 16 + 2 * 6 + 4 * math.pi, 4),
    (slot, 60 + 9 * math.pi, 20 + 6 * math.pi, 2),
    (triangle_in_space, 24, 24, 0),
    (flipped_circle, 25 * math.pi, 10 * math.pi, 1),
    (flipped_half, 12.5 * math.pi, 5 * math.pi + 10, 1),
    (flipped_slot, 60 + 9 * math.pi, 20 + 6 * math.pi, 2),
    (round_ellipse, 25 * math.pi, 10 * math.pi, 1),
]


@pytest.mark.parametrize(("draw", "area", "length", "count"), EXACT)
def test_lines_and_arcs_stay_exact(tmp_path, draw, area, length, count):
    document = new_drawing()
    draw(document.modelspace())
    outer = read(document, tmp_path).outer
    assert outer.area == pytest.approx(area, abs=1e-9)  # closed form
    assert outer.length == pytest.approx(length, abs=1e-9)
    assert polygon(outer).area == pytest.approx(area, rel=1e-5)
    assert len(arcs(outer)) == count
    assert outer.closed
    assert continuous(outer)


def test_flipped_entities_are_mirrored(tmp_path):
    document = new_drawing()
    flipped_slot(document.modelspace())
    assert read(document, tmp_path).outer.box == pytest.approx((-13, 0, 3, 6))


def test_inches_become_millimetres(tmp_path):
    document = new_drawing(INCH)
    document.modelspace().add_circle((1, 0), 0.5)
    (arc,) = read(document, tmp_path).outer.segments
    assert arc.radius == pytest.approx(12.7, abs=1e-12)
    assert arc.centre == pytest.approx((25.4, 0), abs=1e-12)


def test_a_smoothed_polyline_goes_through_its_curve_not_its_frame(tmp_path):
    document = new_drawing()
    line = document.modelspace().add_polyline2d([(0, 0), (4, 0), (4, 3)], close=True)
    line.append_vertex((99, 99))
    line.vertices[-1].dxf.flags = 16
    assert read(document, tmp_path).outer.area == pytest.approx(6)


# --- curves ----------------------------------------------------------------------------------


def test_an_ellipse(tmp_path):
    document = new_drawing()
    document.modelspace().add_ellipse((5, -3), (12, 16), 0.5)
    outline = read(document, tmp_path)
    outer = outline.outer
    area, length = math.pi * 20 * 10, ellipse_length(20, 10)
    assert outer.area == pytest.approx(area, abs=TOLERANCE.fit * length)
    assert outer.length == pytest.approx(length, abs=1e-3)
    assert len(arcs(outer)) == len(outer.segments) <= 60
    t = np.linspace(0, 2 * math.pi, 20001)
    x = 5 + 12 * np.cos(t) - 8 * np.sin(t)
    y = -3 + 16 * np.cos(t) + 6 * np.sin(t)
    assert within(outer, np.column_stack([x, y]), TOLERANCE.fit)
    assert any("ELLIPSE" in note for note in outline.notes)


def test_a_piece_of_an_ellipse_closed_by_a_line(tmp_path):
    document = new_drawing()
    space = document.modelspace()
    space.add_ellipse((0, 0), (6, 0), 0.5, start_param=0, end_param=math.pi)
    space.add_line((-6, 0), (6, 0))
    outer = read(document, tmp_path).outer
    assert outer.area == pytest.approx(math.pi * 6 * 3 / 2, abs=TOLERANCE.fit * outer.length)
    assert len([s for s in outer.segments if isinstance(s, Line)]) == 1


def test_a_flipped_piece_of_an_ellipse_lies_on_the_other_side(tmp_path):
    document = new_drawing()
    space = document.modelspace()
    space.add_ellipse((0, 0), (6, 0), 0.5, 0, math.pi, dxfattribs=FLIP)
    space.add_line((-6, 0), (6, 0))
    assert read(document, tmp_path).outer.box == pytest.approx((-6, -3, 6, 0), abs=1e-3)


def test_a_parabola_drawn_as_a_spline(tmp_path):
    """Archimedes: the area between parabola and chord is 2/3 of its control triangle."""
    document = new_drawing()
    space = document.modelspace()
    spline = space.add_spline(degree=2)
    spline.control_points = [(0, 0, 0), (5, 8, 0), (10, 0, 0)]
    spline.knots = [0, 0, 0, 1, 1, 1]
    space.add_line((0, 0), (10, 0))
    outer = read(document, tmp_path).outer
    assert outer.area == pytest.approx(2 / 3 * 40, abs=TOLERANCE.fit * outer.length)


def test_a_rational_circle_is_one_full_arc(tmp_path):
    """Nine control points, weights 1 and 1 / sqrt 2 in turn, double knots at the quarters."""
    document = new_drawing()
    spline = document.modelspace().add_spline(degree=2)
    rim = [(1, 0), (1, 1), (0, 1), (-1, 1), (-1, 0), (-1, -1), (0, -1), (1, -1), (1, 0)]
    spline.control_points = [(7 * x + 1, 7 * y + 2, 0) for x, y in rim]
    spline.weights = [1 if k % 2 == 0 else math.sqrt(0.5) for k in range(9)]
    spline.knots = [0, 0, 0, 1, 1, 2, 2, 3, 3, 4, 4, 4]
    (arc,) = read(document, tmp_path).outer.segments
    assert arc.start == arc.end
    assert arc.radius == pytest.approx(7, abs=1e-6)
    assert arc.centre == pytest.approx((1, 2), abs=1e-6)


def test_a_spline_of_a_line_and_an_arc_gives_them_back(tmp_path):
    """Degree 2, a double knot where the straight leg meets the quarter circle."""
    document = new_drawing()
    space = document.modelspace()
    spline = space.add_spline(degree=2)
    spline.control_points = [(0, 0, 0), (5, 0, 0), (10, 0, 0), (14, 0, 0), (14, 4, 0)]
    spline.weights = [1, 1, 1, math.sqrt(0.5), 1]
    spline.knots = [0, 0, 0, 1, 1, 2, 2, 2]
    space.add_line((0, 0), (0, 4))
    space.add_line((0, 4), (14, 4))
    outer = read(document, tmp_path).outer
    (arc,) = arcs(outer)
    assert arc.radius == pytest.approx(4, abs=1e-6)
    assert len(outer.segments) == 4
    assert outer.area == pytest.approx(40 + 4 * math.pi, abs=1e-6)


def test_a_straight_spline_is_one_line(tmp_path):
    document = new_drawing()
    space = document.modelspace()
    spline = space.add_spline(degree=3)
    spline.control_points = [(0, 0, 0), (1, 0, 0), (5, 0, 0), (6, 0, 0)]
    spline.knots = [0, 0, 0, 0, 1, 1, 1, 1]
    space.add_line((0, 0), (3, 4))
    space.add_line((3, 4), (6, 0))
    outer = read(document, tmp_path).outer
    assert [type(s) for s in outer.segments] == [Line] * 3
    assert outer.area == pytest.approx(12, abs=1e-9)


def cam_points(count=12):
    turns = [2 * math.pi * k / count for k in range(count)]
    return [((20 + 3 * math.cos(2 * t)) * math.cos(t), 20 * math.sin(t), 0) for t in turns]


def outside_view(spline, count=40000):
    """Dense points of a SPLINE as the drawing library computes them, over its own domain."""
    tool = spline.construction_tool()
    knots = tool.knots()
    first, last = knots[tool.degree], knots[-1 - tool.degree]
    t = [first + (last - first) * k / count for k in range(count + 1)]
    return np.array([(p.x, p.y) for p in tool.points(t)])


def test_a_closed_periodic_spline_is_followed(tmp_path):
    document = new_drawing()
    spline = document.modelspace().add_spline()
    spline.set_closed(cam_points(), degree=3)
    outline = read(document, tmp_path)
    assert within(outline.outer, outside_view(spline), TOLERANCE.fit)
    assert outline.outer.closed
    assert len(outline.outer.segments) < 80


def test_a_rational_closed_spline_is_followed(tmp_path):
    document = new_drawing()
    weights = [1, 2, 1, 0.5] * 3
    spline = document.modelspace().add_spline()
    spline.set_closed_rational(cam_points(), weights, degree=3)
    assert within(read(document, tmp_path).outer, outside_view(spline), TOLERANCE.fit)


def test_a_spline_of_fit_points_alone_is_followed(tmp_path):
    document = new_drawing()
    space = document.modelspace()
    fit = [(0, 0), (4, 3), (9, 1), (13, 6), (16, 0)]
    spline = space.add_spline(fit)
    space.add_line((0, 0), (16, 0))
    outer = read(document, tmp_path).outer
    view = np.vstack([outside_view(spline), (0, 0)])
    assert within(outer, view, TOLERANCE.fit)


def test_a_closed_spline_of_fit_points_goes_through_them_smoothly(tmp_path):
    """Sixteen points of a circle: the periodic cubic comes within 0.001 of it all round."""
    document = new_drawing()
    spline = document.modelspace().add_spline(
        [(10 * math.cos(k * math.pi / 8), 10 * math.sin(k * math.pi / 8)) for k in range(16)]
    )
    spline.closed = True
    outer = read(document, tmp_path).outer
    radii = np.hypot(*dots(outer).T)
    assert outer.closed
    assert abs(radii - 10).max() < 1e-3
    line = shapely.LineString(dots(outer))
    on = [(10 * math.cos(k * math.pi / 8), 10 * math.sin(k * math.pi / 8)) for k in range(16)]
    assert shapely.distance(shapely.points(on), line).max() <= TOLERANCE.fit


def test_a_spline_with_a_threefold_knot_keeps_its_corner(tmp_path):
    document = new_drawing()
    space = document.modelspace()
    spline = space.add_spline(degree=3)
    up = [(0, 0, 0), (1, 3, 0), (3, 5, 0), (5, 6, 0)]
    spline.control_points = [*up, *((10 - x, y, 0) for x, y, _ in reversed(up[:-1]))]
    spline.knots = [0, 0, 0, 0, 1, 1, 1, 2, 2, 2, 2]
    space.add_line((0, 0), (10, 0))
    outline = read(document, tmp_path)
    assert within(outline.outer, np.vstack([outside_view(spline), (0, 0)]), TOLERANCE.fit)
    ends = [segment.end for segment in outline.outer.segments]
    assert any(end == pytest.approx((5, 6), abs=1e-12) for end in ends)


@pytest.mark.parametrize("turn", [0, 7, 111.1, 200])
@pytest.mark.parametrize("end", [390, 30, 30 + 1e-10, 30 - 1e-10])
def test_an_arc_all_the_way_round_is_a_full_circle_however_it_is_turned(tmp_path, turn, end):
    document = new_drawing()
    document.blocks.new("B").add_arc((0, 0), 5, 30, end)
    document.modelspace().add_blockref("B", (0, 0), {"rotation": turn, "xscale": -1})
    (arc,) = read(document, tmp_path).outer.segments
    assert isinstance(arc, Arc)
    assert arc.start == arc.end
    assert arc.radius == pytest.approx(5)


def test_an_old_drawing_with_heavy_polylines(tmp_path):
    document = new_drawing(version="R12")
    slot(document.modelspace())
    outer = read(document, tmp_path, units=Units.MM).outer
    assert outer.area == pytest.approx(60 + 9 * math.pi, abs=1e-9)


def test_a_spline_that_stands_still_has_a_cusp_there(tmp_path):
    """The cubic over (0, 0), (10, 10), (0, 10), (10, 0) turns back at (5, 7.5)."""
    document = new_drawing()
    space = document.modelspace()
    spline = space.add_spline(degree=3)
    spline.control_points = [(0, 0, 0), (10, 10, 0), (0, 10, 0), (10, 0, 0)]
    spline.knots = [0, 0, 0, 0, 1, 1, 1, 1]
    space.add_line((0, 0), (10, 0))
    outer = read(document, tmp_path).outer
    assert within(outer, np.vstack([outside_view(spline), (0, 0)]), TOLERANCE.fit)
    assert any(segment.end == pytest.approx((5, 7.5), abs=1e-12) for segment in outer.segments)


def test_a_looser_tolerance_takes_fewer_arcs(tmp_path):
    document = new_drawing()
    document.modelspace().add_ellipse((0, 0), (20, 0), 0.5)
    fine = read(document, tmp_path, tolerance=Tolerance(fit=0.0005)).outer
    rough = read(document, tmp_path, tolerance=Tolerance(fit=0.02)).outer
    assert len(rough.segments) < len(fine.segments) / 2
