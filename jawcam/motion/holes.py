"""What a `Drill` means, and how to write one out as moves: the motion of the canned cycles G81,
G82 and G83 (NISTIR 6556 sections 3.5.16.1 to 3.5.16.3)."""

from __future__ import annotations

import math
from collections.abc import Iterator

from jawcam.errors import InternalError
from jawcam.motion.moves import Drill, Dwell, LineFeed, Motion, Point3, Rapid

__all__ = ["BACK_OFF", "checked", "moves_of", "pecks", "top"]

BACK_OFF = 0.5
"""How far above the last depth a peck's rapid down stops, mm: "a bit" in the report; common
practice, no source."""

_SAME = 1e-9  # mm, or pecks: no difference


def top(hole: Drill) -> Point3:
    """Where the tool stands before the hole is drilled, and after."""
    return (*hole.at, hole.clear)


def checked(hole: Drill, here: Point3 | None) -> None:
    """Raise InternalError for a hole upside down, or one that is drilled from another height than
    its `clear`, to which a cycle would not return."""
    if not hole.bottom <= hole.start <= hole.clear:
        raise InternalError(f"the heights of the hole at {hole.at} are out of order")
    if here is not None and abs(here[2] - hole.clear) > _SAME:
        raise InternalError(f"the hole at {hole.at} is drilled from {here}, not from its clear")


def pecks(hole: Drill) -> int:
    """How many times the tool goes down to cut the hole; 1 where it doesn't peck."""
    if hole.peck is None:
        return 1
    return max(1, math.ceil((hole.start - hole.bottom) / hole.peck - _SAME))


def moves_of(hole: Drill) -> Iterator[Motion]:
    """The hole as rapids and feeds, and a `Dwell` if it has one."""
    x, y = hole.at
    yield Rapid(top(hole))
    yield Rapid((x, y, hole.start))
    for peck in range(1, pecks(hole)):
        depth = hole.start - peck * (hole.peck or 0.0)
        yield LineFeed((x, y, depth), hole.feed)
        yield Rapid((x, y, hole.start))
        yield Rapid((x, y, min(depth + BACK_OFF, hole.start)))
    yield LineFeed((x, y, hole.bottom), hole.feed)
    if hole.dwell > 0:
        yield Dwell(hole.dwell)
    yield Rapid(top(hole))
