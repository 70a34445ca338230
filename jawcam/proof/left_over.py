"""Left over: material in the cavity that no cut takes away down to its floor.

A flat cutter takes all that stands above its tip, so what the cuts at a floor sweep is clear at
every height above it: nothing can be left higher up that the floor doesn't show, and each floor is
looked at only where there is none deeper.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

import shapely

from jawcam.hold.target import Unreached
from jawcam.proof.discs import Disc, discs
from jawcam.proof.report import Finding, Grade
from jawcam.proof.scene import Scene
from jawcam.proof.tiers import Tier

__all__ = ["left_over"]

LARGER, APART = 0.02, 0.5
"""By how much, in mm, a place left may be larger and farther off than the job foretold it (how far
a long thin corner reaches is not to be told more exactly)."""


SPREAD = 5.0
"""Places nearer to each other than this, in mm, are told as one, by the largest."""


def left_over(scene: Scene) -> list[Finding]:
    """A finding for each place left that a disc larger than the limit fits into, the largest
    first; and one for each that the job foretold."""
    found, notes = [], []
    for tier in scene.tiers:
        done = scene.stock.cleared(tier.floor + tier.rough)  # that it is too high is depth's
        left = shapely.difference(tier.shelf, done)
        surprising = []
        for disc in discs(left, scene.limits.left):
            place = next(
                (p for p in scene.target.unreached if _foretold(scene, tier, p, disc)), None
            )
            if place is not None:
                notes.append(_note(scene, tier, disc, place))
            else:
                surprising.append(disc)
        found += [_stop(scene, tier, disc, others) for disc, others in _spread(surprising)]
    return found + notes


def _spread(found: Sequence[Disc]) -> list[tuple[Disc, int]]:
    """The discs that stand for all near them, the largest first, and how many those are."""
    kept: list[Disc] = []
    others: list[int] = []
    for disc in sorted(found, key=lambda disc: -disc.dia):
        gaps = [math.dist(disc[:2], one[:2]) for one in kept]
        if gaps and min(gaps) < SPREAD:
            others[gaps.index(min(gaps))] += 1
        else:
            kept.append(disc)
            others.append(0)
    return list(zip(kept, others, strict=True))


def _stop(scene: Scene, tier: Tier, disc: Disc, others: int) -> Finding:
    at, size, floor = (disc.x, disc.y, tier.floor), scene.say(disc.dia), scene.name(tier)
    near = f", and smaller ones in {others} more spots near it" if others > 1 else ""
    near = ", and a smaller one near it" if others == 1 else near
    where = "in the cavity" if tier.kind == "seat" else f"above {floor}"
    what = f"material is left {where}, a disc of {size} fits into it{near}"
    mend = f"cut there as well, down to {floor}, or with a smaller cutter"
    return scene.find("P301", "stop", what, at=at, amount=disc.dia, mend=mend)


def _note(scene: Scene, tier: Tier, disc: Disc, place: Unreached) -> Finding:
    at, size = (disc.x, disc.y, tier.floor), scene.say(disc.dia)
    what = f"material stays that no cutter reaches, a disc of {size} in it: {place.why}"
    grade: Grade = "note" if place.seats else "warn"
    mend = "relieve the corners, or finish with a smaller end mill"
    mend = f"leave it, or {mend}" if place.seats else mend
    return scene.find("P302", grade, what, at=at, amount=disc.dia, mend=mend)


def _foretold(scene: Scene, tier: Tier, place: Unreached, disc: Disc) -> bool:
    """Whether a place that the job named, on this floor or a deeper one, is where a disc is."""
    if place.floor > tier.foretold + scene.limits.level:
        return False
    apart = float(shapely.distance(disc.core, shapely.Point(place.x, place.y)))
    return disc.dia <= place.size + LARGER and apart <= place.size / 2 + APART
