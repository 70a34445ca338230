"""A chuck's soft jaws in, the target for boring them to the part out.

Half sections lie in the plane of Z and X (a radius): Z 0 at the jaws' front, the chuck's body at
their other end. The three jaws count as one ring: what is between them is air all the same.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

from jawcam.errors import Fault, FaultList, InputError
from jawcam.geometry.shapes import Arc, Region, from_bulges, to_bulges
from jawcam.hold.gripped import Gripped, gripped
from jawcam.hold.turn_target import HalfLoop, TurnTarget
from jawcam.hold.turned_outside import Outside, outside_of
from jawcam.hold.turning import Chucked
from jawcam.job.jaw_model import JawSetup
from jawcam.job.model import Job
from jawcam.job.places import place_in_setup
from jawcam.part.table import stretches
from jawcam.tolerance import Tolerance
from jawcam.tools.turner import Turner

__all__ = [
    "ALLOWED",
    "QUARTER",
    "Bored",
    "Relief",
    "hold_bored",
]

ALLOWED = 0.05
"""mm on the diameter that a bore may be narrower than the part, and never wider: jaws that are too
wide touch in one line each. It is bored to the middle (common practice, no source)."""

RELIEF_DEPTH = 0.5
RELIEF_WIDTH = 1.5
"""The relief at the foot of the bore: its depth on radius in mm, its width in those of the insert's
edge (common practice, no source)."""

WALL = 2.0
"""mm of metal, at least, that are left outside of the bore (common practice, no source)."""

PLUG_CLEAR = 2.0
"""mm that the plug must stay behind the bore's floor for nothing to touch it (common practice, no
source)."""

RUN_OUT = 0.5  # mm behind the floor that count as part of the work

QUARTER = math.tan(math.pi / 8)
"""The bulge of a quarter of a circle."""


@dataclass(frozen=True)
class Relief:
    """A groove at the foot of the bore: width along Z from the floor on, depth on radius, mm."""

    tool: Turner
    width: float
    depth: float


@dataclass(frozen=True)
class Bored:
    """The jaws as work in the chuck; radius: of their bore, mm; relief: at its foot, None where
    none is asked for, or no tool cuts it."""

    held: Chucked
    radius: float
    relief: Relief | None


def hold_bored(job: Job, setup: JawSetup, tolerance: Tolerance) -> Bored:
    """Soft jaws as they are clamped -> what must go and what must stay.

    The bore has the largest diameter that the part has within `depth` of the end that is gripped,
    less half of `ALLOWED`. Raises InputError when the part is shorter than they are bored, when
    they would grip it by no cylinder, or when the jaws have no metal there.
    """
    jaws, depth = setup.jaws, setup.depth
    _check_part(job, setup)
    outside = outside_of(job, setup, tolerance)
    grip = _grip(outside, job, setup, tolerance)
    radius = grip.radius - ALLOWED / 4
    _check(job, setup, radius)
    opening, outer = jaws.opening / 2, jaws.outer / 2
    relief = _relief(job, setup)
    foot = [(-depth, radius, 0.0)] if relief is None else _relieved(relief, depth, radius)
    behind, front = (-jaws.length, outer, 0.0), (0.0, outer, 0.0)
    hole = [(-jaws.length, opening, 0.0), (-depth, opening, 0.0)]
    made = Region(from_bulges([*hole, *foot, (0.0, radius, 0.0), front, behind]))
    blank = Region(from_bulges(list(_box(-jaws.length, 0.0, opening, outer))))
    target = TurnTarget(
        name=setup.name,
        title=job.title,
        units=job.units,
        finished=to_bulges(made.outer),
        stock=to_bulges(blank.outer),
        limit=-depth - RUN_OUT,
        finished_to=-depth,
        threads=(),
        keep_off=tuple(_keep_off(setup)),
        tools=job.turners,
        work_offset=setup.work_offset,
        clearance=setup.clearance,
        travel_at=setup.travel_at,
        clamp=min(setup.speeds.clamp, setup.chuck.max_rpm),
        notes=(*_words(job, setup, outside, grip, relief), *outside.notes),
    )
    return Bored(Chucked(target, made, blank, jaws.length), radius, relief)


def _grip(outside: Outside, job: Job, setup: JawSetup, tolerance: Tolerance) -> Gripped:
    """What the jaws grip; of a piece with limits the middle of them. Raises InputError where it is
    no cylinder."""
    say, length = job.units.say, outside.length
    if setup.depth > length + 1e-6:
        what = f"the part is only {say(length)} long"
        raise InputError(Fault(what, place_in_setup(job, setup, "depth"), "bore less deep"))
    found = gripped(outside.segments, end=setup.grips, depth=setup.depth, tolerance=tolerance)
    if found.touching:
        return found
    shape = "a round" if isinstance(found.piece, Arc) else "a cone"
    what = (
        f"within {say(setup.depth)} of end {setup.grips} the part is widest, "
        f"{say(2 * found.radius)} across, on {shape} that begins {say(found.begin)} from it: "
        "the jaws would touch it in one line only"
    )
    mend = "let them grip a cylinder: bore them more or less deep, or hold the other end"
    if found.begin > 1e-6:
        before = gripped(outside.segments, end=setup.grips, depth=found.begin, tolerance=tolerance)
        if before.touching:
            mend = f"bore them {say(found.begin)} deep at most, or hold the other end"
    raise InputError(Fault(what, place_in_setup(job, setup, "depth"), mend))


def _relief(job: Job, setup: JawSetup) -> Relief | None:
    if setup.groove is None:
        return None
    number = setup.groove.tool
    fit = [one for one in job.turners if one.kind == "grooving" and one.inside]
    tool = next((one for one in fit if number in (None, one.number)), None)
    if tool is None:
        return None
    return Relief(tool, RELIEF_WIDTH * (tool.width or 0.0), RELIEF_DEPTH)


def _relieved(relief: Relief, depth: float, radius: float) -> list[tuple[float, float, float]]:
    """The foot of the bore with its relief, its corners as round as the insert's; as rows (z, x,
    bulge) from the floor on."""
    deep, end, r = radius + relief.depth, relief.width - depth, relief.tool.radius
    if r <= 0:
        return [(-depth, deep, 0.0), (end, deep, 0.0), (end, radius, 0.0)]
    return [
        (-depth, deep - r, -QUARTER),
        (-depth + r, deep, 0.0),
        (end - r, deep, -QUARTER),
        (end, deep - r, 0.0),
        (end, radius, 0.0),
    ]


def _keep_off(setup: JawSetup) -> Iterator[HalfLoop]:
    """Half sections that nothing may touch: the chuck's body, a plug as high as it may stand."""
    back, body = -setup.jaws.length, setup.chuck.dia
    yield _box(back - body, back, 0.0, max(body, setup.jaws.outer) / 2)
    plug = -setup.depth - PLUG_CLEAR
    if setup.jaws.ring == "plug" and plug > back:
        yield _box(back, plug, 0.0, setup.jaws.opening / 2)


def _check_part(job: Job, setup: JawSetup) -> None:
    if not job.part.turned and job.part.profile is None:
        what = "chuck jaws are bored to a part with a table of diameters or a half profile"
        mend = 'write [part] turned = [ { dia = ..., len = ... } ], or profile = "part.dxf"'
        raise InputError(Fault(what, place_in_setup(job, setup, "cut"), mend))


def _check(job: Job, setup: JawSetup, radius: float) -> None:
    faults, say, jaws = FaultList(), job.units.say, setup.jaws
    if jaws.opening / 2 >= radius - 1e-6:
        faults.add(
            f"the jaws are open to {say(jaws.opening)}, and the bore is to be {say(2 * radius)}: "
            "nothing is left to bore",
            place_in_setup(job, setup, "jaws.opening"),
            "clamp them on a smaller plug or ring",
        )
    least = 2 * (radius + WALL + (0.0 if setup.groove is None else RELIEF_DEPTH))
    if jaws.outer < least:
        faults.add(
            f"the jaws only go to a diameter of {say(jaws.outer)}: "
            f"less than {say(WALL)} of them is left outside of the bore",
            place_in_setup(job, setup, "jaws.outer"),
            f"take jaws that go to {say(least)} or more",
        )
    faults.raise_if_any()


def _words(
    job: Job, setup: JawSetup, outside: Outside, grip: Gripped, relief: Relief | None
) -> Iterator[str]:
    """What the person should know of it."""
    say, jaws = job.units.say, setup.jaws
    yield (
        f"bored for end {setup.grips}: {say(2 * grip.radius)} less {say(ALLOWED / 2)} on the "
        f"diameter (allowed: 0 to {say(ALLOWED)} less), {say(setup.depth)} deep"
    )
    yield (
        f"the jaws clamp a {jaws.ring} that opens them to {say(jaws.opening)}, "
        "at the pressure that the part will be held with"
    )
    if jaws.ring == "plug":
        yield (
            f"the plug sits low in the jaws, all of it {say(setup.depth + PLUG_CLEAR)} or more "
            "behind their front"
        )
    yield "mark the jaws and their places: bore them again whenever they were taken off"
    yield "the cut is interrupted between the jaws: a tough grade of insert, and begin slowly"
    yield f"the chuck is marked for {setup.chuck.max_rpm:.0f} rpm at most"
    if relief is None:
        yield from _corner_words(job, setup, outside)
    yield from _grip_words(job, setup, outside, grip)


def _corner_words(job: Job, setup: JawSetup, outside: Outside) -> Iterator[str]:
    """Without a relief the nose leaves its radius at the bore's foot, where the part's edge is."""
    broken = _broken(outside, setup.grips)
    boring = [one for one in job.turners if one.kind == "boring"]
    own = [one for one in boring if setup.bore.tool in (None, one.number)]
    nose = own[0].insert.radius if own and own[0].insert else 0.0
    if broken <= nose + 1e-6:
        say = job.units.say
        yield (
            f"caution: the bore's foot keeps the nose's radius, {say(nose)}, and the part's edge "
            f"is broken by {say(broken)} only: it will not seat; break it more, or cut a groove"
        )


def _broken(outside: Outside, end: str) -> float:
    """How far the edge of an end is broken, along the axis or down the face, whichever is less."""
    rim = outside.segments[0 if end == "A" else -1]
    (z0, r0), (z1, r1) = rim.start, rim.end
    inward = r1 - r0 if end == "A" else r0 - r1
    return min(z1 - z0, inward) if inward > 0 else 0.0


def _grip_words(job: Job, setup: JawSetup, outside: Outside, grip: Gripped) -> Iterator[str]:
    """How much of the bore's depth touches the part, where that isn't all of it, and threads."""
    say = job.units.say
    if grip.length < setup.depth - 1e-6:
        yield f"{say(grip.length)} of its depth touch the part, the rest of it is free"
    for row in stretches(outside.pieces):
        ends = (row.begin, row.end)
        if setup.grips == "B":
            ends = (outside.length - row.end, outside.length - row.begin)
        on = any(min(ends[1], b) - max(ends[0], a) > 1e-6 for a, b in grip.touching)
        if row.piece.thread and on:
            yield f"caution: the jaws grip a thread ({row.piece.thread})"


def _box(z0: float, z1: float, x0: float, x1: float) -> HalfLoop:
    return ((z0, x0, 0.0), (z1, x0, 0.0), (z1, x1, 0.0), (z0, x1, 0.0))
