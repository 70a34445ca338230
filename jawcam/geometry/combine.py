"""Unions, differences and intersections of regions, exact lines and arcs in and out."""

from __future__ import annotations

from collections.abc import Sequence

import pyclipper

from jawcam.geometry.nest import regions_of
from jawcam.geometry.shapes import Path, Region
from jawcam.geometry.source import prepare
from jawcam.geometry.tidy import tidied
from jawcam.tolerance import Tolerance

__all__ = ["difference", "intersection", "union"]


def union(regions: Sequence[Region], tolerance: Tolerance) -> tuple[Region, ...]:
    """What lies in any of the regions."""
    return _clip(pyclipper.CT_UNION, regions, (), tolerance)


def difference(
    regions: Sequence[Region], less: Sequence[Region], tolerance: Tolerance
) -> tuple[Region, ...]:
    """What lies in any of `regions` and in none of `less`."""
    return _clip(pyclipper.CT_DIFFERENCE, regions, less, tolerance)


def intersection(
    regions: Sequence[Region], others: Sequence[Region], tolerance: Tolerance
) -> tuple[Region, ...]:
    """What lies in any of `regions` and in any of `others`."""
    return _clip(pyclipper.CT_INTERSECTION, regions, others, tolerance)


def _clip(
    kind: int, subject: Sequence[Region], clip: Sequence[Region], tolerance: Tolerance
) -> tuple[Region, ...]:
    paths: list[Path] = [path for region in (*subject, *clip) for path in region.paths]
    if not paths:
        return ()
    source = prepare(paths, 0.0, tolerance)
    own = sum(len(region.paths) for region in subject)
    engine = pyclipper.Pyclipper()
    roles = [pyclipper.PT_SUBJECT] * own + [pyclipper.PT_CLIP] * (len(paths) - own)
    for ring, role in zip(source.flat.rings, roles, strict=True):
        if pyclipper.Area(ring) != 0:  # pyclipper refuses a path that is but a thread
            engine.AddPath(ring, role, True)
    found = regions_of(source, engine.Execute2(kind, pyclipper.PFT_NONZERO, pyclipper.PFT_NONZERO))
    return tuple(Region(tidied(r.outer), tuple(tidied(hole) for hole in r.holes)) for r in found)
