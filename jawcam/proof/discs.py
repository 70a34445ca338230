"""The largest discs that fit into an area: how large what is left over is."""

from __future__ import annotations

import math
from typing import NamedTuple

import shapely

__all__ = ["Disc", "discs"]


class Disc(NamedTuple):
    """The largest disc in a piece of material. core: where the centres of discs that are large
    enough to be told lie in it."""

    x: float
    y: float
    dia: float
    core: shapely.Geometry


def discs(area: shapely.Geometry, least: float) -> list[Disc]:
    """The largest disc of each piece that one of more than `least` mm diameter fits into, from
    left to right. Pieces that hang together by a thread thinner than that count apart."""
    parts = shapely.get_parts(area)
    found = []
    for part in parts[shapely.area(parts) > math.pi * least**2 / 4]:
        cores = shapely.get_parts(shapely.buffer(part, -least / 2))
        for core in cores[~shapely.is_empty(cores)]:
            centre = shapely.Point(shapely.get_coordinates(_middle(core))[0])
            dia = 2 * float(shapely.distance(centre, part.boundary))
            if dia > least:
                found.append(Disc(float(centre.x), float(centre.y), dia, core))
    return sorted(found, key=lambda disc: disc[:3])


def _middle(core: shapely.Geometry) -> shapely.Geometry:
    """The centre of the largest circle in a polygon; of a tiny one, any point in it."""
    size = max(core.bounds[2] - core.bounds[0], core.bounds[3] - core.bounds[1])
    if size < 1e-3:
        return shapely.point_on_surface(core)
    return shapely.maximum_inscribed_circle(core, tolerance=size / 1000)
