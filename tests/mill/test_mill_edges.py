"""Broken edges: how far the cone reaches, which way it goes round, where it goes down, and what
it refuses."""

from __future__ import annotations

import itertools
import math

import numpy as np
import pytest
import shapely

from jawcam.errors import InputError, Place
from jawcam.geometry.cut import along, tangent_at
from jawcam.geometry.flatten import polyline
from jawcam.geometry.shapes import Arc, Path, Region, circle, from_bulges, polygon
from jawcam.job.model import Blanks
from jawcam.mill.edges import RAMP, Edges, break_edges, edge_paths, left_sharp
from jawcam.mill.links import Air
from jawcam.mill.trail import Trail
from jawcam.motion.moves import ArcFeed, LineFeed, Rapid
from jawcam.tolerance import Tolerance
from jawcam.units import Units

QUARTER = math.tan(math.pi / 8)  # the bulge of a quarter of a circle


def box(x0: float, y0: float, x1: float, y1: float, r: float) -> Region:
    q = QUARTER
    return Region(
        from_bulges(
            [
                (x0 + r, y0, 0), (x1 - r, y0, q), (x1, y0 + r, 0), (x1, y1 - r, q),
                (x1 - r, y1, 0), (x0 + r, y1, q), (x0, y1 - r, 0), (x0, y0 + r, q),
            ]
        )
    )  # fmt: skip


def ell() -> Region:
    """Corners of radius 3, but for the sharp one that stands into the pocket at X 5 Y 0."""
    q, r = QUARTER, 3.0
    return Region(
        from_bulges(
            [
                (-30 + r, -18, 0), (30 - r, -18, q), (30, -18 + r, 0), (30, 0 - r, q),
                (30 - r, 0, 0), (5, 0, 0), (5, 18 - r, q), (5 - r, 18, 0),
                (-30 + r, 18, q), (-30, 18 - r, 0), (-30, -18 + r, q),
            ]
        )
    )  # fmt: skip


def keyhole() -> Region:
    """A square of 20 mm with a slot 0.6 mm wide to its right."""
    return Region(
        polygon(
            [
                (-10, -10),
                (10, -10),
                (10, -0.3),
                (20, -0.3),
                (20, 0.3),
                (10, 0.3),
                (10, 10),
                (-10, 10),
            ]
        )
    )


SQUARE = Region(polygon([(-15, -10), (15, -10), (15, 10), (-15, 10)]))
ROUNDED = box(-30, -20, 30, 20, 4)
DISC = Region(circle((0, 0), 14))
SHAPES = {"ell": ell(), "box": ROUNDED, "disc": DISC}


def edges(*pockets: Region, gap: float = 0.0, **more) -> Edges:
    values = {
        "pockets": pockets,
        "blanks": Blanks(130.0, 38.0, 25.0, gap),
        "width": 0.5,
        "angle": 90.0,
        "tip_dia": 0.0,
        "dia": 6.0,
        "floor": -8.0,
        "feed": 600.0,
        "air": Air(5.0, 4000.0),
        "tolerance": Tolerance(),
        "place": Place("lever.toml", key="setup[1].edges"),
        "units": Units.MM,
    }
    return Edges(**(values | more))


def points_of(path: Path, chord: float = 1e-5) -> np.ndarray:
    rows = [p for segment in path.segments for p in polyline(segment, chord)[:-1]]
    return np.array([*rows, path.start])


def area_of(regions) -> shapely.Geometry:
    return shapely.union_all([shapely.Polygon(points_of(region.outer)) for region in regions])


def lines_of(paths) -> shapely.Geometry:
    return shapely.union_all([shapely.LineString(points_of(path)) for path in paths])


def beside(region: Region, distance: float) -> np.ndarray:
    """Points straight outside the outline, all along its segments but for their very ends."""
    rows = []
    for path in region.paths:
        for segment in path.segments:
            for x, y in along(segment, 0.4)[1:-1]:
                tx, ty = tangent_at(segment, (x, y))
                rows.append((x + ty * distance, y - tx * distance))
    return shapely.points(np.array(rows))


def broken(job: Edges) -> list:
    trail = Trail()
    break_edges(trail, job)
    return trail.motions


# --- how far the cone reaches ----------------------------------------------------------------


@pytest.mark.parametrize("shape", SHAPES)
@pytest.mark.parametrize(
    ("width", "angle", "tip_dia"), [(0.5, 90.0, 0.0), (1.0, 60.0, 1.0), (0.2, 120.0, 0.4)]
)
def test_the_cone_at_the_jaw_top_reaches_the_width_beyond_the_edge_and_no_more(
    shape, width, angle, tip_dia
):
    region = SHAPES[shape]
    job = edges(region, width=width, angle=angle, tip_dia=tip_dia)
    radius = tip_dia / 2 - job.tip * math.tan(math.radians(angle / 2))
    track = lines_of(edge_paths(job))
    just, beyond = beside(region, width - 0.002), beside(region, width + 0.002)
    assert (shapely.distance(track, just) <= radius).all()
    own = shapely.distance(area_of([region]), beyond) > width + 0.001  # beyond no other edge either
    assert own.sum() > 0.9 * len(own)
    assert (shapely.distance(track, beyond[own]) > radius).all()


def test_a_corner_that_stands_into_the_pocket_is_broken_along_both_its_edges():
    job = edges(ell())
    track = lines_of(edge_paths(job))
    for right, up in ((0.1, 0.1), (0.5, 0.5), (0.3, 0.7), (0.7, 0.3), (2.0, 0.5)):
        # the material lies to the right of X 5 and above Y 0
        gap = shapely.distance(track, shapely.Point(5 + right, up))
        assert gap == pytest.approx(job.reach + min(right, up), abs=1e-4)


def test_the_chamfer_is_never_wider_even_in_sharp_inside_corners():
    job = edges(SQUARE)
    track, pocket = lines_of(edge_paths(job)), area_of([SQUARE])
    xs, ys = np.meshgrid(np.linspace(-17, 17, 171), np.linspace(-12, 12, 121))
    grid = shapely.points(np.stack((xs.ravel(), ys.ravel()), axis=1))
    cut = grid[shapely.distance(track, grid) <= job.reach + job.width]
    assert shapely.distance(pocket, cut).max() <= job.width + 1e-6


def test_below_the_chamfer_the_cone_keeps_inside_the_outline():
    for region in SHAPES.values():
        job = edges(region, tip_dia=0.6)
        # at the chamfer's lower end, 0.5 below the jaw top, the cone is this wide
        radius = 0.3 + (-0.5 - job.tip) * 1.0
        outline = shapely.LineString(points_of(region.outer))
        for path in edge_paths(job):
            gaps = shapely.distance(outline, shapely.points(points_of(path)))
            assert gaps == pytest.approx(np.full(len(gaps), radius), abs=2e-4)


@pytest.mark.parametrize(
    ("width", "angle", "tip_dia", "dia", "tip", "reach"),
    [
        (0.5, 90, 0, 6, -1.0, 0.5),  # 0.5 below the chamfer
        (0.5, 60, 0, 6, -0.5 / math.tan(math.pi / 6) - 0.5, 0.5 * math.tan(math.pi / 6)),
        (0.5, 90, 1, 3, -0.7, 0.7),  # the flank is 1 high: a fifth of it
        (2.0, 90, 0.2, 10, -2.5, 0.6),
    ],
)
def test_the_tip_goes_a_little_below_the_chamfer(width, angle, tip_dia, dia, tip, reach):
    job = edges(ROUNDED, width=width, angle=angle, tip_dia=tip_dia, dia=dia)
    assert job.tip == pytest.approx(tip)
    assert job.reach == pytest.approx(reach)
    cuts = [m.to[2] for m in broken(job) if isinstance(m, (LineFeed, ArcFeed))]
    assert min(cuts) == pytest.approx(tip)


def test_over_a_near_floor_the_tip_goes_less_deep():
    job = edges(ROUNDED, floor=-1.0)
    assert job.tip == pytest.approx(-0.8), "0.2 above the floor"
    assert job.reach == pytest.approx(0.3)
    assert edge_paths(job)


# --- the way round ---------------------------------------------------------------------------


@pytest.mark.parametrize("shape", SHAPES)
def test_it_goes_round_counter_clockwise_with_the_edge_on_its_right(shape):
    (path,) = edge_paths(edges(SHAPES[shape]))
    assert path.closed
    assert path.area > 0
    pocket = area_of([SHAPES[shape]])
    for segment in path.segments:
        x, y = along(segment, segment.length / 2)[1]
        tx, ty = tangent_at(segment, (x, y))
        assert not shapely.contains(pocket, shapely.Point(x + ty * 0.51, y - tx * 0.51))


def test_round_an_island_it_goes_clockwise():
    ring = Region(circle((0, 0), 14), (circle((0, 0), 6, ccw=False),))
    outer, inner = edge_paths(edges(ring))
    assert (outer.area > 0, inner.area < 0) == (True, True)
    assert outer.segments[0].radius == pytest.approx(13.5)
    assert inner.segments[0].radius == pytest.approx(6.5)


@pytest.mark.parametrize("gap", [0.0, 1.0, 6.0])
@pytest.mark.parametrize("shape", SHAPES)
def test_the_whole_outline_is_followed_at_the_tips_height(shape, gap):
    job = edges(SHAPES[shape], gap=gap)
    motions = broken(job)
    (path,) = edge_paths(job)
    at, length = None, 0.0
    for motion in motions:
        if isinstance(motion, ArcFeed):
            length += _arc(at, motion).length
        elif isinstance(motion, LineFeed) and motion.to[2] == at[2]:
            length += math.dist(motion.to, at)
        at = motion.to
    # straight in and out from where the cone has 0.2 mm of air; above the gap less, or not at all
    led = {0.0: [2 * 0.7], 6.0: [0.0]}.get(gap)
    if led is not None:
        assert [length - path.length] == pytest.approx(led, abs=1e-3)
    assert 0.0 - 1e-9 <= length - path.length <= 2 * 0.7 + 1e-3


def _arc(start, motion) -> Arc:
    return Arc(start[:2], motion.to[:2], motion.centre, motion.ccw)


# --- down and up -----------------------------------------------------------------------------


@pytest.mark.parametrize("gap", [0.0, 1.0, 6.0])
@pytest.mark.parametrize("shape", [*SHAPES, "slot"])
def test_no_rapid_touches_material_and_nothing_is_plunged_into(shape, gap):
    region = SHAPES.get(shape, box(-20, -10, 20, 10, 1))
    job = edges(region, gap=gap)
    stay = shapely.difference(_blanks(job.blanks), area_of([region]))
    motions = broken(job)
    assert isinstance(motions[0], Rapid)
    assert motions[0].to[2] == motions[-1].to[2] == job.air.clearance
    for (x0, y0, z0), motion in [(a.to, b) for a, b in itertools.pairwise(motions)]:
        x1, y1, z1 = motion.to
        if min(z0, z1) >= 0.5:
            continue
        if isinstance(motion, Rapid) or z1 != z0:
            assert (x0, y0) == (x1, y1)
            cone = max(0.0, -min(z0, z1)) * job.slope + job.tip_dia / 2
            assert shapely.distance(stay, shapely.Point(x0, y0)) >= cone + 0.15


def _blanks(blanks: Blanks) -> shapely.Geometry:
    x, near, far = blanks.width / 2, blanks.gap / 2, blanks.gap / 2 + blanks.thickness
    return shapely.union(shapely.box(-x, near, x, far), shapely.box(-x, -far, x, -near))


def test_it_begins_above_a_gap_that_is_wide_enough():
    motions = broken(edges(ROUNDED, gap=6.0))
    assert abs(motions[0].to[1]) <= 3.0 - (0.5 + 0.5 + 0.2) + 1e-6
    assert abs(motions[0].to[0]) == pytest.approx(29.5)


@pytest.mark.parametrize("half", [20, 4])
def test_a_pocket_too_narrow_to_come_down_in_is_ramped_along(half):
    job = edges(box(-half, 8, half, 10, 1))
    motions = broken(job)
    (path,) = edge_paths(job)
    at, last = motions[1].to, []
    for motion in motions[2:-1]:
        assert not isinstance(motion, Rapid)
        flat = _arc(at, motion).length if isinstance(motion, ArcFeed) else math.dist(at, motion.to)
        assert at[2] - motion.to[2] <= flat * math.tan(math.radians(RAMP)) * (1 + 1e-6)
        if at[2] == motion.to[2]:
            last.append(flat)
        at = motion.to
    assert at[2] == pytest.approx(job.tip)
    assert sum(last) == pytest.approx(path.length), "once more round, level"


def test_several_pockets_are_all_broken():
    job = edges(box(-40, -10, -20, 10, 3), box(20, -10, 40, 10, 3))
    motions = broken(job)
    low = [m.to[0] for m in motions if m.to[2] == job.tip]
    assert min(low) < -39
    assert max(low) > 39
    assert sum(isinstance(m, Rapid) and m.to[2] == 0.5 for m in motions) == 2


def test_no_width_is_no_motion():
    assert broken(edges(ROUNDED, width=0.0)) == []


# --- refusals --------------------------------------------------------------------------------


def test_a_chamfer_too_wide_for_the_cutter_is_refused():
    with pytest.raises(InputError) as caught:
        edge_paths(edges(ROUNDED, width=3.0))
    (fault,) = caught.value.faults
    assert "chamfer mill of 6 mm is too small for edges broken by 3 mm" in fault.what
    assert "at least 7 mm" in fault.mend
    assert "2.5 mm or less" in fault.mend
    assert edge_paths(edges(ROUNDED, width=2.5))


def test_a_tip_too_near_to_the_floor_is_refused():
    with pytest.raises(InputError) as caught:
        edge_paths(edges(ROUNDED, floor=-0.75))
    (fault,) = caught.value.faults
    assert "goes 0.6 mm deep, too near to the floor 0.75 mm below" in fault.what
    assert "0.45 mm or less" in fault.mend
    assert edge_paths(edges(ROUNDED, floor=-0.75, width=0.45))


def test_all_that_is_wrong_is_told_at_once():
    with pytest.raises(InputError) as caught:
        edge_paths(edges(ROUNDED, width=3.0, floor=-2.0))
    assert len(caught.value.faults) == 2
    assert all(fault.place.key == "setup[1].edges" for fault in caught.value.faults)


def test_pockets_that_the_cone_does_not_get_into_are_named():
    narrow = [box(-20, y, 20, y + 0.8, 0.4) for y in (5, 10)]
    with pytest.raises(InputError) as caught:
        edge_paths(edges(ROUNDED, *narrow))
    first, second = caught.value.faults
    assert "only 0.8 mm wide" in first.what
    assert "1 mm wide at the foot" in first.what
    assert first.place.at.endswith("Y 5.4")
    assert second.place.at.endswith("Y 10.4")


def test_places_too_narrow_are_noted_and_the_rest_is_cut():
    trail = Trail()
    break_edges(trail, edges(keyhole()))
    notes = left_sharp(edges(keyhole()))
    assert len(edge_paths(edges(keyhole()))) == 1
    (slot,) = [note for note in notes if "0.599 mm wide" in note]
    assert "at X 1" in slot
    # into the slot's mouth as far as its two corners let it: 0.5 off either, 0.3 beside the middle
    assert max(m.to[0] for m in trail.motions) == pytest.approx(10 - 0.4)


def test_notes_are_in_the_units_of_the_job():
    notes = left_sharp(edges(keyhole(), units=Units.INCH))
    assert any("0.0236 in wide" in note for note in notes)
