"""The threads of an end, outside and inside, each as an operation of the order of work."""

from __future__ import annotations

import math
from collections.abc import Iterator
from functools import partial

from jawcam.errors import Fault, InputError
from jawcam.hold.thread_room import insert_height, room_behind, room_in_front
from jawcam.hold.turn_target import Thread, TurnLeft
from jawcam.motion.moves import Spindle
from jawcam.tools.turner import Turner
from jawcam.turn.bar import check_bar, narrowest
from jawcam.turn.guard import GAP, in_front
from jawcam.turn.infeed import LAST_BITE, even_chips, gentle_start, last_bite, passes_for
from jawcam.turn.operation import TurnOperation
from jawcam.turn.thread import LEAD_IN, LEAST_ROOM, ThreadCutting, cut_thread, set_back
from jawcam.turn.trail import TurnTrail
from jawcam.turn.work import Driven, TurnWork

__all__ = ["threading"]

MOST_RUN_OUT = 2.0
"""Leads that a thread runs on into a long relief at most (common practice, no source)."""

BEHIND = 1.0
"""Pitches that a thread through the end of a bore runs on in the open (the same)."""


def threading(work: TurnWork) -> Iterator[TurnOperation]:
    """The threads, at a steady speed: those in the bore first."""
    for thread in sorted(work.held.target.threads, key=lambda one: not one.inside):
        asked = work.setup.thread
        driven = work.driven(_tool(work, thread), "threading")
        within = narrowest(work, min(thread.start, thread.end)) if thread.inside else None
        if within is not None:
            check_bar(work, driven.tool, bore=2 * within, room=LEAST_ROOM, deep=thread.depth)
        rule = even_chips if asked.infeed == "even" else gentle_start
        depths = rule(thread.depth, asked.passes or passes_for(thread.pitch))
        flank = asked.flank * thread.flanks / 60  # what is asked for is told for 60 degrees
        cut = ThreadCutting(
            tool=driven.tool,
            depths=depths,
            spring=asked.spring,
            flank=flank,
            lead_in=_lead_in(work, thread, set_back(thread, depths[0], flank)),
            run_out=_run_out(work, thread),
            clearance=work.setup.clearance,
            clear=None if thread.inside else work.free,
            narrowest=within,
            front=_front(work, thread) if thread.inside else None,
            units=work.job.units,
            place=work.place,
        )
        speed = _speed(work, driven, thread)
        notes = tuple(_bite_words(work, thread, depths)) if asked.passes else ()
        yield TurnOperation(
            _name(work, thread), driven, speed, partial(_thread, thread=thread, cut=cut), notes
        )


def _bite_words(work: TurnWork, thread: Thread, depths: tuple[float, ...]) -> Iterator[str]:
    """What is to be said of the last pass if it takes more or less than the guide has it."""
    say, (least, most), bite = work.job.units.say, LAST_BITE, last_bite(depths)
    if not least <= bite <= most:
        yield (
            f"{thread.designation}: its last pass takes {say(bite)}: {say(least)} to {say(most)} "
            f"are best, {'less rubs' if bite < least else 'more leaves a rough flank'}"
        )


def _name(work: TurnWork, thread: Thread) -> str:
    """What the control shows: of several starts their number and the lead."""
    name, say = f"thread {thread.designation}", work.job.units.say
    if thread.starts == 1:
        return name
    return f"{name}, {thread.starts} starts, lead {say(thread.starts * thread.pitch)}"


def _tool(work: TurnWork, thread: Thread) -> Turner | None:
    """The tool named if it can cut this thread, else the first one that can; if none can the one
    named, or any, so that what is wrong with it is told."""
    asked, known = work.setup.thread.tool, work.job.turners
    kind = [one for one in known if one.kind == "threading" and one.inside == thread.inside]
    if not kind:
        sort = "inside" if thread.inside else "outside"
        what = f"none of the tools cuts {sort} threads, and {thread.designation} is one"
        mend = 'add a [[tool]] with kind = "threading"' + ", inside = true" * thread.inside
        raise InputError(Fault(what, work.place, mend))
    fit = [one for one in kind if abs(one.pitch_angle - thread.flanks) < 1e-6] or kind
    return next((one for one in fit if one.number == asked), fit[0])


def _speed(work: TurnWork, driven: Driven, thread: Thread) -> Spindle:
    """A steady speed, so that the slide is no faster than the machine's feeds may be."""
    most = work.job.machine.max_feed / (thread.starts * thread.pitch)
    speed = driven.steady(max(thread.first, thread.last))
    return Spindle(min(speed.rpm, float(int(most))), speed.clockwise)


def _run_out(work: TurnWork, thread: Thread) -> float:
    """How far the passes run on behind a thread: half of the room there. Through the end of a bore
    they do only where nothing stands behind the part; else they end in what is cut off later."""
    room = room_behind(work.held.finished, thread).run
    if math.isinf(room):
        rear = min(work.held.stock.outer.box[0], work.held.finished.outer.box[0])
        open_end = rear > min(thread.start, thread.end) - 1e-6
        return BEHIND * thread.pitch if open_end else 0.0
    return max(min(room / 2, MOST_RUN_OUT * thread.starts * thread.pitch), 0.0)


def _lead_in(work: TurnWork, thread: Thread, back: float) -> float:
    """How far in front of a thread its deepest pass begins, a tailstock's centre kept off. back:
    how much farther that of the shallowest pass of its last start does."""
    centres = [one for one in work.piece.keep_off if in_front(one, work.piece)]
    rooms = [room_in_front(one, thread).run - GAP for one in centres]
    room = min([room_in_front(work.held.finished, thread).run, *rooms])
    return max(min(LEAD_IN * thread.starts * thread.pitch, room - back), 0.0)


def _front(work: TurnWork, thread: Thread) -> float:
    """The Z at which an inside tool is clear of the stock, its insert beside its point too."""
    half = insert_height(thread) * math.tan(math.radians(thread.flanks) / 2)
    return work.setup.stock.allowance + work.setup.clearance + half


def _thread(trail: TurnTrail, thread: Thread, cut: ThreadCutting) -> tuple[TurnLeft, ...]:
    cut_thread(trail, thread, cut)
    return ()
