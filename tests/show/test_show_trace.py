"""Cuts made ready to draw: every end point exact, every arc true."""

import math

import numpy as np
import pytest
import show_demos as demo
from hypothesis import given, settings
from hypothesis import strategies as st

from jawcam.show.arrays import columns
from jawcam.show.dashes import dashed
from jawcam.show.measure import measure
from jawcam.show.trace import ENTRY, FEED, RAPID, flatten, strands

CHORD = 0.01


def _trace(cuts, chord=CHORD):
    return flatten(columns(cuts), chord)


def test_every_cut_starts_and_ends_exactly_where_the_program_says():
    cuts = demo.pocket_cuts()[2:]
    trace = _trace(cuts)
    for number, cut in enumerate(cuts):
        pieces = np.flatnonzero(trace.move == number)
        assert tuple(trace.start[pieces[0]]) == cut.start
        assert tuple(trace.end[pieces[-1]]) == cut.end
        assert np.array_equal(trace.end[pieces[:-1]], trace.start[pieces[1:]])


@given(
    r=st.floats(0.01, 500),
    begin=st.floats(-math.pi, math.pi),
    turn=st.floats(0.01, 2 * math.pi),
    sign=st.sampled_from((-1, 1)),
    plane=st.sampled_from(("XY", "XZ", "YZ")),
)
@settings(max_examples=60)
def test_flattened_arc_stays_within_the_chord(r, begin, turn, sign, plane):
    first, second, third = {"XY": (0, 1, 2), "XZ": (2, 0, 1), "YZ": (1, 2, 0)}[plane]
    start, end = [0.0] * 3, [0.0] * 3
    for point, angle in ((start, begin), (end, begin + sign * turn)):
        point[first] = 3.0 + r * math.cos(angle)
        point[second] = -2.0 + r * math.sin(angle)
    end[third] = 1.0
    pen = demo.Pen()
    pen.at = tuple(start)
    pen.arc(tuple(end), (3.0, -2.0), sign * turn)
    trace = _trace([pen.cuts[0]._replace(plane=plane)], chord=r / 100)
    points = np.vstack([trace.start[:1], trace.end])
    middle = (trace.start + trace.end) / 2
    for some, low in ((points, r - 1e-9 * r), (middle, r - r / 100)):
        away = np.hypot(some[:, first] - 3.0, some[:, second] + 2.0)
        assert away.max() <= r * (1 + 1e-9)
        assert away.min() >= low - 1e-9
    steps = np.diff(points[:, third])
    assert steps == pytest.approx(np.full(len(steps), 1 / len(steps)))
    angles = np.unwrap(np.arctan2(points[:, second] + 2.0, points[:, first] - 3.0))
    assert angles[-1] - angles[0] == pytest.approx(sign * turn, abs=1e-6)


def test_arc_in_xz_bulges_the_way_the_plane_turns():
    # NISTIR 6556 section 3.5.3 and ISO 6983: seen from +Y, Z lies ahead of X, so that a quarter
    # turn counter-clockwise leads from +Z to +X.
    pen = demo.Pen()
    pen.at = (0.0, 0.0, 5.0)
    pen.arc((5.0, 0.0, 0.0), (0.0, 0.0), math.pi / 2)
    trace = _trace([pen.cuts[0]._replace(plane="XZ")])
    middle = trace.end[len(trace.end) // 2 - 1]
    assert middle == pytest.approx((3.5355, 0.0, 3.5355), abs=0.1)


def test_looks_tell_rapid_level_feed_and_entry_apart():
    pen = demo.Pen()
    pen.rapid(0.0, 0.0, 5.0)
    pen.line(0.0, 0.0, -1.0)
    pen.line(9.0, 0.0, -1.0)
    pen.arc((9.0, 0.0, -2.0), (8.0, 0.0), 2 * math.pi)
    trace = _trace(pen.cuts)
    look = [trace.look[np.flatnonzero(trace.move == i)[0]] for i in range(4)]
    assert look == [RAPID, ENTRY, FEED, ENTRY]


def test_strands_hold_all_pieces_of_their_look_and_none_twice():
    trace = _trace(demo.pocket_cuts())
    for look in (RAPID, FEED, ENTRY):
        some = strands(trace, look)
        assert sum(len(line) - 1 for line in some.points) == (trace.look == look).sum()
        length = sum(np.linalg.norm(np.diff(line, axis=0), axis=1).sum() for line in some.points)
        chosen = trace.look == look
        whole = np.linalg.norm((trace.end - trace.start)[chosen], axis=1).sum()
        assert length == pytest.approx(whole)


def test_strands_run_from_the_highest_to_the_deepest():
    some = strands(_trace(demo.pocket_cuts()), FEED)
    assert list(some.z) == sorted(some.z, reverse=True)
    assert {round(z, 3) for z in some.z} == {1.0, -2.667, -5.333, -8.0}


def test_a_gap_between_cuts_is_not_drawn_over():
    pen = demo.Pen()
    pen.at = (0.0, 0.0, 0.0)
    pen.line(1.0, 0.0, 0.0)
    pen.at = (5.0, 0.0, 0.0)
    pen.line(6.0, 0.0, 0.0)
    some = strands(_trace(pen.cuts), FEED)
    assert [line[:, 0].tolist() for line in some.points] == [[0.0, 1.0], [5.0, 6.0]]


def test_unknown_positions_stand_where_the_axis_first_goes():
    pen = demo.Pen()
    pen.rapid(demo.NAN, demo.NAN, 20.0)
    pen.rapid(3.0, 4.0, 20.0)
    moves = columns(pen.cuts)
    assert moves.start[0].tolist() == [3.0, 4.0, 20.0]
    assert moves.end[0].tolist() == [3.0, 4.0, 20.0]


def _measured(cuts, rapid_rate=10000.0):
    moves = columns(cuts)
    return measure(moves, flatten(moves, CHORD), rapid_rate)


def test_lengths_and_times():
    pen = demo.Pen()
    pen.at = (0.0, 0.0, 0.0)
    pen.rapid(0.0, 30.0, 40.0)  # 50 mm
    pen.line(0.0, 30.0, 0.0, feed=80.0)  # 40 mm: half a minute
    pen.arc((0.0, 30.0, 0.0), (0.0, 20.0), -2 * math.pi, feed=20 * math.pi)  # a minute
    pen.arc((0.0, 30.0, -15 * math.pi), (0.0, 20.0), 2 * math.pi, feed=25 * math.pi)  # a minute
    pen.line(5.0, 30.0, -15 * math.pi, feed=0.0)
    done = _measured(pen.cuts, rapid_rate=100.0)
    assert done.rapid == pytest.approx(50)
    assert done.rapid_minutes == pytest.approx(0.5)
    assert done.cutting == pytest.approx(40 + 20 * math.pi + 25 * math.pi + 5)
    assert done.minutes == pytest.approx(2.5)
    assert done.unfed == 1


def test_deepest_point_is_the_first_at_the_lowest_z():
    done = _measured(demo.pocket_cuts())
    assert done.lowest == (-26.0, 0.0, -8.0)
    assert demo.pocket_cuts()[done.deepest].end == (-26.0, 0.0, -8.0)
    assert done.first == 3


def test_deepest_point_of_an_upright_arc_lies_between_its_ends():
    pen = demo.Pen()
    pen.at = (-10.0, 0.0, 0.0)
    pen.arc((10.0, 0.0, 0.0), (0.0, 0.0), -math.pi)
    done = _measured([pen.cuts[0]._replace(plane="XZ")])
    assert done.lowest == pytest.approx((0.0, 0.0, -10.0), abs=0.1)
    assert done.lowest[2] == pytest.approx(-10.0, abs=2e-4)


def test_a_program_of_rapids_alone_has_no_deepest_point():
    done = _measured(demo.only_rapid().cuts)
    assert (done.first, done.deepest, done.lowest) == (None, None, None)


def test_dashes_lie_on_the_path_and_come_out_even():
    turns = np.linspace(0, 4 * math.pi, 400)
    helix = np.column_stack([5 * np.cos(turns), 5 * np.sin(turns), -turns])
    lines, z = dashed(helix, (0, 1), 2.0, 1.0)
    lengths = [np.hypot(*np.diff(line, axis=0).T).sum() for line in lines]
    assert len(lines) == round((20 * math.pi + 1) / 3)
    assert lengths == pytest.approx([lengths[0]] * len(lines), rel=1e-6)
    assert lengths[0] == pytest.approx(2.0, abs=0.1)
    assert lines[0][0] == pytest.approx((5.0, 0.0))
    assert lines[-1][-1] == pytest.approx((5.0, 0.0))
    for line in lines:
        assert np.hypot(*line.T) == pytest.approx(np.full(len(line), 5.0), abs=1e-3)
    assert (np.diff(z) < 0).all()
    assert z[0] - z[1] == pytest.approx(3.0 / 5.0, abs=0.03)


def test_a_path_seen_end_on_has_no_dashes_and_a_short_one_has_one():
    down = np.array([[1.0, 2.0, 3.0], [1.0, 2.0, -3.0]])
    assert dashed(down, (0, 1), 2.0, 1.0)[0] == []
    [line] = dashed(down * 0.1, (1, 2), 2.0, 1.0)[0]
    assert line.tolist() == pytest.approx(np.array([[0.2, 0.3], [0.2, -0.3]]))
