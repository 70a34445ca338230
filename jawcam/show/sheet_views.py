"""The drawings of a setup sheet as one of several arrangements."""

from __future__ import annotations

from collections.abc import Callable
from typing import NamedTuple

from matplotlib.axes import Axes
from matplotlib.figure import Figure

__all__ = ["Views"]


class Views(NamedTuple):
    """Drawings that take `high` mm across the page; free: the width and the height of what they
    leave in the lower right corner of that; draw: with the lower left corner of all of it at a
    point of the page."""

    high: float
    free: tuple[float, float]
    draw: Callable[[Figure, Axes, tuple[float, float]], None]
