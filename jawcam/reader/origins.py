"""Words that use the axis words themselves: G10, G28, G30 and the G92 family (NISTIR 6556 sections
3.5.5, 3.5.8 and 3.5.18), and those that a lathe has in their place."""

from __future__ import annotations

import math

from jawcam.reader.blocks import Block
from jawcam.reader.faults import BlockError
from jawcam.reader.machine import UNKNOWN, Machine

__all__ = ["count_on", "machine_points", "said"]


def count_on(machine: Machine, block: Block) -> None:
    """Words that count on from where the tip is become words of their axes, which say where to."""
    for letter, axis in machine.control.steps.items():
        word = block.words.get(letter)
        if word is None:
            continue
        if axis in block.words:
            what = f"{axis} and {letter} in one block, which both say where {axis} goes"
            raise BlockError("R301", what, "leave one, or give each its own block", letter)
        del block.words[letter]
        place = "XYZ".index(axis)
        scale = machine.x_scale if axis == "X" else machine.scale
        value = (machine.at[place] - machine.shift[place]) / scale + word.value
        block.words[axis] = word._replace(value=value)


def machine_points(machine: Machine, block: Block) -> None:
    """Carry out the block's word of this kind, if it has one."""
    once = block.meaning("once")
    axes = block.free_axes()
    if once == "machine origin":
        _work_origin(machine, block, axes)
    elif once == "home":
        _home(machine, block, axes)
    elif once == "clamp":
        _clamp(block, axes)
    elif once == "shift":
        _shift(machine, block, axes)
    elif once in ("shift cleared", "shift off", "shift on"):
        _shift_again(machine, once)


def said(block: Block, axes: str) -> str:
    """The block's word that isn't modal and its axis words, as they were written."""
    words = [(axis, block.words[axis]) for axis in axes]
    texts = [
        f"{axis}{word.value:g}" if word.letter == axis else f"{word.letter}{word.text}"
        for axis, word in words
    ]
    return " ".join([block.codes["once"].word, *texts])


def _work_origin(machine: Machine, block: Block, axes: str) -> None:
    """G10 L2 P n: the origin of a work offset in machine coordinates."""
    kind, number = block.whole("L", 2, 2), block.whole("P", 1, 9)
    values = [block.take(axis) if axis in axes else None for axis in "XYZ"]
    if block.bad:
        return
    if kind is None or number is None:
        mend = "write G10 L2 P1 to P9 and the axis words"
        raise BlockError("R309", "G10 without its L2 or its P", mend, "once")
    old = machine.origins.get(number, UNKNOWN)
    x, y, z = (
        was if value is None else value * machine.scale
        for was, value in zip(old, values, strict=True)
    )
    machine.origins[number] = (x, y, z)
    if number == machine.work_offset:
        machine.rebase(old, (x, y, z))


def _home(machine: Machine, block: Block, axes: str) -> None:
    """G28, G30: by way of a point to one that only the machine knows."""
    x, y, z = (block.take(axis) if axis in axes else None for axis in "XYZ")
    if not block.bad:
        column = block.column("once")
        way = machine.target(x, y, z)
        steps = zip(way, machine.at, strict=True)
        if any(to != at and not (math.isnan(to) and math.isnan(at)) for to, at in steps):
            machine.go("rapid", way, 0.0, column)
        machine.change("machine", said(block, axes), column)
    machine.forget(axes if axes and machine.control.home == "named axes" else "XYZ")


def _shift(machine: Machine, block: Block, axes: str) -> None:
    """G92: from now on the tip's place has these coordinates."""
    values = {axis: block.take(axis) for axis in axes}
    if block.bad:
        machine.forget(axes)
        return
    if not axes:
        raise BlockError("R309", "G92 without axis words", "add the axes that it sets", "once")
    for axis, value in values.items():
        if value is not None:
            machine.put("XYZ".index(axis), value * machine.scale)
    machine.stored_shift = machine.shift


def _clamp(block: Block, axes: str) -> None:
    """The highest rpm, whose S has been taken; a lathe has no shift by the same word."""
    word = block.codes["once"].word
    if axes:
        what = f"{word} with {axes[0]}: it is read as the highest speed alone"
        raise BlockError("R306", what, "choose a work offset in place of a shift", tuple(axes))
    if not (block.bad or "S" in block.words):
        raise BlockError("R309", f"{word} without S", "add S and the highest rpm", "once")


def _shift_again(machine: Machine, once: str) -> None:
    """G92.1, G92.2 and G92.3. An axis that G92 set while nobody knew where it was is unknown
    once the shift ends."""
    if once == "shift on":
        machine.shift = machine.stored_shift
        return
    if once == "shift cleared":
        machine.stored_shift = (0.0, 0.0, 0.0)
    machine.shift = (0.0, 0.0, 0.0)
    machine.forget("".join("XYZ"[axis] for axis in sorted(machine.preset)))
    machine.preset.clear()
