"""A lathe on shapely: the nose with the wedge behind it is swept along a trail, and what is left of
the stock is looked at. Circles are cut to chords no farther than 0.0005 mm from them."""

from __future__ import annotations

import itertools
import math
from dataclasses import dataclass
from functools import cache

import numpy as np
import shapely
from shapely.geometry import MultiPoint, Polygon, box

from jawcam.geometry.flatten import polyline
from jawcam.geometry.shapes import Arc, Line, Region, from_bulges
from jawcam.motion.moves import ArcFeed, LineFeed, Rapid
from jawcam.tolerance import Tolerance
from jawcam.turn.edge import CuttingEdge, Workpiece
from jawcam.turn.trail import TurnTrail

TOLERANCE = Tolerance()
QUARTER = math.tan(math.pi / 8)  # the bulge of a quarter circle, counter-clockwise


def right_hand(radius, falls=7.0, rises=93.0):
    return CuttingEdge(radius, falls, rises, (-radius, -radius))


def left_hand(radius, falls=7.0):
    return CuttingEdge(radius, falls, 93.0, (radius, -radius), hand="left")


def boring(radius, falls=7.0):
    return CuttingEdge(radius, falls, 93.0, (-radius, radius), inside=True)


def turned(rows, length=60.0):
    """A solid part whose profile runs through rows (z, x, bulge) from its free end at z = 0."""
    first, last = rows[0], rows[-1]
    return Region(
        from_bulges([(-length, 0, 0), (0, 0, 0), *rows, (-length, last[1], 0)])
        if first[1] > 0
        else from_bulges([(-length, 0, 0), *rows, (-length, last[1], 0)])
    )


def bar(radius, front=0.0, back=-70.0, hole=0.0):
    return Region(from_bulges([(back, hole, 0), (front, hole, 0), (front, radius, 0),
                               (back, radius, 0)]))  # fmt: skip


def workpiece(part, radius, limit=-50.0, front=0.0, **more):
    return Workpiece(part, bar(radius, front), limit, radius + 2, **more)


def shape(region, chord=1e-5):
    """A region for shapely, with its arcs finely cut."""
    rings = [[p for s in path.segments for p in polyline(s, chord)[:-1]] for path in region.paths]
    return Polygon(rings[0], rings[1:])


def moves(trail, edge):
    """The trail as (motion, its way as nose centres), from the first place that is known."""
    dz, dx = edge.set_point
    at, found = None, []
    for motion in trail.motions:
        if not isinstance(motion, Rapid | LineFeed | ArcFeed):
            continue
        to = (motion.to[0] - dz, motion.to[1] - dx)
        if at is not None:
            way = Line(at, to)
            if isinstance(motion, ArcFeed):
                centre = (motion.centre[0] - dz, motion.centre[1] - dx)
                way = Arc(at, to, centre, motion.ccw)
                assert math.isclose(math.dist(to, centre), way.radius, abs_tol=1e-4)
            found.append((motion, way))
        at = to
    return found


@dataclass
class Lathe:
    """What is left of the stock while a trail is run."""

    edge: CuttingEdge
    left: object
    depth: float = 0.0  # how deep a rapid went into what was left

    def run(self, trail):
        for motion, way in moves(trail, self.edge):
            if isinstance(motion, Rapid):
                swept = self.swept(way, tool_of(self.edge))
                if swept.intersects(self.left):
                    self.depth = max(self.depth, thickness(swept.intersection(self.left)))
            else:
                self.left = self.left.difference(self.cut(way))
        return self

    def swept(self, way, tool):
        ends = [tool + way.start, tool + way.end]
        return shapely.linestrings(np.concatenate(ends)).convex_hull

    def cut(self, way):
        """What a feed takes away: the nose exactly, the wedge behind it along short chords."""
        if isinstance(way, Line):
            return self.swept(way, tool_of(self.edge))
        chords = polyline(way, 9e-4)
        tool = tool_of(self.edge, less=0.001)  # chords cut corners; the nose itself is exact
        wedges = [self.swept(Line(a, b), tool) for a, b in itertools.pairwise(chords)]
        return shapely.union_all([nose_along(way, self.edge.radius), *wedges])


@cache
def tool_of(edge, less=0.0):
    """The nose with its wedge, its centre at the origin."""
    feet = [(0.0, 0.0)]
    for angle in (edge.falls, 180 - edge.rises):
        turn = math.radians(angle)
        feet.append((edge.length * math.cos(turn), edge.length * math.sin(turn)))
    flip_z, flip_x = edge.hand == "left", edge.inside
    feet = [(-z if flip_z else z, -x if flip_x else x) for z, x in feet]
    rings = [p for foot in feet for p in ring(foot, edge.radius - less)]
    return np.array(MultiPoint(rings).convex_hull.exterior.coords)


def ring(centre, radius, count=180):
    turns = [2 * math.pi * k / count for k in range(count)]
    return [(centre[0] + radius * math.cos(t), centre[1] + radius * math.sin(t)) for t in turns]


def nose_along(way, radius):
    """All that a nose covers along a way."""
    ends = [Polygon(ring(p, radius)) for p in (way.start, way.end)]
    if isinstance(way, Line):
        return MultiPoint([*ends[0].exterior.coords, *ends[1].exterior.coords]).convex_hull
    inner = max(way.radius - radius, 0.0)
    sides = []
    for size in (way.radius + radius, inner):
        share = size / way.radius
        points = [
            (
                way.centre[0] + (z - way.centre[0]) * share,
                way.centre[1] + (x - way.centre[1]) * share,
            )
            for z, x in polyline(way, 1e-5)
        ]
        sides.append(points if size else [way.centre])
    return shapely.union_all([Polygon([*sides[0], *reversed(sides[1])]), *ends])


def thickness(area):
    """Twice the radius of the largest disc that fits in, to 0.001 mm; 0 for what is thinner."""
    low, high = 0.0, 4.0
    if area.buffer(-0.0005).is_empty:
        return 0.0
    while high - low > 0.001:
        middle = (low + high) / 2
        low, high = (low, middle) if area.buffer(-middle / 2).is_empty else (middle, high)
    return low


def in_front(limit, margin=0.0):
    """The half plane in front of the limit and behind the end face."""
    return box(limit + margin, 0, -margin, 200)


def height(area, z, top=200.0):
    """The radius of what is left at a Z."""
    cut = area.intersection(shapely.LineString([(z, -0.001), (z, top)]))
    return cut.bounds[3]


def low_point(area, z):
    """The radius of a bore at a Z."""
    return area.intersection(shapely.LineString([(z, 0), (z, 200)])).bounds[1]


def planned(planner, work, edge, job):
    """The trail of one planner."""
    trail = TurnTrail()
    planner(trail, work, edge, job, TOLERANCE)
    return trail


def ran(planner, work, edge, job, left=None):
    """The trail of one planner, and the lathe after it."""
    trail = planned(planner, work, edge, job)
    lathe = Lathe(edge, shape(work.stock) if left is None else left)
    return trail, lathe.run(trail)
