"""Depth: the seat is reached, everywhere at its own height, and nothing lies lower."""

from __future__ import annotations

import shapely

from jawcam.proof.discs import discs
from jawcam.proof.report import Finding
from jawcam.proof.scene import Scene
from jawcam.proof.sweep import path

__all__ = ["depth", "floor_error"]


def depth(scene: Scene) -> list[Finding]:
    """Cuts below the seat, one finding for each Z; a seat never reached or left too high."""
    return [*_too_deep(scene), *_never(scene), *_too_high(scene)]


def floor_error(scene: Scene) -> float | None:
    """The deepest cut's height over the seat in mm, None without a cut."""
    if not scene.low:
        return None
    return min(move.low for move in scene.low) - scene.target.floor


def _too_deep(scene: Scene) -> list[Finding]:
    floor, seen, found = scene.target.floor, set(), []
    for move in scene.low:
        z = round(move.low, 6)
        if z >= floor - scene.limits.level or z in seen:
            continue
        seen.add(z)
        over = floor - move.low
        what = f"cuts {scene.say(over)} below the seat"
        at = min(move.start, move.end, key=lambda point: point[2])
        mend = "check the Z of this block and the depth of the job"
        found.append(scene.find("P401", "stop", what, by=move, at=at, amount=over, mend=mend))
    return found


def _never(scene: Scene) -> list[Finding]:
    last = min(scene.low, key=lambda move: move.low, default=None)
    short = (last.low if last else 0.0) - scene.target.floor
    if short <= scene.limits.rough:
        return []
    what = f"the seat is never reached: the deepest cut ends {scene.say(short)} above it"
    mend = "check the Z words against the depth of the job, and the work offset"
    return [scene.find("P402", "stop", what, by=last, amount=short, mend=mend)]


def _too_high(scene: Scene) -> list[Finding]:
    """Where the last cut stops a little above the seat, for each such Z by the first cut there;
    what ends farther above is left over."""
    floor, limits, stock = scene.target.floor, scene.limits, scene.stock
    cuts = [m for m in stock.moves if floor + limits.level < m.low <= floor + limits.rough]
    if not cuts:
        return []
    nearly = shapely.intersection(stock.cleared(floor + limits.rough), scene.to_clear)
    left = shapely.difference(nearly, stock.cleared(floor + limits.level))
    found: dict[float, Finding] = {}
    for disc in discs(left, limits.left):
        spot = shapely.Point(disc.x, disc.y)
        last = min((m.low for m in cuts if shapely.distance(path(m), spot) <= m.radius), default=0)
        by = next((m for m in cuts if m.low == last), cuts[0])
        over = by.low - floor
        what = f"the seat is left {scene.say(over)} too high"
        at = (disc.x, disc.y, by.low)
        mend = "cut there down to the seat"
        finding = scene.find("P403", "stop", what, by=by, at=at, amount=over, mend=mend)
        found.setdefault(round(by.low, 6), finding)
    return list(found.values())
