"""Threads cut with a single point, pass after pass.

The tool's set point is the point of the insert: its path ends on the crest less the depth. From
pass to pass it goes deeper along a line at the angle of infeed, towards where it travels: so its
leading flank does the cutting and the other only skims. A pass keeps its length, both its ends
lying further back the shallower it is, so that all lie within the groove of the last, which ends
at the very end of the thread. On a taper depths count square to the axis and leads along it.
"""

from __future__ import annotations

import itertools
import math
from dataclasses import dataclass

from jawcam.errors import FaultList, InternalError, Place
from jawcam.hold.turn_target import Thread
from jawcam.motion.moves import ThreadCut
from jawcam.tools.turner import Turner
from jawcam.turn.infeed import flank_shift, with_spring
from jawcam.turn.trail import TurnTrail
from jawcam.units import Units

__all__ = ["LEAD_IN", "LEAST_LEAD_IN", "LEAST_ROOM", "ThreadCutting", "cut_thread", "set_back"]

LEAD_IN = 3.0
"""Leads of air in front of the thread, in which the slide comes up to speed: common practice, two
to three, no source."""

LEAST_LEAD_IN = 2.0
"""The fewest leads of it that are let pass (the same)."""

LEAST_ROOM = 0.2
"""mm between a bar and its bore to draw the insert back by (common practice, no source)."""

_NOWHERE = Place()
_SAME = 1e-6  # mm


@dataclass(frozen=True)
class ThreadCutting:
    """How to cut a thread; mm, degrees, radii.

    depths: cumulative, rising, the last the thread's own. spring: passes more at full depth.
    flank: the angle of infeed, 0 straight in. lead_in: air in front of the thread, None for
    LEAD_IN leads. run_out: how far the cut goes on beyond the thread's end, into a relief or
    groove; 0 draws out at the end itself. clearance: how far off the crest the tool goes back,
    less in a bore that the bar (its least_bore) nearly fills; clear: the radius at which it may
    move along, None for that of the crest and the clearance. narrowest: the least radius of the
    bore on the way in, None for that of the crest. front: the Z in front of the work
    where a tool goes into a bore, None where the lead-in is in front of it. units, place: of
    faults.
    """

    tool: Turner
    depths: tuple[float, ...]
    spring: int = 1
    flank: float = 29.5
    lead_in: float | None = None
    run_out: float = 0.0
    clearance: float = 2.0
    clear: float | None = None
    narrowest: float | None = None
    front: float | None = None
    units: Units = Units.MM
    place: Place = _NOWHERE


@dataclass(frozen=True)
class _Lay:
    """Where the passes lie along Z, in the direction `way` (1 or -1): the deepest from `begin` to
    `end`, the foremost from `first`; the radius `clear` is free all along, `front` in front of the
    work."""

    way: float
    first: float
    begin: float
    end: float
    clear: float
    front: float


def cut_thread(trail: TurnTrail, thread: Thread, cut: ThreadCutting) -> None:
    """Add all the passes of a thread: to the start in the air, the cut, straight out and back.

    A lead is starts x pitch a turn; each further start begins a pitch further back, and all the
    starts get one depth before the next. The spindle must turn at a fixed speed, which is for the
    caller to say, as is the way to the work: from where the tool is it goes to the free radius,
    into a bore from `front`, and there it ends. Raises InputError if the thread can't be cut so,
    all the reasons in one; nothing has been added then.
    """
    lay = _lay(thread, cut)
    _approach(trail, lay, inside=thread.inside)
    lead = thread.starts * thread.pitch
    for depth in with_spring(cut.depths, cut.spring):
        back = lay.way * _shift(thread, thread.depth - depth, cut.flank)
        for start in range(thread.starts):
            begin, end = lay.begin - back - lay.way * start * thread.pitch, lay.end - back
            trail.rapid(begin, lay.clear)
            trail.rapid(begin, _point(thread, begin, depth))
            trail.at = (end, _point(thread, end, depth))
            trail.add(ThreadCut((*trail.at, 0.0), lead))
            trail.rapid(end, lay.clear)
    trail.rapid(lay.front if thread.inside else lay.begin, lay.clear)


def set_back(thread: Thread, depth: float, flank: float) -> float:
    """How much farther back than the deepest pass the first pass of the last start begins, mm.
    depth: of the first pass."""
    return _shift(thread, thread.depth - depth, flank) + (thread.starts - 1) * thread.pitch


def _shift(thread: Thread, less: float, flank: float) -> float:
    """How far back a pass lies that is so much less deep than the last, so that its point is on a
    line at the angle of infeed through the last one's: on a taper farther up or down by what the
    crest rises on the way, x = less + s z and z = x tan(flank)."""
    rise = (thread.first - thread.last) / abs(thread.start - thread.end)
    slope = -rise if thread.inside else rise
    return flank_shift(less, flank) / (1 - slope * flank_shift(1.0, flank))


def _approach(trail: TurnTrail, lay: _Lay, *, inside: bool) -> None:
    """Go to the free radius, one axis at a time where it is known from where."""
    if inside:
        if trail.at is not None:
            z = max(trail.at[0], lay.front)
            trail.rapid(z, trail.at[1])
            trail.rapid(z, lay.clear)
        trail.rapid(lay.front, lay.clear)
        return
    if trail.at is not None:
        x = max(trail.at[1], lay.clear)
        trail.rapid(trail.at[0], x)
        trail.rapid(lay.first, x)
    trail.rapid(lay.first, lay.clear)


def _crest(thread: Thread, z: float) -> float:
    """The radius of the crest, going on straight beyond the thread's ends."""
    share = (z - thread.start) / (thread.end - thread.start)
    return thread.first + (thread.last - thread.first) * share


def _point(thread: Thread, z: float, depth: float) -> float:
    """The radius that the insert's point has at a Z in the pass of a depth."""
    return _crest(thread, z) + (depth if thread.inside else -depth)


def _lay(thread: Thread, cut: ThreadCutting) -> _Lay:
    """Work out where the passes lie. Raises InputError."""
    faults = FaultList()
    _check_depths(thread, cut)
    _check_tool(thread, cut, faults)
    lead = thread.starts * thread.pitch
    lead_in = LEAD_IN * lead if cut.lead_in is None else cut.lead_in
    if lead_in < LEAST_LEAD_IN * lead - _SAME:
        faults.add(
            f"{cut.units.say(lead_in)} in front of the thread {thread.designation} is too little "
            f"to come up to speed in: that takes {cut.units.say(LEAST_LEAD_IN * lead)}",
            cut.place,
            f"make room in front of it, {_root_words(thread, cut.units)}, or turn the thread from "
            "the other end",
        )
    way = math.copysign(1.0, thread.end - thread.start)
    begin, end = thread.start - way * lead_in, thread.end + way * cut.run_out
    first = begin - way * set_back(thread, cut.depths[0], cut.flank)
    radii = [_crest(thread, z) for z in (first, end)]
    if min(radii) - (0.0 if thread.inside else thread.depth) <= 0:
        faults.add(
            f"the thread {thread.designation} runs to the axis within its lead-in",
            cut.place,
            "make it less steep, or larger",
        )
    clear = _clear(thread, cut, radii, faults)
    faults.raise_if_any()
    foremost = max(first, end)
    front = foremost if cut.front is None else max(cut.front, foremost)
    return _Lay(way, first, begin, end, clear, front)


def _root_words(thread: Thread, units: Units) -> str:
    """How wide what a thread's insert passes must be."""
    root = thread.first + (thread.depth if thread.inside else -thread.depth)
    return f"{units.say(2 * root)} across or {'more' if thread.inside else 'less'}"


def _check_depths(thread: Thread, cut: ThreadCutting) -> None:
    """What the planner must have seen to."""
    rising = all(low < high for low, high in itertools.pairwise((0.0, *cut.depths)))
    if not (rising and cut.depths and abs(cut.depths[-1] - thread.depth) <= _SAME):
        raise InternalError(f"a thread {thread.depth:g} deep was planned in passes {cut.depths}")
    if thread.start == thread.end or min(cut.run_out, cut.clearance, cut.spring) < 0:
        raise InternalError("a thread was planned without a length, or with one below zero")


def _check_tool(thread: Thread, cut: ThreadCutting, faults: FaultList) -> None:
    tool, half = cut.tool, thread.flanks / 2
    sort = "an inside" if thread.inside else "an outside"
    if tool.kind != "threading" or tool.inside != thread.inside:
        faults.add(
            f"tool {tool.number} can't cut {sort} thread",
            cut.place,
            f"take a threading tool for {sort} thread",
        )
    if abs(tool.pitch_angle - thread.flanks) > _SAME:
        faults.add(
            f"tool {tool.number} cuts flanks at {tool.pitch_angle:g} degrees, and those of "
            f"{thread.designation or 'the thread'} are at {thread.flanks:g}",
            cut.place,
            f"take a tool for {thread.flanks:g} degrees",
        )
    if not 0 <= cut.flank <= half:
        faults.add(
            f"an infeed at {cut.flank:g} degrees is not between straight in, 0, and along the "
            f"flank, {half:g}",
            cut.place,
            f"take {half - 0.5:g}, which only skims the flank behind",
        )


def _clear(thread: Thread, cut: ThreadCutting, radii: list[float], faults: FaultList) -> float:
    """The radius at which the tool goes back; radii: of the crest at either end of the passes."""
    if not thread.inside:
        return max(max(radii) + cut.clearance, cut.clear or 0.0)
    bore = min(radii) if cut.narrowest is None else min(*radii, cut.narrowest)
    room = 2 * bore - (cut.tool.least_bore or bore)
    back = min(cut.clearance, room) if cut.clear is None else bore - cut.clear
    if not LEAST_ROOM <= back <= room + _SAME:
        faults.add(
            f"tool {cut.tool.number} needs a bore of {cut.units.say(cut.tool.least_bore or bore)} "
            f"and room to draw back, and the bore of the thread is {cut.units.say(2 * bore)}",
            cut.place,
            "take a smaller bar",
        )
    return bore - back
