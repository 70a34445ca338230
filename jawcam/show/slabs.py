"""The jaws in slabs, as an oblique view builds them up: below each height one shape in plan."""

from __future__ import annotations

import itertools
from typing import NamedTuple

import shapely
from shapely.geometry.base import BaseGeometry

from jawcam.show.scene import Scene

__all__ = ["Slab", "slabs_of"]

SAME = 1e-6
"""Heights nearer to each other than this, in the picture's units, are one."""

QUARTER = 16
"""Chords to a quarter of a drilled hole."""


class Slab(NamedTuple):
    """What stays of the blanks between two heights, in plan."""

    low: float
    high: float
    shape: BaseGeometry


def slabs_of(scene: Scene) -> tuple[Slab, ...]:
    """The slabs, from the lowest up. Between two of their heights nothing changes but the broken
    edges and the points of drills, which are left out."""
    heights = [level.floor for level in scene.levels] + [relief.floor for relief in scene.reliefs]
    heights += [bore.floor for bore in scene.bores]
    if scene.groove is not None:
        heights.append(scene.groove_floor)
    inside = sorted(z for z in heights if scene.bottom + SAME < z < scene.top - SAME)
    cuts = [scene.bottom]
    cuts += [z for k, z in enumerate(inside) if k == 0 or z - inside[k - 1] > SAME]
    cuts.append(scene.top)
    blanks = shapely.union_all(scene.blanks)
    return tuple(
        Slab(low, high, blanks.difference(_cut_out(scene, (low + high) / 2)))
        for low, high in itertools.pairwise(cuts)
    )


def _cut_out(scene: Scene, z: float) -> BaseGeometry:
    """All that is cut out of the blanks at a height."""
    pieces = [level.cavity for level in scene.levels if level.floor < z]
    pieces += [relief.shape for relief in scene.reliefs if relief.floor < z]
    pieces += [
        shapely.Point(bore.x, bore.y).buffer(bore.radius, quad_segs=QUARTER)
        for bore in scene.bores
        if bore.floor < z
    ]
    if scene.groove is not None and scene.groove_floor < z < scene.floor:
        pieces.append(scene.groove)
    return shapely.union_all(pieces)
