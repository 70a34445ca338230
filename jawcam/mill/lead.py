"""Tangent lead-in and lead-out: where on a path they fit."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from jawcam.geometry.cut import along, begun_near, tangent_at
from jawcam.geometry.measure import inside_distances
from jawcam.geometry.shapes import Arc, Path, Point, Region, Segment
from jawcam.mill.links import straight_way

__all__ = ["SMALLEST", "Lead", "find_lead"]

SMALLEST = 0.3
"""mm; a smaller lead-in arc would no longer part the entry mark from the wall."""


@dataclass(frozen=True)
class Lead:
    """Lead-in and lead-out at `point` of a path: from `before` straight to `start`, round by an
    arc to the path; off it by an arc to `end` and straight to `after`."""

    path: Path
    before: Point
    start: Point
    point: Point
    end: Point
    after: Point
    centre: Point


def find_lead(
    path: Path, wanted: float, free: tuple[Region, ...], *, smallest: float = SMALLEST
) -> Lead | None:
    """The widest lead that fits, no wider than `wanted` mm, on the longest straight or gently bent
    stretch with room for it; None if there is none. Its arc turns left: the inside of a climb
    path lies there. free: where the cutter's centre may be with nothing left to cut."""
    radii = [wanted / 2**k for k in range(8) if wanted / 2**k >= smallest]
    longest = sorted(range(len(path.segments)), key=lambda k: -path.segments[k].length)[:12]
    joints = [(k, path.segments[k].start) for k in longest if _goes_on_smoothly(path, k)]
    middles = [(k, _middle(path.segments[k])) for k in longest]
    # where two pieces meet neither is cut in two; half the radius is a fair price for that
    tries = [(r, p) for r in radii[:2] for p in joints] + [(r, p) for r in radii for p in middles]
    for radius, (number, point) in tries:
        lead = _lead(path, point, tangent_at(path.segments[number], point), radius)
        if _fits(lead, free):
            return lead
    return None


def _middle(segment: Segment) -> Point:
    return along(segment, segment.length / 2)[1]


def _goes_on_smoothly(path: Path, number: int) -> bool:
    """Whether a segment goes on without a corner from the one before."""
    segment, before = path.segments[number], path.segments[number - 1]
    (ax, ay), (bx, by) = tangent_at(before, segment.start), tangent_at(segment, segment.start)
    return ax * bx + ay * by > 1 - 1e-6


def _lead(path: Path, point: Point, heading: Point, radius: float) -> Lead:
    """Quarter arcs of `radius` about a centre on the path's left, and straight ends as long."""
    (x, y), (tx, ty) = point, heading
    nx, ny = -ty * radius, tx * radius
    dx, dy = tx * radius, ty * radius
    start, end = (x + nx - dx, y + ny - dy), (x + nx + dx, y + ny + dy)
    return Lead(
        begun_near(path, point),
        (start[0] + nx / 2, start[1] + ny / 2),
        start,
        point,
        end,
        (end[0] + nx / 2, end[1] + ny / 2),
        (x + nx, y + ny),
    )


def _fits(lead: Lead, free: tuple[Region, ...]) -> bool:
    """Whether the straight ends are in the clear and the arcs stay off the wall."""
    ways = ((lead.before, lead.start), (lead.end, lead.after))
    if not free or not all(straight_way(*way, free) for way in ways):
        return False
    arcs = (
        Arc(lead.start, lead.point, lead.centre, ccw=True),
        Arc(lead.point, lead.end, lead.centre, ccw=True),
    )
    points = np.array([arc.point(k / 12) for arc in arcs for k in range(1, 12)])
    radius = math.dist(lead.start, lead.centre)
    own = np.hypot(*(points - lead.point).T)
    # the path's own tangent point is touched; farther along an arc it must be left behind
    room = inside_distances([Region(lead.path)], points)
    return bool((room >= np.minimum(own**2 / (12 * radius), radius / 8) - 1e-6).all())
