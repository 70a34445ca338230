"""What a program takes off and how long that takes, in a few words for the terminal."""

from __future__ import annotations

import math

from jawcam.proof.report import Figures, Peak, ToolFigures
from jawcam.units import Units

__all__ = ["figures_said", "granted_said", "minutes_said"]


def figures_said(figures: Figures, units: Units) -> list[str]:
    """The figures of a report -> lines: the volume and the time, and each tool's bites; none where
    nothing moves."""
    if figures.minutes <= 0:
        return []
    parts = (
        ("cutting", figures.feed_minutes),
        ("rapid", figures.rapid_minutes),
        ("speeding up and slowing down", figures.ramp_minutes),
        ("tool changes", figures.change_minutes),
        ("dwells", figures.dwell_minutes),
    )
    said = ", ".join(f"{name} {minutes_said(value)}" for name, value in parts if _seconds(value))
    volume = f"takes {_volume(figures.volume, units)}"
    lines = [f"{volume} in {minutes_said(figures.minutes)}" + (f": {said}" if said else "")]
    return [*lines, *(_tool(tool, units) for tool in figures.tools)]


def granted_said(figures: Figures) -> list[str]:
    """What a report takes for granted and what it doesn't judge -> a line each, where there is
    anything."""
    taken = (words.partition(": ") for words in figures.untold)
    rows = (
        ("the times take for granted", ", ".join(figures.assumed)),
        ("not told, and taken so", "; ".join(f"{what} ({how})" for what, _, how in taken)),
        ("not told, and so not judged", "; ".join(figures.unjudged)),
    )
    return [f"{head}: {said}" for head, said in rows if said]


def minutes_said(minutes: float) -> str:
    """A time -> words to the second, such as ``1 h 2 min 5 s``."""
    whole = _seconds(minutes)
    hours, rest = divmod(whole, 3600)
    parts = ((hours, "h"), (rest // 60, "min"), (rest % 60, "s"))
    return " ".join(f"{count} {mark}" for count, mark in parts if count) or "0 s"


def _seconds(minutes: float) -> int:
    return math.floor(minutes * 60 + 0.5)


def _tool(tool: ToolFigures, units: Units) -> str:
    said = f"T{tool.tool}: {minutes_said(tool.minutes)}"
    if tool.air is not None:
        said += f", {100 * tool.air:.0f} % of its cuts in air"
    bites = [
        _bite(tool.width, "wide", units),
        _bite(tool.depth, "deep", units),
        "" if tool.rate is None else f"{_rate(tool.rate, units)}{_line(tool.rate)}",
    ]
    told = ", ".join(bite for bite in bites if bite)
    return f"{said}; bites at most {told}" if told else said


def _bite(peak: Peak | None, way: str, units: Units) -> str:
    """To a hundredth of a millimetre: cells tell no more."""
    if peak is None:
        return ""
    digits, mark = (3, "in") if units is Units.INCH else (2, "mm")
    return f"{units.number(peak.most, digits)} {mark} {way}{_line(peak)}"


def _line(peak: Peak) -> str:
    return f" (line {peak.line})"


def _rate(peak: Peak, units: Units) -> str:
    return f"{_volume(peak.most, units)}/min"


def _volume(value: float, units: Units) -> str:
    """To three digits, in cubic centimetres or cubic inches."""
    whole, mark = (16387.064, "in3") if units is Units.INCH else (1000.0, "cm3")
    number = value / whole
    digits = 3 if number <= 0 else max(2 - math.floor(math.log10(number)), 0)
    return f"{number:.{min(digits, 6)}f} {mark}"
