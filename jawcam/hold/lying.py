"""A round part on its side: what it rests on where the gap runs under it."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace

from jawcam.errors import FaultList, Place
from jawcam.job.model import Setup
from jawcam.part.solid import Slab, Solid
from jawcam.units import Units

__all__ = ["Rested", "rested"]

_LEAST = 0.0005  # mm; a smaller sag is nothing


@dataclass(frozen=True)
class Rested:
    """The part's slabs as it rests, and what the person should know of it."""

    slabs: tuple[Slab, ...]
    notes: tuple[str, ...] = ()


def rested(
    placed: Solid, setup: Setup, units: Units, where: Callable[[str], Place], faults: FaultList
) -> Rested:
    """A part that lies along the jaws touches the floor with its lowest line, which the gap takes
    away: it rests on the gap's two edges instead, r - sqrt(r^2 - d^2) above that line, d away
    from it. The floor is raised by so much, so that the part lies as deep as asked. What can't
    rest at all is noted in `faults`."""
    if placed.lying is None:
        return Rested(placed.slabs)
    (start, end), radius, say = placed.lying, placed.least_depth, units.say
    told = f"lying, the part rests on its largest diameter, {say(2 * radius)}, "
    notes = [f"{told}{say(end - start)} long; thinner ones hang free"]
    half, (_, y) = setup.jaws.gap / 2, setup.hold.at
    if setup.hold.turn % 180 == 0 and abs(y) < half:
        return _over_gap(placed.slabs, half - abs(y), radius, notes, units, where, faults)
    if setup.hold.turn % 180 == 90:
        ends = [y + x for x in (start, end)]
        if max(map(abs, ends)) <= half:
            what = "its largest diameter lies over the gap, and nothing is under it"
            faults.add(what, where("hold.turn"), "lay it along the jaws, or take a smaller gap")
    elif setup.hold.turn % 180:
        notes.append("caution: turned like this, whether it rests level is not worked out")
    return Rested(placed.slabs, tuple(notes))


def _over_gap(
    slabs: Sequence[Slab],
    apart: float,
    radius: float,
    notes: Sequence[str],
    units: Units,
    where: Callable[[str], Place],
    faults: FaultList,
) -> Rested:
    """apart: of the axis from the nearer edge of the gap, as seen from above."""
    if apart >= radius:
        what = f"the part, {units.say(2 * radius)} across, falls into the gap"
        mend = f"cut the jaws at a gap of less than {units.say(2 * radius)}"
        faults.add(what, where("jaws.gap"), mend)
        return Rested(tuple(slabs))
    sag = radius - math.sqrt(radius**2 - apart**2)
    if sag < _LEAST:
        return Rested(tuple(slabs), tuple(notes))
    first, *others = slabs
    told = (
        f"it lies on the edges of the gap: the floor is cut {units.say(sag)} higher, so that it "
        "sits as deep as asked"
    )
    return Rested((replace(first, bottom=first.bottom + sag), *others), (*notes, told))
