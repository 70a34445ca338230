"""The same closing by another way: flattened shapes, moved until GEOS finds that they overlap."""

import math
from dataclasses import dataclass

import numpy as np
import shapely
from shapely import affinity

from jawcam.geometry.flatten import polyline
from jawcam.geometry.shapes import Path, Region
from jawcam.job.model import Blanks

STEP = 0.03  # mm of the first, rough search
FARTHEST = 80.0


def flattened(region: Region, chord: float) -> shapely.Polygon:
    shell, *holes = (
        [p for segment in path.segments for p in polyline(segment, chord)[:-1]]
        for path in region.paths
    )
    return shapely.Polygon(shell, holes)


@dataclass(frozen=True)
class Pair:
    """One jaw and the part, both flattened; way: -1 for the back jaw, which moves towards -Y."""

    jaw: shapely.Geometry
    part: shapely.Geometry
    way: int

    def overlap(self, travel: float) -> shapely.Geometry:
        return affinity.translate(self.jaw, 0, self.way * travel).intersection(self.part)


def pair(part: Path, cavity: Region, blanks: Blanks, way: int, chord: float) -> Pair:
    near, far, half = blanks.gap / 2, blanks.gap / 2 + blanks.thickness, blanks.width / 2
    low, high = sorted((-way * near, -way * far))
    blank = shapely.box(-half, low, half, high)
    return Pair(blank.difference(flattened(cavity, chord)), flattened(Region(part), chord), way)


def approach_by_area(part: Path, cavity: Region, blanks: Blanks, way: int) -> float:
    """The travel at which one jaw begins to overlap the part, which stays where it is."""
    rough = pair(part, cavity, blanks, way, 1e-3)
    steps = np.arange(1, FARTHEST / STEP)
    first = next((k for k in steps.tolist() if rough.overlap(k * STEP).area > 1e-6), None)
    if first is None:
        return math.inf
    fine = pair(part, cavity, blanks, way, 3e-5)
    free, held = max(0.0, (first - 2) * STEP), (first + 1) * STEP
    while held - free > 1e-4:
        middle = (free + held) / 2
        if fine.overlap(middle).area > 1e-9:
            held = middle
        else:
            free = middle
    return held
