"""Read a program as a kind of control would, and say what moves come of it and what is wrong."""

from __future__ import annotations

import re
from collections.abc import Mapping

from jawcam.progress import Told, silent
from jawcam.reader import modal
from jawcam.reader.blocks import Block, sort
from jawcam.reader.controls import Control, find
from jawcam.reader.cuts import Point3, Program, ReadFault
from jawcam.reader.faults import BlockError
from jawcam.reader.implied import pointed
from jawcam.reader.machine import Machine
from jawcam.reader.moves import move_plain
from jawcam.reader.steps import do
from jawcam.reader.subprograms import Part, Way, misplaced, parts, stray
from jawcam.reader.tokens import Word, plain_pattern, read_line

__all__ = ["read", "read_as"]


def read(
    text: str,
    control: str,
    name: str = "",
    start: Point3 | None = None,
    *,
    lengths: Mapping[int, float] | None = None,
    told: Told = silent,
) -> Program:
    """Read a program as the kind of control called `control` does.

    name: of the file, for the person; start: where the tip is before the first move, in mm and in
    the program's own axes (unknown, nan, if None); lengths: tool length offsets in mm by register,
    to shift Z by when G43 puts one in force (none: Z is taken to be the tip's throughout); told:
    hears how far the reading is.

    Whatever is wrong with the text is in the program's faults. Raises `InputError` if there is no
    such kind of control.
    """
    return read_as(text, find(control), name, start, lengths=lengths, told=told)


def read_as(
    text: str,
    control: Control,
    name: str = "",
    start: Point3 | None = None,
    *,
    lengths: Mapping[int, float] | None = None,
    told: Told = silent,
) -> Program:
    """The same, as the control of a row of the table."""
    lines = text.replace("\r\n", "\n").replace("\r", "\n").split("\n")
    if not lines[-1]:
        del lines[-1]
    reading = _Reading(control, Machine(control, start, lengths), told)
    reading.run(lines)
    machine, faults = reading.machine, dict[tuple[object, ...], ReadFault]()
    for fault in machine.faults:  # once, though a subprogram is run again
        faults.setdefault(fault[:5], fault)
    return Program(
        name,
        tuple(lines),
        tuple(machine.cuts),
        tuple(machine.changes),
        tuple(sorted(faults.values(), key=lambda fault: (fault.line, fault.column))),
        tuple(dict.fromkeys(reading.comments)),
        machine.modes.units,
        machine.ended,
        control.rapids,
        control.x,
    )


class _Reading:
    """One run through the lines. first_percent: the line of the first percent sign, 0 if none."""

    def __init__(self, control: Control, machine: Machine, told: Told) -> None:
        self.control = control
        self.machine = machine
        self.told = told
        self.table = modal.index(control.groups)
        self.plain = plain_pattern(control).fullmatch
        self.comments: list[tuple[int, str]] = []
        self.first_percent = 0
        self.blank_so_far = True

    def run(self, lines: list[str]) -> None:
        """Read all lines up to the program's end, and judge that."""
        machine = self.machine
        found = parts(lines, self.control)
        last, way = found[0].last, Way(machine, found)
        numbers = range(1, last + 1)
        while numbers and not machine.ended:
            self._stretch(lines, numbers)
            numbers = numbers if machine.ended else way.onward()
        if self.control.subprograms:
            self._judge_subprograms(lines, found)
        machine.calls = ()
        self._judge_end(lines, last)

    def _judge_subprograms(self, lines: list[str], found: tuple[Part, ...]) -> None:
        """What is wrong with them whether they are called or not, and with what follows the end of
        the main program, unless a percent sign is that."""
        machine, main = self.machine, found[0]
        wrong = list(misplaced(found, lines, self.control, self.table))
        if machine.ended and not machine.calls and machine.changes[-1].value != "%":
            wrong += stray(lines, machine.line, main.last, self.control, "the program's end")
        machine.calls, ended_at = (), machine.line
        for machine.line, column, error in wrong:
            machine.fault(error, column)
        machine.line = ended_at

    def _stretch(self, lines: list[str], numbers: range) -> None:
        """Read lines as far as one of them ends the program or sends the run elsewhere."""
        for begin in range(0, len(numbers), _PORTION):
            if not self._portion(lines, numbers[begin : begin + _PORTION]):
                return
            self.told("blocks read", self.machine.line, len(lines))

    def _portion(self, lines: list[str], numbers: range) -> bool:
        """The same with some of the lines; whether it goes on after them."""
        machine, plain, longest = self.machine, self.plain, self.control.longest_line
        step = 1 if self.control.subprograms else 0
        for machine.line in numbers:
            machine.step += step
            line = lines[machine.line - 1]
            found = plain(line)
            if found is not None and len(line) <= longest and move_plain(machine, found):
                continue
            self._line(line)
            if machine.ended or machine.jump is not None:
                return False
        return True

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
                if self.control.subprograms:
                    mend = "leave it out, or begin a line with it if a subprogram begins here"
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

    def _judge_end(self, lines: list[str], last: int) -> None:
        """NISTIR 6556 section 3.1: M2 or M30, or a percent sign at both ends. last: the main
        program's last line."""
        machine = self.machine
        rest = lines[machine.line :]
        if self.first_percent and self.control.percent == "pair":
            closed = machine.changes[-1:] and machine.changes[-1].value == "%"
            if not closed and "%" not in (line.strip() for line in rest):
                machine.line = max(len(lines), 1)
                what = f"line {self.first_percent} is a percent sign, and no second one follows"
                machine.fault(BlockError("R603", what, "add a last line with a percent sign"), 1)
        elif not machine.ended:
            machine.line = max(last, 1)
            mend = "add a last block with M2 or M30"
            machine.fault(BlockError("R601", "the program has no end", mend), 1)


_PORTION = 10_000
"""So many lines are read before it is told how far the reading is."""

_NUMBERED = re.compile(r"%[ \t]*[0-9]{1,8}")
"""A percent sign with the program's number, as DIN 66025 has it."""

_LEGIBLE = ("R104", "R107", "R301", "R302", "R304", "R305", "R605")
"""Faults of a block whose words can all be read nonetheless."""


def _column(error: BlockError, block: Block) -> int:
    return error.at if isinstance(error.at, int) else block.column(*error.at)
