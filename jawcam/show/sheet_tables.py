"""The tables of a setup sheet: the tools, the wear offsets to fill in, lines for notes by hand."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from matplotlib.axes import Axes

from jawcam.show.lettering import line_height, put, wrap
from jawcam.show.page import Box
from jawcam.show.sheet_page import FRAME, HEADED, SMALLEST, headed, rules
from jawcam.show.sheet_tools import Row
from jawcam.show.style import NARROW

__all__ = [
    "BY_HAND",
    "MILL",
    "MOST_TOOLS",
    "TURNED",
    "Column",
    "Table",
    "draw_by_hand",
    "draw_notes",
    "draw_table",
    "tool_tables",
]

MOST_TOOLS, MANY_TOOLS, FEWEST_TOOLS = 16, 7, 3
"""So many tools are listed at most; from so many on each has a single line; so many at least."""

WORDY = 40.0
"""mm; a column as wide as that holds words rather than figures."""

PAD = 1.2
"""mm from a column's edge to its words."""

WEAR_ROW, NOTE_ROW = 6.5, 7.0
"""mm; room to write by hand."""

WEAR = (("tool", 16.0), ("offset", 18.0), ("before", 18.0), ("after", 18.0), ("date", 20.0))

FEWEST, MOST = 3, 8
"""Rows of wear offsets."""

BY_HAND = tuple(
    HEADED * 2 + 7.5 + rows * WEAR_ROW + k * NOTE_ROW for rows, k in ((4, 3), (3, 2), (2, 2))
)
"""mm to keep for wear offsets and lines for notes; less, where words or drawings need it."""


class Column(NamedTuple):
    """A column of the table of tools: two lines of heading, mm, how its words stand."""

    upper: str
    lower: str
    wide: float
    align: str = "right"
    weight: str = "normal"


MILL = (
    Column("", "tool", 9.0, "left", "bold"),
    Column("", "registers", 14.0, "left"),
    Column("", "what", 52.0, "left"),
    Column("stands out", "at least", 14.0, weight="bold"),
    Column("", "as given", 12.0),
    Column("flutes", "at least", 12.0, weight="bold"),
    Column("", "as given", 12.0),
    Column("down", "to Z", 13.0),
    Column("", "rpm", 13.0),
    Column("feed", "a minute", 19.0),
    Column("", "time", 16.0),
)
"""Of a mill's tools."""

TURNED = (
    Column("", "tool", 9.0, "left", "bold"),
    Column("", "offset", 10.0, "left"),
    Column("", "what", 46.0, "left"),
    Column("reach", "at least", 12.0, weight="bold"),
    Column("", "as given", 12.0),
    Column("to", "dia", 12.0),
    Column("to", "Z", 12.0),
    Column("", "speed and feed", 57.0, "left"),
    Column("", "time", 16.0),
)
"""Of a lathe's."""


class Table(NamedTuple):
    """A table of tools ready to draw: the words of all tools, the wrapped cells of those that are
    shown, how many are left out, how high it is, mm."""

    columns: tuple[Column, ...]
    words: tuple[Row, ...]
    rows: tuple[tuple[tuple[str, ...], ...], ...]
    left: int
    high: float


def tool_tables(columns: tuple[Column, ...], rows: Sequence[Row]) -> list[Table]:
    """The table with as many tools as a page takes, then with fewer and fewer."""
    count = min(len(rows), MOST_TOOLS)
    return [_table(columns, rows, most) for most in range(count, min(count, FEWEST_TOOLS) - 1, -1)]


def _table(columns: tuple[Column, ...], rows: Sequence[Row], most: int) -> Table:
    """The table with the first so many tools."""
    single = len(rows) >= MANY_TOOLS
    wrapped = tuple(
        tuple(_lines(one, words, single=single) for one, words in zip(columns, row, strict=True))
        for row in rows[:most]
    )
    left = len(rows) - len(wrapped)
    high = HEADED + 2 * _line() + PAD + sum(_high(row) for row in wrapped)
    return Table(columns, tuple(rows), wrapped, left, high + (_line() + PAD if left else 0.0))


def _lines(column: Column, words: str, *, single: bool) -> tuple[str, ...]:
    """The lines of a cell; what must be on a single one are words, figures may always go on."""
    most = 1 if single and column.wide >= WORDY else 2
    return tuple(wrap(words, column.wide - 2 * PAD, SMALLEST, column.weight, most)) or ("",)


def draw_table(page: Axes, top: float, table: Table, title: str, rest: str) -> None:
    """Draw it across the page's frame from `top` down; rest: where the other tools stand."""
    headed(page, FRAME.x, top, FRAME.w, title)
    y = top - HEADED
    edges = [FRAME.x]
    for one in table.columns:
        edges.append(edges[-1] + one.wide)
    for one, x in zip(table.columns, edges, strict=False):
        for k, words in enumerate((one.upper, one.lower)):
            if words:
                _cell(page, one, x, y - (k + 0.75) * _line(), words, "normal")
    y -= 2 * _line() + PAD
    ruled = [y]
    for row in table.rows:
        for one, x, lines in zip(table.columns, edges, row, strict=False):
            for k, words in enumerate(lines):
                _cell(page, one, x, y - PAD * 0.6 - (k + 0.75) * _line(), words, one.weight)
        y -= _high(row)
        ruled.append(y)
    rules(page, [((FRAME.x, at), (FRAME.right, at)) for at in ruled], wide=NARROW)
    if table.left:
        words = f"and {table.left} more tool{'s' if table.left > 1 else ''}, see {rest}"
        put(page, FRAME.x + PAD, y - PAD * 0.6 - 0.75 * _line(), words, fontsize=SMALLEST)


def draw_by_hand(page: Axes, box: Box, tools: Sequence[Row], *, notes: bool) -> None:
    """The wear offsets, a row for each tool as far as there is room and one without, and ruled
    lines beneath."""
    headed(page, box.x, box.top, box.w, "WEAR OFFSETS DIALLED IN")
    y = box.top - HEADED
    edges = [box.x]
    for _, wide in WEAR:
        edges.append(edges[-1] + wide)
    for (name, _), x in zip(WEAR, edges, strict=False):
        put(page, x + PAD, y - 3.2, name, fontsize=SMALLEST)
    y -= 4.5
    lines = max((box.h - BY_HAND[-1]) * 0.5 + 2 * NOTE_ROW, 0.0) + HEADED + 3 if notes else 0.0
    count = min(max(int((y - lines - box.y) / WEAR_ROW), FEWEST), MOST)
    for k, row in enumerate(tools[: count - 1]):
        for x, words in zip(edges, row[:2], strict=False):
            put(page, x + PAD, y - (k + 0.7) * WEAR_ROW, words, fontsize=SMALLEST)
    low = y - count * WEAR_ROW
    ruled = [((box.x, y - k * WEAR_ROW), (box.right, y - k * WEAR_ROW)) for k in range(count + 1)]
    rules(page, [*ruled, *(((x, y), (x, low)) for x in edges)])
    if notes:
        draw_notes(page, Box(box.x, box.y, box.w, low - 3 - box.y))


def draw_notes(page: Axes, box: Box) -> None:
    """Ruled lines to write on, down to the box's foot."""
    headed(page, box.x, box.top, box.w, "NOTES BY HAND")
    top = box.top - HEADED
    count = int((top - box.y) / NOTE_ROW)
    ruled = [top - (k + 1) * NOTE_ROW for k in range(count)]
    rules(page, [((box.x, y), (box.right, y)) for y in ruled])


def _cell(page: Axes, one: Column, x: float, y: float, words: str, weight: str) -> None:
    at = x + PAD if one.align == "left" else x + one.wide - PAD
    put(page, at, y, words, fontsize=SMALLEST, fontweight=weight, ha=one.align)


def _line() -> float:
    return line_height(SMALLEST) * 0.93


def _high(row: Sequence[Sequence[str]]) -> float:
    return max(len(lines) for lines in row) * _line() + PAD
