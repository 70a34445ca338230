"""The half profile of a turned part: exact lines and arcs in the plane of axis and radius."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass

from jawcam.errors import FaultList, Place
from jawcam.geometry.shapes import Arc, Line, Point, Segment
from jawcam.part.piece import Piece
from jawcam.part.table import Stretch, bore_faults, stretches
from jawcam.units import Units

__all__ = ["check_turned", "half_profile", "idle_breaks"]

_HAIR = 1e-9  # mm; nothing is drawn that is shorter
_NEAR = 0.002  # mm; the most that a size may lose by being told in rounded figures


def half_profile(
    pieces: Sequence[Piece],
    *,
    units: Units,
    place: Callable[[str], Place],
    beyond: float = 0.0,
) -> tuple[Segment, ...]:
    """The outline of a turned part from the rim of its end A to the rim of its end B, as points
    (along, radius) in mm: along = 0 at end A. The two end faces are not in it.

    The outer corners of a piece are broken: those where it stands out over its neighbour, and the
    ends of the part. A chamfer runs at 45 degrees to the axis and is as long along the axis as it
    is called, a round is tangent to both sides; both also on tapers. Where a taper rises from its
    corner at 45 degrees or more a chamfer has nothing to take off. A piece with limits has
    the diameter in the middle of them, which makes no corner beside the same nominal diameter;
    a thread has its own.

    beyond: breaks of up to this size are left out, their corners stay sharp. place: makes the
    place of a piece from its key, ``turned[2]`` for the second one. Raises InputError with every
    break that its piece has no room for.
    """
    check_turned(pieces, (), units=units, place=place)
    pen = _Pen()
    for stretch, begin, finish in _cornered(pieces):
        kind, size = _break(stretch.piece)
        largest = _largest(stretch, (begin, finish))
        size = min(size, largest) if size > beyond else 0.0
        face, side, centre = begin.broken(kind, size)
        pen.line(face)
        pen.edge(side, centre)
        face, side, centre = finish.broken(kind, size)
        pen.line(side)
        pen.edge(face, centre)
    return tuple(pen.drawn)


def check_turned(
    pieces: Sequence[Piece],
    bore: Sequence[Piece],
    *,
    units: Units,
    place: Callable[[str], Place],
) -> None:
    """Raise InputError with every break that its piece has no room for and every place where the
    bore breaks out of the part. place: makes the place of a piece from its key, such as
    ``turned[2]`` or ``bore[1]``."""
    faults = FaultList()
    for stretch, *corners in _cornered(pieces):
        _check(stretch, corners, units, place, faults)
    faults.faults += bore_faults(pieces, bore, units=units, place=place)
    faults.raise_if_any()


def idle_breaks(pieces: Sequence[Piece]) -> tuple[str, ...]:
    """Notes of the chamfers and rounds that break nothing."""
    return tuple(
        f"the {kind} of piece {stretch.number} breaks nothing: none of its corners stands out"
        for stretch, *corners in _cornered(pieces)
        for kind, size in [_break(stretch.piece)]
        if size and not any(corner.breakable(kind) for corner in corners)
    )


# --- corners ---------------------------------------------------------------------------------


@dataclass(frozen=True)
class _Corner:
    """The corner at one end of a piece. into: which way along the axis the piece lies, 1 or -1;
    slope: how fast its radius grows that way; face: how far it stands out over its neighbour; 0
    between equal nominal diameters, as a step that limits alone make is no corner to break."""

    at: Point
    into: int
    slope: float
    face: float

    def breakable(self, kind: str) -> bool:
        """Whether it stands out, and has something to take off."""
        return self.face > _HAIR and (kind == "round" or self.slope < 1 - _HAIR)

    def legs(self, kind: str) -> tuple[float, float]:
        """What a break of size 1 takes off: along the axis, and down the face.

        A chamfer meets the face at 45 degrees. The tangents from a corner with the inner angle a
        to a circle of radius 1 are 1 / tan(a / 2) long; with a side of slope s, cos a =
        -s / sqrt(1 + s^2), so that is 1 / (sqrt(1 + s^2) + s).
        """
        if not self.breakable(kind):
            return 0.0, 0.0
        if kind == "chamfer":
            return 1.0, 1 - self.slope
        slant = math.hypot(1, self.slope)
        tangent = 1 / (slant + self.slope)
        return tangent / slant, tangent

    def broken(self, kind: str, size: float) -> tuple[Point, Point, Point | None]:
        """Where the break ends on the face and on the side, and the centre of a round."""
        along, down = (size * leg for leg in self.legs(kind))
        z, r = self.at
        face = (z, r - down)
        side = (z + self.into * along, r + self.slope * along)
        centre = (z + self.into * size, r - down) if kind == "round" else None
        return face, side, centre


def _cornered(pieces: Sequence[Piece]) -> Iterator[tuple[Stretch, _Corner, _Corner]]:
    """Each piece with the corners at its beginning and at its end."""
    row = stretches(pieces)
    for k, one in enumerate(row):
        before = row[k - 1] if k else None
        after = row[k + 1] if k + 1 < len(row) else None
        face_a, face_b = one.first, one.last
        if before is not None:
            same = one.piece.start == before.piece.end
            face_a = 0.0 if same else one.first - before.last
        if after is not None:
            same = one.piece.end == after.piece.start
            face_b = 0.0 if same else one.last - after.first
        yield (
            one,
            _Corner((one.begin, one.first), 1, one.slope, face_a),
            _Corner((one.end, one.last), -1, -one.slope, face_b),
        )


def _break(piece: Piece) -> tuple[str, float]:
    """How a piece's corners are broken, and the size of that, 0 for sharp ones."""
    return ("round", piece.rounding) if piece.rounding else ("chamfer", piece.chamfer)


def _largest(stretch: Stretch, corners: Sequence[_Corner]) -> float:
    """The largest size of its break that a piece has room for."""
    kind, _ = _break(stretch.piece)
    legs = [corner.legs(kind) for corner in corners]
    rooms = [c.face / down for c, (_, down) in zip(corners, legs, strict=True) if down]
    along = sum(leg for leg, _ in legs)
    if along:
        rooms.append(stretch.piece.length / along)
    return min(rooms, default=math.inf)


def _check(
    stretch: Stretch,
    corners: Sequence[_Corner],
    units: Units,
    place: Callable[[str], Place],
    faults: FaultList,
) -> None:
    where = place(f"turned[{stretch.number}]")
    piece = stretch.piece
    if piece.chamfer and piece.rounding:
        mend = "leave one of the two out"
        faults.add("its corners can't have both a chamfer and a round", where, mend)
        return
    kind, size = _break(piece)
    largest = _largest(stretch, corners)
    if size > largest + _NEAR:
        faults.add(
            f"a {kind} of {units.say(size)} is too large for its corners, "
            f"which have room for {units.say(largest)}",
            where,
            f"make the {kind} at most {units.say(largest)}",
        )


# --- drawing ---------------------------------------------------------------------------------


class _Pen:
    """Draws from point to point and leaves out what has no length."""

    def __init__(self) -> None:
        self.drawn: list[Segment] = []
        self._at: Point | None = None

    def line(self, end: Point) -> None:
        """A straight piece to `end`."""
        if self._at is None:
            self._at = end
        elif math.dist(self._at, end) > _HAIR:
            self.drawn.append(Line(self._at, end))
            self._at = end

    def edge(self, end: Point, centre: Point | None) -> None:
        """A broken edge: an outer corner turns clockwise when seen from end A to end B."""
        if centre is None or self._at is None or math.dist(self._at, end) <= _HAIR:
            self.line(end)
            return
        self.drawn.append(Arc(self._at, end, centre, ccw=False))
        self._at = end
