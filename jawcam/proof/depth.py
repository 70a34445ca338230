"""Depth: the seat is reached, all floors are at their own heights, and nothing lies lower."""

from __future__ import annotations

import shapely

from jawcam.proof.discs import discs
from jawcam.proof.report import Finding
from jawcam.proof.scene import Scene
from jawcam.proof.sweep import path
from jawcam.proof.tiers import Tier

__all__ = ["depth", "floor_error"]


def depth(scene: Scene) -> list[Finding]:
    """Cuts below all floors, one finding for each Z; a seat never reached; floors too high."""
    high = (finding for tier in scene.tiers for finding in _too_high(scene, tier))
    return [*_too_deep(scene), *_never(scene), *high]


def floor_error(scene: Scene) -> float | None:
    """The deepest cut's height over the deepest floor in mm, None without a cut."""
    if not scene.milled:
        return None
    return min(piece.move.low for piece in scene.milled) - scene.tiers[-1].floor


def _too_deep(scene: Scene) -> list[Finding]:
    tier, seen, found = scene.tiers[-1], set(), []
    for move, _ in scene.milled:
        z = round(move.low, 6)
        if z >= tier.floor - scene.limits.level or z in seen:
            continue
        seen.add(z)
        over = tier.floor - move.low
        what = f"cuts {scene.say(over)} below {scene.name(tier)}"
        at = min(move.start, move.end, key=lambda point: point[2])
        mend = "check the Z of this block and the depth of the job"
        found.append(scene.find("P401", "stop", what, by=move, at=at, amount=over, mend=mend))
    return found


def _never(scene: Scene) -> list[Finding]:
    moves = (piece.move for piece in scene.milled)
    last = min(moves, key=lambda move: move.low, default=None)
    short = (last.low if last else 0.0) - scene.target.floor
    if short <= scene.limits.rough:
        return []
    what = f"the seat is never reached: the deepest cut ends {scene.say(short)} above it"
    mend = "check the Z words against the depth of the job, and the work offset"
    return [scene.find("P402", "stop", what, by=last, amount=short, mend=mend)]


def _too_high(scene: Scene, tier: Tier) -> list[Finding]:
    """Where the last cut stops a little above a floor, for each such Z by the first cut there;
    what ends farther above is left over."""
    floor, limits, stock = tier.floor, scene.limits, scene.stock
    cuts = [m for m in stock.moves if floor + limits.level < m.low <= floor + tier.rough]
    if not cuts:
        return []
    nearly = shapely.intersection(stock.cleared(floor + tier.rough), tier.shelf)
    left = shapely.difference(nearly, stock.cleared(floor + limits.level))
    found: dict[float, Finding] = {}
    for disc in discs(left, limits.left):
        spot = shapely.Point(disc.x, disc.y)
        last = min((m.low for m in cuts if shapely.distance(path(m), spot) <= m.radius), default=0)
        by = next((m for m in cuts if m.low == last), cuts[0])
        over = by.low - floor
        what = f"{scene.name(tier)} is left {scene.say(over)} too high"
        at = (disc.x, disc.y, by.low)
        mend = f"cut there down to {scene.name(tier)}"
        finding = scene.find("P403", "stop", what, by=by, at=at, amount=over, mend=mend)
        found.setdefault(round(by.low, 6), finding)
    return list(found.values())
