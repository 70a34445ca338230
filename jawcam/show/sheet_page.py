"""The page of a setup sheet: its frame, its two columns, headings, rules and boxes."""

from __future__ import annotations

from collections.abc import Sequence

from matplotlib.axes import Axes
from matplotlib.collections import LineCollection
from matplotlib.figure import Figure
from matplotlib.patches import Rectangle

from jawcam.show.lettering import line_height, put
from jawcam.show.page import Box
from jawcam.show.style import BODY, INK, NARROW, STOP

__all__ = [
    "COLUMN",
    "FRAME",
    "GUTTER",
    "HEADED",
    "HEADING",
    "SHEET",
    "SMALLEST",
    "STYLE",
    "TEXT",
    "WHITE",
    "WIDE_LETTERS",
    "alarm",
    "blank_sheet",
    "boxes",
    "headed",
    "rules",
]

SHEET = (210.0, 297.0)
"""mm; A4 standing."""

FRAME = Box(12.0, 15.0, 186.0, 267.0)
"""What is written on. It lies in the middle of the page with so much room over and under it that
paper of 8.5 by 11 inches (216 by 279 mm) holds it as well, printed in the middle at 100 %."""

GUTTER = 6.0
COLUMN = (FRAME.w - GUTTER) / 2

HEADING, TEXT, SMALLEST = 8.5, 8.0, 7.5
"""Lettering in points."""

HEADED = 6.0
"""mm that a heading takes, its rule included."""

WHITE = "#ffffff"

STYLE = {"figure.facecolor": WHITE, "savefig.facecolor": WHITE}
"""Paper to print on."""

WIDE_LETTERS = {"font.size": 0.86 * BODY}
"""For the lettering of the pictures, which is a good deal wider and taller than the plain one."""

Segment = tuple[tuple[float, float], tuple[float, float]]


def blank_sheet() -> tuple[Figure, Axes]:
    """A figure, and axes over all of it that count in mm of paper."""
    figure = Figure(figsize=(SHEET[0] / 25.4, SHEET[1] / 25.4), facecolor=WHITE)
    page = figure.add_axes((0, 0, 1, 1), label="page")
    page.set(xlim=(0, SHEET[0]), ylim=(0, SHEET[1]))
    page.set_axis_off()
    page.set_zorder(-1)
    return figure, page


def headed(page: Axes, x: float, top: float, wide: float, title: str, aside: str = "") -> None:
    """A heading with a rule under it and small words at its right; it takes `HEADED` mm."""
    put(page, x, top - 3.4, title, fontsize=HEADING, fontweight="bold")
    if aside:
        put(page, x + wide, top - 3.4, aside, fontsize=SMALLEST, ha="right")
    rules(page, [((x, top - 4.6), (x + wide, top - 4.6))], wide=0.8)


def rules(page: Axes, segments: Sequence[Segment], *, wide: float = NARROW) -> None:
    """Straight lines."""
    page.add_collection(LineCollection(segments, colors=INK, linewidths=wide), autolim=False)


def boxes(page: Axes, corners: Sequence[tuple[float, float]], side: float) -> None:
    """Small empty squares to tick, by their lower left corners."""
    outlines = [
        ((x, y), (x + side, y), (x + side, y + side), (x, y + side), (x, y)) for x, y in corners
    ]
    page.add_collection(LineCollection(outlines, colors=INK, linewidths=0.7), autolim=False)


def alarm(page: Axes, box: Box, first: str, second: str) -> None:
    """White words on a dark ground, the first ones large: black and white shows it as well."""
    page.add_patch(Rectangle((box.x, box.y), box.w, box.h, fc=STOP, ec=INK, lw=1.2))
    look = {"color": WHITE, "fontweight": "bold", "ha": "center"}
    middle, large = box.x + box.w / 2, 24.0
    low = box.top - 1.2 - line_height(large) * 0.8
    put(page, middle, low, first, fontsize=large, **look)
    put(page, middle, box.y + 2.2, second, fontsize=HEADING, **look)
