"""A large rougher and a small finisher in a pocket with a neck and sharp corners: what the first
leaves, the second cuts only there, from where the first has been; what neither reaches is named."""

import math

import numpy as np
import pytest
import shapely
from whole_jobs import drawing, job_with, make_all, make_one, put
from whole_words import blocks

from jawcam.errors import InputError

LARGE, SMALL = 7.0, 2.5  # radii
LATCH = [
    (-40, -16), (-5, -16), (-5, -4.5), (12, -4.5), (12, -10), (32, -10), (32, 10), (12, 10),
    (12, 4.5), (-5, 4.5), (-5, 16), (-40, 16),
]  # fmt: skip
TOOLS = (
    'number = 2\nkind = "end mill"\ndia = 6\nflutes = 3\n',
    """number = 1
kind = "end mill"
dia = 14
flutes = 3
flute_len = 20

[[tool]]
number = 2
kind = "end mill"
dia = 5
flutes = 3
""",
)
ROUGH = ("rough = { stepdown = 5 }", 'rough = { tool = 1, way = "rings" }\nfinish = { tool = 2 }')
SLIT = [(-40, -16), (0, -16), (0, 8), (9, 8), (9, 11), (0, 11), (0, 16), (-40, 16)]


def outlined(rows):
    document, space = drawing()
    space.add_lwpolyline(rows, close=True)
    return document


@pytest.fixture(scope="module")
def latch(tmp_path_factory):
    return make_one(tmp_path_factory.mktemp("latch"), job_with(TOOLS, ROUGH), outlined(LATCH))


def swept(some, radius):
    """What a cutter sweeps along blocks, seen from above; edge by edge, as GEOS thins the rest."""
    rows = [block.points(1e-3)[:, :2] for block in some]
    ends = np.concatenate([np.stack((one[:-1], one[1:]), axis=1) for one in rows])
    moved = ends[np.hypot(*(ends[:, 0] - ends[:, 1]).T) > 1e-9]
    return shapely.union_all(shapely.buffer(shapely.linestrings(moved), radius, quad_segs=32))


@pytest.fixture(scope="module")
def seen(latch):
    """The roughing cutter's last level, the rest's moves, and the rest by GEOS: what the smaller
    cutter reaches with stock on the wall, less what the larger one has swept."""
    text = blocks(latch.text)
    rough = [b for b in text if b.section == "roughing" and b.kind != "rapid"]
    deep = min(b.end[2] for b in rough)
    cleared = swept([b for b in rough if b.level and b.end[2] == deep], LARGE)
    outline = shapely.Polygon(LATCH).buffer(0.04, quad_segs=64)
    reach = outline.buffer(-SMALL - 0.2, quad_segs=64).buffer(SMALL, quad_segs=64)
    return [b for b in text if b.section == "rest of the roughing"], cleared, reach


def test_it_is_proven_and_every_corner_is_relieved(latch):
    assert latch.report.ok
    assert len(latch.target.reliefs) == 8
    assert latch.target.unreached == ()


def test_the_smaller_cutter_goes_down_only_where_the_larger_has_been_and_straight_through_air(
    seen,
):
    rest, cleared, _ = seen
    falls = [b for b in rest if b.end[2] < b.start[2] and not math.isnan(b.start[2])]
    assert falls
    blank = shapely.Polygon(LATCH).buffer(0.04 - 0.2)
    for block in falls:
        assert block.start[:2] == block.end[:2], "no helix, no ramp"
        touched = shapely.Point(block.end[:2]).buffer(SMALL).intersection(blank)
        assert touched.difference(cleared).buffer(-0.01).is_empty


def test_it_goes_low_and_level_only_round_what_is_left(seen):
    rest, cleared, reach = seen
    left = reach.difference(cleared).buffer(-0.005).buffer(0.005)
    near = left.buffer(SMALL + 0.3, quad_segs=32)
    cuts = [b for b in rest if b.level and b.kind != "rapid" and b.feed < 5000]
    assert sum(np.hypot(*np.diff(b.points()[:, :2], axis=0).T).sum() for b in cuts) > 200
    for block in cuts:
        along = shapely.LineString(block.points(1e-3)[:, :2])
        assert near.distance(along) == 0
        assert along.difference(near).length <= 0.25, "a little before and after"


def test_through_the_neck_first_as_through_solid_then_beside_what_is_cut(seen):
    """9.08 mm wide with stock on both walls: 5 mm across, then the 3.68 that are left."""
    rest, _, _ = seen
    runs = [b for b in rest if b.level and b.kind == "line" and abs(b.start[1]) < 2.5]
    inside = [b for b in runs if -4 < (b.start[0] + b.end[0]) / 2 < 11]
    fed = [{b.feed for b in inside if b.end[1] * side > 0} for side in (-1, 1)]
    slow, fast = sorted(fed, key=max)
    assert max(slow) < min(fast)


def test_then_nothing_of_it_is_left(seen):
    rest, cleared, reach = seen
    level = [b for b in rest if b.level and b.kind != "rapid"]
    deep = min(b.end[2] for b in level)
    cut = swept([b for b in level if b.end[2] == deep], SMALL)
    gap = shapely.box(-100, -2, 100, 2)
    left = reach.difference(cleared).difference(cut).difference(gap)
    assert left.buffer(-0.1).is_empty


def test_what_neither_reaches_is_refused_where_the_part_reaches_into_it(tmp_path):
    path = put(tmp_path, job_with(TOOLS, ROUGH), outlined(SLIT))
    with pytest.raises(InputError, match=r"can't get into, at X \d.*only 3\.08 mm wide"):
        make_all(path)


def test_and_named_with_place_and_size_if_it_is_to_stay(tmp_path):
    corners = (ROUGH[0], ROUGH[1] + '\ncorners = { relief = "none" }')
    whole = make_one(tmp_path, job_with(TOOLS, corners), outlined(SLIT))
    (slit,) = (one for one in whole.target.unreached if one.size > 2)
    assert (slit.y, slit.size) == pytest.approx((9.5, 3.08), abs=0.02)
    assert 0 < slit.x < 9
    named = [f for f in whole.report.findings if f.code == "P302"]
    largest = max(named, key=lambda f: f.amount)
    assert (largest.y, largest.amount) == pytest.approx((9.5, 3.08), abs=0.02)
