"""What the proof lets pass. One frozen value; nothing else sets a limit."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Literal

from jawcam.hold.target import Keep
from jawcam.units import MM_PER_INCH

__all__ = ["Limits", "limits_for"]


@dataclass(frozen=True)
class Limits:
    """All in mm, but for `steep`.

    gouge:  how far the cutter may reach into what must stay.
    left:   the diameter of the largest disc of material that may be left in the cavity.
    level:  heights nearer to each other than this are one.
    rough:  cuts that stop this little above a floor are meant to be that floor.
    edge:   how much narrower than asked for a broken edge may be.
    rapid:  how far a rapid may brush uncut material.
    plunge: how deep a cutter that can't cut at its centre may go straight down into material.
    steep:  descents steeper than this, in degrees, are plunges (common practice, no source).
    floor:  the least thickness under the cavity; wall: beside and behind it; bolt: the least
            distance to a bolt, a spacer, and the vise's own jaws and bed; jaw: to the jaws where
            the part is cut in them; holder: of a tool's holder to anything (common practice, no
            source).
    """

    gouge: float = 0.002
    left: float = 0.005
    level: float = 0.001
    rough: float = 0.05
    edge: float = 0.02
    rapid: float = 0.001
    plunge: float = 0.02
    steep: float = 10.0
    floor: float = 2.0
    wall: float = 1.0
    bolt: float = 1.0
    jaw: float = 1.0
    holder: float = 1.0


def limits_for(units: Literal["mm", "inch"], keep: Keep | None = None) -> Limits:
    """The limits for a program in `units`. keep: what the job wants left of the blanks.

    A program in inches with four decimals can't be nearer to the truth than half a ten-thousandth
    of an inch in each axis: 0.00127 mm, 0.0018 mm across. Its limits allow for that.
    """
    limits = Limits()
    if units == "inch":
        step = MM_PER_INCH * 1e-4
        limits = Limits(gouge=2 * step, left=3 * step, level=0.6 * step, rapid=step)
    if keep is None:
        return limits
    return replace(limits, floor=keep.floor, wall=keep.wall, bolt=keep.bolt)
