"""What a mill's program asks of each tool, worked out from its text."""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from jawcam.hold.target import Target
from jawcam.job.model import Job
from jawcam.proof.move import Move, moves_of
from jawcam.proof.spent import spent
from jawcam.proof.times import drive_of
from jawcam.reader.cuts import Cut, Program
from jawcam.show.measure import in_order
from jawcam.show.sheet_given import Given, number
from jawcam.show.words import clock
from jawcam.tools.cutter import Cutter
from jawcam.units import Units

__all__ = [
    "Need",
    "Row",
    "at_least",
    "by_tool",
    "mill_minutes",
    "mill_rows",
    "needs",
    "registers",
    "time_of",
]

SAME_LEVEL = 1e-6
"""mm."""

Row = tuple[str, ...]
"""The words of a tool, one for each column of the table."""


@dataclass(frozen=True)
class Need:
    """What one tool must have, in mm: `flutes` as long as its deepest cut is under what stands
    highest then, `out` of its holder so far that the holder stays at the clearance over the jaw
    top meanwhile, as the proof asks for; lowest: that cut's Z in the program's axes."""

    flutes: float
    out: float
    lowest: float


def needs(program: Program, targets: Iterable[Target]) -> dict[int, Need]:
    """Tool -> what it must have for all of the stations that a program serves.

    Tools that cut before the tops of the blanks are faced meet these where they still stand.
    """
    found: dict[int, Need] = {}
    for target in targets:
        feeds = [move for move in moves_of(program, target) if move.kind != "rapid"]
        faced = _first_faced(feeds, target)
        for move in feeds:
            depth = -move.low
            raw = target.facing if move.index < faced else 0.0
            need = Need(depth + raw, depth + target.clearance, move.low - target.zero[2])
            before = found.get(move.cutter.number, need)
            found[move.cutter.number] = Need(
                max(need.flutes, before.flutes),
                max(need.out, before.out),
                min(need.lowest, before.lowest),
            )
    return found


def _first_faced(feeds: Sequence[Move], target: Target) -> float:
    """The number of the first cut that runs level at the jaw top, where that is faced."""
    if target.facing <= 0:
        return 0
    level = (m.index for m in feeds if abs(m.low) < SAME_LEVEL and m.high - m.low < SAME_LEVEL)
    return next(level, float("inf"))


def mill_minutes(program: Program, target: Target, job: Job) -> dict[int, float]:
    """The number of each cut of the target's station -> its minutes, speeding up and slowing down
    counted; as the proof counts them."""
    moves = moves_of(program, target)
    times = spent(moves, program, drive_of(job.machine, job.units))
    rows = zip(moves, times.steady, times.ramps, strict=True)
    return {move.index: steady + ramp for move, steady, ramp in rows}


def mill_rows(given: Given, minutes: Mapping[int, float]) -> list[Row]:
    """A row for each tool in the order of use: number, registers, what it is; how far it must stand
    out and what the job says, likewise its flutes; its lowest Z; rpm, feed, minutes."""
    targets = [t for t in (given.target, *given.others) if isinstance(t, Target)]
    cutters = {c.number: c for target in targets for c in target.cutters}
    cutters |= {c.number: c for c in given.job.tools}
    asked, units, cuts = needs(given.program, targets), given.job.units, given.program.cuts
    times = by_tool(minutes, given.program)
    rows: list[Row] = []
    for tool in in_order(cuts, "tool"):
        own = [cut for cut in cuts if cut.tool == tool and cut.kind != "rapid"]
        cutter, need = cutters.get(tool), asked.get(tool)
        rows.append(
            (
                f"T{tool}",
                registers(own),
                "not one of the job's tools" if cutter is None else _what(cutter, units),
                at_least(need.out if need else None, units),
                _length(cutter.stickout if cutter else None, units),
                at_least(need.flutes if need else None, units),
                _length(cutter.flute_len if cutter else None, units),
                _length(need.lowest if need else None, units),
                _range([cut.rpm for cut in own], 0),
                _feeds(own, given.job.machine.max_feed, units),
                time_of(tool, times),
            )
        )
    return rows


def by_tool(minutes: Mapping[int, float], program: Program) -> dict[int, float]:
    """The minutes of each cut by its number -> those of each tool that has any."""
    times: dict[int, float] = defaultdict(float)
    for index, time in minutes.items():
        times[program.cuts[index].tool] += time
    return dict(times)


def time_of(tool: int, times: Mapping[int, float]) -> str:
    """A tool's time in words; one that only works in other stations has none."""
    return clock(times[tool]) if tool in times else "-"


def registers(cuts: Iterable[Cut]) -> str:
    """The length and radius registers that are in force, such as ``H4 D23``."""
    lengths = {cut.length_offset for cut in cuts if cut.length_offset}
    radii = {cut.register for cut in cuts if cut.side != "off"}
    return " ".join([*(f"H{n}" for n in sorted(lengths)), *(f"D{n}" for n in sorted(radii))])


def at_least(value: float | None, units: Units) -> str:
    """A length in mm -> words, rounded up to a tenth of a mm or a hundredth of an inch."""
    if value is None:
        return "-"
    step, digits = (0.01, 2) if units is Units.INCH else (0.1, 1)
    steps = math.ceil(units.from_mm(value) / step - 1e-6)
    return units.number(units.to_mm(steps * step), digits)


def _what(cutter: Cutter, units: Units) -> str:
    said = [f"{cutter.kind}, dia {units.say(cutter.dia)}"]
    if cutter.kind not in {"drill", "spot drill"}:
        said.append(f"{cutter.flutes} flutes" if cutter.flutes != 1 else "1 flute")
    if cutter.corner_radius:
        said.append(f"corners {units.say(cutter.corner_radius)}")
    if cutter.kind in {"chamfer mill", "drill", "spot drill"}:
        said.append(f"{cutter.point_angle:g} degrees")
    words = ", ".join(said)
    return f"{cutter.name}: {words}" if cutter.name else words


def _feeds(cuts: Sequence[Cut], highest: float, units: Units) -> str:
    """The range of feeds; the machine's highest, at which a tool crosses what is cut already, is
    left out unless it is the only one."""
    feeds = [cut.feed for cut in cuts if cut.feed > 0]
    slower = [feed for feed in feeds if feed < highest * (1 - 1e-3)]
    digits = 1 if units is Units.INCH else 0
    return _range([units.from_mm(feed) for feed in slower or feeds], digits)


def _range(values: Sequence[float], digits: int) -> str:
    if not values:
        return "-"
    low, high = f"{min(values):.{digits}f}", f"{max(values):.{digits}f}"
    return low if low == high else f"{low} to {high}"


def _length(value: float | None, units: Units) -> str:
    return "-" if value is None else number(units, value)
