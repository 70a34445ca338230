"""The main steps of a turned part, read from its half section: what its sizes are written to."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from typing import NamedTuple

from jawcam.hold.turn_target import HalfLoop, Thread, TurnTarget
from jawcam.units import Units

__all__ = ["Face", "Stretch", "faces", "stretches"]

SAME = 1e-6
"""mm; nearer than this is the same."""


class Edge(NamedTuple):
    """A straight edge of the half section, counter-clockwise, so that the outside runs towards
    the chuck."""

    z0: float
    x0: float
    z1: float
    x1: float


@dataclass(frozen=True)
class Stretch:
    """A cylinder or a taper: along Z from `start`, the chuck's side, to `end`, its radii there;
    words: what is written to it; lowest: the least radius there, a thread cut. All in mm."""

    start: float
    end: float
    first: float
    last: float
    inside: bool
    words: str
    lowest: float


class Face(NamedTuple):
    """A Z that is told, and the largest radius and the height of what lies there, in mm."""

    z: float
    x: float
    height: float
    words: str


def stretches(target: TurnTarget, units: Units, shortest: float) -> list[Stretch]:
    """Cylinders no shorter than `shortest` mm and tapers four times as long, in front of what is
    not cut, from the chuck on. Of a thread its designation is told."""
    found = []
    for edge in _edges(target.finished):
        inside = edge.z1 > edge.z0
        (z0, x0), (z1, x1) = sorted(((edge.z0, edge.x0), (edge.z1, edge.x1)))
        z0 = max(z0, _back(target))
        level = abs(x1 - x0) < SAME
        if z1 - z0 < (shortest if level else 4 * shortest) or max(x0, x1) < SAME:
            continue
        if not level and abs(x1 - x0) > z1 - z0:
            continue  # steeper than 45 degrees: rather a face
        thread = next((t for t in target.threads if _covers(t, z0, z1, inside=inside)), None)
        words = _size(x0, x1, units) if thread is None else _called(thread)
        depth = thread.depth if thread is not None and not thread.inside else 0.0
        found.append(Stretch(z0, z1, x0, x1, inside, words, min(x0, x1) - depth))
    return sorted(found, key=lambda s: (s.start, s.inside))


def faces(target: TurnTarget, units: Units, shortest: float) -> list[Face]:
    """The Z of shoulders, ends and bottoms of bores and of the ends of tapers, each once; tapers
    as in `stretches`."""
    back = _back(target)
    rows: list[tuple[float, float, float]] = []
    for edge in _edges(target.finished):
        wide = max(edge.x0, edge.x1)
        if abs(edge.z1 - edge.z0) < SAME and edge.z0 >= back - SAME:
            rows.append((edge.z0, wide, abs(edge.x1 - edge.x0)))
    if target.finished_to is not None and target.parted is None:
        rows.append((target.finished_to, _radius_at(target, target.finished_to), math.inf))
    for one in stretches(target, units, shortest):
        if abs(one.first - one.last) > SAME:
            rows += [(one.start, one.first, 0.0), (one.end, one.last, 0.0)]
    kept: dict[int, Face] = {}
    for z, x, height in sorted(rows):
        key = round(z * 1e3)
        before = kept.get(key, Face(z, 0.0, 0.0, ""))
        words = f"Z {units.number(z, 4 if units is Units.INCH else 3)}"
        kept[key] = Face(z, max(x, before.x), max(height, before.height), words)
    return list(kept.values())


def _edges(loop: HalfLoop) -> Iterator[Edge]:
    """The straight edges, whichever way round the loop is told."""
    twice = sum(a[0] * b[1] - b[0] * a[1] for a, b in zip(loop, loop[1:] + loop[:1], strict=True))
    for (z0, x0, bulge), (z1, x1, _) in zip(loop, loop[1:] + loop[:1], strict=True):
        if bulge == 0 and math.hypot(z1 - z0, x1 - x0) > SAME:
            yield Edge(z0, x0, z1, x1) if twice > 0 else Edge(z1, x1, z0, x0)


def _back(target: TurnTarget) -> float:
    """The Z in front of which the part is finished here."""
    if target.parted is not None:
        return target.parted
    return target.limit if target.finished_to is None else target.finished_to


def _covers(thread: Thread, z0: float, z1: float, *, inside: bool) -> bool:
    low, high = sorted((thread.start, thread.end))
    shared = min(high, z1) - max(low, z0)
    return thread.inside == inside and shared > (z1 - z0) / 2


def _called(thread: Thread) -> str:
    return thread.designation or f"thread, pitch {thread.pitch:g} mm"


def _size(x0: float, x1: float, units: Units) -> str:
    digits = 4 if units is Units.INCH else 3
    first, last = units.number(2 * x0, digits), units.number(2 * x1, digits)
    return f"dia {first}" if abs(x1 - x0) < SAME else f"dia {first} to {last}"


def _radius_at(target: TurnTarget, z: float) -> float:
    """The outside radius at a Z, as far as straight edges tell it."""
    found = [0.0]
    for edge in _edges(target.finished):
        low, high = sorted((edge.z0, edge.z1))
        if low - SAME <= z <= high + SAME:
            share = 0.0 if high - low < SAME else (z - edge.z0) / (edge.z1 - edge.z0)
            found.append(edge.x0 + (edge.x1 - edge.x0) * share)
    return max(found)
