"""The bore of a turned part in its half section, and what it takes away of the stock."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from jawcam.geometry.shapes import Line, Region, Segment, polygon
from jawcam.job.model import Job
from jawcam.part.piece import Piece
from jawcam.part.table import stretches

__all__ = ["Drill", "bore_outline", "drill_of", "hollows"]


@dataclass(frozen=True)
class Drill:
    """What drills the bore. radius: mm; point: how deep the cone of its point is, in its radii:
    1 / tan(angle / 2)."""

    radius: float
    point: float


def bore_outline(bore: Sequence[Piece], length: float, drill: Drill) -> list[Segment]:
    """The bore from end B back to end A; a blind one ends in the cone of its drill."""
    if not bore:
        return [Line((length, 0.0), (0.0, 0.0))]
    rows = stretches(bore)
    segments: list[Segment] = [
        Line((row.end, row.last), (row.begin, row.first)) for row in reversed(rows)
    ]
    depth = rows[-1].end
    if depth < length:
        drilled = min(drill.radius, rows[-1].last)
        tip = min(depth + drilled * drill.point, length)
        head: list[Segment] = [
            Line((length, 0.0), (tip, 0.0)),
            Line((tip, 0.0), (depth, drilled)),
        ]
        return [*head, Line((depth, drilled), (depth, rows[-1].last)), *segments]
    return segments


def drill_of(job: Job) -> Drill:
    """What the job's drill leaves at a bore's bottom."""
    drills = [tool for tool in job.turners if tool.kind == "drill" and tool.dia]
    angle = drills[0].point_angle if drills else 118.0
    radius = (drills[0].dia or 0.0) / 2 if drills else math.inf
    return Drill(radius, 1 / math.tan(math.radians(angle / 2)))


def hollows(bore: Sequence[Piece], length: float, front: float, *, free: str) -> list[Region]:
    """The bore's stretches as they lie with the end `free` at Z 0, down past the axis; one that
    is open at that end goes on to `front`, the stock's own face."""
    found = []
    for row in stretches(bore):
        ends = [(-row.begin, row.first), (-row.end, row.last)]
        if free == "B":
            ends = [(row.begin - length, row.first), (row.end - length, row.last)]
        (z0, r0), (z1, r1) = sorted(ends)
        if abs(z1) < 1e-9:
            z1 = front + 1.0
        if z1 > z0:
            found.append(Region(polygon([(z0, -1.0), (z1, -1.0), (z1, r1), (z0, r0)])))
    return found
