"""How the cutters of a setup are driven: speeds, feeds and depths, within what machine and cutter
bear, each with its reason."""

from __future__ import annotations

from dataclasses import dataclass, replace

from jawcam.job.model import Machine, Setup
from jawcam.mill.bite import CORNER
from jawcam.part.fits import zone
from jawcam.tools.cutter import Cutter
from jawcam.tools.engagement import thinning
from jawcam.tools.feeds import Speeds, speeds
from jawcam.tools.force import group_of
from jawcam.tools.limits import Limits, first_bend
from jawcam.tools.pace import Pace
from jawcam.tools.reasons import Reasons, feed_words
from jawcam.tools.settle import Settled, settle
from jawcam.tools.spindle import given_at
from jawcam.units import Units

__all__ = ["BEND_SHARE", "Chosen", "driven", "pocketing", "wall_tolerance"]

STEPDOWN, STEPOVER = 0.5, 0.4
"""Shares of the cutter's diameter where the job does not say (common practice, no source)."""

BEND_SHARE = 0.5
"""Of the stock left on the wall, when roughing, and of the wall's tolerance, when finishing: how
far a cutter may bend (common practice, no source)."""

TOLERANCE = 0.02
"""mm that a wall may be off where the job asks for no more clearance than that (common practice, no
source)."""


STEPS = 3
"""The most steps that a wall is finished in, and none less than half the diameter deep, so that a
cutter bends less (common practice, no source)."""


@dataclass(frozen=True)
class Chosen:
    """One cutter and how it is driven: mm, 1/min and mm/min. notes: what was chosen and why, a line
    and its cautions; reasons: the same in parts. pace: its feeds for each bite when it clears;
    wall: when it finishes a wall; None: for `clearing_pace` and `wall_pace` to work out. wall_step:
    how deep it finishes a wall at a time, None: all of it."""

    cutter: Cutter
    rpm: float
    feed: float
    slot_feed: float
    plunge_feed: float
    link_feed: float
    stepdown: float
    stepover: float
    notes: tuple[str, ...]
    reasons: Reasons | None = None
    pace: Pace | None = None
    wall: Pace | None = None
    wall_step: float | None = None

    @property
    def dia(self) -> float:
        """In mm."""
        return self.cutter.dia

    @property
    def clearing_pace(self) -> Pace:
        """Its feeds for each bite when it clears."""
        return self.pace or Pace(self.dia, self.feed, self.slot_feed, self.dia / 2)

    def wall_pace(self, leave: float) -> Pace:
        """Its feeds for each bite along a wall with `leave` mm to cut."""
        full = CORNER * max(leave, LIGHT)
        return self.wall or Pace(self.dia, self.feed, self.slot_feed, min(full, self.dia))

    def describe(self, units: Units) -> str:
        """For the person at the machine: what to load."""
        shape = f"{self.cutter.kind} dia {units.say(self.dia)}, {self.cutter.flutes} flutes"
        return f"{self.cutter.name}: {shape}" if self.cutter.name else shape


LIGHT = 0.1
"""mm: a wall pass is never taken to have less to cut (common practice, no source)."""


def driven(cutter: Cutter, setup: Setup, machine: Machine, *, units: Units) -> Chosen:
    """How any cutter is driven in a setup's blanks, by what is worked out for it alone."""
    worked = _speeds(cutter, setup, machine, units)
    return Chosen(
        cutter,
        worked.rpm,
        worked.feed,
        worked.slot_feed,
        worked.plunge_feed,
        machine.max_feed,
        STEPDOWN * cutter.dia,
        STEPOVER * cutter.dia,
        worked.reasons.lines,
        worked.reasons,
    )


def pocketing(
    cutter: Cutter,
    setup: Setup,
    machine: Machine,
    *,
    units: Units,
    wall: float | None = None,
    what: str = "wall",
) -> Chosen:
    """How an end mill is driven in the pocket, what the job says of roughing taken for it; never at
    a stepover that leaves islands. wall: how high a wall it finishes in mm, None: it finishes
    none; what: how much of it, in words: all, or what a larger cutter left, which is never stepped.
    """
    worked, rough = _speeds(cutter, setup, machine, units), setup.rough
    own = worked.own_feed or rough.feed is not None
    stepover = min(rough.stepover or STEPOVER * cutter.dia, cutter.dia / 2)
    limits = _limits(cutter, setup, machine, worked.rpm)
    feed = rough.feed or worked.feed
    pace = Pace(
        cutter.dia,
        feed,
        rough.slot_feed or (feed / 2 if rough.feed else worked.slot_feed),
        full=cutter.dia / 2,
        thin=not own,
        most=machine.max_feed,
        depth=rough.stepdown or STEPDOWN * cutter.dia,
        limits=limits,
    )
    settled = settle(
        pace,
        (stepover, cutter.dia),
        units,
        own_feed=own,
        own_depth=rough.stepdown is not None,
    )
    pace = settled.pace
    walled = None
    if wall is not None:
        walled = _walled(worked, setup, limits, pace, units, wall, what)
    reasons = _told(worked, setup, settled, stepover, units, walled, what, cutter)
    return Chosen(
        cutter,
        worked.rpm,
        pace.at(stepover),
        pace.at(cutter.dia),
        worked.plunge_feed,
        machine.max_feed,
        pace.depth,
        stepover,
        reasons.lines,
        reasons,
        pace,
        walled.pace if walled else None,
        walled.pace.depth if walled and wall and walled.pace.depth < wall else None,
    )


def wall_tolerance(setup: Setup) -> float:
    """How far the wall may be off in mm: what the job asks for; where its fit is in letters, what
    keeps the pocket, cut to the middle of its limits, within them on both sides; else its
    clearance, and no less than `TOLERANCE`."""
    fit = setup.fit
    if setup.finish.tolerance is not None:
        return setup.finish.tolerance
    if not fit.letters or fit.size is None:
        return max(fit.grip, TOLERANCE)
    hole = zone(fit.size, fit.letters.split("/")[0])
    return (hole.upper - hole.lower) / 4


def _speeds(cutter: Cutter, setup: Setup, machine: Machine, units: Units) -> Speeds:
    return speeds(
        cutter,
        setup.jaws.material,
        max_rpm=machine.max_rpm,
        max_feed=machine.max_feed,
        min_rpm=machine.min_rpm,
        units=units,
    )


def _limits(cutter: Cutter, setup: Setup, machine: Machine, rpm: float) -> Limits | None:
    """What roughing keeps within; None for a material whose cutting force nobody knows."""
    group, given = group_of(setup.jaws.material), given_at(machine, rpm)
    if group is None:
        return None
    return Limits(
        cutter.dia,
        cutter.flutes,
        rpm,
        group.kc,
        group.mc,
        power=given.power if given else None,
        given=given.words if given else "",
        stickout=cutter.stickout,
        bend=BEND_SHARE * max(setup.rough.leave, LIGHT),
    )


def _walled(
    worked: Speeds,
    setup: Setup,
    limits: Limits | None,
    pace: Pace,
    units: Units,
    wall: float,
    what: str,
) -> Settled:
    """The pace along a wall `wall` mm high."""
    own, leave = setup.finish.feed, max(setup.rough.leave, LIGHT)
    light = replace(
        pace,
        feed=own or worked.feed,
        slot_feed=worked.slot_feed,
        full=min(CORNER * leave, pace.dia),
        thin=False,
        depth=wall,
        limits=limits,
    )
    if limits is not None:
        allowed = BEND_SHARE * wall_tolerance(setup)
        feed, springs = light.asked(leave), setup.finish.spring
        bend = first_bend(limits, feed, wall, allowed, springs, leave)
        light = replace(light, limits=replace(limits, bend=bend))
    step = max(pace.dia / 2, wall / STEPS)
    given = own is not None or worked.own_feed
    bounds = {"own_feed": given, "own_depth": what != "wall"}
    settled = settle(light, (leave,), units, **bounds, shallowest=step, what=what)
    mend = ": let it stand out less, or ask for a spring pass (finish.spring)"
    return replace(settled, cautions=tuple(one + mend for one in settled.cautions))


def _told(
    worked: Speeds,
    setup: Setup,
    rough: Settled,
    stepover: float,
    units: Units,
    wall: Settled | None,
    what: str,
    cutter: Cutter,
) -> Reasons:
    """The reasons of all that was settled."""
    pace, said = rough.pace, worked.reasons
    why = "from the job" if setup.rough.feed else said.why
    factor = thinning(stepover, pace.dia) if pace.thin else 1.0
    if factor > 1.005:
        why += f" x {factor:.2f} for thin chips at {units.say(stepover)} wide"
    feed = f"feed {feed_words(pace.at(stepover), units)}: {why}"
    if rough.told[0]:
        asked = (setup.rough.feed or worked.feed) * factor
        feed = f"{rough.told[0]}; {feed_words(asked, units)} were due, {why}"
    more = [
        rough.told[1] or f"full width {feed_words(pace.at(pace.dia), units)}",
        *said.more,
        *(_wall_words(wall, setup, units, what) if wall else ()),
        *_not_judged(cutter, setup),
    ]
    return replace(
        said,
        feed=feed,
        more=tuple(more),
        cautions=(*rough.cautions, *(wall.cautions if wall else ())),
    )


def _not_judged(cutter: Cutter, setup: Setup) -> tuple[str, ...]:
    """What of the load nobody can tell, in words."""
    if group_of(setup.jaws.material) is None:
        return (f"load not judged: no cutting force known of {setup.jaws.material}",)
    return ("bend not judged: no stickout given",) if cutter.stickout is None else ()


def _wall_words(wall: Settled, setup: Setup, units: Units, what: str) -> tuple[str]:
    (told,) = wall.told
    if "bend" in told:
        spring = setup.finish.spring
        before = f" before the spring pass{'es' * (spring > 1)}" if spring else ""
        told += f"{before}, {BEND_SHARE:g} of {units.say(wall_tolerance(setup))} tolerance"
        told += " after" if spring else ""
    leave = max(setup.rough.leave, LIGHT)
    return (told or f"{what} {feed_words(wall.pace.at(leave), units)}",)
