"""Bites far fuller than elsewhere at the same feed: passes along the back jaw, one of which is
broken off and leaves 9 mm or so to the next, which then bites twice as wide there."""

import numpy as np
import pytest
from proof_pen import Pen, judged

STEP, SIDE = 1.0, 34.0  # mm, between passes, and how far they go to either side


def slab(z=-4.0, *, broken=15, passes=16, slow=False, slanted=False):
    """Passes at a depth; `broken`: the number of the one that leaves a piece standing; slow: the
    next one is fed otherwise; slanted: it comes down on its way."""
    pen = Pen().rapid(-60.0, 8.0, 10.0).rapid(z=z)
    pen.feed(60.0, rate=300.0)  # the first is a slot
    for number in range(1, passes + 1):
        y, back = 8.0 + number * STEP, number % 2 == 1
        first, last = (60.0, -60.0) if back else (-60.0, 60.0)
        pen.rapid(z=10.0).rapid(first, y).rapid(z=z)
        if number == broken:
            pen.feed(np.copysign(6.0, first)).rapid(z=10.0)
            pen.rapid(last).rapid(z=z).feed(np.copysign(6.0, last))
        elif number == broken + 1 and slanted:
            pen.rapid(z=z + 0.5).feed(last, z=z)
        elif number == broken + 1 and slow:
            pen.feed(last, rate=500.0)
        else:
            pen.feed(last)
    return pen.rapid(z=10.0)


def told(pen):
    return [finding for finding in judged(pen).findings if finding.code == "P611"]


def test_the_pass_after_the_broken_one_is_told_with_its_place_and_width():
    pen = slab(broken=10)
    (found,) = told(pen)
    cut = pen.cuts[found.line - 1]
    assert (cut.kind, cut.end[1]) == ("line", 8.0 + 11 * STEP)
    assert abs(found.x) <= 6.0
    assert found.amount == pytest.approx(2 * STEP, rel=0.05)
    assert found.grade == "warn"


@pytest.mark.parametrize(
    "pen",
    [
        slab(broken=99),  # nothing is left standing
        slab(broken=10, slow=True),  # fed for it, as far as anybody can tell
        slab(broken=10, slanted=True),  # on its way down it bites otherwise
        slab(-1.5, broken=10),  # hardly a bite
        slab(broken=2, passes=3),  # too little to tell what is usual
    ],
)
def test_else_nothing_is_told(pen):
    assert not told(pen)
