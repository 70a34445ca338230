"""What a large cutter leaves, against GEOS as another engine: worked out exactly, cut by the
smaller one only there, and come to from what is cleared."""

from __future__ import annotations

import itertools
import math
import random

import numpy as np
import pytest
import shapely

from jawcam.geometry.combine import union
from jawcam.geometry.flatten import polyline
from jawcam.geometry.offset import shrink
from jawcam.geometry.shapes import Path, Region, polygon
from jawcam.mill.bite import Cleared
from jawcam.mill.rest import Left, Rest, rest_of
from jawcam.mill.runs import BLEND, OFF
from jawcam.tolerance import Tolerance

TOLERANCE = Tolerance()
LEAVE = 0.2
EVERYWHERE = (Region(polygon([(-200, -200), (200, -200), (200, 200), (-200, 200)])),)


def region(*corners) -> Region:
    return Region(polygon(list(corners)))


SQUARE = region((-20, -15), (20, -15), (20, 15), (-20, 15))
LATCH = region(  # two ends, and a neck between them that 14 mm does not get through
    (-45, -18), (-5, -18), (-5, -4.5), (16, -4.5), (16, -11), (38, -11), (38, 11), (16, 11),
    (16, 4.5), (-5, 4.5), (-5, 18), (-45, 18),
)  # fmt: skip
HOOK = region(  # a slot round a corner that ends blind
    (-40, -20), (0, -20), (0, 4), (24, 4), (24, -12), (32, -12), (32, 12), (0, 12), (0, 20),
    (-40, 20),
)  # fmt: skip
LOBE = region(  # behind a narrow neck a place in which 14 mm has room, but no way down
    (-40, -20), (-2, -20), (-2, 8), (6, 8), (6, 2), (22, 2), (22, 18), (6, 18), (6, 14), (-2, 14),
    (-2, 20), (-40, 20),
)  # fmt: skip
APART = region((60, -3), (90, -3), (90, 3), (60, 3))
LARGE, SMALLER = 7.0, 2.5


def points(path: Path) -> np.ndarray:
    return np.array([p for s in path.segments for p in polyline(s, 1e-3)])


def area(path: Path) -> shapely.Polygon:
    return shapely.Polygon(points(path)).buffer(0)


def swept(path: Path, radius: float) -> shapely.Geometry:
    """Edge by edge: GEOS thins what it buffers whole."""
    rows = points(path)
    edges = shapely.linestrings(np.stack((rows[:-1], rows[1:]), axis=1))
    return shapely.union_all(shapely.buffer(edges, radius, quad_segs=32))


def left_of(pockets, large=LARGE, small=SMALLER, blanks=EVERYWHERE) -> Left:
    """The larger cutter goes where it has room, but not into what is hardly wider than it is."""
    room = shrink(pockets, large + LEAVE, TOLERANCE)
    boxes = [one.outer.box for one in room]
    wide = [max(x1 - x0, y1 - y0) >= 0.8 * large for x0, y0, x1, y1 in boxes]
    been = tuple(one for one, is_wide in zip(room, wide, strict=True) if is_wide)
    skipped = tuple(one for one in room if one not in been)
    return Left(
        tuple(pockets), LEAVE, Cleared(been, large), skipped, blanks, small, 0.8 * small, TOLERANCE
    )


class Seen:
    """The same by GEOS. inner: to clear; roughed: cleared by the larger cutter; rest: what the
    smaller one can reach of what that left; cut: what it cuts."""

    def __init__(self, left: Left, rest: Rest):
        radius = left.radius
        pockets = shapely.union_all([area(one.outer) for one in left.pockets])
        self.inner = pockets.buffer(-left.leave, quad_segs=64)
        reach = self.inner.buffer(-radius, quad_segs=64).buffer(radius, quad_segs=64)
        centre = shapely.union_all([area(one.outer) for one in left.been.centre])
        self.roughed = centre.buffer(left.been.radius, quad_segs=64)
        self.rest = reach.difference(self.roughed)
        self.reach = reach
        ways = [swept(run.path, radius) for group in rest.groups for run in group]
        rounds = [area(ring.region.outer).buffer(radius, quad_segs=32) for ring in rest.rings]
        self.cut = shapely.union_all([*ways, *rounds])


def seeded(seed: int) -> tuple[list[Region], float, float]:
    """Pockets of a few boxes, some of them as narrow as either cutter, and two radii."""
    dice = random.Random(seed)  # noqa: S311 (no secret)
    large, small = dice.choice([5.0, 6.0, 7.0, 8.0]), dice.choice([2.0, 2.5, 3.0])

    def box(x, y, width, height):
        return region((x, y), (x + width, y), (x + width, y + height), (x, y + height))

    narrow = [2 * small + 1, 2 * small + 3, 2 * large - 1, 2 * large + 0.8]
    boxes = [box(-20, -15, dice.uniform(20, 30), dice.uniform(20, 30))]
    for _ in range(dice.randint(1, 3)):
        x, y = dice.uniform(-18, 5), dice.uniform(-14, 5)
        wide, long = dice.choice(narrow), dice.uniform(15, 45)
        boxes.append(box(x, y, *((long, wide) if dice.random() < 0.5 else (wide, long))))
    return [Region(one.outer) for one in union(boxes, TOLERANCE)], large, small


CASES = {
    "square": ([SQUARE], LARGE, SMALLER),
    "latch": ([LATCH], LARGE, SMALLER),
    "hook": ([HOOK], LARGE, SMALLER),
    "lobe": ([LOBE], LARGE, SMALLER),
    "apart": ([LATCH, APART], LARGE, 2.0),
    **{f"seed {seed}": seeded(seed) for seed in (1, 4, 1006, 1160, 1172, 1176)},
}


@pytest.fixture(scope="module", params=CASES)
def case(request):
    left = left_of(*CASES[request.param])
    rest = rest_of(left)
    return left, rest, Seen(left, rest)


# --- against the other engine ----------------------------------------------------------------


def test_all_that_the_smaller_cutter_can_reach_is_cut_but_for_specks_at_the_wall(case):
    _, _, seen = case
    over = seen.rest.difference(seen.cut)
    # what stays is no wider than what stays on the wall
    assert over.buffer(-LEAVE / 2 - 0.005).is_empty


def test_where_the_floor_and_wall_passes_take_it_for_done_nothing_is_left(case):
    left, rest, seen = case
    assert rest.centre
    centre = shapely.union_all([area(one.outer) for one in rest.centre])
    done = centre.buffer(left.radius, quad_segs=32).intersection(seen.reach)
    over = done.difference(seen.roughed).difference(seen.cut)
    assert over.buffer(-0.01).is_empty


def test_it_cuts_nowhere_else(case):
    left, rest, seen = case
    assert seen.cut.difference(seen.inner.buffer(0.003)).buffer(-0.002).is_empty
    near = seen.rest.buffer(left.radius + BLEND + 0.05, quad_segs=32)
    for group in rest.groups:
        for run in group:
            assert near.covers(shapely.LineString(points(run.path)))


def test_it_comes_down_and_goes_up_where_the_larger_one_has_cleared_all(case):
    left, rest, seen = case
    for group in rest.groups:
        for run in group:
            for at, end in ((run.down, run.path.start), (run.up, run.path.end)):
                disc = shapely.Point(at).buffer(left.radius)
                assert (
                    disc.difference(seen.roughed).intersection(seen.inner).buffer(-0.002).is_empty
                )
                assert math.dist(at, end) <= 2 * left.radius


def test_each_run_goes_on_from_where_it_is(case):
    _, rest, _ = case
    for run in itertools.chain(*rest.groups):
        for one, following in itertools.pairwise(run.path.segments):
            assert math.dist(one.end, following.start) < 1e-6


# --- one by one ------------------------------------------------------------------------------


def test_in_a_square_corner_it_follows_both_walls_from_where_they_were_left():
    # closed form: the larger cutter leaves a wall R before the corner, the smaller one turns at r
    rest = rest_of(left_of([SQUARE]))
    assert rest.rings == ()
    assert len(rest.groups) == 4
    for (run,) in rest.groups:
        assert [s.length for s in run.path.segments] == pytest.approx(
            [7 - 2.5 + BLEND] * 2, abs=0.031
        )
        (x, y) = run.path.segments[0].end
        assert (abs(x), abs(y)) == pytest.approx((20 - 2.7, 15 - 2.7), abs=1e-6)
        assert math.dist(run.down, run.path.start) == pytest.approx(OFF, abs=0.02)


def test_a_neck_and_a_blind_slot_are_entered_from_the_side_and_never_wound_into():
    for pocket in (LATCH, HOOK, LOBE):
        assert rest_of(left_of([pocket])).rings == ()


def test_behind_a_neck_it_clears_from_the_inside_out_on_its_way():
    rest = rest_of(left_of([LOBE]))
    (run,) = (one for one in itertools.chain(*rest.groups) if points(one.path)[:, 0].max() > 15)
    # its loops: where its way comes back to a point that it has been at, and how wide they are
    rows = [tuple(np.round(s.start, 3)) for s in run.path.segments]
    loops = [
        Path(run.path.segments[a:b])
        for a, b in itertools.combinations(range(len(rows)), 2)
        if rows[a] == rows[b]
    ]
    spans = [round(float(np.ptp(points(loop)[:, 1])), 3) for loop in loops]
    # closed form: the place is 16 mm wide; a stepover of 2 mm farther in each
    assert set(spans) == {6.6, 2.6}


def test_a_pocket_that_the_larger_cutter_never_touched_has_rings_of_its_own():
    rest = rest_of(left_of([LATCH, APART], small=2.0))
    assert len(rest.rings) == 1
    x0, _, x1, _ = rest.rings[0].region.outer.box
    assert (x0, x1) == pytest.approx((62.2, 87.8), abs=1e-6)


def test_what_lies_in_the_gap_is_air():
    tops = region((-200, 5), (200, 5), (200, 200), (-200, 200))
    fronts = region((-200, -200), (200, -200), (200, -5), (-200, -5))
    left = left_of([LATCH], blanks=(tops, fronts))
    runs = list(itertools.chain(*rest_of(left).groups))
    # the neck is no wider than the gap
    assert not any(-3 < x < 14 for run in runs for x, _ in points(run.path))


@pytest.mark.parametrize("small", [7.0, 8.0])
def test_a_cutter_no_smaller_has_nothing_to_do(small):
    assert rest_of(left_of([LATCH], small=small)) == Rest()


def test_small_places_at_the_wall_are_left_to_the_wall_pass():
    # closed form: (R - r)(sqrt(2) - 1) = 0.12 mm more than on the wall are left in a square corner
    assert rest_of(left_of([SQUARE], large=3.3, small=3.0)) == Rest()
    slotted = region((-20, -15), (20, -15), (20, -3.3), (40, -3.3), (40, 3.3), (20, 3.3), (20, 15),
                     (-20, 15))  # fmt: skip
    rest = rest_of(left_of([slotted], large=3.3, small=3.0))
    # beside a slot that is worth a pass too
    assert {min(x for x, _ in points(run.path)) > 15 for run in itertools.chain(*rest.groups)} == {
        True
    }
