"""A turned part, its stock and its chuck in, the lathe's target out.

Half sections lie in the plane of Z and X (a radius): Z 0 at the finished face of the free end.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass

from jawcam.errors import FaultList, Place
from jawcam.geometry.combine import difference, intersection, union
from jawcam.geometry.offset import grow
from jawcam.geometry.shapes import Arc, Line, Path, Point, Region, Segment, polygon, to_bulges
from jawcam.geometry.tidy import tidied
from jawcam.hold.chucked import chuck_words, jaw_face, keep_off
from jawcam.hold.thread_room import tight
from jawcam.hold.threaded import Threaded, thread_words, threaded, threads_of
from jawcam.hold.turn_target import Thread, TurnTarget
from jawcam.hold.turned_bore import (
    Drill,
    bore_outline,
    bore_share,
    check_bored,
    drill_of,
    hollows,
)
from jawcam.hold.turned_outside import Outside, outside_of
from jawcam.job.model import Job
from jawcam.job.places import place_in_setup, place_of
from jawcam.job.turn_model import TurnSetup
from jawcam.part.piece import Piece
from jawcam.tolerance import Tolerance

__all__ = ["Chucked", "half_section", "hold_turned"]

OFF_JAWS, RUN_OUT = 1.0, 2.0
"""mm that cuts stay off the jaws' front, and that tools run on behind what they finish (common
practice, no source)."""


@dataclass(frozen=True)
class Chucked:
    """The target, plain, for all; its half sections as exact lines and arcs, for the planner;
    length: of the part, mm; bore: its stretches as they are bored, none while it is solid; made:
    the same as the other end's setup left them."""

    target: TurnTarget
    finished: Region
    stock: Region
    length: float = 0.0
    bore: tuple[Piece, ...] = ()
    made: tuple[Piece, ...] = ()


def half_section(
    outside: Outside, bore: Sequence[Piece], *, free: str, drill: Drill
) -> tuple[Segment, ...]:
    """The outline of the part's half section as it lies with its end `free` ("A" or "B") at Z 0,
    counter-clockwise, closed along the axis or the bore."""
    length = outside.length
    inside = bore_outline(bore, length, drill)
    # from end A along the outside to end B, and back along the bore or the axis
    around: list[Segment] = []
    for segment in (*outside.segments, *inside):
        if around and around[-1].end != segment.start:
            around.append(Line(around[-1].end, segment.start))
        around.append(segment)
    if around[-1].end != around[0].start:
        around.append(Line(around[-1].end, around[0].start))
    path = tidied(Path(tuple(_placed(segment, length, free) for segment in around)))
    return (path if path.area > 0 else path.reversed()).segments


def hold_turned(job: Job, setup: TurnSetup, tolerance: Tolerance) -> Chucked:
    """One end of a turned part -> what must go and what must stay.

    Raises InputError when the stock is too small for the part, when the chuck holds nothing, or
    when there is nothing left to turn in front of it.
    """

    def where(key: str = "") -> Place:
        return place_in_setup(job, setup, key)

    faults = FaultList()
    outside = outside_of(job, setup, tolerance)
    before, after = _other_end(job, setup)
    hollow, drill, length = _hollow(job), drill_of(job), outside.length
    check_bored(hollow, setup, before, length, faults, where)
    share = bore_share(hollow, setup, before=before, after=after, drilled=drill.radius)
    whole = Region(Path(half_section(outside, share.pieces, free=setup.end, drill=drill)))
    back = 0.0 if before is not None else setup.stock.allowance
    front_of_jaws = jaw_face(setup, length + back)
    reach = _reach(setup, length, front_of_jaws, before, faults, job, where)
    run_out = RUN_OUT + (_parting_width(job, setup) if setup.part_off else 0.0)
    limit = max(reach - run_out, front_of_jaws + OFF_JAWS)
    faults.raise_if_any()
    solid = Region(Path(half_section(outside, (), free=setup.end, drill=drill)))
    stock = _stock(whole, solid, setup, length, back, before, share.made, tolerance)
    _check_stock(whole, job, setup, faults, where)
    faults.raise_if_any()
    around = Threaded(outside.pieces, outside.forms)
    threads = [*_threads(around, whole, setup, job, faults, limit)]
    threads += _threads(share.table, whole, setup, job, faults)
    faults.raise_if_any()
    target = TurnTarget(
        name=setup.name,
        title=job.title,
        units=job.units,
        finished=to_bulges(whole.outer),
        stock=to_bulges(stock.outer),
        limit=limit,
        finished_to=reach,
        threads=tuple(threads),
        keep_off=tuple(keep_off(setup, stock, front_of_jaws)),
        tools=job.turners,
        work_offset=setup.work_offset,
        clearance=setup.clearance,
        travel_at=setup.travel_at,
        clamp=min(setup.speeds.clamp, setup.chuck.max_rpm),
        parted=-length if setup.part_off else None,
        notes=(
            *outside.notes,
            *chuck_words(setup, -front_of_jaws, outside.least, job.units),
            *(thread_words(one, job.units) for one in threads),
        ),
    )
    return Chucked(target, whole, stock, length, share.pieces, share.made)


def _threads(
    table: Threaded,
    whole: Region,
    setup: TurnSetup,
    job: Job,
    faults: FaultList,
    limit: float = -math.inf,
) -> Iterator[Thread]:
    """The threads of a table in front of `limit`; those without room to run out are noted."""
    for number, thread in threads_of(table, -whole.outer.box[0], free=setup.end):
        if min(thread.start, thread.end) < limit - 1e-9:
            continue
        yield thread
        wrong = tight(whole, thread, job.units)
        if wrong is not None:
            key = f"part.{'bore' if table.inside else 'turned'}[{number}].thread"
            faults.add(wrong[0], place_of(job, key), wrong[1])


def _hollow(job: Job) -> Threaded:
    """The bore, what has a thread as wide as that wants it. Raises InputError."""

    def where(key: str) -> Place:
        return place_of(job, f"part.{key}")

    return threaded(job.part.bore, inside=True, units=job.units, place=where)


def _placed(segment: Segment, length: float, free: str) -> Segment:
    """A piece of the outline, (along, radius) from end A, in Z and X."""

    def at(point: Point) -> Point:
        along, radius = point
        return (-along if free == "A" else along - length, radius)

    start, end = at(segment.start), at(segment.end)
    if isinstance(segment, Arc):
        return Arc(start, end, at(segment.centre), segment.ccw != (free == "A"))
    return Line(start, end)


def _parting_width(job: Job, setup: TurnSetup) -> float:
    """How wide the cut is that parts off."""
    asked = setup.part_off.tool if setup.part_off else None
    widths = [
        tool.width or 0.0
        for tool in job.turners
        if tool.kind == "parting" and asked in (None, tool.number)
    ]
    return widths[0] if widths else 0.0


def _other_end(job: Job, setup: TurnSetup) -> tuple[TurnSetup | None, TurnSetup | None]:
    """The setup that has turned the other end already, and the one that is yet to do it."""
    names = [one.name for one in job.turnings]
    here = names.index(setup.name)
    rows = (job.turnings[:here], job.turnings[here + 1 :])
    before, after = (next((one for one in row if one.end != setup.end), None) for row in rows)
    return before, after


def _reach(
    setup: TurnSetup,
    length: float,
    front: float,
    before: TurnSetup | None,
    faults: FaultList,
    job: Job,
    where: Callable[[str], Place],
) -> float:
    """The Z that the part is finished to. front: of the jaws; before: the setup that has turned
    the other end."""
    say = job.units.say
    most = front + OFF_JAWS + RUN_OUT
    if setup.part_off:
        return -length
    reach = setup.reach
    if reach is None:
        reach = min(length, -most) if before is None else length - _turned(before, length)
    if reach <= 0:
        faults.add(
            f"the chuck holds {say(setup.chuck.grip)}, and nothing is left to turn in front of it",
            where("chuck.grip"),
            "hold less of it",
        )
    elif -reach < most - 1e-9:
        faults.add(
            f"turning {say(reach)} of the part comes within {say(max(-reach - front, 0.0))} of the "
            f"jaws, and {say(OFF_JAWS + RUN_OUT)} is kept off them for the tools to run out",
            where("reach"),
            f"turn {say(-most)} at most, or hold less of it",
        )
    return -reach


def _stock(
    whole: Region,
    solid: Region,
    setup: TurnSetup,
    length: float,
    back: float,
    before: TurnSetup | None,
    made: Sequence[Piece],
    tolerance: Tolerance,
) -> Region:
    """What is in the chuck: the blank, of which the other end may be turned already, and bored
    (`made`). solid: the part without its bore, which a casting stands over."""
    outer, inner = setup.stock.dia / 2, setup.stock.bore / 2
    front, rear = setup.stock.allowance, -(length + back)
    if setup.part_off:
        rear = -(length + setup.chuck.grip + 20.0)
    seam = rear if before is None else -(length - _turned(before, length))
    raw = Region(polygon([(seam, inner), (front, inner), (front, outer), (seam, outer)]))
    if setup.stock.over is not None:
        near = grow([solid], setup.stock.over, tolerance)
        raw = max(intersection([raw], near, tolerance), key=lambda one: one.outer.area)
    if before is None:
        return raw
    behind = Region(polygon([(rear - 1, -1), (seam, -1), (seam, outer + 1), (rear - 1, outer + 1)]))
    turned = intersection([whole], [behind], tolerance)
    blank = union([raw, *turned], tolerance)
    (found, *_) = difference(blank, hollows(made, length, front, free=setup.end), tolerance)
    return Region(found.outer)


def _turned(setup: TurnSetup, length: float) -> float:
    """How far along the part, from its own end, a first setup has turned it."""
    if setup.reach is not None:
        return setup.reach
    front = jaw_face(setup, length + setup.stock.allowance)
    return min(length, -(front + OFF_JAWS + RUN_OUT))


def _check_stock(
    whole: Region, job: Job, setup: TurnSetup, faults: FaultList, where: Callable[[str], Place]
) -> None:
    """The part must lie within its stock."""
    say = job.units.say
    widest = whole.outer.box[3]
    if widest > setup.stock.dia / 2 + 1e-9:
        faults.add(
            f"the stock, {say(setup.stock.dia)} across, is thinner than the part, "
            f"{say(2 * widest)}",
            where("stock.dia"),
            f"take stock of {say(2 * widest)} or more",
        )
