"""Parting off: what the insert sweeps, by another engine, against the part that it leaves."""

import itertools
import math

import pytest
import shapely
from cutting_help import insert, swept
from hypothesis import given, settings
from hypothesis import strategies as st

from jawcam.errors import InputError, Place
from jawcam.motion.moves import LineFeed, Rapid, Spindle, SurfaceSpeed
from jawcam.turn.part_off import PartOff, part_off
from jawcam.turn.trail import TurnTrail
from jawcam.units import Units

STEADY = Spindle(800)
USUAL = {"at": -40, "rim": 10, "stock": 11, "width": 3, "radius": 0.2, "clear": 13, "feed": 0.06}


def cut(*, speed=STEADY, **more):
    trail = TurnTrail()
    part_off(trail, PartOff(**{**USUAL, "speed": speed, **more}))
    return trail.motions


def part(at, rim, edge=0.0, bore=0.0):
    """The half section of the part, its far end's corner broken."""
    corner = [(at + edge, rim), (at, rim - edge)] if edge else [(at, rim)]
    return shapely.Polygon([(0, bore), (0, rim), *corner, (at, bore)])


def moves(motions, kind=LineFeed):
    return [motion.to[:2] for motion in motions if isinstance(motion, kind)]


def test_it_goes_straight_in_until_the_corner_is_on_the_axis():
    motions = cut()
    assert moves(motions) == [(-43, pytest.approx(0.8)), (-43, pytest.approx(-0.2))]
    assert moves(motions, Rapid) == [(-43, 13), (-43, 11.5), (-43, 13)]


def test_the_last_millimetre_is_cut_at_half_of_the_feed():
    feeds = [motion.feed for motion in cut() if isinstance(motion, LineFeed)]
    assert feeds == [0.06, 0.03]


def test_into_a_bore_it_ends_at_the_bore():
    assert moves(cut(bore=4))[-1] == (-43, pytest.approx(3.8))


def test_the_face_is_left_at_the_right_of_the_cut():
    covered = swept(cut(), insert(3, 0.2))
    kerf = shapely.box(-43, 0, -40, 11)
    left = kerf.difference(covered)
    assert covered.intersection(shapely.box(-40, 0, 0, 20)).area < 1e-9
    assert left.intersection(shapely.box(-40.1, 0.001, -40, 20)).area < 1e-6


def test_the_edge_is_broken_before_the_part_comes_off():
    """A chamfer of 0.5 takes a triangle of 0.5 x 0.5 / 2."""
    motions = cut(edge=0.5)
    covered = swept(motions, insert(3, 0.2))
    whole = part(-40, 10)
    assert whole.intersection(covered).area == pytest.approx(0.125, abs=1e-6)
    assert part(-40, 10, 0.5).intersection(covered).area < 1e-6
    feeds = moves(motions)
    assert feeds[0] == (-43, pytest.approx(10 - 0.5 - 0.2 - 0.5))
    assert feeds[1][0] == pytest.approx(-43)
    assert feeds[-1][1] == pytest.approx(-0.2)


def test_a_sharp_cornered_insert_breaks_the_edge_along_the_chamfer_itself():
    motions = cut(edge=0.5, radius=0)
    k = next(k for k, motion in enumerate(motions) if motion.to[0] > -43)
    aside, down, along = motions[k : k + 3]
    assert (type(aside), type(down), type(along)) == (Rapid, Rapid, LineFeed)
    assert down.to[:2] == pytest.approx((-42, 10.5))
    assert along.to[:2] == pytest.approx((-43, 9.5))


@settings(max_examples=40, deadline=None)
@given(
    st.floats(4, 20),
    st.floats(0, 3),
    st.floats(1.5, 4),
    st.floats(0, 0.4),
    st.floats(0, 1),
    st.sampled_from([0.0, 2.0]),
    st.sampled_from([None, 1.0]),
)
def test_the_part_stays_and_the_edge_goes(rim, more, width, radius, edge, bore, peck):
    values = {"at": -40, "rim": rim, "stock": rim + more, "width": width, "radius": radius}
    motions = cut(**values, clear=rim + more + 2, edge=edge, bore=bore, peck=peck)
    tool = insert(width, radius)
    covered = swept(motions, tool)
    finished = part(-40, rim, edge, bore)
    assert covered.intersection(finished).buffer(-1e-4).is_empty
    gone = part(-40, rim, 0, bore).difference(finished)
    assert gone.difference(covered).buffer(-1e-4).is_empty
    bar = shapely.box(-60, bore, -40, rim + more)
    solid = bar.union(part(-40, rim, 0, bore))
    for a, b in itertools.pairwise(motions):
        passed = swept([a, b], tool, (type(b),))
        if isinstance(b, Rapid):
            assert passed.intersection(solid).buffer(-1e-4).is_empty
        solid = solid.difference(passed)


def test_pecks():
    motions = cut(peck=2)
    backs = [
        b.to[1] - a.to[1]
        for a, b in itertools.pairwise(motions[:-1])
        if isinstance(a, LineFeed) and isinstance(b, Rapid)
    ]
    assert backs == pytest.approx([0.2] * 5)
    depths = [x for _, x in moves(motions)]
    assert max(a - b for a, b in itertools.pairwise([11, *depths])) <= 2


@pytest.mark.parametrize("peck", [None, 1.5])
@pytest.mark.parametrize("edge", [0.0, 0.5])
@pytest.mark.parametrize("clamp", [2500, 6000, 30_000])
def test_where_the_clamp_is_reached_the_spindle_keeps_to_its_turns(clamp, edge, peck):
    """n = 1000 v / (pi D): 100 m/min and 2500 rpm meet on 12.732 mm, those and 6000 rpm on
    5.305 mm, those and 30000 rpm on 1.061 mm: within the last millimetre of radius."""
    motions = cut(speed=SurfaceSpeed(100, clamp), edge=edge, peck=peck)
    (k,) = [k for k, motion in enumerate(motions) if isinstance(motion, Spindle)]
    assert motions[k] == Spindle(clamp)
    z, x, _ = motions[k - 1].to
    assert (z, 2 * x) == (-43, pytest.approx(100_000 / (math.pi * clamp)))
    slow = [m.to[1] < 0.8 - 1e-9 for m in motions if isinstance(m, LineFeed)]
    feeds = [m.feed for m in motions if isinstance(m, LineFeed)]
    assert feeds == [0.03 if late else 0.06 for late in slow]


def test_a_spindle_that_the_clamp_holds_from_the_start_is_set_before_the_cut():
    motions = cut(speed=SurfaceSpeed(100, 1000))  # 31.8 mm, wider than the bar
    (k,) = [k for k, motion in enumerate(motions) if isinstance(motion, Spindle)]
    assert moves(motions[:k]) == []
    assert moves(motions) == moves(cut())


def test_into_a_bore_wider_than_that_the_speed_is_never_fixed():
    motions = cut(speed=SurfaceSpeed(100, 6000), bore=4.0)
    assert not any(isinstance(motion, Spindle) for motion in motions)


def test_a_steady_spindle_is_left_alone():
    assert not any(isinstance(motion, Spindle) for motion in cut())


# --- what can be wrong ---------------------------------------------------------------------------


def test_a_reach_less_than_the_radius():
    with pytest.raises(InputError) as caught:
        cut(reach=10.0, where=Place("spindle.toml", key="setup[1].part_off"))
    (one,) = caught.value.faults
    assert one.what == "parting off goes 11.2 mm deep, the tool reaches 10 mm"
    assert one.mend == "take a parting tool that reaches at least 11.2 mm"
    assert str(one.place) == "spindle.toml: setup[1].part_off: Z -40 X 20 (diameter)"
    assert cut(reach=11.2)
    assert cut(reach=8.0, bore=4.0)


def test_all_that_is_wrong_is_told_at_once():
    with pytest.raises(InputError) as caught:
        cut(reach=1.0, bore=8.0, edge=2.0, units=Units.INCH)
    first, second = caught.value.faults
    assert "reaches 0.0394 in" in first.what
    assert second.what == ("an edge broken by 0.0787 in has no room on a face 0.0787 in high")
    assert second.mend
