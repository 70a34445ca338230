"""What the tests of straight-in cuts share: what an insert sweeps, by another engine."""

import itertools
import math

import shapely
from shapely.affinity import translate

from jawcam.geometry.shapes import Arc
from jawcam.motion.moves import ArcFeed, LineFeed, Rapid


def ways(motions, kinds=(LineFeed, ArcFeed)):
    """What the set point passes with each motion of these kinds, as dense points."""
    at = None
    for motion in motions:
        if not isinstance(motion, Rapid | LineFeed | ArcFeed):
            continue
        to = motion.to[:2]
        if isinstance(motion, kinds) and at is not None:
            if isinstance(motion, ArcFeed):
                arc = Arc(at, to, motion.centre, motion.ccw)
                count = max(2, math.ceil(arc.sweep * math.sqrt(arc.radius / 8e-6)))
                yield [at, *(arc.point(k / count) for k in range(1, count)), to]
            else:
                yield [at, to]
        at = to


def insert(width, radius, reach=50.0, *, inside=False):
    """The insert and its blade with the set point at 0, 0."""
    if radius:
        corners = shapely.MultiPoint([(radius, radius), (width - radius, radius)])
        low = corners.buffer(radius, quad_segs=128).convex_hull
    else:
        low = shapely.LineString([(0, 0), (width, 0)])
    shape = shapely.union_all([low, shapely.box(0, radius, width, reach)])
    return shapely.affinity.scale(shape, 1, -1, origin=(0, 0)) if inside else shape


def swept(motions, tool, kinds=(LineFeed, ArcFeed)):
    """All that a convex tool covers on its way."""
    covered = []
    for points in ways(motions, kinds):
        for a, b in itertools.pairwise(points):
            ends = shapely.union_all([translate(tool, *a), translate(tool, *b)])
            covered.append(ends.convex_hull)
    return shapely.union_all(covered)
