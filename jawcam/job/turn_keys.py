"""The keys of a lathe setup: stock, chuck, speeds, and each kind of cut. Feeds are per turn."""

from __future__ import annotations

from collections.abc import Mapping

from jawcam.job.key import ANYWHERE, NOT_NEGATIVE, PER_TURN, SIZE, SURFACE, TOOL_NUMBER, Key, Limits

__all__ = ["INSTEAD", "SETUP"]

_LEFT = Limits(least=0, most=10)  # mm
_RPM = Limits(over=0, most=100000)

_TOOL = Key("tool", "whole", "the number of the tool", "3", limits=TOOL_NUMBER)
_FEED = Key("feed", "feed per turn", "the feed per turn", "0.2", limits=PER_TURN)
_PECK = Key("peck", "length", "the depth of each peck", "2", limits=SIZE)

_STOCK = (
    Key("dia", "length", "its diameter", "32", required=True, limits=SIZE),
    Key("bore", "length", "the diameter of its bore, 0 if solid", "0", limits=NOT_NEGATIVE),
    Key("allowance", "length", "how much to face off the end", "1", limits=NOT_NEGATIVE),
    Key("over", "length", "how far a casting stands over the part", "2", limits=SIZE),
)

_CHUCK = (
    Key("grip", "length", "the length that is held", "20", required=True, limits=SIZE),
    Key("dia", "length", "the diameter of the chuck's body", "160", limits=SIZE),
    Key(
        "jaw_height",
        "length",
        "how far the jaws reach out from the gripped diameter",
        "30",
        limits=SIZE,
    ),
    Key("jaws", "length", "how far the jaws stand out of the body along Z", "40", limits=SIZE),
    Key("max_rpm", "speed", "the highest speed marked on the chuck", "3000", limits=_RPM),
    Key("tailstock", "flag", "whether the free end is supported", "true"),
    Key("centre", "length", "the diameter of the tailstock's centre hole", "5", limits=SIZE),
    Key(
        "force",
        "force",
        "the force of all jaws together at rest",
        '"30 kN"',
        limits=Limits(over=0, most=1e7),
    ),
    Key("jaw_mass", "number", "the mass of one jaw in kg", "0.8", limits=Limits(over=0, most=500)),
    Key("jaw_radius", "length", "the radius that a jaw's middle runs on", "60", limits=SIZE),
    Key("count", "whole", "how many jaws it has", "3", limits=Limits(least=2, most=12)),
)

_SPEEDS = (
    Key("surface", "surface speed", "the cutting speed", "200", limits=SURFACE),
    Key("clamp", "speed", "the highest spindle speed allowed", "2500", limits=_RPM),
    Key("constant", "flag", "whether to turn at constant surface speed", "true"),
)

_TRAVEL_AT = tuple(
    Key(
        axis,
        "length",
        f"where the program's origin stands in the travel of {axis.upper()}, from its lower end",
        example,
        limits=ANYWHERE,
    )
    for axis, example in (("x", "30"), ("z", "350"))
)

_ROUGH = (
    _TOOL,
    Key("way", "choice", "the way of the passes", '"along"', choices=("along", "profile")),
    Key("depth", "length", "the depth of a pass on radius", "1.5", limits=SIZE),
    _FEED,
    Key("leave", "length", "stock to leave on radius", "0.2", limits=_LEFT),
    Key("leave_face", "length", "stock to leave on faces along Z", "0.1", limits=_LEFT),
)

_FINISH = (
    _TOOL,
    _FEED,
    Key(
        "surface_ra",
        "number",
        "the roughness Ra in micrometres",
        "1.6",
        limits=Limits(over=0, most=100),
    ),
    Key(
        "compensation",
        "choice",
        "who compensates the nose",
        '"worked out"',
        choices=("worked out", "control"),
    ),
)

_GROOVE = (_TOOL, _FEED, _PECK)

_THREAD = (
    _TOOL,
    Key("passes", "whole", "how many passes", "8", limits=Limits(least=1, most=100)),
    Key(
        "infeed",
        "choice",
        "how the passes share the depth",
        '"even"',
        choices=("even", "gentle"),
    ),
    Key(
        "spring",
        "whole",
        "how many passes at full depth",
        "1",
        limits=Limits(least=0, most=10),
    ),
    Key("flank", "angle", "the angle of infeed", "29.5", limits=Limits(least=0, most=45)),
)

_DRILL = (
    _TOOL,
    Key("centre", "whole", "the number of the centre drill", "7", limits=TOOL_NUMBER),
    _PECK,
)

_PART_OFF = (
    _TOOL,
    _FEED,
    Key("edge", "length", "how far the corner is broken before", "0.3", limits=_LEFT),
)

SETUP = (
    Key("end", "choice", "the end that is free", '"A"', required=True, choices=("A", "B")),
    Key("stock", "table", "the bar or blank", required=True, keys=_STOCK),
    Key("chuck", "table", "what holds the part", required=True, keys=_CHUCK),
    Key(
        "reach",
        "length",
        "how far from the free end the part is turned",
        "30",
        limits=SIZE,
    ),
    Key("speeds", "table", "the speeds", keys=_SPEEDS),
    Key("rough", "table", "the roughing", keys=_ROUGH),
    Key("finish", "table", "the finishing", keys=_FINISH),
    Key("groove", "table", "the grooving", keys=_GROOVE),
    Key("thread", "table", "the threading", keys=_THREAD),
    Key("drill", "table", "the drilling", default=None, keys=_DRILL),
    Key("bore", "table", "the boring", default=None, keys=_ROUGH),
    Key("part_off", "table", "the parting off", default=None, keys=_PART_OFF),
    Key("clearance", "length", "how far off the stock a tool moves freely", "2", limits=SIZE),
    Key(
        "travel_at",
        "table",
        "where the program's origin stands in the lathe's travel",
        keys=_TRAVEL_AT,
    ),
)
"""Those of a setup on the lathe, beside those that all setups have."""

INSTEAD: Mapping[str, str] = {
    "jaws": "write chuck = { grip = ... }, which holds the part on the lathe",
    "hold": "write chuck = { grip = ... }, and end for the end that is free",
    "clamp": "write chuck = { grip = ..., force = ... }",
    "face": "leave it out; the end is faced by as much as stock.allowance",
    "edges": "leave it out; chamfers stand in part.turned, and part.edge breaks all edges",
    "holes": "write drill = { tool = ... } for a hole along the axis",
    "zero": "leave it out; Z 0 is the finished face of the free end",
}
"""Keys of the mill's setups -> what to write in their place."""
