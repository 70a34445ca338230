"""How long an exact offset takes, against pyclipper's alone on the same flattened outline."""

from __future__ import annotations

import math
import random
from collections.abc import Iterator
from functools import partial

import pyclipper
from measuring import Row, best_of

from jawcam.geometry.flatten import SCALE
from jawcam.geometry.offset import grow
from jawcam.geometry.shapes import Path, Region, from_bulges, polygon
from jawcam.geometry.source import prepare
from jawcam.tolerance import Tolerance

__all__ = ["rows"]

COUNT = 1000  # vertices or segments
DISTANCE = 3.0  # mm
AIM = 5.0


def rows(*, quick: bool) -> Iterator[Row]:
    """The rows of this file."""
    tolerance = Tolerance()
    for kind, outline in (
        ("smooth polygon", _lobes(0.0)),
        ("noisy polygon", _lobes(0.05)),
        ("lines and arcs", _knurl()),
    ):
        for way, distance in (("in", -DISTANCE), ("out", DISTANCE)):
            pair = best_of(
                partial(grow, [Region(outline)], distance, tolerance),
                partial(
                    _bare, prepare([outline], distance, tolerance).flat.rings, distance, tolerance
                ),
                5 if quick else 40,
            )
            yield Row.of(f"offset {COUNT:,} {kind} {way} / pyclipper", pair, AIM)


def _bare(rings: tuple[list[list[int]], ...], distance: float, tolerance: Tolerance) -> object:
    engine = pyclipper.PyclipperOffset(2.0, tolerance.chord * SCALE)
    engine.AddPaths(rings, pyclipper.JT_ROUND, pyclipper.ET_CLOSEDPOLYGON)
    return engine.Execute2(distance * SCALE)


def _lobes(noise: float) -> Path:
    """A polygon with five lobes of about 100 mm across, its vertices off by up to `noise` mm."""
    chance = random.Random(1)  # noqa: S311 (no secret)
    points = []
    for k in range(COUNT):
        angle = 2 * math.pi * k / COUNT
        radius = 50 + 8 * math.cos(5 * angle) + chance.uniform(-noise, noise)
        points.append((radius * math.cos(angle), radius * math.sin(angle)))
    return polygon(points)


def _knurl() -> Path:
    """The same lobes, of lines and arcs in turn."""
    points = [(line.start, k % 2) for k, line in enumerate(_lobes(0.0).segments)]
    return from_bulges([(x, y, 0.2 * bent) for (x, y), bent in points])
