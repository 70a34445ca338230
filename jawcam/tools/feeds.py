"""Speeds and feeds from cutter and material, and what was assumed in working them out."""

from __future__ import annotations

import itertools
import math
from dataclasses import dataclass, replace

from jawcam.errors import Fault, InputError, InternalError
from jawcam.tools.cutter import Cutter
from jawcam.tools.materials import PRACTICE, Chips, Material, find, suggestion
from jawcam.tools.reasons import Reasons, feed_words
from jawcam.units import Units

__all__ = ["Speeds", "arc_feed", "chip_load", "feed_rate", "speeds", "spindle_speed"]

_MILLED = ("end mill", "ball end mill", "bull-nose end mill", "chamfer mill")
_DRILLS = ("drill", "spot drill")
_SLOT_SHARE = 0.5
_PLUNGE_SHARE = 0.5
_DRILL_SPEED_SHARE = 0.3  # of carbide's surface speed, for drills of high-speed steel
_PER_TURN = {"N": 0.015, "": 0.015}  # of the drill's diameter, by ISO 513 letter; "" plastics
_PER_TURN_HARD = 0.010  # steel, and whatever else is none of these
_SPOT_SHARE = 0.5
_FEET_PER_METRE = 1 / (12 * Units.INCH.in_mm / 1000)


@dataclass(frozen=True)
class Speeds:
    """rpm: 1/min; feed, plunge_feed (straight down), slot_feed (engaged over the full width):
    mm/min. reasons: how they came about, in words; own_feed: whether `feed` is the job's.
    """

    rpm: float
    feed: float
    plunge_feed: float
    slot_feed: float
    reasons: Reasons
    own_feed: bool = False


def spindle_speed(surface_speed: float, dia: float) -> float:
    """Work out 1/min from m/min and mm: n = 1000 vc / (pi D)."""
    return 1000 * surface_speed / (math.pi * dia)


def feed_rate(rpm: float, flutes: int, chip: float) -> float:
    """Work out mm/min from 1/min and the chip load per tooth in mm: vf = n z fz."""
    return rpm * flutes * chip


def arc_feed(feed: float, radius: float, cutter_radius: float, *, inside: bool) -> float:
    """Work out the feed of the cutter's centre that gives `feed` at an arc of `radius` (mm).

    F (R - r) / R in an inside arc and F (R + r) / R round an outside one. Raises InternalError
    for an inside arc that the cutter can't follow.
    """
    if radius <= 0 or (inside and cutter_radius >= radius):
        raise InternalError(f"a cutter of radius {cutter_radius} can't cut an arc of {radius}")
    return feed * (radius - cutter_radius if inside else radius + cutter_radius) / radius


def chip_load(chips: Chips, dia: float) -> float:
    """Read a chip load off its table: straight between rows, in proportion to the diameter below
    the first, and no more than the last.
    """
    first, last = chips[0], chips[-1]
    if dia <= first[0]:
        return first[1] * dia / first[0]
    for (d0, c0), (d1, c1) in itertools.pairwise(chips):
        if dia <= d1:
            return c0 + (c1 - c0) * (dia - d0) / (d1 - d0)
    return last[1]


def speeds(
    cutter: Cutter,
    material: str,
    *,
    max_rpm: float,
    max_feed: float,
    min_rpm: float = 0.0,
    units: Units = Units.MM,
) -> Speeds:
    """Choose speeds and feeds for a cutter in a material.

    The cutter's own numbers win, its cutting speed and chip too; what it lacks is worked out, and
    nothing exceeds the machine's `max_rpm` (1/min) and `max_feed` (mm/min), nor turns slower than
    `min_rpm`. `units` are those of the reasons. Raises InputError if something must be worked out
    and there is no data for the material or the kind of cutter.

    Drills and spot drills only go straight down, so that all their feeds are one: `plunge_feed`
    in the job, or else `feed` there, or a share of the diameter for each turn.
    """
    if cutter.kind in _DRILLS:
        cutter = replace(cutter, feed=cutter.plunge_feed or cutter.feed)
    told = (cutter.rpm or cutter.surface) and (cutter.feed or cutter.chip)
    data = None if told else _data(cutter, material)
    rpm, rpm_words = _rpm(cutter, data, (min_rpm, max_rpm), units)
    feed, why = _feed(cutter, data, rpm, max_feed, units)
    reasons = Reasons(cutter.number, rpm_words, f"feed {feed_words(feed, units)}: {why}", why=why)
    own = cutter.feed is not None
    if cutter.kind in _DRILLS:
        return Speeds(rpm, feed, feed, feed, reasons, own)
    slot_feed = feed * _SLOT_SHARE
    plunge_feed, down = feed * _PLUNGE_SHARE, "half"
    if cutter.plunge_feed is not None:
        plunge_feed, down = min(cutter.plunge_feed, max_feed), "from the job"
    more = f"straight down {feed_words(plunge_feed, units)}: {down}"
    return Speeds(rpm, feed, plunge_feed, slot_feed, replace(reasons, more=(more,)), own)


def _data(cutter: Cutter, material: str) -> Material:
    if cutter.kind not in (*_MILLED, *_DRILLS):
        what = f"there are no speeds and feeds for tool {cutter.number}, a {cutter.kind}"
        raise InputError(Fault(what, mend="give it its rpm and feed in the job"))
    if (data := find(material)) is None:
        what = f"there are no speeds and feeds for {material!r}"
        mend = f"{suggestion(material)}, or give the tool its rpm and feed in the job"
        raise InputError(Fault(what, mend=mend))
    return data


def _rpm(
    cutter: Cutter, data: Material | None, bounds: tuple[float, float], units: Units
) -> tuple[float, str]:
    """The speed within the machine's least and highest, and its reason."""
    if cutter.rpm is not None:
        rpm, why = cutter.rpm, "from the job"
    elif cutter.surface is not None:
        rpm = spindle_speed(cutter.surface, cutter.dia)
        why = f"{_speed_words(cutter.surface, units)}, from the job"
    elif data is None:
        rpm, why = bounds[1], "from the job"
    else:
        drill = cutter.kind in _DRILLS
        speed = data.surface_speed * (_DRILL_SPEED_SHARE if drill else 1.0)
        rpm = spindle_speed(speed, cutter.dia)
        surface = _speed_words(speed, units)
        made_of = f"a {cutter.kind} of high-speed steel" if drill else "carbide"
        origin = data.speed_origin
        if drill:
            origin = f"{_DRILL_SPEED_SHARE:g} of carbide's, {PRACTICE}"
        why = f"{surface} for {made_of} in {data.name} ({origin})"
    held = min(max(rpm, bounds[0]), bounds[1])
    if held != rpm:
        which = "highest" if held < rpm else "least"
        return held, f"{held:.0f} rpm, the machine's {which}: {rpm:.0f} were due, {why}"
    return rpm, f"{rpm:.0f} rpm: {why}"


def _speed_words(surface: float, units: Units) -> str:
    """A cutting speed in m/min in the job's units."""
    if units is Units.INCH:
        return f"{surface * _FEET_PER_METRE:.0f} ft/min"
    return f"{surface:.3g} m/min"


def _feed(
    cutter: Cutter, data: Material | None, rpm: float, max_feed: float, units: Units
) -> tuple[float, str]:
    """The feed up to the machine's highest, and its reason."""
    if cutter.feed is not None:
        feed, why = cutter.feed, "from the job"
    elif cutter.chip is not None:
        feed = feed_rate(rpm, cutter.flutes, cutter.chip)
        why = f"{cutter.flutes} x {units.say(cutter.chip)} a tooth, from the job"
    elif data is None:
        feed, why = max_feed, "from the job"
    elif cutter.kind in _DRILLS:
        share = _per_turn(cutter, data)
        feed = rpm * share * cutter.dia
        why = f"{units.say(share * cutter.dia)} a turn, {share:g} of the diameter ({PRACTICE})"
    else:
        chip = chip_load(data.chips, cutter.dia)
        feed = feed_rate(rpm, cutter.flutes, chip)
        why = f"{cutter.flutes} x {units.say(chip)} a tooth ({data.chip_origin})"
    if feed > max_feed:
        why = f"the machine's highest; {why} would be more"
    return min(feed, max_feed), why


def _per_turn(cutter: Cutter, data: Material) -> float:
    """What share of its diameter a drill is fed each turn."""
    share = _PER_TURN.get(data.group[:1], _PER_TURN_HARD)
    return share * _SPOT_SHARE if cutter.kind == "spot drill" else share
