"""The jaws and the part as shapes in the picture's units, seen from the program's origin."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass
from typing import NamedTuple

import shapely
from shapely.affinity import affine_transform
from shapely.geometry.base import BaseGeometry

from jawcam.hold.target import Relief, Target
from jawcam.show.bodies import slices
from jawcam.show.outlines import cavity, filled, solid, swept_disc
from jawcam.units import Units

__all__ = ["Bore", "Relieved", "Scene", "Slice", "Step", "sections", "setting"]

REACHES = 1e-6
"""mm; a relief whose floor lies no higher than this over a level's floor reaches that floor."""

Placed = Callable[[BaseGeometry], BaseGeometry]


class Step(NamedTuple):
    """One level of the cavity: the heights between which it lies, its shape in plan."""

    top: float
    floor: float
    cavity: BaseGeometry


class Slice(NamedTuple):
    """The part cut level at a height; between two neighbours its walls are straight."""

    z: float
    shape: BaseGeometry


class Relieved(NamedTuple):
    """A corner relief in plan, and the Z of its floor."""

    shape: BaseGeometry
    floor: float


class Bore(NamedTuple):
    """A drilled hole: its centre and radius; where its full diameter and where its point ends."""

    x: float
    y: float
    radius: float
    floor: float
    tip: float


@dataclass(frozen=True)
class Scene:
    """Shapes in plan and heights, in the picture's units from the program's origin.

    blanks: the front and the back one, whole; cavity: at the jaw top, all reliefs in it; levels:
    of the cavity from the jaw top down, each with the reliefs that reach its floor; part: seen
    from above, body: its sections from the seat up, both with the holes taken out; edge: the
    cavity with its top edge broken, edge_depth: how deep; groove: the strip along the foot of the
    wall, groove_floor: its Z; facing: how much is faced off above the top. top and bottom of the
    blanks, floor, part_top, clearance: Z.
    """

    blanks: tuple[BaseGeometry, BaseGeometry]
    cavity: BaseGeometry
    levels: tuple[Step, ...]
    part: BaseGeometry
    body: tuple[Slice, ...]
    reliefs: tuple[Relieved, ...]
    bores: tuple[Bore, ...]
    edge: BaseGeometry | None
    edge_depth: float
    groove: BaseGeometry | None
    groove_floor: float
    facing: float
    top: float
    bottom: float
    floor: float
    part_top: float
    clearance: float
    mid_gap: float


def setting(target: Target, units: Units, chord: float) -> Scene:
    """Target -> scene; no flattened arc is more than `chord` mm off."""
    scale = 1 / units.in_mm
    zx, zy, zz = target.zero
    matrix = [scale, 0, 0, scale, -zx * scale, -zy * scale]
    holes = shapely.union_all([solid((loop,), chord) for loop in target.holes])
    levels = _levels(target, chord)
    top = _with_shallow_reliefs(levels[0].cavity, target)
    groove = target.groove

    def placed(shape: BaseGeometry) -> BaseGeometry:
        return affine_transform(shape, matrix)

    def height(z: float) -> float:
        return (z - zz) * scale

    return Scene(
        blanks=_blanks(target, placed),
        cavity=placed(top),
        levels=tuple(Step(height(a), height(b), placed(shape)) for a, b, shape in levels),
        part=placed(solid(target.silhouette, chord).difference(holes)),
        body=tuple(
            Slice(height(z), placed(shape.difference(holes)))
            for z, shape in slices(target.body, chord)
        ),
        reliefs=tuple(Relieved(placed(_relief(r)), height(r.floor)) for r in target.reliefs),
        bores=tuple(
            Bore(
                (h.x - zx) * scale,
                (h.y - zy) * scale,
                h.dia / 2 * scale,
                height(h.floor),
                height(h.tip),
            )
            for h in target.drilled
        ),
        edge=placed(top.buffer(target.edge, quad_segs=64)) if target.edge else None,
        edge_depth=_edge_depth(target) * scale,
        groove=placed(_strip(target, groove.width, chord)) if groove else None,
        groove_floor=height(target.floor - (groove.depth if groove else 0)),
        facing=target.facing * scale,
        top=height(0),
        bottom=height(-target.blanks.height),
        floor=height(target.floor),
        part_top=height(target.part_top),
        clearance=height(target.clearance),
        mid_gap=-zy * scale,
    )


def sections(shape: BaseGeometry, x: float) -> list[tuple[float, float]]:
    """The stretches of Y over which the upright line at `x` lies inside the shape."""
    if shape.is_empty:
        return []
    _, low, _, high = shape.bounds
    cut = shape.intersection(shapely.LineString([(x, low - 1), (x, high + 1)]))
    spans = [part.bounds for part in shapely.get_parts(cut) if part.length > 0]
    return sorted((span[1], span[3]) for span in spans)


def _levels(target: Target, chord: float) -> list[Step]:
    """The cavity level by level, from the jaw top down, in mm and jaw coordinates: the part comes
    in from above, so that each level is at least as wide as those below it.
    """
    steps: list[Step] = []
    below: BaseGeometry | None = None
    for level in reversed(target.levels):
        own = cavity(solid(level.outlines, chord), target.grip, target.side)
        below = own if below is None else own.union(below)
        reliefs = [_relief(r) for r in target.reliefs if r.floor <= level.floor + REACHES]
        whole = filled(below.union(shapely.union_all(reliefs)))
        steps.append(Step(level.top, level.floor, whole))
    return steps[::-1]


def _with_shallow_reliefs(shape: BaseGeometry, target: Target) -> BaseGeometry:
    """The first level with those reliefs, too, that end above its floor."""
    floor = target.levels[0].floor + REACHES
    shallow = [_relief(relief) for relief in target.reliefs if relief.floor > floor]
    return shapely.union_all([shape, *shallow]) if shallow else shape


def _relief(relief: Relief) -> BaseGeometry:
    return swept_disc(relief.start, relief.end, relief.radius)


def _blanks(target: Target, placed: Placed) -> tuple[BaseGeometry, BaseGeometry]:
    half, b = target.blanks.width / 2, target.blanks
    near, far = b.gap / 2, b.gap / 2 + b.thickness
    return (
        placed(shapely.box(-half, -far, half, -near)),
        placed(shapely.box(-half, near, half, far)),
    )


def _edge_depth(target: Target) -> float:
    """How deep the flanks of the tool that breaks the edges reach, in mm; 45 degrees if it is not
    known."""
    tool = next((c for c in target.cutters if c.number == target.edge_tool), None)
    half = tool.point_angle / 2 if tool else 45.0
    return target.edge / math.tan(math.radians(half))


def _strip(target: Target, width: float, chord: float) -> BaseGeometry:
    """The strip of that width along the foot of the seat's wall, reliefs left out."""
    seat = filled(cavity(solid(target.levels[-1].outlines, chord), target.grip, target.side))
    return seat.difference(seat.buffer(-width, quad_segs=64))
