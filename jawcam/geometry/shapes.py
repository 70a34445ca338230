"""The exact shapes everything is made of: lines, arcs, paths and regions in the plane, in mm."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

__all__ = [
    "Arc",
    "Line",
    "Path",
    "Point",
    "Region",
    "Segment",
    "circle",
    "from_bulges",
    "polygon",
    "to_bulges",
]

Point = tuple[float, float]

_FLAT = 1e-6  # mm; a bulge that rises less above its chord is a straight piece


@dataclass(frozen=True, slots=True)
class Line:
    """A straight piece from `start` to `end`."""

    start: Point
    end: Point

    @property
    def length(self) -> float:
        """In mm."""
        return math.dist(self.start, self.end)

    def reversed(self) -> Line:
        """The same piece, run the other way."""
        return Line(self.end, self.start)


@dataclass(frozen=True, slots=True)
class Arc:
    """A piece of circle round `centre`, counter-clockwise if `ccw`; full if end = start."""

    start: Point
    end: Point
    centre: Point
    ccw: bool

    @property
    def radius(self) -> float:
        """In mm, from the start point."""
        return math.dist(self.start, self.centre)

    @property
    def sweep(self) -> float:
        """The angle turned through, in radians: in (0, 2 pi], whichever the direction."""
        if self.start == self.end:
            return 2 * math.pi
        first = math.atan2(self.start[1] - self.centre[1], self.start[0] - self.centre[0])
        last = math.atan2(self.end[1] - self.centre[1], self.end[0] - self.centre[0])
        turn = (last - first if self.ccw else first - last) % (2 * math.pi)
        return turn or 2 * math.pi

    @property
    def length(self) -> float:
        """In mm."""
        return self.radius * self.sweep

    def reversed(self) -> Arc:
        """The same piece, run the other way."""
        return Arc(self.end, self.start, self.centre, not self.ccw)

    def point(self, share: float) -> Point:
        """The point at `share` (0 to 1) of the way along."""
        angle = math.atan2(self.start[1] - self.centre[1], self.start[0] - self.centre[0])
        angle += share * self.sweep * (1 if self.ccw else -1)
        r = self.radius
        return (self.centre[0] + r * math.cos(angle), self.centre[1] + r * math.sin(angle))


Segment = Line | Arc


@dataclass(frozen=True, slots=True)
class Path:
    """Segments end to end: each begins exactly where the one before ends."""

    segments: tuple[Segment, ...]

    @property
    def start(self) -> Point:
        """Where the first segment begins."""
        return self.segments[0].start

    @property
    def end(self) -> Point:
        """Where the last segment ends."""
        return self.segments[-1].end

    @property
    def closed(self) -> bool:
        """Whether it ends exactly where it begins."""
        return self.start == self.end

    @property
    def length(self) -> float:
        """In mm."""
        return math.fsum(segment.length for segment in self.segments)

    @property
    def area(self) -> float:
        """In mm2, positive when a closed path runs counter-clockwise (Green's theorem)."""
        ox, oy = self.start
        total = []
        for seg in self.segments:
            (x0, y0), (x1, y1) = seg.start, seg.end
            total.append(((x0 - ox) * (y1 - oy) - (x1 - ox) * (y0 - oy)) / 2)
            if isinstance(seg, Arc):
                sweep = seg.sweep
                piece = seg.radius**2 * (sweep - math.sin(sweep)) / 2
                total.append(piece if seg.ccw else -piece)
        return math.fsum(total)

    @property
    def box(self) -> tuple[float, float, float, float]:
        """The smallest upright box: x min, y min, x max, y max."""
        xs, ys = zip(*(p for seg in self.segments for p in _extremes(seg)), strict=True)
        return (min(xs), min(ys), max(xs), max(ys))

    def reversed(self) -> Path:
        """The same path, run the other way."""
        return Path(tuple(segment.reversed() for segment in reversed(self.segments)))

    def turned_to_start(self, index: int) -> Path:
        """The same closed path, begun at segment `index`."""
        return Path(self.segments[index:] + self.segments[:index])


@dataclass(frozen=True, slots=True)
class Region:
    """What lies inside `outer` (counter-clockwise) and outside every hole (clockwise)."""

    outer: Path
    holes: tuple[Path, ...] = ()

    @property
    def paths(self) -> tuple[Path, ...]:
        """The outer path, then the holes; the inside is on the left of each."""
        return (self.outer, *self.holes)

    @property
    def area(self) -> float:
        """In mm2."""
        return math.fsum(path.area for path in self.paths)


def circle(centre: Point, radius: float, *, ccw: bool = True) -> Path:
    """One full-circle path, begun at its rightmost point."""
    start = (centre[0] + radius, centre[1])
    return Path((Arc(start, start, centre, ccw),))


def polygon(points: Iterable[Point]) -> Path:
    """A closed path of straight lines through the points (the last one is joined to the first)."""
    corners = list(points)
    return Path(tuple(Line(a, b) for a, b in zip(corners, corners[1:] + corners[:1], strict=True)))


def from_bulges(rows: Sequence[tuple[float, float, float]], *, closed: bool = True) -> Path:
    """Rows (x, y, bulge) -> path. A bulge is tan(sweep / 4) of the piece that begins at its row,
    positive counter-clockwise, 0 for a line (the DXF definition)."""
    ends = [*rows[1:], rows[0]] if closed else rows[1:]
    segments: list[Segment] = []
    for (x0, y0, bulge), (x1, y1, _) in zip(rows, ends, strict=closed):
        if (x0, y0) == (x1, y1):
            continue
        if abs(bulge) * math.dist((x0, y0), (x1, y1)) / 2 < _FLAT:
            segments.append(Line((x0, y0), (x1, y1)))
            continue
        side = (1 / bulge - bulge) / 4
        centre = ((x0 + x1) / 2 - side * (y1 - y0), (y0 + y1) / 2 + side * (x1 - x0))
        segments.append(Arc((x0, y0), (x1, y1), centre, bulge > 0))
    return Path(tuple(segments))


def to_bulges(path: Path) -> tuple[tuple[float, float, float], ...]:
    """A path -> rows (x, y, bulge), as `from_bulges` takes them; a full circle becomes two rows."""
    rows: list[tuple[float, float, float]] = []
    for seg in path.segments:
        if isinstance(seg, Line):
            rows.append((*seg.start, 0.0))
            continue
        sign = 1 if seg.ccw else -1
        parts = 2 if seg.sweep > 1.9 * math.pi else 1
        bulge = sign * math.tan(seg.sweep / parts / 4)
        rows.extend((*(seg.point(k / parts) if k else seg.start), bulge) for k in range(parts))
    if not path.closed:
        rows.append((*path.end, 0.0))
    return tuple(rows)


def _extremes(seg: Segment) -> list[Point]:
    """The ends of a segment and the compass points that an arc passes."""
    points = [seg.start, seg.end]
    if isinstance(seg, Arc):
        first = math.atan2(seg.start[1] - seg.centre[1], seg.start[0] - seg.centre[0])
        for dx, dy, angle in ((1, 0, 0.0), (0, 1, 0.5), (-1, 0, 1.0), (0, -1, 1.5)):
            turn = (angle * math.pi - first) * (1 if seg.ccw else -1) % (2 * math.pi)
            if turn < seg.sweep:
                points.append((seg.centre[0] + dx * seg.radius, seg.centre[1] + dy * seg.radius))
    return points
