"""The figures of a lathe report: what was measured, and what the program removes and costs."""

from __future__ import annotations

import math
from collections.abc import Sequence

import shapely

from jawcam.proof.report import Figures, Finding
from jawcam.proof.spent import between
from jawcam.proof.turning.gouge import Bite, worst_bite
from jawcam.proof.turning.material import History
from jawcam.proof.turning.scene import Scene
from jawcam.proof.turning.section import revolved
from jawcam.proof.turning.thread_volume import thread_volumes
from jawcam.proof.turning.tool_figures import tool_figures
from jawcam.proof.turning.untold import unjudged, untold

__all__ = ["figures"]


def figures(
    scene: Scene, past: History, found: Sequence[Finding], bitten: Sequence[Bite]
) -> Figures:
    """All of them. found: what the checks came to; area: of the half section, without threads."""
    feeds = [move for move in scene.moves if move.kind != "rapid"]
    rapids = [move for move in scene.moves if move.kind == "rapid"]
    left = [f.amount for f in found if f.code in ("T301", "T302") and f.amount is not None]
    removed = shapely.difference(scene.section.stock, past.remaining)
    threads = thread_volumes(scene, past.remaining)
    tools = tool_figures(scene, threads)
    changes, dwells = between(scene.program, scene.target.work_offset, scene.drive)
    return Figures(
        gouge=worst_bite(bitten),
        left_over=max(left, default=0.0),
        feed_length=math.fsum(move.length for move in feeds),
        rapid_length=math.fsum(move.length for move in rapids),
        feed_minutes=math.fsum(tool.feed_minutes for tool in tools),
        rapid_minutes=math.fsum(tool.rapid_minutes for tool in tools),
        ramp_minutes=math.fsum(tool.ramp_minutes for tool in tools),
        change_minutes=changes,
        dwell_minutes=dwells,
        assumed=scene.drive.assumed,
        area=float(removed.area),
        volume=revolved(removed) + math.fsum(threads.values()),
        tools=tools,
        untold=untold(scene),
        unjudged=unjudged(scene),
    )
