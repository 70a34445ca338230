"""A round part on its side, over the gap: it rests on the gap's edges."""

from __future__ import annotations

import math

import pytest

from jawcam.errors import FaultList, Place
from jawcam.hold.lying import rested
from jawcam.hold.place import place
from jawcam.job.model import Blanks, Datum, Finish, Fit, Hold, Rough, Setup
from jawcam.part.half import of_table
from jawcam.part.lying import lying
from jawcam.part.piece import Piece
from jawcam.units import Units

SHAFT = (Piece(30.0, 30.0, 40.0), Piece(20.0, 20.0, 10.0))


def setup(gap, **hold):
    return Setup(
        name="jaws",
        cut="jaws",
        post="rs274ngc-mill",
        work_offset=1,
        jaws=Blanks(100, 40, 40, gap),
        hold=Hold(depth=18.0, lie=True, **hold),
        fit=Fit(),
        bolts=(),
        rough=Rough(),
        finish=Finish(),
        zero=Datum(),
        clearance=5.0,
        coolant="flood",
    )


def rest(gap, **hold):
    faults, one = FaultList(), setup(gap, **hold)
    solid = lying(of_table(SHAFT, (), units=Units.MM, place=lambda key: Place(key=key)))
    found = rested(place(solid, one.hold), one, Units.MM, lambda key: Place(key=key), faults)
    return found, faults.faults


@pytest.mark.parametrize("gap", [1.0, 6.0, 20.0, 29.0])
def test_the_floor_is_raised_by_what_the_part_would_sink_into_the_gap(gap):
    """Pythagoras: a circle of radius 15 over two edges gap / 2 beside its middle."""
    found, faults = rest(gap)
    assert not faults
    assert found.slabs[0].bottom == pytest.approx(15 - math.sqrt(225 - gap**2 / 4))
    assert found.slabs[0].top == 30
    assert "edges of the gap" in found.notes[-1]


def test_off_the_middle_the_nearer_edge_carries_it():
    found, _ = rest(6.0, at=(0.0, 1.0))
    assert found.slabs[0].bottom == pytest.approx(15 - math.sqrt(225 - 4))


def test_over_a_blank_it_lies_on_the_floor():
    found, _ = rest(6.0, at=(0.0, 8.0))
    assert found.slabs[0].bottom == 0


@pytest.mark.parametrize(("gap", "falls"), [(29.99, False), (30.0, True), (40.0, True)])
def test_a_gap_as_wide_as_the_part_lets_it_fall_through(gap, falls):
    _, faults = rest(gap)
    assert [fault.place.key for fault in faults] == (["jaws.gap"] if falls else [])


def test_across_the_jaws_it_rests_on_both_or_not_at_all():
    """Turned by 90 degrees the widest stretch runs from Y -25 to 15."""
    assert rest(6.0, turn=90.0)[0].slabs[0].bottom == 0
    assert [fault.place.key for fault in rest(60.0, turn=90.0)[1]] == ["hold.turn"]


def test_what_rests_is_told():
    found, _ = rest(6.0)
    assert found.notes[0] == (
        "lying, the part rests on its largest diameter, 30 mm, 40 mm long; thinner ones hang free"
    )
