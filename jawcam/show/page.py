"""The page: where each view and panel lies on the paper, and axes drawn true to scale."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import NamedTuple

from matplotlib.axes import Axes
from matplotlib.figure import Figure
from matplotlib.ticker import FixedLocator, FuncFormatter, MaxNLocator

from jawcam.show.lettering import put
from jawcam.show.style import HEAD, INK, NARROW, PAGE, PAPER, SOFT

__all__ = ["Box", "Layout", "Pads", "View", "arrange", "blank_page", "heading", "view"]

MARGIN = 7.0
COLUMN, KEY_COLUMN = 100.0, 58.0
ROW = 4.6
"""mm from one row of the key to the next."""
BORDERS = (45.0, 41.0)
"""mm of a plan's panel, across and up, that are not the plan itself."""


class Box(NamedTuple):
    """A place on the page or in a view: lower left corner, width, height."""

    x: float
    y: float
    w: float
    h: float

    @property
    def right(self) -> float:
        """Its right edge."""
        return self.x + self.w

    @property
    def top(self) -> float:
        """Its upper edge."""
        return self.y + self.h


class Pads(NamedTuple):
    """Room on the four sides, in mm of paper."""

    left: float
    bottom: float
    right: float
    top: float


@dataclass(frozen=True)
class Layout:
    """The panels of the page, in mm; `columns`: of the key and the findings."""

    plan: Box
    side: Box
    words: Box
    key: Box
    findings: Box | None
    columns: tuple[int, int]


@dataclass(frozen=True)
class View:
    """Axes true to scale: `scale` mm of paper per unit, the same both ways."""

    axes: Axes
    scale: float

    def units(self, paper: float) -> float:
        """Millimetres of paper -> units of the drawing."""
        return paper / self.scale


def blank_page() -> tuple[Figure, Axes]:
    """A figure, and axes over all of it that count in mm of paper."""
    figure = Figure(figsize=(PAGE[0] / 25.4, PAGE[1] / 25.4), facecolor=PAPER)
    page = figure.add_axes((0, 0, 1, 1), label="page")
    page.set(xlim=(0, PAGE[0]), ylim=(0, PAGE[1]))
    page.set_axis_off()
    page.set_zorder(-1)
    return figure, page


def arrange(aspect: float, side_aspect: float, key_items: int, listed: float) -> Layout:
    """Lay out the panels for a plan `aspect` times as wide as high and a side view likewise.

    listed: mm that the findings take in one column, 0 without any. Of the two arrangements the
    one is taken that shows the plan larger.
    """
    full = Box(MARGIN, MARGIN, PAGE[0] - 2 * MARGIN, PAGE[1] - 2 * MARGIN)
    beside = _beside(full, side_aspect, key_items, listed)
    stacked = _stacked(full, aspect, key_items, listed)
    sizes = [
        min((layout.plan.w - BORDERS[0]) / aspect, layout.plan.h - BORDERS[1])
        for layout in (beside, stacked)
    ]
    return stacked if sizes[1] > 1.1 * sizes[0] else beside


def _beside(full: Box, side_aspect: float, key_items: int, listed: float) -> Layout:
    """Side view and words at the right of the plan, all else beneath it."""
    left = full.w - COLUMN
    key_high = math.ceil(key_items / 4) * ROW + 9
    found_high = listed / 2 + 18 if listed else 0.0
    side_high = min(max(56 / side_aspect + 26, 52), 84)
    return Layout(
        plan=Box(full.x, full.y + key_high + found_high, left, full.h - key_high - found_high),
        side=Box(full.x + left, full.top - side_high, COLUMN, side_high),
        words=Box(full.x + left, full.y, COLUMN, full.h - side_high),
        key=Box(full.x, full.y + found_high, left, key_high),
        findings=Box(full.x, full.y, left, found_high) if listed else None,
        columns=(4, 2),
    )


def _stacked(full: Box, aspect: float, key_items: int, listed: float) -> Layout:
    """The plan across the whole page, all else beneath."""
    needed = (full.w - BORDERS[0]) / aspect + BORDERS[1] + (7 if listed else 0)
    high = min(max(needed, 62), 84)
    low = full.h - high
    plan = Box(full.x, full.y + low, full.w, high)
    words = Box(full.right - COLUMN, full.y, COLUMN, low)
    middle = COLUMN if listed else KEY_COLUMN
    side = Box(full.x, full.y, full.w - COLUMN - middle, low)
    if not listed:
        return Layout(plan, side, words, Box(side.right, full.y, middle, low), None, (1, 1))
    key_high = math.ceil(key_items / 2) * ROW + 9
    key = Box(side.right, full.y + low - key_high, middle, key_high)
    found = Box(side.right, full.y, middle, low - key_high)
    return Layout(plan, side, words, key, found, (2, 1))


def heading(page: Axes, box: Box, title: str, more: str = "") -> None:
    """Frame a panel and write its heading, with a softer remark after it."""
    xs = (box.x, box.right, box.right, box.x, box.x)
    ys = (box.y, box.y, box.top, box.top, box.y)
    page.plot(xs, ys, color=INK, lw=NARROW)
    first = put(page, box.x + 3, box.top - 5.2, title, fontsize=HEAD, fontweight="bold")
    if more:
        bounds = first.get_window_extent().transformed(page.transData.inverted())
        put(page, bounds.x1 + 3, box.top - 5.2, more, color=SOFT)


def view(
    figure: Figure, box: Box, content: Box, pads: Pads, *, name: str, marks: tuple[str, str]
) -> View:
    """Axes in `box` (mm of paper) that show `content` (units) as large as the pads allow, with
    the same scale both ways; `marks` label the two axes.
    """
    wide, high = max(content.w, 1e-9), max(content.h, 1e-9)
    scale = min((box.w - pads.left - pads.right) / wide, (box.h - pads.bottom - pads.top) / high)
    place = (box.x / PAGE[0], box.y / PAGE[1], box.w / PAGE[0], box.h / PAGE[1])
    axes = figure.add_axes(place, label=name)
    spare_x = (box.w - pads.left - pads.right - wide * scale) / 2
    spare_y = (box.h - pads.bottom - pads.top - high * scale) / 2
    x0 = content.x - (pads.left + spare_x) / scale
    y0 = content.y - (pads.bottom + spare_y) / scale
    axes.set(xlim=(x0, x0 + box.w / scale), ylim=(y0, y0 + box.h / scale))
    axes.set_aspect("equal", adjustable="box")
    axes.set_xlabel(marks[0])
    axes.set_ylabel(marks[1])
    _ticks(axes, box, scale)
    for spine in axes.spines.values():
        spine.set_linewidth(NARROW)
    return View(axes, scale)


def _ticks(axes: Axes, box: Box, scale: float) -> None:
    sides = ((axes.xaxis, axes.get_xlim(), box.w), (axes.yaxis, axes.get_ylim(), box.h))
    for axis, (low, high), length in sides:
        inside: list[float] = []
        for finer in range(5):  # one number alone tells no scale
            locator = MaxNLocator(max(int(length / 16), 2) + finer, steps=[1, 2, 2.5, 5, 10])
            spare, ticks = 3 / scale, locator.tick_values(low, high)
            inside = [t for t in ticks if low + spare <= t <= high - spare]
            if len(inside) > 1:
                break
        axis.set_major_locator(FixedLocator(inside))
        axis.set_major_formatter(FuncFormatter(lambda value, _: f"{round(value, 9):.6g}"))
