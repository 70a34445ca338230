"""The part's body: its sections closely enough spaced to be joined by straight walls."""

from __future__ import annotations

import itertools
import math
from collections.abc import Sequence

from shapely.geometry.base import BaseGeometry

from jawcam.hold.target import Loop, Section
from jawcam.show.outlines import solid

__all__ = ["slices", "upright"]

SAME_HEIGHT = 1e-9
"""mm"""

COARSE, MOST = 40, 12
"""Between two sections that differ: one slice for each so many chords that an outline moves by,
but no more than so many."""


def slices(body: Sequence[Section], chord: float) -> list[tuple[float, BaseGeometry]]:
    """The body's sections, and some between those whose outlines correspond row by row, as heights
    and shapes in mm. Between other neighbours nothing is known of the outlines on the way.
    """
    done = [(section.z, solid(section.outlines, chord)) for section in body[:1]]
    for low, high in itertools.pairwise(body):
        count = _between(low, high, chord)
        for k in range(1, count):
            share = k / count
            z = low.z + (high.z - low.z) * share
            loops = [_blend(a, b, share) for a, b in _pairs(low, high)]
            done.append((z, solid(loops, chord)))
        done.append((high.z, solid(high.outlines, chord)))
    return done


def upright(body: Sequence[Section]) -> bool:
    """Whether the part is the same at all heights."""
    return all(section.outlines == body[0].outlines for section in body)


def _between(low: Section, high: Section, chord: float) -> int:
    """Into how many pieces of equal height the stretch between two sections is cut."""
    counts = [[len(loop) for loop in section.outlines] for section in (low, high)]
    if high.z - low.z < SAME_HEIGHT or counts[0] != counts[1]:
        return 1
    moved = max(
        (math.dist(p[:2], q[:2]) for a, b in _pairs(low, high) for p, q in zip(a, b, strict=True)),
        default=0.0,
    )
    return min(max(math.ceil(moved / (COARSE * chord)), 1), MOST)


def _pairs(low: Section, high: Section) -> list[tuple[Loop, Loop]]:
    return list(zip(low.outlines, high.outlines, strict=True))


def _blend(a: Loop, b: Loop, share: float) -> Loop:
    """The outline at `share` of the way from one to the other."""
    return tuple(
        (
            x0 + (x1 - x0) * share,
            y0 + (y1 - y0) * share,
            bulge0 + (bulge1 - bulge0) * share,
        )
        for (x0, y0, bulge0), (x1, y1, bulge1) in zip(a, b, strict=True)
    )
