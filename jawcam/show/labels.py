"""Finding room for labels: spread along a line, or beside a point where nothing is yet."""

from __future__ import annotations

from collections.abc import Sequence

from jawcam.show.page import Box

__all__ = ["overlap", "place", "spread"]


def spread(wished: Sequence[float], gap: float, low: float, high: float) -> list[float]:
    """Positions as near as possible to the wished ones, in the same order along the line, at
    least `gap` apart (closer only where `low` to `high` is too short for all).
    """
    if not wished:
        return []
    order = sorted(range(len(wished)), key=lambda i: wished[i])
    if len(wished) > 1:
        gap = min(gap, (high - low) / (len(wished) - 1))
    blocks: list[tuple[float, int]] = []
    for i in order:
        middle, count = _held(wished[i], 1, gap, low, high), 1
        while blocks and blocks[-1][0] + (blocks[-1][1] + count) * gap / 2 > middle:
            before, size = blocks.pop()
            middle = (before * size + middle * count) / (size + count)
            count += size
            middle = _held(middle, count, gap, low, high)
        blocks.append((middle, count))
    settled = [
        middle + (k - (count - 1) / 2) * gap for middle, count in blocks for k in range(count)
    ]
    result = [0.0] * len(wished)
    for i, value in zip(order, settled, strict=True):
        result[i] = value
    return result


def overlap(a: Box, b: Box) -> bool:
    """Whether two boxes share any ground."""
    return a.x < b.right and b.x < a.right and a.y < b.top and b.y < a.top


def place(size: tuple[float, float], spots: Sequence[tuple[float, float]], taken: list[Box]) -> Box:
    """The first of the spots (middle of a label of that size) where nothing is yet, else the last
    one; it counts as taken from then on.
    """
    wide, high = size
    boxes = [Box(x - wide / 2, y - high / 2, wide, high) for x, y in spots]
    chosen = next((b for b in boxes if not any(overlap(b, t) for t in taken)), boxes[-1])
    taken.append(chosen)
    return chosen


def _held(middle: float, count: int, gap: float, low: float, high: float) -> float:
    """The middle of a block of labels, moved so that all of it lies between low and high."""
    half = (count - 1) * gap / 2
    return min(max(middle, low + half), high - half)
