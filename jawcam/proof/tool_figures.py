"""What each tool of a program bites off, where the most, and how long it takes."""

from __future__ import annotations

import math

import numpy as np
from numpy.typing import NDArray

from jawcam.proof.curve import Floats
from jawcam.proof.report import Peak, ToolFigures
from jawcam.proof.scene import Scene
from jawcam.proof.spent import spent

__all__ = ["tool_figures"]

SAME = 0.98
"""Of the most: what is as much."""


def tool_figures(scene: Scene) -> tuple[ToolFigures, ...]:
    """Of each tool in the order of their first moves."""
    moves = scene.moves
    time = spent(moves, scene.program, scene.drive)
    bites = scene.bitten
    rows = []
    for tool in dict.fromkeys(move.cutter.number for move in moves):
        own = [k for k, move in enumerate(moves) if move.cutter.number == tool]
        feeds = [k for k in own if moves[k].kind != "rapid"]
        way = math.fsum(moves[k].length for k in feeds)
        some = bites.by(tool)
        cut = float(bites.cut[some].sum())
        rows.append(
            ToolFigures(
                tool,
                width=_peak(scene, bites.width, some),
                depth=_peak(scene, bites.depth, some),
                rate=_peak(scene, bites.rate, some),
                volume=float(bites.volume[some].sum()),
                air=max(1 - cut / way, 0.0) if way > 0 else None,
                feed_minutes=math.fsum(time.steady[k] for k in feeds),
                rapid_minutes=math.fsum(time.steady[k] for k in own)
                - math.fsum(time.steady[k] for k in feeds),
                ramp_minutes=math.fsum(time.ramps[k] for k in own),
            )
        )
    return tuple(rows)


def _peak(scene: Scene, values: Floats, rows: NDArray[np.intp]) -> Peak | None:
    """The largest of some rows' values and where it first is, but for what cells leave uncertain;
    None if there is nothing."""
    most = float(values[rows].max(initial=0.0))
    if most <= 0:
        return None
    row = int(rows[np.argmax(values[rows] >= SAME * most)])
    x, y, z = (float(value) for value in scene.program_place(scene.bitten.place(row)))
    return Peak(most, scene.bitten.move(row).line, x, y, z)
