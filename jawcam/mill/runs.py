"""Runs of a smaller cutter along a wall that a larger one is too round for: from where that one has
been, along what it left, and back to where it has been."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from jawcam.geometry.cut import along
from jawcam.geometry.measure import distances, inside_distances, nearest_on
from jawcam.geometry.offset import grow
from jawcam.geometry.shapes import Path, Point, Region
from jawcam.mill.links import straight_way
from jawcam.tolerance import Tolerance

__all__ = ["BLEND", "LEAST", "OFF", "Run", "beside", "by_place", "in_the_clear", "meets"]

BLEND = 0.2
"""mm of wall before and after what is left that the smaller cutter follows too, so that the two
surfaces run into each other (common practice, no source)."""

OFF = 0.2
"""mm that the smaller cutter keeps off what is left where it goes down and up."""

LEAST = 1e-4
"""mm; a bite of less is rounding."""


@dataclass(frozen=True)
class Run:
    """One stretch for the smaller cutter's centre: down in the clear at `down`, straight over to
    the path, along it, and straight back to `up`. widths: the bite along each of the path's
    segments, in mm, where it is known."""

    down: Point
    path: Path
    up: Point
    widths: tuple[float, ...] = ()


def in_the_clear(
    centre: Sequence[Region], larger: float, smaller: float, tolerance: Tolerance
) -> tuple[Region, ...]:
    """Where a cutter of the radius `smaller` (mm) touches nothing that one of the radius `larger`
    left. centre: where that one's centre has been."""
    spare = larger - smaller
    return grow(centre, spare - min(OFF, spare / 2), tolerance)


def beside(
    place: Point, clear: Sequence[Region], way: Sequence[Region], most: float = math.inf
) -> Point | None:
    """Where to come down for a cut that begins at `place`: at a point of the border of `clear` from
    where a straight way leads over, within `way` and no longer than `most` mm; None if there is
    none."""
    near = [nearest_on(path, place)[1] for region in clear for path in region.paths]
    for point in sorted(near, key=lambda p: math.dist(p, place)):
        if math.dist(point, place) <= most and straight_way(point, place, way):
            return point
    return None


def meets(path: Path, places: Sequence[Region], radius: float) -> bool:
    """Whether a cutter of `radius` mm touches any of the places on its way."""
    points = np.array([p for segment in path.segments for p in along(segment, radius / 8)])
    return bool((inside_distances(places, points) > -radius).any())


def by_place(found: Sequence[Run], dia: float) -> list[list[Run]]:
    """Runs that come within the cutter's diameter of each other, in their order: one of them may
    only go where another one has been."""
    groups: list[list[int]] = []
    for number, run in enumerate(found):
        points = np.array([p for segment in run.path.segments for p in along(segment, dia / 8)])
        near = [distances([one.path], points).min() < dia for one in found]
        mine = [group for group in groups if any(near[k] for k in group)]
        others = [group for group in groups if group not in mine]
        groups = [*others, sorted([number, *(k for group in mine for k in group)])]
    return [[found[k] for k in group] for group in sorted(groups)]
