"""How deep a rapid goes into material and how far it goes there, by plane geometry."""

import math
from dataclasses import replace

import pytest
from proof_pen import MILL, TARGET, Pen, disc_pocket, judged

from jawcam.hold.target import Hole
from jawcam.proof.telling import MOST
from jawcam.tools.cutter import Cutter
from jawcam.tools.machine import Machine

BALL = replace(MILL, kind="ball end mill")


def told(pen, cutter=MILL, code="P501", **options):
    """Of the first rapid through material: how deep and how far; what it says of that is checked
    to be the same."""
    report = judged(pen, replace(TARGET, cutters=(cutter,)), **options)
    first = next(f for f in report.findings if f.code == code)
    words = first.what.partition(", ")[2] if code == "P501" else first.what
    depth, length = (float(w) for w in words.replace(",", "").split() if w[0].isdigit())
    assert depth == pytest.approx(first.amount, abs=5e-4)
    return first.amount, length


def test_level_through_a_blank_from_end_to_end():
    """The disc of 4 mm is in it from X 44 to -44."""
    assert told(Pen().rapid(50.0, 15.0).rapid(z=-2.0).rapid(x=-50.0)) == (2.0, 88.0)


def test_the_words():
    report = judged(Pen().rapid(50.0, 15.0).rapid(z=-2.0).rapid(x=-50.0))
    (found,) = [f for f in report.findings if f.code == "P501"]
    assert found.what == (
        "T3 goes through uncut material at rapid, 2 mm below its top and along 88 mm of the way"
    )


def test_straight_down_into_a_blank_and_into_what_is_left_of_it():
    assert told(Pen().rapid(30.0, 15.0).rapid(z=-5.0)) == (5.0, 5.0)
    depth, length = told(disc_pocket().rapid(3.0, 0.0).rapid(z=-7.0))
    assert depth == 1.0, "its top is the seat"
    assert length == pytest.approx(1.0, abs=0.01)


def test_aslant_it_counts_where_it_is_deepest():
    """Falling 1 in 4 from Z 0 at X 60: in at X 44, at the end 10 below the top."""
    depth, length = told(Pen().rapid(60.0, 15.0).rapid(z=0.0).rapid(20.0, 15.0, -10.0))
    assert depth == pytest.approx(10.0, abs=2e-3)
    assert length == pytest.approx(24.0 * math.hypot(1.0, 0.25), abs=0.01)


def test_aslant_into_a_cleared_pocket_it_counts_where_it_comes_out():
    """From Z 2 at X 30 to -5 at X 0: in at Z 0; out where its circle has left the corners of wall
    and gap, 3 beside the middle."""
    out = math.sqrt(15.05**2 - 9.0) - math.sqrt(16.0 - 9.0)
    deep = 7.0 * (30.0 - out) / 30.0 - 2.0
    pen = disc_pocket().rapid(30.0, 0.0).rapid(z=2.0).rapid(x=0.0, z=-5.0)
    depth, length = told(pen, machine=Machine(rapids="straight"))
    assert depth == pytest.approx(deep, abs=5e-3)
    assert length == pytest.approx(deep / 7.0 * math.hypot(30.0, 7.0), abs=0.03)


def test_only_the_first_passage_counts():
    """A slot 20 wide has been cut across the back blank; beyond it the rapid goes in once more."""
    pen = Pen().rapid(0.0, 45.0).rapid(z=-3.0)
    for x in (-6.0, -3.0, 0.0, 3.0, 6.0):
        pen.feed(x, 45.0).feed(y=-5.0).feed(y=45.0)
    pen.rapid(50.0)
    depth, length = told(pen.rapid(50.0, 15.0).rapid(z=-2.0).rapid(x=-50.0))
    assert depth == 2.0
    assert length == pytest.approx(40.0 - 10.0 + 2 * 4.0, abs=0.01)


def test_the_top_is_that_of_what_still_stands():
    """A groove as wide as the cutter has been cut 1.5 deep; along it a rapid at Z -2.2 is 0.7 deep
    in its floor."""
    pen = Pen().rapid(50.0, 15.0).rapid(z=-1.5).feed(x=-50.0)
    depth, length = told(pen.rapid(z=-2.2).rapid(x=50.0))
    assert depth == pytest.approx(0.7, abs=1e-6)
    assert length == pytest.approx(88.0, abs=0.01)


def test_above_a_slope_it_is_that_of_the_slope():
    """A ramp falls from Z 0 at X 0 to -6 at X 30. Where the disc lies on it with its middle at X x
    its floor is cut to -x / 5 at the highest, all round the disc's rear."""
    pen = Pen().rapid(0.0, 18.0).rapid(z=0.0).feed(30.0, 18.0, -6.0).rapid(z=10.0)
    pen.rapid(10.0, 18.0).feed(z=-2.0).rapid(z=-5.0).rapid(x=20.0)
    depth, _ = told(pen)
    assert depth == pytest.approx(3.0, abs=5e-3)


def test_a_ball_counts_from_where_it_is_lowest():
    """It is judged as flat cutters, the lowest of them 0.001 above its tip."""
    across, _ = told(Pen().rapid(50.0, 15.0).rapid(z=-2.0).rapid(x=-50.0), BALL)
    down, _ = told(Pen().rapid(30.0, 15.0).rapid(z=-1.0), BALL)
    assert (across, down) == pytest.approx((2.0, 1.0), abs=1.1e-3)


def test_a_drill_where_it_has_not_fed():
    drill = Cutter(3, "drill", 5.0, flute_len=40.0)
    assert told(Pen().rapid(30.0, 15.0).rapid(z=-5.0), drill) == (5.0, 5.0)


def test_a_drill_beyond_where_it_has_fed_counts_from_its_own_hole_s_point():
    hole = Hole(30.0, 15.0, 5.0, -8.0, -9.5, 8, "stop")
    target = replace(TARGET, drilled=(hole,), cutters=(MILL, Cutter(8, "drill", 5.0)))
    pen = Pen().call(8).rapid(30.0, 15.0).rapid(z=10.0).feed(z=-6.0).rapid(z=1.0).rapid(z=-6.5)
    hit = next(f for f in judged(pen, target).findings if f.code == "P501")
    assert hit.amount == pytest.approx(0.5, abs=1e-6)
    assert hit.what.endswith("0.5 mm below its top and along 0.5 mm of the way")


def test_a_bent_way_is_followed_round_its_bend():
    """The blank's corner at X 40, Y 33: the straight way passes it 4.9 off. The bent one leads at
    45 degrees from X 44 to X 38, Y 34, and then on along Y until it is 4 past the corner."""
    pen = Pen().rapid(52.0, 20.0).rapid(z=-2.0).rapid(38.0, 48.0)
    depth, length = told(pen, code="P503", machine=Machine(rapids="dog-leg"))
    assert depth == 2.0
    assert length == pytest.approx(6.0 * math.sqrt(2.0) + 3.0, abs=0.01)


def test_no_more_are_measured_than_are_told():
    pen = Pen()
    for _ in range(MOST + 3):
        pen.rapid(50.0, 15.0, 10.0).rapid(z=-2.0).rapid(x=-50.0).rapid(z=10.0)
    hits = [f for f in judged(pen).findings if f.code == "P501"]
    assert len(hits) == MOST
    assert {hit.amount for hit in hits} == {2.0}
    assert hits[-1].what.endswith("of the way (and 3 more like this)")
