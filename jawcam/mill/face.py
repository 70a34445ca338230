"""Facing: the tops of both blanks down to Z 0, climb, in passes along X that close in on the middle
from both sides."""

from __future__ import annotations

import math
from dataclasses import dataclass

from jawcam.geometry.shapes import Line
from jawcam.job.model import Blanks
from jawcam.mill.links import Air
from jawcam.mill.rough import levels
from jawcam.mill.trail import Trail

__all__ = ["OVERRUN", "Face", "face_lines", "face_tops"]

OVERRUN = 2.0
"""mm between the cutter and the ends of the blanks before and after each pass (common practice,
no source)."""

OVERLAP = 0.2
"""mm by which the last passes overlap where they meet, so that rounding leaves no thread standing
between them."""

THREAD = 0.01
"""mm by which a pass must have gone into the gap for nothing to be left standing beside it."""


@dataclass(frozen=True)
class Face:
    """What facing needs to know; lengths in mm, feed in mm/min. The blanks stand `take` above Z 0;
    dia: of a flat cutter; air: how to move without cutting, its clearance above `take`."""

    blanks: Blanks
    take: float
    dia: float
    stepover: float
    stepdown: float
    feed: float
    air: Air


def face_tops(trail: Trail, faced: Face) -> None:
    """Cut the tops of both blanks down to Z 0, level by level, none deeper than the stepdown.

    The cutter comes down beside the ends of the blanks, in air, goes over from pass to pass there
    too, and stands at the clearance in the end. Nothing is cut if there is nothing to take.
    """
    if faced.take <= 0:
        return
    lines = face_lines(faced)
    _above(trail, lines[0], faced.air.clearance)
    last = faced.air.clearance
    for z in levels(0.0, faced.stepdown, faced.take):
        trail.feed(*lines[0].start, last, faced.air.feed)
        trail.rapid(*trail.plan, z)
        for line in lines:
            trail.feed(*line.start, z, faced.air.feed)
            trail.feed(*line.end, z, faced.feed)
        last = z
        if len(lines) % 2:
            lines = tuple(_turned(line) for line in lines)
    trail.rapid(*trail.plan, faced.air.clearance)


def face_lines(faced: Face) -> tuple[Line, ...]:
    """The passes of one level, in order, each from beyond one end of the blanks to beyond the
    other.

    They go by turns along the back towards +X and along the front towards -X, each one nearer to
    the middle: what is still to cut lies on the right, which is climb milling for a spindle that
    turns clockwise. All bite equally, no more than the stepover. Either the gap is passed over as
    if it were solid, or each blank is faced for itself, whichever takes the fewer passes.
    """
    blanks, radius = faced.blanks, faced.dia / 2
    far, out = blanks.gap / 2 + blanks.thickness, blanks.width / 2 + radius + OVERRUN
    most = min(faced.stepover, faced.dia)
    across, each = 2 * far + OVERLAP, blanks.thickness + OVERLAP
    solid = math.ceil(across / most - 1e-9)
    apart = 2 * math.ceil(each / most - 1e-9)
    count, bite = min((solid, across / solid), (apart, 2 * each / apart))
    lines = []
    for number in range(count):
        if far - (number // 2) * bite < blanks.gap / 2 - THREAD:
            break  # only the gap is left
        y = far + radius - (number // 2 + 1) * bite
        back = Line((-out, y), (out, y))
        lines.append(back if number % 2 == 0 else _turned(back))
    return tuple(lines)


def _above(trail: Trail, line: Line, clearance: float) -> None:
    """Over to where a pass begins, at the clearance."""
    if trail.at is not None:
        trail.rapid(*trail.plan, clearance)
    trail.rapid(*line.start, clearance)


def _turned(line: Line) -> Line:
    """A pass turned by half a turn about the middle of the pair: climb still."""
    (x0, y0), (x1, y1) = line.start, line.end
    return Line((0.0 - x0, 0.0 - y0), (0.0 - x1, 0.0 - y1))
