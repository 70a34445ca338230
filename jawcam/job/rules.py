"""What must hold between the values of a job: numbers that exist, names that differ, sizes that
fit together.
"""

from __future__ import annotations

import itertools
from collections.abc import Iterator

from jawcam.job.check import Values
from jawcam.job.jaw_rules import JAW_RULES
from jawcam.job.lookup import Broken, Rule, at, items, milled
from jawcam.job.model import Machine
from jawcam.job.part_rules import PART_RULES
from jawcam.job.room_rules import ROOM_RULES
from jawcam.job.setup_rules import SETUP_RULES
from jawcam.job.single import DrillFeed
from jawcam.job.tool_rules import TOOL_RULES
from jawcam.job.turn_rules import TURN_RULES
from jawcam.job.turned_rules import TURNED_RULES
from jawcam.tools.cutter import KINDS
from jawcam.units import Units

__all__ = ["broken_rules"]

_TOOL_FEEDS: tuple[tuple[str, ...], ...] = (("feed",), ("plunge_feed",))
_SETUP_FEEDS: tuple[tuple[str, ...], ...] = (
    ("rough", "feed"),
    ("rough", "slot_feed"),
    ("finish", "feed"),
    ("face", "feed"),
    ("edges", "feed"),
)


def broken_rules(job: Values, units: Units) -> Iterator[Broken]:
    """Find what does not fit together in a checked job. Values that are at fault themselves are
    missing from it, and passed over.
    """
    for rule in _RULES:
        yield from rule(job, units)


def _machine_limits(job: Values, units: Units) -> Iterator[Broken]:
    machine = job.get("machine", {})
    most_rpm = machine.get("max_rpm", Machine().max_rpm)
    most_feed = machine.get("max_feed", Machine().max_feed)
    cutters = [one for one in items(job, "tool") if one[1].get("kind") in (None, *KINDS)]
    for found, ways in ((cutters, _TOOL_FEEDS), (milled(job), _SETUP_FEEDS)):
        for path, values in found:
            for way in ways:
                if _per_minute(values, way) > most_feed:
                    what = f"the machine's highest feed is {units.say(most_feed)}/min"
                    yield (*path, *way), what, "lower it, or set machine.max_feed"
    if machine.get("min_rpm", 0) > most_rpm:
        what = f"the machine's highest spindle speed is {most_rpm:g} rpm"
        yield ("machine", "min_rpm"), what, "lower it, or set machine.max_rpm"
    for first, second in itertools.combinations(items(machine, "curve"), 2):
        if "rpm" in first[1] and first[1]["rpm"] == second[1].get("rpm"):
            what = f"the curve has {first[1]['rpm']:g} rpm already"
            yield ("machine", *second[0], "rpm"), what, "give each speed once"
    for path, tool in items(job, "tool"):
        if tool.get("rpm", 0) > most_rpm:
            what = f"the machine's highest spindle speed is {most_rpm:g} rpm"
            yield (*path, "rpm"), what, "lower it, or set machine.max_rpm"


def _per_minute(values: Values, way: tuple[str, ...]) -> float:
    """The feed at the end of a way; 0 if there is none per minute."""
    if isinstance(drill := values.get(way[0]), DrillFeed):
        return drill.minute or 0.0
    return at(values, *way) or 0.0


_RULES: tuple[Rule, ...] = (
    *PART_RULES,
    *TURNED_RULES,
    *TOOL_RULES,
    *SETUP_RULES,
    *ROOM_RULES,
    *TURN_RULES,
    *JAW_RULES,
    _machine_limits,
)
