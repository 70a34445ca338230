"""What a lathe's program asks of each tool, worked out from its text."""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Callable, Sequence

from jawcam.hold.turn_target import TurnTarget
from jawcam.proof.turning.path import Move, moves_of
from jawcam.reader.cuts import Program
from jawcam.show.sheet_given import Given, number
from jawcam.show.sheet_tools import Row, at_least, time_of, times_of
from jawcam.show.turned_picture import TurnPicture
from jawcam.show.turned_tools import tool_rows
from jawcam.tools.turner import Turner
from jawcam.units import Units

__all__ = ["reaches", "turned_rows"]

HAIR = 1e-6
"""mm."""


def reaches(program: Program, target: TurnTarget) -> dict[int, float]:
    """Tool -> how far it must reach, mm.

    Drills and tools in a bore: from the front face to their deepest cut; that is the stock's own
    until a cut across it has gone down to the axis or to the stock's bore. Grooving and parting
    tools: from the diameter at which they go to feed, or the stock's, to the smallest that they
    cut. Others reach with their holder: they have no row.
    """
    front = max(z for z, _, _ in target.stock)
    outer, bore = (pick(x for _, x, _ in target.stock) for pick in (max, min))
    feeds = [move for move in moves_of(program, target) if move.kind != "rapid"]
    begins: dict[int, float] = defaultdict(float)
    for move in feeds:
        highest = max(move.start[1], move.end[1], begins[move.tool.number])
        begins[move.tool.number] = min(highest, outer)
    deep: dict[int, float] = defaultdict(float)
    for move in feeds:
        number, tool = move.tool.number, move.tool
        if _goes_in(tool):
            deep[number] = max(deep[number], front - min(move.start[0], move.end[0]))
        elif tool.kind in {"grooving", "parting"}:
            lowest = max(min(move.start[1], move.end[1]), 0.0)
            deep[number] = max(deep[number], begins[number] - lowest)
        elif _faces(move, bore):
            front = min(front, move.end[0])
    return dict(deep)


def _goes_in(tool: Turner) -> bool:
    return tool.inside or tool.kind in {"boring", "drill", "centre drill"}


def _faces(move: Move, bore: float) -> bool:
    return abs(move.start[0] - move.end[0]) < HAIR and move.end[1] <= bore + HAIR


def turned_rows(given: Given, picture: TurnPicture) -> list[Row]:
    """A row for each tool in the order of use: number, offset, what it is; how far it must reach
    and what the job says; the smallest diameter (in a bore the largest) and the farthest Z that it
    cuts; speed and feed; minutes."""
    units, cuts = given.job.units, given.program.cuts
    asked = reaches(given.program, picture.target)
    times = times_of(given)
    rows: list[Row] = []
    for row in tool_rows(picture):
        own = [cut for cut in cuts if cut.tool == row.number and cut.kind != "rapid"]
        tool = picture.tools.get(row.number)
        offsets = sorted({cut.length_offset for cut in own if cut.length_offset})
        what = row.what.removeprefix(f"T{row.number} ")
        named = f"{tool.name}: {what}" if tool is not None and tool.name else what
        need, inside = asked.get(row.number), tool is not None and tool.inside
        rows.append(
            (
                f"T{row.number}",
                " ".join(str(n) for n in offsets) or "-",
                named,
                at_least(need, units),
                _has(tool, units),
                _to([max(2 * c.end[0], 0.0) for c in own], units, max if inside else min),
                _to([c.end[2] for c in own], units, min),
                row.speed,
                time_of(row.number, times),
            )
        )
    return rows


def _has(tool: Turner | None, units: Units) -> str:
    if tool is None or not (_goes_in(tool) or tool.kind in {"grooving", "parting"}):
        return "-"
    deep = tool.overhang if tool.inside and tool.overhang else tool.reach or tool.overhang
    return "-" if deep is None else number(units, deep)


def _to(values: Sequence[float], units: Units, farthest: Callable[[Sequence[float]], float]) -> str:
    told = [value for value in values if math.isfinite(value)]
    return number(units, farthest(told)) if told else "-"
