"""Where two fronts come together: a pass that follows the one would bite into the other as well."""

from __future__ import annotations

import math
from collections.abc import Sequence

import numpy as np

from jawcam.geometry.cut import along
from jawcam.geometry.rim import portion
from jawcam.geometry.shapes import Path, Segment
from jawcam.geometry.uncut import Front, Lump, overlap, without

__all__ = ["held"]

WINDOW = 0.25
"""Radii of way over which a bite is looked at."""


def held(
    path: Path, others: Sequence[Front], uncut: Sequence[Lump], radius: float, most: float
) -> Path | None:
    """A path as far as it bites off no more than `most` mm of anything; None if it does so from
    its beginning. It is looked at only where the cutter reaches one of the other fronts."""
    if not _reaches(path, others, radius):
        return path
    left = tuple(uncut)
    kept: list[Segment] = []
    for piece in path.segments:
        count = max(1, math.ceil(piece.length / (WINDOW * radius)))
        for k in range(count):
            part = portion(piece, piece.length * k / count, piece.length * (k + 1) / count)
            points = along(part, part.length / 3)
            bite = overlap(left, points, radius) / max(part.length, WINDOW * radius)
            if bite > most:
                kept += [portion(piece, 0.0, piece.length * k / count)] if k else []
                return Path(tuple(kept)) if kept else None
            left = without(left, points, radius)
        kept.append(piece)
    return path


def _reaches(path: Path, others: Sequence[Front], radius: float) -> bool:
    """Whether the cutter gets to the points of any other front on its way."""
    if not others:
        return False
    far = np.array([point for one in others for point in one.points])
    way = np.array([p for piece in path.segments for p in along(piece, radius / 4)])
    square = ((far[:, None, :] - way[None, :, :]) ** 2).sum(axis=2)
    return bool((square < (radius * 0.999) ** 2).any())
