"""The vise: the cutter misses its own jaws, which stand behind the blanks, and its bed."""

from __future__ import annotations

import numpy as np

from jawcam.proof.bodies import Block, Body, Near, blocks_of, nearest
from jawcam.proof.report import Finding
from jawcam.proof.scene import Scene

__all__ = ["vise"]


def vise(scene: Scene) -> list[Finding]:
    """A finding for each part of the vise that a cutter hits or passes close by."""
    found = []
    for block in blocks_of(scene.target, bolts=False):
        near = _nearest(scene, block)
        if near is None or near.left >= scene.limits.bolt:
            continue
        left, move = near
        tool, at = f"T{move.cutter.number}", (*move.end[:2], max(block.top, move.low))
        mend = "set the blanks higher in the vise, or keep the cut off its edge"
        if left < 0:
            what = f"{tool} cuts {scene.say(-left)} into {block.name}"
            found.append(scene.find("P707", "stop", what, by=move, at=at, amount=left, mend=mend))
        else:
            what = f"{tool} passes {scene.say(left)} off {block.name}"
            found.append(scene.find("P708", "warn", what, by=move, at=at, amount=left, mend=mend))
    return found


def _nearest(scene: Scene, block: Block) -> Near | None:
    """How near any cutter comes, of all radii."""
    radii = np.array([move.radius for move in scene.moves])
    best: Near | None = None
    for radius in np.unique(radii).tolist():
        some = np.flatnonzero(radii == radius)
        own = [scene.moves[i] for i in some]
        near = nearest(own, scene.tracks[some], Body("cutter", radius, 0.0), block)
        if near is not None and (best is None or near.left < best.left):
            best = near
    return best
