"""One thing to do with one cutter: what the order of work is made of."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from jawcam.mill.driven import Chosen
from jawcam.mill.trail import Trail

__all__ = ["Operation"]


@dataclass(frozen=True)
class Operation:
    """name: what the program calls it; cut: adds its motions to a trail, in jaw coordinates."""

    name: str
    chosen: Chosen
    cut: Callable[[Trail], None]
