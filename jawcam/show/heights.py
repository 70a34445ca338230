"""The heights beside the side view, in words."""

from __future__ import annotations

from collections.abc import Callable

from matplotlib.axes import Axes

from jawcam.show.labels import spread
from jawcam.show.lettering import put
from jawcam.show.page import Box, View
from jawcam.show.picture import Picture
from jawcam.show.scene import Scene
from jawcam.show.style import NARROW, SMALL, SOFT

__all__ = ["draw_heights"]

APART = 3.3
"""mm of paper between two labels."""

EDGE = 1.5
"""mm of paper that the labels keep from either end of the view."""

LEVELS = 6
"""The most levels that are named."""

Named = list[tuple[float, str]]


def draw_heights(page: Axes, inside: Box, side: View, shown: Picture) -> None:
    """Write the heights on the right of the view in `inside`, each with a leader to its level."""
    z0, z1 = side.axes.get_ylim()
    most = int((inside.h - 2 * EDGE) / APART) + 1
    named = _named(shown, lambda z: z0 <= z <= z1, most)
    paper = [inside.y + (z - z0) * side.scale for z, _ in named]
    slots = spread(paper, APART, inside.y + EDGE, inside.top - EDGE)
    for (z, name), level, slot in zip(named, paper, slots, strict=True):
        xs = (inside.right, inside.right + 1.2, inside.right + 3.2, inside.right + 4)
        page.plot(xs, (level, level, slot, slot), color=SOFT, lw=NARROW)
        words = f"{name} {shown.units.number(shown.units.to_mm(z), 3)}"
        put(page, inside.right + 4.6, slot, words, fontsize=SMALL, va="center_baseline")


def _named(shown: Picture, seen: Callable[[float], bool], most: int) -> Named:
    """What is named of what the view holds, no more than `most`."""
    scene, deep = shown.scene, shown.depths
    if scene is None:
        ends = [(deep.bottom, "lowest"), (deep.top, "highest")]
        named = ends[: 2 if deep.top > deep.bottom else 1] if shown.measures.lowest else []
        return [(z, name) for z, name in named if seen(z)]
    named = [
        (scene.clearance, "clearance"),
        (scene.part_top, "part top"),
        (scene.top, "jaw top"),
        (scene.floor, "floor"),
        (scene.bottom, "jaw bottom"),
    ]
    if scene.facing:
        named.insert(2, (scene.top + scene.facing, "unfaced top"))
    named = [(z, name) for z, name in named if seen(z)]
    return named + [(z, "level") for z in _some_levels(scene, most - len(named))]


def _some_levels(scene: Scene, most: int) -> list[float]:
    """The floors of the levels over the seat, evenly chosen if there are too many."""
    floors = [level.floor for level in scene.levels[:-1]]
    count = max(min(len(floors), LEVELS, most), 0)
    return [floors[(2 * k + 1) * len(floors) // (2 * count)] for k in range(count)]
