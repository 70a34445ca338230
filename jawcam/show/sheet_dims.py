"""Dimension lines after ISO 129-1: narrow lines with filled heads, the figure over the line and
never across it, extension lines that begin a little off the edge and go a little past the line.
All figures stand upright, to be read from below.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from jawcam.show.labels import spread
from jawcam.show.lettering import halo, line_height, put, width
from jawcam.show.page import View
from jawcam.show.shapes import arrow
from jawcam.show.sheet_page import TEXT
from jawcam.show.style import INK, NARROW

__all__ = ["APART", "across", "beside_width", "heights", "upright"]

OFF, PAST = 0.8, 1.5
"""mm of paper from the edge to where an extension line begins, and past the dimension line."""

HEADS = 6.5
"""mm of paper; in a shorter length the heads stand outside."""

TAIL = 5.0
"""mm of paper; of a head that stands outside."""

AFTER_LINE, AFTER_HEAD = 1.2, TAIL + 1
"""mm of paper from the end of a line, or of a head that stands outside, to the words beside it."""

APART = 3.6
"""mm of paper between two heights' words."""

LOOK: dict[str, Any] = {"fontsize": TEXT, "fontweight": "bold", "zorder": 9.5}


def across(
    shown: View,
    ends: tuple[float, float],
    y: float,
    words: str,
    feet: tuple[float, float],
    *,
    beside: bool = True,
) -> None:
    """A length along X between two ends, told at `y`; feet: the Y of the edges that it is taken
    from. Its words stand over the line, or at its right where they are too long and may."""
    axes, unit = shown.axes, shown.units(1)
    a, b = ends
    for x, foot in zip(ends, feet, strict=True):
        way = 1 if y > foot else -1
        axes.plot(
            (x, x),
            (foot + way * OFF * unit, y + way * PAST * unit),
            color=INK,
            lw=NARROW,
            gid="extension",
            zorder=9,
        )
    inside = b - a >= HEADS * unit
    _heads(shown, [((a, y), (b, y)), ((b, y), (a, y))], inside=inside)
    if not beside or not beside_width((b - a) / unit, words):
        halo(put(axes, (a + b) / 2, y + 0.7 * unit, words, ha="center", gid="size", **LOOK))
    else:
        start = b + (AFTER_LINE if inside else AFTER_HEAD) * unit
        halo(put(axes, start, y, words, va="center_baseline", gid="size", **LOOK))


def beside_width(length: float, words: str) -> float:
    """The mm of paper that words take at the right of a line so many mm of paper long, 0 where
    they stand over it."""
    wide = width(words, TEXT, "bold")
    if length >= wide + 1:
        return 0.0
    return wide + (AFTER_LINE if length >= HEADS else AFTER_HEAD)


def upright(
    shown: View, ends: tuple[float, float], x: float, words: str, feet: tuple[float, float]
) -> None:
    """A length upwards between two ends, told at `x`, at the left of the X of its feet: its words
    stand at the left of the line."""
    axes, unit = shown.axes, shown.units(1)
    a, b = ends
    for y, foot in zip(ends, feet, strict=True):
        axes.plot(
            (foot - OFF * unit, x - PAST * unit),
            (y, y),
            color=INK,
            lw=NARROW,
            gid="extension",
            zorder=9,
        )
    _heads(shown, [((x, a), (x, b)), ((x, b), (x, a))], inside=b - a >= HEADS * unit)
    look = {"ha": "right", "va": "center_baseline", "gid": "size", **LOOK}
    halo(put(axes, x - 1.2 * unit, (a + b) / 2, words, **look))


def heights(shown: View, named: Sequence[tuple[float, float, str]], x: float, low: float) -> None:
    """Heights told at the right: rows (Y, X of the edge, words). Each has a leader from its edge
    past `x` to its words, which stand clear of each other and none lower than `low`, as far as the
    view is high enough."""
    axes, unit = shown.axes, shown.units(1)
    high = axes.get_ylim()[1]
    half = line_height(TEXT) / 2 * unit
    slots = spread([y for y, _, _ in named], APART * unit, low + half, high - half)
    for (y, edge, words), slot in zip(named, slots, strict=True):
        xs = (edge + OFF * unit, x, x + 2.5 * unit, x + 3.5 * unit)
        axes.plot(xs, (y, y, slot, slot), color=INK, lw=NARROW, gid="leader", zorder=9)
        halo(put(axes, x + 4 * unit, slot, words, va="center_baseline", gid="height", **LOOK))


def _heads(
    shown: View,
    lines: Sequence[tuple[tuple[float, float], tuple[float, float]]],
    *,
    inside: bool,
) -> None:
    """The line with a head at either end; heads that stand outside point at each other."""
    unit = shown.units(1)
    for (x0, y0), (x1, y1) in lines:
        if inside:
            tail = ((x0 + x1) / 2, (y0 + y1) / 2)
        else:
            reach = max(abs(x1 - x0), abs(y1 - y0)) or 1.0
            tail = (
                x1 + (x1 - x0) / reach * TAIL * unit,
                y1 + (y1 - y0) / reach * TAIL * unit,
            )
        arrow(shown.axes, tail, (x1, y1), unit, zorder=9)
    if not inside:
        (a, b), _ = lines
        shown.axes.plot((a[0], b[0]), (a[1], b[1]), color=INK, lw=NARROW, zorder=9)
