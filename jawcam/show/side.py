"""The view along the jaws: the closing direction across, Z up; the jaws cut through."""

from __future__ import annotations

from typing import Any

import shapely
from matplotlib.axes import Axes
from matplotlib.figure import Figure

from jawcam.show.cutaway import body_cut, bore_cut, meets, pocket_cut
from jawcam.show.cutter import draw_cutter
from jawcam.show.heights import draw_heights
from jawcam.show.page import Box, Pads, View, heading, view
from jawcam.show.path import draw_ends, draw_path
from jawcam.show.picture import Picture
from jawcam.show.scene import Scene
from jawcam.show.shapes import fill, hatched
from jawcam.show.style import (
    AXIS_LINE,
    HATCHES,
    HIDDEN_LINE,
    INK,
    NARROW,
    PART,
    PART_LINE,
    SOFT,
)

__all__ = ["draw_cut_jaws", "draw_side", "side_aspect", "side_content"]

ROOM = Pads(left=12, bottom=11, right=30, top=9)
INNER = Pads(left=3, bottom=3, right=3, top=3)


def side_aspect(shown: Picture) -> float:
    """Width over height of what the side view holds."""
    content, _ = side_content(shown)
    return content.w / max(content.h, 1e-9)


def draw_side(figure: Figure, page: Axes, box: Box, shown: Picture, section: float | None) -> View:
    """Draw the side view in `box`."""
    inside = Box(
        box.x + ROOM.left,
        box.y + ROOM.bottom,
        box.w - ROOM.left - ROOM.right,
        box.h - ROOM.bottom - ROOM.top,
    )
    content, across = side_content(shown)
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
    draw_heights(page, inside, side, shown)
    return side


def side_content(shown: Picture) -> tuple[Box, int]:
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
    draw_cut_jaws(side, shown, scene, x)
    axes = side.axes
    y0, y1 = axes.get_xlim()
    axes.plot((y0, y1), (scene.clearance,) * 2, color=SOFT, lw=NARROW, ls=HIDDEN_LINE, zorder=1)
    z0, z1 = axes.get_ylim()
    axes.plot((scene.mid_gap,) * 2, (z0, z1), color=SOFT, lw=NARROW, ls=AXIS_LINE, zorder=1)


def draw_cut_jaws(side: View, shown: Picture, scene: Scene, x: float) -> None:
    """The jaws cut through at `x`, the part in them, and what is hidden behind."""
    axes = side.axes
    pocket = pocket_cut(scene, x)
    for blank, hatch in zip(scene.blanks, HATCHES, strict=True):
        _, low, _, high = blank.bounds
        hatched(axes, shapely.box(low, scene.bottom, high, scene.top).difference(pocket), hatch, 1)
        if scene.facing:
            _faced_off(side, scene, low, high)
    part = body_cut(scene, x)
    fill(axes, part, facecolor=PART, alpha=0.07, lw=0, zorder=2)
    look: dict[str, Any] = {"ec": PART, "lw": 0.8, "ls": PART_LINE, "zorder": 4}
    fill(axes, part, facecolor="none", gid="part", **look)
    _bolts(side, shown, scene)
    _spacers(side, shown, scene)
    _bores_beyond(side, scene, x)


def _faced_off(side: View, scene: Scene, low: float, high: float) -> None:
    """The blank as it was before it was faced: its outline prior to forming."""
    raw = scene.top + scene.facing
    look: dict[str, Any] = {"color": SOFT, "lw": NARROW, "ls": PART_LINE, "zorder": 1.5}
    side.axes.plot((low, low, high, high), (scene.top, raw, raw, scene.top), gid="facing", **look)


def _bores_beyond(side: View, scene: Scene, x: float) -> None:
    """The drilled holes that the section doesn't meet, hidden in the blanks, each seen once."""
    seen = dict.fromkeys(bore._replace(x=0.0) for bore in scene.bores if not meets(bore, x))
    for bore in seen:
        points = shapely.get_coordinates(bore_cut(bore, bore.x, scene.top)).T
        look: dict[str, Any] = {"color": INK, "lw": NARROW, "ls": HIDDEN_LINE, "zorder": 2.5}
        side.axes.plot(*points, gid="drilled", **look)


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


def _spacers(side: View, shown: Picture, scene: Scene) -> None:
    """The spacers in the gap, hidden behind the jaws' faces, those of one height once."""
    if shown.target is None:
        return
    scale, zz = 1 / shown.units.in_mm, shown.target.zero[2]
    (_, _, _, front), (_, back, _, _) = (blank.bounds for blank in scene.blanks)
    for top in dict.fromkeys((spacer.top - zz) * scale for spacer in shown.target.spacers):
        look: dict[str, Any] = {"color": INK, "lw": NARROW, "ls": HIDDEN_LINE, "zorder": 2.5}
        side.axes.plot((front, back), (top, top), gid="spacer", **look)


def _standing(side: View, shown: Picture, across: int) -> None:
    """The cutter where it first stands deepest."""
    cutter, lowest = shown.cutter_of(shown.measures.deepest), shown.measures.lowest
    if cutter is None or lowest is None:
        return
    scale = 1 / shown.units.in_mm
    draw_cutter(side, cutter, lowest[across] * scale, lowest[2] * scale, scale)
