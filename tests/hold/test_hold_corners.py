"""Corners that a round cutter leaves, their relief, and whether the part then seats (by GEOS)."""

from __future__ import annotations

import math

import pytest
import shapely
from closing_help import pocket

from jawcam.errors import InputError, Place
from jawcam.geometry.flatten import polyline
from jawcam.geometry.shapes import Path, Region, circle, from_bulges, polygon
from jawcam.geometry.transform import moved, turned
from jawcam.hold.cavity import blank_regions
from jawcam.hold.corners import corners_of, pocket_as_cut
from jawcam.job.model import Blanks, Corners, Fit
from jawcam.tolerance import Tolerance
from jawcam.tools.cutter import Cutter
from jawcam.units import Units

TOLERANCE = Tolerance()
BLANKS = Blanks(width=120, height=30, thickness=40, gap=6)
SQUARE = polygon([(-20, -15), (20, -15), (20, 15), (-20, 15)])
AIR = 0.02
FLOOR = -8.0


def corners(outline: Path, dia: float, fit: Fit, relief="bisector", drill=None, units=Units.MM):
    cavity = pocket(outline, fit.grip, fit.side)
    found = corners_at([outline], [cavity], dia, relief, drill, units)
    return cavity, found


def corners_at(outlines, pockets, dia, relief="bisector", drill=None, units=Units.MM):
    return corners_of(
        outlines,
        pockets,
        blank_regions(BLANKS),
        dia,
        TOLERANCE,
        style=Corners(relief),
        drill=drill and Cutter(7, "drill", drill),
        floor=FLOOR,
        units=units,
        place=Place(key="here"),
    )


def shape(path: Path) -> shapely.Polygon:
    return shapely.Polygon([p for s in path.segments for p in polyline(s, 1e-4)[:-1]])


def cut_away(cavity: Region, dia: float, reliefs, drilled=()) -> shapely.Geometry:
    """What the cutter clears: everywhere in the cavity that it fits, and the reliefs. The wall is
    convex here, so GEOS may buffer it whole."""
    centre = shape(cavity.outer).buffer(-dia / 2, quad_segs=200)
    swept = centre.buffer(dia / 2, quad_segs=200)
    lines = [shapely.LineString([r.start, r.end]).buffer(r.radius, quad_segs=200) for r in reliefs]
    bores = [shapely.Point(h.x, h.y).buffer(h.dia / 2, quad_segs=200) for h in drilled]
    return shapely.union_all([swept, *lines, *bores])


@pytest.mark.parametrize("fit", [Fit(), Fit(grip=0.05), Fit(grip=0.03, side=0.1)])
def test_a_square_part_seats_in_its_relieved_corners(fit: Fit):
    cavity, found = corners(SQUARE, 8, fit)
    assert len(found.reliefs) == 4
    unseated = shape(SQUARE).difference(cut_away(cavity, 8, found.reliefs))
    assert unseated.area < 1e-4
    assert shape(SQUARE).difference(cut_away(cavity, 8, ())).area > 1


def test_a_relief_lies_on_the_bisector_and_just_takes_the_corner():
    # closed form: the cutter's centre ends r off the corner, r / sin(45 deg) off it before
    _, found = corners(SQUARE, 8, Fit())
    for relief in found.reliefs:
        corner = (math.copysign(20, relief.corner[0]), math.copysign(15, relief.corner[1]))
        assert relief.corner == pytest.approx(corner, abs=1e-3)
        assert math.dist(relief.start, corner) == pytest.approx(4 * math.sqrt(2), abs=1e-3)
        assert math.dist(relief.end, corner) == pytest.approx(4 - 0.02, abs=1e-3)
        across = [abs(a - b) for a, b in zip(relief.end, corner, strict=True)]
        assert across[0] == pytest.approx(across[1], abs=1e-3)


def test_clearance_that_makes_room_needs_no_relief():
    # a corner at c x sqrt(2) off the pocket's clears what is left there if r (sqrt(2) - 1) is less
    _, tight = corners(SQUARE, 8, Fit(grip=1.0))
    _, loose = corners(SQUARE, 8, Fit(grip=4.1))
    assert len(tight.reliefs) == 4
    assert (loose.reliefs, loose.unreached) == ((), ())
    b = math.tan(math.pi / 8)
    rounded = from_bulges(
        [(-16, -15, 0), (16, -15, b), (20, -11, 0), (20, 11, b),
         (16, 15, 0), (-16, 15, b), (-20, 11, 0), (-20, -11, b)]
    )  # fmt: skip
    assert corners(rounded, 8, Fit())[1].reliefs == ()


def test_without_reliefs_what_stays_is_named_and_said_to_keep_the_part_off_its_seat():
    _, found = corners(SQUARE, 8, Fit(), relief="none")
    assert found.reliefs == ()
    assert [u.seats for u in found.unreached] == [False] * 4
    # the largest disc in what r leaves of a square corner: 2 r (sqrt(2) - 1) / (sqrt(2) + 1)
    size = 8 * (math.sqrt(2) - 1) / (math.sqrt(2) + 1)
    assert [u.size for u in found.unreached] == pytest.approx([size] * 4, abs=0.01)


def test_a_corner_in_the_open_gap_needs_no_relief():
    diamond = polygon([(-25, 0), (0, -20), (25, 0), (0, 20)])
    _, found = corners(diamond, 6, Fit())
    assert sorted(round(r.corner[1]) for r in found.reliefs) == [-20, 20]


def test_a_spike_narrower_than_the_cutter_is_refused_with_its_place():
    spike = polygon(
        [(-20, -15), (20, -15), (20, 5), (1, 5), (0.5, 25), (-0.5, 25), (-1, 5), (-20, 5)]
    )
    with pytest.raises(InputError) as error:
        corners(spike, 8, Fit())
    (fault,) = error.value.faults
    assert "the part reaches into a place that a cutter of 8 mm can't get into" in fault.what
    assert "here" in str(fault)
    assert "finish with an end mill of" in fault.mend


def test_a_pocket_too_small_for_the_cutter_is_refused_with_its_width():
    with pytest.raises(InputError, match="nowhere wider than 6 mm"):
        corners(circle((0, 0), 3), 8, Fit())


# each style in corners of several angles: a wedge between walls of equal length, its upper wall
# along X, its tip at the right


def wedge(angle: float) -> Path:
    """A part with a corner of `angle` degrees at (20, 20), one of its walls along X."""
    lean = math.radians(angle)
    return polygon([(20, 20), (-20, 20), (-20, -20), (20 - 40 / math.tan(lean), -20)])


def at_tip(reliefs):
    (found,) = [r for r in reliefs if math.dist(r.corner, (20, 20)) < 0.01]
    return found


ANGLES = [60.0, 75.0, 90.0, 120.0]
STYLES = [("bisector", None), ("along wall", None), ("drilled", 12.0)]


@pytest.mark.parametrize("angle", ANGLES)
@pytest.mark.parametrize(("relief", "drill"), STYLES)
@pytest.mark.parametrize("fit", [Fit(), Fit(grip=0.05, side=0.1)])
def test_a_part_seats_in_corners_of_any_angle(angle, relief, drill, fit):
    part = wedge(angle)
    cavity, found = corners(part, 8, fit, relief, drill)
    cut = cut_away(cavity, 8, found.reliefs, found.drilled)
    assert shape(part).difference(cut).area < 1e-4
    as_cut = shapely.union_all(
        [shape(r.outer) for r in pocket_as_cut([cavity], found, 8, TOLERANCE)]
    )
    assert shape(part).difference(as_cut).area < 1e-4
    # GEOS is some hundredths off where it shrinks an outline with small corner radii
    assert as_cut.symmetric_difference(cut).buffer(-0.01).is_empty
    assert all(spot.seats for spot in found.unreached)
    assert {r.floor for r in (*found.reliefs, *found.drilled)} == {FLOOR}


@pytest.mark.parametrize("angle", ANGLES)
def test_along_the_bisector_the_cutter_goes_until_the_tip_is_cleared(angle):
    half = math.radians(angle / 2)
    relief = at_tip(corners(wedge(angle), 8, Fit())[1].reliefs)
    assert math.dist(relief.start, (20, 20)) == pytest.approx(4 / math.sin(half), abs=1e-5)
    way = math.dist(relief.start, relief.end)
    assert way == pytest.approx(4 / math.sin(half) - 4 + AIR, abs=1e-5)


@pytest.mark.parametrize("angle", ANGLES)
def test_along_the_wall_the_cutter_goes_as_far_as_the_tip_and_the_gripping_wall_stays(angle):
    """By r / tan(h), r in a square corner; the wall along X is the one that grips."""
    half = math.radians(angle / 2)
    cavity, found = corners(wedge(angle), 8, Fit(), "along wall")
    relief = at_tip(found.reliefs)
    assert relief.start == pytest.approx((20 - 4 / math.tan(half), 16), abs=1e-5)
    assert relief.end == pytest.approx((20 + AIR, 16), abs=1e-5)
    beyond = cut_away(cavity, 8, [relief]).difference(shape(cavity.outer))
    assert beyond.intersection(shapely.box(-30, 20 + 1e-6, 30, 30)).area < 1e-6
    assert beyond.area > 0.1  # so it is the other wall that is cut into


def test_the_wall_more_nearly_along_x_is_followed_however_the_part_lies():
    for turn in (30, 44, -44):
        part = turned(SQUARE, turn)
        _, found = corners(part, 8, Fit(), "along wall")
        for relief in found.reliefs:
            dx, dy = (b - a for a, b in zip(relief.start, relief.end, strict=True))
            assert abs(math.degrees(math.atan(dy / dx))) == pytest.approx(abs(turn), abs=1e-3)
            assert math.hypot(dx, dy) == pytest.approx(4 + AIR, abs=1e-4)


def test_a_corner_rounded_by_the_clearance_is_cleared_along_the_wall_to_where_it_ends():
    """The pocket's corner is round about the part's: the rim must come abreast of that."""
    relief = at_tip_of(corners(SQUARE, 8, Fit(grip=0.5), "along wall")[1].reliefs, (20, 15))
    assert relief.start == pytest.approx((16.5, 11.5), abs=1e-5)
    assert relief.end == pytest.approx((20 + AIR, 11.5), abs=1e-5)


def test_a_hollow_wall_that_the_way_along_it_would_leave_standing_is_refused():
    """Its walls curve away from the straight way, which leaves some of them at the tips."""
    bend = -math.tan(math.radians(10))
    hollow = from_bulges([(-20, -15, bend), (20, -15, 0), (20, 15, bend), (-20, 15, 0)])
    assert len(corners(hollow, 8, Fit())[1].reliefs) == 4
    with pytest.raises(InputError) as error:
        corners(hollow, 8, Fit(), "along wall")
    assert len(error.value.faults) == 4
    assert all('or try corners = { relief = "bisector" }' in f.mend for f in error.value.faults)


def test_a_wall_that_bulges_is_followed_along_its_tangent():
    bend = math.tan(math.radians(5))
    part = from_bulges([(-20, -15, bend), (20, -15, 0), (20, 15, bend), (-20, 15, 0)])
    cavity, found = corners(part, 8, Fit(), "along wall")
    assert len(found.reliefs) == 4
    assert shape(part).difference(cut_away(cavity, 8, found.reliefs)).area < 1e-3


def at_tip_of(reliefs, tip):
    return min(reliefs, key=lambda r: math.dist(r.corner, tip))


def test_a_corner_too_narrow_for_the_way_along_its_wall_is_refused():
    # r / tan(25 deg) is 2.14 r
    corners(wedge(50), 8, Fit())
    with pytest.raises(InputError, match="bisector") as error:
        corners(wedge(50), 8, Fit(), "along wall")
    assert "can't get into" in str(error.value)
    with pytest.raises(InputError, match="can't get into"):
        corners(wedge(36), 8, Fit(), "drilled", 20)


# drilled


def test_a_drilled_corner_reaches_just_beyond_the_tip_and_down_to_the_floor():
    _, found = corners(SQUARE, 8, Fit(), "drilled", 6)
    assert found.reliefs == ()
    assert [(round(h.x), round(h.y)) for h in found.drilled] == [
        (-18, -13), (-18, 13), (18, -13), (18, 13)
    ]  # fmt: skip
    for hole in found.drilled:
        off = (20 - abs(hole.x), 15 - abs(hole.y))
        assert off == pytest.approx([(3 - AIR) / math.sqrt(2)] * 2, abs=1e-5)
        assert (hole.dia, hole.floor, hole.tool, hole.kind) == (6, FLOOR, 7, "relief")
        assert hole.tip == pytest.approx(FLOOR - 3 / math.tan(math.radians(59)))


def least(angle: float, radius: float) -> float:
    """The least drill whose hole, AIR beyond the tip, takes both points where the rim touches."""
    half = math.radians(angle / 2)
    m, q = radius / math.tan(half), radius / math.tan(half) * math.cos(half)
    return (m**2 + 2 * q * AIR + AIR**2) / (q + AIR)


def test_the_least_drill_of_a_square_corner_is_about_root_two_radii():
    """Through the tip and both touching points runs the circle over r * sqrt(2)."""
    assert least(90, 4) == pytest.approx(4 * math.sqrt(2), abs=0.02)


@pytest.mark.parametrize("angle", ANGLES)
def test_a_drill_too_small_for_a_corner_is_refused_with_the_least_that_does(angle):
    part, dia = wedge(angle), least(angle, 4)
    wanted = math.ceil(dia * 1000 - 1e-6) / 1000
    with pytest.raises(InputError) as error:
        corners(part, 8, Fit(), "drilled", min(dia - 0.01, 4.0))
    fault = next(f for f in error.value.faults if f.place.at == "X 20 Y 20 Z -8")
    assert "the corner at X 20 Y 20 still holds some" in fault.what
    assert fault.mend == f"drill it {wanted:g} mm or larger, or finish with a smaller end mill"
    assert fault.place.key == "here"


def test_a_drill_of_just_the_least_diameter_will_do():
    dia = least(90, 4)
    cavity, found = corners(SQUARE, 8, Fit(), "drilled", dia + 1e-5)
    assert len(found.drilled) == 4
    assert shape(SQUARE).difference(cut_away(cavity, 8, (), found.drilled)).area < 1e-6
    with pytest.raises(InputError) as error:
        corners(SQUARE, 8, Fit(), "drilled", dia - 1e-4)
    assert len(error.value.faults) == 4
    with pytest.raises(InputError, match=r"drill it 0\.2228 in or larger"):
        corners(SQUARE, 8, Fit(), "drilled", 3, Units.INCH)


def test_clearance_lets_a_smaller_drill_do():
    _, found = corners(SQUARE, 8, Fit(grip=0.5), "drilled", 4)
    assert len(found.drilled) == 4


def test_a_corner_to_be_drilled_without_a_drill_is_refused():
    with pytest.raises(InputError, match="there is no drill for it"):
        corners(SQUARE, 8, Fit(), "drilled")
    assert corners(circle((0, 0), 12), 8, Fit(), "drilled")[1].drilled == ()


# several outlines, several pockets


def test_each_pocket_of_a_level_has_its_corners_relieved():
    parts = [moved(polygon([(-8, -9), (8, -9), (8, 9), (-8, 9)]), x, 0) for x in (-25, 25)]
    found = corners_at(parts, [pocket(part, 0.02) for part in parts], 6)
    assert len(found.reliefs) == 8
    assert sorted({round(abs(r.corner[0])) for r in found.reliefs}) == [17, 33]


def test_what_stands_beside_another_outline_counts_only_where_the_part_reaches():
    """Of a wide pocket only the corner that the lower level's outline fills is relieved."""
    small = polygon([(0, 0), (20, 0), (20, 15), (0, 15)])
    round_one = circle((0, 0), 10)
    found = corners_at([small, round_one], [Region(SQUARE)], 8)
    assert [(round(r.corner[0]), round(r.corner[1])) for r in found.reliefs] == [(20, 15)]
    assert [spot.seats for spot in found.unreached] == [True] * 3
