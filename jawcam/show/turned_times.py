"""How long the moves of a lathe program take, when no proof has told it."""

from __future__ import annotations

import math
from typing import NamedTuple

import numpy as np

from jawcam.proof.turning.times import minutes_across
from jawcam.show.trace import RAPID
from jawcam.show.turned_picture import TurnPicture

__all__ = ["TurnTimes", "turn_times"]


class TurnTimes(NamedTuple):
    """Path lengths in mm, minutes, and how many feed moves tell too little for their time."""

    cutting: float
    rapid: float
    minutes: float
    rapid_minutes: float
    untold: int


def turn_times(picture: TurnPicture, rapid_rate: float) -> TurnTimes:
    """Work them out from the moves; `rapid_rate` in mm/min, above 0."""
    trace, cuts, scale = picture.trace, picture.program.cuts, picture.units.in_mm
    length = np.linalg.norm(trace.end - trace.start, axis=1) * scale
    fast = trace.look == RAPID
    spent, untold = 0.0, set()
    for k in np.flatnonzero(~fast).tolist():
        number = int(trace.move[k])
        cut = cuts[number]
        if cut.lead > 0:
            along = abs(float(trace.end[k, 0] - trace.start[k, 0])) * scale
            minutes = along / (cut.lead * cut.rpm) if cut.rpm > 0 else math.nan
        elif cut.feed <= 0 or (cut.per_turn and cut.rpm <= 0 and cut.surface <= 0):
            minutes = math.nan
        elif cut.per_turn and cut.surface > 0:
            radii = abs(float(trace.start[k, 1])) * scale, abs(float(trace.end[k, 1])) * scale
            speed = (cut.surface, cut.clamp)
            minutes = minutes_across(float(length[k]), radii, speed, cut.feed)
        else:
            minutes = float(length[k]) / (cut.feed * (cut.rpm if cut.per_turn else 1.0))
        if math.isnan(minutes):
            untold.add(number)
        else:
            spent += minutes
    rapid = float(length[fast].sum())
    return TurnTimes(float(length[~fast].sum()), rapid, spent, rapid / rapid_rate, len(untold))
