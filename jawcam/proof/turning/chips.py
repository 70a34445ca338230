"""What lathe tools cut off, step by step: the depth of cut and the volume a minute.

Each step of a tool's way sweeps an area of the half section; what of it is still material is cut.
Its size for each mm of way is the depth of cut, square to the way: of a plunge the width of the
blade, of a drill its radius. Turned about the axis it is the volume.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import NamedTuple

import shapely

from jawcam.proof.turning.path import Move, Point, portion
from jawcam.proof.turning.scene import Scene
from jawcam.proof.turning.section import revolved
from jawcam.proof.turning.sweep import swept
from jawcam.proof.turning.times import minutes

__all__ = ["STEP", "Chip", "chips"]

STEP = 0.5
"""mm of way over which a bite is told."""

_NOTHING = 1e-5
"""mm; a depth of cut that is a trace of flattened arcs and rounded numbers."""


class Chip(NamedTuple):
    """One step. move: its number among the scene's; at: the set point where it begins, Z and a
    radius; way: its length, mm; depth: of cut, mm; volume: mm3; rate: mm3/min, 0 without a feed;
    cuts: whether it meets material."""

    move: int
    at: Point
    way: float
    depth: float
    volume: float
    rate: float
    cuts: bool


def chips(scene: Scene) -> tuple[Chip, ...]:
    """All steps at feed, in order. A pass of a thread leaves material between its turns: it meets
    some, but its volume is worked out apart."""
    work = scene.section.stock
    found: list[Chip] = []
    for number, move in enumerate(scene.moves):
        if move.kind == "rapid" or move.length <= 0:
            continue
        shape = scene.cutting[number]
        fresh = shapely.intersection(work, shape)
        if fresh.area <= _NOTHING * move.length:
            found.append(Chip(number, move.start, move.length, 0.0, 0.0, 0.0, cuts=False))
        elif move.threads:
            found += _along_thread(number, move, scene, fresh)
        else:
            found += _steps(number, move, scene, fresh)
            work = shapely.difference(work, shape)
    return tuple(found)


def _steps(number: int, move: Move, scene: Scene, fresh: shapely.Geometry) -> Iterator[Chip]:
    """The steps of a move that cuts an area fresh."""
    form = scene.forms[move.tool.number]
    pieces = _pieces(move)
    shapes = swept(form, pieces[:-1])
    for k, piece in enumerate(pieces):
        got = fresh
        if k + 1 < len(pieces):
            shape = shapes[k]
            got, fresh = shapely.intersection(fresh, shape), shapely.difference(fresh, shape)
        depth, time = got.area / piece.length, minutes(piece, scene.drive.rapid)
        volume = revolved(got)
        rate = volume / time if time > 0 else 0.0
        cuts = depth > _NOTHING
        yield Chip(number, piece.start, piece.length, depth, volume, rate, cuts)


def _along_thread(number: int, move: Move, scene: Scene, met: shapely.Geometry) -> Iterator[Chip]:
    form = scene.forms[move.tool.number]
    pieces = _pieces(move)
    for piece, cuts in zip(pieces, shapely.intersects(met, swept(form, pieces)), strict=True):
        yield Chip(number, piece.start, piece.length, 0.0, 0.0, 0.0, bool(cuts))


def _pieces(move: Move) -> list[Move]:
    """A move in equal pieces of `STEP` at most."""
    count = max(1, math.ceil(move.length / STEP - 1e-9))
    return [portion(move, k / count, (k + 1) / count) for k in range(count)]
