"""The key of a lathe's picture, and its list of tools."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

import numpy as np
from matplotlib.axes import Axes
from matplotlib.patches import Circle, Polygon, Rectangle

from jawcam.show.amiss_marks import amiss_entries
from jawcam.show.flags import Flag, mark_of
from jawcam.show.key import Draw, Entry
from jawcam.show.lettering import put, wrap
from jawcam.show.page import Box, heading
from jawcam.show.shapes import datum
from jawcam.show.style import (
    BLANK,
    DEPTHS,
    HATCH,
    HATCHES,
    HIDDEN_LINE,
    INK,
    NARROW,
    PAPER,
    PART,
    PART_LINE,
    SMALL,
    SOFT,
    STOP,
)
from jawcam.show.trace import RAPID
from jawcam.show.turned_path import LINES, look_of
from jawcam.show.turned_picture import FEED, GROOVE, THREAD, TurnPicture
from jawcam.show.turned_tools import tool_rows

__all__ = ["MOST_TOOLS", "draw_tools", "turned_entries"]

SAMPLE = 9.0
"""mm; the length of a sample line."""

MOST_TOOLS = 10
"""So many tools are listed, the others counted."""

STEP = 4.6


def turned_entries(picture: TurnPicture, flags: Sequence[Flag]) -> list[Entry]:
    """The key's entries for this picture."""
    looks = {strand.look for strand in picture.path}
    scene, grades = picture.scene, {flag.grade for flag in flags}
    thin = {"color": SOFT, "lw": 0.7}
    rows: list[tuple[bool, str, Draw]] = [
        (RAPID in looks, "rapid", _line(**look_of(picture.order, RAPID, 0))),
        (FEED in looks, "feed", _feed(FEED)),
        (GROOVE in looks, "grooving, parting off", _feed(GROOVE)),
        (THREAD in looks, "pass of a thread", _feed(THREAD)),
        (bool(picture.moves.side.any()), "compensated to tick side", _ticked),
        (picture.ends_near[0], "start of the program", _mark("^", 7, PAPER)),
        (picture.ends_near[1], "end of the program", _mark("s", 3.6, INK)),
        (True, "program zero", lambda axes, x, y: datum(axes, x + SAMPLE / 2, y, 0.75)),
        (picture.standing != (), "tool at its first cut", _insert(deepest=False)),
        (picture.standing != (), "tool where it is deepest", _insert(deepest=True)),
        (True, "stock", _area(BLANK, None, INK)),
        (True, "finished part", _part),
        (scene.keep_off != (), "jaws, chuck, tailstock", _area(BLANK, HATCHES[1], INK)),
        (scene.threads != (), "root of a thread", _line(color=INK, lw=0.6)),
        (True, "nothing cut behind this", _line(**thin, ls=HIDDEN_LINE)),
        (scene.parting is not None, "parting face", _line(color=INK, lw=1.6, ls=(0, (4, 1.5)))),
        (scene.left != (), "not reached", _left),
        *amiss_entries(picture.amiss),
        ("stop" in grades, "finding: stop", _flag("stop")),
        ("warn" in grades, "finding: warning", _flag("warn")),
        ("note" in grades, "finding: note", _flag("note")),
    ]
    return [Entry(words, draw) for wanted, words, draw in rows if wanted]


def draw_tools(page: Axes, box: Box, picture: TurnPicture) -> None:
    """The tools in the order of use: their lines, what they are, how fast they cut."""
    heading(page, box, "TOOLS", "in the order of use; later ones are darker and narrower")
    rows = tool_rows(picture)
    half = (box.w - 6) * 0.5
    for i, row in enumerate(rows[:MOST_TOOLS]):
        x, y = box.x + 4, box.top - 10.2 - i * STEP
        for k, look in enumerate(row.looks):
            long = SAMPLE * 1.6 / len(row.looks)
            ends = (x + k * long, x + (k + 1) * long - (0.8 if len(row.looks) > 1 else 0))
            page.plot(ends, (y, y), **look_of(picture.order, look, row.number))
        start = x + SAMPLE * 1.6 + 2
        [what] = wrap(row.what, half + x - start + 14, SMALL, most=1)
        put(page, start, y, what, fontsize=SMALL, va="center_baseline")
        [speed] = wrap(row.speed, box.right - x - half - 18, SMALL, most=1)
        put(page, x + half + 16, y, speed, fontsize=SMALL, va="center_baseline")
    more = len(rows) - MOST_TOOLS
    if more > 0:
        y = box.top - 10.2 - MOST_TOOLS * STEP
        words = f"and {more} more tool{'s' if more > 1 else ''}"
        put(page, box.x + 4 + SAMPLE * 1.6 + 2, y, words, fontsize=SMALL, va="center_baseline")


def _line(**look: Any) -> Draw:  # noqa: ANN401
    def draw(axes: Axes, x: float, y: float) -> None:
        axes.plot((x, x + SAMPLE), (y, y), **look)

    return draw


def _feed(look: int) -> Draw:
    return _line(color=DEPTHS(0.3), lw=1.4, ls=LINES[look])


def _mark(marker: str, size: float, colour: str) -> Draw:
    def draw(axes: Axes, x: float, y: float) -> None:
        look: dict[str, Any] = {"ms": size, "mfc": colour, "mec": INK, "mew": 0.9, "ls": "none"}
        axes.plot([x + SAMPLE / 2], [y], marker=marker, **look)

    return draw


def _flag(grade: str) -> Draw:
    def draw(axes: Axes, x: float, y: float) -> None:
        look = mark_of(grade)
        look["ms"] *= 0.7
        axes.plot([x + SAMPLE / 2], [y], ls="none", mew=0.8, **look)

    return draw


def _ticked(axes: Axes, x: float, y: float) -> None:
    axes.plot((x, x + SAMPLE), (y, y), color=DEPTHS(0.3), lw=1.4)
    for share in (0.25, 0.75):
        axes.plot((x + SAMPLE * share,) * 2, (y, y + 1.5), color=INK, lw=0.7)


def _area(colour: str, hatch: str | None, edge: str) -> Draw:
    def draw(axes: Axes, x: float, y: float) -> None:
        look: dict[str, Any] = {"fc": colour, "ec": HATCH, "hatch": hatch, "lw": 0}
        axes.add_patch(Rectangle((x, y - 1.5), SAMPLE, 3, **look))
        axes.add_patch(Rectangle((x, y - 1.5), SAMPLE, 3, fc="none", ec=edge, lw=0.8))

    return draw


def _part(axes: Axes, x: float, y: float) -> None:
    _area(BLANK, HATCHES[0], "none")(axes, x, y)
    look: dict[str, Any] = {"fc": "none", "ec": PART, "lw": 0.9, "ls": PART_LINE}
    axes.add_patch(Rectangle((x, y - 1.5), SAMPLE, 3, **look))


def _insert(*, deepest: bool) -> Draw:
    shape = np.array([(0.0, 0.0), (3.2, 0.6), (3.8, 3.0), (0.6, 2.4)])

    def draw(axes: Axes, x: float, y: float) -> None:
        look: dict[str, Any] = {"fc": "none", "lw": NARROW, "ls": HIDDEN_LINE}
        if deepest:
            look = {"fc": PAPER, "lw": 0.9}
        at = np.array([x + SAMPLE / 2 - 1.9, y - 1.5])
        axes.add_patch(Polygon(shape + at, closed=True, ec=INK, **look))

    return draw


def _left(axes: Axes, x: float, y: float) -> None:
    axes.add_patch(Circle((x + SAMPLE / 2, y), 1.2, fc="none", ec=STOP, lw=0.8, hatch="xxxxxx"))
