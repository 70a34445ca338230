"""Rapids in a bend: controls that drive each axis as fast as it goes.

All axes that have a way to go set off together at the same rate, so that the way leads off at 45
degrees; one after the other they arrive, and the rest goes on alone. Where the machine's rates
differ the bend lies elsewhere, but never outside the box over the two ends.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import replace
from itertools import pairwise
from typing import Literal

from jawcam.proof.bodies import Body, bodies_of, meeting
from jawcam.proof.move import Move, Point3
from jawcam.proof.report import Finding, Grade
from jawcam.proof.scene import Scene
from jawcam.proof.shank import worst

__all__ = ["bends", "dogleg", "legs"]

SAME = 1e-9
"""mm; ways that differ by less are equally long."""


def bends(scene: Scene) -> Literal["straight", "dog-leg", "either"]:
    """How rapids run: as the job says of the machine, else as this kind of control runs them."""
    return scene.machine.rapids or scene.program.rapids


def legs(move: Move) -> tuple[Move, ...]:
    """The stretches of a rapid's bent way; the move itself where it doesn't bend."""
    ways = [b - a for a, b in zip(move.start, move.end, strict=True)]
    stops = [0.0]
    for stop in sorted(abs(way) for way in ways):
        if stop - stops[-1] > SAME:
            stops.append(stop)
    if len(stops) <= 2:
        return (move,)
    points = [_at(move.start, ways, stop) for stop in stops[:-1]]
    return tuple(
        replace(move, kind="rapid", start=a, end=b) for a, b in pairwise([*points, move.end])
    )


def _at(start: Point3, ways: list[float], gone: float) -> Point3:
    """Where the tip is when each axis has gone so far, or all its way."""
    x, y, z = (
        a + (way if abs(way) <= gone + SAME else gone if way > 0 else -gone)
        for a, way in zip(start, ways, strict=True)
    )
    return x, y, z


def dogleg(scene: Scene) -> list[Finding]:
    """A finding for each bolt and each part of the vise that a tool, its shank or its holder hits
    on the bent way of a rapid. Rapids through material are told by `rapids`."""
    if bends(scene) == "straight":
        return []
    return list(_hits(scene))


def _hits(scene: Scene) -> Iterator[Finding]:
    blocks = scene.blocks
    top = max((block.top for block in blocks), default=-math.inf)
    low = [move for move in scene.moves if move.kind == "rapid" and move.low < top]
    bent = [leg for move in low for leg in legs(move) if leg is not move]
    grade: Grade = "stop" if bends(scene) == "dog-leg" else "warn"
    mend = "rise above it first, or move one axis at a time"
    for cutter in dict.fromkeys(leg.cutter for leg in bent):
        own = [leg for leg in bent if leg.cutter == cutter]
        bodies = (Body("cutter", cutter.radius, 0.0), *bodies_of(cutter))
        for left, block, body, by in worst(own, bodies, blocks):
            if left >= 0:
                continue
            part = "" if body.name == "cutter" else f" with its {body.name}"
            what = (
                f"where each axis runs on its own, this rapid bends and T{cutter.number} goes"
                f"{part} {scene.say(-left)} into {block.name}"
            )
            at = meeting(by, body, block)
            yield scene.find("P504", grade, what, by=by, at=at, amount=left, mend=mend)
