"""The rows of a mill's tools."""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping, Sequence

from jawcam.proof.report import ToolNeed
from jawcam.reader.cuts import Cut
from jawcam.show.measure import in_order
from jawcam.show.sheet_given import Given, number
from jawcam.show.words import clock
from jawcam.tools.cutter import Cutter
from jawcam.units import Units

__all__ = ["Row", "at_least", "mill_rows", "needs", "registers", "time_of", "times_of"]

Row = tuple[str, ...]
"""The words of a tool, one for each column of the table."""


def mill_rows(given: Given) -> list[Row]:
    """A row for each tool in the order of use: number, registers, what it is; how far it must stand
    out and what the job says, likewise its flutes; its lowest Z; rpm, feed, minutes."""
    cutters = {c.number: c for c in given.job.tools}
    asked, units, cuts = needs(given), given.job.units, given.program.cuts
    times = times_of(given)
    rows: list[Row] = []
    for tool in in_order(cuts, "tool"):
        own = [cut for cut in cuts if cut.tool == tool and cut.kind != "rapid"]
        cutter, need = cutters.get(tool), asked.get(tool)
        rows.append(
            (
                f"T{tool}",
                registers(own),
                "not one of the job's tools" if cutter is None else _what(cutter, units),
                at_least(need.stickout if need else None, units),
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


def needs(given: Given) -> dict[int, ToolNeed]:
    """Tool -> what it must have for all of the stations that the program serves."""
    found: dict[int, ToolNeed] = {}
    for report in (given.report, *(report for _, report in given.others)):
        for need in report.figures.needs:
            before = found.get(need.tool, need)
            found[need.tool] = ToolNeed(
                need.tool,
                max(need.flutes, before.flutes),
                max(need.stickout, before.stickout),
                min(need.lowest, before.lowest),
            )
    return found


def times_of(given: Given) -> dict[int, float]:
    """Tool -> the minutes of its moves in this setup."""
    return {tool.tool: tool.minutes for tool in given.report.figures.tools}


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
