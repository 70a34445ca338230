"""True scales: a length on the sheet is what its scale says, if it is printed at 100 %."""

from __future__ import annotations

from collections.abc import Callable
from typing import NamedTuple

from matplotlib.axes import Axes
from matplotlib.figure import Figure
from matplotlib.patches import Rectangle

from jawcam.show.lettering import put, width
from jawcam.show.page import Box, Pads, View
from jawcam.show.sheet_page import HEADING, SHEET, SMALLEST, TEXT, WHITE
from jawcam.show.style import INK, NARROW
from jawcam.units import Units

__all__ = [
    "SCALES",
    "TITLED",
    "Views",
    "check_bar",
    "draw_title",
    "is_small",
    "scale_words",
    "scales",
    "true_view",
]

SCALES = (50.0, 20.0, 10.0, 5.0, 2.0, 1.0, 1 / 2, 1 / 5, 1 / 10, 1 / 20, 1 / 50, 1 / 100)
"""The scales of ISO 5455, as far as they are of use here."""

BAR = 50.0
"""mm."""

TITLED = 5.5
"""mm that a view's title takes."""

SMALL, SMALLEST_VIEW = 35.0, 20.0
"""mm; a drawing with no side that long on paper is hard to read, or not to be read."""


class Views(NamedTuple):
    """Drawings at one of several scales, which take `high` mm across the page; free: the width and
    the height of what they leave in the lower right corner of that; small: whether they are hard to
    read; draw: with the lower left corner of all of it at a point of the page."""

    high: float
    free: tuple[float, float]
    small: bool
    draw: Callable[[Figure, Axes, tuple[float, float]], None]


def scales(size: tuple[float, float], room: tuple[float, float]) -> list[float]:
    """The scales at which a drawing of that size (mm) goes into the room (mm of paper), the
    largest first, then those at which it can still be read; never none."""
    fit = [s for s in SCALES if size[0] * s <= room[0] and size[1] * s <= room[1]] or [SCALES[-1]]
    return fit[:1] + [s for s in fit[1:] if max(size) * s >= SMALLEST_VIEW]


def is_small(size: tuple[float, float], scale: float) -> bool:
    """Whether a drawing of that size (mm) is hard to read at a scale."""
    return max(size) * scale < SMALL


def scale_words(scale: float) -> str:
    """Such as ``1:2``."""
    return f"{scale:.0f}:1" if scale >= 1 else f"1:{1 / scale:.0f}"


def draw_title(page: Axes, box: Box, title: str, scale: float, more: str) -> None:
    """What a view is called, its scale, and a few words more, at the top of its box."""
    first, y = f"{title}  {scale_words(scale)}", box.top - 3.4
    put(page, box.x, y, first, fontsize=HEADING, fontweight="bold", gid="scale")
    if more:
        start = box.x + max(width(first, HEADING, "bold") + 4, 42)
        put(page, start, y, more, fontsize=TEXT)


def true_view(
    figure: Figure, box: Box, content: Box, pads: Pads, scale: float, units: Units, *, name: str
) -> View:
    """Axes in `box` (mm of paper) in which `content` (units) lies within the pads, in the middle of
    what room there is more, at that scale."""
    place = (box.x / SHEET[0], box.y / SHEET[1], box.w / SHEET[0], box.h / SHEET[1])
    axes = figure.add_axes(place, label=name)
    per = scale * units.in_mm
    left = pads.left + max(box.w - pads.left - pads.right - content.w * per, 0.0) / 2
    low = pads.bottom + max(box.h - pads.bottom - pads.top - content.h * per, 0.0) / 2
    x0, y0 = content.x - left / per, content.y - low / per
    axes.set(xlim=(x0, x0 + box.w / per), ylim=(y0, y0 + box.h / per))
    axes.set_axis_off()
    return View(axes, per)


def check_bar(page: Axes, left: float, y: float) -> None:
    """A bar to hold a rule to, its left end at `left`, and what it is for."""
    for k, colour in enumerate((INK, WHITE)):
        half = Rectangle((left + k * BAR / 2, y), BAR / 2, 1.5, fc=colour, ec=INK, lw=NARROW)
        half.set_gid("bar")
        page.add_patch(half)
    words = f"printed at 100 % this bar is {BAR:.0f} mm long, and the scales are true"
    put(page, left + BAR + 2.5, y, words, fontsize=SMALLEST)
