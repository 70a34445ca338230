"""Canned cycles, expanded to the moves that they make (NISTIR 6556 section 3.5.16)."""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping
from dataclasses import dataclass

from jawcam.reader.arcs import AXES
from jawcam.reader.blocks import Block
from jawcam.reader.cuts import Point3
from jawcam.reader.faults import BlockError
from jawcam.reader.machine import Cycle, Machine

__all__ = ["drill"]

BACK_OFF = 0.254
"""How far above the last bottom a peck's rapid stops, mm: "a bit" in the report, 0.010 inch by
common practice, no source."""

_ROUND_OFF = 1e-6  # of a peck: less than this to go is none
_MOST_REPEATS = 9999
_MOST_PECKS = 9999


@dataclass(frozen=True)
class _Hole:
    """One hole, heights along the drilling axis in mm; dwell: s."""

    axis: int
    top: float
    bottom: float
    clear: float
    peck: float
    dwell: float
    column: int


def drill(machine: Machine, block: Block) -> None:
    """Drill the block's hole, or its L holes, by the cycle in force.

    Raises `BlockError` if a number is missing or can't be right.
    """
    mode = machine.modes.motion
    column = block.column("motion", *"XYZ")
    first, second, third = AXES[machine.modes.plane]
    _allowed(machine, mode)
    repeats = block.whole("L", 1, _MOST_REPEATS) or 1
    written = {axis: block.take("XYZ"[axis]) for axis in (first, second)}
    numbers = _numbers(machine, block, "XYZ"[third])
    hole = _hole(machine, numbers, third, column)
    if machine.at[third] < hole.top:
        _along(machine, hole, hole.top)
    for _ in range(repeats):
        steps = [written.get(axis) for axis in range(3)]
        place = machine.target(*steps)
        if place != machine.at:
            machine.go("rapid", place, 0.0, column)
        if machine.at[third] != hole.top:
            _along(machine, hole, hole.top)
        _WAYS[mode](machine, hole)


def _allowed(machine: Machine, mode: str) -> None:
    if machine.modes.side != "off":
        what = "a canned cycle while cutter compensation is on"
        raise BlockError("R403", what, "turn it off with G40 first", ("motion", *"XYZ"))
    if machine.modes.feed_mode != "per minute":
        what = "a canned cycle under G93"
        raise BlockError("R505", what, "write G94 and a feed first", ("motion", *"XYZ"))
    if mode == "cycle 86" and machine.modes.spindle == "off":
        what = "G86 needs a turning spindle"
        raise BlockError("R506", what, "start it with M3 or M4 first", ("motion", *"XYZ"))


def _numbers(machine: Machine, block: Block, depth: str) -> Mapping[str, float]:
    """The cycle's numbers, those of the block and those that hold on, by letter as written."""
    if machine.cycle.mode != machine.modes.motion:
        machine.cycle = Cycle(machine.modes.motion)
    numbers = machine.cycle.numbers
    name = "G" + machine.modes.motion.removeprefix("cycle ")
    for letter in (depth, "R", *_EXTRA[machine.modes.motion]):
        number = block.take(letter)
        if number is not None:
            unit = machine.control.dwell[1] if letter == "P" else machine.scale
            numbers[letter] = number * unit
        if letter not in numbers:
            what = f"{name} without its {letter}, which no block before gives"
            raise BlockError("R502", what, f"add {letter}", ("motion", *"XYZ"))
    for letter, least in (("P", 0.0), ("Q", 1e-4)):
        if numbers.get(letter, least) < least:
            what = f"{letter}{numbers[letter]:g} in {name} is too small"
            raise BlockError("R308", what, "write a number above 0", letter)
    return numbers


def _hole(machine: Machine, numbers: Mapping[str, float], axis: int, column: int) -> _Hole:
    depth = "XYZ"[axis]
    old, shift = machine.at[axis], machine.shift[axis]
    if machine.modes.distance == "absolute":
        top, bottom = numbers["R"] + shift, numbers[depth] + shift
    else:
        top = old + numbers["R"]
        bottom = top + numbers[depth]
    if top < bottom:
        what = f"R lies below the depth {depth} of the hole"
        raise BlockError("R503", what, "write R above it", ("R", depth, "motion", *"XYZ"))
    peck = numbers.get("Q", 0.0)
    if "Q" in numbers and (top - bottom) / peck > _MOST_PECKS:
        what = f"more than {_MOST_PECKS} pecks in a hole"
        raise BlockError("R504", what, "write a greater Q", ("Q", "motion", *"XYZ"))
    clear = old if machine.modes.returns == "initial" and old > top else top
    return _Hole(axis, top, bottom, clear, peck, numbers.get("P", 0.0), column)


def _along(machine: Machine, hole: _Hole, height: float, *, feed: bool = False) -> None:
    """Move along the drilling axis alone, unless the tip is there."""
    at = list(machine.at)
    if at[hole.axis] == height:
        return
    at[hole.axis] = height
    end: Point3 = (at[0], at[1], at[2])
    if feed:
        machine.go("line", end, machine.feed * machine.scale, hole.column)
    else:
        machine.go("rapid", end, 0.0, hole.column)


def _dwell(machine: Machine, hole: _Hole) -> None:
    machine.change("dwell", f"{hole.dwell:g} s", hole.column)


def _plain(machine: Machine, hole: _Hole) -> None:
    _along(machine, hole, hole.bottom, feed=True)
    _along(machine, hole, hole.clear)


def _with_dwell(machine: Machine, hole: _Hole) -> None:
    _along(machine, hole, hole.bottom, feed=True)
    _dwell(machine, hole)
    _along(machine, hole, hole.clear)


def _pecked(machine: Machine, hole: _Hole) -> None:
    whole = math.ceil((hole.top - hole.bottom) / hole.peck - _ROUND_OFF)
    for peck in range(1, whole):
        depth = hole.top - peck * hole.peck
        _along(machine, hole, depth, feed=True)
        _along(machine, hole, hole.clear)
        _along(machine, hole, min(depth + BACK_OFF, hole.clear))
    _plain(machine, hole)


def _bored(machine: Machine, hole: _Hole) -> None:
    _along(machine, hole, hole.bottom, feed=True)
    _along(machine, hole, hole.clear, feed=True)


def _bored_stopped(machine: Machine, hole: _Hole) -> None:
    _along(machine, hole, hole.bottom, feed=True)
    _dwell(machine, hole)
    way, machine.modes.spindle = machine.modes.spindle, "off"
    machine.change("spindle", "off", hole.column)
    _along(machine, hole, hole.clear)
    machine.modes.spindle = way
    machine.change("spindle", f"{way} {machine.rpm:g}", hole.column)


def _bored_with_dwell(machine: Machine, hole: _Hole) -> None:
    _along(machine, hole, hole.bottom, feed=True)
    _dwell(machine, hole)
    _along(machine, hole, hole.clear, feed=True)


_WAYS: Mapping[str, Callable[[Machine, _Hole], None]] = {
    "cycle 81": _plain,
    "cycle 82": _with_dwell,
    "cycle 83": _pecked,
    "cycle 85": _bored,
    "cycle 86": _bored_stopped,
    "cycle 89": _bored_with_dwell,
}

_EXTRA: Mapping[str, str] = {
    "cycle 81": "",
    "cycle 82": "P",
    "cycle 83": "Q",
    "cycle 85": "",
    "cycle 86": "P",
    "cycle 89": "P",
}
"""Words that a cycle needs besides its depth and R."""
