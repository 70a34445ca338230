"""Findings: numbered flags over the plan, and their list on the page."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Any, NamedTuple

from matplotlib.axes import Axes

from jawcam.proof.report import Finding, Report
from jawcam.proof.words import sentence
from jawcam.show.labels import spread
from jawcam.show.lettering import line_height, put, wrap
from jawcam.show.page import Box, View, heading
from jawcam.show.style import INK, NARROW, PAPER, SMALL, STOP
from jawcam.units import Units

__all__ = [
    "Flag",
    "Placing",
    "draw_flags",
    "flags_of",
    "in_plan",
    "list_flags",
    "list_height",
    "mark_of",
]

MOST, MOST_LINES = 12, 24
"""So many findings, and so many lines of them, are flagged and listed."""

LINES = 5
"""The most lines that the list gives to one finding."""

BETWEEN = 0.9
"""mm between two findings."""

ROOM = 80.0
"""mm for the words of a finding; fits the columns of both page layouts."""


class Flag(NamedTuple):
    """A finding with its number; `at`, and how high, in the picture's units, None for one without a
    place."""

    number: int
    grade: str
    at: tuple[float, float] | None
    lines: tuple[str, ...]
    z: float | None = None


Placing = Callable[[Finding], tuple[float, float] | None]
"""Where a view shows a finding, mm; None if nowhere."""


def in_plan(finding: Finding) -> tuple[float, float] | None:
    """As seen from above."""
    return None if finding.x is None or finding.y is None else (finding.x, finding.y)


def flags_of(
    report: Report | None, units: Units, placing: Placing = in_plan
) -> tuple[tuple[Flag, ...], int]:
    """The first findings, the grave ones first, and how many more there are."""
    found = report.findings if report else ()
    ranked = sorted(found, key=lambda finding: ("stop", "warn", "note").index(finding.grade))
    flags: list[Flag] = []
    for number, finding in enumerate(ranked[:MOST], start=1):
        place = placing(finding)
        at = None if place is None else (units.from_mm(place[0]), units.from_mm(place[1]))
        lines = wrap(sentence(finding, units), ROOM, SMALL, most=LINES)
        if sum(len(flag.lines) for flag in flags) + len(lines) > MOST_LINES:
            break
        z = None if finding.z is None else units.from_mm(finding.z)
        flags.append(Flag(number, finding.grade, at, tuple(lines), z))
    return tuple(flags), len(ranked) - len(flags)


def list_height(flags: Sequence[Flag], more: int) -> float:
    """How high the list is in one column, in mm."""
    lines = sum(len(flag.lines) for flag in flags) + (1 if more else 0)
    return lines * line_height(SMALL) + len(flags) * BETWEEN


def mark_of(grade: str) -> dict[str, Any]:
    """The shape of a flag: a filled square stops, a diamond warns, a circle only tells."""
    if grade == "stop":
        return {"marker": "s", "ms": 10.5, "mfc": STOP, "mec": STOP}
    return {
        "marker": "D" if grade == "warn" else "o",
        "ms": 10 if grade == "warn" else 11.5,
        "mfc": PAPER,
        "mec": INK,
    }


def draw_flags(plan: View, flags: Sequence[Flag]) -> None:
    """Flags along the upper edge, a leader from each to its place."""
    axes, unit = plan.axes, plan.units(1)
    (x0, x1), (y0, y1) = axes.get_xlim(), axes.get_ylim()
    y = y1 - 4.5 * unit
    placed = [flag for flag in flags if flag.at is not None]
    wished = [flag.at[0] for flag in placed if flag.at]
    slots = spread(wished, 6.5 * unit, x0 + 5 * unit, x1 - 5 * unit)
    for flag, x in zip(placed, slots, strict=True):
        if flag.at is None:
            continue
        tip = (min(max(flag.at[0], x0), x1), min(max(flag.at[1], y0), y1))
        colour = STOP if flag.grade == "stop" else INK
        axes.plot((x, tip[0]), (y, tip[1]), color=colour, lw=NARROW, zorder=9.5)
        axes.plot(*([v] for v in tip), marker="o", ms=3, color=colour, zorder=9.6, ls="none")
        _numbered(axes, x, y, flag)


def list_flags(
    page: Axes,
    box: Box,
    columns: int,
    flags: Sequence[Flag],
    more: int,
    *,
    remark: str = "numbered as in the plan",
) -> None:
    """The findings in words, in columns."""
    heading(page, box, "FINDINGS", remark)
    step = line_height(SMALL)
    places = _places(box, columns, flags, 0.0)
    if more or len(places) < len(flags):
        places = _places(box, columns, flags, step)
        more += len(flags) - len(places)
    x, y = box.x + 3, box.top - 9.5
    for flag, place in zip(flags, places, strict=False):
        x, y = place
        _numbered(page, x + 2, y - step * 0.5, flag, small=True)
        for line in flag.lines:
            put(page, x + 6, y - step * 0.5, line, fontsize=SMALL, va="center_baseline")
            y -= step
        y -= BETWEEN
    if more:
        put(
            page,
            x + 6,
            y - step * 0.5,
            f"and {more} more, see the report",
            fontsize=SMALL,
            va="center_baseline",
        )


def _places(
    box: Box, columns: int, flags: Sequence[Flag], spare: float
) -> list[tuple[float, float]]:
    """Where the first flags of the list begin, as many as there is room for in order. spare: mm
    that the last column leaves free."""
    top, step = box.top - 9.5, line_height(SMALL)
    places: list[tuple[float, float]] = []
    column, y = 0, top
    for flag in flags:
        high = step * len(flag.lines)
        if y - high < box.y + 2 and column < columns - 1:
            column, y = column + 1, top
        lowest = box.y + 2 - step * 0.5 + (spare if column == columns - 1 else 0.0)
        if y - high < lowest:
            break
        places.append((box.x + 3 + column * box.w / columns, y))
        y -= high + BETWEEN
    return places


def _numbered(axes: Axes, x: float, y: float, flag: Flag, *, small: bool = False) -> None:
    look = mark_of(flag.grade)
    if small:
        look["ms"] *= 0.8
    axes.plot([x], [y], ls="none", mew=0.8, zorder=9.7, gid=f"flag-{flag.number}", **look)
    put(
        axes,
        x,
        y,
        str(flag.number),
        fontsize=SMALL - (1 if small else 0),
        ha="center",
        va="center_baseline",
        zorder=9.8,
        color=PAPER if flag.grade == "stop" else INK,
    )
