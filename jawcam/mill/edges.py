"""The pocket's top edges, broken by a chamfer mill that follows the pocket's outline, climb."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from functools import partial

import numpy as np

from jawcam.errors import FaultList, Place
from jawcam.geometry.combine import union
from jawcam.geometry.cut import along, begun_near
from jawcam.geometry.measure import inside_distances, nearest_on, roomiest
from jawcam.geometry.narrow import too_narrow
from jawcam.geometry.offset import shrink
from jawcam.geometry.shapes import Path, Point, Region, polygon
from jawcam.hold.target import Blanks
from jawcam.mill.entry import Descent, descend
from jawcam.mill.links import Air, hop, straight_way
from jawcam.mill.order import Stop
from jawcam.mill.trail import Trail
from jawcam.mill.visits import visit_stops
from jawcam.tolerance import Tolerance
from jawcam.units import Units

__all__ = ["Edges", "break_edges", "edge_paths", "left_sharp"]

OVER, SHARE, LEAST = 0.5, 0.2, 0.1
"""How far the tip reaches below the chamfer, so that the slow tip itself does not cut: in mm, but
no more than a share of the flank's height; where the floor is near, less, down to the least in mm
(common practice, no source)."""

UNDER = 0.2
"""mm of air between the tip and the floor under it (common practice, no source)."""

BESIDE = 0.2
"""mm of air all round the cone where the cutter goes down and up."""

RAMP = 3.0
"""Degrees; how gently it goes down along the edge itself where there is no such place."""

SPACING = 1.0
"""mm between the places of the outline where it is tried to begin."""


@dataclass(frozen=True)
class Edges:
    """What breaking the edges needs to know; lengths in mm, angle in degrees, feed in mm/min.

    pockets: as cut at the jaw top, not overlapping; width: of the chamfer, seen from above; angle
    (between the flanks), tip_dia, dia: of the chamfer mill; floor: the Z of the highest floor
    under the edges; units, place: for what may be wrong.
    """

    pockets: tuple[Region, ...]
    blanks: Blanks
    width: float
    angle: float
    tip_dia: float
    dia: float
    floor: float
    feed: float
    air: Air
    tolerance: Tolerance
    place: Place
    units: Units = Units.MM

    @property
    def slope(self) -> float:
        """How much wider the cone gets, on radius, for each mm up."""
        return math.tan(math.radians(self.angle / 2))

    @property
    def flank(self) -> float:
        """How high the cone is."""
        return (self.dia - self.tip_dia) / 2 / self.slope

    @property
    def over(self) -> float:
        """How far the tip reaches below the chamfer's lower end."""
        room = -self.floor - UNDER - self.width / self.slope
        return min(OVER, SHARE * self.flank, max(room, LEAST))

    @property
    def tip(self) -> float:
        """The Z of the tip while it cuts."""
        return -self.width / self.slope - self.over

    @property
    def reach(self) -> float:
        """The cone's radius at the chamfer's lower end: how far inside the outline its axis goes.
        At the jaw top it is `width` wider."""
        return self.tip_dia / 2 + self.over * self.slope


def break_edges(trail: Trail, edges: Edges) -> None:
    """Cut a chamfer along the whole outline of each pocket; what crosses the gap cuts air.

    The cutter goes down where its cone touches nothing, straight over to the outline, round, and
    back; where a pocket is too narrow for that it goes down along the edge. Raises InputError as
    `edge_paths` does.
    """
    if edges.width <= 0:
        return
    paths = edge_paths(edges)
    room = union((*edges.pockets, *_gap(edges.blanks, edges.dia)), edges.tolerance)
    beside = edges.reach + edges.width + BESIDE
    clear = shrink(room, beside, edges.tolerance)
    free = shrink(room, edges.reach, edges.tolerance)
    visit_stops(trail, [_round(edges, path, _beginning(path, clear, free)) for path in paths])


def edge_paths(edges: Edges) -> tuple[Path, ...]:
    """Where the chamfer mill's axis goes: closed paths, the edge on the right of each, which is
    climb milling for a spindle that turns clockwise.

    Raises InputError for a chamfer too wide for the cutter, a tip too deep for the floor, and
    each pocket that the cone does not get into anywhere.
    """
    faults = FaultList()
    _check_size(edges, faults)
    _check_floor(edges, faults)
    faults.raise_if_any()
    for pocket in edges.pockets:
        _check_room(edges, pocket, faults)
    faults.raise_if_any()
    inside = shrink(edges.pockets, edges.reach, edges.tolerance)
    return tuple(path for region in inside for path in region.paths)


def _check_size(edges: Edges, faults: FaultList) -> None:
    say, needed = edges.units.say, 2 * (edges.reach + edges.width)
    if needed > edges.dia + 1e-9:
        most = edges.dia / 2 - edges.reach
        faults.add(
            f"a chamfer mill of {say(edges.dia)} is too small for edges broken by "
            f"{say(edges.width)}",
            edges.place,
            f"take one of at least {say(needed)}, or break the edges by {say(most)} or less",
        )


def _check_floor(edges: Edges, faults: FaultList) -> None:
    say, most = edges.units.say, (-edges.floor - UNDER - LEAST) * edges.slope
    if edges.tip < edges.floor + UNDER - 1e-9:
        less = f"break the edges by {say(most)} or less, or " if most > 0 else ""
        faults.add(
            f"to break the edges by {say(edges.width)} the chamfer mill's tip goes "
            f"{say(-edges.tip)} deep, too near to the floor {say(-edges.floor)} below the jaw top",
            edges.place,
            f"{less}take a chamfer mill with a larger angle",
        )


def _check_room(edges: Edges, pocket: Region, faults: FaultList) -> None:
    if shrink([pocket], edges.reach, edges.tolerance):
        return
    say = edges.units.say
    at, room = roomiest(pocket)
    faults.add(
        f"a pocket only {say(2 * room)} wide is too narrow for the chamfer mill, which is "
        f"{say(2 * edges.reach)} wide at the foot of the chamfer",
        replace(edges.place, at=edges.units.point(*at)),
        "take a chamfer mill with a finer tip or a smaller angle, or don't break the edges",
    )


def _gap(blanks: Blanks, beyond: float) -> tuple[Region, ...]:
    """The gap between the blanks, seen from above, and so much beyond their ends."""
    x, y = blanks.width / 2 + beyond, blanks.gap / 2
    return (Region(polygon([(-x, -y), (x, -y), (x, y), (-x, y)])),) if y > 0 else ()


def _beginning(
    path: Path, clear: Sequence[Region], free: Sequence[Region]
) -> tuple[Point, Point] | None:
    """Where the cutter goes down and where it then joins a path; None if there is no such place.

    clear: where its cone touches nothing; free: where it only touches what is to be cut. The
    deeper in the clear the path itself runs, as above the gap, the better; else the nearer to it.
    """
    if not clear:
        return None
    places = [p for segment in path.segments for p in along(segment, SPACING)]
    depths = inside_distances(clear, np.array(places)).round(4).tolist()
    for depth, place in sorted(zip(depths, places, strict=True), key=lambda row: -row[0]):
        if depth >= 0:
            return place, place
        near = [nearest_on(outline, place)[1] for one in clear for outline in one.paths]
        down = min(near, key=lambda p: round(math.dist(p, place), 4))
        if straight_way(down, place, free):
            return down, place
    return None


def _round(
    edges: Edges, path: Path, way: tuple[Point, Point] | None
) -> tuple[Stop, Callable[[Trail], None]]:
    """Where the cutter goes down and comes up again, and how it goes round a path."""
    if way is None:
        return Stop(path.start, path.start), partial(_ramped, edges=edges, path=path)
    begun = begun_near(path, way[1])
    return Stop(way[0], way[0]), partial(_joined, edges=edges, path=begun, down=way[0])


def _joined(trail: Trail, edges: Edges, path: Path, down: Point) -> None:
    """Down in the clear, straight over, once round, back and up to the clearance."""
    tip, feed = edges.tip, edges.feed
    hop(trail, down, 0.0, (), edges.air)
    trail.feed(*down, tip, feed)
    trail.feed(*path.start, tip, feed)
    trail.trace(path, tip, [feed] * len(path.segments))
    trail.feed(*down, tip, feed)
    trail.rapid(*trail.plan, edges.air.clearance)


def _ramped(trail: Trail, edges: Edges, path: Path) -> None:
    """Down along a path, once round it, and up to the clearance."""
    tip, feed = edges.tip, edges.feed
    hop(trail, path.start, 0.0, (), edges.air)
    descend(trail, Descent("ramp", path.start), Region(path), 0.0, tip, RAMP, feed)
    trail.trace(path, tip, [feed] * len(path.segments))
    trail.rapid(*trail.plan, edges.air.clearance)


def left_sharp(edges: Edges) -> tuple[str, ...]:
    """A note for each place that the cone does not get into."""
    say = edges.units.say
    return tuple(
        f"the chamfer mill does not get into the pocket at {edges.units.point(*place.at)}, "
        f"{say(place.size)} wide there: its edges stay sharp or are broken less"
        for place in too_narrow(edges.pockets, 2 * edges.reach, edges.tolerance)
    )
