"""The figures of a report: what was measured, and what the program removes and costs."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace

from jawcam.proof.blank import floor_left, wall_left
from jawcam.proof.bolts import bolt_clearance
from jawcam.proof.depth import floor_error
from jawcam.proof.floors import floors
from jawcam.proof.gouge import deepest_bite
from jawcam.proof.needs import needs
from jawcam.proof.report import Figures, Finding
from jawcam.proof.scene import Scene
from jawcam.proof.spent import between
from jawcam.proof.tool_figures import tool_figures
from jawcam.proof.untold import unjudged, untold

__all__ = ["figures", "spent"]


def figures(scene: Scene, found: Sequence[Finding]) -> Figures:
    """All of them. found: what the checks came to."""
    error = floor_error(scene)
    left = [f.amount for f in found if f.code in ("P301", "P302") and f.amount is not None]
    return replace(
        spent(scene),
        gouge=deepest_bite(scene, found),
        left_over=max(left, default=0.0),
        floor_error=error,
        deepest=None if error is None else error + scene.tiers[-1].floor - scene.target.zero[2],
        bolt_clearance=bolt_clearance(scene),
        wall_left=wall_left(scene),
        floor_left=floor_left(scene),
        area=scene.stock.area(),
        levels=_levels(scene),
    )


def spent(scene: Scene) -> Figures:
    """What the program takes off, what it costs, what its tools need and what isn't told."""
    cuts = [move for move in scene.moves if move.kind != "rapid"]
    rapids = [move for move in scene.moves if move.kind == "rapid"]
    tools = tool_figures(scene)
    changes, dwells = between(scene.program, scene.target.work_offset, scene.drive)
    return Figures(
        feed_length=math.fsum(move.length for move in cuts),
        rapid_length=math.fsum(move.length for move in rapids),
        feed_minutes=math.fsum(tool.feed_minutes for tool in tools),
        rapid_minutes=math.fsum(tool.rapid_minutes for tool in tools),
        ramp_minutes=math.fsum(tool.ramp_minutes for tool in tools),
        change_minutes=changes,
        dwell_minutes=dwells,
        assumed=scene.drive.assumed,
        volume=math.fsum(tool.volume for tool in tools),
        tools=tools,
        needs=needs(scene),
        untold=untold(scene),
        unjudged=unjudged(scene),
    )


def _levels(scene: Scene) -> tuple[tuple[float, float], ...]:
    """The flat floors: of a cutter with a rounded end only what its tip leaves."""
    tips = {move.low for move, _ in scene.milled}
    return tuple((z - scene.target.zero[2], a) for z, a in floors(scene.stock) if z in tips)
