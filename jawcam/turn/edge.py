"""The cutting end of a turning or boring tool, what it turns, and the view in which every tool is
a right-hand one that works on an outside.

Mirrored along Z a left-hand tool is a right-hand one; mirrored in X (a bore of radius 10 is an
outside at -10) a boring tool is an outside one. Planning is written once, for that view.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal

from jawcam.geometry.shapes import Arc, Line, Path, Point, Region, Segment
from jawcam.geometry.transform import mirrored, turned
from jawcam.units import Units

__all__ = ["CuttingEdge", "View", "Workpiece"]


@dataclass(frozen=True)
class CuttingEdge:
    """A nose of `radius` mm between two edges.

    falls: the steepest slope that the trailing edge follows down while the tool feeds its own way
    (towards the chuck for a right-hand tool); rises: the steepest that the main edge follows up;
    in degrees to the axis, a square shoulder is 90. set_point: from the nose's centre to the
    programmed point, (z, x) in mm; length: how far the edges reach from the nose.
    """

    radius: float
    falls: float
    rises: float
    set_point: Point
    hand: Literal["right", "left", "neutral"] = "right"
    inside: bool = False
    length: float = 10.0


@dataclass(frozen=True)
class Workpiece:
    """What is turned, as half sections in (z, x): the finished part, the stock as it is now.

    limit: nothing is cut at Z below it; what the stock has there stands in the way. free: the
    radius at which the edge travels along Z clear of all; clearance: how far in front of the
    stock a cut begins. keep_off: what no tool may touch. front: the Z of the stock's front before
    anything was cut, which tools keep as clear of.
    """

    part: Region
    stock: Region
    limit: float
    free: float
    clearance: float = 2.0
    keep_off: tuple[Region, ...] = ()
    units: Units = Units.MM
    front: float = -math.inf


@dataclass(frozen=True)
class View:
    """Mirrored along Z, in X, both or not at all; the way there is the way back."""

    flip_z: bool
    flip_x: bool

    @staticmethod
    def of(edge: CuttingEdge) -> View:
        """The view in which this edge is a right-hand outside one."""
        return View(edge.hand == "left", edge.inside)

    @property
    def turns_over(self) -> bool:
        """Whether left and right change places."""
        return self.flip_z != self.flip_x

    def point(self, p: Point) -> Point:
        """A point (z, x), there or back."""
        z, x = p
        return (-z + 0.0 if self.flip_z else z, -x + 0.0 if self.flip_x else x)

    def segment(self, segment: Segment) -> Segment:
        """A segment, run from the same end."""
        start, end = self.point(segment.start), self.point(segment.end)
        if isinstance(segment, Line):
            return Line(start, end)
        return Arc(start, end, self.point(segment.centre), segment.ccw != self.turns_over)

    def region(self, region: Region) -> Region:
        """A region."""
        return Region(self._path(region.outer), tuple(self._path(hole) for hole in region.holes))

    def _path(self, path: Path) -> Path:
        if self.flip_z and self.flip_x:
            return turned(path, 180)
        if self.flip_z:
            return mirrored(path)
        return turned(mirrored(path), 180) if self.flip_x else path
