"""The area that a round cutter sweeps in plan: capsules for lines, sectors of a ring for arcs.

How exact: every shape is made of chords whose sagitta is at most `CHORD`, on the inside of the
true area (outer circles inscribed, the inner circles of rings circumscribed), so that a swept area
is never too large and its edge is never more than `CHORD` too far in. What is called cleared is
cleared; what is called left may be up to `CHORD` too wide. The centre line of a cutter's path, by
which gouges are measured, has its points on the true path and its chords at most `PATH_CHORD` off.
The cavity is flattened to `CAVITY_CHORD`, its points on the true outline: smaller than the truth
by that much along outward arcs and larger along inward ones. A gouge is thus known to
PATH_CHORD + CAVITY_CHORD = 0.00007 mm, the edge of material left to CHORD + CAVITY_CHORD =
0.00012 mm; the offset by which discs are sought in it thins its points by a hundredth of itself,
0.0001 mm. Coordinates are floating point and add no more than 1e-12 mm.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import Any, NamedTuple

import numpy as np
import shapely
from numpy.typing import ArrayLike, NDArray

from jawcam.proof.curve import Floats, quad_segs, steps
from jawcam.proof.move import Move

__all__ = ["CAVITY_CHORD", "CHORD", "PATH_CHORD", "Arc", "Shapes", "path", "ring_sector", "swept"]

CHORD = 1e-4
PATH_CHORD = 5e-5
CAVITY_CHORD = 2e-5

CLEAR = 0.01
"""By how much, in mm, an arc is wider than the cutter whose round ends keep clear of each other."""

Shapes = NDArray[Any]
"""An array of shapely geometries."""


class Arc(NamedTuple):
    """An arc: its radii at its start and its end, between which it changes evenly; the angle of
    its start and its signed turn, radians."""

    centre: tuple[float, float]
    radii: tuple[float, float]
    angle: float
    turn: float


def path(move: Move, chord: float = PATH_CHORD) -> shapely.Geometry:
    """The centre line of a move in plan; a point if it goes straight up or down."""
    if move.upright:
        return shapely.Point(move.start[:2])
    if move.kind != "arc":
        return shapely.LineString([move.start[:2], move.end[:2]])
    turn = math.copysign(min(abs(move.turn), math.tau), move.turn)
    first, last = move.radii
    portions = np.linspace(0.0, turn / move.turn, steps(max(first, last), turn, chord) + 1)
    radius, angles = first + (last - first) * portions, move.start_angle + move.turn * portions
    x, y = move.centre
    points = np.column_stack((x + radius * np.cos(angles), y + radius * np.sin(angles)))
    points[0], points[-1] = move.start[:2], points[-1] if turn != move.turn else move.end[:2]
    return shapely.LineString(points)


def swept(moves: Sequence[Move], chord: float = CHORD) -> tuple[Shapes, NDArray[np.intp]]:
    """Moves -> polygons that together are what each sweeps, and the index of each one's move."""
    straight, owners, arcs, arc_owners = [], [], [], []
    for i, move in enumerate(moves):
        if move.kind != "arc" or move.upright:
            straight.append(path(move))
            owners.append(i)
            continue
        pieces = _arc(move, chord)
        arcs += pieces
        arc_owners += [i] * len(pieces)
    radii = np.array([moves[i].radius for i in owners])
    fine = quad_segs(float(radii.max()), chord) if owners else 1
    capsules = shapely.buffer(np.array(straight, dtype=object), radii, quad_segs=fine)
    shapes = np.concatenate((capsules, np.array(arcs, dtype=object)))
    return shapes, np.array(owners + arc_owners, dtype=np.intp)


def ring_sector(
    arc: Arc, reach: float, chord: float = CHORD, *, round_ends: bool = False
) -> shapely.Geometry:
    """All within `reach` of an arc, but for what lies round its ends.

    round_ends: with what lies round its ends, for an arc of at most half a turn and wider than
    `reach` by `CLEAR`, as only then the ends stay clear of each other.
    """
    centre, radii, angle, turn = arc
    turn = math.copysign(min(abs(turn), math.tau), turn)
    count = max(3, steps(max(radii) + reach, turn, chord))
    portions = np.linspace(0.0, 1.0, count + 1)
    radius, angles = radii[0] + (radii[1] - radii[0]) * portions, angle + turn * portions
    inside = np.maximum(radius - reach, 0.0)
    # Round the inner circle, the corners of a polygon whose sides touch it.
    corners = (inside[:-1] + inside[1:]) / 2 / math.cos(turn / count / 2)
    outer = _polar(centre, radius + reach, angles)
    inner = _polar(centre, corners, (angles[:-1] + angles[1:]) / 2)
    hollow = round_ends or float(inside.min()) > 1e-6
    if abs(turn) >= math.tau - 1e-9:
        return shapely.Polygon(outer[:-1], [inner] if hollow else [])
    if not hollow:
        return shapely.Polygon(np.concatenate((outer, [centre])))
    first, last = _polar(centre, inside[[0, -1]], angles[[0, -1]])
    caps = _caps(arc, reach, chord) if round_ends else (outer[:0], outer[:0])
    pieces = (outer, caps[1], [last], inner[::-1], [first], caps[0])
    return shapely.Polygon(np.concatenate(pieces))


def _caps(arc: Arc, reach: float, chord: float) -> tuple[Floats, Floats]:
    """Half circles about an arc's start and end, without their own ends."""
    count = 2 * quad_segs(reach, chord)
    half = math.copysign(math.pi, arc.turn) * np.arange(1, count) / count
    angles = np.array([arc.angle, arc.angle + arc.turn])
    start, end = _polar(arc.centre, np.array(arc.radii), angles)
    around = np.full(count - 1, reach)
    before = _polar(start, around, arc.angle + math.pi + half)
    return before, _polar(end, around, arc.angle + arc.turn + half)


def _arc(move: Move, chord: float) -> list[shapely.Geometry]:
    """What an arc sweeps, in one polygon if it can be."""
    arc = Arc(move.centre, move.radii, move.start_angle, move.turn)
    if abs(move.turn) <= math.pi and min(move.radii) > move.radius + CLEAR:
        return [ring_sector(arc, move.radius, chord, round_ends=True)]
    fine = quad_segs(move.radius, chord)
    ends = [shapely.Point(move.start[:2]), shapely.Point(move.end[:2])]
    return [
        ring_sector(arc, move.radius, chord),
        *shapely.buffer(ends, move.radius, quad_segs=fine),
    ]


def _polar(centre: ArrayLike, radius: Floats, angle: Floats) -> Floats:
    """Points (n, 2) at distances and in directions (n,) from a centre."""
    ways = np.column_stack((np.cos(angle), np.sin(angle)))
    points: Floats = ways * radius[:, None] + np.asarray(centre, dtype=float)
    return points
