"""How deep each pass of a thread goes, and how far the tool moves sideways as it goes deeper.

Depths are on radius and cumulative, in any unit; angles in degrees.
"""

from __future__ import annotations

import math

from jawcam.errors import InternalError

__all__ = [
    "FIRST_SHARE",
    "LAST_BITE",
    "even_chips",
    "flank_shift",
    "gentle_start",
    "last_bite",
    "passes_for",
    "with_spring",
]

LAST_BITE = (0.05, 0.10)
"""mm on radius that the last pass had best take: less rubs, more leaves a rough flank (a guide
from makers of threading tools)."""

FIRST_SHARE = 0.3
"""What `gentle_start` reckons its first pass as, where the second counts 1 (a maker's rule)."""

_PASSES = (
    *((0.3, 3), (0.75, 4), (1.0, 5), (1.5, 6), (2.0, 8), (2.5, 10), (3.5, 12), (5.0, 14)),
    *((6.0, 16),),
)


def passes_for(pitch: float) -> int:
    """How many passes a pitch in mm wants, spring passes not counted: common practice for steel
    and carbide inserts, no source."""
    for most, passes in _PASSES:
        if pitch <= most + 1e-9:
            return passes
    return math.ceil(_PASSES[-1][1] * pitch / _PASSES[-1][0])


def even_chips(depth: float, passes: int) -> tuple[float, ...]:
    """Cumulative depths that take the same area of chip in each pass: a sqrt(i / N), as the area
    of a triangular groove grows with the square of its depth."""
    _check(depth, passes)
    return (*(depth * math.sqrt(i / passes) for i in range(1, passes)), depth)


def gentle_start(depth: float, passes: int) -> tuple[float, ...]:
    """Cumulative depths a sqrt(phi / (N - 1)) for phi = 0.3, 1, 2 ... N - 1: a maker's rule that
    spares the first pass. One pass takes all."""
    _check(depth, passes)
    if passes == 1:
        return (depth,)
    share = (FIRST_SHARE, *range(1, passes - 1))
    return (*(depth * math.sqrt(phi / (passes - 1)) for phi in share), depth)


def last_bite(depths: tuple[float, ...]) -> float:
    """How deep the last of the passes bites."""
    return depths[-1] - (depths[-2] if len(depths) > 1 else 0.0)


def with_spring(depths: tuple[float, ...], spring: int) -> tuple[float, ...]:
    """The passes, and so many more at the full depth, which take what the work sprang away by."""
    return depths + depths[-1:] * spring


def flank_shift(depth: float, angle: float) -> float:
    """How far along the axis the tool moves while it goes so deep along a line at `angle` from
    square to the axis."""
    return depth * math.tan(math.radians(angle))


def _check(depth: float, passes: int) -> None:
    if not (depth > 0 and passes >= 1):
        raise InternalError(f"a thread {depth:g} deep in {passes} passes was planned")
