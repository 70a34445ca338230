"""What a chuck's soft jaws take hold of: the widest cylinder of the end that is in their bore."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from jawcam.geometry.shapes import Arc, Line, Path, Point, Segment
from jawcam.tolerance import Tolerance

__all__ = ["Gripped", "gripped"]

_NEAR = 1e-6  # mm; what arithmetic leaves between lengths that are meant to be the same


@dataclass(frozen=True)
class Gripped:
    """radius: the largest in the bore, in mm. touching: the stretches of cylinder that have it, as
    depths from the gripped end, nearest first; none where only a cone or a round comes so far
    out. begin: how deep the piece of the profile that has it begins; piece: itself."""

    radius: float
    touching: tuple[tuple[float, float], ...]
    begin: float
    piece: Segment

    @property
    def length(self) -> float:
        """How much of the bore's depth touches the part, in mm."""
        return sum(end - begin for begin, end in self.touching)


def gripped(profile: Sequence[Segment], *, end: str, depth: float, tolerance: Tolerance) -> Gripped:
    """What is widest within `depth` of one end, "A" or "B", of a half profile.

    profile: from the rim of end A to that of end B as points (along, radius) in mm. A line counts
    as a cylinder if its radius differs by no more than what joining drawn ends may move one by.
    """
    rows = list(_within(profile, end, depth))
    widest = max(rows, key=lambda row: row.widest)
    touching = tuple(
        (row.begin, row.end)
        for row in rows
        if _is_cylinder(row.piece, tolerance) and row.widest >= widest.widest - tolerance.join
    )
    return Gripped(widest.widest, touching, widest.begin, widest.piece)


@dataclass(frozen=True)
class _Row:
    """A piece of the profile in the bore: how deep it begins and ends, its largest radius there."""

    begin: float
    end: float
    widest: float
    piece: Segment


def _is_cylinder(piece: Segment, tolerance: Tolerance) -> bool:
    return isinstance(piece, Line) and abs(piece.start[1] - piece.end[1]) <= tolerance.join


def _within(profile: Sequence[Segment], end: str, depth: float) -> Iterator[_Row]:
    length = profile[-1].end[0]
    near, far = (0.0, depth) if end == "A" else (length - depth, length)
    for piece in profile if end == "A" else reversed(profile):
        low, high = max(piece.start[0], near), min(piece.end[0], far)
        if high - low <= _NEAR:
            continue
        *_, widest = Path((_cut(piece, low, high),)).box
        begin, stop = (low, high) if end == "A" else (length - high, length - low)
        yield _Row(begin, stop, widest, piece)


def _cut(piece: Segment, low: float, high: float) -> Segment:
    """The piece from `low` to `high` along the axis."""
    start = piece.start if low <= piece.start[0] else _at(piece, low)
    end = piece.end if high >= piece.end[0] else _at(piece, high)
    if isinstance(piece, Arc):
        return Arc(start, end, piece.centre, piece.ccw)
    return Line(start, end)


def _at(piece: Segment, along: float) -> Point:
    """The point of a piece so far along the axis."""
    (z0, r0), (z1, r1) = piece.start, piece.end
    if isinstance(piece, Arc):
        (z, r), side = piece.centre, -1 if piece.ccw else 1
        return (along, r + side * max(piece.radius**2 - (along - z) ** 2, 0.0) ** 0.5)
    return (along, r0 + (r1 - r0) * (along - z0) / (z1 - z0))
