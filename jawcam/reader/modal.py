"""The modal groups as tables, and the modes in force. Nothing else in this room is modal.

A group is a set of words of which one at most may stand in a block (NISTIR 6556 section 3.4,
table 4). A kind of control is a list of groups, spelled out in full in `jawcam.reader.controls`.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Literal, NamedTuple

__all__ = [
    "ARCS",
    "AXIS_USERS",
    "COMPENSATION",
    "COOLANT",
    "CYCLES",
    "DISTANCE",
    "FEED_MODE",
    "FEED_PER",
    "LENGTH",
    "MOTION",
    "OVERRIDE",
    "PLANE",
    "RETURN",
    "SPEED",
    "SPINDLE",
    "THREADS",
    "TOOL",
    "TURNING",
    "UNREAD",
    "Code",
    "Group",
    "Modes",
    "index",
]


@dataclass(frozen=True)
class Group:
    """One modal group. name: the field of `Modes` that it sets, or a name of its own; title: the
    same for people; codes: its words, as plainly as they can be written, and their meanings."""

    name: str
    title: str
    codes: Mapping[str, str]


class Code(NamedTuple):
    """A G or M word: how it is written, the group that it belongs to and what it means there."""

    word: str
    group: str
    title: str
    meaning: str


MOTION = Group(
    "motion",
    "motion",
    {
        "G0": "rapid",
        "G1": "line",
        "G2": "arc cw",
        "G3": "arc ccw",
        "G80": "off",
        "G81": "cycle 81",
        "G82": "cycle 82",
        "G83": "cycle 83",
        "G84": "cycle 84",
        "G85": "cycle 85",
        "G86": "cycle 86",
        "G87": "cycle 87",
        "G88": "cycle 88",
        "G89": "cycle 89",
    },
)
TURNING = Group(
    "motion",
    "motion",
    {"G0": "rapid", "G1": "line", "G2": "arc cw", "G3": "arc ccw", "G33": "thread", "G80": "off"},
)
PLANE = Group("plane", "plane", {"G17": "XY", "G18": "XZ", "G19": "YZ"})
DISTANCE = Group("distance", "distance mode", {"G90": "absolute", "G91": "incremental"})
FEED_MODE = Group("feed_mode", "feed mode", {"G93": "inverse time", "G94": "per minute"})
FEED_PER = Group("feed_mode", "feed mode", {**FEED_MODE.codes, "G95": "per turn"})
SPEED = Group("speed_mode", "speed mode", {"G96": "surface", "G97": "rpm"})
COMPENSATION = Group("side", "cutter compensation", {"G40": "off", "G41": "left", "G42": "right"})
LENGTH = Group("length", "length offset", {"G43": "on", "G49": "off"})
RETURN = Group("returns", "return level", {"G98": "initial", "G99": "R"})
TOOL = Group("tool", "tool change", {"M6": "change"})
SPINDLE = Group("spindle", "spindle", {"M3": "cw", "M4": "ccw", "M5": "off"})
COOLANT = Group("coolant", "coolant", {"M7": "mist", "M8": "flood", "M9": "off"})
OVERRIDE = Group("override", "override", {"M48": "on", "M49": "off"})

ARCS = ("arc cw", "arc ccw")
THREADS = ("thread", "thread box")
"""A single pass of a thread, and one that is a cycle round a box."""

CYCLES = {"cycle 81", "cycle 82", "cycle 83", "cycle 85", "cycle 86", "cycle 89"}
"""Motions that are canned cycles and are read; the others of G81 to G89 aren't."""

AXIS_USERS = {"machine origin", "home", "shift"}
"""What the words that aren't modal mean if they use the axis words themselves: G10, G28, G30 and
G92 (NISTIR 6556 section 3.4)."""

UNREAD: Mapping[str, str] = {
    "M98": "calls a subprogram",
    "M99": "ends a subprogram",
    "G65": "calls a macro",
    "G66": "calls a macro",
    "G67": "ends a macro",
}
"""Words that some controls know and that can't be read, whatever the control."""


@dataclass(slots=True)
class Modes:
    """The mode in force of each group. At the start of a program: no motion, the XY plane, mm,
    absolute, per minute, rpm, all else off (NISTIR 6556 sections 3.6.1 and 5, table 10)."""

    motion: str = "off"
    plane: Literal["XY", "XZ", "YZ"] = "XY"
    units: Literal["mm", "inch"] = "mm"
    distance: Literal["absolute", "incremental"] = "absolute"
    feed_mode: Literal["per minute", "per turn", "inverse time"] = "per minute"
    speed_mode: Literal["rpm", "surface"] = "rpm"
    side: Literal["off", "left", "right"] = "off"
    length: Literal["on", "off"] = "off"
    returns: Literal["initial", "R"] = "initial"
    spindle: Literal["off", "cw", "ccw"] = "off"
    coolant: Literal["mist", "flood", "off"] = "off"

    def choose(self, group: str, meaning: str) -> None:
        """Put a mode in force."""
        setattr(self, group, meaning)


def index(groups: Iterable[Group]) -> dict[tuple[str, float], Code]:
    """The words of the groups by letter and number: ``("G", 59.1)``."""
    return {
        (word[0], float(word[1:])): Code(word, group.name, group.title, meaning)
        for group in groups
        for word, meaning in group.codes.items()
    }
