"""Bolts: the cutter misses each, beside it or above."""

from __future__ import annotations

import math

import numpy as np
import shapely

from jawcam.hold.target import Bolt
from jawcam.proof.move import Move, below
from jawcam.proof.report import Finding
from jawcam.proof.scene import Scene
from jawcam.proof.sweep import path

__all__ = ["bolt_clearance", "bolts"]


def bolts(scene: Scene) -> list[Finding]:
    """A finding for each bolt that the cutter hits or passes close by."""
    found = []
    mend = "move the part, or the bolt, or take a smaller cutter there"
    for number, bolt in enumerate(scene.target.bolts, start=1):
        left, move = _nearest(scene, bolt)
        if move is None or left >= scene.limits.bolt:
            continue
        at = (bolt.x, bolt.y, max(bolt.top, move.low))
        name = f"bolt {number} (dia {scene.say(bolt.dia)}, top at {scene.say(bolt.top)})"
        if left < 0:
            what = f"T{move.cutter.number} cuts {scene.say(-left)} into {name}"
            found.append(scene.find("P705", "stop", what, by=move, at=at, amount=left, mend=mend))
        else:
            what = f"T{move.cutter.number} passes {scene.say(left)} off {name}"
            found.append(scene.find("P706", "warn", what, by=move, at=at, amount=left, mend=mend))
    return found


def bolt_clearance(scene: Scene) -> float | None:
    """The least distance of the cutter and a bolt, mm; negative: how far it goes in."""
    near = (_nearest(scene, bolt) for bolt in scene.target.bolts)
    return min((left for left, move in near if move is not None), default=None)


def _nearest(scene: Scene, bolt: Bolt) -> tuple[float, Move | None]:
    """The least distance of the cutter and a bolt, and the first move that comes so near."""
    if not scene.moves:
        return math.inf, None
    centre, reach = shapely.Point(bolt.x, bolt.y), bolt.dia / 2
    aside = shapely.distance(scene.tracks, centre)
    aside -= np.array([move.radius for move in scene.moves]) + reach
    left = [
        _apart(move, float(gap), bolt, centre) for move, gap in zip(scene.moves, aside, strict=True)
    ]
    first = int(np.argmin(left))
    return left[first], scene.moves[first]


def _apart(move: Move, aside: float, bolt: Bolt, centre: shapely.Geometry) -> float:
    """How far a move keeps off a bolt. aside: how far in plan.

    A move that comes down past the bolt's top is measured where it is below it.
    """
    if move.low >= bolt.top:
        return math.hypot(max(aside, 0.0), move.low - bolt.top)
    if move.high <= bolt.top:
        return aside
    low = below(move, bolt.top)
    track = path(low) if low else path(move)
    return float(shapely.distance(track, centre)) - move.radius - bolt.dia / 2
