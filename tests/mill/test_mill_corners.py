"""Corners picked out: where the smaller cutter goes, what is left then, how it gets there."""

from __future__ import annotations

import itertools
import math
import re
from types import SimpleNamespace

import pytest
import shapely

from jawcam.errors import InputError, Place
from jawcam.geometry.flatten import polyline
from jawcam.geometry.measure import inside_distances
from jawcam.geometry.shapes import Line, Path, Region, from_bulges, polygon
from jawcam.hold.cavity import CutLevel
from jawcam.hold.target import Groove
from jawcam.job.model import Blanks
from jawcam.mill.corners import corner_used, corner_words, corners, runs
from jawcam.mill.driven import Chosen
from jawcam.mill.runs import BLEND, OFF
from jawcam.mill.trail import Trail
from jawcam.mill.work import Work
from jawcam.motion.moves import LineFeed, Rapid
from jawcam.tolerance import Tolerance
from jawcam.tools.cutter import Cutter
from jawcam.units import Units

QUARTER = math.tan(math.pi / 8)
SQUARE = polygon([(-20, -15), (20, -15), (20, 15), (-20, 15)])
WEDGE = polygon([(-30, -14), (30, -14), (0, 14)])
ELL = polygon([(-20, -20), (20, -20), (20, -4), (-4, -4), (-4, 20), (-20, 20)])
SLOTTED = polygon(
    [(-20, -15), (20, -15), (20, 5), (33, 5), (33, 12), (20, 12), (20, 15), (-20, 15)]
)
ROUNDED = from_bulges([(-20, -15, 0), (17, -15, QUARTER), (20, -12, 0), (20, 15, 0), (-20, 15, 0)])


def chosen(number: int, dia: float) -> Chosen:
    cutter = Cutter(number, "end mill", dia)
    return Chosen(cutter, 8000, 900, 450, 300, 5000, dia / 2, 0.4 * dia, (f"T{number}",))


def work_of(*pockets: Path, finish=8.0, corner=4.0, gap=0.5, groove=None, depth=3.0, **asked):
    large = chosen(1, finish)
    asked = {"feed": None, "compensation": None} | asked
    levels = [
        CutLevel(-depth * k, -depth * (k + 1), (), (Region(path),))
        for k, path in enumerate(pockets)
    ]
    return Work(
        job=SimpleNamespace(units=Units.MM),
        setup=SimpleNamespace(
            rough=SimpleNamespace(leave=0.2, leave_floor=0.1), finish=SimpleNamespace(**asked)
        ),
        target=SimpleNamespace(
            blanks=Blanks(width=120, height=30, thickness=40, gap=gap),
            groove=groove,
            clearance=5.0,
            reliefs=(),
        ),
        cavity=tuple(levels),
        as_cut=(),
        rough=large,
        finish=large,
        corner=large if corner == finish else chosen(2, corner),
        tolerance=Tolerance(),
        place=Place(key="here"),
    )


def runs_of(pocket: Path, **options):
    return runs(work_of(pocket, **options).levels[0])


def area(path: Path) -> shapely.Polygon:
    return shapely.Polygon([p for s in path.segments for p in polyline(s, 1e-4)[:-1]])


def swept(path: Path, radius: float) -> shapely.Geometry:
    points = [p for s in path.segments for p in polyline(s, 1e-4)]
    return shapely.LineString(points).buffer(radius, quad_segs=100)


def reached(pocket: Path, radius: float) -> shapely.Geometry:
    return area(pocket).buffer(-radius, quad_segs=100).buffer(radius, quad_segs=100)


# --- where it goes ---------------------------------------------------------------------------


def test_in_a_square_corner_the_wall_is_followed_from_where_the_larger_cutter_left_it():
    # closed form: a cutter of radius R leaves a square corner's walls R before they meet
    found = runs_of(SQUARE)
    assert len(found) == 4
    corners_met = set()
    for run in found:
        into, out = run.path.segments
        assert isinstance(into, Line)
        assert isinstance(out, Line)
        assert [into.length, out.length] == pytest.approx([4 - 2 + BLEND] * 2, abs=0.025)
        x, y = into.end
        assert (abs(x), abs(y)) == pytest.approx((18, 13), abs=1e-6)
        corners_met.add((round(x), round(y)))
        # climb: the inside is on the left, as on the wall
        turn = (into.end[0] - into.start[0]) * (out.end[1] - out.start[1])
        turn -= (into.end[1] - into.start[1]) * (out.end[0] - out.start[0])
        assert turn > 0
        assert math.dist(run.down, run.path.start) == pytest.approx(OFF, abs=0.01)
        assert math.dist(run.up, run.path.end) == pytest.approx(OFF, abs=0.01)
        # closed form: in the corner (R - r)(sqrt(2) - 1) of it is left
        assert run.widths == pytest.approx([2 * (math.sqrt(2) - 1)] * 2, abs=1e-3)
    assert len(corners_met) == 4


def test_of_a_pocket_with_one_round_corner_the_sharp_ones_are_picked_in_order():
    wide = from_bulges([(-20, -15, 0), (15, -15, QUARTER), (20, -10, 0), (20, 15, 0), (-20, 15, 0)])
    assert len(runs_of(wide)) == 3
    assert len(runs_of(ROUNDED)) == 4  # radius 3 is picked as well


@pytest.mark.parametrize(
    ("pocket", "finish", "corner"),
    [
        (SQUARE, 8, 4),
        (SQUARE, 8, 7.8),
        (SQUARE, 12, 2),  # wider than a run along the wall takes
        (WEDGE, 8, 1.5),
        (WEDGE, 10, 3),
        (ELL, 10, 4),
        (SLOTTED, 8, 3),  # a slot that the larger cutter does not get into
        (ROUNDED, 10, 2),
    ],
)
def test_then_only_that_is_left_which_the_smaller_cutter_leaves(pocket, finish, corner):
    found = runs_of(pocket, finish=finish, corner=corner)
    picked = shapely.union_all([swept(run.path, corner / 2) for run in found])
    cut = shapely.union(reached(pocket, finish / 2), picked)
    within = reached(pocket, corner / 2)
    assert within.difference(reached(pocket, finish / 2)).buffer(-0.01).area > 0
    assert cut.symmetric_difference(within).buffer(-0.002).is_empty
    assert cut.difference(area(pocket).buffer(0.001)).is_empty


def test_what_is_left_wider_than_one_run_is_taken_from_the_inside_out():
    found = runs_of(SQUARE, finish=12, corner=2)
    depth = [min(20 - abs(x), 15 - abs(y)) for x, y in (run.path.segments[0].end for run in found)]
    assert depth == sorted(depth, reverse=True)
    assert depth == pytest.approx([1.8] * 4 + [1.0] * 4)
    assert max(width for run in found for width in run.widths) < 2


def test_what_lies_in_the_gap_is_not_picked():
    diamond = polygon([(-40, 0), (0, -25), (40, 0), (0, 25)])
    tips = {tuple(map(round, run.path.segments[0].end)) for run in runs_of(diamond, gap=14)}
    assert {x for x, _ in tips} == {0}
    assert len(runs_of(diamond, gap=0)) == 4


def test_without_a_smaller_cutter_nothing_is_picked():
    work = work_of(SQUARE, corner=8)
    assert list(corners(work)) == []
    assert corner_words(work) == ()


def test_a_place_with_no_way_in_is_refused_with_its_width():
    dumbbell = polygon(
        [(-40, -15), (-10, -15), (-10, -1.5), (10, -1.5), (10, -4.5), (19, -4.5), (19, 4.5),
         (10, 4.5), (10, 1.5), (-10, 1.5), (-10, 15), (-40, 15)]
    )  # fmt: skip
    with pytest.raises(InputError, match=r"only 9 mm wide here, too narrow for tool 1, 10 mm") as e:
        runs_of(dumbbell, finish=10, corner=4)
    (fault,) = e.value.faults
    assert re.fullmatch(r"X 14\.\d+ Y 0", fault.place.at)
    assert "less than 9 mm" in fault.mend
    # a cutter that gets through the neck takes the small end, ring by ring
    wider = polygon([(x, math.copysign(max(abs(y), 3.8), y)) for x, y in (
        s.start for s in dumbbell.segments)])  # fmt: skip
    assert len(runs_of(wider, finish=10, corner=4)) > 0


# --- how it gets there -----------------------------------------------------------------------


def motions_of(work):
    operations = list(corners(work))
    assert {one.name for one in operations} == {"corners"}
    assert {one.chosen for one in operations} == {work.corner}
    trail = Trail()
    for one in operations:
        one.cut(trail)
    return trail.motions


def test_it_goes_down_where_all_is_cleared_and_never_across_at_rapid_down_there():
    work = work_of(SQUARE)
    motions = motions_of(work)
    finished = work.levels[0].finished
    for before, after in itertools.pairwise(motions):
        (x, y, z), low = after.to, min(before.to[2], after.to[2])
        if isinstance(after, Rapid) and low < 5:
            assert (x, y) == before.to[:2]
        if z < before.to[2]:
            apart = -inside_distances(finished, shapely.get_coordinates(shapely.Point(x, y)))[0]
            assert apart <= 4 - 2 - OFF + 1e-6


def test_a_heavy_bite_is_taken_in_stepdowns_and_a_light_one_at_once():
    def heights(work):
        return sorted({m.to[2] for m in motions_of(work) if isinstance(m, LineFeed)})

    assert heights(work_of(SQUARE))[0] == -3
    cuts = {z for z in heights(work_of(SQUARE)) if z in (-3, -1.5)}
    assert cuts == {-3, -1.5}
    slight = from_bulges(
        [(-16.5, -15, 0), (16.5, -15, QUARTER), (20, -11.5, 0), (20, 11.5, QUARTER),
         (16.5, 15, 0), (-16.5, 15, QUARTER), (-20, 11.5, 0), (-20, -11.5, QUARTER)]
    )  # fmt: skip
    assert set(heights(work_of(slight))) <= {-3, -2.5}


def test_each_level_is_picked_down_to_its_own_floor_and_the_groove_after_the_seat():
    inner = polygon([(-12, -9), (12, -9), (12, 9), (-12, 9)])
    motions = motions_of(work_of(SQUARE, inner, groove=Groove(8.0, 0.3)))
    deepest = {}
    for motion in motions:
        corner = (round(abs(motion.to[0]), 3), round(abs(motion.to[1]), 3))
        deepest[corner] = min(deepest.get(corner, 0.0), motion.to[2])
    assert deepest[18, 13] == -3
    assert deepest[10, 7] == -6.3


def test_it_is_fed_for_its_bite_and_no_faster_than_asked_for_finishing():
    def feeds(**asked):
        motions = motions_of(work_of(SQUARE, **asked))
        return {m.feed for m in motions if isinstance(m, LineFeed) and m.feed < 5000}

    # straight down, over to the wall, along it biting 0.83 of 4 mm, back off it
    share = (2 * (math.sqrt(2) - 1) - 0.3) / (4 - 0.3)
    along = pytest.approx(900 - 450 * share, abs=0.1)
    assert sorted(feeds()) == [300, 450, along, 900]
    assert feeds(feed=200.0) == {300, 200}


def test_the_cutter_is_told_of_and_that_it_does_not_follow_the_register():
    assert corner_used(work_of(SQUARE))
    assert corner_words(work_of(SQUARE)) == ()
    (told,) = corner_words(work_of(SQUARE, compensation=23))
    assert "tool 2 picks out the corners without compensation" in told
    assert "register 23" in told
    plain = from_bulges([(-20, 0, 1), (20, 0, 1)])
    assert corner_words(work_of(plain)) == ()
    assert not corner_used(work_of(plain))
