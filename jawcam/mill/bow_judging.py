"""How a bow does along a front, and how far one may go on."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from typing import NamedTuple

import numpy as np

from jawcam.geometry.uncut import FINE, SKIN
from jawcam.mill.bow import Bow
from jawcam.mill.engaged import Edge, Floats, bitten, nearest
from jawcam.mill.law import OUTSIDE, Law

__all__ = ["LEADS", "Found", "farthest", "judged", "led_in"]

LEADS = (0.4, 0.8, 1.2, 1.6, 0.2)
"""Radians by which a bow may be drawn out behind its start, in the order they are tried."""

_BACK = 0.3  # of a chord's length, what the way back along it counts for
_EVERY = 3  # of those places, how few are felt for the wall at
_LEAST, _MOST = 24, 64  # how many places of a bow are looked at, about
_SPACING = 1 / 12  # of the cutter's radius
_OFF_WALL = math.cos(0.35)  # of the angle between it and the wall
_TINY = 0.25  # of the radius; all of a shorter bow is near the wall, as in a sharp corner
_ROUNDS = 18  # of looking for how far a bow may go on
_CLOSE = 0.05  # of how far the last went on: so finely it is looked for


class Found(NamedTuple):
    """A bow with the most that it bites off, mm; area: what it takes, mm2; gap: how far inside it
    stays, room: the same where it does not run along the walls at its ends, mm."""

    bow: Bow
    peak: float
    area: float
    gap: float
    room: float

    @property
    def worth(self) -> float:
        """What it takes by what it costs, mm."""
        chord = math.dist(self.bow.start, self.bow.end)
        return self.area / (self.bow.length + _BACK * chord + self.bow.legs[0].radius / 2)


def judged(one: Bow, law: Law, edges: Sequence[Edge]) -> Found:
    """A bow with what it bites off beside some fronts; one that bites off too much is not felt for
    the wall."""
    places, headings, ways = one.places(
        min(max(law.radius * _SPACING, one.length / _MOST), one.length / _LEAST)
    )
    widths = bitten(places, headings, edges, law.radius)
    steps = np.hypot(*np.diff(places, axis=0).T)
    area = float(((widths[1:] + widths[:-1]) / 2 * steps).sum())
    peak = float(widths.max())
    gap, room = (0.0, math.inf) if peak > law.most else _gaps(one, places, headings, ways, law)
    return Found(one, peak, area, gap, room)


def _gaps(
    one: Bow, places: Floats, headings: Floats, ways: Floats, law: Law
) -> tuple[float, float]:
    """How far inside a bow lies, mm: all of it, and where it does not run along the wall that it
    leaves or comes to; closer looked at where that is least. places, headings, ways: along it."""

    def gaps(places: Floats) -> Floats:
        return np.array([law.rim.gap((x, y)) for x, y in places.tolist()])

    some = gaps(places[::_EVERY])
    wall = one.legs[0].first + one.lead
    walls = np.array([[math.cos(wall), math.sin(wall)], headings[-1]])
    free = np.flatnonzero((headings[::_EVERY] @ walls.T < _OFF_WALL).all(axis=1))
    if not len(free):
        return float(some.min()), math.inf
    middle = int(free[np.argmin(some[free])])
    least = float(some[middle])
    if free[0] < middle < free[-1] and least < law.rim.cell:
        first, last = ways[_EVERY * (middle - 1)], ways[_EVERY * (middle + 1)]
        least = min(least, float(gaps(one.at(np.linspace(first, last, 17))[0]).min()))
    return min(float(some.min()), least), least


def farthest(
    law: Law, at: Callable[[float], Found | None], guess: float
) -> tuple[Found, float] | None:
    """The bow that goes on as far as it may without biting off too much or leading outside, and
    how far that is, mm; None if none may. at: the bow for each such distance; guess: one."""
    stride, close = 0.4 * guess, _CLOSE * guess
    best: tuple[Found, float] | None = None
    low: _Mark | None = None
    high: _Mark | None = None
    advance = guess
    for _ in range(_ROUNDS):
        found = at(advance)
        if found is not None and found.peak <= law.most and found.gap >= -OUTSIDE:
            if best is None or found.area > best[0].area:
                best = found, advance
            low = _Mark(advance, found.peak)
            by_wall = found.room < SKIN / 4 and found.bow.length > _TINY * law.radius
            if found.peak > law.nearly or by_wall:
                break
        else:
            at_wall = found is not None and found.peak <= law.most
            high = _Mark(advance, found.peak if found and not at_wall else math.nan)
            close = 0.0 if at_wall else _CLOSE * guess
        if low is None or high is None:
            advance += stride if high is None else -stride
            stride *= 1.5
        elif high.advance - low.advance < close:
            break
        else:
            advance = _between(low, high, (law.most + law.nearly) / 2)
    return best


class _Mark(NamedTuple):
    """A bow that was tried: how far on it starts, and its bite where that is what counts, mm."""

    advance: float
    peak: float


def _between(low: _Mark, high: _Mark, aim: float) -> float:
    """Where a bow between two likely bites off what is aimed at: on the line through both, but not
    close to either; half way where it is the wall that counts."""
    share = 0.5
    if high.peak > low.peak:
        share = min(max((aim - low.peak) / (high.peak - low.peak), 0.1), 0.9)
    return low.advance + share * (high.advance - low.advance)


def led_in(found: Found, law: Law, edges: Sequence[Edge]) -> Found:
    """A bow drawn out behind its start until the cutter meets nothing there, so that its first leg
    bites off no more than may be, or else as little as it can."""
    best: tuple[float, Bow] | None = None
    for lead in LEADS:
        drawn = found.bow.led_in(lead)
        clear = nearest(drawn.start, edges) >= law.radius - FINE
        if not clear or law.rim.gap(drawn.start) < -OUTSIDE:
            continue
        first = Bow(drawn.legs[:1], lead)
        places, headings, _ = first.places(min(law.radius, first.length) * _SPACING)
        peak = float(bitten(places, headings, edges, law.radius).max())
        if best is None or peak < best[0]:
            best = peak, drawn
        if peak <= law.most:
            break
    return found if best is None else found._replace(bow=best[1], peak=max(found.peak, best[0]))
