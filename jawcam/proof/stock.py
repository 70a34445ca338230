"""What has been cleared when: the order of the cuts matters to rapids and plunges."""

from __future__ import annotations

import itertools
import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import cached_property

import numpy as np
import shapely
from numpy.typing import NDArray

from jawcam.proof.curve import Floats
from jawcam.proof.move import Move, below, portion
from jawcam.proof.sweep import Shapes, swept

__all__ = ["SLICES", "THIN", "Stock", "stock_of"]

SLICES = 16
"""Into how many pieces a sloping move is divided to be judged, each at its lowest Z."""

THIN = 0.001
"""Material thinner than this, in mm, is a trace of flattened arcs and rounded numbers."""


@dataclass(frozen=True)
class Stock:
    """The feed moves of flat cutters, and what each sweeps.

    moves: in the program's order; shapes, owners: their swept areas and whose they are; low, high:
    the Z of each shape's move; solid: the blanks.
    """

    moves: tuple[Move, ...]
    shapes: Shapes
    owners: NDArray[np.intp]
    low: Floats
    high: Floats
    tree: shapely.STRtree
    solid: shapely.Geometry

    @cached_property
    def levels(self) -> dict[float, shapely.Geometry]:
        """The heights of the level cuts, from the lowest, and what is swept at each."""
        level = self.low == self.high
        heights = [float(z) for z in np.unique(self.low[level])]
        return {z: shapely.union_all(self.shapes[level & (self.low == z)]) for z in heights}

    def cleared(self, z: float) -> shapely.Geometry:
        """What the whole program clears down to `z`.

        A flat cutter clears all above its tip, so every cut with a tip at `z` or lower counts.
        """
        level = [area for height, area in self.levels.items() if height <= z]
        sloping = np.flatnonzero(self.low != self.high)
        return shapely.union_all([*level, *self._down_to(z, sloping)])

    def removed(self) -> tuple[float, float]:
        """The area in plan, mm2, and the volume, mm3, that is taken out of the blanks.

        The area is summed up from each height of level cuts to the next; what sloping cuts clear
        in between counts from the next such height.
        """
        done, volume, reached = shapely.Polygon(), 0.0, -math.inf
        for low, high in itertools.pairwise([*self.levels, 0.0]):
            fresh = (self.low != self.high) & (self.high <= low) & (self.high > reached)
            reached = low
            done = shapely.union_all([done, self.levels[low], *self.shapes[fresh]])
            volume += shapely.area(shapely.intersection(done, self.solid)) * (high - low)
        whole = shapely.union_all([done, *self.shapes[self.low != self.high]])
        return float(shapely.area(shapely.intersection(whole, self.solid))), float(volume)

    def uncut(self, shape: shapely.Geometry, z: float, before: int) -> shapely.Geometry:
        """The material of at least `THIN` that a shape with its underside at `z` meets, before the
        cut of the index `before` is made."""
        meets = shapely.intersection(shape, self.solid)
        if meets.is_empty:
            return meets
        some = np.sort(self.tree.query(meets))
        index = np.array([self.moves[i].index for i in self.owners[some]], dtype=np.intp)
        done = shapely.union_all(self._down_to(z, some[index < before]))
        return shapely.buffer(shapely.difference(meets, done), -THIN / 2)

    def touched(self, move: Move, *, spare: float, lift: float) -> shapely.Geometry:
        """The uncut material that a move meets below the jaw top, empty if there is none.

        spare: by how much the cutter is taken thinner; lift: and higher. A sloping move is judged
        in `SLICES` pieces.
        """
        thin = replace(move.cutter, dia=move.cutter.dia - 2 * spare)
        sloping = not move.upright and move.low != move.high
        count = SLICES if sloping else 1
        met = []
        for k in range(count):
            piece = replace(portion(move, k / count, (k + 1) / count), cutter=thin)
            area = shapely.union_all(swept([piece])[0])
            met.append(self.uncut(area, piece.low + lift, move.index))
        return shapely.union_all(met)

    def _down_to(self, z: float, some: NDArray[np.intp]) -> Shapes:
        """What some of the shapes' moves sweep with their tips at `z` or lower."""
        whole = self.shapes[some[self.high[some] <= z]]
        crossing = self.owners[some[(self.low[some] <= z) & (self.high[some] > z)]]
        pieces = (below(self.moves[i], z) for i in np.unique(crossing))
        return np.concatenate((whole, swept([piece for piece in pieces if piece])[0]))


def stock_of(moves: Sequence[Move], solid: shapely.Geometry) -> Stock:
    """Feed moves of flat cutters -> the stock that they cut."""
    shapes, owners = swept(moves)
    low = np.array([moves[i].low for i in owners], dtype=float)
    high = np.array([moves[i].high for i in owners], dtype=float)
    return Stock(tuple(moves), shapes, owners, low, high, shapely.STRtree(shapes), solid)
