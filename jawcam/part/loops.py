"""From the loose pieces of a drawing to the part's outline, or to all that is wrong with it."""

from __future__ import annotations

import math
from collections.abc import Sequence

from jawcam.errors import FaultList, Place
from jawcam.geometry.crossing import crossings, encloses
from jawcam.geometry.shapes import Path, Point
from jawcam.part.join import Joined, join
from jawcam.part.outline import Drawing, Outline
from jawcam.tolerance import Tolerance

__all__ = ["outline_of", "outlines_of"]

_TOLD = 10  # of one kind of fault; what is wrong a hundred times is not told a hundred times


def outline_of(drawing: Drawing, tolerance: Tolerance) -> Outline:
    """The outline that a drawing's pieces make.

    Raises InputError with every fault found: gaps, forks, crossings, several outlines.
    """
    found = outlines_of(drawing, tolerance)
    if len(found) > 1:
        faults = FaultList()
        _say_several(drawing, [one.outer for one in found], faults)
        faults.raise_if_any()
    return found[0]


def outlines_of(drawing: Drawing, tolerance: Tolerance) -> tuple[Outline, ...]:
    """All the outlines that a drawing's pieces make side by side, the largest first, each with
    its own inner loops; what was done to the drawing is noted with the first.

    Raises InputError with every fault found: gaps, forks, crossings.
    """
    faults = FaultList()
    joined = join(drawing.pieces, tolerance.join)
    _say_gaps(drawing, joined, tolerance, faults)
    _say_forks(drawing, joined, faults)
    _say_crossings(drawing, joined, tolerance, faults)
    loops = sorted(joined.closed, key=lambda path: -abs(path.area))
    depths = [] if faults.faults else _depths(loops)
    outers = [loop for loop, depth in zip(loops, depths, strict=False) if depth == 0]
    if not loops and not faults.faults:
        faults.add(
            "there is no outline in it: nothing has any length",
            Place(drawing.source),
            "draw the part's outline as closed loops of lines, arcs or splines",
        )
    faults.raise_if_any()
    holes = [loop for loop, depth in zip(loops, depths, strict=True) if depth == 1]
    notes = [*drawing.notes, *joined.notes]
    if holes:
        notes.append(f"{len(holes)} inner {_plural('loop', holes)}: shown, not cut")
    if deeper := [depth for depth in depths if depth > 1]:
        notes.append(f"left out {len(deeper)} {_plural('loop', deeper)} inside inner loops")
    return tuple(
        Outline(
            outer=_running(outer, ccw=True),
            holes=tuple(_running(hole, ccw=False) for hole in holes if encloses(outer, hole.start)),
            notes=() if number else tuple(notes),
            source=drawing.source,
            units=drawing.units,
        )
        for number, outer in enumerate(outers)
    )


def _depths(loops: Sequence[Path]) -> list[int]:
    """How many of the larger loops each loop lies inside; the largest come first, none cross."""
    boxes = [loop.box for loop in loops]
    return [
        sum(_within(boxes[k], boxes[m]) and encloses(loops[m], loop.start) for m in range(k))
        for k, loop in enumerate(loops)
    ]


def _within(small: tuple[float, ...], big: tuple[float, ...]) -> bool:
    (ax, ay, bx, by), (cx, cy, dx, dy) = small, big
    return cx <= ax and cy <= ay and bx <= dx and by <= dy


def _running(path: Path, *, ccw: bool) -> Path:
    return path if (path.area > 0) == ccw else path.reversed()


def _plural(word: str, things: Sequence[object]) -> str:
    return word if len(things) == 1 else f"{word}s"


# --- what can be wrong -----------------------------------------------------------------------


def _say_gaps(drawing: Drawing, joined: Joined, tolerance: Tolerance, faults: FaultList) -> None:
    """Each gap once, with both ends and its width."""
    units = drawing.units
    ends = [
        end
        for path in joined.open
        for end in (path.start, path.end)
        if all(math.dist(end, fork) > 4 * tolerance.join for fork in joined.forks)
    ]
    gaps = _gaps(ends)
    for end, other in gaps[:_TOLD]:
        place = Place(drawing.source, at=units.point(*end))
        what = "the outline is open: nothing else ends here"
        if other is not None:
            what = (
                f"the outline is open: the nearest other loose end is at {units.point(*other)}, "
                f"{units.say(math.dist(end, other))} away"
            )
        faults.add(
            what,
            place,
            f"close the gap (up to {units.say(tolerance.join)} is closed by itself) or delete what "
            "is no part of the outline" + _or_layer(drawing, "that has the outline alone"),
        )
    _say_more("gap", len(gaps), drawing, faults)


def _gaps(ends: Sequence[Point]) -> list[tuple[Point, Point | None]]:
    """The loose ends two by two, those nearest to each other first."""
    few = range(min(len(ends), 200))
    pairs = sorted((math.dist(ends[i], ends[j]), i, j) for i in few for j in few if i < j)
    taken: set[int] = set()
    gaps: list[tuple[Point, Point | None]] = []
    for _, i, j in pairs:
        if i not in taken and j not in taken:
            taken |= {i, j}
            gaps.append((ends[i], ends[j]))
    gaps += [(ends[i], None) for i in few if i not in taken]
    return gaps


def _say_forks(drawing: Drawing, joined: Joined, faults: FaultList) -> None:
    for fork in joined.forks[:_TOLD]:
        faults.add(
            "more than two lines or arcs end here, so that the outline could go either way",
            Place(drawing.source, at=drawing.units.point(*fork)),
            "delete what is no part of the outline"
            + _or_layer(drawing, "that has the outline alone"),
        )
    _say_more("fork", len(joined.forks), drawing, faults)


def _say_crossings(
    drawing: Drawing, joined: Joined, tolerance: Tolerance, faults: FaultList
) -> None:
    found = crossings(joined.closed, tolerance.join)
    for crossing in found[:_TOLD]:
        itself = crossing.first == crossing.second
        faults.add(
            "the outline crosses or touches itself"
            if itself
            else "two loops of the drawing cross or touch",
            Place(drawing.source, at=drawing.units.point(*crossing.at)),
            "trim what overlaps" + _or_layer(drawing, "that has the outline alone"),
        )
    _say_more("crossing", len(found), drawing, faults)


def _say_several(drawing: Drawing, outers: Sequence[Path], faults: FaultList) -> None:
    units = drawing.units
    boxes = [path.box for path in outers[:_TOLD]]
    listed = "; ".join(f"{units.point(*box[:2])} to {units.point(*box[2:])}" for box in boxes)
    more = f" and {len(outers) - _TOLD} more" if len(outers) > _TOLD else ""
    faults.add(
        f"it holds {len(outers)} outlines side by side: {listed}{more}",
        Place(drawing.source),
        "leave one part in the drawing" + _or_layer(drawing, "that has one part alone"),
    )


def _say_more(kind: str, count: int, drawing: Drawing, faults: FaultList) -> None:
    if count > _TOLD:
        faults.add(f"{count - _TOLD} more faults of the same kind ({kind})", Place(drawing.source))


def _or_layer(drawing: Drawing, which: str) -> str:
    if len(drawing.layers) < 2:
        return ""
    return f", or choose a layer {which} ({', '.join(drawing.layers)})"
