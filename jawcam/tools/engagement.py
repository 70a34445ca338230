"""How far round a milling cutter is in the work, and what that makes of its chip.

The engaged angle counts from the place on the cutter's edge that runs along the finished wall. What
is cut fresh to a length of the centre's way is r (1 - cos angle) wide, whatever the way's
curvature: plane geometry.
"""

from __future__ import annotations

import math

from jawcam.errors import InternalError

__all__ = [
    "THIN_MOST",
    "chip_thinning",
    "engaged",
    "engaged_inside",
    "engaged_outside",
    "fresh_width",
    "thinning",
]

THIN_MOST = 2.0
"""Times the chip load of the table that a feed is raised to at most where chips get thin (common
practice, no source)."""


def engaged(width: float, dia: float) -> float:
    """The engaged angle in degrees beside a straight wall: cos phi = 1 - 2 ae / D, from the width
    of cut ae (from 0 to D) and the cutter's diameter D in mm."""
    return math.degrees(math.acos(max(1 - 2 * width / dia, -1.0)))


def engaged_inside(width: float, radius: float, cutter: float) -> float:
    """The engaged angle in degrees round the inside of a wall of `radius` R mm, for a cutter of
    radius r, with ae to cut: cos gamma = ((R - ae)^2 - (R - r)^2 - r^2) / (2 (R - r) r).

    Raises InternalError for a wall that the cutter can't follow.
    """
    if cutter >= radius:
        raise InternalError(f"a cutter of radius {cutter} can't cut an arc of {radius}")
    off = radius - cutter
    return _angle((radius - width) ** 2, off, cutter)


def engaged_outside(width: float, radius: float, cutter: float) -> float:
    """The same round the outside of a wall, whose radius may be 0, a corner:
    cos gamma = ((R + r)^2 + r^2 - (R + ae)^2) / (2 (R + r) r)."""
    off = radius + cutter
    return 180.0 - _angle((radius + width) ** 2, off, cutter)


def _angle(square: float, off: float, cutter: float) -> float:
    """Of the triangle whose sides are `off`, `cutter` and the root of `square`: what is beyond."""
    cosine = (square - off**2 - cutter**2) / (2 * off * cutter)
    return math.degrees(math.acos(min(max(cosine, -1.0), 1.0)))


def fresh_width(angle: float, dia: float) -> float:
    """The straight cut's width in mm with the same engaged angle (degrees): r (1 - cos angle)."""
    return dia / 2 * (1 - math.cos(math.radians(angle)))


def chip_thinning(width: float, dia: float) -> float:
    """By how much the feed per tooth exceeds the thickest chip: D / (2 sqrt(ae (D - ae))), 1 from
    half the diameter on; from the width of cut (more than 0) and the diameter in mm."""
    if width >= dia / 2:
        return 1.0
    return dia / (2 * math.sqrt(width * (dia - width)))


def thinning(width: float, dia: float) -> float:
    """The same, no more than `THIN_MOST`, of any width from 0."""
    if width <= 0:
        return THIN_MOST
    return min(chip_thinning(width, dia), THIN_MOST)
