"""How far the part stands above the jaws, and whether what is cut next clears them."""

from __future__ import annotations

from collections.abc import Callable

from jawcam.errors import FaultList, Place
from jawcam.job.model import Setup
from jawcam.units import Units

__all__ = ["check_proud", "proud_words"]

_EXACT = 1e-9


def check_proud(height: float, setup: Setup, units: Units, where: Callable[[str], Place]) -> None:
    """Raise InputError when what is cut next comes nearer to the jaws than asked. height: the
    part's, in mm."""
    cut = setup.next_cut
    if cut is None:
        return
    faults, say = FaultList(), units.say
    left = height - setup.hold.depth - cut.down
    if left < cut.clear - _EXACT:
        found = f"{say(left)} above" if left >= 0 else f"{say(-left)} below"
        faults.add(
            f"the next cut, {say(cut.down)} down from the part's top, ends {found} the jaw top, "
            f"but {say(cut.clear)} above it are asked for",
            where("next_cut.down"),
            f"hold the part {say(cut.clear - left)} less deep, or cut less far down",
        )
    faults.raise_if_any()


def proud_words(height: float, setup: Setup, units: Units) -> tuple[str, ...]:
    """What the person should know of it."""
    say, proud = units.say, height - setup.hold.depth
    if proud <= 0:
        what = f"caution: the part's top lies {say(-proud)} below the jaw top"
        return (f"{what}: a cutter on it meets the jaws",)
    told = f"the part stands {say(proud)} proud of the jaws"
    if setup.next_cut is not None:
        left = proud - setup.next_cut.down
        told += f"; the next cut, {say(setup.next_cut.down)} down, ends {say(left)} above them"
    return (told,)
