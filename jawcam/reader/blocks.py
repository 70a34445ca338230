"""The words of one line sorted: at most one of each letter and of each modal group."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from typing import NamedTuple

from jawcam.reader.controls import CONTROLS, Control
from jawcam.reader.faults import BlockError
from jawcam.reader.modal import AXIS_USERS, UNREAD, Code
from jawcam.reader.tokens import Word

__all__ = ["Block", "Placed", "sort"]

_WHOLE = 1e-4
_ALWAYS_USED = frozenset("FST")
_ROTARY = frozenset("ABC")


class Placed(NamedTuple):
    """A G or M word of a block, its meaning in its group and its column."""

    word: str
    meaning: str
    column: int


@dataclass(slots=True)
class Block:
    """codes: modal group -> its G or M word; words: letter -> word; bad: a fault is in the block,
    so that it must not move anything; torn: words of it couldn't be read, so that what seems to be
    missing may not be; used: letters that something in the block has taken."""

    codes: dict[str, Placed] = field(default_factory=dict)
    words: dict[str, Word] = field(default_factory=dict)
    bad: bool = False
    torn: bool = False
    used: set[str] = field(default_factory=set)

    def meaning(self, group: str) -> str | None:
        """What the block's word of a group means, None if it has none."""
        code = self.codes.get(group)
        return code.meaning if code else None

    def take(self, letter: str) -> float | None:
        """The number of a letter that is now used; None if the block hasn't got it, or it can't
        be read."""
        word = self.words.get(letter)
        if word is None:
            return None
        self.used.add(letter)
        return None if math.isnan(word.value) else word.value

    def whole(self, letter: str, least: int, most: int) -> int | None:
        """The same, a whole number from `least` to `most`; `BlockError` if it isn't."""
        number = self.take(letter)
        if number is None:
            return None
        if abs(number - round(number)) > _WHOLE:
            what = f"{letter}{number:g}, where a whole number must stand"
            raise BlockError("R307", what, "write a whole number", letter)
        if not least <= round(number) <= most:
            what = f"{letter}{number:g} is out of range"
            raise BlockError("R308", what, f"write {least} to {most}", letter)
        return round(number)

    def free_axes(self) -> str:
        """The axis words that nothing has used yet."""
        return "".join(axis for axis in "XYZ" if axis in self.words and axis not in self.used)

    def column(self, *at: str) -> int:
        """The first column, from 1, of the given letters and groups; 1 if there is none."""
        places = [self.words[one].column for one in at if one in self.words]
        places += [self.codes[one].column for one in at if one in self.codes]
        return min(places, default=1)


def sort(
    words: Sequence[Word], table: Mapping[tuple[str, float], Code], control: Control
) -> tuple[Block, list[BlockError]]:
    """Sort words into a block; with the faults found (NISTIR 6556 section 3.3.5)."""
    block, faults, m_words = Block(), list[BlockError](), 0
    for word in words:
        m_words += word.letter == "M"
        try:
            if word.letter in "GM":
                _add_code(block, word, table, control)
            else:
                _add_word(block, word)
        except BlockError as error:
            faults.append(error)
    if m_words > control.m_words:
        what = f"{m_words} M words in one block, more than {control.m_words}"
        at = max(word.column for word in words if word.letter == "M")
        faults.append(BlockError("R305", what, "spread them over several blocks", at))
    once, motion = block.codes.get("once"), block.codes.get("motion")
    if once and motion and once.meaning in AXIS_USERS and motion.meaning != "off":
        what = f"{once.word} and {motion.word} both use the axis words"
        faults.append(BlockError("R304", what, "give each its own block", "once"))
    block.bad = bool(faults)
    return block, faults


def _add_word(block: Block, word: Word) -> None:
    if word.letter in block.words:
        what = f"a second {word.letter} word in one block"
        raise BlockError("R301", what, "leave one, or give each its own block", word.column)
    if word.letter in _ROTARY:
        what = f"{word.letter} turns a rotary axis, and those aren't read"
        raise BlockError("R606", what, "prove the program without it", word.column)
    block.words[word.letter] = word
    if word.letter in _ALWAYS_USED:
        block.used.add(word.letter)


def _add_code(
    block: Block, word: Word, table: Mapping[tuple[str, float], Code], control: Control
) -> None:
    if math.isnan(word.value):
        return
    code = table.get((word.letter, word.value)) or table.get((word.letter, _rounded(word)))
    if code is None:
        raise _unknown(word, table, control)
    twin = block.codes.get(code.group)
    if twin and control.off_beside and _one_ends_a_cycle(twin, code):
        if code.meaning == "off":
            return  # the other word says how to go on
    elif twin:
        what = f"{twin.word} and {code.word} are of one modal group ({code.title})"
        raise BlockError("R302", what, "leave one, or give each its own block", word.column)
    block.codes[code.group] = Placed(code.word, code.meaning, word.column)


def _one_ends_a_cycle(twin: Placed, code: Code) -> bool:
    return code.group == "motion" and (twin.meaning == "off") != (code.meaning == "off")


def _rounded(word: Word) -> float:
    """The number of a G word to tenths and of an M word to ones, if it is near enough to them
    (NISTIR 6556 section 3.3.2.1)."""
    scale = 10 if word.letter == "G" else 1
    near = round(word.value * scale)
    return near / scale if abs(word.value * scale - near) <= _WHOLE else math.nan


def _unknown(word: Word, table: Mapping[tuple[str, float], Code], control: Control) -> BlockError:
    text = f"{word.letter}{word.value:g}"
    if text in UNREAD:
        what = f"{text} {UNREAD[text]}, and this kind of control reads none"
        mend = "write the blocks out in place of the call"
        if "subprogram" in UNREAD[text] and (names := _with_subprograms(control)):
            mend += f", or read the program as a kind that calls them: {', '.join(names)}"
        return BlockError("R604", what, mend, word.column)
    mend = "take it out, or read the program as another kind of control"
    if text in ("G20", "G21", "G70", "G71"):
        units = [code.word for code in table.values() if code.group == "units"]
        mend = f"this kind chooses inch and mm with {' and '.join(units)}"
    what = f"{text} is no word of this kind of control"
    return BlockError("R303", what, mend, word.column)


def _with_subprograms(control: Control) -> list[str]:
    """The kinds of the same machine that read calls of subprograms."""
    return [row.name for row in CONTROLS.values() if row.subprograms and row.axes == control.axes]
