"""Where a region is too narrow for a disc, or too sharp in its corners."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from jawcam.geometry.combine import difference
from jawcam.geometry.measure import roomiest
from jawcam.geometry.offset import grow, shrink
from jawcam.geometry.shapes import Point, Region
from jawcam.tolerance import Tolerance

__all__ = ["SPECK", "Narrow", "substantial", "too_narrow"]

SPECK = 0.004
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
    return substantial(difference(regions, reached, tolerance), tolerance)


def substantial(regions: Sequence[Region], tolerance: Tolerance) -> tuple[Narrow, ...]:
    """What of the regions is more than rounding, in separate places, measured.

    Places that only hang together by a thread (where two outlines should coincide) are parted.
    """
    fine = replace(tolerance, chord=tolerance.chord / 10)
    found = []
    cores = [core for region in regions for core in shrink([region], SPECK / 2, fine)]
    for core in cores:
        at, room = roomiest(core, SPECK / 4)
        place = next(iter(grow([core], SPECK / 2, fine)), core)
        found.append(Narrow(place, at, 2 * room + SPECK))
    return tuple(found)
