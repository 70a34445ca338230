"""Corners that a round cutter leaves, their relief, and whether the part then seats (by GEOS)."""

from __future__ import annotations

import math

import pytest
import shapely

from jawcam.errors import InputError, Place
from jawcam.geometry.flatten import polyline
from jawcam.geometry.shapes import Path, Region, circle, from_bulges, polygon
from jawcam.hold.cavity import blank_regions, cavity_of, check_blanks
from jawcam.hold.corners import corners_of
from jawcam.hold.jaws import datum
from jawcam.hold.place import place
from jawcam.job.model import Blanks, Datum, Fit, Hold
from jawcam.part.outline import Outline
from jawcam.tolerance import Tolerance
from jawcam.units import Units

TOLERANCE = Tolerance()
BLANKS = Blanks(width=120, height=30, thickness=40, gap=6)
SQUARE = polygon([(-20, -15), (20, -15), (20, 15), (-20, 15)])


def corners(outline: Path, dia: float, fit: Fit, *, relieve: bool = True):
    cavity = cavity_of(outline, fit, TOLERANCE)
    found = corners_of(
        outline,
        cavity,
        blank_regions(BLANKS),
        dia,
        TOLERANCE,
        relieve=relieve,
        units=Units.MM,
        place=Place(key="here"),
    )
    return cavity, found


def shape(path: Path) -> shapely.Polygon:
    return shapely.Polygon([p for s in path.segments for p in polyline(s, 1e-4)[:-1]])


def cut_away(cavity: Region, dia: float, reliefs) -> shapely.Geometry:
    """What the cutter clears: everywhere in the cavity that it fits, and the reliefs. The wall is
    convex here, so GEOS may buffer it whole."""
    centre = shape(cavity.outer).buffer(-dia / 2, quad_segs=200)
    swept = centre.buffer(dia / 2, quad_segs=200)
    lines = [shapely.LineString([r.start, r.end]).buffer(r.radius, quad_segs=200) for r in reliefs]
    return shapely.union_all([swept, *lines])


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
    _, found = corners(SQUARE, 8, Fit(), relieve=False)
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


def test_a_part_too_large_or_off_the_middle_is_refused_with_all_that_is_wrong():
    for path, words in (
        (circle((0, 0), 70), ["X -70", "Y -70"]),
        (circle((0, 20), 10), ["does not reach into both jaws"]),
    ):
        with pytest.raises(InputError) as error:
            check_blanks(Region(path), BLANKS, 5, Units.MM, Place())
        told = str(error.value)
        assert all(word in told for word in words)
    with pytest.raises(InputError, match="30 mm deep"):
        check_blanks(Region(SQUARE), BLANKS, 30, Units.MM, Place())


def test_a_part_is_flipped_then_turned_then_put_in_its_place():
    hook = Outline(polygon([(0, 0), (10, 0), (10, 2), (0, 6)]))
    plain = place(hook, Hold(depth=5, at=(1, 2)))
    assert plain.outer.box == pytest.approx((1, 2, 11, 8))
    flipped = place(hook, Hold(depth=5, flip=True))
    assert flipped.outer.box == pytest.approx((-10, 0, 0, 6))
    assert flipped.outer.area == pytest.approx(hook.outer.area)
    turned = place(hook, Hold(depth=5, flip=True, turn=90))
    assert turned.outer.box == pytest.approx((-6, -10, 0, 0))
    centred = place(hook, Hold(depth=5, anchor="centre", at=(3, 0)))
    assert centred.outer.box == pytest.approx((-2, -3, 8, 3))


@pytest.mark.parametrize(
    ("zero", "point"),
    [
        (Datum(), (0, 0, 0)),
        (Datum(x="left", y="front", z="bottom"), (-60, -43, -30)),
        (Datum(x="right", y="back face"), (60, 3, 0)),
        (Datum(y="front face", shift=(1, 2, -3)), (1, -1, -3)),
        (Datum(y="back"), (0, 43, 0)),
    ],
)
def test_the_datum_lies_where_its_words_say(zero: Datum, point: tuple[float, float, float]):
    assert datum(zero, BLANKS) == pytest.approx(point)
