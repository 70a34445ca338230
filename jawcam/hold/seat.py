"""The seat: what the cutter leaves where floor and wall meet must not carry the part's edge."""

from __future__ import annotations

from collections.abc import Callable

from jawcam.errors import Fault, InputError, Place
from jawcam.geometry.offset import shrink
from jawcam.hold.cavity import CutLevel
from jawcam.hold.target import Groove
from jawcam.job.model import Setup
from jawcam.tolerance import Tolerance
from jawcam.tools.cutter import Cutter
from jawcam.units import Units

__all__ = ["FILLET", "check_groove", "groove_of", "seat_words"]

FILLET = 0.1
"""mm; what a flat end mill's worn corners leave along the foot of a wall, and what a burr on the
part's edge stands out (common practice, no source)."""


def groove_of(depth: float, cutter: Cutter) -> Groove | None:
    """The groove along the foot of the wall: as wide as the finishing cutter."""
    return Groove(cutter.dia, depth) if depth > 0 else None


def check_groove(
    seat: CutLevel,
    depth: float,
    cutter: Cutter,
    units: Units,
    tolerance: Tolerance,
    where: Callable[[str], Place],
) -> None:
    """Raise InputError when the groove along the wall would leave nothing of the seat."""
    if depth > 0 and not shrink(seat.pockets, cutter.dia, tolerance):
        what = (
            f"a groove as wide as the finishing cutter, {units.say(cutter.dia)}, along the wall "
            "leaves nothing of the seat"
        )
        mend = "finish with a smaller end mill, or leave the groove out and break the part's edge"
        raise InputError(Fault(what, where("hold.groove"), mend))


def seat_words(broken: float, setup: Setup, units: Units) -> tuple[str, ...]:
    """What the person should know of it. broken: by how much the part's lower edge is broken."""
    say = units.say
    if setup.hold.groove > 0:
        depth = say(setup.hold.groove)
        return (f"a groove {depth} deep along the foot of the wall keeps the part's edge free",)
    if broken >= FILLET:
        return ()
    what = (
        f"caution: the part's lower edge is {'sharp' if broken == 0 else 'hardly broken'}, and "
        f"along the foot of the wall about {say(FILLET)} may stay (a worn cutter's corner, a "
        "burr): break the edge, say so with part.edge, or ask for a hold.groove"
    )
    return (what,)
