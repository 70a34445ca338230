"""The time that each move of a lathe program takes, speeding up and slowing down included."""

from __future__ import annotations

import math
from collections.abc import Sequence

from jawcam.proof.spent import Spent, halts
from jawcam.proof.times import Drive, Leg, seconds
from jawcam.proof.turning.path import Move
from jawcam.proof.turning.times import minutes
from jawcam.reader.cuts import Program

__all__ = ["spent"]


def spent(moves: Sequence[Move], program: Program, drive: Drive) -> Spent:
    """The moves of one setup, in order -> the minutes of each. A pass of a thread begins at rest:
    it waits for the spindle."""
    steady = [minutes(move, drive.rapid) for move in moves]
    ramps = [0.0] * len(moves)
    stops = halts(program)
    legs, whose = [], []
    last: Move | None = None
    for number, move in enumerate(moves):
        if steady[number] <= 0 or move.length <= 0:
            continue
        rest = last is None or last.end != move.start or move.threads or stops(last.cut, move.cut)
        legs.append(_leg(move, move.length / steady[number] / 60, rest=rest))
        whose.append(number)
        last = move
    for number, taken in zip(whose, seconds(legs, drive), strict=True):
        ramps[number] = max(taken / 60 - steady[number], 0.0)
    return Spent(tuple(steady), tuple(ramps))


def _leg(move: Move, speed: float, *, rest: bool) -> Leg:
    """At its mean speed."""
    (z0, x0), (z1, x1) = move.start, move.end
    if move.kind != "arc":
        way = ((z1 - z0) / move.length, (x1 - x0) / move.length)
        return Leg(move.length, speed, way, way, rest=rest)
    sense = math.copysign(1.0, move.turn)
    cz, cx = move.centre
    begin, end = (
        math.atan2(x - cx, z - cz) + sense * math.pi / 2 for z, x in (move.start, move.end)
    )
    ways = [(math.cos(angle), math.sin(angle)) for angle in (begin, end)]
    return Leg(move.length, speed, ways[0], ways[1], move.radius, rest)
