"""The lines at the head of a program: what it is for, what to set up, what to mind."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from jawcam.cautions import ON_MILL
from jawcam.hold.target import Target
from jawcam.job.model import Datum
from jawcam.mill.compensation import largest_register
from jawcam.mill.driven import Chosen
from jawcam.mill.work import Work
from jawcam.motion.moves import Begin

__all__ = ["datum_words", "head"]


def head(works: Sequence[Work], name: str, used: Sequence[Chosen]) -> Begin:
    """The program's name and the lines that the person at the control reads first. used: all the
    cutters, in the order in which they are loaded."""
    title = works[0].target.title
    lines = []
    if len(works) == 1:
        lines += [f"{title}: soft jaws {works[0].setup.name}", *_station(works[0])]
    else:
        lines.append(f"{title}: soft jaws in {len(works)} stations")
        for work in works:
            lines.append(f"station {work.setup.name}, work offset {work.target.work_offset}")
            lines.extend(_station(work))
    lines.extend(_tools(works, used))
    for work in works:
        lines.extend(_register(work))
    return Begin(name, (*lines, *ON_MILL))


def _station(work: Work) -> Iterator[str]:
    """What to set up."""
    target = work.target
    say, blanks = target.units.say, target.blanks
    size = " x ".join(say(v).split()[0] for v in (blanks.width, blanks.thickness, blanks.height))
    unit = say(0).split()[1]
    yield f"blanks {size} {unit} wide x thick x high, {blanks.material}"
    yield f"cut on a spacer lower than the pocket: gap {say(blanks.gap)}"
    if target.facing:
        yield f"the blanks stand {say(target.facing)} above that height and are faced first"
    yield f"zero: {datum_words(work.setup.zero, target)}"
    yield f"pocket {say(-target.floor)} deep, part stands {say(target.part_top)} proud"
    if len(target.levels) > 1:
        floors = ", ".join(say(-level.floor).split()[0] for level in target.levels)
        yield f"{len(target.levels)} levels, {floors} {unit} below the jaw top"
    if target.groove:
        yield f"groove {say(target.groove.depth)} deep along the foot of the wall"


def _tools(works: Sequence[Work], used: Sequence[Chosen]) -> Iterator[str]:
    """What to load, and how long its flutes must be where it goes down into a pocket."""
    units = works[0].target.units
    deepest: dict[int, float] = {}
    for work in works:
        target = work.target
        depth = -target.floor + (target.groove.depth if target.groove else 0.0)
        for one in (work.rough, work.finish, work.corner):
            deepest[one.cutter.number] = max(depth, deepest.get(one.cutter.number, 0.0))
    for one in {one.cutter.number: one for one in used}.values():
        number = one.cutter.number
        words = f"T{number} {one.describe(units)}"
        if number in deepest:
            words += f", at least {units.say(deepest[number])} of flutes"
        yield words


def _register(work: Work) -> Iterator[str]:
    register = work.setup.finish.compensation
    if register is None:
        return
    most = min(largest_register(level.finished) for level in work.levels)
    plus = (
        f"plus narrows it, up to {work.target.units.say(most)} on radius"
        if most > 0
        else "no plus: sharp inside corners"
    )
    yield f"wall compensated by offset register {register}: start at 0"
    yield f"minus widens the pocket, {plus}"


def datum_words(zero: Datum, target: Target) -> str:
    """Where the operator touches off, in words."""
    across = {"middle": "middle of the width"}.get(zero.x, f"{zero.x} end")
    away = {"mid gap": "mid gap"}.get(zero.y, f"{zero.y} of the blanks")
    up = {"top": "jaw top", "bottom": "underside of the blanks"}[zero.z]
    words = f"{across}, {away}, {up}"
    if any(zero.shift):
        words += f", shifted by {target.units.point(*zero.shift)}"
    return words
