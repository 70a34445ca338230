"""Rewrites of a list of motions into one that says the same in fewer kinds of words.

Each row of `PASSES` is one: a post lists by name those that its control needs. `shifted` is no
row of it, because every program is written from its own zero.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, replace

from jawcam.motion.arcs import chorded, is_helix, moves_from, radius, split, sweep
from jawcam.motion.holes import moves_of
from jawcam.motion.moves import ArcFeed, Call, Drill, LineFeed, Motion, Point3, Rapid, ThreadCut
from jawcam.motion.quadrants import split_at_quadrants
from jawcam.motion.repeats import called

__all__ = ["PASSES", "ArcLimits", "Pass", "shifted"]

_ROUND_OFF = 1e-9  # radians or mm: an arc that is over a limit by less than this keeps it


@dataclass(frozen=True)
class ArcLimits:
    """What a control takes. largest_sweep: radians, in (0, 2 pi]; largest_radius: mm;
    chord: the most that lines which stand in for an arc may lie off it, mm; helix_chord: the same
    for a whole turn that rises or falls."""

    largest_sweep: float = math.tau
    largest_radius: float = math.inf
    chord: float = 0.001
    helix_chord: float = 0.01

    def too_wide(self, start: Point3, arc: ArcFeed) -> bool:
        """Whether the arc sweeps too far."""
        return sweep(start, arc) > self.largest_sweep + _ROUND_OFF

    def too_large(self, start: Point3, arc: ArcFeed) -> bool:
        """Whether the arc's radius is too large."""
        return radius(start, arc) > self.largest_radius + _ROUND_OFF


Pass = Callable[[Sequence[Motion], ArcLimits], tuple[Motion, ...]]


def shifted(motions: Sequence[Motion], zero: Point3) -> tuple[Motion, ...]:
    """The motions as seen from `zero`: all points less it, in mm."""
    return tuple(_from(motion, zero) for motion in motions)


def _from(motion: Motion, zero: Point3) -> Motion:
    if isinstance(motion, Drill):
        return replace(
            motion,
            at=(motion.at[0] - zero[0], motion.at[1] - zero[1]),
            clear=motion.clear - zero[2],
            start=motion.start - zero[2],
            bottom=motion.bottom - zero[2],
        )
    if isinstance(motion, Call):
        moves = shifted(motion.body, zero)
        body = tuple(move for move in moves if isinstance(move, LineFeed | ArcFeed))
        return replace(motion, body=body)
    if not isinstance(motion, Rapid | LineFeed | ArcFeed | ThreadCut):
        return motion
    x, y, z = motion.to
    to = (x - zero[0], y - zero[1], z - zero[2])
    if isinstance(motion, ArcFeed):
        cx, cy = motion.centre
        return replace(motion, to=to, centre=(cx - zero[0], cy - zero[1]))
    return replace(motion, to=to)


def _with_arcs(
    motions: Sequence[Motion], rewrite: Callable[[Point3, ArcFeed], Iterable[Motion]]
) -> tuple[Motion, ...]:
    """The motions with every arc replaced by what `rewrite` makes of it."""
    out: list[Motion] = []
    for start, motion in moves_from(motions):
        if isinstance(motion, ArcFeed) and start is not None:
            out.extend(rewrite(start, motion))
        else:
            out.append(motion)
    return tuple(out)


def _split_full_circles(motions: Sequence[Motion], _: ArcLimits) -> tuple[Motion, ...]:
    """Every full turn as two half turns."""
    return _with_arcs(
        motions,
        lambda start, arc: split(start, arc, 2) if sweep(start, arc) == math.tau else (arc,),
    )


def _split_arcs(motions: Sequence[Motion], limits: ArcLimits) -> tuple[Motion, ...]:
    """Every arc that sweeps too far as the fewest equal ones that don't."""

    def rewrite(start: Point3, arc: ArcFeed) -> Iterable[Motion]:
        if not limits.too_wide(start, arc):
            return (arc,)
        return split(start, arc, math.ceil(sweep(start, arc) / limits.largest_sweep - _ROUND_OFF))

    return _with_arcs(motions, rewrite)


def _split_at_quadrants(motions: Sequence[Motion], _: ArcLimits) -> tuple[Motion, ...]:
    """Every arc as ones that each stay within a quadrant about its centre."""
    return _with_arcs(motions, split_at_quadrants)


def _arcs_to_lines(motions: Sequence[Motion], limits: ArcLimits) -> tuple[Motion, ...]:
    """Every arc as lines."""
    return _with_arcs(motions, lambda start, arc: chorded(start, arc, limits.chord))


def _helices_to_lines(motions: Sequence[Motion], limits: ArcLimits) -> tuple[Motion, ...]:
    """Every arc that also rises or falls as lines: a whole turn, which winds into the material,
    coarser than one that follows a shape."""

    def flat(start: Point3, arc: ArcFeed) -> tuple[ArcFeed | LineFeed, ...]:
        if not is_helix(start, arc):
            return (arc,)
        whole = start[:2] == arc.to[:2]
        return chorded(start, arc, limits.helix_chord if whole else limits.chord)

    return _with_arcs(motions, flat)


def _large_arcs_to_lines(motions: Sequence[Motion], limits: ArcLimits) -> tuple[Motion, ...]:
    """Every arc of too large a radius as lines."""

    def rewrite(start: Point3, arc: ArcFeed) -> Iterable[Motion]:
        too_large = limits.too_large(start, arc)
        return chorded(start, arc, limits.chord) if too_large else (arc,)

    return _with_arcs(motions, rewrite)


def _cycles_to_moves(motions: Sequence[Motion], _: ArcLimits) -> tuple[Motion, ...]:
    """Every drilled hole as rapids and feeds."""
    out: list[Motion] = []
    for _start, motion in moves_from(motions):
        out.extend(moves_of(motion) if isinstance(motion, Drill) else (motion,))
    return tuple(out)


def _repeats_to_calls(motions: Sequence[Motion], _: ArcLimits) -> tuple[Motion, ...]:
    """Level cuts that are repeated as calls of subprograms; no pass after this one looks in."""
    return called(motions)


PASSES: dict[str, Pass] = {
    "arcs_to_lines": _arcs_to_lines,
    "cycles_to_moves": _cycles_to_moves,
    "helices_to_lines": _helices_to_lines,
    "large_arcs_to_lines": _large_arcs_to_lines,
    "repeats_to_calls": _repeats_to_calls,
    "split_arcs": _split_arcs,
    "split_at_quadrants": _split_at_quadrants,
    "split_full_circles": _split_full_circles,
}
