"""The rest of the roughing: what a large cutter left, for the smaller one that can reach it.

Where it touches what is cleared, the smaller cutter comes in from there along the wall, the runs
farthest from the wall first. What opens out behind a neck is cleared on the way, from the inside
out.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from jawcam.geometry.combine import difference, intersection, union
from jawcam.geometry.hull import hull
from jawcam.geometry.measure import contains, roomiest
from jawcam.geometry.narrow import Narrow, substantial
from jawcam.geometry.offset import grow, shrink
from jawcam.geometry.rings import Ring, rings
from jawcam.geometry.shapes import Path, Region
from jawcam.geometry.stretch import far_stretches
from jawcam.mill.allowed import LIGHT
from jawcam.mill.bite import Cleared
from jawcam.mill.detours import Loop, joined
from jawcam.mill.rough import COVERED
from jawcam.mill.runs import BLEND, LEAST, Run, beside, by_place, in_the_clear, meets
from jawcam.tolerance import Tolerance

__all__ = ["Left", "Rest", "rest_of"]

REACH = 2.2
"""Finishing cutter radii round a place left by roughing: a cutter that touches the place lies
within its diameter of it, and a little more."""

SLIVER = 0.25
"""Finishing cutter radii by which the wall's own pass is taken to reach less far off the wall than
it does."""


@dataclass(frozen=True)
class Left:
    """What is asked of the rest. pockets: to clear, but for `leave` mm on the wall; been: where
    the larger cutter has been; skipped: where its centre had room but no way down; blanks: seen
    from above, outside of which there is nothing to cut; radius, stepover: of the smaller
    cutter, mm."""

    pockets: tuple[Region, ...]
    leave: float
    been: Cleared
    skipped: tuple[Region, ...]
    blanks: tuple[Region, ...]
    radius: float
    stepover: float
    tolerance: Tolerance


@dataclass(frozen=True)
class Rest:
    """How the rest is cut. groups: the runs of each place that is entered from what is cleared;
    rings: round the others; centre: where the smaller cutter's centre finds nothing to cut in the
    end, round all of them."""

    groups: tuple[tuple[Run, ...], ...] = ()
    rings: tuple[Ring, ...] = ()
    centre: tuple[Region, ...] = ()


def rest_of(left: Left) -> Rest:
    """What the larger cutter left and the smaller one can reach, but for small places right at the
    wall: the floor and wall passes take these, fed as their bite allows."""
    if left.radius >= left.been.radius:
        return Rest()
    every = _places(left)
    worth = _worth(left, every)
    if not worth:
        return Rest()
    around = _around(left, worth)
    places = [one.region for one in every if intersection([one.region], around, left.tolerance)]
    runs, stuck = _runs(left, places)
    shut = [place for place in places if any(meets(path, [place], left.radius) for path in stuck)]
    return Rest(
        tuple(tuple(group) for group in by_place(runs, 2 * left.radius)),
        rings(_around(left, shut), left.radius, left.stepover, left.tolerance),
        shrink(around, left.radius, left.tolerance),
    )


def _places(left: Left) -> tuple[Narrow, ...]:
    """All that the larger cutter left of the blanks and the smaller one can reach."""
    tolerance = left.tolerance
    centre = shrink(left.pockets, left.leave + left.radius, tolerance)
    reached = grow(left.been.centre, left.been.radius, tolerance)
    rest = difference(grow(centre, left.radius, tolerance), reached, tolerance)
    return substantial(intersection(rest, left.blanks, tolerance), tolerance)


def _worth(left: Left, places: Sequence[Narrow]) -> list[Region]:
    """Those that are wider than what is left on the wall anyhow, or lie farther off it than its own
    pass reaches."""
    beyond = shrink(left.pockets, (2 - SLIVER) * left.radius, left.tolerance)
    return [
        place.region
        for place in places
        if place.size > max(left.leave, LIGHT)
        or intersection([place.region], beyond, left.tolerance)
    ]


def _around(left: Left, places: Iterable[Region]) -> tuple[Region, ...]:
    """The places and so much beside them that the smaller cutter can take each of them whole."""
    inner = shrink(left.pockets, left.leave, left.tolerance)
    hulls = [hull(place.outer, SLIVER * left.radius / 4) for place in places]
    near = [grow([place], REACH * left.radius, left.tolerance) for place in hulls]
    around = union([region for regions in near for region in regions], left.tolerance)
    return intersection(around, inner, left.tolerance)


def _runs(left: Left, places: Sequence[Region]) -> tuple[list[Run], list[Path]]:
    """The runs, the farthest from the wall first; and the ways that are not to be got at by any."""
    clear = in_the_clear(left.been.centre, left.been.radius, left.radius, left.tolerance)
    found: list[Run] = []
    waiting: list[Loop] = []
    stuck: list[Path] = []
    margins = _margins(left)
    free = shrink(left.pockets, margins[-1], left.tolerance)
    for margin in margins:
        for region in shrink(left.pockets, margin, left.tolerance):
            some, loops, shut = _along(left, region, places, clear, free)
            inside = [loop for loop in waiting if contains([region], loop.path.start)]
            if some or loops:
                waiting = [loop for loop in waiting if loop not in inside]
            if some:
                stuck += [loop.path for loop in joined(some, inside, region)]
                stuck += loops
            elif loops and (inside or margin == margins[-1] or not _is_covered(left, region)):
                waiting.append(Loop(loops[0], tuple(inside)))
                stuck += loops[1:]
            found += some
            stuck += shut
    return found, [*stuck, *(loop.path for loop in waiting)]


def _along(
    left: Left,
    region: Region,
    places: Sequence[Region],
    clear: Sequence[Region],
    free: Sequence[Region],
) -> tuple[list[Run], list[Path], list[Path]]:
    """What is to be cut along the border of a region: runs, closed ways that come near to nothing
    cleared, and others that there is no short way to. free: where the smaller cutter's centre may
    be at all."""
    far = left.been.radius - left.radius + LEAST
    runs, loops, shut = [], [], []
    for outline in region.paths:
        for path in far_stretches(outline, left.been.centre, far, BLEND):
            if not meets(path, places, left.radius):
                continue
            ends = (path.start, path.end)
            down, up = (beside(at, clear, free, 2 * left.radius) for at in ends)
            if down is not None and up is not None:
                runs.append(Run(down, path, up))
            elif path.closed:
                loops.append(path)
            else:
                shut.append(path)
    return runs, loops, shut


def _is_covered(left: Left, region: Region) -> bool:
    """Whether the way round outside of a region, a stepover off, clears all of it."""
    return roomiest(region)[1] + left.stepover <= COVERED * left.radius


def _margins(left: Left) -> list[float]:
    """How far off the wall the smaller cutter's centre goes, the farthest first."""
    first, last = left.leave + left.radius, left.leave + left.been.radius
    if left.skipped:
        boxes = [region.outer.box for region in left.skipped]
        last += max(min(x1 - x0, y1 - y0) for x0, y0, x1, y1 in boxes) / 2
    count = max(1, math.ceil((last - first) / left.stepover - 1e-9))
    return [first + k * left.stepover for k in reversed(range(count))]
