"""Distances from points to exact paths, which side a point is on, and the roomiest place."""

from __future__ import annotations

import itertools
import math
from collections.abc import Sequence

import numpy as np

from jawcam.geometry.carriers import Floats
from jawcam.geometry.shapes import Arc, Path, Point, Region

__all__ = ["contains", "distances", "inside_distances", "nearest_on", "roomiest"]


def distances(paths: Sequence[Path], points: Floats) -> Floats:
    """The distance of each point (n, 2) from the nearest of all the paths' segments, in mm."""
    best = np.full(len(points), np.inf)
    for path in paths:
        for segment in path.segments:
            feet = (
                _feet_on_arc(segment, points)
                if isinstance(segment, Arc)
                else _feet_on_line(segment.start, segment.end, points)
            )
            best = np.minimum(best, np.hypot(*(points - feet).T))
    return best


def inside_distances(regions: Sequence[Region], points: Floats) -> Floats:
    """How far each point (n, 2) lies inside the regions' boundary, in mm; negative outside."""
    paths = [path for region in regions for path in region.paths]
    gaps = distances(paths, points)
    return np.where(_turns_round(paths, points), gaps, -gaps)


def contains(regions: Sequence[Region], point: Point, slack: float = 0.0) -> bool:
    """Whether a point lies in the regions, or no more than `slack` mm outside."""
    return bool(inside_distances(regions, np.array([point]))[0] >= -slack)


def nearest_on(path: Path, point: Point) -> tuple[int, Point]:
    """The number of the segment that comes nearest to a point, and its point that does."""
    where = np.array([point])
    feet = [
        _feet_on_arc(s, where)[0] if isinstance(s, Arc) else _feet_on_line(s.start, s.end, where)[0]
        for s in path.segments
    ]
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
    round_about = _best_centre(region)
    x0, y0, x1, y1 = region.outer.box
    half = max(x1 - x0, y1 - y0, precision) / 16
    xs, ys = np.arange(x0 + half, x1 + half, 2 * half), np.arange(y0 + half, y1 + half, 2 * half)
    centres = np.stack(np.meshgrid(xs, ys), axis=-1).reshape(-1, 2)
    best, room = (x0, y0), -math.inf
    while len(centres):
        depth = inside_distances([region], centres)
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


def _best_centre(region: Region) -> tuple[Point, float] | None:
    """The arc centre of a region's boundary that lies deepest in it: the very middle of a disc."""
    arcs = {s.centre for s in region.outer.segments if isinstance(s, Arc) and s.ccw}
    if not arcs:
        return None
    centres = sorted(arcs)
    depth = inside_distances([region], np.array(centres))
    top = int(np.argmax(depth))
    return centres[top], float(depth[top])


def _feet_on_line(start: Point, end: Point, points: Floats) -> Floats:
    a, along = np.array(start), np.array(end) - np.array(start)
    share = np.clip((points - a) @ along / max(float(along @ along), 1e-300), 0.0, 1.0)
    feet: Floats = a + share[:, None] * along
    return feet


def _feet_on_arc(arc: Arc, points: Floats) -> Floats:
    out = points - np.array(arc.centre)
    size = np.hypot(*out.T)[:, None]
    # from the very centre every point of the arc is equally near
    spoke = np.where(size > 1e-12, out / np.maximum(size, 1e-12), [[1.0, 0.0]])
    first = math.atan2(arc.start[1] - arc.centre[1], arc.start[0] - arc.centre[0])
    turn = (np.arctan2(spoke[:, 1], spoke[:, 0]) - first) * (1 if arc.ccw else -1)
    on_arc = turn % (2 * math.pi) <= arc.sweep
    to_start = np.hypot(*(points - arc.start).T) <= np.hypot(*(points - arc.end).T)
    ends = np.where(to_start[:, None], [arc.start], [arc.end])
    return np.where(on_arc[:, None], np.array(arc.centre) + spoke * arc.radius, ends)


def _turns_round(
    paths: Sequence[Path], points: Floats
) -> np.ndarray[tuple[int], np.dtype[np.bool_]]:
    """Whether closed paths run round each point: the angle swept by the line to it adds up to a
    full turn (0 outside). An arc's sweep is that of its chord, and a full turn more or less
    where the point lies between arc and chord."""
    total = np.zeros(len(points))
    for path in paths:
        for segment in path.segments:
            pieces = _halves(segment) if isinstance(segment, Arc) else [segment]
            for piece in pieces:
                first, last = np.array(piece.start) - points, np.array(piece.end) - points
                cross = first[:, 0] * last[:, 1] - first[:, 1] * last[:, 0] + 0.0  # never -0
                turn = np.arctan2(cross, (first * last).sum(axis=1))
                if isinstance(piece, Arc):
                    within = np.hypot(*(points - piece.centre).T) < piece.radius
                    # on the chord itself arctan2 says +pi, as on its left
                    between = within & ((cross < 0) if piece.ccw else (cross >= 0))
                    turn += np.where(between, 2 * math.pi if piece.ccw else -2 * math.pi, 0.0)
                total += turn
    return np.abs(total) > math.pi


def _halves(arc: Arc) -> list[Arc]:
    """An arc in pieces of less than half a turn."""
    count = math.ceil(arc.sweep / 3)
    marks = [arc.start, *(arc.point(k / count) for k in range(1, count)), arc.end]
    return [Arc(a, b, arc.centre, arc.ccw) for a, b in itertools.pairwise(marks)]
