"""Where a cutter on its way first meets material."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise

import numpy as np
import shapely

from jawcam.proof.move import Move
from jawcam.proof.scene import Place, Scene
from jawcam.proof.touch import touched

__all__ = ["first_contact"]

SPACING = 0.02
"""mm between the points of the material's edge that are looked at."""


def first_contact(
    scene: Scene, move: Move, met: shapely.Geometry, *, spare: float, lift: float
) -> Place:
    """The point of the material that a straight move meets first, at the height that the tip is at
    then, in jaw coordinates. met: all that it meets, in plan; spare, lift: as for `touched`.

    A disc of radius R meets a point that lies `ahead` of it and `aside` of its way when it has gone
    ahead - sqrt(R^2 - aside^2). Straight down, the material's top is met.
    """
    if move.upright:
        return (*move.end[:2], _top(scene, move, spare, lift))
    length, (x0, y0, z0), (x1, y1, z1) = move.flat_length, move.start, move.end
    ux, uy = (x1 - x0) / length, (y1 - y0) / length
    points = shapely.get_coordinates(shapely.segmentize(met, SPACING))
    dx, dy = points[:, 0] - x0, points[:, 1] - y0
    aside = np.minimum(np.abs(dx * uy - dy * ux), move.radius)
    gone = np.maximum(dx * ux + dy * uy - np.sqrt(move.radius**2 - aside**2), 0.0)
    first = int(np.lexsort((aside, np.round(gone, 6)))[0])
    share = min(float(gone[first]) / length, 1.0)
    return float(points[first, 0]), float(points[first, 1]), z0 + (z1 - z0) * share


def _top(scene: Scene, move: Move, spare: float, lift: float) -> float:
    """How high the material stands under a move straight down: at one of the heights that cuts
    have cleared to."""
    levels = {rung.z for rung in scene.stock.rungs if move.low < rung.z < move.high}
    heights = [move.high, *sorted(levels, reverse=True), move.low]
    for high, low in pairwise(heights):
        piece = replace(move, end=(*move.end[:2], low if low == move.low else (high + low) / 2))
        if not touched(scene, piece, spare=spare, lift=lift).is_empty:
            return high
    return move.low
