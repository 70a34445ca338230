"""Passes of a thread: one as a block of its own, and one as a cycle that goes round a box.

The box, common practice, no source: from where the tip stands at full speed across to X, in step
with the spindle to X Z, straight out at full speed to where the tip stood across, and back to where
it stood along. While the cycle is in force, each block with an axis word goes round once more, and
the numbers that it leaves out hold on. A control that draws out at a slant before the end must
have that turned off: it isn't read.
"""

from __future__ import annotations

from jawcam.reader.blocks import Block
from jawcam.reader.faults import BlockError
from jawcam.reader.machine import Machine

__all__ = ["thread"]


def thread(machine: Machine, block: Block, axes: str) -> None:
    """A pass of a thread, or once round the box of its cycle, as the motion in force says.

    axes: the block's axis words. Raises `BlockError`; nobody knows then where the cycle left the
    tip.
    """
    if machine.modes.motion == "thread":
        _pass(machine, block, axes)
        return
    try:
        _round(machine, block, axes)
    except BlockError:
        machine.forget(axes)
        raise


def _pass(machine: Machine, block: Block, axes: str) -> None:
    """In step with the spindle to the block's point, its lead told in each block."""
    end = machine.target(*(block.take(axis) for axis in "XYZ"))
    begin, machine.at = machine.at, end
    lead = _lead(block, machine.control.lead)
    if lead is None:
        raise _no_lead(machine.control.lead, axes)
    _in_step(machine, axes)
    machine.at, lead = begin, lead * machine.scale
    machine.go("line", end, lead, block.column("motion", *axes), lead=lead)


def _round(machine: Machine, block: Block, axes: str) -> None:
    """The four moves, by the block's numbers and those that hold on."""
    held, letters = machine.box, machine.control.box_lead
    for axis in "XZ":
        number = block.take(axis)
        if number is not None:
            held[axis] = number
        if axis not in held:
            what = f"the cycle of a thread without its {axis}, which no block before gives"
            raise BlockError("R502", what, f"add {axis}", ("motion", *axes))
    lead = _lead(block, letters)
    held["lead"] = held.get("lead", 0.0) if lead is None else lead
    if not held["lead"]:
        raise _no_lead(letters, axes)
    taper = machine.control.box_taper
    if taper:
        number = block.take(taper)
        held["taper"] = held.get("taper", 0.0) if number is None else number
    _in_step(machine, axes)
    _go(machine, block.column("motion", *axes))


def _go(machine: Machine, column: int) -> None:
    """The four moves; the taper is the start's X less the end's, a radius whatever X is."""
    held, begin = machine.box, machine.at
    if machine.modes.distance == "incremental":
        what = "the cycle of a thread in increments, which isn't read"
        raise BlockError("R501", what, "write G90 and its end point", column)
    x, y, z = machine.target(held["X"], None, held["Z"])
    first = x + held.get("taper", 0.0) * machine.scale
    lead = held["lead"] * machine.scale
    machine.go("rapid", (first, y, begin[2]), 0.0, column)
    machine.go("line", (x, y, z), lead, column, lead=lead)
    machine.go("rapid", (begin[0], y, z), 0.0, column)
    machine.go("rapid", begin, 0.0, column)


def _lead(block: Block, letters: str) -> float | None:
    """The block's lead by the first of the letters that it has, None if it has none of them."""
    letter = next((letter for letter in letters if letter in block.words), "")
    lead = block.take(letter)
    if lead is not None and lead <= 0:
        what = f"{letter}{lead:g}, a lead of 0 or below"
        raise BlockError("R308", what, "write the lead without a sign", letter)
    return lead


def _no_lead(letters: str, axes: str) -> BlockError:
    mend = f"add {' or '.join(letters)} and the lead along Z"
    return BlockError("R211", "a pass of a thread without its lead", mend, ("motion", *axes))


def _in_step(machine: Machine, axes: str) -> None:
    if machine.modes.spindle == "off":
        what = "a pass of a thread needs a turning spindle"
        raise BlockError("R212", what, "start it with M3 or M4 first", ("motion", *axes))
