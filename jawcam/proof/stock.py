"""What has been cleared when: the order of the cuts matters to rapids and plunges."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import cached_property
from typing import NamedTuple

import numpy as np
import shapely
from numpy.typing import NDArray

from jawcam.progress import Told, silent
from jawcam.proof.curve import Floats
from jawcam.proof.move import Move, below, slices
from jawcam.proof.sweep import Shapes, swept

__all__ = ["THIN", "Rung", "Stock", "stock_of"]

NEAR = 1e-4
"""mm; so near the top of what stands above sloping cuts is known."""

AT = 1e-6
"""mm below a height: what stands there stands up to it."""

THIN = 0.001
"""Material thinner than this, in mm, is a trace of flattened arcs and rounded numbers."""


class Rung(NamedTuple):
    """What is cleared down to a height; its area within the blanks."""

    z: float
    done: shapely.Geometry
    area: float


BARE = Rung(-math.inf, shapely.Polygon(), 0.0)


@dataclass(frozen=True)
class Stock:
    """The feed moves of flat cutters, and of drills as far as their full diameter goes, and what
    each sweeps.

    moves: in the program's order; shapes, owners: their swept areas and whose they are; alike: the
    same number for the same area, swept again; low, high: the Z of each shape's move; solid: the
    blanks; top: their height before they are cut; told: hears of each height that is done.
    """

    moves: tuple[Move, ...]
    shapes: Shapes
    owners: NDArray[np.intp]
    alike: NDArray[np.intp]
    low: Floats
    high: Floats
    tree: shapely.STRtree
    solid: shapely.Geometry
    top: float
    told: Told = silent

    @cached_property
    def rungs(self) -> tuple[Rung, ...]:
        """What is cleared by the moves that end at each height of level cuts or below it, from the
        deepest up. What sloping cuts clear between two such heights counts from the next one."""
        done, rungs = shapely.Polygon(), []
        fresh = np.ones(len(self.shapes), dtype=np.bool_)
        heights = np.unique(self.low[self.low == self.high]).tolist()
        for z in heights:
            now = fresh & (self.high <= z)
            done = shapely.union_all([done, *self._distinct(np.flatnonzero(now))])
            fresh &= ~np.isin(self.alike, self.alike[now])  # swept again higher up: nothing new
            rungs.append(Rung(z, done, float(shapely.area(shapely.intersection(done, self.solid)))))
            self.told("levels proven", len(rungs), len(heights))
        return tuple(rungs)

    def cleared(self, z: float) -> shapely.Geometry:
        """What the whole program clears down to `z`.

        A flat cutter clears all above its tip, so every cut with a tip at `z` or lower counts.
        """
        rung = max((r for r in self.rungs if r.z <= z), default=BARE, key=lambda rung: rung.z)
        more = self._down_to(z, np.flatnonzero((self.low <= z) & (self.high > rung.z)))
        return shapely.union_all([rung.done, *more]) if len(more) else rung.done

    def area(self) -> float:
        """The area in plan that is taken out of the blanks, mm2."""
        last = self.rungs[-1] if self.rungs else BARE
        more = self._distinct(np.flatnonzero(self.high > last.z))
        if not len(more):
            return last.area
        whole = shapely.union_all([last.done, *more])
        return float(shapely.area(shapely.intersection(whole, self.solid)))

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

    def stands(self, shape: shapely.Geometry, z: float, before: int) -> bool:
        """Whether anything of it stands above `z` within a shape in plan, likewise."""
        return z < self.top - AT and not bool(self.uncut(shape, z, before).is_empty)

    def height(self, shape: shapely.Geometry, z: float, before: int) -> float:
        """How high stands at most what stands above `z` within a shape, likewise. Where only level
        cuts have been made it is one of their heights or the top, and exact; above sloping cuts it
        is sought to `NEAR`."""
        floors = np.unique(self.low[self.low == self.high])
        heights = [z, *floors[(floors > z) & (floors < self.top)].tolist(), self.top]
        low, high = 0, len(heights)  # it stands up to the one, not up to the other
        while high - low > 1:
            middle = (low + high) // 2
            stands = self.stands(shape, heights[middle] - AT, before)
            low, high = (middle, high) if stands else (low, middle)
        if high == len(heights) or not self.stands(shape, heights[low] + AT, before):
            return float(heights[low])
        under, over = heights[low], heights[high]
        while over - under > NEAR:
            z = (under + over) / 2
            under, over = (z, over) if self.stands(shape, z, before) else (under, z)
        return float(over)

    def touched(self, move: Move, *, spare: float, lift: float) -> shapely.Geometry:
        """The uncut material that a flat cutter meets below the blanks' top, empty if there is
        none.

        spare: by how much the cutter is taken thinner; lift: and higher. A sloping move is judged
        by pieces, each at its lowest Z.
        """
        thin = replace(move.cutter, dia=move.cutter.dia - 2 * spare)
        met = []
        for piece in slices(replace(move, cutter=thin)):
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


def stock_of(
    moves: Sequence[Move], solid: shapely.Geometry, top: float = 0.0, told: Told = silent
) -> Stock:
    """Feed moves of flat cutters, or of what clears like them -> the stock that they cut."""
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
    tree = shapely.STRtree(shapes)
    return Stock(tuple(moves), shapes, owners, alike, low, high, tree, solid, top, told)
