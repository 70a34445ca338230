"""Threads of a coffee grinder's spindle and nuts, their passes written by hand, and what the proof
holds them against. Points (Z, X, 0), X a radius; Z 0 at the free end."""

from __future__ import annotations

import math
from dataclasses import dataclass

from jawcam.hold.turn_target import Thread, TurnTarget
from jawcam.motion.moves import Begin, End, Rapid, Spindle, ThreadCut, ToolChange, WorkOffset
from jawcam.tools.turner import Turner
from jawcam.units import Units

TOOLS = (
    Turner(4, "threading", pitch_angle=60.0),
    Turner(5, "threading", pitch_angle=60.0, inside=True, least_bore=12.0, shank=6.0, overhang=30),
)


@dataclass(frozen=True)
class Cutting:
    """A thread and how it is cut: cumulative depths, angle of infeed, the radius to go back at."""

    thread: Thread
    depths: tuple[float, ...]
    flank: float
    clear: float

    @property
    def lead(self):
        return self.thread.starts * self.thread.pitch


# M20x2.5: 17/24 of H deep (ISO 68-1), cut along the flank; 29.5 degrees as the trade does.
OUTSIDE = Cutting(
    Thread(0, -18, 10, 10, 1.534, 2.5, 1, False, "M20x2.5"), (0.8, 1.2, 1.534), 29.5, 13
)
# M20x1.5 in a bore: 5/8 of H deep, straight in, the last pass twice.
INSIDE = Cutting(
    Thread(0, -14, 9.188, 9.188, 0.812, 1.5, 1, True, "M20x1.5"), (0.5, 0.7, 0.812, 0.812), 0, 8
)
# 11 to the inch and 1 in 16 on the diameter, as pipe threads have it (ISO 7-1); flanks of 60 here.
TAPERED = Cutting(
    Thread(0, -16, 12, 12.5, 1.4, 25.4 / 11, 1, False, "11 to the inch, tapered"),
    (0.9, 1.4),
    20,
    15,
)
TWO_STARTS = Cutting(
    Thread(0, -20, 9, 9, 0.92, 1.5, 2, False, "18 with two starts"), (0.6, 0.92), 29.5, 12
)
CASES = {"outside": OUTSIDE, "inside": INSIDE, "tapered": TAPERED, "two starts": TWO_STARTS}


def crest(thread, z):
    return thread.first + (thread.last - thread.first) * z / thread.end


def passes(cut):
    """Each in at full speed, along, straight out and on to where the next begins; along the flank
    from pass to pass; each start a pitch behind the one before."""
    thread, sign = cut.thread, 1 if cut.thread.inside else -1
    lanes = []
    for depth in cut.depths:
        back = (thread.depth - depth) * math.tan(math.radians(cut.flank))
        for start in range(thread.starts):
            begin = 2 * cut.lead + back + start * thread.pitch
            ends = [(z, crest(thread, z) + sign * depth, 0.0) for z in (begin, thread.end + back)]
            lanes.append(ends)
    yield Rapid((lanes[0][0][0], cut.clear, 0.0))
    for at, (begin, end) in enumerate(lanes):
        yield Rapid(begin)
        yield ThreadCut(end, cut.lead)
        yield Rapid((end[0], cut.clear, 0.0))
        yield Rapid((lanes[min(at + 1, len(lanes) - 1)][0][0], cut.clear, 0.0))


def motions_of(cut):
    tool = 5 if cut.thread.inside else 4
    away = () if cut.thread.inside else (Rapid((40.0, 30.0, 0.0)),)
    return (
        Begin("nut 7"),
        WorkOffset(1),
        ToolChange(tool, "threading 60 deg"),
        Spindle(600),
        *passes(cut),
        *away,
        End(),
    )


def target_of(cut):
    """What is in the chuck is finished but for its thread."""
    thread = cut.thread
    bore = (thread.end - 6, thread.first) if thread.inside else (0.0, 0.0)
    if thread.inside:
        rows = [(-50, 0), (bore[0], 0), bore, (0, thread.first), (0, 20), (-50, 20)]
    else:
        rows = [(-50, 0), (0, 0), (0, thread.first), (thread.end, thread.last), (-50, thread.last)]
    outline = tuple((float(z), float(x), 0.0) for z, x in rows)
    return TurnTarget(
        name="nut",
        title="Nut of the grinder's spindle",
        units=Units.MM,
        finished=outline,
        stock=outline,
        limit=-40.0,
        threads=(thread,),
        keep_off=(),
        tools=TOOLS,
        work_offset=1,
        clearance=2.0,
        clamp=2500.0,
    )
