"""The cuts beside the pocket that a setup may ask for: faced tops, drilled holes, broken edges."""

from __future__ import annotations

from collections.abc import Iterator
from functools import partial

from jawcam.hold.target import Hole
from jawcam.job.model import EdgeBreak
from jawcam.mill.driven import Chosen, driven
from jawcam.mill.edges import Edges, break_edges, left_sharp
from jawcam.mill.face import Face, face_tops
from jawcam.mill.holes import START, drill_holes, spot_holes
from jawcam.mill.links import Air
from jawcam.mill.operation import Operation
from jawcam.mill.trail import Trail
from jawcam.mill.work import Work
from jawcam.tools.choose import chamfer_mill, end_mills, numbered

__all__ = ["drilling", "edges", "facing", "remarks", "spotting"]

FACING_STEPOVER = 0.7
"""Share of the cutter's diameter (common practice, no source)."""


def facing(work: Work) -> Iterator[Operation]:
    """The tops of the blanks, with the cutter named or the largest end mill."""
    asked = work.setup.face
    if asked is None:
        return
    tools = work.job.tools
    cutter = end_mills(tools)[-1] if asked.tool is None else numbered(tools, asked.tool, work.place)
    chosen = _driven(work, cutter.number)
    faced = Face(
        blanks=work.setup.jaws,
        take=asked.take,
        dia=cutter.dia,
        stepover=asked.stepover or FACING_STEPOVER * cutter.dia,
        stepdown=chosen.stepdown,
        feed=asked.feed or chosen.feed,
        air=Air(work.target.clearance + asked.take, chosen.link_feed),
    )
    yield Operation("facing", chosen, partial(face_tops, faced=faced))


def spotting(work: Work) -> Iterator[Operation]:
    """A spot for each hole that asks for one, the drills in the job's order."""
    spots = {hole.spot for hole in work.setup.holes}
    for number in (tool.number for tool in work.job.tools if tool.number in spots):
        chosen = _driven(work, number)
        pairs = zip(work.setup.holes, work.target.drilled, strict=False)
        holes = [hole for asked, hole in pairs if asked.spot == number]
        yield Operation(
            "spot drilling", chosen, partial(_spot, work=work, chosen=chosen, holes=holes)
        )


def drilling(work: Work) -> Iterator[Operation]:
    """The holes, each drill's one after the other, in the job's order of drills, so that several
    stations use them in the same one; those in corners too, while the blank is solid."""
    asked = work.setup.holes
    # those asked for stand first in the target, in their order
    pecks = [hole.peck for hole in asked]
    pecks += [work.setup.corners.peck] * (len(work.target.drilled) - len(asked))
    pairs = list(zip(work.target.drilled, pecks, strict=True))
    used = {hole.tool for hole in work.target.drilled}
    for number in (tool.number for tool in work.job.tools if tool.number in used):
        chosen = _driven(work, number)
        cut = partial(
            drill_holes,
            holes=[hole for hole, _ in pairs if hole.tool == number],
            start=work.target.facing + min(START, work.target.clearance),
            clear=work.target.facing + work.target.clearance,
            feed=chosen.plunge_feed,
            pecks=[peck for hole, peck in pairs if hole.tool == number],
        )
        yield Operation("drilling", chosen, cut)


def edges(work: Work) -> Iterator[Operation]:
    """The pocket's top edges."""
    if work.setup.edges is not None:
        cut = _edges(work)
        yield Operation("edges", _mill(work), partial(break_edges, edges=cut))


def remarks(work: Work) -> tuple[str, ...]:
    """What the person should know of these cuts."""
    return left_sharp(_edges(work)) if work.setup.edges is not None else ()


def _edges(work: Work) -> Edges:
    asked, chosen = work.setup.edges or EdgeBreak(0.0), _mill(work)
    cutter = chosen.cutter
    return Edges(
        pockets=work.as_cut[0],
        blanks=work.setup.jaws,
        width=asked.width,
        angle=cutter.point_angle,
        tip_dia=cutter.tip_dia,
        dia=cutter.dia,
        floor=work.cavity[0].floor,
        feed=asked.feed or chosen.feed,
        air=work.air,
        tolerance=work.tolerance,
        place=work.place,
        units=work.job.units,
    )


def _mill(work: Work) -> Chosen:
    number = work.setup.edges.tool if work.setup.edges else None
    return _driven(work, chamfer_mill(work.job.tools, number, work.place).number)


def _spot(trail: Trail, work: Work, chosen: Chosen, holes: list[Hole]) -> None:
    spot_holes(
        trail,
        holes,
        chosen.cutter,
        start=work.target.facing + min(START, work.target.clearance),
        clear=work.target.facing + work.target.clearance,
        feed=chosen.plunge_feed,
    )


def _driven(work: Work, number: int) -> Chosen:
    cutter = next(one for one in work.job.tools if one.number == number)
    return driven(cutter, work.setup, work.job.machine, units=work.job.units)
