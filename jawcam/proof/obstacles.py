"""Obstacles: the cutter misses what stands beside the blanks. Bolts have a check of their own."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType
from typing import NamedTuple

import numpy as np

from jawcam.proof.bodies import Block, Kind, Near, cutting, meeting, nearest
from jawcam.proof.report import Finding, Grade
from jawcam.proof.scene import Scene

__all__ = ["obstacles"]


class _Said(NamedTuple):
    """The codes for one that is hit and one that is close by, and how to mend it."""

    hit: str
    close: str
    mend: str


_SAID: Mapping[Kind, _Said] = MappingProxyType(
    {
        "vise": _Said(
            "P707", "P708", "set the blanks higher in the vise, or keep the cut off its edge"
        ),
        "spacer": _Said("P709", "P710", "set the spacer lower, or keep the cut off it"),
    }
)


def obstacles(scene: Scene) -> list[Finding]:
    """A finding for each one that a cutter hits or passes close by."""
    found = []
    for block in scene.blocks:
        near = _nearest(scene, block) if block.kind in _SAID else None
        if near is None or near.left >= scene.limits.bolt:
            continue
        left, move, body = near
        said, tool, at = _SAID[block.kind], f"T{move.cutter.number}", meeting(move, body, block)
        code, what = said.close, f"{tool} passes {scene.say(left)} off {block.name}"
        if left < 0:
            code, what = said.hit, f"{tool} cuts {scene.say(-left)} into {block.name}"
        grade: Grade = "stop" if left < 0 else "warn"
        found.append(scene.find(code, grade, what, by=move, at=at, amount=left, mend=said.mend))
    return found


def _nearest(scene: Scene, block: Block) -> Near | None:
    """How near any cutter comes."""
    numbers = np.array([move.cutter.number for move in scene.moves])
    best: Near | None = None
    for cutter in dict.fromkeys(move.cutter for move in scene.moves):
        some = np.flatnonzero(numbers == cutter.number)
        own, tracks = [scene.moves[i] for i in some], scene.tracks[some]
        for body in cutting(cutter):
            near = nearest(own, tracks, body, block)
            if near is not None and (best is None or near.left < best.left):
                best = near
    return best
