"""The jaws and the part as shapes in the picture's units, seen from the program's origin."""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterable
from dataclasses import dataclass

import numpy as np
import shapely
from shapely.affinity import affine_transform, translate
from shapely.geometry.base import BaseGeometry

from jawcam.hold.target import Loop, Target
from jawcam.show.arrays import Floats
from jawcam.units import Units

__all__ = ["Scene", "bulged", "cavity", "sections", "setting"]


@dataclass(frozen=True)
class Scene:
    """Shapes in plan and heights, in the picture's units from the program's origin.

    blanks: the front and the back one, whole; cavity, part (its holes taken out), reliefs in
    plan; top and bottom of the blanks, floor, part_top, clearance: Z.
    """

    blanks: tuple[BaseGeometry, BaseGeometry]
    cavity: BaseGeometry
    part: BaseGeometry
    reliefs: tuple[BaseGeometry, ...]
    top: float
    bottom: float
    floor: float
    part_top: float
    clearance: float
    mid_gap: float


def setting(target: Target, units: Units, chord: float) -> Scene:
    """Target -> scene; no flattened arc is more than `chord` mm off."""
    scale = 1 / units.in_mm
    zx, zy, zz = target.zero
    matrix = [scale, 0, 0, scale, -zx * scale, -zy * scale]
    part = shapely.make_valid(shapely.Polygon(bulged(target.silhouette[0], chord)))
    holes = [shapely.make_valid(shapely.Polygon(bulged(loop, chord))) for loop in target.holes]
    reliefs = [_swept_disc(r.start, r.end, r.radius) for r in target.reliefs]

    def placed(shape: BaseGeometry) -> BaseGeometry:
        return affine_transform(shape, matrix)

    half, b = target.blanks.width / 2, target.blanks
    near, far = b.gap / 2, b.gap / 2 + b.thickness
    return Scene(
        blanks=(
            placed(shapely.box(-half, -far, half, -near)),
            placed(shapely.box(-half, near, half, far)),
        ),
        cavity=placed(cavity(part, target.grip, target.side).union(shapely.union_all(reliefs))),
        part=placed(part.difference(shapely.union_all(holes))),
        reliefs=tuple(placed(relief) for relief in reliefs),
        top=-zz * scale,
        bottom=(-b.height - zz) * scale,
        floor=(target.floor - zz) * scale,
        part_top=(target.part_top - zz) * scale,
        clearance=(target.clearance - zz) * scale,
        mid_gap=-zy * scale,
    )


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


def sections(shape: BaseGeometry, x: float) -> list[tuple[float, float]]:
    """The stretches of Y over which the upright line at `x` lies inside the shape."""
    _, low, _, high = shape.bounds
    cut = shape.intersection(shapely.LineString([(x, low - 1), (x, high + 1)]))
    spans = [part.bounds for part in shapely.get_parts(cut) if part.length > 0]
    return sorted((span[1], span[3]) for span in spans)


def _swept_disc(start: tuple[float, float], end: tuple[float, float], r: float) -> BaseGeometry:
    line = shapely.Point(start) if start == end else shapely.LineString([start, end])
    return line.buffer(r, quad_segs=64)


def _rings(shape: BaseGeometry) -> Iterable[BaseGeometry]:
    for part in shapely.get_parts(shape):
        if isinstance(part, shapely.Polygon):
            yield from (part.exterior, *part.interiors)
