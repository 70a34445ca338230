"""Words that flow down the free columns of a setup sheet; what has no room is counted."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import NamedTuple

from jawcam.show.lettering import line_height, width, wrap
from jawcam.show.page import Box
from jawcam.show.sheet_page import HEADED, SMALLEST

__all__ = ["CLOSE", "Cell", "Flowed", "Group", "Item", "Line", "Maker", "flow", "paragraph"]

BETWEEN, CLOSE = 0.9, 0.3
"""mm between two items; between those that are rows of a table."""

AFTER = 2.2
"""mm between two groups."""

SPACING = 0.93
"""From line to line, as a share of what pictures take: a column of small letters."""


class Cell(NamedTuple):
    """Some words, `x` mm from the column's left edge."""

    x: float
    text: str
    size: float = SMALLEST
    weight: str = "normal"
    align: str = "left"


class Line(NamedTuple):
    """Words on one line. tick: with an empty box before it."""

    cells: tuple[Cell, ...]
    size: float = SMALLEST
    tick: bool = False

    @property
    def high(self) -> float:
        """Its height, mm."""
        return line_height(self.size) * SPACING


class Item(NamedTuple):
    """Lines that stay together, and the mm to the next item."""

    lines: tuple[Line, ...]
    after: float = BETWEEN

    @property
    def high(self) -> float:
        """Its height, mm."""
        return sum(line.high for line in self.lines) + self.after


Maker = Callable[[float], Item]
"""Makes an item for a column so many mm wide."""


class Group(NamedTuple):
    """Items under a heading; rest: where those stand that have no room; spare: they need not make
    way for a larger drawing; aside: small words at the heading's right; short: the items in fewer
    words, for where all of them have no room."""

    title: str
    items: tuple[Maker, ...]
    rest: str
    spare: bool = False
    aside: str = ""
    short: tuple[Maker, ...] = ()


@dataclass(frozen=True)
class Flowed:
    """Where all stands: headings with what stands aside, their column and top; lines with their
    left edge and top; `ends`: down to where each column is filled; dropped: how many items of
    groups that aren't spare had no room."""

    heads: tuple[tuple[str, str, Box, float], ...]
    lines: tuple[tuple[Line, float, float], ...]
    ends: tuple[float, ...]
    dropped: int


def paragraph(
    text: str, *, label: str = "", at: float = 0.0, most: int = 9, size: float = SMALLEST
) -> Maker:
    """An item of wrapped words, set in by `at` mm; label: bold words at the column's left edge."""

    def make(wide: float) -> Item:
        rows = wrap(text, wide - at, size, most=most) or [""]
        first = (Cell(0.0, label, size, "bold"),) if label else ()
        lines = [Line((Cell(at, row, size),), size) for row in rows]
        return Item((Line((*first, *lines[0].cells), size), *lines[1:]))

    return make


def flow(groups: Sequence[Group], columns: Sequence[Box]) -> Flowed:
    """Fill the columns: each group goes whole into the first that has room for it; one that none
    can hold is parted, between two items. In the last column that is high enough room is kept for a
    line on each group that is still to come.
    """
    groups = [group for group in groups if group.items]
    high = [at for at, column in enumerate(columns) if column.h >= len(groups) * _MORE]
    state = _State(list(columns), max(high, default=len(columns) - 1))
    for number, group in enumerate(groups):
        state.group(group, keep=(len(groups) - number - 1) * _MORE)
    return Flowed(tuple(state.heads), tuple(state.lines), state.set_off(), state.dropped)


_MORE = line_height(SMALLEST) * SPACING + BETWEEN
"""mm that the line takes which counts what has no room."""


class _State:
    """The columns as they fill."""

    def __init__(self, columns: list[Box], counting: int) -> None:
        self.columns = columns
        self.counting = counting
        self.ends = [column.top for column in columns]
        self.heads: list[tuple[str, str, Box, float]] = []
        self.lines: list[tuple[Line, float, float]] = []
        self.dropped = 0

    def group(self, group: Group, *, keep: float) -> None:
        makers = (group.items, group.short) if group.short else (group.items,)
        if not any(self._whole(group, some, keep) for some in makers):
            self._parted(group, keep)

    def _whole(self, group: Group, makers: Sequence[Maker], keep: float) -> bool:
        """Put a group's items into the first column that has room for all of them; whether any
        has."""
        for at, column in enumerate(self.columns):
            items = [make(column.w) for make in makers]
            if self._free(at, keep) >= self._headed(at) + sum(item.high for item in items):
                self._head(at, group.title, group.aside)
                for item in items:
                    self._item(at, item)
                return True
        return False

    def _parted(self, group: Group, keep: float) -> None:
        placed, title, under = 0, group.title, self.counting
        for at, column in enumerate(self.columns):
            started = False
            for make in group.items[placed:]:
                item = make(column.w)
                last = placed == len(group.items) - 1
                needed = item.high + (0.0 if started else self._headed(at))
                if self._free(at, keep if last else keep + _MORE) < needed:
                    break
                if not started:
                    self._head(at, title, group.aside)
                    started, title, under = True, f"{group.title}, CONTINUED", at
                self._item(at, item)
                placed += 1
        if placed < len(group.items):
            self._more(group, len(group.items) - placed, under, of_some=placed > 0)

    def _free(self, at: int, keep: float) -> float:
        """mm; `keep` counts in the column that room is kept in."""
        spare = keep if at == self.counting else 0.0
        return self.ends[at] - self.columns[at].y - spare

    def _headed(self, at: int) -> float:
        """The mm that a heading takes, with what sets it off from what stands over it."""
        return HEADED + (AFTER - BETWEEN if self.ends[at] < self.columns[at].top else 0.0)

    def _more(self, group: Group, left: int, under: int, *, of_some: bool) -> None:
        """Count what has no room, in the column that the others stand in if that has a line for
        it, else where room was kept."""
        self.dropped += 0 if group.spare else left
        title = f"{group.title[0]}{group.title[1:].lower()}"
        words = f"and {left} more, see {group.rest}" if of_some else f"{left}, see {group.rest}"
        for at in (under, self.counting, *reversed(range(len(self.columns)))):
            if self._free(at, 0.0) >= _MORE:
                start = width(f"{title}:", SMALLEST, "bold") + 1.2
                make = paragraph(words, label=f"{title}:", at=start, most=1)
                self._item(at, make(self.columns[at].w))
                return

    def _head(self, at: int, title: str, aside: str) -> None:
        self.ends[at] -= self._headed(at)
        self.heads.append((title, aside, self.columns[at], self.ends[at] + HEADED))

    def _item(self, at: int, item: Item) -> None:
        y = self.ends[at]
        for line in item.lines:
            self.lines.append((line, self.columns[at].x, y))
            y -= line.high
        self.ends[at] = y - item.after

    def set_off(self) -> tuple[float, ...]:
        """Down to where each column is filled, with what sets off the next heading."""
        return tuple(
            max(end + HEADED - self._headed(at), column.y)
            for at, (end, column) in enumerate(zip(self.ends, self.columns, strict=True))
        )
