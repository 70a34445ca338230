"""What a block does, in the order in which a control does it (NISTIR 6556 section 3.8, table 8).

Each step looks for its words in the block, takes them and changes the machine. In a block with a
fault the modes still change, so that the fault isn't followed by others of its own making, but
nothing moves: the axes named there are unknown afterwards.
"""

from __future__ import annotations

from collections.abc import Callable

from jawcam.reader.blocks import Block
from jawcam.reader.faults import BlockError
from jawcam.reader.machine import UNKNOWN, Machine
from jawcam.reader.modal import ARCS, CYCLES, THREADS
from jawcam.reader.moves import move
from jawcam.reader.origins import count_on, machine_points
from jawcam.reader.subprograms import send

__all__ = ["do"]

_MOST = 99999999


def do(machine: Machine, block: Block) -> None:
    """Carry a block out, noting its faults."""
    for step in _STEPS:
        try:
            step(machine, block)
        except BlockError as error:
            block.bad = True
            if block.torn:
                continue
            at = error.at
            machine.fault(error, at if isinstance(at, int) else block.column(*at))
    if not block.bad:
        for letter in sorted(block.words.keys() - block.used):
            word = block.words[letter]
            what = f"nothing in this block uses {letter}{word.value:g}"
            mend = "take it out, or add the word that it belongs to"
            machine.fault(BlockError("R306", what, mend), word.column)


def _feed(machine: Machine, block: Block) -> None:
    mode = block.meaning("feed_mode")
    if mode is not None and mode != machine.modes.feed_mode:
        machine.modes.choose("feed_mode", mode)
        machine.feed = 0.0
    feed = block.take("F")
    if feed is None:
        return
    if feed < 0:
        raise BlockError("R308", f"F{feed:g}, a feed below 0", "write it without its sign", "F")
    machine.feed = feed


def _speed(machine: Machine, block: Block) -> None:
    mode = block.meaning("speed_mode")
    if mode is not None and mode != machine.modes.speed_mode:
        machine.modes.choose("speed_mode", mode)
        machine.choose_speed(0.0)
    speed = block.take("S")
    if speed is None:
        return
    if speed < 0:
        raise BlockError("R308", f"S{speed:g}, a speed below 0", "write it without its sign", "S")
    if block.meaning("once") == "clamp":
        machine.clamp = speed
        machine.change("clamp", f"{speed:g}", block.column("S"))
        return
    turning = machine.modes.spindle != "off" and "spindle" not in block.codes
    changed = speed not in (machine.rpm, machine.surface)
    machine.choose_speed(speed)
    if turning and changed:
        value = f"{machine.modes.spindle} {machine.say_speed()}"
        machine.change("spindle", value, block.column("S"))


def _tool(machine: Machine, block: Block) -> None:
    number = block.whole("T", 0, _MOST)
    if machine.control.tool_words == "T with offset":
        _turret(machine, block, number)
        return
    joint = machine.control.tool_words == "T with offset and M6"
    if number is not None:
        machine.selected, machine.selected_offset = divmod(number, 100) if joint else (number, 0)
    if "tool" in block.codes:
        machine.tool = machine.selected
        if joint:
            machine.length_offset = machine.selected_offset
        machine.modes.spindle = "off"
        machine.change("tool", str(machine.tool), block.column("tool"))


def _turret(machine: Machine, block: Block, word: int | None) -> None:
    """T with the offset in its last two digits, which turns the turret; the spindle turns on, and
    the tip is taken to stand where the one before it stood. No tool: the offset alone."""
    if word is None:
        return
    tool, offset = divmod(word, 100)
    if offset and not tool:
        what = f"T{word} is an offset without its tool"
        raise BlockError("R308", what, f"write T{offset:02}{offset:02}", "T")
    machine.length_offset = offset
    machine.selected = tool or machine.tool
    if machine.selected != machine.tool:
        machine.tool = machine.selected
        machine.change("tool", str(machine.tool), block.column("T"))


def _spindle(machine: Machine, block: Block) -> None:
    way = block.meaning("spindle")
    if way is not None:
        machine.modes.choose("spindle", way)
        value = way if way == "off" else f"{way} {machine.say_speed()}"
        machine.change("spindle", value, block.column("spindle"))


def _coolant(machine: Machine, block: Block) -> None:
    kind = block.meaning("coolant")
    if kind is not None:
        machine.modes.choose("coolant", kind)
        machine.change("coolant", kind, block.column("coolant"))


def _dwell(machine: Machine, block: Block) -> None:
    if block.meaning("once") != "dwell" or block.bad:
        return
    letter, unit = machine.control.dwell
    time = block.take(letter)
    if time is None:
        name = {1.0: "seconds", 0.001: "milliseconds"}[unit]
        mend = f"add {letter} and the time in {name}"
        raise BlockError("R309", "G4 without its time", mend, "once")
    if time < 0:
        what = f"{letter}{time:g}, a time below 0"
        raise BlockError("R308", what, "write it without its sign", letter)
    machine.change("dwell", f"{time * unit:g} s", block.column("once"))


def _plane(machine: Machine, block: Block) -> None:
    plane = block.meaning("plane")
    if plane is None:
        return
    if plane != machine.control.plane:
        _forbid(machine, block, "plane")
    machine.modes.choose("plane", plane)


def _units(machine: Machine, block: Block) -> None:
    units = block.meaning("units")
    if units is not None:
        _forbid(machine, block, "units")
        machine.choose_units(units)


def _compensation(machine: Machine, block: Block) -> None:
    side = block.meaning("side")
    if side is None:
        return
    if side == "off":
        machine.modes.choose("side", side)
        machine.register = 0
        return
    if machine.control.mirrored:
        side = "right" if side == "left" else "left"
    register = block.whole("D", 0, _MOST)
    word = block.codes["side"].word
    if machine.modes.side != "off":
        mend = "turn it off with G40 first"
        raise BlockError("R401", f"{word} while cutter compensation is on", mend, "side")
    plane = machine.control.plane
    if machine.modes.plane != plane:
        mend = f"choose {'G17' if plane == 'XY' else 'G18'} first"
        raise BlockError("R402", f"{word} outside the {plane} plane", mend, "side")
    if register is None and machine.control.register == "none":
        raise BlockError("R309", f"{word} without its register", "add a D word", "side")
    machine.modes.choose("side", side)
    own = machine.length_offset if machine.control.register == "offset" else machine.tool
    machine.register = own if register is None else register


def _length(machine: Machine, block: Block) -> None:
    mode = block.meaning("length")
    if mode is None:
        return
    letter = machine.control.length_letter
    register = block.whole(letter, 0, _MOST) if mode == "on" else 0
    if register is None:
        raise BlockError("R309", "G43 without its register", f"add {letter}", "length")
    length = 0.0
    if machine.lengths is not None and register:
        if register not in machine.lengths:
            what = f"no length offset {register} is known"
            mend = f"add it to the lengths, or mend the {letter} word"
            raise BlockError("R404", what, mend, letter)
        length = machine.lengths[register]
    x, y, z = machine.at
    machine.at = (x, y, z + machine.length - length)
    machine.modes.choose("length", mode)
    machine.length_offset, machine.length = register, length


def _work_offset(machine: Machine, block: Block) -> None:
    number = block.meaning("work_offset")
    if number is None:
        return
    _forbid(machine, block, "work_offset")
    chosen = _further(machine, block) if number == "further" else int(number)
    old, machine.work_offset = machine.work_offset, chosen
    if old != machine.work_offset:
        origins = machine.origins
        machine.rebase(origins.get(old, UNKNOWN), origins.get(machine.work_offset, UNKNOWN))


def _further(machine: Machine, block: Block) -> int:
    """The work offset that a P word chooses, counted on from those that have words of their own."""
    number = block.whole("P", 1, machine.control.further_offsets)
    if number is None:
        word = block.codes["work_offset"].word
        raise BlockError("R309", f"{word} without its number", "add P", "work_offset")
    groups = (group for group in machine.control.groups if group.name == "work_offset")
    return number + sum(
        meaning != "further" for group in groups for meaning in group.codes.values()
    )


def _distance(machine: Machine, block: Block) -> None:
    for group in ("distance", "returns"):
        mode = block.meaning(group)
        if mode is not None:
            machine.modes.choose(group, mode)


def _points(machine: Machine, block: Block) -> None:
    if block.meaning("once") not in (None, "dwell", "exact stop", "clamp"):
        _forbid(machine, block, "once")
    machine_points(machine, block)


def _motion(machine: Machine, block: Block) -> None:
    mode = block.meaning("motion")
    word = block.codes["motion"].word if mode else ""
    if mode is not None:
        if mode != machine.modes.motion:
            machine.box = {}
        machine.modes.choose("motion", mode)
    if mode == "probe":
        what = f"{word} is a probing move, which isn't read"
        raise BlockError("R607", what, "prove the program without it", "motion")
    if mode not in (None, "off", "rapid", "line", *THREADS, *ARCS, *CYCLES):
        what = f"{word} is a canned cycle that isn't read"
        raise BlockError("R501", what, "write its moves out", "motion")
    move(machine, block)


def _stop(machine: Machine, block: Block) -> None:
    kind = block.meaning("stop")
    if kind in ("call", "return"):
        send(machine, block)
    elif kind is not None:
        code = block.codes["stop"]
        machine.change(kind, code.word, code.column)
        machine.ended = kind == "end"


def _forbid(machine: Machine, block: Block, group: str) -> None:
    """NISTIR 6556 appendix B lists what must not be done under cutter compensation."""
    if machine.modes.side != "off":
        what = f"{block.codes[group].word} while cutter compensation is on"
        raise BlockError("R403", what, "turn it off with G40 first", group)


_STEPS: tuple[Callable[[Machine, Block], None], ...] = (
    _feed,
    _speed,
    _tool,
    _spindle,
    _coolant,
    _dwell,
    _plane,
    _units,
    _compensation,
    _length,
    _work_offset,
    _distance,
    count_on,
    _points,
    _motion,
    _stop,
)
