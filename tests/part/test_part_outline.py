"""From loops to an outline, and what limits a cutter there."""

import math

import pytest
from part_help import TOLERANCE, new_drawing, read

from jawcam.errors import InputError
from jawcam.geometry.shapes import Arc, Line, Path, circle, from_bulges, polygon
from jawcam.part.loops import outline_of
from jawcam.part.outline import (
    Corner,
    Drawing,
    Outline,
    sharp_corners,
    tightest_inside_radius,
    tightest_outside_radius,
)
from jawcam.units import Units


def outline(*pieces, units=Units.MM, layers=()):
    return outline_of(Drawing(pieces, "part.dxf", units, layers), TOLERANCE)


def faults(*pieces, **more):
    with pytest.raises(InputError) as caught:
        outline(*pieces, **more)
    return caught.value.faults


def box(x, y, width, height):
    return polygon([(x, y), (x + width, y), (x + width, y + height), (x, y + height)])


def test_a_washer(tmp_path):
    document = new_drawing()
    document.modelspace().add_circle((0, 0), 4)
    document.modelspace().add_circle((0, 0), 10)
    found = read(document, tmp_path)
    assert found.outer.area == pytest.approx(100 * math.pi)
    assert [hole.area for hole in found.holes] == [pytest.approx(-16 * math.pi)]
    assert found.source == "part.dxf"
    assert "1 inner loop: shown, not cut" in found.notes


def test_the_outer_loop_runs_counter_clockwise_and_holes_clockwise():
    found = outline(box(0, 0, 20, 10).reversed(), box(2, 2, 3, 3), circle((15, 5), 2))
    assert found.outer.area == pytest.approx(200)
    assert [hole.area for hole in found.holes] == [
        pytest.approx(-4 * math.pi),
        pytest.approx(-9),
    ]


def test_loops_inside_holes_are_left_out_and_noted():
    found = outline(*(circle((0, 0), r) for r in (3, 20, 12, 5)))
    assert [abs(hole.area) for hole in found.holes] == [pytest.approx(144 * math.pi)]
    assert "left out 2 loops inside inner loops" in found.notes


def test_a_hole_in_a_bulge_is_inside_though_no_vertex_is_near():
    half = from_bulges([(0, 0, 1), (0, 20, 0)])
    found = outline(half, circle((8, 10), 1))
    assert len(found.holes) == 1


def test_two_outlines_side_by_side_are_named_with_their_boxes():
    (fault,) = faults(box(0, 0, 10, 5), box(20, 0, 4, 4), layers=("LEFT", "RIGHT"))
    assert "X 0 Y 0 to X 10 Y 5; X 20 Y 0 to X 24 Y 4" in fault.what
    assert "LEFT, RIGHT" in fault.mend


def test_an_open_outline_tells_both_ends_and_the_width():
    (fault,) = faults(Line((0.0, 0.0), (9.7, 0.0)), Path(box(0, 0, 10, 5).segments[1:]))
    assert fault.place.at == "X 9.7 Y 0"
    assert "X 10 Y 0, 0.3 mm away" in fault.what
    assert fault.place.file == "part.dxf"


def test_each_gap_is_told_once_with_its_nearest_end():
    top, bottom = Line((0.0, 10.1), (30.0, 10.2)), Line((0.0, 0.0), (30.0, 0.0))
    left, right = Line((0.0, 0.1), (0.0, 10.0)), Line((30.0, 0.2), (30.0, 10.0))
    texts = [str(fault) for fault in faults(top, bottom, left, right)]
    assert len(texts) == 4
    widths = sorted(text.split(", ")[1].split(" away")[0] for text in texts)
    assert widths == ["0.1 mm", "0.1 mm", "0.2 mm", "0.2 mm"]


def test_places_are_told_in_the_drawings_units():
    (fault,) = faults(polygon([(0, 0), (25.4, 25.4), (25.4, 0), (0, 25.4)]), units=Units.INCH)
    assert fault.place.at == "X 0.5 Y 0.5"


def test_a_crossing_names_the_place():
    (fault,) = faults(polygon([(0, 0), (10, 10), (10, 0), (0, 10)]))
    assert fault.place.at == "X 5 Y 5"
    assert "itself" in fault.what


def test_a_hole_across_the_edge_is_a_fault():
    found = faults(box(0, 0, 20, 10), circle((20, 5), 3))
    assert {fault.place.at for fault in found} == {"X 20 Y 2", "X 20 Y 8"}
    assert all("two loops" in fault.what for fault in found)


def test_a_fork_names_the_place():
    pieces = [*box(0, 0, 10, 10).segments, Line((10.0, 0.0), (20.0, 0.0))]
    found = faults(*pieces)
    assert any("more than two" in f.what and f.place.at == "X 10 Y 0" for f in found)


def test_all_faults_are_told_in_one_run():
    bow = polygon([(0, 0), (10, 10), (10, 0), (0, 10)])
    found = faults(bow, Line((50.0, 0.0), (60.0, 0.0)), Line((60.0, 1.0), (50.0, 1.0)))
    assert len(found) == 3


def test_a_hundred_gaps_are_not_told_one_by_one():
    found = faults(*(Line((3.0 * k, 0.0), (3.0 * k + 2, 0.0)) for k in range(60)))
    assert len(found) == 11
    assert found[-1].what.startswith("50 more")


# --- what limits a cutter --------------------------------------------------------------------


def keyhole():
    """A plate with a hollow of radius 3 in its top edge and one corner rounded with radius 2."""
    return Path(
        (
            Line((0.0, 0.0), (18.0, 0.0)),
            Arc((18.0, 0.0), (20.0, 2.0), (18.0, 2.0), ccw=True),
            Line((20.0, 2.0), (20.0, 10.0)),
            Line((20.0, 10.0), (13.0, 10.0)),
            Arc((13.0, 10.0), (7.0, 10.0), (10.0, 10.0), ccw=False),
            Line((7.0, 10.0), (0.0, 10.0)),
            Line((0.0, 10.0), (0.0, 0.0)),
        )
    )


def test_tightest_radii_and_where():
    part = Outline(keyhole())
    hollow, bulge = tightest_inside_radius(part), tightest_outside_radius(part)
    assert hollow.radius == pytest.approx(3)
    assert hollow.at == pytest.approx((10, 7))
    assert bulge.radius == pytest.approx(2)
    assert bulge.at == pytest.approx((18 + math.sqrt(2), 2 - math.sqrt(2)))


def test_no_arcs_no_radii():
    part = Outline(box(0, 0, 5, 5))
    assert tightest_inside_radius(part) is None
    assert tightest_outside_radius(part) is None


def test_sharp_corners_inside_and_outside():
    found = sharp_corners(
        Outline(polygon([(0, 0), (20, 0), (20, 10), (10, 10), (10, 20), (0, 20)]))
    )
    assert len(found) == 6
    assert [corner for corner in found if corner.inside] == [Corner((10, 10), 90.0, inside=True)]
    assert all(corner.turn == pytest.approx(90) for corner in found)


def test_tangents_are_no_corners_but_arcs_may_meet_in_one():
    found = sharp_corners(Outline(keyhole()))
    assert {corner.at for corner in found} == {(0, 0), (20, 10), (13, 10), (7, 10), (0, 10)}
    lens = from_bulges([(0, 0, 0.2), (10, 0, 0.2)])
    assert [c.turn for c in sharp_corners(Outline(lens))] == [
        pytest.approx(180 - math.degrees(4 * math.atan(0.2)))
    ] * 2
