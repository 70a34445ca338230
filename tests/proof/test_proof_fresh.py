"""The fresh width along a program, against handbook values, closed forms and areas by GEOS. M1 and
so on are the names of the milling values."""

import math

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from proof_pen import Pen, program

from jawcam.proof.fresh import fresh_widths
from jawcam.tools.cutter import Cutter

TEN = Cutter(3, "end mill", 10.0)


def path(*points, z=-2.0, pen=None):
    pen = pen or Pen()
    pen.rapid(*points[0]).rapid(z=z)
    for point in points[1:]:
        pen.feed(*point)
    return pen


def widths(pen, solid=None, cutter=TEN, **options):
    return fresh_widths(program(pen), [cutter], cutter.number, solid=solid, **options)


def engaged(width, radius=5.0):
    """The angle in degrees that a fresh width belongs to: width = R (1 - cos of it)."""
    return np.degrees(np.arccos(1 - width / radius))


@pytest.mark.parametrize(
    ("share", "angle"),
    [
        (0.04, 23.07),
        (0.05, 25.84),
        (0.1, 36.87),
        (0.2, 53.13),
        (0.3, 66.42),
        (0.4, 78.46),
        (0.5, 90.0),
        (1.0, 180.0),
    ],
)
@pytest.mark.parametrize("way", [0.0, 33.0, 200.0])
def test_m1_beside_a_straight_wall_to_the_last_printed_digit(share, angle, way):
    """cos phi = 1 - 2 ae / D, a toolmaker's printed list. After a pass so far to the left."""
    ahead = np.array([math.cos(math.radians(way)), math.sin(math.radians(way))])
    aside = 10.0 * share * np.array([-ahead[1], ahead[0]])
    pen = path(aside, aside + 60 * ahead)
    path((0.0, 0.0), tuple(60 * ahead), pen=pen.rapid(z=5.0))
    got = widths(pen)
    second = (got.line > 4) & (np.hypot(got.x, got.y) < 50)
    assert got.width[second] == pytest.approx(10 * share, abs=1e-5)
    if share < 1:
        assert engaged(got.width[second]) == pytest.approx(angle, abs=0.01)
    assert got.depth[second] == pytest.approx(2.0)


WALLS = [(8, 1, 60.0), (12, 1, 47.823), (20, 1, 42.269), (8, 2, 86.177)]


@pytest.mark.parametrize(("wall", "bite", "angle"), WALLS)
@pytest.mark.parametrize("way", [1, -1])
def test_m5_round_the_inside_of_a_wall(wall, bite, angle, way):
    """By the law of cosines; all round but where the cutter comes in."""
    cleared = shapely.buffer(shapely.Point(0, 0), wall - bite, quad_segs=4000)
    solid = shapely.difference(shapely.box(-30, -30, 30, 30), cleared)
    pen = Pen().rapid(wall - 5.0, 0.0).rapid(z=-2.0).circle(turns=way)
    got = widths(pen, solid)
    some = slice(len(got.width) // 3, len(got.width) // 2)
    assert engaged(got.width[some]) == pytest.approx(angle, abs=1e-3)


@pytest.mark.parametrize(("wall", "angle"), [(8, 29.631), (20, 33.280)])
@pytest.mark.parametrize("way", [1, -1])
def test_m6_round_the_outside_of_one(wall, angle, way):
    solid = shapely.buffer(shapely.Point(0, 0), wall + 1, quad_segs=4000)
    pen = Pen().rapid(wall + 5.0, 0.0).rapid(z=-2.0).circle(turns=way)
    got = widths(pen, solid)
    some = slice(len(got.width) // 3, len(got.width) // 2)
    assert engaged(got.width[some]) == pytest.approx(angle, abs=1e-3)


def test_m7_both_come_to_that_of_a_straight_wall():
    """36.870 degrees, at a wall of 200 m."""
    wall = 200000.0
    for out in (1, -1):
        pen = Pen()
        for bite in (1.0, 0.0):
            y = -5.0 - bite * out if out > 0 else 5.0 - bite * out
            pen.rapid(z=5.0).rapid(-20.0, y).rapid(z=-2.0)
            pen.arc(20.0, y, (0.0, -wall), ccw=False)
        got = widths(pen)
        some = (got.line > 6) & (np.abs(got.x) < 12)
        assert engaged(got.width[some]) == pytest.approx(36.870, abs=2e-2)


def test_m8_in_a_sharp_corner_it_grows_by_a_right_angle():
    """Up to 126.870 degrees with 1 mm of 10. The distance s before the corner, the front ahead is
    reached up to arccos(1 - (1 - s) / R)."""
    pen = path((-20.0, 1.0), (-1.0, 1.0), (-1.0, 20.0))
    path((-20.0, 0.0), (0.0, 0.0), (0.0, 20.0), pen=pen.rapid(z=5.0))
    got = widths(pen, shapely.box(-30, -5, 5, 30), step=0.01)
    before = got.line == got.line[got.line > 4].min()
    left = -got.x[before]
    angle = engaged(got.width[before])
    last = left < 0.9
    want = 90 + np.degrees(np.arccos(1 - (1 - left[last]) / 5))
    assert angle[last] == pytest.approx(want, abs=0.02)
    assert want.max() == pytest.approx(126.870, abs=0.1)
    assert angle[(left > 8) & (left < 12)] == pytest.approx(36.870, abs=1e-3)


def test_m24_a_slot_is_as_wide_as_its_cutter():
    got = widths(path((0.0, 0.0), (50.0, 0.0)))
    assert got.width == pytest.approx(10.0, abs=1e-3)
    assert got.way.sum() == pytest.approx(50.0)
    assert np.array([got.x, got.y, got.z]).T[0] == pytest.approx([0.125, 0.0, -2.0])
    assert set(got.feed.tolist()) == {600.0}
    assert not got.falls.any()


def test_round_a_tight_circle_a_cutter_meets_only_what_it_has_not_cut():
    """Round a circle smaller than itself it cuts a disc of the sum of both radii: after its first
    disc the rest."""
    got = widths(Pen().rapid(2.0, 0.0).rapid(z=-2.0).circle(), step=0.02)
    assert (got.width * got.way).sum() == pytest.approx(math.pi * (49 - 25), rel=2e-3)
    assert widths(path((2.0, 0.0), (2.0, 0.1)).circle().circle()).width[-30:].max() == 0


def test_on_its_way_down_and_below():
    """A helix falls; the circle under it cuts what the slope has left, as deep as that is."""
    pen = Pen().rapid(2.0, 0.0).rapid(z=0.0).circle(z=-1.0).circle()
    got = widths(pen)
    assert got.falls.tolist() == (got.line == 3).tolist()
    flat = ~got.falls
    assert 0.5 < got.depth[flat].max() <= 1.0
    deeper = widths(path((0.0, 0.0), (30.0, 0.0), z=-3.5, pen=path((0.0, 0.0), (30.0, 0.0))))
    second = deeper.line > 3
    assert deeper.depth[second] == pytest.approx(1.5)
    assert deeper.width[second] == pytest.approx(10.0, abs=1e-3)


def test_other_tools_drills_and_what_is_no_material_count():
    drill = Cutter(4, "drill", 12.0)
    pen = Pen().call(4).rapid(0.0, 0.0).rapid(z=5.0).feed(z=-30.0).rapid(z=5.0).call(3)
    path((0.0, 0.0), (0.5, 0.0), pen=pen)
    shut = program(pen)
    assert fresh_widths(shut, [TEN, drill], 3).width.max() == 0
    assert fresh_widths(shut, [TEN], 3).width.max() == pytest.approx(10.0, abs=1e-3)
    half = widths(path((0.0, 0.0), (40.0, 0.0)), shapely.box(-50, -50, 50, 0))
    assert half.width == pytest.approx(5.0, abs=1e-3)
    assert widths(path((0.0, 0.0), (40.0, 0.0)), top=-2.0).width.max() == 0
    with pytest.raises(KeyError):
        fresh_widths(shut, [TEN], 9)
    assert len(fresh_widths(shut, [TEN, Cutter(9, "end mill", 3.0)], 9).width) == 0


@pytest.mark.parametrize("way", [0.0, 71.0])
def test_a_bite_doubled_at_one_place_is_seen_there(way):
    """Passes half a millimetre apart; one leaves its line by as much."""
    c, s = math.cos(math.radians(way)), math.sin(math.radians(way))

    def passes(out):
        pen = Pen()
        for k in range(5):
            y = 0.5 * k
            points = [(-40.0, y), (-2.0, y), (0.0, y + out * (k == 3)), (2.0, y), (40.0, y)]
            path(*[(x * c - y * s, x * s + y * c) for x, y in points], pen=pen.rapid(z=5.0))
        return pen

    def along(got):
        return got.x * c + got.y * s

    good, bad = widths(passes(0.0)), widths(passes(0.5))
    settled = (good.line > 7) & (np.abs(along(good)) < 30)
    assert good.width[settled] == pytest.approx(0.5, abs=1e-5)
    most = np.argmax(np.where((bad.line > 7) & (np.abs(along(bad)) < 30), bad.width, 0.0))
    assert bad.width[most] > 0.9
    assert abs(along(bad)[most]) < 2.0
    fourth = passes(0.5).cuts[3 * 7 + 4].line
    assert bad.line[most] in (fourth, fourth + 1)


SPOT = st.tuples(st.floats(-12, 12), st.floats(-12, 12))


@settings(max_examples=20)
@given(st.lists(st.tuples(SPOT, st.floats(0.5, 1.5), st.booleans()), min_size=2, max_size=6))
def test_all_widths_along_the_way_make_up_the_area_that_geos_finds(spots):
    """Of chains of lines and arcs, but for the disc where the cutter comes down."""
    pen = Pen().rapid(*spots[0][0]).rapid(z=-2.0).feed(z=-2.1)
    shapes = [shapely.Point(spots[0][0])]
    for (x, y), bend, arc in spots[1:]:
        ax, ay, _ = pen.at
        if math.dist((ax, ay), (x, y)) < 0.1:
            continue
        if arc:
            off = bend - 1.0  # the centre beside the chord's middle
            centre = (ax + x) / 2 - off * (y - ay), (ay + y) / 2 + off * (x - ax)
            pen.arc(x, y, centre)
            cut = pen.cuts[-1]
            first = math.atan2(ay - centre[1], ax - centre[0])
            r = math.dist((ax, ay), centre)
            turns = first + cut.turn * np.linspace(0, 1, 2000)
            points = np.column_stack((centre[0] + r * np.cos(turns), centre[1] + r * np.sin(turns)))
            shapes.append(shapely.LineString(points))
        else:
            pen.feed(x, y)
            shapes.append(shapely.LineString([(ax, ay), (x, y)]))
    got = widths(pen, step=0.02)
    whole = shapely.union_all([shapely.buffer(s, 5.0, quad_segs=200) for s in shapes])
    want = shapely.area(whole) - math.pi * 25
    assert (got.width * got.way).sum() == pytest.approx(want, abs=0.02 + 3e-3 * want)
