"""The kinds of cut that an end may need, each as operations of the order of work."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from functools import partial

from jawcam.geometry.narrow import Narrow
from jawcam.hold.turn_target import TurnLeft
from jawcam.part.table import stretches
from jawcam.turn.edge import Workpiece
from jawcam.turn.face import Facing, finish_face, rough_face
from jawcam.turn.finish import Finishing, finish
from jawcam.turn.gripping import grip_words
from jawcam.turn.groove import cut_groove
from jawcam.turn.groove_plan import GrooveCut
from jawcam.turn.left import (
    at_other_end,
    check_no_relief,
    grooved,
    grooves,
    too_round,
    valley,
)
from jawcam.turn.operation import TurnOperation
from jawcam.turn.part_off import PartOff, part_off
from jawcam.turn.rough import Roughing, left_for_next, rough
from jawcam.turn.trail import TurnTrail
from jawcam.turn.work import Driven, TurnWork

__all__ = [
    "facing",
    "finishing",
    "grooving",
    "parting_off",
    "roughing",
]

NO_TOOL = "no tool given reaches into it"
CENTRE = "the tailstock's centre stands there: face the rest without it"
OTHER_END = "it lies at the limit, on the far side of a collar: turn it from the other end"


def facing(work: TurnWork) -> Iterator[TurnOperation]:
    """The stock in front of the end, but for what finishing takes."""
    if work.setup.stock.allowance <= 0:
        return
    driven = _rougher(work)
    depth = work.setup.rough.depth or driven.speeds.depth
    hole, speed = work.front_hole, driven.inwards(work.free)
    job = Facing(driven.speeds.feed, speed, depth, work.setup.rough.leave_face, hole=hole)
    cut = partial(_face, work=work, driven=driven, job=job, last=False)
    notes = tuple(driven.held_words("facing", speed, hole))
    yield TurnOperation("facing", driven, speed, cut, notes)


def roughing(work: TurnWork) -> Iterator[TurnOperation]:
    """The outside, stock left for finishing."""
    driven = _rougher(work)
    job = _roughing(work, driven, work.setup.rough.depth)
    cut = partial(_rough, work=work, piece=work.piece, driven=driven, job=job)
    notes = tuple(grip_words(work, driven, job.depth))
    yield TurnOperation("roughing", driven, driven.spindle(work.free), cut, notes)


def _deepening(work: TurnWork) -> Iterator[TurnOperation]:
    """Roughing with the finisher's insert where the rougher's doesn't get in, so that finishing
    never bites deeper than that insert should."""
    rougher, finisher = _rougher(work), _finisher(work)
    if rougher.tool.number == finisher.tool.number:
        return
    driven = work.driven(finisher.tool, "turning")
    job = _roughing(work, driven, None)
    stock = left_for_next(
        work.piece,
        work.edge(rougher.tool),
        work.edge(driven.tool),
        job,
        work.tolerance,
        least=finisher.speeds.depth,
    )
    if stock is not None:
        piece = replace(work.piece, stock=stock)
        cut = partial(_rough, work=work, piece=piece, driven=driven, job=job)
        yield TurnOperation("roughing deeper", driven, driven.spindle(work.free), cut)


def _roughing(work: TurnWork, driven: Driven, depth: float | None) -> Roughing:
    asked = work.setup.rough
    return Roughing(
        depth=depth or driven.speeds.depth,
        feed=driven.speeds.feed,
        leave=asked.leave,
        leave_face=asked.leave_face,
        way=asked.way or ("along" if work.setup.stock.over is None else "profile"),
    )


def finishing(work: TurnWork) -> Iterator[TurnOperation]:
    """What only the finisher gets at in passes, the end's face, and then the outside, once along
    the profile."""
    yield from _deepening(work)
    driven, asked = _finisher(work), work.setup.finish
    hole, speed = work.front_hole, driven.inwards(work.free)
    if work.setup.stock.allowance > 0 or not work.setup.chuck.tailstock:
        face = Facing(driven.speeds.feed, speed, hole=hole)
        cut = partial(_face, work=work, driven=driven, job=face, last=True)
        notes = tuple(driven.held_words("finishing the face", speed, hole))
        yield TurnOperation("finishing the face", driven, speed, cut, notes)
    job = Finishing(
        driven.speeds.feed, asked.compensation, driven.tool.offset or driven.tool.number
    )
    cut = partial(_finish, work=work, driven=driven, job=job)
    yield TurnOperation("finishing", driven, driven.spindle(work.free), cut)


def grooving(work: TurnWork) -> Iterator[TurnOperation]:
    """What finishing could not reach; without a grooving tool it stays, and is named."""
    finisher = _finisher(work)
    tool = work.tool(work.setup.groove.tool, "grooving")
    for place in grooves(work, finisher):
        behind = at_other_end(work, place)
        if tool is None or behind:
            check_no_relief(work, place, inside=False)
            stays = partial(_stays, place=place, why=OTHER_END if behind else NO_TOOL)
            yield TurnOperation("", finisher, finisher.spindle(work.free), stays)
            continue
        driven = work.driven(tool, "grooving", feed=work.setup.groove.feed)
        speed = driven.spindle(work.free)
        cut = GrooveCut(
            place=valley(work, place),
            width=tool.width or 0.0,
            radius=tool.radius,
            clear=work.free,
            feed=driven.speeds.feed,
            speed=speed,
            reach=tool.reach,
            peck=work.setup.groove.peck,
            part=work.piece.part,
            units=work.job.units,
            where=work.place,
        )
        yield TurnOperation("grooving", driven, speed, partial(_groove, cut=cut, work=work))


def parting_off(work: TurnWork) -> Iterator[TurnOperation]:
    """The part off its bar."""
    asked, at = work.setup.part_off, work.held.target.parted
    if asked is None or at is None:
        return
    driven = work.driven(work.tool(asked.tool, "parting"), "parting", feed=asked.feed)
    tool, speed = driven.tool, driven.inwards(work.free)
    rim, edge = _far_rim(work, at)
    cut = PartOff(
        at=at,
        rim=rim,
        stock=work.setup.stock.dia / 2,
        width=tool.width or 0.0,
        radius=tool.radius,
        clear=work.free,
        feed=driven.speeds.feed,
        speed=speed,
        bore=work.setup.stock.bore / 2,
        reach=tool.reach,
        edge=edge,
        units=work.job.units,
        where=work.place,
    )
    notes = tuple(driven.held_words("parting off", speed, cut.end))
    yield TurnOperation("parting off", driven, speed, partial(_part, cut=cut), notes)


def _far_rim(work: TurnWork, at: float) -> tuple[float, float]:
    """The radius of the part where it is parted off, and how far its corner is broken there; a
    drawn one is cut as it is drawn."""
    rows, asked = stretches(work.job.part.turned), work.setup.part_off
    if not rows or asked is None:
        drawn = (x for z, x, _ in work.held.target.finished if abs(z - at) <= 1e-6)
        return max(drawn, default=0.0), 0.0
    row = rows[-1 if work.setup.end == "A" else 0]
    far, rim = row.piece, row.last if work.setup.end == "A" else row.first
    return rim, far.chamfer if far.chamfer or far.rounding else asked.edge


def _rougher(work: TurnWork) -> Driven:
    asked = work.setup.rough
    tool = work.tool(asked.tool, "turning", round_nose=True)
    return work.driven(tool, "turning", feed=asked.feed)


def _finisher(work: TurnWork) -> Driven:
    asked = work.setup.finish
    return work.driven(work.tool(asked.tool, "turning"), "turning", finish=True, feed=asked.feed)


def _face(
    trail: TurnTrail, work: TurnWork, driven: Driven, job: Facing, *, last: bool
) -> tuple[TurnLeft, ...]:
    edge, front = work.edge(driven.tool), work.setup.stock.allowance
    if not last:
        rough_face(trail, work.piece, edge, job, work.tolerance)
        return ()
    low = finish_face(trail, work.piece, edge, job, work.tolerance)
    size = min(front, 2 * low)
    return (TurnLeft(front / 2, low / 2, size, CENTRE),) if size > 0 else ()


def _rough(
    trail: TurnTrail, work: TurnWork, piece: Workpiece, driven: Driven, job: Roughing
) -> tuple[TurnLeft, ...]:
    rough(trail, piece, work.edge(driven.tool), job, work.tolerance)
    return ()


def _finish(
    trail: TurnTrail, work: TurnWork, driven: Driven, job: Finishing
) -> tuple[TurnLeft, ...]:
    """What the nose is too round for stays, but in places that are grooved."""
    finish(trail, work.piece, work.edge(driven.tool), job, work.tolerance)
    return too_round(work, driven, grooved(work, driven))


def _groove(trail: TurnTrail, cut: GrooveCut, work: TurnWork) -> tuple[TurnLeft, ...]:
    return cut_groove(trail, cut, work.tolerance)


def _stays(_trail: TurnTrail, place: Narrow, why: str) -> tuple[TurnLeft, ...]:
    return (TurnLeft(*place.at, place.size, why),)


def _part(trail: TurnTrail, cut: PartOff) -> tuple[TurnLeft, ...]:
    part_off(trail, cut)
    return ()
