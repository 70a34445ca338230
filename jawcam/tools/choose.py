"""Which of the job's cutters does what, where the job does not say."""

from __future__ import annotations

from collections.abc import Sequence

from jawcam.errors import Fault, InputError, Place
from jawcam.tools.cutter import Cutter

__all__ = ["end_mills", "finisher", "numbered"]


def end_mills(cutters: Sequence[Cutter]) -> tuple[Cutter, ...]:
    """The flat end mills, smallest first."""
    return tuple(sorted((c for c in cutters if c.kind == "end mill"), key=lambda c: c.dia))


def numbered(cutters: Sequence[Cutter], number: int, place: Place) -> Cutter:
    """The cutter with a tool number. Raises InputError if there is none, or it is no end mill."""
    for cutter in cutters:
        if cutter.number == number:
            if cutter.kind != "end mill":
                what = f"tool {number} is a {cutter.kind}; a pocket needs a flat end mill"
                raise InputError(Fault(what, place, "name the number of an end mill"))
            return cutter
    known = ", ".join(str(c.number) for c in cutters)
    raise InputError(Fault(f"there is no tool {number}", place, f"the job has tools {known}"))


def finisher(cutters: Sequence[Cutter], number: int | None, place: Place) -> Cutter:
    """The cutter that finishes: the one named, or else the smallest end mill."""
    if number is not None:
        return numbered(cutters, number, place)
    mills = end_mills(cutters)
    if not mills:
        what = "none of the tools is a flat end mill, which a pocket needs"
        raise InputError(Fault(what, place, 'add a [[tool]] with kind = "end mill"'))
    return mills[0]
