"""The cavity, level by level: what the part needs on its way in from above, plus clearance.

A part goes in from above and the cutter only reaches down, so at each height the cavity is the
union of all the part's sections from there down to its seat, grown by the fit.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from jawcam.geometry.carriers import Floats
from jawcam.geometry.combine import difference, union
from jawcam.geometry.cut import along
from jawcam.geometry.measure import inside_distances
from jawcam.geometry.narrow import substantial
from jawcam.geometry.offset import grow
from jawcam.geometry.shapes import Path, Region, polygon
from jawcam.geometry.sweep import slid_along_x
from jawcam.hold.target import Blanks
from jawcam.part.solid import Slab
from jawcam.tolerance import Tolerance

__all__ = ["MOST_LEVELS", "CutLevel", "blank_regions", "cavity_levels", "pockets_of"]


MOST_LEVELS = 60
"""So many levels of a cavity are cut; finer steps cost hours (common practice, no source)."""

_SPACING = 0.1  # mm


@dataclass(frozen=True)
class CutLevel:
    """One level of the cavity: its heights, the part's outlines between them, and its pockets
    (regions without holes), as exact lines and arcs in jaw coordinates."""

    top: float
    floor: float
    outlines: tuple[Path, ...]
    pockets: tuple[Region, ...]


def cavity_levels(
    slabs: Sequence[Slab], depth: float, grip: float, side: float, tolerance: Tolerance
) -> tuple[CutLevel, ...]:
    """The levels of the cavity, from the jaw top down to the seat `depth` below it.

    slabs: the part as it lies, from its underside up. What stands above the jaw top is left out;
    neighbouring levels with the same cavity are one. It stops at one more than `MOST_LEVELS`.
    """
    levels: list[CutLevel] = []
    below: tuple[Region, ...] = ()
    for slab in slabs:
        floor, top = slab.bottom - depth, min(slab.top - depth, 0.0)
        if floor >= 0 or len(levels) > MOST_LEVELS:
            break
        pockets = _over(pockets_of(slab.outlines, grip, side, tolerance), below, tolerance)
        if levels and _covers(below, pockets, tolerance):
            last = levels[-1]
            levels[-1] = replace(last, top=top, outlines=_distinct(last.outlines, slab.outlines))
        else:
            levels.append(CutLevel(top, floor, slab.outlines, pockets))
            below = pockets
    return tuple(reversed(levels))


def pockets_of(
    outlines: Sequence[Path], grip: float, side: float, tolerance: Tolerance
) -> tuple[Region, ...]:
    """Outlines grown by `grip` all round, then swept `side` either way along X, so that play
    along the jaws does not loosen the grip between them. Holes of the part are not holes of the
    pocket, and a hollow that the clearance closes off is cut away too."""
    regions: tuple[Region, ...] = tuple(Region(outline) for outline in outlines)
    regions = union(regions, tolerance) if len(regions) > 1 else regions
    grown = grow(_filled(regions), grip, tolerance)
    swept = [part for region in _filled(grown) for part in slid_along_x(region, side, tolerance)]
    return _filled(union(swept, tolerance) if len(swept) > 1 else swept)


def blank_regions(blanks: Blanks) -> tuple[Region, Region]:
    """The two blanks seen from above: the one at +Y, then the one at -Y."""
    near, far, half = blanks.gap / 2, blanks.gap / 2 + blanks.thickness, blanks.width / 2
    back = polygon([(-half, near), (half, near), (half, far), (-half, far)])
    front = polygon([(-half, -far), (half, -far), (half, -near), (-half, -near)])
    return Region(back), Region(front)


def _over(
    pockets: tuple[Region, ...], below: tuple[Region, ...], tolerance: Tolerance
) -> tuple[Region, ...]:
    """The pockets of a level and of all below it, left as exact as they are where one of the two
    covers the other."""
    if _covers(pockets, below, tolerance):
        return pockets
    if _covers(below, pockets, tolerance):
        return below
    return _filled(union([*pockets, *below], tolerance))


def _covers(whole: Sequence[Region], part: Sequence[Region], tolerance: Tolerance) -> bool:
    """Whether `whole` holds all of `part`, but for rounding.

    Points along the boundary settle most cases: a distance from an edge changes by no more than
    half their spacing between two of them.
    """
    if not part or whole == part:
        return True
    if not whole:
        return False
    inside = inside_distances(whole, _sampled(part))
    if inside.min() >= _SPACING / 2:
        return True
    if inside.min() < -_SPACING / 2:
        return False
    return not substantial(difference(part, whole, tolerance), tolerance)


def _sampled(regions: Sequence[Region]) -> Floats:
    """Points along the boundaries, (n, 2), none farther than `_SPACING` from the next."""
    segments = [s for region in regions for path in region.paths for s in path.segments]
    return np.array([point for s in segments for point in along(s, _SPACING)])


def _filled(regions: Sequence[Region]) -> tuple[Region, ...]:
    return tuple(Region(region.outer) for region in regions)


def _distinct(some: tuple[Path, ...], more: tuple[Path, ...]) -> tuple[Path, ...]:
    return tuple(dict.fromkeys((*some, *more)))
