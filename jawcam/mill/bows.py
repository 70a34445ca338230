"""The bow that takes most along a front without biting off too much."""

from __future__ import annotations

import math
from collections.abc import Sequence
from functools import partial
from typing import NamedTuple

from jawcam.geometry.rim import Spot
from jawcam.geometry.uncut import Front
from jawcam.mill.bow import Bow, Leg, bow
from jawcam.mill.bow_ends import ends_of, opposite
from jawcam.mill.bow_judging import LEADS, Found, farthest, judged, led_in
from jawcam.mill.engaged import Edge
from jawcam.mill.law import Law

__all__ = ["LAST_DRAWN", "Cast", "cast", "nibble", "no_cast"]

SHARE, SHARE_MORE = 0.3, 0.09
"""Of half a bow's turn, how much each of its ends makes best: where it spans twice the cutter's
radius, and so much more for each time that it spans twice as far (found by trying bows between
parallel walls, at widths from an eighth to two fifths of the radius)."""

ROUND = math.radians(150)
"""Of half a bow's turn: where it turns as far, even ends are best."""

SHARE_STEP = 0.08
"""By how much the share changes from one bow to the next at most."""

SHORT, SHORTEST = 0.01, 0.012
"""Of the cutter's radius, and mm: a bow with a shorter arc is made of one; posts say no less."""

PATIENCE = 0.7
"""A bow nearer to the best share is worth so much of one as the last was."""

NIBBLES = (1 / 4, 1 / 8, 1 / 16)
"""Of the cutter's radius, how large the half circles are that nibble at one wall: the best of
those that fit."""

DRAWN, LAST_DRAWN = 1.2, 0.4
"""Radians by which a nibble is drawn out behind its start: it is so small that with the less it may
begin in what stands, and bite off more there than is seen; so that is the last resort."""

_LEAST = 0.005  # of the width asked: what is taken for how far the last went on at least


class Cast(NamedTuple):
    """What is remembered of a bow for the next one beside it: the share of its ends (less than 0
    where there was none), by how much its start went on, mm, and the share that would be best."""

    share: float
    advance: float
    best: float


def no_cast(law: Law) -> Cast:
    """What stands for the last bow before a first one, which is one arc."""
    return Cast(-SHARE_STEP, law.width / 2, SHARE)


def cast(law: Law, front: Front, edges: Sequence[Edge], last: Cast) -> tuple[Found, Cast] | None:
    """The best bow along an open front, and what to remember of it; None if there is none.
    edges: of all fronts; last: what is remembered of the one before."""
    ends = ends_of(front, law)
    if ends is None:
        return None
    best: tuple[Found, Cast] | None = None
    first, end = (law.rim.point(spot) for spot in ends)
    guess = last.advance if last.advance > _LEAST * law.width else math.dist(first, end) / 16
    for share in _shares(last):
        found = farthest(law, partial(_between, law, edges, ends, share), guess)
        if found is not None and (best is None or PATIENCE * found[0].worth > best[0].worth):
            advance = max(found[1], _LEAST * law.width)
            best = found[0], Cast(share, advance, best_share(found[0].bow, law))
    return best and (led_in(best[0], law, edges), best[1])


def nibble(
    law: Law, front: Front, edges: Sequence[Edge], last: Cast, lead: float = DRAWN
) -> tuple[Found, Cast] | None:
    """Half a circle that leaves the wall behind an open front and ends in what is cleared, as for
    what stands at one wall only; and what to remember of it. None if there is none. lead: by how
    many radians it is drawn out behind its start."""
    ends = ends_of(front, law)
    if ends is None:
        return None
    sizes = (partial(_half, law, edges, ends[0], size, lead) for size in NIBBLES)
    every = [found for at in sizes if (found := farthest(law, at, last.advance)) is not None]
    if not every:
        return None
    best, by = max(every, key=lambda one: one[0].worth)
    return led_in(best, law, edges), Cast(0.0, max(by, _LEAST * law.width), 0.0)


def _between(
    law: Law, edges: Sequence[Edge], ends: tuple[Spot, Spot], share: float, by: float
) -> Found | None:
    """The bow that starts so many mm farther on than the first end; None if none does."""
    rim = law.rim
    start = rim.ahead(ends[0], by)
    apart = math.dist(rim.point(ends[0]), rim.point(ends[1]))
    end = opposite(rim, start, ends[1], min(law.radius, apart) / 8)
    if end is None:
        return None
    way = rim.point(start), rim.heading(start), rim.point(end)
    one = bow(*way, share, LEADS[0])
    short = max(SHORT * law.radius, SHORTEST)
    if one is not None and min(leg.length for leg in one.legs) < short:
        one = bow(*way, 0.0, LEADS[0])
    return None if one is None or one.length < SHORTEST else judged(one, law, edges)


def _half(
    law: Law, edges: Sequence[Edge], first: Spot, size: float, lead: float, by: float
) -> Found:
    """Half a circle of `size` times the cutter's radius that starts so many mm farther on, drawn
    out by `lead` radians."""
    start = law.rim.ahead(first, by)
    (x, y), (hx, hy), radius = law.rim.point(start), law.rim.heading(start), size * law.radius
    centre = (x - radius * hy, y + radius * hx)
    leg = Leg(centre, radius, math.atan2(hy, hx) - lead, math.pi + lead)
    return judged(Bow((leg,), lead), law, edges)


def best_share(one: Bow, law: Law) -> float:
    """The share that suits a bow as wide; none where it turns so far that it grows all round."""
    middle = max(leg.radius for leg in one.legs)
    half = (math.fsum(leg.turn for leg in one.legs) - one.lead) / 2
    best = SHARE + SHARE_MORE * math.log2(max(middle / law.radius, 1 / 8))
    return best * min(max((ROUND - half) / (ROUND - math.pi / 2), 0.0), 1.0)


def _shares(last: Cast) -> tuple[float, ...]:
    """The shares to try: a step from the last one nearer to the best, and that itself."""
    nearer = last.share + min(max(last.best - last.share, -SHARE_STEP), SHARE_STEP)
    far = abs(nearer - last.share) >= SHARE_STEP / 4
    return (nearer, last.share) if far and last.share >= 0 else (nearer,)
