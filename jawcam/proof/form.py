"""The cutters' shapes, and what each is there for."""

from __future__ import annotations

import math
from typing import Literal

import numpy as np

from jawcam.hold.target import Target
from jawcam.proof.curve import Floats
from jawcam.tools.cutter import Cutter

__all__ = [
    "Role",
    "height_over_tip",
    "of_kind",
    "pointed",
    "radius_at",
    "role",
    "rounding",
    "slope",
]

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


def of_kind(cutter: Cutter) -> Role:
    """What a cutter is there for, as far as its kind tells."""
    kinds: dict[str, Role] = {"drill": "drill", "spot drill": "spot", "chamfer mill": "edge"}
    return kinds.get(cutter.kind, "mill")


def pointed(cutter: Cutter) -> bool:
    """Whether its flanks or its point slope."""
    return cutter.point_angle < 180


def rounding(cutter: Cutter) -> float:
    """The radius of the round between its flank and its end, mm, 0 without one."""
    if cutter.kind == "ball end mill":
        return cutter.radius
    return 0.0 if pointed(cutter) else min(cutter.corner_radius, cutter.radius)


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
    if pointed(cutter):
        return np.maximum(off - cutter.tip_dia / 2, 0.0) / slope(cutter)
    corner = rounding(cutter)
    out = np.clip(off - (cutter.radius - corner), 0.0, corner)
    return corner - np.sqrt(np.maximum(corner**2 - out**2, 0.0))
