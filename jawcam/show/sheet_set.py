"""What the person sets up before the program runs: rows of (label, text)."""

from __future__ import annotations

from collections import Counter

from jawcam.hold.target import Target
from jawcam.hold.turn_target import TurnTarget
from jawcam.job.jaw_model import JawSetup
from jawcam.job.model import Job, Setup
from jawcam.job.turn_model import TurnSetup
from jawcam.show.sheet_given import Given, number
from jawcam.show.turned_scene import jaw_front
from jawcam.show.words import datum_words
from jawcam.units import Units

__all__ = ["to_set"]

Rows = list[tuple[str, str]]

LEVELS = 6
"""So many levels are told one by one."""


def to_set(given: Given) -> Rows:
    """The rows of a setup, in the order in which they are seen to."""
    target, setup, job = given.target, given.setup, given.job
    if isinstance(target, Target) and isinstance(setup, Setup):
        return _jaws(target, setup, job)
    if isinstance(target, TurnTarget) and isinstance(setup, TurnSetup):
        return _turned(target, setup, job)
    if isinstance(target, TurnTarget) and isinstance(setup, JawSetup):
        return _bored(target, setup, job.units)
    return []


def _jaws(target: Target, setup: Setup, job: Job) -> Rows:
    units, blanks, say = job.units, target.blanks, job.units.say
    size = " x ".join(number(units, v) for v in (blanks.width, blanks.thickness, blanks.height))
    moving = "both jaws move" if blanks.moving == "both" else f"the {blanks.moving} jaw moves"
    rows = [
        ("blanks", f"2 of {size} {_mark(units)}, {blanks.material}; {moving}"),
        ("spacer", f"{say(blanks.gap)}, {_spacer(target, units)}; clamp as they will hold"),
        ("zero", datum_words(target, units)),
    ]
    if target.facing > 0:
        rows.insert(1, ("raw tops", f"{say(target.facing)} over the jaw top: they are faced"))
    if target.vise is not None:
        top = number(units, target.vise.top - target.zero[2])
        rows.append(("vise", f"its own jaws no higher than Z {top}"))
    if target.bolts:
        rows.append(("bolts", _bolts(target, units)))
    if setup.finish.compensation is not None:
        rows.append((f"D{setup.finish.compensation}", "0 before the first part: dials in the wall"))
    rows += [("seat", _seat(target, units)), ("part", _lies(target, setup, job))]
    fit = f"grip {say(target.grip)} all round, side {say(target.side)} along X"
    rows.append(("fit", f"{setup.fit.letters}, {fit}" if setup.fit.letters else fit))
    return rows


def _spacer(target: Target, units: Units) -> str:
    """How high it stands, and where if that is told."""
    zx, _, zz = target.zero
    if not target.spacers:
        return f"all of it under Z {number(units, target.floor - zz)}"
    said = []
    for one in target.spacers:
        start, end = (number(units, x - zx) for x in one.x) if one.x else ("", "")
        at = f" at X {start} to {end}" if one.x else ""
        said.append(f"Z {number(units, one.top - zz)}{at}")
    return f"top no higher than {', '.join(dict.fromkeys(said))}"


def _bolts(target: Target, units: Units) -> str:
    counts = Counter((bolt.dia, bolt.top - target.zero[2]) for bolt in target.bolts)
    return "; ".join(
        f"{n} of dia {units.say(dia)}, tops no higher than Z {number(units, top)}"
        for (dia, top), n in counts.items()
    )


def _seat(target: Target, units: Units) -> str:
    floors = [number(units, level.floor - target.zero[2]) for level in target.levels]
    said = f"{units.say(-target.floor)} deep, Z {floors[-1]}"
    if len(floors) > LEVELS:
        return f"{said}; {len(floors)} levels from Z {floors[0]} on"
    return f"{said}; levels at Z {', '.join(floors[:-1])}" if len(floors) > 1 else said


def _lies(target: Target, setup: Setup, job: Job) -> str:
    """What the part is of, how it lies in its jaws, and how far it stands out of them."""
    hold, units = setup.hold, job.units
    turned = bool(job.part.turned) or job.part.profile is not None
    if turned and hold.lie:
        lies = f"lying along X, end {'B' if hold.flip else 'A'} at the left"
    elif turned:
        lies = f"standing, end {'B' if hold.flip else 'A'} up"
    else:
        lies = "turned over, about Y" if hold.flip else "as drawn"
    if hold.turn:
        lies += f", turned {hold.turn:g} degrees"
    out = target.part_top
    lies = ", ".join(filter(None, (job.part.material, lies)))
    stands = f"{units.say(abs(out))} {'proud of' if out > 0 else 'under'} the jaw top"
    return f"{lies}; {stands}"


def _turned(target: TurnTarget, setup: TurnSetup, job: Job) -> Rows:
    units, say = job.units, job.units.say
    zs, xs = ([row[k] for row in target.stock] for k in (0, 1))
    stock = [f"dia {say(2 * max(xs))}, {say(max(zs) - min(zs))} long", job.part.material]
    if min(xs) > 1e-6:
        stock.insert(1, f"bore {say(2 * min(xs))}")
    rows = [
        ("stock", ", ".join(filter(None, stock))),
        ("part", f"end {setup.end} is free, towards +Z"),
    ]
    front = jaw_front(target)
    if front is not None:
        held = f"{say(setup.chuck.grip)} in the jaws" if not setup.part_off else "bar in the jaws"
        rows.append(("grip", held))
        out = say(max(zs) - front)
        rows.append(("stands out", f"{out} from the jaws to its raw front"))
    if setup.chuck.tailstock:
        rows.append(("tailstock", "the free end is supported"))
    raw = say(max(zs))
    rows.append(("zero", f"on the axis; Z 0 lies {raw} behind the raw front; X is a diameter"))
    rows.append(("speed", _clamp(target, setup.chuck.max_rpm)))
    if target.parted is not None:
        rows.append(("parted off", f"at Z {number(units, target.parted)}"))
    elif target.finished_to is not None:
        rows.append(("turned", f"from Z 0 to Z {number(units, target.finished_to)}"))
    return rows


def _bored(target: TurnTarget, setup: JawSetup, units: Units) -> Rows:
    say, jaws = units.say, setup.jaws
    clamped = "a plug" if jaws.ring == "plug" else "a ring"
    return [
        ("jaws", f"soft, {jaws.material}, {say(jaws.length)} long, out to dia {say(jaws.outer)}"),
        ("clamped", f"on {clamped} that holds them at dia {say(jaws.opening)}"),
        ("zero", "the jaws' front, on the axis; X is a diameter"),
        ("bored", f"{say(setup.depth)} deep, for end {setup.grips} of the part"),
        ("speed", _clamp(target, setup.chuck.max_rpm)),
    ]


def _clamp(target: TurnTarget, marked: float) -> str:
    return f"never above {target.clamp:.0f} rpm; the chuck is marked {marked:.0f}"


def _mark(units: Units) -> str:
    return "in" if units is Units.INCH else "mm"
