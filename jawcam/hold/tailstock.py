"""The centre of a tailstock, which supports the work's free end: a cone of 60 degrees that stands
in a centre hole, with its body behind it."""

from __future__ import annotations

import math

from jawcam.hold.turn_target import HalfLoop

__all__ = ["BODY", "LONG", "centre_of"]

BODY = 10.0
"""mm; the radius of a centre's body (common practice, no source)."""

LONG = 100.0
"""mm that a centre and what carries it go on in front of the work (likewise)."""

_SLOPE = math.tan(math.radians(30))


def centre_of(hole: float | None, front: float) -> HalfLoop:
    """The half section that the centre takes up, down to the axis.

    hole: the diameter of the centre hole at the finished face, Z 0, whose cone goes on to the
    stock's front at Z `front`; None where nobody tells: then the body is taken to begin at the
    front.
    """
    if hole is None:
        return _box(front, BODY)
    rim = hole / 2
    if rim >= BODY:
        return _box(0.0, rim)
    shoulder = (BODY - rim) / _SLOPE
    far = max(shoulder, front) + LONG
    return (
        (0.0, 0.0, 0.0),
        (far, 0.0, 0.0),
        (far, BODY, 0.0),
        (shoulder, BODY, 0.0),
        (0.0, rim, 0.0),
    )


def _box(begin: float, radius: float) -> HalfLoop:
    end = begin + LONG
    return ((begin, 0.0, 0.0), (end, 0.0, 0.0), (end, radius, 0.0), (begin, radius, 0.0))
