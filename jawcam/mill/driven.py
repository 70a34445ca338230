"""How the cutters of a setup are driven: speeds, feeds and depths, within what machine and cutter
bear, each with its reason."""

from __future__ import annotations

from dataclasses import dataclass, replace

from jawcam.job.model import Machine, Setup
from jawcam.mill.allowed import BEND_SHARE, LIGHT, wall_foot, wall_tolerance
from jawcam.mill.bite import CORNER
from jawcam.mill.driven_words import reasons_of
from jawcam.mill.law import WIDEST
from jawcam.tools.cutter import Cutter
from jawcam.tools.feeds import Speeds, speeds
from jawcam.tools.force import group_of
from jawcam.tools.limits import Limits, first_bend
from jawcam.tools.pace import Pace
from jawcam.tools.reasons import Reasons
from jawcam.tools.settle import Settled, settle
from jawcam.tools.spindle import given_at
from jawcam.units import Units

__all__ = ["Chosen", "driven", "pocketing"]

STEPDOWN, STEPOVER = 0.5, 0.4
"""Shares of the cutter's diameter where the job does not say (common practice, no source)."""

STEADY_DOWN, STEADY_OVER = 2.0, 0.12
"""The same at a steady load, no deeper than its flutes are long (common practice, no source)."""

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
    steady: bool = False,
) -> Chosen:
    """How an end mill is driven in the pocket, what the job says of roughing taken for it; never at
    a stepover that leaves islands. wall: how high a wall it finishes in mm, None: it finishes
    none; what: how much of it, in words: all, or what a larger cutter left, which is never stepped;
    steady: it clears at a steady load, so that only that counts.
    """
    worked, rough = _speeds(cutter, setup, machine, units), setup.rough
    over, down = _usual(cutter, steady=steady)
    stepover = min(rough.stepover or over, cutter.dia / 2)
    asked = _asked(cutter, setup, machine, worked, down)
    widest = WIDEST * stepover if steady else stepover
    settled = settle(
        asked,
        (widest,) if steady else (stepover, cutter.dia),
        units,
        own_feed=not asked.thin,
        own_depth=rough.stepdown is not None,
    )
    walled = None
    if wall is not None:
        walled = _walled(worked, setup, asked, units, wall, what)
    pace, bears = settled.pace, asked.limits
    reasons = reasons_of(worked, setup, settled, stepover, units, walled, what, cutter, bears)
    return Chosen(
        cutter,
        worked.rpm,
        pace.at(widest if settled.told[0] else stepover),
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


def _asked(cutter: Cutter, setup: Setup, machine: Machine, worked: Speeds, down: float) -> Pace:
    """The pace of clearing that job and tables ask for, not yet brought within its limits. down:
    how deep a cut is where the job doesn't say, mm."""
    rough = setup.rough
    feed = rough.feed or worked.feed
    return Pace(
        cutter.dia,
        feed,
        rough.slot_feed or (feed / 2 if rough.feed else worked.slot_feed),
        full=cutter.dia / 2,
        thin=not (worked.own_feed or rough.feed is not None),
        most=machine.max_feed,
        depth=rough.stepdown or min(down, setup.hold.depth),
        limits=_limits(cutter, setup, machine, worked.rpm),
    )


def _usual(cutter: Cutter, *, steady: bool) -> tuple[float, float]:
    """How wide and how deep a cut is where the job doesn't say, mm."""
    if not steady:
        return STEPOVER * cutter.dia, STEPDOWN * cutter.dia
    down = STEADY_DOWN * cutter.dia
    return STEADY_OVER * cutter.dia, min(down, cutter.flute_len or down)


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
    worked: Speeds, setup: Setup, pace: Pace, units: Units, wall: float, what: str
) -> Settled:
    """The pace along a wall `wall` mm high. pace: of clearing, not yet settled."""
    limits, own = pace.limits, setup.finish.feed
    leave = max(setup.rough.leave, LIGHT)
    bite = leave + (wall_foot(setup, pace.dia, wall) if what == "wall" else 0.0)
    light = replace(
        pace,
        feed=own or worked.feed,
        slot_feed=worked.slot_feed,
        full=min(CORNER * leave, pace.dia),
        thin=False,
        depth=wall,
    )
    if limits is not None:
        allowed = BEND_SHARE * wall_tolerance(setup)
        feed, springs = light.asked(bite), setup.finish.spring
        bend = first_bend(limits, feed, wall, allowed, springs, bite)
        light = replace(light, limits=replace(limits, bend=bend))
    step = max(pace.dia / 2, wall / STEPS)
    given = own is not None or worked.own_feed
    bounds = {"own_feed": given, "own_depth": what != "wall"}
    settled = settle(light, (bite,), units, **bounds, shallowest=step, what=what)
    mend = ": let it stand out less, or ask for a spring pass (finish.spring)"
    cautions = (one + mend if " bend at " in one else one for one in settled.cautions)
    return replace(settled, cautions=tuple(cautions))
