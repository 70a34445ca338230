"""Lathe tools in words: what they are, and how fast the program lets them cut."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from jawcam.reader.cuts import Cut
from jawcam.show.trace import RAPID
from jawcam.show.turned_picture import FEED, TurnPicture
from jawcam.tools.turner import Turner
from jawcam.units import MM_PER_INCH, Units

__all__ = ["ToolRow", "tool_rows"]


class ToolRow(NamedTuple):
    """A tool: its number, the looks of its feed moves, what it is, how fast it cuts."""

    number: int
    looks: tuple[int, ...]
    what: str
    speed: str


def tool_rows(picture: TurnPicture) -> list[ToolRow]:
    """One row for each tool that moves, in the order of use."""
    rows = []
    for number in picture.order:
        looks = {s.look for s in picture.path if s.tool == number and s.look != RAPID}
        cuts = [c for c in picture.program.cuts if c.tool == number and c.kind != "rapid"]
        tool = picture.tools.get(number)
        what = _what(number, tool, picture.units)
        rows.append(
            ToolRow(number, tuple(sorted(looks)) or (FEED,), what, _speed(cuts, picture.units))
        )
    return rows


def _what(number: int, tool: Turner | None, units: Units) -> str:
    if tool is None:
        return f"T{number}, not one of the job's tools" if number else "no tool called"
    said = [f"T{number} {'inside ' if tool.inside and tool.kind != 'boring' else ''}{tool.kind}"]
    if tool.insert is not None:
        said.append(tool.insert.designation or f"shape {tool.insert.shape}")
        said.append(f"nose {units.say(tool.insert.radius)}")
    if tool.hand != "right" and tool.kind in {"turning", "boring"}:
        said.append("left hand" if tool.hand == "left" else "neutral")
    if tool.width is not None:
        said.append(f"{units.say(tool.width)} wide")
    if tool.kind == "threading":
        said.append(f"{tool.pitch_angle:g} degrees")
    if tool.dia is not None:
        said.append(f"dia {units.say(tool.dia)}")
    return ", ".join(said)


def _speed(cuts: Sequence[Cut], units: Units) -> str:
    """Cutting speed or rpm, the clamp of the speed, the feeds."""
    if not cuts:
        return "no feed move"
    held = [cut for cut in cuts if cut.surface > 0]
    said = []
    if held:
        said.append(f"{_range([_surface(c.surface, units) for c in held], 0)} {_per(units)}")
        clamps = [cut.clamp for cut in held if cut.clamp > 0]
        said.append(f"at most {_range(clamps, 0)} rpm" if clamps else "no highest speed told")
    turning = [cut.rpm for cut in cuts if cut.surface <= 0 and cut.rpm > 0]
    if turning:
        said.append(f"{_range(turning, 0)} rpm{' where it is fixed' if held else ''}")
    digits, mark = (4, "in") if units is Units.INCH else (3, "mm")
    for per_turn, word in ((True, f"{mark} a turn"), (False, f"{mark}/min")):
        feeds = [
            units.from_mm(c.feed)
            for c in cuts
            if c.feed > 0 and c.lead <= 0 and c.per_turn == per_turn
        ]
        if feeds:
            said.append(f"{_range(feeds, digits)} {word}")
    leads = [units.from_mm(cut.lead) for cut in cuts if cut.lead > 0]
    if leads:
        said.append(f"lead {_range(leads, digits)} {mark}")
    return ", ".join(said) or "no speed told"


def _surface(speed: float, units: Units) -> float:
    """m/min, or feet a minute."""
    return speed * 1000 / (12 * MM_PER_INCH) if units is Units.INCH else speed


def _per(units: Units) -> str:
    return "ft/min" if units is Units.INCH else "m/min"


def _range(values: Sequence[float], digits: int) -> str:
    low, high = (f"{v:.{digits}f}" for v in (min(values), max(values)))
    if digits:
        low, high = (text.rstrip("0").rstrip(".") for text in (low, high))
    return low if low == high else f"{low} to {high}"
