"""The page of a lathe program: where each panel lies on the paper."""

from __future__ import annotations

import math
from dataclasses import dataclass

from jawcam.show.page import Box, Pads
from jawcam.show.style import PAGE

__all__ = ["INNER", "ROOM", "TurnLayout", "arrange_turned"]

MARGIN, COLUMN = 7.0, 100.0
ROW, HEADED = 4.6, 9.5
"""mm from one row to the next, and what a panel's heading takes."""

ROOM = Pads(left=14, bottom=11, right=5, top=9)
"""Around the axes: numbers and names of the axes, the heading."""

INNER = Pads(left=4, bottom=29, right=13, top=12)
"""Inside the axes, around what is drawn: flags above, sizes and the scale bar below."""

LOWEST, WORDS = 62.0, 108.0
"""mm that the view, and the words beneath it, take at least."""

KEY_COLUMNS = 4


@dataclass(frozen=True)
class TurnLayout:
    """The panels of the page, in mm; found_columns: of the findings."""

    view: Box
    words: Box
    key: Box
    tools: Box
    findings: Box | None
    found_columns: int


def arrange_turned(content: Box, key_items: int, tool_rows: int, listed: float) -> TurnLayout:
    """Lay out the panels for a view of `content`, true to scale.

    listed: mm that the findings take in one column, 0 without any. Of the two arrangements the
    one is taken that shows the view larger.
    """
    full = Box(MARGIN, MARGIN, PAGE[0] - 2 * MARGIN, PAGE[1] - 2 * MARGIN)
    key_high = math.ceil(key_items / KEY_COLUMNS) * ROW + HEADED
    tools_high = tool_rows * ROW + HEADED
    beside = _beside(full, key_high, tools_high, listed)
    stacked = _stacked(full, content, key_high, tools_high, listed)
    sizes = [_scale(layout.view, content) for layout in (beside, stacked)]
    return stacked if sizes[1] > 1.1 * sizes[0] else beside


def _scale(view: Box, content: Box) -> float:
    across = view.w - _sum("left", "right")
    up = view.h - _sum("top", "bottom")
    return min(across / max(content.w, 1e-9), up / max(content.h, 1e-9))


def _sum(*sides: str) -> float:
    return sum(float(getattr(pads, side)) for pads in (ROOM, INNER) for side in sides)


def _beside(full: Box, key_high: float, tools_high: float, listed: float) -> TurnLayout:
    """Words and findings at the right of the view, key and tools beneath it."""
    left, under = full.w - COLUMN, key_high + tools_high
    found = listed + HEADED + 3 if listed else 0.0
    right = full.x + left
    return TurnLayout(
        view=Box(full.x, full.y + under, left, full.h - under),
        words=Box(right, full.y + found, COLUMN, full.h - found),
        key=Box(full.x, full.y + tools_high, left, key_high),
        tools=Box(full.x, full.y, left, tools_high),
        findings=Box(right, full.y, COLUMN, found) if listed else None,
        found_columns=1,
    )


def _stacked(
    full: Box, content: Box, key_high: float, tools_high: float, listed: float
) -> TurnLayout:
    """The view across the whole page, all else beneath."""
    across, up = _sum("left", "right"), _sum("top", "bottom")
    needed = (full.w - across) * content.h / max(content.w, 1e-9) + up
    found = listed / 2 + HEADED + 8 if listed else 0.0
    low = max(WORDS, key_high + tools_high + found)
    high = min(max(needed, LOWEST), full.h - low)
    low = full.h - high
    left, top = full.w - COLUMN, full.y + low
    rest = low - key_high - tools_high
    if not listed:
        tools_high += rest
    return TurnLayout(
        view=Box(full.x, top, full.w, high),
        words=Box(full.x + left, full.y, COLUMN, low),
        key=Box(full.x, top - key_high, left, key_high),
        tools=Box(full.x, top - key_high - tools_high, left, tools_high),
        findings=Box(full.x, full.y, left, rest) if listed else None,
        found_columns=2,
    )
