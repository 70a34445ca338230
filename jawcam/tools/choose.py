"""Which of the job's cutters does what, where the job does not say."""

from __future__ import annotations

from collections.abc import Sequence

from jawcam.errors import Fault, InputError, Place
from jawcam.tools.cutter import Cutter

__all__ = ["chamfer_mill", "corner_cutter", "end_mills", "finisher", "numbered"]


def end_mills(cutters: Sequence[Cutter]) -> tuple[Cutter, ...]:
    """The flat end mills, smallest first."""
    return tuple(sorted((c for c in cutters if c.kind == "end mill"), key=lambda c: c.dia))


def numbered(
    cutters: Sequence[Cutter], number: int, place: Place, kinds: Sequence[str] = ("end mill",)
) -> Cutter:
    """The cutter with a tool number. Raises InputError if there is none, or it is none of the
    kinds."""
    for cutter in cutters:
        if cutter.number == number:
            if cutter.kind not in kinds:
                needed = " or ".join(_a(kind) for kind in kinds)
                what = f"tool {number} is {_a(cutter.kind)}; this needs {needed}"
                raise InputError(Fault(what, place, f"name the number of {needed}"))
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


def corner_cutter(cutters: Sequence[Cutter], finisher: Cutter, depth: float) -> Cutter:
    """The cutter for what the finishing one is too round for: the smallest end mill whose flutes
    reach `depth` mm (flutes of unknown length do), or else the finishing one itself."""
    for cutter in end_mills(cutters):
        deep = cutter.flute_len is None or cutter.flute_len >= depth
        if deep and cutter.dia < finisher.dia:
            return cutter
    return finisher


def chamfer_mill(cutters: Sequence[Cutter], number: int | None, place: Place) -> Cutter:
    """The cutter that breaks edges: the one named, or else the only chamfer mill."""
    if number is not None:
        return numbered(cutters, number, place, kinds=("chamfer mill",))
    mills = [cutter for cutter in cutters if cutter.kind == "chamfer mill"]
    if len(mills) != 1:
        what = f"{'several' if mills else 'none'} of the tools is a chamfer mill"
        raise InputError(Fault(what, place, "name one with edges.tool"))
    return mills[0]


def _a(kind: str) -> str:
    return f"{'an' if kind[0] in 'aeiou' else 'a'} {kind}"
