"""The part's sizes, written to its mirrored half: diameters, and the Z of its faces."""

from __future__ import annotations

import math
from typing import Any

import shapely

from jawcam.show.labels import overlap, place, spread
from jawcam.show.lettering import halo, haloed, line_height, put, width
from jawcam.show.page import Box, View
from jawcam.show.style import NARROW, SMALL, SOFT
from jawcam.show.turned_picture import TurnPicture
from jawcam.show.turned_profile import Face, Stretch, faces, stretches

__all__ = ["draw_sizes"]

Spots = list[tuple[float, float]]
"""Middles of a label, the best first."""

SHORTEST = 0.8
"""mm of paper; a shorter cylinder isn't told."""

UNDER, FOOT = 11.0, 24.5
"""mm of paper under the part within which the diameters stand that have no room in it, and under
those the Z."""

APART = 3.3
"""mm of paper between two Z, which are written upwards."""

FAR = 18.0
"""mm of paper; a longer leader down is worse than one to the side."""

MOST = 16
"""So many diameters are told, of the longest cylinders first."""


def draw_sizes(shown: View, picture: TurnPicture, taken: list[Box], *, size: float = SMALL) -> None:
    """Write them in letters of `size` points; what is taken already is kept clear of, and what
    they take added to it."""
    units = picture.units
    shortest = units.to_mm(shown.units(SHORTEST))
    _faces(shown, picture, shortest, taken, size)
    found = stretches(picture.target, units, shortest)
    found.sort(key=lambda one: one.start - one.end)
    for one in found[:MOST]:
        _stretch(shown, picture, one, taken, size)


def _faces(
    shown: View, picture: TurnPicture, shortest: float, taken: list[Box], points: float
) -> None:
    axes, unit, units = shown.axes, shown.units(1), picture.units
    z0, z1 = axes.get_xlim()
    low = picture.content.y
    room = (z1 - z0) / unit - 6
    found = faces(picture.target, units, shortest)
    found = [face for face in found if z0 < units.from_mm(face.z) < z1]
    most = max(int(room / (1.5 * APART)), 2)
    if len(found) > most:
        found = [found[k * (len(found) - 1) // (most - 1)] for k in range(most)]
    spots = [units.from_mm(face.z) for face in found]
    slots = spread(spots, APART * unit, z0 + 3 * unit, z1 - 3 * unit)
    top = low - UNDER * unit
    for face, z, slot in zip(found, spots, slots, strict=True):
        foot = min(-units.from_mm(face.x), 0.0) - 0.6 * unit
        _leader(shown, ((z, foot), (z, top + 2.2 * unit), (slot, top), (slot, top - 1 * unit)))
        taken.append(Box(z - 0.4 * unit, top, 0.8 * unit, max(foot - top, 0.0)))
        words = _z_words(face, picture)
        look: dict[str, Any] = {"rotation": 90, "ha": "center", "va": "top", "fontsize": points}
        halo(put(axes, slot, top - 1.6 * unit, words, gid="face", zorder=8.2, **look))


def _z_words(face: Face, picture: TurnPicture) -> str:
    parted = picture.target.parted
    return f"{face.words} off" if parted is not None and abs(face.z - parted) < 1e-6 else face.words


def _stretch(
    shown: View, picture: TurnPicture, one: Stretch, taken: list[Box], points: float
) -> None:
    """A diameter in the mirrored half if it has room there, else under or beside the part."""
    unit, units = shown.units(1), picture.units
    ends = units.from_mm(one.start), units.from_mm(one.end)
    lowest = -units.from_mm(one.lowest)
    foot = (sum(ends) / 2, -units.from_mm((one.first + one.last) / 2))
    size = (width(one.words, points) * unit + 0.8 * unit, line_height(points) * unit)
    inside = _free(picture, size, _inside(ends, lowest, size, unit))
    within = [] if one.inside else _free(picture, size, _within(foot[0], lowest, size, unit))
    begin = (foot[0], foot[1] + 0.1 * unit)
    edges = picture.scene.mirrored.boundary
    within = [spot for spot in within if not edges.intersects(shapely.LineString([begin, spot]))]
    beneath = _beneath(foot[0], picture.content.y, size, unit)
    front = picture.scene.part.bounds[2]
    to_front = shapely.LineString([(ends[1] + 0.1 * unit, foot[1]), (front, foot[1])])
    clear = (to_front & picture.scene.mirrored).length < 0.2 * unit
    beside = _beside(front, foot[1], size, unit) if clear else []
    far = one.inside or foot[1] - picture.content.y > FAR * unit
    outside = (*beside, *within, *beneath) if far else (*within, *beneath, *beside)
    low, high = shown.axes.get_xlim()
    edge = size[0] / 2 + unit
    spots = [(min(max(z, low + edge), high - edge), x) for z, x in (*inside, *outside)]
    box = place(size, spots, taken)
    if any(overlap(box, other) for other in taken[:-1]):
        taken.pop()  # no room at all: rather left out than written over another
        return
    at = (box.x + box.w / 2, box.y + box.h / 2)
    if all(math.dist(at, spot) > 0.01 * unit for spot in inside):
        aside = box.x > front and box.top > picture.content.y
        start = (ends[1], foot[1]) if aside else foot
        tip = (box.x, at[1]) if aside else (at[0], box.y if at[1] > foot[1] else box.top)
        _leader(shown, (start, tip))
        shown.axes.plot(*([v] for v in start), marker="o", ms=1.6, color=SOFT, ls="none", zorder=8)
    haloed(shown.axes, *at, one.words, fontsize=points, zorder=8.2, gid="diameter")


def _free(picture: TurnPicture, size: tuple[float, float], spots: Spots) -> Spots:
    """The spots for a label that no edge of the mirrored part crosses."""
    edges, (wide, high) = picture.scene.mirrored.boundary, (size[0] / 2, size[1] / 2)
    boxes = [shapely.box(z - wide, x - high, z + wide, x + high) for z, x in spots]
    return [spot for spot, box in zip(spots, boxes, strict=True) if not edges.intersects(box)]


def _inside(
    ends: tuple[float, float], lowest: float, size: tuple[float, float], unit: float
) -> Spots:
    """Middles of a label between a cylinder's edge and the axis, right above the edge."""
    if ends[1] - ends[0] < size[0] or lowest > -1.3 * size[1]:
        return []
    middle, spare = sum(ends) / 2, (ends[1] - ends[0] - size[0]) / 2
    steps = [k * unit for k in (0, 5, -5, 10, -10, 15, -15) if abs(k) * unit <= spare]
    return [(middle + k, lowest + 0.75 * size[1]) for k in steps]


def _within(middle: float, lowest: float, size: tuple[float, float], unit: float) -> Spots:
    """Farther in, where a label wider than its cylinder may have room."""
    rows = [lowest + (1.3 + 0.6 * k) * size[1] for k in range(7)]
    steps = sorted((k * unit for k in range(-9, 10, 3)), key=abs)
    return [(middle + k, row) for row in rows if row < -0.8 * size[1] for k in steps]


def _beneath(middle: float, low: float, size: tuple[float, float], unit: float) -> Spots:
    """Under the part, the nearest first."""
    rows = [low - (0.8 + k) * size[1] for k in range(3)]
    steps = sorted((k * unit for k in range(-15, 16, 3)), key=abs)
    return [(middle + k, row) for row in rows for k in steps]


def _beside(front: float, level: float, size: tuple[float, float], unit: float) -> Spots:
    """In front of the part's free end, at the height of the edge or near it."""
    z = front + 4 * unit + size[0] / 2
    return [(z, level + k * size[1]) for k in (0, -1, 1, -2)] + [(z + size[0], level)]


def _leader(shown: View, points: tuple[tuple[float, float], ...]) -> None:
    zs, xs = zip(*points, strict=True)
    shown.axes.plot(zs, xs, color=SOFT, lw=NARROW, zorder=3.5)
