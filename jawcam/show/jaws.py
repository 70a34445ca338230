"""The jaws seen from above: blanks cut just below the jaw top, the cavity's levels, the part."""

from __future__ import annotations

from typing import Any

import shapely
from matplotlib.axes import Axes
from matplotlib.patches import Circle

from jawcam.show.lettering import paper
from jawcam.show.page import View
from jawcam.show.picture import Picture
from jawcam.show.scene import Scene
from jawcam.show.shapes import crossed_circle, fill, hatched, outline
from jawcam.show.style import (
    AXIS_LINE,
    HATCHES,
    INK,
    NARROW,
    PART,
    PART_LINE,
    SOFT,
    STOP,
)

__all__ = ["draw_jaws"]


def draw_jaws(plan: View, shown: Picture, scene: Scene) -> None:
    """Draw the blanks, what is cut into them, and the part."""
    axes = plan.axes
    for blank, hatch in zip(scene.blanks, HATCHES, strict=True):
        hatched(axes, blank.difference(scene.cavity), hatch, 1)
    outline(axes, scene.cavity, color=INK, lw=NARROW, zorder=2)
    for relief in scene.reliefs:
        outline(axes, relief.shape, color=SOFT, lw=NARROW, zorder=2.5)
    _lower(axes, scene)
    fill(axes, scene.part, facecolor=PART, alpha=0.07, lw=0, zorder=2.1)
    outline(axes, scene.part, color=PART, lw=0.8, ls=PART_LINE, zorder=6)
    x0, _, x1, _ = shapely.union_all(scene.blanks).bounds
    over = plan.units(3)
    axes.plot(
        (x0 - over, x1 + over), (scene.mid_gap,) * 2, color=SOFT, lw=NARROW, ls=AXIS_LINE, zorder=3
    )
    _bolts(plan, shown)
    _unreached(plan, shown)


def _lower(axes: Axes, scene: Scene) -> None:
    """What lies below the jaw top or is cut beside the cavity: the lower levels' edges, the groove
    in the seat, the broken edge, the drilled holes.
    """
    for number, level in enumerate(scene.levels[1:], start=2):
        outline(axes, level.cavity, color=INK, lw=NARROW, zorder=2.2, gid=f"level-{number}")
    if scene.groove is not None:
        outline(axes, scene.groove, color=SOFT, lw=NARROW, zorder=2.2, gid="groove")
    if scene.edge is not None:
        blanks = shapely.union_all(scene.blanks)
        for piece in shapely.get_parts(shapely.line_merge(scene.edge.boundary & blanks)):
            along = shapely.get_coordinates(piece).T
            axes.plot(*along, color=INK, lw=NARROW, zorder=2.2, gid="edge")
    for bore in scene.bores:
        hole = Circle((bore.x, bore.y), bore.radius, fc=paper(axes), lw=0, zorder=1.5)
        axes.add_patch(hole)
        look: dict[str, Any] = {"color": INK, "lw": NARROW, "zorder": 3, "gid": "drilled"}
        crossed_circle(axes, bore.x, bore.y, bore.radius, **look)


def _bolts(plan: View, shown: Picture) -> None:
    if shown.target is None:
        return
    scale, (zx, zy, _) = 1 / shown.units.in_mm, shown.target.zero
    for bolt in shown.target.bolts:
        where = ((bolt.x - zx) * scale, (bolt.y - zy) * scale)
        ground = paper(plan.axes)
        plan.axes.add_patch(Circle(where, bolt.dia / 2 * scale, fc=ground, lw=0, zorder=3))
        crossed_circle(plan.axes, *where, bolt.dia / 2 * scale, color=INK, lw=0.7, zorder=3.1)


def _unreached(plan: View, shown: Picture) -> None:
    if shown.target is None:
        return
    scale, (zx, zy, _) = 1 / shown.units.in_mm, shown.target.zero
    look: dict[str, Any] = {"fc": "none", "ec": STOP, "lw": 0.8, "hatch": "xxxxxx", "zorder": 6.5}
    for place in shown.target.unreached:
        where = ((place.x - zx) * scale, (place.y - zy) * scale)
        size = max(place.size / 2 * scale, plan.units(0.9))
        plan.axes.add_patch(Circle(where, size, **look))
