"""The page of a mill's program: it knows a clear height and whether a canned cycle is in force."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

from jawcam.motion.moves import ArcFeed, Drill, LineFeed, Motion, Rapid, ToolChange, WorkOffset
from jawcam.post.mill_tables import MillDialect
from jawcam.post.page import Page
from jawcam.post.text import filled

__all__ = ["Body", "MillPage", "highest"]


@dataclass
class Body:
    """A subprogram. lines: its blocks, without numbers; said: what is in force at its end and
    wasn't before; calls: how many there have been so far."""

    lines: list[str]
    said: dict[str, str]
    calls: int = 0


@dataclass
class MillPage(Page):
    """A mill's program being written.

    highest: the highest Z of the program under each work offset, mm; in_cycle: a canned cycle is
    in force; bodies: what is called, by its number in the text; called: how many numbers of them
    the program needs; several: it loads more than one tool.
    """

    dialect: MillDialect
    highest: Mapping[int, float] = field(default_factory=dict)
    in_cycle: bool = False
    bodies: dict[int, Body] = field(default_factory=dict)
    called: int = 0
    several: bool = False

    def remarks(self) -> Sequence[str]:
        """From what height tools are changed, where that isn't the machine's own, and which
        subprograms the program brings along."""
        told, words = [*super().remarks()], self.dialect.subprograms
        if self.several and any("{clear}" in line for line in self.dialect.tools.leave):
            height = round(self.units.from_mm(min(self.highest.values(), default=0.0)), 4)
            at = f"{self.dialect.moves.axes[2]} {height:g}"
            told.append(f"tools are changed from {at}: raise that if the change needs more room")
        if self.called:
            last = min(words.first + self.called - 1, words.largest)
            numbers = f"{words.first} to {last}"
            told.append(f"brings subprograms {numbers} along: they replace others so numbered")
        return told

    def choose_clear(self, offset: int) -> None:
        """From now on the clear height is the highest Z under this work offset."""
        self.values["clear"] = self.length(self.highest.get(offset, 0.0))

    def needed(self, templates: Sequence[str]) -> Sequence[str]:
        """Lines of the post; no rise to the clear height where the tool is already there."""
        letter = self.dialect.moves.axes[2]
        clear = self.said.get(letter) == letter + self.values["clear"]
        return [line for line in templates if not (clear and "{clear}" in line)]

    def load(self, change: ToolChange) -> None:
        """What a tool change fills in, and the length offset that waits for the first Z word."""
        super().load(change)
        self.values["length_offset"] = str(change.number)
        self.waiting["length"] = filled(self.dialect.tools.length_on, self.values)

    def leave_offset(self) -> None:
        """Rise over whatever stands between two stations."""
        if self.here is not None:
            self.settle()
            self.own(self.dialect.stations.between)
            self.gap()

    def choose_offset(self, number: int) -> None:
        """Another work offset has another clear height."""
        self.choose_clear(number)


def highest(motions: Sequence[Motion], offset: int) -> dict[int, float]:
    """The highest Z under each work offset, in mm; `offset` is in force before any is chosen."""
    heights: dict[int, float] = {}
    for motion in motions:
        match motion:
            case WorkOffset(number):
                offset = number
            case Rapid(to) | LineFeed(to) | ArcFeed(to):
                heights[offset] = max(heights.get(offset, to[2]), to[2])
            case Drill():
                heights[offset] = max(heights.get(offset, motion.clear), motion.clear)
    return heights
