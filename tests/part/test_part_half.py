"""A half profile that was drawn is the same part as the table that it was drawn from."""

import dataclasses
import itertools
import math

import numpy as np
import pytest
import shapely
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from part_help import TOLERANCE
from turned_help import SPINDLE, cylinder, half, place, profile, rim, tables, taper

from jawcam.errors import InputError
from jawcam.geometry.shapes import Arc, Line
from jawcam.part.half import AS_DRAWN, BREAK, of_drawing, of_table
from jawcam.part.half_breaks import unbroken
from jawcam.part.half_drawing import HalfDrawing
from jawcam.part.lying import lying
from jawcam.part.turned import standing
from jawcam.units import Units

STEPS = st.sampled_from([0.05, 0.1, 0.3, 1.0])


def tabled(pieces, bore=()):
    return of_table(pieces, bore, units=Units.MM, place=place)


def drawn(segments, bore=(), notes=()):
    found = HalfDrawing(tuple(segments), "spindle.dxf", Units.MM, notes)
    return of_drawing(found, bore, units=Units.MM, place=place, tolerance=TOLERANCE)


def stand(one, step=0.1):
    return standing(one, step=step, units=Units.MM)


def discs(solid):
    return [(slab.bottom, slab.top, slab.outlines[0].box[2]) for slab in solid.slabs]


def over(segments):
    """The profile from its other end."""
    length = segments[-1].end[0]

    def at(p):
        return (length - p[0], p[1])

    return tuple(
        Arc(at(one.end), at(one.start), at(one.centre), one.ccw)
        if isinstance(one, Arc)
        else Line(at(one.end), at(one.start))
        for one in reversed(segments)
    )


def nudged(segments, random, most=2e-6):
    """The profile as a drawing has it, its points off by what six decimals leave."""

    def off(p):
        return (p[0] + random.uniform(-most, most), p[1] + random.uniform(-most, most))

    ends = [segments[0].start, *(one.end for one in segments)]
    moved = [(0.0, ends[0][1]), *map(off, ends[1:])]
    return [
        Arc(a, b, off(one.centre), one.ccw) if isinstance(one, Arc) else Line(a, b)
        for one, (a, b) in zip(segments, itertools.pairwise(moved), strict=True)
    ]


def plainly_broken(pieces):
    """Whether the form of the profile tells the table's edge breaks from its tapers: a break that
    takes a whole face or side lies between other slopes or at the foot of a wall, and a taper may
    look like a chamfer."""
    sharp = profile(*pieces)
    slopes = [one for one in sharp if isinstance(one, Arc) or 0 not in _extent(one)]
    for a, b in itertools.pairwise(sharp):
        rises = [one.end[1] - one.start[1] for one in (a, b)]
        at_foot = (a in slopes and min(rises) > 0) or (b in slopes and max(rises) < 0)
        if at_foot or (a in slopes and b in slopes):
            return False
    return not [p for p in pieces if p.start != p.end and p.length <= BREAK]


def _extent(one):
    return [round(abs(a - b), 9) for a, b in zip(one.start, one.end, strict=True)]


# --- edge breaks -----------------------------------------------------------------------------


def test_chamfers_and_rounds_go_back_to_corners():
    pieces = (cylinder(12, 15, chamfer=0.5), cylinder(30, 6, rounding=0.8), cylinder(20, 12))
    assert unbroken(profile(*pieces), BREAK) == pytest.approx(profile(*pieces, beyond=BREAK))
    assert unbroken(profile(*SPINDLE), BREAK) == profile(*SPINDLE, beyond=BREAK)


def test_large_ones_stay():
    large = profile(cylinder(30, 20, chamfer=1.1), cylinder(24, 20, rounding=1.2))
    assert unbroken(large, BREAK) == large


def test_a_cone_that_is_too_flat_for_a_chamfer_stays():
    flat = (Line((0, 9.6), (0.9, 10)), Line((0.9, 10), (10, 10)))
    assert unbroken(flat, BREAK) == flat
    steep = (Line((0, 9.4), (0.9, 10)), Line((0.9, 10), (10, 10)))
    assert unbroken(steep, BREAK) == (Line((0, 10), (10, 10)),)


def test_a_chamfer_in_an_inside_corner_stays():
    inside = (
        Line((0, 5), (9.5, 5)),
        Line((9.5, 5), (10, 5.5)),
        Line((10, 5.5), (10, 8)),
        Line((10, 8), (20, 8)),
    )
    assert unbroken(inside, BREAK) == inside


def test_a_hollow_round_stays():
    hollow = (
        Line((0, 5), (9.5, 5)),
        Arc((9.5, 5), (10, 5.5), (9.5, 5.5), ccw=True),
        Line((10, 5.5), (10, 8)),
        Line((10, 8), (20, 8)),
    )
    assert unbroken(hollow, BREAK) == hollow


def test_a_chamfer_that_ends_in_a_hollow_round_stays():
    run_out = (
        Line((0, 5), (9, 5)),
        Line((9, 5), (9.8, 5.8)),
        Arc((9.8, 5.8), (12, 8), (9.8, 8), ccw=True),
        Line((12, 8), (20, 8)),
    )
    assert unbroken(run_out, BREAK) == run_out


def test_a_chamfer_at_the_foot_of_a_shoulder_stays():
    foot = (
        Line((0, 8), (10, 8)),
        Line((10, 8), (10, 5)),
        Line((10, 5), (10.5, 5.5)),
        Line((10.5, 5.5), (20, 5.5)),
    )
    assert unbroken(foot, BREAK) == foot


def test_a_break_that_takes_the_whole_step_is_one():
    """Between two cylinders; there is no shoulder left beside it."""
    step = (Line((0, 5), (10, 5)), Line((10, 5), (10.8, 5.8)), Line((10.8, 5.8), (20, 5.8)))
    corner = Line((10, 5), (10, 5.8))
    assert unbroken(step, BREAK) == (step[0], corner, Line((10, 5.8), (20, 5.8)))


def test_two_breaks_that_meet_leave_a_cylinder():
    ridge = profile(cylinder(20, 5), cylinder(24, 2, rounding=1), cylinder(20, 5))
    assert unbroken(ridge, BREAK) == profile(
        *(cylinder(d, n) for d, n in ((20, 5), (24, 2), (20, 5)))
    )


@given(tables())
@settings(max_examples=150)
def test_breaks_known_by_their_form_are_those_of_the_table(pieces):
    assume(plainly_broken(pieces))
    found, expected = unbroken(profile(*pieces), BREAK), profile(*pieces, beyond=BREAK)
    one, other = half(found), half(expected)
    assert one.symmetric_difference(other).area < 1e-6 * other.length


@given(tables())
@settings(max_examples=150)
def test_without_breaks_nothing_drawn_is_outside(pieces):
    """Whatever is taken for a break."""
    plain = half(unbroken(profile(*pieces), BREAK))
    assert half(profile(*pieces)).difference(plain.buffer(1e-6)).is_empty


# --- the same solid --------------------------------------------------------------------------


@given(tables(), STEPS, st.randoms(use_true_random=False))
@settings(max_examples=80)
def test_a_drawing_stands_as_its_table_does(pieces, step, random):
    """Discs within 0.01 mm in height and on radius, as drawings are read to six decimals; the
    steps of a taper are as many and as high."""
    assume(plainly_broken(pieces))
    table, drawing = tabled(pieces), drawn(nudged(profile(*pieces), random))
    found, expected = discs(stand(drawing, step)), discs(stand(table, step))
    assert len(found) == len(expected)
    for one, other in zip(found, expected, strict=True):
        assert one == pytest.approx(other, abs=1e-4)


@given(tables(), STEPS, st.randoms(use_true_random=False))
@settings(max_examples=40)
def test_a_drawing_is_told_like_its_table(pieces, step, random):
    """How far the ends are broken, the silhouette, and what is said of steps."""
    assume(plainly_broken(pieces))
    pieces = tuple(dataclasses.replace(piece, thread="") for piece in pieces)
    table = stand(tabled(pieces), step)
    drawing = stand(drawn(nudged(profile(*pieces), random)), step)
    assert drawing.broken_below == pytest.approx(table.broken_below, abs=2e-4)
    assert drawing.broken_above == pytest.approx(table.broken_above, abs=2e-4)
    assert drawing.silhouette[0].box == pytest.approx(table.silhouette[0].box, abs=1e-5)
    assert len(drawing.remarks) == len(table.remarks)
    assert drawing.notes[-1] == AS_DRAWN


@given(tables(), st.randoms(use_true_random=False))
@settings(max_examples=60)
def test_a_drawing_lies_as_its_table_does(pieces, random):
    table, drawing = lying(tabled(pieces)), lying(drawn(nudged(profile(*pieces), random)))
    assert drawing.least_depth == pytest.approx(table.least_depth, abs=1e-5)
    assert drawing.lying == pytest.approx(table.lying, abs=1e-4)
    one, other = (
        shapely.Polygon(rim(solid.slabs[0].outlines[0].segments)) for solid in (drawing, table)
    )
    assert one.symmetric_difference(other).area < 1e-5 * other.length
    assert len(drawing.slices) == len(table.slices)


@pytest.mark.parametrize("lean", [9e-5, -9e-5])
def test_a_shoulder_that_leans_is_no_step_of_its_own(lean):
    """Nor are cylinders tapers that are as exact as drawings are."""
    leaning = (
        Line((0, 6), (15, 6 - lean / 2)),
        Line((15, 6 - lean / 2), (15 + abs(lean), 15)),
        Line((15 + abs(lean), 15), (21, 15 + lean)),
    )
    solid = stand(drawn(leaning))
    assert discs(solid) == [
        (0, pytest.approx(6, abs=1e-4), pytest.approx(15, abs=1e-4)),
        (pytest.approx(6, abs=1e-4), 21, pytest.approx(6, abs=1e-4)),
    ]
    assert solid.remarks == ()
    assert max(radius for *_, radius in discs(solid)) >= 15


@pytest.mark.parametrize("turned_over", [False, True])
def test_a_chamfer_above_a_shoulder_that_leans_leaves_no_sliver(turned_over):
    """Its corner is above the shoulder's upper end, a hair beside its lower one."""
    broken = (
        Line((0, 6), (15, 6)),
        Line((15, 6), (15.00005, 14.5)),
        Line((15.00005, 14.5), (15.50005, 15)),
        Line((15.50005, 15), (21, 15)),
    )
    one = drawn(over(broken) if turned_over else broken)
    rows = sorted((radius, top - bottom) for bottom, top, radius in discs(stand(one)))
    assert rows == [(6, pytest.approx(15, abs=1e-4)), (15, pytest.approx(6, abs=1e-4))]
    assert sum(height for _, height in rows) == 21
    tall = dict(rows)[15]
    assert tall >= 21 - 15.00005 - 1e-9


def test_the_bore_beside_a_drawing():
    solid = stand(drawn(profile(*SPINDLE), bore=[cylinder(8, 15), cylinder(10, 40)]))
    assert solid.holes[0].box[2] == 5
    assert "the bore is shown, not cut" in solid.notes
    with pytest.raises(InputError, match=r"bore\[1\]"):
        drawn(profile(*SPINDLE), bore=[cylinder(12, 3)])


def test_how_far_the_ends_are_broken():
    """By a chamfer of 0.5 on the thread's end, and by a third of one of 1.5 that is stepped."""
    pieces = [cylinder(12, 15, chamfer=0.5), cylinder(30, 6), cylinder(20, 12, chamfer=1.5)]
    for one in (tabled(pieces), drawn(profile(*pieces))):
        solid = stand(one, step=0.4)
        assert solid.broken_above == pytest.approx(0.5)
        assert solid.broken_below == pytest.approx(0.5)
    sharp = stand(tabled([cylinder(30, 6)]))
    assert (sharp.broken_below, sharp.broken_above) == (0, 0)


def test_a_taper_that_ends_narrow_leaves_its_first_step_free():
    """From 30 to 28 over 10 mm in five steps, each 0.2 higher: the wall begins 0.2 off the rim.
    At its wide end the rim is as wide as the disc."""
    solid = stand(tabled([taper(30, 28, 10)]), step=0.2)
    assert solid.broken_below == pytest.approx(0.2)
    assert solid.broken_above == 0


# --- hollow rounds ---------------------------------------------------------------------------


@st.composite
def hollows(draw):
    """Cylinders joined by hollow and by bulging arcs of a quarter or of a part of it."""
    z, r = 0.0, draw(st.floats(6, 20))
    segments = []
    for _ in range(draw(st.integers(1, 4))):
        length = draw(st.floats(1, 10))
        segments.append(Line((z, r), (z + length, r)))
        z, size = z + length, draw(st.floats(0.2, 5))
        turn = draw(st.floats(0.3, math.pi / 2))
        along, across = size * math.sin(turn), size * (1 - math.cos(turn))
        if draw(st.booleans()):  # a hollow one rises from its cylinder
            segments.append(Arc((z, r), (z + along, r + across), (z, r + size), ccw=True))
            z, r = z + along, r + across
        elif r - across > 1:
            segments.append(Arc((z, r), (z + along, r - across), (z, r - size), ccw=False))
            z, r = z + along, r - across
        if draw(st.booleans()) and segments[-1].end[1] - 3 > 1:
            segments.append(Line((z, r), (z, r - 3)))
            r -= 3
    segments.append(Line((z, r), (z + 2, r)))
    return tuple(segments)


def dip(radius, turn):
    """A neck: an arc that dips between two cylinders, as deep as half its angle makes it."""
    half_width, low = radius * math.sin(turn), radius * (1 - math.cos(turn))
    return (
        Line((0, 12), (5, 12)),
        Arc((5, 12), (5 + 2 * half_width, 12), (5 + half_width, 12 - low + radius), ccw=True),
        Line((5 + 2 * half_width, 12), (30, 12)),
    )


@given(hollows() | st.builds(dip, st.floats(1, 9), st.floats(0.2, 1.5)), STEPS, st.booleans())
@settings(max_examples=150)
def test_discs_contain_rounds_of_any_kind_and_stand_little_off_them(segments, step, turned_over):
    segments = over(segments) if turned_over else segments
    one = drawn(segments)
    solid = stand(one, step)
    points = rim(segments, 1e-5)
    heights, radii = one.length - points[:, 0], points[:, 1]
    rows = discs(solid)
    assert rows[0][0] == 0
    assert all(low[1] == high[0] for low, high in itertools.pairwise(rows))
    true = half(one.plain)
    for bottom, top, radius in rows:
        inside = (heights > bottom + 1e-6) & (heights < top - 1e-6)
        assert np.all(radii[inside] <= radius + 1e-9)
        for height in (bottom, top):
            assert true.distance(shapely.Point(one.length - height, radius)) <= step + 1e-4


def test_a_hollow_round_is_stepped_evenly_and_told():
    """From 10 up to a flange of 15, quarter of a circle of 5."""
    quarter = (
        Line((0, 10), (10, 10)),
        Arc((10, 10), (15, 15), (10, 15), ccw=True),
        Line((15, 15), (20, 15)),
    )
    solid = stand(drawn(quarter), step=0.2)
    off = [5 - math.dist((20 - top, radius), (10, 15)) for _, top, radius in discs(solid)[:-1]]
    off = [one for one in off if one > 1e-9]
    assert max(off) <= 0.2
    assert min(off) > 0.85 * max(off)
    (told,) = [one.text for one in solid.remarks]
    assert told.startswith(f"the hollow round of 5 mm at 30 mm is taken as {len(off)} steps")
