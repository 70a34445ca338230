"""What turning leaves: valleys for a grooving insert, and corners that a nose is too round for."""

from __future__ import annotations

from collections.abc import Sequence

from jawcam.errors import Fault, InputError
from jawcam.geometry.combine import difference
from jawcam.geometry.measure import contains
from jawcam.geometry.narrow import Narrow, substantial
from jawcam.geometry.shapes import Region
from jawcam.hold.turn_target import TurnLeft
from jawcam.turn.reach import box, left_for_others, rounded_off
from jawcam.turn.work import Driven, TurnWork

__all__ = ["at_other_end", "check_no_relief", "grooved", "grooves", "too_round", "valley"]


def grooves(work: TurnWork, finisher: Driven) -> tuple[Narrow, ...]:
    """The places that turning does not get into, for a grooving tool."""
    edge = work.edge(finisher.tool)
    places = left_for_others(
        work.held.finished, work.reached(finisher), edge, work.tolerance, limit=work.finished_to
    )
    return tuple(place for place in places if place.at[0] > work.finished_to)


def valley(work: TurnWork, place: Narrow) -> Region:
    """The whole valley of the part that a place lies in, up to the top of the place: an edge may
    be wider than what is left there, as long as it fits between the walls."""
    top, (z0, _, z1, _) = place.region.outer.box[3], work.held.finished.outer.box
    below = box(max(z0, work.held.target.limit), z1, 0.0, top)
    open_to = difference([below], [work.held.finished], work.tolerance)
    mine = [one for one in open_to if contains([one], place.at, slack=0.01)]
    return mine[0] if mine else place.region


def check_no_relief(work: TurnWork, place: Narrow, *, inside: bool) -> None:
    """Raise InputError where a place that no tool cuts is what a thread is to run out in."""
    z0, _, z1, _ = place.region.outer.box
    for thread in work.held.target.threads:
        end = min(thread.start, thread.end)
        if thread.inside == inside and z0 < end - 1e-6 and z1 > end - thread.pitch:
            what = f"the relief of {thread.designation} is out of reach of the tools that turn"
            mend = 'add a [[tool]] with kind = "grooving"' + ", inside = true" * inside
            raise InputError(Fault(what, work.place, mend))


def grooved(work: TurnWork, finisher: Driven) -> tuple[Region, ...]:
    """The valleys that a grooving tool finishes: none without one."""
    if work.tool(work.setup.groove.tool, "grooving") is None:
        return ()
    places = grooves(work, finisher)
    return tuple(valley(work, one) for one in places if not at_other_end(work, one))


def at_other_end(work: TurnWork, place: Narrow) -> bool:
    """Whether a place lies at the limit, so that it is the other end's to cut."""
    return place.region.outer.box[0] <= work.finished_to + 1e-6


def too_round(
    work: TurnWork, driven: Driven, others: Sequence[Region] = ()
) -> tuple[TurnLeft, ...]:
    """The corners that a nose is too round for, but those in the valleys of other tools."""
    edge, reached = work.edge(driven.tool), work.reached(driven)
    filled = difference(rounded_off(reached, edge.radius, work.tolerance), reached, work.tolerance)
    return tuple(
        TurnLeft(*one.at, one.size, "the nose is too round for this corner")
        for one in substantial(filled, work.tolerance)
        if not contains(others, one.at, slack=0.01)
    )
