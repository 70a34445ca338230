"""How deep on radius a rapid goes into the work, and how far it goes there: the bar is 20 mm in
radius and begins at Z 1; the nose of 0.8 mm touches the set point's lines of Z and X."""

import math

import pytest
from axle_pen import axle
from turning_pen import BORE, DRILL, GROOVE, Pen, box, face, judged, level_passes

from jawcam.proof.telling import MOST


def told(pen, goal=None, tool=1):
    """Of the first rapid through material: how deep and how far."""
    report = judged(pen.home(), goal or axle())
    hit = next(f for f in report.findings if f.code == "T501")
    assert hit.what.startswith(f"T{tool} goes through uncut material at rapid")
    depth, length = (float(w) for w in hit.what[2:].split() if w[0].isdigit())
    assert depth == pytest.approx(hit.amount, abs=5e-4)
    return hit.amount, length


def near(depth, length):
    """Noses are chords, 0.00001 mm inside."""
    return pytest.approx((depth, length), abs=1e-3)


def test_along_the_axis_into_the_bar():
    assert told(Pen().rapid(3.0, 15.0).rapid(z=-10.0)) == near(5.0, 11.0)


def test_across_into_the_bar():
    assert told(Pen().rapid(-5.0, 23.0).rapid(x=12.0)) == near(8.0, 8.0)


def test_the_words_and_the_place():
    report = judged(Pen().rapid(3.0, 15.0).rapid(z=-10.0).home(), axle())
    hit = next(f for f in report.findings if f.code == "T501")
    assert hit.what == (
        "T1 goes through uncut material at rapid, 5 mm deep on radius and along 11 mm of the way"
    )
    assert (hit.x, hit.z) == pytest.approx((40.0, 1.0), abs=1e-6), "the bar's corner, a diameter"


def test_aslant_it_counts_where_it_is_deepest():
    """From X 22 at Z 0 down by 1 in 2: the nose's circle is at the bar's radius when its lowest
    point is, and deepest at the end."""
    depth, length = told(Pen().rapid(0.0, 22.0).rapid(-20.0, 12.0))
    assert depth == pytest.approx(8.0, abs=1e-3)
    assert length == pytest.approx(8.0 * math.hypot(1.0, 2.0), abs=5e-3)


def test_it_counts_from_what_still_stands():
    """Turned down to 17.5 as far as Z -40 before; at X 16 the rapid is 1.5 in it, from the faced
    end on."""
    pen = level_passes(face(Pen()), 17.5, -40.0)
    assert told(pen.rapid(3.0, 16.0).rapid(z=-10.0)) == near(1.5, 10.0)


def test_only_the_first_passage_counts():
    """A groove 4 mm wide, from Z -10 to -14: a blade 3 mm wide at X 18 goes 2 mm into the bar from
    Z 1 on, is out when its rear is at Z -10 and its front, the set point, at -13; and at -14 it
    goes in again."""
    pen = Pen(3).rapid(-13.0, 23.0).feed(x=12.0).feed(z=-14.0).feed(x=23.0).rapid(z=3.0)
    assert told(pen.rapid(x=18.0).rapid(z=-30.0), tool=3) == near(2.0, 14.0)


def test_a_drill_counts_from_its_own_edge_to_the_axis():
    """At its full radius; where only its point is in, that of the point there."""
    assert told(Pen(6).rapid(5.0, 0.0).rapid(z=-10.0), tool=6) == near(DRILL.dia / 2, 11.0)
    point = 2.0 * math.tan(math.radians(DRILL.point_angle / 2))
    assert told(Pen(6).rapid(5.0, 0.0).rapid(z=-1.0), tool=6) == near(point, 2.0)


def test_a_boring_tool_counts_into_the_bore_s_wall():
    """A bar with a bore of 8 mm radius: at X 9.5 it is 1.5 in the wall."""
    bored = axle(stock=box(-80.0, 1.0, 8.0, 20.0))
    depth, length = told(Pen(7).rapid(5.0, 9.5).rapid(z=-6.0), bored, tool=7)
    assert (depth, length) == near(1.5, 7.0)
    assert BORE.inside


def test_a_holder_counts_by_its_own_shape():
    """A slot as wide as the blade, cut by one that reaches 25 mm: the holder of the one that
    reaches 10 is 1 mm in the bar when its edge is at X 9, in air."""
    pen = Pen(4).rapid(-20.0, 23.0).feed(x=8.0).feed(x=23.0).rapid(x=60.0).rapid(z=60.0)
    report = judged(pen.call(3).rapid(-20.0, 23.0).rapid(x=9.0).home(), axle())
    hit = next(f for f in report.findings if f.code == "T501")
    assert hit.what == (
        "T3 goes through uncut material at rapid with its holder, 1 mm deep on radius and along "
        "1 mm of the way"
    )
    assert hit.amount == pytest.approx(GROOVE.reach - 9.0, abs=1e-6)


def test_no_more_are_measured_than_are_told():
    pen = Pen()
    for _ in range(MOST + 2):
        pen.rapid(3.0, 23.0).rapid(x=15.0).rapid(z=-10.0).rapid(z=3.0).rapid(x=23.0)
    hits = [f for f in judged(pen.home(), axle()).findings if f.code == "T501"]
    assert len(hits) == MOST
    assert all(hit.amount == pytest.approx(5.0, abs=1e-3) for hit in hits)
