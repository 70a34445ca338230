"""One program for several stations: each picture shows its own; cutters, key and heights."""

import itertools
from dataclasses import replace

import numpy as np
import pytest
import show_demos as demo
import show_pockets as pockets
from matplotlib.collections import LineCollection

from jawcam.show.backplot import backplot
from jawcam.show.cutter import tip
from jawcam.show.depthbar import draw_depth_bar
from jawcam.show.key import entries
from jawcam.show.lettering import set_size
from jawcam.show.page import Box, blank_page
from jawcam.show.panel import draw_panel
from jawcam.show.path import Depths, plunges
from jawcam.show.picture import picture
from jawcam.show.style import BODY
from jawcam.tools.cutter import Cutter
from jawcam.units import Units


def _picture(program, target=None):
    return picture(program, target, Units.MM, (), 10000.0)


@pytest.fixture(scope="module")
def dressed():
    return backplot(pockets.dressed_program(), target=pockets.dressed_target())


def _side(figure):
    return next(axes for axes in figure.axes if axes.get_label() == "side")


def _heights(figure):
    page = next(axes for axes in figure.axes if axes.get_label() == "page")
    return [t for t in page.texts if t.get_position()[1] > 110 and t.get_position()[0] > 255]


# --- stations --------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("target", "lone"),
    [
        (pockets.hub_target(), pockets.hub_program().cuts),
        (pockets.lever_at_second_station(), demo.pocket_cuts()),
    ],
)
def test_a_station_is_measured_as_if_it_were_alone(target, lone):
    both = _picture(pockets.stations_program(), target)
    alone = _picture(demo.program(lone), target)
    assert both.measures.lowest == alone.measures.lowest
    assert both.low == pytest.approx(alone.low)
    assert both.high == pytest.approx(alone.high)
    assert {cut.work_offset for cut in both.program.cuts} == {target.work_offset}
    assert len(both.program.cuts) == len(lone)
    assert both.program.lines == pockets.stations_program().lines


def test_only_the_moves_at_the_targets_work_offset_are_drawn():
    figure = backplot(pockets.stations_program(), target=pockets.hub_target())
    plan = next(axes for axes in figure.axes if axes.get_label() == "plan")
    lines = [c for c in plan.collections if isinstance(c, LineCollection)]
    points = np.vstack([np.vstack(c.get_segments()) for c in lines])
    assert np.hypot(*points.T).max() == pytest.approx(15.0, abs=1e-6)  # the lever's go to 42


def test_no_line_joins_what_a_station_does_before_and_after_another():
    program = pockets.stations_program()
    shown = _picture(program, pockets.hub_target())
    own = [i for i, cut in enumerate(program.cuts) if cut.work_offset == 1]
    gap = next(k for k, (a, b) in enumerate(itertools.pairwise(own)) if b != a + 1)
    assert np.isnan(program.cuts[own[gap + 1]].start[0])
    assert shown.moves.start[gap + 1].tolist() == shown.moves.end[gap + 1].tolist()


def test_all_is_drawn_without_a_target_or_if_nothing_moves_at_its_offset():
    program = pockets.stations_program()
    for target in (None, replace(pockets.hub_target(), work_offset=5)):
        shown = _picture(program, target)
        assert shown.program is program
        assert shown.elsewhere == ()


# --- cutters and their moves -----------------------------------------------------------------


@pytest.mark.parametrize(
    ("cutter", "half"),
    [
        (Cutter(1, "drill", 10.0), [(0, 0), (5, 3.00430)]),  # 118 degrees: 5 / tan 59
        (Cutter(1, "drill", 10.0, angle=90.0), [(0, 0), (5, 5)]),
        (Cutter(1, "spot drill", 6.0), [(0, 0), (3, 3)]),
        (Cutter(1, "chamfer mill", 6.0, tip_dia=1.0), [(0, 0), (0.5, 0), (3, 2.5)]),
        (Cutter(1, "chamfer mill", 6.0, angle=60.0), [(0, 0), (3, 5.19615)]),
        (Cutter(1, "end mill", 6.0), [(0, 0), (3, 0)]),
    ],
)
def test_a_cutters_end_has_its_own_angle_and_flat(cutter, half):
    assert np.array(tip(cutter)) == pytest.approx(np.array(half, dtype=float), abs=1e-5)


def test_the_drill_that_goes_deepest_stands_in_its_hole_with_its_point(dressed):
    [body] = [p for p in _side(dressed).patches if p.get_gid() == "cutter"]
    corners = body.get_xy()
    assert corners[:, 1].min() == pytest.approx(-17.5)
    point = corners[np.argmin(corners[:, 1])]
    assert point.tolist() == pytest.approx([10.0, -17.5])
    flanks = np.unique(corners[np.abs(corners[:, 0] - 10.0) > 2.4][:, 1])
    assert flanks[0] == pytest.approx(-17.5 + pockets.DRILL.point_length)


def test_each_drilled_hole_is_marked_once_however_often_it_is_pecked():
    shown = _picture(pockets.dressed_program(), pockets.dressed_target())
    spots = {tuple(spot) for spot in plunges(shown.moves).tolist()}
    assert {(52.0, 10.0), (52.0, -10.0)} <= spots


def test_drilling_is_seen_in_the_side_view(dressed):
    entry = next(c for c in _side(dressed).collections if c.get_gid() == "entry")
    points = np.vstack(entry.get_segments())
    for y in (10.0, -10.0):
        down = points[np.abs(points[:, 0] - y) < 1e-9]
        assert (down[:, 1].min(), down[:, 1].max()) == (-17.5, 1.0)


def test_the_depth_bar_names_the_bottom_though_no_level_lies_there():
    figure, page = blank_page()
    deep = Depths(-17.5, 0.0, (-8.0, -4.0))
    draw_depth_bar(figure, page, Box(0, 60, 150, 140), deep, Units.MM)
    axes = next(axes for axes in figure.axes if axes.get_label() == "depth")
    assert list(axes.get_yticks()) == [-17.5, -8.0, -4.0, 0.0]


# --- key, heights, panel ---------------------------------------------------------------------


NEW = ("edge of a lower level", "broken edge", "groove in the seat", "drilled hole", "faced off")


@pytest.mark.parametrize(
    ("target", "named"),
    [
        (demo.lever_target(), ()),
        (pockets.hub_target(), NEW[:1]),
        (pockets.dressed_target(), NEW[1:]),
        (pockets.dressed_target(edge=0.0, facing=0.0, groove=None), NEW[3:4]),
    ],
)
def test_the_key_names_what_is_drawn_and_nothing_else(target, named):
    words = [entry.words for entry in entries(_picture(pockets.hub_program(), target), ())]
    assert tuple(word for word in words if word in NEW) == named


def test_the_heights_name_the_levels():
    figure = backplot(pockets.hub_program(), target=pockets.hub_target())
    words = [text.get_text() for text in _heights(figure)]
    for height in ("part top 11", "jaw top 0", "level -3", "level -8", "level -13", "floor -22"):
        assert height in words


def test_the_heights_name_the_top_before_facing(dressed):
    assert "unfaced top 0.8" in [text.get_text() for text in _heights(dressed)]


def test_of_many_levels_some_are_named_far_enough_apart():
    labels = _heights(backplot(pockets.stairs_program(), target=pockets.stairs_target()))
    levels = [t.get_text() for t in labels if t.get_text().startswith("level")]
    assert levels == ["level -1.5", "level -4.5", "level -7.5", "level -10.5", "level -13.5",
                      "level -16.5"]  # fmt: skip
    places = sorted(t.get_position()[1] for t in labels)
    assert np.diff(places).min() > 3.2


@pytest.mark.parametrize("count", range(12, 22))
def test_the_last_words_of_the_panel_never_run_into_the_caution(count):
    _, page = blank_page()
    rows = [(f"row {i}", "words") for i in range(count)]
    rows.append(("figures", "so much of it that it needs more than one line of the panel " * 2))
    draw_panel(page, Box(0, 0, 100, 100), "Title", rows, ("Care.", ("Look.",)), alarm=False)
    frame = next(patch for patch in page.patches)
    texts = [
        t for t in page.texts if t.get_fontsize() == set_size(BODY) and t.get_position()[0] > 15
    ]
    assert min(t.get_position()[1] for t in texts) > frame.get_y() + frame.get_height()
