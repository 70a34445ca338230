"""What must hold between the values of a job: numbers that exist, names that differ, sizes that
fit together.
"""

from __future__ import annotations

import unicodedata
from collections.abc import Iterator

from jawcam.job.check import Values
from jawcam.job.model import Machine
from jawcam.job.places import KeyPath, path_words
from jawcam.job.words import listing, quoted
from jawcam.tools import materials
from jawcam.units import Units

__all__ = ["Broken", "broken_rules"]

Broken = tuple[KeyPath, str, str]
"""Where, what is wrong, and how to mend it."""

_JAW_CUTTER = "end mill"
_NAMED_TOOLS: tuple[tuple[str, ...], ...] = (("rough", "tool"), ("finish", "tool"))
_TOOL_FEEDS: tuple[tuple[str, ...], ...] = (("feed",), ("plunge_feed",))
_SETUP_FEEDS: tuple[tuple[str, ...], ...] = (
    ("rough", "feed"),
    ("rough", "slot_feed"),
    ("finish", "feed"),
)


def broken_rules(job: Values, units: Units) -> Iterator[Broken]:
    """Find what does not fit together in a checked job. Values that are at fault themselves are
    missing from it, and passed over.
    """
    for rule in _RULES:
        yield from rule(job, units)


def _items(job: Values, name: str) -> Iterator[tuple[KeyPath, Values]]:
    for number, values in enumerate(job.get(name, []), 1):
        yield (name, number), values


def _tools(job: Values) -> dict[float | None, Values]:
    """The tools by number; the first where two have the same."""
    tools: dict[float | None, Values] = {}
    for _, tool in _items(job, "tool"):
        tools.setdefault(tool.get("number"), tool)
    return tools


def _tool_numbers_differ(job: Values, _units: Units) -> Iterator[Broken]:
    first: dict[int, KeyPath] = {}
    for path, tool in _items(job, "tool"):
        number = tool.get("number")
        if number is not None and first.setdefault(number, path) != path:
            what = f"{path_words(first[number])} has the number {number} already"
            yield (*path, "number"), what, "give each tool a number of its own"


def _setup_names_differ(job: Values, _units: Units) -> Iterator[Broken]:
    first: dict[str, KeyPath] = {}
    for path, setup in _items(job, "setup"):
        name = setup.get("name", "")
        folded = unicodedata.normalize("NFKC", name).casefold()
        if name and first.setdefault(folded, path) != path:
            what = f"{path_words(first[folded])} has this name already"
            mend = "give each setup a name of its own; upper and lower case count as the same"
            yield (*path, "name"), what, mend


def _corner_radius(job: Values, units: Units) -> Iterator[Broken]:
    for path, tool in _items(job, "tool"):
        kind, dia, radius = (tool.get(key) for key in ("kind", "dia", "corner_radius"))
        bull_nose, place = kind == "bull-nose end mill", (*path, "corner_radius")
        if bull_nose and radius is None:
            what = "a bull-nose end mill needs its corner_radius"
            yield place, what, "add it, or make the kind an end mill"
        elif radius is not None and kind and not bull_nose:
            what = f"{quoted(kind)} has no corner_radius"
            yield place, what, 'leave it out, or make the kind "bull-nose end mill"'
        elif radius is not None and dia is not None and radius >= dia / 2:
            what = f"the corner radius must be less than the tool's own, {units.say(dia / 2)}"
            yield place, what, "make it smaller, or make the kind a ball end mill"


def _stickout(job: Values, units: Units) -> Iterator[Broken]:
    for path, tool in _items(job, "tool"):
        flutes, out = tool.get("flute_len"), tool.get("stickout")
        if flutes is not None and out is not None and out < flutes:
            what = f"the tool sticks out less than its flutes are long, {units.say(flutes)}"
            yield (*path, "stickout"), what, "measure from the holder's face to the tip"


def _machine_limits(job: Values, units: Units) -> Iterator[Broken]:
    machine = job.get("machine", {})
    most_rpm = machine.get("max_rpm", Machine().max_rpm)
    most_feed = machine.get("max_feed", Machine().max_feed)
    for name, ways in (("tool", _TOOL_FEEDS), ("setup", _SETUP_FEEDS)):
        for path, values in _items(job, name):
            for way in ways:
                if (_at(values, way) or 0) > most_feed:
                    what = f"the machine's highest feed is {units.say(most_feed)}/min"
                    yield (*path, *way), what, "lower it, or set machine.max_feed"
    for path, tool in _items(job, "tool"):
        if tool.get("rpm", 0) > most_rpm:
            what = f"the machine's highest spindle speed is {most_rpm:g} rpm"
            yield (*path, "rpm"), what, "lower it, or set machine.max_rpm"


def _at(values: Values, way: tuple[str, ...]) -> float | None:
    *tables, key = way
    for table in tables:
        values = values.get(table, {})
    number: float | None = values.get(key)
    return number


def _named_tools(job: Values, _units: Units) -> Iterator[Broken]:
    kinds = {number: tool.get("kind") for number, tool in _tools(job).items()}
    numbers = listing(str(number) for number in kinds if number is not None)
    for path, setup in _items(job, "setup"):
        for way in _NAMED_TOOLS:
            number = _at(setup, way)
            if number is None or None in kinds:
                continue
            if number not in kinds:
                yield (*path, *way), f"there is no tool {number}", f"the tools are {numbers}"
            elif kinds[number] not in (_JAW_CUTTER, None):
                what = f"tool {number} is a {kinds[number]}, and jaws are cut with end mills only"
                yield (*path, *way), what, f"name a tool of the kind {quoted(_JAW_CUTTER)}"


def _some_end_mill(job: Values, _units: Units) -> Iterator[Broken]:
    kinds = [tool.get("kind") for _, tool in _items(job, "tool")]
    if kinds and None not in kinds and _JAW_CUTTER not in kinds:
        what = "none of the tools is an end mill, and jaws are cut with end mills only"
        yield ("tool",), what, f"add a [[tool]] of the kind {quoted(_JAW_CUTTER)}"


def _depth_in_blank(job: Values, units: Units) -> Iterator[Broken]:
    for path, setup in _items(job, "setup"):
        depth, height = _at(setup, ("hold", "depth")), _at(setup, ("jaws", "height"))
        if depth is not None and height is not None and depth >= height:
            what = f"the pocket would go through the blanks, which are {units.say(height)} high"
            yield (*path, "hold", "depth"), what, "hold the part less deep, or take higher blanks"


def _rough_steps(job: Values, units: Units) -> Iterator[Broken]:
    tools = _tools(job)
    for path, setup in _items(job, "setup"):
        tool = tools.get(_at(setup, ("rough", "tool")), {})
        for key, size, words in (
            ("stepover", "dia", "wide"),
            ("stepdown", "flute_len", "long in its flutes"),
        ):
            step, most = _at(setup, ("rough", key)), tool.get(size)
            if step is not None and most is not None and step > most:
                what = f"tool {tool['number']} is only {units.say(most)} {words}"
                yield (*path, "rough", key), what, f"make the {key} smaller"


def _jaw_material(job: Values, _units: Units) -> Iterator[Broken]:
    """A material without data is fine as long as there is nothing to work out from it."""
    tools = [tool for _, tool in _items(job, "tool")]
    if all("rpm" in tool and "feed" in tool for tool in tools):
        return
    for path, setup in _items(job, "setup"):
        material = setup.get("jaws", {}).get("material")
        if material is not None and materials.find(material) is None:
            what = f"there are no speeds and feeds for {quoted(material)}"
            mend = f"{materials.suggestion(material)}, or give every tool its rpm and feed"
            yield (*path, "jaws", "material"), what, mend


_RULES = (
    _tool_numbers_differ,
    _setup_names_differ,
    _corner_radius,
    _stickout,
    _machine_limits,
    _named_tools,
    _some_end_mill,
    _depth_in_blank,
    _rough_steps,
    _jaw_material,
)
