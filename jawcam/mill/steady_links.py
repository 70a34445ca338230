"""From where a pass ends to where the next begins, through what is cleared."""

from __future__ import annotations

import heapq
import math
from collections.abc import Sequence

from jawcam.geometry.cut import along, tangent_at
from jawcam.geometry.shapes import Line, Path, Point
from jawcam.geometry.uncut import SKIN, Lump, overlap
from jawcam.mill.engaged import Edge
from jawcam.mill.law import OUTSIDE, Law
from jawcam.mill.layers import peaks_along

__all__ = ["led_in", "way_back"]

PLACES = 60
"""Of where the cutter has been, about how many are tried to go by."""

TRIED = 40
"""Of the points of the last pass, about how many are tried to turn off at."""

_LEAD_INS = (
    *((size, -1.0, 0.1) for size in (0.4, 0.2, 0.8, 0.1)),
    *((size, -0.7, 0.7) for size in (0.1, 0.2, 0.4)),
    *((size, 0.0, 1.0) for size in (0.05, 0.1, 0.2)),
)
"""Where a path along a wall may be begun: by how many radii off its start, and in which direction,
ahead and to the left of its own; the flattest first, as it then bites off least on the way in."""


def way_back(
    last: Sequence[Point], end: Point, been: Sequence[Point], uncut: Sequence[Lump], law: Law
) -> tuple[Point, ...] | None:
    """From the last point of the last pass to another place without cutting: straight, or back
    along that pass as far as needed, each stretch as straight as it can be, or by places where the
    cutter has been; None if there is no such way."""
    return _along_last(last, end, uncut, law) or _by_places(last[-1], end, been, uncut, law)


def led_in(path: Path, uncut: Sequence[Lump], edges: Sequence[Edge], law: Law) -> Path:
    """A path begun a little off what it cuts and off the wall, where the cutter can come down
    without touching either, and from where it bites off least. edges: of all fronts."""
    (x, y), radius = path.start, law.radius
    hx, hy = tangent_at(path.segments[0], path.start)
    best: tuple[float, Path] | None = None
    for size, ahead, left in _LEAD_INS:
        place = (
            x + size * radius * (ahead * hx - left * hy),
            y + size * radius * (ahead * hy + left * hx),
        )
        if law.rim.gap(place) < SKIN or overlap(uncut, [place], radius + SKIN) > 0:
            continue
        line = Line(place, path.start)
        peak = peaks_along(Path((line,)), edges, radius)[0]
        if best is None or peak < best[0]:
            best = peak, Path((line, *path.segments))
        if peak <= law.width:
            break
    return best[1] if best else path


def _by_places(
    start: Point, end: Point, been: Sequence[Point], uncut: Sequence[Lump], law: Law
) -> tuple[Point, ...] | None:
    """The shortest way by some of the places (Dijkstra's); each leg is looked at when it is due."""
    every = max(1, len(been) // PLACES)
    places = [start, *been[::every], end]
    last = len(places) - 1
    least, came, waiting = {0: 0.0}, {0: 0}, [(math.dist(start, end), 0, 0)]
    settled: set[int] = set()
    while waiting:
        _, at, before = heapq.heappop(waiting)
        if at in settled or (at and not _free(places[before], places[at], uncut, law)):
            continue
        settled.add(at)
        came[at], least[at] = before, least[before] + math.dist(places[before], places[at])
        if at == last:
            way = [at]
            while way[-1]:
                way.append(came[way[-1]])
            return tuple(places[k] for k in reversed(way))
        for k, place in enumerate(places):
            if k not in settled:
                far = least[at] + math.dist(places[at], place) + math.dist(place, end)
                heapq.heappush(waiting, (far, k, at))
    return None


def _along_last(
    last: Sequence[Point], end: Point, uncut: Sequence[Lump], law: Law
) -> tuple[Point, ...] | None:
    found = [last[-1]]
    rest = [*last[::-1][:: max(1, len(last) // TRIED)], last[0]]
    at = 0
    while not _free(found[-1], end, uncut, law):
        for k in range(len(rest) - 1, at, -1):
            if _free(found[-1], rest[k], uncut, law):
                found.append(rest[k])
                at = k
                break
        else:
            return None
    return (*found, end)


def _free(start: Point, end: Point, uncut: Sequence[Lump], law: Law) -> bool:
    """Whether the cutter may go straight there: all is cleared but for a hair's breadth."""
    if start == end:
        return True
    places = along(Line(start, end), law.rim.cell)
    if any(law.rim.gap(place) < -OUTSIDE for place in places):
        return False
    return overlap(uncut, [start, end], law.radius - 2 * SKIN) < SKIN
