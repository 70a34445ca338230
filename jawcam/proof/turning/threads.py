"""Threads: the lead, the depth, the length, the starts, and that all passes share one groove.

A pass belongs to the thread whose zone it runs through. Where its point is, less how far it has
come round, is its phase: of one start all passes at full depth have the same, and a pass that is
less deep may stand aside by no more than the flank allows.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import NamedTuple

from jawcam.hold.turn_target import Thread
from jawcam.proof.report import Finding
from jawcam.proof.turning.path import Move
from jawcam.proof.turning.scene import Scene
from jawcam.proof.turning.section import crest

__all__ = ["LEAD", "SHALLOW", "threads"]

LEAD = 1e-4
"""mm that a pass's lead may differ from the thread's."""

SHALLOW = 0.01
"""mm that a thread may be less deep, on radius, or shorter than asked for."""

PHASE = 0.005
"""mm that passes of one start may differ by along Z."""


class Pass(NamedTuple):
    """A pass of a thread: how deep it is below the crest at its deepest; its phase, mm."""

    move: Move
    depth: float
    phase: float


def threads(scene: Scene) -> list[Finding]:
    """What is wrong with the threads and with passes that belong to none."""
    passes = [move for move in scene.moves if move.threads and move.kind != "rapid"]
    owned: list[list[Move]] = [[] for _ in scene.target.threads]
    found = []
    for move in passes:
        k = _owner(scene.target.threads, move)
        if k is None:
            what = "a pass of a thread where the part has none"
            found.append(scene.find("T401", "stop", what, by=move, mend="check its X and Z"))
        else:
            owned[k].append(move)
    for thread, own in zip(scene.target.threads, owned, strict=True):
        found += _thread(scene, thread, own)
    return found


def _owner(all_threads: Sequence[Thread], move: Move) -> int | None:
    """The thread that a pass runs along farthest."""
    shared = []
    for k, thread in enumerate(all_threads):
        low, high = sorted((thread.start, thread.end))
        first, last = sorted((move.start[0], move.end[0]))
        span = min(high, last) - max(low, first)
        if span > 0 and thread.inside == move.tool.inside:
            shared.append((span, -k))
    return -max(shared)[1] if shared else None


def _thread(scene: Scene, thread: Thread, own: Sequence[Move]) -> list[Finding]:
    name = thread.designation or "the thread"
    if not own:
        at = (thread.start, thread.first)
        mend = "add its passes"
        return [scene.find("T402", "stop", f"{name} isn't cut", at=at, mend=mend)]
    lead = thread.starts * thread.pitch
    passes = [_pass(thread, move, lead) for move in own]
    return [
        *_leads(scene, thread, own, name, lead),
        *_depths(scene, thread, passes, name),
        *_lengths(scene, thread, passes, name),
        *_phases(scene, thread, passes, name, lead),
    ]


def _pass(thread: Thread, move: Move, lead: float) -> Pass:
    inwards = -1.0 if thread.inside else 1.0
    low, high = sorted((thread.start, thread.end))
    places = [min(max(z, low), high) for z in (move.start[0], move.end[0])]
    depths = [inwards * (crest(thread, z) - _x_at(move, z)) for z in places]
    return Pass(move, max(depths), move.start[0] % lead)


def _x_at(move: Move, z: float) -> float:
    """The X of a pass at a Z."""
    (z0, x0), (z1, x1) = move.start, move.end
    return x0 if z1 == z0 else x0 + (x1 - x0) * (z - z0) / (z1 - z0)


def _leads(
    scene: Scene, thread: Thread, own: Sequence[Move], name: str, lead: float
) -> list[Finding]:
    found = []
    wrong = [move for move in own if abs(move.cut.lead - lead) > LEAD]
    if wrong:
        starts = f", {thread.starts} starts of {scene.say(thread.pitch)}" * (thread.starts > 1)
        what = f"a lead of {scene.say(wrong[0].cut.lead)}, where {name} has {scene.say(lead)}"
        mend = f"give the lead of {scene.say(lead)}{starts}"
        amount = abs(wrong[0].cut.lead - lead)
        found.append(scene.find("T403", "stop", what, by=wrong[0], amount=amount, mend=mend))
    wild = next((move for move in own if move.cut.surface > 0), None)
    if wild:
        what = f"{name} is cut at constant surface speed, so its passes don't meet in one groove"
        mend = "give a fixed speed before the passes"
        found.append(scene.find("T407", "stop", what, by=wild, mend=mend))
    return found


def _depths(scene: Scene, thread: Thread, passes: Sequence[Pass], name: str) -> list[Finding]:
    deepest = max(passes, key=lambda one: one.depth)
    over = deepest.depth - thread.depth
    asked = scene.say(thread.depth)
    if over > scene.limits.gouge:
        first = next(one for one in passes if one.depth - thread.depth > scene.limits.gouge)
        over = first.depth - thread.depth
        what = f"a pass {scene.say(over)} deeper on radius than {name}, {asked} deep"
        mend = "check its X"
        return [scene.find("T404", "stop", what, by=first.move, amount=over, mend=mend)]
    if -over > SHALLOW:
        what = f"{name} is cut {scene.say(deepest.depth)} deep on radius, not {asked}"
        mend = "go deeper in the last pass"
        return [scene.find("T405", "stop", what, by=deepest.move, amount=-over, mend=mend)]
    return []


def _lengths(scene: Scene, thread: Thread, passes: Sequence[Pass], name: str) -> list[Finding]:
    """The full passes must run past either end, as the control must be in step by then."""
    full = _full(thread, passes)
    low, high = sorted((thread.start, thread.end))
    found = []
    for one in full:
        first, last = sorted((one.move.start[0], one.move.end[0]))
        missing = max(first - low, high - last)
        if missing > SHALLOW:
            what = f"a full pass ends {scene.say(missing)} short of the end of {name}"
            mend = "begin before the thread and run out behind it"
            found.append(scene.find("T406", "stop", what, by=one.move, amount=missing, mend=mend))
            break
    return found


def _full(thread: Thread, passes: Sequence[Pass]) -> list[Pass]:
    most = max(one.depth for one in passes)
    return [one for one in passes if one.depth > min(most, thread.depth) - SHALLOW]


def _phases(
    scene: Scene, thread: Thread, passes: Sequence[Pass], name: str, lead: float
) -> list[Finding]:
    grooves: list[Pass] = []
    full = _full(thread, passes)
    for one in full:
        if all(_apart(one, other, lead) > PHASE for other in grooves):
            grooves.append(one)
    found = []
    tool = grooves[0].move.tool
    slope = math.tan(math.radians(tool.pitch_angle) / 2)
    for one in passes:
        room = max(grooves[0].depth - one.depth, 0.0) * slope + PHASE
        off = min(_apart(one, groove, lead) for groove in grooves)
        if off > room:
            what = f"a pass {scene.say(off)} aside of the groove of {name}"
            mend = "begin it where the others begin, a whole lead apart"
            found.append(scene.find("T408", "stop", what, by=one.move, amount=off, mend=mend))
            break
    whole = all(_pitches(one, grooves[0], thread.pitch) < PHASE for one in grooves)
    if len(grooves) != thread.starts or not whole:
        said = "start" if len(grooves) == 1 else "starts"
        what = f"{name} is cut with {len(grooves)} {said}, it has {thread.starts}"
        if len(grooves) == thread.starts:
            what = f"the starts of {name} aren't a whole pitch apart"
        mend = f"cut {thread.starts}, each begun {scene.say(thread.pitch)} farther along Z"
        found.append(scene.find("T409", "stop", what, by=grooves[-1].move, mend=mend))
    return found


def _apart(one: Pass, other: Pass, lead: float) -> float:
    """How far two phases lie apart, mm."""
    gap = abs(one.phase - other.phase) % lead
    return min(gap, lead - gap)


def _pitches(one: Pass, other: Pass, pitch: float) -> float:
    gap = abs(one.phase - other.phase) % pitch
    return min(gap, pitch - gap)
