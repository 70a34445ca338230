"""The chamfers and rounds of a drawn half profile, known by their form and put back to corners."""

from __future__ import annotations

import math
from collections.abc import Sequence

from jawcam.geometry.shapes import Arc, Line, Path, Point, Segment
from jawcam.part.half_faults import LEAN

__all__ = ["unbroken"]

_HAIR = 1e-9  # mm; nothing is drawn that is shorter
_SKEW = 1e-6  # sine of the angle between lines that are one
_FLAT = 0.5  # slope of the flattest chamfer, and of the steepest the other way round
_TANGENT = 1e-3  # slopes that differ by less are one


def unbroken(profile: Sequence[Segment], most: float) -> tuple[Segment, ...]:
    """A half profile, from the rim of end A to that of end B as points (along, radius), without
    its edge breaks of up to `most` mm: what is drawn stays inside it.

    An edge break stands at an outer corner, between a face (the part's end, a shoulder, or where
    the break has taken all of that the cylinder below it) and a side. It is a bulging arc with a
    radius of up to `most`, or a line at 27 to 63 degrees that goes no farther along the axis nor
    across it. Its corner is where the side meets the plane through the break's lower end. Lines
    that go straight on are made one.
    """
    rising_done = _without_rising(profile, most)
    return _mirrored(_without_rising(_mirrored(rising_done), most))


def _mirrored(profile: Sequence[Segment]) -> tuple[Segment, ...]:
    """The profile seen from the other end; falling pieces rise."""

    def at(p: Point) -> Point:
        return (-p[0], p[1])

    return tuple(
        Arc(at(one.end), at(one.start), at(one.centre), one.ccw)
        if isinstance(one, Arc)
        else Line(at(one.end), at(one.start))
        for one in reversed(profile)
    )


def _without_rising(profile: Sequence[Segment], most: float) -> tuple[Segment, ...]:
    """The profile without the breaks whose face is where they begin."""
    pen, last = _Pen(), len(profile) - 1
    for k, one in enumerate(profile):
        face = profile[k - 1] if k else None
        side = profile[k + 1] if k < last else None
        corner = _corner(one, face, side, most)
        if corner is None:
            pen.draw(one)
            continue
        pen.line(corner)
        if not _is_side(side):
            pen.line(one.end)
    return tuple(pen.drawn)


def _corner(one: Segment, face: Segment | None, side: Segment | None, most: float) -> Point | None:
    """Where the corner was that a piece of the profile breaks; None if it is no rising edge break.

    face: what comes before it, side: what follows it; None where the part ends.
    """
    (z0, r0), (z1, r1) = one.start, one.end
    if r1 <= r0 or not (_is_small(one, most) and _is_face(face)) or not _may_end(side):
        return None
    slope = _slope(side) if isinstance(side, Line) and _is_side(side) else 0.0
    if slope > _slope_at_end(one) + _TANGENT:
        return None  # it doesn't stand out
    *_, crest = Path((one,)).box
    return (z0, max(r1 - slope * (z1 - z0), crest if slope == 0.0 else r0))


def _is_small(one: Segment, most: float) -> bool:
    if isinstance(one, Arc):
        return not one.ccw and one.radius <= most + LEAN and one.sweep < math.pi + _SKEW
    along, up = one.end[0] - one.start[0], one.end[1] - one.start[1]
    less, more = sorted((along, up))
    return LEAN < more <= most + LEAN and less >= _FLAT * more


def _is_face(face: Segment | None) -> bool:
    """Whether a break may begin there: at the part's end, up from a shoulder or off a cylinder."""
    if face is None:
        return True
    along, up = abs(face.end[0] - face.start[0]), face.end[1] - face.start[1]
    upright = along <= LEAN and up > 0
    return isinstance(face, Line) and (upright or abs(up) <= LEAN)


def _may_end(side: Segment | None) -> bool:
    """Whether a break may end there: not at the foot of a wall or of a hollow round."""
    if isinstance(side, Arc):
        return not side.ccw
    return side is None or _is_side(side) or side.end[1] < side.start[1]


def _is_side(side: Segment | None) -> bool:
    return isinstance(side, Line) and side.end[0] - side.start[0] > LEAN


def _slope(line: Line) -> float:
    return (line.end[1] - line.start[1]) / (line.end[0] - line.start[0])


def _slope_at_end(one: Segment) -> float:
    if isinstance(one, Line):
        return _slope(one)
    # square to the radius; a bulging arc runs clockwise
    dz, dr = one.end[0] - one.centre[0], one.end[1] - one.centre[1]
    return -dz / dr if dr > _HAIR else math.inf


class _Pen:
    """Draws from point to point, straight pieces as few as there are."""

    def __init__(self) -> None:
        self.drawn: list[Segment] = []
        self._at: Point | None = None

    def draw(self, segment: Segment) -> None:
        """A piece as it is; a line from where the pen stands."""
        if self._at is None:
            self._at = segment.start
        if isinstance(segment, Line):
            self.line(segment.end)
            return
        self.drawn.append(segment)
        self._at = segment.end

    def line(self, end: Point) -> None:
        """A straight piece to `end`, or, before anything is drawn, the first point."""
        if self._at is None:
            self._at = end
        length = math.dist(self._at, end)
        if length <= _HAIR:
            return
        last = self.drawn[-1] if self.drawn else None
        if isinstance(last, Line) and _straight_on(last, end):
            self.drawn[-1] = Line(last.start, end)
        else:
            self.drawn.append(Line(self._at, end))
        self._at = end


def _straight_on(line: Line, end: Point) -> bool:
    (x0, y0), (x1, y1), (x2, y2) = line.start, line.end, end
    ax, ay, bx, by = x1 - x0, y1 - y0, x2 - x1, y2 - y1
    off = abs(ax * by - ay * bx) / (math.hypot(ax, ay) * math.hypot(bx, by))
    return off < _SKEW and ax * bx + ay * by > 0
