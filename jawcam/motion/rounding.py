"""Numbers rounded to what a dialect prints, before it is printed.

What the control reads is then what was planned: every position is the rounding of the true one
(so nothing drifts), moves that round to nothing are left out, and every arc still satisfies the
control's radius rule.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from typing import Literal

from jawcam.motion.arcs import chorded, moves_from, point_on, radius, split, sweep
from jawcam.motion.centre import Lattice, TrueArc, best_centre, best_radius, line_deviation
from jawcam.motion.holes import pecks, top
from jawcam.motion.moves import (
    ArcFeed,
    Begin,
    Call,
    Drill,
    LineFeed,
    Motion,
    Point3,
    Rapid,
    ThreadCut,
    ToolChange,
    WorkOffset,
)
from jawcam.units import Units

__all__ = ["CentreWords", "Grid", "rounded"]

CentreWords = Literal["incremental", "unsigned", "absolute", "radius"]
_Cell = tuple[int, int, int]
_Found = dict[tuple[TrueArc, complex, complex], tuple[complex, float] | None]
# How far what is written may lie off the true arc, in steps: the ends alone take up to 0.71.
_CLOSE = 0.95  # a line in place of a flat arc, or an arc of more than half a turn in one piece
_FAR = 1.75  # any other arc in one piece


@dataclass(frozen=True)
class Grid:
    """What a program's numbers can say.

    decimals: of coordinates in `units`; centre_decimals: of arc centres, or of the radius word;
    centre: from the start point, the same without its signs (each arc then lies within a quadrant),
    from zero, or not at all; mismatch: the largest difference of
    the two radii of an arc that the control takes, in `units`; factors: what each coordinate of a
    point is multiplied by when it is written (2 for a radius that is written as a diameter: its
    steps are then half as long). Centres are never multiplied.
    """

    units: Units
    decimals: int
    centre_decimals: int
    mismatch: float
    centre: CentreWords = "incremental"
    factors: tuple[int, int, int] = (1, 1, 1)

    @property
    def step(self) -> float:
        """The least difference of two coordinates, mm; of the coarsest axis where they differ."""
        return self.units.to_mm(10.0**-self.decimals)

    @property
    def centre_step(self) -> float:
        """The same of two centres or radii, mm."""
        return self.units.to_mm(10.0**-self.centre_decimals)

    def steps(self, length: float) -> int:
        """A length in mm -> whole steps."""
        return round(self.units.from_mm(length) * 10.0**self.decimals)

    def length(self, steps: int) -> float:
        """Whole steps -> a length in mm."""
        return self.units.to_mm(steps / 10**self.decimals)

    def cell(self, point: Point3) -> _Cell:
        """A point in mm -> whole steps of what is written."""
        a, b, c = self.factors
        return (self.steps(point[0] * a), self.steps(point[1] * b), self.steps(point[2] * c))

    def point(self, cell: _Cell) -> Point3:
        """Whole steps of what is written -> a point in mm."""
        a, b, c = self.factors
        return (self.length(cell[0]) / a, self.length(cell[1]) / b, self.length(cell[2]) / c)


def rounded(motions: Sequence[Motion], grid: Grid) -> tuple[Motion, ...]:
    """The motions with the numbers of their points rounded to `grid`, still in mm.

    A line ends within half a step of the true one in each axis. An arc lies within a step and a
    quarter of the true one, within one step if centres have one decimal more (both measured, not
    proven). It becomes a line if its rise over its chord is under half a step, and lines if no
    centre that can be written satisfies the radius rule. An arc whose ends round to one point
    vanishes, or is written in halves if it is nearly a full turn; only what was a full turn is
    written as one. A peck grows as much as it must so that the hole takes no more of them than it
    did. A call is rounded as its moves are without it.
    """
    out: list[Motion] = []
    found: _Found = {}  # the same ring comes at each level
    cell: _Cell | None = None
    for start, motion in moves_from(motions):
        pieces: Iterable[Motion] = (motion,)
        if isinstance(motion, ArcFeed) and start is not None:
            pieces = _arc(grid, start, motion, found)
        for piece in pieces:
            match piece:
                case Rapid() | LineFeed() | ThreadCut():
                    if grid.cell(piece.to) != cell:
                        cell = grid.cell(piece.to)
                        out.append(replace(piece, to=grid.point(cell)))
                case ArcFeed():
                    cell = grid.cell(piece.to)
                    out.append(replace(piece, to=grid.point(cell)))
                case Drill():
                    out.append(_hole(grid, piece))
                    cell = grid.cell(top(piece))
                case Call() if start is not None:
                    out += _call(grid, start, piece)
                    cell = grid.cell(piece.body[-1].to)
                case Begin() | ToolChange() | WorkOffset():
                    cell = None
                    out.append(piece)
                case _:
                    out.append(piece)
    return tuple(out)


def _hole(grid: Grid, hole: Drill) -> Drill:
    """A hole with its numbers rounded. Its rounded pecks must still reach its rounded bottom, or
    another one would follow for next to nothing."""
    start, bottom = grid.steps(hole.start), grid.steps(hole.bottom)
    peck = hole.peck
    if peck is not None:
        least = math.ceil((start - bottom) / pecks(hole))
        peck = grid.length(max(grid.steps(peck), least, 1))
    return replace(
        hole,
        at=grid.point(grid.cell(top(hole)))[:2],
        clear=grid.length(grid.steps(hole.clear)),
        start=grid.length(start),
        bottom=grid.length(bottom),
        peck=peck,
    )


def _call(grid: Grid, start: Point3, call: Call) -> list[Motion]:
    """A call with its moves rounded; nothing where none is left of them."""
    body = rounded((Rapid(start), *call.body), grid)[1:]
    moves = tuple(move for move in body if isinstance(move, LineFeed | ArcFeed))
    return [replace(call, body=moves)] if moves else []


def _arc(grid: Grid, start: Point3, arc: ArcFeed, known: _Found) -> Iterable[Motion]:
    """One arc as the motions to write for it: true ends, but a centre that can be written."""
    size, turn = radius(start, arc), sweep(start, arc)
    first, last = grid.point(grid.cell(start)), grid.point(grid.cell(arc.to))
    full, closed = turn == math.tau, first[:2] == last[:2]
    line = (LineFeed(arc.to, arc.feed),)
    rise = size * (1 - math.cos(turn / 2))
    if closed and not full and rise >= grid.step / 2 and turn > math.pi:
        return _halves(grid, start, arc, known)
    if (closed and not full) or rise < grid.step / 4:
        return line
    true = TrueArc(
        complex(*arc.centre),
        size,
        turn if arc.ccw else -turn,
        complex(*point_on(start, arc, 0.5)[:2]),
    )
    a, b = complex(*first[:2]), complex(*last[:2])
    if rise < grid.step / 2 and line_deviation(true, a, b) <= _CLOSE * grid.step:
        return line
    if (true, a, b) not in known:
        known[true, a, b] = _centre(grid, true, a, b)
    found = known[true, a, b]
    far = (_CLOSE if math.pi < turn < math.tau else _FAR) * max(grid.step, grid.centre_step)
    if found is not None and found[1] <= far:
        return (replace(arc, centre=(found[0].real, found[0].imag)),)
    if turn > math.pi:
        return _halves(grid, start, arc, known)
    return chorded(start, arc, grid.step / 2)


def _halves(grid: Grid, start: Point3, arc: ArcFeed, known: _Found) -> Iterable[Motion]:
    for half in split(start, arc, 2):
        yield from _arc(grid, start, half, known)
        start = half.to


def _centre(grid: Grid, arc: TrueArc, start: complex, end: complex) -> tuple[complex, float] | None:
    """The centre to write and how far off the arc then lies, None if there is no such centre."""
    step = grid.centre_step
    if grid.centre == "radius":
        return best_radius(arc, start, end, step)
    lattice = Lattice(0j if grid.centre == "absolute" else start, step)
    within = grid.centre == "unsigned"
    return best_centre(arc, start, end, lattice, grid.units.to_mm(grid.mismatch), within=within)
