"""Blocks as lines: the order of their words, their sequence numbers, the marks that end them."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from jawcam.errors import Fault, InputError, Place
from jawcam.post.tables import Blocks, Dialect, Numbering

__all__ = ["finished", "in_order", "parted"]


def in_order(letters: Sequence[str]) -> Callable[[str], int]:
    """The key that sorts the words of a block by the dialect's order of letters."""
    places = {letter: place for place, letter in enumerate(letters)}
    return lambda word: places.get(word[0], len(places))


def parted(words: Sequence[str], blocks: Blocks, numbering: Numbering) -> list[list[str]]:
    """The words of a block as one block, or as several where it is too long and holds G words
    alone, each of which stays in force by itself; all other words belong together."""
    gap = " " if blocks.spaces else ""
    number = f"{numbering.letter}{numbering.largest:0{numbering.digits}d}{gap}"
    room = blocks.max_length - len(blocks.end) - (len(number) if numbering.step else 0)
    parts: list[list[str]] = [[]]
    for word in words:
        if parts[-1] and len(gap.join([*parts[-1], word])) > room:
            parts.append([])
        parts[-1].append(word)
    alone = all(word[0] == "G" for word in words)
    return parts if alone else [list(words)]


def finished(
    lines: Sequence[str], blocks: Sequence[int], changes: Sequence[int], dialect: Dialect
) -> list[str]:
    """The lines of a program, those at the places `blocks` with their numbers and end marks;
    changes: which of them load a tool.

    Raises InputError where the numbers that the dialect has don't suffice.
    """
    out = list(lines)
    gap = " " if dialect.blocks.spaces else ""
    for place, number in _numbers(blocks, changes, dialect).items():
        text = out[place]
        if text.startswith("/"):  # block delete stands before the number: NISTIR 6556 section 3.3
            out[place] = f"/{number}{gap}{text[1:].lstrip()}"
        else:
            out[place] = f"{number}{gap}{text}"
    for place in blocks:
        out[place] += dialect.blocks.end
    return out


def _numbers(blocks: Sequence[int], changes: Sequence[int], dialect: Dialect) -> dict[int, str]:
    """Places and their sequence numbers."""
    numbering = dialect.numbering
    if not numbering.step:
        return {}
    every = numbering.where == "every block"
    places = blocks if every else changes
    numbers = _fitting(len(places), numbering)
    if numbers is None and every and numbering.beyond == "tool changes":
        places, numbers = changes, _fitting(len(changes), numbering)
    if numbers is None:
        what = f"{len(places)} blocks need sequence numbers, and those end at {numbering.largest}"
        mend = "make a program of each setup, or let numbering in the post leave numbers out"
        raise InputError(Fault(what, Place(dialect.name), mend))
    letter, digits = numbering.letter, numbering.digits
    return {
        place: f"{letter}{number:0{digits}d}" for place, number in zip(places, numbers, strict=True)
    }


def _fitting(count: int, numbering: Numbering) -> range | None:
    """So many numbers in the widest steps that fit, which divide the step wanted; None if even
    steps of 1 are too wide."""
    start, most = numbering.start, numbering.step
    for step in (step for step in range(most, 0, -1) if most % step == 0):
        if start + (count - 1) * step <= numbering.largest:
            return range(start, start + count * step, step)
    return None
