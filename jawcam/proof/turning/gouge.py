"""Gouge: a tool's cutting part in what must stay, the farthest that it reaches into it.

Passes of threads may cut where the threads are. What is behind the limit must stay as well. Where
the worst point lies within what the rounds of the edge sweep, the path is wrong; where it lies
beyond, the flat of an edge has run into a wall that is steeper than it: the tool can't cut there.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

import numpy as np
import shapely

from jawcam.proof.report import Finding
from jawcam.proof.turning.path import Move, Point
from jawcam.proof.turning.scene import Scene
from jawcam.proof.turning.section import thread_band
from jawcam.proof.turning.sweep import FAR, discs_swept

__all__ = ["Bite", "bites", "gouges", "worst_bite"]

SPACING = 0.05
"""mm between the points of an excess that are measured."""

SAME = 0.0005
"""Moves whose gouges at one place differ by less than this, in mm, are named by the first."""


class Bite(NamedTuple):
    """What one move takes of what must stay: its area, its worst point, how far in that
    is; behind: whether it lies behind the limit."""

    move: Move
    area: shapely.Geometry
    at: Point
    amount: float
    behind: bool


def bites(scene: Scene) -> list[Bite]:
    """Of every feed move that reaches into what must stay, in order."""
    stay, band = scene.section.stay, thread_band(scene.target.threads)
    core = scene.section.core
    shapely.prepare(core)
    found = []
    for move, shape in zip(scene.moves, scene.cutting, strict=True):
        if move.kind == "rapid" or not shapely.intersects(core, shape):
            continue
        area = shapely.intersection(shape, stay)
        if move.threads:
            area = shapely.difference(area, band)
        found += _measured(scene, move, area)
    return found


def gouges(scene: Scene, found: Sequence[Bite]) -> list[Finding]:
    """One finding for each place that is gouged, by the move that first does its worst there."""
    deep = [bite for bite in found if bite.amount > scene.limits.gouge]
    sides = ([b for b in deep if not b.behind], [b for b in deep if b.behind])
    return [_finding(scene, group) for side in sides for group in _together(side)]


def worst_bite(found: Sequence[Bite]) -> float:
    """The deepest, mm."""
    return max((bite.amount for bite in found), default=0.0)


def _measured(scene: Scene, move: Move, area: shapely.Geometry) -> list[Bite]:
    """The bites in an area: in front of the limit and behind it."""
    limit, found = scene.target.limit, []
    if not area.is_empty and area.bounds[0] < limit - scene.limits.gouge < area.bounds[2]:
        sides = ((-FAR, limit), (limit, FAR))
        pieces = [shapely.intersection(area, shapely.box(a, 0.0, b, FAR)) for a, b in sides]
    else:
        pieces = [area]
    for piece in pieces:
        if piece.is_empty or piece.area == 0:
            continue
        corners = shapely.get_coordinates(shapely.segmentize(piece, SPACING))
        far = shapely.distance(shapely.points(corners), scene.section.free_edges)
        behind = piece.bounds[2] <= limit
        worst = int(np.argmax(far))
        at = (float(corners[worst, 0]), float(corners[worst, 1]))
        found.append(Bite(move, piece, at, float(far[worst]), behind=behind))
    return found


def _together(found: Sequence[Bite]) -> list[list[Bite]]:
    """Those whose areas meet, in the program's order."""
    groups: list[list[Bite]] = []
    for bite in found:
        met = [g for g in groups if any(shapely.intersects(b.area, bite.area) for b in g)]
        merged = [b for g in met for b in g]
        groups = [g for g in groups if not any(g is m for m in met)]
        groups.append([*merged, bite])
    return groups


def _finding(scene: Scene, group: Sequence[Bite]) -> Finding:
    amount = max(bite.amount for bite in group)
    first = next(bite for bite in group if bite.amount >= amount - SAME)
    lines = sorted({bite.move.cut.line for bite in group} - {first.move.cut.line})
    also = f"; so do {len(lines)} more lines" if len(lines) > 1 else ""
    also = f"; so does line {lines[0]}" if len(lines) == 1 else also
    code, what, mend = _said(scene, first)
    what = f"T{first.move.tool.number} cuts {scene.say(first.amount)} {what}{also}"
    return scene.find(
        code, "stop", what, by=first.move, at=first.at, amount=first.amount, mend=mend
    )


def _said(scene: Scene, bite: Bite) -> tuple[str, str, str]:
    """The code, what is wrong and how to mend it."""
    tool, limit = bite.move.tool, scene.target.limit
    if bite.behind:
        what = f"into what lies behind the limit of this setup, Z {scene.say(limit)}"
        return "T204", what, "end this block in front of the limit"
    if tool.kind in ("turning", "boring"):
        rounds = discs_swept(scene.forms[tool.number], bite.move)
        if not shapely.intersects(rounds, shapely.Point(bite.at)):
            what = "with the flat of an edge into a wall that is steeper than the edge"
            mend = "take a tool with a slimmer insert there, or leave the wall to another tool"
            return "T202", what, mend
    if bite.move.threads:
        return "T203", "into what must stay beside or below a thread", "check the pass's ends"
    mend = "check this block's coordinates, and the nose radius of the tool that is loaded"
    return "T201", "into what must stay", mend
