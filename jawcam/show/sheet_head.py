"""The head and the foot of a setup sheet."""

from __future__ import annotations

from typing import NamedTuple

from matplotlib.axes import Axes
from matplotlib.patches import Rectangle

from jawcam.cautions import ON_LATHE, ON_MILL
from jawcam.hold.turn_target import TurnTarget
from jawcam.show.lettering import fitted, line_height, put, wrap
from jawcam.show.page import Box
from jawcam.show.sheet_given import Given
from jawcam.show.sheet_page import COLUMN, FRAME, GUTTER, SMALLEST, TEXT, alarm
from jawcam.show.sheet_scale import check_bar
from jawcam.show.sheet_words import program_name, proof_words, time_words
from jawcam.show.style import INK
from jawcam.show.words import file_name

__all__ = ["FORBIDDEN", "Head", "draw_foot", "draw_head", "foot_height", "head_of"]

FORBIDDEN = "DO NOT RUN"
BANNER = 18.0
"""mm."""

TITLE, NAME, OFFSET = 15.0, 11.0, 24.0
"""Lettering in points: the job's title, the setup's name, the work offset."""

SCALED = 4.5
"""mm of the bar at the foot."""

BLOCK = Box(0.0, 0.0, 50.0, 20.0)
"""mm of the work offset's frame."""


class Head(NamedTuple):
    """Its lines, as (words, points, weight), and how high it is, mm; a banner over it included."""

    lines: tuple[tuple[str, float, str], ...]
    high: float


def head_of(given: Given) -> Head:
    """What the head says."""
    room = FRAME.w - BLOCK.w - GUTTER
    title = given.job.title or given.setup.name
    lines = [(row, TITLE, "bold") for row in wrap(title, room, TITLE, "bold", most=2)]
    lines += [
        (row, NAME, "bold") for row in wrap(f"setup {given.setup.name}", room, NAME, "bold", most=1)
    ]
    lines += [
        (row, TEXT, "normal") for fact in _facts(given) for row in wrap(fact, room, TEXT, most=2)
    ]
    high = max(sum(line_height(size) for _, size, _ in lines), BLOCK.h) + 3
    return Head(tuple(lines), high + (0.0 if given.proven else BANNER + 2))


def _facts(given: Given) -> list[str]:
    count = len(given.program.lines)
    text = f"program {program_name(given)}, {count} lines, {given.dialect}"
    time, units = time_words(given), given.job.units.value
    facts = [
        f"{text}; job {file_name(given.job.file)}",
        f"{proof_words(given)}; {time}; all lengths in {units}",
    ]
    if given.others:
        named = ", ".join(f"{one.name} (offset {one.work_offset})" for one, _ in given.others)
        facts.append(f"the same program also serves {named}: each has its own sheet")
    return facts


def draw_head(page: Axes, given: Given, head: Head) -> None:
    """Draw it at the top of the frame."""
    y = FRAME.top
    if not given.proven:
        alarm(page, Box(FRAME.x, y - BANNER, FRAME.w, BANNER), FORBIDDEN, proof_words(given))
        y -= BANNER + 2
    _offset(page, given, y)
    for words, size, weight in head.lines:
        y -= line_height(size)
        base = y + 0.26 * line_height(size)
        put(page, FRAME.x, base, words, fontsize=size, fontweight=weight)


def _offset(page: Axes, given: Given, top: float) -> None:
    """The work offset, in a frame, as large as its word allows."""
    box = Box(FRAME.right - BLOCK.w, top - BLOCK.h, BLOCK.w, BLOCK.h)
    page.add_patch(Rectangle((box.x, box.y), box.w, box.h, fc="none", ec=INK, lw=1.2))
    number, middle = given.target.work_offset, box.x + box.w / 2
    word = given.offset_word or str(number)
    size = fitted(word, box.w - 4, OFFSET, "bold")
    put(page, middle, box.top - 4.4, "WORK OFFSET", fontsize=SMALLEST, ha="center")
    put(page, middle, box.y + 5.8, word, fontsize=size, fontweight="bold", ha="center")
    if given.offset_word:
        put(page, middle, box.y + 1.8, f"number {number}", fontsize=SMALLEST, ha="center")


def foot_height(given: Given) -> float:
    """Its height, mm."""
    rows = -(-len(_cautions(given)) // 2)
    return SCALED + (rows * line_height(SMALLEST) + 3 if given.proven else BANNER)


def draw_foot(page: Axes, given: Given) -> None:
    """The cautions at the foot of the frame; of an unproven program the one that matters."""
    check_bar(page, FRAME.x, FRAME.y)
    low, high = FRAME.y + SCALED, foot_height(given) - SCALED
    if not given.proven:
        words = "this sheet only shows what the proof found"
        alarm(page, Box(FRAME.x, low, FRAME.w, high), FORBIDDEN, words)
        return
    page.add_patch(Rectangle((FRAME.x, low), FRAME.w, high, fc="none", ec=INK, lw=1.0))
    rows = _cautions(given)
    half = -(-len(rows) // 2)
    step = line_height(SMALLEST)
    for k, row in enumerate(rows):
        x = FRAME.x + 2 + (k // half) * (COLUMN + GUTTER)
        y = low + high - 1.5 - (k % half + 0.76) * step
        weight = "bold" if k == 0 else "normal"
        size = fitted(f"- {row}", COLUMN - 2, SMALLEST, weight)
        put(page, x, y, f"- {row}", fontsize=size, fontweight=weight)


def _cautions(given: Given) -> tuple[str, ...]:
    """A line each, which is never cut."""
    return ON_LATHE if isinstance(given.target, TurnTarget) else ON_MILL
