"""How fast the spindle turns along a cut, and the change over to a fixed speed where constant
surface speed has reached its clamp: on the way to the axis, where the diameter runs out.

At the diameter D = 1000 v / (pi n) the surface speed v has just come to the n of the clamp: there
the fixed speed takes over, and nothing changes but that the control has no more to work out.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from jawcam.motion.moves import Motion, Rapid, Spindle, SurfaceSpeed
from jawcam.tools.turning import clamp_diameter, held_speed
from jawcam.units import Units

__all__ = ["fixed", "held_from", "held_words", "started", "turns_per_minute"]


def turns_per_minute(speed: Spindle | SurfaceSpeed, radius: float) -> float:
    """How fast the spindle turns with the tool's set point at a radius in mm."""
    if isinstance(speed, Spindle):
        return speed.rpm
    return held_speed(speed.speed, 2 * abs(radius), speed.clamp)


def held_from(speed: Spindle | SurfaceSpeed) -> float | None:
    """The radius of the set point at which a surface speed reaches its clamp, mm; None where the
    speed is fixed anyway."""
    return None if isinstance(speed, Spindle) else clamp_diameter(speed.speed, speed.clamp) / 2


def fixed(speed: Spindle | SurfaceSpeed) -> Spindle:
    """The fixed speed that goes on where a surface speed has reached its clamp."""
    return speed if isinstance(speed, Spindle) else Spindle(speed.clamp, speed.clockwise)


def started(motions: Sequence[Motion], speed: Spindle | SurfaceSpeed) -> Iterator[Motion]:
    """The motions of a cut with the speed put in force for them.

    A surface speed begins with the first move that is no rapid: until then the spindle turns at
    what it comes to there, so that it has that speed before the tool gets to the work, and the cut
    begins without a jump.
    """
    at, count = 0.0, 0
    while count < len(motions) and isinstance(way := motions[count], Rapid):
        at, count = way.to[1], count + 1
    if isinstance(speed, SurfaceSpeed) and count:
        yield Spindle(round(turns_per_minute(speed, at)), speed.clockwise)
        yield from motions[:count]
    else:
        count = 0
    yield speed
    yield from motions[count:]


def held_words(name: str, speed: Spindle | SurfaceSpeed, units: Units) -> str:
    """What the person should know of a cut to the axis, or to a radius inside the one at which
    its surface speed reaches its clamp; a fixed speed is that of the clamp."""
    if isinstance(speed, Spindle):
        return f"{name}: all of it at a fixed {speed.rpm:.0f} rpm, to which the clamp holds it"
    dia = units.say(clamp_diameter(speed.speed, speed.clamp))
    return (
        f"{name}: below a diameter of {dia}, where its speed has come to the clamp's, at a fixed "
        f"{speed.clamp:.0f} rpm"
    )
