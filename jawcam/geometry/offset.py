"""Growing and shrinking regions: exact lines and arcs in, exact lines and arcs out."""

from __future__ import annotations

from collections.abc import Sequence

import pyclipper

from jawcam.geometry.flatten import SCALE
from jawcam.geometry.nest import regions_of
from jawcam.geometry.shapes import Region
from jawcam.geometry.source import prepare
from jawcam.tolerance import Tolerance

__all__ = ["grow", "shrink"]


def grow(regions: Sequence[Region], distance: float, tolerance: Tolerance) -> tuple[Region, ...]:
    """All points within `distance` mm of the regions (which may not overlap).

    Corners are rounded. A negative distance shrinks instead: what is left are the points whose
    distance from the outside is at least that; what was too narrow is gone. Always offset from
    the source, never from an offset: errors then do not add up.
    """
    if distance == 0 or not regions:
        return tuple(regions)
    source = prepare([path for region in regions for path in region.paths], distance, tolerance)
    engine = pyclipper.PyclipperOffset(2.0, tolerance.chord * SCALE)
    engine.AddPaths(source.flat.rings, pyclipper.JT_ROUND, pyclipper.ET_CLOSEDPOLYGON)
    return regions_of(source, engine.Execute2(distance * SCALE))


def shrink(regions: Sequence[Region], distance: float, tolerance: Tolerance) -> tuple[Region, ...]:
    """All points of the regions at least `distance` mm away from their outside."""
    return grow(regions, -distance, tolerance)
