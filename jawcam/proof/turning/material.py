"""The material as the program goes through it, move by move: what is left in the end, and what
rapids, holders and edges that should not cut meet on the way."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Literal, NamedTuple

import numpy as np
import shapely

from jawcam.proof.turning.path import Move, Point
from jawcam.proof.turning.scene import Scene
from jawcam.proof.turning.section import both_halves, thread_band
from jawcam.proof.turning.sweep import FAR

__all__ = ["BACK", "History", "Met", "first_met", "history", "thick"]

BACK = 0.05
"""mm; so thick may be what a tool takes off with its trailing edge on its way back (common
practice, no source)."""

What = Literal["edge", "holder", "block", "bends", "back"]


class Met(NamedTuple):
    """A move that meets material. what: with its cutting part at rapid; with its holder or block;
    at rapid if its axes don't move in step; with its trailing edge on its way back. at: where;
    area: what of the half section it meets, of `work`, which stands then."""

    move: Move
    what: What
    at: Point
    area: shapely.Geometry
    work: shapely.Geometry


@dataclass(frozen=True)
class History:
    """remaining: the half section that all the cuts leave; met: in the program's order."""

    remaining: shapely.Geometry
    met: tuple[Met, ...]


@dataclass
class _Work:
    """The half section of what is left, and what has been swept since it was worked out."""

    area: shapely.Geometry
    pending: list[shapely.Geometry] = field(default_factory=list)

    def near(self, shape: shapely.Geometry | None) -> bool:
        """Whether a shape might meet material: it does that of a while ago."""
        return shape is not None and bool(shapely.intersects(self.area, shape))

    def now(self) -> shapely.Geometry:
        """The material as it is now."""
        if self.pending:
            self.area = shapely.difference(self.area, shapely.union_all(self.pending))
            shapely.prepare(self.area)
            self.pending = []
        return self.area

    def meets(self, shape: shapely.Geometry | None, spare: float) -> shapely.Geometry | None:
        """Where a shape meets material thicker than `spare`, None if nowhere."""
        if shape is None or not self.near(shape):
            return None
        met = shapely.intersection(self.now(), shape)
        return met if thick(met, spare) else None


def history(scene: Scene) -> History:
    """Go through the program. Nothing is cut at rapid; a pass of a thread leaves material between
    its turns, and so counts as cutting nothing."""
    work = _Work(scene.section.stock)
    shapely.prepare(work.area)
    met: list[Met] = []
    for i, move in enumerate(scene.moves):
        if move.kind == "rapid":
            met += _rapid(scene, work, i)
            continue
        met += _backwards(scene, work, i)
        if not move.threads and work.near(scene.cutting[i]):
            work.pending.append(scene.cutting[i])
        met += _behind(scene, work, i)
    return History(work.now(), tuple(met))


def thick(area: shapely.Geometry, spare: float) -> bool:
    """Whether an area in the half section is thicker than `spare` anywhere."""
    if area.is_empty or area.area <= spare * spare / 4:
        return False
    whole = both_halves(area) if area.bounds[1] <= spare else area
    return not shapely.buffer(whole, -spare / 2).is_empty


def first_met(move: Move, met: shapely.Geometry) -> Point:
    """Where a straight move first meets something: its point that lies farthest back."""
    points = shapely.get_coordinates(met)
    way = np.array(move.end) - np.array(move.start)
    if move.kind == "arc" or not way.any():
        way = np.array([-1.0, -1.0])
    z, x = points[int(np.argmin(points @ way))]
    return float(z), float(x)


def _rapid(scene: Scene, work: _Work, i: int) -> list[Met]:
    """What a rapid meets with its edge, its holder, its block; or only where its path bends."""
    move, spare, edge = scene.moves[i], scene.limits.rapid, scene.cutting[i]
    if i and scene.moves[i - 1].threads:
        # out of the groove that the pass itself has cut
        edge = shapely.difference(edge, thread_band(scene.target.threads))
    found = _any(work, move, spare, edge=edge, holder=scene.bodies[i])
    found = found or _any(work, move, spare, block=scene.blocks[i])
    if found or move.start[0] == move.end[0] or move.start[1] == move.end[1]:
        return found
    for corner in _bends(move):
        legs = (move._replace(end=corner), move._replace(start=corner))
        for leg in legs:
            met = work.meets(_over(scene, leg), spare)
            if met is not None:
                return [Met(move, "bends", first_met(leg, met), met, work.now())]
    return []


def _bends(move: Move) -> list[Point]:
    """Where a rapid turns if each axis runs at full speed until it is there: X and Z are taken to
    be equally fast, X by its radius or by its diameter."""
    (z0, x0), (z1, x1) = move.start, move.end
    corners = []
    for ratio in (1.0, 2.0):
        dz, dx = abs(z1 - z0), ratio * abs(x1 - x0)
        done = min(dz, dx)
        z = z0 + (z1 - z0) * done / dz
        x = x0 + (x1 - x0) * done / dx
        corners.append((z, x))
    return corners


def _over(scene: Scene, leg: Move) -> shapely.Geometry:
    from_form = scene.forms[leg.tool.number].outline
    points = np.vstack((from_form + np.array(leg.start), from_form + np.array(leg.end)))
    hull = shapely.convex_hull(shapely.multipoints(points))
    return shapely.intersection(hull, shapely.box(-FAR, 0.0, FAR, FAR))


def _behind(scene: Scene, work: _Work, i: int) -> list[Met]:
    """The holder or its block in what the move itself has left."""
    move, spare = scene.moves[i], scene.limits.gouge
    return _any(work, move, spare, holder=scene.bodies[i], block=scene.blocks[i])


def _any(work: _Work, move: Move, spare: float, **shapes: shapely.Geometry | None) -> list[Met]:
    """The first of some shapes that meets material."""
    for what, shape in shapes.items():
        met = work.meets(shape, spare)
        if met is not None:
            at = first_met(move, met)
            return [Met(move, what, at, met, work.now())]  # type: ignore[arg-type]
    return []


def _backwards(scene: Scene, work: _Work, i: int) -> list[Met]:
    """A right-hand tool that takes material off on its way from the chuck, a left-hand one on its
    way to it."""
    move = scene.moves[i]
    if move.tool.kind not in ("turning", "boring") or move.tool.hand == "neutral":
        return []
    back = (move.end[0] - move.start[0]) * (1.0 if move.tool.hand == "right" else -1.0)
    if back <= 0.05 * move.length:
        return []
    met = work.meets(scene.cutting[i], BACK)
    return [] if met is None else [Met(move, "back", first_met(move, met), met, work.now())]
