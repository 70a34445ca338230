"""The cavity and the blanks in plan, grown by the judge's own means."""

from __future__ import annotations

import itertools

import numpy as np
import shapely

from jawcam.hold.target import Blanks, Loop, Target
from jawcam.proof.curve import Floats, arc_of_bulge, loop_points, quad_segs
from jawcam.proof.sweep import CAVITY_CHORD, Arc, ring_sector

__all__ = ["blanks_area", "cavity_area", "edges", "gap_area", "grown", "slid"]


def cavity_area(target: Target, chord: float = CAVITY_CHORD) -> shapely.Geometry:
    """Where the cutter may be below the jaw top: the silhouette grown by `grip` and slid by `side`
    either way, and the corner reliefs. The part's holes are filled: the cavity is
    cleared under them as well."""
    area = slid(grown(target.levels[0].outlines[0], target.grip, chord), target.side)
    reliefs = [_disc_along(r.start, r.end, r.radius, chord) for r in target.reliefs]
    return shapely.union_all([area, *reliefs])


def blanks_area(blanks: Blanks) -> shapely.Geometry:
    """The two blanks."""
    half, near, far = blanks.width / 2, blanks.gap / 2, blanks.gap / 2 + blanks.thickness
    front = shapely.box(-half, -far, half, -near)
    return shapely.union_all([front, shapely.box(-half, near, half, far)])


def gap_area(blanks: Blanks) -> shapely.Geometry:
    """The gap between them, far beyond their ends."""
    half, near = blanks.width, blanks.gap / 2
    return shapely.box(-half, -near, half, near) if near > 0 else shapely.Polygon()


def grown(loop: Loop, reach: float, chord: float) -> shapely.Geometry:
    """An outline grown all round by `reach` with round corners; shrunk if it is negative.

    Piece by piece, as an offset of the whole thins out the points that it is given.
    """
    area = shapely.make_valid(shapely.Polygon(loop_points(loop, chord)))
    if reach == 0:
        return area
    band = []
    for (x0, y0, bulge), (x1, y1, _) in zip(loop, loop[1:] + loop[:1], strict=True):
        start, end = (x0, y0), (x1, y1)
        if bulge == 0 or start == end:
            band.append(_disc_along(start, end, abs(reach), chord))
            continue
        cx, cy, radius, angle, turn = arc_of_bulge(start, end, bulge)
        arc = Arc((cx, cy), (radius, radius), angle, turn)
        band.append(ring_sector(arc, abs(reach), chord))
        band += [_disc_along(point, point, abs(reach), chord) for point in (start, end)]
    rim = shapely.union_all(band)
    return shapely.union(area, rim) if reach > 0 else shapely.difference(area, rim)


def slid(area: shapely.Geometry, side: float) -> shapely.Geometry:
    """All that an area covers while it slides along X by `side` either way.

    That is the area at both ends and what each stretch of its edge sweeps that rises or falls all
    the way.
    """
    if side <= 0:
        return area
    shift = np.array([side, 0.0])
    swept = [shapely.transform(area, lambda xy: xy - shift)]
    swept.append(shapely.transform(area, lambda xy: xy + shift))
    for edge in edges(area):
        swept += [
            shapely.Polygon(np.concatenate((chain - shift, chain[::-1] + shift)))
            for chain in _monotone(shapely.get_coordinates(edge))
        ]
    return shapely.union_all(swept)


def edges(area: shapely.Geometry) -> list[shapely.Geometry]:
    """All the rings of an area."""
    parts = [part for part in shapely.get_parts(area) if isinstance(part, shapely.Polygon)]
    return [ring for part in parts for ring in (part.exterior, *part.interiors)]


def _monotone(points: Floats) -> list[Floats]:
    """A closed ring -> its stretches along which Y only grows or only falls."""
    rise = np.sign(np.diff(points[:, 1]))
    cuts = np.flatnonzero(np.diff(rise)) + 1
    bounds = [0, *(int(cut) for cut in cuts), len(rise)]
    return [points[a : b + 1] for a, b in itertools.pairwise(bounds) if rise[a] != 0]


def _disc_along(
    start: tuple[float, float], end: tuple[float, float], radius: float, chord: float
) -> shapely.Geometry:
    track = shapely.Point(start) if start == end else shapely.LineString([start, end])
    return shapely.buffer(track, radius, quad_segs=quad_segs(radius, chord))
