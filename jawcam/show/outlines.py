"""Outlines of the target as shapes in the plane, in mm and jaw coordinates."""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterable, Sequence

import numpy as np
import shapely
from shapely.affinity import translate
from shapely.geometry.base import BaseGeometry

from jawcam.hold.target import Loop
from jawcam.show.arrays import Floats

__all__ = ["bulged", "cavity", "filled", "solid", "swept_disc"]


def bulged(loop: Loop, chord: float) -> Floats:
    """A loop of rows (x, y, bulge) -> its points (n, 2), no chord farther than `chord` off its arc.

    With b = tan(sweep / 4) and chord c (the DXF definition of the bulge): sagitta = b c / 2,
    radius = c (1 + b^2) / (4 b), centre to the left of the chord's middle by c (1 - b^2) / (4 b).
    """
    points: list[tuple[float, float]] = []
    for (x0, y0, b), (x1, y1, _) in zip(loop, loop[1:] + loop[:1], strict=True):
        points.append((x0, y0))
        apart = math.hypot(x1 - x0, y1 - y0)
        if b == 0 or apart == 0:
            continue
        radius, away = apart * (1 + b * b) / (4 * abs(b)), (1 - b * b) / (4 * b)
        cx, cy = (x0 + x1) / 2 - (y1 - y0) * away, (y0 + y1) / 2 + (x1 - x0) * away
        sweep, angle = 4 * math.atan(b), math.atan2(y0 - cy, x0 - cx)
        step = 2 * math.acos(1 - min(chord / radius, 0.3))
        count = math.ceil(abs(sweep) / step)
        turns = [angle + sweep * k / count for k in range(1, count)]
        points += [(cx + radius * math.cos(a), cy + radius * math.sin(a)) for a in turns]
    return np.array(points)


def solid(loops: Sequence[Loop], chord: float) -> BaseGeometry:
    """All that the loops enclose, flattened as by `bulged`."""
    shapes = [shapely.make_valid(shapely.Polygon(bulged(loop, chord))) for loop in loops]
    return shapes[0] if len(shapes) == 1 else shapely.union_all(shapes)


def cavity(part: BaseGeometry, grip: float, side: float) -> BaseGeometry:
    """The part grown by `grip` all round and then swept by `side` either way along X."""
    grown = part.buffer(grip, quad_segs=64) if grip else part
    if side <= 0:
        return grown
    swept = [translate(grown, -side), translate(grown, side)]
    for ring in _rings(grown):
        corners = shapely.get_coordinates(ring)
        for (x0, y0), (x1, y1) in itertools.pairwise(corners):
            box = [(x0 - side, y0), (x0 + side, y0), (x1 + side, y1), (x1 - side, y1)]
            swept.append(shapely.Polygon(box).buffer(0))
    return shapely.union_all(swept)


def filled(shape: BaseGeometry) -> BaseGeometry:
    """The shape without holes: a hollow that walls enclose is cut away as well."""
    parts = [part for part in shapely.get_parts(shape) if isinstance(part, shapely.Polygon)]
    if not any(part.interiors for part in parts):
        return shape
    return shapely.union_all([shapely.Polygon(part.exterior) for part in parts])


def swept_disc(start: tuple[float, float], end: tuple[float, float], r: float) -> BaseGeometry:
    """What a disc of radius `r` covers from `start` to `end`."""
    line = shapely.Point(start) if start == end else shapely.LineString([start, end])
    return line.buffer(r, quad_segs=64)


def _rings(shape: BaseGeometry) -> Iterable[BaseGeometry]:
    for part in shapely.get_parts(shape):
        if isinstance(part, shapely.Polygon):
            yield from (part.exterior, *part.interiors)
