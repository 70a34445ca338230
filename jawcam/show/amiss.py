"""What is amiss after the program: material left and material gouged, each where it is.

The shapes are the judge's own: what its swept areas don't cover of what must go, and what they
cover of what must stay, both without what its limits let pass.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import shapely
from shapely.affinity import affine_transform
from shapely.geometry.base import BaseGeometry

from jawcam.hold.target import Target
from jawcam.hold.turn_target import TurnTarget
from jawcam.proof.limits import limits_for
from jawcam.proof.report import Report
from jawcam.proof.scene import Scene as Judged
from jawcam.proof.scene import scene_of
from jawcam.proof.sweep import swept
from jawcam.proof.times import drive_of
from jawcam.reader.cuts import Program
from jawcam.tools.machine import Machine
from jawcam.units import Units

__all__ = ["GOUGED", "LEFT", "NOTHING", "Amiss", "Patch", "amiss_of"]

LEFT, GOUGED = ("P301", "P402", "P403", "T301"), ("P201", "P404", "T201", "T202", "T203", "T204")
"""The codes of findings that have something to show here."""

MOST = 2000
"""So many gouging moves are swept, those first that reach in farthest."""


@dataclass(frozen=True)
class Patch:
    """An area at a height, or in a half section (then z is 0)."""

    z: float
    shape: BaseGeometry


@dataclass(frozen=True)
class Amiss:
    """Patches in the picture's units from the program's origin, the highest first."""

    left: tuple[Patch, ...] = ()
    gouged: tuple[Patch, ...] = ()


NOTHING = Amiss()


def amiss_of(
    program: Program, target: Target | TurnTarget | None, report: Report | None, units: Units
) -> Amiss:
    """What is left and what is gouged; nothing is looked for that the report didn't find."""
    codes = {finding.code for finding in report.findings} if report else set()
    if target is None or not codes & {*LEFT, *GOUGED}:
        return NOTHING
    if isinstance(target, TurnTarget):
        return _turned(program, target, units)
    machine = Machine()
    judged = scene_of(
        program,
        target,
        limits=limits_for(program.units, target.keep),
        drive=drive_of(machine, target.units),
        others=(),
    )
    scale, (zx, zy, zz) = 1 / units.in_mm, target.zero
    matrix = [scale, 0, 0, scale, -zx * scale, -zy * scale]

    def placed(patches: list[Patch]) -> tuple[Patch, ...]:
        return tuple(Patch((p.z - zz) * scale, affine_transform(p.shape, matrix)) for p in patches)

    return Amiss(placed(_left(judged)), placed(_gouged(judged)))


def _left(judged: Judged) -> list[Patch]:
    """Of each floor what should be clear above it and isn't."""
    patches = []
    for tier in judged.tiers:
        done = judged.stock.cleared(tier.floor + tier.rough)
        shape = _thick(shapely.difference(tier.shelf, done), judged.limits.left)
        if not shape.is_empty:
            patches.append(Patch(tier.floor, shape))
    return patches


def _gouged(judged: Judged) -> list[Patch]:
    """At each depth that is reached there, what must stay and is cut."""
    limit = judged.limits.gouge
    deep = [int(i) for i in np.argsort(-judged.bites, kind="stable") if judged.bites[i] > limit]
    rows: dict[tuple[int, float], list[BaseGeometry]] = {}
    for i in deep[:MOST]:
        piece = judged.milled[i]
        covered, _ = swept([piece.move])
        key = (piece.tier, round(piece.move.low, 6))
        rows.setdefault(key, []).extend(covered)
    patches = []
    for (tier, low), shapes in sorted(rows.items(), key=lambda row: -row[0][1]):
        stay = shapely.difference(judged.tiers[tier].stay, judged.tiers[tier].gap)
        shape = _thick(shapely.intersection(shapely.union_all(shapes), stay), limit)
        if not shape.is_empty:
            patches.append(Patch(low, shape))
    return patches


def _turned(program: Program, target: TurnTarget, units: Units) -> Amiss:
    """In the half section, Z across and X, a radius, up."""
    from jawcam.proof.turning import gouge, material  # a mill's picture does without them
    from jawcam.proof.turning import scene as turning

    limits = limits_for(program.units)
    judged = turning.scene_of(
        program, target, limits=limits, drive=drive_of(Machine(), target.units)
    )
    left = shapely.intersection(material.history(judged).remaining, judged.section.go)
    bites = [b.area for b in gouge.bites(judged) if b.amount > limits.gouge]
    found = (_thick(left, limits.left), _thick(shapely.union_all(bites), limits.gouge))
    matrix = [1 / units.in_mm, 0, 0, 1 / units.in_mm, 0, 0]
    rows = [
        () if shape.is_empty else (Patch(0.0, affine_transform(shape, matrix)),) for shape in found
    ]
    return Amiss(*rows)


def _thick(shape: BaseGeometry, limit: float) -> BaseGeometry:
    """An area without what is thinner than `limit`: all that a disc of that diameter can cover from
    within."""
    covered = shape.buffer(-limit / 2).buffer(limit / 2)
    return shapely.union_all([p for p in shapely.get_parts(covered & shape) if p.area > 0])
