"""A turned part standing on end: a stack of discs that nothing of it lies outside of."""

from __future__ import annotations

import itertools
from collections.abc import Callable, Iterator, Sequence

from jawcam.errors import Place
from jawcam.geometry.shapes import Arc, Line, Path, Point, Segment, circle
from jawcam.part.piece import Piece
from jawcam.part.profile import check_turned, end_breaks, half_profile, idle_breaks
from jawcam.part.solid import Remark, Slab, Slice, Solid
from jawcam.part.steps import stands_off, stops
from jawcam.part.table import stretches, thread_remarks
from jawcam.units import Units

__all__ = ["BREAK", "standing"]

BREAK = 1.0
"""mm; chamfers and rounds up to this size are edge breaks that a wall goes straight past (common
practice, no source)."""

_HAIR = 1e-9  # mm; thinner discs, and steps of less, are none
_POINT = 0.001  # mm; the radius that the tip of a cone is drawn with
_SLICES = 8  # of a round


def standing(
    pieces: Sequence[Piece],
    bore: Sequence[Piece],
    *,
    step: float,
    units: Units,
    place: Callable[[str], Place],
) -> Solid:
    """A turned part on its end B, end A up, its axis through the origin.

    Each cylinder is one disc. Tapers, and chamfers and rounds larger than `BREAK`, are discs that
    contain them and whose corners stand at most `step` mm off them (step > 0). The slices are of
    the true shape. Of the bore only its largest circle is shown. place: makes the
    place of a piece from its key, such as ``turned[2]`` or ``bore[1]``. Raises InputError with
    every break that has no room and every place where the bore breaks out.
    """
    check_turned(pieces, bore, units=units, place=place)
    exact = half_profile(pieces, units=units, place=place)
    coarse = half_profile(pieces, units=units, place=place, beyond=BREAK)
    widths = [radius for one in stretches(bore) for radius in (one.first, one.last)]
    break_a, break_b = end_breaks(pieces)
    length = sum(piece.length for piece in pieces)
    return Solid(
        slabs=_slabs(coarse, step),
        silhouette=(circle((0, 0), Path(exact).box[3]),),
        holes=(circle((0, 0), max(widths), ccw=False),) if widths else (),
        slices=_slices(exact),
        broken_below=_left_broken(break_b, pieces[-1], stops(coarse[-1], step)[-2:]),
        broken_above=_left_broken(break_a, pieces[0], stops(coarse[0], step)[:2]),
        remarks=(
            *_stepping(coarse, step, units),
            *(
                Remark(length - end, length - begin, text)
                for begin, end, text in thread_remarks(pieces)
            ),
        ),
        notes=(
            *([_passed(units)] if exact != coarse else []),
            *idle_breaks(pieces),
            *(["the bore is shown, not cut"] if bore else []),
        ),
    )


def _slabs(profile: Sequence[Segment], step: float) -> tuple[Slab, ...]:
    """The discs from end B up; neighbours of one radius are one."""
    length = profile[-1].end[0]
    rows: list[tuple[float, float]] = []  # the top and the radius of each
    for segment in reversed(profile):
        for (_, r0), (z, r1) in itertools.pairwise(reversed(stops(segment, step))):
            top, radius = length - z, max(r0, r1)
            if top - (rows[-1][0] if rows else 0.0) <= _HAIR:
                continue
            if rows and abs(rows[-1][1] - radius) <= _HAIR:
                radius = max(radius, rows.pop()[1])
            rows.append((top, radius))
    rows[-1] = (length - profile[0].start[0], rows[-1][1])
    bottoms = (0.0, *(top for top, _ in rows))
    return tuple(
        Slab(bottom, top, (circle((0, 0), radius),))
        for bottom, (top, radius) in zip(bottoms, rows, strict=False)
    )


def _slices(profile: Sequence[Segment]) -> tuple[Slice, ...]:
    """The true discs at the ends of each piece of the profile, end B first, and on its rounds."""
    length = profile[-1].end[0]
    points = [profile[-1].end]
    for segment in reversed(profile):
        back = segment.reversed()
        if isinstance(back, Arc):
            points += [back.point(k / _SLICES) for k in range(1, _SLICES)]
        points.append(back.end)
    return tuple(Slice(length - z, (circle((0, 0), max(r, _POINT)),)) for z, r in points)


def _left_broken(size: float, piece: Piece, lowest: Sequence[Point]) -> float:
    """What a break of the part's end leaves free under the rim of the outermost disc: all of it,
    or a step of it if it is stepped. lowest: the stops of that step."""
    if size and max(piece.chamfer, piece.rounding) > BREAK:
        (z0, r0), (z1, r1) = lowest
        return min(abs(z1 - z0), abs(r1 - r0))
    return size


def _stepping(profile: Sequence[Segment], step: float, units: Units) -> Iterator[Remark]:
    """What was stepped, end A first."""
    length = profile[-1].end[0]
    for segment in profile:
        (z0, r0), (z1, r1) = segment.start, segment.end
        if isinstance(segment, Line) and (abs(z1 - z0) <= _HAIR or abs(r1 - r0) <= _HAIR):
            continue
        points = stops(segment, step)
        count = len(points) - 1
        name = f"the taper from {units.say(2 * r0)} to {units.say(2 * r1)} diameter"
        if isinstance(segment, Arc):
            name = f"the round of {units.say(segment.radius)} at {units.say(2 * max(r0, r1))}"
        told = (
            f"{name} is taken as {count} {'step' if count == 1 else 'steps'}, "
            f"at most {units.say(stands_off(segment, points))} off it"
        )
        yield Remark(length - z1, length - z0, told, stepped=True)


def _passed(units: Units) -> str:
    return f"edge breaks up to {units.say(BREAK)} are not followed: walls go straight past them"
