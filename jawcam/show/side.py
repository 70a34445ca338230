"""The view along the jaws: the closing direction across, Z up; the jaws cut through."""

from __future__ import annotations

import shapely
from matplotlib.axes import Axes
from matplotlib.figure import Figure
from matplotlib.patches import Rectangle
from shapely.geometry.base import BaseGeometry

from jawcam.show.cutter import draw_cutter
from jawcam.show.labels import spread
from jawcam.show.lettering import put
from jawcam.show.page import Box, Pads, View, heading, view
from jawcam.show.path import draw_ends, draw_path
from jawcam.show.picture import Picture
from jawcam.show.scene import Scene, sections
from jawcam.show.shapes import hatched
from jawcam.show.style import (
    AXIS_LINE,
    HATCHES,
    HIDDEN_LINE,
    INK,
    NARROW,
    PART,
    PART_LINE,
    SMALL,
    SOFT,
)

__all__ = ["draw_side", "section_at", "side_aspect"]

ROOM = Pads(left=12, bottom=11, right=30, top=9)
INNER = Pads(left=3, bottom=3, right=3, top=3)


def section_at(shown: Picture) -> float | None:
    """The X at which the jaws are cut through: where the cutter first stands deepest, in the
    picture's units. None without jaws.
    """
    if shown.scene is None:
        return None
    lowest = shown.measures.lowest
    if lowest is None:
        return float(shown.scene.part.centroid.x)
    return shown.units.from_mm(lowest[0])


def side_aspect(shown: Picture) -> float:
    """Width over height of what the side view holds."""
    content, _ = _content(shown)
    return content.w / max(content.h, 1e-9)


def draw_side(figure: Figure, page: Axes, box: Box, shown: Picture, section: float | None) -> View:
    """Draw the side view in `box`."""
    inside = Box(
        box.x + ROOM.left,
        box.y + ROOM.bottom,
        box.w - ROOM.left - ROOM.right,
        box.h - ROOM.bottom - ROOM.top,
    )
    content, across = _content(shown)
    mark = shown.units.value
    marks = (f"{'XY'[across]}, {mark}", f"Z, {mark}")
    side = view(figure, inside, content, INNER, name="side", marks=marks)
    if shown.scene and section is not None:
        at = shown.units.number(shown.units.to_mm(section), 3)
        heading(page, box, "SECTION A-A", f"at X {at}, seen from the right")
        _jaws(side, shown, shown.scene, section)
    else:
        seen = "seen from the front" if across == 0 else "seen from the right"
        heading(page, box, "SIDE VIEW", seen)
    draw_path(side, shown.path, shown.depths, (across, 2))
    _standing(side, shown, across)
    draw_ends(side, shown.trace, (across, 2))
    _heights(page, inside, side, shown)
    return side


def _content(shown: Picture) -> tuple[Box, int]:
    """What the view must hold, and which axis lies across: Y unless the path has no width in Y."""
    (x0, y0, z0), (x1, y1, z1) = shown.low, shown.high
    across = 0 if shown.scene is None and (y1 - y0) < 0.03 * (x1 - x0) else 1
    low, high = ((x0, x1), (y0, y1))[across]
    cutter = shown.cutter_of(shown.measures.deepest)
    if cutter and shown.measures.lowest:
        reach = cutter.flute_len or cutter.dia * 1.5
        z1 = max(z1, shown.units.from_mm(shown.measures.lowest[2] + reach))
    return Box(low, z0, high - low, z1 - z0), across


def _jaws(side: View, shown: Picture, scene: Scene, x: float) -> None:
    axes = side.axes
    pocket = _upright(sections(scene.cavity, x), scene.floor, scene.top)
    for blank, hatch in zip(scene.blanks, HATCHES, strict=True):
        _, low, _, high = blank.bounds
        hatched(axes, shapely.box(low, scene.bottom, high, scene.top).difference(pocket), hatch, 1)
    for low, high in sections(scene.part, x):
        corner, high_z = (low, scene.floor), scene.part_top - scene.floor
        axes.add_patch(Rectangle(corner, high - low, high_z, fc=PART, alpha=0.07, lw=0, zorder=2))
        axes.add_patch(
            Rectangle(
                corner, high - low, high_z, fc="none", ec=PART, lw=0.8, ls=PART_LINE, zorder=4
            )
        )
    y0, y1 = axes.get_xlim()
    axes.plot((y0, y1), (scene.clearance,) * 2, color=SOFT, lw=NARROW, ls=HIDDEN_LINE, zorder=1)
    z0, z1 = axes.get_ylim()
    axes.plot((scene.mid_gap,) * 2, (z0, z1), color=SOFT, lw=NARROW, ls=AXIS_LINE, zorder=1)
    _bolts(side, shown, scene)


def _bolts(side: View, shown: Picture, scene: Scene) -> None:
    """The bolts, hidden in the blanks, each seen once."""
    if shown.target is None:
        return
    scale, (_, zy, zz) = 1 / shown.units.in_mm, shown.target.zero
    seen = dict.fromkeys((b.y - zy, b.dia, b.top - zz) for b in shown.target.bolts)
    for y, dia, top in seen:
        xs = [(y + s * dia / 2) * scale for s in (-1, -1, 1, 1)]
        zs = [scene.bottom, top * scale, top * scale, scene.bottom]
        side.axes.plot(xs, zs, color=INK, lw=NARROW, ls=HIDDEN_LINE, zorder=2.5)


def _standing(side: View, shown: Picture, across: int) -> None:
    """The cutter where it first stands deepest."""
    cutter, lowest = shown.cutter_of(shown.measures.deepest), shown.measures.lowest
    if cutter is None or lowest is None:
        return
    scale = 1 / shown.units.in_mm
    draw_cutter(side, cutter, lowest[across] * scale, lowest[2] * scale, scale)


def _heights(page: Axes, inside: Box, side: View, shown: Picture) -> None:
    """The heights in words, on the right, each with a leader to its level."""
    z0, z1 = side.axes.get_ylim()
    named = [(z, name) for z, name in _named(shown) if z0 <= z <= z1]
    paper = [inside.y + (z - z0) * side.scale for z, _ in named]
    slots = spread(paper, 3.3, inside.y + 1.5, inside.top - 1.5)
    for (z, name), level, slot in zip(named, paper, slots, strict=True):
        xs = (inside.right, inside.right + 1.2, inside.right + 3.2, inside.right + 4)
        page.plot(xs, (level, level, slot, slot), color=SOFT, lw=NARROW)
        words = f"{name} {shown.units.number(shown.units.to_mm(z), 3)}"
        put(page, inside.right + 4.6, slot, words, fontsize=SMALL, va="center_baseline")


def _named(shown: Picture) -> list[tuple[float, str]]:
    scene, deep = shown.scene, shown.depths
    if scene is None:
        ends = [(deep.bottom, "lowest"), (deep.top, "highest")]
        return ends[: 2 if deep.top > deep.bottom else 1] if shown.measures.lowest else []
    return [
        (scene.clearance, "clearance"),
        (scene.part_top, "part top"),
        (scene.top, "jaw top"),
        (scene.floor, "floor"),
        (scene.bottom, "jaw bottom"),
    ]


def _upright(spans: list[tuple[float, float]], low: float, high: float) -> BaseGeometry:
    """The pocket's section: boxes over the spans."""
    return shapely.union_all([shapely.box(a, low, b, high + 1e-6) for a, b in spans])
