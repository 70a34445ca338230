"""Which of two ways to rough a setup is quicker, told with both times."""

from __future__ import annotations

import math
from dataclasses import replace

from jawcam.errors import InputError
from jawcam.mill.entry import WIDE
from jawcam.mill.pocket import roughing
from jawcam.mill.rough import levels
from jawcam.mill.steady import winding_feed
from jawcam.mill.trail import Trail
from jawcam.mill.work import Work
from jawcam.motion.moves import Begin, End, Spindle, ToolChange, WorkOffset
from jawcam.post.dialect import Dialect
from jawcam.post.write import write
from jawcam.proof.figure_words import minutes_said
from jawcam.proof.move import moves_in
from jawcam.proof.spent import spent
from jawcam.proof.times import drive_of
from jawcam.reader.read import read
from jawcam.tools.reasons import Reasons

__all__ = ["as_asked", "quicker"]


def quicker(rings: Work, steady: Work, dialect: Dialect) -> Work:
    """The quicker of a setup's works, that by rings where they are alike or a pocket can't be
    cleared steadily, with the reason told. The times are as the proof reads them
    from a program in the dialect that roughs only. What a steady load takes at the very least, its
    pockets' area by its width and feed, may be enough to know.

    Raises InputError when the rings find no way down.
    """
    by_rings = _minutes(rings, dialect)
    least = _least(steady)
    if least >= by_rings:
        said = f"by rings: {minutes_said(by_rings)}, a steady load would take more than "
        return _told(rings, said + minutes_said(least))
    try:
        steadily = _minutes(steady, dialect)
    except InputError:
        return _told(rings, "by rings, as a steady load finds no way down")
    some, every = _planned(steady)
    if not some:
        return _told(rings, "by rings: no place has room for a steady load")
    if steadily >= by_rings:
        said = f"by rings: {minutes_said(by_rings)}, at a steady load "
        return _told(rings, said + minutes_said(steadily))
    said = f"at a steady load: {minutes_said(steadily)}, by rings {minutes_said(by_rings)}"
    return _told(steady, said + _but(some, every))


def as_asked(work: Work) -> Work:
    """A work whose job says how it is roughed; told where a steady load falls back on rings.

    Raises InputError when those find no way down.
    """
    if work.setup.rough.way != "steady":
        return work
    some, every = _planned(work)
    return _told(work, "at a steady load, as asked" + _but(some, every)) if some < every else work


def _planned(work: Work) -> tuple[int, int]:
    """How many places are cleared steadily, of how many."""
    rings = [one for level in work.roughed_together for one in level.steadily]
    return sum(one.plan is not None for one in rings), len(rings)


def _but(some: int, every: int) -> str:
    if some == every:
        return ""
    return f", {every - some} of {every} places by rings, for want of room"


def _minutes(work: Work, dialect: Dialect) -> float:
    """What the roughing of a work takes."""
    trail, units = Trail(), work.job.units
    for operation in roughing(work):
        operation.cut(trail)
    begin = (Begin("TIMED"), WorkOffset(1), ToolChange(work.rough.cutter.number, "timed"))
    motions = (*begin, Spindle(work.rough.rpm), *trail.motions, Spindle(0), End())
    program = read(write(motions, dialect, units=units), dialect.control)
    moves = moves_in(program, [work.rough.cutter], 1, work.target.clearance)
    taken = spent(moves, program, drive_of(work.job.machine, units))
    return math.fsum((*taken.steady, *taken.ramps))


def _least(work: Work) -> float:
    """What a steady load takes at least, minutes: the area by the width and the feed, and a helix
    down, at each depth."""
    rough, total = work.rough, 0.0
    for level in work.roughed_together:
        clearing = level.clearing(rough, level.rough_rims)
        tops = levels(level.rough_floor, rough.stepdown, level.stock_top)
        area = math.fsum(pocket.area for pocket in level.roughed_pockets)
        total += len(tops) * area / (rough.stepover * rough.feed)
        fall = (level.stock_top - level.rough_floor) / math.sin(math.radians(clearing.ramp))
        for ring in level.rough_rims:
            total += fall / winding_feed(clearing, min(ring.middle[1], WIDE * rough.dia / 2))
    return total


def _told(work: Work, said: str) -> Work:
    """A work whose roughing tool tells why it clears as it does."""
    reasons = work.rough.reasons
    if reasons is None:
        return work
    more: Reasons = replace(reasons, more=(*reasons.more, f"roughs {said}"))
    return replace(work, rough=replace(work.rough, reasons=more, notes=more.lines))
