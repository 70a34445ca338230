"""Soft jaws bored to the part: what must go, what must stay, what is said of it."""

import dataclasses
import math

import pytest

from jawcam.errors import InputError
from jawcam.hold.bored import ALLOWED, hold_bored
from jawcam.job.load import load
from jawcam.part.piece import Piece
from jawcam.resources import folder
from jawcam.tolerance import Tolerance


@pytest.fixture(scope="module")
def spindle():
    """The burr spindle; end B of diameter 20 is gripped 18 deep, open to 17, jaws out to 70."""
    return load(folder("samples") / "burr-spindle.toml", shown="burr-spindle.toml")


def held(job, *, turned=None, **changes):
    setup = dataclasses.replace(job.jaw_borings[0], **changes)
    if turned is not None:
        length = sum(piece.length for piece in turned)
        part = dataclasses.replace(job.part, turned=tuple(turned), thickness=length)
        job = dataclasses.replace(job, part=part)
    return hold_bored(job, setup, Tolerance()).held


def jaws(job, **changes):
    return dataclasses.replace(job.jaw_borings[0].jaws, **changes)


def refused(job, **changes):
    with pytest.raises(InputError) as error:
        held(job, **changes)
    return {fault.place.key.partition("].")[2] for fault in error.value.faults}


def volume(region):
    """By Pappus: of the half section turned once round the axis; straight edges only."""
    total = 0.0
    for seg in region.outer.segments:
        (z0, x0), (z1, x1) = seg.start, seg.end
        total += math.pi * (z0 - z1) * (x0 * x0 + x0 * x1 + x1 * x1) / 3
    return total


def test_a_bore_is_narrower_than_the_part_by_half_of_what_is_allowed(spindle):
    """To the gripped diameter within +0 / -0.05 mm (common practice, no source): 20 - 0.025."""
    target = held(spindle, groove=None).target
    rows = [(z, x) for z, x, _ in target.finished]
    assert (0.0, pytest.approx(9.9875)) in rows
    assert (-18.0, pytest.approx(9.9875)) in rows
    assert (target.finished_to, target.limit < -18) == (-18.0, True)


def test_what_is_bored_is_a_ring_of_known_volume(spindle):
    """pi (R^2 - r^2) depth, R = 9.9875, r = 8.5, 18 deep."""
    found = held(spindle, groove=None)
    gone = volume(found.stock) - volume(found.finished)
    assert gone == pytest.approx(math.pi * (9.9875**2 - 8.5**2) * 18)


def test_the_stock_is_the_jaw_as_it_is_clamped(spindle):
    assert held(spindle).stock.outer.box == (-40.0, 8.5, 0.0, 35.0)


def test_a_relief_lies_at_the_foot_of_the_bore(spindle):
    """1.5 edges of 1.5 mm wide, 0.5 mm deep on radius, its corners the insert's, 0.1 mm."""
    rows = [(round(z, 6), round(x, 6)) for z, x, _ in held(spindle).target.finished]
    relief = [(-18, 10.3875), (-17.9, 10.4875), (-15.85, 10.4875), (-15.75, 10.3875)]
    begin = rows.index(relief[0])
    assert rows[begin : begin + 5] == [*relief, (-15.75, 9.9875)]


def grip(job, **changes):
    """The diameter that the jaws are bored for, and what is said of it."""
    setup = dataclasses.replace(job.jaw_borings[0], jaws=jaws(job, opening=10), **changes)
    pieces = [dataclasses.replace(piece, thread="") for piece in job.part.turned]
    part = dataclasses.replace(job.part, turned=tuple(pieces))
    found = hold_bored(dataclasses.replace(job, part=part), setup, Tolerance())
    return 2 * found.radius + ALLOWED / 2, found.held.target.notes


@pytest.mark.parametrize(
    ("grips", "depth", "expected"),
    [("B", 18, 20), ("B", 20, 20), ("B", 22, 30), ("A", 14, 12), ("A", 19, 12), ("A", 30, 17.991)],
)
def test_the_largest_diameter_within_the_depth_counts(spindle, grips, depth, expected):
    """Of the piece with limits 0 and -0.018 their middle, 18 - 0.009."""
    found, _ = grip(spindle, grips=grips, depth=depth)
    assert found == pytest.approx(expected)


@pytest.mark.parametrize(
    ("grips", "depth", "touching"),
    [("B", 18, "17 mm"), ("B", 22, "1.5 mm"), ("A", 14, "12 mm"), ("A", 30, "10.8 mm")],
)
def test_how_much_of_the_depth_touches_is_told(spindle, grips, depth, touching):
    """Without the round of 1 at end B, the chamfer of 0.5, two of 1, and the job's edge of 0.2."""
    _, notes = grip(spindle, grips=grips, depth=depth)
    assert f"{touching} of its depth touch the part, the rest of it is free" in notes


def test_a_cone_is_no_grip(spindle):
    """From 30 to 20 over 20 mm: 10 mm before its thin end it is 25 across."""
    cone = [Piece(30, 30, 20), Piece(30, 20, 20)]
    fault = told(spindle, turned=cone, depth=10.0)
    assert "widest, 25 mm across, on a cone that begins 0.2 mm from it" in fault.what
    assert "one line only" in fault.what
    assert "other end" in fault.mend


@pytest.mark.parametrize(
    ("pieces", "what", "most"),
    [
        ([Piece(30, 30, 20), Piece(24, 20, 8), Piece(20, 20, 10)], "24 mm across, on a cone", 10),
        ([Piece(40, 40, 20, rounding=4), Piece(20, 20, 12)], "on a round that begins 12 mm", 12),
    ],
)
def test_a_cone_or_a_round_behind_a_cylinder_is_told_with_the_depth_to_bore(
    spindle, pieces, what, most
):
    depth = {10: 18.0, 12: 15.0}[most]
    fault = told(spindle, turned=pieces, depth=depth)
    assert what in fault.what
    assert fault.mend.startswith(f"bore them {most} mm deep at most")
    assert held(spindle, turned=pieces, depth=float(most))


def test_a_thinner_cone_beside_the_cylinder_is_left_free(spindle):
    pieces = [Piece(30, 30, 20), Piece(20, 20, 10), Piece(20, 18, 8)]
    notes = held(spindle, turned=pieces, depth=16.0).target.notes
    assert "8 mm of its depth touch the part, the rest of it is free" in notes


def told(job, **changes):
    with pytest.raises(InputError) as error:
        held(job, **changes)
    (fault,) = error.value.faults
    assert fault.place.key == "setup[2].depth"
    return fault


def test_the_chuck_s_body_and_the_plug_are_kept_off(spindle):
    body, plug = held(spindle).target.keep_off
    assert max(z for z, _, _ in body) == -40
    assert max(z for z, _, _ in plug) == -20
    assert max(x for _, x, _ in plug) == 8.5
    assert len(held(spindle, jaws=jaws(spindle, ring="ring")).target.keep_off) == 1


def test_the_lower_of_the_two_speeds_clamps(spindle):
    assert held(spindle).target.clamp == 2500
    slow = dataclasses.replace(spindle.jaw_borings[0].chuck, max_rpm=1800)
    assert held(spindle, chuck=slow).target.clamp == 1800


def test_a_person_is_told_how_to_bore(spindle):
    said = " ".join(held(spindle).target.notes)
    for words in ("0.025", "plug", "pressure", "mark the jaws", "again", "3500 rpm", "interrupted"):
        assert words in said
    assert "caution" not in said


@pytest.mark.parametrize(("chamfer", "warned"), [(0.3, True), (0.4, True), (0.5, False)])
def test_without_a_relief_the_part_s_edge_must_clear_the_nose(spindle, chamfer, warned):
    """The sample's boring insert has a nose of 0.4 mm."""
    pieces = [Piece(30, 30, 20), Piece(20, 20, 20, chamfer=chamfer)]
    notes = held(spindle, turned=pieces, groove=None).target.notes
    assert any("will not seat" in note for note in notes) == warned
    assert not any("will not seat" in note for note in held(spindle, turned=pieces).target.notes)


def test_jaws_without_metal_to_bore_are_refused(spindle):
    assert refused(spindle, jaws=jaws(spindle, opening=19.975)) == {"jaws.opening"}
    assert refused(spindle, jaws=jaws(spindle, outer=24.9)) == {"jaws.outer"}
    assert refused(spindle, depth=90.0) == {"depth"}
