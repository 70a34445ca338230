"""A stretch of a program: the moves of some of its lines."""

from __future__ import annotations

from dataclasses import replace
from typing import NamedTuple

from jawcam.errors import Fault, InputError, Place
from jawcam.reader.cuts import Cut, Program

__all__ = ["WHOLE", "Stretch", "stretch_of"]


class Stretch(NamedTuple):
    """From one line to another, both counted in; None: from the first, or to the last."""

    first: int | None = None
    last: int | None = None

    def words(self, count: int) -> str:
        """The same in words, of a text of `count` lines."""
        first, last = self.first or 1, min(self.last or count, count)
        return f"line {first} alone" if first == last else f"lines {first} to {last} alone"


WHOLE = Stretch()


def stretch_of(program: Program, stretch: Stretch) -> Program:
    """The program with the moves of those lines alone; the moves of a subprogram count for the
    lines that call it, too. Raises InputError if that is none."""
    if stretch == WHOLE:
        return program
    first, last = stretch.first or 1, stretch.last or len(program.lines)
    place = Place(file=program.name)
    if first > last:
        what = f"the stretch to draw would begin with line {first} and end with line {last}"
        raise InputError(Fault(what, place, "name the earlier line first"))
    cuts = tuple(cut for cut in program.cuts if _within(cut, first, last))
    if not cuts:
        moving = sorted({cut.line for cut in program.cuts})
        what = f"no move lies in lines {first} to {last}"
        mend = f"the moves lie in lines {moving[0]} to {moving[-1]}"
        raise InputError(Fault(what, place, mend))
    return replace(program, cuts=cuts)


def _within(cut: Cut, first: int, last: int) -> bool:
    return first <= cut.line <= last or any(first <= line <= last for line in cut.calls)
