"""Half sections by the target: the stock, what must go, what must stay, what to keep off."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass

import numpy as np
import shapely
from shapely import affinity

from jawcam.hold.turn_target import HalfLoop, Thread, TurnTarget
from jawcam.proof.curve import loop_points
from jawcam.proof.sweep import CAVITY_CHORD
from jawcam.proof.turning.sweep import FAR

__all__ = ["AXIS", "Section", "both_halves", "crest", "revolved", "section_of", "thread_band"]

AXIS = 1e-6
"""mm; nearer to the axis than this is on it."""


@dataclass(frozen=True)
class Section:
    """The half sections. finished: of the part; stock: as chucked; go: what must be cut away; stay:
    what must not be cut, the stock behind the limit among it; free_edges: where stay meets air or
    what goes; core: stay, both halves, without a rim as thick as a gouge that passes; keep_off: of
    jaws, chuck and tailstock."""

    finished: shapely.Geometry
    stock: shapely.Geometry
    go: shapely.Geometry
    stay: shapely.Geometry
    free_edges: shapely.Geometry
    core: shapely.Geometry
    keep_off: shapely.Geometry


def section_of(target: TurnTarget, rim: float) -> Section:
    """The half sections of a target. rim: how thick a gouge is that isn't looked at, mm."""
    finished, stock = _area(target.finished), _area(target.stock)
    done = target.limit if target.finished_to is None else target.finished_to
    front = max(done, -FAR if target.parted is None else target.parted)
    go = shapely.intersection(shapely.difference(stock, finished), _beyond(front))
    behind = shapely.intersection(stock, shapely.box(-FAR, 0.0, target.limit, FAR))
    behind = shapely.difference(behind, _bore(finished))  # which is made from the free end
    stay = shapely.union(finished, behind)
    whole = both_halves(stay)
    keep_off = shapely.union_all([_area(loop) for loop in target.keep_off])
    return Section(
        finished,
        stock,
        go,
        stay,
        whole.boundary,
        shapely.buffer(whole, -rim),
        keep_off,
    )


def _bore(finished: shapely.Geometry) -> shapely.Geometry:
    """The hollow between the axis and the part; one that goes through goes on behind it."""
    z0, _, z1, x1 = finished.bounds
    around = shapely.get_parts(shapely.difference(shapely.box(z0, 0.0, z1, x1), finished))
    low = shapely.bounds(around)[:, 1] if len(around) else np.empty(0)
    hollow = shapely.union_all(around[low <= 0.0])
    points = shapely.get_coordinates(hollow)
    open_ends = points[points[:, 0] <= z0 + 1e-9, 1] if len(points) else np.empty(0)
    return shapely.union(hollow, shapely.box(-FAR, 0.0, z0, float(open_ends.max(initial=0.0))))


def both_halves(area: shapely.Geometry) -> shapely.Geometry:
    """An area and its mirror image in the axis."""
    return shapely.union(area, affinity.scale(area, 1.0, -1.0, origin=(0, 0)))


def revolved(area: shapely.Geometry) -> float:
    """The volume of an area turned about the axis, mm3: its size times the way of its centroid
    (Pappus)."""
    if area.is_empty or area.area == 0:
        return 0.0
    return math.tau * float(area.centroid.y) * float(area.area)


def crest(thread: Thread, z: float) -> float:
    """The radius of a thread's crest at a Z, going on straight beyond its ends."""
    span = thread.end - thread.start
    portion = (z - thread.start) / span if span else 0.0
    return thread.first + (thread.last - thread.first) * portion


def thread_band(threads: Iterable[Thread]) -> shapely.Geometry:
    """Where passes of threads may cut: half a pitch beyond their ends, as the flanks of the last
    turn reach farther than its middle. Down to twice their depth: it is judged apart."""
    bands = []
    for thread in threads:
        near, far = thread.start + thread.pitch / 2, thread.end - thread.pitch / 2
        into, out = (1.0, -1.0) if thread.inside else (-1.0, 1.0)
        rows = [(z, crest(thread, z)) for z in (far, near)]
        deep = [(z, x + 2 * into * thread.depth) for z, x in rows]
        high = [(z, x + out * thread.depth) for z, x in reversed(rows)]
        bands.append(shapely.Polygon([*deep, *high]))
    return shapely.union_all(bands)


def _area(loop: HalfLoop) -> shapely.Geometry:
    points = loop_points(loop, CAVITY_CHORD)
    points[np.abs(points[:, 1]) < AXIS, 1] = 0.0
    return shapely.make_valid(shapely.Polygon(points))


def _beyond(z: float) -> shapely.Geometry:
    return shapely.box(z, 0.0, FAR, FAR)
