"""Subprograms: where each stands in a text, and the way that a run takes through them.

They stand behind the main program's end, each headed by its number and ended by its return.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from typing import NamedTuple

from jawcam.reader.blocks import Block
from jawcam.reader.controls import Control
from jawcam.reader.faults import BlockError
from jawcam.reader.machine import Jump, Machine
from jawcam.reader.modal import Code
from jawcam.reader.tokens import read_line

__all__ = ["Part", "Way", "misplaced", "parts", "send", "stray"]

_NOTHING = range(0)


class Part(NamedTuple):
    """One program of a text: its number's text, "" if it has none, and the number; its first and
    last line, from 1; the column of its number."""

    name: str
    number: int
    first: int
    last: int
    column: int


def parts(lines: Sequence[str], control: Control) -> tuple[Part, ...]:
    """The main program and then all subprograms, in the order of the text. A kind of control
    without subprograms has the main program alone."""
    whole = Part("", 0, 1, len(lines), 1)
    if control.subprograms is None:
        return (whole,)
    found: list[Part] = []
    letters = re.escape(control.head)
    pattern = rf"[ \t/]*(?:N[ \t]*[0-9]+[ \t]*)?([{letters}][ \t]*([0-9]{{1,8}})(?![0-9.]))"
    head = re.compile(pattern, re.IGNORECASE)
    percent, last = False, len(lines)
    for line, text in enumerate(lines, 1):
        bare = _bare(text, control)
        if bare.lstrip().startswith("%"):
            if found or percent:
                last = line - 1
                break
            percent = True
            continue
        number = head.match(bare)
        if number:
            name = "".join(number[1].split()).upper()
            found.append(Part(name, int(number[2]), line, 0, number.start(1) + 1))
        elif not found and bare.strip():
            found.append(Part("", 0, line, 0, 1))
    if len(found) < 2:
        return (found[0]._replace(first=1, last=len(lines)) if found else whole,)
    ends = [*(part.first - 1 for part in found[1:]), last]
    found[0] = found[0]._replace(first=1)
    return tuple(part._replace(last=end) for part, end in zip(found, ends, strict=True))


def misplaced(
    found: Sequence[Part],
    lines: Sequence[str],
    control: Control,
    table: Mapping[tuple[str, float], Code],
) -> Iterator[tuple[int, int, BlockError]]:
    """What is wrong with the subprograms whether they are called or not: line, column, fault."""
    known = {part.number: part for part in found[:1] if part.name}
    for part in found[1:]:
        if part.number in known:
            what = f"a second {part.name}: the first begins in line {known[part.number].first}"
            mend = "give it another number, and its calls too"
            yield part.first, part.column, BlockError("R612", what, mend)
        known.setdefault(part.number, part)
        back = _return(part, lines, control, table)
        if back:
            yield from stray(lines, back, part.last, control, f"the return of {part.name}")
        else:
            mend = "end it with the word for the return, or write its blocks where they are called"
            what = f"the subprogram {part.name} has no return"
            yield part.first, part.column, BlockError("R611", what, mend)


def stray(
    lines: Sequence[str], after: int, last: int, control: Control, name: str
) -> Iterator[tuple[int, int, BlockError]]:
    """The first line with words after line `after`, up to `last` or a percent sign, where nothing
    runs it. name: what it comes after."""
    for line in range(after + 1, last + 1):
        bare = _bare(lines[line - 1], control)
        text = bare.strip()
        if text.startswith("%"):
            return
        if text:
            what = f"a block after {name} that belongs to no subprogram"
            mend = "take it out, or head it with the number of a subprogram"
            yield line, bare.index(text) + 1, BlockError("R613", what, mend)
            return


def _bare(text: str, control: Control) -> str:
    """A line with its comments blanked."""
    begin, end = (re.escape(mark) for mark in control.comment)
    return re.sub(rf"{begin}[^{begin}{end}]*{end}", lambda found: " " * len(found[0]), text)


def _return(
    part: Part,
    lines: Sequence[str],
    control: Control,
    table: Mapping[tuple[str, float], Code],
) -> int:
    """The line of a subprogram's return, 0 if it has none."""
    for line in range(part.first, part.last + 1):
        words = read_line(lines[line - 1], control, {}).words
        codes = (table.get((word.letter, word.value)) for word in words if word.letter in "GM")
        if any(code is not None and code.meaning == "return" for code in codes):
            return line
    return 0


def send(machine: Machine, block: Block) -> None:
    """Note where a call or a return sends the run; `BlockError` for a call without its number.
    Where a call can't be followed, nobody knows where the tip is after it."""
    code, rule = block.codes["stop"], machine.control.subprograms
    if code.meaning == "return" or rule is None:
        machine.jump = Jump(None, code.word, code.column)
        return
    at, bad = machine.at, block.bad
    machine.forget("XYZ")
    number = block.whole(rule.letter, 1, rule.largest)
    if bad:
        return
    if number is None:
        what = f"{code.word} without the number of its subprogram"
        raise BlockError("R309", what, f"add {rule.letter} and the number", "stop")
    machine.at = at
    machine.jump = Jump(number, code.word, block.column(rule.letter))


class Way:
    """The way through the parts of a text, call by call."""

    def __init__(self, machine: Machine, found: Sequence[Part]) -> None:
        rule = machine.control.subprograms
        self._machine, self._left = machine, rule.most if rule else 0
        self._deepest = rule.deepest if rule else 0
        self._parts = {part.number: part for part in reversed(found) if part.name}
        self._here = found[0]
        self._open: list[tuple[Part, int]] = []  # those that have called, and where to go on there

    def onward(self) -> range:
        """The lines to run next, after those up to a jump or to the end of a part; none after the
        last."""
        machine = self._machine
        jump, machine.jump = machine.jump, None
        if jump is None:
            lines = _NOTHING
        elif jump.number is None:
            lines = self._back(jump)
        else:
            lines = self._called(jump, jump.number)
        while not lines and self._open:
            self._here, begin = self._open.pop()
            machine.calls = machine.calls[:-1]
            lines = range(begin, self._here.last + 1)
        return lines

    def _rest(self) -> range:
        return range(self._machine.line + 1, self._here.last + 1)

    def _back(self, jump: Jump) -> range:
        if self._open:
            return _NOTHING
        what = f"{jump.word} in the main program, where there is nothing to return to"
        mend = "end the program with M30, or take it out"
        self._machine.fault(BlockError("R610", what, mend), jump.column)
        return self._rest()

    def _called(self, jump: Jump, number: int) -> range:
        machine = self._machine
        try:
            part = self._allowed(jump, number)
        except BlockError as error:
            machine.fault(error, jump.column)
            machine.forget("XYZ")
            return self._rest()
        self._open.append((self._here, machine.line + 1))
        machine.calls = (*machine.calls, machine.line)
        machine.head = True
        self._here = part
        return range(part.first, part.last + 1)

    def _allowed(self, jump: Jump, number: int) -> Part:
        part = self._parts.get(number)
        if part is None:
            what = f"{jump.word} calls subprogram {number}, which isn't there"
            mend = "add its blocks behind the program's end, or mend the number"
            raise BlockError("R608", what, mend)
        if part is self._here or any(part is caller for caller, _ in self._open):
            what = f"{jump.word} calls {part.name} from within itself"
            raise BlockError("R609", what, "write the blocks out in place of the call")
        if len(self._open) >= self._deepest:
            what = f"{jump.word} calls {part.name} {len(self._open) + 1} deep, and {self._deepest}"
            raise BlockError("R614", f"{what} is the most", "write the blocks out in its place")
        self._left -= part.last - part.first + 1
        if self._left < 0:
            what = "more lines of subprograms are to be run than are ever read"
            raise BlockError("R615", what, "prove the program in parts")
        return part
