"""The uncut material that a cutter meets on its way, whatever its shape."""

from __future__ import annotations

import itertools
from collections.abc import Iterator
from dataclasses import replace

import numpy as np
import shapely

from jawcam.proof.form import pointed, radius_at
from jawcam.proof.move import Move, slices
from jawcam.proof.rounded import as_flats
from jawcam.proof.scene import Scene

__all__ = ["fed_to", "flats", "touched"]


def touched(scene: Scene, move: Move, *, spare: float, lift: float) -> shapely.Geometry:
    """The uncut material that a move meets, in plan, empty if there is none.

    spare: by how much the cutter is taken thinner, mm; lift: and higher. A drill meets none as far
    down as it has fed before at the same place.
    """
    met = [
        scene.stock.touched(flat, spare=spare, lift=lift)
        for flat in flats(scene, move, spare=spare, lift=lift)
    ]
    return shapely.union_all(met) if met else shapely.Polygon()


def flats(scene: Scene, move: Move, *, spare: float, lift: float) -> list[Move]:
    """A move as those of flat cutters that meet the same, none for a drill that goes down where it
    has fed before."""
    use = scene.role(move)
    if use in ("drill", "spot") and move.low >= fed_to(scene, move) - scene.limits.level:
        return []
    if use == "drill" or (use == "mill" and pointed(move.cutter)):
        return [move]
    if use == "mill":
        return [flat for flat in as_flats(move, scene.limits) if flat.radius > spare]
    return [flat for flat in _of_a_cone(scene, move, lift) if flat.radius > spare]


def fed_to(scene: Scene, move: Move) -> float:
    """The lowest Z that the same drill has fed down to at the same place before, else infinity."""
    if not move.upright:
        return np.inf
    before = (m for m in scene.drilled if m.index < move.index and m.kind != "rapid" and m.upright)
    same = (m.low for m in before if m.cutter == move.cutter and m.start[:2] == move.start[:2])
    return min(same, default=np.inf)


def _of_a_cone(scene: Scene, move: Move, lift: float) -> Iterator[Move]:
    """Between two heights at which cuts end the material is the same, so the cone's radius at the
    upper one counts for both."""
    level = scene.stock.low[scene.stock.low == scene.stock.high]
    inside = level[(level > move.low) & (level < scene.target.facing)]
    heights = [move.low, *np.unique(inside).tolist(), scene.target.facing]
    for low, high in itertools.pairwise(heights):
        wide = replace(move.cutter, dia=2 * radius_at(move.cutter, high - move.low - lift))
        for piece in slices(replace(move, cutter=wide)):
            up = low - move.low
            yield replace(
                piece,
                start=(*piece.start[:2], piece.low + up),
                end=(*piece.end[:2], piece.low + up),
            )
