"""The half section of a lathe setup, true to scale: Z to the right, X upwards."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

import shapely
from matplotlib.axes import Axes
from matplotlib.figure import Figure
from matplotlib.patches import Circle, Polygon
from matplotlib.ticker import FixedLocator, FuncFormatter, MaxNLocator
from shapely.geometry.base import BaseGeometry

from jawcam.show.amiss_marks import draw_amiss
from jawcam.show.flags import Flag, draw_flags
from jawcam.show.labels import place
from jawcam.show.lettering import haloed, line_height, width
from jawcam.show.page import Box, View, heading, view
from jawcam.show.path import compensated, draw_ends
from jawcam.show.shapes import arrow, datum, fill, scale_bar
from jawcam.show.style import (
    AXIS_LINE,
    BLANK,
    HATCH,
    HATCHES,
    HEAD,
    HIDDEN_LINE,
    INK,
    NARROW,
    PART,
    PART_LINE,
    SMALL,
    SOFT,
    STOP,
    WIDE,
)
from jawcam.show.turned_inserts import Standing
from jawcam.show.turned_page import INNER, ROOM
from jawcam.show.turned_path import draw_turned_path
from jawcam.show.turned_picture import TurnPicture
from jawcam.show.turned_sizes import draw_sizes

__all__ = ["draw_half_section", "draw_holders", "draw_work", "draw_zero"]


def draw_half_section(
    figure: Figure, page: Axes, box: Box, picture: TurnPicture, flags: Sequence[Flag]
) -> View:
    """Draw it in `box`."""
    inside = Box(
        box.x + ROOM.left,
        box.y + ROOM.bottom,
        box.w - ROOM.left - ROOM.right,
        box.h - ROOM.bottom - ROOM.top,
    )
    mark = picture.units.value
    marks = (f"Z from program zero, {mark}", f"X, diameter, {mark}")
    shown = view(figure, inside, picture.content, INNER, name="half section", marks=marks)
    _diameters(shown, inside)
    scale = f"{shown.scale / picture.units.in_mm:.3g} : 1 on A4 paper"
    heading(page, box, "HALF SECTION", f"the chuck at the left, {scale}")
    draw_work(shown, picture)
    draw_holders(shown, picture)
    draw_turned_path(shown, picture)
    compensated(shown, picture.trace, picture.moves)
    draw_amiss(shown.axes, picture.amiss)
    draw_ends(shown, picture.trace, (0, 1))
    taken = draw_zero(shown)
    if flags:
        (z0, z1), (_, top) = shown.axes.get_xlim(), shown.axes.get_ylim()
        taken.append(Box(z0, top - shown.units(8), z1 - z0, shown.units(8)))
    _inserts(shown, picture, taken)
    draw_sizes(shown, picture, taken)
    x0, y0 = shown.axes.get_xlim()[0], shown.axes.get_ylim()[0]
    scale_bar(shown, Box(x0, y0, inside.w / shown.scale, 0), mark, right=True)
    draw_flags(shown, flags)
    return shown


def _diameters(shown: View, inside: Box) -> None:
    """Numbers along X: diameters, none below the axis, where the mirrored part lies."""
    low, high = shown.axes.get_ylim()
    over = high / (high - low) * inside.h
    top, ticks = high - shown.units(3), []
    for finer in range(6):  # one number alone tells no scale
        locator = MaxNLocator(max(int(over / 9), 1) + finer, steps=[1, 2, 2.5, 5, 10])
        ticks = [t / 2 for t in locator.tick_values(0.0, 2 * high) if -1e-9 <= t / 2 <= top]
        if len(ticks) > 1:
            break
    shown.axes.yaxis.set_major_locator(FixedLocator(ticks))
    shown.axes.yaxis.set_major_formatter(FuncFormatter(lambda x, _: f"{round(2 * x, 9):.6g}"))


def draw_work(shown: View, picture: TurnPicture) -> None:
    """Stock, part and what is marked on them."""
    axes, scene = shown.axes, picture.scene
    fill(axes, scene.stock, facecolor=BLANK, lw=0, zorder=1)
    _edges(axes, scene.stock, color=INK, lw=WIDE, zorder=2, gid="stock")
    look: dict[str, Any] = {"facecolor": "none", "edgecolor": HATCH, "hatch": HATCHES[0], "lw": 0}
    fill(axes, scene.part, **look, zorder=1.2)
    fill(axes, scene.part, facecolor=PART, alpha=0.07, lw=0, zorder=2.1)
    _edges(axes, scene.part, color=PART, lw=0.9, ls=PART_LINE, zorder=6, gid="part")
    _edges(axes, scene.mirrored, color=INK, lw=NARROW, zorder=2.2, gid="mirrored")
    z0, z1 = axes.get_xlim()
    axes.plot((z0, z1), (0, 0), color=SOFT, lw=NARROW, ls=AXIS_LINE, zorder=3, gid="axis")
    ends = (picture.content.y - shown.units(1), axes.get_ylim()[1])
    axes.plot((scene.limit,) * 2, ends, color=SOFT, lw=0.7, ls=HIDDEN_LINE, zorder=3, gid="limit")
    for thread in scene.threads:
        for sign in (1, -1):
            crest, root = ([(z, sign * x) for z, x in line] for line in (thread.crest, thread.root))
            axes.plot(*zip(*root, strict=True), color=INK, lw=0.6, zorder=6.1, gid="thread")
            last = zip(crest[1], root[1], strict=True)
            axes.plot(*last, color=INK, lw=0.9, zorder=6.1, gid="thread end")
    if scene.parting is not None:
        face = zip(*scene.parting, strict=True)
        axes.plot(*face, color=INK, lw=1.6, ls=(0, (4, 1.5)), zorder=6.2, gid="parted")
    for z, x, size in scene.left:
        around = Circle((z, x), max(size / 2, shown.units(0.9)), fc="none", ec=STOP, lw=0.8)
        around.set(hatch="xxxxxx", zorder=6.5, gid="left")
        axes.add_patch(around)


def draw_holders(shown: View, picture: TurnPicture) -> None:
    """Jaws, chuck and tailstock, as far as the view shows them; those that touch are hatched
    differently (ISO 128)."""
    (z0, z1), (x0, x1) = shown.axes.get_xlim(), shown.axes.get_ylim()
    seen = shapely.box(z0 - 1, x0 - 1, z1 + 1, x1 + 1)
    for number, shape in enumerate(picture.scene.keep_off):
        hatch = (HATCHES[1], "///", "\\\\\\")[number % 3]
        look: dict[str, Any] = {"facecolor": BLANK, "edgecolor": HATCH, "hatch": hatch, "lw": 0}
        fill(shown.axes, shape & seen, **look, zorder=1.5)
        _edges(shown.axes, shape, color=INK, lw=WIDE, zorder=1.7, gid="keep off")


def _edges(axes: Axes, shape: BaseGeometry, **look: Any) -> None:  # noqa: ANN401
    """A half section's edges, without the one along the axis, where nothing ends."""
    z0, x0, z1, x1 = shape.bounds
    near = 1e-6 * max(z1 - z0, x1 - x0)
    over = shapely.box(z0 - 1, near, z1 + 1, max(x1, near) + 1)
    off = over | shapely.box(z0 - 1, min(x0, -near) - 1, z1 + 1, -near)
    for piece in shapely.get_parts(shapely.line_merge(shape.boundary & off)):
        axes.plot(*shapely.get_coordinates(piece).T, **look)


def draw_zero(shown: View) -> list[Box]:
    """The program's zero with its axes; the boxes that they take."""
    axes, unit = shown.axes, shown.units(1)
    arrow(axes, (0, 0), (9 * unit, 0), unit, zorder=8.5)
    arrow(axes, (0, 0), (0, 9 * unit), unit, zorder=8.5)
    datum(axes, 0, 0, unit)
    for name, (z, x) in (("Z", (11, 0)), ("X", (0, 11))):
        haloed(axes, z * unit, x * unit, name, fontsize=HEAD, zorder=8.5)
    return [
        Box(-3 * unit, -3 * unit, 6 * unit, 6 * unit),
        Box(-1.6 * unit, 0, 3.2 * unit, 13 * unit),
        Box(0, -1.6 * unit, 13 * unit, 3.2 * unit),
    ]


def _inserts(shown: View, picture: TurnPicture, taken: list[Box]) -> None:
    """Each tool's cutting part: thin at its first cut, full and named where it is deepest."""
    factor = 1 / picture.units.in_mm
    for standing in picture.standing:
        look: dict[str, Any] = {"fc": "none", "lw": NARROW, "ls": HIDDEN_LINE}
        if standing.deepest:
            look = {"fc": (1, 1, 1, 0.5), "lw": 0.9}
        gid = f"T{standing.tool.number} {'deepest' if standing.deepest else 'first'}"
        shape = Polygon(standing.shape * factor, closed=True, ec=INK, zorder=7, gid=gid, **look)
        shown.axes.add_patch(shape)
    for standing in picture.standing:
        if standing.deepest:
            _named(shown, standing, factor, taken)


def _named(shown: View, standing: Standing, factor: float, taken: list[Box]) -> None:
    """The tool's number in or beside its insert."""
    unit, words = shown.units(1), f"T{standing.tool.number}"
    size = (width(words, SMALL) * unit + unit, line_height(SMALL) * unit)
    (z0, z1), (x0, x1) = shown.axes.get_xlim(), shown.axes.get_ylim()
    shape = shapely.Polygon(standing.shape * factor) & shapely.box(z0, x0, z1, x1)
    if shape.is_empty:
        return
    low_z, low_x, high_z, high_x = shape.bounds
    middle, side = shape.centroid, 0.6 * size[0]
    spots = [
        (middle.x, middle.y),
        (high_z + side, middle.y),
        (low_z - side, middle.y),
        (middle.x, high_x + size[1]),
        (high_z + side, high_x),
        (low_z - side, high_x),
        (high_z + side, low_x),
        (middle.x + 2.2 * side, high_x + size[1]),
        (middle.x - 2.2 * side, high_x + size[1]),
    ]
    spots += [(middle.x + k * size[0], high_x + size[1]) for k in (2, -2, 3, -3, 4, -4)]
    held = [
        (
            min(max(z, z0 + size[0]), z1 - size[0]),
            min(max(x, x0 + size[1]), x1 - size[1]),
        )
        for z, x in spots
    ]
    box = place(size, held, taken)
    at = (box.x + box.w / 2, box.y + box.h / 2)
    haloed(shown.axes, *at, words, fontsize=SMALL, fontweight="bold", zorder=8.3, gid="tool")
