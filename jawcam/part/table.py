"""A turned part's table laid out along its axis, and what is to be said of its bore and threads."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from jawcam.errors import Fault, FaultList, Place
from jawcam.part.piece import Piece
from jawcam.units import Units

__all__ = ["Stretch", "bore_faults", "stretches", "thread_remarks"]

_HAIR = 1e-9  # mm; sums of lengths that are equal on paper agree better


@dataclass(frozen=True)
class Stretch:
    """One piece where it lies: from `begin` to `end` along the axis, with the radius `first` at
    its beginning and `last` at its end, in mm. number: its place in the table, from 1."""

    number: int
    begin: float
    end: float
    first: float
    last: float
    piece: Piece

    @property
    def slope(self) -> float:
        """How fast the radius grows towards end B."""
        return (self.last - self.first) / (self.end - self.begin)

    def radius(self, along: float) -> float:
        """The radius so far along the axis, as if no corner were broken."""
        return self.first + (along - self.begin) * self.slope


def stretches(pieces: Sequence[Piece]) -> tuple[Stretch, ...]:
    """The pieces of a table, end A (0 along the axis) first. One with limits has the diameter in
    the middle of them."""
    found = []
    begin = 0.0
    for number, piece in enumerate(pieces, 1):
        shift = sum(piece.limits) / 4 if piece.limits else 0.0
        end = begin + piece.length
        first, last = piece.start / 2 + shift, piece.end / 2 + shift
        found.append(Stretch(number, begin, end, first, last, piece))
        begin = end
    return tuple(found)


def bore_faults(
    pieces: Sequence[Piece],
    bore: Sequence[Piece],
    *,
    units: Units,
    place: Callable[[str], Place],
) -> list[Fault]:
    """Where the bore breaks out of the part. place: makes a place from a key such as
    ``bore[1]``."""
    faults = FaultList()
    body, hollow = stretches(pieces), stretches(bore)
    for inner in hollow:
        where = place(f"bore[{inner.number}]")
        thin = [
            along
            for outer in body
            for along in (max(inner.begin, outer.begin), min(inner.end, outer.end))
            if max(inner.begin, outer.begin) < min(inner.end, outer.end)
            and inner.radius(along) >= outer.radius(along)
        ]
        if thin:
            faults.add(
                f"the bore is as wide as the part itself, {units.say(thin[0])} from end A",
                where,
                "make the bore narrower there, or shorter",
            )
        if inner.end > body[-1].end + _HAIR and inner is hollow[-1]:
            faults.add(
                f"the bore is {units.say(inner.end)} deep, "
                f"the part only {units.say(body[-1].end)} long",
                where,
                "make the bore shorter",
            )
    return faults.faults


def thread_remarks(pieces: Sequence[Piece]) -> tuple[tuple[float, float, str], ...]:
    """What a person who grips the part should know of its threads, and where along the axis each
    begins and ends."""
    return tuple(
        (row.begin, row.end, f"the jaws grip piece {row.number}, a thread ({row.piece.thread})")
        for row in stretches(pieces)
        if row.piece.thread
    )
