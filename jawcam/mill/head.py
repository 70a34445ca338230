"""The lines at the head of a program: what it is for, what to set up, what to mind."""

from __future__ import annotations

from collections.abc import Sequence

from jawcam.cautions import SHORT
from jawcam.hold.target import Target
from jawcam.job.model import Datum, Setup
from jawcam.mill.chosen import Chosen
from jawcam.motion.moves import Begin

__all__ = ["datum_words", "head"]


def head(setup: Setup, target: Target, chosen: Sequence[Chosen], largest_register: float) -> Begin:
    """The program's name and the lines that the person at the control reads first.

    largest_register: what the wall path bears of positive compensation, in mm.
    """
    say, blanks = target.units.say, target.blanks
    size = " x ".join(say(v).split()[0] for v in (blanks.width, blanks.thickness, blanks.height))
    unit = say(0).split()[1]
    lines = [
        f"{target.title}: soft jaws {setup.name}",
        f"blanks {size} {unit} wide x thick x high, {blanks.material}",
        f"cut on a spacer lower than the pocket: gap {say(blanks.gap)}",
        f"zero: {datum_words(setup.zero, target)}",
        f"pocket {say(-target.floor)} deep, part stands {say(target.part_top)} proud",
    ]
    for one in dict.fromkeys(chosen):
        reach = f"at least {say(-target.floor)} of flutes"
        lines.append(f"T{one.cutter.number} {one.describe(target.units)}, {reach}")
    if setup.finish.compensation is not None:
        lines.extend(_register_lines(setup.finish.compensation, largest_register, target))
    return Begin(target.name, (*lines, *SHORT))


def _register_lines(register: int, most: float, target: Target) -> tuple[str, ...]:
    plus = (
        f"plus narrows it, up to {target.units.say(most)} on radius"
        if most > 0
        else "no plus: sharp inside corners"
    )
    return (
        f"wall compensated by offset register {register}: start at 0",
        f"minus widens the pocket, {plus}",
    )


def datum_words(zero: Datum, target: Target) -> str:
    """Where the operator touches off, in words."""
    across = {"middle": "middle of the width"}.get(zero.x, f"{zero.x} end")
    away = {"mid gap": "mid gap"}.get(zero.y, f"{zero.y} of the blanks")
    up = {"top": "jaw top", "bottom": "underside of the blanks"}[zero.z]
    words = f"{across}, {away}, {up}"
    if any(zero.shift):
        words += f", shifted by {target.units.point(*zero.shift)}"
    return words
