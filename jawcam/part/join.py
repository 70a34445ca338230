"""Loose lines and arcs, in any order and direction, joined end to end."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace

from jawcam.geometry.shapes import Arc, Line, Path, Point, Segment

__all__ = ["Joined", "join"]

_SAME = 1e-6  # mm; ends and segments this near to each other were meant to be the same
_EXACT = 1e-9  # mm; moved by less than this, an arc keeps its centre
_CELL = 1e-3  # mm; the grid that doubled segments are looked up in


@dataclass(frozen=True)
class Joined:
    """closed, open: the paths found, exactly continuous; forks: the points in mm where more than
    two ends lie together, and nothing was joined; notes: what was dropped or done otherwise.
    """

    closed: tuple[Path, ...]
    open: tuple[Path, ...]
    forks: tuple[Point, ...]
    notes: tuple[str, ...] = ()


def join(pieces: Iterable[Segment | Path], tolerance: float) -> Joined:
    """Join the pieces whose ends lie within `tolerance` mm of each other.

    A path given as a piece keeps its inner joints; only its two ends are joined. Ends that agree
    to 1e-6 mm are joined first, so that short pieces which fit are not in the way of those that
    leave gaps. Joined ends are then moved onto one point: a line's end to an arc's, otherwise
    both half-way. Pieces of no length and doubled segments (also run the other way) are dropped.
    Beside a piece with a loose end the tolerance stays below half of the piece's length, lest it
    be closed on itself.
    """
    chains, notes = _cleaned(pieces)
    loops = tuple(chain for chain in chains if chain.closed)
    exact = _link([chain for chain in chains if not chain.closed], _SAME)
    short = [path.length for path in exact.open if path.length < 2 * tolerance]
    if short:
        notes.append(
            f"beside {len(short)} loose pieces shorter than {2 * tolerance:g} mm, gaps are only "
            f"closed up to half of their length (the shortest: {min(short):.6f} mm)"
        )
    loose = _link(exact.open, tolerance)
    return Joined(loops + exact.closed + loose.closed, loose.open, loose.forks, tuple(notes))


# --- what to leave out -----------------------------------------------------------------------


def _cleaned(pieces: Iterable[Segment | Path]) -> tuple[list[Path], list[str]]:
    """The pieces as paths, without what has no length and what was there already."""
    runs: list[list[Segment]] = []
    known: dict[tuple[int, int], list[Segment]] = {}
    empty = doubled = 0
    for piece in pieces:
        runs.append([])
        for segment in piece.segments if isinstance(piece, Path) else (piece,):
            if segment.length == 0:
                empty += 1
            elif _seen(segment, known):
                doubled += 1
                runs.append([])
            else:
                runs[-1].append(segment)
    chains = [Path(tuple(run)) for run in runs if run]
    long = [chain for chain in chains if chain.length > 2 * _SAME]
    empty += len(chains) - len(long)
    notes = []
    if empty:
        notes.append(f"dropped {empty} without length")
    if doubled:
        notes.append(f"dropped {doubled} drawn twice")
    return long, notes


def _seen(segment: Segment, known: dict[tuple[int, int], list[Segment]]) -> bool:
    """Whether the same segment was met before, in either direction; files it if not."""
    x, y = _key(segment)
    cells = {
        (math.floor((x + dx) / _CELL), math.floor((y + dy) / _CELL))
        for dx in (-_SAME, _SAME)
        for dy in (-_SAME, _SAME)
    }
    if any(_same(segment, other) for cell in cells for other in known.get(cell, ())):
        return True
    known.setdefault((math.floor(x / _CELL), math.floor(y / _CELL)), []).append(segment)
    return False


def _key(segment: Segment) -> Point:
    if isinstance(segment, Line):
        return (
            (segment.start[0] + segment.end[0]) / 2,
            (segment.start[1] + segment.end[1]) / 2,
        )
    return segment.centre if segment.start == segment.end else segment.point(0.5)


def _same(a: Segment, b: Segment) -> bool:
    """Whether two segments whose keys agree are the same."""
    if isinstance(a, Arc) != isinstance(b, Arc) or math.dist(_key(a), _key(b)) > _SAME:
        return False
    if isinstance(a, Arc) and isinstance(b, Arc) and a.start == a.end and b.start == b.end:
        return abs(a.radius - b.radius) <= _SAME
    return any(
        math.dist(a.start, start) <= _SAME and math.dist(a.end, end) <= _SAME
        for start, end in ((b.start, b.end), (b.end, b.start))
    )


# --- joining ---------------------------------------------------------------------------------
# End number 2 k is where chain k begins, 2 k + 1 where it ends.


def _link(chains: Sequence[Path], reach: float) -> Joined:
    """Join chains whose ends are within reach, two by two."""
    ends = [end for chain in chains for end in (chain.start, chain.end)]
    reaches = [min(reach, 0.499 * chain.length) for chain in chains for _ in range(2)]
    partner: dict[int, int] = {}
    moved = list(ends)
    forks = []
    for cluster in _clusters(ends, reaches):
        if len(cluster) == 2:
            a, b = cluster
            partner[a], partner[b] = b, a
            moved[a] = moved[b] = _common(_last(chains, a), _last(chains, b), ends[a], ends[b])
        elif len(cluster) > 2:
            xs, ys = zip(*(ends[end] for end in cluster), strict=True)
            forks.append((sum(xs) / len(xs), sum(ys) / len(ys)))
    fitted = [_between(c, moved[2 * k], moved[2 * k + 1]) for k, c in enumerate(chains)]
    loose = [end for end in range(len(ends)) if end not in partner]
    done: set[int] = set()
    lines = list(_walks(fitted, partner, loose, done))
    loops = list(_walks(fitted, partner, range(0, len(ends), 2), done))
    return Joined(tuple(loops), tuple(lines), tuple(forks))


def _clusters(ends: Sequence[Point], reaches: Sequence[float]) -> Iterator[list[int]]:
    """The ends in groups that hang together by steps within reach; a grid finds neighbours."""
    cell_size = max(reaches, default=1.0)
    cells: dict[tuple[int, int], list[int]] = {}
    parent = list(range(len(ends)))

    def root(k: int) -> int:
        while parent[k] != k:
            parent[k] = parent[parent[k]]
            k = parent[k]
        return k

    for k, (x, y) in enumerate(ends):
        i, j = math.floor(x / cell_size), math.floor(y / cell_size)
        for cell in ((i + di, j + dj) for di in (-1, 0, 1) for dj in (-1, 0, 1)):
            for other in cells.get(cell, ()):
                if math.dist(ends[other], ends[k]) <= min(reaches[k], reaches[other]):
                    parent[root(k)] = root(other)
        cells.setdefault((i, j), []).append(k)
    groups: dict[int, list[int]] = {}
    for k in range(len(ends)):
        groups.setdefault(root(k), []).append(k)
    yield from groups.values()


def _walks(
    chains: Sequence[Path], partner: dict[int, int], firsts: Iterable[int], done: set[int]
) -> Iterator[Path]:
    """Whole paths from each first end on, as far as chains not yet done are joined to it."""
    for first in firsts:
        segments: list[Segment] = []
        end = first
        while end // 2 not in done:
            done.add(end // 2)
            chain = chains[end // 2]
            segments += (chain if end % 2 == 0 else chain.reversed()).segments
            end = partner.get(end ^ 1, end)
        if segments:
            yield Path(tuple(segments))


# --- moving ends onto each other -------------------------------------------------------------


def _last(chains: Sequence[Path], end: int) -> Segment:
    return chains[end // 2].segments[0 if end % 2 == 0 else -1]


def _common(a: Segment, b: Segment, at_a: Point, at_b: Point) -> Point:
    """The point that two ends are moved to: the one of the stiffer segment, or half-way."""
    if at_a == at_b or _stiffness(a) > _stiffness(b):
        return at_a
    if _stiffness(b) > _stiffness(a):
        return at_b
    return ((at_a[0] + at_b[0]) / 2, (at_a[1] + at_b[1]) / 2)


def _stiffness(segment: Segment) -> int:
    """A line's end moves freely, an arc's moves its centre, most so if it is nearly a circle."""
    if isinstance(segment, Line):
        return 0
    return 2 if math.dist(segment.start, segment.end) < segment.radius / 4 else 1


def _between(path: Path, start: Point, end: Point) -> Path:
    """The path with its ends moved to the points given."""
    segments = list(path.segments)
    segments[0] = _moved(segments[0], start, segments[0].end)
    segments[-1] = _moved(segments[-1], segments[-1].start, end)
    return Path(tuple(segments))


def _moved(segment: Segment, start: Point, end: Point) -> Segment:
    """The segment with its ends moved; an arc's centre goes the shortest way to being as far from
    one as from the other.
    """
    if (start, end) == (segment.start, segment.end):
        return segment
    if isinstance(segment, Line):
        return Line(start, end)
    shift = math.dist(start, segment.start) + math.dist(end, segment.end)
    if shift <= _EXACT or start == end:
        return replace(segment, start=start, end=end)
    (x0, y0), (x1, y1), (cx, cy) = start, end, segment.centre
    ux, uy = x1 - x0, y1 - y0
    off = ((cx - (x0 + x1) / 2) * ux + (cy - (y0 + y1) / 2) * uy) / (ux * ux + uy * uy)
    return Arc(start, end, (cx - off * ux, cy - off * uy), segment.ccw)
