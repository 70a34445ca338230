"""What a lathe's picture draws, and where."""

import math
from dataclasses import replace

import numpy as np
import pytest
import show_demos as demo
import show_turned as turned
from matplotlib.collections import LineCollection
from matplotlib.colors import to_rgb

from jawcam.errors import InputError
from jawcam.proof.report import Report
from jawcam.reader.cuts import Program
from jawcam.show.save import save
from jawcam.show.turned_path import tool_look
from jawcam.show.turned_plot import turned_plot
from jawcam.units import Units


def _axes(figure, label="half section"):
    return next(axes for axes in figure.axes if axes.get_label() == label)


def _named(figure, gid):
    """The points of the lines of that name, one array each."""
    return [line.get_xydata() for line in _axes(figure).lines if line.get_gid() == gid]


def _shape(figure, gid):
    [patch] = [patch for patch in _axes(figure).patches if patch.get_gid() == gid]
    return patch.get_xy()[:-1]


def _words(figure, gid):
    return [text.get_text() for text in _axes(figure).texts if text.get_gid() == gid]


def _strands(figure):
    found = [c for c in _axes(figure).collections if isinstance(c, LineCollection)]
    return {c.get_gid(): c for c in found}


def _holds(points, spot):
    return bool((np.abs(np.asarray(points) - spot).max(axis=1) < 1e-6).any())


@pytest.fixture(scope="module")
def pin():
    return turned_plot(turned.pin_program(), target=turned.pin_target())


@pytest.fixture(scope="module")
def knob():
    return turned_plot(turned.knob_program(), target=turned.knob_target())


def test_a_program_without_moves_is_refused():
    with pytest.raises(InputError, match="no move"):
        turned_plot(Program("empty.nc", (), ()), target=turned.pin_target())


def test_the_part_lies_over_the_axis_and_its_mirror_below(pin):
    upper, lower = (np.vstack(_named(pin, gid)) for gid in ("part", "mirrored"))
    for z, x, *_ in turned.PIN:
        assert _holds(upper, (z, x))
        assert _holds(lower, (z, -x))
    assert upper[:, 1].min() >= 0
    assert lower[:, 1].max() <= 0


def test_a_round_is_drawn_about_its_centre(pin):
    upper = np.vstack(_named(pin, "part"))
    inside = (upper[:, 0] < -22.0) & (upper[:, 0] > -23.0) & (upper[:, 1] > 9.9)
    assert inside.sum() >= 4
    assert np.allclose(np.hypot(upper[inside, 0] + 23.0, upper[inside, 1] - 10.0), 1.0, atol=1e-6)


def test_no_edge_is_drawn_along_the_axis(pin):
    for gid in ("part", "stock", "mirrored", "keep off"):
        for line in _named(pin, gid):
            along = np.abs(line[:, 1]) < 1e-3
            assert along.sum() <= 2
            assert not (along[1:] & along[:-1]).any()


def test_the_stock_the_limit_and_the_axis_are_where_the_target_says(pin):
    stock = np.vstack(_named(pin, "stock"))
    assert _holds(stock, (1.0, 16.0))
    [limit], [axis] = _named(pin, "limit"), _named(pin, "axis")
    assert set(limit[:, 0]) == {-62.0}
    assert set(axis[:, 1]) == {0.0}


def test_jaws_and_tailstock_are_hatched_differently_from_the_work():
    # of the chuck's body nothing is in the picture
    figure = turned_plot(turned.shaft_program(), target=turned.shaft_target())
    edges = _named(figure, "keep off")
    assert any(_holds(line, (-240.0, 11.0)) for line in edges)
    assert any(_holds(line, (0.5, 10.0)) for line in edges)
    hatches = [p.get_hatch() for p in _axes(figure).patches if p.get_hatch()]
    assert len(set(hatches)) == len(hatches) == 3


def test_a_thread_is_a_thin_line_at_its_root(pin):
    upper, lower = _named(pin, "thread")
    assert np.allclose(upper, [(0.0, 10.0 - 1.534), (-18.0, 10.0 - 1.534)])
    assert np.allclose(lower, upper * [1, -1])
    end = _named(pin, "thread end")[0]
    assert np.allclose(end, [(-18.0, 10.0), (-18.0, 10.0 - 1.534)])
    assert "M20x2.5 6g" in _words(pin, "diameter")


def test_a_thread_in_a_bore_has_its_root_outside(knob):
    roots = [line for line in _named(knob, "thread") if line[0, 1] > 0]
    assert sorted(float(line[0, 1]) for line in roots) == pytest.approx([9.0, 9.08])


def test_the_parting_face_goes_from_the_axis_to_the_stocks_outside(knob, pin):
    [face] = _named(knob, "parted")
    assert np.allclose(face, [(-40.0, 0.0), (-40.0, 20.0)])
    assert "Z -40 off" in _words(knob, "face")
    assert _named(pin, "parted") == []


def test_places_left_are_drawn_in_their_size(knob):
    [circle] = [p for p in _axes(knob).patches if p.get_gid() == "left"]
    assert circle.get_center() == (-20.4, 15.0)
    assert circle.get_radius() == 0.7


def test_moves_are_drawn_at_the_radius_that_the_cuts_tell(pin):
    drawn = _strands(pin)
    facing = np.vstack(drawn["feed-T1"].get_segments())
    assert _holds(facing, (0.0, -0.8))
    assert _holds(np.vstack(drawn["groove-T3"].get_segments()), (-31.0, 9.0))
    assert _holds(np.vstack(drawn["thread-T4"].get_segments()), (-19.25, 10.0 - 1.534))


def test_an_arc_is_drawn_about_its_centre(pin):
    points = np.vstack(_strands(pin)["feed-T2"].get_segments())
    on_it = (points[:, 0] < -22.0) & (points[:, 0] > -23.0)
    assert on_it.sum() >= 4
    assert np.allclose(np.hypot(points[on_it, 0] + 23.0, points[on_it, 1] - 10.0), 1.0, atol=1e-6)


def test_kinds_of_cuts_differ_by_line_type(pin):
    drawn = _strands(pin)
    types = [
        drawn[gid].get_linestyle()[0] for gid in ("rapid", "feed-T1", "groove-T3", "thread-T4")
    ]
    assert len({str(kind) for kind in types}) == 4
    assert drawn["feed-T1"].get_linestyle()[0][1] is None


def test_later_tools_are_darker_in_grey_and_narrower():
    order = (3, 1, 7, 5, 2)
    looks = [tool_look(order, number) for number in order]
    grey = [np.dot(to_rgb(look["color"]), (0.299, 0.587, 0.114)) for look in looks]
    widths = [look["linewidth"] for look in looks]
    assert (np.diff(grey) < -0.04).all()
    assert (np.diff(widths) < 0).all()


def test_inserts_stand_with_their_set_point_on_the_path(pin):
    first, deepest = _shape(pin, "T1 first"), _shape(pin, "T1 deepest")
    # the corner of the nose's box lies ahead of a right-hand tool: towards the chuck and the axis
    assert first.min(axis=0) == pytest.approx((0.0, 18.0), abs=0.1)
    assert deepest.min(axis=0)[1] == pytest.approx(-0.8, abs=1e-3)
    nose = np.hypot(deepest[:, 0] - 0.8, deepest[:, 1] - 0.0)
    assert (np.abs(nose - 0.8) < 2e-3).sum() > 5


def test_blades_and_points_stand_on_the_path(pin):
    blade = _shape(pin, "T3 deepest")
    assert blade.min(axis=0) == pytest.approx((-22.0, 8.5))
    assert blade.max(axis=0) == pytest.approx((-19.0, 18.5))
    point = _shape(pin, "T4 deepest")
    assert _holds(point, (-19.25, 10.0 - 1.534))
    [a, b] = [p for p in point if p[1] > 10.0]
    assert math.degrees(2 * math.atan(abs(a[0] - b[0]) / 2 / 4.0)) == pytest.approx(60.0)


def test_inside_and_drilling_tools_are_deepest_farthest_in(knob):
    drill = _shape(knob, "T7 deepest")
    assert drill[:, 0].min() == -30.0
    assert drill[:, 1].max() == 8.0
    bar = _shape(knob, "T8 deepest")
    assert bar.max(axis=0)[1] == pytest.approx(8.4, abs=1e-3)
    assert bar.min(axis=0)[0] == pytest.approx(-12.0, abs=1e-3)


def test_a_left_hand_insert_lies_behind_its_set_point(knob):
    shape = _shape(knob, "T9 first")
    assert shape[:, 0].max() == pytest.approx(-40.0, abs=0.01)


def test_under_the_controls_compensation_the_nose_touches_the_profile():
    pen = turned.Pen().call(2)
    pen.rapid(3.0, 10.0)
    pen.side = "right"
    pen.feed(z=-20.0)
    figure = turned_plot(turned.program(pen), target=turned.pin_target())
    # towards the chuck, compensated right: the nose is at the side away from the axis
    shape = _shape(figure, "T2 deepest")
    assert shape[:, 1].min() == pytest.approx(10.0, abs=1e-3)
    assert shape[:, 0].min() < -20.0


def test_main_diameters_and_faces_are_told_once(pin):
    told = _words(pin, "diameter")
    assert sorted(told) == sorted(
        ["M20x2.5 6g", "dia 17", "dia 22", "dia 18", "dia 22", "dia 26 to 22", "dia 30"]
    )
    faces = _words(pin, "face")
    assert sorted(faces) == sorted(["Z 0", "Z -22", "Z -28", "Z -31", "Z -36", "Z -48", "Z -60"])


def test_sizes_are_told_in_the_pictures_units():
    figure = turned_plot(turned.shaft_program(), target=turned.shaft_target(), units=Units.INCH)
    assert "dia 0.5906" in _words(figure, "diameter")
    assert "Z -5.9055" in _words(figure, "face")
    assert _axes(figure).get_xlabel() == "Z from program zero, inch"
    assert _axes(figure).get_ylabel() == "X, diameter, inch"
    assert _holds(np.vstack(_named(figure, "part")), (-150 / 25.4, 9 / 25.4))


def test_numbers_along_x_are_diameters(pin):
    axes = _axes(pin)
    tick = axes.get_yticks()[1]
    assert axes.yaxis.get_major_formatter()(tick, 1) == f"{2 * tick:g}"
    assert axes.get_ylabel() == "X, diameter, mm"


def test_the_scale_that_it_tells_is_the_one_on_paper(pin):
    told = next(
        text.get_text() for axes in pin.axes for text in axes.texts if "on A4" in text.get_text()
    )
    (x0, _), (x1, _) = _axes(pin).transData.transform([(0, 0), (1, 0)])
    paper = (x1 - x0) / pin.dpi * 25.4
    assert paper == pytest.approx(float(told.split(", ")[1].split()[0]), rel=0.01)


def test_findings_are_flagged_at_half_their_x():
    found = turned.findings(3)
    report = Report(found, demo.FIGURES)
    figure = turned_plot(turned.pin_program(), target=turned.pin_target(), report=report)
    ends = np.vstack([line.get_xydata() for line in _axes(figure).lines])
    for finding in found:
        assert _holds(ends, (finding.z, finding.x / 2))
    flags = {line.get_gid() for line in _axes(figure).lines if line.get_gid()}
    assert {"flag-1", "flag-2", "flag-3"} <= flags
    page = [text.get_text() for text in _axes(figure, "page").texts]
    assert "The proof found faults. Do not run this program." in page


def test_moves_at_another_work_offset_are_left_out():
    cuts = turned.pin_program().cuts
    elsewhere = tuple(c._replace(work_offset=1 + (c.tool == 3)) for c in cuts)
    program = replace(turned.pin_program(), cuts=elsewhere)
    figure = turned_plot(program, target=turned.pin_target())
    assert "groove-T3" not in _strands(figure)
    assert "feed-T1" in _strands(figure)


@pytest.mark.parametrize("ending", [".png", ".svg", ".pdf"])
def test_files_hold_the_same_bytes_every_time(tmp_path, ending):
    made = []
    for name in ("one", "two"):
        save(
            turned_plot(turned.pin_program(), target=turned.pin_target()),
            tmp_path / (name + ending),
        )
        made.append((tmp_path / (name + ending)).read_bytes())
    assert made[0] == made[1]


def test_a_drill_reaches_out_of_the_work(knob):
    drill = _shape(knob, "T7 deepest")
    assert drill[:, 0].max() > 1.0
    assert drill[:, 1].min() == 0.0
