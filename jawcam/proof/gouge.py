"""Gouge: the cutter below the jaw top in what must stay, at whatever depth.

The cavity's walls are upright, so a place in plan may be cut at every height or at none. The cutter
gouges where its centre line comes nearer than its radius to what stays of the blanks. Those moves
are then swept, and the excess is measured: the farthest that it reaches beyond the cavity and the
gap, where the cutter meets nothing.
"""

from __future__ import annotations

from collections.abc import Hashable, Sequence
from typing import NamedTuple

import numpy as np
import shapely

from jawcam.proof.move import Move
from jawcam.proof.report import Finding
from jawcam.proof.scene import Scene, flat_ended
from jawcam.proof.sweep import PATH_CHORD, swept

__all__ = ["deepest_bite", "gouges", "unproven_cutters"]

SPACING = 0.05
"""mm between the points of an excess that are measured."""

MEASURED = 200
"""So many gouging moves are measured, those that come nearest to what stays; a program that has
more is past mending move by move."""

SAME = 0.0005
"""Moves whose gouges at one place differ by less than this, in mm, are named by the first."""


class Excess(NamedTuple):
    """What one move takes too much: its area in plan, the farthest point, how far that is."""

    move: Move
    area: shapely.Geometry
    at: tuple[float, float]
    amount: float


def gouges(scene: Scene) -> list[Finding]:
    """One finding for each place that is gouged, by the move that first does its worst there."""
    limit = scene.limits.gouge
    bites = scene.bites
    near = [int(i) for i in np.argsort(-bites, kind="stable") if bites[i] > limit][:MEASURED]
    known: dict[Hashable, Excess | None] = {}
    found = []
    for move in (scene.low[i] for i in sorted(near)):
        if move.track not in known:
            known[move.track] = _excess(scene, move)
        excess = known[move.track]
        if excess is not None and excess.amount > limit:
            found.append(excess._replace(move=move))
    return [_finding(scene, group) for group in _together(found)]


def deepest_bite(scene: Scene, found: Sequence[Finding]) -> float:
    """The gouge in mm; one below the limit counts as well."""
    stops = [f.amount for f in found if f.code == "P201" and f.amount is not None]
    return max(stops, default=float(np.clip(scene.bites, 0.0, scene.limits.gouge).max(initial=0)))


def unproven_cutters(scene: Scene) -> list[Finding]:
    """Cutters below the jaw top that leave another shape than an upright wall and a flat floor."""
    first: dict[int, Move] = {}
    for move in scene.low:
        if not flat_ended(move.cutter):
            first.setdefault(move.cutter.number, move)
    return [
        scene.find(
            "P202",
            "stop",
            f"what T{number}, {_kind(move)}, cuts below the jaw top isn't proven "
            "and not counted as cut",
            by=move,
            mend="cut the cavity with flat end mills",
        )
        for number, move in first.items()
    ]


def _kind(move: Move) -> str:
    article = "an" if move.cutter.kind[0] in "aeiou" else "a"
    rounded = " with rounded corners" if move.cutter.kind == "end mill" else ""
    return f"{article} {move.cutter.kind}{rounded}"


def _excess(scene: Scene, move: Move) -> Excess | None:
    shape = shapely.union_all(swept([move], PATH_CHORD)[0])
    area = shapely.intersection(shape, scene.stay)
    if area.area == 0:
        return None
    corners = shapely.get_coordinates(shapely.segmentize(area, SPACING))
    (_, _), far = scene.free_edges.query_nearest(
        shapely.points(corners), return_distance=True, all_matches=False
    )
    worst = int(np.argmax(far))
    at = (float(corners[worst, 0]), float(corners[worst, 1]))
    return Excess(move, area, at, float(far[worst]))


def _together(found: Sequence[Excess]) -> list[list[Excess]]:
    """Those whose areas meet, in the program's order."""
    tree = shapely.STRtree([one.area for one in found])
    group = list(range(len(found)))
    for i, one in enumerate(found):
        for j in tree.query(one.area, predicate="intersects"):
            a, b = sorted((group[i], group[int(j)]))
            group = [a if g == b else g for g in group]
    return [[f for f, g in zip(found, group, strict=True) if g == k] for k in sorted(set(group))]


def _finding(scene: Scene, group: Sequence[Excess]) -> Finding:
    amount = max(one.amount for one in group)
    first = next(one for one in group if one.amount >= amount - SAME)
    lines = sorted({one.move.line for one in group} - {first.move.line})
    also = f"; so do {len(lines)} more lines" if len(lines) > 1 else ""
    also = f"; so does line {lines[0]}" if len(lines) == 1 else also
    return scene.find(
        "P201",
        "stop",
        f"T{first.move.cutter.number} cuts {scene.say(first.amount)} into what must stay{also}",
        by=first.move,
        at=(*first.at, first.move.low),
        amount=first.amount,
        mend="check this block's coordinates, and the diameter of the tool that is loaded",
    )
