"""Turning in closed form: speeds, times, roughness, what the nose radius does, tapers.

Lengths in mm, angles in degrees, cutting speeds in m/min, feeds in mm per turn, times in minutes.
"""

from __future__ import annotations

import math

from jawcam.errors import InternalError
from jawcam.tools.feeds import spindle_speed

__all__ = [
    "clamp_diameter",
    "diameter_change",
    "facing_time",
    "feed_for",
    "half_angle",
    "held_speed",
    "left_on_taper",
    "peak_to_valley",
    "peak_to_valley_exact",
    "roughness_average",
    "roughness_average_by_area",
    "set_point_arc",
    "shift_x",
    "shift_z",
    "taper_ratio",
    "turning_time",
]


def held_speed(surface: float, dia: float, clamp: float) -> float:
    """1/min at a diameter under constant surface speed, n = 1000 vc / (pi D), but no more than
    `clamp`."""
    return clamp if dia <= clamp_diameter(surface, clamp) else spindle_speed(surface, dia)


def clamp_diameter(surface: float, clamp: float) -> float:
    """The diameter below which the clamp holds the spindle: D = 1000 vc / (pi n)."""
    return 1000 * surface / (math.pi * clamp)


def facing_time(outer: float, inner: float, surface: float, feed: float, clamp: float) -> float:
    """Minutes that a face takes from one diameter to another at constant surface speed.

    pi (r1^2 - r2^2) / (1000 vc f) as far as the clamp's diameter, and from there r / (f n).
    """
    held = clamp_diameter(surface, clamp)
    large, small = max(outer, inner), min(outer, inner)
    free_from, free_to = max(large, held) / 2, max(small, held) / 2
    free = math.pi * (free_from**2 - free_to**2) / (1000 * surface * feed)
    return free + (min(large, held) - min(small, held)) / 2 / (feed * clamp)


def turning_time(length: float, feed: float, rpm: float) -> float:
    """Minutes of a cut along a cylinder: L / (f n)."""
    return length / (feed * rpm)


def peak_to_valley(feed: float, radius: float) -> float:
    """Rt = f^2 / (8 r) in micrometres, of a nose of that radius: El-Hofy, Fundamentals of
    Machining Processes, chapter 5."""
    return 1000 * feed**2 / (8 * radius)


def peak_to_valley_exact(feed: float, radius: float) -> float:
    """Rt = r - sqrt(r^2 - f^2 / 4) in micrometres, by geometry: circles of radius r, f apart.

    Raises InternalError if they are so far apart that they leave all of the stock between them.
    """
    if feed > 2 * radius:
        raise InternalError(f"a nose of radius {radius} can't turn at {feed} a turn")
    return 1000 * feed**2 / 4 / (radius + math.sqrt(radius**2 - feed**2 / 4))


def roughness_average(feed: float, radius: float) -> float:
    """Ra = f^2 / (32 r) in micrometres: a quarter of Rt, the usual form (El-Hofy, chapter 5)."""
    return 1000 * feed**2 / (32 * radius)


def roughness_average_by_area(feed: float, radius: float) -> float:
    """Ra = f^2 / (18 sqrt(3) r) in micrometres: the mean of parabolas about their own mean line,
    the other form in use."""
    return 1000 * feed**2 / (18 * math.sqrt(3) * radius)


def feed_for(roughness: float, radius: float) -> float:
    """The feed that gives an Ra in micrometres: f = sqrt(32 r Ra)."""
    return math.sqrt(32 * radius * roughness / 1000)


def shift_z(radius: float, angle: float) -> float:
    """R (1 - tan(A / 2)): how far along Z the set point of a nose of that radius goes to cut a
    line at A degrees to the axis; this or `shift_x`. Common in the trade, and by geometry."""
    return radius * (1 - math.tan(math.radians(angle / 2)))


def shift_x(radius: float, angle: float) -> float:
    """R (1 - tan(45 - A / 2)): the same along X, on radius."""
    return radius * (1 - math.tan(math.radians(45 - angle / 2)))


def left_on_taper(radius: float, angle: float) -> float:
    """R (sin A + cos A - 1): how thick a layer stays on a line at A degrees to the axis if the
    set point itself runs along it. None on cylinders and faces."""
    slope = math.radians(angle)
    return radius * (math.sin(slope) + math.cos(slope) - 1)


def set_point_arc(radius: float, nose: float, *, hollow: bool) -> float:
    """The radius of the arc that the set point runs to cut one of the part's: r + R for a bulging
    one, r - R for a hollow one. Raises InternalError for a hollow that the nose doesn't fit in."""
    if hollow and radius < nose:
        raise InternalError(f"a nose of radius {nose} can't cut a hollow of {radius}")
    return radius - nose if hollow else radius + nose


def half_angle(ratio: float) -> float:
    """A taper (difference of diameters to length, 0.1 for 1:10) -> its angle to the axis."""
    return math.degrees(math.atan(ratio / 2))


def taper_ratio(angle: float) -> float:
    """A taper's angle to the axis -> its difference of diameters for each mm of length."""
    return 2 * math.tan(math.radians(angle))


def diameter_change(length: float, angle: float) -> float:
    """What a taper or chamfer of that length and angle to the axis adds to the diameter:
    2 L tan A."""
    return length * taper_ratio(angle)
