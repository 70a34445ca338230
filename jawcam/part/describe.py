"""An outline in words: what it holds and what limits a cutter there."""

from __future__ import annotations

from collections.abc import Iterator

from jawcam.geometry.shapes import Arc, Path
from jawcam.part.outline import (
    Outline,
    Tightest,
    sharp_corners,
    tightest_inside_radius,
    tightest_outside_radius,
)
from jawcam.units import Units

__all__ = ["describe"]

_LISTED = 12  # corners or loops; more are only counted


def describe(outline: Outline) -> Iterator[str]:
    """Lines of text, lengths and places in the drawing's units."""
    units = outline.units
    left, low, right, high = outline.outer.box
    yield f"{outline.source}: silhouette {units.say(right - left)} by {units.say(high - low)}"
    yield f"  from {units.point(left, low)} to {units.point(right, high)}"
    yield f"  {_pieces(outline.outer)}, {units.say(outline.outer.length)} round"
    yield f"  tightest inside radius: {_radius(tightest_inside_radius(outline), units)}"
    yield f"  tightest outside radius: {_radius(tightest_outside_radius(outline), units)}"
    corners = sharp_corners(outline)
    for inside, name in ((True, "inside"), (False, "outside")):
        found = [corner for corner in corners if corner.inside == inside]
        yield f"  sharp {name} corners: {len(found) or 'none'}"
        for corner in found[:_LISTED]:
            yield f"    {units.point(*corner.at)}, turning {corner.turn:.1f} degrees"
        yield from _more(len(found))
    if outline.holes:
        yield f"inner loops: {len(outline.holes)}"
    for hole in outline.holes[:_LISTED]:
        yield f"    {_loop(hole, units)}"
    yield from _more(len(outline.holes))
    for note in outline.notes:
        yield f"note: {note}"


def _pieces(path: Path) -> str:
    arcs = sum(isinstance(segment, Arc) for segment in path.segments)
    lines = len(path.segments) - arcs
    parts = [(lines, "line"), (arcs, "arc")]
    return ", ".join(f"{count} {word}{'s' * (count > 1)}" for count, word in parts if count)


def _radius(found: Tightest | None, units: Units) -> str:
    if found is None:
        return "no arc"
    return f"{units.say(found.radius)} at {units.point(*found.at)}"


def _loop(path: Path, units: Units) -> str:
    first = path.segments[0]
    if isinstance(first, Arc) and len(path.segments) == 1:
        return f"circle, dia {units.say(2 * first.radius)}, centre {units.point(*first.centre)}"
    left, low, right, high = path.box
    return f"{_pieces(path)}, from {units.point(left, low)} to {units.point(right, high)}"


def _more(count: int) -> Iterator[str]:
    if count > _LISTED:
        yield f"    and {count - _LISTED} more"
