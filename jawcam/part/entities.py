"""One entity of a DXF drawing -> exact lines and arcs, or arcs in place of a curve.

The entities are the library's; they come upright, that is in the drawing's own plane.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from typing import Any, TypeAlias

from jawcam.geometry.curves import Piece, bspline, closed_through, ellipse, samples
from jawcam.geometry.fit import fit_arcs
from jawcam.geometry.shapes import Arc, Line, Path, Point, from_bulges
from jawcam.tolerance import Tolerance

__all__ = ["READERS", "CantReadError", "Entity", "Scale"]

Entity: TypeAlias = Any
"""An entity of the library, whose classes are not at hand here: it takes long to import."""

_FARTHEST = 1e6  # mm; a coordinate beyond is a mistake
_SPECK = 1e-6  # mm; vertices nearer than this to the one before are dropped
_FRAME = 16  # flag of a vertex that only frames a smoothed polyline
_ROUND = 1e-9  # an ellipse whose axes differ by less than this share is a circle


class CantReadError(Exception):
    """An entity that should be part of the outline but can't be; says why."""


@dataclass(frozen=True)
class Scale:
    """mm: millimetres per drawing unit; tolerance: for curves (fit) and flatness (join)."""

    mm: float
    tolerance: Tolerance

    def point(self, at: Sequence[float]) -> Point:
        """A point of the drawing in mm. Raises CantReadError if it is no place for a part."""
        x, y = float(at[0]) * self.mm, float(at[1]) * self.mm
        if not (abs(x) <= _FARTHEST and abs(y) <= _FARTHEST):
            raise CantReadError("a coordinate is not a number or more than 1 km away")
        return (x, y)

    def flat(self, points: Iterable[Sequence[float]]) -> None:
        """Raise CantReadError unless the points lie at one height."""
        heights = [float(at[2]) * self.mm for at in points]
        if not heights or max(heights) - min(heights) <= self.tolerance.join:
            return
        low, high = min(heights) / self.mm, max(heights) / self.mm
        raise CantReadError(f"it is not flat: its Z runs from {low:g} to {high:g}")


def _line(entity: Entity, scale: Scale) -> list[Path]:
    ends = (entity.dxf.start, entity.dxf.end)
    scale.flat(ends)
    return [Path((Line(scale.point(ends[0]), scale.point(ends[1])),))]


def _circle(entity: Entity, scale: Scale) -> list[Path]:
    return _arc_of(entity, scale, 0.0, 360.0)


def _arc(entity: Entity, scale: Scale) -> list[Path]:
    return _arc_of(entity, scale, entity.dxf.start_angle, entity.dxf.end_angle)


def _arc_of(entity: Entity, scale: Scale, first: float, last: float) -> list[Path]:
    """The arc from one angle to another, in degrees; equal ones make a full circle."""
    _in_plane(entity)
    centre = scale.point(entity.dxf.center)
    radius = abs(entity.dxf.radius) * scale.mm
    start = scale.point(_on_circle(entity.dxf.center, entity.dxf.radius, first))
    whole = math.isclose((last - first + 180) % 360, 180, abs_tol=1e-9)
    end = start if whole else scale.point(_on_circle(entity.dxf.center, entity.dxf.radius, last))
    return [Path((Arc(start, end, centre, ccw=True),))] if radius > 0 else []


def _on_circle(centre: Sequence[float], radius: float, degrees: float) -> Point:
    """A point of a circle; exact at the quarters."""
    quarters, rest = divmod(degrees % 360, 90)
    cos, sin = math.cos(math.radians(rest)), math.sin(math.radians(rest))
    for _ in range(int(quarters)):
        cos, sin = -sin, cos
    return (centre[0] + abs(radius) * cos, centre[1] + abs(radius) * sin)


def _ellipse(entity: Entity, scale: Scale) -> list[Path]:
    _in_plane(entity)
    centre, major = scale.point(entity.dxf.center), scale.point(entity.dxf.major_axis)
    scale.flat([entity.dxf.major_axis, (0, 0, 0)])
    ratio, first = abs(entity.dxf.ratio), entity.dxf.start_param
    turn = (entity.dxf.end_param - first) % math.tau
    if min(turn, math.tau - turn) < _ROUND:
        turn = math.tau
    if math.hypot(*major) == 0 or ratio == 0:
        return []
    if abs(ratio - 1) > _ROUND:
        return _fitted(ellipse(centre, major, ratio, first, first + turn), scale)

    def at(angle: float) -> Point:
        cos, sin = math.cos(angle), math.sin(angle)
        return (
            centre[0] + major[0] * cos - major[1] * sin,
            centre[1] + major[1] * cos + major[0] * sin,
        )

    end = at(first) if turn == math.tau else at(first + turn)
    return [Path((Arc(at(first), end, centre, ccw=True),))]


def _spline(entity: Entity, scale: Scale) -> list[Path]:
    points = [*entity.control_points, *entity.fit_points]
    scale.flat(points)
    if len(points) < 2:
        raise CantReadError(f"a spline needs two points, it has {len(points)}")
    try:
        return _fitted(_spline_pieces(entity, scale), scale)
    except ValueError as error:
        raise CantReadError(str(error)) from error


def _spline_pieces(entity: Entity, scale: Scale) -> list[Piece]:
    controls = [scale.point(at) for at in entity.control_points]
    knots, degree = [float(knot) for knot in entity.knots], int(entity.dxf.degree)
    if controls and knots:
        return bspline(controls, [float(w) for w in entity.weights], knots, degree)
    through = [scale.point(at) for at in entity.fit_points]
    through = [p for k, p in enumerate(through) if k == 0 or p != through[k - 1]]
    if not controls and entity.closed:
        if through[0] == through[-1]:
            through.pop()
        if len(through) > 2:
            return closed_through(through)
    tool = entity.construction_tool()
    controls = [scale.point(at) for at in tool.control_points]
    weights = [float(w) for w in tool.weights()]
    return bspline(controls, weights, [float(knot) for knot in tool.knots()], int(tool.degree))


def _fitted(pieces: Sequence[Piece], scale: Scale) -> list[Path]:
    found = samples(pieces, scale.tolerance.fit)
    return [fit_arcs(found, scale.tolerance.fit)] if found else []


def _lwpolyline(entity: Entity, scale: Scale) -> list[Path]:
    _in_plane(entity)
    rows = entity.get_points("xyb")
    return _polygon([(*scale.point(row), float(row[2])) for row in rows], closed=entity.closed)


def _polyline(entity: Entity, scale: Scale) -> list[Path]:
    if not (entity.is_2d_polyline or entity.is_3d_polyline):
        raise CantReadError("it is a mesh, no outline")
    _in_plane(entity)
    corners = [vertex.dxf for vertex in entity.vertices if not vertex.dxf.flags & _FRAME]
    if entity.is_3d_polyline:
        scale.flat([corner.location for corner in corners])
    rows = [(*scale.point(corner.location), float(corner.get("bulge", 0))) for corner in corners]
    return _polygon(rows, closed=entity.is_closed)


def _polygon(rows: Sequence[tuple[float, float, float]], *, closed: bool) -> list[Path]:
    """The path of a polyline's rows (x, y, bulge), without those that repeat a point."""
    kept: list[tuple[float, float, float]] = []
    for x, y, bulge in rows:
        if not math.isfinite(bulge):
            raise CantReadError("a bulge is not a number")
        if kept and math.dist(kept[-1][:2], (x, y)) <= _SPECK:
            kept.pop()
        kept.append((x, y, bulge))
    if closed and len(kept) > 1 and math.dist(kept[0][:2], kept[-1][:2]) <= _SPECK:
        kept.pop()
    ends = [*kept[1:], *kept[:1]]
    straight = [
        (x, y, 0.0 if abs(bulge) * math.dist((x, y), end[:2]) / 2 < _SPECK / 10 else bulge)
        for (x, y, bulge), end in zip(kept, ends, strict=True)
    ]
    path = from_bulges(straight, closed=closed)
    return [path] if path.segments else []


def _in_plane(entity: Entity) -> None:
    """Raise CantReadError unless the entity lies in a plane of constant Z, seen from above."""
    x, y, z = entity.dxf.extrusion
    if z <= 0 or math.hypot(x, y) > 1e-6 * z:
        raise CantReadError("it lies in a tilted plane")


READERS: dict[str, Callable[[Entity, Scale], list[Path]]] = {
    "LINE": _line,
    "CIRCLE": _circle,
    "ARC": _arc,
    "ELLIPSE": _ellipse,
    "SPLINE": _spline,
    "LWPOLYLINE": _lwpolyline,
    "POLYLINE": _polyline,
}
"""Kind of entity -> what reads it: paths in mm, none for what has no size.

Each raises CantReadError for an entity that is not flat or that contradicts itself.
"""
