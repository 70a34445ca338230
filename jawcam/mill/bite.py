"""How much a cutter bites off along a path."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from jawcam.geometry.carriers import Floats
from jawcam.geometry.cut import along
from jawcam.geometry.measure import distances, inside_distances
from jawcam.geometry.shapes import Path, Region

__all__ = ["CORNER", "Cleared", "Front", "bites", "front"]

CORNER = 1.5
"""Times the bite asked for along a wall that is cut at the full feed still, and of which a wall
needs no steps (common practice, no source)."""

FRONT = 25
"""Places of the cutter's front edge at which it is asked whether they meet fresh material."""

CHUNK = 16
"""Points in a row whose fronts are looked at together, so that only what is near them counts."""


FAR = 1e6
"""mm; off what is cleared, where nothing is."""


@dataclass(frozen=True)
class Cleared:
    """Where a cutter of `radius` has been: its centre was everywhere in `centre`, and all along
    `ways`."""

    centre: tuple[Region, ...]
    radius: float
    ways: tuple[Path, ...] = ()


def bites(path: Path, radius: float, cleared: Sequence[Cleared]) -> list[float]:
    """The widest bite (mm, at most the cutter's diameter) along each segment of a path.

    Beside a place where a cutter of radius r has been, the cutter's edge reaches
    radius + distance - r into fresh material, measured across the path; the bound is exact where
    the two run side by side. With several such places the least bite counts.
    """
    spans = [along(segment, radius / 2) for segment in path.segments]
    points = np.array([p for span in spans for p in span])
    reach = _beyond(points, cleared) + radius
    least = np.clip(reach, 0.0, 2 * radius)
    ends = np.cumsum([len(span) for span in spans])
    return [float(part.max()) for part in np.split(least, ends[:-1])]


@dataclass(frozen=True)
class Front:
    """The front edge of a cutter that goes on from some points: `FRONT` places of it each. points:
    (n, 2); edge: (n, FRONT, 2); across: how far each lies beside the way, to the left; beyond: how
    far outside of what was cleared before, (n, FRONT), negative within it; all in mm."""

    radius: float
    points: Floats
    edge: Floats
    across: Floats
    beyond: Floats

    def rows(self, first: int, last: int) -> Front:
        """Those of some of the points."""
        some = slice(first, last)
        return Front(
            self.radius, self.points[some], self.edge[some], self.across, self.beyond[some]
        )

    def after(self, area: Cleared) -> Front:
        """The same, with what another cutter has cleared too.

        A place is cleared if it lies no farther than that cutter's radius from the border of where
        its centre was; beyond that on the inner side of the border only where the front's own
        centre is inside too, and then all of the front is cleared by a cutter as large.
        """
        beyond, rows = self.beyond.copy(), np.arange(len(self.points))
        if area.centre:
            inside = inside_distances(area.centre, self.points) >= 0
            if area.radius < self.radius and inside.any():
                apart = np.maximum(-inside_distances(area.centre, self.edge.reshape(-1, 2)), 0.0)
                gaps = (apart - area.radius).reshape(-1, FRONT)
                return replace(self, beyond=np.minimum(beyond, gaps))
            beyond[inside] = -area.radius
            rows = np.flatnonzero(~inside)
        paths = [*(path for region in area.centre for path in region.paths), *area.ways]
        segments = [segment for path in paths for segment in path.segments]
        boxes = np.array([Path((segment,)).box for segment in segments]).reshape(-1, 4)
        for first in range(0, len(rows), CHUNK):
            some = rows[first : first + CHUNK]
            edge = self.edge[some].reshape(-1, 2)
            low, high = edge.min(axis=0) - area.radius, edge.max(axis=0) + area.radius
            near = (boxes[:, :2] <= high).all(axis=1) & (boxes[:, 2:] >= low).all(axis=1)
            close = [Path((segments[k],)) for k in np.flatnonzero(near)]
            gaps = (distances(close, edge) - area.radius).reshape(len(some), FRONT)
            beyond[some] = np.minimum(beyond[some], gaps)
        return replace(self, beyond=beyond)

    @property
    def widths(self) -> Floats:
        """How wide the cutter bites at each point, in mm: what of its front lies outside of the
        cleared, seen along the way. That is r (1 - cos of the engaged angle), in corners and on
        arcs too."""
        first, last = self.beyond[:, :-1], self.beyond[:, 1:]
        # of each stretch of the front what lies outside, as if the distance ran evenly along it
        over = np.maximum(first, 0) + np.maximum(last, 0)
        share = over / np.maximum(np.abs(first) + np.abs(last), 1e-12)
        widths: Floats = (share * np.diff(self.across)).sum(axis=1)
        return widths


def front(points: Floats, headings: Floats, radius: float) -> Front:
    """That of a cutter at points (n, 2), going on in the unit directions `headings` (n, 2), where
    nothing is cleared."""
    angles = np.linspace(-np.pi / 2, np.pi / 2, FRONT)
    across, ahead = radius * np.sin(angles)[:, None], radius * np.cos(angles)[:, None]
    left = np.stack((-headings[:, 1], headings[:, 0]), axis=1)
    edge = points[:, None] + across * left[:, None] + ahead * headings[:, None]
    beyond = np.full((len(points), FRONT), FAR)
    return Front(radius, points, edge, across[:, 0], beyond)


def _beyond(points: Floats, cleared: Sequence[Cleared]) -> Floats:
    """How far each point lies outside of what is cleared, mm; negative within it."""
    least = np.full(len(points), FAR)
    for area in cleared:
        if area.centre:
            apart = np.maximum(-inside_distances(area.centre, points), 0.0)
            least = np.minimum(least, apart - area.radius)
    return least
