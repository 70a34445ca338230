"""Cuts that a program makes more than once, such as the rings of a pocket at each of its levels:
found, and turned into calls of what is then written once."""

from __future__ import annotations

from collections import Counter
from collections.abc import Container, Iterable, Iterator, Mapping, Sequence

from jawcam.motion.arcs import moves_from
from jawcam.motion.moves import (
    ArcFeed,
    Call,
    Compensate,
    End,
    LineFeed,
    Motion,
    Point3,
    Rapid,
)

__all__ = ["LEAST", "called", "expanded", "in_plan"]

LEAST = 8
"""So many moves are worth a subprogram, though it is called only twice."""

_Step = tuple[object, ...]
_EDGE: _Step = ()  # what stands before the first and after the last move of a stretch


def in_plan(start: Point3, move: LineFeed | ArcFeed) -> _Step:
    """All of a level move from `start` but its height: equal for two that are the same seen from
    above and have the same feed, to the last bit."""
    if isinstance(move, ArcFeed):
        return (start[:2], move.to[:2], move.feed, move.centre, move.ccw)
    return (start[:2], move.to[:2], move.feed)


def expanded(motions: Sequence[Motion]) -> Iterator[Motion]:
    """The motions with each call replaced by what it does."""
    for motion in motions:
        if isinstance(motion, Call):
            yield from motion.body
        else:
            yield motion


def called(motions: Sequence[Motion]) -> tuple[Motion, ...]:
    """The motions with the level cuts that they repeat turned into calls, numbered from 1 in their
    order; what is not a whole program, with its `End`, stays as it is.

    Two moves that always follow each other belong together; what so hangs together is called if it
    is repeated and long enough. Nothing is called under cutter compensation or on the way out of
    it, and `expanded` gives the motions back.
    """
    if not any(isinstance(motion, End) for motion in motions):
        return tuple(motions)
    stretches = list(_stretches(motions))
    joints = _joints(steps for _, steps in stretches)
    counts: Counter[tuple[_Step, ...]] = Counter()
    runs: dict[int, tuple[_Step, ...]] = {}  # the place of a run's first motion -> its steps
    for begin, steps in stretches:
        for first, last in _parted(steps, joints):
            runs[begin + first] = tuple(steps[first:last])
            counts[runs[begin + first]] += 1
    return tuple(_with_calls(motions, runs, counts))


def _stretches(motions: Sequence[Motion]) -> Iterator[tuple[int, list[_Step]]]:
    """The unbroken stretches of level cuts: the place of the first and all as seen in plan."""
    steps: list[_Step] = []
    on = bent = False  # bent: compensation is on, or no straight move has led out of it yet
    for place, (start, motion) in enumerate(moves_from(motions)):
        step = None if bent else _level(start, motion)
        if step is not None:
            steps.append(step)
            continue
        if steps:
            yield place - len(steps), steps
            steps = []
        if isinstance(motion, Compensate):
            bent, on = True, motion.side != "off"
        elif bent and not on and isinstance(motion, LineFeed | Rapid):
            bent = False
    if steps:
        yield len(motions) - len(steps), steps


def _level(start: Point3 | None, motion: Motion) -> _Step | None:
    """A level cut as seen in plan, None for anything else."""
    if start is None or not isinstance(motion, LineFeed | ArcFeed) or motion.to[2] != start[2]:
        return None
    return in_plan(start, motion)


def _joints(stretches: Iterable[list[_Step]]) -> set[tuple[_Step, _Step]]:
    """The pairs of moves of which neither is ever without the other."""
    before: dict[_Step, set[_Step]] = {}
    after: dict[_Step, set[_Step]] = {}
    for steps in stretches:
        for one, two in zip([_EDGE, *steps], [*steps, _EDGE], strict=True):
            after.setdefault(one, set()).add(two)
            before.setdefault(two, set()).add(one)
    return {
        (one, two)
        for one, followers in after.items()
        for two in followers
        if _EDGE not in (one, two) and len(followers) == 1 and len(before[two]) == 1
    }


def _parted(
    steps: Sequence[_Step], joints: Container[tuple[_Step, _Step]]
) -> Iterator[tuple[int, int]]:
    """A stretch in runs of what hangs together: the first of each and the one after its last."""
    first = 0
    for place in range(1, len(steps) + 1):
        if place == len(steps) or (steps[place - 1], steps[place]) not in joints:
            yield first, place
            first = place


def _with_calls(
    motions: Sequence[Motion],
    runs: Mapping[int, tuple[_Step, ...]],
    counts: Mapping[tuple[_Step, ...], int],
) -> Iterator[Motion]:
    """The motions with every run that is worth it as a call."""
    numbers: dict[tuple[_Step, ...], int] = {}
    place = 0
    while place < len(motions):
        run = runs.get(place, ())
        if len(run) < LEAST or counts[run] < 2:
            yield motions[place]
            place += 1
            continue
        moves = motions[place : place + len(run)]
        body = tuple(move for move in moves if isinstance(move, LineFeed | ArcFeed))
        yield Call(numbers.setdefault(run, len(numbers) + 1), body)
        place += len(run)
