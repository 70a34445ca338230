"""The offset engine against closed forms, a published contour and another engine."""

import itertools
import math

import pytest
from geos_reference import geos, geos_grown, ring, thickest
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from outlines import POLYGONS, contour_table_12, outlines, rounded_rectangle
from shapely import Polygon

from jawcam.geometry.offset import grow, shrink
from jawcam.geometry.shapes import Arc, Line, Path, Region, circle, from_bulges, polygon
from jawcam.geometry.transform import mirrored
from jawcam.tolerance import Tolerance

TOLERANCE = Tolerance()


def kinds(path: Path) -> list[str]:
    return sorted(type(segment).__name__ for segment in path.segments)


def test_the_part_contour_of_nistir_6556_table_12_has_its_area_and_perimeter():
    part = contour_table_12()
    assert part.area == pytest.approx(18 + math.pi, abs=1e-6)
    assert part.length == pytest.approx(12 + 2 * math.pi, abs=1e-6)


def test_its_offset_by_half_is_table_13_of_nistir_6556():
    (grown,) = grow([Region(contour_table_12())], 0.5, TOLERANCE)
    expected = [
        (2, 3.5), (3.5, 2), (3.5, -1), (2, -2.5), (-2, -2.5), (-2.9, 0.2), (1.1, 3.2),
    ]  # fmt: skip
    found = [segment.start for segment in grown.outer.segments]
    assert len(found) == len(expected)
    for point in expected:
        assert min(math.dist(point, other) for other in found) < 1e-6
    # Steiner: area + length r + pi r^2
    assert grown.area == pytest.approx(24 + 9 * math.pi / 4, abs=1e-6)
    assert grown.outer.length == pytest.approx(12 + 3 * math.pi, abs=1e-6)


@pytest.mark.parametrize("distance", [0.05, 1.0, 7.5])
def test_a_convex_outline_grows_by_the_steiner_formula(distance):
    for path in (polygon([(0, 0), (70, 5), (30, 60)]), rounded_rectangle(60, 44, 6)):
        (grown,) = grow([Region(path)], distance, TOLERANCE)
        area = path.area + path.length * distance + math.pi * distance**2
        assert grown.area == pytest.approx(area, abs=1e-9 * area)
        assert grown.outer.length == pytest.approx(path.length + 2 * math.pi * distance, abs=1e-9)


@pytest.mark.parametrize("inward", [0.5, 5, 19.99])
def test_a_rectangle_shrinks_to_a_rectangle(inward):
    (left,) = shrink([Region(polygon([(0, 0), (60, 0), (60, 40), (0, 40)]))], inward, TOLERANCE)
    assert left.area == pytest.approx((60 - 2 * inward) * (40 - 2 * inward), abs=1e-9)
    assert kinds(left.outer) == ["Line"] * 4


def test_a_rectangle_shrunk_by_half_its_width_is_gone():
    rectangle = Region(polygon([(0, 0), (60, 0), (60, 40), (0, 40)]))
    assert shrink([rectangle], 20.001, TOLERANCE) == ()


def test_a_circle_stays_one_exact_arc():
    for distance, radius in ((3, 13), (-4, 6)):
        (grown,) = grow([Region(circle((1, 2), 10))], distance, TOLERANCE)
        (arc,) = grown.outer.segments
        assert isinstance(arc, Arc)
        assert arc.start == arc.end
        assert arc.centre == (1, 2)
        assert arc.radius == pytest.approx(radius, abs=1e-12)


def test_a_rounded_rectangle_keeps_four_lines_and_four_arcs():
    for distance in (2, -2, -5.9):
        (grown,) = grow([Region(rounded_rectangle(60, 44, 6))], distance, TOLERANCE)
        assert kinds(grown.outer) == ["Arc"] * 4 + ["Line"] * 4
        radii = [s.radius for s in grown.outer.segments if isinstance(s, Arc)]
        assert radii == pytest.approx([6 + distance] * 4, abs=1e-9)


def test_arcs_that_vanish_leave_sharp_corners():
    for inward in (5.9999, 6, 8):
        (left,) = shrink([Region(rounded_rectangle(60, 44, 6))], inward, TOLERANCE)
        assert kinds(left.outer) == ["Line"] * 4
        assert left.area == pytest.approx((60 - 2 * inward) * (44 - 2 * inward), abs=1e-6)


def test_a_washer_shrinks_from_both_sides():
    washer = Region(circle((0, 0), 20), (circle((0, 0), 8, ccw=False),))
    (left,) = shrink([washer], 2, TOLERANCE)
    assert left.area == pytest.approx(math.pi * (18**2 - 10**2), abs=1e-9)
    assert shrink([washer], 6.01, TOLERANCE) == ()


def test_a_dumb_bell_falls_into_two():
    left = shrink([POLYGONS["dumb-bell"]], 4, TOLERANCE)
    # each with a lens towards the neck's mouth, whose corners are 3 mm off the middle
    half, reach = 3.0, 4.0
    lens = reach**2 * math.asin(half / reach) + half * math.sqrt(reach**2 - half**2)
    bump = 2 * half * reach - lens
    assert [region.area for region in left] == pytest.approx([22 * 22 + bump] * 2, abs=1e-6)


def test_reversing_rotating_and_mirroring_change_nothing():
    path = POLYGONS["seidel-3"].outer
    (plain,) = grow([Region(path)], 3.3, TOLERANCE)
    for other in (path.turned_to_start(7), mirrored(path)):
        (same,) = grow([Region(other)], 3.3, TOLERANCE)
        assert same.area == pytest.approx(plain.area, rel=1e-9)
        assert same.outer.length == pytest.approx(plain.outer.length, rel=1e-9)


@pytest.mark.parametrize("radius", [0.2, 0.5, 1.0])
@pytest.mark.parametrize("distance", [1.0, 4.0, 8.0, 15.0])
def test_a_small_round_grown_by_many_times_its_radius_stays_exact(radius, distance):
    """Four lines and four quarter circles, which begin and end level with their centres."""
    q, a, b, r = math.tan(math.pi / 8), 20.0, 15.0, radius
    corners = [(a, b - r, q), (a - r, b, 0.0), (r - a, b, q), (-a, b - r, 0.0)]
    rows = [*corners, *((-x, -y, bulge) for x, y, bulge in corners)]
    (grown,) = grow([Region(from_bulges(rows))], distance, TOLERANCE)
    arcs = [piece for piece in grown.outer.segments if isinstance(piece, Arc)]
    assert (len(grown.outer.segments), len(arcs)) == (8, 4)
    for arc in arcs:
        assert arc.radius == pytest.approx(radius + distance, abs=1e-9)
        for end in (arc.start, arc.end):
            off = [abs(one - middle) for one, middle in zip(end, arc.centre, strict=True)]
            assert min(off) == pytest.approx(0, abs=1e-9)


def test_the_archive_polygon_has_the_area_that_the_archive_says():
    assert POLYGONS["seidel-3"].area == 227130


@pytest.mark.parametrize(
    ("name", "distance"), list(itertools.product(POLYGONS, (0.8, 4.0, -0.8, -2.5)))
)
def test_typed_in_polygons_against_geos(name, distance):
    region = POLYGONS[name]
    ours = geos(grow([region], distance, TOLERANCE))
    theirs = geos_grown((region,), distance)
    assert thickest(ours.symmetric_difference(theirs)) <= 0.0005


@settings(max_examples=60, deadline=None)
@given(outlines(), st.sampled_from([0.05, 0.4, 3.0, -0.05, -1.0, -3.2]))
def test_random_lines_and_arcs_against_geos(path, distance):
    assume(Polygon(ring(path)).is_valid)
    region = Region(path)
    ours = geos(grow([region], distance, TOLERANCE))
    theirs = geos_grown((region,), distance)
    assert thickest(ours.symmetric_difference(theirs)) <= 0.0005


def test_arcs_that_meet_at_one_degree_end_on_both_their_circles():
    # there a sagitta of 0.0005 mm moves the crossing of the flattened copies by 0.06 mm
    joint = (11.04182389825159, -6.375000000000005)
    first = Arc(
        (4.640625, -8.037798278874321), joint, (6.0318178398596585, -0.240808820469197), True
    )
    second = Arc(joint, (25.5, 0), (29.067592296465335, -27.673822474685664), ccw=False)
    shape = Path((first, second, Line((25.5, 0), (0, 9)), Line((0, 9), first.start)))
    (grown,) = grow([Region(shape)], 3, TOLERANCE)
    for arc in (s for s in grown.outer.segments if isinstance(s, Arc)):
        assert math.dist(arc.end, arc.centre) == pytest.approx(arc.radius, abs=1e-9)


@settings(max_examples=30, deadline=None)
@given(outlines(), st.floats(0.1, 4))
def test_every_piece_lies_exactly_on_a_line_or_circle_of_its_source(path, distance):
    assume(Polygon(ring(path)).is_valid)
    for region in grow([Region(path)], distance, TOLERANCE):
        for loop in region.paths:
            for segment in loop.segments:
                if isinstance(segment, Arc):
                    ends = (segment.start, segment.end)
                    radii = [math.dist(p, segment.centre) for p in ends]
                    assert radii[0] == pytest.approx(radii[1], abs=TOLERANCE.path / 2)
                else:
                    assert isinstance(segment, Line)
            joined = zip(loop.segments, loop.segments[1:] + loop.segments[:1], strict=True)
            assert all(a.end == b.start for a, b in joined)
