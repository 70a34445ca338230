"""The backplot's lines lie where the cuts are, and the files hold it."""

import math
import os
import subprocess
import sys
from dataclasses import replace
from itertools import pairwise

import matplotlib as mpl
import numpy as np
import pytest
import show_demos as demo
from matplotlib.backends.backend_agg import FigureCanvasAgg
from matplotlib.collections import LineCollection
from matplotlib.figure import Figure
from matplotlib.patches import Circle

from jawcam.errors import InputError
from jawcam.hold.target import Unreached
from jawcam.proof.report import Report
from jawcam.reader.cuts import Program
from jawcam.show import window
from jawcam.show.backplot import backplot, save, show_window
from jawcam.show.page import Box, Pads, blank_page
from jawcam.show.page import view as make_view
from jawcam.show.style import DEPTHS, drawing_style
from jawcam.units import Units


@pytest.fixture(scope="module")
def lever():
    return backplot(demo.program(demo.pocket_cuts()), target=demo.lever_target())


def _axes(figure, label):
    return next(axes for axes in figure.axes if axes.get_label() == label)


def _lines(figure, view, name):
    axes = _axes(figure, view)
    return next(
        c for c in axes.collections if isinstance(c, LineCollection) and c.get_gid() == name
    )


def _points(lines):
    return np.vstack(lines.get_segments())


def _words(figure):
    return [text.get_text() for text in figure.findobj(mpl.text.Text)]


def _holds(points, point):
    return np.hypot(*(points - point).T).min() < 1e-9


@pytest.mark.parametrize(("units", "scale"), [(Units.MM, 1.0), (Units.INCH, 25.4)])
def test_the_ends_of_all_level_cuts_are_on_the_plan(units, scale):
    cuts = demo.pocket_cuts()
    figure = backplot(demo.program(cuts), target=demo.lever_target(), units=units)
    points = _points(_lines(figure, "plan", "feed")) * scale
    level = [cut for cut in cuts if cut.kind != "rapid" and cut.start[2] == cut.end[2]]
    assert len(level) > 20
    for cut in level:
        assert _holds(points, cut.start[:2])
        assert _holds(points, cut.end[:2])


def test_arcs_are_drawn_round(lever):
    # The wall pass runs 13 mm round the large boss's centre.
    points = _points(_lines(lever, "plan", "feed"))
    left = points[points[:, 0] < -31.0]
    near = left[np.abs(np.hypot(left[:, 0] + 29.0, left[:, 1]) - 13.0) < 1e-6]
    angles = np.sort(np.unique(np.round(np.arctan2(near[:, 1], near[:, 0] + 29.0) % math.tau, 6)))
    assert angles[-1] - angles[0] > math.pi * 0.9
    assert np.diff(angles).max() < 0.2


def test_kinds_of_move_differ_in_line_type_not_only_in_colour(lever):
    assert {dashes for _, dashes in _lines(lever, "plan", "feed").get_linestyle()} == {None}
    assert {dashes is None for _, dashes in _lines(lever, "plan", "rapid").get_linestyle()} == {
        False
    }
    dashes = _lines(lever, "plan", "entry").get_segments()
    gaps = [np.hypot(*(a[-1] - b[0])) for a, b in pairwise(dashes)]
    assert len(dashes) > 12
    assert np.median(gaps) > 0.5


def test_depth_sets_colour_and_width(lever):
    feed = _lines(lever, "plan", "feed")
    z, widths = np.asarray(feed.get_array()), np.asarray(feed.get_linewidths())
    inside = z <= 0
    assert (np.diff(z) <= 0).all()
    assert (np.diff(widths[inside]) <= 0).all()
    assert widths[inside][0] > widths[inside][-1]
    assert (feed.norm.vmin, feed.norm.vmax) == (-8.0, 0.0)


def test_depth_colours_get_steadily_lighter():
    r, g, b, _ = np.array([DEPTHS(i) for i in range(256)]).T
    grey = 0.299 * r + 0.587 * g + 0.114 * b  # ITU-R BT.601
    assert (np.diff(grey) >= -1e-3).all()
    assert grey[-1] - grey[0] > 0.45


def test_helix_is_drawn_falling_in_the_side_view(lever):
    points = _points(_lines(lever, "side", "entry"))
    assert points[:, 1].min() == -8.0
    assert np.abs(points[:, 0]).max() >= 3.0 - 1e-3
    assert (points[:, 1] > -8.0).any()


def test_levels_are_drawn_in_the_side_view(lever):
    points = _points(_lines(lever, "side", "feed"))
    assert {round(z, 3) for z in points[:, 1]} == {-2.667, -5.333, -8.0}


def test_blanks_and_cavity_are_outlined_to_size(lever):
    plan = np.vstack([line.get_xydata() for line in _axes(lever, "plan").lines])
    for corner in ((-65.0, -43.0), (65.0, 43.0), (-65.0, 3.0), (65.0, -3.0)):
        assert _holds(plan, corner)
    side = np.vstack([line.get_xydata() for line in _axes(lever, "side").lines])
    for corner in ((-43.0, -38.0), (43.0, 0.0), (-3.0, -8.0), (3.0, -38.0)):
        assert np.hypot(*(side - corner).T).min() < 1e-5


def test_blanks_are_hatched_in_opposite_directions(lever):
    for view in ("plan", "side"):
        hatches = [p.get_hatch() for p in _axes(lever, view).patches if p.get_hatch()]
        assert {hatch[0] for hatch in hatches} == {"/", "\\"}


@pytest.mark.parametrize(("units", "scale"), [(Units.MM, 1.0), (Units.INCH, 25.4)])
def test_cutter_stands_at_its_first_cut_true_to_scale(units, scale):
    figure = backplot(demo.program(demo.pocket_cuts()), target=demo.lever_target(), units=units)
    [disc] = [p for p in _axes(figure, "plan").patches if p.get_gid() == "cutter"]
    assert np.array(disc.get_center()) * scale == pytest.approx((-26.0, 0.0))
    assert disc.get_radius() * scale == pytest.approx(4.0)
    [body] = [p for p in _axes(figure, "side").patches if p.get_gid() == "cutter"]
    corners = body.get_xy() * scale
    assert corners[:, 0].min() == pytest.approx(-4.0)
    assert corners[:, 0].max() == pytest.approx(4.0)
    assert corners[:, 1].min() == pytest.approx(-8.0)
    assert corners[:, 1].max() == pytest.approx(22.0)


def test_bolts_start_and_end_are_marked(lever):
    plan = _axes(lever, "plan")
    circles = [p for p in plan.patches if getattr(p, "radius", 0) == pytest.approx(7.0)]
    centres = {tuple(p.get_center()) for p in circles}
    assert centres == {(x, y) for x in (-50.0, 50.0) for y in (-24.0, 24.0)}
    marks = {line.get_gid(): line for line in plan.lines if line.get_gid() in ("start", "end")}
    assert marks["start"].get_xydata().tolist() == [[-26.0, 0.0]]
    assert marks["end"].get_xydata()[0] == pytest.approx(demo.pocket_cuts()[-1].end[:2])
    assert marks["start"].get_marker() != marks["end"].get_marker()


def test_everything_moves_with_the_programs_origin():
    shift = (-65.0, -43.0)
    cuts = [cut for cut in demo.pocket_cuts()[3:] if cut.centre is None]
    moved = [
        cut._replace(
            start=(cut.start[0] + 65, cut.start[1] + 43, cut.start[2]),
            end=(cut.end[0] + 65, cut.end[1] + 43, cut.end[2]),
        )
        for cut in cuts
    ]
    figure = backplot(demo.program(moved), target=demo.lever_target(zero=(*shift, 0.0)))
    plan = np.vstack([line.get_xydata() for line in _axes(figure, "plan").lines])
    assert _holds(plan, (0.0, 0.0))
    assert _holds(plan, (130.0, 86.0))


def test_compensated_moves_carry_ticks_on_the_side_they_shift_to(lever):
    ticks = np.array(_lines(lever, "plan", "compensated").get_segments())
    # Climb milling the inside of a wall, the cutter is shifted left, away from it: inward.
    feet, tips = ticks[:, 0], ticks[:, 1]
    boss = feet[:, 0] < -31.0
    assert boss.sum() > 3
    inward = np.hypot(tips[boss, 0] + 29, tips[boss, 1]) - np.hypot(
        feet[boss, 0] + 29, feet[boss, 1]
    )
    assert (inward < 0).all()
    bare = backplot(demo.program(demo.pocket_cuts(compensate=False)), target=demo.lever_target())
    assert not any(c.get_gid() == "compensated" for c in _axes(bare, "plan").collections)


def test_findings_are_flagged_at_their_places_and_listed():
    found = demo.many_findings(3)
    report = Report(found, demo.FIGURES)
    figure = backplot(demo.program(demo.pocket_cuts()), target=demo.lever_target(), report=report)
    plan = _axes(figure, "plan")
    ends = np.vstack([line.get_xydata() for line in plan.lines])
    placed = [finding for finding in found if finding.x is not None]
    assert placed
    for finding in placed:
        assert _holds(ends, (finding.x, finding.y))
    flags = {line.get_gid(): line.get_marker() for line in plan.lines if line.get_gid()}
    assert flags["flag-2"] != flags["flag-3"]
    words = " ".join(_words(figure))
    assert all(finding.code in words for finding in found)
    assert "The proof found faults. Do not run this program." in words


def test_findings_beyond_the_list_are_counted():
    report = Report(demo.many_findings(40), demo.FIGURES)
    figure = backplot(demo.program(demo.pocket_cuts()), report=report)
    listed = {text for text in _words(figure) if text.isdigit() and int(text) < 40}
    more = next(text for text in _words(figure) if text.startswith("and "))
    shown = len({line.get_gid() for line in _axes(figure, "page").lines if line.get_gid()})
    assert listed
    assert more == f"and {40 - shown} more, see the report"


def test_places_not_reached_are_drawn():
    left = Unreached(
        33.0, -7.0, 5.0, "the corner is tighter than the smallest cutter", seats=True, floor=-8.0
    )
    figure = backplot(
        demo.program(demo.pocket_cuts()), target=replace(demo.lever_target(), unreached=(left,))
    )
    circles = [p for p in _axes(figure, "plan").patches if isinstance(p, Circle)]
    [size] = [p.get_radius() for p in circles if tuple(p.get_center()) == (33.0, -7.0)]
    assert size == 2.5


def test_axes_name_their_units(lever):
    assert _axes(lever, "plan").get_xlabel() == "X from program zero, mm"
    assert _axes(lever, "side").get_ylabel() == "Z, mm"
    assert "20 mm" in _words(lever)
    inch = backplot(demo.program(demo.pocket_cuts()), units=Units.INCH)
    assert _axes(inch, "plan").get_ylabel() == "Y from program zero, inch"


@pytest.mark.parametrize("units", [Units.MM, Units.INCH])
def test_the_scale_that_the_plan_tells_is_the_one_on_paper(units):
    figure = backplot(demo.program(demo.pocket_cuts()), target=demo.lever_target(), units=units)
    told = next(text for text in _words(figure) if text.endswith(": 1 on A4 paper"))
    _axes(figure, "plan").apply_aspect()
    (x0, _), (x1, _) = _axes(figure, "plan").transData.transform([(0, 0), (1, 0)])
    paper = (x1 - x0) / figure.dpi * 25.4
    assert paper / units.in_mm == pytest.approx(float(told.split()[2]), rel=0.01)


@pytest.mark.parametrize("wide", [57.0, 36.0, 120.0])
def test_no_axis_has_a_lone_number(wide):
    with drawing_style():
        figure, _ = blank_page()
        pads = Pads(3.0, 3.0, 3.0, 3.0)
        shown = make_view(
            figure, Box(9, 9, wide, 40), Box(-46, -40, 92, 60), pads, name="v", marks=("X", "Y")
        )
    assert len(shown.axes.get_xticks()) > 1
    assert len(shown.axes.get_yticks()) > 1


def test_scale_bar_is_as_long_as_it_says(lever):
    plan = _axes(lever, "plan")
    bars = [p for p in plan.patches if type(p).__name__ == "Rectangle"]
    assert sum(bar.get_width() for bar in bars) == pytest.approx(20.0)


def test_side_view_cuts_the_jaws_where_the_cutter_stands_deepest(lever):
    assert "at X -26, seen from the right" in _words(lever)


def test_a_program_without_moves_is_refused():
    with pytest.raises(InputError, match="no move"):
        backplot(Program("empty.nc", (), ()))


def test_many_cuts_are_joined_and_kept_as_an_image_in_vector_files():
    pen = demo.Pen()
    pen.at = (0.0, 0.0, 0.0)
    for i in range(1500):
        pen.line(100.0 if i % 2 else 0.0, i / 20, -0.1 - (i % 7) / 7)
    figure = backplot(demo.program(pen.cuts))
    assert _lines(figure, "plan", "entry").get_rasterized()
    assert not _lines(figure, "side", "entry").get_rasterized()
    level = [
        cut._replace(start=(*cut.start[:2], -1.0), end=(*cut.end[:2], -1.0)) for cut in pen.cuts
    ]
    figure = backplot(demo.program(level))
    assert len(_lines(figure, "plan", "feed").get_segments()) == 1


@pytest.mark.parametrize(
    ("ending", "head"),
    [(".png", b"\x89PNG"), (".svg", b"<?xml"), (".pdf", b"%PDF"), (".PNG", b"\x89PNG")],
)
def test_files_of_each_ending_hold_the_same_bytes_every_time(tmp_path, ending, head):
    made = []
    for name in ("one", "two"):
        figure = backplot(demo.program(demo.pocket_cuts()), target=demo.lever_target())
        save(figure, tmp_path / (name + ending))
        made.append((tmp_path / (name + ending)).read_bytes())
    assert made[0].startswith(head)
    assert made[0] == made[1]
    assert str(tmp_path).encode() not in made[0]


def test_a_persons_own_plot_settings_change_nothing(tmp_path, lever):
    save(lever, tmp_path / "plain.png")
    with mpl.rc_context({"font.size": 30, "lines.linewidth": 9, "savefig.bbox": "tight"}):
        figure = backplot(demo.program(demo.pocket_cuts()), target=demo.lever_target())
        save(figure, tmp_path / "theirs.png")
        assert mpl.rcParams["font.size"] == 30
    assert (tmp_path / "plain.png").read_bytes() == (tmp_path / "theirs.png").read_bytes()


def test_png_has_the_pages_size_at_150_dots_per_inch(tmp_path, lever):
    save(lever, tmp_path / "page.png")
    data = (tmp_path / "page.png").read_bytes()
    width, height = (int.from_bytes(data[i : i + 4], "big") for i in (16, 20))
    assert (width, height) == (int(297 / 25.4 * 150), int(210 / 25.4 * 150))


@pytest.mark.parametrize("name", ["plot.jpg", "plot", "plot.nc"])
def test_other_endings_are_refused(tmp_path, lever, name):
    with pytest.raises(InputError, match=r"\.png, \.svg or \.pdf"):
        save(lever, tmp_path / name)
    assert not (tmp_path / name).exists()


def test_a_folder_that_does_not_exist_is_an_input_fault(tmp_path, lever):
    with pytest.raises(InputError, match="can't be written"):
        save(lever, tmp_path / "nowhere" / "plot.png")


def test_no_screen_is_an_input_fault(lever):
    with pytest.raises(InputError, match="no window can be opened"):
        show_window(lever)


def test_a_window_shows_the_figure_itself(monkeypatch, lever):
    from matplotlib import pyplot as plt

    class Screen(FigureCanvasAgg):
        required_interactive_framework = "a screen"

    shown = []
    monkeypatch.setattr(plt, "figure", lambda **_: Screen(Figure()).figure)
    monkeypatch.setattr(plt, "show", lambda **how: shown.append(how))
    window.show_window(lever)
    assert shown == [{"block": True}]
    assert isinstance(lever.canvas, Screen)
    assert lever.canvas.figure is lever


def test_drawing_to_files_never_loads_pyplot(tmp_path):
    code = (
        "import sys; import show_demos as demo; from jawcam.show.backplot import backplot, save;"
        "save(backplot(demo.program(demo.pocket_cuts())), sys.argv[1]);"
        "assert 'matplotlib.pyplot' not in sys.modules"
    )
    paths = os.pathsep.join(path for path in sys.path if path)
    subprocess.run(
        [sys.executable, "-c", code, str(tmp_path / "a.png")],
        check=True,
        env={**os.environ, "PYTHONPATH": paths},
    )


def test_style_is_given_back_even_after_an_error():
    before = mpl.rcParams["font.size"]
    with pytest.raises(KeyError), drawing_style():
        raise KeyError
    assert mpl.rcParams["font.size"] == before
