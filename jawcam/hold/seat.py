"""The seat: what the cutter leaves where floor and wall meet must not carry the part's edge."""

from __future__ import annotations

from collections.abc import Callable

from jawcam.errors import FaultList, Place
from jawcam.geometry.combine import intersection
from jawcam.geometry.narrow import substantial
from jawcam.geometry.offset import shrink
from jawcam.hold.cavity import CutLevel, blank_regions
from jawcam.hold.target import Blanks, Groove
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
    blanks: Blanks,
    units: Units,
    tolerance: Tolerance,
    where: Callable[[str], Place],
) -> None:
    """Raise InputError when the groove along the wall would leave a pocket no seat in a jaw that
    it reaches into; over the gap there is none."""
    if depth <= 0:
        return
    faults = FaultList()
    mend = "finish with a smaller end mill, or leave the groove out and break the part's edge"
    for pocket in seat.pockets:
        inner = shrink([pocket], cutter.dia, tolerance)
        for name, blank in zip(("back", "front"), blank_regions(blanks), strict=True):
            floor = substantial(intersection([pocket], [blank], tolerance), tolerance)
            if floor and not substantial(intersection(inner, [blank], tolerance), tolerance):
                what = (
                    f"a groove as wide as the finishing cutter, {units.say(cutter.dia)}, along the "
                    f"wall leaves the {name} jaw nothing of the seat at "
                    f"{units.point(*floor[0].at)}"
                )
                faults.add(what, where("hold.groove"), mend)
    faults.raise_if_any()


def seat_words(broken: float, setup: Setup, units: Units, *, lies: bool) -> tuple[str, ...]:
    """What the person should know of it. broken: by how much the part's lower edge is broken;
    lies: it lies on its side, and no edge of it is low."""
    say = units.say
    if setup.hold.groove > 0:
        depth = say(setup.hold.groove)
        return (f"a groove {depth} deep along the foot of the wall keeps the part's edge free",)
    if lies or broken >= FILLET:
        return ()
    what = (
        f"caution: the part's lower edge is {'sharp' if broken == 0 else 'hardly broken'}, and "
        f"along the foot of the wall about {say(FILLET)} may stay (a worn cutter's corner, a "
        "burr): break the edge, say so with part.edge, or ask for a hold.groove"
    )
    return (what,)
