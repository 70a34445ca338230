"""Plunges: a cutter that can't cut at its centre must come down gently, or where it is clear."""

from __future__ import annotations

import math

from jawcam.proof.move import Move
from jawcam.proof.report import Finding
from jawcam.proof.scene import Scene
from jawcam.proof.touch import touched

__all__ = ["plunges"]


def plunges(scene: Scene) -> list[Finding]:
    """One finding for each steep way down into uncut material; drills are made for it."""
    return [
        _finding(scene, move)
        for move in scene.low
        if move.kind != "rapid"
        and scene.role(move) not in ("drill", "spot")
        and not move.cutter.centre_cutting
        and _angle(move) > scene.limits.steep
        and _meets(scene, move)
    ]


def _angle(move: Move) -> float:
    """How steeply a move goes down, in degrees."""
    return math.degrees(math.atan2(move.start[2] - move.end[2], move.flat_length))


def _meets(scene: Scene, move: Move) -> bool:
    spare, lift = scene.limits.rapid, scene.limits.plunge
    return not touched(scene, move, spare=spare, lift=lift).is_empty


def _finding(scene: Scene, move: Move) -> Finding:
    cutter = f"T{move.cutter.number}, which doesn't cut at its centre,"
    depth, angle = move.start[2] - move.end[2], _angle(move)
    mend = "go down along a helix or a ramp, or give the tool centre_cutting = true if it is"
    if move.upright:
        what = f"{cutter} goes straight down into material"
        return scene.find("P601", "stop", what, by=move, amount=depth, mend=mend)
    what = f"{cutter} goes down into material at {angle:.1f} degrees"
    return scene.find("P602", "stop", what, by=move, amount=depth, mend=mend)
