"""The same offsets by another engine: GEOS, through shapely.

GEOS thins the hollow bends of what it buffers, and on finely flattened arcs that goes far wrong
(millimetres, not microns), so a polygon is never buffered whole here: each of its edges is
buffered by itself, and the union of these capsules is added to the polygon or taken away.
"""

import math

import numpy as np
import shapely

from jawcam.geometry.flatten import polyline
from jawcam.geometry.shapes import Path, Region

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
    solid = geos(regions)
    capsules = []
    segments_per_quarter = max(8, math.ceil(math.pi / 4 / math.acos(1 - CHORD / abs(distance))))
    for region in regions:
        for path in region.paths:
            points = np.array(ring(path))
            edges = shapely.linestrings(np.stack((points, np.roll(points, -1, axis=0)), axis=1))
            capsules.append(
                shapely.union_all(
                    shapely.buffer(edges, abs(distance), quad_segs=min(segments_per_quarter, 200))
                )
            )
    border = shapely.union_all(capsules)
    return solid.union(border) if distance > 0 else solid.difference(border)


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
