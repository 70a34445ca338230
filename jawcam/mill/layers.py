"""What lies along a wall taken off in layers, by ways that run as the wall does."""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import pairwise
from typing import NamedTuple

import numpy as np

from jawcam.geometry.cut import along, part_of, tangent_at
from jawcam.geometry.rim import Rim, Spot
from jawcam.geometry.shapes import Arc, Line, Path, Point, Segment
from jawcam.geometry.uncut import Front
from jawcam.mill.bow_ends import ends_of
from jawcam.mill.engaged import Edge, bitten
from jawcam.mill.law import OUTSIDE, Law

__all__ = ["Layer", "along_wall", "cornered", "layer", "moved", "peaks_along", "stretch"]

_SPACING = 1 / 16  # of the cutter's radius
_STEP = 1 / 6  # of the width asked, in which a layer is looked for away from the wall
_SHORTEST = 1e-4  # mm
_SMOOTH = math.cos(0.1)  # of the turn between pieces that is no corner
_SAME_WAY = 1e-3  # sine of the turn between pieces that go on smoothly


class Layer(NamedTuple):
    """A way beside the rim and the most that each of its pieces bites off, mm; off: how far inside
    the rim it runs, mm."""

    path: Path
    peaks: tuple[float, ...]
    off: float

    @property
    def peak(self) -> float:
        """The most that it bites off, mm."""
        return max(self.peaks)


def layer(law: Law, front: Front, edges: Sequence[Edge]) -> Layer | None:
    """The layer nearest to the wall behind an open front that bites off no more than may be; that
    at the wall itself where it would do; where none does, the one that bites off least. None if the
    front has no wall behind it. edges: of all fronts."""
    pieces = _behind(law, front)
    whole = _judged(pieces, 0.0, law, edges)
    if whole is None or whole.peak <= law.most:
        return whole
    step, least = _STEP * law.width, whole
    for k in range(1, math.ceil(2 * law.radius / step)):
        found = _judged(pieces, k * step, law, edges)
        if found is None:
            break
        if found.peak <= law.most:
            return found if found.peak > law.width / 8 else least
        least = min(least, found, key=lambda one: one.peak)
    return least


def along_wall(law: Law, front: Front, edges: Sequence[Edge]) -> Layer | None:
    """The way along the wall behind an open front; None if it has none."""
    return _judged(_behind(law, front), 0.0, law, edges)


def _behind(law: Law, front: Front) -> list[Segment]:
    """The rim behind a front; nothing where it is much longer than that, as round all the rest."""
    ends = ends_of(front, law)
    pieces = stretch(law.rim, *ends) if ends else []
    long = math.fsum(math.dist(a, b) for a, b in pairwise(front.points)) + law.radius
    return pieces if math.fsum(piece.length for piece in pieces) < 4 * long else []


def stretch(rim: Rim, first: Spot, last: Spot) -> list[Segment]:
    """The rim from one spot on to another; nothing where that lies on another of its paths."""
    found, at = [], first
    every = math.fsum(piece.length for piece in rim.pieces)
    for spot in rim.between(first, last, every) or ():
        piece = rim.pieces[at.number]
        end = spot.way if spot.number == at.number and spot.way >= at.way else piece.length
        if end - at.way > _SHORTEST:
            found.append(part_of(piece, at.way, end))
        at = spot
    return found


def cornered(pieces: Sequence[Segment]) -> bool:
    """Whether a way turns sharply between two of its pieces."""
    ways = [(tangent_at(a, a.end), tangent_at(b, b.start)) for a, b in pairwise(pieces)]
    return any(p[0] * q[0] + p[1] * q[1] < _SMOOTH for p, q in ways)


def peaks_along(path: Path, edges: Sequence[Edge], radius: float) -> tuple[float, ...]:
    """The most that a cutter of `radius` mm bites off along each piece of a path, mm."""
    rows = [along(piece, radius * _SPACING) for piece in path.segments]
    places = np.array([place for row in rows for place in row])
    headings = [
        tangent_at(piece, place)
        for piece, row in zip(path.segments, rows, strict=True)
        for place in row
    ]
    widths = bitten(places, np.array(headings), edges, radius)
    ends = np.cumsum([len(row) for row in rows])
    return tuple(float(part.max()) for part in np.split(widths, ends[:-1]))


def _judged(pieces: Sequence[Segment], off: float, law: Law, edges: Sequence[Edge]) -> Layer | None:
    """The layer so far off the wall; None where there is none."""
    path = moved(pieces, off)
    if path is None:
        return None
    places = (place for piece in path.segments for place in along(piece, law.radius / 4))
    if any(law.rim.gap(place) < -OUTSIDE for place in places):
        return None
    return Layer(path, peaks_along(path, edges, law.radius), off)


def moved(pieces: Sequence[Segment], off: float) -> Path | None:
    """Pieces moved so many mm to the left; None where they no longer join or nothing is left of
    one."""
    found: list[Segment] = []
    for piece in pieces:
        one = _beside(piece, off)
        if one is None or (found and math.dist(found[-1].end, one.start) > _SAME_WAY):
            return None
        if found:  # exactly from where the one before ends
            one = _begun(one, found[-1].end)
        found.append(one)
    return Path(tuple(found)) if found else None


def _begun(piece: Segment, start: Point) -> Segment:
    if isinstance(piece, Line):
        return Line(start, piece.end)
    return Arc(start, piece.end, piece.centre, piece.ccw)


def _beside(piece: Segment, off: float) -> Segment | None:
    """A piece moved to its left."""
    if isinstance(piece, Line):
        (ax, ay), (bx, by) = piece.start, piece.end
        x, y = -(by - ay) / piece.length * off, (bx - ax) / piece.length * off
        return Line((ax + x, ay + y), (bx + x, by + y))
    radius = piece.radius - off if piece.ccw else piece.radius + off
    if radius <= off / 16:
        return None
    (cx, cy), share = piece.centre, radius / piece.radius
    start, end = (
        (cx + share * (x - cx), cy + share * (y - cy)) for x, y in (piece.start, piece.end)
    )
    return Arc(start, end, piece.centre, piece.ccw)
