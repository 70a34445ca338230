"""Everything that the picture of a lathe program draws from, worked out once."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np
import shapely

from jawcam.hold.turn_target import TurnTarget
from jawcam.reader.cuts import Cut, Program
from jawcam.show.amiss import NOTHING, Amiss
from jawcam.show.arrays import Bools, Floats, Ints, Moves, columns
from jawcam.show.measure import in_order
from jawcam.show.page import Box
from jawcam.show.stretch import WHOLE, Stretch, stretch_of
from jawcam.show.trace import RAPID, Trace, flatten
from jawcam.show.turned_inserts import Standing, standings
from jawcam.show.turned_scene import TurnScene, jaw_front, turned_setting
from jawcam.tools.turner import Turner
from jawcam.units import Units

__all__ = ["FEED", "GROOVE", "THREAD", "Strand", "TurnPicture", "turned_picture"]

FEED, GROOVE, THREAD = 1, 2, 3
"""The looks of feed moves beside RAPID (0): turning, boring and drilling; grooving and parting
off; passes of threads."""

FINE = 8000
"""How many chord errors the work's extent holds: below a fortieth of a mm on the page."""

STRAY = 0.3
"""How far rapid moves may lead out of what is cut, as a share of its extent, and be shown."""

HELD = 0.22
"""How much of the chuck is shown behind its front, as a share of the work in front of it."""

TAILSTOCK = 0.12
"""How much of a tailstock is shown, likewise."""


@dataclass(frozen=True)
class Strand:
    """Moves of one look and tool that follow each other without a gap: points (k, 2)."""

    look: int
    tool: int
    points: Floats


@dataclass(frozen=True)
class TurnPicture:
    """What is drawn, all from the program's origin.

    program: with the moves of the target's work offset alone, if it makes any. moves: in mm; trace:
    rows (z, x, 0), path, scene, content: in `units`; standing: in mm. order: the numbers of the
    tools that move. stray: rapid moves lead beyond the picture; ends_near: whether it holds the
    start and the end of the program.
    """

    program: Program
    elsewhere: tuple[int, ...]
    target: TurnTarget
    units: Units
    moves: Moves
    trace: Trace
    path: tuple[Strand, ...]
    standing: tuple[Standing, ...]
    scene: TurnScene
    content: Box
    order: tuple[int, ...]
    stray: bool
    ends_near: tuple[bool, bool]
    amiss: Amiss = NOTHING
    stretch: Stretch = WHOLE

    @property
    def tools(self) -> dict[int, Turner]:
        """The job's tools by their numbers."""
        return {tool.number: tool for tool in self.target.tools}


def turned_picture(
    program: Program, target: TurnTarget, units: Units, stretch: Stretch = WHOLE
) -> TurnPicture:
    """Work out what is drawn; the program has at least one move. Raises InputError if the stretch
    of it that is wanted has none."""
    program, elsewhere = _at_the_station(stretch_of(program, stretch), target)
    tools = {tool.number: tool for tool in target.tools}
    moves = columns(program.cuts)
    chord = max(np.ptp([(z, x) for z, x, _ in target.stock], axis=0).max(), 1e-3) / FINE
    in_mm = flatten(moves, chord * 100)  # which takes upright arcs a hundred times finer
    across = [2, 0, 1]
    in_mm = replace(in_mm, start=in_mm.start[:, across], end=in_mm.end[:, across])
    called = np.array([cut.tool for cut in program.cuts])[in_mm.move]
    trace = replace(in_mm, start=in_mm.start / units.in_mm, end=in_mm.end / units.in_mm)
    scene = turned_setting(target, units, chord)
    looks = np.array([_look(cut, tools) for cut in program.cuts])[in_mm.move]
    content, near = _bounds(trace, target, scene, units)
    return TurnPicture(
        program=program,
        elsewhere=elsewhere,
        target=target,
        units=units,
        moves=moves,
        trace=trace,
        path=tuple(_strands(trace, looks, called)),
        standing=tuple(standings(in_mm, moves, tools, called)),
        scene=scene,
        content=content,
        order=tuple(in_order(program.cuts, "tool")),
        stray=not near.all(),
        ends_near=(bool(near[0]), bool(near[-1])),
        stretch=stretch,
    )


def _at_the_station(program: Program, target: TurnTarget) -> tuple[Program, tuple[int, ...]]:
    offsets = in_order(program.cuts, "work_offset")
    if target.work_offset not in offsets:
        return program, ()
    own = tuple(cut for cut in program.cuts if cut.work_offset == target.work_offset)
    others = tuple(number for number in offsets if number != target.work_offset)
    return replace(program, cuts=own), others


def _look(cut: Cut, tools: dict[int, Turner]) -> int:
    if cut.kind == "rapid":
        return RAPID
    if cut.lead > 0:
        return THREAD
    tool = tools.get(cut.tool)
    return GROOVE if tool is not None and tool.kind in {"grooving", "parting"} else FEED


def _strands(trace: Trace, looks: Ints, called: Ints) -> list[Strand]:
    """Pieces joined where one follows the other with the same tool and look; those without length
    alone are left out."""
    gap = (trace.start[1:] != trace.end[:-1]).any(axis=1)
    new = gap | (looks[1:] != looks[:-1]) | (called[1:] != called[:-1])
    first = np.concatenate([[0], np.flatnonzero(new) + 1])
    last = np.concatenate([first[1:], [len(looks)]])
    strands = []
    for a, b in zip(first.tolist(), last.tolist(), strict=True):
        points = np.vstack([trace.start[a : a + 1, :2], trace.end[a:b, :2]])
        if (points != points[0]).any():
            strands.append(Strand(int(looks[a]), int(called[a]), points))
    return strands


def _bounds(trace: Trace, target: TurnTarget, scene: TurnScene, units: Units) -> tuple[Box, Bools]:
    """What the view must hold, and which ends of moves it does: the work in front of the chuck and
    some of the chuck, all feed moves, and the rapid moves so far as they don't lead far away."""
    rear, _, front, wide = scene.stock.bounds
    held = jaw_front(target)
    back = scene.limit if held is None else units.from_mm(held)
    span = max(front - back, wide)
    low = np.array([max(min(back, scene.limit) - HELD * span, min(rear, scene.limit)), -wide])
    high = np.array([front, wide])
    shown = scene.mirrored & shapely.box(low[0], -2 * wide, front, 0.0)
    low[1] = shown.bounds[1] if not shown.is_empty else -wide / 2
    if any(shape.bounds[2] > front + 1e-6 for shape in scene.keep_off):
        high[0] += TAILSTOCK * span
    feeding = trace.look != RAPID
    for ends in (trace.start[feeding, :2], trace.end[feeding, :2]):
        low = np.minimum(low, ends.min(axis=0, initial=np.inf))
        high = np.maximum(high, ends.max(axis=0, initial=-np.inf))
    most = STRAY * np.maximum(high - low, (high - low).max() / 4)
    ends = np.concatenate([trace.start[:, :2], trace.end[:, :2]])
    near: Bools = ((ends >= low - most) & (ends <= high + most)).all(axis=1)
    low = np.minimum(low, ends[near].min(axis=0, initial=np.inf))
    high = np.maximum(high, ends[near].max(axis=0, initial=-np.inf))
    (z0, x0), (z1, x1) = low.tolist(), high.tolist()
    return Box(z0, x0, z1 - z0, x1 - x0), near
