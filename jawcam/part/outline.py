"""What a drawing gives: loose pieces first, then the part's outline and what limits a cutter."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

from jawcam.geometry.shapes import Arc, Path, Point, Segment
from jawcam.units import Units

__all__ = [
    "Corner",
    "Drawing",
    "Outline",
    "Tightest",
    "sharp_corners",
    "tightest_inside_radius",
    "tightest_outside_radius",
]

_SHARP = math.radians(1.0)  # a smaller turn between two segments is no corner to a cutter


@dataclass(frozen=True)
class Drawing:
    """The usable pieces of a drawing, in mm, not yet joined.

    source: the file as the person typed it; units: what to speak to the person in; layers: those
    that have usable pieces, chosen or not; notes: what was left out or approximated.
    """

    pieces: tuple[Path, ...]
    source: str
    units: Units
    layers: tuple[str, ...] = ()
    notes: tuple[str, ...] = ()


@dataclass(frozen=True)
class Outline:
    """A part seen from above, in mm and in the drawing's own coordinates.

    outer: the silhouette, counter-clockwise; holes: the loops just inside it, clockwise, which
    are shown but not cut; source: the file as the person typed it; units: the drawing's.
    """

    outer: Path
    holes: tuple[Path, ...] = ()
    notes: tuple[str, ...] = ()
    source: str = ""
    units: Units = Units.MM


@dataclass(frozen=True)
class Tightest:
    """The smallest radius of its kind, in mm, and the middle of the arc that has it."""

    radius: float
    at: Point


@dataclass(frozen=True)
class Corner:
    """A sharp corner of the silhouette: where, and by how many degrees the outline turns there.
    `inside`: it points into the part.
    """

    at: Point
    turn: float
    inside: bool


def tightest_inside_radius(outline: Outline) -> Tightest | None:
    """The tightest arc of the silhouette's hollows, None if there is none.

    It limits the cutter that mills the part's own outside. Sharp corners are listed apart.
    """
    return _tightest(outline, outside=False)


def tightest_outside_radius(outline: Outline) -> Tightest | None:
    """The tightest arc of the silhouette's bulges, None if there is none.

    It limits the cutter that mills a pocket for the part. Sharp corners are listed apart.
    """
    return _tightest(outline, outside=True)


def sharp_corners(outline: Outline) -> tuple[Corner, ...]:
    """The corners of the silhouette, in its order, where it turns by more than one degree."""
    return tuple(_corners(outline.outer))


def _tightest(outline: Outline, *, outside: bool) -> Tightest | None:
    arcs = [s for s in outline.outer.segments if isinstance(s, Arc) and s.ccw == outside]
    if not arcs:
        return None
    arc = min(arcs, key=lambda arc: arc.radius)
    return Tightest(arc.radius, arc.point(0.5))


def _corners(path: Path) -> Iterator[Corner]:
    for before, after in zip((path.segments[-1], *path.segments), path.segments, strict=False):
        turn = math.remainder(_heading(after) - _heading(before.reversed()) - math.pi, 2 * math.pi)
        if abs(turn) > _SHARP:
            yield Corner(after.start, math.degrees(abs(turn)), inside=turn < 0)


def _heading(segment: Segment) -> float:
    """The direction, in radians, in which a segment leaves its start."""
    (x0, y0), (x1, y1) = segment.start, segment.end
    if isinstance(segment, Arc):
        cx, cy = segment.centre
        return math.atan2(y0 - cy, x0 - cx) + (math.pi / 2 if segment.ccw else -math.pi / 2)
    return math.atan2(y1 - y0, x1 - x0)
