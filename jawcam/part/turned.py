"""A turned part standing on end: a stack of discs that nothing of it lies outside of."""

from __future__ import annotations

import itertools
from collections.abc import Iterator, Sequence

from jawcam.geometry.shapes import Arc, Line, Path, Segment, circle
from jawcam.part.half import BREAK, HalfProfile
from jawcam.part.half_faults import LEAN
from jawcam.part.solid import Remark, Slab, Slice, Solid
from jawcam.part.steps import stands_off, stops
from jawcam.units import Units

__all__ = ["standing"]

_POINT = 0.001  # mm; the radius that the tip of a cone is drawn with
_SLICES = 8  # of a round


def standing(half: HalfProfile, *, step: float, units: Units) -> Solid:
    """A turned part on its end B, end A up, its axis through the origin.

    Each cylinder is one disc. Tapers and rounds, chamfers larger than edge breaks among them, are
    discs that contain them and whose corners stand at most `step` mm off them (step > 0). The
    slices are of the true shape. Of the bore only its largest circle is shown.
    """
    slabs = _slabs(half.plain, step)
    length = half.length
    return Solid(
        slabs=slabs,
        silhouette=(circle((0, 0), Path(half.exact).box[3]),),
        holes=(circle((0, 0), half.bore / 2, ccw=False),) if half.bore else (),
        slices=_slices(half.exact),
        broken_below=_left_free([one.reversed() for one in reversed(half.exact)], slabs[0]),
        broken_above=_left_free(half.exact, slabs[-1]),
        remarks=(
            *_stepping(half.plain, step, units),
            *(Remark(length - end, length - begin, text) for begin, end, text in half.remarks),
        ),
        notes=(
            *([_passed(units)] if half.exact != half.plain else []),
            *half.notes,
            *(["the bore is shown, not cut"] if half.bore else []),
        ),
    )


def _slabs(profile: Sequence[Segment], step: float) -> tuple[Slab, ...]:
    """The discs from end B up; neighbours of one radius are one."""
    length = profile[-1].end[0]
    rows: list[tuple[float, float]] = []  # the top and the radius of each
    for segment in reversed(profile):
        for (_, r0), (z, r1) in itertools.pairwise(reversed(stops(segment, step))):
            top, radius = length - z, max(r0, r1)
            thin = top - (rows[-1][0] if rows else 0.0) <= LEAN  # a shoulder, which may lean
            if rows and abs(rows[-1][1] - radius) <= LEAN:
                rows[-1] = (top, max(radius, rows[-1][1]))
            elif not thin:
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


def _left_free(profile: Sequence[Segment], disc: Slab) -> float:
    """What the part leaves free under the rim of its outermost disc, along the axis or down the
    face, whichever is less. profile: begins at that end."""
    (begin, rim), radius = profile[0].start, disc.outlines[0].box[2]
    reached = next((z for one in profile for z in _reaching(one, radius)), None)
    down = max(radius - rim, 0.0)
    return down if reached is None else min(down, abs(reached - begin))


def _reaching(one: Segment, radius: float) -> Iterator[float]:
    """Where a piece of the profile first has a radius; nowhere if it stays below it."""
    (z, r), (z1, r1) = one.start, one.end
    if Path((one,)).box[3] < radius - LEAN:
        return
    if r >= radius - LEAN:
        yield z
    elif isinstance(one, Arc):
        yield z1 if r1 >= radius - LEAN else one.centre[0]
    else:
        yield z + (z1 - z) * min((radius - r) / (r1 - r), 1.0)


def _stepping(profile: Sequence[Segment], step: float, units: Units) -> Iterator[Remark]:
    """What was stepped, end A first."""
    length = profile[-1].end[0]
    for segment in profile:
        (z0, r0), (z1, r1) = segment.start, segment.end
        if isinstance(segment, Line) and min(abs(z1 - z0), abs(r1 - r0)) <= LEAN:
            continue
        points = stops(segment, step)
        count = len(points) - 1
        name = f"the taper from {units.say(2 * r0)} to {units.say(2 * r1)} diameter"
        if isinstance(segment, Arc):
            kind = "hollow round" if segment.ccw else "round"
            name = f"the {kind} of {units.say(segment.radius)} at {units.say(2 * max(r0, r1))}"
        told = (
            f"{name} is taken as {count} {'step' if count == 1 else 'steps'}, "
            f"at most {units.say(stands_off(segment, points))} off it"
        )
        yield Remark(length - z1, length - z0, told, stepped=True)


def _passed(units: Units) -> str:
    return f"edge breaks up to {units.say(BREAK)} are not followed: walls go straight past them"
