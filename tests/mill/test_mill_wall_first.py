"""The wall finished before its floor: what still stands there is come down into gently, and counts
in what is bitten."""

from __future__ import annotations

import itertools
import math

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from jawcam.errors import Place
from jawcam.geometry.flatten import polyline
from jawcam.geometry.offset import shrink
from jawcam.geometry.rings import rings
from jawcam.geometry.shapes import Path, Region, polygon
from jawcam.mill.bite import Cleared
from jawcam.mill.links import Air
from jawcam.mill.trail import Trail
from jawcam.mill.wall import Wall, finish_walls
from jawcam.motion.moves import ArcFeed, LineFeed, Rapid
from jawcam.tolerance import Tolerance
from jawcam.tools.pace import Pace

TOLERANCE = Tolerance()
PLATE = Region(polygon([(0, 0), (60, 0), (60, 40), (0, 40)]))
ELL = Region(polygon([(0, 0), (60, 0), (60, 15), (15, 15), (15, 60), (0, 60)]))
SLOT = Region(polygon([(0, 0), (40, 0), (40, 9), (0, 9)]))  # room for 8 mm, hardly more
FLOOR = -6.0


def wall_of(pocket: Region, **changes) -> Wall:
    free = tuple(shrink([pocket], 4.2, TOLERANCE))
    asked = {
        "dia": 8,
        "leave": 0.2,
        "stepover": 3.2,
        "pace": Pace(8, 900, 300, full=0.3),
        "slot_feed": 300,
        "plunge_feed": 200,
        "ramp": 3,
        "top": 0,
        "heights": (-2, -4, FLOOR),
        "light": (FLOOR,),
        "air": Air(5, 5000),
        "spring": 1,
        "lead": None,
        "compensation": None,
        "centre_cutting": False,
        "cleared": (Cleared(free, 4),),
        "free": free,
        "place": Place(),
        "standing": FLOOR + 1.5,
    }
    return Wall(**(asked | changes))


def cut(pocket: Region, **changes) -> Trail:
    trail = Trail()
    finish_walls(trail, wall_of(pocket, **changes), shrink([pocket], 4, TOLERANCE))
    return trail


def steepest(trail: Trail, below: float) -> float:
    """In degrees, of the moves at feed below a height."""
    found = [0.0]
    for before, after in itertools.pairwise(trail.motions):
        if isinstance(after, (LineFeed, ArcFeed)) and after.to[2] < min(before.to[2], below):
            way = math.dist(before.to[:2], after.to[:2])
            if isinstance(after, ArcFeed):
                way = math.tau * math.dist(after.to[:2], after.centre)
            found.append(math.degrees(math.atan2(before.to[2] - after.to[2], way)))
    return max(found)


@pytest.mark.parametrize("pocket", [PLATE, ELL, SLOT])
def test_into_a_floor_that_stands_it_goes_by_helix_or_ramp_and_never_at_rapid(pocket):
    trail = cut(pocket)
    standing = FLOOR + 1.5
    assert steepest(trail, standing) <= 3 + 1e-9
    assert min(m.to[2] for m in trail.motions if isinstance(m, Rapid)) > standing
    assert trail.motions[-1].to[2] == FLOOR
    # the same with nothing standing: straight down beside the wall
    assert steepest(cut(pocket, standing=None), standing) == 90


def test_where_it_goes_down_all_lies_within_what_is_cleared():
    wall, trail = wall_of(ELL), cut(ELL)
    free = shapely.union_all([area(one.outer) for one in wall.free]).buffer(0.01)
    low = [
        (before.to, after)
        for before, after in itertools.pairwise(trail.motions)
        if FLOOR < after.to[2] < FLOOR + 1.5
    ]
    assert low
    for start, motion in low:
        assert free.covers(shapely.Point(motion.to[:2]))
        if isinstance(motion, ArcFeed) and motion.to[:2] == start[:2]:
            radius = math.dist(motion.to[:2], motion.centre)
            assert free.covers(shapely.Point(motion.centre).buffer(radius))


def test_all_across_the_floor_counts_as_much_as_along_the_wall():
    # closed form: 8 mm across x 1.5 mm of floor is as much as 2 mm along a wall 6 mm high
    wall = wall_of(PLATE)
    assert wall.foot(0.0, FLOOR) == pytest.approx(2.0)
    assert wall.foot(-4.0, FLOOR) == pytest.approx(8 * 1.5 / 2)
    assert wall.foot(-5.0, FLOOR) == pytest.approx(8.0), "nothing but floor: a slot"
    assert wall.foot(0.0, -4.0) == 0
    assert wall_of(PLATE, standing=None).foot(0.0, FLOOR) == 0


def test_it_is_fed_for_both_and_a_spring_pass_for_none():
    def rounds(**changes):
        level = [m for m in cut(PLATE, **changes).motions if m.to[2] == FLOOR]
        return [m.feed for m in level if isinstance(m, LineFeed) and m.to[0] == 56]

    # into a square corner, off what roughing left there: 0.2 sqrt(2), and the foot's 2 mm
    share = (0.2 * math.sqrt(2) + 2.0 - 0.3) / (8 - 0.3)
    slow = pytest.approx(900 - 600 * share, abs=0.1)
    assert rounds() == [slow, slow, 900, 900]
    assert rounds(standing=None) == [900] * 4


# --- what the floor pass leaves to the wall's -------------------------------------------------


def area(path: Path) -> shapely.Polygon:
    return shapely.Polygon([p for s in path.segments for p in polyline(s, 1e-4)[:-1]])


def swept(path: Path, radius: float) -> shapely.Geometry:
    """Edge by edge: GEOS thins what it buffers whole."""
    points = np.array([p for s in path.segments for p in polyline(s, 1e-3)])
    edges = shapely.linestrings(np.stack((points[:-1], points[1:]), axis=1))
    return shapely.union_all(shapely.buffer(edges, radius, quad_segs=64))


@settings(max_examples=12)
@given(
    st.lists(st.integers(12, 40), min_size=5, max_size=8),
    st.floats(5.0, 9.0),
    st.floats(0.2, 0.5),
)
def test_rings_a_stepover_off_a_finished_wall_and_that_wall_leave_nothing_between(
    spokes, dia, share
):
    # GEOS as another engine: all that the cutter can reach in a star-shaped pocket
    count = len(spokes)
    corners = [
        (r * math.cos(math.tau * k / count), r * math.sin(math.tau * k / count))
        for k, r in enumerate(spokes)
    ]
    pocket, radius, stepover = Region(polygon(corners)), dia / 2, share * dia
    reached = area(pocket.outer).buffer(-radius, quad_segs=64).buffer(radius, quad_segs=64)
    along_wall = [path for one in shrink([pocket], radius, TOLERANCE) for path in one.paths]
    within = rings([pocket], radius + stepover, stepover, TOLERANCE)
    cut_by = [swept(path, radius) for path in along_wall]
    waiting = list(within)
    while waiting:
        ring = waiting.pop()
        cut_by += [swept(path, radius) for path in ring.region.paths]
        waiting += ring.inner
    left = reached.difference(shapely.union_all(cut_by))
    assert left.buffer(-0.005).is_empty
