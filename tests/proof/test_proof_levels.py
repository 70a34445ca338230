"""Several levels: every floor at its height, every wall in its place."""

import math
from dataclasses import replace

import pytest
from proof_pen import TARGET, Pen, disc_pocket, found, judged, ring_out
from stepped_pen import NARROW, STEPPED, WIDE, disc, stepped_pocket

from jawcam.hold.target import Level, Relief, Unreached
from jawcam.proof.limits import Limits
from jawcam.proof.tiers import tier_at, tiers_of

IN_GAP = 6.0


def in_jaws(radius):
    """The area of a disc in the middle of the gap that lies in the blanks."""
    half = IN_GAP / 2
    gap = 2 * (half * math.sqrt(radius**2 - half**2) + radius**2 * math.asin(half / radius))
    return math.pi * radius**2 - gap


def test_a_correct_program_has_no_findings():
    report = judged(stepped_pocket(), STEPPED)
    assert report.findings == ()
    assert report.figures.gouge < 1e-4
    assert report.figures.floor_error == pytest.approx(0, abs=1e-9)
    assert report.figures.floor_left == pytest.approx(23.0)


def test_the_floors_that_the_cuts_leave_are_measured_without_the_target():
    rows = judged(stepped_pocket(), STEPPED).figures.levels
    assert [z for z, _ in rows] == [-3.0, -7.0]
    upper, lower = (area for _, area in rows)
    assert lower == pytest.approx(in_jaws(10.05), abs=0.01)
    assert upper == pytest.approx(in_jaws(15.05) - in_jaws(10.05), abs=0.02)
    high = [
        cut._replace(
            start=(*cut.start[:2], cut.start[2] + 30.0), end=(*cut.end[:2], cut.end[2] + 30.0)
        )
        for cut in stepped_pocket().cuts
    ]
    shifted = judged(high, replace(STEPPED, zero=(0.0, 0.0, -30.0))).figures.levels
    assert [z for z, _ in shifted] == [27.0, 23.0]


def test_a_depth_of_cut_on_the_way_is_no_floor():
    pen = Pen().rapid(3.0, 0.0).rapid(z=10.0).feed(z=0.0).circle(-1.5, turns=2)
    ring_out(pen, 11.05, -1.5)
    rows = judged(stepped_pocket(pen=pen.rapid(z=10.0)), STEPPED).figures.levels
    assert [z for z, _ in rows] == [-3.0, -7.0]


@pytest.mark.parametrize(
    ("changes", "radius"), [({"upper": 11.06}, 15.06), ({"lower": 6.06}, 10.06)]
)
def test_a_wall_too_far_out_is_found_at_its_own_level(changes, radius):
    report = judged(stepped_pocket(**changes), STEPPED)
    assert [f.code for f in report.findings] == ["P201"]
    (finding,) = report.findings
    assert finding.amount == pytest.approx(0.01, abs=1e-4)
    assert math.hypot(finding.x, finding.y) == pytest.approx(radius, abs=1e-3)
    assert finding.z == (-3.0 if radius > 15 else -7.0)


@pytest.mark.parametrize("over", [0.0009, 0.01, 0.5])
def test_a_floor_cut_too_deep_is_told_by_its_depth(over):
    report = judged(stepped_pocket(shelf=-3.0 - over), STEPPED)
    assert [f.code for f in report.findings] == (["P404"] if over > 0.001 else [])
    for finding in report.findings:
        assert finding.amount == pytest.approx(over, abs=1e-4)
        assert "below the level at Z -3" in finding.what
        assert 10.05 < math.hypot(finding.x, finding.y) < 15.06
        assert report.figures.gouge == pytest.approx(over, abs=1e-4)


def test_the_narrow_level_cut_as_wide_as_the_upper_one_is_a_gouge_of_the_shelf():
    """Its outermost circle goes 5 mm beyond the lower wall and 4 mm below the upper floor: the
    nearer counts, and circles farther in are nearer to the wall."""
    report = judged(stepped_pocket(lower=11.05), STEPPED)
    assert {f.code for f in report.findings} == {"P201", "P404"}
    assert max(f.amount for f in report.findings) == pytest.approx(4.0)


def test_a_floor_left_too_high_and_one_left_out():
    high = judged(stepped_pocket(shelf=-2.98), STEPPED)
    assert [f.code for f in high.findings] == ["P403"]
    assert high.findings[0].amount == pytest.approx(0.02)
    assert "the level at Z -3 is left 0.02 mm too high" in high.findings[0].what
    out = judged(stepped_pocket(upper=6.05), STEPPED)
    assert {f.code for f in out.findings} == {"P301"}
    for finding in out.findings:
        assert finding.z == -3.0
        assert finding.amount == pytest.approx(5.0, abs=0.01)
        assert "above the level at Z -3" in finding.what
    never = judged(stepped_pocket(seat=-3.5), STEPPED)
    assert [f.code for f in never.findings] == ["P301", "P301", "P402"]


def test_sloping_moves_are_judged_level_by_level():
    """A ramp along Y that begins on the upper floor and leads to the seat: it must not go below the
    upper floor before the cutter has come within the lower wall."""

    def ramp(across):
        pen = stepped_pocket()
        pen.rapid(0.0, 11.0).rapid(z=-2.9).feed(y=across, z=-3.0).feed(y=3.0, z=-6.9)
        return {f.code: f.amount for f in judged(pen.rapid(z=10.0), STEPPED).findings}

    assert ramp(6.05) == {}
    aside = ramp(6.3)
    assert set(aside) == {"P201", "P602"}, "beside the lower wall until it has come as far in"
    assert aside["P201"] == pytest.approx(0.25, abs=1e-3)
    assert set(ramp(10.9)) & {"P201", "P404"}


def test_pockets_of_their_own():
    """Two discs apart, one 3 deep and one 7."""

    def cut(left, right):
        pen = Pen()
        for x, z in ((-20.0, left), (20.0, right)):
            pen.rapid(x + 3.0, 0.0).rapid(z=10.0).feed(z=0.0)
            pen.circle(z, turns=8, centre=(x, 0.0))
            for radius in (3.0, 6.05):
                pen.feed(x=x + radius)
                pen.circle(centre=(x, 0.0))
            pen.rapid(z=10.0)
        return judged(pen, apart)

    levels = (Level(0.0, -3.0, (disc(10.0, -20.0),)), Level(-3.0, -7.0, (disc(10.0, 20.0),)))
    apart = replace(TARGET, levels=levels)
    assert cut(-3.0, -7.0).findings == ()
    assert [f.code for f in cut(-3.01, -7.0).findings] == ["P404"]
    assert [f.code for f in cut(-3.0, -7.01).findings] == ["P401"]
    assert {f.x < 0 for f in cut(-2.0, -7.0).findings} == {True}
    assert {f.code for f in cut(-7.0, -3.0).findings} == {"P201", "P301", "P404"}


def test_outlines_of_a_level_may_overlap():
    levels = (
        Level(0.0, -3.0, (WIDE, NARROW, disc(5.0, 11.0))),
        Level(-3.0, -7.0, (NARROW, NARROW)),
    )
    report = judged(stepped_pocket(), replace(STEPPED, levels=levels))
    assert {f.code for f in report.findings} == {"P301"}, "only the third sticks out"
    assert {f.z for f in report.findings} == {-3.0}
    assert all(f.x > 14 for f in report.findings)


def test_the_cavity_never_grows_downwards():
    """A level below that is wider makes those above as wide."""
    levels = (Level(0.0, -3.0, (NARROW,)), Level(-3.0, -7.0, (WIDE,)))
    upper, lower = tiers_of(replace(TARGET, levels=levels), Limits())
    assert upper.cavity.area == pytest.approx(math.pi * 15.05**2, abs=0.01)
    assert lower.cavity.area == pytest.approx(upper.cavity.area)
    assert upper.shelf.is_empty


def test_a_relief_ends_at_its_own_floor():
    relief = Relief((13.0, 5.0), (14.0, 5.0), 2.0, (14.0, 5.0), -3.0)

    def cut(z):
        target = replace(STEPPED, reliefs=(relief,))
        tool = replace(TARGET.cutters[0], number=4, dia=4.0, centre_cutting=True)
        target = replace(target, cutters=(*TARGET.cutters, tool))
        pen = stepped_pocket().call(4).rapid(13.0, 5.0).rapid(z=10.0)
        pen.feed(z=z).feed(14.0, 5.0).feed(13.0, 5.0).rapid(z=10.0)
        return [f.code for f in judged(pen, target).findings if f.code[:2] != "P1"]

    assert cut(-3.0) == []
    assert cut(-3.02) == ["P404"]
    assert cut(-2.98) == ["P403"]
    assert set(cut(-1.0)) == {"P301"}


def test_floors_nearer_to_each_other_than_the_limit_of_too_high():
    near = tuple(
        Level(0.0 if k == 0 else -2.98 - 0.02 * k, -3.0 - 0.02 * k, (disc(15.0 - k),))
        for k in range(3)
    )
    tiers = tiers_of(replace(TARGET, levels=near), Limits())
    assert [tier.rough for tier in tiers] == pytest.approx([0.05, 0.01, 0.01])
    assert [tier_at(tiers, z, 0.001) for z in (-1.0, -3.0, -3.0009, -3.01, -3.04, -9.0)] == [
        0,
        0,
        0,
        1,
        2,
        2,
    ]


SQUARE = ((-15.0, -15.0, 0.0), (15.0, -15.0, 0.0), (15.0, 15.0, 0.0), (-15.0, 15.0, 0.0))


def square_pocket():
    """A square of 30 mm, 3 deep, its corners in the round, over the disc of 20 mm, 7 deep."""
    pen = Pen().rapid(3.0, 0.0).rapid(z=10.0).feed(z=0.0).circle(-3.0, turns=3)
    for ring in (3.0, 7.0, 11.0):
        pen.feed(ring, -ring).feed(ring, ring).feed(-ring, ring).feed(-ring, -ring)
        pen.feed(ring, -ring)
    pen.feed(3.0, 0.0).circle(-7.0, turns=4)
    return ring_out(pen, 6.05, -7.0).rapid(z=10.0)


@pytest.mark.parametrize(("floor", "code"), [(-3.0, "P302"), (-7.0, "P302"), (0.0, "P301")])
def test_a_place_foretold_counts_on_its_own_floor_and_above(floor, code):
    levels = (Level(0.0, -3.0, (SQUARE,)), Level(-3.0, -7.0, (disc(10.05),)))
    size = 2 * 4.0 * (math.sqrt(2) - 1) / (math.sqrt(2) + 1)
    at = 15.0 - size / 2
    places = tuple(
        Unreached(x, y, size, "a sharp corner", seats=True, floor=floor)
        for x in (-at, at)
        for y in (-at, at)
    )
    target = replace(STEPPED, levels=levels, grip=0.0, unreached=places)
    assert [f.code for f in judged(square_pocket(), target).findings] == [code] * 4


def test_a_place_foretold_on_an_upper_floor_does_not_excuse_the_seat():
    left = judged(stepped_pocket(lower=6.0), STEPPED).findings
    assert {f.code for f in left} == {"P301"}
    place = Unreached(left[0].x, left[0].y, 1.0, "tight", seats=True, floor=-3.0)
    again = judged(stepped_pocket(lower=6.0), replace(STEPPED, unreached=(place,)))
    assert {f.code for f in again.findings} == {"P301"}


def test_a_trace_between_two_passes_is_no_floor():
    """A ring 0.03 mm wide: 2.8 mm2, but no disc of 0.05 mm fits into it."""
    pen = Pen().rapid(11.05, 0.0).rapid(z=10.0).feed(z=-5.97).circle()
    rows = judged(disc_pocket(wall=11.02, pen=pen.rapid(z=10.0))).figures.levels
    assert [z for z, _ in rows] == [-6.0]


def test_a_plain_target_has_one_tier():
    (tier,) = tiers_of(TARGET, Limits())
    assert (tier.kind, tier.floor, tier.rough) == ("seat", -6.0, 0.05)
    assert found(judged([], TARGET)) == [("P301", 0), ("P301", 0), ("P402", 0)]
