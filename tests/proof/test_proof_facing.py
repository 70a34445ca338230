"""Blanks that are faced first."""

from dataclasses import replace

import pytest
from proof_pen import TARGET, Pen, disc_pocket, judged

from jawcam.tools.cutter import Cutter

FACE = Cutter(2, "end mill", 40.0, flute_len=0.6)
FACED = replace(TARGET, facing=0.5, cutters=(*TARGET.cutters, FACE))


def faced(z=0.0, second=18.0, far=65.0):
    """Two passes along X, then the pocket."""
    pen = Pen().call(2).rapid(-65.0, -18.0).rapid(z=10.0).rapid(z=z)
    pen.feed(x=far).rapid(x=65.0).rapid(y=second).feed(x=-65.0).rapid(z=10.0)
    return disc_pocket(pen=pen.call(3))


def codes(pen, target=FACED):
    return [f.code for f in judged(pen, target).findings if f.code != "P112"]


def test_faced_blanks_have_no_findings():
    report = judged(faced(), FACED)
    assert report.findings == ()
    whole = 2 * 80 * 30
    assert report.figures.area == pytest.approx(whole, abs=0.01)
    levels = report.figures.levels
    assert [z for z, _ in levels] == [0.0, -6.0]
    assert sum(area for _, area in levels) == pytest.approx(whole, abs=0.02)
    pocket = judged(disc_pocket()).figures.volume
    assert report.figures.volume == pytest.approx(pocket + whole * 0.5, rel=1e-3)
    assert report.figures.wall_left == pytest.approx(17.95, abs=1e-3)


def test_blanks_that_are_not_faced_are_left_over():
    found = judged(disc_pocket(), FACED).findings
    assert {f.code for f in found} == {"P301", "P601"}, "and the way down into it"
    left = [f for f in found if f.code == "P301"]
    assert {f.z for f in left} == {0.0}
    assert all("above the jaw top" in f.what for f in left)
    strip = judged(faced(second=11.0), FACED).findings
    (left,) = [f for f in strip if f.code != "P112"]
    assert left.amount == pytest.approx(2.0, abs=0.01)
    assert left.y > 31


def test_facing_too_deep_or_too_high():
    assert codes(faced(z=-0.01)) == ["P404"]
    assert codes(faced(z=0.02)) == ["P403"]
    assert codes(faced(z=0.3)) == ["P301", "P301", "P601"]


def test_a_rapid_through_the_unfaced_top():
    assert "P501" in codes(faced(far=0.0))
    low = Pen().rapid(30.0, 20.0).rapid(z=10.0).rapid(z=0.3).rapid(z=10.0)
    assert "P501" in codes(disc_pocket(pen=low))
    after = faced().rapid(30.0, 20.0).rapid(z=0.3).rapid(z=10.0)
    assert codes(after) == []


def test_facing_says_nothing_of_flutes_shorter_than_the_pocket_is_deep():
    assert "P801" not in codes(faced())
