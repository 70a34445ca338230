"""The ways along a wall that take what is thin on it, in as few pieces as will do."""

from __future__ import annotations

import math
from collections.abc import Sequence

from jawcam.geometry.cut import along
from jawcam.geometry.fit import recover
from jawcam.geometry.flatten import polyline
from jawcam.geometry.rim import Rim, Spot
from jawcam.geometry.shapes import Line, Point, Segment
from jawcam.geometry.uncut import SKIN
from jawcam.mill.layers import cornered, moved, stretch

__all__ = ["CRUMB", "eased", "next_stretch"]

CRUMB = 0.1
"""mm; no way begins or ends with a shorter piece, which takes nothing that the next does not."""

_OFF = 0.4 * SKIN
"""mm; so much off the wall and so closely a way of many pieces follows it: nowhere beyond it, and
nothing is left that counts."""

_MANY = 4  # pieces; a way of fewer is not made of less
_CHORD, _CLOSE = _OFF / 8, 0.5  # mm


def next_stretch(
    rim: Rim, waiting: list[tuple[Spot, Spot]], place: Point, near: float
) -> list[Segment]:
    """The stretch of the rim that begins nearest to a place, of those from spot to spot that are
    waiting, with those that follow it within `near` mm and round no corner. They wait no longer."""
    first, last = min(waiting, key=lambda two: math.dist(rim.point(two[0]), place))
    waiting.remove((first, last))

    def goes_on(spot: Spot) -> bool:
        joint = stretch(rim, last, spot)
        return rim.between(last, spot, near) is not None and not cornered(joint)

    while ahead := [two for two in waiting if goes_on(two[0])]:
        two = min(ahead, key=lambda two: math.dist(rim.point(last), rim.point(two[0])))
        waiting.remove(two)
        last = two[1]
    return stretch(rim, first, last)


def eased(pieces: Sequence[Segment]) -> list[Segment]:
    """A way along a wall without crumbs at its ends, if it is more than crumbs; what has many
    pieces, as a curve put down in arcs to a hair's breadth has, in fewer."""
    first, last = 0, len(pieces)
    while first < last and pieces[first].length < CRUMB:
        first += 1
    while last > first and pieces[last - 1].length < CRUMB:
        last -= 1
    whole = list(pieces[first:last] or pieces)
    beside = moved(whole, _OFF) if len(whole) > _MANY else None
    if beside is None:
        return whole
    points = [beside.start]
    for piece in beside.segments:  # close on lines too, or an arc might pass through their ends
        points += (along(piece, _CLOSE) if isinstance(piece, Line) else polyline(piece, _CHORD))[1:]
    fewer = recover(points, _OFF, closed=False)
    return list(fewer.segments) if len(fewer.segments) < len(whole) else whole
