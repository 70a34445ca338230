"""The cavity and the blanks in plan, grown by the judge's own means."""

from __future__ import annotations

import itertools
import math

import numpy as np
import shapely

from jawcam.hold.target import Blanks, Hole, Loop, Relief
from jawcam.proof.curve import Floats, arc_of_bulge, loop_points, quad_segs, steps
from jawcam.proof.sweep import CAVITY_CHORD, Arc, ring_sector

__all__ = [
    "blanks_area",
    "edges",
    "filled",
    "gap_area",
    "grown",
    "hole_area",
    "outline_area",
    "relief_area",
    "shrunk",
    "slid",
]

CRACK = 1e-7
"""mm by which rectangles reach beyond their ends, so that no crack stays between two."""


def outline_area(
    loop: Loop, grip: float, side: float, chord: float = CAVITY_CHORD
) -> shapely.Geometry:
    """An outline grown by `grip` and slid by `side` either way, without holes."""
    return filled(slid(grown(loop, grip, chord), side))


def relief_area(relief: Relief, chord: float = CAVITY_CHORD) -> shapely.Geometry:
    """What a corner relief takes away, in plan."""
    return _disc_along(relief.start, relief.end, relief.radius, chord)


def hole_area(hole: Hole, chord: float = CAVITY_CHORD) -> shapely.Geometry:
    """A drilled hole in plan."""
    return _disc_along((hole.x, hole.y), (hole.x, hole.y), hole.dia / 2, chord)


def filled(area: shapely.Geometry) -> shapely.Geometry:
    """An area with its holes filled."""
    parts = [part for part in shapely.get_parts(area) if isinstance(part, shapely.Polygon)]
    if not any(part.interiors for part in parts):
        return area
    return shapely.union_all([shapely.Polygon(part.exterior) for part in parts])


def shrunk(area: shapely.Geometry, width: float, chord: float = CAVITY_CHORD) -> shapely.Geometry:
    """An area without all that lies within `width` of its edge.

    Exact for its straight stretches, as an offset of the whole thins out its points: a rectangle
    inwards of each, and a fan where the edge turns towards the inside, as the points near any other
    corner lie beside one of its two stretches.
    """
    rim = []
    for ring in edges(shapely.normalize(area)):
        # The first ring of a normal polygon runs clockwise, its holes the other way: the inside
        # lies to the right.
        points = shapely.get_coordinates(ring)
        along = np.diff(points, axis=0)
        along /= np.hypot(along[:, 0], along[:, 1])[:, None]
        inward = np.column_stack((along[:, 1], -along[:, 0]))
        first, last = points[:-1] - CRACK * (along + inward), points[1:] + CRACK * (along - inward)
        deep = inward * (width + CRACK)
        rim += list(shapely.polygons(np.stack((first, last, last + deep, first + deep), axis=1)))
        rim += _fans(points, along, width, chord)
    return shapely.difference(area, shapely.union_all(rim))


def _fans(points: Floats, along: Floats, width: float, chord: float) -> list[shapely.Geometry]:
    """At each corner of a ring whose inside lies to the right and that turns left to the next."""
    before = np.roll(along, 1, axis=0)
    turn = np.arctan2(
        before[:, 0] * along[:, 1] - before[:, 1] * along[:, 0], (before * along).sum(axis=1)
    )
    fans = []
    for i in np.flatnonzero(turn > 0):
        first = math.atan2(before[i, 1], before[i, 0]) - math.pi / 2
        count = steps(width, float(turn[i]), chord)
        angles = first + turn[i] * np.arange(count + 1) / count
        arc = points[i] + width * np.column_stack((np.cos(angles), np.sin(angles)))
        fans.append(shapely.Polygon(np.concatenate((points[i : i + 1], arc))))
    return fans


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
