"""What a round cutter has not swept yet, and the fronts that it stands behind.

Unlike the rest of this room nothing here is exact: fronts are known to `FINE` mm, which is far less
than a cutter bites off; walls are a matter of the paths that run along them.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property
from itertools import pairwise

import pyclipper

from jawcam.geometry.flatten import SCALE, polyline
from jawcam.geometry.rim import Rim
from jawcam.geometry.shapes import Point, Region

__all__ = ["FINE", "SKIN", "Front", "Lump", "Whole", "fronts_of", "overlap", "reached", "without"]

FINE = 0.002
"""mm; chords are no farther off their arcs."""

SKIN = 0.01
"""mm; a layer on the walls that is left out of account, or chords would seem to leave slivers."""

_SHORT = 0.5  # of the radius
_RUN = 48  # chords that are swept in one go: the engine takes the square of their number

Ring = list[list[int]]
Whole = tuple[int, int]
Box = tuple[int, int, int, int]


@dataclass(frozen=True, eq=False)
class Lump:
    """A closed outline of what is uncut, whole numbers of 1 / SCALE mm, material on its left; area:
    mm2, negative where material surrounds it; box: x0, y0, x1, y1 in the same whole numbers."""

    ring: Ring
    area: float
    box: Box

    @cached_property
    def thick(self) -> float:
        """How thick it is about, mm: its area to half its girth."""
        around = sum(math.dist(a, b) for a, b in pairwise([*self.ring, self.ring[0]])) / SCALE
        return 2 * abs(self.area) / around if around else 0.0


@dataclass(frozen=True)
class Front:
    """Where what is cleared meets what is not: points in mm, cleared on the left; closed: it runs
    into itself, else from wall to wall; lump: whose it is."""

    points: tuple[Point, ...]
    closed: bool
    lump: Lump

    @property
    def winding(self) -> bool:
        """Whether it runs round what is cleared, wholly."""
        return self.closed and self.lump.area < 0


def reached(centre: Region, radius: float) -> tuple[Lump, ...]:
    """All that a cutter of `radius` mm can reach with its centre in a region, but for the skin."""
    engine = pyclipper.PyclipperOffset(2.0, FINE / 4 * SCALE)
    for path in centre.paths:
        points = [p for piece in path.segments for p in polyline(piece, FINE / 4)[:-1]]
        engine.AddPath(_whole(points), pyclipper.JT_ROUND, pyclipper.ET_CLOSEDPOLYGON)
    return _lumps(engine.Execute((radius - SKIN) * SCALE))


def without(lumps: Sequence[Lump], path: Sequence[Point], radius: float) -> tuple[Lump, ...]:
    """What is left of lumps when a disc of `radius` mm has gone along the points of a path. Those
    that it does not touch stay the same ones. What a short path leaves is known more closely, as
    the next one takes no more than a few hundredths of a mm there, as in a sharp corner."""
    left, long = tuple(lumps), math.fsum(math.dist(a, b) for a, b in pairwise(path))
    fine = FINE if long > _SHORT * radius else FINE / 4
    for first in range(0, max(len(path) - 1, 1), _RUN):
        run = path[first : first + _RUN + 1]
        engine = pyclipper.PyclipperOffset(2.0, fine * SCALE)
        engine.AddPath(_whole(run), pyclipper.JT_ROUND, pyclipper.ET_OPENROUND)
        left = _less(left, engine.Execute((radius + fine / 2) * SCALE))
    return left


def overlap(lumps: Sequence[Lump], path: Sequence[Point], radius: float) -> float:
    """How much uncut a disc of `radius` mm meets along the points of a path, mm2."""
    engine = pyclipper.PyclipperOffset(2.0, FINE * SCALE)
    engine.AddPath(_whole(path), pyclipper.JT_ROUND, pyclipper.ET_OPENROUND)
    swept = engine.Execute(radius * SCALE)
    near = _near(lumps, swept)
    if not near:
        return 0.0
    common = _clipped(pyclipper.CT_INTERSECTION, [one.ring for one in near], swept)
    return math.fsum(pyclipper.Area(ring) for ring in common) / SCALE**2


def fronts_of(
    lump: Lump, rim: Rim, radius: float, known: dict[Whole, bool] | None = None
) -> list[Front]:
    """The fronts of a lump: its outline where it is not the wall, which runs `radius` mm, less the
    skin, outside a rim. known: which places are on the wall, as found for other lumps; what is
    found here is added to it."""
    known = {} if known is None else known
    ring: list[Whole] = [(x, y) for x, y in reversed(lump.ring)]
    points = [(x / SCALE, y / SCALE) for x, y in ring]
    wall = SKIN / 2 - (radius - SKIN)

    def is_wall(place: Whole) -> bool:
        if place not in known:
            known[place] = rim.gap((place[0] / SCALE, place[1] / SCALE)) < wall
        return known[place]

    # chord k of the outline, from point k on, is wall if both its ends and its middle are
    on_wall = [is_wall(place) for place in ring]
    walls = [
        on_wall[k - 1] and on_wall[k] and is_wall(_middle(ring[k - 1], ring[k]))
        for k in (*range(1, len(ring)), 0)
    ]
    if not any(walls):
        return [Front(tuple(points), True, lump)]
    first = walls.index(True)
    found: list[Front] = []
    run: list[Point] = []
    count = len(points)
    for k in range(first + 1, first + 1 + count):
        at = k % count
        if not walls[at]:
            run.append(points[at])
        elif run:
            found.append(Front((*run, points[at]), False, lump))
            run = []
    return found


def _middle(a: Whole, b: Whole) -> Whole:
    return ((a[0] + b[0]) // 2, (a[1] + b[1]) // 2)


def _whole(points: Sequence[Point]) -> Ring:
    return [[round(x * SCALE), round(y * SCALE)] for x, y in points]


def _lumps(rings: Sequence[Ring]) -> tuple[Lump, ...]:
    return tuple(Lump(ring, pyclipper.Area(ring) / SCALE**2, _box(ring)) for ring in rings)


def _box(ring: Ring) -> Box:
    xs, ys = [x for x, _ in ring], [y for _, y in ring]
    return (min(xs), min(ys), max(xs), max(ys))


def _near(lumps: Sequence[Lump], rings: Sequence[Ring]) -> list[Lump]:
    """Those whose box meets that of some rings."""
    boxes = [_box(ring) for ring in rings]
    if not boxes:
        return []
    x0, y0 = min(b[0] for b in boxes), min(b[1] for b in boxes)
    x1, y1 = max(b[2] for b in boxes), max(b[3] for b in boxes)
    return [
        one
        for one in lumps
        if one.box[0] <= x1 and one.box[2] >= x0 and one.box[1] <= y1 and one.box[3] >= y0
    ]


def _less(lumps: tuple[Lump, ...], swept: Sequence[Ring]) -> tuple[Lump, ...]:
    near = _near(lumps, swept)
    if not near:
        return lumps
    left = _lumps(_clipped(pyclipper.CT_DIFFERENCE, [one.ring for one in near], swept))
    return (*(one for one in lumps if one not in near), *left)


def _clipped(kind: int, rings: Sequence[Ring], swept: Sequence[Ring]) -> list[Ring]:
    engine = pyclipper.Pyclipper()
    for ring in rings:
        engine.AddPath(ring, pyclipper.PT_SUBJECT, True)
    engine.AddPaths(swept, pyclipper.PT_CLIP, True)
    found: list[Ring] = engine.Execute(kind, pyclipper.PFT_EVENODD, pyclipper.PFT_NONZERO)
    return found
