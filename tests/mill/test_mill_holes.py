"""Drilled holes and their spots: how deep, in what order, where the tool stands."""

from __future__ import annotations

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from jawcam.hold.target import Hole
from jawcam.mill.holes import SPOT_CHAMFER, START, drill_holes, spot_holes, spot_tip
from jawcam.mill.trail import Trail
from jawcam.motion.moves import Drill, Rapid
from jawcam.tools.cutter import Cutter

HOW = {"start": START, "clear": 5.0, "feed": 200.0}
SPOT = Cutter(7, "spot drill", 10.0)


def hole(x: float, y: float, depth: float = 10.0, dia: float = 5.0, angle: float = 118.0) -> Hole:
    tip = -depth - dia / 2 / math.tan(math.radians(angle / 2))
    return Hole(x, y, dia, -depth, tip, 4, "stop")


def drilled(holes, at=None, **more) -> Trail:
    trail = Trail()
    trail.at = at
    drill_holes(trail, holes, **(HOW | more))
    return trail


def cycles(trail: Trail) -> list[Drill]:
    return [m for m in trail.motions if isinstance(m, Drill)]


def test_the_drills_tip_goes_as_deep_as_its_full_diameter_and_its_point():
    trail = drilled([hole(3, 20)], pecks=[2.0], dwell=0.5)
    # a point of 118 degrees on 5 mm is 1.5022 mm long: r / tan(59 degrees)
    (one,) = cycles(trail)
    assert one.bottom == pytest.approx(-11.5022, abs=1e-4)
    assert one == Drill((3, 20), 5.0, 1.0, one.bottom, 200.0, 2.0, 0.5)


def test_the_tool_gets_to_the_first_hole_at_the_clearance_and_stands_over_the_last():
    trail = drilled([hole(0, 20), hole(30, 20)])
    assert trail.motions[0] == Rapid((0, 20, 5.0))
    assert not any(isinstance(m, Rapid) for m in trail.motions[1:])
    assert trail.at == (30, 20, 5.0)


def test_a_tool_that_is_low_rises_first():
    trail = drilled([hole(0, 20)], at=(8.0, 3.0, -4.0))
    assert trail.motions[:2] == [Rapid((8.0, 3.0, 5.0)), Rapid((0, 20, 5.0))]
    again = drilled([hole(0, 20)], at=(0, 20, 5.0))
    assert again.motions == cycles(again), "already there"


def test_holes_are_drilled_to_and_fro_not_in_the_order_asked():
    ends = [hole(-40, 20), hole(40, 20), hole(-40, -20), hole(40, -20)]
    order = [one.at for one in cycles(drilled(ends))]
    assert order == [(-40, -20), (-40, 20), (40, 20), (40, -20)]


def test_a_tool_that_is_somewhere_begins_with_the_nearest():
    row = [hole(x, 20) for x in (-40, 0, 40)]
    assert [m.at[0] for m in cycles(drilled(row, at=(35.0, 20.0, 5.0)))] == [40, 0, -40]
    assert [m.at[0] for m in cycles(drilled(row))] == [-40, 0, 40]


def test_each_hole_is_pecked_as_it_was_asked_for():
    row = [hole(x, 20) for x in (40, -40, 0)]
    cut = cycles(drilled(row, pecks=[2.0, None, 3.0]))
    assert [(m.at[0], m.peck) for m in cut] == [(-40, None), (0, 3.0), (40, 2.0)]


@settings(max_examples=50)
@given(
    st.lists(st.tuples(st.integers(-60, 60), st.integers(-30, 30)), unique=True, max_size=9),
    st.randoms(use_true_random=False),
)
def test_the_order_does_not_hang_on_the_order_asked(places, random):
    holes = [hole(float(x), float(y)) for x, y in places]
    order = [one.at for one in cycles(drilled(holes))]
    assert sorted(order) == sorted(places)
    mixed = list(holes)
    random.shuffle(mixed)
    assert [one.at for one in cycles(drilled(mixed))] == order


def test_no_holes_are_no_motions():
    assert drilled([]).motions == []
    trail = Trail()
    spot_holes(trail, [], SPOT, **HOW)
    assert trail.motions == []


# --- spots -----------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("angle", "deep"), [(90.0, 2.7), (120.0, 2.7 / math.tan(math.pi / 3)), (None, 2.7)]
)
def test_a_spot_chamfers_the_mouth_of_the_hole(angle, deep):
    spot = Cutter(7, "spot drill", 10.0, angle=angle)
    assert spot_tip(hole(0, 0), spot) == pytest.approx(-deep)
    assert SPOT_CHAMFER == 0.2


def test_a_spot_drill_smaller_than_the_hole_goes_as_deep_as_it_is_wide():
    small = Cutter(7, "spot drill", 6.0)
    assert spot_tip(hole(0, 0, dia=12.0, depth=30.0), small) == pytest.approx(-3.0)


def test_a_spot_drill_with_a_flattened_point_goes_less_deep():
    blunt = Cutter(7, "spot drill", 10.0, tip_dia=1.0)
    assert spot_tip(hole(0, 0), blunt) == pytest.approx(-2.2)
    assert spot_tip(hole(0, 0), Cutter(7, "spot drill", 10.0, tip_dia=6.0)) == 0.0


@settings(max_examples=100)
@given(
    depth=st.floats(0.5, 12.0),
    dia=st.floats(1.0, 14.0),
    point=st.floats(90.0, 170.0),
    angle=st.floats(60.0, 150.0),
    blunt=st.floats(0.0, 0.9),
    size=st.floats(3.0, 16.0),
)
def test_below_its_mouth_a_spot_never_leaves_what_the_drill_takes(
    depth, dia, point, angle, blunt, size
):
    one = hole(0, 0, depth, dia, point)
    spot = Cutter(7, "spot drill", size, angle=angle, tip_dia=blunt * min(size, dia))
    tip, slope = spot_tip(one, spot), math.tan(math.radians(angle / 2))
    assert one.tip - 1e-9 <= tip <= 0
    for k in range(21):
        z = tip * (1 - k / 20)
        cone = spot.tip_dia / 2 + (z - tip) * slope
        assert cone <= min(dia / 2 + 0.2, size / 2) + 1e-9
        taken = dia / 2
        if z < one.floor:
            taken *= (z - one.tip) / (one.floor - one.tip)
        if z <= one.floor:
            assert cone <= taken + 1e-9


def test_spots_are_set_in_the_same_order_and_never_pecked():
    holes = [hole(40, 20), hole(-40, 20), hole(0, 20)]
    trail = Trail()
    spot_holes(trail, holes, SPOT, **HOW, dwell=0.2)
    spots = cycles(trail)
    assert [one.at for one in spots] == [one.at for one in cycles(drilled(holes))]
    assert spots[0] == Drill((-40, 20), 5.0, 1.0, spot_tip(holes[1], SPOT), 200.0, None, 0.2)
    assert trail.motions[0] == Rapid((-40, 20, 5.0))
