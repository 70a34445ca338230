"""The tiers of the cavity: what may be cut, and what must be, down to each of its floors.

A part goes in from above, so the cavity at a height is what the outlines of its own level and of
all levels below cover, and never grows on the way down. A flat cutter clears all above its tip: it
may be wherever the tier that its tip is in reaches to. The tiers are the levels, the floors of
reliefs that end elsewhere, the blanks' top if it is faced, and the groove at the foot of the seat.
"""

from __future__ import annotations

import itertools
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import Literal, NamedTuple

import numpy as np
import shapely

from jawcam.hold.target import Target
from jawcam.proof.cavity import (
    blanks_area,
    edges,
    filled,
    gap_area,
    hole_area,
    outline_area,
    relief_area,
    shrunk,
)
from jawcam.proof.curve import Floats
from jawcam.proof.limits import Limits
from jawcam.proof.sweep import Shapes

__all__ = ["Kind", "Tier", "tier_at", "tiers_of"]

Kind = Literal["face", "level", "seat", "groove"]


@dataclass(frozen=True)
class Tier:
    """The heights from one floor up to the next; areas in plan.

    foretold: the floor by which the job names places that no cutter reaches in it; rough: how far
    above the floor cuts are still meant to be it. cavity: where a flat cutter may be; shelf: what
    of the blanks must be cleared down to the floor, and no deeper; stay: what of the blanks must
    not be cut; gap: where there is nothing to cut.
    """

    kind: Kind
    floor: float
    foretold: float
    rough: float
    cavity: shapely.Geometry
    shelf: shapely.Geometry
    stay: shapely.Geometry
    gap: shapely.Geometry

    @cached_property
    def free(self) -> shapely.Geometry:
        """Where a flat cutter takes nothing that must stay: the cavity and the gap."""
        return shapely.union(self.cavity, self.gap)

    @cached_property
    def free_edges(self) -> shapely.STRtree:
        """The stretches of the edge of `free`."""
        rings = (shapely.get_coordinates(ring) for ring in edges(self.free))
        ends = [np.stack((points[:-1], points[1:]), axis=1) for points in rings]
        return shapely.STRtree(shapely.linestrings(np.concatenate(ends)))

    def bites(self, tracks: Shapes, radii: Floats) -> Floats:
        """How far cutters of these radii reach into what stays, as seen from their centre lines;
        minus infinity where they keep away."""
        shapely.prepare(self.stay)
        near = shapely.dwithin(self.stay, tracks, radii)
        bites = np.full(len(radii), -np.inf)
        bites[near] = radii[near] - shapely.distance(tracks[near], self.stay)
        return bites


class _Floor(NamedTuple):
    """What may be cleared down to a height, and what must be."""

    kind: Kind
    z: float
    foretold: float
    may: shapely.Geometry
    must: shapely.Geometry


def tiers_of(target: Target, limits: Limits) -> tuple[Tier, ...]:
    """All the tiers of a target, from the top down."""
    blanks, gap = blanks_area(target.blanks), gap_area(target.blanks)
    floors = _floors(target, limits)
    tiers = []
    for k, floor in enumerate(floors):
        above = floors[k - 1].z if k else np.inf
        shelf = shapely.intersection(floor.must, blanks)
        if k + 1 < len(floors):
            shelf = shapely.difference(shelf, floors[k + 1].must)
        rough = float(min(limits.rough, (above - floor.z) / 2))
        stay = shapely.difference(blanks, floor.may)
        made = Tier(floor.kind, floor.z, floor.foretold, rough, floor.may, shelf, stay, gap)
        tiers.append(made)
    return tuple(tiers)


def tier_at(tiers: Sequence[Tier], z: float, level: float) -> int:
    """Which tier a tip at the height `z` is in; the last one if it is below all. level: heights
    nearer to each other than this are one."""
    for k, tier in enumerate(tiers):
        if z >= tier.floor - level:
            return k
    return len(tiers) - 1


def _floors(target: Target, limits: Limits) -> list[_Floor]:
    """From the top down."""
    floors: list[_Floor] = []
    outlines = shapely.Polygon()
    seen = set()
    heights = _heights(target, limits.level)
    for z in heights:
        new = [
            loop
            for level in target.levels
            if level.floor <= z + limits.level
            for loop in level.outlines
            if loop not in seen
        ]
        seen.update(new)
        areas = [outline_area(loop, target.grip, target.side) for loop in dict.fromkeys(new)]
        outlines = filled(shapely.union_all([outlines, *areas]))
        reliefs = [relief_area(r) for r in target.reliefs if r.floor <= z + limits.level]
        cut = shapely.union_all([outlines, *reliefs])
        if not floors and target.groove is not None:
            floors.append(_groove(target, outlines, cut, limits.level))
        kind: Kind = "seat" if abs(z - target.floor) <= limits.level else "level"
        floors.append(_with_holes(_Floor(kind, z, z, cut, cut), target, limits.level))
    if target.facing > 0:
        blanks = blanks_area(target.blanks)
        anywhere = shapely.buffer(shapely.envelope(blanks), 1e3, join_style="mitre")
        floors.append(_Floor("face", 0.0, 0.0, anywhere, blanks))
    return floors[::-1]


def _heights(target: Target, level: float) -> list[float]:
    """All the floors' heights, from the deepest up."""
    heights = sorted({*(lv.floor for lv in target.levels), *(r.floor for r in target.reliefs)})
    apart = [b for a, b in itertools.pairwise(heights) if b - a > level]
    return [heights[0], *apart]


def _groove(
    target: Target, outlines: shapely.Geometry, cut: shapely.Geometry, level: float
) -> _Floor:
    """The groove; in reliefs and drilled holes beside it its cutter may be, but need not."""
    assert target.groove is not None
    inner = shrunk(outlines, target.groove.width)
    beside = [relief_area(relief) for relief in target.reliefs]
    beside += [hole_area(hole) for hole in target.drilled if hole.floor <= target.floor + level]
    may, must = shapely.difference(cut, inner), shapely.difference(outlines, inner)
    must = shapely.difference(must, shapely.union_all(beside))
    z = target.floor - target.groove.depth
    return _with_holes(_Floor("groove", z, target.floor, may, must), target, level)


def _with_holes(floor: _Floor, target: Target, level: float) -> _Floor:
    """With the drilled holes, in which nothing else needs to cut: they are checked apart."""
    holes = [hole_area(hole) for hole in target.drilled if hole.floor <= floor.z + level]
    if not holes:
        return floor
    drilled = shapely.union_all(holes)
    may, must = shapely.union(floor.may, drilled), shapely.difference(floor.must, drilled)
    return floor._replace(may=may, must=must)
