"""Cuts that are repeated, as calls: the same moves, written once."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from jawcam.errors import InternalError
from jawcam.motion.arcs import moves_from
from jawcam.motion.moves import (
    ArcFeed,
    Begin,
    Call,
    Compensate,
    Dwell,
    End,
    LineFeed,
    Rapid,
    Remark,
    ToolChange,
    WorkOffset,
)
from jawcam.motion.passes import PASSES, ArcLimits, shifted
from jawcam.motion.repeats import LEAST, called, expanded
from jawcam.motion.rounding import Grid, rounded
from jawcam.units import Units

PLACES = tuple((float(x), float(y)) for x in range(4) for y in range(4))


def ring(z, feed=300.0, moves=LEAST):
    """A zigzag of as many level moves from (0, 0), one of them an arc."""
    points = [(1.0 + k // 2, float(k % 2 == 0) * (k + 1), z) for k in range(moves - 1)]
    arc = ArcFeed((9.0, 9.0, z), (9.0, 4.0), True, feed)
    return (*(LineFeed(point, feed) for point in points), arc)


def down(z):
    """To the ring's beginning and down to its height."""
    return (Rapid((0.0, 0.0, 5.0)), LineFeed((0.0, 0.0, z), 100))


def program(*motions):
    return (Begin("burr"), ToolChange(1, "end mill"), *motions, End())


def levels(*heights, **more):
    return [motion for z in heights for motion in (*down(z), *ring(z, **more))]


def calls(motions):
    return [motion for motion in called(motions) if isinstance(motion, Call)]


def test_each_level_is_a_call_of_the_same_number_with_its_own_height():
    got = calls(program(*levels(-1.0, -2.0, -3.5)))
    assert got == [Call(1, ring(z)) for z in (-1.0, -2.0, -3.5)]


def test_the_row_of_the_table_does_it():
    motions = program(*levels(-1.0, -2.0))
    assert PASSES["repeats_to_calls"](motions, ArcLimits()) == called(motions) != motions


@pytest.mark.parametrize(
    "motions",
    [
        levels(-1.0),
        levels(-1.0, -2.0, moves=LEAST - 1),
        [*levels(-1.0), *levels(-2.0, feed=301.0)],
        [*levels(-1.0), *shifted(levels(-2.0), (1e-9, 0.0, 0.0))],
        [*levels(-1.0), *levels(-2.0)[:-1], replace(ring(-2.0)[-1], centre=(9.0, 4.0 + 1e-9))],
        [*levels(-1.0), *levels(-2.0)[:-1], replace(ring(-2.0)[-1], ccw=False)],
        [*levels(-1.0), *levels(-2.0)[:-1], replace(ring(-2.0)[-1], feed=299.0)],
    ],
    ids=["once", "short", "feed", "place", "centre", "way round", "feed of an arc"],
)
def test_what_is_not_the_same_or_not_worth_it_stays(motions):
    assert called(program(*motions)) == program(*motions)


def test_what_has_no_end_is_no_program_yet():
    motions = program(*levels(-1.0, -2.0))[:-1]
    assert called(motions) == motions


def test_the_same_cut_from_another_place_is_not_the_same():
    """A line leads to the same point from wherever it comes, yet its first move differs."""
    other = [Rapid((5.0, 0.0, 5.0)), LineFeed((5.0, 0.0, -2.0), 100), *ring(-2.0, moves=LEAST + 1)]
    got = calls(program(*levels(-1.0, moves=LEAST + 1), *other))
    assert got == [Call(1, ring(z, moves=LEAST + 1)[1:]) for z in (-1.0, -2.0)]


def test_what_a_level_has_more_than_another_is_left_out():
    extra = [*levels(-1.0), LineFeed((7.0, 7.0, -1.0), 300), LineFeed((6.0, 7.0, -1.0), 300)]
    got = called(program(*extra, *levels(-2.0)))
    assert [m for m in got if isinstance(m, Call)] == [Call(1, ring(z)) for z in (-1.0, -2.0)]
    assert got[5:7] == tuple(extra[-2:])


def test_a_second_round_at_the_same_height_is_a_call_as_well():
    back = LineFeed((0.0, 0.0, -1.0), 300)
    once = (*ring(-1.0), back)
    assert calls(program(*down(-1.0), *once, *once)) == [Call(1, once)] * 2


def test_two_stations_share_what_is_the_same_from_their_zeros():
    got = called(program(*levels(-1.0), Rapid((0.0, 0.0, 5.0)), WorkOffset(2), *levels(-1.0)))
    assert [m for m in got if isinstance(m, Call)] == [Call(1, ring(-1.0))] * 2
    assert WorkOffset(2) in got


@pytest.mark.parametrize(
    "between", [Remark("x"), Dwell(1.0), Rapid((9.0, 9.0, -1.0)), LineFeed((9.0, 9.0, -2.0), 50)]
)
def test_nothing_but_level_cuts_is_ever_in_a_call(between):
    one = [*down(-1.0), *ring(-1.0)[:4], between, *ring(-1.0)[4:]]
    assert not calls(program(*one, *one, *one))


def test_nothing_is_called_under_compensation_nor_on_the_way_out_of_it():
    bent = [*down(-1.0), Compensate("left", 3), *ring(-1.0), Compensate("off")]
    out = (LineFeed((0.0, 0.0, -1.0), 300), *ring(-1.0))
    got = called(program(*bent, *out, *bent, *out))
    bodies = [m.body for m in got if isinstance(m, Call)]
    assert bodies == [ring(-1.0)] * 2
    for place, motion in enumerate(got):
        if motion == Compensate("off"):
            assert got[place + 1] == out[0]


def test_the_numbers_follow_the_order_of_the_program():
    other = [*down(-1.0), *ring(-1.0, feed=200.0)]
    got = calls(program(*levels(-1.0), *other, *other, *levels(-2.0)))
    assert [call.number for call in got] == [1, 2, 2, 1]


def test_a_call_from_nowhere_is_refused():
    with pytest.raises(InternalError, match="subprogram 4 is called from no known point"):
        list(moves_from([ToolChange(1, "a"), Call(4, ring(-1.0))]))


def test_a_call_is_seen_from_zero_like_its_moves():
    motions = program(*levels(-1.0, -2.0))
    zero = (1.0, 2.0, 3.0)
    assert tuple(expanded(shifted(called(motions), zero))) == shifted(motions, zero)


@st.composite
def programs(draw):
    """Some paths over a few places, again and again at some heights, with whatever between."""
    places = st.lists(st.sampled_from(PLACES), min_size=LEAST, max_size=14)
    paths = draw(st.lists(places, min_size=1, max_size=2))
    motions = [Rapid((0.0, 0.0, 5.0))]
    bow = draw(st.sampled_from([0.0, 0.3]))
    others = st.sampled_from(["path"] * 7 + ["left", "off", "remark", "offset", "tool"])
    for kind in ["path"] * 3 + draw(st.lists(others, max_size=8)):
        z = draw(st.sampled_from([-1.0, -2.0, -2.0000001]))
        match kind:
            case "path":
                path = draw(st.sampled_from(paths))
                begin = draw(st.sampled_from([0, 0, 0, 1]))
                motions += down_at(path[0], z) if draw(st.integers(0, 3)) else []
                feed = draw(st.sampled_from([300.0, 300.0, 300.0, 200.0]))
                motions += along(path[begin:], z, feed, bow)
            case "left" | "off":
                motions.append(Compensate(kind, 1))
            case "remark":
                motions.append(Remark("again"))
            case "offset":
                motions += [WorkOffset(2), *down_at((0.0, 0.0), z)]
            case "tool":
                motions += [ToolChange(2, "finisher"), *down_at((0.0, 0.0), z)]
    return program(*motions)


def down_at(place, z):
    return [Rapid((*place, 5.0)), LineFeed((*place, z), 100)]


def along(path, z, feed, bow):
    """Lines, or arcs of more or less bow, end to end."""
    moves = []
    for n, (x, y) in enumerate(path):
        a, b = path[n - 1]
        if bow and n % 3 == 1 and (a, b) != (x, y):
            centre = ((a + x) / 2 - (y - b) * bow, (b + y) / 2 + (x - a) * bow)
            moves.append(ArcFeed((x, y, z), centre, True, feed))
        else:
            moves.append(LineFeed((x, y, z), feed))
    return moves


@settings(max_examples=200)
@given(programs())
def test_a_call_does_exactly_the_original_moves(motions):
    got = called(motions)
    assert tuple(expanded(got)) == motions
    seen, bent = {}, False
    for start, motion in moves_from(got):
        match motion:
            case Compensate(side):
                bent = side != "off"
            case Call(number, body):
                assert not bent
                assert len(body) >= LEAST
                assert {move.to[2] for move in body} == {start[2]}
                steps, here = [], start
                for move in body:
                    steps.append((here[:2], replace(move, to=move.to[:2])))
                    here = move.to
                seen.setdefault(number, []).append(steps)
    assert sorted(seen) == list(range(1, len(seen) + 1))
    for bodies in seen.values():
        assert len(bodies) > 1
        assert all(body == bodies[0] for body in bodies)


@given(programs(), st.sampled_from(Units), st.sampled_from([1, 3]), st.floats(0.0, 1.0))
def test_a_call_is_rounded_as_its_moves_are(motions, units, decimals, aside):
    grid = Grid(units, decimals, decimals, 0.01)
    motions = shifted(motions, (aside, aside / 3, 0.0))
    got = rounded(called(motions), grid)
    assert tuple(expanded(got)) == rounded(motions, grid)
    bodies = {}
    for call in (motion for motion in got if isinstance(motion, Call)):
        flat = tuple(replace(move, to=(*move.to[:2], 0.0)) for move in call.body)
        assert bodies.setdefault(call.number, flat) == flat
