"""The jaws shut on the part: what stands of them and beside them, and where the part stands.

At each height the cavity is what the pocket was cut to there, so that a jaw is as many blocks as
the pocket has floors: what stays beside it from the jaw top down, and under each floor what stays
beside the next one.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

import shapely
from shapely import affinity

from jawcam.hold.target import Target
from jawcam.proof.bodies import Block, blocks_of
from jawcam.proof.cavity import blanks_area, outline_area
from jawcam.proof.limits import Limits
from jawcam.proof.tiers import tiers_of

__all__ = ["part_area", "shut_blocks"]

FAR = 1e5
"""mm; beyond everything."""

MIDDLE = 1e-6
"""mm; nearer to mid gap is in the middle, and of neither jaw."""


def part_area(target: Target) -> shapely.Geometry:
    """The part from above as the jaws hold it, its holes not taken out."""
    whole = shapely.union_all([outline_area(loop, 0.0, 0.0) for loop in target.silhouette])
    return affinity.translate(whole, 0.0, target.seated.shift)


def shut_blocks(target: Target, limits: Limits) -> tuple[Block, ...]:
    """The two jaws with their pocket, the bolts in them and the vise round them."""
    beside = (block for block in blocks_of(target) if block.kind != "spacer")
    return (*_jaws(target, limits), *(_moved(block, target) for block in beside))


def _jaws(target: Target, limits: Limits) -> Iterator[Block]:
    tiers = tiers_of(replace(target, facing=0.0), limits)
    tops = [0.0, *(tier.floor for tier in tiers)]
    stays = [*(tier.stay for tier in tiers), blanks_area(target.blanks)]
    sides = (
        ("the front jaw", shapely.box(-FAR, -FAR, FAR, 0.0)),
        ("the back jaw", shapely.box(-FAR, 0.0, FAR, FAR)),
    )
    for name, side in sides:
        for top, stay in zip(tops, stays, strict=True):
            own = shapely.intersection(stay, side)
            if not own.is_empty:
                yield _moved(Block("jaw", name, own, 0.0, top), target)


def _moved(block: Block, target: Target) -> Block:
    """A block that goes with the jaw that it belongs to; the vise's bed stays."""
    y, travel = block.place.centroid.y, 0.0
    if abs(y) > MIDDLE:
        travel = target.seated.front if y < 0 else -target.seated.back
    return replace(block, place=affinity.translate(block.place, 0.0, travel))
