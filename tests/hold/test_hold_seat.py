"""The groove along the foot of the wall, and what it leaves of the seat."""

from __future__ import annotations

import pytest

from jawcam.errors import InputError, Place
from jawcam.geometry.shapes import circle
from jawcam.hold.cavity import CutLevel, pockets_of
from jawcam.hold.seat import check_groove
from jawcam.hold.target import Blanks
from jawcam.tolerance import Tolerance
from jawcam.tools.cutter import Cutter
from jawcam.units import Units

TOLERANCE = Tolerance()
MILL = Cutter(4, "end mill", 4.0)


def check(gap, *discs, depth=0.2):
    outlines = tuple(circle(at, radius) for at, radius in discs)
    level = CutLevel(0.0, -9.0, outlines, pockets_of(outlines, 0.0, 0.0, TOLERANCE))
    blanks = Blanks(100, 40, 40, gap)
    check_groove(level, depth, MILL, blanks, Units.MM, TOLERANCE, lambda key: Place(key=key))


def faults(gap, *discs):
    with pytest.raises(InputError) as caught:
        check(gap, *discs)
    return [fault.what for fault in caught.value.faults]


@pytest.mark.parametrize(("gap", "kept"), [(3.9, True), (4.0, False), (6.0, False)])
def test_the_strip_over_the_gap_is_no_seat(gap, kept):
    """A disc of 12 mm keeps one of 4 mm inside a groove 4 mm wide: it must reach over the gap."""
    if kept:
        check(gap, ((0, 0), 6.0))
    else:
        told = faults(gap, ((0, 0), 6.0))
        assert ["back jaw" in what for what in told] == [True, False]
        assert all("Y" in what and "4 mm" in what for what in told)


def test_each_pocket_must_keep_its_own_seat():
    told = faults(2.0, ((-25, 0), 4.5), ((25, 0), 12.0))
    assert len(told) == 2
    assert all("X -2" in what for what in told)


def test_a_jaw_that_the_pocket_does_not_reach_needs_none():
    check(6.0, ((0, 15), 8.0))


def test_without_a_groove_nothing_is_asked():
    check(20.0, ((0, 0), 11.0), depth=0.0)
