"""A half profile drawn in a DXF file: the same lines and arcs that a table of diameters gives."""

from __future__ import annotations

import itertools
import math
import pathlib
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace
from typing import Literal

from jawcam.errors import FaultList, InputError, Place
from jawcam.geometry.shapes import Arc, Line, Path, Point, Segment
from jawcam.part.dxf import read_dxf
from jawcam.part.half_axis import Axis, edge_axis, framed, told_axis
from jawcam.part.half_faults import LEAN, Pairs, say_crossing, say_folds, say_nothing
from jawcam.part.join import Joined, join
from jawcam.part.outline import Drawing
from jawcam.tolerance import Tolerance
from jawcam.units import Units

__all__ = ["HalfDrawing", "read_half_profile"]

_TOLD = 10  # of one kind of fault


@dataclass(frozen=True)
class HalfDrawing:
    """profile: from the rim of end A to the rim of end B as points (along, radius) in mm, along =
    0 at end A, without the end faces; source: the file as the person typed it; units: the
    drawing's; notes: what was left out, approximated or assumed."""

    profile: tuple[Segment, ...]
    source: str
    units: Units
    notes: tuple[str, ...] = ()

    @property
    def length(self) -> float:
        """From end A to end B, in mm."""
        return self.profile[-1].end[0]


def read_half_profile(
    path: pathlib.Path,
    *,
    shown: str,
    layer: str | None,
    units: Units | None,
    tolerance: Tolerance,
    axis: str | None = None,
    end_a: Literal["left", "right"] = "left",
) -> HalfDrawing:
    """The half profile of a turned part in a DXF drawing, on either side of its axis.

    It is an open chain of lines and arcs, with or without the end faces, or a closed loop with an
    edge on the axis; a bore is not read. shown, layer, units, tolerance: as for `read_dxf`. axis:
    ``y = 0`` or the layer of its line; None: a centre line, or of a loop the edge that it may turn
    about (on y = 0 if there is one, otherwise the longest). end_a: which end is A, the one at the
    smaller x unless told (at the smaller y if the axis is upright).

    Raises InputError with what is wrong: gaps, forks, several chains, no axis, a profile that
    crosses or meets its axis, or that runs back along it.
    """
    drawing = read_dxf(path, shown=shown, layer=layer, units=units, tolerance=tolerance)
    line, pieces = told_axis(
        drawing, path, layer=layer, axis=axis, units=units, tolerance=tolerance
    )
    joined = join(pieces, tolerance.join)
    chain = _only_chain(joined, drawing, tolerance)
    notes = [*drawing.notes, *joined.notes]
    if line is None and chain.closed:
        line, note = edge_axis(chain, drawing, _fitting(chain, drawing, tolerance), tolerance)
        notes.append(note)
    if line is None:
        faults = FaultList()
        faults.add(
            "nothing says where the axis of the half profile is",
            Place(shown),
            'draw it as a centre line on a layer of its own, name its layer, or say "y = 0"',
        )
        raise InputError(faults.faults)
    profile = _profile(chain, line, drawing, tolerance, right=end_a == "right")
    return HalfDrawing(profile, drawing.source, drawing.units, tuple(notes))


# --- one chain -----------------------------------------------------------------------------------


def _only_chain(joined: Joined, drawing: Drawing, tolerance: Tolerance) -> Path:
    """The chain or loop that the pieces make. Raises InputError if there are others or gaps."""
    faults, units = FaultList(), drawing.units
    for fork in joined.forks[:_TOLD]:
        faults.add(
            "more than two lines or arcs end here, so that the profile could go either way",
            Place(drawing.source, at=units.point(*fork)),
            "delete what is no part of the half profile, or give the axis a layer of its own",
        )
    found = [*joined.closed, *joined.open]
    if not found:
        mend = "draw the half profile with lines and arcs"
        faults.add("there is no half profile in it", Place(drawing.source), mend)
    elif joined.closed and len(found) > 1:
        spots = "; ".join(units.point(*path.start) for path in found[:_TOLD])
        faults.add(
            f"it holds {len(found)} separate outlines, beginning at {spots}",
            Place(drawing.source),
            "leave one half profile in it; a bore is told in the job's table",
        )
    elif not joined.forks:
        for end, other in itertools.islice(_gaps(joined.open), _TOLD):
            faults.add(
                f"the profile is broken: it goes on at {units.point(*other)}, "
                f"{units.say(math.dist(end, other))} away",
                Place(drawing.source, at=units.point(*end)),
                f"close the gap (up to {units.say(tolerance.join)} is closed by itself) or delete "
                "what is no part of the profile",
            )
    faults.raise_if_any()
    return found[0]


def _gaps(chains: Sequence[Path]) -> Iterator[tuple[Point, Point]]:
    """The narrowest gaps that would make one of all the chains."""
    ends = [(k, end) for k, chain in enumerate(chains) for end in (chain.start, chain.end)]
    pairs = sorted(
        (math.dist(a, b), j, k, a, b) for (j, a), (k, b) in itertools.combinations(ends, 2)
    )
    whole = list(range(len(chains)))
    for _, j, k, a, b in pairs:
        if whole[j] != whole[k]:
            whole = [whole[j] if one == whole[k] else one for one in whole]
            yield a, b


# --- along the axis ------------------------------------------------------------------------------


def _profile(
    chain: Path, axis: Axis, drawing: Drawing, tolerance: Tolerance, *, right: bool
) -> tuple[Segment, ...]:
    """The chain from end A to end B, in ways along the axis and radii."""
    seen = framed(chain, axis)
    _, low, _, high = seen.box
    faults = FaultList()
    if min(-low, high) > tolerance.join:
        say_crossing(chain, axis, drawing, tolerance, faults)
        faults.raise_if_any()
    down = high <= tolerance.join  # drawn on the right of the axis
    seen = _flipped(seen, back=right, down=down)
    pairs = list(zip(seen.segments, chain.segments, strict=True))
    if chain.closed:
        pairs = _opened(pairs, drawing, tolerance, faults)
        faults.raise_if_any()
    if pairs[0][0].start[0] > pairs[-1][0].end[0]:
        pairs = [(one.reversed(), drawn.reversed()) for one, drawn in reversed(pairs)]
    pairs = _without_faces(pairs)
    say_folds(pairs, drawing, tolerance, faults)
    faults.raise_if_any()
    return _from_zero([one for one, _ in pairs], tolerance)


def _fitting(chain: Path, drawing: Drawing, tolerance: Tolerance) -> Callable[[Axis], bool]:
    """Whether a loop is a profile about an axis."""

    def fits(axis: Axis) -> bool:
        try:
            _profile(chain, axis, drawing, tolerance, right=False)
        except InputError:
            return False
        return True

    return fits


def _flipped(path: Path, *, back: bool, down: bool) -> Path:
    """The path with the axis run the other way and (or) its radii counted downwards."""

    def at(p: Point) -> Point:
        return (-p[0] if back else p[0], -p[1] if down else p[1])

    return Path(
        tuple(
            Arc(at(s.start), at(s.end), at(s.centre), s.ccw != (back != down))
            if isinstance(s, Arc)
            else Line(at(s.start), at(s.end))
            for s in path.segments
        )
    )


def _opened(pairs: Pairs, drawing: Drawing, tolerance: Tolerance, faults: FaultList) -> Pairs:
    """A loop without its edge on the axis, begun behind that."""
    on_axis = [
        isinstance(one, Line) and max(one.start[1], one.end[1]) <= tolerance.join
        for one, _ in pairs
    ]
    first = next(
        (k for k, on in enumerate(on_axis) if on and not on_axis[(k + 1) % len(pairs)]), None
    )
    if first is None:
        faults.add(
            "the loop has no edge on the axis",
            Place(drawing.source, at=drawing.units.point(*pairs[0][1].start)),
            "draw the half profile down to the axis, or say where that is; a bore is told in the "
            "job's table",
        )
        return pairs
    turned = pairs[first + 1 :] + pairs[: first + 1]
    count = next(k for k, on in enumerate(on_axis[first + 1 :] + on_axis[: first + 1]) if on)
    for one, drawn in turned[count:]:
        if max(one.start[1], one.end[1]) > tolerance.join:
            say_nothing(drawn.start, drawing, faults)
            break
    return turned[:count]


def _without_faces(pairs: Pairs) -> Pairs:
    """A chain without lines square to the axis at its ends."""

    def is_face(one: Segment) -> bool:
        return isinstance(one, Line) and abs(one.end[0] - one.start[0]) <= LEAN

    first, last = 0, len(pairs)
    while first < last - 1 and is_face(pairs[first][0]):
        first += 1
    while last - 1 > first and is_face(pairs[last - 1][0]):
        last -= 1
    return pairs[first:last]


def _from_zero(profile: Sequence[Segment], tolerance: Tolerance) -> tuple[Segment, ...]:
    """The profile moved so that it begins at 0, its lines' ends beside the axis moved onto it."""
    begin = profile[0].start[0]

    def at(p: Point) -> Point:
        return (p[0] - begin, 0.0 if abs(p[1]) <= 1e-6 else p[1])

    moved: list[Segment] = [
        Arc(at(s.start), at(s.end), at(s.centre), s.ccw)
        if isinstance(s, Arc)
        else Line(at(s.start), at(s.end))
        for s in profile
    ]
    first, last = moved[0], moved[-1]
    if isinstance(first, Line) and first.start[1] <= tolerance.join:
        moved[0] = replace(first, start=(first.start[0], 0.0))
    last = moved[-1]
    if isinstance(last, Line) and last.end[1] <= tolerance.join:
        moved[-1] = replace(last, end=(last.end[0], 0.0))
    return tuple(moved)
