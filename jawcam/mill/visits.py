"""Several cuts with one cutter, one after the other by a short way."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from jawcam.geometry.shapes import Point
from jawcam.mill.order import Stop, in_order
from jawcam.mill.trail import Trail
from jawcam.motion.moves import Rapid

__all__ = ["visit", "visit_stops"]


def visit(
    trail: Trail,
    cuts: Sequence[Callable[[Trail], None]],
    get_to: Callable[[Trail, Point], None],
) -> None:
    """Make cuts that may come in any order. Where each begins and ends only shows when it is made.

    get_to: goes to where a cut begins, as each of them does first, whatever it does then.
    """
    if len(cuts) == 1:
        cuts[0](trail)
        return
    parts = []
    for cut in cuts:
        part = Trail()
        cut(part)
        parts.append(part)
    stops = [Stop(_start(part), part.plan) for part in parts]
    for number in in_order(stops, _here(trail)):
        part, stop, way = parts[number], stops[number], Trail()
        get_to(way, stop.start)
        get_to(trail, stop.start)
        trail.add(*part.motions[len(way.motions) :])
        trail.at = part.at


def visit_stops(trail: Trail, stops: Sequence[tuple[Stop, Callable[[Trail], None]]]) -> None:
    """The same of cuts that are known to begin and end at stops."""
    for number in in_order([stop for stop, _ in stops], _here(trail)):
        stops[number][1](trail)


def _start(part: Trail) -> Point:
    """Where a cut begins: from an unknown place it goes there at full speed."""
    return next(motion.to[:2] for motion in part.motions if isinstance(motion, Rapid))


def _here(trail: Trail) -> Point | None:
    return trail.plan if trail.at is not None else None
