"""What is behind a tool's cutting part: its holder, and the block that this stands out of.

Nobody tells their exact shapes; they are taken as follows (common practice, no source). The
holder of an outside tool is as wide as its shank, from the end of the main edge backwards, and
goes on upwards; between the trailing edge's end and its far side it is bounded by the trailing
edge's own line. A boring bar runs along Z, as thick as its shank, in the middle of the least bore
that it goes into. The block begins where the tool's overhang ends: half a shank wider to either
side than an outside holder, and without bounds across for boring bars and drills. Drills have no
holder before it.
"""

from __future__ import annotations

import math
from typing import NamedTuple

import numpy as np

from jawcam.proof.curve import Floats
from jawcam.proof.turning.form import Form, wedge
from jawcam.tools.turner import Turner

__all__ = ["LONG", "Holder", "holder_of"]

LONG = 150.0
"""mm that holders and blocks go on."""


class Holder(NamedTuple):
    """Corners of the holder and of the block, convex, relative to the set point."""

    body: Floats | None
    block: Floats | None


def holder_of(tool: Turner, form: Form) -> Holder:
    """What is behind the cutting part of a tool."""
    if tool.kind in ("drill", "centre drill"):
        return Holder(None, _endwise(tool, max(tool.shank, tool.dia or 0.0) / 2))
    if tool.inside:
        return Holder(_bar(tool, form), _endwise(tool, LONG))
    body = _shank(tool, form)
    block = None
    if tool.overhang is not None:
        low, high = float(body[:, 0].min()), float(body[:, 0].max())
        wide = tool.shank / 2
        block = _box(low - wide, high + wide, tool.overhang, tool.overhang + LONG)
    return Holder(body, block)


def _shank(tool: Turner, form: Form) -> Floats:
    """The holder of an outside tool."""
    (main_z, main_x), (trail_z, trail_x) = form.main, form.trail
    if tool.kind == "turning" and tool.hand != "neutral" and _wedged(tool):
        sign = -1.0 if tool.hand == "left" else 1.0
        front, end = sign * main_z, sign * trail_z
        back = max(min(front, 0.0) + tool.shank, end)
        slope = trail_x + (back - end) * math.tan(wedge(tool)[1])
        top = max(main_x, slope) + LONG
        corners = [(end, trail_x), (back, slope), (back, top), (front, top), (front, main_x)]
        shape: Floats = np.array(corners) * np.array([sign, 1.0])
        return shape if sign > 0 else shape[::-1]
    low, high = min(main_z, trail_z), max(main_z, trail_z)
    wide = max(tool.shank, high - low)
    start = {"right": low, "left": high - wide, "neutral": (low + high - wide) / 2}[tool.hand]
    foot = max(main_x, trail_x)
    return _box(start, start + wide, foot, foot + LONG)


def _bar(tool: Turner, form: Form) -> Floats:
    """The bar of a tool that works in a bore."""
    depth = -max(form.main[1], form.trail[1])  # of the cutting part's nearer end, from the wall
    if tool.least_bore is not None:
        depth = max((tool.least_bore - tool.shank) / 2, 0.0)
    if tool.kind != "boring":
        # the blade or the V must get in as far as it reaches
        depth = max(depth, -form.main[1])
    if tool.hand == "left" and tool.kind == "boring":
        # a hooked bar that cuts on its way out still comes in from the free end
        depth = max(depth, -float(form.outline[:, 1].min()))
        front = float(form.outline[:, 0].min())
        return _box(front, front + LONG, -depth - tool.shank, -depth)
    front = max(form.main[0], form.nose[0]) if tool.kind == "boring" else form.main[0]
    return _box(front, front + LONG, -depth - tool.shank, -depth)


def _endwise(tool: Turner, half: float) -> Floats | None:
    if tool.overhang is None:
        return None
    return _box(tool.overhang, tool.overhang + LONG, -half, half)


def _wedged(tool: Turner) -> bool:
    return tool.insert is not None and tool.insert.shape != "R"


def _box(z0: float, z1: float, x0: float, x1: float) -> Floats:
    return np.array([(z0, x0), (z1, x0), (z1, x1), (z0, x1)])
