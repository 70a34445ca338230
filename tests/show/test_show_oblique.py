"""The oblique view: true parallel rays, and what is nearer hides what is behind it."""

import itertools
import math

import numpy as np
import pytest
import shapely
import show_demos as demo
from hypothesis import given
from hypothesis import strategies as st
from matplotlib.backends.backend_agg import FigureCanvasAgg
from matplotlib.colors import to_rgb
from show_faulty import milled

from jawcam.show.backplot import backplot
from jawcam.show.gaze import Gaze
from jawcam.show.scene import setting
from jawcam.show.slabs import slabs_of
from jawcam.show.style import BLANK
from jawcam.units import Units

gazes = st.builds(Gaze, st.floats(-180, 180), st.floats(0, 90))


@given(gazes)
def test_the_page_and_the_line_of_sight_stand_upright_on_each_other(gaze):
    frame = np.array([gaze.across, gaze.up, gaze.near])
    assert frame @ frame.T == pytest.approx(np.eye(3), abs=1e-12)
    assert np.linalg.det(frame) == pytest.approx(1.0)


@given(gazes)
def test_heights_are_upright_on_the_page_and_shortened_by_the_cosine_of_the_tilt(gaze):
    [(x, y)] = gaze.seen(np.array([(0.0, 0.0, 1.0)]))
    assert (x, y) == pytest.approx((0.0, math.cos(math.radians(gaze.tilt))), abs=1e-12)


def test_from_straight_above_the_view_is_the_plan():
    points = np.array([(1.0, 2.0, 3.0), (-4.0, 5.0, -6.0)])
    assert Gaze(0.0, 90.0).seen(points) == pytest.approx(points[:, :2])


def test_from_the_front_the_view_is_the_elevation():
    points = np.array([(1.0, 2.0, 3.0), (-4.0, 5.0, -6.0)])
    assert Gaze(0.0, 0.0).seen(points) == pytest.approx(points[:, [0, 2]])


def test_onlooker_stands_before_and_to_the_right_and_above():
    x, y, z = Gaze().near
    assert x > 0
    assert y < 0
    assert z > 0


def test_slabs_hold_what_is_left_of_the_blanks():
    """Two blanks of 80 x 30 x 30, and a disc of 30.1 mm dia, 6 deep, but for the gap of 6."""
    _, target, _ = milled("good")
    slabs = slabs_of(setting(target, Units.MM, 0.001))
    assert [(slab.low, slab.high) for slab in slabs] == [(-30.0, -6.0), (-6.0, 0.0)]
    r, h = 15.05, 3.0
    strip = 2 * (r**2 * math.asin(h / r) + h * math.sqrt(r**2 - h**2))
    volume = sum((slab.high - slab.low) * slab.shape.area for slab in slabs)
    assert volume == pytest.approx(2 * 80 * 30 * 30 - 6 * (math.pi * r**2 - strip), rel=1e-5)


def test_slabs_never_grow_downwards_hollow():
    scene = setting(demo.lever_target(), Units.MM, 0.01)
    slabs = slabs_of(scene)
    for lower, upper in itertools.pairwise(slabs):
        assert lower.high == upper.low
        assert shapely.area(upper.shape.difference(lower.shape)) < 1e-9


@pytest.fixture(scope="module")
def seen():
    """The oblique page of the ring's pocket, as dots, and where a point is on it."""
    program, target, report = milled("good")
    figure = backplot(program, target=target, report=report, view="oblique")
    canvas = FigureCanvasAgg(figure)
    canvas.draw()
    dots = np.asarray(canvas.buffer_rgba())[:, :, :3] / 255
    axes = next(axes for axes in figure.axes if axes.get_label() == "oblique")

    def around(x, y, z):
        at = axes.transData.transform(Gaze().seen(np.array([(x, y, z)])))[0]
        column, row = round(at[0]), dots.shape[0] - 1 - round(at[1])
        return dots[row - 2 : row + 3, column - 2 : column + 3].reshape(-1, 3)

    return around


def darkest(dots):
    return float(dots.sum(axis=1).min())


def test_a_path_in_the_open_is_drawn_dark_and_one_behind_a_wall_faint(seen):
    """The wall pass runs at 11.05 mm on the floor at -6: the far side lies open; the near side
    is behind the front jaw, whose top is in between as long as 6 / tan 46 degrees = 5.8 mm."""
    gaze = Gaze()
    away = np.array([-gaze.near[0], -gaze.near[1]]) / np.hypot(*gaze.near[:2])
    far, near = 11.05 * away, -11.05 * away
    assert darkest(seen(*far, -6.0)) < 0.9
    assert darkest(seen(*near, -6.0)) > 1.5


def test_jaw_tops_are_as_light_as_the_paper_s_blanks(seen):
    assert np.median(seen(-30.0, -20.0, 0.0), axis=0) == pytest.approx(to_rgb(BLANK), abs=0.02)


def test_without_jaws_the_ground_is_drawn_instead():
    figure = backplot(demo.program(demo.pocket_cuts()), view="oblique")
    axes = next(axes for axes in figure.axes if axes.get_label() == "oblique")
    low, high = axes.get_xlim(), axes.get_ylim()
    for name in ("feed", "entry", "rapid"):
        points = np.vstack(
            [
                line
                for drawn in axes.collections
                if drawn.get_gid() == name
                for line in drawn.get_segments()
            ]
        )
        assert (points >= (low[0], high[0])).all()
        assert (points <= (low[1], high[1])).all()


def test_findings_are_flagged_where_they_are_seen():
    program, target, report = milled("ring_left_out")
    figure = backplot(program, target=target, report=report, view="oblique")
    axes = next(axes for axes in figure.axes if axes.get_label() == "oblique")
    ends = [tuple(line.get_xydata()[0]) for line in axes.lines if line.get_marker() == "o"]
    for finding in report.findings:
        place = Gaze().seen(np.array([(finding.x, finding.y, finding.z)]))[0]
        assert any(end == pytest.approx(place) for end in ends)
