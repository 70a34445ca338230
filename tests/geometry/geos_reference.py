"""The same offsets by another engine: GEOS, through shapely.

GEOS thins the hollow bends of what it buffers, and on finely flattened arcs that goes far wrong
(millimetres, not microns), so a polygon is never buffered whole here: all near each of its lines
and arcs is made by itself, and the union of that is added to the polygon or taken away.
"""

import math

import shapely

from jawcam.geometry.flatten import polyline
from jawcam.geometry.shapes import Line, Path, Region, Segment
from jawcam.proof.sweep import Arc, ring_sector

CHORD = 2e-5


def ring(path: Path, chord: float = CHORD) -> list[tuple[float, float]]:
    return [p for segment in path.segments for p in polyline(segment, chord)[:-1]]


def geos(regions: tuple[Region, ...], chord: float = CHORD) -> shapely.Geometry:
    parts = [
        shapely.Polygon(ring(r.outer, chord), [ring(hole, chord) for hole in r.holes])
        for r in regions
    ]
    assert all(part.is_valid for part in parts), [shapely.is_valid_reason(p) for p in parts]
    return shapely.union_all(parts)


def geos_grown(regions: tuple[Region, ...], distance: float) -> shapely.Geometry:
    solid, reach = geos(regions), abs(distance)
    pieces = [piece for region in regions for path in region.paths for piece in path.segments]
    border = shapely.union_all([part for piece in pieces for part in near(piece, reach)])
    return solid.union(border) if distance > 0 else solid.difference(border)


def near(piece: Segment, reach: float) -> list[shapely.Geometry]:
    """All within `reach` of a line or an arc: a capsule, or a sector of a ring and discs round its
    ends."""
    fine = math.ceil(math.pi / 4 / math.acos(1 - CHORD / reach))
    if isinstance(piece, Line):
        return [shapely.LineString([piece.start, piece.end]).buffer(reach, quad_segs=fine)]
    (cx, cy), (x, y) = piece.centre, piece.start
    turn = piece.sweep if piece.ccw else -piece.sweep
    arc = Arc((cx, cy), (piece.radius, piece.radius), math.atan2(y - cy, x - cx), turn)
    ends = [shapely.Point(end).buffer(reach, quad_segs=fine) for end in (piece.start, piece.end)]
    return [ring_sector(arc, reach, CHORD), *ends]


def thickest(shape: shapely.Geometry) -> float:
    """The radius of the largest disc in what two results do not share. (GEOS's largest disc of a
    needle a nanometre wide is not to be believed; what vanishes when it shrinks is 0.)"""
    parts = [p for p in getattr(shape, "geoms", [shape]) if p.geom_type == "Polygon"]
    discs = [
        shapely.maximum_inscribed_circle(p, 1e-4).length
        for p in parts
        if not p.buffer(-0.0002).is_empty
    ]
    return max(discs, default=0.0)
