"""The feed of each block: what a cutter bites beside what is cleared, and what it is fed then."""

from __future__ import annotations

import itertools
import math

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from jawcam.errors import Place
from jawcam.geometry.cut import point_at
from jawcam.geometry.offset import shrink
from jawcam.geometry.shapes import Arc, Line, Path, Region, circle, polygon
from jawcam.mill.bite import FRONT, Cleared, front
from jawcam.mill.fed import ARC_LEAST, ARC_MOST, cleared_blocks, evened, wall_feeds
from jawcam.mill.links import Air
from jawcam.mill.pieces import ALIKE, SHORTEST, pieces
from jawcam.mill.trail import Trail
from jawcam.mill.wall import Wall, finish_walls
from jawcam.motion.moves import ArcFeed
from jawcam.tolerance import Tolerance
from jawcam.tools.engagement import engaged, engaged_inside, engaged_outside, fresh_width
from jawcam.tools.limits import Limits
from jawcam.tools.pace import Pace

TOLERANCE = Tolerance()
PLATE = Region(polygon([(0, 0), (60, 0), (60, 40), (0, 40)]))


def width(point, heading, cleared, radius=5.0):
    edge = front(np.array([point], dtype=float), np.array([heading], dtype=float), radius)
    for area in cleared:
        edge = edge.after(area)
    return float(edge.widths[0])


# --- bites -----------------------------------------------------------------------------------


def test_where_nothing_is_cleared_a_cutter_bites_all_of_its_diameter():
    assert width((0, 0), (1, 0), []) == pytest.approx(10)
    assert width((0, 0), (0.6, 0.8), [Cleared((), 5)]) == pytest.approx(10)


@pytest.mark.parametrize("step", [0.5, 1, 2, 4, 5])
def test_beside_a_straight_ring_it_bites_the_step(step):
    inner = Cleared(tuple(shrink([PLATE], 5 + step, TOLERANCE)), 5)
    assert width((30, 5), (1, 0), [inner]) == pytest.approx(step, abs=0.02 * 10 / 2)
    assert width((30, 5 + step), (1, 0), [inner]) == 0


# REFERENCE M5 and M6: the engaged angle inside and outside a round wall, cutter radius 5
@pytest.mark.parametrize(("radius", "step"), [(8, 1), (12, 1), (20, 1), (20, 4)])
def test_on_arcs_it_bites_what_its_engaged_angle_says(radius, step):
    inside = Cleared((Region(circle((0, 0), radius - step - 5)),), 5)
    expected = fresh_width(engaged_inside(step, radius, 5), 10)
    assert width((radius - 5, 0), (0, 1), [inside]) == pytest.approx(expected, abs=0.1)
    wide = circle((0, 0), 100).segments[0]
    beyond = Region(Path((wide,)), (circle((0, 0), radius + step + 5).reversed(),))
    expected = fresh_width(engaged_outside(step, radius, 5), 10)
    found = width((radius + 5, 0), (0, -1), [Cleared((beyond,), 5)])
    assert found == pytest.approx(expected, abs=0.1)


@pytest.mark.parametrize("step", [0.25, 1, 2, 4])
def test_before_a_square_corner_it_is_engaged_a_quarter_turn_farther(step):
    """REFERENCE M8; behind the corner it is the straight angle again."""
    inner = Cleared(tuple(shrink([PLATE], 5 + step, TOLERANCE)), 5)
    corner = fresh_width(engaged(step, 10) + 90, 10)
    assert width((55, 5), (1, 0), [inner]) == pytest.approx(corner, abs=0.05)
    assert width((55, 5), (0, 1), [inner]) == pytest.approx(step, abs=0.05)


@given(st.floats(8, 52), st.floats(5, 35), st.floats(0, 360), st.floats(0.5, 4))
def test_it_bites_as_another_engine_finds_it(x, y, turn, step):
    """GEOS: what a short move sweeps outside of the cleared, over its length."""
    regions = tuple(shrink([PLATE], 5 + step, TOLERANCE))
    been = shapely.box(5 + step, 5 + step, 55 - step, 35 - step)
    cleared = been.buffer(5, quad_segs=256)
    heading = (math.cos(math.radians(turn)), math.sin(math.radians(turn)))
    found = width((x, y), heading, [Cleared(regions, 5)])
    move = 1e-3
    here = shapely.Point(x, y).buffer(5, quad_segs=512)
    there = shapely.affinity.translate(here, heading[0] * move, heading[1] * move)
    fresh = there.difference(cleared.union(here)).area / move
    assert found == pytest.approx(fresh, abs=2.5 * math.pi * 5 / FRONT)


def test_its_own_way_counts_as_cleared():
    there_and_back = Path((Line((0, 0), (30, 0)), Line((30, 0), (30, 1)), Line((30, 1), (0, 1))))
    pace = Pace(10, 1000, 400, full=5)
    path, feeds = cleared_blocks(there_and_back, [], pace)
    assert feeds[0] == 400
    assert feeds[-1] > 900
    assert path.end == (0, 1)


# --- blocks ----------------------------------------------------------------------------------


def ring(step):
    (outer,) = shrink([PLATE], 5, TOLERANCE)
    return outer.outer, [Cleared(tuple(shrink([PLATE], 5 + step, TOLERANCE)), 5)]


@settings(max_examples=25)
@given(st.floats(0.3, 5))
def test_blocks_make_up_the_path_and_each_is_fed_for_the_widest_bite_in_it(step):
    path, cleared = ring(step)
    pace = Pace(10, 1000, 400, full=5, thin=True)
    blocks, feeds = cleared_blocks(path, cleared, pace)
    assert blocks.start == path.start
    assert blocks.closed
    assert blocks.length == pytest.approx(path.length)
    assert len(blocks.segments) <= 3 * len(path.segments)
    assert all(a.end == b.start for a, b in itertools.pairwise(blocks.segments))
    assert min(block.length for block in blocks.segments) >= SHORTEST * 5 * (1 - 1e-9)
    # the last corner was cut when the ring was begun
    for block, feed in zip(blocks.segments[:-1], feeds[:-1], strict=True):
        (x0, y0), (x1, y1) = block.start, block.end
        places = [point_at(block, block.length * k / 8) for k in range(9)]
        heading = [((x1 - x0) / block.length, (y1 - y0) / block.length)] * 9
        bites = front(np.array(places), np.array(heading), 5).after(*cleared).widths
        assert feed <= min(pace.at(bite) for bite in bites.tolist()) * 1.03 + 0.1


def test_a_ring_with_square_corners_slows_down_before_them_alone():
    path, cleared = ring(4)
    blocks, feeds = cleared_blocks(path, cleared, Pace(10, 1000, 400, full=5))
    # its last corner was cut when it was begun
    assert len(blocks.segments) == 7
    assert min(feeds[::2]) > 850
    assert max(feeds[1::2]) < 450
    assert max(segment.length for segment in blocks.segments[1::2]) < 10


def test_a_smooth_ring_is_one_feed_all_round():
    disc = Region(circle((0, 0), 20))
    (outer,), inner = shrink([disc], 5, TOLERANCE), tuple(shrink([disc], 9, TOLERANCE))
    blocks, feeds = cleared_blocks(outer.outer, [Cleared(inner, 5)], Pace(10, 1000, 400, full=5))
    assert blocks == outer.outer
    assert feeds == [1000]


@given(st.lists(st.floats(50, 2000), min_size=1, max_size=30))
def test_feeds_made_equal_are_never_higher_and_hardly_lower(feeds):
    found = evened(feeds)
    assert len(found) == len(feeds)
    for before, after in zip(feeds, found, strict=True):
        assert before / ALIKE - 0.06 <= after <= before + 0.06


def test_blocks_that_hardly_differ_share_a_feed():
    assert evened([1000, 950, 920, 400, 1000]) == [920, 920, 920, 400, 1000]
    assert evened([1000, 910, 830]) == [910, 910, 830]


@given(
    st.lists(st.floats(100, 2000), min_size=3, max_size=20),
    st.floats(5, 60),
)
def test_a_cut_in_pieces_takes_no_longer_and_no_piece_is_too_fast(feeds, length):
    marks = [length * k / (len(feeds) - 1) for k in range(len(feeds))]
    found = pieces(marks, feeds, 5)
    assert [found[0][0], found[-1][1]] == [0, marks[-1]]
    assert len(found) <= 3
    assert sum((b - a) / feed for a, b, feed in found) <= length / min(feeds) * (1 + 1e-9)
    for begin, end, feed in found:
        assert feed <= min(f for m, f in zip(marks, feeds, strict=True) if begin <= m <= end)


# --- walls -----------------------------------------------------------------------------------


def arc(radius, ccw):
    end = (0, radius) if ccw else (0, -radius)
    return Path((Arc((radius, 0), end, (0, 0), ccw),))


@pytest.mark.parametrize(
    ("feed", "wall", "cutter", "inside", "outside"),
    [(500, 10, 5, 250, 750), (300, 25, 6, 228, 372)],
)
def test_the_centre_s_feed_on_arcs_keeps_that_of_the_wall(feed, wall, cutter, inside, outside):
    """REFERENCE M16, M17."""
    pace = Pace(2 * cutter, feed, feed / 2, full=1)
    assert wall_feeds(arc(wall - cutter, True), [0.2], pace) == [inside]
    assert wall_feeds(arc(wall + cutter, False), [0.2], pace) == [outside]


def test_what_an_arc_makes_of_a_feed_has_bounds():
    pace = Pace(10, 400, 200, full=1)
    assert wall_feeds(arc(0.2, True), [0.2], pace) == [400 * ARC_LEAST]
    assert wall_feeds(arc(5.5, False), [0.2], pace) == [400 * ARC_MOST]
    assert wall_feeds(arc(5, False), [0.2], pace) == [400], "round a sharp corner"
    fast = Pace(10, 400, 200, full=1, most=450)
    assert wall_feeds(arc(10, False), [0.2], fast) == [450]


@given(st.floats(0.5, 60), st.floats(0.05, 1), st.floats(15, 80))
def test_no_arc_is_fed_faster_than_the_cutter_bears_there(radius, stock, stickout):
    limits = Limits(10, 3, 6366, 700, 0.25, stickout=stickout, bend=0.01)
    pace = Pace(10, 1000, 500, full=1.5, depth=10, limits=limits)
    (feed,) = wall_feeds(arc(radius, True), [stock], pace)
    bite = fresh_width(engaged_inside(stock, radius + 5, 5), 10)
    assert feed <= max(limits.most(bite, 10), 0.3 * pace.asked(bite)) + 0.06
    assert feed <= 1000 * max(radius / (radius + 5), ARC_LEAST) + 0.06


def test_a_wall_is_finished_in_the_steps_that_its_cutter_bears():
    disc = Region(circle((0, 0), 20))
    (room,) = shrink([disc], 5, TOLERANCE)
    free = tuple(shrink([disc], 5.2, TOLERANCE))
    wall = Wall(
        dia=10,
        leave=0.2,
        stepover=4,
        pace=Pace(10, 600, 300, full=0.3),
        slot_feed=300,
        plunge_feed=200,
        ramp=3,
        top=0,
        heights=(-5, -10, -15),
        light=(-7.5, -15),
        air=Air(5, 5000),
        spring=1,
        lead=None,
        compensation=None,
        centre_cutting=False,
        cleared=(Cleared(free, 5),),
        free=free,
        place=Place(),
    )
    trail = Trail()
    finish_walls(trail, wall, [room])
    rounds = [m for m in trail.motions if isinstance(m, ArcFeed) and m.to[:2] == (15, 0)]
    assert [m.to[2] for m in rounds if m.feed == 450] == [-7.5, -15, -15], "600 x 15 / 20"
