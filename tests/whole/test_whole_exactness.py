"""An arc in the drawing is an arc in the program: the blocks of a ring, the path's error against
closed forms, and what NISTIR 6556 asks of every arc."""

import itertools
import math

import numpy as np
import pytest
import shapely
from whole_cases import DRAWN
from whole_jobs import CONTROLS, JOB, disc_drawing, job_with, make_one, rounded_drawing
from whole_outlines import FINE
from whole_swept import apart
from whole_words import blocks, section

from jawcam.units import Units

CUTTER, GRIP, LEAVE, STEPOVER = 3.0, 0.04, 0.2, 2.4
"""mm: of the job here, and the defaults for a cutter of 6 mm (stepover 0.4 of it)."""

STEP = {Units.MM: 0.001, Units.INCH: 0.0001 * 25.4}
"""mm; the least difference of two coordinates that the posts print."""

BOUND = {Units.MM: 0.001, Units.INCH: STEP[Units.INCH]}
"""mm; how far a path may lie off the true one. With four decimals of an inch a point alone can be
0.0018 mm off, so that no path is held to less than their resolution."""


@pytest.fixture(scope="module")
def disc(tmp_path_factory):
    return make_one(tmp_path_factory.mktemp("disc"), JOB, disc_drawing(15.0))


@pytest.fixture(scope="module")
def plate(tmp_path_factory):
    """A rounded rectangle of 40 x 26 mm with corners of 6 mm."""
    text = job_with(
        ("rough = { stepdown = 5 }", "rough = { stepdown = 5 }\nfinish = { spring = 1 }")
    )
    return make_one(tmp_path_factory.mktemp("plate"), text, rounded_drawing(20, 13, 6))


# --- distances by closed forms: mm inside the outline, negative outside ------------------------


def inside_disc(points):
    return 15.0 - np.hypot(*points.T)


def inside_plate(points):
    """The rounded rectangle as the rectangle of its corners' centres grown by their radius."""
    q = np.abs(points) - (14.0, 7.0)
    outside = np.hypot(*np.maximum(q, 0.0).T)
    return 6.0 - np.where((q <= 0).all(axis=1), q.max(axis=1), outside)


def inside_belt(points):
    """Two discs and their tangents: the distance from the tangent where it is the nearest."""
    x, y, lean = points[:, 0], np.abs(points[:, 1]), math.acos(5 / 32)
    along = x * math.sin(lean) - y * math.cos(lean)
    tangent = 12 - ((x + 16) * math.cos(lean) + y * math.sin(lean))
    left, right = 12 - np.hypot(x + 16, y), 7 - np.hypot(x - 16, y)
    near = np.where(along < -16 * math.sin(lean), left, right)
    between = np.abs(along) <= 16 * math.sin(lean)
    return np.where(between, tangent, near)


# --- the blocks of a ring ----------------------------------------------------------------------


def ring_blocks(cuts, inside, wanted):
    """The blocks that run all along at `wanted` mm inside the outline."""
    found = []
    for block in cuts:
        depth = inside(block.points(1e-3, 1.0)[:, :2])
        if block.level and np.abs(depth - wanted).max() <= 0.005:
            found.append(block)
    return found


def pieces(ring):
    """How many lines and circles a closed ring runs along: a line cut in two counts once."""
    kinds = []
    for block in ring:
        if block.arc:
            kinds.append(("arc", tuple(np.round(block.centre, 2))))
        else:
            way = math.degrees(math.atan2(*np.subtract(block.end, block.start)[:2]))
            kinds.append(("line", round(way) % 360))
    grouped = [kind for kind, _ in itertools.groupby(kinds)]
    return len(grouped) - (len(grouped) > 1 and grouped[0] == grouped[-1])


def ring_depths(room):
    """How deep inside the outline each roughing ring runs, as long as there is room."""
    first = CUTTER + LEAVE - GRIP
    return np.arange(first, room, STEPOVER)


def test_ring_round_a_disc_costs_no_more_than_two_blocks(disc):
    depths = ring_depths(15.0)
    assert len(depths) == 5
    for name, level in (("roughing", -4.9), ("floor", -5.0)):
        cuts = section(disc.text, name, level=level)
        for depth in depths[:-1]:  # the helix goes round where the innermost would
            ring = ring_blocks(cuts, inside_disc, depth)
            assert 1 <= len(ring) <= 2, (name, depth)
            assert math.isclose(sum(abs(b.turn) for b in ring), math.tau, rel_tol=1e-3)


def test_wall_of_a_disc_costs_no_more_than_two_blocks(disc):
    ring = ring_blocks(section(disc.text, "wall", level=-5.0), inside_disc, CUTTER - GRIP)
    assert 1 <= len(ring) <= 2
    assert math.isclose(sum(abs(b.turn) for b in ring), math.tau, rel_tol=1e-3)


def test_wall_is_all_that_lies_between_lead_in_and_lead_out(disc, plate):
    for whole, inside, most in ((disc, inside_disc, 2), (plate, inside_plate, 16)):
        cuts = section(whole.text, "wall", level=-5.0)
        on = [b in ring_blocks([b], inside, CUTTER - GRIP) for b in cuts]
        first, last = on.index(True), len(on) - on[::-1].index(True)
        assert cuts[first - 1].arc  # led in and out by arcs
        assert cuts[last].arc
        assert all(on[first:last])
        assert last - first <= most


def cut_for_feeds_alone(ring, count):
    """Whether a ring of `count` pieces has no more blocks than that but where a piece is fed slower
    at its ends."""
    joints = [(a, b) for a, b in itertools.pairwise(ring) if pieces([a, b]) == 1]
    return len(ring) == count + len(joints) and all(a.feed != b.feed for a, b in joints)


def test_ring_round_a_rounded_rectangle_costs_eight_pieces(plate):
    """Four lines and four arcs while the cutter's centre goes round the corners, begun where two
    of them meet."""
    cuts = section(plate.text, "roughing", level=-4.9)
    for depth in ring_depths(6.0):
        ring = ring_blocks(cuts, inside_plate, depth)
        assert pieces(ring) == 8
        assert cut_for_feeds_alone(ring, 8)


def test_ring_inside_the_corners_costs_four_pieces(plate):
    """Deeper inside than the corner radius there are no arcs left. (The innermost, 0.24 mm from
    the middle, is not run: the ring round it clears it.)"""
    cuts = section(plate.text, "roughing", level=-4.9)
    depths = [depth for depth in ring_depths(12.0) if depth > 6.0]
    assert len(depths) == 2
    for depth in depths:
        ring = ring_blocks(cuts, inside_plate, depth)
        assert pieces(ring) == 4
        assert cut_for_feeds_alone(ring, 4)
        assert not any(b.arc for b in ring)


def test_wall_of_a_rounded_rectangle_costs_eight_blocks(plate):
    """The finish pass and one spring pass, each begun where an arc goes over into a line."""
    ring = ring_blocks(section(plate.text, "wall", level=-5.0), inside_plate, CUTTER - GRIP)
    assert sum(b.arc for b in ring) == 2 * 4
    assert len(ring) == 2 * 8
    assert pieces(ring[: len(ring) // 2]) == 8


# --- the path's error --------------------------------------------------------------------------


def wall_path(text, inside, wanted, near):
    """The points of the wall pass between its leads, (n, 2)."""
    ring = [
        b
        for b in section(text, "wall")
        if b.level and np.abs(inside(b.points(1e-3, 1.0)[:, :2]) - wanted).max() <= near
    ]
    assert ring
    return np.concatenate([b.points(1e-5, 0.2)[:, :2] for b in ring])


def exact_path(inside, wanted, reach):
    """The true path, by marching from the middle outwards along rays. (n, 2)."""
    angles = np.linspace(0, math.tau, 4001)
    ways = np.column_stack((np.cos(angles), np.sin(angles)))
    low, high = np.zeros(len(angles)), np.full(len(angles), reach)
    for _ in range(50):
        middle = (low + high) / 2
        deep = inside(ways * middle[:, None]) > wanted
        low, high = np.where(deep, middle, low), np.where(deep, high, middle)
    return ways * low[:, None]


@pytest.mark.parametrize("units", [Units.MM, Units.INCH], ids=lambda u: u.value)
@pytest.mark.parametrize("post", CONTROLS)
@pytest.mark.parametrize(
    ("shape", "inside"), [("disc", inside_disc), ("plate", inside_plate)], ids=["disc", "plate"]
)
def test_printed_wall_lies_on_the_exact_offset(request, shape, inside, post, units):
    whole = request.getfixturevalue(shape)
    text, wanted = whole.written(post, units), CUTTER - GRIP
    path = wall_path(text, inside, wanted, 0.02)
    assert np.abs(inside(path) - wanted).max() <= BOUND[units]
    true = exact_path(inside, wanted, 30.0)
    assert np.abs(inside(true) - wanted).max() < 1e-9
    assert apart(true, path) <= BOUND[units] + 2e-5


def test_printed_wall_of_a_loose_belt_lies_on_the_offset_of_the_true_one(drawn):
    """The gaps of 0.002 mm in the drawing may move the outline by half of their width."""
    path = wall_path(drawn("loose belt").text, inside_belt, CUTTER - GRIP, 0.02)
    assert np.abs(inside_belt(path) - (CUTTER - GRIP)).max() <= BOUND[Units.MM] + 0.001


@pytest.fixture(scope="module", params=["ellipse", "spline cam"])
def curve(request, drawn):
    """A program of a curve, and the curve."""
    outline = DRAWN[request.param][1]()
    return drawn(request.param), np.concatenate((outline, outline[:1]))


def test_wall_of_a_curve_keeps_its_distance(curve):
    """Both ways: the bends of these curves are all wider than the offset."""
    whole, outline = curve
    wanted = CUTTER - GRIP
    path = np.concatenate([b.points(1e-5, 0.1)[:, :2] for b in wall_of(whole.text)])
    for some, others in ((path, outline), (outline, path)):
        line = shapely.LineString(others)
        off = shapely.distance(shapely.points(some), line) - wanted
        assert np.abs(off).max() <= BOUND[Units.MM] + FINE


def test_wall_of_a_curve_takes_arcs_and_not_a_flood_of_lines(curve):
    """Arcs within 0.0005 mm: with sagitta s and radius R a chord is sqrt(8 R s) long, 0.27 mm or
    so here, which would make 400 lines; arcs need far fewer."""
    ring = wall_of(curve[0].text)
    assert len(ring) < 120
    assert sum(b.arc for b in ring) > len(ring) * 0.8


def wall_of(text):
    """The blocks of the wall pass between its lead-in and its lead-out, both arcs of 3 mm."""
    cuts = section(text, "wall", level=-5.0)
    leads = [k for k, b in enumerate(cuts) if b.arc and math.isclose(b.radii[0], 3, abs_tol=0.001)]
    return cuts[leads[0] + 1 : leads[-1]]


# --- the rules for arcs ------------------------------------------------------------------------


@pytest.fixture(scope="module")
def programs(samples, disc, plate):
    """Every sample and two made-up jobs, in both dialects, in millimetres and in inches."""
    wholes = [*(samples("crank-lever").values()), *samples("burr-cam").values()]
    wholes += [*samples("hopper-flange").values(), disc, plate]
    return {
        (whole.name, number, post, units): whole.written(post, units)
        for number, whole in enumerate(wholes)
        for post in CONTROLS
        for units in Units
    }


def test_both_radii_of_every_arc_agree(programs):
    """NISTIR 6556 section 3.5.3.2: within 0.0002 inch or 0.002 mm, as the program's units are."""
    for name, text in programs.items():
        limit = 0.0002 * 25.4 if name[-1] is Units.INCH else 0.002
        arcs = [block for block in blocks(text) if block.arc]
        assert arcs
        for arc in arcs:
            assert abs(arc.radii[0] - arc.radii[1]) <= limit + 1e-12, (name, arc.line, arc.text)


def test_arcs_of_every_program_name_their_end(programs):
    """NISTIR 6556 section 3.5.3.2: an arc in the XY plane without X and Y is an error."""
    for name, text in programs.items():
        for arc in blocks(text):
            assert not arc.arc or "X" in arc.text or "Y" in arc.text, (name, arc.line)


def test_no_block_moves_nothing(programs):
    for name, text in programs.items():
        for block in blocks(text):
            assert block.arc or block.start != block.end, (name, block.line, block.text)


def test_no_arc_is_flipped_into_nearly_a_whole_circle(programs):
    """Rounded so that its end passes its start, a short arc would be read the long way round.
    None here truly sweeps as far as that."""
    for name, text in programs.items():
        for arc in blocks(text):
            whole_turn = arc.arc and arc.start[:2] == arc.end[:2]
            if arc.arc and not whole_turn:
                assert abs(arc.turn) <= math.pi * 1.9, (name, arc.line, arc.text)


def test_text_is_in_the_units_of_the_job(programs):
    for (_, _, post, units), text in programs.items():
        word = {CONTROLS[0]: ("G21", "G20"), CONTROLS[1]: ("G71", "G70")}[post]
        said = {w for line in text.splitlines() for w in line.split() if w in word}
        assert said == {word[units is Units.INCH]}
