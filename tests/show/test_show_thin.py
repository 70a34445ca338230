"""Long paths thinned: nothing that can be seen is lost."""

import numpy as np
import show_demos as demo
from hypothesis import given
from hypothesis import strategies as st
from hypothesis.extra.numpy import arrays
from matplotlib.collections import LineCollection

from jawcam.show.backplot import backplot
from jawcam.show.run_path import MOST, slimmed
from jawcam.show.thin import thin
from jawcam.show.trace import Trace

places = arrays(np.float64, st.tuples(st.integers(8, 60), st.just(2)), elements=st.floats(-3, 3))


@given(places, st.floats(0.01, 2.0))
def test_no_point_left_out_is_far_from_one_that_stays(line, fine):
    kept = thin(line, fine)
    for point in line:
        assert np.hypot(*(kept - point).T).min() <= fine * np.sqrt(2) + 1e-12


@given(places, st.floats(0.01, 2.0))
def test_ends_and_extremes_stay(line, fine):
    kept = thin(line, fine)
    assert (kept[0] == line[0]).all()
    assert (kept[-1] == line[-1]).all()
    assert (kept.min(axis=0) == line.min(axis=0)).all()
    assert (kept.max(axis=0) == line.max(axis=0)).all()


@given(places)
def test_what_stays_stands_in_its_order(line):
    kept = thin(line, 0.3)
    at = 0
    for point in kept:
        while not (line[at] == point).all():
            at += 1
        at += 1


def test_a_crowded_line_becomes_much_shorter():
    t = np.linspace(0, 1, 100_000)
    line = np.column_stack([t * 10, np.zeros_like(t)])
    assert len(thin(line, 0.1)) <= 2 * 100 + 4


def zigzag(count):
    pen = demo.Pen()
    pen.rapid(0.0, 0.0, 0.0)
    for k in range(count):
        pen.line(k * 0.002, 20.0 * (k % 2) if k % 1000 < 4 else 0.0, 0.0)
    return pen.cuts


def test_a_long_program_is_drawn_with_few_points_and_its_spikes():
    figure = backplot(demo.program(zigzag(30_000)))
    plan = next(axes for axes in figure.axes if axes.get_label() == "plan")
    [feed] = [c for c in plan.collections if c.get_gid() == "feed"]
    assert isinstance(feed, LineCollection)
    points = np.vstack(feed.get_segments())
    assert len(points) < 10_000
    assert (points[:, 1] == 20.0).sum() >= 30
    assert points[:, 0].max() == 29_999 * 0.002


def test_a_run_s_path_is_slimmed_and_keeps_its_end_and_its_moves_in_order():
    count = MOST * 2
    t = np.arange(count + 1) / count
    points = np.column_stack([np.cos(40 * t), np.sin(40 * t), -t])
    trace = Trace(points[:-1], points[1:], np.ones(count, dtype=np.int8), np.arange(count))
    slim = slimmed(trace)
    assert len(slim.look) <= MOST
    assert (slim.end[-1] == points[-1]).all()
    assert (slim.start[0] == points[0]).all()
    assert (slim.start[1:] == slim.end[:-1]).all()
    assert (np.diff(slim.move) > 0).all()
    assert slim.move[-1] == count - 1
