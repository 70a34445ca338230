"""Shapes as matplotlib patches, and small marks whose size is told in mm of paper."""

from __future__ import annotations

import math
from typing import Any

import shapely
from matplotlib.axes import Axes
from matplotlib.patches import Circle, PathPatch, Polygon, Rectangle, Wedge
from matplotlib.path import Path
from shapely.geometry.base import BaseGeometry

from jawcam.show.arrays import Floats
from jawcam.show.lettering import paper, put
from jawcam.show.page import Box, View
from jawcam.show.style import BLANK, BODY, HATCH, INK, NARROW, WIDE

__all__ = ["arrow", "crossed_circle", "datum", "fill", "hatched", "outline", "scale_bar"]


def fill(axes: Axes, shape: BaseGeometry, **look: Any) -> None:  # noqa: ANN401
    """Paint a shape, holes left out; `look` goes to the patch."""
    if not shape.is_empty:
        axes.add_patch(PathPatch(_path(shape), **look))


def hatched(axes: Axes, shape: BaseGeometry, hatch: str, zorder: float) -> None:
    """Draw a shape as cut material: filled, hatched, its edge wide."""
    fill(axes, shape, facecolor=BLANK, edgecolor=HATCH, hatch=hatch, lw=0, zorder=zorder)
    outline(axes, shape, color=INK, lw=WIDE, zorder=zorder + 0.2)


def outline(axes: Axes, shape: BaseGeometry, **look: Any) -> None:  # noqa: ANN401
    """Draw a shape's edges; `look` goes to each line."""
    for ring in _rings(shape):
        axes.plot(ring[:, 0], ring[:, 1], **look)


def crossed_circle(axes: Axes, x: float, y: float, radius: float, **look: Any) -> None:  # noqa: ANN401
    """A circle with its two centre lines."""
    axes.add_patch(Circle((x, y), radius, fill=False, **look))
    reach = radius * 1.25
    axes.plot((x - reach, x + reach), (y, y), **look)
    axes.plot((x, x), (y - reach, y + reach), **look)


def datum(axes: Axes, x: float, y: float, unit: float, zorder: float = 9) -> None:
    """The quartered circle of a program's origin, with a stub along each axis; `unit` is one mm
    of paper.
    """
    axes.add_patch(Circle((x, y), 2.2 * unit, fc=paper(axes), ec=INK, lw=NARROW, zorder=zorder))
    for start in (0, 180):
        axes.add_patch(Wedge((x, y), 2.2 * unit, start, start + 90, fc=INK, lw=0, zorder=zorder))


def arrow(
    axes: Axes,
    tail: tuple[float, float],
    tip: tuple[float, float],
    unit: float,
    **look: Any,  # noqa: ANN401
) -> None:
    """A thin arrow with a slim filled head, 2.4 mm of paper long."""
    angle = math.atan2(tip[1] - tail[1], tip[0] - tail[0])
    wings = [
        (tip[0] - 2.4 * unit * math.cos(angle + off), tip[1] - 2.4 * unit * math.sin(angle + off))
        for off in (0.16, -0.16)
    ]
    axes.plot((tail[0], tip[0]), (tail[1], tip[1]), color=INK, lw=NARROW, **look)
    axes.add_patch(Polygon([tip, *wings], closed=True, fc=INK, lw=0, **look))


def scale_bar(shown: View, box: Box, mark: str, *, right: bool) -> Box:
    """A bar of a round length in the lower left or right corner of `box` (in units), its halves
    filled and open, the length beside it; the box that it takes is given back.
    """
    unit = shown.units(1)
    length = _round_length(36 * unit)
    high, wide = 1.4 * unit, length + 16 * unit
    x = box.right - wide - 4 * unit if right else box.x + 4 * unit
    y = box.y + 3 * unit
    for part, colour in ((0, INK), (1, paper(shown.axes))):
        corner = (x + part * length / 2, y)
        shown.axes.add_patch(
            Rectangle(corner, length / 2, high, fc=colour, ec=INK, lw=NARROW, zorder=9)
        )
    label = f"{length:.6g} {mark}"
    put(shown.axes, x + length + 2 * unit, y + high / 2, label, fontsize=BODY, va="center")
    return Box(x, y - unit, wide, high + 2 * unit)


def _round_length(most: float) -> float:
    power: float = 10.0 ** math.floor(math.log10(most))
    return max(float(step * power) for step in (1, 2, 5) if step * power <= most)


def _rings(shape: BaseGeometry) -> list[Floats]:
    """All rings, outer ones counter-clockwise and inner ones clockwise."""
    rings = []
    for polygon in shapely.get_parts(shape):
        if isinstance(polygon, shapely.Polygon) and not polygon.is_empty:
            for number, ring in enumerate((polygon.exterior, *polygon.interiors)):
                points, outer = shapely.get_coordinates(ring), number == 0
                rings.append(points if shapely.is_ccw(ring) == outer else points[::-1])
    return rings


def _path(shape: BaseGeometry) -> Path:
    """All rings in one path; as outer and inner ones run opposite ways, holes stay open."""
    return Path.make_compound_path(*(Path(ring, closed=True) for ring in _rings(shape)))
