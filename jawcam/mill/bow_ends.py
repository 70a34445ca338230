"""Where on the rim a pass along a front may begin and end."""

from __future__ import annotations

import math
from collections.abc import Callable

from jawcam.geometry.rim import Rim, Spot
from jawcam.geometry.uncut import FINE, Front
from jawcam.mill.engaged import Edge, edges_of, nearest
from jawcam.mill.law import Law

__all__ = ["ends_of", "opposite"]

_STRIDES, _FINELY = 64, 64  # of an eighth of the radius each; then to so small a share of one
_MARCH, _ROUNDS = 13, 24  # growing steps to either side to find a change of sign; then halved


def ends_of(front: Front, law: Law) -> tuple[Spot, Spot] | None:
    """The last spot before an open front and the first one after it where a cutter on the rim
    meets nothing of it; None if it does everywhere near."""
    edge = edges_of([front], math.inf)
    first = law.rim.feel(front.points[0])[1]
    last = law.rim.feel(front.points[-1])[1]
    if first is None or last is None:
        return None
    start, end = _clear(law, edge, first, -1.0), _clear(law, edge, last, 1.0)
    return None if start is None or end is None else (start, end)


def _clear(law: Law, edge: list[Edge], spot: Spot, side: float) -> Spot | None:
    """The spot nearest to the front that is clear of it; side: 1 for ahead on the rim, else -1."""
    rim, stride = law.rim, law.radius / 8

    def off(by: float) -> float:
        place = rim.point(rim.ahead(spot, side * by))
        return nearest(place, edge) - (law.radius - 2 * FINE)

    by, here = 0.0, off(0.0)
    outward = 1.0 if here < 0 else -1.0
    for _ in range(1, _STRIDES):
        before, by = by, by + outward * stride
        last, here = here, off(by)
        if (here >= 0) == (outward > 0):
            met, free = (before, by) if outward > 0 else (by, before)
            values = (last, here) if outward > 0 else (here, last)
            return rim.ahead(spot, side * _cleared(off, (met, free), values, stride / _FINELY))
    return None


def _cleared(
    off: Callable[[float], float],
    between: tuple[float, float],
    values: tuple[float, float],
    close: float,
) -> float:
    """Where a number is no longer less than 0, to `close` mm beyond: by lines between what is known
    of it. between: where it is less and where not, values: the numbers there."""
    (met, free), (less, more) = between, values
    while abs(free - met) > close and more > 0:
        share = min(max(less / (less - more), 1 / 64) + 1 / 128, 63 / 64)
        at = met + share * (free - met)
        value = off(at)
        if value < 0:
            met, less = at, value
        else:
            free, more = at, value
    return free


def opposite(rim: Rim, fixed: Spot, guess: Spot, reach: float) -> Spot | None:
    """The spot, near a guess, that one circle touches together with a fixed one; None if there is
    none. reach: how far the first step to look for it goes, mm.

    A circle touches the rim in a and b if b - a has the direction of the difference of the normals
    there. Where the rim has a corner the spot may be that.
    """
    off = _off_touching(rim, fixed, guess)
    here = off(0.0)
    for k in range(1, _MARCH):
        for side in (-1.0, 1.0):
            inner, outer = (side * reach * j * (1 + j / 6) for j in (k - 1, k))
            if here == 0:
                return guess
            if off(inner) * off(outer) <= 0:
                return rim.ahead(guess, _root(off, inner, outer))
    return None


def _off_touching(rim: Rim, fixed: Spot, guess: Spot) -> Callable[[float], float]:
    """How far off a spot `by` mm after the guess is from what is sought, with its sign."""
    (x, y), (hx, hy) = rim.point(fixed), rim.heading(fixed)

    def off(by: float) -> float:
        spot = rim.ahead(guess, by)
        (px, py), (kx, ky) = rim.point(spot), rim.heading(spot)
        return (px - x) * (hx - kx) + (py - y) * (hy - ky)

    return off


def _root(off: Callable[[float], float], low: float, high: float) -> float:
    """Where a number changes its sign: by false position, an end that stays twice counting half
    (the Illinois rule)."""
    first, last, stayed = off(low), off(high), 0
    for _ in range(_ROUNDS):
        if abs(high - low) < 1e-7 or first == last:
            break
        at = (low * last - high * first) / (last - first)
        value = off(at)
        if abs(value) < 1e-9:
            return at
        if (value > 0) == (last > 0):
            high, last = at, value
            first, stayed = (first / 2 if stayed > 0 else first), 1
        else:
            low, first = at, value
            last, stayed = (last / 2 if stayed < 0 else last), -1
    return (low + high) / 2
