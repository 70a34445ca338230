"""Gouge: the cutter in what must stay, sideways into a wall or down into the floor of a level.

The cavity's walls are upright between two floors, so a place in plan may be cut at every height
between them or at none. The cutter gouges where its centre line comes nearer than its radius to
what stays of the blanks at the height of its tip. Those moves are then swept, and the excess is
measured: at each of its points how far that is beyond the cavity and the gap, where the cutter
meets nothing, or below the floor that should be there, whichever is nearer; its worst point tells
which it is.
"""

from __future__ import annotations

from collections.abc import Hashable, Sequence
from typing import NamedTuple

import numpy as np
import shapely
from numpy.typing import NDArray

from jawcam.proof.curve import Floats
from jawcam.proof.form import pointed
from jawcam.proof.move import Move
from jawcam.proof.report import Finding
from jawcam.proof.scene import Piece, Scene
from jawcam.proof.sweep import PATH_CHORD, Shapes, swept

__all__ = ["deepest_bite", "gouges", "unproven_cutters"]

SPACING = 0.05
"""mm between the points of an excess that are measured."""

MEASURED = 200
"""So many gouging moves are measured, those that come nearest to what stays; a program that has
more is past mending move by move."""

SAME = 0.0005
"""Moves whose gouges at one place differ by less than this, in mm, are named by the first."""


class Excess(NamedTuple):
    """What one move takes too much: its area in plan, the worst point, how far that is, and the
    number of the tier whose floor it lies below, None if it lies beside the cavity."""

    move: Move
    area: shapely.Geometry
    at: tuple[float, float]
    amount: float
    under: int | None


def gouges(scene: Scene) -> list[Finding]:
    """One finding for each place that is gouged, by the move that first does its worst there, and
    one for each Z below the floor of a level."""
    limit = scene.limits.gouge
    bites = scene.bites
    near = [int(i) for i in np.argsort(-bites, kind="stable") if bites[i] > limit][:MEASURED]
    known: dict[Hashable, Excess | None] = {}
    aside: list[Excess] = []
    deep: dict[tuple[int, float], Excess] = {}
    for piece in (scene.milled[i] for i in sorted(near)):
        same = (piece.move.track, piece.tier, round(piece.move.low, 6) if piece.tier else None)
        if same not in known:
            known[same] = _excess(scene, piece)
        excess = known[same]
        if excess is None:
            continue
        excess = excess._replace(move=piece.move)
        if excess.under is not None:
            deep.setdefault((excess.under, round(piece.move.low, 6)), excess)
        elif excess.amount > limit:
            aside.append(excess)
    found = [_finding(scene, group) for group in _together(aside)]
    return [*found, *(_below(scene, excess) for excess in deep.values())]


def deepest_bite(scene: Scene, found: Sequence[Finding]) -> float:
    """The gouge in mm; one below the limit counts as well."""
    stops = [f.amount for f in found if f.code in ("P201", "P404") and f.amount is not None]
    return max(stops, default=float(np.clip(scene.bites, 0.0, scene.limits.gouge).max(initial=0)))


def unproven_cutters(scene: Scene) -> list[Finding]:
    """Cutters below the jaw top whose flanks or points leave slopes."""
    first: dict[int, Move] = {}
    for move, _ in scene.milled:
        if pointed(move.cutter):
            first.setdefault(move.cutter.number, move)
    return [
        scene.find(
            "P202",
            "stop",
            f"what T{number}, a {move.cutter.kind}, cuts below the jaw top isn't proven "
            "and not counted as cut",
            by=move,
            mend="cut the cavity with end mills",
        )
        for number, move in first.items()
    ]


def _excess(scene: Scene, piece: Piece) -> Excess | None:
    tier = scene.tiers[piece.tier]
    shape = shapely.union_all(swept([piece.move], PATH_CHORD)[0])
    area = shapely.intersection(shape, tier.stay)
    if area.area == 0:
        return None
    corners = shapely.get_coordinates(shapely.segmentize(area, SPACING))
    amount, under = _amounts(scene, piece, shapely.points(corners))
    worst = int(np.argmax(amount))
    at, floor = (float(corners[worst, 0]), float(corners[worst, 1])), int(under[worst])
    return Excess(piece.move, area, at, float(amount[worst]), floor if floor >= 0 else None)


def _amounts(scene: Scene, piece: Piece, points: Shapes) -> tuple[Floats, NDArray[np.intp]]:
    """How far points at the height of a piece are from where the cutter may be, beside them or, as
    the cavity is wider there, above them; and the number of the tier whose floor they lie below, -1
    where they lie rather beside it."""
    best, under = np.full(len(points), np.inf), np.full(len(points), -1, dtype=np.intp)
    for k in range(piece.tier, -1, -1):
        tier = scene.tiers[k]
        drop = max(tier.floor - piece.move.low, 0.0) if k < piece.tier else 0.0
        if drop >= best.max():
            break
        (_, _), far = tier.free_edges.query_nearest(points, return_distance=True, all_matches=False)
        if k < piece.tier:
            shapely.prepare(tier.free)
            far[shapely.intersects(tier.free, points)] = 0.0
        amount = np.hypot(far, drop)
        nearer = amount < best
        best[nearer], under[nearer] = amount[nearer], np.where(drop > far, k, -1)[nearer]
    return best, under


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
    round_it = ", which way round it goes" if first.move.turn else ""
    return scene.find(
        "P201",
        "stop",
        f"T{first.move.cutter.number} cuts {scene.say(first.amount)} into what must stay{also}",
        by=first.move,
        at=(*first.at, first.move.low),
        amount=first.amount,
        mend=f"check this block's coordinates{round_it}, and the diameter of the loaded tool",
    )


def _below(scene: Scene, excess: Excess) -> Finding:
    assert excess.under is not None
    move, floor = excess.move, scene.name(scene.tiers[excess.under])
    # below the seat itself is one code, wherever it is that something deeper is beside it
    code = "P401" if scene.tiers[excess.under].kind == "seat" else "P404"
    what = f"T{move.cutter.number} cuts {scene.say(excess.amount)} below {floor}"
    mend = "check the Z of this block, and where the next level's wall is"
    at = (*excess.at, move.low)
    return scene.find(code, "stop", what, by=move, at=at, amount=excess.amount, mend=mend)
