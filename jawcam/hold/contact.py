"""Where a jaw's walls meet the part as it closes along Y.

Both are taken apart into edges that have one height over each X. Over the X that a wall's edge
and an edge of the part share, the air between the two is widest or narrowest at the ends or
where their slopes are equal, and that X is a closed form: no search, and as exact as the arcs.
Everything here is seen from the back jaw, which comes down on the part from +Y.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from jawcam.geometry.carriers import Floats, Ints
from jawcam.geometry.shapes import Path, Point, Region
from jawcam.hold.edges import SLIVER, Edges, part_edges, shared, wall_edges
from jawcam.job.model import Blanks
from jawcam.tolerance import Tolerance

__all__ = ["Contact", "Wall", "approach"]

_LEVEL = 1e-7  # mm along Y; walls that part by less touch all along
_SAME = 1e-4  # mm; centres nearer than this are one circle's


@dataclass(frozen=True)
class Wall:
    """A slab of the part, from the Z `top` down to the Z `floor`, and what it stands in. parts: its
    outlines, closed and counter-clockwise; they may overlap. pockets: those of the level that it
    lies in, as they are cut, apart from each other. In mm and jaw coordinates."""

    parts: tuple[Path, ...]
    pockets: tuple[Region, ...]
    top: float
    floor: float


@dataclass(frozen=True)
class Contact:
    """A stretch of the part's outline that a jaw touches, as the part lies when the pocket is cut
    (jaw coordinates, mm). It runs from `start` to `end` with X rising; `at` is where the two meet
    first (a middle, where they meet all along). length: along the outline. normal: the direction
    from the part into the wall at `at`, in degrees from +X. top, floor: the heights (Z) between
    which they touch. centre: of the circle that all of the stretch is the outside of, None if it
    is straight, hollow or of several pieces."""

    start: Point
    end: Point
    at: Point
    length: float
    normal: float
    top: float
    floor: float
    centre: Point | None = None


def approach(
    walls: Sequence[Wall], blanks: Blanks, touch: float, tolerance: Tolerance
) -> tuple[float, tuple[Contact, ...]]:
    """How far the back jaw can come down before the first of its walls meets the part, in mm
    (infinite if none ever does), and where they then touch: all that would with `touch` mm more,
    slab by slab with X rising. The part must lie in the pockets; where a wall cuts into the part
    the travel is 0."""
    tops = [part_edges(wall.parts) for wall in walls]
    firsts = np.cumsum([0, *(top.rows.shape[1] for top in tops)])
    pockets = {id(wall.pockets): wall.pockets for wall in walls}  # many slabs may share a level's
    about = {key: wall_edges(regions, blanks) for key, regions in pockets.items()}
    facing = _joined(
        [
            _facing(about[id(wall.pockets)], top, int(first), tolerance)
            for wall, top, first in zip(walls, tops, firsts[:-1], strict=True)
        ]
    )
    if not len(facing.left):
        return math.inf, ()
    gaps = np.minimum(facing.gaps(facing.left), facing.gaps(facing.right))
    travel = max(0.0, float(gaps.min()))
    part, found = Edges(np.hstack([top.rows for top in tops])), []
    own: dict[int, list[_Span]] = {}
    for span in _spans(facing, travel + touch):
        own.setdefault(int(np.searchsorted(firsts, span.edge, side="right")) - 1, []).append(span)
    for number in sorted(own):
        groups = _groups(own[number], part, tolerance.join)
        found += [_contact(group, part, walls[number]) for group in groups]
    return travel, tuple(found)


@dataclass(frozen=True)
class _Span:
    """A touching stretch of one edge of the part, from `start` to `end` with X rising, in mm.
    edge: its number; at: where it has the least `air`, the middle if that is as good; normal:
    the direction from the part into the wall there, in degrees from +X."""

    edge: int
    start: Point
    end: Point
    at: Point
    air: float
    normal: float


@dataclass(frozen=True)
class _Facing:
    """Stretches of X over which an edge of the wall lies above an edge of the part, and the air
    between only grows or only shrinks; numbers: which edge of the part."""

    wall: Edges
    part: Edges
    numbers: Ints
    left: Floats
    right: Floats

    def gaps(self, at: Floats) -> Floats:
        """The air between, along Y."""
        return self.wall.heights(at) - self.part.heights(at)

    def take(self, which: Ints) -> _Facing:
        return _Facing(
            self.wall.take(which),
            self.part.take(which),
            self.numbers[which],
            self.left[which],
            self.right[which],
        )


def _joined(facings: Sequence[_Facing]) -> _Facing:
    """Those of all slabs as one."""
    return _Facing(
        Edges(np.hstack([one.wall.rows for one in facings])),
        Edges(np.hstack([one.part.rows for one in facings])),
        np.concatenate([one.numbers for one in facings]),
        np.concatenate([one.left for one in facings]),
        np.concatenate([one.right for one in facings]),
    )


def _facing(walls: Edges, part: Edges, first: int, tolerance: Tolerance) -> _Facing:
    """Walls and part of one slab; first: the number of its first edge of the part."""
    above, below = np.nonzero(shared(walls, part.rows[0], part.rows[1]) > SLIVER)
    wall, top = walls.take(above), part.take(below)
    left = np.maximum(wall.rows[0], top.rows[0])
    right = np.minimum(wall.rows[1], top.rows[1])
    # the air stops shrinking where both rise alike
    (level, rate), (other, other_rate) = wall.sines(), top.sines()
    alike = rate == other_rate
    turn = (other - level) / np.where(alike, 1.0, rate - other_rate)
    turn = np.clip(np.where(alike, right, turn), left, right)
    twice = np.concatenate((np.arange(len(left)), np.arange(len(left))))
    halves = _Facing(
        wall.take(twice),
        top.take(twice),
        below[twice] + first,
        np.concatenate((left, turn)),
        np.concatenate((turn, right)),
    )
    # a wall that is exact to the path tolerance may seem to lie that much within the part
    highest = np.maximum(halves.gaps(halves.left), halves.gaps(halves.right))
    real = (halves.right - halves.left > 0) & (highest > -tolerance.path)
    return halves.take(np.nonzero(real)[0])


def _spans(facing: _Facing, limit: float) -> list[_Span]:
    """The stretches over which the air is no more than `limit`."""
    left_in, right_in = facing.gaps(facing.left) <= limit, facing.gaps(facing.right) <= limit
    which = np.nonzero(left_in | right_in)[0]
    facing, left_in, right_in = facing.take(which), left_in[which], right_in[which]
    inner = np.where(left_in, facing.left, facing.right)
    outer = np.where(left_in, facing.right, facing.left)
    ends, beyond = inner, outer
    for _ in range(50):  # halving takes any stretch below a nanometre
        middle = (ends + beyond) / 2
        touching = facing.gaps(middle) <= limit
        ends, beyond = np.where(touching, middle, ends), np.where(touching, beyond, middle)
    ends = np.where(left_in & right_in, outer, ends)
    x0, x1 = np.minimum(inner, ends), np.maximum(inner, ends)
    at, middle = np.where(facing.gaps(x0) <= facing.gaps(x1), x0, x1), (x0 + x1) / 2
    at = np.where(np.abs(facing.gaps(middle) - facing.gaps(at)) < _LEVEL, middle, at)
    ys = [facing.part.heights(x).tolist() for x in (x0, x1, at)]
    starts, finishes, places = (
        list(zip(x.tolist(), y, strict=True)) for x, y in zip((x0, x1, at), ys, strict=True)
    )
    air, normals = facing.gaps(at).tolist(), (90.0 + _rises(facing, at)).tolist()
    columns = (facing.numbers.tolist(), starts, finishes, places, air, normals)
    return [_Span(*row) for row in zip(*columns, strict=True)]


def _rises(facing: _Facing, at: Floats) -> Floats:
    """The slope of the wall at each place of contact, in degrees; the part's own where the wall
    has a corner (the edge of the jaw's face)."""
    cornered = ~_inside(facing.wall, at) & _inside(facing.part, at)
    rises: Floats = np.where(cornered, facing.part.angles(at), facing.wall.angles(at))
    return rises


def _inside(edges: Edges, at: Floats) -> npt.NDArray[np.bool_]:
    """Whether each X lies clear of its edge's ends."""
    clear: npt.NDArray[np.bool_] = np.minimum(at - edges.rows[0], edges.rows[1] - at) > SLIVER
    return clear


def _groups(spans: Sequence[_Span], part: Edges, join: float) -> list[list[_Span]]:
    """The spans of one slab by contact. Those that follow each other within `join` mm are one,
    and so are those that lie on each other (of outlines that overlap)."""
    groups: list[list[_Span]] = []
    for span in sorted(spans, key=lambda s: (s.start, s.end)):
        for group in groups:
            if _goes_on(max(group, key=lambda s: s.end[0]), span, part, join):
                group.append(span)
                break
        else:
            groups.append([span])
    return groups


def _goes_on(last: _Span, span: _Span, part: Edges, join: float) -> bool:
    (x, y), over = span.start, span.start[0] <= last.end[0]
    if over and (last.edge == span.edge or abs(part.height(last.edge, x) - y) <= join):
        return True
    return math.dist(last.end, span.start) <= join


def _contact(group: Sequence[_Span], part: Edges, wall: Wall) -> Contact:
    first, last = group[0], max(group, key=lambda s: s.end[0])
    best = min(group, key=lambda s: (round(s.air, 6), s.start[0] - s.end[0], s.start))
    length, covered = 0.0, -math.inf
    for span in group:
        left, right = max(span.start[0], covered), span.end[0]
        if right > left:
            length += part.length(span.edge, left, right)
            covered = right
    return Contact(
        first.start,
        last.end,
        best.at,
        length,
        best.normal,
        wall.top,
        wall.floor,
        _centre(group, part),
    )


def _centre(group: Sequence[_Span], part: Edges) -> Point | None:
    """The centre of the circle that the spans have in common, if they do."""
    centres = [part.centre(span.edge) for span in group]
    first = centres[0]
    same = [c is not None and first is not None and math.dist(c, first) < _SAME for c in centres]
    return first if all(same) else None
