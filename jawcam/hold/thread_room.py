"""How far a threading insert may run on behind a thread, and begin in front of it, for what the
part has there.

The insert is taken as the whole triangle between its flanks, `INSERT` mm high or half as much
again as the thread is deep: what stands higher than that is met by the holder, which is taken to
be as wide (common practice, no source).
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterator
from dataclasses import dataclass

from jawcam.geometry.flatten import polyline
from jawcam.geometry.shapes import Point, Region
from jawcam.hold.turn_target import Thread
from jawcam.units import Units

__all__ = ["INSERT", "PAST", "Room", "insert_height", "room_behind", "room_in_front", "tight"]

INSERT = 3.0
"""mm; how high the triangle of a threading insert is taken to be at least."""

PAST = 0.25
"""Pitches that a pass runs past the end of a thread with a relief at least, so that its last turn
is whole (common practice, no source)."""

_CHORD = 0.01  # mm
_HAIR = 1e-3  # mm; what reaches in less than this isn't met


@dataclass(frozen=True)
class Room:
    """What the insert meets first, seen from an end of a thread: so far off along Z, and how far
    its flank reaches there, mm; both of what is open for ever are infinite and 0."""

    far: float
    reach: float

    @property
    def run(self) -> float:
        """How far the insert's point may go; below 0 where it can't come to the end at all."""
        return self.far - self.reach


def insert_height(thread: Thread) -> float:
    """How high the triangle of an insert for a thread is taken to be, mm."""
    return max(INSERT, 1.5 * thread.depth)


def room_behind(part: Region, thread: Thread, *, above: float = 0.0) -> Room:
    """The room behind the end of a thread at full depth. part: its finished half section; above:
    what stands up to so high over the thread's root isn't counted, mm."""
    way = math.copysign(1.0, thread.end - thread.start)
    return _room(part, thread, thread.end, thread.last, way, above)


def room_in_front(part: Region, thread: Thread) -> Room:
    """The same in front of its start."""
    way = math.copysign(1.0, thread.start - thread.end)
    return _room(part, thread, thread.start, thread.first, way, 0.0)


def tight(part: Region, thread: Thread, units: Units) -> tuple[str, str] | None:
    """What is wrong with what a thread has to run out in, and how to mend it; None if nothing is.

    An inside one needs a relief, or goes through to the end. An outside one may also be drawn out
    of its own last turn where nothing behind it stands higher than its crests.
    """
    say, past = units.say, PAST * thread.pitch
    room = room_behind(part, thread)
    if room.run >= past:
        return None
    if not thread.inside and room_behind(part, thread, above=thread.depth).run >= past:
        return None
    root = thread.last + (thread.depth if thread.inside else -thread.depth)
    wide = f"{say(2 * root)} across or {'more' if thread.inside else 'less'}"
    if room.far > 2 * _HAIR:
        what = f"the relief of {thread.designation} is too short: {say(room.far)} behind it is "
        what += f"{wide}, and its insert takes {say(room.reach + past)} to run out in"
        return what, "make the relief that long or longer"
    flank = math.tan(math.radians(thread.flanks) / 2)
    long = insert_height(thread) * flank + past
    what = f"{thread.designation} has no relief to run out in"
    mend = f"put a stretch behind it that is {wide}, {say(long)} long or more"
    return what, mend + ", or let it go through" * thread.inside


def _room(part: Region, thread: Thread, end: float, crest: float, way: float, above: float) -> Room:
    up = -1.0 if thread.inside else 1.0
    root, flank = crest - up * thread.depth, math.tan(math.radians(thread.flanks) / 2)
    height = insert_height(thread)
    nearest = Room(math.inf, 0.0)
    for segment in part.outer.segments:
        corners = [((z - end) * way, (x - root) * up) for z, x in polyline(segment, _CHORD)]
        for a, b in itertools.pairwise(corners):
            for far, high in _met(a, b, max(above, 0.0) + _HAIR, height):
                found = Room(far, min(high, height) * flank)
                nearest = min(nearest, found, key=lambda room: room.run)
    return nearest


def _met(a: Point, b: Point, low: float, height: float) -> Iterator[Point]:
    """The points of a line, as how far off and how high, where the insert may first touch it: its
    ends beyond the thread's end and above `low`, and where it is as high as the insert."""
    shares = [0.0, 1.0]
    for (p, q), at in (((a[0], b[0]), _HAIR), ((a[1], b[1]), low), ((a[1], b[1]), height)):
        if (p - at) * (q - at) < 0:
            shares.append((at - p) / (q - p))
    for share in shares:
        far, high = (p + share * (q - p) for p, q in zip(a, b, strict=True))
        if far >= _HAIR - 1e-9 and high >= low - 1e-9:
            yield far, high
