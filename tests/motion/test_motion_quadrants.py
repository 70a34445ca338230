"""Arcs taken apart where they cross the axes through their centres, and rounded so that they stay
within a quadrant. Expected: plane geometry; a quarter turn is the most that a quadrant holds."""

from __future__ import annotations

import math

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from jawcam.motion.arcs import point_on, sweep
from jawcam.motion.moves import ArcFeed, LineFeed, Rapid
from jawcam.motion.passes import PASSES, ArcLimits
from jawcam.motion.quadrants import in_one_quadrant, split_at_quadrants
from jawcam.motion.rounding import Grid, rounded
from jawcam.units import Units

START = (5.0, 0.0, 2.0)
GRIDS = [Grid(Units.MM, 3, 3, 0.002, "unsigned"), Grid(Units.INCH, 4, 4, 0.0002, "unsigned")]


@pytest.mark.parametrize(
    ("ccw", "ends"),
    [
        (True, [(0, 5, 1.25), (-5, 0, 0.5), (0, -5, -0.25), (5, 0, -1)]),
        (False, [(0, -5, 1.25), (-5, 0, 0.5), (0, 5, -0.25), (5, 0, -1)]),
    ],
)
def test_a_turn_from_an_axis_is_four_quarters(ccw, ends):
    turn = ArcFeed((5.0, 0.0, -1.0), (0.0, 0.0), ccw, 100)
    pieces = split_at_quadrants(START, turn)
    assert [piece.to for piece in pieces] == ends
    assert {(piece.centre, piece.ccw, piece.feed) for piece in pieces} == {((0, 0), ccw, 100)}


def test_a_turn_from_between_the_axes_is_five_pieces():
    start = (3.0, 4.0, 0.0)
    pieces = split_at_quadrants(start, ArcFeed(start, (0.0, 0.0), True, 100))
    assert [piece.to for piece in pieces] == [(0, 5, 0), (-5, 0, 0), (0, -5, 0), (5, 0, 0), start]


def test_an_arc_within_a_quadrant_stays_as_it_is():
    arc = ArcFeed((3.0, 4.0, 2.0), (0.0, 0.0), True, 100)
    assert split_at_quadrants(START, arc) == (arc,)
    assert in_one_quadrant(START, arc)
    assert not in_one_quadrant(START, ArcFeed((-3.0, 4.0, 2.0), (0.0, 0.0), True, 100))


def test_an_end_within_round_off_of_an_axis_is_on_it():
    for off in (-1e-12, 1e-12):
        arc = ArcFeed((off, 5.0, 2.0), (0.0, 0.0), True, 100)
        assert split_at_quadrants((5.0, off, 2.0), arc) == (arc,)


def test_the_pass_is_listed():
    turn = ArcFeed(START, (0.0, 0.0), True, 100)
    out = PASSES["split_at_quadrants"]((Rapid(START), turn), ArcLimits())
    assert len(out) == 5


@st.composite
def arcs(draw):
    """A start and an arc of any size and sweep, with many that begin or end on an axis."""
    size = 10 ** draw(st.floats(-1.5, 3))
    on_axis = st.integers(-4, 4).map(lambda quarters: quarters * math.pi / 2)
    first = draw(st.one_of(st.floats(0, math.tau), on_axis))
    turn = draw(
        st.one_of(
            st.just(math.tau),
            st.floats(1e-3, 6.28),
            st.sampled_from([math.pi / 2, math.pi, 1.5 * math.pi]),
        )
    )
    x, y = draw(st.floats(-200, 200)), draw(st.floats(-200, 200))
    ccw = draw(st.booleans())
    last = first + (turn if ccw else -turn)
    start = (x + size * math.cos(first), y + size * math.sin(first), 2.0)
    end = start[:2]
    if turn < math.tau:
        end = (x + size * math.cos(last), y + size * math.sin(last))
    return start, ArcFeed((*end, 2.0), (x, y), ccw, 100)


@given(arcs())
def test_the_pieces_are_the_arc_and_each_stays_in_a_quadrant(case):
    start, arc = case
    here, total = start, 0.0
    pieces = split_at_quadrants(start, arc)
    for piece in pieces:
        assert in_one_quadrant(here, piece)
        assert sweep(here, piece) <= math.pi / 2 + 1e-6
        total += sweep(here, piece)
        here = piece.to
    assert here == arc.to
    assert total == pytest.approx(sweep(start, arc), abs=1e-6)
    assert len(pieces) <= 5


def same_quadrant(a, b, centre):
    """Whether both points lie in one closed quadrant about the centre."""
    return all(
        (p - c) * (q - c) >= -1e-9 or min(abs(p - c), abs(q - c)) < 1e-9
        for p, q, c in zip(a, b, centre, strict=True)
    )


@settings(max_examples=400, deadline=None)
@given(arcs(), st.sampled_from(GRIDS))
@example((START, ArcFeed(START, (0.0, 0.0), True, 100)), GRIDS[1])
def test_rounded_pieces_stay_in_their_quadrants_on_the_path_and_on_the_grid(case, grid):
    start, arc = case
    first, *moves = rounded((Rapid(start), *split_at_quadrants(start, arc)), grid)
    here, size = first.to, math.dist(start[:2], arc.centre)
    for move in moves:
        if isinstance(move, ArcFeed):
            assert sweep(here, move) < math.pi / 2 + 4 * grid.step / size
            assert same_quadrant(here[:2], move.to[:2], move.centre)
            # The control tells the quadrant from how both axes move.
            assert all(abs(a - b) > grid.step / 2 for a, b in zip(here[:2], move.to, strict=False))
            radii = [math.dist(end[:2], move.centre) for end in (here, move.to)]
            assert abs(radii[0] - radii[1]) <= grid.units.to_mm(grid.mismatch)
            for share in (0.25, 0.5, 0.75):
                point = point_on(here, move, share)
                assert abs(math.dist(point[:2], arc.centre) - size) <= 1.75 * grid.step + 1e-9
        else:
            assert isinstance(move, LineFeed)
        here = move.to
    if arc.to[:2] != start[:2]:
        assert math.dist(here[:2], arc.to[:2]) <= 0.71 * grid.step + 1e-9


def test_hardly_any_piece_has_to_become_lines():
    """A quarter that must be chorded would be an arc lost: ours, no source for the share."""
    lost = pieces = 0
    for n in range(2000):
        size, x, y = 0.5 + n * 0.0317, n * 0.1234567, -n * 0.0765432
        start = (x + size, y, 0.0)
        moves = rounded(
            (Rapid(start), *split_at_quadrants(start, ArcFeed(start, (x, y), True, 100))), GRIDS[0]
        )[1:]
        pieces += 4
        lost += sum(isinstance(move, LineFeed) for move in moves) > 0
    assert lost <= pieces * 0.005
