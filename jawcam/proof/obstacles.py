"""Obstacles: the cutter misses what stands beside the blanks, or beside a part that is seated in
them. Bolts beside blanks have a check of their own."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from types import MappingProxyType
from typing import NamedTuple

import numpy as np

from jawcam.proof.bodies import Block, Body, Kind, cutting, lefts, meeting
from jawcam.proof.move import Move
from jawcam.proof.report import Finding, Grade
from jawcam.proof.scene import Scene

__all__ = ["obstacles"]

TOUCH = 1e-6
"""mm; what goes in by less only touches."""


class _Said(NamedTuple):
    """The codes for one that is hit and one that is close by, and how to mend it."""

    hit: str
    close: str
    mend: str


_SAID: Mapping[Kind, _Said] = MappingProxyType(
    {
        "bolt": _Said("P705", "P706", "keep off it, or take a smaller cutter there"),
        "vise": _Said(
            "P707", "P708", "set the blanks higher in the vise, or keep the cut off its edge"
        ),
        "spacer": _Said("P709", "P710", "set the spacer lower, or keep the cut off it"),
        "jaw": _Said(
            "P711", "P712", "stay farther above the jaws or off them, or hold the part less deep"
        ),
    }
)


class _Near(NamedTuple):
    """How far a body of a cutter keeps off a block on a move, negative if it goes in."""

    left: float
    move: Move
    body: Body
    block: Block


def obstacles(scene: Scene) -> list[Finding]:
    """A finding for each one that a cutter hits or passes close by."""
    found = []
    for name in dict.fromkeys(block.name for block in scene.blocks):
        own = [block for block in scene.blocks if block.name == name]
        kind = own[0].kind
        if kind == "bolt" and not scene.seated:
            continue
        keep = scene.limits.jaw if kind == "jaw" else scene.limits.bolt
        near = list(_near(scene, own, keep))
        if near:
            found.append(_finding(scene, near))
    return found


def _near(scene: Scene, blocks: Sequence[Block], keep: float) -> Iterator[_Near]:
    """Where a cutter comes nearer than `keep`, move by move."""
    radii = np.array([move.radius for move in scene.moves])
    low = np.array([move.low for move in scene.moves])
    for block in blocks:
        close = (block.aside(scene.tracks) - radii < keep) & (low < block.top + keep)
        some = np.flatnonzero(close)
        for cutter in dict.fromkeys(scene.moves[i].cutter for i in some):
            rows = [i for i in some if scene.moves[i].cutter == cutter]
            own = [scene.moves[i] for i in rows]
            for body in cutting(cutter):
                left = lefts(own, scene.tracks[rows], body, block)
                rated = zip(left, own, strict=True)
                yield from (_Near(a, move, body, block) for a, move in rated if a < keep)


def _finding(scene: Scene, near: Sequence[_Near]) -> Finding:
    """By the move that comes nearest, the first of several."""
    left, move, body, block = min(near, key=lambda one: (one.left, one.move.index))
    said, tool, at = _SAID[block.kind], f"T{move.cutter.number}", meeting(move, body, block)
    if left >= -TOUCH:
        code, what = said.close, f"{tool} passes {scene.say(max(left, 0.0))} off {block.name}"
        return scene.find(code, "warn", what, by=move, at=at, amount=left, mend=said.mend)
    way = "goes at rapid" if move.kind == "rapid" else "cuts"
    lines = {one.move.line for one in near if one.left < -TOUCH} - {move.line}
    also = f"; so do {len(lines)} more lines" if len(lines) > 1 else ""
    also = f"; so does line {min(lines)}" if len(lines) == 1 else also
    what = f"{tool} {way} {scene.say(-left)} into {block.name}{also}"
    grade: Grade = "stop"
    return scene.find(said.hit, grade, what, by=move, at=at, amount=left, mend=said.mend)
