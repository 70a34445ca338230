"""Distances from points to exact paths, which side a point is on, and the roomiest place."""

from __future__ import annotations

import itertools
import math
from collections.abc import Callable, Iterator, Sequence
from typing import NamedTuple

import numpy as np

from jawcam.geometry.carriers import Floats, Ints
from jawcam.geometry.shapes import Arc, Path, Point, Region, Segment

__all__ = ["contains", "distances", "inside_distances", "nearest_on", "roomiest"]

MANY = 100_000
"""So many pairs of a segment and a point are measured at once, for memory's sake."""


def distances(paths: Sequence[Path], points: Floats) -> Floats:
    """The distance of each point (n, 2) from the nearest of all the paths' segments, in mm."""
    return _gaps(_rows_of(paths), points)


def inside_distances(regions: Sequence[Region], points: Floats) -> Floats:
    """How far each point (n, 2) lies inside the regions' boundary, in mm; negative outside."""
    return _Depth(regions).of(points)


def contains(regions: Sequence[Region], point: Point, slack: float = 0.0) -> bool:
    """Whether a point lies in the regions, or no more than `slack` mm outside."""
    return bool(inside_distances(regions, np.array([point]))[0] >= -slack)


def nearest_on(path: Path, point: Point) -> tuple[int, Point]:
    """The number of the segment that comes nearest to a point, and its point that does."""
    rows = _rows_of([path])
    feet = np.empty((len(path.segments), 2))
    for some, found in _feet(rows, np.array([point])):
        feet[some] = found[:, 0]
    gaps = [math.dist(foot, point) for foot in feet]
    index = int(np.argmin(gaps))
    x, y = feet[index].tolist()
    return index, (x, y)


def roomiest(region: Region, precision: float = 0.01) -> tuple[Point, float]:
    """The point of a region farthest from its boundary, and that distance, in mm. An arc's own
    centre is taken where it is as good.

    Quartering: a square is dropped when even its far corner can't beat the best point so far by
    `precision` mm.
    """
    depth_of = _Depth([region]).of
    round_about = _best_centre(region, depth_of)
    x0, y0, x1, y1 = region.outer.box
    half = max(x1 - x0, y1 - y0, precision) / 16
    xs, ys = np.arange(x0 + half, x1 + half, 2 * half), np.arange(y0 + half, y1 + half, 2 * half)
    centres = np.stack(np.meshgrid(xs, ys), axis=-1).reshape(-1, 2)
    best, room = (x0, y0), -math.inf
    while len(centres):
        depth = depth_of(centres)
        top = int(np.argmax(depth))
        if depth[top] > room:
            room, best = float(depth[top]), (float(centres[top, 0]), float(centres[top, 1]))
        centres = centres[depth + half * math.sqrt(2) > room + precision]
        half /= 2
        corners = np.array([(-half, -half), (half, -half), (-half, half), (half, half)])
        centres = (centres[:, None, :] + corners[None, :, :]).reshape(-1, 2)
    if round_about is not None and round_about[1] >= room - precision:
        return round_about
    return best, room


def _best_centre(
    region: Region, depth_of: Callable[[Floats], Floats]
) -> tuple[Point, float] | None:
    """The arc centre of a region's boundary that lies deepest in it: the very middle of a disc."""
    arcs = {s.centre for s in region.outer.segments if isinstance(s, Arc) and s.ccw}
    if not arcs:
        return None
    centres = sorted(arcs)
    depth = depth_of(np.array(centres))
    top = int(np.argmax(depth))
    return centres[top], float(depth[top])


class _Rows(NamedTuple):
    """Segments as arrays, so that all are measured at once. lines, arcs: which of them each is, in
    the order of the paths; ends: (n, 2, 2), start and end; of the arcs in their own order centre,
    radius, the angle of the start, the sweep, and 1 if counter-clockwise, else -1."""

    lines: Ints
    arcs: Ints
    ends: Floats
    centre: Floats
    radius: Floats
    first: Floats
    sweep: Floats
    side: Floats


def _rows_of(paths: Sequence[Path]) -> _Rows:
    segments = [segment for path in paths for segment in path.segments]
    curved = np.array([isinstance(segment, Arc) for segment in segments], dtype=np.bool_)
    ends = np.array([(s.start, s.end) for s in segments], dtype=float).reshape(-1, 2, 2)
    arcs = [segment for segment in segments if isinstance(segment, Arc)]
    table = [
        (
            *arc.centre,
            arc.radius,
            math.atan2(arc.start[1] - arc.centre[1], arc.start[0] - arc.centre[0]),
            arc.sweep,
            1.0 if arc.ccw else -1.0,
        )
        for arc in arcs
    ]
    x, y, *others = np.array(table, dtype=float).reshape(-1, 6).T
    centre = np.column_stack((x, y))
    return _Rows(np.flatnonzero(~curved), np.flatnonzero(curved), ends, centre, *others)


def _gaps(rows: _Rows, points: Floats) -> Floats:
    best = np.full(len(points), np.inf)
    for _, feet in _feet(rows, points):
        off = points - feet
        best = np.minimum(best, np.hypot(off[..., 0], off[..., 1]).min(axis=0))
    return best


def _feet(rows: _Rows, points: Floats) -> Iterator[tuple[Ints, Floats]]:
    """The points of some segments that come nearest to each of the points, (segments, n, 2), and
    which segments they are."""
    size = max(1, MANY // max(len(points), 1))
    for k in range(0, len(rows.lines), size):
        some = rows.lines[k : k + size]
        yield some, _feet_on_lines(rows.ends[some], points)
    for k in range(0, len(rows.arcs), size):
        yield rows.arcs[k : k + size], _feet_on_arcs(rows, slice(k, k + size), points)


def _feet_on_lines(ends: Floats, points: Floats) -> Floats:
    start = ends[:, 0]
    along = ends[:, 1] - start
    size = np.maximum((along * along).sum(axis=1), 1e-300)[:, None]
    share = np.clip(((points - start[:, None]) @ along[:, :, None])[..., 0] / size, 0.0, 1.0)
    feet: Floats = start[:, None] + share[..., None] * along[:, None]
    return feet


def _feet_on_arcs(rows: _Rows, some: slice, points: Floats) -> Floats:
    centre, ends = rows.centre[some, None], rows.ends[rows.arcs[some]]
    out = points - centre
    size = np.hypot(out[..., 0], out[..., 1])[..., None]
    # from the very centre every point of the arc is equally near
    spoke = np.where(size > 1e-12, out / np.maximum(size, 1e-12), [1.0, 0.0])
    angle = np.arctan2(spoke[..., 1], spoke[..., 0])
    turn = (angle - rows.first[some, None]) * rows.side[some, None]
    on_arc = turn % (2 * math.pi) <= rows.sweep[some, None]
    off = points[None, :, None] - ends[:, None]
    apart = np.hypot(off[..., 0], off[..., 1])
    to_start = (apart[..., 0] <= apart[..., 1])[..., None]
    nearer = np.where(to_start, ends[:, None, 0], ends[:, None, 1])
    return np.where(on_arc[..., None], centre + spoke * rows.radius[some, None, None], nearer)


class _Depth:
    """How far points lie inside the boundary of some regions."""

    def __init__(self, regions: Sequence[Region]) -> None:
        paths = [path for region in regions for path in region.paths]
        self._rows, self._pieces = _rows_of(paths), _rows_of([_halved(path) for path in paths])

    def of(self, points: Floats) -> Floats:
        """As `inside_distances` has them."""
        gaps = _gaps(self._rows, points)
        return np.where(_turns_round(self._pieces, points), gaps, -gaps)


def _turns_round(pieces: _Rows, points: Floats) -> np.ndarray[tuple[int], np.dtype[np.bool_]]:
    """Whether closed paths run round each point: the angle swept by the line to it adds up to a
    full turn (0 outside). An arc's sweep is that of its chord, and a full turn more or less
    where the point lies between arc and chord. pieces: with arcs of less than half a turn."""
    total, size = np.zeros(len(points)), max(1, MANY // max(len(points), 1))
    for k in range(0, len(pieces.ends), size):
        ends = pieces.ends[k : k + size, None]
        first, last = ends[:, :, 0] - points, ends[:, :, 1] - points
        cross = first[..., 0] * last[..., 1] - first[..., 1] * last[..., 0] + 0.0  # never -0
        turn = np.arctan2(cross, (first * last).sum(axis=-1))
        some = slice(*np.searchsorted(pieces.arcs, (k, k + size)))
        arcs = pieces.arcs[some] - k
        off = points - pieces.centre[some, None]
        within = np.hypot(off[..., 0], off[..., 1]) < pieces.radius[some, None]
        # on the chord itself arctan2 says +pi, as on its left
        side = pieces.side[some, None]
        between = within & np.where(side > 0, cross[arcs] < 0, cross[arcs] >= 0)
        turn[arcs] += np.where(between, 2 * math.pi * side, 0.0)
        for one in turn:
            total += one
    return np.abs(total) > math.pi


def _halved(path: Path) -> Path:
    """A path with its arcs in pieces of less than half a turn."""
    pieces: list[Segment] = []
    for segment in path.segments:
        pieces += _halves(segment) if isinstance(segment, Arc) else [segment]
    return Path(tuple(pieces))


def _halves(arc: Arc) -> list[Arc]:
    """An arc in pieces of less than half a turn."""
    count = math.ceil(arc.sweep / 3)
    marks = [arc.start, *(arc.point(k / count) for k in range(1, count)), arc.end]
    return [Arc(a, b, arc.centre, arc.ccw) for a, b in itertools.pairwise(marks)]
