"""Cuts -> columns of numbers, so that a hundred thousand of them are drawn in a moment."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import chain
from typing import Any

import numpy as np
import numpy.typing as npt

from jawcam.reader.cuts import Cut

__all__ = ["Bools", "Floats", "Ints", "Moves", "columns"]

Floats = npt.NDArray[np.float64]
Ints = npt.NDArray[np.integer[Any]]
Bools = npt.NDArray[np.bool_]

SAME_LEVEL = 1e-6
"""mm; a move that rises or falls by less stays level."""

PLANE_AXES = {"XY": (0, 1, 2), "XZ": (2, 0, 1), "YZ": (1, 2, 0)}
"""The plane's first and second axis and the third one, as a right-handed set each."""

SIDES = {"off": 0, "left": 1, "right": -1}


@dataclass(frozen=True)
class Moves:
    """A program's moves by column, in mm, one row each.

    start, end: (n, 3); an axis not yet told stands where it first goes, one never told at 0.
    rapid, arc: which rows are such. centre: (n, 2), turn: radians, axes: (n, 3) numbers of the
    plane's axes, all three for arcs only. feed: mm/min. side: 1 left, -1 right, 0 off.
    """

    start: Floats
    end: Floats
    rapid: Bools
    arc: Bools
    centre: Floats
    turn: Floats
    axes: Ints
    feed: Floats
    side: Ints

    @property
    def rise(self) -> Floats:
        """Z at the end less Z at the start."""
        return self.end[:, 2] - self.start[:, 2]

    @property
    def level(self) -> Bools:
        """Which rows keep their Z all the way; an arc that stands upright doesn't."""
        same: Bools = np.abs(self.rise) < SAME_LEVEL
        return np.logical_and(same, ~self.upright)

    @property
    def upright(self) -> Bools:
        """Which rows are arcs in an upright plane."""
        standing: Bools = self.arc & (self.axes[:, 2] != 2)
        return standing

    @property
    def length(self) -> Floats:
        """Of each path. An arc's radius is the mean of those at its start and end."""
        straight = np.linalg.norm(self.end - self.start, axis=1)
        rows = np.arange(len(straight))
        third = self.axes[:, 2]
        along = self.end[rows, third] - self.start[rows, third]
        first, last = self.radii
        return np.where(self.arc, np.hypot((first + last) / 2 * self.turn, along), straight)

    @property
    def radii(self) -> tuple[Floats, Floats]:
        """From the centre to the start and to the end; meaningless for straight moves."""
        rows = np.arange(len(self.start))[:, None]
        plane = self.axes[:, :2]
        first = np.linalg.norm(self.start[rows, plane] - self.centre, axis=1)
        last = np.linalg.norm(self.end[rows, plane] - self.centre, axis=1)
        return first, last


def columns(cuts: Sequence[Cut]) -> Moves:
    """Cuts, at least one -> columns."""
    start = _rows((cut.start for cut in cuts), 3, len(cuts))
    end = _rows((cut.end for cut in cuts), 3, len(cuts))
    _fill_unknown(start, end)
    return Moves(
        start=start,
        end=end,
        rapid=_column((cut.kind == "rapid" for cut in cuts), np.bool_, len(cuts)),
        arc=_column(
            (cut.kind == "arc" and cut.centre is not None for cut in cuts), np.bool_, len(cuts)
        ),
        centre=_rows((cut.centre or (0.0, 0.0) for cut in cuts), 2, len(cuts)),
        turn=_column((cut.turn for cut in cuts), np.float64, len(cuts)),
        axes=_axes(cuts),
        feed=_column((cut.feed for cut in cuts), np.float64, len(cuts)),
        side=_column((SIDES[cut.side] for cut in cuts), np.int8, len(cuts)),
    )


def _column(values: Iterable[Any], kind: type[np.generic], count: int) -> Any:  # noqa: ANN401
    """Read straight into the array: a million of them never stand in a list."""
    return np.fromiter(values, kind, count)


def _rows(values: Iterable[Sequence[float]], wide: int, count: int) -> Floats:
    flat = np.fromiter(chain.from_iterable(values), np.float64, wide * count)
    return flat.reshape(count, wide)


def _axes(cuts: Sequence[Cut]) -> Ints:
    planes = list(PLANE_AXES)
    table = np.array([PLANE_AXES[plane] for plane in planes], dtype=np.int8)
    chosen = _column((planes.index(cut.plane) for cut in cuts), np.int8, len(cuts))
    axes: Ints = table[chosen]
    return axes


def _fill_unknown(start: Floats, end: Floats) -> None:
    """Fill each unknown coordinate with the next known one, else the last known, else 0."""
    for axis in range(3):
        if not (np.isnan(start[:, axis]).any() or np.isnan(end[:, axis]).any()):
            continue
        row = np.column_stack([start[:, axis], end[:, axis]]).reshape(-1)
        known = np.flatnonzero(~np.isnan(row))
        if len(known) == 0:
            row = np.zeros_like(row)
        else:
            place = np.searchsorted(known, np.arange(len(row)))
            row = row[known[np.minimum(place, len(known) - 1)]]
        start[:, axis], end[:, axis] = row.reshape(-1, 2).T
