"""Lathe tools: plain data in mm, shared by the planner and the judge."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

__all__ = ["KINDS", "Insert", "Turner"]

KINDS = ("turning", "boring", "grooving", "threading", "parting", "centre drill", "drill")


@dataclass(frozen=True)
class Insert:
    """An indexable insert as ISO 1832 names it. shape: its letter; angle: between the edges at
    its nose, degrees; clearance: degrees; size: of its inscribed circle (or its edge, for the
    shapes that are named by that), mm; radius: of its nose, mm."""

    designation: str
    shape: str
    angle: float
    clearance: float
    size: float
    radius: float


@dataclass(frozen=True)
class Turner:
    """One tool of a lathe.

    number: the T word; offset: its wear offset; hand: "right" cuts towards the chuck, "left" away
    from it, "neutral" either way.
    insert, approach: of turning and boring tools; approach is the angle between the main edge and
    the feed direction along Z, in degrees (93: the edge leans 3 degrees back from a square
    shoulder). width, radius: of grooving and parting tools, the width of the edge and the radius
    of its corners; reach: how deep they go. pitch_angle: of threading inserts, the angle between
    the flanks. dia, point_angle: of drills. inside: for bores; least_bore: the smallest that it
    goes into. shank: how wide the holder is behind the edge, along Z (outside tools) or across
    (boring bars); overhang: how far the edge stands out of the holder's block. turns: which way
    the spindle turns for it, clockwise with M3: the other one for a tool that is held upside down.
    tip: how far its tip stands off the point of the slide that travel counts for, X and Z, mm, X as
    the programs write it; None where the job doesn't say.
    surface: cutting speed, m/min; feed: mm/rev; depth: of cut; None = worked out.
    """

    number: int
    kind: str
    name: str = ""
    offset: int = 0
    hand: Literal["right", "left", "neutral"] = "right"
    insert: Insert | None = None
    approach: float = 93.0
    width: float | None = None
    radius: float = 0.0
    reach: float | None = None
    pitch_angle: float = 60.0
    dia: float | None = None
    point_angle: float = 118.0
    inside: bool = False
    least_bore: float | None = None
    shank: float = 20.0
    overhang: float | None = None
    tip: tuple[float, float] | None = None
    surface: float | None = None
    feed: float | None = None
    depth: float | None = None
    turns: Literal["clockwise", "counter-clockwise"] = "clockwise"
