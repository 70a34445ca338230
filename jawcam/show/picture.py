"""Everything that the views draw from, worked out once."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from jawcam.hold.target import Target
from jawcam.reader.cuts import Program
from jawcam.show.amiss import NOTHING, Amiss
from jawcam.show.arrays import Bools, Floats, Moves, columns
from jawcam.show.measure import Measures, in_order, measure
from jawcam.show.path import Depths, depths
from jawcam.show.scene import Scene, setting
from jawcam.show.stretch import WHOLE, Stretch, stretch_of
from jawcam.show.trace import ENTRY, FEED, RAPID, Strands, Trace, flatten, in_units, strands
from jawcam.tools.cutter import Cutter
from jawcam.units import Units

__all__ = ["Picture", "picture"]

FINE, COARSE = 8000, 2000
"""How many chord errors the path's extent holds: below a fortieth of a mm on the page; of a program
of more than `MANY` moves below a tenth."""

MANY = 100_000

STRAY = 0.6
"""How far rapid moves may lead out of what is cut, as a share of its extent, and still be shown."""


@dataclass(frozen=True)
class Picture:
    """What is drawn, all from the program's origin.

    program: with the moves of the target's work offset alone, if it makes any; elsewhere: the other
    offsets that it serves. moves: in mm; trace, path (the strands of each look), depths, scene: in
    `units`. low, high: what blanks and path span; stray: rapid moves lead beyond; zero_near: the
    origin lies within; amiss: what is left and gouged; stretch: what of
    the program is drawn.
    """

    program: Program
    elsewhere: tuple[int, ...]
    target: Target | None
    units: Units
    cutters: dict[int, Cutter]
    moves: Moves
    trace: Trace
    path: tuple[Strands, ...]
    depths: Depths
    measures: Measures
    scene: Scene | None
    low: tuple[float, float, float]
    high: tuple[float, float, float]
    stray: bool
    zero_near: bool
    amiss: Amiss = NOTHING
    stretch: Stretch = WHOLE

    def cutter_of(self, move: int | None) -> Cutter | None:
        """The cutter that makes a move, if it is known."""
        return None if move is None else self.cutters.get(self.program.cuts[move].tool)


def picture(
    program: Program,
    target: Target | None,
    units: Units,
    cutters: Sequence[Cutter],
    rapid_rate: float,
    stretch: Stretch = WHOLE,
) -> Picture:
    """Work out what is drawn; the program has at least one move. Raises InputError if the stretch
    of it that is wanted has none."""
    program, elsewhere = _at_the_station(stretch_of(program, stretch), target)
    moves = columns(program.cuts)
    chord = _extent(moves, target) / (FINE if len(program.cuts) <= MANY else COARSE)
    in_mm = flatten(moves, chord)
    trace = in_units(in_mm, units)
    known = {c.number: c for c in (*cutters, *(target.cutters if target else ()))}
    scene = setting(target, units, chord) if target else None
    measures = measure(moves, in_mm, rapid_rate)
    first = known.get(program.cuts[measures.first].tool) if measures.first is not None else None
    low, high, stray, zero_near = _bounds(trace, scene, units.from_mm(first.radius if first else 0))
    deep = depths(trace, scene.top if scene else None)
    return Picture(
        program=program,
        elsewhere=elsewhere,
        target=target,
        units=units,
        cutters=known,
        moves=moves,
        trace=trace,
        path=tuple(strands(trace, look) for look in (RAPID, FEED, ENTRY)),
        depths=deep,
        measures=measures,
        scene=scene,
        low=low,
        high=high,
        stray=stray,
        zero_near=zero_near,
        stretch=stretch,
    )


def _at_the_station(program: Program, target: Target | None) -> tuple[Program, tuple[int, ...]]:
    """The program with the moves at the target's work offset alone, and the other offsets; all of
    it if there is no target or nothing moves at its offset.
    """
    offsets = in_order(program.cuts, "work_offset")
    if target is None or target.work_offset not in offsets:
        return program, ()
    own = tuple(cut for cut in program.cuts if cut.work_offset == target.work_offset)
    others = tuple(number for number in offsets if number != target.work_offset)
    return replace(program, cuts=own), others


def _extent(moves: Moves, target: Target | None) -> float:
    """The greatest length in plan, about, in mm."""
    if target:
        return max(target.blanks.width, target.blanks.thickness * 2 + target.blanks.gap)
    feeding = ~moves.rapid if not moves.rapid.all() else moves.rapid
    low, high = _span(moves.start, moves.end, feeding)
    radius = np.where(moves.arc, moves.radii[0], 0.0).max()
    return max(float((high - low).max()), float(radius), 1e-3)


def _span(start: Floats, end: Floats, chosen: Bools) -> tuple[Floats, Floats]:
    """The box round the chosen rows of both."""
    lows = [ends[chosen].min(axis=0, initial=np.inf) for ends in (start, end)]
    highs = [ends[chosen].max(axis=0, initial=-np.inf) for ends in (start, end)]
    return np.minimum(*lows), np.maximum(*highs)


def _bounds(
    trace: Trace, scene: Scene | None, radius: float
) -> tuple[tuple[float, float, float], tuple[float, float, float], bool, bool]:
    """What the views must hold: the blanks, all feed moves with the cutter's radius about them,
    and the rapid moves and the origin so far as they don't lead far away.
    """
    feeding = trace.look != RAPID
    chosen = feeding if feeding.any() else ~feeding
    low, high = _span(trace.start, trace.end, chosen)
    low[:2] -= radius
    high[:2] += radius
    if scene:
        raw_top = scene.top + scene.facing
        shapes = [*(b.bounds for b in scene.blanks), scene.cavity.bounds]
        for x0, y0, x1, y1 in shapes:
            low = np.minimum(low, (x0, y0, scene.bottom))
            high = np.maximum(high, (x1, y1, max(scene.clearance, scene.part_top, raw_top)))
    most = STRAY * np.maximum(high - low, (high - low)[:2].max() / 4)
    inside = [
        ((ends >= low - most) & (ends <= high + most)).all(axis=1)
        for ends in (trace.start, trace.end)
    ]
    zero_near = bool(((low[:2] - most[:2] <= 0) & (high[:2] + most[:2] >= 0)).all())
    for ends, near in zip((trace.start, trace.end), inside, strict=True):
        low = np.minimum(low, ends[near].min(axis=0, initial=np.inf))
        high = np.maximum(high, ends[near].max(axis=0, initial=-np.inf))
    if zero_near:
        low[:2], high[:2] = np.minimum(low[:2], 0), np.maximum(high[:2], 0)
    thin = np.maximum((0.02 * (high - low).max() or 1.0) - (high - low), 0) / 2
    (x0, y0, z0), (x1, y1, z1) = (low - thin).tolist(), (high + thin).tolist()
    return (x0, y0, z0), (x1, y1, z1), not all(near.all() for near in inside), zero_near
