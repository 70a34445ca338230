"""Dashes cut out of a path by its length, so that each can have the colour of its own depth.

A line type of the drawing library begins anew at every change of colour and would never come to
its first gap on a helix.
"""

from __future__ import annotations

import numpy as np

from jawcam.show.arrays import Floats

__all__ = ["dashed"]


def dashed(
    points: Floats, across: tuple[int, int], dash: float, gap: float
) -> tuple[list[Floats], Floats]:
    """A polyline (n, 3) as seen in a view, cut into dashes -> their points, (k, 2) each, and the
    Z of their middles.

    across: the numbers of the axes that lie across and up; dash, gap: lengths in that view. A
    dash stands at either end; the dashes are stretched a little to come out even. A polyline seen
    end on gives none.
    """
    seen = points[:, across]
    steps = np.hypot(*np.diff(seen, axis=0).T)
    whole = float(steps.sum())
    if whole == 0:
        return [], np.zeros(0)
    walked = np.concatenate([[0.0], np.cumsum(steps)])
    count = max(round((whole + gap) / (dash + gap)), 1)
    length = (whole - (count - 1) * gap) / count
    begin: Floats = np.arange(count, dtype=np.float64) * (length + gap)
    end: Floats = np.minimum(begin + length, whole)
    end[-1] = whole
    heads, tails = _at(seen, walked, begin), _at(seen, walked, end)
    first, last = np.searchsorted(walked, begin, "right"), np.searchsorted(walked, end, "left")
    lines = [
        np.vstack([heads[k : k + 1], seen[first[k] : last[k]], tails[k : k + 1]])
        for k in range(count)
    ]
    return lines, np.interp((begin + end) / 2, walked, points[:, 2])


def _at(seen: Floats, walked: Floats, lengths: Floats) -> Floats:
    """The points at the given lengths along the line; its ends exactly."""
    return np.column_stack([np.interp(lengths, walked, seen[:, axis]) for axis in (0, 1)])
