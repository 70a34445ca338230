"""Where the nose's centre may be: seen as a right-hand outside tool, all in (z, x) and mm."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

from jawcam.errors import InternalError
from jawcam.geometry.combine import intersection, union
from jawcam.geometry.cut import begun_near, tangent_at
from jawcam.geometry.measure import nearest_on
from jawcam.geometry.offset import grow
from jawcam.geometry.shapes import Arc, Path, Point, Region, Segment
from jawcam.geometry.sweep import slid_along_x
from jawcam.geometry.transform import moved
from jawcam.tolerance import Tolerance
from jawcam.turn.edge import CuttingEdge, View, Workpiece
from jawcam.turn.reach import box, covered, hull_box, lowest

__all__ = ["Field"]

_FAR = 50.0  # mm; beyond anything that a tool comes near
_NEAR = 1e-5  # mm; nearer than this to a line is on it


@dataclass(frozen=True)
class Field:
    """solid: the part and the stock behind the limit, with their shadows. stock: what can be cut.
    wall: the Z of the limit and front: that of the part's free end; rim: how high the
    end face stands there. high: the height at which the centre travels, home: where it does so in
    front of the work. frame: a box round all. ahead: whether the free end is to the right."""

    view: View
    edge: CuttingEdge
    tolerance: Tolerance
    solid: tuple[Region, ...]
    stock: Region
    wall: float
    front: float
    rim: float
    high: float
    home: Point
    frame: tuple[float, float, float, float]
    clearance: float

    @staticmethod
    def of(work: Workpiece, edge: CuttingEdge, tolerance: Tolerance) -> Field:
        """The work as this edge meets it."""
        view = View.of(edge)
        part, stock = view.region(work.part), view.region(work.stock)
        z0, x0, z1, x1 = hull_box([part, stock])
        wall = view.point((work.limit, 0.0))[0]
        high = view.point((0.0, work.free))[1] + edge.radius
        frame = (
            min(z0, wall) - _FAR,
            min(x0, 0.0) - _FAR,
            max(z1, wall) + _FAR,
            max(x1, high) + _FAR,
        )
        behind = box(*_beyond(wall, frame, ahead=view.flip_z), frame[1], frame[3])
        kept = intersection([stock], [behind], tolerance)
        solid = covered([part, *kept], edge.falls, edge.rises, lowest([part, stock]), tolerance)
        front = view.point((work.part.outer.box[2], 0.0))[0]
        ends = (work.part.outer.box[2], work.stock.outer.box[2], work.front)
        home = view.point((max(ends) + edge.radius + work.clearance, 0.0))[0]
        rim = _rim([part, *solid], front)
        return Field(
            view, edge, tolerance, solid, stock, wall, front, rim, high, (home, high), frame,
            work.clearance,
        )  # fmt: skip

    @property
    def ahead(self) -> bool:
        """Whether the free end is to the right, where the tool comes from."""
        return not self.view.flip_z

    def keep_out(self, leave: float = 0.0, leave_face: float = 0.0) -> tuple[Region, ...]:
        """Where the centre of the nose may not be, leaving `leave` mm on radius and `leave_face`
        along Z: the solid grown by the nose and the lesser of the two, then slid in X or along Z
        by what is missing. Nothing at the limit's far side is free, however high."""
        tol, least = self.tolerance, min(leave, leave_face)
        # small rounds grown by many times their radius want a copy as much finer
        fine = replace(tol, chord=tol.chord / 100)
        grown = grow(self.solid, self.edge.radius + least, fine)
        if leave > least:
            grown = tuple(_raised(region, leave - least) for region in grown)
        elif leave_face > least:
            grown = tuple(
                slid for region in grown for slid in slid_along_x(region, leave_face - least, tol)
            )
        return union([*grown, self.barred(self.edge.radius + leave_face)], tol)

    def barred(self, distance: float) -> Region:
        """The far side of the limit and what is nearer to it than `distance`, to any height."""
        z0, x0, z1, x1 = self.frame
        at = self.wall + (distance if self.ahead else -distance)
        return box(*_beyond(at, (z0, x0, z1, x1), ahead=not self.ahead), x0, x1)

    def before_face(self) -> Region:
        """The place in front of the part's end and below its rim: to be faced, not turned."""
        low, high = _beyond(self.front, self.frame, ahead=self.ahead)
        return box(low, high, self.frame[1], self.rim)

    def behind_axis(self) -> Region:
        """Beyond the axis: no outside tool cuts there."""
        z0, x0, z1, _ = self.frame
        return box(z0, z1, x0, 0.0)

    def contour(self, regions: Sequence[Region], radius: float) -> tuple[Segment, ...]:
        """The outline of regions (the solid grown by `radius`, and what is barred) from the rim of
        the free end to the limit, the way that the tool feeds; the limit's own line not in it."""
        at = self.wall + (radius if self.ahead else -radius)
        start = self._first(regions, radius)
        run: list[Segment] = []
        for segment in start.segments:
            if all(abs(z - at) < _NEAR for z, _ in (segment.start, segment.end)):
                return _ordered(run, forward=self.ahead)
            run.append(segment)
        raise InternalError("the outline of a turned part does not come to its limit")

    def _first(self, regions: Sequence[Region], radius: float) -> Path:
        """The outline of regions, begun at the rim of the free end and led away from there."""
        solid = _led_from(self.solid, (self.front, self.rim), forward=self.ahead)
        if radius == 0:
            return _led_from(regions, (self.front, self.rim), forward=self.ahead)
        dz, dx = tangent_at(solid.segments[0], solid.start)
        out = (dx, -dz) if self.ahead else (-dx, dz)
        beside = (self.front + radius * out[0], self.rim + radius * out[1])
        return _led_from(regions, beside, forward=self.ahead)


def _beyond(
    at: float, frame: tuple[float, float, float, float], *, ahead: bool
) -> tuple[float, float]:
    """The Z from `at` on, to the right if `ahead`, else to the left."""
    return (at, frame[2]) if ahead else (frame[0], at)


def _raised(region: Region, by: float) -> Region:
    return Region(moved(region.outer, 0.0, by), tuple(moved(h, 0.0, by) for h in region.holes))


def _rim(regions: Sequence[Region], front: float) -> float:
    """How high regions stand at the Z of the free end."""
    found = []
    for segment in (s for region in regions for s in region.outer.segments):
        if abs(segment.start[0] - front) < _NEAR:
            found.append(segment.start[1])
        z0, _, z1, _ = Path((segment,)).box
        bulges = all(abs(z - front) > _NEAR for z, _ in (segment.start, segment.end))
        near = min(abs(z0 - front), abs(z1 - front)) < _NEAR
        if isinstance(segment, Arc) and near and bulges:
            found.append(segment.centre[1])
    return max(found)


def _led_from(regions: Sequence[Region], near: Point, *, forward: bool) -> Path:
    """The outline that comes nearest to a point, begun there; counter-clockwise if `forward`."""
    outers = [region.outer for region in regions]
    outer = min(outers, key=lambda path: math.dist(nearest_on(path, near)[1], near))
    return begun_near(outer if forward else outer.reversed(), near)


def _ordered(run: Sequence[Segment], *, forward: bool) -> tuple[Segment, ...]:
    return tuple(run) if forward else tuple(segment.reversed() for segment in reversed(run))
