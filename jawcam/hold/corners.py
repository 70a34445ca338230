"""Corners that a round cutter leaves, and the relief that lets a sharper part corner seat.

A cutter of radius r leaves every inside corner of the pocket at radius r at least. Where a
corner of the part reaches into what is left, the part would ride up. There the cutter is driven
on along the corner's bisector until it just takes the corner away.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from jawcam.errors import Fault, FaultList, InputError, Place
from jawcam.geometry.combine import difference, intersection, union
from jawcam.geometry.cut import along
from jawcam.geometry.measure import inside_distances, nearest_on, roomiest
from jawcam.geometry.narrow import Narrow, substantial, too_narrow
from jawcam.geometry.offset import grow, shrink
from jawcam.geometry.shapes import Path, Point, Region, from_bulges
from jawcam.hold.target import Relief, Unreached
from jawcam.tolerance import Tolerance
from jawcam.units import Units

__all__ = ["Corners", "capsule", "corners_of", "pocket_as_cut"]

DEEPEST = 2.0
"""Cutter radii that a relief may go beyond where the cutter gets by itself: enough for a corner
of 40 degrees. A narrower one wants a smaller cutter."""

AIR = 0.02
"""mm of air that a relief gives beyond the pocket's corner (common practice, no source)."""


@dataclass(frozen=True)
class Corners:
    """The reliefs to cut, and what stays in corners because the part does not touch it there (or
    because no relief was wanted)."""

    reliefs: tuple[Relief, ...]
    unreached: tuple[Unreached, ...]


def corners_of(
    outline: Path,
    cavity: Region,
    blanks: tuple[Region, Region],
    dia: float,
    tolerance: Tolerance,
    *,
    relieve: bool,
    floor: float,
    units: Units,
    place: Place,
) -> Corners:
    """What a finishing cutter of `dia` mm leaves in the pocket's corners, and what to do about it.

    Raises InputError when the cutter finds no place in the pocket at all.
    """
    centre = shrink([cavity], dia / 2, tolerance)
    if not centre:
        width = 2 * roomiest(cavity, 0.0002)[1]
        raise InputError(
            Fault(
                f"a cutter of {units.say(dia)} is larger than the pocket, which is nowhere wider "
                f"than {units.say(width)}",
                place,
                f"give an end mill smaller than {units.say(width)}",
            )
        )
    part = Region(outline)
    reliefs: list[Relief] = []
    unreached: list[Unreached] = []
    faults = FaultList()
    for rest in too_narrow([cavity], dia, tolerance):
        standing = _regions(intersection([rest.region], blanks, tolerance), tolerance)
        touching = _regions(intersection(standing, [part], tolerance), tolerance)
        if touching and relieve:
            relief = _relief(rest.region, centre, dia / 2, floor)
            if math.dist(relief.start, relief.end) > DEEPEST * dia / 2:
                faults.add(*_no_corner(rest, dia, units, place))
                continue
            reliefs.append(relief)
            standing = difference(standing, [capsule(relief)], tolerance)
        for piece in substantial(standing, tolerance):
            rides = _regions(intersection([piece.region], [part], tolerance), tolerance)
            if rides and relieve:
                faults.add(*_no_corner(piece, dia, units, place))
            unreached.append(_named(piece, floor, seats=not rides))
    faults.raise_if_any()
    return Corners(
        tuple(sorted(reliefs, key=lambda r: r.corner)),
        tuple(sorted(unreached, key=lambda u: (u.x, u.y))),
    )


def pocket_as_cut(
    cavity: Region, corners: Corners, dia: float, tolerance: Tolerance
) -> tuple[Region, ...]:
    """What a finishing cutter of `dia` mm makes of the cavity: round in the corners that are
    sharper, with the reliefs cut."""
    reached = grow(shrink([cavity], dia / 2, tolerance), dia / 2, tolerance)
    return union([*reached, *(capsule(relief) for relief in corners.reliefs)], tolerance)


def _no_corner(rest: Narrow, dia: float, units: Units, place: Place) -> tuple[str, Place, str]:
    """What is wrong where the part reaches far into a place narrower than the cutter."""
    what = (
        f"the part reaches into a place that a cutter of {units.say(dia)} can't get into, at "
        f"{units.point(*rest.at)}, where the pocket is only {units.say(rest.size)} wide"
    )
    mend = (
        f"finish with an end mill of {units.say(rest.size)} or less, or turn the part so that "
        "this place lies in the gap"
    )
    return what, place, mend


def _regions(regions: tuple[Region, ...], tolerance: Tolerance) -> tuple[Region, ...]:
    """Those regions that are more than rounding."""
    return tuple(narrow.region for narrow in substantial(regions, tolerance))


def _relief(rest: Region, centre: tuple[Region, ...], radius: float, floor: float) -> Relief:
    """From where the cutter ends up in a corner on to where it just takes the corner's tip away."""
    points = [p for s in rest.outer.segments for p in along(s, s.length / 2)]
    depth = -inside_distances(centre, np.array(points))
    tip = points[int(np.argmax(depth))]
    start = min(
        (nearest_on(path, tip)[1] for region in centre for path in region.paths),
        key=lambda p: math.dist(p, tip),
    )
    way = math.dist(start, tip)
    share = (way - radius + AIR) / way
    end = (start[0] + (tip[0] - start[0]) * share, start[1] + (tip[1] - start[1]) * share)
    return Relief(start, end, radius, tip, floor)


def capsule(relief: Relief) -> Region:
    """What the cutter sweeps along a relief."""
    (x0, y0), (x1, y1), r = relief.start, relief.end, relief.radius
    way = math.dist(relief.start, relief.end)
    nx, ny = -(y1 - y0) / way * r, (x1 - x0) / way * r
    return Region(
        _stadium((x0 - nx, y0 - ny), (x1 - nx, y1 - ny), (x1 + nx, y1 + ny), (x0 + nx, y0 + ny))
    )


def _stadium(a: Point, b: Point, c: Point, d: Point) -> Path:
    return from_bulges(((*a, 0.0), (*b, 1.0), (*c, 0.0), (*d, 1.0)))


def _named(piece: Narrow, floor: float, *, seats: bool) -> Unreached:
    why = (
        "the cutter is too round for this corner; the part does not reach into it"
        if seats
        else "the cutter is too round for this corner, and the part's corner will ride on it"
    )
    return Unreached(*piece.at, piece.size, why, seats, floor)
