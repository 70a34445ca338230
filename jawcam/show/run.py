"""A run through a program: a figure that shows it up to any of its moves, and the blocks there.

What stays is drawn once; what changes from move to move are a few artists, so that a window or a
film paints them alone over what stays.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Any

from matplotlib.artist import Artist
from matplotlib.axes import Axes
from matplotlib.figure import Figure
from matplotlib.lines import Line2D
from matplotlib.text import Text

from jawcam.reader.cuts import Program
from jawcam.show.arrays import Floats
from jawcam.show.lettering import line_height, put
from jawcam.show.page import Box, View, heading
from jawcam.show.run_path import RunPath
from jawcam.show.style import BODY, HEAD, INK, NARROW, PAPER, SOFT
from jawcam.show.words import clock

__all__ = [
    "BlockText",
    "Outline",
    "Rail",
    "Run",
    "RunView",
    "block_text",
    "rail",
    "run_view",
    "said_of",
]

BLOCKS = 11
"""So many lines of the program are shown, the one that is run in their middle."""

GHOST: dict[str, Any] = {"color": SOFT, "lw": 0.5, "alpha": 0.35, "zorder": 4.9}
"""What is still to come."""

Outline = Callable[[int], Floats]


@dataclass(frozen=True)
class RunView:
    """The path in one view. lines: of each way of drawing; tool: the outline of the tool where it
    stands after a move, (n, 2)."""

    path: RunPath
    lines: Mapping[int, Line2D]
    shape: Line2D
    tool: Outline

    def to(self, move: int) -> None:
        """Show what is done after a move, from 0."""
        piece = int(self.path.done[move])
        for way, line in self.lines.items():
            line.set_data(*self.path.drawn[way].until(piece).T)
        self.shape.set_data(*self.tool(move).T)

    @property
    def artists(self) -> list[Artist]:
        """What changes."""
        return [*self.lines.values(), self.shape]


@dataclass(frozen=True)
class BlockText:
    """The words beside the views. said: what to say of a move, three lines."""

    program: Program
    rows: tuple[tuple[Text, Text], ...]
    facts: tuple[Text, ...]
    said: Callable[[int], tuple[str, ...]]

    def to(self, move: int) -> None:
        """Show the block of a move and its neighbours."""
        current, lines = self.program.cuts[move].line, self.program.lines
        first = current - len(self.rows) // 2
        for number, (mark, text) in enumerate(self.rows, start=first):
            known = 1 <= number <= len(lines)
            mark.set_text(str(number) if known else "")
            text.set_text(_short(lines[number - 1]) if known else "")
        for text, words in zip(self.facts, self.said(move), strict=True):
            text.set_text(words)

    @property
    def artists(self) -> list[Artist]:
        """What changes."""
        return [*(text for row in self.rows for text in row), *self.facts]


@dataclass(frozen=True)
class Rail:
    """The slider: how far the run is, in moves, from the first to the last."""

    axes: Axes
    knob: Line2D
    behind: Line2D

    def to(self, move: int) -> None:
        """Put the knob at a move."""
        self.knob.set_data([move], [0])
        self.behind.set_data([0, move], [0, 0])

    @property
    def artists(self) -> list[Artist]:
        """What changes."""
        return [self.behind, self.knob]


@dataclass(frozen=True)
class Run:
    """The whole figure. minutes: how long the program has run at the end of each move."""

    figure: Figure
    views: tuple[RunView, ...]
    text: BlockText
    rail: Rail
    minutes: Floats

    @property
    def moves(self) -> int:
        """How many there are."""
        return len(self.minutes)

    def to(self, move: int) -> int:
        """Show the program up to a move, from 0, the first or last one if it is beyond; that
        move."""
        move = min(max(move, 0), self.moves - 1)
        for view in self.views:
            view.to(move)
        self.text.to(move)
        self.rail.to(move)
        return move

    @property
    def artists(self) -> list[Artist]:
        """All that changes from move to move, what is below first."""
        seen = [artist for view in self.views for artist in view.artists]
        return [*seen, *self.text.artists, *self.rail.artists]


def run_view(
    view: View, path: RunPath, looks: Mapping[int, dict[str, Any]], tool: Outline
) -> RunView:
    """The path in a view, all of it as what is still to come. looks: of each way of drawing."""
    for drawn in path.drawn.values():
        view.axes.plot(*drawn.points.T, **GHOST, gid="to come")
    lines = {way: _line(view.axes, looks[way]) for way in path.drawn}
    shape = view.axes.plot([], [], color=INK, lw=1.1, zorder=8, gid="tool", animated=True)[0]
    return RunView(path, lines, shape, tool)


def _line(axes: Axes, look: dict[str, Any]) -> Line2D:
    [line] = axes.plot([], [], animated=True, solid_capstyle="butt", gid="done", **look)
    return line


def block_text(
    page: Axes, box: Box, program: Program, said: Callable[[int], tuple[str, ...]]
) -> BlockText:
    """The panel of the block text in `box`."""
    heading(page, box, "BLOCKS", "the marked one is run")
    look: dict[str, Any] = {"fontsize": BODY, "va": "center_baseline", "animated": True}
    step = line_height(BODY)
    y = box.top - 11
    facts = [put(page, box.x + 3, y - number * step, "", **look) for number in range(3)]
    y -= 3 * step + 2
    count = min(int((y - box.y - 2) / step) // 2 * 2 + 1, BLOCKS)
    while y - (count - 1) * step < box.y + 2.5:
        count -= 2
    rows = []
    for number in range(count):
        here = number == count // 2
        at = y - number * step
        look_here = {**look, "fontweight": "bold" if here else "normal"}
        mark = put(page, box.x + 12, at, "", ha="right", **{**look, "color": SOFT})
        rows.append((mark, put(page, box.x + 14, at, "", family="DejaVu Sans Mono", **look_here)))
        if here:
            xs = (box.x + 2, box.right - 2, box.right - 2, box.x + 2, box.x + 2)
            low, high = at - step / 2, at + step / 2
            page.plot(xs, (low, low, high, high, low), color=INK, lw=NARROW)
    return BlockText(program, tuple(rows), tuple(facts), said)


def rail(figure: Figure, page: Axes, box: Box, moves: int) -> Rail:
    """The slider in `box`; on its axes a move counts 1 across."""
    put(page, box.x, box.y + box.h / 2, "start", fontsize=HEAD, va="center_baseline")
    put(page, box.right, box.y + box.h / 2, "end", fontsize=HEAD, va="center_baseline", ha="right")
    wide, high = page.get_xlim()[1], page.get_ylim()[1]
    place = ((box.x + 12) / wide, box.y / high, (box.w - 22) / wide, box.h / high)
    axes = figure.add_axes(place, label="rail")
    last = max(moves - 1, 1)
    axes.set(xlim=(-0.01 * last, 1.01 * last), ylim=(-1, 1))
    axes.set_axis_off()
    axes.plot([0, last], [0, 0], color=SOFT, lw=2, solid_capstyle="round")
    [behind] = axes.plot([], [], color=INK, lw=3, animated=True)
    look: dict[str, Any] = {"marker": "s", "ms": 9, "mfc": PAPER, "mec": INK, "mew": 1.4}
    [knob] = axes.plot([], [], animated=True, gid="knob", **look)
    return Rail(axes, knob, behind)


def said_of(minutes: Floats, place: str, move: int, cutting: str) -> tuple[str, ...]:
    """The three lines over the blocks."""
    whole = clock(float(minutes[-1]))
    count = f"move {move + 1} of {len(minutes)}"
    return f"{count}, {clock(float(minutes[move]))} of {whole}", place, cutting


def _short(line: str) -> str:
    """As much of a line as there is room for."""
    text = line.expandtabs(4).rstrip()
    return text if len(text) <= 50 else f"{text[:47]}..."
