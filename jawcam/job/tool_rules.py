"""What must hold between the values of the tools, and which kind does what in a setup."""

from __future__ import annotations

from collections.abc import Iterator

from jawcam.job.check import Values
from jawcam.job.lookup import Broken, Rule, at, items, milled, on_lathe, tools
from jawcam.job.places import KeyPath, path_words
from jawcam.job.words import listing, quoted
from jawcam.units import Units

__all__ = ["TOOL_RULES"]

_JAW_CUTTER = "end mill"
_CHAMFERER = "chamfer mill"
_WITH_ANGLE = (_CHAMFERER, "drill", "spot drill")
_CENTRE_DRILL = "centre drill"
_NAMED_TOOLS: tuple[tuple[tuple[str, ...], str, str], ...] = (
    (("rough", "tool"), _JAW_CUTTER, "roughing"),
    (("finish", "tool"), _JAW_CUTTER, "finishing"),
    (("face", "tool"), _JAW_CUTTER, "facing"),
    (("edges", "tool"), _CHAMFERER, "breaking the edges"),
    (("corners", "tool"), "drill", "drilling the corners"),
)
_HOLE_TOOLS = (("tool", "drill", "drilling a hole"), ("spot", "spot drill", "spotting a hole"))
_LATHE_TOOLS: tuple[tuple[tuple[str, ...], str, str], ...] = (
    (("rough", "tool"), "turning", "roughing"),
    (("finish", "tool"), "turning", "finishing"),
    (("groove", "tool"), "grooving", "grooving"),
    (("thread", "tool"), "threading", "threading"),
    (("drill", "tool"), "drill", "drilling"),
    (("drill", "centre"), _CENTRE_DRILL, "centring"),
    (("bore", "tool"), "boring", "boring"),
    (("part_off", "tool"), "parting", "parting off"),
)


def _a(kind: str) -> str:
    words = f"{kind} tool" if kind.endswith("ing") else kind
    return f"an {words}" if words[0] in "aeiou" else f"a {words}"


def _tool_numbers_differ(job: Values, _units: Units) -> Iterator[Broken]:
    first: dict[int, KeyPath] = {}
    for path, tool in items(job, "tool"):
        number = tool.get("number")
        if number is not None and first.setdefault(number, path) != path:
            what = f"{path_words(first[number])} has the number {number} already"
            yield (*path, "number"), what, "give each tool a number of its own"


def _corner_radius(job: Values, units: Units) -> Iterator[Broken]:
    for path, tool in items(job, "tool"):
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


def _angle(job: Values, _units: Units) -> Iterator[Broken]:
    for path, tool in items(job, "tool"):
        kind, angle = tool.get("kind"), tool.get("angle")
        if angle is None or kind is None:
            continue
        if kind not in (*_WITH_ANGLE, _CENTRE_DRILL):
            what = f"{quoted(kind)} has no angle"
            yield (*path, "angle"), what, f"leave it out; {listing(_WITH_ANGLE)} have one"
        elif kind == _CHAMFERER and angle >= 180:
            what = "a chamfer mill of 180 deg would be flat"
            yield (*path, "angle"), what, "give the angle between its flanks, such as 90"


def _tip(job: Values, units: Units) -> Iterator[Broken]:
    for path, tool in items(job, "tool"):
        kind, dia, tip = (tool.get(key) for key in ("kind", "dia", "tip_dia"))
        if tip is None or kind is None:
            continue
        if kind != _CHAMFERER:
            what = f"{quoted(kind)} has no tip_dia"
            yield (*path, "tip_dia"), what, f"leave it out, or make the kind {quoted(_CHAMFERER)}"
        elif dia is not None and tip >= dia:
            what = f"the tip must be smaller than the tool, {units.say(dia)}"
            yield (*path, "tip_dia"), what, "make it smaller; 0 is a sharp tip"


def _stickout(job: Values, units: Units) -> Iterator[Broken]:
    for path, tool in items(job, "tool"):
        flutes, out = tool.get("flute_len"), tool.get("stickout")
        if flutes is not None and out is not None and out < flutes:
            what = f"the tool sticks out less than its flutes are long, {units.say(flutes)}"
            yield (*path, "stickout"), what, "measure from the holder's face to the tip"


_TWICE = (("surface", "rpm", "the spindle speed"), ("chip", "feed", "the feed"))


def _told_twice(job: Values, _units: Units) -> Iterator[Broken]:
    for path, tool in items(job, "tool"):
        for one, other, what in _TWICE:
            if tool.get(one) is not None and tool.get(other) is not None:
                yield (*path, one), f"{other} tells {what} already", "give one of the two"


def _chip_of_a_drill(job: Values, _units: Units) -> Iterator[Broken]:
    for path, tool in items(job, "tool"):
        if tool.get("kind") in ("drill", "spot drill") and tool.get("chip") is not None:
            yield (*path, "chip"), "a drill is fed by the turn", "give its feed instead"


def _named(setup: Values) -> Iterator[tuple[KeyPath, float, str, str]]:
    """Every tool that a setup names: where, its number, the kind it must be, and what for."""
    for way, kind, work in _LATHE_TOOLS if on_lathe(setup) else _NAMED_TOOLS:
        number, unused = at(setup, *way), way[0] == "corners" and not _drilled(setup)
        if number is not None and not unused:
            yield way, number, kind, work
    for path, hole in items(setup, "holes"):
        for key, kind, work in _HOLE_TOOLS:
            if key in hole:
                yield (*path, key), hole[key], kind, work


def _drilled(setup: Values) -> bool:
    return bool((setup.get("corners") or {}).get("relief", "drilled") == "drilled")


def _named_tools(job: Values, _units: Units) -> Iterator[Broken]:
    if any("number" not in tool for _, tool in items(job, "tool")):
        return
    kinds = {number: tool.get("kind") for number, tool in tools(job).items()}
    numbers = listing(map(str, kinds))
    for path, setup in items(job, "setup"):
        for way, number, kind, work in _named(setup):
            if number not in kinds:
                yield (*path, *way), f"there is no tool {number}", f"the tools are {numbers}"
            elif kinds[number] not in (kind, None):
                what = f"tool {number} is {_a(str(kinds[number]))}, but {work} takes {_a(kind)}"
                yield (*path, *way), what, f"name a tool of the kind {quoted(kind)}"


def _some_end_mill(job: Values, _units: Units) -> Iterator[Broken]:
    kinds = [tool.get("kind") for _, tool in items(job, "tool")]
    cut = any(True for _ in milled(job)) or not job.get("setup")
    if cut and kinds and None not in kinds and _JAW_CUTTER not in kinds:
        what = "none of the tools is an end mill, and jaws are cut with end mills only"
        yield ("tool",), what, f"add a [[tool]] of the kind {quoted(_JAW_CUTTER)}"


def _one_chamfer_mill(job: Values, _units: Units) -> Iterator[Broken]:
    kinds = [tool.get("kind") for _, tool in items(job, "tool")]
    count = kinds.count(_CHAMFERER)
    if not kinds or None in kinds or count == 1:
        return
    for path, setup in items(job, "setup"):
        edges = setup.get("edges")
        if edges and edges.get("tool", 0) is None:
            if count:
                what = f"{count} of the tools are chamfer mills"
                yield (*path, "edges"), what, "name one of them with tool = ..."
            else:
                what = "none of the tools is a chamfer mill, which breaking the edges takes"
                yield (*path, "edges"), what, f"add a [[tool]] of the kind {quoted(_CHAMFERER)}"


def _chamfer_within_flank(job: Values, units: Units) -> Iterator[Broken]:
    cutters = tools(job)
    mills = [tool for tool in cutters.values() if tool.get("kind") == _CHAMFERER]
    for path, setup in items(job, "setup"):
        edges = setup.get("edges") or {}
        named = cutters.get(edges.get("tool"), {})
        tool = mills[0] if len(mills) == 1 and edges.get("tool", 0) is None else named
        if tool.get("kind") != _CHAMFERER or "dia" not in tool or "width" not in edges:
            continue
        flank = (tool["dia"] - tool.get("tip_dia", 0.0)) / 2
        if 0 < flank <= edges["width"]:
            what = f"the flanks of tool {tool['number']} are only {units.say(flank)} wide"
            yield (*path, "edges", "width"), what, "make it smaller, or take a larger tool"


TOOL_RULES: tuple[Rule, ...] = (
    _tool_numbers_differ,
    _corner_radius,
    _angle,
    _tip,
    _stickout,
    _told_twice,
    _chip_of_a_drill,
    _named_tools,
    _some_end_mill,
    _one_chamfer_mill,
    _chamfer_within_flank,
)
"""What is asked of the tools."""
