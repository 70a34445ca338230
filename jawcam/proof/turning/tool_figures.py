"""What each lathe tool cuts off, where the most, and how long it takes."""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping, Sequence

from jawcam.proof.report import Peak, ToolFigures
from jawcam.proof.tool_figures import SAME
from jawcam.proof.turning.chips import Chip, chips
from jawcam.proof.turning.scene import Scene
from jawcam.proof.turning.spent import spent

__all__ = ["tool_figures"]


def tool_figures(scene: Scene, threads: Mapping[int, float]) -> tuple[ToolFigures, ...]:
    """Of each tool in the order of their first moves. threads: what passes of threads take off, mm3
    by the tools' numbers. Places are in the program's axes: X is a diameter, Y 0."""
    moves = scene.moves
    time = spent(moves, scene.program, scene.drive)
    cut = chips(scene)
    rows = []
    for tool in dict.fromkeys(move.tool.number for move in moves):
        own = [k for k, move in enumerate(moves) if move.tool.number == tool]
        feeds = [k for k in own if moves[k].kind != "rapid"]
        some = [chip for chip in cut if moves[chip.move].tool.number == tool]
        way = math.fsum(chip.way for chip in some)
        met = math.fsum(chip.way for chip in some if chip.cuts)
        cutting = math.fsum(time.steady[k] for k in feeds)
        rows.append(
            ToolFigures(
                tool,
                depth=_peak(scene, some, lambda chip: chip.depth),
                rate=_peak(scene, some, lambda chip: chip.rate),
                volume=math.fsum(chip.volume for chip in some) + threads.get(tool, 0.0),
                air=max(1 - met / way, 0.0) if way > 0 else None,
                feed_minutes=cutting,
                rapid_minutes=math.fsum(time.steady[k] for k in own) - cutting,
                ramp_minutes=math.fsum(time.ramps[k] for k in own),
            )
        )
    return tuple(rows)


def _peak(scene: Scene, some: Sequence[Chip], value: Callable[[Chip], float]) -> Peak | None:
    """The largest of some steps' values and where it first is; None if there is nothing."""
    most = max(map(value, some), default=0.0)
    if most <= 0:
        return None
    first = next(chip for chip in some if value(chip) >= SAME * most)
    z, x = first.at
    return Peak(most, scene.moves[first.move].cut.line, 2 * x, 0.0, z)
