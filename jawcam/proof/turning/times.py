"""How long moves take on a lathe."""

from __future__ import annotations

import math

from jawcam.proof.turning.path import Move, track
from jawcam.proof.turning.sweep import BODY_CHORD

__all__ = ["minutes", "minutes_across"]


def minutes(move: Move, rapid: float) -> float:
    """The time of a move, 0 if it can't be told. rapid: the machine's rapid rate, mm/min."""
    cut = move.cut
    if move.kind == "rapid":
        return move.length / rapid if rapid > 0 else 0.0
    if cut.lead > 0:
        turns = abs(move.end[0] - move.start[0]) / cut.lead
        return turns / cut.rpm if cut.rpm > 0 else 0.0
    if cut.feed <= 0:
        return 0.0
    if not cut.per_turn:
        return move.length / cut.feed
    if cut.surface <= 0:
        return move.length / (cut.feed * cut.rpm) if cut.rpm > 0 else 0.0
    points = track(move, BODY_CHORD)
    return math.fsum(
        minutes_across(math.dist(a, b), (abs(a[1]), abs(b[1])), (cut.surface, cut.clamp), cut.feed)
        for a, b in zip(points[:-1].tolist(), points[1:].tolist(), strict=True)
    )


def minutes_across(
    length: float, radii: tuple[float, float], speed: tuple[float, float], feed: float
) -> float:
    """The time of a straight cut between two radii at constant surface speed.

    speed: m/min, and the rpm that it is clamped at, 0 = none; feed: mm per turn. With the radius r
    the spindle turns 1000 v / (2 pi r) times a minute, at most n: over the stretch where r is
    larger than 1000 v / (2 pi n), the time is 2 pi / (1000 v f) times the integral of r along the
    path, else the path over f n.
    """
    surface, clamp = speed
    low, high = sorted(radii)
    clamped = 1000 * surface / (math.tau * clamp) if clamp > 0 else 0.0
    if high - low < 1e-12:
        portion = 1.0 if high > clamped else 0.0
    else:
        portion = min(max((high - max(low, clamped)) / (high - low), 0.0), 1.0)
    middle = (high + max(low, min(clamped, high))) / 2
    free = math.tau * middle * length * portion / (1000 * surface * feed)
    return free + (length * (1 - portion) / (feed * clamp) if portion < 1 else 0.0)
