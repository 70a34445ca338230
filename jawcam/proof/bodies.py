"""What a tool is above its flutes, what stands beside the blanks, and how near the two come."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal, NamedTuple

import numpy as np
import shapely

from jawcam.hold.target import Target
from jawcam.proof.curve import Floats
from jawcam.proof.move import Move, below
from jawcam.proof.sweep import Shapes, path
from jawcam.tools.cutter import Cutter

__all__ = ["RUB", "Block", "Body", "Near", "blocks_of", "bodies_of", "holder_of", "nearest"]

RUB = 0.005
"""mm; a shank that comes nearer than this to a wall rubs on it (common practice, no source)."""

FAR = 1e4
"""mm; as far as anything reaches whose end the job doesn't tell."""


@dataclass(frozen=True)
class Body:
    """A part of a tool, and all of the tool above it is at least as wide: how wide, and how far
    its underside is above the tip; mm."""

    name: Literal["cutter", "shank", "holder"]
    radius: float
    height: float


@dataclass(frozen=True)
class Block:
    """Something beside the blanks that must stay, from the Z `top` down: what it is, in words; in
    plan all within a radius of a place or an area."""

    name: str
    place: shapely.Geometry
    radius: float
    top: float

    def aside(self, tracks: Shapes) -> Floats:
        """How far centre lines pass it in plan, mm; negative in it."""
        apart: Floats = shapely.distance(tracks, self.place) - self.radius
        return apart


class Near(NamedTuple):
    """How far a body keeps off a block, mm, negative if it goes in; and the first move that comes
    so near."""

    left: float
    move: Move


def bodies_of(cutter: Cutter) -> tuple[Body, ...]:
    """A tool's shank and the steps of its holder, as far as the job tells where they begin."""
    shank: tuple[Body, ...] = ()
    if cutter.shank is not None and cutter.flute_len is not None:
        shank = (Body("shank", cutter.shank / 2, cutter.flute_len),)
    if cutter.stickout is None:
        return shank
    return (*shank, *holder_of(cutter, cutter.stickout))


def holder_of(cutter: Cutter, stickout: float = 0.0) -> tuple[Body, ...]:
    """The steps of a tool's holder when the tool stands out so far."""
    steps, height = [], stickout
    for step in cutter.holder:
        steps.append(Body("holder", step.dia / 2, height))
        height += step.length
    return tuple(steps)


def blocks_of(target: Target, *, bolts: bool = True) -> tuple[Block, ...]:
    """The bolts, the vise's own jaws behind the blanks and its bed under them. What of the vise the
    job doesn't tell reaches farther than anything."""
    blocks = []
    if bolts:
        for number, bolt in enumerate(target.bolts, start=1):
            centre = shapely.Point(bolt.x, bolt.y)
            blocks.append(Block(f"bolt {number}", centre, bolt.dia / 2, bolt.top))
    if (vise := target.vise) is None:
        return tuple(blocks)
    blanks = target.blanks
    half = (2 * FAR if vise.width is None else vise.width) / 2
    near = blanks.gap / 2 + blanks.thickness
    far = near + (FAR if vise.back is None else vise.back)
    bed = -blanks.height if vise.bed is None else vise.bed
    front, back = shapely.box(-half, -far, half, -near), shapely.box(-half, near, half, far)
    whole = shapely.box(-half, -far, half, far)
    return (
        *blocks,
        Block("the vise's own front jaw", front, 0.0, vise.top),
        Block("the vise's own back jaw", back, 0.0, vise.top),
        Block("the vise's bed", whole, 0.0, bed),
    )


def nearest(moves: Sequence[Move], tracks: Shapes, body: Body, block: Block) -> Near | None:
    """How near a body comes to a block on its moves; None if there are none. tracks: the moves'
    centre lines."""
    if not moves:
        return None
    asides = block.aside(tracks) - body.radius
    left = [_apart(m, float(a), body, block) for m, a in zip(moves, asides, strict=True)]
    first = int(np.argmin(left))
    return Near(left[first], moves[first])


def _apart(move: Move, aside: float, body: Body, block: Block) -> float:
    """How far a body keeps off a block on a move. aside: how far in plan, over the whole move; one
    that comes down past the block's top is measured where it is below it."""
    least = block.top - body.height
    if move.low >= least:
        return math.hypot(max(aside, 0.0), move.low - least)
    if move.high <= least:
        return aside
    low = below(move, least)
    if low is None:
        return aside
    return float(block.aside(np.array([path(low)], dtype=object))[0]) - body.radius
