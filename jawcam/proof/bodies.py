"""What a tool is above its flutes, what stands beside the blanks, and how near the two come."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Literal, NamedTuple

import numpy as np
import shapely

from jawcam.hold.target import Spacer, Target
from jawcam.proof.curve import Floats
from jawcam.proof.form import height_over_tip
from jawcam.proof.move import Move, Point3, below
from jawcam.proof.sweep import Shapes, path, swept
from jawcam.tools.cutter import Cutter

__all__ = [
    "RUB",
    "Block",
    "Body",
    "Kind",
    "Near",
    "blocks_of",
    "bodies_of",
    "cutting",
    "holder_of",
    "lefts",
    "meeting",
    "nearest",
]

RUB = 0.005
"""mm; a shank that comes nearer than this to a wall rubs on it (common practice, no source)."""

FAR = 1e4
"""mm; as far as anything reaches whose end the job doesn't tell."""

STEPS = 16
"""Into how many steps a point or a round is divided, each as wide as it is at its upper end."""

Kind = Literal["bolt", "vise", "spacer", "jaw"]


@dataclass(frozen=True)
class Body:
    """A part of a tool, and all of the tool above it is at least as wide: how wide, and how far
    its underside is above the tip; mm."""

    name: Literal["cutter", "shank", "holder"]
    radius: float
    height: float


@dataclass(frozen=True)
class Block:
    """Something beside the blanks that must stay, from the Z `top` down: what it is, also in words,
    the same for all blocks of one thing; in plan all within a radius of a place or an area."""

    kind: Kind
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
    body: Body


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


def cutting(cutter: Cutter) -> tuple[Body, ...]:
    """A tool's cutting end: as it is if it is flat, else in steps that it lies within."""
    radii = np.linspace(0.0, cutter.radius, STEPS + 1)
    heights = height_over_tip(cutter, radii)
    if heights[-1] <= 0:
        return (Body("cutter", cutter.radius, 0.0),)
    steps = zip(radii[1:].tolist(), heights[:-1].tolist(), strict=True)
    return tuple(Body("cutter", radius, height) for radius, height in steps)


def blocks_of(target: Target) -> tuple[Block, ...]:
    """The bolts, the spacers in the gap, the vise's own jaws behind the blanks and its bed under
    them."""
    bolts = (
        Block("bolt", f"bolt {number}", shapely.Point(bolt.x, bolt.y), bolt.dia / 2, bolt.top)
        for number, bolt in enumerate(target.bolts, start=1)
    )
    spacers = (
        _spacer(spacer, target.blanks.gap / 2, n if len(target.spacers) > 1 else None)
        for n, spacer in enumerate(target.spacers, start=1)
    )
    return (*bolts, *spacers, *_vise(target))


def _spacer(spacer: Spacer, half: float, number: int | None) -> Block:
    start, end = spacer.x or (-FAR, FAR)
    area = shapely.box(start, -half, end, half)
    name = "the spacer" if number is None else f"spacer {number}"
    return Block("spacer", name, area, 0.0, spacer.top)


def _vise(target: Target) -> tuple[Block, ...]:
    """What of the vise the job doesn't tell reaches farther than anything."""
    if (vise := target.vise) is None:
        return ()
    blanks = target.blanks
    half = (2 * FAR if vise.width is None else vise.width) / 2
    near = blanks.gap / 2 + blanks.thickness
    far = near + (FAR if vise.back is None else vise.back)
    bed = -blanks.height if vise.bed is None else vise.bed
    front, back = shapely.box(-half, -far, half, -near), shapely.box(-half, near, half, far)
    whole = shapely.box(-half, -far, half, far)
    return (
        Block("vise", "the vise's own front jaw", front, 0.0, vise.top),
        Block("vise", "the vise's own back jaw", back, 0.0, vise.top),
        Block("vise", "the vise's bed", whole, 0.0, bed),
    )


def nearest(moves: Sequence[Move], tracks: Shapes, body: Body, block: Block) -> Near | None:
    """How near a body comes to a block on its moves; None if there are none. tracks: the moves'
    centre lines."""
    left = lefts(moves, tracks, body, block)
    if not left:
        return None
    first = int(np.argmin(left))
    return Near(left[first], moves[first], body)


def lefts(moves: Sequence[Move], tracks: Shapes, body: Body, block: Block) -> list[float]:
    """How far a body keeps off a block on each move, mm, negative if it goes in."""
    if not moves:
        return []
    asides = block.aside(tracks) - body.radius
    return [_apart(m, float(a), body, block) for m, a in zip(moves, asides, strict=True)]


def meeting(move: Move, body: Body, block: Block) -> Point3:
    """Where a body meets a block on a move, as seen from its start, at the block's top; where it
    only passes, the block's nearest point, at the body's underside if that is higher."""
    area = shapely.buffer(block.place, block.radius, quad_segs=32)
    low = below(move, block.top - body.height)
    wide = replace(low or move, cutter=replace(move.cutter, dia=2 * body.radius))
    met = shapely.intersection(area, shapely.union_all(swept([wide])[0]))
    goal = path(move) if met.is_empty else shapely.Point(move.start[:2])
    x, y = shapely.get_coordinates(shapely.shortest_line(area if met.is_empty else met, goal))[0]
    return float(x), float(y), max(block.top, move.low + body.height)


def _apart(move: Move, aside: float, body: Body, block: Block) -> float:
    """How far a body keeps off a block on a move; in it, the shorter way out, to the side or up.
    aside: how far in plan, over the whole move; one that comes down past the block's top is
    measured where it is below it."""
    least = block.top - body.height
    if move.low >= least:
        return math.hypot(max(aside, 0.0), move.low - least)
    low = below(move, least)
    if move.high > least and low is not None:
        aside = float(block.aside(np.array([path(low)], dtype=object))[0]) - body.radius
    return aside if aside >= 0 else max(aside, move.low - least)
