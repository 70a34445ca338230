"""What a dialect can't say. It must refuse: it never leaves out or guesses."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from functools import partial

from jawcam.errors import FaultList, InternalError, Place
from jawcam.motion.arcs import moves_from
from jawcam.motion.moves import ArcFeed, Drill, LineFeed, Motion, Point3, Rapid, ThreadCut
from jawcam.motion.passes import ArcLimits
from jawcam.post.lathe_tables import LatheDialect
from jawcam.post.mill_tables import MillDialect
from jawcam.post.refuse_lathe import LatheJudge, no_lathe, unboxed
from jawcam.post.refuse_mill import no_mill, on_mill, too_short
from jawcam.post.refuse_words import Refusal
from jawcam.post.tables import Dialect
from jawcam.units import Units

__all__ = ["early_refusals", "late_refusals", "refusals"]


def early_refusals(motions: Sequence[Motion], dialect: Dialect, units: Units) -> FaultList:
    """What must be refused before any rewrite: motions of another kind of machine, and pecks that
    are too small to be written, or to be written out."""
    if isinstance(dialect, MillDialect):
        return _collected(motions, dialect, units, lambda _, m: no_mill(m, dialect, units))
    return _collected(motions, dialect, units, lambda _, motion: no_lathe(motion))


def refusals(
    motions: Sequence[Motion], dialect: Dialect, units: Units, limits: ArcLimits
) -> FaultList:
    """All that `dialect` can't say of `motions` (mm, seen from the program's zero), each once,
    with the first place where it is."""
    match dialect:
        case MillDialect():
            return _collected(
                motions,
                dialect,
                units,
                lambda start, motion: on_mill(start, motion, dialect, units, limits),
            )
        case LatheDialect():
            return _collected(motions, dialect, units, LatheJudge(dialect, units, limits).refused)
    raise InternalError(f"{dialect.name}: a post of no kind")


def late_refusals(motions: Sequence[Motion], dialect: Dialect, units: Units) -> FaultList:
    """What is left in the rounded motions that can't be said: cuts that are too short and couldn't
    be merged; passes of threads, of a control that has a thread cycle alone, that go round no box.
    """
    match dialect:
        case MillDialect():
            short = partial(too_short, dialect=dialect, units=units)
            return _collected(motions, dialect, units, short)
        case LatheDialect():
            return _collected(motions, dialect, units, partial(unboxed, dialect=dialect))
    raise InternalError(f"{dialect.name}: a post of no kind")


def _collected(
    motions: Sequence[Motion],
    dialect: Dialect,
    units: Units,
    judge: Callable[[Point3 | None, Motion], Iterable[Refusal]],
) -> FaultList:
    places: dict[Refusal, list[Point3 | None]] = {}
    for start, motion in moves_from(motions):
        here = start
        if isinstance(motion, Rapid | LineFeed | ArcFeed | ThreadCut):
            here = motion.to
        elif isinstance(motion, Drill):
            here = (*motion.at, motion.bottom)
        for refusal in judge(start, motion):
            places.setdefault(refusal, []).append(here)
    faults = FaultList()
    for (what, mend), points in places.items():
        at = "" if points[0] is None else dialect.say_point(points[0], units)
        more = f" (and {len(points) - 1} more like it)" if len(points) > 1 else ""
        faults.add(f"{what}{more}", Place(dialect.name, at=at), mend)
    return faults
