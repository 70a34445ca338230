"""Neighbouring segments that lie on one line or one circle, made one."""

from __future__ import annotations

import math

from jawcam.geometry.shapes import Arc, Line, Path, Segment

__all__ = ["tidied"]

HAIR = 1e-7
"""mm; pieces of one line or circle that came from different sources agree far better."""


def tidied(path: Path) -> Path:
    """A closed path with as few segments as its shape has; it may begin elsewhere."""
    kept: list[Segment] = []
    for segment in path.segments:
        one = _joined(kept[-1], segment) if kept else None
        if one is None:
            kept.append(segment)
        else:
            kept[-1] = one
    while len(kept) > 1:
        one = _joined(kept[-1], kept[0])
        if one is None:
            break
        kept = [one, *kept[1:-1]]
    return Path(tuple(kept))


def _joined(first: Segment, second: Segment) -> Segment | None:
    """Two consecutive segments as one, None if they are not on one line or circle."""
    if isinstance(first, Line) and isinstance(second, Line):
        ax, ay = first.end[0] - first.start[0], first.end[1] - first.start[1]
        bx, by = second.end[0] - second.start[0], second.end[1] - second.start[1]
        off = abs(ax * by - ay * bx) / max(math.hypot(ax + bx, ay + by), HAIR)
        return Line(first.start, second.end) if off < HAIR and ax * bx + ay * by > 0 else None
    if isinstance(first, Arc) and isinstance(second, Arc):
        same = (
            first.ccw == second.ccw
            and math.dist(first.centre, second.centre) < HAIR
            and abs(first.radius - second.radius) < HAIR
            and first.sweep + second.sweep < 2 * math.pi + HAIR
        )
        return Arc(first.start, second.end, first.centre, first.ccw) if same else None
    return None
