"""Loose pieces joined end to end."""

import math
import random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from part_help import arcs, continuous, polygon

from jawcam.geometry.shapes import Arc, Line, Path, circle, from_bulges
from jawcam.geometry.shapes import polygon as corners_of
from jawcam.part.join import join

BIG, SMALL, APART = 17.0, 9.0, 58.0


def lever():
    """Two discs joined by their outer tangents, counter-clockwise."""
    lean = math.acos((BIG - SMALL) / APART)
    cos, sin = math.cos(lean), math.sin(lean)
    top, bottom = (BIG * cos, BIG * sin), (BIG * cos, -BIG * sin)
    far, near = (APART + SMALL * cos, SMALL * sin), (APART + SMALL * cos, -SMALL * sin)
    return [
        Line(bottom, near),
        Arc(near, far, (APART, 0), ccw=True),
        Line(far, top),
        Arc(top, bottom, (0, 0), ccw=True),
    ]


def lever_area():
    """Closed form: two sectors and two right trapezia."""
    lean = math.acos((BIG - SMALL) / APART)
    tangent = math.sqrt(APART**2 - (BIG - SMALL) ** 2)
    return BIG**2 * (math.pi - lean) + SMALL**2 * lean + tangent * (BIG + SMALL)


def shaken(segments, seed, gap):
    """The same in any order and direction, ends moved by up to half the gap along the piece."""
    rng = random.Random(seed)  # noqa: S311 - a repeatable shuffle
    loose = []
    for segment in segments:
        push, pull = rng.uniform(-gap / 2, gap / 2), rng.uniform(-gap / 2, gap / 2)
        if isinstance(segment, Line):
            (x0, y0), (x1, y1), n = segment.start, segment.end, segment.length
            ux, uy = (x1 - x0) / n, (y1 - y0) / n
            ends = (x0 + push * ux, y0 + push * uy), (x1 + pull * ux, y1 + pull * uy)
            segment = Line(*ends)  # noqa: PLW2901
        else:
            (cx, cy), r = segment.centre, segment.radius
            sign = 1 if segment.ccw else -1
            first = math.atan2(segment.start[1] - cy, segment.start[0] - cx)
            last = first + sign * segment.sweep
            a, b = first + push / r, last + pull / r
            ends = [(cx + r * math.cos(t), cy + r * math.sin(t)) for t in (a, b)]
            segment = Arc(*ends, segment.centre, segment.ccw)  # noqa: PLW2901
        loose.append(segment if rng.random() < 0.5 else segment.reversed())
    rng.shuffle(loose)
    return loose


@pytest.mark.parametrize("seed", range(50))
def test_a_soup_of_lines_and_arcs_gives_one_loop(seed):
    joined = join(shaken(lever(), seed, 0.002), 0.005)
    (loop,) = joined.closed
    assert joined.open == joined.forks == ()
    assert loop.closed
    assert continuous(loop)
    assert len(loop.segments) == 4
    assert sorted(arc.radius for arc in arcs(loop)) == pytest.approx([9, 17], abs=1e-9)
    assert sorted(arc.centre[0] for arc in arcs(loop)) == pytest.approx([0, 58], abs=1e-9)
    assert abs(loop.area) == pytest.approx(lever_area(), abs=0.002 * loop.length)
    assert polygon(loop).area == pytest.approx(lever_area(), rel=1e-4)


def test_exact_pieces_are_joined_without_change():
    joined = join([lever()[k] for k in (2, 0, 3, 1)], 0.005)
    assert set(joined.closed[0].segments) == set(lever())
    assert joined.notes == ()


@settings(max_examples=40, deadline=None)
@given(st.integers(0, 10**6), st.integers(3, 40))
def test_any_star_of_lines_and_arcs_comes_back_whole(seed, count):
    rng = random.Random(seed)  # noqa: S311 - a repeatable shape
    rows = [
        (r * math.cos(a), r * math.sin(a), rng.choice([0, 0, rng.uniform(-0.3, 0.3)]))
        for k in range(count)
        for a in [2 * math.pi * k / count]
        for r in [rng.uniform(20, 60)]
    ]
    path = from_bulges(rows)
    joined = join(shaken(path.segments, seed, 0.002), 0.005)
    (loop,) = joined.closed
    assert continuous(loop)
    assert len(loop.segments) == count
    assert abs(loop.area) == pytest.approx(abs(path.area), abs=0.003 * path.length)
    for arc in arcs(loop):
        assert math.dist(arc.end, arc.centre) == pytest.approx(arc.radius, abs=1e-9)


def test_two_arcs_meet_half_way_and_stay_circles():
    upper = Arc((10.0, 0.0), (-10.0, 0.0), (0.0, 0.0), ccw=True)
    lower = Arc((-10.0, -0.002), (10.0, -0.002), (0.0, -0.002), ccw=True)
    (loop,) = join([upper, lower], 0.005).closed
    assert {segment.start for segment in loop.segments} == {(10.0, -0.001), (-10.0, -0.001)}
    for arc in arcs(loop):
        assert math.dist(arc.end, arc.centre) == pytest.approx(arc.radius, abs=1e-12)
        assert arc.radius == pytest.approx(10, abs=0.002)


def test_a_line_end_moves_to_the_arc_and_the_arc_stays():
    arc = Arc((5.0, 0.0), (-5.0, 0.0), (0.0, 0.0), ccw=True)
    (loop,) = join([Line((-5.003, 0.0), (5.0, 0.002)), arc], 0.005).closed
    assert arc in loop.segments
    assert Line((-5.0, 0.0), (5.0, 0.0)) in loop.segments


def test_a_gap_wider_than_the_tolerance_stays_open():
    first, *rest = corners_of([(0, 0), (10, 0), (10, 10), (0, 10)]).segments
    joined = join([Line((0.0, 0.0), (9.99, 0.0)), *rest], 0.005)
    assert joined.closed == ()
    assert {joined.open[0].start, joined.open[0].end} == {(9.99, 0.0), (10, 0)}
    assert join([first, *rest], 0.005).open == ()


def test_doubled_pieces_are_dropped_and_noted():
    square = corners_of([(0, 0), (10, 0), (10, 10), (0, 10)])
    hole = circle((5, 5), 2)
    again = Arc((5.0, 7.0), (5.0, 7.0), (5.0, 5.0), ccw=False)
    joined = join([square, hole, square.segments[1].reversed(), again, square.segments[0]], 0.005)
    assert sorted(len(path.segments) for path in joined.closed) == [1, 4]
    assert joined.open == joined.forks == ()
    assert joined.notes == ("dropped 3 drawn twice",)


def test_a_whole_outline_drawn_again_with_loose_lines_is_dropped():
    square = corners_of([(0, 0), (10, 0), (10, 10), (0, 10)])
    joined = join([*square.segments, square.reversed()], 0.005)
    assert [len(path.segments) for path in joined.closed] == [4]
    assert joined.open == ()


def test_pieces_without_length_are_dropped_and_noted():
    dot = Line((10.0, 0.0), (10.0, 0.0))
    speck = Arc((1.0, 1.0), (1.0, 1.0), (1.0, 1.0), ccw=True)
    square = corners_of([(0, 0), (10, 0), (10, 10), (0, 10)])
    joined = join([dot, *square.segments, speck], 0.005)
    assert len(joined.closed) == 1
    assert joined.notes == ("dropped 2 without length",)


def test_a_fork_is_told_and_nothing_joined_there():
    square = corners_of([(0, 0), (10, 0), (10, 10), (0, 10)])
    joined = join([*square.segments, Line((10.0, 10.0), (20.0, 20.0))], 0.005)
    assert joined.forks == ((10.0, 10.0),)
    assert joined.closed == ()


def test_pieces_shorter_than_the_tolerance_are_not_swallowed():
    """Steps of 0.004 mm that fit each other exactly do not keep a gap elsewhere from closing."""
    steps = [Line((k * 0.004, 0.0), ((k + 1) * 0.004, 0.0)) for k in range(1000)]
    rest = [Line((4.0, 0.0), (4.0, 4.0)), Line((4.0, 4.0), (0.0, 0.003))]
    joined = join([*rest, *reversed(steps)], 0.005)
    assert len(joined.closed) == 1
    assert len(joined.closed[0].segments) == 1002
    assert joined.notes == ()


def test_beside_a_short_loose_piece_only_small_gaps_are_closed():
    pieces = [
        Line((0.0, 0.0), (10.0, 0.0)),
        Line((10.001, 0.0), (10.001, 0.006)),
        Line((10.0, 0.007), (0.0, 5.0)),
        Line((0.0, 5.0), (0.0, 0.004)),
    ]
    joined = join(pieces, 0.005)
    assert len(joined.closed) == 1
    assert "1 loose pieces shorter than 0.01 mm" in joined.notes[0]


def test_paths_keep_their_inner_joints():
    zig = Path((Line((0.0, 0.0), (5.0, 0.001)), Line((5.0, 0.001), (10.0, 0.0))))
    zag = Path((Line((10.0, 0.002), (5.0, 5.0)), Line((5.0, 5.0), (0.0, 0.0))))
    (loop,) = join([zag, zig], 0.005).closed
    assert (5.0, 0.001) in {segment.end for segment in loop.segments}


def test_an_arc_with_a_hair_missing_closes_to_a_full_circle():
    hair = 0.0002
    end = (5 * math.cos(-hair), 5 * math.sin(-hair))
    (loop,) = join([Arc((5.0, 0.0), end, (0.0, 0.0), ccw=True)], 0.005).closed
    assert loop.area == pytest.approx(25 * math.pi, rel=1e-6)


def test_a_ring_of_20000_loose_pieces_is_one_loop():
    count = 20_000
    points = [
        (1000 * math.cos(2 * math.pi * k / count), 1000 * math.sin(2 * math.pi * k / count))
        for k in range(count)
    ]
    joined = join(shaken(corners_of(points).segments, 7, 0.002), 0.005)
    assert [len(path.segments) for path in joined.closed] == [count]
    assert joined.open == joined.forks == ()
