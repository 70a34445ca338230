"""The machine's travel, and the height at which tools are changed.

Where the job tells where the program's origin stands in the travel, every move must stay within it.
Else the moves must at least not span more than the axis goes. Of Z the spindle's nose counts: as
far above the tip as tool and holder are long together, which the job may tell or not.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import shapely

from jawcam.proof.move import Move
from jawcam.proof.report import Finding
from jawcam.proof.scene import Scene
from jawcam.reader.cuts import Change, Cut

__all__ = ["travel"]


@dataclass(frozen=True)
class _Axis:
    """An axis: its name; how far it goes; where the program's origin stands on it, None if that
    isn't told; the least and the most of each move, from the origin."""

    name: str
    goes: float
    origin: float | None
    spans: tuple[tuple[float, float, Move], ...]


def travel(scene: Scene) -> list[Finding]:
    """Findings for moves beyond the travel and for tools changed too low."""
    found = [one for axis in _axes(scene) for one in _beyond(scene, axis)]
    return [*found, *_changes(scene)]


def _axes(scene: Scene) -> Iterator[_Axis]:
    """What can be judged: of Z each tool by itself where its length isn't told."""
    goes, at = scene.machine.travel, scene.target.travel_at
    zx, zy, zz = scene.target.zero
    boxes = [(shapely.bounds(t), m) for t, m in zip(scene.tracks, scene.moves, strict=True)]
    if goes.x is not None:
        across = tuple((float(b[0]) - zx, float(b[2]) - zx, m) for b, m in boxes)
        yield _Axis("X", goes.x, at.x, across)
    if goes.y is not None:
        along = tuple((float(b[1]) - zy, float(b[3]) - zy, m) for b, m in boxes)
        yield _Axis("Y", goes.y, at.y, along)
    if goes.z is None:
        return
    known = [m for m in scene.moves if m.cutter.length is not None]
    yield _Axis("Z", goes.z, at.z, tuple(_nose(m, zz) for m in known))
    for cutter in dict.fromkeys(m.cutter for m in scene.moves if m.cutter.length is None):
        own = (m for m in scene.moves if m.cutter == cutter)
        yield _Axis("Z", goes.z, None, tuple(_nose(m, zz) for m in own))


def _nose(move: Move, zero: float) -> tuple[float, float, Move]:
    """How low and how high the spindle's nose is on a move; the tip where its length isn't told.
    Where a move starts that the program hasn't told counts for nothing."""
    length = (move.cutter.length or 0.0) - zero
    return min(move.end[2], move.low) + length, max(move.end[2], move.high) + length, move


def _beyond(scene: Scene, axis: _Axis) -> Iterator[Finding]:
    if not axis.spans:
        return
    low, high = min(axis.spans, key=lambda s: s[0]), max(axis.spans, key=lambda s: s[1])
    level, goes = scene.limits.level, scene.say(axis.goes)
    if axis.origin is None:
        over = high[1] - low[0] - axis.goes
        if over > level:
            what = f"the moves span {scene.say(high[1] - low[0])} in {axis.name}, which goes {goes}"
            mend = "take a machine that goes farther"
            mend = "lower the clearance, or " + mend if axis.name == "Z" else mend
            yield scene.find("P822", "stop", what, by=high[2], amount=over, mend=mend)
        return
    ends = (
        (-axis.origin - low[0], "lower", low[2]),
        (axis.origin + high[1] - axis.goes, "upper", high[2]),
    )
    for over, end, move in ends:
        if over > level:
            what = (
                f"{axis.name} goes {scene.say(over)} beyond the {end} end of its travel of {goes}"
            )
            yield scene.find("P821", "stop", what, by=move, amount=over, mend=_mend(axis.name, end))


def _mend(axis: str, end: str) -> str:
    if axis != "Z":
        return f"set the vise up farther from that end of {axis}"
    if end == "lower":
        return "let the tool stand out farther, or set the vise up higher"
    return "take a shorter tool or holder, or a lower clearance"


def _changes(scene: Scene) -> Iterator[Finding]:
    """Tools that are changed lower than the machine needs: where the program leaves them standing,
    and where not even the top of Z is high enough for the new one."""
    least = scene.machine.change_height
    if least is None:
        return
    changes = [c for c in scene.program.changes if c.kind in ("machine", "tool")]
    raised = -1
    for change in changes:
        if change.kind == "machine":
            raised = change.when if _lifts(change) else raised
            continue
        last = _last(scene, change)
        if last is not None and raised < last.when:
            z = last.end[2] + scene.target.zero[2]
            if z < least - scene.limits.level:
                yield _low(scene, last, z, least)
    yield from _too_long(scene, least)


def _lifts(change: Change) -> bool:
    """Whether a move in machine coordinates takes Z along."""
    return "Z" in change.value or not any(axis in change.value for axis in "XY")


def _last(scene: Scene, change: Change) -> Cut | None:
    """The last cut before a tool change, if it is this setup's and its height is known."""
    before = (change.when, change.column)
    cuts: Sequence[Cut] = [c for c in scene.program.cuts if (c.when, c.column) <= before]
    if not cuts or cuts[-1].work_offset != scene.target.work_offset:
        return None
    return cuts[-1] if math.isfinite(cuts[-1].end[2]) else None


def _low(scene: Scene, cut: Cut, z: float, least: float) -> Finding:
    side = "above" if z >= 0 else "below"
    what = (
        f"the tool is changed while its tip stands {scene.say(abs(z))} {side} the jaw top, lower "
        f"than the {scene.say(least)} that a change takes"
    )
    mend = "raise Z to the height of the change first"
    return scene.find("P823", "stop", what, by=cut, amount=least - z, mend=mend)


def _too_long(scene: Scene, least: float) -> Iterator[Finding]:
    goes, at = scene.machine.travel.z, scene.target.travel_at.z
    if goes is None or at is None:
        return
    for cutter in dict.fromkeys(move.cutter for move in scene.moves):
        if cutter.length is None:
            continue
        z = goes - at - cutter.length + scene.target.zero[2]
        if z < least - scene.limits.level:
            first = next(move for move in scene.moves if move.cutter == cutter)
            side = "above" if z >= 0 else "below"
            what = (
                f"with Z at the top of its travel the tip of T{cutter.number} is "
                f"{scene.say(abs(z))} {side} the jaw top, lower than the {scene.say(least)} that a "
                "change takes"
            )
            mend = "take a shorter tool or holder, or set the vise up lower"
            yield scene.find("P823", "stop", what, by=first, amount=least - z, mend=mend)
