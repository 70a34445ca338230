"""The edges' tool in the way: the chamfer too wide, or the tool where it must not be.

The broken edge is a chamfer along the pocket's top edges, made by the cone of its own tool. It is
`edge` wide at the jaw top and, with a slope of s mm of radius to a mm of height, edge / s deep. The
cone has the same slope. Where its axis keeps the distance D off what must stay and its radius at
the jaw top is r, it breaks the edge r - D wide, and its radius at the chamfer's lower end is
r - edge: the working radius, which must not be larger than D.
"""

from __future__ import annotations

import itertools
from collections.abc import Sequence
from typing import NamedTuple

import numpy as np
import shapely

from jawcam.proof.form import radius_at, slope
from jawcam.proof.move import Move, slices
from jawcam.proof.report import Finding
from jawcam.proof.scene import Scene
from jawcam.proof.sweep import path
from jawcam.proof.tiers import Tier, tier_at

__all__ = ["broken_by", "edge", "walls"]

SPACING = 0.05
"""mm between the points of a centre line that are looked at."""

SAME = 0.0005
"""Excesses that differ by less than this, in mm, are named by the first."""


class _Bite(NamedTuple):
    """How far a piece of a move goes too far."""

    move: Move
    amount: float


def edge(scene: Scene) -> list[Finding]:
    """Edges broken too wide, and the edges' tool where it must not be."""
    moves = broken_by(scene)
    return _in_the_way(scene, moves) if moves else []


def broken_by(scene: Scene) -> list[Move]:
    """The moves of the edges' tool below the jaw top, sloping ones by pieces that are each to be
    judged at their lowest Z."""
    moves = (piece for m in scene.low if scene.role(m) == "edge" for piece in slices(m))
    return [move for move in moves if move.low < -scene.limits.level]


def _in_the_way(scene: Scene, moves: Sequence[Move]) -> list[Finding]:
    """Where the cone cuts more than the chamfer."""
    wide, wall, high = [], [], []
    tracks = np.array([path(move) for move in moves], dtype=object)
    stay, limit = walls(scene).stay, scene.limits.gouge
    aside = shapely.distance(tracks, stay)
    for move, track, off in zip(moves, tracks, aside.tolist(), strict=True):
        cutter, rise = move.cutter, -move.low * slope(move.cutter)
        room = off if off > 0 else -_farthest(scene, track)
        above = cutter.tip_dia / 2 + rise - cutter.radius
        if above > limit and off < cutter.radius:
            high.append(_Bite(move, above))
        at_tip = room + max(scene.target.edge - rise, 0.0)
        into = max(cutter.tip_dia / 2 - at_tip, _lower(scene, move, track))
        more = radius_at(cutter, -move.low) - room - scene.target.edge
        if into > limit:
            wall.append(_Bite(move, into))
        elif more > limit:
            wide.append(_Bite(move, more))
    return [
        *_told(scene, "P912", wide, f"breaks the edge {{}} wider than {_asked(scene)}"),
        *_told(scene, "P913", wall, "cuts {} into what must stay below the edge"),
        *_told(scene, "P914", high, "reaches {} past its flanks: the edge is above its cone"),
    ]


def walls(scene: Scene) -> Tier:
    """The uppermost tier of the cavity, whose walls have the edges."""
    return next(tier for tier in scene.tiers if tier.kind != "face")


def _asked(scene: Scene) -> str:
    return scene.say(scene.target.edge)


def _farthest(scene: Scene, track: shapely.Geometry) -> float:
    """How far a centre line goes into what must stay."""
    inside = shapely.intersection(track, walls(scene).stay)
    points = shapely.get_coordinates(shapely.segmentize(inside, SPACING))
    far = shapely.distance(shapely.points(points), walls(scene).free)
    return float(far.max(initial=0.0))


def _lower(scene: Scene, move: Move, track: shapely.Geometry) -> float:
    """How far a cone goes into the walls below the uppermost floor, or below the last floor."""
    tiers, level = scene.tiers, scene.limits.level
    worst = tiers[-1].floor - move.low
    last = tier_at(tiers, move.low, level)
    for above, tier in itertools.pairwise(tiers[: last + 1]):
        if above.kind != "face":
            radius = radius_at(move.cutter, above.floor - move.low)
            worst = max(worst, radius - float(shapely.distance(track, tier.stay)))
    return worst


def _told(scene: Scene, code: str, bites: Sequence[_Bite], said: str) -> list[Finding]:
    """One finding for all of a kind, by the move that first does its worst."""
    if not bites:
        return []
    amount = max(bite.amount for bite in bites)
    first = next(bite.move for bite in bites if bite.amount >= amount - SAME)
    more = len({bite.move.line for bite in bites} - {first.line})
    also = f"; so do {more} more lines" if more > 1 else "; so does another line"
    what = f"T{first.cutter.number} {said.format(scene.say(amount))}{also if more else ''}"
    mend = "check this block's Z and how far it keeps off the wall, and the tool's angle"
    return [scene.find(code, "stop", what, by=first, amount=amount, mend=mend)]
