"""The bore of a turned part in its half section, what it takes away of the stock, and what of it
either end makes."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace

from jawcam.errors import FaultList, Place
from jawcam.geometry.shapes import Line, Region, Segment, polygon
from jawcam.hold.threaded import Threaded
from jawcam.job.model import Job
from jawcam.job.turn_model import TurnSetup
from jawcam.part.piece import Piece
from jawcam.part.table import stretches

__all__ = ["BoreShare", "Drill", "bore_outline", "bore_share", "check_bored", "drill_of", "hollows"]

_NEAR = 1e-9  # mm; sums of lengths that are equal on paper agree better


@dataclass(frozen=True)
class Drill:
    """What drills the bore. radius: mm; point: how deep the cone of its point is, in its radii:
    1 / tan(angle / 2)."""

    radius: float
    point: float


@dataclass(frozen=True)
class BoreShare:
    """The stretches of the bore, from end A: pieces: as they are once a setup is done; made: as
    they are before it; none each while the part is solid. table: those of the setup's threads."""

    pieces: tuple[Piece, ...]
    made: tuple[Piece, ...]
    table: Threaded


def _bores(setup: TurnSetup | None) -> bool:
    """Whether a setup makes the part's bore, or some of it; until one has, it is solid."""
    return setup is not None and (setup.drill is not None or setup.bore is not None)


def bore_share(
    hollow: Threaded,
    setup: TurnSetup,
    *,
    before: TurnSetup | None,
    after: TurnSetup | None,
    drilled: float,
) -> BoreShare:
    """What a setup makes of the bore. before, after: the setup of the other end, whichever it is;
    drilled: the radius of the job's drill, mm.

    If both bore, the first makes what gets no wider towards the other end, and all behind that as
    narrow as it comes by; if it only drills, that is the drill's diameter. The second makes the
    rest. If one does, it makes all.
    """
    whole, none = hollow.pieces, Threaded(inside=True)
    if before is None:
        if not _bores(setup):
            return BoreShare((), (), none)
        if after is None or after.bore is None:
            return BoreShare(whole, (), hollow)
        own = _of_first(hollow, setup, drilled)
        return BoreShare(own.pieces, (), own)
    made = whole
    if not _bores(before):
        made = ()
    elif setup.bore is not None:
        made = _of_first(hollow, before, drilled).pieces
    if not _bores(setup):
        return BoreShare(made, made, none)
    done = made or (None,) * len(whole)
    forms = (
        None if old == new else form
        for old, new, form in zip(done, whole, hollow.forms, strict=True)
    )
    return BoreShare(whole, made, replace(hollow, forms=tuple(forms)))


def check_bored(
    hollow: Threaded,
    setup: TurnSetup,
    before: TurnSetup | None,
    length: float,
    faults: FaultList,
    where: Callable[[str], Place],
) -> None:
    """Note that a bore which does not go through is to be made from end B, and one that is drilled
    twice. length: of the part, mm; where: makes the place of a key of the setup."""
    if not hollow.pieces or not _bores(setup):
        return
    key = "drill" if setup.drill is not None else "bore"
    deep = sum(piece.length for piece in hollow.pieces)
    if setup.end == "B" and deep < length - 1e-6:
        what = "the bore begins at end A and does not go through, so end B has none"
        faults.add(what, where(key), "leave it out, or turn end A with it")
    elif before is not None and before.drill is not None and setup.drill is not None:
        what = f"setup {before.name!r} has drilled the bore already"
        faults.add(what, where(key), "leave one of the two out")


def _of_first(hollow: Threaded, setup: TurnSetup, drilled: float) -> Threaded:
    """What the setup of the end that comes first makes of a bore that both make."""
    rows = list(zip(stretches(hollow.pieces), hollow.forms, strict=True))
    if setup.end == "B":
        rows.reverse()
    ends = [(r.first, r.last) if setup.end == "A" else (r.last, r.first) for r, _ in rows]
    least, found = math.inf if setup.bore is not None else drilled, []
    for k, ((row, form), (near, far)) in enumerate(zip(rows, ends, strict=True)):
        beyond = min([far, *(min(pair) for pair in ends[k + 1 :])])
        mine = setup.bore is not None and min(least, near) >= beyond - _NEAR
        least = min(least, near, far)
        narrow = Piece(2 * least, 2 * least, row.piece.length)
        found.append((row.piece, form) if mine else (narrow, None))
    if setup.end == "B":
        found.reverse()
    return Threaded(tuple(p for p, _ in found), tuple(f for _, f in found), inside=True)


def bore_outline(bore: Sequence[Piece], length: float, drill: Drill) -> list[Segment]:
    """The bore from end B back to end A; a blind one ends in the cone of its drill."""
    if not bore:
        return [Line((length, 0.0), (0.0, 0.0))]
    rows = stretches(bore)
    segments: list[Segment] = [
        Line((row.end, row.last), (row.begin, row.first)) for row in reversed(rows)
    ]
    depth = rows[-1].end
    if depth < length:
        drilled = min(drill.radius, rows[-1].last)
        tip = min(depth + drilled * drill.point, length)
        head: list[Segment] = [
            Line((length, 0.0), (tip, 0.0)),
            Line((tip, 0.0), (depth, drilled)),
        ]
        return [*head, Line((depth, drilled), (depth, rows[-1].last)), *segments]
    return segments


def drill_of(job: Job) -> Drill:
    """What the job's drill leaves at a bore's bottom."""
    drills = [tool for tool in job.turners if tool.kind == "drill" and tool.dia]
    angle = drills[0].point_angle if drills else 118.0
    radius = (drills[0].dia or 0.0) / 2 if drills else math.inf
    return Drill(radius, 1 / math.tan(math.radians(angle / 2)))


def hollows(bore: Sequence[Piece], length: float, front: float, *, free: str) -> list[Region]:
    """The bore's stretches as they lie with the end `free` at Z 0, down past the axis; one that
    is open at that end goes on to `front`, the stock's own face."""
    found = []
    for row in stretches(bore):
        ends = [(-row.begin, row.first), (-row.end, row.last)]
        if free == "B":
            ends = [(row.begin - length, row.first), (row.end - length, row.last)]
        (z0, r0), (z1, r1) = sorted(ends)
        if abs(z1) < 1e-9:
            z1 = front + 1.0
        if z1 > z0:
            found.append(Region(polygon([(z0, -1.0), (z1, -1.0), (z1, r1), (z0, r0)])))
    return found
