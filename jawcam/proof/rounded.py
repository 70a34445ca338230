"""Cutters with rounded ends as flat ones, each as wide as the round is at a height over its tip.

What such a stack clears is right at each of these heights and a little too little in between, never
too much. The lowest heights are those at which floors are judged.
"""

from __future__ import annotations

import math
from dataclasses import replace

from jawcam.proof.form import rounding
from jawcam.proof.limits import Limits
from jawcam.proof.move import Move, raised

__all__ = ["as_flats"]

STEPS = 8
"""Into how many equal angles a round is divided."""

UNDER = 0.98
"""Of the height at which floors are judged: a little below it counts."""


def as_flats(move: Move, limits: Limits) -> list[Move]:
    """A move -> moves of flat cutters, one for each height, from the lowest up; their cutters keep
    their kind. A flat cutter's own move is itself."""
    round_ = rounding(move.cutter)
    if round_ == 0:
        return [move]
    heights = {round_ * (1 - math.cos(k * math.pi / 2 / STEPS)) for k in range(STEPS + 1)}
    heights |= {h * UNDER for h in (limits.level, limits.rough / 2, limits.rough) if h < round_}
    flat = move.radius - round_
    wide = {h: flat + math.sqrt(max(round_**2 - (round_ - h) ** 2, 0.0)) for h in heights}
    return [
        replace(raised(move, height), cutter=replace(move.cutter, dia=2 * wide[height]))
        for height in sorted(heights)
        if wide[height] > 0
    ]
