"""From the last turn of a helix outward, round and round, in half circles."""

from __future__ import annotations

import math

from jawcam.geometry.shapes import Arc, Path, Point

__all__ = ["spiral"]


def spiral(centre: Point, first: float, last: float, radius: float, width: float) -> list[Path]:
    """The turns, two half circles each, from a circle of radius `first`, begun at its right, to
    one of radius `last`, mm, that is gone round whole. radius: the cutter's; width: the fresh width
    that they bite off.

    Each half ends farther out than the last did on that side by as much as bites off the width
    there: at r from the centre a cutter meets a round edge of radius F so far from straight ahead
    that cos = (F^2 - r^2 - R^2) / (2 r R), and bites off R (1 - cos), by the law of cosines.
    """
    x, y = centre
    sides = [first, first]  # how far the way lies off the centre on the right and on the left
    halves: list[Arc] = []
    side, whole = 0, 0  # whole: how many halves in a row lie on the last circle
    while whole < 2:
        before, at = sides[1 - side], sides[side]
        sides[1 - side] = min(_farther(before, radius, width), last)
        sense = 1 if side == 0 else -1
        start, end = (x + sense * at, y), (x - sense * sides[1 - side], y)
        halves.append(Arc(start, end, ((start[0] + end[0]) / 2, y), True))
        whole = whole + 1 if at == sides[1 - side] == last else 0
        side = 1 - side
    return [Path(tuple(halves[k : k + 2])) for k in range(0, len(halves), 2)]


def _farther(been: float, radius: float, width: float) -> float:
    """How far from the centre a cutter bites off a width outside an edge that it left before, when
    it was `been` mm from there."""
    cosine = 1 - width / radius
    edge = been + radius
    return math.sqrt(edge * edge - (radius * (1 - cosine**2) * radius)) - radius * cosine
