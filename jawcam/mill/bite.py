"""How much a cutter bites off along a path, and the feed that it then gets."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from jawcam.geometry.cut import along
from jawcam.geometry.measure import inside_distances
from jawcam.geometry.shapes import Path, Region

__all__ = ["Cleared", "bites", "feeds_for"]

CORNER = 1.5
"""Times the bite asked for that is cut at the full feed still: every ring bites 1.41 times its
stepover for a moment in a square corner (common practice, no source)."""


@dataclass(frozen=True)
class Cleared:
    """Where a cutter of `radius` has been: its centre was everywhere in `centre`."""

    centre: tuple[Region, ...]
    radius: float


def bites(path: Path, radius: float, cleared: Sequence[Cleared]) -> list[float]:
    """The widest bite (mm, at most the cutter's diameter) along each segment of a path.

    Beside a place where a cutter of radius r has been, the cutter's edge reaches
    radius + distance - r into fresh material, measured across the path; the bound is exact where
    the two run side by side. With several such places the least bite counts.
    """
    spans = [along(segment, radius / 2) for segment in path.segments]
    points = np.array([p for span in spans for p in span])
    least = np.full(len(points), 2 * radius)
    for area in cleared:
        if area.centre:
            apart = np.maximum(-inside_distances(area.centre, points), 0.0)
            least = np.minimum(least, np.maximum(radius + apart - area.radius, 0.0))
    ends = np.cumsum([len(span) for span in spans])
    return [float(part.max()) for part in np.split(least, ends[:-1])]


def feeds_for(
    widths: Sequence[float], asked: float, dia: float, feed: float, slot_feed: float
) -> list[float]:
    """The feed for each bite: `feed` up to about the bite asked for, `slot_feed` at the full
    diameter, evenly less in between (common practice, no source)."""
    usual = CORNER * asked
    span = max(dia - usual, 1e-9)
    shares = [min(max((width - usual) / span, 0.0), 1.0) for width in widths]
    return [round(feed + (slot_feed - feed) * share, 1) for share in shares]
