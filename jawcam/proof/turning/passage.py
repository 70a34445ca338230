"""How deep a lathe tool goes into uncut material where it first meets any at rapid, on radius, and
how far it goes there.

The half section is what it is: at each Z the depth is the way from the tool's farthest point out of
the material, for tools of bores and drills inwards, for all others outwards. It is at its most
where the outline of one or the other has a corner.
"""

from __future__ import annotations

from typing import NamedTuple

import numpy as np
import shapely
from shapely import affinity

from jawcam.proof.along import first_stretch
from jawcam.proof.turning.material import Met
from jawcam.proof.turning.path import portion
from jawcam.proof.turning.scene import Scene
from jawcam.proof.turning.sweep import BODY_CHORD, FAR, along, folded, swept

__all__ = ["Passage", "passage"]

ASIDE = 1e-6
"""mm beside a corner: which of two heights counts at an upright stretch."""


class Passage(NamedTuple):
    """The first passage of a rapid through material: how deep on radius at most, and along how much
    of the way, mm."""

    depth: float
    length: float


def passage(scene: Scene, met: Met) -> Passage:
    """The first passage of a rapid that meets material with its edge, its holder or its block."""
    move = met.move
    core = shapely.buffer(met.area, -scene.limits.rapid / 2)
    shapely.prepare(core)

    def meets(a: float, b: float) -> bool:
        return bool(shapely.intersects(core, _shape(scene, met, a, b)))

    first, last = first_stretch(meets, move.length) or (0.0, 1.0)
    area = shapely.intersection(met.area, _shape(scene, met, first, last))
    inwards = move.tool.inside or "drill" in move.tool.kind
    return Passage(_depth(area, met.work, inwards=inwards), move.length * (last - first))


def _shape(scene: Scene, met: Met, a: float, b: float) -> shapely.Geometry:
    """What the part of the tool that meets sweeps between two portions of its way."""
    piece, number = portion(met.move, a, b), met.move.tool.number
    if met.what == "edge":
        return swept(scene.forms[number], [piece])[0]
    holder = scene.holders[number]
    corners = holder.body if met.what == "holder" else holder.block
    assert corners is not None
    return folded(along(corners, piece, BODY_CHORD))


def _depth(area: shapely.Geometry, work: shapely.Geometry, *, inwards: bool) -> float:
    """How far an area reaches into the material, along X."""
    if inwards:  # in the mirror, out of the material is upwards too
        area, work = (affinity.scale(one, 1.0, -1.0, origin=(0, 0)) for one in (area, work))
    first, _, last, _ = shapely.bounds(area)
    corners = np.concatenate([shapely.get_coordinates(one)[:, 0] for one in (area, work)])
    places = np.unique(np.concatenate((corners - ASIDE, corners + ASIDE)))
    most = 0.0
    for z in places[(places > first) & (places < last)].tolist():
        line = shapely.LineString(((z, -FAR), (z, FAR)))
        low = shapely.bounds(shapely.intersection(area, line))[1]
        columns = shapely.bounds(shapely.get_parts(shapely.intersection(work, line)))
        over = columns[columns[:, 3] > low]
        if len(over):
            most = max(most, float(over[:, 3].min() - low))
    return most
