"""What can be wrong with a half profile once its axis is known."""

from __future__ import annotations

import itertools
import math

from jawcam.errors import FaultList, Place
from jawcam.geometry.shapes import Arc, Line, Path, Point, Segment
from jawcam.part.half_axis import Axis, framed
from jawcam.part.outline import Drawing
from jawcam.tolerance import Tolerance

__all__ = ["LEAN", "Pairs", "say_crossing", "say_folds", "say_nothing"]

Pairs = list[tuple[Segment, Segment]]
"""Segments in ways along the axis and radii, each with what was drawn."""

LEAN = 1e-4
"""mm; a shoulder may lean by this much, as drawings do."""

_TOLD = 10  # of one kind of fault


def say_crossing(
    chain: Path, axis: Axis, drawing: Drawing, tolerance: Tolerance, faults: FaultList
) -> None:
    """Note each segment that has points on both sides of the axis."""
    told = 0
    for segment in chain.segments:
        _, low, _, high = framed(Path((segment,)), axis).box
        if min(-low, high) <= tolerance.join or told == _TOLD:
            continue
        told += 1
        dots = [_share(segment, k / 256) for k in range(257)]
        spot = min(dots, key=lambda p: abs(axis.seen(p)[1]))
        faults.add(
            "the profile crosses its axis",
            Place(drawing.source, at=drawing.units.point(*spot)),
            "draw one half only, or say where the axis is",
        )
    if not told:
        faults.add(
            "the profile lies on both sides of its axis",
            Place(drawing.source, at=drawing.units.point(*chain.start)),
            "draw one half only, or say where the axis is",
        )


def say_folds(pairs: Pairs, drawing: Drawing, tolerance: Tolerance, faults: FaultList) -> None:
    """Note where the profile runs back along the axis, and where it comes down to it on its way."""
    far, told = pairs[0][0].start[0], 0
    for k, (one, drawn) in enumerate(pairs):
        if k and one.start[1] <= tolerance.join:
            say_nothing(drawn.start, drawing, faults)
        ways = [one.start[0], *_turning(one), one.end[0]]
        steps = list(itertools.pairwise([far, *ways]))
        if any(b < a - LEAN for a, b in steps) and told < _TOLD:
            told += 1
            faults.add(
                "the profile runs back along its axis",
                Place(drawing.source, at=drawing.units.point(*drawn.start)),
                "draw it with one radius at each place along the axis: no undercuts",
            )
        far = one.end[0]


def say_nothing(at: Point, drawing: Drawing, faults: FaultList) -> None:
    """Note that the profile comes down to the axis between its ends."""
    faults.add(
        "the part has no thickness here: its profile meets the axis between its ends",
        Place(drawing.source, at=drawing.units.point(*at)),
        "draw one part, which meets the axis at its two ends alone",
    )


def _turning(segment: Segment) -> list[float]:
    """How far along the axis an arc is where it turns back, in the order that it gets there."""
    if isinstance(segment, Line):
        return []
    (x0, y0), (cx, cy) = segment.start, segment.centre
    first, sign = math.atan2(y0 - cy, x0 - cx), 1 if segment.ccw else -1
    turns = [((angle - first) * sign % (2 * math.pi), angle) for angle in (0.0, math.pi)]
    return [cx + segment.radius * math.cos(a) for t, a in sorted(turns) if t < segment.sweep]


def _share(segment: Segment, share: float) -> Point:
    if isinstance(segment, Arc):
        return segment.point(share)
    (x0, y0), (x1, y1) = segment.start, segment.end
    return (x0 + (x1 - x0) * share, y0 + (y1 - y0) * share)
