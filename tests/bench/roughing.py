"""Roughing by both ways: time against the bound and the widest bite, from the text alone.

The bound is the pocket's area by the width asked and the feed: what no way can be faster than at
that width. Times are the ways at their feeds, back-travel too. A bite is the mean over a quarter of
the cutter's diameter of way, as the proof tells it; beside it stands how much of the way lies over
the widest that is well, point by point. The way down and the helix's level turn, fed at the feed of
a full slot, do not count for either.
"""

from __future__ import annotations

import math
from collections.abc import Iterator

import numpy as np
from measuring import Row, seconds
from numpy.typing import NDArray

from jawcam.errors import Place
from jawcam.geometry.rings import rings
from jawcam.geometry.shapes import Path, Region, circle, from_bulges, polygon
from jawcam.mill.links import Air
from jawcam.mill.rough import Clearing, clear_level
from jawcam.mill.steady import clear_steadily, planned
from jawcam.mill.trail import Trail
from jawcam.motion.moves import Begin, End, Spindle, ToolChange, WorkOffset
from jawcam.post.dialect import load
from jawcam.post.write import write
from jawcam.proof.fresh import Fresh, fresh_widths
from jawcam.reader.read import read
from jawcam.tolerance import Tolerance
from jawcam.tools.cutter import Cutter
from jawcam.units import Units

__all__ = ["rows"]

TOLERANCE = Tolerance()
MILL = Cutter(3, "end mill", 8.0, flutes=3, flute_len=22.0)
WIDTH, FEED, SLOT, LINK = 1.0, 1500.0, 500.0, 5000.0  # mm, mm/min
DEEP = 4.0  # mm
LONGEST = 2.2  # times the bound
WIDEST = 1.15  # times the width asked
ROUND = math.tan(math.pi / 8)


def _box(width: float, height: float, radius: float) -> Path:
    x, y, b = width / 2, height / 2, ROUND
    return from_bulges(
        [(-x + radius, -y, 0), (x - radius, -y, b), (x, -y + radius, 0), (x, y - radius, b),
         (x - radius, y, 0), (-x + radius, y, b), (-x, y - radius, 0), (-x, -y + radius, b)]
    )  # fmt: skip


POCKETS = {
    "round": Region(circle((0, 0), 20)),
    "oblong": Region(_box(60, 30, 6)),
    "square": Region(polygon([(0, 0), (40, 0), (40, 40), (0, 40)])),
    "long": Region(_box(100, 14, 5)),
    "ell": Region(polygon([(0, 0), (60, 0), (60, 14), (14, 14), (14, 60), (0, 60)])),
    "neck": Region(
        polygon([(0, 0), (30, 0), (30, 10), (50, 10), (50, 0), (80, 0), (80, 30), (50, 30),
                 (50, 20), (30, 20), (30, 30), (0, 30)])
    ),
    "two lobes": Region(
        from_bulges([(0, 0, 0), (20, 0, 0.9), (20, 25, 0), (17, 25, -0.2), (8, 25, 0),
                     (3, 25, 0.8)])
    ),
    "island": Region(_box(60, 40, 8), (circle((5, 2), 6, ccw=False),)),
    "sharp": Region(polygon([(0, 0), (60, 0), (15, 45)])),
    "sliver": Region(_box(70, 11.6, 4.5)),
    "tee": Region(
        polygon([(-40, 0), (40, 0), (40, 16), (9, 16), (9, 50), (-9, 50), (-9, 16), (-40, 16)])
    ),
}  # fmt: skip


def rows(*, quick: bool) -> Iterator[Row]:
    """The rows of this file."""
    for name in list(POCKETS)[: 1 if quick else None]:
        job = _clearing(POCKETS[name], WIDTH)
        bound = POCKETS[name].area / (WIDTH * FEED) * 60
        for way in ("steady", "rings"):
            time, peak, over = _measured(job, way)
            aims = (LONGEST, WIDEST) if way == "steady" else (None, None)
            yield Row(f"rough {name}, {way} / bound", time, bound, aims[0], "s")
            yield Row(f"bite, {name}, {way} / asked", peak, WIDTH, aims[1], "mm")
            yield Row(f"way over {WIDEST:g}, {name}, {way}", 100 * over, unit="%")
    for size in (0.25, 0.5, 1.0):
        pocket = Region(_box(100 * size, 60 * size, 6))
        job = _clearing(pocket, 0.5)
        taken = min(seconds(lambda job=job: planned(job)) for _ in range(1 if quick else 3))
        what = f"plan {100 * size:g} x {60 * size:g} mm at 0.5 mm / 2 s a 100 x 60"
        yield Row(what, 1e3 * taken, 2000 * pocket.area / 6000, 1.0)
        if quick:
            return


def _clearing(pocket: Region, width: float) -> Clearing:
    return Clearing(
        rings=rings([pocket], MILL.dia / 2, width, TOLERANCE),
        cleared=(),
        dia=MILL.dia,
        stepover=width,
        feed=FEED,
        slot_feed=SLOT,
        plunge_feed=SLOT,
        ramp=3.0,
        air=Air(5.0, LINK),
        gap=0.0,
        centre_cutting=False,
        place=Place(),
    )


def _measured(job: Clearing, way: str) -> tuple[float, float, float]:
    """The seconds that a way takes, its widest bite in mm and the share of its way that is wider
    than well at a point, but for the way down."""
    trail = Trail()
    if way == "steady":
        clear_steadily(trail, job, planned(job), 0.0, -DEEP)
    else:
        clear_level(trail, job, 0.0, -DEEP)
    motions = (
        Begin("POCKET"),
        WorkOffset(1),
        ToolChange(MILL.number, "8 mm"),
        Spindle(8000),
        *trail.motions,
        Spindle(0),
        End(),
    )
    dialect = load("rs274ngc-mill")
    program = read(write(motions, dialect, units=Units.MM), dialect.control)
    got = fresh_widths(program, [MILL], MILL.number)
    down = int(got.line[got.falls & (got.feed <= SLOT)].max(initial=0))
    if way == "steady":
        down = int(got.line[got.feed > SLOT].min(initial=10**9)) - 1  # the level turn is slow too
    after = got.line > down
    over = float(got.way[after & (got.width > WIDEST * WIDTH)].sum() / got.way[after].sum())
    return 60 * float((got.way / got.feed).sum()), _widest(got, after), over


def _widest(got: Fresh, after: NDArray[np.bool_]) -> float:
    """The widest bite, mm, over a window of way in one go at one kind of feed."""
    window, most = MILL.dia / 4, 0.0
    fast = got.feed >= LINK
    ends = np.flatnonzero(np.diff(fast) != 0) + 1
    for rows_ in np.split(np.flatnonzero(after), np.searchsorted(np.flatnonzero(after), ends)):
        if not len(rows_):
            continue
        way = np.concatenate(([0.0], np.cumsum(got.way[rows_])))
        area = np.concatenate(([0.0], np.cumsum(got.way[rows_] * got.width[rows_])))
        last = np.minimum(np.searchsorted(way, way + window), len(way) - 1)
        most = max(most, float(((area[last] - area) / np.maximum(way[last] - way, window)).max()))
    return most
