"""How material left and material gouged are drawn, in any view."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from typing import Any

import shapely
from matplotlib.axes import Axes
from matplotlib.patches import Rectangle

from jawcam.show.amiss import Amiss, Patch
from jawcam.show.arrays import Floats
from jawcam.show.shapes import fill
from jawcam.show.style import STOP

__all__ = ["amiss_entries", "draw_amiss"]

LEFT: dict[str, Any] = {"fc": (*(0.94, 0.80, 0.76), 0.6), "ec": STOP, "hatch": "xxxxx", "lw": 1.3}
GOUGED: dict[str, Any] = {"fc": STOP, "ec": STOP, "lw": 1.3}
"""Crossed where something stays, solid where too much is gone: told apart in grey, too. The edges
are wide, so that what is thinner than a line still shows."""

Seen = Callable[[Floats, float], Floats]


def draw_amiss(axes: Axes, amiss: Amiss, seen: Seen | None = None, zorder: float = 6.4) -> None:
    """Draw all patches; seen: places in plan (n, 2) and their height -> places in the view."""
    _draw(axes, amiss.left, LEFT, seen, zorder, "left")
    _draw(axes, amiss.gouged, GOUGED, seen, zorder + 0.05, "gouged")


def _draw(
    axes: Axes,
    patches: Iterable[Patch],
    look: dict[str, Any],
    seen: Seen | None,
    zorder: float,
    gid: str,
) -> None:
    for patch in patches:
        shape = patch.shape
        if seen is not None:
            shape = shapely.transform(shape, lambda flat, z=patch.z: seen(flat, z))
        fill(axes, shape, zorder=zorder, gid=gid, **look)


def amiss_entries(amiss: Amiss) -> list[tuple[bool, str, Callable[[Axes, float, float], None]]]:
    """What the key says of them: whether they are there, the words, the sample."""
    return [
        (amiss.left != (), "material left", _sample(LEFT)),
        (amiss.gouged != (), "gouged", _sample(GOUGED)),
    ]


def _sample(look: dict[str, Any]) -> Callable[[Axes, float, float], None]:
    def draw(axes: Axes, x: float, y: float) -> None:
        axes.add_patch(Rectangle((x, y - 1.3), 9.0, 2.6, **look))

    return draw
