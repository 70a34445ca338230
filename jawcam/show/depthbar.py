"""The bar that tells which shade is which depth."""

from __future__ import annotations

from matplotlib.axes import Axes
from matplotlib.cm import ScalarMappable
from matplotlib.figure import Figure
from matplotlib.ticker import FixedLocator, MaxNLocator

from jawcam.show.lettering import put
from jawcam.show.page import Box
from jawcam.show.path import Depths
from jawcam.show.style import DEPTHS, NARROW, PAGE, SMALL
from jawcam.units import Units

__all__ = ["draw_depth_bar"]

APART = 3.4
"""mm of paper between two labels."""


def draw_depth_bar(figure: Figure, page: Axes, plan: Box, deep: Depths, units: Units) -> None:
    """Draw the bar at the right of the plan's panel, with the levels that are cut; a single depth
    is told in words.
    """
    high = min(plan.h - 40, 60.0)
    x, y = plan.right - 17.5, plan.y + (plan.h - high) / 2
    if deep.top <= deep.bottom:
        words = ("one depth", f"Z {units.number(units.to_mm(deep.bottom), 3)}", units.value)
        for row, text in enumerate(words):
            put(page, x, y + high / 2 - 3.2 * row, text, fontsize=SMALL)
        return
    axes = figure.add_axes((x / PAGE[0], y / PAGE[1], 3.2 / PAGE[0], high / PAGE[1]), label="depth")
    bar = figure.colorbar(ScalarMappable(deep.norm, DEPTHS), cax=axes)
    bar.outline.set_linewidth(NARROW)
    step = (deep.top - deep.bottom) * APART / high
    bar.locator = FixedLocator(_ticks(deep, step))
    bar.update_ticks()
    axes.yaxis.set_major_formatter(lambda z, _: units.number(units.to_mm(z), 3))
    axes.tick_params(labelsize=SMALL)
    put(page, x, y + high + 5.4, "depth Z", fontsize=SMALL)
    put(page, x, y + high + 2.2, units.value, fontsize=SMALL)


def _ticks(deep: Depths, step: float) -> list[float]:
    """The levels, as many as there is room for from the deepest up; round steps if there is
    none, or only one, of them.
    """
    if len(deep.levels) < 2 or len(deep.levels) > 20:
        ticks = MaxNLocator(8, steps=[1, 2, 2.5, 5, 10]).tick_values(deep.bottom, deep.top)
        return [float(z) for z in ticks if deep.bottom <= z <= deep.top] or [deep.bottom]
    # a drill goes below the lowest level
    chosen = [deep.bottom] if deep.levels[0] - deep.bottom >= step else []
    for z in deep.levels:
        if not chosen or z - chosen[-1] >= step:
            chosen.append(min(max(z, deep.bottom), deep.top))
    if deep.top - chosen[-1] >= step:
        chosen.append(deep.top)
    return chosen
