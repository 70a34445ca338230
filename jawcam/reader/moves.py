"""The motion step of a block: straight moves, arcs, moves in machine coordinates."""

from __future__ import annotations

import math
import re

from jawcam.reader.arcs import (
    AXES,
    CENTRE_LETTERS,
    Arc,
    about,
    in_quadrant,
    of_radius,
    path_length,
)
from jawcam.reader.blocks import Block
from jawcam.reader.cuts import Point3
from jawcam.reader.cycles import drill
from jawcam.reader.faults import BlockError
from jawcam.reader.machine import Machine
from jawcam.reader.modal import ARCS, CYCLES, THREADS
from jawcam.reader.origins import said
from jawcam.reader.threads import thread

__all__ = ["move", "move_plain"]

_MOTIONS = {"0": "rapid", "1": "line", "2": "arc cw", "3": "arc ccw"}


def move_plain(machine: Machine, found: re.Match[str]) -> bool:
    """Do a plain block (see `jawcam.reader.tokens.plain_pattern`): the same as `move` does, but
    quickly. False, and nothing done, for all that isn't plain sailing."""
    _, g, x, y, z, i, j, f = found.groups()
    modes = machine.modes
    motion = modes.motion if g is None else _MOTIONS[g]
    if (x is None and y is None and z is None) or modes.feed_mode != "per minute":
        return False
    if "Y" not in machine.control.axes:
        return False
    end = machine.target(
        None if x is None else float(x),
        None if y is None else float(y),
        None if z is None else float(z),
    )
    feed = machine.feed if f is None else float(f)
    if i is None and j is None:
        if motion == "line":
            machine.go("line", end, feed * machine.scale, found.start(1) + 1)
        elif motion == "rapid":
            machine.go("rapid", end, 0.0, found.start(1) + 1)
        else:
            return False
    elif motion in ARCS and modes.plane == "XY" and not (x is None and y is None):
        arc = _plain_arc(machine, end, i, j, ccw=motion == "arc ccw")
        if arc is None:
            return False
        machine.go("arc", end, feed * machine.scale, found.start(1) + 1, arc)
    else:
        return False
    machine.feed, modes.motion, machine.head = feed, motion, False
    return True


def move(machine: Machine, block: Block) -> None:
    """Move as the block and the motion in force say; `BlockError` if that can't be done."""
    motion, axes = machine.modes.motion, block.free_axes()
    if block.bad:
        machine.forget(axes)
    elif block.meaning("once") == "machine axes":
        _in_machine_axes(machine, block, axes)
    elif motion in ARCS and (axes or _is_bare_circle(machine, block)):
        _arc(machine, block)
    elif not axes:
        if "motion" in block.codes and not (motion == "off" or _may_stand_bare(machine)):
            what = f"{block.codes['motion'].word} without axis words"
            raise BlockError("R201", what, "add where to go", "motion")
    elif motion in ("rapid", "line"):
        _straight(machine, block, axes)
    elif motion in THREADS:
        thread(machine, block, axes)
    elif motion in CYCLES:
        _cycle(machine, block)
    elif motion == "off":
        machine.forget(axes)
        what = f"{axes[0]}{block.words[axes[0]].value:g}, with no motion in force"
        raise BlockError("R202", what, "write G0, G1, G2 or G3 before it", tuple(axes))
    else:
        _pass_over(machine, block, axes)


def _straight(machine: Machine, block: Block, axes: str) -> None:
    """G0, G1 (NISTIR 6556 sections 3.5.1 and 3.5.2)."""
    end = machine.target(*(block.take(axis) for axis in "XYZ"))
    if machine.modes.motion == "rapid":
        machine.go("rapid", end, 0.0, _column(block, axes))
        return
    try:
        feed = _feed(machine, block, math.dist(machine.at, end))
    except BlockError:
        machine.at = end
        raise
    machine.go("line", end, feed, _column(block, axes))


def _cycle(machine: Machine, block: Block) -> None:
    try:
        drill(machine, block)
    except BlockError:
        machine.forget("XYZ")
        raise


def _pass_over(machine: Machine, block: Block, axes: str) -> None:
    """A motion that isn't read, named as a fault where it was put in force."""
    block.used.update(block.words)
    machine.forget(axes)


def _may_stand_bare(machine: Machine) -> bool:
    return machine.control.bare_motion and machine.modes.motion in ("rapid", "line", *ARCS)


def _is_bare_circle(machine: Machine, block: Block) -> bool:
    """Whether an arc shall be cut though there are no axis words: a full circle."""
    return any(letter in block.words for letter in CENTRE_LETTERS[machine.modes.plane])


def _in_machine_axes(machine: Machine, block: Block, axes: str) -> None:
    """G53 (NISTIR 6556 section 3.5.12)."""
    machine.forget(axes)
    if machine.modes.motion not in ("rapid", "line"):
        mend = "write G0 in this block"
        raise BlockError("R210", "G53 needs G0 or G1 in force", mend, "once")
    if not axes:
        raise BlockError("R309", "G53 without axis words", "add where to go", "once")
    machine.change("machine", said(block, axes), block.column("once"))
    block.used.update(axes)


def _arc(machine: Machine, block: Block) -> None:
    """G2, G3 (NISTIR 6556 section 3.5.3)."""
    first, second, third = AXES[machine.modes.plane]
    axes = block.free_axes()
    end = machine.target(*(block.take(axis) for axis in "XYZ"))
    begin = machine.at
    starts, ends = (begin[first], begin[second]), (end[first], end[second])
    named = "XYZ"[first] in axes or "XYZ"[second] in axes
    try:
        arc = _shape(machine, block, starts, ends, named=named)
        feed = _feed(machine, block, path_length(arc, end[third] - begin[third]))
    except BlockError:
        machine.at = end
        raise
    machine.go("arc", end, feed, _column(block, axes), arc)


def _shape(
    machine: Machine,
    block: Block,
    start: tuple[float, float],
    end: tuple[float, float],
    *,
    named: bool,
) -> Arc:
    """The arc from `start` to `end` in the plane; named: whether its end was written."""
    letters = CENTRE_LETTERS[machine.modes.plane]
    radius = block.take("R")
    written = [block.take(letter) for letter in letters]
    centred = written != [None, None]
    ccw = (machine.modes.motion == "arc ccw") != machine.control.mirrored
    rule = machine.rule
    if radius is not None and centred:
        raise BlockError("R207", "an arc with both R and a centre", "leave one of them", "R")
    if radius is not None and not machine.control.radius_arcs:
        mend = f"write its centre with {' and '.join(letters)}"
        raise BlockError("R208", "this kind reads no arcs by their radius", mend, "R")
    if radius is None and not centred:
        mend = f"add {' and '.join(letters)}, or R"
        raise BlockError("R203", "an arc without its centre", mend, ("motion", *"XYZ"))
    if not named and (radius is not None or not machine.control.bare_circle):
        plane = machine.modes.plane
        what = f"an arc in the {plane} plane without {plane[0]} or {plane[1]}"
        raise BlockError("R203", what, "add its end point", ("motion", *letters, "R"))
    if radius is not None:
        return of_radius(start, end, radius * machine.scale, rule, ccw=ccw)
    if machine.control.centre == "unsigned":
        return in_quadrant(start, end, _away(machine, written, letters), rule, ccw=ccw)
    return about(start, end, _centre(machine, start, written, letters), rule, ccw=ccw)


def _away(machine: Machine, written: list[float | None], letters: str) -> tuple[float, float]:
    """How far the centre lies from the start along both axes, mm."""
    for letter, value in zip(letters, written, strict=True):
        if value is not None and value < 0:
            what = f"{letter}{value:g} with a sign, where the distance of the centre must stand"
            raise BlockError("R308", what, "write it without its sign", letter)
    first, second = written
    return (first or 0.0) * machine.scale, (second or 0.0) * machine.scale


def _centre(
    machine: Machine, start: tuple[float, float], written: list[float | None], letters: str
) -> tuple[float, float]:
    """Where the centre words lead: from the start, or in the program's axes if they are absolute
    (then both must be written)."""
    if machine.control.centre == "incremental":
        return (
            start[0] + (written[0] or 0.0) * machine.scale,
            start[1] + (written[1] or 0.0) * machine.scale,
        )
    if written[0] is None or written[1] is None:
        mend = f"add both {' and '.join(letters)}"
        raise BlockError("R203", "an arc with half its centre", mend, tuple(letters))
    first, second, _ = AXES[machine.modes.plane]
    return (
        written[0] * machine.scale + machine.shift[first],
        written[1] * machine.scale + machine.shift[second],
    )


def _plain_arc(
    machine: Machine, end: Point3, i: str | None, j: str | None, *, ccw: bool
) -> Arc | None:
    """An arc in the XY plane by its centre; None if it is faulty."""
    if machine.control.centre != "incremental":
        return None
    x, y, _ = machine.at
    scale = machine.scale
    centre = (x if i is None else x + float(i) * scale, y if j is None else y + float(j) * scale)
    try:
        return about((x, y), (end[0], end[1]), centre, machine.rule, ccw=ccw)
    except BlockError:
        return None


def _feed(machine: Machine, block: Block, length: float) -> float:
    """mm/min along a path of `length` mm, or mm a turn; F is 1/minutes in inverse time (NISTIR
    6556 section 3.5.19)."""
    if machine.modes.feed_mode != "inverse time":
        return machine.feed * machine.scale
    if "F" not in block.words:
        mend = "add F, 1 / the minutes that the move takes"
        raise BlockError("R209", "a move under G93 without its F", mend, ("motion", *"XYZ"))
    return machine.feed * length


def _column(block: Block, axes: str) -> int:
    return block.column("motion", *axes)
