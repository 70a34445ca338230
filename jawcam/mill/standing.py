"""What still stands in a region that is being cleared, and its fronts."""

from __future__ import annotations

import math
from collections.abc import Sequence

from jawcam.geometry.shapes import Point, Region
from jawcam.geometry.uncut import SKIN, Front, Lump, Whole, fronts_of, reached, without
from jawcam.mill.engaged import Edge, edges_of
from jawcam.mill.law import Law

__all__ = ["Standing"]


class Standing:
    """Lumps of what is uncut; those that a pass does not touch stay the same ones, and so do their
    fronts. law: of the cutter that clears; centre: where its centre may be."""

    def __init__(self, law: Law, centre: Region) -> None:
        self.law = law
        self.lumps = reached(centre, law.radius)
        self._fronts: dict[Lump, list[Front]] = {}
        self._edges: dict[Lump, list[Edge]] = {}
        self._walls: dict[Whole, bool] = {}

    @property
    def area(self) -> float:
        """Of all that stands, mm2."""
        return math.fsum(one.area for one in self.lumps)

    def take(self, points: Sequence[Point]) -> None:
        """The cutter goes along the points of a path."""
        self.lumps = without(self.lumps, points, self.law.radius)

    def fronts(self) -> list[Front]:
        """The fronts of all lumps but the thinnest."""
        known, edges, law = self._fronts, self._edges, self.law
        thick = [lump for lump in self.lumps if lump.thick >= SKIN]
        self._fronts = {
            lump: known.get(lump) or fronts_of(lump, law.rim, law.radius, self._walls)
            for lump in thick
        }
        self._edges = {
            lump: edges.get(lump) or edges_of(some, law.spacing)
            for lump, some in self._fronts.items()
        }
        return [front for some in self._fronts.values() for front in some]

    def edges(self) -> list[Edge]:
        """The same as numbers, as they were when they were last asked for."""
        return [edge for some in self._edges.values() for edge in some]

    def left_of(self, lump: Lump) -> list[Front]:
        """The fronts of a lump, or of what is left of it."""
        (a, b, c, d) = lump.box
        return [
            front
            for front in self.fronts()
            if (box := front.lump.box)[0] >= a and box[1] >= b and box[2] <= c and box[3] <= d
        ]
