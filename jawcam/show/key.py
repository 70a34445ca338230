"""The key: what each line and mark means; only what the picture shows."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Any, NamedTuple

import numpy as np
from matplotlib.axes import Axes
from matplotlib.patches import Circle, Rectangle

from jawcam.hold.target import Target
from jawcam.show.amiss_marks import amiss_entries
from jawcam.show.flags import Flag, mark_of
from jawcam.show.lettering import put
from jawcam.show.page import Box, heading
from jawcam.show.path import plunges
from jawcam.show.picture import Picture
from jawcam.show.shapes import crossed_circle, datum
from jawcam.show.style import (
    BLANK,
    DASH,
    DEPTHS,
    HATCH,
    HATCHES,
    INK,
    NARROW,
    PAPER,
    PART,
    PART_LINE,
    RAPID_LINE,
    SMALL,
    SOFT,
    STOP,
)
from jawcam.show.trace import ENTRY, FEED, RAPID

__all__ = ["Draw", "Entry", "draw_key", "entries"]

SAMPLE = 9.0
"""mm; the length of a sample line."""

Draw = Callable[[Axes, float, float], None]


class Entry(NamedTuple):
    """A meaning, and how to draw its sample with its left end at a point of the page."""

    words: str
    draw: Draw


def entries(shown: Picture, flags: Sequence[Flag]) -> list[Entry]:
    """The key's entries for this picture."""
    present = set(np.unique(shown.trace.look).tolist())
    target, green = shown.target, DEPTHS(0.45)
    grades = {flag.grade for flag in flags}
    rows = [
        (RAPID in present, "rapid", _line(color=SOFT, lw=0.8, ls=RAPID_LINE)),
        (FEED in present, "feed, level", _line(color=green, lw=1.4)),
        (ENTRY in present, "feed, rising or falling", _dashed),
        (len(plunges(shown.moves)) > 0, "straight plunge", _mark("x", 4, INK)),
        (bool(shown.moves.side.any()), "compensated to tick side", _ticked),
        (True, "start of the program", _mark("^", 7, PAPER)),
        (True, "end of the program", _mark("s", 3.6, INK)),
        (shown.zero_near, "program zero", lambda axes, x, y: datum(axes, x + SAMPLE / 2, y, 0.75)),
        (shown.cutter_of(shown.measures.first) is not None, "cutter at its first cut", _cutter),
        (target is not None, "blank, cut through", _blank),
        (target is not None, "part, silhouette", _line(color=PART, lw=0.8, ls=PART_LINE)),
        (target is not None, "wall of the cavity", _line(color=INK, lw=1.1)),
        (
            target is not None and target.reliefs != (),
            "corner relief",
            _line(color=SOFT, lw=NARROW),
        ),
        *_cut_besides(target),
        (target is not None and target.bolts != (), "bolt", _bolt),
        (target is not None and target.unreached != (), "not reached", _unreached),
        *amiss_entries(shown.amiss),
        ("stop" in grades, "finding: stop", _flag("stop")),
        ("warn" in grades, "finding: warning", _flag("warn")),
        ("note" in grades, "finding: note", _flag("note")),
    ]
    return [Entry(words, draw) for wanted, words, draw in rows if wanted]


def _cut_besides(target: Target | None) -> list[tuple[bool, str, Draw]]:
    """What only some pockets have."""
    if target is None:
        return []
    thin, soft = _line(color=INK, lw=NARROW), _line(color=SOFT, lw=NARROW)
    raw = _line(color=SOFT, lw=NARROW, ls=PART_LINE)
    return [
        (len(target.levels) > 1, "edge of a lower level", thin),
        (target.edge > 0, "broken edge", thin),
        (target.groove is not None, "groove in the seat", soft),
        (target.drilled != (), "drilled hole", _drilled),
        (target.facing > 0, "faced off", raw),
    ]


def draw_key(
    page: Axes,
    box: Box,
    columns: int,
    rows: Sequence[Entry],
    *,
    more: str = "deeper is darker and narrower",
) -> None:
    """Draw the key in columns, read downward; `more`: the remark after its heading."""
    heading(page, box, "KEY", more)
    deep = -(-len(rows) // columns)
    wide = (box.w - 4) / columns
    for i, entry in enumerate(rows):
        x, y = box.x + 4 + i // deep * wide, box.top - 10.2 - i % deep * 4.6
        entry.draw(page, x, y)
        put(page, x + SAMPLE + 2, y, entry.words, fontsize=SMALL, va="center_baseline")


def _line(**look: Any) -> Draw:  # noqa: ANN401
    def draw(axes: Axes, x: float, y: float) -> None:
        axes.plot((x, x + SAMPLE), (y, y), **look)

    return draw


def _dashed(axes: Axes, x: float, y: float) -> None:
    for k in range(3):
        start = x + k * (SAMPLE - DASH) / 2
        axes.plot((start, start + DASH), (y, y), color=DEPTHS(0.45), lw=1.4, solid_capstyle="butt")


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
    axes.plot((x, x + SAMPLE), (y, y), color=DEPTHS(0.45), lw=1.4)
    for share in (0.25, 0.75):
        axes.plot((x + SAMPLE * share,) * 2, (y, y + 1.5), color=INK, lw=0.7)


def _blank(axes: Axes, x: float, y: float) -> None:
    look: dict[str, Any] = {"fc": BLANK, "ec": HATCH, "hatch": HATCHES[0], "lw": 0}
    axes.add_patch(Rectangle((x, y - 1.5), SAMPLE, 3, **look))
    axes.add_patch(Rectangle((x, y - 1.5), SAMPLE, 3, fc="none", ec=INK, lw=0.8))


def _bolt(axes: Axes, x: float, y: float) -> None:
    crossed_circle(axes, x + SAMPLE / 2, y, 1.4, color=INK, lw=0.7)


def _drilled(axes: Axes, x: float, y: float) -> None:
    crossed_circle(axes, x + SAMPLE / 2, y, 1.2, color=INK, lw=NARROW)


def _cutter(axes: Axes, x: float, y: float) -> None:
    axes.add_patch(Circle((x + SAMPLE / 2, y), 1.7, fc=PAPER, ec=INK, lw=0.9))
    crossed_circle(axes, x + SAMPLE / 2, y, 0.6, color=INK, lw=NARROW)


def _unreached(axes: Axes, x: float, y: float) -> None:
    axes.add_patch(Circle((x + SAMPLE / 2, y), 1.2, fc="none", ec=STOP, lw=0.8, hatch="xxxxxx"))
