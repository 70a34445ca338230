"""Corners that a round cutter leaves, and the relief that lets a sharper part corner seat.

A cutter of radius r leaves every inside corner of the pocket at radius r at least. Where a
corner of the part reaches into what is left, the part would ride up. There room is made: the
cutter is driven on along the corner's bisector or along one of its walls, or a hole is drilled.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

from jawcam.errors import Fault, FaultList, InputError, Place
from jawcam.geometry.combine import difference, intersection, union
from jawcam.geometry.measure import roomiest
from jawcam.geometry.narrow import Narrow, substantial, too_narrow
from jawcam.geometry.offset import grow, shrink
from jawcam.geometry.shapes import Path, Point, Region, circle, from_bulges
from jawcam.hold import relieve
from jawcam.hold.target import Hole, Relief, Unreached
from jawcam.job.model import Corners as Style
from jawcam.tolerance import Tolerance
from jawcam.tools.cutter import Cutter
from jawcam.units import Units

__all__ = ["Corners", "capsule", "corners_of", "pocket_as_cut"]

DEEPEST = 2.0
"""Cutter radii that a relief may go beyond where the cutter gets by itself: along the bisector
enough for a corner of 40 degrees, along a wall for one of 54. A narrower one wants a smaller
cutter."""

_EVEN = 1e-6  # mm; a drill that much too small is large enough


@dataclass(frozen=True)
class Corners:
    """What is done about one level's corners: the reliefs to cut and to drill, and what stays
    because the part does not touch it there (or because no relief was wanted)."""

    reliefs: tuple[Relief, ...]
    drilled: tuple[Hole, ...]
    unreached: tuple[Unreached, ...]


def corners_of(
    outlines: Sequence[Path],
    pockets: Sequence[Region],
    blanks: tuple[Region, Region],
    dia: float,
    tolerance: Tolerance,
    *,
    style: Style,
    drill: Cutter | None,
    floor: float,
    units: Units,
    place: Place,
) -> Corners:
    """What a finishing cutter of `dia` mm leaves in the corners of one level's pockets, and what
    to do about it.

    outlines: those of the part that fill or pass through the level; pockets: regions without
    holes; drill: for drilled reliefs; floor: the level's (Z).

    Raises InputError with every place of the part that neither cutter nor relief make room for,
    or when the cutter finds no place in the pockets at all.
    """
    centre = shrink(pockets, dia / 2, tolerance)
    if not centre:
        raise InputError(_no_room(pockets, dia, units, place))
    parts = [Region(outline) for outline in outlines]
    maker = _Maker(style, drill, floor, units, place)
    rooms: list[Relief | Hole] = []
    unreached: list[Unreached] = []
    faults = FaultList()
    for rest in too_narrow(pockets, dia, tolerance):
        standing = _regions(intersection([rest.region], blanks, tolerance), tolerance)
        touching = _regions(intersection(standing, parts, tolerance), tolerance)
        wanted = bool(touching) and style.relief != "none"
        if wanted:
            corner = relieve.corner_of(rest.region, centre, pockets, dia / 2)
            room = maker.room(corner, rest, touching, parts)
            if isinstance(room, Fault):
                faults.faults.append(room)
                continue
            rooms.append(room)
            standing = difference(standing, [_swept(room)], tolerance)
        for piece in substantial(standing, tolerance):
            rides = _regions(intersection([piece.region], parts, tolerance), tolerance)
            if rides and wanted:
                faults.faults.append(maker.no_corner(piece, dia))
            unreached.append(_named(piece, floor, seats=not rides))
    faults.raise_if_any()
    return Corners(
        tuple(sorted((r for r in rooms if isinstance(r, Relief)), key=lambda r: r.corner)),
        tuple(sorted((h for h in rooms if isinstance(h, Hole)), key=lambda h: (h.x, h.y))),
        tuple(sorted(unreached, key=lambda u: (u.x, u.y))),
    )


def pocket_as_cut(
    pockets: Sequence[Region], corners: Corners, dia: float, tolerance: Tolerance
) -> tuple[Region, ...]:
    """What a finishing cutter of `dia` mm makes of the pockets: round in the corners that are
    sharper, with the reliefs cut and drilled."""
    reached = grow(shrink(pockets, dia / 2, tolerance), dia / 2, tolerance)
    rooms: list[Relief | Hole] = [*corners.reliefs, *corners.drilled]
    return union([*reached, *(_swept(room) for room in rooms)], tolerance)


def capsule(relief: Relief) -> Region:
    """What the cutter sweeps along a relief."""
    (x0, y0), (x1, y1), r = relief.start, relief.end, relief.radius
    way = math.dist(relief.start, relief.end)
    nx, ny = -(y1 - y0) / way * r, (x1 - x0) / way * r
    return Region(
        _stadium((x0 - nx, y0 - ny), (x1 - nx, y1 - ny), (x1 + nx, y1 + ny), (x0 + nx, y0 + ny))
    )


@dataclass(frozen=True)
class _Maker:
    """Makes room in a corner in the style wanted, or says what is wrong."""

    style: Style
    drill: Cutter | None
    floor: float
    units: Units
    place: Place

    def room(
        self,
        corner: relieve.Corner,
        rest: Narrow,
        touching: Sequence[Region],
        parts: Sequence[Region],
    ) -> Relief | Hole | Fault:
        most, dia = DEEPEST * corner.radius, 2 * corner.radius
        if corner.way - corner.radius + relieve.AIR > most:
            return self.no_corner(rest, dia)
        if self.style.relief == "drilled":
            return self._hole(corner, touching, parts)
        if self.style.relief == "bisector":
            return relieve.along_bisector(corner, self.floor)
        relief = relieve.along_wall(corner, self.floor)
        if relief is None or math.dist(relief.start, relief.end) > most:
            return self.no_corner(rest, dia)
        return relief

    def no_corner(self, rest: Narrow, dia: float) -> Fault:
        """What is wrong where the part reaches far into a place narrower than the cutter."""
        say = self.units.say
        what = (
            f"the part reaches into a place that a cutter of {say(dia)} can't get into, at "
            f"{self.units.point(*rest.at)}, where the pocket is only {say(rest.size)} wide"
        )
        mend = (
            f"finish with an end mill of {say(rest.size)} or less, or turn the part so that "
            "this place lies in the gap"
        )
        if self.style.relief == "along wall":
            mend += ', or try corners = { relief = "bisector" }'
        return Fault(what, self.place, mend)

    def _hole(
        self, corner: relieve.Corner, touching: Sequence[Region], parts: Sequence[Region]
    ) -> Hole | Fault:
        say, at = self.units.say, self.units.point(*corner.tip)
        least = relieve.least_drill(corner, touching, parts)
        if self.drill is not None and self.drill.dia >= least - _EVEN:
            return relieve.drilled(corner, self.drill, self.floor)
        digits = 4 if self.units is Units.INCH else 3
        step = self.units.to_mm(10.0**-digits)
        enough = say(math.ceil(least / step - _EVEN) * step)
        mend = f"drill it {enough} or larger, or finish with a smaller end mill"
        if self.drill is None:
            what = f"the corner at {at} is to be drilled, and there is no drill for it"
        else:
            what = (
                f"drilled {say(self.drill.dia)}, the corner at {at} still holds some of what a "
                f"cutter of {say(2 * corner.radius)} leaves, and the part would ride on it"
            )
        return Fault(what, replace(self.place, at=self.units.point(*corner.tip, self.floor)), mend)


def _no_room(pockets: Sequence[Region], dia: float, units: Units, place: Place) -> Fault:
    width = units.say(max(2 * roomiest(pocket, 0.0002)[1] for pocket in pockets))
    what = (
        f"a cutter of {units.say(dia)} is larger than the pocket, which is nowhere wider "
        f"than {width}"
    )
    return Fault(what, place, f"give an end mill smaller than {width}")


def _regions(regions: tuple[Region, ...], tolerance: Tolerance) -> tuple[Region, ...]:
    """Those regions that are more than rounding."""
    return tuple(narrow.region for narrow in substantial(regions, tolerance))


def _swept(room: Relief | Hole) -> Region:
    if isinstance(room, Relief):
        return capsule(room)
    return Region(circle((room.x, room.y), room.dia / 2))


def _stadium(a: Point, b: Point, c: Point, d: Point) -> Path:
    return from_bulges(((*a, 0.0), (*b, 1.0), (*c, 0.0), (*d, 1.0)))


def _named(piece: Narrow, floor: float, *, seats: bool) -> Unreached:
    why = (
        "the cutter is too round for this corner; the part does not reach into it"
        if seats
        else "the cutter is too round for this corner, and the part's corner will ride on it"
    )
    return Unreached(*piece.at, piece.size, why, seats, floor)
