"""The cutters' shapes, and what each is there for."""

from __future__ import annotations

import math
from typing import Literal

import numpy as np

from jawcam.hold.target import Target
from jawcam.proof.curve import Floats
from jawcam.tools.cutter import Cutter

__all__ = ["Role", "flat_ended", "height_over_tip", "radius_at", "role", "slope"]

Role = Literal["mill", "drill", "spot", "edge"]


def role(cutter: Cutter, target: Target) -> Role:
    """What a cutter is there for: to drill or to spot the target's holes, to break its edges, or
    else to clear the cavity."""
    if target.drilled and cutter.kind == "drill":
        return "drill"
    if target.edge > 0 and cutter.number == target.edge_tool and cutter.point_angle < 180:
        return "edge"
    if target.drilled and cutter.kind == "spot drill":
        return "spot"
    return "mill"


def flat_ended(cutter: Cutter) -> bool:
    """Whether what a cutter clears is known: a cylinder with a flat end."""
    return cutter.kind == "end mill" and cutter.corner_radius == 0


def slope(cutter: Cutter) -> float:
    """By how much the radius of a pointed cutter grows with each mm above its tip."""
    return math.tan(math.radians(cutter.point_angle / 2))


def radius_at(cutter: Cutter, height: float) -> float:
    """The radius of a pointed cutter at a height over its tip, mm; 0 below it."""
    if height < 0:
        return 0.0
    return min(cutter.radius, cutter.tip_dia / 2 + height * slope(cutter))


def height_over_tip(cutter: Cutter, off: Floats) -> Floats:
    """How high over its tip a cutter's edge is at distances from its axis, up to its radius; mm."""
    if cutter.kind == "ball end mill":
        return cutter.radius - np.sqrt(np.maximum(cutter.radius**2 - off**2, 0.0))
    if cutter.point_angle < 180:
        return np.maximum(off - cutter.tip_dia / 2, 0.0) / slope(cutter)
    corner = cutter.corner_radius
    out = np.clip(off - (cutter.radius - corner), 0.0, corner)
    return corner - np.sqrt(np.maximum(corner**2 - out**2, 0.0))
