"""A chuck's soft jaws bored to the part: the bore, and the relief at its foot."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from functools import partial

from jawcam.errors import Fault, InputError
from jawcam.geometry.shapes import Region, from_bulges, polygon
from jawcam.hold.bored import QUARTER, Bored, hold_bored
from jawcam.hold.turn_target import TurnLeft
from jawcam.job.jaw_model import JawSetup
from jawcam.job.model import Job
from jawcam.job.turn_model import Chuck, Grooving, Stock, TurnSetup
from jawcam.tolerance import Tolerance
from jawcam.turn.edge import Workpiece
from jawcam.turn.finish import Finishing, finish
from jawcam.turn.groove import cut_groove
from jawcam.turn.groove_plan import GrooveCut
from jawcam.turn.operation import TurnOperation
from jawcam.turn.reach import box
from jawcam.turn.rough import Roughing, rough
from jawcam.turn.trail import TurnTrail
from jawcam.turn.work import BESIDE, Driven, TurnWork

__all__ = ["bored_work", "boring_passes", "jaw_lines"]


def bored_work(job: Job, setup: JawSetup, tolerance: Tolerance) -> tuple[TurnWork, Bored]:
    """The boring of a chuck's jaws as work like that at a part's end: the jaws are the part, and
    speeds are for what they are made of; and what they are bored to. Raises InputError."""
    jaws = setup.jaws
    as_turned = TurnSetup(
        name=setup.name,
        post=setup.post,
        work_offset=setup.work_offset,
        end=setup.grips,
        stock=Stock(jaws.outer, jaws.opening, 0.0),
        chuck=Chuck(jaws.length, dia=setup.chuck.dia, max_rpm=setup.chuck.max_rpm),
        speeds=setup.speeds,
        groove=setup.groove or Grooving(),
        bore=setup.bore,
        clearance=setup.clearance,
        coolant=setup.coolant,
    )
    bored = hold_bored(job, setup, tolerance)
    cut = replace(job, part=replace(job.part, material=jaws.material))
    return TurnWork(cut, as_turned, bored.held, tolerance), bored


def jaw_lines(work: TurnWork, setup: JawSetup) -> tuple[str, ...]:
    """What the head of the program says of the work."""
    say, jaws = work.job.units.say, setup.jaws
    return (
        f"{work.held.target.title}: {setup.name}, soft jaws bored for end {setup.grips}",
        f"jaws open to {say(jaws.opening)}, out to {say(jaws.outer)}, {say(jaws.length)} long",
        "zero: the jaws' front, on the axis",
    )


def boring_passes(work: TurnWork, setup: JawSetup, bored: Bored) -> Iterator[TurnOperation]:
    """The bore, roughed and finished by one tool, and then the relief at its foot."""
    asked = setup.bore
    driven = work.driven(work.tool(asked.tool, "boring"), "boring", feed=asked.feed)
    job = Roughing(
        depth=asked.depth or driven.speeds.depth,
        feed=driven.speeds.feed,
        leave=asked.leave,
        leave_face=asked.leave_face,
        way=asked.way or "along",
    )
    piece = _plain(work, setup, bored.radius)
    nose = work.edge(driven.tool).radius
    foot = (piece.limit, bored.radius) if setup.groove is None else None
    cut = partial(_bore, work=work, piece=piece, driven=driven, job=job, foot=foot)
    yield TurnOperation("boring the jaws", driven, driven.spindle(piece.free), cut)
    if setup.groove is not None:
        yield _relieving(work, setup, bored, piece, nose)


def _relieving(
    work: TurnWork, setup: JawSetup, bored: Bored, piece: Workpiece, nose: float
) -> TurnOperation:
    """The relief, and with it what a boring tool's `nose` has left in the corner."""
    asked, relief = work.setup.groove, bored.relief
    driven = work.driven(
        None if relief is None else relief.tool, "inside grooving", feed=asked.feed
    )
    wall, speed = bored.radius, driven.spindle(bored.radius)
    deep, width = (wall + relief.depth, relief.width) if relief else (wall, 0.0)
    floor, r = -setup.depth, driven.tool.radius
    place = [
        (floor, wall - nose, 0.0),
        (floor + width, wall - nose, 0.0),
        (floor + width, deep - r, QUARTER),
        (floor + width - r, deep, 0.0),
        (floor + r, deep, QUARTER),
        (floor, deep - r, 0.0),
    ]
    square = box(floor, floor + width, wall - nose, deep)
    cut = GrooveCut(
        place=Region(from_bulges(place)) if r > 0 else square,
        width=driven.tool.width or 0.0,
        radius=r,
        clear=piece.free,
        feed=driven.speeds.feed,
        speed=speed,
        reach=driven.tool.reach,
        peck=asked.peck,
        inside=True,
        part=work.held.finished,
        units=work.job.units,
        where=work.place,
    )
    name = "relieving the foot of the bore"
    return TurnOperation(name, driven, speed, partial(_relieve, cut=cut, work=work))


def _plain(work: TurnWork, setup: JawSetup, radius: float) -> Workpiece:
    """The jaws as the boring tool meets them: without the relief, which is cut after it. Raises
    InputError when no tool gets into them as they are open."""
    opening, outer, back = setup.jaws.opening / 2, setup.jaws.outer / 2, -setup.jaws.length
    if opening <= BESIDE:
        what = f"jaws open to {work.job.units.say(2 * opening)} have no room for a boring tool"
        raise InputError(Fault(what, work.place, "clamp them on a larger plug or ring"))
    foot = [(back, opening), (-setup.depth, opening), (-setup.depth, radius), (0.0, radius)]
    part = Region(polygon([*foot, (0.0, outer), (back, outer)]))
    return Workpiece(
        part=part,
        stock=work.held.stock,
        limit=-setup.depth,
        free=opening - BESIDE,
        clearance=setup.clearance,
        units=work.job.units,
    )


def _bore(
    trail: TurnTrail,
    work: TurnWork,
    piece: Workpiece,
    driven: Driven,
    job: Roughing,
    foot: tuple[float, float] | None,
) -> tuple[TurnLeft, ...]:
    """foot: the corner that the nose is too round for, None where it is relieved after that."""
    edge = work.edge(driven.tool)
    rough(trail, piece, edge, job, work.tolerance)
    finish(trail, piece, edge, Finishing(driven.speeds.feed), work.tolerance)
    if foot is None or edge.radius <= 0:
        return ()
    # the largest disc in a square corner that a radius R leaves: R (sqrt 2 - 1) / (sqrt 2 + 1)
    size = 2 * edge.radius * (2**0.5 - 1) / (2**0.5 + 1)
    (z, x), aside = foot, size / 2
    why = "the nose is too round for the foot of the bore"
    return (TurnLeft(z + aside, x - aside, size, why),)


def _relieve(trail: TurnTrail, cut: GrooveCut, work: TurnWork) -> tuple[TurnLeft, ...]:
    """In and out of the bore along the axis: it can't be come to from aside."""
    front = work.setup.clearance
    trail.rapid(front, cut.clear)
    left = cut_groove(trail, cut, work.tolerance)
    trail.rapid(front, cut.clear)
    return left
