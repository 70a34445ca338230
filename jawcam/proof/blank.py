"""The blanks: the floor under the cavity, the walls beside and behind it."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
import shapely

from jawcam.proof.move import Move
from jawcam.proof.report import Finding, Grade
from jawcam.proof.scene import Scene
from jawcam.proof.sweep import path

__all__ = ["blank", "floor_left", "wall_left"]


def blank(scene: Scene) -> list[Finding]:
    """Where too little of the blanks is left."""
    return [*_floor(scene), *_walls(scene)]


def floor_left(scene: Scene) -> float | None:
    """The thickness under the deepest cut in the cavity, mm; negative: how far it goes through."""
    return _thickness(scene, _others(scene))


def wall_left(scene: Scene) -> float | None:
    """The least thickness left at an end or behind, mm; negative: how far it goes out."""
    return min((left for left, _, _ in _sides(scene)), default=None)


def _others(scene: Scene) -> list[Move]:
    """The low pieces of all cutters but drills."""
    return [move for move in scene.low if scene.role(move) not in ("drill", "spot")]


def _thickness(scene: Scene, moves: Sequence[Move]) -> float | None:
    if not moves:
        return None
    return scene.target.blanks.height + min(move.low for move in moves)


def _floor(scene: Scene) -> list[Finding]:
    """A finding for the deepest cut in the cavity and one for the deepest drilled hole."""
    found = []
    for moves in (_others(scene), scene.drilled):
        left = _thickness(scene, moves)
        if left is None or left >= scene.limits.floor:
            continue
        lowest = min(moves, key=lambda move: move.low)
        at = min(lowest.start, lowest.end, key=lambda point: point[2])
        grade: Grade = "stop" if left < -scene.limits.level else "warn"
        if grade == "stop":
            code, amount = "P701", -left
            what = f"cuts through the bottom of the blank, {scene.say(-left)} below it"
            mend = "cut less deep, or take a higher blank"
        else:
            code, amount = "P702", left
            what = f"only {scene.say(max(left, 0.0))} of the blank is left under the cut"
            mend = "take a higher blank, or seat the part less deep"
        found.append(scene.find(code, grade, what, by=lowest, at=at, amount=amount, mend=mend))
    return found


def _sides(scene: Scene) -> list[tuple[float, str, Move]]:
    """What is left at each end and behind each blank, where, and the move that comes nearest."""
    # facing a little too deep is told as such, and always goes beyond the blanks
    level = scene.limits.rough if scene.target.facing > 0 else scene.limits.level
    inside = [i for i, piece in enumerate(scene.milled) if piece.move.low < -level]
    deep = [move for move in scene.drilled if move.low < -level]
    tracks = [*scene.milled_tracks[inside], *(path(move) for move in deep)]
    moves = [*(scene.milled[i].move for i in inside), *deep]
    if not moves:
        return []
    b = scene.target.blanks
    bounds = shapely.bounds(tracks)
    radii = np.array([move.radius for move in moves])
    far = b.gap / 2 + b.thickness
    rows = (
        ("at the left end", b.width / 2 + bounds[:, 0] - radii),
        ("at the right end", b.width / 2 - bounds[:, 2] - radii),
        ("behind the front blank", far + bounds[:, 1] - radii),
        ("behind the back blank", far - bounds[:, 3] - radii),
    )
    best = [(where, int(np.argmin(left)), left) for where, left in rows]
    return [(float(left[i]), where, moves[i]) for where, i, left in best]


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
