"""Unbroken: stretches of the pocket's top edges that the cone doesn't break as wide as asked.

Where it can't get in they are only noted: nearer than its working radius to reliefs and drilled
holes, which are there so that nothing touches, and in corners that are rounded less than that.
"""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import shapely

from jawcam.proof.cavity import edges, hole_area, relief_area, shrunk
from jawcam.proof.edge import broken_by, walls
from jawcam.proof.form import radius_at, slope
from jawcam.proof.move import Move
from jawcam.proof.report import Finding
from jawcam.proof.scene import Scene
from jawcam.proof.sweep import swept

__all__ = ["unbroken"]

THREAD = 0.005
"""Islands and slits thinner than twice this, in mm, are traces between two passes, not edges."""

NEAR = 0.5
"""mm; an edge farther than this from the cavity's, and than what no cutter reaches is large, isn't
the pocket's."""

SHORT = 0.1
"""mm; shorter stretches of an edge are not told."""

SPACING = 0.05
"""mm between the points of an unbroken stretch that are looked at."""


def unbroken(scene: Scene) -> list[Finding]:
    """A finding for each stretch of the edges that is not broken as wide as asked, the longest
    first; one note for all that can't be."""
    if scene.target.edge <= 0:
        return []
    tier = walls(scene)
    cut = _solid(scene.stock.cleared(tier.floor + tier.rough))
    lines = shapely.intersection(shapely.union_all(edges(cut)), _rim(scene))
    feeds = [m for m in broken_by(scene) if m.kind != "rapid" and _deep_enough(scene, m)]
    working = [radius_at(m.cutter, -m.high) - scene.target.edge for m in feeds]
    broken = [
        replace(move, cutter=replace(move.cutter, dia=2 * (radius + scene.limits.edge)))
        for move, radius in zip(feeds, working, strict=True)
        if radius + scene.limits.edge > 0
    ]
    rest = shapely.difference(lines, shapely.union_all(swept(broken)[0]))
    rest = shapely.line_merge(shapely.union_all(rest))
    if sum(part.length > SHORT for part in shapely.get_parts(rest)) == 0:
        return []
    out = max([*working, 0.0])
    runs = _in_reach(scene, shapely.difference(rest, _excused(scene, out)), cut, out)
    found = [_missing(scene, run) for run in sorted(runs, key=lambda run: -run.length)]
    kept = rest.length - sum(run.length for run in runs)
    return [*found, *([_kept(scene, kept)] if kept > SHORT else [])]


def _deep_enough(scene: Scene, move: Move) -> bool:
    """Whether the cone reaches down to the chamfer's lower end, all along a move."""
    return -move.high * slope(move.cutter) >= scene.target.edge - scene.limits.edge


def _rim(scene: Scene) -> shapely.Geometry:
    """Where edges count: near the cavity's own, as what is cut elsewhere or left is told by others,
    and beside the holes, as they are to be and as they are, which have no edges to be broken."""
    tier = walls(scene)
    near = NEAR + max((place.size for place in scene.target.unreached), default=0.0)
    rim = shapely.buffer(shapely.union_all(edges(tier.cavity)), near)
    drills = [move for move in scene.drilled if scene.role(move) == "drill"]
    holes = [hole_area(hole) for hole in scene.target.drilled]
    gone = shapely.union_all([*holes, *swept(drills)[0]])
    jaws = shapely.difference(scene.solid, shapely.buffer(gone, scene.limits.edge))
    return shapely.intersection(jaws, rim)


def _solid(area: shapely.Geometry) -> shapely.Geometry:
    """An area without islands and pieces that are only a thread."""
    kept = []
    for part in shapely.get_parts(area):
        holes = [ring for ring in part.interiors if _thick(shapely.Polygon(ring))]
        if _thick(part):
            kept.append(shapely.Polygon(part.exterior, holes))
    return shapely.union_all(kept)


def _thick(area: shapely.Geometry) -> bool:
    return not shapely.buffer(area, -THREAD).is_empty


def _excused(scene: Scene, working: float) -> shapely.Geometry:
    """Reliefs and drilled holes, and what is near them."""
    areas = [relief_area(relief) for relief in scene.target.reliefs]
    areas += [hole_area(hole) for hole in scene.target.drilled]
    return shapely.buffer(shapely.union_all(areas), working + scene.limits.edge)


def _in_reach(
    scene: Scene, rest: shapely.Geometry, cut: shapely.Geometry, working: float
) -> list[shapely.Geometry]:
    """The stretches of some lines that a cone inside the cut comes up to."""
    inner = shrunk(cut, working) if working > 0 else cut
    runs: list[shapely.Geometry] = []
    for part in shapely.get_parts(shapely.line_merge(rest)):
        points = shapely.get_coordinates(shapely.segmentize(part, SPACING))
        far = shapely.distance(shapely.points(points), inner)
        near = far <= working + scene.limits.edge / 2
        groups = np.split(np.arange(len(points)), np.flatnonzero(np.diff(near)) + 1)
        kept = (points[group] for group in groups if near[group[0]] and len(group) > 1)
        runs += [shapely.LineString(group) for group in kept]
    return [run for run in runs if run.length > SHORT]


def _missing(scene: Scene, run: shapely.Geometry) -> Finding:
    middle = run.interpolate(0.5, normalized=True)
    what = (
        f"the pocket's edge is not broken {scene.say(scene.target.edge)} wide along "
        f"{scene.say(run.length)}"
    )
    mend = "lead the edge's tool all along there, at its depth"
    at = (float(middle.x), float(middle.y), 0.0)
    return scene.find("P911", "stop", what, at=at, amount=float(run.length), mend=mend)


def _kept(scene: Scene, length: float) -> Finding:
    what = (
        f"the pocket's edge stays unbroken along {scene.say(length)} in all, in corners, at "
        "reliefs and at drilled holes, where its tool can't get in"
    )
    return scene.find("P915", "note", what, amount=length, mend="break the rest by hand")
