"""What must hold between the values that tell what can crash: holders, the vise, spacers, the
travel."""

from __future__ import annotations

from collections.abc import Iterator

from jawcam.job.check import Values
from jawcam.job.lookup import Broken, Rule, at, items, milled, turned
from jawcam.units import Units

__all__ = ["ROOM_RULES"]

_EVEN = 1e-9  # mm


def _vise(job: Values, units: Units) -> Iterator[Broken]:
    for path, setup in milled(job):
        top, bed = at(setup, "vise", "top"), at(setup, "vise", "bed")
        height, clearance = at(setup, "jaws", "height"), at(setup, "clearance")
        if top is not None and clearance is not None and top >= clearance:
            what = (
                "the vise's own jaws stand as high as the clearance at which the cutter moves "
                f"freely, {units.say(clearance)}"
            )
            yield (*path, "vise", "top"), what, "give a larger clearance"
        if bed is not None and height is not None and bed > _EVEN - height:
            what = f"the bed is higher than the underside of the blanks, {units.say(-height)}"
            yield (*path, "vise", "bed"), what, "count it from the jaw top: it is negative"
        elif bed is not None and top is not None and top <= bed:
            what = f"the vise's own jaws end below its bed, {units.say(bed)}"
            yield (*path, "vise", "top"), what, "count both from the jaw top, upwards"


def _spacers(job: Values, _units: Units) -> Iterator[Broken]:
    for path, setup in milled(job):
        gap = at(setup, "jaws", "gap")
        for way, spacer in items(setup, "spacers"):
            start, end = spacer.get("x", (0.0, 1.0))
            if gap == 0:
                what = "the blanks have no gap, so that no spacer stands between them"
                yield (*path, *way), what, "leave it out, or give jaws.gap"
            elif start >= end:
                what = "the spacer ends before it begins"
                yield (*path, *way, "x"), what, "write its left end first"


def _travel_at(job: Values, _units: Units) -> Iterator[Broken]:
    for key, setups, whose in (("travel", milled, "machine"), ("lathe_travel", turned, "lathe")):
        travel = job.get("machine", {}).get(key) or dict.fromkeys("xyz")
        for path, setup in setups(job):
            for axis in setup.get("travel_at", {}):
                if travel.get(axis, 0.0) is None:
                    what = f"the {whose}'s travel in {axis.upper()} isn't told"
                    mend = f"add it: {key} = {{ {axis} = ... }} under [machine]"
                    yield (*path, "travel_at", axis), what, mend


def _whose_travel(job: Values, _units: Units) -> Iterator[Broken]:
    """A job for one kind of machine alone that tells the travel of the other kind."""
    for key, other, setups, kind in (
        ("travel", "lathe_travel", milled, "mill"),
        ("lathe_travel", "travel", turned, "lathe"),
    ):
        told = (job.get("machine", {}).get(key) or {}).values()
        if any(value is not None for value in told) and not any(True for _ in setups(job)):
            what = f"this is a {kind}'s travel, and no setup here is cut on one"
            yield ("machine", key), what, f"write {other} = {{ ... }}, or leave it out"


def _holder(job: Values, units: Units) -> Iterator[Broken]:
    """A holder is thicker than the shank that it holds at its face."""
    for path, tool in items(job, "tool"):
        shank, steps = tool.get("shank", tool.get("dia")), tool.get("holder") or [{}]
        face = steps[0].get("dia")
        if "kind" in tool and shank is not None and face is not None and face <= shank:
            what = f"the holder is no thicker than the shank that it holds, {units.say(shank)}"
            mend = "give its outer diameter, the step at its face first"
            yield (*path, "holder", 1, "dia"), what, mend


ROOM_RULES: tuple[Rule, ...] = (_vise, _spacers, _travel_at, _whose_travel, _holder)
"""What is asked of what the job tells of the room round the cutter."""
