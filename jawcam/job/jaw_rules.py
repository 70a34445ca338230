"""What must hold between the values of a setup that bores a chuck's jaws."""

from __future__ import annotations

from collections.abc import Iterator

from jawcam.job.check import Values
from jawcam.job.lookup import Broken, Rule, at, bored, items, tools, turned
from jawcam.units import Units

__all__ = ["BEHIND", "JAW_RULES"]

BEHIND = 3.0
"""mm of a jaw, at least, that are left behind the bore (common practice, no source)."""


def _opening(job: Values, units: Units) -> Iterator[Broken]:
    for path, setup in bored(job):
        opening, outer = at(setup, "jaws", "opening"), at(setup, "jaws", "outer")
        if opening is not None and outer is not None and opening >= outer:
            what = f"the jaws only go to a diameter of {units.say(outer)}"
            yield (*path, "jaws", "opening"), what, "make it smaller than outer"


def _depth(job: Values, units: Units) -> Iterator[Broken]:
    for path, setup in bored(job):
        depth, length = at(setup, "depth"), at(setup, "jaws", "length")
        if depth is None or length is None or depth <= length - BEHIND:
            continue
        what = (
            f"the jaws are {units.say(length)} long, and {units.say(BEHIND)} stay behind the bore"
        )
        yield (*path, "depth"), what, f"bore {units.say(max(length - BEHIND, 0.0))} deep at most"


def _deep_enough(job: Values, units: Units) -> Iterator[Broken]:
    """The bore takes at least what the setup that uses it holds."""
    for path, setup in bored(job):
        depth, grips = at(setup, "depth"), setup.get("grips")
        for _, other in turned(job):
            grip, free = at(other, "chuck", "grip"), other.get("end")
            if None in (depth, grips, grip, free) or free == grips:
                continue
            if depth is not None and grip is not None and depth < grip - 1e-6:
                what = f"{units.say(grip)} of end {grips} are held while end {free} is turned"
                yield (*path, "depth"), what, f"bore {units.say(grip)} deep or more"


def _tools(job: Values, _units: Units) -> Iterator[Broken]:
    """A boring tool of one's own choice must be one, and a groove needs one for insides."""
    known = tools(job)
    kinds = [tool.get("kind") for _, tool in items(job, "tool")]
    for path, setup in bored(job):
        groove = setup.get("groove")
        if groove is None or None in kinds:
            continue
        number = groove.get("tool")
        fit = [
            one
            for one in known.values()
            if one.get("kind") == "grooving" and one.get("inside", False)
        ]
        if number is None and not fit:
            what = "none of the tools grooves in a bore"
            mend = 'add a [[tool]] of the kind "grooving" with inside = true'
            yield (*path, "groove"), what, mend
        elif number in known and known[number] not in fit:
            what = f"tool {number} doesn't groove in a bore"
            mend = "take a grooving tool with inside = true"
            yield (*path, "groove", "tool"), what, mend


JAW_RULES: tuple[Rule, ...] = (_opening, _depth, _deep_enough, _tools)
"""What is asked of boring a chuck's jaws."""
