"""The first stretch of a path on which something holds, such as that a tool is in material."""

from __future__ import annotations

from collections.abc import Callable

__all__ = ["FINE", "Holds", "first_stretch"]

FINE = 1e-3
"""mm; so near the ends of a stretch are known."""

STEPS, LEAST = 64, 0.1
"""Into how many steps a path is divided at most, and how short they are at least, mm."""

Holds = Callable[[float, float], bool]
"""Whether something may hold anywhere between two portions of a path, 0 to 1; the shorter the piece
the surer. Whether it does hold at a single one."""


def first_stretch(holds: Holds, length: float) -> tuple[float, float] | None:
    """The portions of a path between which something first holds, None if it nowhere does. length:
    of the path, mm. A break that is shorter than a step doesn't end the stretch."""
    fine, step = FINE / max(length, FINE), max(1 / STEPS, LEAST / max(length, LEAST))
    first = _first(holds, (0.0, 1.0), fine)
    if first is None:
        return None
    last = first
    while last < 1.0:
        further = min(last + step, 1.0)
        if not holds(further, further):
            return first, _edge(holds, last, further, fine)
        last = further
    return first, 1.0


def _first(holds: Holds, piece: tuple[float, float], fine: float) -> float | None:
    """The first portion of a piece where it holds, or less than `fine` before it."""
    start, end = piece
    if not holds(start, end):
        return None
    if end - start <= fine:
        return start
    middle = (start + end) / 2
    first = _first(holds, (start, middle), fine)
    return _first(holds, (middle, end), fine) if first is None else first


def _edge(holds: Holds, inside: float, outside: float, fine: float) -> float:
    """Between one portion where it holds and one where it doesn't, the last where it does."""
    while outside - inside > fine:
        middle = (inside + outside) / 2
        if holds(middle, middle):
            inside = middle
        else:
            outside = middle
    return inside
