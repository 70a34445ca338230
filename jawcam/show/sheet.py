"""The setup sheet: one page to take to the machine."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any, NamedTuple

from matplotlib.axes import Axes
from matplotlib.figure import Figure

from jawcam.errors import InternalError
from jawcam.hold.target import Target
from jawcam.hold.turn_target import TurnTarget
from jawcam.show.lettering import put
from jawcam.show.page import Box
from jawcam.show.picture import Picture
from jawcam.show.plain_letters import PLAIN
from jawcam.show.sheet_flow import Flowed, Group, flow
from jawcam.show.sheet_given import Given
from jawcam.show.sheet_head import draw_foot, draw_head, foot_height, head_of
from jawcam.show.sheet_jaws import jaw_views
from jawcam.show.sheet_page import (
    COLUMN,
    FRAME,
    GUTTER,
    STYLE,
    WIDE_LETTERS,
    blank_sheet,
    boxes,
    headed,
)
from jawcam.show.sheet_scale import Views
from jawcam.show.sheet_tables import (
    BY_HAND,
    MILL,
    TURNED,
    Table,
    draw_by_hand,
    draw_notes,
    draw_table,
    tool_tables,
)
from jawcam.show.sheet_tools import Row, mill_rows
from jawcam.show.sheet_words import groups, program_name
from jawcam.show.style import drawing_style
from jawcam.show.turned_picture import TurnPicture

__all__ = ["setup_sheet", "sheet_settings"]

BELOW = 3.0
"""mm between the parts of the page."""

BLANK = 40.0
"""mm of a column left over that are worth lines to write on."""

TICK = 2.4
"""mm; the side of a box to tick."""


class _Told(NamedTuple):
    """All that is to be said and shown: the arrangements of the drawings to choose from, the table
    of tools, with fewer and fewer of them, the groups of words."""

    options: list[Views]
    tables: list[Table]
    groups: list[Group]


class _Laid(NamedTuple):
    """The page as it comes out with one arrangement of the drawings: their lower edge, the table
    beneath, the two columns under that, where the words stand."""

    views: Views
    drawn: float
    table: Table
    columns: tuple[Box, Box]
    flowed: Flowed


def sheet_settings(given: Given) -> dict[str, Any]:
    """How matplotlib must be set while a sheet is drawn and while it is saved."""
    return {**STYLE, **(PLAIN if given.plain else WIDE_LETTERS)}


def setup_sheet(given: Given, shown: Picture | TurnPicture) -> Figure:
    """Draw a setup's sheet, which must be saved with `sheet_settings`. shown: the picture of its
    program.

    Of the arrangements that the drawings allow, the one with the largest scale is taken that leaves
    room for all words, else the one that leaves out least; what has no room is counted.
    """
    with drawing_style(sheet_settings(given)):
        told, head = _told(given, shown), head_of(given)
        figure, page = blank_sheet()
        draw_head(page, given, head)
        draw_foot(page, given)
        laid = _best(given, told, head.high)
        laid.views.draw(figure, page, (FRAME.x, laid.drawn))
        draw_table(page, laid.drawn - BELOW, laid.table, _titled(given), program_name(given))
        _write(page, laid.flowed)
        if given.proven:
            _by_hand(page, laid, sorted(laid.table.words, key=_seldom_dialled))
    return figure


def _told(given: Given, shown: Picture | TurnPicture) -> _Told:
    if isinstance(shown, TurnPicture) and isinstance(given.target, TurnTarget):
        # a job for the mill alone starts without them
        from jawcam.show.sheet_turned import turned_views
        from jawcam.show.sheet_turned_tools import turned_rows

        tables = tool_tables(TURNED, turned_rows(given, shown))
        return _Told(turned_views(shown, given.setup), tables, groups(given))
    if isinstance(shown, Picture) and isinstance(given.target, Target):
        tables = tool_tables(MILL, mill_rows(given))
        return _Told(jaw_views(shown), tables, groups(given))
    raise InternalError(f"the picture of {given.setup.name} is of another kind than its target")


def _seldom_dialled(tool: Row) -> tuple[bool, bool]:
    """Tools with a radius register come first, drills last."""
    return "D" not in tool[1], "drill" in tool[2]


def _titled(given: Given) -> str:
    if not given.others:
        return "TOOLS, IN ORDER OF WORK"
    return "TOOLS, IN ORDER OF WORK, FOR ALL STATIONS; THE TIME IN THIS ONE"


def _best(given: Given, told: _Told, head: float) -> _Laid:
    """Of the arrangements, with more room to write by hand or less, the first that leaves out
    nothing, else the one that leaves out least. Drawings that are hard to read are the second best,
    a table without all of its tools comes last."""
    for table in told.tables:
        laid = [
            _laid(given, told.groups, views, table, head, keep if given.proven else 0.0)
            for views in told.options
            for keep in BY_HAND
        ]
        possible = [one for one in laid if one.columns[0].h >= BY_HAND[-1]]
        clear = [one for one in possible if not one.views.small]
        if possible:
            return min(clear or possible, key=lambda one: one.flowed.dropped)
    return laid[-1]


def _laid(
    given: Given, groups: Sequence[Group], views: Views, table: Table, head: float, keep: float
) -> _Laid:
    drawn = FRAME.top - head - views.high
    foot = FRAME.y + foot_height(given) + BELOW
    high = drawn - BELOW - table.high - BELOW - foot
    second = FRAME.x + COLUMN + GUTTER
    left, right = Box(FRAME.x, foot, COLUMN, high), Box(second, foot, COLUMN, high)
    wide, free = views.free
    beside = [Box(FRAME.right - wide, drawn, wide, free)] if wide else []
    columns = [*beside, left, Box(second, foot + keep, COLUMN, high - keep)]
    return _Laid(views, drawn, table, (left, right), flow(groups, columns))


def _write(page: Axes, flowed: Flowed) -> None:
    for title, aside, column, top in flowed.heads:
        headed(page, column.x, top, column.w, title, aside)
    ticks = []
    for line, x, top in flowed.lines:
        y = top - 0.76 * line.high
        for cell in line.cells:
            look = {"fontsize": cell.size, "fontweight": cell.weight, "ha": cell.align}
            put(page, x + cell.x, y, cell.text, **look)
        if line.tick:
            ticks.append((x + 0.4, y - 0.2))
    boxes(page, ticks, TICK)


def _by_hand(page: Axes, laid: _Laid, tools: Sequence[Row]) -> None:
    """The wear offsets and the lines for notes, where the words have left the columns."""
    left, right = laid.columns
    ends = laid.flowed.ends[-2:]
    spare = ends[0] - left.y >= BLANK
    if spare:
        draw_notes(page, left._replace(h=ends[0] - left.y))
    box = right._replace(h=min(ends[1], right.top) - right.y)
    draw_by_hand(page, box, tools, notes=not spare or box.h > BY_HAND[0] + BLANK)
