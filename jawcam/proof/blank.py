"""The blanks: the floor under the cavity, the walls beside and behind it."""

from __future__ import annotations

import numpy as np
import shapely

from jawcam.proof.move import Move
from jawcam.proof.report import Finding
from jawcam.proof.scene import Scene

__all__ = ["blank", "floor_left", "wall_left"]


def blank(scene: Scene) -> list[Finding]:
    """Where too little of the blanks is left."""
    return [*_floor(scene), *_walls(scene)]


def floor_left(scene: Scene) -> float | None:
    """The thickness under the deepest cut, mm; negative: how far it goes through."""
    if not scene.low:
        return None
    return scene.target.blanks.height + min(move.low for move in scene.low)


def wall_left(scene: Scene) -> float | None:
    """The least thickness left at an end or behind, mm; negative: how far it goes out."""
    return min((left for left, _, _ in _sides(scene)), default=None)


def _floor(scene: Scene) -> list[Finding]:
    left = floor_left(scene)
    if left is None or left >= scene.limits.floor:
        return []
    lowest = min(scene.low, key=lambda move: move.low)
    at = min(lowest.start, lowest.end, key=lambda point: point[2])
    if left < -scene.limits.level:
        what = f"cuts through the bottom of the blank, {scene.say(-left)} below it"
        mend = "cut less deep, or take a higher blank"
        return [scene.find("P701", "stop", what, by=lowest, at=at, amount=-left, mend=mend)]
    what = f"only {scene.say(max(left, 0.0))} of the blank is left under the cut"
    mend = "take a higher blank, or seat the part less deep"
    return [scene.find("P702", "warn", what, by=lowest, at=at, amount=left, mend=mend)]


def _sides(scene: Scene) -> list[tuple[float, str, Move]]:
    """What is left at each end and behind each blank, where, and the move that comes nearest."""
    if not scene.low:
        return []
    b = scene.target.blanks
    bounds = shapely.bounds(scene.low_tracks)
    radii = np.array([move.radius for move in scene.low])
    far = b.gap / 2 + b.thickness
    rows = (
        ("at the left end", b.width / 2 + bounds[:, 0] - radii),
        ("at the right end", b.width / 2 - bounds[:, 2] - radii),
        ("behind the front blank", far + bounds[:, 1] - radii),
        ("behind the back blank", far - bounds[:, 3] - radii),
    )
    best = [(where, int(np.argmin(left)), left) for where, left in rows]
    return [(float(left[i]), where, scene.low[i]) for where, i, left in best]


def _walls(scene: Scene) -> list[Finding]:
    found = []
    mend = "move the part along the jaws, or take a larger blank"
    for left, where, move in _sides(scene):
        if left <= scene.limits.level:
            what = f"the cutter breaks out {where}"
            found.append(scene.find("P703", "stop", what, by=move, amount=left, mend=mend))
        elif left < scene.limits.wall:
            what = f"only {scene.say(left)} of wall is left {where}"
            found.append(scene.find("P704", "warn", what, by=move, amount=left, mend=mend))
    return found
