"""How exact the geometry is. One frozen value, passed along; nothing else sets a tolerance."""

from __future__ import annotations

from dataclasses import dataclass

__all__ = ["Tolerance"]


@dataclass(frozen=True)
class Tolerance:
    """All in mm.

    path:  the most that a cutter path may lie off the true one.
    chord: the sagitta of the flattened copies that the offset engine works on; it decides only
           which pieces of the boundary survive, never where they lie.
    fit:   the most that arcs which stand in for a spline or an ellipse may lie off it.
    join:  ends of drawn lines and arcs that are nearer than this are one point.
    """

    path: float = 0.001
    chord: float = 0.0005
    fit: float = 0.0005
    join: float = 0.005
