"""Left over: material in the cavity that no cut takes away down to the seat.

A flat cutter takes all that stands above its tip, so what the cuts at the seat sweep is clear at
every height: nothing can be left higher up that the seat doesn't show.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

import shapely

from jawcam.hold.target import Unreached
from jawcam.proof.discs import Disc, discs
from jawcam.proof.report import Finding, Grade
from jawcam.proof.scene import Scene

__all__ = ["left_over"]

LARGER, APART = 0.02, 0.5
"""By how much, in mm, a place left may be larger and farther off than the job foretold it (where
the largest disc sits in a long thin corner is not to be told more exactly)."""


SPREAD = 5.0
"""Places nearer to each other than this, in mm, are told as one, by the largest."""


def left_over(scene: Scene) -> list[Finding]:
    """A finding for each place left that a disc larger than the limit fits into, the largest
    first; and one for each that the job foretold."""
    floor, limits = scene.target.floor, scene.limits
    done = scene.stock.cleared(floor + limits.rough)  # that it is a little too high is depth's
    left = shapely.difference(scene.to_clear, done)
    foretold, surprising = [], []
    for disc in discs(left, limits.left):
        place = next((p for p in scene.target.unreached if _foretold(p, disc)), None)
        if place is not None:
            foretold.append(_note(scene, disc, place))
        else:
            surprising.append(disc)
    return [_stop(scene, disc, others) for disc, others in _spread(surprising)] + foretold


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


def _stop(scene: Scene, disc: Disc, others: int) -> Finding:
    at, size = (disc.x, disc.y, scene.target.floor), scene.say(disc.dia)
    near = f", and smaller ones in {others} more spots near it" if others > 1 else ""
    near = ", and a smaller one near it" if others == 1 else near
    what = f"material is left in the cavity, a disc of {size} fits into it{near}"
    mend = "cut there as well, down to the seat, or with a smaller cutter"
    return scene.find("P301", "stop", what, at=at, amount=disc.dia, mend=mend)


def _note(scene: Scene, disc: Disc, place: Unreached) -> Finding:
    at, size = (disc.x, disc.y, scene.target.floor), scene.say(disc.dia)
    what = f"material stays that no cutter reaches, a disc of {size} in it: {place.why}"
    grade: Grade = "note" if place.seats else "warn"
    return scene.find("P302", grade, what, at=at, amount=disc.dia)


def _foretold(place: Unreached, disc: Disc) -> bool:
    apart = math.dist((place.x, place.y), (disc.x, disc.y))
    return disc.dia <= place.size + LARGER and apart <= place.size / 2 + APART
