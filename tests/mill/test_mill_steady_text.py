"""A pocket cleared at a steady load, judged from its program's text alone, point by point."""

from __future__ import annotations

import functools
import itertools
import math
from dataclasses import replace

import numpy as np
import pytest

from jawcam.errors import Place
from jawcam.geometry.rings import rings
from jawcam.geometry.shapes import Region, circle, from_bulges, polygon
from jawcam.mill.links import Air
from jawcam.mill.rough import Clearing
from jawcam.mill.steady import LIFT, SteadyRing, clear_steadily, planned
from jawcam.mill.trail import Trail
from jawcam.motion.moves import Begin, End, Spindle, ToolChange, WorkOffset
from jawcam.post.dialect import load
from jawcam.post.write import write
from jawcam.proof.fresh import Fresh, fresh_widths
from jawcam.reader.read import read
from jawcam.tolerance import Tolerance
from jawcam.tools.cutter import Cutter
from jawcam.units import Units

MILL = Cutter(3, "end mill", 8.0, flutes=3, flute_len=22.0)
WIDTH, FEED, SLOT, LINK, DEEP = 1.2, 1500.0, 500.0, 5000.0, 2.0
SMALLEST = 0.01  # mm, what a post says at least
ROUND = math.tan(math.pi / 8)
SHAPES = {
    "ell": Region(polygon([(0, 0), (36, 0), (36, 12), (12, 12), (12, 30), (0, 30)])),
    "island": Region(
        from_bulges([(-20, -14, 0), (20, -14, ROUND), (26, -8, 0), (26, 14, 0), (-20, 14, 0)]),
        (circle((8, 0), 3, ccw=False),),
    ),
    "neck": Region(
        polygon([(0, 0), (18, 0), (18, 5), (26, 5), (26, 0), (42, 0), (42, 20), (26, 20),
                 (26, 14), (18, 14), (18, 20), (0, 20)])
    ),
}  # fmt: skip


def clearing(pocket: Region, width: float = WIDTH) -> Clearing:
    return Clearing(
        rings=rings([pocket], MILL.dia / 2, width, Tolerance()),
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


@functools.cache
def plan_of(name: str) -> tuple[SteadyRing, ...]:
    return planned(clearing(SHAPES[name]))


def text_of(job: Clearing, plan: tuple[SteadyRing, ...]) -> str:
    trail = Trail()
    clear_steadily(trail, job, plan, 0.0, [-DEEP])
    begin = (Begin("POCKET"), WorkOffset(1), ToolChange(MILL.number, "8 mm"), Spindle(8000))
    motions = (*begin, *trail.motions, Spindle(0), End())
    return write(motions, load("rs274ngc-mill"), units=Units.MM)


def cut_of(text: str) -> Fresh:
    """What is cut after the way down and the helix's level turn."""
    got = fresh_widths(read(text, load("rs274ngc-mill").control), [MILL], MILL.number)
    last = int(got.line[got.falls & (got.feed <= SLOT)].max()) + 1
    after = got.line > last
    return Fresh(*(column[after] for column in got))


@pytest.mark.parametrize("name", ["ell", "island"])
def test_no_point_of_the_way_bites_off_much_more_than_asked(name: str):
    plan = plan_of(name)
    assert all(one.plan is not None and one.plan.done for one in plan)
    cut = cut_of(text_of(clearing(SHAPES[name]), plan))
    assert cut.width.max() <= 1.15 * WIDTH
    fast = cut.feed > FEED
    assert cut.width[fast].max(initial=0.0) <= 0.05 * WIDTH  # the ways back cut nothing


@pytest.mark.parametrize(
    "corners", [[(0, 0), (26, 0), (13, 22)], [(0, 0), (34, 0), (0, 22)], [(0, 0), (40, 0), (6, 16)]]
)
def test_sharp_corners_are_taken_at_a_small_width_too(corners: list[tuple[float, float]]):
    job = clearing(Region(polygon(corners)), 0.5)
    plan = planned(job)
    assert all(one.plan is not None and one.plan.done for one in plan)
    assert cut_of(text_of(job, plan)).width.max() <= 1.15 * 0.5


@pytest.mark.parametrize("name", SHAPES)
def test_a_pass_is_few_blocks_and_none_too_short_to_say(name: str):
    passes = [one.path for ring in plan_of(name) if ring.plan for one in ring.plan.passes]
    pieces = [piece for path in passes for piece in path.segments]
    assert len(pieces) <= 3 * len(passes)
    assert min(piece.length for piece in pieces) >= SMALLEST


def test_a_pass_left_out_in_a_corner_shows_at_the_next_one():
    (ring,) = plan_of("ell")
    assert ring.plan is not None
    passes = ring.plan.passes
    corner = [k for k, one in enumerate(passes) if math.dist(one.path.end, (4.0, 6.5)) < 1.5]
    assert corner
    short = type(ring.plan)(tuple(p for k, p in enumerate(passes) if k != corner[0]), ())
    text = text_of(clearing(SHAPES["ell"]), (SteadyRing(ring.ring, ring.way, short),))
    cut = cut_of(text)
    worst = int(np.argmax(cut.width))
    assert cut.width[worst] > 1.5 * WIDTH
    assert math.dist((cut.x[worst], cut.y[worst]), passes[corner[0]].path.end) < 3 * MILL.dia


def test_long_ways_back_are_lifted_a_hair():
    cut = text_of(clearing(SHAPES["ell"]), plan_of("ell"))
    heights = {line.split("Z")[1].split()[0] for line in cut.splitlines() if "Z" in line}
    assert f"{-DEEP + LIFT:.1f}" in {height.rstrip("0") for height in heights}


def test_several_pockets_each_to_its_floor_before_the_next_and_by_the_shortest_way():
    places = [(0.0, 0.0), (90.0, 0.0), (30.0, 5.0), (60.0, 0.0)]
    job = replace(
        clearing(SHAPES["ell"]),
        rings=rings([Region(circle(at, 9)) for at in places], MILL.dia / 2, WIDTH, Tolerance()),
    )
    trail = Trail()
    clear_steadily(trail, job, planned(job), 0.0, [-DEEP, -2 * DEEP])
    stops = [(*place, z) for *place, z in (motion.to for motion in trail.motions)]
    nearest = [min(range(4), key=lambda k: math.dist(places[k], (x, y))) for x, y, _ in stops]
    order = [k for k, _ in itertools.groupby(nearest)]
    assert order in ([0, 2, 3, 1], [1, 3, 2, 0])
    for one in range(4):
        deepest = [z for k, (_, _, z) in zip(nearest, stops, strict=True) if k == one]
        assert min(deepest) == -2 * DEEP


def test_what_has_no_room_for_a_helix_goes_by_rings_no_deeper_than_a_slot():
    job = clearing(SHAPES["ell"])
    trail = Trail()
    without = tuple(SteadyRing(ring, None, None) for ring in job.rings)
    clear_steadily(trail, job, without, 0.0, [-10.0, -16.0])
    heights = sorted({round(m.to[2], 6) for m in trail.motions if m.to[2] < 0}, reverse=True)
    level = [z for z in heights if sum(abs(m.to[2] - z) < 1e-6 for m in trail.motions) > 9]
    assert level[-1] == -16.0
    assert -10.0 in level
    for above, floor in itertools.pairwise([0.0, *level]):
        assert above - floor <= MILL.dia / 2 + 1e-6
