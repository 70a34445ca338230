"""The cutter's path in a view: depth as colour and width, the kind of move as line type."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np
from matplotlib.collections import LineCollection
from matplotlib.colors import Normalize

from jawcam.show.arrays import Floats, Moves
from jawcam.show.dashes import dashed
from jawcam.show.page import View
from jawcam.show.style import DASH, DEPTHS, GAP, INK, PAPER, RAPID_LINE, SOFT
from jawcam.show.thin import thin
from jawcam.show.trace import ENTRY, FEED, RAPID, Strands, Trace

__all__ = ["Depths", "compensated", "depths", "draw_ends", "draw_path", "plunges"]

MANY = 20_000
"""Lines beyond which a vector picture holds them as an image: viewers choke on more."""

FINEST = 0.04
"""mm of paper; a quarter of a dot. Of more than `MANY` points no more is shown."""

NARROWEST, WIDEST = 0.8, 3.0


@dataclass(frozen=True)
class Depths:
    """The range of Z that is told apart (what is higher looks like the top), and the levels in it
    at which level feed moves run, deepest first; in the picture's units.
    """

    bottom: float
    top: float
    levels: tuple[float, ...]

    @property
    def norm(self) -> Normalize:
        """Z -> 0 to 1; a single depth counts as the deepest."""
        return Normalize(self.bottom, max(self.top, self.bottom + 1e-6), clip=True)


def depths(trace: Trace, top: float | None) -> Depths:
    """The depths of a path, up to `top` (the jaw top) if that is known, else to the highest level
    feed move. Without any feed move all is 0.
    """
    feeding = trace.look != RAPID
    if not feeding.any():
        return Depths(0.0, 0.0, ())
    z = np.concatenate([trace.start[feeding, 2], trace.end[feeding, 2]])
    levels = np.unique(np.round(trace.end[trace.look == FEED, 2], 6))
    highest = float(levels[-1] if len(levels) else z.max()) if top is None else top
    bottom = float(z.min())
    return Depths(bottom, max(highest, bottom), tuple(levels[levels <= highest].tolist()))


def draw_path(shown: View, path: Sequence[Strands], deep: Depths, across: tuple[int, int]) -> None:
    """Draw all moves.

    path: the strands of each look; across: the numbers of the axes that lie across and up the page.
    """
    for zorder, (look, name) in enumerate(((RAPID, "rapid"), (ENTRY, "entry"), (FEED, "feed"))):
        if look == ENTRY:
            lines, z = _dashes(path[look], across, shown.units(DASH), shown.units(GAP))
        else:
            lines, z = _seen(path[look], across, shown.units(FINEST))
        if not lines:
            continue
        drawn = LineCollection(lines, label=name, zorder=5 + zorder * 0.1, capstyle="butt")
        drawn.set_gid(name)
        if look == RAPID:
            drawn.set(color=SOFT, linewidth=0.8, linestyle=RAPID_LINE)
        else:
            drawn.set(cmap=DEPTHS, norm=deep.norm, array=z)
            share = np.asarray(deep.norm(z), dtype=np.float64)
            drawn.set_linewidth((NARROWEST + (WIDEST - NARROWEST) * share).tolist())
        drawn.set_rasterized(len(lines) > MANY)
        shown.axes.add_collection(drawn, autolim=False)


def draw_ends(shown: View, trace: Trace, across: tuple[int, int]) -> None:
    """Mark where the program starts, by a large triangle, and where it ends, by a small square
    that fits into it.
    """
    (a, b), (c, d) = trace.start[0, across], trace.end[-1, across]
    look: dict[str, Any] = {"ls": "none", "mec": INK, "mew": 1.0, "zorder": 9.2}
    shown.axes.plot([a], [b], marker="^", ms=8.5, mfc=PAPER, gid="start", **look)
    shown.axes.plot([c], [d], marker="s", ms=3.6, mfc=INK, gid="end", **look)


def plunges(moves: Moves) -> Floats:
    """Where a feed move goes straight down, (n, 2) in mm, each place once."""
    along = np.abs(moves.end[:, :2] - moves.start[:, :2]).max(axis=1)
    straight = ~moves.rapid & ~moves.arc & (along < 1e-6) & (moves.rise < 0) & ~moves.level
    return np.unique(np.round(moves.end[straight, :2], 6), axis=0)


def compensated(shown: View, trace: Trace, moves: Moves) -> None:
    """Ticks across the moves made with cutter compensation, toward the side that it shifts to,
    about every 4 mm of paper.
    """
    side = moves.side[trace.move]
    run = trace.end[:, :2] - trace.start[:, :2]
    length = np.where(side != 0, np.linalg.norm(run, axis=1), 0.0)
    walked = np.cumsum(length)
    if walked[-1] == 0:
        return
    count = min(max(int(walked[-1] / shown.units(4.0)), 1), MANY)
    spots = (np.arange(count) + 0.5) * walked[-1] / count
    chosen = np.searchsorted(walked, spots)
    ahead = run[chosen] / length[chosen, None]
    middle = trace.end[chosen, :2] - ahead * (walked[chosen] - spots)[:, None]
    across = np.column_stack([-ahead[:, 1], ahead[:, 0]]) * side[chosen, None]
    ticks = np.stack([middle, middle + across * shown.units(1.5)], axis=1)
    drawn = LineCollection(list(ticks), colors=INK, linewidths=0.7, label="compensated")
    drawn.set_gid("compensated")
    drawn.set_zorder(5.5)
    shown.axes.add_collection(drawn, autolim=False)


def _seen(some: Strands, across: tuple[int, int], fine: float) -> tuple[list[Floats], Floats]:
    """The strands as they look in a view, thinned to `fine` if they have very many points; those
    seen end on are left out."""
    lines = [points[:, across] for points in some.points]
    if sum(map(len, lines)) > MANY:
        lines = [thin(line, fine) for line in lines]
    kept = [i for i, line in enumerate(lines) if (line != line[0]).any()]
    return [lines[i] for i in kept], some.z[kept]


def _dashes(
    some: Strands, across: tuple[int, int], dash: float, gap: float
) -> tuple[list[Floats], Floats]:
    """The strands cut into dashes, from the highest to the deepest."""
    lines: list[Floats] = []
    z: list[Floats] = []
    for points in some.points:
        more, heights = dashed(points, across, dash, gap)
        lines += more
        z.append(heights)
    heights = np.concatenate(z) if z else np.zeros(0)
    order = np.argsort(-heights, kind="stable")
    return [lines[i] for i in order], heights[order]
