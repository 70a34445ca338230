"""Levels side by side: what is cut at each height, in plan."""

from __future__ import annotations

import itertools
import math
from collections.abc import Sequence
from typing import NamedTuple, TypeVar

import numpy as np
import shapely
from matplotlib.axes import Axes
from matplotlib.figure import Figure

from jawcam.show.amiss import Amiss
from jawcam.show.amiss_marks import draw_amiss
from jawcam.show.flags import Flag, draw_flags
from jawcam.show.lettering import line_height, put
from jawcam.show.page import Box, Pads, View, view
from jawcam.show.path import draw_path
from jawcam.show.picture import Picture
from jawcam.show.scene import Scene
from jawcam.show.shapes import hatched, outline
from jawcam.show.style import HATCHES, HEAD, INK, NARROW, PART, PART_LINE
from jawcam.show.trace import ENTRY, FEED, Strands

__all__ = ["Level", "draw_levels", "levels_of", "levels_said"]

_T = TypeVar("_T")

MOST = 12
"""So many levels are drawn, the highest and the deepest and those with something amiss or a finding
first."""

SAME = 1e-5
"""Heights nearer to each other than this, in the picture's units, are one."""

PASSING = 0.05
"""Where less is cut along than this share of what is at the fullest level, the path only passes."""

GAP = 3.0
"""mm between two of them."""

FLAGS = 9.0
"""mm over the path for the flags of findings."""


class Level(NamedTuple):
    """The path at a height and on its way down to it, and what is amiss and found nearest to it."""

    z: float
    path: tuple[Strands, ...]
    amiss: Amiss
    flags: tuple[Flag, ...] = ()


def levels_of(shown: Picture, flags: Sequence[Flag] = ()) -> tuple[list[Level], int]:
    """The levels that are drawn of a path, the highest first, and how many it has. Where it only
    passes at a height, on its way from one cut to the next, that is drawn with the level below."""
    heights = _cut_heights(shown)
    if not heights:
        return [], 0
    placed = [flag for flag in flags if flag.at is not None and flag.z is not None]
    left = _nearest([(patch.z, patch) for patch in shown.amiss.left], heights)
    gouged = _nearest([(patch.z, patch) for patch in shown.amiss.gouged], heights)
    found = _nearest([(flag.z or 0.0, flag) for flag in placed], heights)
    nothing = Strands((), np.zeros(0))
    rows = []
    for k, z in enumerate(heights):
        ceiling = heights[k - 1] - SAME if k else np.inf
        ground = z - SAME if k + 1 < len(heights) else -np.inf
        path = [nothing, nothing, nothing]
        for look in (FEED, ENTRY):
            path[look] = _those(shown.path[look], ground, ceiling)
        amiss = Amiss(tuple(left[k]), tuple(gouged[k]))
        rows.append(Level(z, tuple(path), amiss, tuple(found[k])))
    return _chosen(rows), len(rows)


def levels_said(drawn: int, count: int) -> str:
    """How many of them are drawn, in words."""
    of = f"{drawn} of {count} levels" if drawn < count else f"{count} level{'s'[: count - 1]}"
    return f"{of}, from above, the highest first"


def _cut_heights(shown: Picture) -> list[float]:
    """The heights at which the path does more than pass, the highest first."""
    feed, heights = shown.path[FEED], np.array(sorted(shown.depths.levels, reverse=True))
    if not len(heights):
        return []
    lengths = np.zeros(len(heights))
    for line, z in zip(feed.points, feed.z, strict=True):
        nearest = int(np.argmin(np.abs(heights - z)))
        if abs(heights[nearest] - z) < SAME:
            lengths[nearest] += np.hypot(*np.diff(line[:, :2], axis=0).T).sum()
    kept: list[float] = heights[lengths >= PASSING * lengths.max()].tolist()
    return kept


def draw_levels(
    figure: Figure, page: Axes, box: Box, shown: Picture, rows: Sequence[Level]
) -> None:
    """Draw them in `box`, row by row, all to one scale."""
    content = _content(shown)
    across, down = _grid(len(rows), content.w / content.h, box)
    wide, high = (box.w - GAP * (across - 1)) / across, (box.h - GAP * (down - 1)) / down
    head = line_height(HEAD) + 1
    pads = Pads(1, 1, 1, FLAGS if any(level.flags for level in rows) else 1)
    for number, level in enumerate(rows):
        row, column = divmod(number, across)
        x, y = box.x + column * (wide + GAP), box.top - (row + 1) * high - row * GAP
        place = Box(x, y, wide, high - head)
        units = shown.units
        words = f"Z {units.number(units.to_mm(level.z), 3)}"
        put(page, x, y + high - head + 1, words, fontsize=HEAD, fontweight="bold")
        name = f"level {number + 1}"
        cell = view(figure, place, content, pads, name=name, marks=("", ""))
        cell.axes.tick_params(left=False, bottom=False, labelleft=False, labelbottom=False)
        if shown.scene:
            _jaws(cell, shown.scene, level.z)
        draw_path(cell, level.path, shown.depths, (0, 1))
        draw_amiss(cell.axes, level.amiss)
        draw_flags(cell, level.flags)


def _jaws(cell: View, scene: Scene, z: float) -> None:
    """The blanks as they should be cut at a height, and the part."""
    reached = [step.cavity for step in scene.levels if step.floor - SAME <= z]
    open_here = reached[0] if reached else scene.levels[-1].cavity
    for blank, hatch in zip(scene.blanks, HATCHES, strict=True):
        hatched(cell.axes, blank if z > scene.top - SAME else blank.difference(open_here), hatch, 1)
    for relief in scene.reliefs:
        if relief.floor - SAME <= z:
            outline(cell.axes, relief.shape, color=INK, lw=NARROW, zorder=2)
    outline(cell.axes, scene.part, color=PART, lw=0.7, ls=PART_LINE, zorder=6)


def _content(shown: Picture) -> Box:
    """The cavity and all that is cut at the levels, with a margin."""
    points = [line for strands in shown.path[1:] for line in strands.points]
    ends = np.concatenate([np.stack([line.min(axis=0), line.max(axis=0)]) for line in points])
    low, high = ends[:, :2].min(axis=0), ends[:, :2].max(axis=0)
    first = shown.cutter_of(shown.measures.first)
    low, high = low - (r := shown.units.from_mm(first.radius) if first else 0.0), high + r
    if shown.scene:
        x0, y0, x1, y1 = shapely.union_all(shown.scene.blanks).bounds
        low, high = np.maximum(low, (x0, y0)), np.minimum(high, (x1, y1))
        x0, y0, x1, y1 = shown.scene.cavity.bounds
        low, high = np.minimum(low, (x0, y0)), np.maximum(high, (x1, y1))
    span = np.maximum(high - low, 0.02 * float((high - low).max()) or 1.0)
    x, y = (low - 0.04 * span).tolist()
    w, h = (span * 1.08).tolist()
    return Box(x, y, w, h)


def _grid(count: int, aspect: float, box: Box) -> tuple[int, int]:
    """Columns and rows that show so many pictures, `aspect` as wide as high, the largest."""

    def size(across: int) -> float:
        down = math.ceil(count / across)
        return min((box.w / across - GAP) / aspect, box.h / down - GAP - line_height(HEAD))

    best = max(range(1, count + 1), key=size)
    return best, math.ceil(count / best)


def _those(strands: Strands, low: float, high: float) -> Strands:
    """The strands whose deepest points lie between two heights, the lower one counted in."""
    kept = [i for i, line in enumerate(strands.points) if low <= line[:, 2].min() < high]
    return Strands(tuple(strands.points[i] for i in kept), strands.z[kept])


def _nearest(some: Sequence[tuple[float, _T]], heights: Sequence[float]) -> list[list[_T]]:
    """Things and how high each is -> those that are nearest to each of some heights."""
    rows: list[list[_T]] = [[] for _ in heights]
    for z, one in some:
        rows[min(range(len(heights)), key=lambda k: abs(heights[k] - z))].append(one)
    return rows


def _chosen(rows: list[Level]) -> list[Level]:
    """As many as are drawn."""
    if len(rows) <= MOST:
        return rows
    wanted = [0, len(rows) - 1, *_marked(rows)]
    even = np.linspace(0, len(rows) - 1, MOST).round().astype(int).tolist()
    order = dict.fromkeys(itertools.chain(wanted, even))
    return [rows[k] for k in sorted(itertools.islice(order, MOST))]


def _marked(rows: Sequence[Level]) -> list[int]:
    """Those with a finding, and then those with something amiss."""
    flagged = [k for k, row in enumerate(rows) if row.flags]
    return [*flagged, *(k for k, row in enumerate(rows) if row.amiss != Amiss())]
