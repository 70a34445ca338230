"""Segments looked at along their way, and cut in two or three where that saves time."""

from __future__ import annotations

import itertools
import math
from collections.abc import Sequence

import numpy as np

from jawcam.geometry.carriers import Floats
from jawcam.geometry.shapes import Path

__all__ = ["ALIKE", "SHORTEST", "marks_along", "pieces"]

ALIKE = 1.1
"""Times a feed: what differs by less is taken for the same."""

Cuts = tuple[int, ...]

SHORTEST = 0.125
"""Cutter radii: no block is cut into shorter pieces."""


def marks_along(path: Path, radius: float) -> list[list[float]]:
    """The places along each segment (mm) at which its bite is asked for: its ends, and no more than
    half the cutter's radius apart."""
    found = []
    for segment in path.segments:
        steps = max(1, math.ceil(2 * segment.length / radius))
        found.append([segment.length * k / steps for k in range(steps + 1)])
    return found


def pieces(
    marks: Sequence[float], feeds: Sequence[float], radius: float
) -> list[tuple[float, float, float]]:
    """A segment as one piece, two or three: from, to (mm along it) and feed of each; more of them
    where that saves enough time."""
    places, spans = np.array(marks), np.minimum(feeds[:-1], feeds[1:])
    cuts: Cuts = (0, len(spans))
    if spans.max() > ALIKE * spans.min():
        best = places[-1] / spans.min()
        for options in _cuts(places, spans, radius):
            time, some = min(options, default=(best, cuts))
            if best > ALIKE * time:
                best, cuts = time, some
    return [(marks[i], marks[j], float(spans[i:j].min())) for i, j in itertools.pairwise(cuts)]


def _cuts(
    marks: Floats, spans: Floats, radius: float
) -> tuple[list[tuple[float, Cuts]], list[tuple[float, Cuts]]]:
    """The ways to cut a segment in two near an end, and in three near both: the minutes that each
    takes, and the numbers of the marks that it is cut at, the ends' included. spans: the feed
    between a mark and the next."""
    last, length, least = len(spans), float(marks[-1]), SHORTEST * radius
    free = (marks >= least) & (marks <= length - least)
    heads = np.flatnonzero(free & (marks <= 2 * radius)).tolist()
    tails = np.flatnonzero(free & (marks >= length - 2 * radius)).tolist()
    before = (marks[1:] / np.minimum.accumulate(spans)).tolist()
    after = ((length - marks[-2::-1]) / np.minimum.accumulate(spans[::-1])).tolist()[::-1]
    either = dict.fromkeys((*heads, *tails))
    twos: list[tuple[float, Cuts]] = [(before[i - 1] + after[i], (0, i, last)) for i in either]
    threes: list[tuple[float, Cuts]] = []
    for i in heads:
        between = (marks[i + 1 :] - marks[i]) / np.minimum.accumulate(spans[i:])
        for j in tails:
            if marks[j] - marks[i] >= least:
                time = before[i - 1] + float(between[j - i - 1]) + after[j]
                threes.append((time, (0, i, j, last)))
    return twos, threes
