"""The blanks, the pocket and the part in words: lists of (label, text)."""

from __future__ import annotations

from collections import Counter

from jawcam.hold.target import Target
from jawcam.units import Units

__all__ = ["pocket"]

LEVELS = 6
"""So many levels are named one by one."""

PURPOSES = {"stop": "beside the pocket", "relief": "at corners"}
"""Where the holes drilled for each kind of use lie."""


def pocket(target: Target, units: Units) -> list[tuple[str, str]]:
    """What the words panel says of the jaws; of what a pocket hasn't nothing is said."""
    b = target.blanks
    size = " x ".join(units.number(v, 3) for v in (b.width, b.thickness, b.height))
    fit = f"grip {units.say(target.grip)}, side {units.say(target.side)}"
    rows = [
        ("blanks", f"{size} {_mark(units)}, gap {units.say(b.gap)}, {b.material}"),
        ("pocket", f"{units.say(-target.floor)} deep, {fit}"),
    ]
    if len(target.levels) > 1:
        rows.append(("levels", _levels(target, units)))
    if target.groove:
        width, depth = units.say(target.groove.width), units.say(target.groove.depth)
        rows.append(("groove", f"{width} wide along the foot of the wall, {depth} deep"))
    if target.drilled:
        rows.append(("drilled", _drilled(target, units)))
    if target.facing > 0:
        rows.append(("faced off", f"{units.say(target.facing)} above the jaw top"))
    if target.edge > 0:
        tool = "" if target.edge_tool is None else f" by T{target.edge_tool}"
        rows.append(("edges", f"broken {units.say(target.edge)} wide{tool}"))
    rows.append(("part", _stands(target, units)))
    if target.unreached:
        worst = max(target.unreached, key=lambda place: place.size)
        count = len(target.unreached)
        places = "1 place" if count == 1 else f"{count} places"
        said = f"{places} not reached, the largest {units.say(worst.size)}: {worst.why}"
        rows.append(("left over", said))
    return rows


def _stands(target: Target, units: Units) -> str:
    proud = target.part_top
    return f"its top {units.say(abs(proud))} {'over' if proud > 0 else 'under'} the jaw top"


def _levels(target: Target, units: Units) -> str:
    """Their floors from the program's zero, as the side view names them."""
    floors = [units.number(level.floor - target.zero[2], 3) for level in target.levels]
    if len(floors) > LEVELS:
        return f"{len(floors)} levels: {floors[0]}, {floors[1]} to {floors[-1]} {_mark(units)}"
    return f"{len(floors)} levels: {', '.join(floors)} {_mark(units)}"


def _drilled(target: Target, units: Units) -> str:
    counts = Counter((hole.kind, round(hole.dia, 6)) for hole in target.drilled)
    return "; ".join(
        f"{count} x dia {units.say(dia)} {PURPOSES[kind]}" for (kind, dia), count in counts.items()
    )


def _mark(units: Units) -> str:
    return "in" if units is Units.INCH else "mm"
