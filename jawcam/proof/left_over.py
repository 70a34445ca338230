"""Left over: material in the cavity that no cut takes away down to the seat.

A flat cutter takes all that stands above its tip, so what the cuts at the seat sweep is clear at
every height: nothing can be left higher up that the seat doesn't show.
"""

from __future__ import annotations

import math

import shapely

from jawcam.hold.target import Unreached
from jawcam.proof.discs import Disc, discs
from jawcam.proof.report import Finding
from jawcam.proof.scene import Scene

__all__ = ["left_over"]

SLACK = 0.02
"""By how much, in mm, a place left may be larger and farther off than the job foretold it."""


def left_over(scene: Scene) -> list[Finding]:
    """A finding for each piece left that a disc larger than the limit fits into."""
    floor, limits = scene.target.floor, scene.limits
    done = scene.stock.cleared(floor + limits.rough)  # that it is a little too high is depth's
    left = shapely.difference(scene.to_clear, done)
    return [_finding(scene, disc) for disc in discs(left, limits.left)]


def _finding(scene: Scene, disc: Disc) -> Finding:
    at, size = (disc.x, disc.y, scene.target.floor), scene.say(disc.dia)
    named = next((place for place in scene.target.unreached if _foretold(place, disc)), None)
    if named is not None:
        what = f"material stays that no cutter reaches, a disc of {size} in it: {named.why}"
        return scene.find("P302", "note", what, at=at, amount=disc.dia)
    what = f"material is left in the cavity, a disc of {size} fits into it"
    mend = "cut there as well, down to the seat, or with a smaller cutter"
    return scene.find("P301", "stop", what, at=at, amount=disc.dia, mend=mend)


def _foretold(place: Unreached, disc: Disc) -> bool:
    apart = math.dist((place.x, place.y), (disc.x, disc.y))
    return disc.dia <= place.size + SLACK and apart <= place.size / 2 + SLACK
