"""How deep a cutter goes into uncut material where it first meets any, and how far it goes there.

The depth is that below the top of what stands: where only level cuts have been made, one of their
heights or the blanks' own top, so that it is exact; above sloping cuts it is sought to `NEAR`.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace
from functools import partial
from typing import NamedTuple

import numpy as np

from jawcam.proof.along import FINE, first_stretch
from jawcam.proof.move import Move, portion
from jawcam.proof.scene import Scene
from jawcam.proof.touch import fed_to, flats, touched

__all__ = ["Passage", "passage"]

NEAR = 1e-4
"""mm; so near the top of what stands above sloping cuts is known."""

AT = 1e-6
"""mm below a height: what stands there stands up to it."""


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
    deeper = [flat for flat in some if _stands(scene, flat, least)]
    if not deeper:
        return least
    if piece.upright or piece.high - piece.low <= FINE:
        fed = fed_to(scene, piece)  # of a drill, which leaves the form of its point
        return max(least, *(min(_top(scene, flat), fed) - flat.low for flat in deeper))
    halves = sorted((portion(piece, 0.0, 0.5), portion(piece, 0.5, 1.0)), key=lambda half: half.low)
    for half in halves:
        least = _deepest(scene, half, least)
    return least


def _stands(scene: Scene, flat: Move, lift: float) -> bool:
    """Whether material stands more than `lift` above the end of a flat cutter on its way."""
    if flat.low + lift >= scene.stock.top - AT:
        return False
    return not bool(scene.stock.touched(flat, spare=scene.limits.rapid, lift=lift).is_empty)


def _top(scene: Scene, flat: Move) -> float:
    """How high stands what a flat cutter meets on a level move."""
    stock = scene.stock
    stands = partial(_stands, scene, flat)
    floors = np.unique(stock.low[stock.low == stock.high])
    inside = floors[(floors > flat.low) & (floors < stock.top)]
    heights = [flat.low, *inside.tolist(), stock.top]
    low, high = 0, len(heights)  # it stands up to the one, not up to the other
    while high - low > 1:
        middle = (low + high) // 2
        low, high = (middle, high) if stands(heights[middle] - AT - flat.low) else (low, middle)
    if high == len(heights) or not stands(heights[low] + AT - flat.low):
        return float(heights[low])
    under, over = heights[low], heights[high]
    while over - under > NEAR:
        middle_z = (under + over) / 2
        under, over = (middle_z, over) if stands(middle_z - flat.low) else (under, middle_z)
    return float(over)
