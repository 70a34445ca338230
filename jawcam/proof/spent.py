"""The time that a setup's part of a program takes, move by move and between them."""

from __future__ import annotations

import math
from bisect import bisect_right
from collections.abc import Callable, Sequence
from typing import NamedTuple

from jawcam.proof.move import Move
from jawcam.proof.times import Drive, Leg, seconds
from jawcam.reader.cuts import Change, Cut, Program

__all__ = ["Spent", "between", "halts", "spent"]


class Spent(NamedTuple):
    """Minutes of each move: at the speed that is asked for, and what speeding up and slowing down
    adds; 0 for a feed move without a feed."""

    steady: tuple[float, ...]
    ramps: tuple[float, ...]


def spent(moves: Sequence[Move], program: Program, drive: Drive) -> Spent:
    """The moves of one setup, in order -> how long each takes."""
    steady, ramps = [0.0] * len(moves), [0.0] * len(moves)
    stops, cuts = halts(program), program.cuts
    legs, whose = [], []
    last: Move | None = None
    for number, move in enumerate(moves):
        speed = drive.rapid if move.kind == "rapid" else cuts[move.index].feed
        if speed <= 0 or move.length <= 0:
            continue
        rest = last is None or last.end != move.start or stops(cuts[last.index], cuts[move.index])
        legs.append(_leg(move, speed / 60, rest=rest))
        whose.append(number)
        steady[number] = move.length / speed
        last = move
    for number, taken in zip(whose, seconds(legs, drive), strict=True):
        ramps[number] = max(taken / 60 - steady[number], 0.0)
    return Spent(tuple(steady), tuple(ramps))


def halts(program: Program) -> Callable[[Cut, Cut], bool]:
    """What tells whether the program does something between two of its cuts for which the machine
    stands still."""
    times = sorted(change.when for change in program.changes if change.kind != "clamp")

    def between_them(a: Cut, b: Cut) -> bool:
        return bisect_right(times, a.when) < bisect_right(times, b.when)

    return between_them


def _leg(move: Move, speed: float, *, rest: bool) -> Leg:
    flat = move.flat_length / move.length
    rise = (move.end[2] - move.start[2]) / move.length
    if move.kind != "arc" or move.upright:
        (x0, y0, _), (x1, y1, _) = move.start, move.end
        way = ((x1 - x0) / move.length, (y1 - y0) / move.length, rise)
        return Leg(move.length, speed, way, way, rest=rest)
    begin, end = (
        (-math.sin(a) * flat, math.cos(a) * flat, rise)
        if move.turn > 0
        else (math.sin(a) * flat, -math.cos(a) * flat, rise)
        for a in (move.start_angle, move.start_angle + move.turn)
    )
    bend = sum(move.radii) / 2 / flat**2  # of a helix: r / cos2 of its angle
    return Leg(move.length, speed, begin, end, bend, rest)


def between(program: Program, offset: int, drive: Drive) -> tuple[float, float]:
    """The minutes of the tool changes and of the dwells that belong to a work offset: a change to
    what is cut next, a dwell to what was cut last."""
    cuts = program.cuts
    times = [cut.when for cut in cuts]
    changes, dwells = 0, 0.0
    for change in program.changes:
        after = bisect_right(times, change.when)
        if change.kind == "tool":
            after = bisect_right(times, change.when - 1)  # in one block the change comes first
            changes += after < len(cuts) and cuts[after].work_offset == offset
        elif change.kind == "dwell" and cuts:
            dwells += _dwell(change) * (cuts[max(after - 1, 0)].work_offset == offset)
    return changes * drive.tool_change / 60, dwells / 60


def _dwell(change: Change) -> float:
    """In seconds."""
    return float(change.value.split()[0])
