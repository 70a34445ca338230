"""The panel of words: title, facts, caution."""

from __future__ import annotations

from collections.abc import Sequence

from matplotlib.axes import Axes
from matplotlib.patches import Rectangle

from jawcam.show.lettering import line_height, put, wrap
from jawcam.show.page import Box
from jawcam.show.style import BODY, HEAD, INK, NARROW, PAPER, SMALL, SOFT, STOP, TITLE

__all__ = ["draw_panel"]

LABELS = 17.0
"""mm for the labels."""

HANGING = 1.6
"""mm by which the second line of a caution is set in; the width of a dash and a blank."""


def draw_panel(
    page: Axes,
    box: Box,
    title: str,
    rows: Sequence[tuple[str, str]],
    last: tuple[str, Sequence[str]],
    *,
    alarm: bool,
) -> None:
    """Write the title, as many of the rows as there is room for (dots if not all), and the last
    word with its cautions in a frame; `alarm` has that filled.
    """
    xs = (box.x, box.right, box.right, box.x, box.x)
    page.plot(xs, (box.y, box.y, box.top, box.top, box.y), color=INK, lw=NARROW)
    room, y = box.w - 6, box.top - 3
    for line in wrap(title, room, TITLE, "bold", most=3):
        y -= line_height(TITLE)
        put(page, box.x + 3, y + 1.2, line, fontsize=TITLE, fontweight="bold")
    page.plot((box.x + 3, box.right - 3), (y - 0.8,) * 2, color=INK, lw=NARROW)
    bottom = _last_word(page, box, last, alarm=alarm)
    y -= 2.2
    step = line_height(BODY)
    for number, (label, text) in enumerate(rows, start=1):
        lines = wrap(text, room - LABELS, BODY, most=4)
        more = 0 if number == len(rows) else 1  # room for the dots
        if y - step * (len(lines) + more) < bottom:
            put(page, box.x + 3 + LABELS, y - step * 0.75, "...", fontsize=BODY)
            break
        put(page, box.x + 3, y - step * 0.75, label, fontsize=BODY, color=SOFT)
        for line in lines:
            put(page, box.x + 3 + LABELS, y - step * 0.75, line, fontsize=BODY)
            y -= step
        y -= 0.35


def _last_word(page: Axes, box: Box, last: tuple[str, Sequence[str]], *, alarm: bool) -> float:
    """Write it at the foot of the panel; the height at which it begins is given back."""
    room = box.w - 10
    lines = [(0.0, line, HEAD, "bold") for line in wrap(last[0], room, HEAD, "bold")]
    for caution in last[1]:
        pieces = wrap(caution, room - HANGING, SMALL)
        lines.append((0.0, f"- {pieces[0]}", SMALL, "normal"))
        lines += [(HANGING, piece, SMALL, "normal") for piece in pieces[1:]]
    high = sum(line_height(size) for _, _, size, _ in lines) + 2.6
    frame = Rectangle((box.x + 3, box.y + 3), box.w - 6, high, lw=0.9)
    frame.set(facecolor=STOP if alarm else "none", edgecolor=STOP if alarm else INK)
    page.add_patch(frame)
    y = box.y + 3 + high - 1.3
    for inset, line, size, weight in lines:
        y -= line_height(size)
        colour = PAPER if alarm else INK
        low = y + 0.24 * line_height(size)
        put(page, box.x + 5 + inset, low, line, fontsize=size, fontweight=weight, color=colour)
    return box.y + 3 + high + 1.5
