"""The figures of a lathe report: what was measured, and what the program removes and costs."""

from __future__ import annotations

import math
from collections.abc import Sequence

import shapely

from jawcam.proof.report import Figures, Finding
from jawcam.proof.turning.gouge import Bite, worst_bite
from jawcam.proof.turning.material import History
from jawcam.proof.turning.scene import Scene
from jawcam.proof.turning.times import minutes

__all__ = ["figures", "revolved"]


def figures(
    scene: Scene, past: History, found: Sequence[Finding], bitten: Sequence[Bite]
) -> Figures:
    """All of them. found: what the checks came to; area: of the half section."""
    feeds = [move for move in scene.moves if move.kind != "rapid"]
    rapids = [move for move in scene.moves if move.kind == "rapid"]
    left = [f.amount for f in found if f.code in ("T301", "T302") and f.amount is not None]
    removed = shapely.difference(scene.section.stock, past.remaining)
    return Figures(
        gouge=worst_bite(bitten),
        left_over=max(left, default=0.0),
        feed_length=math.fsum(move.length for move in feeds),
        rapid_length=math.fsum(move.length for move in rapids),
        feed_minutes=math.fsum(minutes(move, scene.rapid) for move in feeds),
        rapid_minutes=math.fsum(minutes(move, scene.rapid) for move in rapids),
        area=float(removed.area),
        volume=revolved(removed),
    )


def revolved(area: shapely.Geometry) -> float:
    """The volume of an area turned about the axis, mm3: its size times the way of its centroid
    (Pappus)."""
    if area.is_empty or area.area == 0:
        return 0.0
    return math.tau * float(area.centroid.y) * float(area.area)
