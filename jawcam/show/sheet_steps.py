"""The order of work, told by the comments that a program carries before its passes."""

from __future__ import annotations

import bisect
import itertools
import math
import re
from collections.abc import Iterable, Mapping, Sequence
from typing import NamedTuple

from jawcam.hold.target import Target
from jawcam.hold.turn_target import TurnTarget
from jawcam.job.model import Job
from jawcam.proof.move import moves_of
from jawcam.proof.spent import spent
from jawcam.proof.times import drive_of
from jawcam.reader.cuts import Change, Cut, Program

__all__ = ["Step", "minutes_of", "steps"]

LEVEL = re.compile(r"(.*), level (\d+) of (\d+)", re.IGNORECASE)


class Step(NamedTuple):
    """A pass: the line that it begins on, its tool, what the program calls it, its minutes."""

    line: int
    tool: int
    what: str
    minutes: float


def minutes_of(program: Program, target: Target | TurnTarget, job: Job) -> dict[int, float]:
    """The number of each cut of the target's setup -> its minutes, speeding up and slowing down
    counted; as the proof counts them."""
    drive = drive_of(job.machine, job.units)
    if isinstance(target, TurnTarget):
        from jawcam.proof.turning.path import moves_of as turning_moves
        from jawcam.proof.turning.spent import spent as turning_spent

        turned = turning_moves(program, target)
        numbers, times = [move.number for move in turned], turning_spent(turned, program, drive)
    else:
        moves = moves_of(program, target)
        numbers, times = [move.index for move in moves], spent(moves, program, drive)
    rows = zip(numbers, times.steady, times.ramps, strict=True)
    return {number: steady + ramp for number, steady, ramp in rows}


def steps(program: Program, minutes: Mapping[int, float]) -> list[Step]:
    """The passes that the given cuts belong to, in their order; passes that go on level by level
    with one tool are one. minutes: number of the cut -> how long it takes.

    A cut belongs to the last comment before it with the same tool; one without has no words. One
    that a subprogram makes stands where that is called in the main program.
    """
    comments = _in_main(program)
    lines = [line for line, _ in comments]
    found: list[Step] = []
    for (tool, place), numbers in itertools.groupby(
        sorted(minutes), key=lambda k: (program.cuts[k].tool, _before(lines, _at(program.cuts[k])))
    ):
        own = list(numbers)
        if all(program.cuts[k].kind == "rapid" for k in own):
            continue
        first = program.cuts[own[0]]
        told = place is not None and place >= _loaded(program, lines, _at(first))
        what = comments[place][1].strip() if told and place is not None else ""
        line = lines[place] if told and place is not None else _at(first)
        found.append(Step(line, tool, what, sum(minutes[k] for k in own)))
    return _by_levels(found)


def _at(done: Cut | Change) -> int:
    """The line of the main program that does something."""
    return done.calls[0] if done.calls else done.line


def _before(lines: Sequence[int], line: int) -> int | None:
    """The number of the last comment at or before a line."""
    place = bisect.bisect_right(lines, line) - 1
    return place if place >= 0 else None


def _in_main(program: Program) -> list[tuple[int, str]]:
    """The comments of the main program, which ends before its subprograms stand: theirs come
    whenever they are called."""
    last = next((change.line for change in program.changes if change.kind == "end"), math.inf)
    return [(line, text) for line, text in program.comments if line <= last]


def _loaded(program: Program, lines: Sequence[int], line: int) -> int:
    """The number of the first comment after the tool was loaded that is in use at a line."""
    loads = [_at(c) for c in program.changes if c.kind == "tool" and _at(c) <= line]
    return bisect.bisect_left(lines, loads[-1]) if loads else 0


def _by_levels(found: Iterable[Step]) -> list[Step]:
    """Passes that only differ by their level are made one, a tool's at a time."""
    told: list[Step] = []
    for (_, of_levels), run in itertools.groupby(
        found, key=lambda step: (step.tool, LEVEL.fullmatch(step.what) is not None)
    ):
        some = list(run)
        if not of_levels or len(some) == 1:
            told += some
            continue
        matches = [match for step in some if (match := LEVEL.fullmatch(step.what))]
        names = ", ".join(dict.fromkeys(match[1] for match in matches))
        levels = len({match[2] for match in matches})
        what = f"{names}: {levels} level{'s' if levels > 1 else ''}"
        first = some[0]
        told.append(Step(first.line, first.tool, what, sum(step.minutes for step in some)))
    return told
