"""One thing to do with one lathe tool: what the order of work is made of."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from jawcam.hold.turn_target import TurnLeft
from jawcam.motion.moves import Spindle, SurfaceSpeed
from jawcam.turn.trail import TurnTrail
from jawcam.turn.work import Driven

__all__ = ["TurnOperation"]


@dataclass(frozen=True)
class TurnOperation:
    """name: what the program calls it; speed: how the spindle turns for it; cut: adds its motions
    to a trail and gives what it has to leave; notes: what the person should know of it."""

    name: str
    driven: Driven
    speed: Spindle | SurfaceSpeed
    cut: Callable[[TurnTrail], tuple[TurnLeft, ...]]
    notes: tuple[str, ...] = ()
