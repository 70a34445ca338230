"""A cutter standing in the side view, true to scale."""

from __future__ import annotations

import math

from matplotlib.patches import Polygon

from jawcam.show.page import View
from jawcam.show.style import INK, NARROW
from jawcam.tools.cutter import Cutter

__all__ = ["draw_cutter", "tip"]

FLAT = 180.0
"""Degrees; the point angle of a flat end."""


def tip(cutter: Cutter) -> list[tuple[float, float]]:
    """The right half of the cutter's lower end, from the axis outward: (radius, height over the
    tip) in mm.
    """
    r = cutter.radius
    if cutter.point_angle < FLAT:
        flat = [(cutter.tip_dia / 2, 0.0)] if cutter.tip_dia else []
        return [(0.0, 0.0), *flat, (r, cutter.point_length)]
    corner = r if cutter.kind == "ball end mill" else min(cutter.corner_radius, r)
    steps = 16 if corner else 0
    turns = [math.pi / 2 * k / steps for k in range(1, steps + 1)]
    round_ = [(r - corner + corner * math.sin(a), corner - corner * math.cos(a)) for a in turns]
    return [(0.0, 0.0), (r - corner, 0.0), *round_]


def draw_cutter(side: View, cutter: Cutter, x: float, z: float, scale: float) -> None:
    """Draw it with its tip at (x, z); `scale` units per mm. The fluted length is marked by slanted
    lines; without a stated stickout its upper end is left open.
    """
    half = tip(cutter)
    fluted = cutter.flute_len or cutter.dia * 1.5
    length = max(cutter.stickout or fluted, fluted, half[-1][1])
    right = [*half, (cutter.radius, length)]
    outline = [(x + r * scale, z + h * scale) for r, h in right]
    mirrored = [(x - r * scale, z + h * scale) for r, h in reversed(right)]
    body = Polygon(
        [*mirrored, *outline], closed=False, fc=(1, 1, 1, 0.55), ec=INK, lw=0.9, zorder=7
    )
    body.set_gid("cutter")
    side.axes.add_patch(body)
    low = half[-1][1]
    high = max(fluted, low)
    left, far = x - cutter.radius * scale, x + cutter.radius * scale
    if cutter.flute_len:
        side.axes.plot((left, far), (z + high * scale,) * 2, color=INK, lw=NARROW, zorder=7.1)
    pitch = cutter.dia * 0.9
    steps = max(int((high - low) / pitch), 1)
    for k in range(steps):
        bottom = low + (high - low) * k / steps
        top = min(bottom + pitch * 0.9, high)
        heights = (z + bottom * scale, z + top * scale)
        side.axes.plot((left, far), heights, color=INK, lw=NARROW, zorder=7.1)
