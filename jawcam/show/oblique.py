"""The oblique view: the jaws in the round, the path in them, shaded by height.

The jaws are painted slab by slab from the bottom up: whoever looks down sees what is higher before
what is lower, so that each slab covers only what it hides. Of a slab come first the walls, those
far off before those near by, then the path in it, then its top.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any, NamedTuple

import numpy as np
import shapely
from matplotlib.axes import Axes
from matplotlib.collections import LineCollection, PolyCollection
from matplotlib.colors import to_rgb
from shapely.geometry.base import BaseGeometry

from jawcam.show.arrays import Bools, Floats
from jawcam.show.gaze import Gaze
from jawcam.show.lettering import put
from jawcam.show.page import Box, View
from jawcam.show.path import Depths, draw_path
from jawcam.show.picture import Picture
from jawcam.show.scene import Scene
from jawcam.show.shapes import arrow, fill
from jawcam.show.slabs import Slab, slabs_of
from jawcam.show.style import BLANK, DEPTHS, HEAD, INK, NARROW, SOFT, WIDE
from jawcam.show.trace import Strands

__all__ = ["draw_oblique", "oblique_box"]

EDGE_ON = 1e-9
"""Walls that face the onlooker by no more than this aren't seen."""

SHARP = 0.35
"""Radians; walls that meet at more than this have an edge between them."""

DARKEST = 0.42
"""How much of the paper's brightness a wall that is seen edge on has lost."""

HIDDEN = 0.16
"""How much of the path is seen through what hides it."""

LEVEL = 1e-6
"""Moves at the height of a floor, in the picture's units, run over it."""

TINT = 0.3
"""How much of its depth's colour a floor takes on."""


NOTHING = Strands((), np.zeros(0))


class Walls(NamedTuple):
    """Stretches of wall in plan: first and last point (n, 2), the way out of the material, whether
    an edge stands at either point (n, 2)."""

    first: Floats
    last: Floats
    outward: Floats
    sharp: Bools


def oblique_box(shown: Picture, gaze: Gaze) -> Box:
    """What the view must hold."""
    corners = np.array(
        [
            (x, y, z)
            for x in (shown.low[0], shown.high[0])
            for y in (shown.low[1], shown.high[1])
            for z in (shown.low[2], shown.high[2])
        ]
    )
    seen = gaze.seen(corners)
    (x0, y0), (x1, y1) = seen.min(axis=0).tolist(), seen.max(axis=0).tolist()
    return Box(x0, y0, x1 - x0, y1 - y0)


def draw_oblique(view: View, shown: Picture, gaze: Gaze, *, bare: bool = False) -> None:
    """Draw the jaws, if there are any, else the ground, and, unless `bare`, the path."""
    path = [NOTHING] * 3 if bare else [_seen(strands, gaze) for strands in shown.path]
    if shown.scene is None:
        _ground(view, shown, gaze)
        draw_path(view, path, shown.depths, (0, 1))
    else:
        _jaws(view, shown, shown.scene, path, gaze)
    _axes_at(view, gaze)


def _seen(strands: Strands, gaze: Gaze) -> Strands:
    """Strands whose first two columns are places on the page, and the third still Z."""
    points = tuple(np.column_stack([gaze.seen(line), line[:, 2]]) for line in strands.points)
    return Strands(points, strands.z)


def _jaws(view: View, shown: Picture, scene: Scene, path: Sequence[Strands], gaze: Gaze) -> None:
    slabs = slabs_of(scene)
    for number, slab in enumerate(slabs):
        over = 1 + number * 0.1  # zorder
        above = slabs[number + 1].shape if number + 1 < len(slabs) else None
        _walls(view.axes, slab, gaze, scene, over, foot=number == 0)
        low = -np.inf if number == 0 else slab.low - LEVEL
        some = [_between(strands, low, slab.high - LEVEL) for strands in path]
        _paint_path(view, some, shown.depths, over + 0.03)
        _paint_path(view, some, shown.depths, 4.5, alpha=HIDDEN)
        _top(view.axes, slab, above, gaze, shown.depths, over + 0.05)
    _paint_path(
        view, [_between(strands, scene.top - LEVEL, np.inf) for strands in path], shown.depths, 5
    )


def _paint_path(
    view: View, path: Sequence[Strands], deep: Depths, zorder: float, alpha: float = 1.0
) -> None:
    before = len(view.axes.collections)
    draw_path(view, path, deep, (0, 1))
    for drawn in list(view.axes.collections)[before:]:
        drawn.set(zorder=zorder, alpha=alpha)


def _between(strands: Strands, low: float, high: float) -> Strands:
    """The stretches of strands whose pieces have their middles between two heights, the lower one
    counted in."""
    points: list[Floats] = []
    for line in strands.points:
        middle = (line[1:, 2] + line[:-1, 2]) / 2
        inside = (middle >= low) & (middle < high)
        if inside.all():
            points.append(line)
            continue
        steps = np.flatnonzero(np.diff(np.concatenate([[0], inside.astype(np.int8), [0]])))
        points += [line[a : b + 1] for a, b in zip(steps[::2], steps[1::2], strict=True)]
    z = [(line[:, 2].min() + line[:, 2].max()) / 2 for line in points]
    return Strands(tuple(points), np.array(z))


def _walls(axes: Axes, slab: Slab, gaze: Gaze, scene: Scene, zorder: float, *, foot: bool) -> None:
    """The walls that face the onlooker, and the edges between them; the outermost ones, behind
    which the path may be hidden, above it. foot: whether their lower edges are drawn."""
    walls = _stretches(slab.shape)
    facing = walls.outward @ gaze.near[:2]
    distance = (walls.first + walls.last) / 2 @ gaze.near[:2]
    order = [i for i in np.argsort(distance, kind="stable").tolist() if facing[i] > EDGE_ON]
    outer = _outermost(walls, scene)
    for some, over in (
        ([i for i in order if not outer[i]], zorder),
        ([i for i in order if outer[i]], zorder + 0.04),
    ):
        if not some:
            continue
        first, last = walls.first[some], walls.last[some]
        corners = ((first, slab.low), (last, slab.low), (last, slab.high), (first, slab.high))
        quads = np.stack([gaze.level(flat, z) for flat, z in corners], axis=1)
        shades = [_shade(float(facing[i])) for i in some]
        look: dict[str, Any] = {"facecolors": shades, "edgecolors": shades, "lw": 0.4}
        axes.add_collection(PolyCollection(list(quads), zorder=over, **look), autolim=False)
        lines: list[Floats] = []
        for sharp, ends in zip(walls.sharp[some].T, ((0, 3), (1, 2)), strict=True):
            lines += [*quads[sharp][:, ends]]
        lines += [*quads[:, :2]] if foot else []
        edges = LineCollection(lines, colors=INK, linewidths=NARROW, zorder=over + 0.005)
        axes.add_collection(edges, autolim=False)


def _top(
    axes: Axes, slab: Slab, above: BaseGeometry | None, gaze: Gaze, deep: Depths, zorder: float
) -> None:
    """The top of a slab: the jaw top, or what of it shows as a floor in its depth's colour."""
    colour = np.array(to_rgb(BLANK))
    shape = slab.shape
    if above is not None:
        shape = shape.difference(above)
        colour += TINT * (np.array(DEPTHS(float(deep.norm(slab.high)))[:3]) - colour)
    seen = shapely.transform(shape, lambda flat: gaze.level(flat, slab.high))
    look: dict[str, Any] = {"facecolor": tuple(colour), "edgecolor": INK, "joinstyle": "round"}
    fill(axes, seen, lw=WIDE * 0.8 if above is None else NARROW, zorder=zorder, **look)


def _shade(facing: float) -> tuple[float, ...]:
    """A wall's colour: the more it faces the onlooker, the lighter."""
    return tuple(np.array(to_rgb(BLANK)) * (1 - DARKEST * (1 - 0.72 * facing)))


def _stretches(shape: BaseGeometry) -> Walls:
    """All the stretches of a shape's edge, each with the way out of it."""
    first, last, outward, sharp = [], [], [], []
    for part in shapely.get_parts(shapely.normalize(shape)):
        if not isinstance(part, shapely.Polygon):
            continue
        for ring in (part.exterior, *part.interiors):
            points = shapely.get_coordinates(ring)
            # The first ring of a normal polygon runs clockwise, its holes the other way round: the
            # way out is on the left.
            along = np.diff(points, axis=0)
            angle = np.arctan2(along[:, 1], along[:, 0])
            bend = np.abs(np.remainder(angle - np.roll(angle, 1) + np.pi, 2 * np.pi) - np.pi)
            first.append(points[:-1])
            last.append(points[1:])
            outward.append(np.column_stack([-np.sin(angle), np.cos(angle)]))
            sharp.append(np.column_stack([bend, np.roll(bend, -1)]) > SHARP)
    return Walls(
        np.concatenate(first), np.concatenate(last), np.concatenate(outward), np.concatenate(sharp)
    )


def _outermost(walls: Walls, scene: Scene) -> Bools:
    """Which stretches lie on the edges of both blanks taken together."""
    x0, y0, x1, y1 = shapely.union_all(scene.blanks).bounds
    outer = np.zeros(len(walls.first), dtype=np.bool_)
    for axis, edge in ((0, x0), (0, x1), (1, y0), (1, y1)):
        ends = np.stack([walls.first[:, axis], walls.last[:, axis]])
        outer |= (np.abs(ends - edge) < 1e-6).all(axis=0)
    return outer


def _ground(view: View, shown: Picture, gaze: Gaze) -> None:
    """The plane through the lowest point, with lines up its far corner."""
    (x0, y0, z0), (x1, y1, z1) = shown.low, shown.high
    corners = np.array([(x0, y0), (x1, y0), (x1, y1), (x0, y1)])
    ground = gaze.level(corners, z0)
    fill(view.axes, shapely.Polygon(ground), facecolor=BLANK, edgecolor=SOFT, lw=NARROW, zorder=1)
    for corner in corners[2:]:
        upright = gaze.seen(np.array([(*corner, z0), (*corner, z1)]))
        view.axes.plot(*upright.T, color=SOFT, lw=NARROW, zorder=1)
    over = gaze.level(corners[[1, 2, 3]], z1)
    view.axes.plot(*over[1:].T, color=SOFT, lw=NARROW, zorder=1)


def _axes_at(view: View, gaze: Gaze) -> None:
    """The three axes, in the lower left corner."""
    axes, unit = view.axes, view.units(1)
    root = np.array([axes.get_xlim()[0] + 9 * unit, axes.get_ylim()[0] + 9 * unit])
    for name, way in zip("XYZ", gaze.seen(np.eye(3)), strict=True):
        (x0, y0), (x1, y1), (x2, y2) = (
            (root + way * length * unit).tolist() for length in (0, 11, 14)
        )
        arrow(axes, (x0, y0), (x1, y1), unit, zorder=9)
        put(axes, x2, y2, name, fontsize=HEAD, ha="center", va="center", zorder=9)
