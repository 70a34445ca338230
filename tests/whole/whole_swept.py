"""What a cutter sweeps and how an outline grows, with shapely but without its offset of polygons.

GEOS thins the hollow bends of what it buffers, and on finely flattened arcs that goes far wrong
(millimetres), so only edges of two points are buffered, one by one, and united.
"""

import math

import numpy as np
import shapely

CAP = 16
"""Chords of a quarter of a round end. Where neighbouring edges hardly turn, an end shows but for a
sliver of that small angle; where they do turn, `ROUND` counts."""
ROUND = 160
TURNS = math.radians(2)


def capsules(points, radius):
    """The area within `radius` of a line through points (n, 2)."""
    points = np.asarray(points, dtype=float)
    moved = np.hypot(*np.diff(points, axis=0).T) > 0
    points = points[np.concatenate(([True], moved))]
    if len(points) < 2:
        return shapely.buffer(shapely.Point(points[0]), radius, quad_segs=ROUND)
    edges = shapely.linestrings(np.stack((points[:-1], points[1:]), axis=1))
    way = np.unwrap(np.arctan2(*np.diff(points, axis=0).T[::-1]))
    bends = points[1:-1][np.abs(np.diff(way)) > TURNS]
    corners = shapely.points(np.concatenate((points[[0, -1]], bends)))
    return shapely.union_all(
        np.concatenate(
            (
                shapely.buffer(edges, radius, quad_segs=CAP),
                shapely.buffer(corners, radius, quad_segs=ROUND),
            )
        )
    )


def swept(blocks, radius, sagitta=2e-4):
    """What a cutter of `radius` sweeps in plan along blocks."""
    return shapely.union_all([capsules(b.points(sagitta)[:, :2], radius) for b in blocks])


def grown(points, grip, side=0.0):
    """A closed outline (n, 2) grown by `grip` all round and then slid by `side` either way
    along X: the area and what each of its edges passes over."""
    area = shapely.make_valid(shapely.Polygon(points))
    if grip > 0:
        closed = np.concatenate((points, points[:2]))
        area = shapely.union(area, capsules(closed, grip))
    if side <= 0:
        return area
    assert area.geom_type == "Polygon"
    ring = shapely.get_coordinates(area.exterior)
    shift = np.array([side, 0.0])
    quads = np.stack((ring[:-1] - shift, ring[:-1] + shift, ring[1:] + shift, ring[1:] - shift), 1)
    return shapely.union_all([*shapely.convex_hull(shapely.polygons(quads)), area])


def jaws(blanks):
    """The two blanks in plan."""
    half, near, far = blanks.width / 2, blanks.gap / 2, blanks.gap / 2 + blanks.thickness
    return shapely.union_all(
        [shapely.box(-half, near, half, far), shapely.box(-half, -far, half, -near)]
    )


def farthest(area, other):
    """How far an area reaches out of another, mm."""
    out = shapely.difference(area, other)
    if out.is_empty:
        return 0.0
    points = shapely.points(shapely.get_coordinates(shapely.segmentize(out, 0.05)))
    return float(shapely.distance(points, other).max())


def apart(points, others):
    """The farthest that any of `points` (n, 2) lies off the line through `others` (m, 2)."""
    line = shapely.LineString(others)
    shapely.prepare(line)
    return float(shapely.distance(shapely.points(points), line).max())
