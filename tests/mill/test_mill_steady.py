"""Steady-load passes: everything reached, nothing outside, and never much wider than asked.

What a pass bites off is measured here by another engine (GEOS): the area that each millimetre of
its way adds to what is cleared.
"""

from __future__ import annotations

import itertools
import math

import numpy as np
import pytest
import shapely
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from jawcam.geometry.cut import along
from jawcam.geometry.measure import inside_distances, roomiest
from jawcam.geometry.offset import shrink
from jawcam.geometry.shapes import Arc, Path, Point, Region, circle, from_bulges, polygon
from jawcam.mill import steady_passes as ways
from jawcam.mill.progress import Circle
from jawcam.mill.steady_passes import Steady, steady_passes
from jawcam.tolerance import Tolerance

TOLERANCE = Tolerance()

ROUND = math.tan(math.pi / 8)  # the bulge of a quarter turn
OBLONG = Region(
    from_bulges(
        [(-15, -12, 0), (15, -12, ROUND), (20, -7, 0), (20, 7, ROUND), (15, 12, 0),
         (-15, 12, ROUND), (-20, 7, 0), (-20, -7, ROUND)]
    )
)  # fmt: skip
SHAPES = {
    "round": Region(circle((3, 1), 14)),
    "oblong": OBLONG,
    "sharp": Region(polygon([(0, 0), (30, 0), (6, 26)])),
    "ell": Region(polygon([(0, 0), (36, 0), (36, 12), (12, 12), (12, 30), (0, 30)])),
    "neck": Region(
        polygon([(0, 0), (18, 0), (18, 5), (26, 5), (26, 0), (42, 0), (42, 20), (26, 20),
                 (26, 14), (18, 14), (18, 20), (0, 20)])
    ),
    "island": Region(OBLONG.outer, (circle((6, 0), 2.5, ccw=False),)),
    "sliver": Region(polygon([(0, 0), (24, 0), (24, 11.4), (0, 11.4)])),
}  # fmt: skip


def centre_of(region: Region, radius: float) -> Region:
    return shrink([region], radius, TOLERANCE)[0]


def planned(centre: Region, radius: float, width: float) -> tuple[Steady, list[Point]]:
    """The passes from the roomiest place, and the last turn of the helix there."""
    middle, room = roomiest(centre)
    wide = min(0.9 * radius, room)
    turn = [2 * math.pi * k / 96 for k in range(96)]
    entry = [(middle[0] + wide * math.cos(a), middle[1] + wide * math.sin(a)) for a in turn]
    return steady_passes(centre, radius, width, Circle(middle, wide), room), entry


def points_of(path: Path) -> list[Point]:
    found = [path.start]
    for segment in path.segments:
        found += along(segment, 0.25 if isinstance(segment, Arc) else 9.0)[1:]
    return found


def swept(points: list[Point], radius: float) -> shapely.Geometry:
    return shapely.LineString(points).buffer(radius, quad_segs=16)


def bites(plan: Steady, entry: list[Point], radius: float, window: float) -> list[float]:
    """The area that each `window` mm of way adds, by its length; a shorter pass by a window."""
    cleared = shapely.Polygon(entry).buffer(radius, quad_segs=64)
    found = []
    for one in plan.passes:
        dots = np.array(points_of(one.path))
        ends = np.concatenate(([0.0], np.cumsum(np.hypot(*np.diff(dots, axis=0).T))))
        cuts = np.linspace(0, ends[-1], max(1, round(ends[-1] / window)) + 1)
        box = (*(dots.min(axis=0) - 3 * radius), *(dots.max(axis=0) + 3 * radius))
        here, pieces = shapely.intersection(cleared, shapely.box(*box)), []
        for first, last in itertools.pairwise(cuts.tolist()):
            between = dots[(ends > first) & (ends < last)].tolist()
            corners = [
                [float(np.interp(way, ends, column)) for column in dots.T] for way in (first, last)
            ]
            piece = swept([corners[0], *between, corners[1]], radius)
            found.append(shapely.difference(piece, here).area / max(last - first, window))
            here = shapely.union(here, piece)
            pieces.append(piece)
        cleared = shapely.union_all([cleared, *pieces])
    return found


def left_over(plan: Steady, entry: list[Point], centre: Region, radius: float) -> float:
    """How thick the thickest thing is that a cutter could have reached and did not, mm."""
    outline = [points_of(path) for path in centre.paths]
    reached = shapely.Polygon(outline[0], outline[1:]).buffer(radius - 0.01, quad_segs=64)
    been = [shapely.Polygon(entry).buffer(radius, quad_segs=64)]
    been += [swept(points_of(one.path), radius) for one in plan.passes]
    rest = shapely.difference(reached, shapely.union_all(been))
    parts = [part for part in shapely.get_parts(rest) if part.length > 0]
    return max((2 * part.area / part.length for part in parts), default=0.0)


@pytest.mark.parametrize("name", SHAPES)
def test_nothing_is_bitten_off_much_wider_than_asked_and_nothing_is_left(name: str):
    radius, width = 4.0, 1.2
    centre = centre_of(SHAPES[name], radius)
    plan, entry = planned(centre, radius, width)
    assert plan.done
    assert max(bites(plan, entry, radius, 2.0)) <= 1.15 * width
    assert left_over(plan, entry, centre, radius) < 0.02


@pytest.mark.parametrize("corners", [[(0, 0), (34, 0), (0, 22)], [(0, 0), (40, 0), (6, 16)]])
def test_no_more_than_a_tooth_takes_is_left_in_sharp_corners(corners: list[Point]):
    centre = centre_of(Region(polygon(corners)), 4.0)
    plan, entry = planned(centre, 4.0, 0.5)
    assert plan.done
    assert left_over(plan, entry, centre, 4.0) < 0.035


@pytest.mark.parametrize("name", ["sharp", "neck"])
def test_the_centre_stays_where_it_may_be(name: str):
    centre = centre_of(SHAPES[name], 3.0)
    plan, _ = planned(centre, 3.0, 0.6)
    cuts = np.array([p for one in plan.passes for p in points_of(one.path)])
    backs = np.array([p for one in plan.passes for p in one.back])
    assert inside_distances([centre], cuts).min() >= -0.005
    assert inside_distances([centre], backs).min() >= -0.005


def test_ways_back_cut_nothing():
    radius = 4.0
    centre = centre_of(SHAPES["ell"], radius)
    plan, entry = planned(centre, radius, 1.0)
    cleared = shapely.Polygon(entry).buffer(radius, quad_segs=64)
    for one in plan.passes:
        if len(set(one.back)) > 1:
            assert shapely.difference(swept(list(one.back), radius), cleared).area < 0.5
        cleared = shapely.union(cleared, swept(points_of(one.path), radius))


def test_passes_are_the_same_each_time():
    centre = centre_of(SHAPES["island"], 4.0)
    assert planned(centre, 4.0, 1.0) == planned(centre, 4.0, 1.0)


def test_a_bite_twice_as_wide_in_one_place_shows():
    radius, width = 4.0, 1.0
    centre = centre_of(OBLONG, radius)
    whole, entry = planned(centre, radius, width)
    assert max(bites(whole, entry, radius, 1.0)) < 1.15 * width
    short = Steady(whole.passes[:30] + whole.passes[31:], ())  # one pass forgotten
    assert max(bites(short, entry, radius, 1.0)) > 1.5 * width


def test_what_is_too_much_is_given_up_and_told(monkeypatch: pytest.MonkeyPatch):
    monkeypatch.setattr(ways, "LEAST_PASSES", 5)
    monkeypatch.setattr(ways, "MOST_PASSES", 0)
    centre = centre_of(OBLONG, 4.0)
    plan, _ = planned(centre, 4.0, 0.5)
    assert len(plan.passes) < 20
    assert not plan.done


@st.composite
def stars(draw: st.DrawFn) -> Region:
    count = draw(st.integers(3, 9))
    share = st.floats(0.5, 1.2, allow_nan=False)
    bulge = st.sampled_from([0.0, 0.0, 0.25, -0.15])
    rows = []
    for k in range(count):
        angle = 2 * math.pi * (k + draw(st.floats(-0.3, 0.3))) / count
        size = 17 * draw(share)
        rows.append((size * math.cos(angle), size * math.sin(angle), draw(bulge)))
    return Region(from_bulges(rows))


@given(stars(), st.sampled_from([0.25, 0.35]))
@settings(max_examples=4)
def test_any_outline_is_cleared_steadily(region: Region, share: float):
    radius = 4.0
    outline = shapely.Polygon(points_of(region.outer))
    assume(outline.is_valid)
    for centre in shrink([region], radius, TOLERANCE)[:1]:
        assume(roomiest(centre)[1] > 0.4 * radius)
        plan, entry = planned(centre, radius, share * radius)
        assert plan.done
        assert max(bites(plan, entry, radius, 2.0)) <= 1.15 * share * radius
        assert left_over(plan, entry, centre, radius) < 0.02
