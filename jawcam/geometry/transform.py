"""Paths moved, turned and mirrored, exactly."""

from __future__ import annotations

import math
from collections.abc import Callable

from jawcam.geometry.shapes import Arc, Line, Path, Point

__all__ = ["mirrored", "moved", "turned"]


def moved(path: Path, dx: float, dy: float) -> Path:
    """The path shifted by (dx, dy) mm."""
    return _mapped(path, lambda p: (p[0] + dx, p[1] + dy), flips=False)


def turned(path: Path, degrees: float) -> Path:
    """The path turned counter-clockwise about the origin; quarter turns are exact."""
    quarters, rest = divmod(degrees % 360, 90)
    if rest == 0:
        cos, sin = ((1.0, 0.0), (0.0, 1.0), (-1.0, 0.0), (0.0, -1.0))[int(quarters) % 4]
    else:
        cos, sin = math.cos(math.radians(degrees)), math.sin(math.radians(degrees))
    return _mapped(path, lambda p: (p[0] * cos - p[1] * sin, p[0] * sin + p[1] * cos), flips=False)


def mirrored(path: Path) -> Path:
    """The path seen from behind: x becomes -x (a part flipped about Y). A closed path keeps its
    sense of rotation, so it is also run backwards."""
    return _mapped(path, lambda p: (-p[0], p[1]), flips=True).reversed()


def _mapped(path: Path, place: Callable[[Point], Point], *, flips: bool) -> Path:
    moved_to: dict[Point, Point] = {}

    def at(p: Point) -> Point:
        if p not in moved_to:
            moved_to[p] = place(p)
        return moved_to[p]

    return Path(
        tuple(
            Line(at(s.start), at(s.end))
            if isinstance(s, Line)
            else Arc(at(s.start), at(s.end), at(s.centre), s.ccw != flips)
            for s in path.segments
        )
    )
