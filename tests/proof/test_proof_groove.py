"""The groove along the foot of the seat's wall."""

from dataclasses import replace

import pytest
from proof_pen import TARGET, Pen, judged
from stepped_pen import STEPPED, stepped_pocket

from jawcam.hold.target import Groove, Level, Relief
from jawcam.proof.cavity import blanks_area
from jawcam.proof.limits import Limits
from jawcam.proof.tiers import tiers_of

SQUARE = ((-15.0, -15.0, 0.0), (15.0, -15.0, 0.0), (15.0, 15.0, 0.0), (-15.0, 15.0, 0.0))

GROOVED = replace(STEPPED, groove=Groove(4.0, 0.2))
"""A groove narrower than the cutter can't be cut: 4 mm with the cutter of 4 mm."""


def grooved(radius=8.05, z=-7.2):
    tool = replace(TARGET.cutters[0], number=4, dia=4.0)
    pen = stepped_pocket().call(4).rapid(radius, 0.0).rapid(z=10.0).rapid(z=-6.9)
    pen.circle(z).circle().feed(x=radius - 1.0, z=-6.9).rapid(z=10.0)
    report = judged(pen, replace(GROOVED, cutters=(*TARGET.cutters, tool)))
    return [f for f in report.findings if f.code[:2] != "P1"]


def test_the_groove_at_the_foot_of_the_wall():
    assert grooved() == []
    codes = {
        "no groove": judged(stepped_pocket(), GROOVED).findings,
        "too deep": grooved(z=-7.21),
        "too high": grooved(z=-7.18),
        "into the wall": grooved(8.06),
        "into the seat": grooved(8.04),
    }
    assert {name: {f.code for f in found} for name, found in codes.items()} == {
        "no groove": {"P301"},
        "too deep": {"P401"},
        "too high": {"P403"},
        "into the wall": {"P201", "P301"},
        "into the seat": {"P201", "P301"},
    }
    assert "the groove" in codes["too deep"][0].what
    assert all(f.z == -7.2 for f in codes["no groove"])


def test_a_cut_below_the_seat_beside_the_groove_is_told_as_depth():
    pen = stepped_pocket()
    pen.rapid(0.0, 0.0).rapid(z=-6.9).feed(x=1.0, z=-7.05).feed(x=0.0).rapid(z=10.0)
    found_ = judged(pen, GROOVED).findings
    assert "P401" in {f.code for f in found_}
    deep = next(f for f in found_ if f.code == "P401")
    assert deep.amount == pytest.approx(0.05, abs=1e-3)
    assert "below the seat" in deep.what


def test_a_relief_beside_the_groove_stays_at_the_seat():
    """Its cutter ends at the seat; the groove's may go in, but need not."""
    relief = Relief((0.0, 8.05), (0.0, 9.0), 2.0, (0.0, 11.0), -7.0)
    tool = replace(TARGET.cutters[0], number=4, dia=4.0)
    target = replace(GROOVED, reliefs=(relief,), cutters=(*TARGET.cutters, tool))

    def cut(z):
        pen = stepped_pocket().call(4).rapid(8.05, 0.0).rapid(z=10.0).rapid(z=-6.9)
        pen.circle(-7.2).circle().feed(x=7.0, z=-6.9).rapid(z=10.0)
        pen.rapid(0.0, 8.05).rapid(z=-6.0).feed(z=z).feed(y=9.0).feed(y=8.05).rapid(z=10.0)
        return [f.code for f in judged(pen, target).findings if f.code[:2] != "P1"]

    assert cut(-7.0) == []
    assert cut(-7.2) == []
    assert cut(-7.21) == ["P401"]
    assert set(cut(-6.0)) == {"P301"}


def test_a_relieved_corner_of_the_seat_needs_no_groove():
    reliefs = tuple(
        Relief((11.0 * x, 11.0 * y), (13.0 * x, 13.0 * y), 4.0, (15.0 * x, 15.0 * y), -3.0)
        for x in (-1, 1)
        for y in (-1, 1)
    )
    target = replace(TARGET, levels=(Level(0.0, -3.0, (SQUARE,)),), grip=0.0, reliefs=reliefs)
    pen = Pen().rapid(3.0, 0.0).rapid(z=10.0).feed(z=0.0).circle(-3.0, turns=3)
    for ring in (3.0, 7.0, 11.0):
        pen.feed(ring, -ring).feed(ring, ring).feed(-ring, ring).feed(-ring, -ring)
        pen.feed(ring, -ring)
    for relief in reliefs:
        pen.feed(*relief.start).feed(*relief.end).feed(*relief.start)
    assert judged(pen.rapid(z=10.0), target).findings == ()
    pen.rapid(11.0, 0.0).rapid(z=-2.9).feed(11.0, 11.0, -3.2).feed(-11.0, 11.0).feed(-11.0, -11.0)
    pen.feed(11.0, -11.0).feed(11.0, 11.0).feed(11.0, 0.0).rapid(z=10.0)
    assert judged(pen, replace(target, groove=Groove(8.0, 0.2))).findings == ()


def test_shelves_add_up_to_what_must_be_cleared():
    tiers = tiers_of(replace(GROOVED, facing=0.5), Limits())
    assert [tier.kind for tier in tiers] == ["face", "level", "seat", "groove"]
    whole = sum(tier.shelf.area for tier in tiers)
    assert whole == pytest.approx(blanks_area(TARGET.blanks).area, abs=0.01)
