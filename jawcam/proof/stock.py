"""What has been cleared when: the order of the cuts matters to rapids and plunges."""

from __future__ import annotations

import itertools
from collections.abc import Sequence
from dataclasses import dataclass, replace

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

    moves: in the program's order; shapes, owners: their swept areas and whose they are; alike: the
    same number for the same area, swept again; low, high: the Z of each shape's move; solid: the
    blanks.
    """

    moves: tuple[Move, ...]
    shapes: Shapes
    owners: NDArray[np.intp]
    alike: NDArray[np.intp]
    low: Floats
    high: Floats
    tree: shapely.STRtree
    solid: shapely.Geometry

    def cleared(self, z: float) -> shapely.Geometry:
        """What the whole program clears down to `z`.

        A flat cutter clears all above its tip, so every cut with a tip at `z` or lower counts.
        """
        return shapely.union_all(self._down_to(z, np.arange(len(self.shapes))))

    def removed(self) -> tuple[float, float]:
        """The area in plan, mm2, and the volume, mm3, that is taken out of the blanks.

        The area is summed up from each height of level cuts to the next; what sloping cuts clear
        in between counts from the next such height.
        """
        done, volume = shapely.Polygon(), 0.0
        level, fresh = self.low == self.high, np.ones(len(self.shapes), dtype=np.bool_)
        for low, high in itertools.pairwise([*np.unique(self.low[level]).tolist(), 0.0]):
            now = fresh & np.where(level, self.low == low, self.high <= low)
            done = shapely.union_all([done, *self._distinct(np.flatnonzero(now))])
            fresh &= ~np.isin(self.alike, self.alike[now])  # swept again higher up: nothing new
            volume += shapely.area(shapely.intersection(done, self.solid)) * (high - low)
        whole = shapely.union_all([done, *self._distinct(np.flatnonzero(fresh))])
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

    def _distinct(self, some: NDArray[np.intp]) -> Shapes:
        """Some of the shapes, of those that are alike only one."""
        _, first = np.unique(self.alike[some], return_index=True)
        distinct: Shapes = self.shapes[some[np.sort(first)]]
        return distinct

    def _down_to(self, z: float, some: NDArray[np.intp]) -> Shapes:
        """What some of the shapes' moves sweep with their tips at `z` or lower."""
        whole = self._distinct(some[self.high[some] <= z])
        crossing = self.owners[some[(self.low[some] <= z) & (self.high[some] > z)]]
        pieces = (below(self.moves[i], z) for i in np.unique(crossing))
        return np.concatenate((whole, swept([piece for piece in pieces if piece])[0]))


def stock_of(moves: Sequence[Move], solid: shapely.Geometry) -> Stock:
    """Feed moves of flat cutters -> the stock that they cut."""
    first: dict[object, int] = {}
    for number, move in enumerate(moves):
        first.setdefault(move.track, number)
    firsts = list(first.values())
    sweeps, whose = swept([moves[number] for number in firsts])
    parts = {number: np.flatnonzero(whose == k) for k, number in enumerate(firsts)}
    own = [parts[first[move.track]] for move in moves]
    alike = np.concatenate([*own, np.empty(0, dtype=np.intp)])
    owners = np.repeat(np.arange(len(moves)), [len(part) for part in own]).astype(np.intp)
    shapes: Shapes = sweeps[alike]
    low = np.array([move.low for move in moves], dtype=np.float64)[owners]
    high = np.array([move.high for move in moves], dtype=np.float64)[owners]
    return Stock(tuple(moves), shapes, owners, alike, low, high, shapely.STRtree(shapes), solid)
