"""Words that flow down columns: nothing is lost unless it is counted, nothing leaves its column."""

import re

from hypothesis import given
from hypothesis import strategies as st

from jawcam.show.page import Box
from jawcam.show.sheet_flow import Cell, Group, Item, Line, flow, paragraph
from jawcam.show.sheet_page import HEADED

LINE = Line((Cell(0.0, "x"),)).high


def item(name, count):
    """Lines that bear their item's name."""
    return lambda _: Item(tuple(Line((Cell(0.0, name),)) for _ in range(count)))


def groups_of(sizes):
    """Groups by the numbers of lines of their items."""
    return [
        Group(f"GROUP {g}", tuple(item(f"{g}.{k}", n) for k, n in enumerate(own)), f"{g}.json")
        for g, own in enumerate(sizes)
    ]


def columns_of(heights):
    return [Box(100.0 * k, 20.0, 90.0, high) for k, high in enumerate(heights)]


def words(flowed):
    return [" ".join(cell.text for cell in line.cells) for line, _, _ in flowed.lines]


SIZES = st.lists(st.lists(st.integers(1, 9), max_size=8), min_size=1, max_size=6)
HEIGHTS = st.lists(st.floats(0.0, 120.0), min_size=1, max_size=3)


@given(SIZES, HEIGHTS, st.floats(30.0, 120.0))
def test_every_item_stands_or_is_counted(sizes, heights, one):
    """Where a column is high enough for a line on each group."""
    flowed = flow(groups_of(sizes), columns_of([*heights, one]))
    said = words(flowed)
    for g, own in enumerate(sizes):
        placed = {word for word in said if re.fullmatch(rf"{g}\.\d+", word)}
        lines = sum(n for k, n in enumerate(own) if f"{g}.{k}" in placed)
        assert sum(word in placed for word in said) == lines  # no item is torn
        counts = [word for word in said if word.startswith(f"Group {g}: ")]
        missing = len(own) - len(placed)
        assert len(counts) == (missing > 0)
        if missing:
            more = f"and {missing} more" if placed else f"{missing}"
            assert counts == [f"Group {g}: {more}, see {g}.json"]


@given(SIZES, HEIGHTS)
def test_nothing_leaves_its_column_or_stands_on_another(sizes, heights):
    columns = columns_of(heights)
    flowed = flow(groups_of(sizes), columns)
    taken = [(line.high, x, top) for line, x, top in flowed.lines]
    taken += [(HEADED, column.x, top) for _, _, column, top in flowed.heads]
    for column, end in zip(columns, flowed.ends, strict=True):
        own = sorted(((top, high) for high, x, top in taken if x == column.x), reverse=True)
        above = column.top
        for top, high in own:
            assert top <= above + 1e-9
            above = top - high
        assert above >= column.y - 1e-9
        assert column.y - 1e-9 <= end <= max(above, column.y) + 1e-9


def test_a_group_that_fits_nowhere_as_a_whole_goes_on_in_the_next_column():
    flowed = flow(groups_of([[1] * 20]), columns_of([35.0, 70.0]))
    assert [(title, column.x) for title, _, column, _ in flowed.heads] == [
        ("GROUP 0", 0.0),
        ("GROUP 0, CONTINUED", 100.0),
    ]
    assert flowed.dropped == 0


def test_a_group_goes_whole_into_the_next_column_rather_than_in_parts():
    flowed = flow(groups_of([[1] * 4]), columns_of([HEADED + 2 * LINE, 60.0]))
    assert [(title, column.x) for title, _, column, _ in flowed.heads] == [("GROUP 0", 100.0)]


def test_spare_groups_are_not_counted_as_left_out():
    (group,) = groups_of([[9] * 9])
    columns = columns_of([30.0])
    assert flow([group], columns).dropped == 9
    assert flow([group._replace(spare=True)], columns).dropped == 0


def test_a_paragraph_has_its_label_on_its_first_line_only():
    lines = paragraph("the corner is rounder than the part's " * 5, label="WARN", at=12.0)(
        80.0
    ).lines
    assert len(lines) > 2
    assert next(cell.text for cell in lines[0].cells) == "WARN"
    assert all(len(line.cells) == 1 and line.cells[0].x == 12.0 for line in lines[1:])


def test_a_group_is_told_in_short_where_all_of_it_has_no_room():
    full, short = (item("full", 9),), (item("short", 2),)
    group = Group("GROUP", full, "x.json", short=short)
    wide, narrow = (words(flow([group], columns_of([high]))) for high in (60.0, 20.0))
    assert wide == ["full"] * 9
    assert narrow == ["short"] * 2
    assert flow([group], columns_of([20.0])).dropped == 0
    assert words(flow([group], columns_of([5.0]))) == ["Group: 1, see x.json"]
