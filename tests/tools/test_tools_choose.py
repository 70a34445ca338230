"""Which cutter does what, where the job does not say."""

from __future__ import annotations

from jawcam.tools.choose import corner_cutter
from jawcam.tools.cutter import Cutter

FINISHER = Cutter(1, "end mill", 8, flute_len=20)


def test_corners_are_for_the_smallest_end_mill_that_is_long_enough():
    short, long = Cutter(2, "end mill", 3, flute_len=6), Cutter(3, "end mill", 4, flute_len=12)
    tools = (FINISHER, long, short, Cutter(4, "ball end mill", 2), Cutter(5, "drill", 2.5))
    assert corner_cutter(tools, FINISHER, 6) is short
    assert corner_cutter(tools, FINISHER, 6.1) is long
    assert corner_cutter(tools, FINISHER, 13) is FINISHER
    unknown = Cutter(6, "end mill", 2)
    assert corner_cutter((*tools, unknown), FINISHER, 13) is unknown


def test_a_cutter_as_large_as_the_finishing_one_is_no_use_for_corners():
    twin, larger = Cutter(2, "end mill", 8), Cutter(3, "end mill", 10)
    assert corner_cutter((twin, FINISHER, larger), FINISHER, 5) is FINISHER
