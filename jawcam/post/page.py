"""The text so far, and what the control remembers of it."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field

from jawcam.motion.moves import Point3, ToolChange
from jawcam.post.blocks import in_order, parted
from jawcam.post.tables import Dialect
from jawcam.post.text import clean, comment_lines, filled, number
from jawcam.units import Units

__all__ = ["SECONDS_DECIMALS", "Page"]

SECONDS_DECIMALS = 3
"""Of a dwell."""


@dataclass
class Page:
    """A program being written.

    values: what fills the places of the post's lines; offsets: the work offsets that the program
    uses; said: group -> the word that is in force at the control; here: the point that the tool is
    at, None if the text has not told it;
    waiting: words for the next block that can take them ("length", "side on", "side off");
    blocks: the places in `lines` of blocks, which have no sequence numbers yet; changes: of those
    among them that load a tool.
    """

    dialect: Dialect
    units: Units
    values: dict[str, str]
    offsets: tuple[int, ...] = ()
    lines: list[str] = field(default_factory=list)
    blocks: list[int] = field(default_factory=list)
    changes: list[int] = field(default_factory=list)
    said: dict[str, str] = field(default_factory=dict)
    here: Point3 | None = None
    waiting: dict[str, str] = field(default_factory=dict)
    tools_used: int = 0

    def block(self, words: Sequence[str]) -> None:
        """One line, its words in the dialect's order; nothing if there are none."""
        self._add([word for word in words if word], in_order(self.dialect.blocks.order))

    def _add(self, words: Sequence[str], order: Callable[[str], int]) -> None:
        gap = " " if self.dialect.blocks.spaces else ""
        parts = parted(sorted(words, key=order), self.dialect.blocks, self.dialect.numbering)
        for part in parts if words else ():
            self.blocks.append(len(self.lines))
            self.lines.append(gap.join(part))

    def comment(self, text: str) -> None:
        """The text as comment lines."""
        end = self.dialect.blocks.end
        self.lines.extend(f"{line}{end}" for line in comment_lines(text, self.dialect.comments))

    def gap(self) -> None:
        """A blank line, if the dialect has them."""
        if self.dialect.blocks.blank_lines and self.lines and self.lines[-1]:
            self.lines.append("")

    def bare(self, templates: Sequence[str]) -> None:
        """Lines of the post without sequence numbers."""
        self.lines.extend(line for line in (filled(t, self.values) for t in templates) if line)

    def change(self, templates: Sequence[str]) -> None:
        """Blocks of the post that load a tool."""
        place = len(self.blocks)
        self.own(templates)
        self.changes.extend(self.blocks[place : place + 1])

    def own(self, templates: Sequence[str]) -> None:
        """Blocks of the post, their words as they stand there; what they do to the control's memory
        is not known."""
        for template in self.needed(templates):
            self._add(filled(template, self.values).split(), lambda _: 0)
        if templates:
            self.forget()

    def remarks(self) -> Sequence[str]:
        """What the person must know of how the dialect writes a program of this kind of machine."""
        words = self.dialect.work_offsets
        return tuple(f"work offset {number} is {words[number - 1]}" for number in self.offsets)

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
        return self.coordinate(self.units.from_mm(mm), signed=self.dialect.numbers.sign == "always")

    def coordinate(self, value: float, *, signed: bool = False) -> str:
        """A length in the program's units -> its digits."""
        numbers = self.dialect.numbers
        return number(
            value,
            numbers.decimals.of(self.units),
            numbers,
            digits=numbers.digits.of(self.units),
            suppress=numbers.suppress,
            signed=signed,
        )

    def centre_length(self, mm: float, *, signed: bool = False) -> str:
        """A centre offset or a radius in mm -> its digits."""
        numbers = self.dialect.numbers
        return number(
            self.units.from_mm(mm),
            numbers.centre_decimals.of(self.units),
            numbers,
            digits=numbers.centre_digits.of(self.units),
            suppress=numbers.suppress,
            signed=signed,
        )

    def speed(self, speed: float) -> str:
        """A speed of the spindle -> its digits."""
        numbers = self.dialect.numbers
        digits, suppress = numbers.speed_digits, numbers.speed_suppress
        return number(speed, numbers.speed_decimals, numbers, digits=digits, suppress=suppress)

    def times(self, seconds: float) -> dict[str, str]:
        """A time -> its digits, by the names of its units."""
        written = number(seconds, SECONDS_DECIMALS, self.dialect.numbers)
        return {"seconds": written, "milliseconds": str(round(seconds * 1000))}

    def feed_unit(self) -> str:
        """The word that says what feeds count by, where it has changed; a mill has none."""
        return ""

    def feed(self, feed: float) -> str:
        """The feed word, where it has changed."""
        decimals = self.dialect.numbers.feed_decimals.of(self.units)
        return self.feed_word(self.units.from_mm(feed), decimals)

    def feed_word(self, feed: float, decimals: int) -> str:
        """The same of a feed in the program's units, in so many decimals."""
        numbers = self.dialect.numbers
        digits = number(
            feed,
            decimals,
            numbers,
            digits=numbers.feed_digits.of(self.units),
            suppress=numbers.feed_suppress,
        )
        return self.modal("feed", self.dialect.moves.feed + digits, "feed")
