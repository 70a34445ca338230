"""Surface speeds, feeds and depths of cut to start turning from, and what was assumed in working
them out. The closed forms of `turn_forms` are to be had from here too."""

from __future__ import annotations

from dataclasses import dataclass

from jawcam.errors import FaultList
from jawcam.tools.cutter import Cutter
from jawcam.tools.feeds import speeds
from jawcam.tools.insert import edge_length
from jawcam.tools.materials import PRACTICE, Material, find, suggestion
from jawcam.tools.turn_forms import (
    clamp_diameter,
    diameter_change,
    facing_time,
    feed_for,
    half_angle,
    held_speed,
    left_on_taper,
    peak_to_valley,
    peak_to_valley_exact,
    roughness_average,
    roughness_average_by_area,
    set_point_arc,
    shift_x,
    shift_z,
    taper_ratio,
    turning_time,
)
from jawcam.tools.turner import Turner
from jawcam.units import Units

__all__ = [
    "TurnSpeeds",
    "clamp_diameter",
    "diameter_change",
    "facing_time",
    "feed_for",
    "half_angle",
    "held_speed",
    "left_on_taper",
    "peak_to_valley",
    "peak_to_valley_exact",
    "roughness_average",
    "roughness_average_by_area",
    "set_point_arc",
    "shift_x",
    "shift_z",
    "taper_ratio",
    "turning_speeds",
    "turning_time",
]

# All common practice, no source.
_SHARES = {  # of the surface speed for turning
    "turning": 1.0,
    "boring": 0.8,
    "grooving": 0.7,
    "parting": 0.6,
    "threading": 0.6,
    "drill": 0.3,  # of high-speed steel
    "centre drill": 0.3,
}
_ROUGH_FEED = 0.25  # of the nose radius
_FINISH_FEED = 0.1
_FEED_SHARE = 0.5  # of the nose radius, at most
_FEED_MOST = 0.3
_GROOVE_FEED, _GROOVE_LEAST, _GROOVE_MOST = 0.02, 0.03, 0.1  # the first of the width
_EDGE_SHARE = 0.15
_ROUGH_DEPTH, _FINISH_DEPTH = 2.5, 1.0  # of the nose radius
_BORING_DEPTH = 0.5  # of that outside

_FEET_PER_METRE = 1 / (12 * Units.INCH.in_mm / 1000)
_DRILLS = {"drill": "drill", "centre drill": "spot drill"}


@dataclass(frozen=True)
class TurnSpeeds:
    """surface: m/min, of all but drills in whole numbers; feed: mm per turn, 0 for threads (it is
    their lead); depth: of a cut, on radius, mm, 0 where there is none to choose (grooves, threads,
    drills); notes: how each came about, in words."""

    surface: float
    feed: float
    depth: float
    notes: tuple[str, ...] = ()


def turning_speeds(
    tool: Turner,
    material: str,
    *,
    clamp: float,
    surface: float | None = None,
    finish: bool = False,
    roughness: float | None = None,
    units: Units = Units.MM,
) -> TurnSpeeds:
    """Choose surface speed, feed and depth of cut for a lathe tool in a material.

    The tool's own numbers win. clamp: 1/min; surface: m/min for turning instead of the
    material's; finish: for a finishing cut, roughness: its Ra in micrometres, if one is asked
    for; units: of the notes. Raises InputError with all that is missing to work something out.
    """
    faults = FaultList()
    name = f"tool {tool.number}"
    data = find(material)
    by_feed = tool.kind in _DRILLS and tool.feed is None
    if data is None and ((tool.surface is None and surface is None) or by_feed):
        mend = f"{suggestion(material)}, or give {name} its surface speed and feed in the job"
        faults.add(f"there are no speeds and feeds for {material!r}", mend=mend)
    if lacks := _lacking(tool):
        what, mend = lacks
        faults.add(f"{name}, a {_called(tool)}, has no {what}", mend=mend)
    faults.raise_if_any()
    speed, notes = _surface(tool, data, surface, clamp, units)
    feed, more = _feed(tool, material, roughness if finish else None, finish=finish, units=units)
    depth, most = _depth(tool, finish=finish, units=units)
    notes = [f"T{tool.number}: {note}" for note in notes + more + most]
    return TurnSpeeds(speed, feed, depth, tuple(notes))


def _lacking(tool: Turner) -> tuple[str, str] | None:
    """What a tool must have so that its feed and depth can be worked out, and the mend."""
    chosen = tool.feed is not None and tool.depth is not None
    if tool.kind in {"turning", "boring"} and not chosen and _nose(tool) <= 0:
        return "insert with a nose radius", "give it its insert, or its feed and depth of cut"
    if tool.kind in {"grooving", "parting"} and tool.feed is None and not tool.width:
        return "width", "give it its width, or its feed"
    if tool.kind in _DRILLS and not tool.dia:
        return "diameter", "give it its dia"
    return None


def _surface(
    tool: Turner, data: Material | None, asked: float | None, clamp: float, units: Units
) -> tuple[float, list[str]]:
    share = _SHARES[tool.kind]
    full, origin = asked or 0.0, "the job's"
    if asked is None and data is not None:
        full = data.surface_speed
        origin = f"{data.name}, as for carbide end mills: {data.speed_origin}"
    if tool.surface is not None:
        surface, note = tool.surface, "from the job"
    elif share == 1:
        surface, note = full, origin
    else:
        surface = full * share
        note = f"{share:g} of {_speed(full, units)} ({origin}) for a {_called(tool)}: {PRACTICE}"
    if tool.kind not in _DRILLS:
        surface = _whole(surface, units)
    notes = [f"surface speed {_speed(surface, units)}, {note}"]
    if tool.dia and tool.kind in _DRILLS:
        rpm = held_speed(surface, tool.dia, clamp)
        notes.append(f"that is {rpm:.0f} rpm on {units.say(tool.dia)}")
    elif tool.kind != "threading":
        held = units.say(clamp_diameter(surface, clamp))
        notes.append(f"held to {clamp:.0f} rpm, the clamp, below a diameter of {held}")
    return surface, notes


def _feed(
    tool: Turner, material: str, roughness: float | None, *, finish: bool, units: Units
) -> tuple[float, list[str]]:
    if tool.kind == "threading":
        return 0.0, ["its feed is the thread's lead"]
    if tool.feed is not None:
        feed, notes = tool.feed, [f"feed {_per_turn(tool.feed, units)}, from the job"]
    elif tool.kind in _DRILLS:
        feed, note = _drill_feed(tool, material)
        return feed, [f"feed {_per_turn(feed, units)}, {note}"]
    elif tool.kind in {"grooving", "parting"}:
        feed = min(max(_GROOVE_FEED * (tool.width or 0.0), _GROOVE_LEAST), _GROOVE_MOST)
        note = f"{_GROOVE_FEED:g} of its width, from {_per_turn(_GROOVE_LEAST, units)} to "
        note += f"{_per_turn(_GROOVE_MOST, units)}: {PRACTICE}"
        return feed, [f"feed {_per_turn(feed, units)}, {note}"]
    else:
        feed, notes = _nose_feed(_nose(tool), roughness, finish=finish, units=units)
    if finish and (nose := _nose(tool)):
        reached = roughness_average(feed, nose)
        notes.append(
            f"the feed alone gives {_roughness(reached, units)} by f^2 / (32 r) with a nose of "
            f"{units.say(nose)} radius; real surfaces come out 1.5 to 2 times as rough: {PRACTICE}"
        )
        if roughness is not None and reached > roughness * 1.001:
            notes.append(f"that is rougher than the {_roughness(roughness, units)} asked for")
    return feed, notes


def _nose_feed(
    nose: float, roughness: float | None, *, finish: bool, units: Units
) -> tuple[float, list[str]]:
    if roughness is not None:
        feed, why = feed_for(roughness, nose), f"for {_roughness(roughness, units)}"
    elif finish:
        feed, why = _FINISH_FEED, f"for finishing: {PRACTICE}"
    else:
        feed, why = _ROUGH_FEED * nose, f"{_ROUGH_FEED:g} of the nose radius: {PRACTICE}"
    most = min(_FEED_SHARE * nose, _FEED_MOST)
    notes = [f"feed {_per_turn(min(feed, most), units)}, {why}"]
    if feed > most:
        notes.append(
            f"held to that from {_per_turn(feed, units)}: at most {_FEED_SHARE:g} of the nose "
            f"radius and {_per_turn(_FEED_MOST, units)}, {PRACTICE}"
        )
    return min(feed, most), notes


def _drill_feed(tool: Turner, material: str) -> tuple[float, str]:
    """What the same drill is fed on a mill, in mm per turn."""
    dia = tool.dia or 0.0
    drill = Cutter(tool.number, _DRILLS[tool.kind], dia)
    found = speeds(drill, material, max_rpm=float("inf"), max_feed=float("inf"))
    feed = found.feed / found.rpm
    return feed, f"{feed / dia:.3g} of its diameter: {PRACTICE}"


def _depth(tool: Turner, *, finish: bool, units: Units) -> tuple[float, list[str]]:
    if tool.depth is not None:
        return tool.depth, [f"depth of cut {units.say(tool.depth)}, from the job"]
    if tool.kind not in {"turning", "boring"} or tool.insert is None:
        return 0.0, []
    share = _FINISH_DEPTH if finish else _ROUGH_DEPTH
    edge = edge_length(tool.insert)
    depth = min(_EDGE_SHARE * edge, share * tool.insert.radius)
    why = (
        f"at most {_EDGE_SHARE:g} of the edge's {units.say(edge)} and {share:g} of the nose radius"
    )
    if tool.kind == "boring":
        depth *= _BORING_DEPTH
        why += f", {_BORING_DEPTH:g} of that in a bore"
    return depth, [f"depth of cut {units.say(depth)} on radius, {why}: {PRACTICE}"]


def _called(tool: Turner) -> str:
    return tool.kind if tool.kind in _DRILLS else f"{tool.kind} tool"


def _nose(tool: Turner) -> float:
    return tool.insert.radius if tool.insert else 0.0


def _whole(surface: float, units: Units) -> float:
    """A surface speed as a control is told it, in whole m/min or ft/min, so that what is worked
    out with it is what the spindle does."""
    unit = 1 / _FEET_PER_METRE if units is Units.INCH else 1.0
    return max(round(surface / unit), 1) * unit


def _speed(surface: float, units: Units) -> str:
    if units is Units.INCH:
        return f"{surface * _FEET_PER_METRE:.0f} ft/min"
    return f"{surface:.4g} m/min"


def _per_turn(feed: float, units: Units) -> str:
    return f"{units.say(feed)}/rev"


def _roughness(roughness: float, units: Units) -> str:
    if units is Units.INCH:
        return f"Ra {1000 * units.from_mm(roughness):.3g} microinches"
    return f"Ra {roughness:.3g} micrometres"
