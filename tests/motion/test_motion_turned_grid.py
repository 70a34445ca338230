"""Rounding where one axis is written as a diameter: its grid is half as wide, and all else holds:
the radius rule of NISTIR 6556 section 3.5.3.2, no drift, no block that moves nothing."""

from __future__ import annotations

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from jawcam.motion.arcs import moves_from, point_on
from jawcam.motion.moves import ArcFeed, LineFeed, Rapid, ThreadCut, ToolChange
from jawcam.motion.passes import shifted
from jawcam.motion.rounding import Grid, rounded
from jawcam.units import Units

TURNED = (1, 2, 1)
GRIDS = [
    Grid(Units.MM, 3, 3, 0.002, factors=TURNED),
    Grid(Units.MM, 3, 4, 0.002, factors=TURNED),
    Grid(Units.INCH, 4, 4, 0.0002, factors=TURNED),
    Grid(Units.INCH, 4, 5, 0.0002, factors=TURNED),
]


def steps_of(value, grid, decimals):
    return grid.units.from_mm(value) * 10**decimals


def whole(steps):
    return steps == pytest.approx(round(steps), abs=1e-5)


@st.composite
def arcs(draw):
    """A start and an arc of a profile: fillets, rounds and balls, anywhere."""
    size, turn = 10 ** draw(st.floats(-2, 2.5)), draw(st.floats(1e-3, 5))
    first, ccw = draw(st.floats(0, math.tau)), draw(st.booleans())
    z, x = draw(st.floats(-90, 5)), draw(st.floats(0, 60))
    last = first + (turn if ccw else -turn)
    start = (z + size * math.cos(first), x + size * math.sin(first), 0.0)
    end = (z + size * math.cos(last), x + size * math.sin(last), 0.0)
    return start, ArcFeed(end, (z, x), ccw, 0.1)


@settings(max_examples=300, deadline=None)
@given(arcs(), st.sampled_from(GRIDS))
def test_arcs_pass_the_radius_rule_and_lie_where_they_should(case, grid):
    start, arc = case
    size = math.dist(start[:2], arc.centre)
    first, *moves = rounded((Rapid(start), arc), grid)
    here = first.to
    for move in moves:
        assert whole(steps_of(move.to[0], grid, grid.decimals))
        assert whole(steps_of(2 * move.to[1], grid, grid.decimals))
        assert move.to != here
        for n in range(17):
            if isinstance(move, ArcFeed):
                point = point_on(here, move, n / 16)[:2]
            else:
                point = tuple(here[k] + (move.to[k] - here[k]) * n / 16 for k in (0, 1))
            assert abs(math.dist(point, arc.centre) - size) <= 1.3 * grid.step
        if isinstance(move, ArcFeed):
            radii = math.dist(here[:2], move.centre), math.dist(move.to[:2], move.centre)
            assert abs(radii[0] - radii[1]) <= 0.61 * grid.units.to_mm(grid.mismatch)
            for at, centre in zip(here, move.centre, strict=False):
                assert whole(steps_of(centre - at, grid, grid.centre_decimals))
        here = move.to


def test_a_radius_keeps_half_a_step():
    grid = GRIDS[0]
    assert rounded([LineFeed((1.0004, 6.2503, 0.0), 0.1)], grid) == (
        LineFeed((1.0, 6.2505, 0.0), 0.1),
    )
    lines = [LineFeed((0.0, 5 + n * 0.0001, 0.0), 0.1) for n in range(101)]
    out = rounded(lines, grid)
    assert [m.to[1] for m in out] == pytest.approx([5 + n * 0.0005 for n in range(21)])


def test_a_pass_of_a_thread_is_a_move_like_others():
    thread = ThreadCut((-9.9996, 7.12341, 0.0), 1.5)
    start = Rapid((2.0, 7.12341, 0.0))
    out = rounded((start, thread, thread), GRIDS[0])
    assert out == (Rapid((2.0, 7.1235, 0.0)), ThreadCut((-10.0, 7.1235, 0.0), 1.5))
    assert shifted((thread,), (1.0, 0.0, 0.0))[0].to == (-10.9996, 7.12341, 0.0)
    after = [here for here, _ in moves_from((start, thread, ToolChange(1, "a"), start))]
    assert after == [None, start.to, thread.to, None]
