"""Whether pockets and drilled holes keep off a bolt, beside it and above it."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace

import numpy as np

from jawcam.errors import FaultList, Place
from jawcam.geometry.measure import inside_distances, nearest_on
from jawcam.geometry.shapes import Region, polygon
from jawcam.hold.holes import Drilled
from jawcam.hold.target import Bolt, Hole
from jawcam.units import Units

__all__ = ["check_bolt", "check_faced"]

_EVEN = 1e-9  # mm; what falls short by less is enough
_HIGH = 1e3  # mm; above any jaw

_Spot = tuple[float, float, float]


def check_bolt(
    bolt: Bolt,
    levels: Sequence[tuple[str, tuple[Region, ...], float]],
    holes: Sequence[Drilled],
    keep: float,
    units: Units,
    place: Place,
    faults: FaultList,
) -> None:
    """Note a fault for the pockets, and one for each hole, that come nearer to a bolt than `keep`.

    levels: the name, the pockets and the floor (Z) of each; holes: those in corners count only if
    they come nearer than the pockets, of which they are a part. In mm.
    """
    nearest = [(name, *_pocket_off(regions, floor, bolt)) for name, regions, floor in levels]
    rows = [min(nearest, key=lambda row: row[1])]
    gap = rows[0][1]
    for one in holes:
        hole, own = one.hole, _hole_off(one.hole, bolt)
        if hole.kind == "stop" or own < gap - _EVEN:
            rows.append((one.name, own, (hole.x, hole.y, max(hole.tip, bolt.top)), hole.tip))
    told = _told(bolt, units)
    for name, left, spot, low in rows:
        if left >= keep - _EVEN:
            continue
        what = (
            f"only {units.say(left)} is left between {name} and {told}, {units.say(keep)} must be"
        )
        if left < 0:
            what = f"{name} runs {units.say(-left)} into {told}"
        sunk = units.say(low - keep)
        mend = f"move them {units.say(keep - left)} apart, or sink the bolt's top to {sunk}"
        faults.add(what, replace(place, at=units.point(*spot)), mend)


def check_faced(bolt: Bolt, keep: float, units: Units, place: Place, faults: FaultList) -> None:
    """Note a fault for a bolt that stands higher than `keep` mm below the jaw top, down to which
    the tops are faced."""
    left, say = -bolt.top, units.say
    if left >= keep - _EVEN:
        return
    told = _told(bolt, units)
    what = f"facing the tops leaves only {say(left)} above {told}, {say(keep)} must be"
    if left < 0:
        what = f"facing the tops runs {say(-left)} into {told}"
    at = units.point(bolt.x, bolt.y, max(bolt.top, 0.0))
    mend = f"sink the bolt's top to {say(-keep)}, or leave the facing out"
    faults.add(what, replace(place, at=at), mend)


def _told(bolt: Bolt, units: Units) -> str:
    return (
        f"the bolt at {units.point(bolt.x, bolt.y)} ({units.say(bolt.dia)}, "
        f"top at {units.say(bolt.top)})"
    )


def _pocket_off(
    pockets: tuple[Region, ...], floor: float, bolt: Bolt
) -> tuple[float, _Spot, float]:
    """How far a level's pockets keep off a bolt (negative: how far they run into it), where they
    come nearest, and their floor."""
    centre = (bolt.x, bolt.y)
    inside = float(inside_distances(pockets, np.array([centre]))[0])
    aside, under = -inside - bolt.dia / 2, floor - bolt.top
    gap = aside if under < 0 else math.hypot(max(aside, 0.0), under)
    feet = [nearest_on(path, centre)[1] for region in pockets for path in region.paths]
    x, y = centre if inside > 0 else min(feet, key=lambda foot: math.dist(foot, centre))
    return gap, (x, y, max(floor, bolt.top)), floor


def _hole_off(hole: Hole, bolt: Bolt) -> float:
    """How far a drilled hole, its point a cone, keeps off a bolt; negative: it runs into it. Both
    are round and upright, so that they come nearest in the plane through both axes."""
    r, aside = hole.dia / 2, math.dist((hole.x, hole.y), (bolt.x, bolt.y)) - bolt.dia / 2
    rows = [(-r, _HIGH), (-r, hole.floor), (0.0, hole.tip), (r, hole.floor), (r, _HIGH)]
    edge = np.array([(max(aside, 0.0), bolt.top)])
    return -float(inside_distances([Region(polygon(rows))], edge)[0])
