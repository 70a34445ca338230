"""Rings for clearing a region: one inside the other, each offset straight from the source."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property

from jawcam.geometry.measure import contains, roomiest
from jawcam.geometry.offset import shrink
from jawcam.geometry.shapes import Point, Region
from jawcam.tolerance import Tolerance

__all__ = ["Ring", "rings"]


@dataclass(frozen=True)
class Ring:
    """One ring: the region whose boundary it runs along, its level (0 is the outermost) and the
    rings of the next level that lie inside it."""

    region: Region
    level: int
    inner: tuple[Ring, ...]

    @cached_property
    def middle(self) -> tuple[Point, float]:
        """The roomiest point of the region and its distance from the boundary, in mm."""
        return roomiest(self.region)


def rings(
    regions: Sequence[Region], first: float, step: float, tolerance: Tolerance
) -> tuple[Ring, ...]:
    """Ring k runs first + k * step mm inside the boundary of the regions; nested, outermost first.

    With `step` no larger than the cutter's radius nothing is left standing between the rings.
    """
    room = max((roomiest(region, 0.1)[1] for region in regions), default=0.0) + 0.1
    levels: list[tuple[Region, ...]] = []
    # an offset that comes to nothing is by far the slowest, so it is not tried
    while (not levels or levels[-1]) and first + len(levels) * step < room:
        levels.append(shrink(regions, first + len(levels) * step, tolerance))
    levels.append(())
    nested: list[Ring] = []
    for number in range(len(levels) - 2, -1, -1):
        nested = [
            Ring(
                region, number, tuple(r for r in nested if contains([region], r.region.outer.start))
            )
            for region in levels[number]
        ]
    return tuple(nested)
