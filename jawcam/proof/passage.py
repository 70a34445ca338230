"""How deep a cutter goes into uncut material where it first meets any, and how far it goes there.

The depth is that below the top of what stands, as `Stock.height` tells it.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace
from typing import NamedTuple

import shapely

from jawcam.proof.along import FINE, first_stretch
from jawcam.proof.move import Move, portion
from jawcam.proof.scene import Scene
from jawcam.proof.sweep import swept
from jawcam.proof.touch import fed_to, flats, touched

__all__ = ["Passage", "passage"]


class Passage(NamedTuple):
    """The first passage of a way through material: how deep below its top the cutter's end goes at
    most, and along how much of the way, mm."""

    depth: float
    length: float


def passage(scene: Scene, way: Sequence[Move]) -> Passage:
    """The first passage of a cutter on a way of straight pieces, each from where the last one ends,
    of which the first meets material."""
    depth = length = 0.0
    for piece in way:
        meets = _meets(scene, piece)
        if length and not meets(0.0, 0.0):
            break
        first, last = first_stretch(meets, piece.length) or (0.0, 1.0)
        length += piece.length * (last - first)
        depth = _deepest(scene, portion(piece, first, last), depth)
        if last < 1.0:
            break
    return Passage(depth, length)


def _meets(scene: Scene, piece: Move) -> Callable[[float, float], bool]:
    def meets(a: float, b: float) -> bool:
        spare, lift = scene.limits.rapid, scene.limits.level
        return not bool(touched(scene, _lowered(piece, a, b), spare=spare, lift=lift).is_empty)

    return meets


def _lowered(piece: Move, a: float, b: float) -> Move:
    """A piece between two portions of it, all along at its lowest height there."""
    part = portion(piece, a, b)
    return replace(part, start=(*part.start[:2], part.low), end=(*part.end[:2], part.low))


def _deepest(scene: Scene, piece: Move, least: float) -> float:
    """How deep a piece goes at most; `least` if it goes no deeper. A sloping one by halves, until
    they are all but level."""
    some = flats(scene, _lowered(piece, 0.0, 1.0), spare=scene.limits.rapid, lift=least)
    stock = scene.stock
    deeper = [f for f in some if stock.stands(_area(scene, f), f.low + least, f.index)]
    if not deeper:
        return least
    if piece.upright or piece.high - piece.low <= FINE:
        fed = fed_to(scene, piece)  # of a drill, which leaves the form of its point
        tops = [(stock.height(_area(scene, flat), flat.low, flat.index), flat) for flat in deeper]
        return max(least, *(min(top, fed) - flat.low for top, flat in tops))
    halves = sorted((portion(piece, 0.0, 0.5), portion(piece, 0.5, 1.0)), key=lambda half: half.low)
    for half in halves:
        least = _deepest(scene, half, least)
    return least


def _area(scene: Scene, flat: Move) -> shapely.Geometry:
    """What a flat cutter sweeps on a level move, a little thinner."""
    thin = replace(flat.cutter, dia=flat.cutter.dia - 2 * scene.limits.rapid)
    return shapely.union_all(swept([replace(flat, cutter=thin)])[0])
