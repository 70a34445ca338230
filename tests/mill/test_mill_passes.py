"""The passes piece by piece: ways down, bites and feeds, links, leads, what compensation bears."""

from __future__ import annotations

import itertools
import math
from dataclasses import dataclass, field

import pytest

from jawcam.errors import InputError, Place
from jawcam.geometry.offset import shrink
from jawcam.geometry.rings import rings
from jawcam.geometry.shapes import Arc, Path, Region, circle, from_bulges, polygon
from jawcam.mill.bite import Cleared, bites
from jawcam.mill.compensation import largest_register
from jawcam.mill.entry import Descent, choose_descent, descend
from jawcam.mill.links import Air, hop, straight_way
from jawcam.mill.rough import Clearing, clear_level, levels
from jawcam.mill.trail import Trail
from jawcam.motion.moves import ArcFeed, LineFeed, Rapid
from jawcam.tolerance import Tolerance

TOLERANCE = Tolerance()
AIR = Air(5.0, 5000.0)
ELL = Region(polygon([(0, 0), (60, 0), (60, 15), (15, 15), (15, 60), (0, 60)]))


@dataclass(frozen=True)
class Cutting:
    dia: float = 8.0
    gap: float = 0.0
    centre_cutting: bool = False
    place: Place = field(default_factory=Place)


def rounded(width: float, height: float, radius: float) -> Path:
    x, y, b = width / 2, height / 2, math.tan(math.pi / 8)
    return from_bulges(
        [
            (-x + radius, -y, 0), (x - radius, -y, b), (x, -y + radius, 0), (x, y - radius, b),
            (x - radius, y, 0), (-x + radius, y, b), (-x, y - radius, 0), (-x, -y + radius, b),
        ]
    )  # fmt: skip


def clearing(region: Region, dia: float, stepover: float, gap: float = 0.0) -> Clearing:
    rims = rings([region], dia / 2, stepover, TOLERANCE)
    return Clearing(
        rings=rims,
        cleared=(),
        dia=dia,
        stepover=stepover,
        feed=1000.0,
        slot_feed=400.0,
        plunge_feed=200.0,
        ramp=3.0,
        air=AIR,
        gap=gap,
        centre_cutting=False,
        place=Place(),
    )


# --- ways down -------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("across", "pitch", "angle"), [(6, 0.5, 1.51946), (6, 1, 3.03679), (10, 1, 1.82317)]
)
def test_a_helix_falls_by_its_angle(across: float, pitch: float, angle: float):
    # plane geometry: angle = atan(pitch / (pi x path diameter)); whole turns, so never steeper
    trail = Trail()
    way = Descent("helix", (across / 2, 0.0), (0.0, 0.0), across / 2)
    trail.rapid(*way.start, 0.5)
    descend(trail, way, Region(circle((0, 0), 20)), 0.0, 0.5 - 4 * pitch, angle, 300)
    turns = [m for m in trail.motions if isinstance(m, ArcFeed)]
    heights = [0.5, *(m.to[2] for m in turns)]
    falls = [a - b for a, b in itertools.pairwise(heights)]
    assert falls[-1] == 0, "a level turn at the end"
    assert max(falls) <= pitch * (1 + 1e-5)
    assert min(falls[:-1]) >= pitch * 0.79
    length = math.hypot(math.pi * across, falls[0])
    assert falls[0] / length == pytest.approx(math.sin(math.atan(falls[0] / (math.pi * across))))


def test_the_gentlest_way_down_that_fits_is_taken():
    disc = Region(circle((0, 0), 10))
    assert choose_descent((0, 0), 10, disc, Cutting()).kind == "helix"
    assert choose_descent((0, 0), 10, disc, Cutting()).radius == pytest.approx(3.6)
    slot = Region(rounded(30, 1, 0.5))
    assert choose_descent((0, 0), 0.5, slot, Cutting()).kind == "ramp"
    assert choose_descent((0, 0), 10, disc, Cutting(gap=9)).kind == "gap"
    assert choose_descent((0, 0), 10, disc, Cutting(gap=8.4)).kind == "helix"


def test_a_cutter_that_cannot_plunge_is_not_plunged():
    dot = Region(circle((0, 0), 0.1))
    with pytest.raises(InputError, match="neither wind nor ramp"):
        choose_descent((0, 0), 0.1, dot, Cutting())
    assert choose_descent((0, 0), 0.1, dot, Cutting(centre_cutting=True)).kind == "plunge"


def test_a_circle_in_which_the_dead_centre_would_rub_is_no_ramp():
    oval = Region(rounded(1.2, 0.6, 0.3))
    with pytest.raises(InputError, match="neither wind nor ramp"):
        choose_descent((0, 0), 0.3, oval, Cutting(dia=6.0))


def test_a_plunge_goes_down_at_the_plunge_feed():
    trail = Trail()
    trail.rapid(0, 0, 0.5)
    descend(trail, Descent("plunge", (0, 0)), ELL, 0.0, -2.0, 3.0, 400, 150)
    assert trail.motions[-1] == LineFeed((0, 0, -2.0), 150)


def test_a_ramp_goes_round_the_path_no_steeper_than_asked():
    path = rounded(30, 2, 1)
    trail = Trail()
    trail.rapid(*path.start, 0.5)
    descend(trail, Descent("ramp", path.start), Region(path), 0.0, -3.0, 2.0, 300)
    assert trail.at == pytest.approx((*path.start, -3.0))
    z = 0.5
    for motion, segment in zip(trail.motions[1:], itertools.cycle(path.segments), strict=False):
        slope = (z - motion.to[2]) / segment.length
        assert 0 < slope <= math.tan(math.radians(2)) * (1 + 1e-9)
        z = motion.to[2]


@pytest.mark.parametrize(("floor", "stepdown", "count"), [(-8, 4, 2), (-8, 3, 3), (-0.5, 4, 1)])
def test_levels_are_even_and_end_at_the_floor(floor: float, stepdown: float, count: int):
    heights = levels(floor, stepdown)
    assert len(heights) == count
    assert heights[-1] == floor
    steps = [a - b for a, b in itertools.pairwise([0.0, *heights])]
    assert steps == pytest.approx([steps[0]] * count)
    assert steps[0] <= stepdown


# --- bites and feeds -------------------------------------------------------------------------


def test_a_ring_beside_a_ring_bites_the_stepover_and_more_round_a_corner():
    plate = Region(polygon([(0, 0), (60, 0), (60, 40), (0, 40)]))
    inner, outer = shrink([plate], 9, TOLERANCE), shrink([plate], 5, TOLERANCE)
    widths = bites(outer[0].outer, 5, [Cleared(inner, 5)])
    # the corner's centre is 4 x sqrt(2) off the nearest place where the cutter has been
    assert widths == pytest.approx([4 * math.sqrt(2)] * 4)
    disc = shrink([Region(circle((0, 0), 20))], 5, TOLERANCE)
    within = shrink([Region(circle((0, 0), 20))], 9, TOLERANCE)
    assert bites(disc[0].outer, 5, [Cleared(within, 5)]) == pytest.approx([4])


def test_a_smaller_cutter_beside_a_larger_ones_wall_bites_the_difference():
    centre = shrink([Region(circle((0, 0), 20))], 5.2, TOLERANCE)
    wall = shrink([Region(circle((0, 0), 20))], 3, TOLERANCE)
    assert bites(wall[0].outer, 3, [Cleared(centre, 5)]) == pytest.approx([0.2])


def test_a_first_ring_is_a_full_slot_and_fed_as_one():
    (wall,) = shrink([Region(circle((0, 0), 20))], 5, TOLERANCE)
    assert bites(wall.outer, 5, [Cleared((), 5)]) == [10]


def test_every_block_of_a_level_is_fed_for_its_bite():
    job = clearing(ELL, 8, 3)
    trail = Trail()
    clear_level(trail, job, 0.0, -2.0)
    cuts = [m for m in trail.motions if isinstance(m, (LineFeed, ArcFeed))]
    assert min(m.feed for m in cuts) == 400
    # beside the inner ring at nearly the full feed, slower only before corners
    ring = [
        ((round(m.to[0]), round(m.to[1])), m.feed)
        for m in cuts[cuts.index(LineFeed((15.0, 11.0, -2.0), 400)) :]
    ]
    fast = [to for to, feed in ring if feed > 900]
    assert fast == [(11, 15), (11, 52), (4, 8), (52, 4), (15, 11)]
    assert {feed for to, feed in ring if to in ((11, 56), (4, 4), (56, 4))} == {418}
    assert not any(isinstance(m, Rapid) and m.to[2] < 0.5 for m in trail.motions)


# --- links, leads, compensation --------------------------------------------------------------


def test_links_stay_down_only_where_the_whole_way_is_free():
    free = shrink([ELL], 4, TOLERANCE)
    assert straight_way((6, 6), (50, 7), free)
    assert not straight_way((8, 50), (50, 8), free)


def test_a_link_through_the_free_feeds_and_one_over_the_top_rises():
    free = shrink([ELL], 4, TOLERANCE)
    for to, highest in (((50.0, 7.0), -1.5), ((8.0, 50.0), 5.0)):
        trail = Trail()
        trail.at = (50.0, 6.0, -4.0) if highest == 5.0 else (6.0, 6.0, -4.0)
        hop(trail, to, -2.0, free, AIR)
        assert max(m.to[2] for m in trail.motions) == highest
        assert trail.at == (*to, -1.5)
        level = [m for m in trail.motions if m.to[:2] == to and isinstance(m, LineFeed)]
        assert bool(level) == (highest < 0), "low down it feeds: a rapid may bend"


def test_what_compensation_bears():
    sharp = shrink([Region(rounded(60, 40, 3))], 4, TOLERANCE)
    assert largest_register(sharp) == 0
    tight = shrink([Region(rounded(60, 40, 4.2))], 4, TOLERANCE)
    assert largest_register(tight) == pytest.approx(0.18)
    wide = shrink([Region(rounded(60, 40, 10))], 4, TOLERANCE)
    assert largest_register(wide) == pytest.approx(0.25)
    assert largest_register([Region(circle((0, 0), 9))]) == pytest.approx(0.25)


def test_rings_are_begun_where_two_of_their_pieces_meet():
    job = clearing(Region(rounded(60, 40, 12)), 8, 3)
    trail = Trail()
    clear_level(trail, job, 0.0, -2.0)
    outer = job.rings[0].region.outer
    radius = outer.segments[1].radius if isinstance(outer.segments[1], Arc) else 0
    arcs = [m for m in trail.motions if isinstance(m, ArcFeed)]
    on_outer = [m for m in arcs if math.isclose(math.dist(m.to[:2], m.centre), 8.0, abs_tol=1e-6)]
    assert len(on_outer) == 4
    assert radius in (0, pytest.approx(8.0))
