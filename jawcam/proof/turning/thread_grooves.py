"""Which passes of a thread make one groove, and how many grooves there are.

Where the point of a pass is, less how far it has come round, is its phase: of one start all passes
at full depth have the same, and a pass that is less deep may stand aside by no more than the flank
allows.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import NamedTuple

from jawcam.hold.turn_target import Thread
from jawcam.proof.report import Finding
from jawcam.proof.turning.path import Move
from jawcam.proof.turning.scene import Scene

__all__ = ["SHALLOW", "Pass", "full", "grooves", "inwards"]

SHALLOW = 0.01
"""mm that a thread may be less deep, on radius, or shorter than asked for."""

PHASE = 0.005
"""mm that passes of one start may differ by along Z."""


class Pass(NamedTuple):
    """A pass of a thread: how deep it is below the crest where it is deepest and where it is least
    deep, at the thread's ends; its phase, mm."""

    move: Move
    depth: float
    least: float
    phase: float


def inwards(thread: Thread) -> float:
    """Which way along X a thread gets deeper, from its crest."""
    return -1.0 if thread.inside else 1.0


def full(thread: Thread, passes: Sequence[Pass]) -> list[Pass]:
    """The passes at full depth."""
    most = max(one.depth for one in passes)
    return [one for one in passes if one.depth > min(most, thread.depth) - SHALLOW]


def grooves(
    scene: Scene, thread: Thread, passes: Sequence[Pass], name: str, lead: float
) -> list[Finding]:
    """What is wrong with the starts of a thread and with passes beside its grooves."""
    kept: list[Pass] = []
    for one in full(thread, passes):
        if all(_apart(one, other, lead) > PHASE for other in kept):
            kept.append(one)
    found = []
    tool = kept[0].move.tool
    slope = math.tan(math.radians(tool.pitch_angle) / 2)
    for one in passes:
        off, room = min(
            (
                (_apart(one, groove, lead), _above(thread, one, groove, lead) * slope + PHASE)
                for groove in kept
            ),
            key=lambda pair: pair[0],
        )
        if off > room:
            what = f"a pass {scene.say(off)} aside of the groove of {name}"
            mend = "begin it where the others begin, a whole lead apart"
            found.append(scene.find("T408", "stop", what, by=one.move, amount=off, mend=mend))
            break
    whole = all(_pitches(one, kept[0], thread.pitch) < PHASE for one in kept)
    if len(kept) != thread.starts or not whole:
        said = "start" if len(kept) == 1 else "starts"
        what = f"{name} is cut with {len(kept)} {said}, it has {thread.starts}"
        if len(kept) == thread.starts:
            what = f"the starts of {name} aren't a whole pitch apart"
        mend = f"cut {thread.starts}, each begun {scene.say(thread.pitch)} farther along Z"
        found.append(scene.find("T409", "stop", what, by=kept[-1].move, mend=mend))
    return found


def _apart(one: Pass, other: Pass, lead: float) -> float:
    """How far two phases lie apart, mm."""
    gap = abs(one.phase - other.phase) % lead
    return min(gap, lead - gap)


def _above(thread: Thread, one: Pass, groove: Pass, lead: float) -> float:
    """How far the point of a pass is out of that of a full one beside it, mm across; on a taper
    this is more or less than it is less deep, by what the crest rises from one to the other."""
    aside = (one.phase - groove.phase + lead / 2) % lead - lead / 2
    rise = (thread.first - thread.last) / (thread.start - thread.end)
    return max(groove.depth - one.depth + inwards(thread) * rise * aside, 0.0)


def _pitches(one: Pass, other: Pass, pitch: float) -> float:
    gap = abs(one.phase - other.phase) % pitch
    return min(gap, pitch - gap)
