"""Turned parts as solids: standing as discs, lying as silhouettes."""

import itertools
import math

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from part_help import arcs, continuous, polygon
from turned_help import SPINDLE, cylinder, frustums, half, place, profile, rim, tables, taper

from jawcam.errors import InputError
from jawcam.geometry.shapes import Arc, circle
from jawcam.part.flip import flipped
from jawcam.part.half import BREAK, of_table
from jawcam.part.lying import lying
from jawcam.part.piece import Piece
from jawcam.part.turned import standing
from jawcam.units import Units

STEPS = st.sampled_from([0.05, 0.1, 0.3, 1.0])


def stand(*pieces, bore=(), step=0.1, units=Units.MM):
    half = of_table(pieces, bore, units=units, place=place)
    return standing(half, step=step, units=units)


def lie(*pieces, bore=()):
    return lying(of_table(pieces, bore, units=Units.MM, place=place))


def discs(solid):
    """Bottom, top and radius of each slab; each outline is one circle round the axis."""
    rows = []
    for slab in solid.slabs:
        (outline,) = slab.outlines
        (arc,) = outline.segments
        assert arc.centre == (0, 0)
        assert arc.ccw
        assert outline.closed
        rows.append((slab.bottom, slab.top, arc.radius))
    return rows


def drawn(solid):
    """Height and radius of each slice."""
    return [(one.height, one.outlines[0].segments[0].radius) for one in solid.slices]


# --- standing --------------------------------------------------------------------------------


def test_end_a_is_up():
    solid = stand(cylinder(12, 15), cylinder(30, 6))
    assert discs(solid) == [(0, 6, 15), (6, 21, 6)]
    assert solid.height == 21
    assert solid.silhouette == (circle((0, 0), 15),)
    assert solid.least_depth == 0
    assert solid.notes == ()


def test_neighbours_of_one_diameter_are_one_disc():
    assert discs(stand(cylinder(20, 5), cylinder(20, 7), taper(20, 10, 2), step=5)) == [(0, 14, 10)]


def test_edge_breaks_are_passed_and_told():
    solid = stand(cylinder(12, 15, chamfer=1), cylinder(30, 6, rounding=0.8))
    assert discs(solid) == [(0, 6, 15), (6, 21, 6)]
    assert solid.broken_below == pytest.approx(0.8)
    assert solid.broken_above == pytest.approx(1)
    assert solid.notes == ("edge breaks up to 1 mm are not followed: walls go straight past them",)


def test_a_taper_is_stepped_on_the_safe_side():
    """Over 10 mm the radius grows by 1: the corner of one step would be 10 / sqrt(101) off."""
    solid = stand(taper(30, 28, 10), step=0.2)
    count = math.ceil(10 / math.sqrt(101) / 0.2)
    rows = discs(solid)
    assert len(rows) == count == 5
    assert [row[2] for row in rows] == pytest.approx([14.2, 14.4, 14.6, 14.8, 15])
    assert [row[1] for row in rows] == pytest.approx([2, 4, 6, 8, 10])
    (told,) = solid.remarks
    assert (told.bottom, told.top) == (0, 10)
    assert told.text == (
        "the taper from 30 mm to 28 mm diameter is taken as 5 steps, at most 0.199 mm off it"
    )


def test_a_slight_taper_is_one_step():
    solid = stand(taper(30.1, 30, 10))
    assert discs(solid) == [(0, 10, 15.05)]
    assert "is taken as 1 step, at most 0.05 mm off it" in solid.remarks[0].text


def test_a_large_chamfer_is_stepped():
    solid = stand(cylinder(30, 20, chamfer=2), step=0.5)
    rows = discs(solid)
    assert [row[2] for row in rows] == pytest.approx(
        [13 + 2 / 3, 14 + 1 / 3, 15, 14 + 1 / 3, 13 + 2 / 3]
    )
    assert solid.broken_below == pytest.approx(2 / 3)
    assert solid.broken_above == pytest.approx(2 / 3)


def test_a_large_round_is_stepped_evenly():
    solid = stand(cylinder(30, 20, rounding=5), step=0.2)
    rows = [row for row in discs(solid) if row[1] <= 5]
    off = [math.dist((bottom, radius), (5, 10)) - 5 for bottom, _, radius in rows]
    assert max(off) <= 0.2
    assert min(off) > 0.9 * max(off)
    assert f"the round of 5 mm at 30 mm is taken as {len(rows) + 1} steps" in solid.remarks[0].text


def test_a_thread_is_told():
    told = "the jaws grip piece 5, a thread (M20x2.5 6g)"
    (remark,) = (one for one in stand(*SPINDLE).remarks if one.text == told)
    assert (remark.bottom, remark.top) == (0, 12)
    assert told in lie(*SPINDLE).notes


def test_lengths_are_told_in_the_job_s_units():
    (note,) = (one.text for one in stand(taper(25.4, 24, 10), units=Units.INCH).remarks)
    assert "the taper from 1 in to 0.9449 in diameter" in note


def test_a_bore_is_shown_from_above_only():
    solid = stand(*SPINDLE, bore=[cylinder(8, 15), cylinder(10, 4), cylinder(8, 36)])
    assert solid.holes == (circle((0, 0), 5, ccw=False),)
    assert solid.holes[0].area == pytest.approx(-math.pi * 25)
    assert discs(solid) == discs(stand(*SPINDLE))
    assert "the bore is shown, not cut" in solid.notes


def test_a_bore_that_breaks_out_is_refused():
    for way in (stand, lie):
        with pytest.raises(InputError, match=r"bore\[1\]"):
            way(*SPINDLE, bore=[cylinder(12, 3)])


def test_a_cone_has_a_tip():
    solid = stand(taper(0, 20, 10), step=0.5)
    assert all(radius > 0 for *_, radius in discs(solid))
    assert drawn(solid)[0] == (0, 10)
    assert drawn(solid)[-1] == (10, pytest.approx(0, abs=0.002))


@given(tables(), STEPS)
@settings(max_examples=60)
def test_the_discs_tile_the_height_and_contain_the_part(pieces, step):
    solid = stand(*pieces, step=step)
    rows = discs(solid)
    length = math.fsum(piece.length for piece in pieces)
    assert rows[0][0] == 0
    assert solid.height == pytest.approx(length)
    assert all(low[1] == high[0] for low, high in itertools.pairwise(rows))
    assert all(bottom < top and radius > 0 for bottom, top, radius in rows)
    assert all(abs(low[2] - high[2]) > 1e-9 for low, high in itertools.pairwise(rows))
    points = rim(profile(*pieces), 1e-4)
    heights, radii = solid.height - points[:, 0], points[:, 1]
    for bottom, top, radius in rows:
        inside = (heights > bottom + 1e-7) & (heights < top - 1e-7)
        assert np.all(radii[inside] <= radius + 1e-9)


@given(tables(), STEPS)
@settings(max_examples=60)
def test_no_corner_of_a_disc_stands_off_by_more_than_the_step(pieces, step):
    solid = stand(*pieces, step=step)
    true = half(profile(*pieces, beyond=BREAK))
    for bottom, top, radius in discs(solid):
        for height in (bottom, top):
            corner = shapely.Point(solid.height - height, radius)
            assert true.distance(corner) <= step + 2e-5


@given(tables(), STEPS)
@settings(max_examples=60)
def test_the_discs_hold_little_more_than_the_part(pieces, step):
    coarse = profile(*pieces, beyond=BREAK)
    solid = stand(*pieces, step=step)
    stack = math.fsum(math.pi * r * r * (top - bottom) for bottom, top, r in discs(solid))
    part = frustums(rim(coarse))
    slanted = math.fsum(
        seg.length * (1 + step / (2 * seg.radius) if isinstance(seg, Arc) else 1)
        for seg in coarse
        if (seg.start[0] != seg.end[0] and seg.start[1] != seg.end[1]) or isinstance(seg, Arc)
    )
    widest = max(r for *_, r in discs(solid))
    assert part - 1e-3 <= stack <= part + 2 * math.pi * widest * slanted * step + 1e-3


@given(tables())
@settings(max_examples=60)
def test_slices_are_of_the_true_shape(pieces):
    solid = stand(*pieces)
    rows = drawn(solid)
    true = profile(*pieces)
    volume = frustums(rim(true))
    assert rows[0][0] == 0
    assert rows[-1][0] == pytest.approx(solid.height)
    assert all(low[0] <= high[0] for low, high in itertools.pairwise(rows))
    surface = shapely.LineString(rim(true))
    assert all(
        surface.distance(shapely.Point(solid.height - height, radius)) < 1e-4
        for height, radius in rows
        if radius > 0.001  # of a tip
    )
    if not any(isinstance(seg, Arc) for seg in true):
        pointed = min(radius for _, radius in rows) == 0.001
        assert frustums(rows) == pytest.approx(volume, rel=1e-3 if pointed else 1e-6)
    assert frustums(rows) == pytest.approx(volume, rel=0.02)


def test_a_shoulder_has_two_slices_at_one_height():
    assert drawn(stand(cylinder(12, 15), cylinder(30, 6))) == [(0, 15), (6, 15), (6, 6), (21, 6)]


def test_the_volume_of_a_frustum():
    """Pi h (R2 + R r + r2) / 3."""
    rows = drawn(stand(taper(30, 20, 12)))
    assert frustums(rows) == pytest.approx(math.pi * 12 * (225 + 150 + 100) / 3)
    assert len(rows) == 2


# --- lying -----------------------------------------------------------------------------------


def test_a_lying_part_has_end_a_at_the_left_and_its_middle_at_zero():
    solid = lie(cylinder(12, 15), cylinder(30, 6))
    (outline,) = solid.silhouette
    assert outline.box == (-10.5, -15, 10.5, 15)
    assert {abs(y) for seg in outline.segments for x, y in [seg.start] if x == -10.5} == {6}
    assert solid.slabs[0].outlines == (outline,)
    assert (solid.height, solid.least_depth) == (30, 15)
    assert solid.holes == ()


def test_a_silhouette_has_as_few_segments_as_its_shape():
    (outline,) = lie(cylinder(20, 5), cylinder(20, 7)).silhouette
    assert len(outline.segments) == 4
    (outline,) = lie(cylinder(10, 20, rounding=5)).silhouette
    assert len(outline.segments) == 4
    assert len(arcs(outline)) == 2


@given(tables())
@settings(max_examples=80)
def test_a_silhouette_has_twice_the_area_of_the_half_section(pieces):
    (outline,) = lie(*pieces).silhouette
    assert outline.closed
    assert continuous(outline)
    assert outline.area > 0
    assert outline.area == pytest.approx(2 * half(profile(*pieces)).area, abs=1e-2)
    shape = polygon(outline)
    assert shape.is_valid
    mirror = shapely.affinity.scale(shape, 1, -1, origin=(0, 0))
    assert shape.symmetric_difference(mirror).area < 1e-6


def test_areas_of_silhouettes_in_closed_form():
    (outline,) = lie(taper(30, 20, 10), cylinder(16, 5)).silhouette
    assert outline.area == pytest.approx(250 + 80)
    (outline,) = lie(cylinder(10, 20, rounding=5)).silhouette
    assert outline.area == pytest.approx(100 + math.pi * 25)


def test_a_section_of_a_lying_cylinder_is_a_chord_wide():
    solid = lie(cylinder(30, 20))
    assert len(solid.slices) == 25
    for one in solid.slices[1:-1]:
        (outline,) = one.outlines
        chord = 2 * math.sqrt(15**2 - (15 - one.height) ** 2)
        assert outline.area == pytest.approx(20 * chord)


def test_a_section_of_a_lying_taper_is_a_hyperbola():
    """Half its width is sqrt(r^2 - h^2), h above or below the axis, to a hundredth of a mm."""
    solid = lie(taper(30, 10, 20))
    for one in solid.slices[1:-1]:
        high = abs(one.height - 15)
        radii = np.linspace(max(5, high), 15, 4001)
        x, half_width = (15 - radii) * 2 - 10, np.sqrt(np.maximum(radii**2 - high**2, 0))
        true = shapely.LineString(np.column_stack([x, half_width]))
        (outline,) = one.outlines
        corners = [seg.start for seg in outline.segments if seg.start[1] >= 0]
        assert true.hausdorff_distance(shapely.LineString(corners)) < 0.02


def test_a_lying_part_begins_and_ends_as_a_line():
    for solid in (lie(cylinder(30, 20)), lie(taper(30, 20, 9, rounding=2)), lie(taper(0, 9, 9))):
        first, last = solid.slices[0], solid.slices[-1]
        assert (first.height, last.height) == (0, solid.height)
        for one in (first, last):
            (outline,) = one.outlines
            assert 0 < outline.box[3] < 0.3


def test_a_thinner_cylinder_appears_at_its_own_height():
    solid = lie(cylinder(12, 15), cylinder(30, 6))
    at_nine = [one for one in solid.slices if one.height == pytest.approx(9)]
    assert [len(one.outlines) for one in at_nine] == [1, 1]
    assert [round(one.outlines[0].box[0], 6) for one in at_nine] == [4.5, -10.5]
    at_21 = [one for one in solid.slices if one.height == pytest.approx(21)]
    assert [round(one.outlines[0].box[0], 6) for one in at_21] == [-10.5, 4.5]


def test_flanges_on_a_thin_shaft_are_apart_below_it():
    solid = lie(cylinder(30, 5), cylinder(10, 20), cylinder(30, 5))
    assert [len(one.outlines) for one in solid.slices if one.height < 9] == [2] * 9


@given(tables())
@settings(max_examples=40)
def test_sections_add_up_to_the_volume(pieces):
    """Nearly, as a circle of 12 chords lacks 4.5 % and a taper begins between two sections."""
    solid = lie(*pieces)
    volume = frustums(rim(profile(*pieces)))
    rows = [(one.height, math.fsum(p.area for p in one.outlines)) for one in solid.slices]
    assert all(low[0] <= high[0] for low, high in itertools.pairwise(rows))
    total = math.fsum((h1 - h0) * (a + b) / 2 for (h0, a), (h1, b) in itertools.pairwise(rows))
    assert 0.9 * volume < total < 1.05 * volume
    for one in solid.slices:
        assert all(path.area > 0 and polygon(path).is_valid for path in one.outlines)


# --- upside down -----------------------------------------------------------------------------


def test_upside_down_end_a_is_below():
    solid = flipped(stand(cylinder(12, 15, chamfer=1), cylinder(30, 6, rounding=0.8)))
    assert discs(solid) == [(0, 15, 6), (15, 21, 15)]
    assert drawn(solid)[0] == (0, pytest.approx(5))
    assert (solid.broken_below, solid.broken_above) == pytest.approx((1, 0.8))


def test_a_lying_part_upside_down_has_end_a_at_the_right():
    (outline,) = flipped(lie(cylinder(12, 15), cylinder(30, 6))).silhouette
    assert {abs(y) for seg in outline.segments for x, y in [seg.start] if x == 10.5} == {6}
    assert outline.area > 0


@given(tables(), st.booleans())
@settings(max_examples=40)
def test_upside_down_twice_is_as_before(pieces, standing_up):
    solid = stand(*pieces, bore=[Piece(1, 1, 0.5)]) if standing_up else lie(*pieces)
    once = flipped(solid)
    assert once.slabs[0].bottom == 0
    assert once.height == solid.height
    assert all(low.top == high.bottom for low, high in itertools.pairwise(once.slabs))
    twice = flipped(once)
    for old, new in zip(solid.slabs, twice.slabs, strict=True):
        assert (new.bottom, new.top) == pytest.approx((old.bottom, old.top), abs=1e-9)
        assert new.outlines == old.outlines
    for old, new in zip(solid.slices, twice.slices, strict=True):
        assert new.height == pytest.approx(old.height, abs=1e-9)
        assert new.outlines == old.outlines
    assert (twice.silhouette, twice.holes) == (solid.silhouette, solid.holes)
