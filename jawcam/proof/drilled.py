"""Drilled holes: each in its place, as deep as it should be, by its own drill; and no other."""

from __future__ import annotations

import math
from collections.abc import Sequence

from jawcam.hold.target import Hole
from jawcam.proof.form import radius_at
from jawcam.proof.move import Move
from jawcam.proof.report import Finding
from jawcam.proof.scene import Scene

__all__ = ["drilled"]

SPOT_WIDER, SPOT_ROUND = 1.2, 0.5
"""A spot may be wider at the jaw top than its hole's diameter times the one plus the other, mm: a
broken edge (common practice, no source)."""


def drilled(scene: Scene) -> list[Finding]:
    """What is wrong with each hole, and drills that go below the jaw top elsewhere."""
    holes = scene.target.drilled
    mine: list[list[Move]] = [[] for _ in holes]
    stray: dict[tuple[int, float, float], Move] = {}
    for move in scene.drilled:
        if move.upright and move.end[2] >= move.start[2]:
            continue  # the way out of what it went into
        nearest = min(range(len(holes)), key=lambda i: _off(holes[i], move))
        if move.upright and _off(holes[nearest], move) < holes[nearest].dia / 2:
            mine[nearest].append(move)
        else:
            x, y, _ = move.end
            stray.setdefault((move.cutter.number, round(x, 3), round(y, 3)), move)
    found = [_stray(scene, move) for move in stray.values()]
    for number, (hole, moves) in enumerate(zip(holes, mine, strict=True), start=1):
        name = f"hole {number} (dia {scene.say(hole.dia)})"
        found += _off_place(scene, hole, name, moves)
        drills = [move for move in moves if scene.role(move) == "drill"]
        found += _drilled(scene, hole, name, drills)
        found += _spotted(scene, hole, name, [m for m in moves if scene.role(m) == "spot"])
    return found


def _off(hole: Hole, move: Move) -> float:
    return math.dist((hole.x, hole.y), move.end[:2])


def _stray(scene: Scene, move: Move) -> Finding:
    way = "goes below the jaw top where no hole is to be drilled"
    if not move.upright:
        way = "goes across below the jaw top"
    what = f"T{move.cutter.number}, a {move.cutter.kind}, {way}"
    mend = "drill at the holes' places only, straight down, and rise clear in between"
    return scene.find("P906", "stop", what, by=move, mend=mend)


def _off_place(scene: Scene, hole: Hole, name: str, moves: Sequence[Move]) -> list[Finding]:
    """One finding for each drill and place beside the hole's own."""
    found: dict[tuple[int, float, float], Finding] = {}
    for move in moves:
        off, (x, y, _) = _off(hole, move), move.end
        if off <= scene.limits.gouge or (move.cutter.number, x, y) in found:
            continue
        what = f"T{move.cutter.number} goes down {scene.say(off)} beside the middle of {name}"
        mend = "check the X and Y of this block"
        finding = scene.find("P902", "stop", what, by=move, amount=off, mend=mend)
        found[move.cutter.number, x, y] = finding
    return list(found.values())


def _drilled(scene: Scene, hole: Hole, name: str, moves: Sequence[Move]) -> list[Finding]:
    """Whether the right drill, and only that, goes as deep as it should."""
    feeds = [move for move in moves if move.kind != "rapid"]
    if not feeds:
        at, mend = (hole.x, hole.y, hole.floor), f"drill it with T{hole.tool}"
        return [scene.find("P901", "stop", f"{name} is not drilled", at=at, mend=mend)]
    wrong = [m for m in moves if m.cutter.number != hole.tool or m.cutter.dia != hole.dia]
    if wrong:
        cutter = wrong[0].cutter
        said = f"T{cutter.number} (dia {scene.say(cutter.dia)})"
        what = f"{said} goes into {name}, which is T{hole.tool}'s"
        amount, mend = abs(cutter.dia - hole.dia), f"call T{hole.tool} first"
        return [scene.find("P905", "stop", what, by=wrong[0], amount=amount, mend=mend)]
    level, last = scene.limits.level, min(feeds, key=lambda move: move.low)
    short = last.low + last.cutter.point_length - hole.floor
    if short > level:
        what, mend = f"{name} is {scene.say(short)} too shallow", "check the Z of its last block"
        return [scene.find("P903", "stop", what, by=last, amount=short, mend=mend)]
    return _too_deep(scene, hole, name, moves)


def _too_deep(scene: Scene, hole: Hole, name: str, moves: Sequence[Move]) -> list[Finding]:
    last = min(moves, key=lambda move: move.low, default=None)
    if last is None or hole.tip - last.low <= scene.limits.level:
        return []
    over = hole.tip - last.low
    what = f"T{last.cutter.number} goes {scene.say(over)} deeper than the tip of {name} should"
    mend = "check the Z of this block, which is that of the tool's point"
    at = min(last.start, last.end, key=lambda point: point[2])
    return [scene.find("P904", "stop", what, by=last, at=at, amount=over, mend=mend)]


def _spotted(scene: Scene, hole: Hole, name: str, moves: Sequence[Move]) -> list[Finding]:
    """A spot is no wider than the hole and a broken edge, and no deeper."""
    last = min(moves, key=lambda move: move.low, default=None)
    most = hole.dia * SPOT_WIDER + SPOT_ROUND
    wide = 2 * radius_at(last.cutter, -last.low) if last else 0.0
    if last is not None and wide > most + scene.limits.gouge:
        what = (
            f"the spot of {name} is {scene.say(wide)} wide at the jaw top, more than "
            f"{scene.say(most)}"
        )
        mend = "spot it less deep"
        at = min(last.start, last.end, key=lambda point: point[2])
        amount = wide - most
        return [scene.find("P907", "stop", what, by=last, at=at, amount=amount, mend=mend)]
    return _too_deep(scene, hole, name, moves)
