"""Passes of threads that go round a box, for controls that have one block for all four moves."""

from __future__ import annotations

from collections.abc import Sequence

from jawcam.motion.arcs import moves_from
from jawcam.motion.moves import Motion, Point3, Rapid, ThreadBox, ThreadCut

__all__ = ["boxed"]


def boxed(motions: Sequence[Motion], *, tapered: bool) -> tuple[Motion, ...]:
    """The motions with every pass that goes round a box as a `ThreadBox`, and a rapid after it
    where the next pass begins elsewhere; the rest as it is.

    motions: rounded to what is written, so that a box is one in the text too; tapered: whether the
    control has a word for the taper. A box is made of four moves one after the other: at full speed
    straight across, in step with the spindle, straight out to as far as where it began, and back
    along Z. The control comes back to where the box began; that lies on the way of the last move
    or behind its end, at the same X.
    """
    starts = [start for start, _ in moves_from(motions)]
    out: list[Motion] = []
    at = 0
    while at < len(motions):
        box = _box(starts[at], motions[at : at + 4], tapered=tapered)
        if box is None:
            out.append(motions[at])
            at += 1
            continue
        out.append(box)
        back = motions[at + 3]
        if isinstance(back, Rapid) and back.to != box.start:
            out.append(back)
        at += 4
    return tuple(out)


def _box(start: Point3 | None, motions: Sequence[Motion], *, tapered: bool) -> ThreadBox | None:
    """The box that four moves from `start` make, None if they make none."""
    match motions:
        case [Rapid(across), ThreadCut(end, lead), Rapid(out), Rapid(back)] if start is not None:
            z, x, _ = start
        case _:
            return None
    square = across[0] == z and out == (end[0], x, end[2]) and back[1] == x
    # It begins and ends on one side of where the tool stands, and goes back the way it came.
    aside = (across[1] - x) * (end[1] - x) > 0 and (back[0] - end[0]) * (z - end[0]) > 0
    straight = across[1] == end[1]
    if not (square and aside and (straight or tapered)):
        return None
    return ThreadBox(start, across, end, lead)
