"""Roughing by both ways: time against the bound, the widest bite and what is left, from the text
alone.

The bound is the pocket's area by the width asked and the feed: what no way can be faster than at
that width. Times are the ways at their feeds, back-travel too, and stand here with the way down and
without it, as that is no matter of the width. The widest bite is that at any point of the way after
it, as the proof tells it, every 0.2 mm. A pass is what is cut in one go, a turn of a spiral too;
the moves between count for none.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from pathlib import Path as File
from typing import NamedTuple

import numpy as np
import shapely
from measuring import Row, seconds

from jawcam.errors import Place
from jawcam.geometry.cut import along
from jawcam.geometry.rings import rings
from jawcam.geometry.shapes import Path, Region, circle, from_bulges, polygon
from jawcam.hold.jaws import hold
from jawcam.hold.solid import drawn_part, solid_of
from jawcam.job.load import load as load_job
from jawcam.mill.links import Air
from jawcam.mill.rough import Clearing, clear_level
from jawcam.mill.steady import clear_steadily, planned
from jawcam.mill.trail import Trail
from jawcam.motion.moves import Begin, End, Spindle, ToolChange, WorkOffset
from jawcam.post.dialect import load
from jawcam.post.write import write
from jawcam.proof.fresh import fresh_widths
from jawcam.proof.move import Move, moves_in
from jawcam.reader.cuts import Program
from jawcam.reader.read import read
from jawcam.tolerance import Tolerance
from jawcam.tools.cutter import Cutter
from jawcam.units import Units

__all__ = ["rows"]

SAMPLES = File(__file__).parents[2] / "samples"
TOLERANCE = Tolerance()
MILL = Cutter(3, "end mill", 8.0, flutes=3, flute_len=22.0)
WIDTH, FEED, LINK = 1.0, 1500.0, 5000.0  # mm, mm/min
SLOT = FEED / 2  # as where a job doesn't say
DEEP = 4.0  # mm
LONGEST, MIDDLING = 2.2, 1.5  # times the bound, at worst and in the median
WIDEST = 1.15  # times the width asked
TOOTH = 0.03  # mm, what a tooth takes
FINE, LEVEL = 0.05, 0.001  # mm; of the dots of arcs, and for what is at the floor
BLOCKS = 3.0  # to a pass
SMALLEST = 0.01  # mm, what a post may still say
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
    shares = []
    pockets = {"round": POCKETS["round"]} if quick else POCKETS | dict(_drawn())
    for name, pocket in pockets.items():
        job = _clearing(pocket, WIDTH)
        bound = pocket.area / (WIDTH * FEED) * 60
        for way in ("steady", "rings"):
            got = _measured(job, way)
            aims = (LONGEST, WIDEST) if way == "steady" else (None, None)
            whole = got.time + got.down
            yield Row(f"rough {name}, {way} / bound", whole, bound, aims[0], "s")
            yield Row(f"the same without the way down, {way}", got.time, bound, unit="s")
            yield Row(f"widest bite, {name}, {way} / asked", got.peak, WIDTH, aims[1], "mm")
            yield Row(f"left standing, {name}, {way} / a tooth's", got.left, TOOTH, 1.0, "mm")
            if way == "steady":
                shares.append(whole / bound)
        yield from _blocks(name, job)
    yield Row("rough, steady, median / bound", float(np.median(shares)), 1.0, MIDDLING, "")
    yield from _planning(quick=quick)


def _planning(*, quick: bool) -> Iterator[Row]:
    """How long planning takes at a small width, and how that grows with area by width."""
    before: tuple[float, float] | None = None
    for size in (0.25, 0.5, 1.0)[: 1 if quick else 3]:
        job = _clearing(Region(_box(100 * size, 60 * size, 6)), 0.5)
        taken = min(seconds(lambda job=job: planned(job)) for _ in range(1 if quick else 3))
        area = 6000 * size * size
        name = f"{100 * size:g} x {60 * size:g}"
        if before is not None:
            growth = taken / before[0], area / before[1]
            yield Row(f"planning, growth to {name} / of the area", *growth, 1.0, "")
        before = taken, area
        yield Row(f"plan {name} mm at 0.5 mm / 2 s", 1e3 * taken, 2000, 1.0)


def _blocks(name: str, job: Clearing) -> Iterator[Row]:
    """How many blocks a pass has, and how long the shortest is."""
    passes = [one.path for ring in planned(job) if ring.plan for one in ring.plan.passes]
    pieces = [piece.length for path in passes for piece in path.segments]
    if passes:
        yield Row(f"blocks a pass, {name}", len(pieces) / len(passes), 1.0, BLOCKS, "")
        yield Row(f"smallest move / shortest block, {name}", SMALLEST, min(pieces), 1.0, "mm")


def _drawn() -> Iterator[tuple[str, Region]]:
    """The pockets of jobs that come with drawings."""
    for name in ("crank-lever", "bearing-bracket", "burr-cam", "hopper-flange"):
        path = SAMPLES / f"{name}.toml"
        job = load_job(path, shown=str(path))
        solid = solid_of(job, job.setups[0], drawn_part(job, TOLERANCE), TOLERANCE)
        pockets = hold(job, job.setups[0], solid, TOLERANCE).levels[0].pockets
        yield name, max(pockets, key=lambda pocket: pocket.area)


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


class Measured(NamedTuple):
    """down, time: of the way down and of the rest, s; peak: the widest bite of the rest, mm; left:
    how thick the thickest thing is that the cutter could have reached and did not, mm."""

    down: float
    time: float
    peak: float
    left: float


def _measured(job: Clearing, way: str) -> Measured:
    """What a way takes and bites off."""
    trail = Trail()
    if way == "steady":
        clear_steadily(trail, job, planned(job), 0.0, [-DEEP])
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
    last = int(got.line[got.falls & (got.feed <= SLOT)].max(initial=0))
    after = got.line > last + 1  # but for the helix's level turn
    took = 60 * got.way / got.feed
    return Measured(
        float(took[~after].sum()),
        float(took[after].sum()),
        float(got.width[after].max(initial=0)),
        _left(program, job),
    )


def _left(program: Program, job: Clearing) -> float:
    """What stands at the floor in the end, by another engine (GEOS): its area by half its girth."""
    cuts = [m for m in moves_in(program, [MILL], 1, 0.0) if m.kind != "rapid"]
    been = [
        shapely.LineString([move.at(share)[:2] for share in np.linspace(0, 1, _dots(move))])
        for move in cuts
        if move.high <= -DEEP + LEVEL and move.length > 0
    ]
    swept = shapely.union_all([line.buffer(MILL.radius, quad_segs=64) for line in been])
    reached = []
    for ring in job.rings:
        rims = [[p for s in path.segments for p in along(s, FINE)] for path in ring.region.paths]
        reached.append(shapely.Polygon(rims[0], rims[1:]).buffer(MILL.radius, quad_segs=64))
    parts = shapely.get_parts(shapely.difference(shapely.union_all(reached), swept))
    return max((2 * part.area / part.length for part in parts if part.length > 0), default=0.0)


def _dots(move: Move) -> int:
    return 2 if move.kind == "line" else math.ceil(move.length / FINE) + 2
