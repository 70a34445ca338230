"""Threads: lead, hand, flanks, depth, taper, length, starts, and that all passes share one groove.

A pass belongs to the thread whose zone it runs through. Its lead counts along Z, its depth square
to the axis, from the crest at the same Z.
"""

from __future__ import annotations

from collections.abc import Sequence

from jawcam.hold.turn_target import Thread
from jawcam.proof.report import Finding
from jawcam.proof.turning.path import Move
from jawcam.proof.turning.scene import Scene
from jawcam.proof.turning.section import crest
from jawcam.proof.turning.thread_grooves import SHALLOW, Pass, full, grooves, inwards

__all__ = ["LEAD", "SHALLOW", "threads"]

LEAD = 1e-4
"""mm that a pass's lead may differ from the thread's."""

FLANKS = 0.1
"""Degrees that an insert's flanks may differ from the thread's by."""

SAME = 1e-6
"""mm; nearer than this is the same."""


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
        *_hands(scene, own, name),
        *_flanks(scene, thread, own, name),
        *_depths(scene, thread, passes, name),
        *_taper(scene, thread, passes, name),
        *_lengths(scene, thread, passes, name),
        *grooves(scene, thread, passes, name, lead),
    ]


def _pass(thread: Thread, move: Move, lead: float) -> Pass:
    low, high = sorted((thread.start, thread.end))
    places = [min(max(z, low), high) for z in (move.start[0], move.end[0])]
    depths = [inwards(thread) * (crest(thread, z) - _x_at(move, z)) for z in places]
    return Pass(move, max(depths), min(depths), move.start[0] % lead)


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


def _hands(scene: Scene, own: Sequence[Move], name: str) -> list[Finding]:
    """All threads are right-hand ones: cut towards the chuck while the spindle turns clockwise, or
    away from it while it turns the other way (common practice, no source)."""
    turning = [move for move in own if move.cut.spindle != "off"]
    wrong = next((m for m in turning if (m.end[0] < m.start[0]) != (m.cut.spindle == "cw")), None)
    if wrong is None:
        return []
    way = "clockwise" if wrong.cut.spindle == "cw" else "counter-clockwise"
    where = "towards" if wrong.end[0] < wrong.start[0] else "away from"
    what = f"a pass {where} the chuck while the spindle turns {way} makes {name} a left-hand thread"
    mend = "cut it from the free end on, and start the spindle with M3"
    return [scene.find("T412", "stop", what, by=wrong, mend=mend)]


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
        deep = scene.say(max(deepest.depth, 0.0))
        what = f"{name} is cut {deep} deep on radius, not {asked}"
        mend = "go deeper in the last pass"
        return [scene.find("T405", "stop", what, by=deepest.move, amount=-over, mend=mend)]
    return []


def _flanks(scene: Scene, thread: Thread, own: Sequence[Move], name: str) -> list[Finding]:
    wrong = next((m for m in own if abs(m.tool.pitch_angle - thread.flanks) > FLANKS), None)
    if wrong is None:
        return []
    what = f"T{wrong.tool.number} cuts flanks at {wrong.tool.pitch_angle:g} degrees, "
    what += f"where those of {name} are at {thread.flanks:g}"
    mend = f"take an insert for {thread.flanks:g} degrees"
    return [scene.find("T411", "stop", what, by=wrong, mend=mend)]


def _taper(scene: Scene, thread: Thread, passes: Sequence[Pass], name: str) -> list[Finding]:
    """The full passes must run along the crests, so be as deep at one end as at the other."""
    for one in full(thread, passes):
        off = one.depth - one.least
        if off > scene.limits.gouge:
            cone = "the taper of" if abs(thread.first - thread.last) > SAME else "the straight"
            what = f"a full pass that leaves {cone} {name}: {scene.say(off)} deeper on radius at "
            what += "one end than at the other"
            mend = "check the X and the Z of both its ends"
            return [scene.find("T410", "stop", what, by=one.move, amount=off, mend=mend)]
    return []


def _lengths(scene: Scene, thread: Thread, passes: Sequence[Pass], name: str) -> list[Finding]:
    """The full passes must run past either end, as the control must be in step by then."""
    low, high = sorted((thread.start, thread.end))
    found = []
    for one in full(thread, passes):
        first, last = sorted((one.move.start[0], one.move.end[0]))
        missing = max(first - low, high - last)
        if missing > SHALLOW:
            what = f"a full pass ends {scene.say(missing)} short of the end of {name}"
            mend = "begin before the thread and run out behind it"
            found.append(scene.find("T406", "stop", what, by=one.move, amount=missing, mend=mend))
            break
    return found
