"""How much a job takes out of its blanks, by areas at each height, from its target alone: outlines
grown and opened by GEOS without its offset of polygons, and integrated over the height."""

import math
from functools import lru_cache
from itertools import pairwise

import numpy as np
import shapely
from whole_outlines import bulged
from whole_swept import capsules, grown, jaws

SAGITTA, QUARTER = 5e-4, 20  # how finely arcs are flattened, mm, and round ends, chords
SPOT_CHAMFER = 0.2  # the width that a spot leaves at a hole's mouth, as the job's notes tell it
POINTS, WEIGHTS = np.polynomial.legendre.leggauss(3)


def rings_within(area, reach):
    """All that lies within `reach` of an area's edge."""
    parts = [part for part in shapely.get_parts(area) if part.geom_type == "Polygon"]
    rings = [ring for part in parts for ring in (part.exterior, *part.interiors)]
    points = [shapely.get_coordinates(ring) for ring in rings]
    ends = [np.stack((row[:-1], row[1:]), axis=1) for row in points]
    edges = shapely.linestrings(np.concatenate(ends)) if ends else []
    return shapely.union_all(shapely.buffer(edges, reach, quad_segs=QUARTER))


def opened(area, radius):
    """What a disc of `radius` covers that stays in an area."""
    left = shapely.difference(area, rings_within(area, radius))
    return shapely.union(left, rings_within(left, radius))


def volume_of(target):
    """What must go, as far as round cutters reach it, mm3."""
    heights = _heights(target)
    section = _Sections(target)
    total = 0.0
    for low, high in pairwise(heights):
        half, middle = (high - low) / 2, (high + low) / 2
        if section.steep(middle):
            total += 2 * half * section.area(middle)
            continue
        areas = [section.area(middle + half * point) for point in POINTS]
        total += half * float(np.dot(WEIGHTS, areas))
    return total


def _heights(target):
    """Between two neighbours the area changes by squares of the height at most."""
    heights = {0.0, target.facing, *(level.floor for level in target.levels)}
    heights |= {relief.floor for relief in target.reliefs}
    for hole in target.drilled:
        heights |= {hole.floor, hole.tip, -SPOT_CHAMFER}
    if target.edge:
        heights.add(-target.edge)
    return sorted(heights)


class _Sections:
    def __init__(self, target):
        self.target, self.blanks = target, jaws(target.blanks)
        half, near = target.blanks.width, target.blanks.gap / 2
        self.gap = shapely.box(-half, -near, half, near)
        mills = [c for c in target.cutters if c.kind == "end mill"]
        self.radius = min(cutter.radius for cutter in mills)
        self.cavity, self.outline = lru_cache(None)(self._cavity), lru_cache(None)(self._outline)

    def _cavity(self, loops, reliefs):
        """Some outlines, opened by the smallest cutter, which may go through the gap too, and some
        reliefs."""
        area = opened(shapely.union_all([*map(self.outline, loops), self.gap]), self.radius)
        slots = [capsules([r.start, r.end], r.radius) for r in reliefs]
        return shapely.union_all([area, *slots])

    def _outline(self, loop):
        """One outline, grown and without holes."""
        area = grown(bulged(list(loop), SAGITTA), self.target.grip, self.target.side)
        solid = [shapely.Polygon(part.exterior) for part in shapely.get_parts(area)]
        return shapely.union_all(solid)

    def steep(self, z):
        """Whether all walls stand upright at a height."""
        mouths = [(hole.tip, hole.floor) for hole in self.target.drilled]
        mouths += [(-SPOT_CHAMFER, 0.0)] if self.target.drilled else []
        mouths += [(-self.target.edge, 0.0)]
        return not any(low < z < high for low, high in mouths)

    def area(self, z):
        """Of the section at a height."""
        target = self.target
        if z > 0:
            return self.blanks.area
        loops = [loop for level in target.levels if level.floor <= z for loop in level.outlines]
        reliefs = tuple(relief for relief in target.reliefs if relief.floor <= z)
        area = self.cavity(tuple(dict.fromkeys(loops)), reliefs) if loops else shapely.Polygon()
        if z > -target.edge:
            area = shapely.union(area, rings_within(area, target.edge + z))
        area = shapely.union_all([area, *(self._hole(hole, z) for hole in target.drilled)])
        return shapely.intersection(area, self.blanks).area

    def _hole(self, hole, z):
        """A cylinder over a cone; with a spot the mouth is broken at 45 degrees."""
        radius = hole.dia / 2
        if z < hole.floor:
            radius *= max(z - hole.tip, 0.0) / (hole.floor - hole.tip)
        if any(cutter.kind == "spot drill" for cutter in self.target.cutters):
            radius = max(radius, hole.dia / 2 + SPOT_CHAMFER + z) if hole.kind == "stop" else radius
        return shapely.buffer(shapely.Point(hole.x, hole.y), radius, quad_segs=64)


# --- on the lathe -----------------------------------------------------------------------------


def turned_about(area):
    """The volume of a half section turned about the axis (Pappus)."""
    return 0.0 if area.is_empty else math.tau * area.centroid.y * area.area


def turned_volume(target):
    """What a lathe's target wants off, as far as its tools run, and its threads, mm3."""
    stock, finished = (
        shapely.Polygon(bulged(list(loop), SAGITTA)) for loop in (target.stock, target.finished)
    )
    go = shapely.difference(stock, finished)
    front = shapely.box(target.limit, 0.0, stock.bounds[2], stock.bounds[3])
    total = turned_about(shapely.intersection(go, front))
    return total + sum(thread_volume(thread, finished) for thread in target.threads)


def thread_volume(thread, finished, places=400):
    """What a sharp V takes of what is finished: the mean over places all along, times as many as
    there are pitches on the way."""
    half = math.tan(math.radians(thread.flanks) / 2)
    into = 1.0 if thread.inside else -1.0
    low, high = sorted((thread.start, thread.end))
    way = high - low + 2 * thread.depth
    step = way / places
    total = 0.0
    for k in range(places):
        z = low + (k + 0.5) * step
        share = (z - thread.start) / (thread.end - thread.start)
        crest = thread.first + (thread.last - thread.first) * share
        tip, top = crest + into * thread.depth, crest - into * thread.depth
        wide = 2 * thread.depth * half
        vee = shapely.Polygon([(z, tip), (z + wide, top), (z - wide, top)])
        total += turned_about(shapely.intersection(vee, finished)) * step / thread.pitch
    return total
