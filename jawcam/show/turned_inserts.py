"""The cutting parts of lathe tools, true to scale, and where they are drawn."""

from __future__ import annotations

import math
from typing import NamedTuple

import numpy as np

from jawcam.show.arrays import Floats, Ints, Moves
from jawcam.show.trace import RAPID, Trace
from jawcam.tools.insert import outline, set_point_offset
from jawcam.tools.turner import Turner

__all__ = ["Standing", "shape_of", "standings"]

VEE = 4.0
"""mm; how high the V of a threading insert is drawn (its size isn't told)."""

BLADE, CENTRE, DRILL = 4.0, 4.0, 25.0
"""How far a blade, a centre drill and a drill are drawn if nobody tells, in widths or diameters;
a drill goes on out of the work, mostly out of the picture."""

CORNER = 6
"""Chords of a blade's corner."""

Point = tuple[float, float]


class Standing(NamedTuple):
    """A tool where it makes its first cut, or where it is deepest: the outline of its cutting part,
    (n, 2) rows (z, x) in mm."""

    tool: Turner
    deepest: bool
    shape: Floats


def shape_of(tool: Turner) -> Floats | None:
    """The cutting part about the set point, (n, 2) rows (z, x) in mm, of a drill the half over the
    axis; None if the tool's numbers don't tell it."""
    if tool.kind in {"turning", "boring"}:
        if tool.insert is None:
            return None
        shape: Floats = np.array(outline(tool)) - np.array(set_point_offset(tool))
        return shape
    if tool.kind in {"drill", "centre drill"}:
        return _drill(tool)
    upright = _vee(tool) if tool.kind == "threading" else _blade(tool)
    if upright is None or not tool.inside:
        return upright
    flipped: Floats = upright * np.array([1.0, -1.0])
    return flipped


def standings(trace: Trace, moves: Moves, tools: dict[int, Turner], called: Ints) -> list[Standing]:
    """Each tool at the start of its first feed move and where it stands deepest: at the smallest
    diameter, in a bore farthest in.

    trace: with points (z, x, 0) in mm; called: the number of the tool of each of its pieces.
    """
    found = []
    for number in dict.fromkeys(called.tolist()):
        tool = tools.get(int(number))
        shape = None if tool is None else shape_of(tool)
        pieces = np.flatnonzero((called == number) & (trace.look != RAPID))
        if tool is None or shape is None or len(pieces) == 0:
            continue
        deep = _deepest(trace, pieces, tool)
        places = (
            (pieces[0], trace.start[pieces[0], :2], False),
            (deep, trace.end[deep, :2], True),
        )
        for piece, at, deepest in places:
            middle = at + _shifted(trace, moves, int(piece), tool)
            found.append(Standing(tool, deepest, shape + middle))
    return found


def _deepest(trace: Trace, pieces: Ints, tool: Turner) -> int:
    z, x = trace.end[pieces, 0].round(6), trace.end[pieces, 1].round(6)
    in_work = tool.inside or tool.kind in {"drill", "centre drill"}
    order = np.lexsort((-x, z)) if in_work else np.lexsort((z, x))
    return int(pieces[order[0]])


def _shifted(trace: Trace, moves: Moves, piece: int, tool: Turner) -> Floats:
    """From a programmed point to the set point: under the control's compensation the program tells
    the profile, and the centre of the nose stands beside it."""
    side = int(moves.side[trace.move[piece]])
    run = trace.end[piece, :2] - trace.start[piece, :2]
    length = math.hypot(*run)
    if side == 0 or length == 0 or tool.insert is None:
        return np.zeros(2)
    across = np.array([-run[1], run[0]]) / length * side
    shift: Floats = across * tool.insert.radius + np.array(set_point_offset(tool))
    return shift


def _blade(tool: Turner) -> Floats | None:
    if not tool.width:
        return None
    wide, r = tool.width, min(tool.radius, tool.width / 2)
    high = tool.reach or tool.overhang or BLADE * wide
    points: list[Point] = []
    for middle, start in ((r, math.pi), (wide - r, 1.5 * math.pi)):
        turns = [start + math.pi / 2 * k / CORNER for k in range(CORNER + 1)] if r else [start]
        points += [(middle + r * math.cos(a), r + r * math.sin(a)) for a in turns]
    return np.array([*points, (wide, high), (0.0, high)])


def _vee(tool: Turner) -> Floats:
    half = VEE * math.tan(math.radians(tool.pitch_angle) / 2)
    return np.array([(0.0, 0.0), (half, VEE), (-half, VEE)])


def _drill(tool: Turner) -> Floats | None:
    if not tool.dia:
        return None
    r = tool.dia / 2
    point = r / math.tan(math.radians(tool.point_angle) / 2)
    told = tool.reach or tool.overhang
    length = told or (CENTRE if tool.kind == "centre drill" else DRILL) * tool.dia
    length = max(length, point + r)
    return np.array([(0.0, 0.0), (length, 0.0), (length, r), (point, r)])
