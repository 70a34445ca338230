"""Left over: material in front of the limit that no cut takes away.

Where stock that isn't the part stands behind the limit, the round of an edge that ends at the limit
leaves a fillet in front of it, which the other end's setup takes away: that is only a note.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

import shapely

from jawcam.hold.turn_target import TurnLeft
from jawcam.proof.discs import Disc, discs
from jawcam.proof.report import Finding
from jawcam.proof.turning.material import History
from jawcam.proof.turning.scene import Scene

__all__ = ["left_over"]

LARGER, APART = 0.02, 0.5
"""By how much, in mm, a place left may be larger and farther off than the job foretold it."""

SPREAD = 5.0
"""Places nearer to each other than this, in mm, are told as one, by the largest."""


def left_over(scene: Scene, past: History) -> list[Finding]:
    """A finding for each place left that a disc larger than the limit fits into, the largest
    first; and one for each that the job foretold."""
    left = shapely.intersection(past.remaining, scene.section.go)
    found, notes = [], []
    for disc in discs(left, scene.limits.left):
        place = next((p for p in scene.target.left if _foretold(p, disc)), None)
        if place is not None:
            notes.append(_note(scene, disc, place))
        elif _at_limit(scene, disc):
            what = (
                f"at the limit, Z {scene.say(scene.target.limit)}, the round of the edge leaves a "
                f"fillet, a disc of {scene.say(disc.dia)} in it, to the other end's setup"
            )
            mend = "see that the other end's setup turns beyond it"
            at = (disc.x, disc.y)
            notes.append(scene.find("T303", "note", what, at=at, amount=disc.dia, mend=mend))
        else:
            found.append(disc)
    return [_stop(scene, disc, others) for disc, others in _spread(found)] + notes


def _foretold(place: TurnLeft, disc: Disc) -> bool:
    apart = float(shapely.distance(disc.core, shapely.Point(place.z, place.x)))
    return disc.dia <= place.size + LARGER and apart <= place.size / 2 + APART


def _at_limit(scene: Scene, disc: Disc) -> bool:
    """Whether a disc is no larger than what the largest round of the job's edges leaves in a square
    corner, r (sqrt 2 - 1)^2 in radius, with stock behind the limit beside it, not the part."""
    limit = scene.target.limit
    largest = max((d[2] for form in scene.forms.values() for d in form.discs), default=0.0)
    if disc.dia > 2 * largest * (math.sqrt(2) - 1) ** 2 + LARGER or disc.x - limit > largest:
        return False
    wall = shapely.box(limit - disc.dia, disc.y - disc.dia / 2, limit, disc.y + disc.dia / 2)
    stock = shapely.difference(scene.section.stock, scene.section.finished)
    return float(shapely.intersection(stock, wall).area) > 0.5 * float(wall.area)


def _spread(found: Sequence[Disc]) -> list[tuple[Disc, int]]:
    """The discs that stand for all near them, the largest first, and how many those are."""
    kept: list[Disc] = []
    others: list[int] = []
    for disc in sorted(found, key=lambda disc: (-disc.dia, disc.x, disc.y)):
        gaps = [math.dist(disc[:2], one[:2]) for one in kept]
        if gaps and min(gaps) < SPREAD:
            others[gaps.index(min(gaps))] += 1
        else:
            kept.append(disc)
            others.append(0)
    return list(zip(kept, others, strict=True))


def _stop(scene: Scene, disc: Disc, others: int) -> Finding:
    near = f", and smaller ones in {others} more spots near it" if others > 1 else ""
    near = ", and a smaller one near it" if others == 1 else near
    what = f"material is left on the part, a disc of {scene.say(disc.dia)} fits into it{near}"
    mend = "cut there as well, with a tool that reaches in, and allow for its nose radius"
    at = (disc.x, disc.y)
    return scene.find("T301", "stop", what, at=at, amount=disc.dia, mend=mend)


def _note(scene: Scene, disc: Disc, place: TurnLeft) -> Finding:
    what = (
        f"material stays that no tool reaches, a disc of {scene.say(disc.dia)} in it: {place.why}"
    )
    mend = "give a tool that reaches in, or see that the part may keep it"
    at = (disc.x, disc.y)
    return scene.find("T302", "warn", what, at=at, amount=disc.dia, mend=mend)
