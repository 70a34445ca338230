"""The cutters that a setup uses, with all their numbers settled."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace

from jawcam.errors import Fault, InputError, Place
from jawcam.geometry.offset import shrink
from jawcam.geometry.shapes import Region
from jawcam.job.model import Machine, Setup
from jawcam.tolerance import Tolerance
from jawcam.tools.choose import end_mills, finisher, numbered
from jawcam.tools.cutter import Cutter
from jawcam.tools.feeds import speeds
from jawcam.units import Units

__all__ = ["Chosen", "choose", "driven"]

STEPDOWN, STEPOVER = 0.5, 0.4
"""Shares of the cutter's diameter where the job does not say (common practice, no source)."""


@dataclass(frozen=True)
class Chosen:
    """One cutter and how it is driven: mm, 1/min and mm/min. notes: what was chosen and why."""

    cutter: Cutter
    rpm: float
    feed: float
    slot_feed: float
    plunge_feed: float
    link_feed: float
    stepdown: float
    stepover: float
    notes: tuple[str, ...]

    @property
    def dia(self) -> float:
        """In mm."""
        return self.cutter.dia

    def describe(self, units: Units) -> str:
        """For the person at the machine: what to load."""
        shape = f"{self.cutter.kind} dia {units.say(self.dia)}, {self.cutter.flutes} flutes"
        return f"{self.cutter.name}: {shape}" if self.cutter.name else shape


def choose(
    cutters: Sequence[Cutter],
    setup: Setup,
    machine: Machine,
    pockets: Sequence[Region],
    tolerance: Tolerance,
    *,
    units: Units,
    where: Callable[[str], Place],
) -> tuple[Chosen, Chosen]:
    """The roughing and the finishing cutter of a setup.

    pockets: those at the jaw top. Roughing takes the one named, or else the largest end mill that
    gets into one of them with stock left on the wall. Raises InputError when none does, or a
    stepover leaves islands.
    """
    place = where("")
    finish = finisher(cutters, setup.finish.tool, place)
    rough = _rougher(cutters, setup, pockets, tolerance, units=units, place=place)
    asked = setup.rough.stepover
    if asked is not None and asked > rough.dia / 2:
        what = (
            f"a stepover of {units.say(asked)} is more than half of tool {rough.number}'s "
            f"diameter: islands would be left standing between the rings"
        )
        mend = f"ask for {units.say(rough.dia / 2)} or less"
        raise InputError(Fault(what, where("rough.stepover"), mend))
    return (
        _settled(rough, setup, machine, units=units),
        _settled(finish, setup, machine, units=units),
    )


def _rougher(
    cutters: Sequence[Cutter],
    setup: Setup,
    pockets: Sequence[Region],
    tolerance: Tolerance,
    *,
    units: Units,
    place: Place,
) -> Cutter:
    number = setup.rough.tool
    named = number is not None
    tried = end_mills(cutters)[::-1] if number is None else (numbered(cutters, number, place),)
    for cutter in tried:
        deep = cutter.flute_len is None or cutter.flute_len >= setup.hold.depth
        room = cutter.dia / 2 + setup.rough.leave
        if (deep or named) and shrink(pockets, room, tolerance):
            return cutter
    raise InputError(
        Fault(
            "no end mill given gets into the pocket with "
            f"{units.say(setup.rough.leave)} left on the walls for finishing",
            place,
            "give a smaller end mill, or less rough.leave",
        )
    )


def driven(cutter: Cutter, setup: Setup, machine: Machine, *, units: Units) -> Chosen:
    """How any cutter is driven in a setup's blanks, by what is worked out for it alone."""
    worked = speeds(
        cutter,
        setup.jaws.material,
        max_rpm=machine.max_rpm,
        max_feed=machine.max_feed,
        units=units,
    )
    return Chosen(
        cutter,
        worked.rpm,
        worked.feed,
        worked.slot_feed,
        worked.plunge_feed,
        machine.max_feed,
        STEPDOWN * cutter.dia,
        STEPOVER * cutter.dia,
        worked.notes,
    )


def _settled(cutter: Cutter, setup: Setup, machine: Machine, *, units: Units) -> Chosen:
    """How a cutter is driven in the pocket, what the job says of roughing taken for it; never at
    a stepover that leaves islands."""
    chosen, rough = driven(cutter, setup, machine, units=units), setup.rough
    stepover = min(rough.stepover or chosen.stepover, cutter.dia / 2)
    return replace(
        chosen,
        feed=rough.feed or chosen.feed,
        slot_feed=rough.slot_feed or (rough.feed / 2 if rough.feed else chosen.slot_feed),
        stepdown=rough.stepdown or chosen.stepdown,
        stepover=stepover,
    )
