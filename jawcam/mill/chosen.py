"""The cutters that a setup uses, with all their numbers settled."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from jawcam.errors import Fault, InputError, Place
from jawcam.geometry.offset import shrink
from jawcam.geometry.shapes import Region
from jawcam.job.model import Machine, Setup
from jawcam.mill.driven import Chosen, pocketing
from jawcam.tolerance import Tolerance
from jawcam.tools.choose import end_mills, finisher, numbered
from jawcam.tools.cutter import Cutter
from jawcam.units import Units

__all__ = ["choose"]


def choose(
    cutters: Sequence[Cutter],
    setup: Setup,
    machine: Machine,
    pockets: Sequence[Region],
    tolerance: Tolerance,
    *,
    units: Units,
    where: Callable[[str], Place],
    wall: float | None = None,
) -> tuple[Chosen, Chosen]:
    """The roughing and the finishing cutter of a setup.

    pockets: those at the jaw top; wall: the height of the tallest level's wall in mm, None: all of
    the depth. Roughing takes the one named, or else the largest end mill that
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
        pocketing(rough, setup, machine, units=units, steady=setup.rough.way == "steady"),
        pocketing(finish, setup, machine, units=units, wall=wall or setup.hold.depth),
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
