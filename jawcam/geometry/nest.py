"""pyclipper's tree of contours -> exact regions with their holes."""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import Any

import pyclipper

from jawcam.geometry.flatten import SCALE
from jawcam.geometry.recover import recover
from jawcam.geometry.shapes import Path, Region
from jawcam.geometry.source import Source

__all__ = ["regions_of"]

SLIGHT = 0.05
"""mm2; contours with less area are looked at twice."""

SPECK = 1e-5
"""mm2; a contour with less area is what integer rounding leaves where edges coincide."""


def regions_of(source: Source, tree: Any) -> tuple[Region, ...]:  # noqa: ANN401 (pyclipper is untyped)
    """The tree's outer contours with their holes, largest first; islands in holes are regions of
    their own. The order depends on the geometry alone."""
    found = []
    for node in _outers(tree):
        outer = _path(source, node.Contour)
        if outer is not None:
            holes = [_path(source, child.Contour) for child in node.Childs]
            region = Region(outer, tuple(hole for hole in holes if hole is not None))
            found.append((-pyclipper.Area(node.Contour), outer.start, region))
    return tuple(region for _, _, region in sorted(found, key=lambda entry: entry[:2]))


def _outers(tree: Any) -> Iterator[Any]:  # noqa: ANN401
    waiting = list(tree.Childs)
    while waiting:
        node = waiting.pop()
        yield node
        for hole in node.Childs:
            waiting.extend(hole.Childs)


def _path(source: Source, contour: list[list[int]]) -> Path | None:
    area = pyclipper.Area(contour) / SCALE**2
    if abs(area) < SPECK:
        return None
    path = recover(source, contour)
    # what is but a thread in exact pieces too would turn later offsets inside out
    if path is not None and abs(area) < SLIGHT and path.area * math.copysign(1, area) < SPECK:
        return None
    return path
