"""What the cutting plane of the side view shows: shapes across Y and up Z."""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterable

import numpy as np
import shapely
from shapely.geometry.base import BaseGeometry

from jawcam.show.bodies import upright
from jawcam.show.picture import Picture
from jawcam.show.scene import Bore, Scene, sections

__all__ = ["body_cut", "bore_cut", "meets", "pocket_cut", "section_at"]

OVER = 1e-6
"""How far a shape reaches over its top, so that nothing thin is left of what lies above it."""

ENDS = 1e-6
"""A relief whose floor is no farther than this off a level's floor ends there."""

TRIED = 31
"""At so many more places along the part a cut is tried."""

Spans = list[tuple[float, float]]


def section_at(shown: Picture) -> float | None:
    """The X at which the jaws are cut through, in the picture's units; None without jaws.

    A plain pocket is cut where the cutter first stands deepest; one with levels or holes, or a
    part that changes with its height, where most of the levels and of the part is seen, and that
    is the middle of the largest floor unless another place shows more.
    """
    scene, target, lowest = shown.scene, shown.target, shown.measures.lowest
    if scene is None or target is None:
        return None
    if len(target.levels) > 1 or target.drilled or not upright(target.body):
        return _most_telling(scene)
    if lowest is None:
        return float(scene.part.centroid.x)
    return shown.units.from_mm(lowest[0])


def pocket_cut(scene: Scene, x: float) -> BaseGeometry:
    """All that is cut out of the blanks at `x`."""
    pieces = [
        shapely.box(a, level.floor, b, level.top + OVER)
        for level in scene.levels
        for a, b in sections(level.cavity, x)
    ]
    floors = [level.floor for level in scene.levels]
    for shape, floor in scene.reliefs:
        if all(abs(floor - z) > ENDS for z in floors):
            pieces += [shapely.box(a, floor, b, scene.top + OVER) for a, b in sections(shape, x)]
    if scene.groove is not None:
        low, high = scene.groove_floor, scene.floor + OVER
        pieces += [shapely.box(a, low, b, high) for a, b in sections(scene.groove, x)]
    if scene.edge is not None:
        under, top = scene.top - scene.edge_depth, scene.top + OVER
        pieces += _slab(sections(scene.cavity, x), under, sections(scene.edge, x), top)
    pieces += [bore_cut(bore, x, scene.top + OVER) for bore in scene.bores if meets(bore, x)]
    return shapely.union_all(pieces)


def body_cut(scene: Scene, x: float) -> BaseGeometry:
    """The part's own section at `x`. Its rings are without needless corners and begin at their
    lowest, leftmost one.
    """
    cuts = [(z, sections(shape, x)) for z, shape in scene.body]
    pieces: list[BaseGeometry] = []
    for (low, below), (high, above) in itertools.pairwise(cuts):
        if high > low:
            pieces += _slab(below, low, above, high)
    joined = shapely.simplify(shapely.union_all(pieces), 1e-9)
    parts = [p for p in shapely.get_parts(joined) if isinstance(p, shapely.Polygon)]
    turned = [
        shapely.Polygon(_from_lowest(p.exterior), [_from_lowest(ring) for ring in p.interiors])
        for p in parts
    ]
    ordered = sorted(turned, key=lambda p: p.bounds)
    return ordered[0] if len(ordered) == 1 else shapely.MultiPolygon(ordered)


def meets(bore: Bore, x: float) -> bool:
    """Whether the cutting plane at `x` meets a drilled hole."""
    return abs(bore.x - x) < bore.radius * (1 - 1e-6)


def bore_cut(bore: Bore, x: float, top: float) -> BaseGeometry:
    """A drilled hole cut at `x`: off its axis the cone of its point shows as a hyperbola."""
    off = abs(bore.x - x)
    half = math.sqrt(bore.radius**2 - off**2)
    across = np.linspace(-half, half, 25 if off > bore.radius * 1e-6 else 3)
    shares = 1 - np.hypot(across, off) / bore.radius
    floor = bore.floor + (bore.tip - bore.floor) * np.maximum(shares, 0)
    lower = np.column_stack([bore.y + across, floor])
    return shapely.Polygon([(bore.y - half, top), *lower.tolist(), (bore.y + half, top)])


def _slab(below: Spans, low: float, above: Spans, high: float) -> list[BaseGeometry]:
    """Straight walls from the spans below to those above; where their numbers differ, a step
    halfway up.
    """
    if len(below) == len(above):
        return [
            shapely.Polygon([(a, low), (b, low), (d, high), (c, high)])
            for (a, b), (c, d) in zip(below, above, strict=True)
        ]
    middle = (low + high) / 2
    return [
        *(shapely.box(a, low, b, middle) for a, b in below),
        *(shapely.box(c, middle, d, high) for c, d in above),
    ]


def _from_lowest(ring: shapely.LinearRing) -> list[tuple[float, float]]:
    """A ring's corners, counter-clockwise from its lowest, leftmost one."""
    corners = [(float(y), float(z)) for y, z in shapely.get_coordinates(ring)[:-1]]
    if not shapely.is_ccw(ring):
        corners.reverse()
    first = min(range(len(corners)), key=lambda k: corners[k][::-1])
    return corners[first:] + corners[:first]


def _most_telling(scene: Scene) -> float:
    """Of some places along the part the first that shows the most levels and, among those, a
    good deal more of the part than the others before it: the middle of a floor if it may be, else
    the middle of a stretch that shows as much.
    """
    floors = sorted(shapely.get_parts(scene.levels[-1].cavity), key=lambda p: (-p.area, p.bounds))
    x0, _, x1, _ = scene.part.bounds
    middles = [*(floor.centroid.x for floor in floors), scene.part.centroid.x]
    tried = middles + [x0 + (x1 - x0) * (k + 1) / (TRIED + 1) for k in range(TRIED)]
    whole = sum(_cut_areas(scene, x) for x in tried) / len(tried)
    scores = [(_steps(scene, x), round(2 * _cut_areas(scene, x) / (whole or 1))) for x in tried]
    first = last = scores.index(max(scores))
    while last >= len(middles) and scores[last + 1 : last + 2] == [scores[first]]:
        last += 1
    return float((tried[first] + tried[last]) / 2)


def _steps(scene: Scene, x: float) -> int:
    """How many of the levels show at `x` as steps of their own."""
    spans = [sections(level.cavity, x) for level in scene.levels]
    shown = sum(not _alike(a, b) for a, b in itertools.pairwise(spans))
    return shown + bool(spans[-1])


def _alike(a: Iterable[tuple[float, float]], b: Iterable[tuple[float, float]]) -> bool:
    first, second = np.array([*a]).ravel(), np.array([*b]).ravel()
    return len(first) == len(second) and bool(np.allclose(first, second, atol=1e-3))


def _cut_areas(scene: Scene, x: float) -> float:
    """About the area of the part's section at `x`, hollows counted."""
    cuts = [(z, _across(sections(shape, x))) for z, shape in scene.body]
    return sum((w + v) / 2 * (high - low) for (low, w), (high, v) in itertools.pairwise(cuts))


def _across(spans: Spans) -> float:
    return spans[-1][1] - spans[0][0] if spans else 0.0
