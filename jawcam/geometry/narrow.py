"""Where a region is too narrow for a disc, or too sharp in its corners."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from jawcam.geometry.combine import difference
from jawcam.geometry.measure import roomiest
from jawcam.geometry.offset import grow, shrink
from jawcam.geometry.shapes import Point, Region
from jawcam.tolerance import Tolerance

__all__ = ["SPECK", "Narrow", "substantial", "too_narrow"]

SPECK = 0.001
"""mm; a place where no larger disc fits is rounding, not material."""


@dataclass(frozen=True)
class Narrow:
    """A place that a disc can't reach: its shape, its roomiest point, and the diameter (mm) of
    the largest disc that does fit there."""

    region: Region
    at: Point
    size: float


def too_narrow(regions: Sequence[Region], dia: float, tolerance: Tolerance) -> tuple[Narrow, ...]:
    """The places of the regions that a disc of `dia` mm, kept inside, does not cover."""
    reached = grow(shrink(regions, dia / 2, tolerance), dia / 2, tolerance)
    return substantial(difference(regions, reached, tolerance))


def substantial(regions: Sequence[Region]) -> tuple[Narrow, ...]:
    """Those regions that are more than rounding, measured."""
    found = []
    for region in regions:
        if region.area > SPECK**2:
            at, room = roomiest(region, SPECK / 4)
            if 2 * room > SPECK:
                found.append(Narrow(region, at, 2 * room))
    return tuple(found)
