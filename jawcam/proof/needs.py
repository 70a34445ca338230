"""What each tool must have at least: flutes as long as it cuts deep, and so much stick-out that its
holder meets nothing.

Where the job tells a shank or a holder, it is followed through what stands at each move. Where it
doesn't, the shank is taken to be as thick as the cutter and the holder wider than anything, so that
it has to stay at the clearance above all that stands.
"""

from __future__ import annotations

from collections.abc import Sequence

from jawcam.proof.bodies import RUB
from jawcam.proof.move import Move
from jawcam.proof.report import ToolNeed
from jawcam.proof.scene import Scene
from jawcam.proof.standing import rise
from jawcam.tools.cutter import Cutter

__all__ = ["bite_depth", "needs", "relieved"]


def needs(scene: Scene) -> tuple[ToolNeed, ...]:
    """What the tools that cut must have for this setup, in the order of their first cuts."""
    feeds = [move for move in scene.moves if move.kind != "rapid"]
    faced = _first_faced(scene, feeds)
    found = []
    for cutter in dict.fromkeys(move.cutter for move in feeds):
        own = [move for move in feeds if move.cutter == cutter]
        lowest = min(move.low for move in own)
        flutes = max(0.0, *(_depth(scene, move, faced) for move in own))
        if relieved(cutter):
            flutes = bite_depth(scene, cutter)
        elif cutter.shank is not None or scene.seated:
            radius = cutter.shank_dia / 2 + RUB
            flutes = rise(scene.stock, own, radius, scene.limits.level)
        out = max(scene.stick_outs[cutter.number], flutes)
        found.append(ToolNeed(cutter.number, flutes, out, lowest - scene.target.zero[2]))
    return tuple(found)


def relieved(cutter: Cutter) -> bool:
    """Whether the shank is thinner than the flutes, so that it rubs on nothing that they clear."""
    return cutter.shank is not None and cutter.shank / 2 <= cutter.radius - RUB


def bite_depth(scene: Scene, cutter: Cutter) -> float:
    """The thickest that a tool cuts in one go, mm."""
    rows = scene.bitten.by(cutter.number)
    return float(scene.bitten.depth[rows].max(initial=0.0))


def _depth(scene: Scene, move: Move, faced: float) -> float:
    """How deep a move cuts under what stands highest then: before the tops are faced, these."""
    return (scene.target.facing if move.index < faced else 0.0) - move.low


def _first_faced(scene: Scene, feeds: Sequence[Move]) -> float:
    """The number of the first cut that runs level at the jaw top, where that is faced; a part's top
    counts as long as it is cut."""
    if scene.seated:
        return float("inf")
    if scene.target.facing <= 0:
        return 0
    level = scene.limits.level
    flat = (m.index for m in feeds if abs(m.low) < level and m.high - m.low < level)
    return next(flat, float("inf"))
