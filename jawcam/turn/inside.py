"""The bore: centred, drilled and bored, as operations of the order of work."""

from __future__ import annotations

from collections.abc import Iterator
from functools import partial

from jawcam.errors import Fault, InputError
from jawcam.hold.turn_target import TurnLeft
from jawcam.turn.bar import check_bar
from jawcam.turn.drill import AxisDrill, centre_axis, drill_axis
from jawcam.turn.edge import Workpiece
from jawcam.turn.finish import Finishing, finish
from jawcam.turn.left import too_round
from jawcam.turn.operation import TurnOperation
from jawcam.turn.rough import Roughing, rough
from jawcam.turn.trail import TurnTrail
from jawcam.turn.work import BESIDE, OVER, Driven, TurnWork

__all__ = ["boring", "drilling"]


def drilling(work: TurnWork) -> Iterator[TurnOperation]:
    """The bore's beginning, at a steady speed."""
    asked, bore = work.setup.drill, work.job.part.bore
    if asked is None or not bore:
        return
    drill = work.driven(work.tool(asked.tool, "drill"), "drill")
    dia = drill.tool.dia or 0.0
    deep = sum(piece.length for piece in bore)
    through = deep >= work.held.length - 1e-9
    if asked.centre is not None:
        centre = work.driven(work.tool(asked.centre, "centre drill"), "centre drill")
        cut = _axis_drill(work, centre, deep, None)
        yield TurnOperation(
            "centre drilling",
            centre,
            centre.steady((centre.tool.dia or 1.0) / 2),
            partial(_centre, cut=cut, drilled=dia),
        )
    cut = _axis_drill(work, drill, deep + (OVER if through else 0.0), asked.peck)
    yield TurnOperation("drilling", drill, drill.steady(dia / 2), partial(_drill, cut=cut))


def boring(work: TurnWork) -> Iterator[TurnOperation]:
    """The bore, roughed and finished by one tool."""
    asked, piece = work.setup.bore, work.bore_piece
    if asked is None or not work.job.part.bore:
        return
    driven = work.driven(work.tool(asked.tool, "boring"), "boring", feed=asked.feed)
    if piece is None:
        what = "there is no hole for the boring tool to begin in"
        raise InputError(Fault(what, work.place, "drill it first, or give stock.bore"))
    check_bar(work, driven.tool, bore=2 * (piece.free + BESIDE), room=0.0, deep=0.0)
    job = Roughing(
        depth=asked.depth or driven.speeds.depth,
        feed=driven.speeds.feed,
        leave=asked.leave,
        leave_face=asked.leave_face,
        way=asked.way or "along",
    )
    speed = driven.spindle(piece.free)
    cut = partial(_bore, work=work, driven=driven, piece=piece, job=job)
    yield TurnOperation("boring", driven, speed, cut)


def _bore(
    trail: TurnTrail, work: TurnWork, driven: Driven, piece: Workpiece, job: Roughing
) -> tuple[TurnLeft, ...]:
    edge = work.edge(driven.tool)
    rough(trail, piece, edge, job, work.tolerance)
    finish(trail, piece, edge, Finishing(driven.speeds.feed), work.tolerance)
    return tuple(one for one in too_round(work, driven) if one.z > piece.limit)


def _axis_drill(work: TurnWork, driven: Driven, deep: float, peck: float | None) -> AxisDrill:
    tool, speed = driven.tool, driven.steady((driven.tool.dia or 1.0) / 2)
    return AxisDrill(
        top=0.0,
        depth=deep,
        clear=work.setup.stock.allowance + work.setup.clearance,
        dia=tool.dia or 0.0,
        feed=driven.speeds.feed,
        rpm=speed.rpm,
        point_angle=tool.point_angle,
        peck=peck,
        reach=tool.reach,
        units=work.job.units,
        where=work.place,
    )


def _drill(trail: TurnTrail, cut: AxisDrill) -> tuple[TurnLeft, ...]:
    drill_axis(trail, cut)
    return ()


def _centre(trail: TurnTrail, cut: AxisDrill, drilled: float) -> tuple[TurnLeft, ...]:
    centre_axis(trail, cut, drilled)
    return ()
