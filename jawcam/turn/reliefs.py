"""The reliefs and grooves of a bore that the boring tool does not get into."""

from __future__ import annotations

from collections.abc import Iterator
from functools import partial

from jawcam.geometry.combine import difference
from jawcam.geometry.measure import contains
from jawcam.geometry.narrow import Narrow
from jawcam.geometry.shapes import Region
from jawcam.hold.turn_target import TurnLeft
from jawcam.tools.turner import Turner
from jawcam.turn.bar import check_bar, narrowest
from jawcam.turn.groove import cut_groove
from jawcam.turn.groove_plan import GrooveCut
from jawcam.turn.left import check_no_relief
from jawcam.turn.operation import TurnOperation
from jawcam.turn.reach import box, left_for_others
from jawcam.turn.trail import TurnTrail
from jawcam.turn.work import BESIDE, TurnWork

__all__ = ["relieving"]

NO_TOOL = "no tool given reaches into it: it takes a grooving tool with inside = true"


def relieving(work: TurnWork) -> Iterator[TurnOperation]:
    """What boring could not reach in the bore; without an inside grooving tool it stays, and is
    named. Raises InputError if it is the relief of a thread."""
    asked, piece = work.setup.bore, work.bore_piece
    if asked is None or piece is None:
        return
    boring = work.driven(work.tool(asked.tool, "boring"), "boring", feed=asked.feed)
    finished, edge = work.held.finished, work.edge(boring.tool)
    reached = work.reached(boring)
    places = left_for_others(finished, reached, edge, work.tolerance, limit=piece.limit)
    tool = _tool(work)
    for place in places:
        if tool is None:
            check_no_relief(work, place, inside=True)
            stays = partial(_stays, place=place)
            yield TurnOperation("", boring, boring.spindle(piece.free), stays)
            continue
        driven = work.driven(tool, "inside grooving", feed=work.setup.groove.feed)
        radius = narrowest(work, place.region.outer.box[2])
        bottom = place.region.outer.box[3]
        check_bar(work, tool, bore=2 * radius, room=BESIDE, deep=bottom - radius)
        speed = driven.spindle(radius)
        cut = GrooveCut(
            place=_valley(work, place),
            width=tool.width or 0.0,
            radius=tool.radius,
            clear=radius - BESIDE,
            feed=driven.speeds.feed,
            speed=speed,
            reach=tool.reach,
            peck=work.setup.groove.peck,
            inside=True,
            part=finished,
            units=work.job.units,
            where=work.place,
        )
        name = "grooving the bore"
        yield TurnOperation(name, driven, speed, partial(_groove, cut=cut, work=work))


def _tool(work: TurnWork) -> Turner | None:
    """The grooving tool that is named if it works in bores, else the first that does."""
    fit = [one for one in work.job.turners if one.kind == "grooving" and one.inside]
    named = [one for one in fit if one.number == work.setup.groove.tool]
    return next(iter([*named, *fit]), None)


def _valley(work: TurnWork, place: Narrow) -> Region:
    """The whole groove that a place lies in, from the mouth of the place outwards."""
    mouth, (z0, _, z1, top) = place.region.outer.box[1], work.held.finished.outer.box
    open_to = difference([box(z0, z1, mouth, top)], [work.held.finished], work.tolerance)
    mine = [one for one in open_to if contains([one], place.at, slack=0.01)]
    return mine[0] if mine else place.region


def _groove(trail: TurnTrail, cut: GrooveCut, work: TurnWork) -> tuple[TurnLeft, ...]:
    """In and out of the bore along the axis: it can't be come to from aside."""
    front = work.setup.stock.allowance + work.setup.clearance
    trail.rapid(front, cut.clear)
    left = cut_groove(trail, cut, work.tolerance)
    trail.rapid(front, cut.clear)
    return left


def _stays(_trail: TurnTrail, place: Narrow) -> tuple[TurnLeft, ...]:
    return (TurnLeft(*place.at, place.size, NO_TOOL),)
