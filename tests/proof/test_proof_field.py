"""What moves take from a field of cells, against handbook values, closed forms and GEOS. The names
M1 and so on are those of the milling values; each says where it comes from."""

import math
from dataclasses import replace
from itertools import pairwise

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from proof_pen import move

from jawcam.proof.field import field_of, take
from jawcam.proof.form import height_over_tip
from jawcam.tools.cutter import Cutter

CELL = 0.02
FINE = 20.0  # steps to a diameter


def box_of(*moves, reach=11.0):
    points = [point[:2] for one in moves for point in (one.start, one.end)]
    points += [
        (x + s, y + s)
        for one in moves
        if one.turn
        for x, y in [one.centre]
        for s in (-max(one.radii), max(one.radii))
    ]
    return shapely.buffer(shapely.MultiPoint(points), reach).bounds


def run(moves, solid=None, *, cell=CELL, fine=FINE, top=0.0):
    """The moves through a solid -> what they take, and the field that they leave."""
    box = box_of(*moves)
    field = field_of(solid or shapely.box(*box), top, box, cell)
    return take(field, moves, fine), field


def line(*points, z=-2.0, dia=10.0):
    return [move("line", (*a, z), (*b, z), dia=dia) for a, b in pairwise(points)]


def arc(radius, start, turn, *, centre=(0.0, 0.0), z=-2.0, dia=10.0):
    """An arc from the angle `start`, degrees both."""
    a, b = math.radians(start), math.radians(start + turn)
    begin, end = (
        (centre[0] + radius * math.cos(t), centre[1] + radius * math.sin(t), z) for t in (a, b)
    )
    return move("arc", begin, end, dia=dia, centre=centre, turn=math.radians(turn))


def middle(taken):
    """The mean width over the middle third of the way."""
    along = np.cumsum(taken.length) - taken.length
    some = (along > along[-1] / 3) & (along < along[-1] * 2 / 3)
    return float(taken.area[some].sum() / taken.length[some].sum())


def front(angle, radius=5.0):
    """The fresh width for an engaged angle in degrees that begins at the side of the cutter: each
    piece of its edge at the angle a off the way ahead takes R cos a da, in all R (1 - cos)."""
    return radius * (1 - math.cos(math.radians(angle)))


# M1: cos phi = 1 - 2 ae / D; a printed list of a toolmaker's, and El-Hofy's textbook.
M1 = [
    (0.04, 23.07),
    (0.05, 25.84),
    (0.1, 36.87),
    (0.2, 53.13),
    (0.3, 66.42),
    (0.4, 78.46),
    (0.5, 90.0),
    (1.0, 180.0),
]


@pytest.mark.parametrize(("share", "angle"), M1)
@pytest.mark.parametrize("way", [0.0, 33.0, 90.0, 135.0, 200.0, 300.0])
def test_m1_the_width_on_a_straight_front_is_that_of_its_engaged_angle(share, angle, way):
    """To the last printed digit of the angle, and what a count of cells leaves uncertain."""
    ahead = np.array([math.cos(math.radians(way)), math.sin(math.radians(way))])
    left = np.array([-ahead[1], ahead[0]])
    near, far = -5.0, -5.0 + 10.0 * share
    corners = [-20 * ahead + near * left, 50 * ahead + near * left]
    corners += [50 * ahead + far * left, -20 * ahead + far * left]
    taken, _ = run(line((0.0, 0.0), tuple(30 * ahead)), shapely.Polygon(corners))
    assert middle(taken) == pytest.approx(front(angle), abs=2e-3)
    assert front(angle) == pytest.approx(10 * share, abs=1e-3)


@pytest.mark.parametrize(
    ("wall", "bite", "angle"), [(8, 1, 60.0), (12, 1, 47.823), (20, 1, 42.269), (8, 2, 86.177)]
)
@pytest.mark.parametrize("way", [1, -1])
def test_m5_in_a_concave_wall_the_engaged_angle_is_larger(wall, bite, angle, way):
    """By the law of cosines between wall, cutter and the front before."""
    cleared = shapely.buffer(shapely.Point(0, 0), wall - bite, quad_segs=256)
    solid = shapely.difference(shapely.box(-30, -30, 30, 30), cleared)
    taken, _ = run([arc(wall - 5, 20.0, 300.0 * way)], solid)
    assert middle(taken) == pytest.approx(front(angle), abs=4e-3)


@pytest.mark.parametrize(("wall", "angle"), [(8, 29.631), (20, 33.280)])
@pytest.mark.parametrize("way", [1, -1])
def test_m6_round_a_convex_wall_it_is_smaller(wall, angle, way):
    solid = shapely.buffer(shapely.Point(0, 0), wall + 1, quad_segs=256)
    taken, _ = run([arc(wall + 5, -70.0, 300.0 * way)], solid)
    assert middle(taken) == pytest.approx(front(angle), abs=4e-3)


@pytest.mark.parametrize("out", [1, -1])
def test_m7_both_come_to_that_of_a_straight_wall(out):
    """36.870 degrees, at a wall of 2 m."""
    wall = 2000.0
    ring = shapely.buffer(
        shapely.Point(0, -wall), [wall - min(out, 0), wall - max(out, 0)], quad_segs=8000
    )
    solid = shapely.difference(*ring)
    one = arc(wall - 5 * out, 89.6, 0.8, centre=(0.0, -wall))
    box = shapely.buffer(shapely.MultiPoint([one.start[:2], one.end[:2]]), 8).bounds
    taken = take(field_of(solid, 0.0, box, CELL), [one], FINE)
    assert middle(taken) == pytest.approx(front(36.870), abs=4e-3)


def test_m8_in_a_sharp_corner_the_engaged_angle_grows_by_a_right_one():
    """A pass along two walls, after one with the same cutter 1 mm farther in: at the corner the
    edge cuts from the wall beside to the angle of the straight front ahead, 90 + 36.870 degrees.
    The distance s before it, the front ahead is reached up to arccos(1 - (1 - s) / R)."""
    bite, r = 1.0, 5.0
    before = line((-20.0, bite), (-bite, bite), (-bite, 20.0))
    passes = line((-20.0, 0.0), (0.0, 0.0), (0.0, 20.0))
    solid = shapely.box(-30, -r, r, 30)
    taken, _ = run([*before, *passes], solid, cell=0.01, fine=100.0)
    own = taken.move == 2
    widths = taken.width[own]
    quarter = len(widths) // 4
    assert float(widths[quarter : 3 * quarter].mean()) == pytest.approx(front(36.870), abs=4e-3)
    left = (np.arange(len(widths))[::-1] + 0.5) * 20.0 / len(widths)
    angles = np.degrees(np.pi / 2 + np.arccos(1 - (bite - np.append(left[-9:], 0.0)) / r))
    assert angles[-1] == pytest.approx(126.870, abs=1e-3)
    measured = np.degrees(np.arccos(1 - widths[-9:] / r))
    assert measured == pytest.approx(angles[:-1], abs=2.0)
    assert measured.mean() == pytest.approx(angles[:-1].mean(), abs=0.2)


@pytest.mark.parametrize("corners", [3, 4, 6])
@pytest.mark.parametrize("turned", [0.0, 17.0])
def test_m10_a_sharp_inside_corner_keeps_what_a_round_cutter_leaves(corners, turned):
    """r^2 (cot(half the angle) - (pi - angle) / 2) in each: 0.214602 r^2 in a square one, 0.684853
    r^2 in one of 60 degrees."""
    r, inside = 5.0, 7.0
    angle = math.pi * (1 - 2 / corners)
    each = r**2 * (1 / math.tan(angle / 2) - (math.pi - angle) / 2)
    assert each == pytest.approx(
        {3: 0.684853, 4: 0.214602}.get(corners, each / r**2) * r**2, abs=2e-5
    )

    def ring(radius):
        far = radius / math.cos(math.pi / corners)
        turns = [math.radians(turned) + math.tau * k / corners for k in range(corners + 1)]
        return [(far * math.cos(t), far * math.sin(t)) for t in turns]

    moves = line(*ring(inside - r))
    taken, field = run(moves, shapely.Polygon(ring(inside)), cell=0.01)
    left = np.count_nonzero(field.heights == 0) * field.cell**2
    assert left == pytest.approx(corners * each, abs=0.02)
    whole = inside**2 * corners * math.tan(math.pi / corners)
    assert taken.area.sum() == pytest.approx(whole - corners * each, abs=0.03)


@pytest.mark.parametrize(
    ("radius", "apart", "scallop"), [(3, 0.5, 0.010435), (5, 0.5, 0.006254), (5, 1.0, 0.025063)]
)
def test_m11_a_ball_end_leaves_scallops(radius, apart, scallop):
    """h = R - sqrt(R^2 - s^2 / 4), from a handbook; the highest point of the field between two
    passes is as near to the middle as its cells are small."""
    ball = Cutter(1, "ball end mill", 2.0 * radius)
    moves = [
        replace(one, cutter=ball)
        for k in range(3)
        for one in line((0.0, k * apart), (10.0, k * apart), z=-1.0)
    ]
    _, field = run(moves, cell=CELL)
    rows = np.flatnonzero((field.y > 0.05) & (field.y < 2 * apart - 0.05))
    columns = np.flatnonzero((field.x > 2) & (field.x < 8))
    heights = field.heights[np.ix_(rows, columns)] + 1.0
    assert heights.max() == pytest.approx(scallop, abs=3e-5)
    assert heights.min() == pytest.approx(0.0, abs=1e-5)


def test_m12_the_stepover_for_a_scallop():
    """0.34627 mm for 0.005 mm and a ball of 3 mm radius, from a handbook."""
    ball = Cutter(1, "ball end mill", 6.0)
    assert height_over_tip(ball, np.array([0.34627 / 2]))[0] == pytest.approx(0.005, abs=1e-6)


def test_a_bull_nose_and_a_cone_are_as_high_as_their_shapes():
    """Closed forms: a circle of the corner radius; a straight flank."""
    bull = Cutter(1, "bull-nose end mill", 10.0, corner_radius=2.0)
    off = np.array([0.0, 3.0, 4.0, 5.0])
    assert height_over_tip(bull, off) == pytest.approx([0, 0, 2 - math.sqrt(3), 2])
    cone = Cutter(1, "chamfer mill", 10.0, angle=60.0, tip_dia=2.0)
    assert height_over_tip(cone, off) == pytest.approx([0, *(math.sqrt(3) * (off[1:] - 1))])


@pytest.mark.parametrize(
    ("path_dia", "pitch", "angle", "length"),
    [
        (6, 0.5, 1.51946, 18.856186),
        (6, 1.0, 3.03679, None),
        (10, 1.0, 1.82317, None),
        (8, 1.317151, 3.0, None),
    ],
)
def test_m13_m14_m15_a_helix_is_as_steep_and_as_long_as_its_pitch_makes_it(
    path_dia, pitch, angle, length
):
    """atan(p / (pi Dp)); the root of (pi Dp)^2 + p^2. It takes a disc down, and above the slope of
    its last turn no more: half a turn's pitch on the ring that the cutter covers."""
    r, inner = 5.0, path_dia / 2
    helix = replace(
        arc(inner, 0.0, 360.0, z=0.0), start=(inner, 0.0, 0.0), end=(inner, 0.0, -pitch)
    )
    taken, _ = run([helix], cell=0.05)
    fall = math.degrees(math.atan2(pitch, taken.length.sum()))
    assert fall == pytest.approx(angle, abs=1e-5)
    if length:
        assert taken.way.sum() == pytest.approx(length, abs=1e-6)
    disc = math.pi * (inner + r) ** 2 * pitch
    assert disc / 2 < taken.volume.sum() < disc
    flat = replace(helix, start=(inner, 0.0, -pitch))
    assert run([helix, flat], cell=0.05)[0].volume.sum() == pytest.approx(disc, rel=1e-3)
    assert taken.area.sum() == 0, "while it goes down"


@pytest.mark.parametrize("way", [0.0, 20.0, 45.0, 90.0, 170.0, 260.0])
def test_m24_a_slot_is_its_length_times_the_diameter_and_a_disc(way):
    """L D + pi D^2 / 4 with L 50 and D 10, 2 mm deep: 1157.0796 mm3."""
    end = (50 * math.cos(math.radians(way)), 50 * math.sin(math.radians(way)))
    (slot,) = line((0.0, 0.0), end)
    taken, _ = run([slot], cell=0.05)
    assert taken.area.sum() == pytest.approx(578.5398, rel=2e-4)
    assert taken.volume.sum() == pytest.approx(1157.0796, rel=2e-4)
    assert taken.depth.max() == pytest.approx(2.0, abs=1e-6)
    assert middle(taken) == pytest.approx(10.0, abs=5e-3)


@pytest.mark.parametrize("angle", [0.0, 31.0])
def test_m25_a_rectangular_pocket_is_cleared_but_for_its_corners(angle):
    """60 x 40 with D 10: 2400 - (4 - pi) 25 mm2 by loops 4 mm apart, 448 mm long."""
    moves = []
    for width, height in [(50, 30), (42, 22), (34, 14), (26, 6)]:
        half = shapely.affinity.rotate(
            shapely.box(-width / 2, -height / 2, width / 2, height / 2), angle
        )
        moves += line(*half.exterior.coords)
    taken, _ = run(moves, cell=0.05)
    assert taken.way.sum() == pytest.approx(448.0, abs=1e-6)
    assert taken.area.sum() == pytest.approx(2378.5398, rel=2e-4)
    assert taken.volume.sum() == pytest.approx(2 * 2378.5398, rel=2e-4)


@pytest.mark.parametrize("cell", [0.05, 0.1, 0.2, 0.5])
def test_b7_a_plunge_is_a_disc_to_within_the_cells_on_its_rim(cell):
    """|A - 78.5398| <= 2 sqrt(2) pi 5 g, a bound on what g x g cells on a rim can do; in fact a
    tenth of that at most."""
    down = move("line", (1.0, 2.0, 1.0), (1.0, 2.0, -3.0))
    taken, _ = run([down], cell=cell)
    bound = 2 * math.sqrt(2) * math.pi * 5 * cell
    assert abs(taken.volume.sum() / 3 - 78.5398) <= bound / 10
    assert taken.area.sum() == 0, "while it goes down"
    assert taken.length.tolist() == [0.0]
    assert taken.way.tolist() == [4.0]


def test_straight_cuts_along_the_cells_are_counted_as_well_as_slanting_ones():
    """A bite of less than a cell is neither lost nor a whole row."""
    for bite in (0.03, 0.05, 0.13):
        for turn in (0.0, 90.0):
            (first,) = line((0.0, 0.0), (40.0, 0.0))
            (second,) = line((0.0, bite), (40.0, bite))
            turned = [
                replace(
                    one,
                    start=(*_turned(one.start, turn), -2.0),
                    end=(*_turned(one.end, turn), -2.0),
                )
                for one in (first, second)
            ]
            taken, _ = run(turned, cell=0.1)
            again = taken.move == 1
            assert taken.area[again].sum() == pytest.approx(50 * bite, rel=0.04)


def _turned(point, degrees):
    c, s = math.cos(math.radians(degrees)), math.sin(math.radians(degrees))
    return point[0] * c - point[1] * s, point[0] * s + point[1] * c


def test_material_that_was_taken_is_not_taken_again():
    slot = line((0.0, 0.0), (30.0, 11.0))
    taken, _ = run([*slot, *slot, *line((30.0, 11.0), (0.0, 0.0)), *line((0, 0), (9, 9), z=-1.0)])
    sums = [taken.volume[taken.move == k].sum() for k in range(3)]
    assert sums[1:] == [0.0, 0.0]
    assert sums[0] > 600


def test_a_cut_below_another_takes_only_the_layer_between():
    slot = line((0.0, 0.0), (30.0, 11.0))
    deeper = line((0.0, 0.0), (30.0, 11.0), z=-2.5)
    taken, _ = run([*slot, *deeper])
    areas = [taken.area[taken.move == k].sum() for k in range(2)]
    assert areas[1] == pytest.approx(areas[0])
    assert taken.volume[taken.move == 1].sum() == pytest.approx(0.5 * areas[1], rel=1e-6)
    assert taken.depth[taken.move == 1].max() == pytest.approx(0.5, abs=1e-6)


def test_a_ramp_and_the_way_up_take_what_lies_above_them():
    """A slot that falls evenly from 0 to 2 mm is half as deep on the average; going up the same
    way takes nothing more."""
    down = move("line", (0.0, 0.0, 0.0), (40.0, 0.0, -2.0))
    up = move("line", (40.0, 0.0, -2.0), (0.0, 0.0, 0.0))
    taken, _ = run([down, up], cell=0.05)
    sums = [taken.volume[taken.move == k].sum() for k in range(2)]
    # the disc about a place is cut by the lowest tip that reaches it: half of one is past its end
    assert sums[0] == pytest.approx(_under_a_ramp(40.0, 2.0, 5.0), rel=0.03)
    assert sums[1] < 0.01 * sums[0]
    own = taken.move == 0
    ends = (taken.along + taken.length)[own]
    assert taken.depth[own] == pytest.approx(2.0 * ends / 40.0, abs=0.06), "at its front"


def _under_a_ramp(length, fall, r):
    """The tip is lowest over a point at its last touch, min(ahead + half chord, length)."""
    aside = (np.arange(2000) + 0.5) / 2000 * 2 * r - r
    half = np.sqrt(r**2 - aside**2)
    total = 0.0
    for h in half:
        ahead = (np.arange(4000) + 0.5) / 4000 * (length + 2 * h) - h
        last = np.minimum(ahead + h, length)
        total += float(last.mean()) / length * fall * (length + 2 * h)
    return total / 2000 * 2 * r


def test_only_solid_is_material_and_cells_have_a_bound():
    pair = shapely.MultiPolygon([shapely.box(-20, -20, 20, -3), shapely.box(-20, 3, 20, 20)])
    taken, field = run(line((-30.0, 0.0), (30.0, 0.0)), pair, cell=0.05)
    assert taken.area.sum() == pytest.approx(2 * 40 * 2, rel=1e-3)
    assert math.isinf(field.heights.min())
    large = field_of(pair, 0.0, (-500, -500, 500, 500), 0.01)
    assert large.heights.size < 3.1e6
    assert large.cell > 0.5


def test_no_moves_take_nothing():
    field = field_of(shapely.box(0, 0, 1, 1), 0.0, (0, 0, 1, 1), 0.1)
    taken = take(field, [], FINE)
    assert len(taken.move) == len(taken.width) == 0
    assert field.heights.max() == 0


SPOT = st.tuples(st.floats(-12, 12), st.floats(-12, 12))


@st.composite
def chain(draw):
    """Lines and arcs in all directions, one after the other, by cutters of two sizes."""
    at, moves = draw(SPOT), []
    for _ in range(draw(st.integers(1, 5))):
        dia = draw(st.sampled_from([3.0, 8.0]))
        if draw(st.booleans()):
            radius, start = draw(st.floats(0.5, 12.0)), draw(st.floats(0, 360))
            turn = draw(st.floats(5, 360)) * draw(st.sampled_from([1, -1]))
            centre = (
                at[0] - radius * math.cos(math.radians(start)),
                at[1] - radius * math.sin(math.radians(start)),
            )
            one = arc(radius, start, turn, centre=centre, dia=dia)
        else:
            to = draw(SPOT.filter(lambda spot, at=at: math.dist(spot, at) > 0.01))
            (one,) = line(at, to, dia=dia)
        moves.append(one)
        at = one.end[:2]
    return moves


def swept(one, t=1.0):
    """What GEOS makes of the first part of a move: its own points on the way, buffered."""
    points = [one.at(t * k / 400)[:2] for k in range(401)]
    return shapely.buffer(shapely.LineString(points), one.radius, quad_segs=64)


@settings(max_examples=60)
@given(moves=chain(), t=st.floats(0.1, 0.9))
def test_what_each_move_and_each_part_of_it_takes_is_what_geos_finds(moves, t):
    """By areas of difference, to within what cells on the rims of both shapes leave uncertain."""
    solid = shapely.MultiPolygon([shapely.box(-40, -40, 40, -1.5), shapely.box(-40, 1.5, 40, 40)])
    box = shapely.union_all([swept(one) for one in moves]).bounds
    taken = take(field_of(solid, 0.0, box, 0.05), moves, 16.0)
    rest = solid
    for number, one in enumerate(moves):
        own = taken.move == number
        ends = np.cumsum(taken.length[own])
        part = np.searchsorted(ends, t * ends[-1])
        for count, whole in ((part + 1, False), (len(ends), True)):
            reach = swept(one, ends[count - 1] / ends[-1])
            want = shapely.area(shapely.intersection(rest, reach))
            got = taken.area[own][:count].sum()
            rim = shapely.length(shapely.intersection(rest, reach)) + 1
            assert got == pytest.approx(want, abs=2 * 0.05 * math.sqrt(rim * 0.05) + 2e-4 * rim)
            if whole:
                rest = shapely.difference(rest, reach)
