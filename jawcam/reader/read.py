"""Read a program as a kind of control would, and say what moves come of it and what is wrong."""

from __future__ import annotations

import re
from collections.abc import Mapping

from jawcam.reader import modal
from jawcam.reader.blocks import Block, sort
from jawcam.reader.controls import Control, find
from jawcam.reader.cuts import Point3, Program
from jawcam.reader.faults import BlockError
from jawcam.reader.implied import pointed
from jawcam.reader.machine import Machine
from jawcam.reader.moves import move_plain
from jawcam.reader.steps import do
from jawcam.reader.tokens import Word, plain_pattern, read_line

__all__ = ["read", "read_as"]


def read(
    text: str,
    control: str,
    name: str = "",
    start: Point3 | None = None,
    *,
    lengths: Mapping[int, float] | None = None,
) -> Program:
    """Read a program as the kind of control called `control` does.

    name: of the file, for the person; start: where the tip is before the first move, in mm and in
    the program's own axes (unknown, nan, if None); lengths: tool length offsets in mm by register,
    to shift Z by when G43 puts one in force (none: Z is taken to be the tip's throughout).

    Whatever is wrong with the text is in the program's faults. Raises `InputError` if there is no
    such kind of control.
    """
    return read_as(text, find(control), name, start, lengths=lengths)


def read_as(
    text: str,
    control: Control,
    name: str = "",
    start: Point3 | None = None,
    *,
    lengths: Mapping[int, float] | None = None,
) -> Program:
    """The same, as the control of a row of the table."""
    lines = text.replace("\r\n", "\n").replace("\r", "\n").split("\n")
    if not lines[-1]:
        del lines[-1]
    reading = _Reading(control, Machine(control, start, lengths))
    reading.run(lines)
    machine = reading.machine
    return Program(
        name,
        tuple(lines),
        tuple(machine.cuts),
        tuple(machine.changes),
        tuple(sorted(machine.faults, key=lambda fault: (fault.line, fault.column))),
        tuple(reading.comments),
        machine.modes.units,
        machine.ended,
    )


class _Reading:
    """One run through the lines. first_percent: the line of the first percent sign, 0 if none."""

    def __init__(self, control: Control, machine: Machine) -> None:
        self.control = control
        self.machine = machine
        self.table = modal.index(control.groups)
        self.comments: list[tuple[int, str]] = []
        self.first_percent = 0
        self.blank_so_far = True

    def run(self, lines: list[str]) -> None:
        """Read all lines up to the program's end, and judge that."""
        machine, longest = self.machine, self.control.longest_line
        plain = plain_pattern(self.control).fullmatch
        for number, line in enumerate(lines, 1):
            machine.line = number
            found = plain(line)
            if found is not None and len(line) <= longest and move_plain(machine, found):
                continue
            self._line(line)
            if machine.ended:
                break
        self._judge_end(lines)

    def _line(self, text: str) -> None:
        """Any line, with all its faults."""
        bare = text.strip()
        if bare.startswith("%") and self.control.block_end:
            bare = bare.removesuffix(self.control.block_end).rstrip()
        if bare.startswith("%"):
            self._percent(bare, text.index("%") + 1)
            return
        self.blank_so_far = self.blank_so_far and not bare
        line = read_line(text, self.control, self.machine.parameters)
        if line.comment is not None:
            self.comments.append((self.machine.line, line.comment))
        if not (line.words or line.settings or line.faults):
            return
        words = self._without_program_number(line.words, line.faults)
        if self.control.point == "implied":
            words = pointed(words, self.control, self.machine.modes.units, line.faults)
        block, faults = sort(words, self.table, self.control)
        for error in (*line.faults, *faults):
            self.machine.fault(error, _column(error, block))
        block.torn = any(error.code not in _LEGIBLE for error in (*line.faults, *faults))
        block.bad = block.bad or block.torn
        do(self.machine, block)
        self.machine.parameters.update(line.settings)

    def _without_program_number(self, words: list[Word], faults: list[BlockError]) -> list[Word]:
        """Words but for the program number, which may be the first word of all."""
        kept = []
        for word in words:
            if word.letter not in self.control.head:
                kept.append(word)
            elif not self.machine.head:
                mend = "leave it out; if it names a subprogram, write its blocks where it is called"
                what = f"{word.letter} and a program number after the head"
                faults.append(BlockError("R605", what, mend, word.column))
            self.machine.head = False
        return kept

    def _percent(self, bare: str, column: int) -> None:
        machine, pair = self.machine, self.control.percent == "pair"
        first = machine.head and (self.blank_so_far or not pair)
        numbered = self.control.percent == "number" and first and not self.first_percent
        if bare != "%" and not (numbered and _NUMBERED.fullmatch(bare)):
            mend = "give it a line of its own"
            machine.fault(BlockError("R602", "a percent sign with more on its line", mend), column)
        if self.first_percent or not (first or pair):
            machine.change("end", "%", column)
            machine.ended = True
        elif first:
            self.first_percent = machine.line
        else:
            mend = "add one on the first line, or take this one out"
            machine.fault(BlockError("R602", "a percent sign without a first one", mend), column)

    def _judge_end(self, lines: list[str]) -> None:
        """NISTIR 6556 section 3.1: M2 or M30, or a percent sign at both ends."""
        machine = self.machine
        rest = lines[machine.line :]
        if self.first_percent and self.control.percent == "pair":
            closed = machine.changes[-1:] and machine.changes[-1].value == "%"
            if not closed and "%" not in (line.strip() for line in rest):
                machine.line = max(len(lines), 1)
                what = f"line {self.first_percent} is a percent sign, and no second one follows"
                machine.fault(BlockError("R603", what, "add a last line with a percent sign"), 1)
        elif not machine.ended:
            machine.line = max(len(lines), 1)
            mend = "add a last block with M2 or M30"
            machine.fault(BlockError("R601", "the program has no end", mend), 1)


_NUMBERED = re.compile(r"%[ \t]*[0-9]{1,8}")
"""A percent sign with the program's number, as DIN 66025 has it."""

_LEGIBLE = ("R104", "R107", "R301", "R302", "R304", "R305", "R605")
"""Faults of a block whose words can all be read nonetheless."""


def _column(error: BlockError, block: Block) -> int:
    return error.at if isinstance(error.at, int) else block.column(*error.at)
