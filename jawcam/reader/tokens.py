"""The characters of one line -> words with columns, comment, line number, settings and faults."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass, field
from string import ascii_lowercase, ascii_uppercase
from typing import NamedTuple

from jawcam.reader.controls import Control
from jawcam.reader.expressions import Scan, parameter_number, value
from jawcam.reader.faults import BlockError

__all__ = ["Line", "Word", "plain_pattern", "read_line"]

_UPPER = str.maketrans(ascii_lowercase, ascii_uppercase)
_NEXT_WORD = re.compile(r"[A-Z](?=[-+.0-9])")
_DIGITS = re.compile(r"[0-9]*")
_LENGTHS = "XYZIJKQR"
_STATEMENT = re.compile(
    r"WHILE|IF(?=[\[#])|GOTO|DO(?=[0-9])|END(?=[0-9])"
    r"|O(?:[0-9]+|<[^>]*>|#[0-9]+)"
    r"(SUB|ENDSUB|CALL|RETURN|DO|WHILE|ENDWHILE|REPEAT|ENDREPEAT|IF|ELSEIF|ELSE|ENDIF)"
)
"""Loops, jumps, conditions and named subprograms as controls with a macro language write them:
common practice, no source. None is read, so that none may pass for a letter in the wrong place."""


class Word(NamedTuple):
    """A letter and its number; nan where the number can't be read. column: from 1; text: of the
    number."""

    letter: str
    value: float
    column: int
    text: str = ""


@dataclass(slots=True)
class Line:
    """What a line says. settings: parameters that it sets, once it is read (NISTIR 6556 section
    3.3.3); comment: the last one."""

    words: list[Word] = field(default_factory=list)
    settings: list[tuple[int, float]] = field(default_factory=list)
    comment: str | None = None
    faults: list[BlockError] = field(default_factory=list)


def read_line(text: str, control: Control, parameters: Mapping[int, float]) -> Line:
    """Read a line as `control` does, with the values that the parameters have before it.

    A faulty word is kept with nan for its value, and reading goes on at the next word.
    """
    line = Line()
    if len(text) > control.longest_line:
        what = f"a line of {len(text)} characters, more than {control.longest_line}"
        line.faults.append(BlockError("R107", what, "break it up", control.longest_line + 1))
    text = _without_comments(_known(text, control, line), control, line)
    text = _without_end(text, control, line)
    scan = _scan(text, control, parameters)
    numbered = _line_number(scan, control, line)
    while scan.at < len(scan.text):
        begin = scan.at
        try:
            _item(scan, control, line)
        except BlockError as error:
            line.faults.append(error)
            further = _NEXT_WORD.search(scan.text, max(scan.at, begin + 1))
            scan.at = further.start() if further else len(scan.text)
            scan.depth = 0
    if line.words and control.numbered and not numbered:
        mend = "begin it with N and its number"
        line.faults.append(BlockError("R114", "a block without its line number", mend, 1))
    return line


def plain_pattern(control: Control) -> re.Pattern[str]:
    """The pattern of a plain block, a move in the order G X Y Z I J F and no more, that matches
    nothing which `read_line` would fault. Groups: empty, then one for each of these letters. A
    control that reads what isn't plain, a point that isn't there or a mark at the end, has none."""
    if control.point == "implied" or control.numbered or control.block_end or control.characters:
        return re.compile(r"(?!)")
    # What is matched is never given back ("?+"): each letter stands for one thing only.
    whole = r"[0-9]{1,8}+\.[0-9]*+" if control.point == "needed" else r"[0-9]{1,8}+(?:\.[0-9]*+)?+"
    number = rf"([+-]?+(?:{whole}|\.[0-9]++))"
    words = "".join(rf"(?:{letter}{number}[ \t]*+)?+" for letter in "XYZIJ")
    first = rf"[ \t]*+(?:N[0-9]{{1,{control.number_digits}}}+[ \t]*+)?+()"
    motion = r"(?:G0?([0-3])[ \t]*+)?+"
    return re.compile(rf"{first}{motion}{words}(?:F([0-9]{{1,6}}+(?:\.[0-9]*+)?+)[ \t]*+)?+")


def _without_comments(text: str, control: Control, line: Line) -> str:
    """`text` with each comment blanked but for the mark that opens it, which ends any number."""
    begin, end = control.comment
    if begin not in text and (not end or end not in text):
        return text
    if not end:
        rest, _, line.comment = text.partition(begin)
        return rest + begin
    marks = re.escape(begin + end)
    pattern = re.compile(rf"{re.escape(begin)}([^{marks}]*){re.escape(end)}")
    comments = pattern.findall(text)
    if comments:
        line.comment = comments[-1]
    rest = pattern.sub(lambda found: " " * len(found[0]), text)
    odd = [place for mark in (begin, end) if (place := rest.find(mark)) >= 0]
    if odd:
        what = f"{rest[min(odd)]!r} has no partner on this line, or stands inside a comment"
        mend = "close each comment on its line and put none inside another"
        line.faults.append(BlockError("R102", what, mend, min(odd) + 1))
        text, line.comment = text[: min(odd)], None
    return pattern.sub(lambda found: begin + " " * (len(found[0]) - 1), text)


def _known(text: str, control: Control, line: Line) -> str:
    """`text` with a blank for each character that a program can't hold, comments or not."""
    odd = [mark for mark in text if mark not in control.characters] if control.characters else []
    if not odd:
        return text
    what = f"{odd[0]!r}, for which this kind of control has no sign"
    mend = "write capital letters, digits and the signs that it knows"
    line.faults.append(BlockError("R101", what, mend, text.index(odd[0]) + 1))
    return "".join(mark if mark in control.characters else " " for mark in text)


def _without_end(text: str, control: Control, line: Line) -> str:
    """`text` without the mark that must end each block."""
    mark, rest = control.block_end, text.rstrip()
    if rest and mark and not rest.endswith(mark):
        what, mend = f"a block without {mark!r} at its end", f"end it with {mark!r}"
        line.faults.append(BlockError("R115", what, mend, len(rest) + 1))
    return rest.removesuffix(mark) if mark else text


def _scan(text: str, control: Control, parameters: Mapping[int, float]) -> Scan:
    columns = [at for at, mark in enumerate(text) if mark not in " \t"]
    bare = "".join([text[at] for at in columns]).translate(_UPPER)
    return Scan(bare, columns, parameters, control.parameters if control.expressions else 0)


def _line_number(scan: Scan, control: Control, line: Line) -> bool:
    """Step over a block delete mark, whose switch is taken to be off, and a line number; whether
    there is one."""
    if scan.peek() == "/":
        scan.at += 1
    if scan.peek() != "N":
        return False
    begin = scan.at
    found = _DIGITS.match(scan.text, begin + 1)
    digits = found[0] if found else ""
    scan.at += 1 + len(digits)
    if 1 <= len(digits) <= control.number_digits and scan.peek() != ".":
        return True
    what = "a line number that isn't one whole number"
    if len(digits) > control.number_digits:
        what = f"a line number of {len(digits)} digits"
    mend = f"write N and 1 to {control.number_digits} digits, or leave it out"
    line.faults.append(scan.error("R104", what, mend, begin))
    further = _NEXT_WORD.search(scan.text, scan.at)
    scan.at = further.start() if further else len(scan.text)
    return True


def _item(scan: Scan, control: Control, line: Line) -> None:
    """One comment's mark, parameter setting or word."""
    mark, begin = scan.peek(), scan.at
    if mark == control.comment[0]:
        scan.at += 1
    elif statement := _STATEMENT.match(scan.text, begin):
        scan.at = len(scan.text)
        what = f"{statement[0]}, a loop, a jump, a condition or a subprogram: no kind reads these"
        mend = "write out the blocks that the control would run"
        raise scan.error("R604", what, mend, begin)
    elif mark == "#" and control.expressions:
        parameter = parameter_number(scan)
        scan.expect("=", "set a parameter with #1=...")
        line.settings.append((parameter, value(scan)))
    elif mark and mark in control.letters + control.head:
        scan.at += 1
        try:
            number, column = _number(scan, control, mark), scan.column(begin)
            line.words.append(Word(mark, number, column, scan.text[begin + 1 : scan.at]))
        except BlockError:
            line.words.append(Word(mark, float("nan"), scan.column(begin)))
            raise
    else:
        raise _stray(scan, control)


def _number(scan: Scan, control: Control, letter: str) -> float:
    begin = scan.at
    number = value(scan)
    text = scan.text[begin : scan.at]
    if control.blanks == "not in numbers":
        span = scan.columns[scan.at - 1] - scan.columns[begin] + 1
        if span != scan.at - begin:
            raise scan.error("R112", f"a blank inside {letter}{text}", "take it out", begin)
    if control.point == "needed" and letter in _LENGTHS and "." not in text and number != 0:
        what = f"{letter}{text} without a decimal point, which may be read as so many least steps"
        raise scan.error("R105", what, f"write {letter}{text}.", begin - 1)
    return number


def _stray(scan: Scan, control: Control) -> BlockError:
    mark = scan.peek()
    if mark == "N":
        mend = "put the line number first, after a '/' if there is one"
        return scan.error("R104", "a line number in the middle of a line", mend)
    if mark == "/":
        return scan.error("R101", "'/' in the middle of a line", "put the block delete mark first")
    if mark == "#":
        what = "parameters, which this kind of control doesn't have"
        return scan.error("R111", what, "write the numbers themselves")
    if mark == "O":
        what = "the letter O, which begins no word of this kind of control"
        return scan.error("R101", what, "write a 0 if a zero was meant; put a title in ( )")
    if "A" <= mark <= "Z":
        what = f"the letter {mark}, which begins no word of this kind of control"
        return scan.error("R101", what, f"the letters are {' '.join(control.letters)} and N")
    begin, end = control.comment
    what = f"{mark!r}, which can't stand here"
    return scan.error("R101", what, f"take it out, or put words for people in {begin} {end}")
