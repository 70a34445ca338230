"""Cuts shorter than a control takes, or than it takes without stuttering, merged into their
neighbours."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import replace

from jawcam.motion.arcs import moves_from, radius, sweep
from jawcam.motion.moves import ArcFeed, Call, LineFeed, Motion, Point3, Rapid

__all__ = ["merged"]

_ROUND_OFF = 1e-9  # mm


def merged(motions: Sequence[Motion], shortest: float, chord: float) -> tuple[Motion, ...]:
    """The motions without cuts shorter than `shortest`, as far as the path then lies no further
    than `chord` off what it was (both mm).

    Points are left out, none is moved, so that nothing drifts; where a run of lines ends, and where
    anything but a line follows, the tool is exactly where it was. A short arc counts as a line; the
    moves of a call are merged by themselves.
    """
    out: list[Motion] = []
    chain: list[LineFeed] = []
    begin: Point3 | None = None
    for start, motion in moves_from(motions):
        line = None if start is None else _line(start, motion, shortest, chord)
        if line is None or (chain and chain[-1].feed != line.feed):
            out.extend(_thinned(begin, chain, shortest, chord))
            chain = []
        if isinstance(motion, Call) and start is not None:
            out.append(_called(start, motion, shortest, chord))
            continue
        if line is None:
            out.append(motion)
            continue
        begin = begin if chain else start
        chain.append(line)
    out.extend(_thinned(begin, chain, shortest, chord))
    return tuple(out)


def _called(start: Point3, call: Call, shortest: float, chord: float) -> Call:
    moves = merged((Rapid(start), *call.body), shortest, chord)
    return replace(call, body=tuple(m for m in moves if isinstance(m, LineFeed | ArcFeed)))


def _line(start: Point3, motion: Motion, shortest: float, chord: float) -> LineFeed | None:
    """A line as it is, and a short, flat arc as a line."""
    if isinstance(motion, LineFeed):
        return motion
    if not isinstance(motion, ArcFeed) or math.dist(start, motion.to) >= shortest:
        return None
    rise = radius(start, motion) * (1 - math.cos(sweep(start, motion) / 2))
    return LineFeed(motion.to, motion.feed) if rise <= chord else None


def _thinned(
    begin: Point3 | None, chain: Sequence[LineFeed], shortest: float, chord: float
) -> Iterator[LineFeed]:
    """The lines of a chain without those that are too short, where the path allows it."""
    if begin is None or not chain:
        return
    kept = [0]  # of the points that follow, the first at the chain's begin
    points = [begin, *(line.to for line in chain)]
    for place in range(1, len(points)):
        while len(kept) > 1 and _needless(points, kept, place, shortest, chord):
            kept.pop()
        kept.append(place)
    for place in kept[1:]:
        yield chain[place - 1]


def _needless(
    points: Sequence[Point3], kept: Sequence[int], place: int, shortest: float, chord: float
) -> bool:
    """Whether the point kept last ends or begins a short cut, and can be left out between the one
    before it and the one at `place`."""
    before, last = kept[-2], kept[-1]
    lengths = (
        math.dist(points[before], points[last]),
        math.dist(points[last], points[place]),
    )
    if min(lengths) >= shortest:
        return False
    between = points[before + 1 : place]
    most = chord + _ROUND_OFF
    return all(_off(points[before], points[place], point) <= most for point in between)


def _off(start: Point3, end: Point3, point: Point3) -> float:
    """How far a point lies off the straight line between two others, mm."""
    along = [b - a for a, b in zip(start, end, strict=True)]
    away = [b - a for a, b in zip(start, point, strict=True)]
    length = sum(a * a for a in along)
    share = sum(a * b for a, b in zip(along, away, strict=True)) / length if length else 0.0
    share = min(1.0, max(0.0, share))
    return math.dist(point, [a + share * b for a, b in zip(start, along, strict=True)])
