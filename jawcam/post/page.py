"""The text so far, and what the control remembers of it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field

from jawcam.motion.moves import Point3, ToolChange
from jawcam.post.tables import Dialect
from jawcam.post.text import clean, comment_lines, filled, number
from jawcam.units import Units

__all__ = ["SECONDS_DECIMALS", "Page"]

SECONDS_DECIMALS = 3
"""Of a dwell."""


@dataclass
class Page:
    """A program being written.

    values: what fills the places of the post's lines; said: group -> the word that is in force
    at the control; here: the point that the tool is at, None if the text has not told it;
    waiting: words for the next block that can take them ("length", "side on", "side off").
    """

    dialect: Dialect
    units: Units
    values: dict[str, str]
    lines: list[str] = field(default_factory=list)
    said: dict[str, str] = field(default_factory=dict)
    here: Point3 | None = None
    waiting: dict[str, str] = field(default_factory=dict)
    tools_used: int = 0
    _next: int = -1

    def block(self, words: Sequence[str]) -> None:
        """One line with its sequence number; nothing if there are no words."""
        words = [word for word in words if word]
        if not words:
            return
        numbering = self.dialect.numbering
        if numbering.step:
            if not numbering.start <= self._next <= numbering.largest:
                self._next = numbering.start
            words.insert(0, f"{numbering.letter}{self._next}")
            self._next += numbering.step
        gap = " " if self.dialect.blocks.spaces else ""
        self.lines.append(gap.join(words))

    def comment(self, text: str) -> None:
        """The text as comment lines."""
        self.lines.extend(comment_lines(text, self.dialect.comments))

    def gap(self) -> None:
        """A blank line, if the dialect has them."""
        if self.dialect.blocks.blank_lines and self.lines and self.lines[-1]:
            self.lines.append("")

    def bare(self, templates: Sequence[str]) -> None:
        """Lines of the post without sequence numbers."""
        self.lines.extend(line for line in (filled(t, self.values) for t in templates) if line)

    def own(self, templates: Sequence[str]) -> None:
        """Blocks of the post; what they do to the control's memory is not known."""
        for template in self.needed(templates):
            self.block(filled(template, self.values).split())
        if templates:
            self.forget()

    def needed(self, templates: Sequence[str]) -> Sequence[str]:
        """Lines of the post without those that would move the tool to where it already is."""
        return templates

    def load(self, change: ToolChange) -> None:
        """Note what a tool change fills in, and that it stops all."""
        self.values |= {
            "tool": str(change.number),
            "tool_name": clean(change.name, self.dialect.comments),
            "spindle_off": "",
            "coolant_off": "",
        }

    def leave_offset(self) -> None:
        """Do what must come before another work offset."""
        if self.here is not None:
            self.settle()

    def choose_offset(self, number: int) -> None:
        """Note that this work offset is in force."""

    def settle(self) -> None:
        """Write what still waits for a move, where no move will come."""
        self.waiting.pop("length", None)
        for group in tuple(self.waiting):
            self.block(self.waiting.pop(group).split())

    def forget(self) -> None:
        """Write all of motion, position and feed anew in the next move."""
        for group in ("motion", "feed", "feed unit", *self.dialect.moves.axes):
            self.said.pop(group, None)
        self.here = None

    def modal(self, group: str, word: str, kind: str = "") -> str:
        """`word`, or nothing if it is already in force in `group` and the dialect leaves out
        what has not changed there (always where no `kind` is given)."""
        old, self.said[group] = self.said.get(group), word
        suppressed = not kind or kind in self.dialect.blocks.modal
        return "" if suppressed and old == word else word

    def length(self, mm: float) -> str:
        """A coordinate in mm -> its digits."""
        numbers = self.dialect.numbers
        return number(self.units.from_mm(mm), numbers.decimals.of(self.units), numbers)

    def centre_length(self, mm: float) -> str:
        """A centre offset or a radius in mm -> its digits."""
        numbers = self.dialect.numbers
        return number(self.units.from_mm(mm), numbers.centre_decimals.of(self.units), numbers)

    def seconds(self, seconds: float) -> str:
        """A time -> its digits."""
        return number(seconds, SECONDS_DECIMALS, self.dialect.numbers)

    def feed_unit(self) -> str:
        """The word that says what feeds count by, where it has changed; a mill has none."""
        return ""

    def feed(self, feed: float) -> str:
        """The feed word, where it has changed."""
        numbers = self.dialect.numbers
        digits = number(self.units.from_mm(feed), numbers.feed_decimals.of(self.units), numbers)
        return self.modal("feed", self.dialect.moves.feed + digits, "feed")
