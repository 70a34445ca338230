"""Half profiles read from drawings, against the tables that they were drawn from."""

import math
import re

import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from part_help import INCH, TOLERANCE, new_drawing
from turned_help import SPINDLE, cylinder, half, profile, tables, taper

from jawcam.errors import InputError
from jawcam.geometry.shapes import Arc, Line
from jawcam.part.half_drawing import read_half_profile

CENTRE = {"linetype": "CENTER"}


def read(document, folder, **more):
    path = folder / "spindle.dxf"
    document.saveas(path)
    values = {"layer": None, "units": None, "tolerance": TOLERANCE}
    return read_half_profile(path, shown="spindle.dxf", **{**values, **more})


def drawn(segments, document=None, *, place=lambda p: p, mirrored=False, order=None, **style):
    """A drawing with these segments, each at its place, as lines and arcs in any order."""
    document = document or new_drawing()
    space = document.modelspace()
    for segment in order(segments) if order else segments:
        start, end = place(segment.start), place(segment.end)
        if isinstance(segment, Line):
            space.add_line(start, end, dxfattribs=style)
            continue
        centre = place(segment.centre)
        first, last = (
            math.degrees(math.atan2(y - centre[1], x - centre[0])) for x, y in (start, end)
        )
        if segment.ccw == mirrored:
            first, last = last, first
        radius = math.dist(start, centre)
        space.add_arc(centre, radius, first, last, dxfattribs=style)
    return document


def with_faces(segments):
    """The chain with both end faces, from the axis to the axis."""
    (z0, r0), (z1, r1) = segments[0].start, segments[-1].end
    return [Line((z0, 0), (z0, r0)), *segments, Line((z1, r1), (z1, 0))]


def looped(segments):
    chain = with_faces(segments)
    return [*chain, Line(chain[-1].end, chain[0].start)]


def axis_line(document, start=(-5, 0), end=(80, 0), **style):
    if "CENTER" not in document.linetypes:
        document.linetypes.add("CENTER", pattern=[2.0, 1.25, -0.25, 0.25, -0.25])
    document.modelspace().add_line(start, end, dxfattribs=style)
    return document


def same(found, expected, tolerance=1e-6):
    """Whether two profiles are the same, segment by segment."""
    assert [type(one) for one in found] == [type(one) for one in expected]
    for one, other in zip(found, expected, strict=True):
        assert math.dist(one.start, other.start) <= tolerance
        assert math.dist(one.end, other.end) <= tolerance
        if isinstance(one, Arc):
            assert math.dist(one.centre, other.centre) <= tolerance
            assert one.ccw == other.ccw
    return True


def faults(document, folder, **more):
    with pytest.raises(InputError) as caught:
        read(document, folder, **more)
    return caught.value.faults


# --- round trips ---------------------------------------------------------------------------------


@pytest.mark.parametrize("closing", [list, with_faces, looped])
def test_the_spindle_drawn_is_the_spindle_of_the_table(tmp_path, closing):
    """Open, with its faces, or closed along the axis."""
    table = profile(*SPINDLE)
    found = read(drawn(closing(table)), tmp_path, axis="y = 0")
    assert same(found.profile, table)
    assert found.length == pytest.approx(55)


@settings(max_examples=40, deadline=None)
@given(tables(), st.randoms(use_true_random=False), st.floats(0, 360), st.booleans(), st.booleans())
def test_any_table_comes_back(tmp_path_factory, pieces, random, angle, below, right):
    """In any order, at any place and angle, on either side of the axis, either end first."""
    cos, sin = math.cos(math.radians(angle)), math.sin(math.radians(angle))
    side = -1 if below else 1

    def place(p):
        z, r = p[0], p[1] * side
        return (7 + z * cos - r * sin, -3 + z * sin + r * cos)

    def shuffled(segments):
        return random.sample(segments, len(segments))

    table = profile(*pieces)
    document = drawn(looped(table), place=place, mirrored=below, order=shuffled)
    # a second line on the axis itself, drawn as a centre line
    axis_line(document, place((-5, 0)), place((200, 0)), layer="AXIS")
    ahead = cos > 1e-12 or (abs(cos) <= 1e-12 and sin > 0)
    end_a = "left" if ahead != right else "right"
    found = read(document, tmp_path_factory.mktemp("half"), axis="AXIS", end_a=end_a)
    expected = backwards(table) if right else table
    assert same(found.profile, expected, 2e-6)


def backwards(table):
    """The profile from its other end."""
    length = table[-1].end[0]

    def at(p):
        return (length - p[0], p[1])

    return [
        Arc(at(one.end), at(one.start), at(one.centre), one.ccw)
        if isinstance(one, Arc)
        else Line(at(one.end), at(one.start))
        for one in reversed(table)
    ]


def test_end_a_is_at_the_left_unless_told(tmp_path):
    table = profile(cylinder(12, 15, rounding=1), cylinder(30, 6))
    document = drawn(table, place=lambda p: (p[0] - 50, p[1]))
    assert same(read(document, tmp_path, axis="y=0").profile, table)
    found = read(document, tmp_path, axis="y = 0", end_a="right")
    assert same(found.profile, backwards(table))


def test_a_drawing_in_inches(tmp_path):
    table = profile(*SPINDLE)
    document = drawn(table, new_drawing(INCH), place=lambda p: (p[0] / 25.4, p[1] / 25.4))
    assert same(read(document, tmp_path, axis="y = 0").profile, table)


def test_a_ball_end_begins_on_the_axis(tmp_path):
    ball = [Arc((0, 0), (5, 5), (5, 0), ccw=False), Line((5, 5), (20, 5))]
    assert same(read(drawn(ball), tmp_path, axis="y = 0").profile, ball)


def test_gaps_as_small_as_drawings_have_are_closed(tmp_path):
    table = profile(cylinder(12, 15), cylinder(30, 6))
    document = drawn(table, place=lambda p: p)
    document.modelspace().add_line((21, 15.002), (21, 0.003))
    found = read(document, tmp_path, axis="y = 0")
    assert found.profile[-1].end == pytest.approx((21, 15), abs=0.003)
    assert half(found.profile).area == pytest.approx(15 * 6 + 6 * 15, abs=0.05)


# --- the axis ------------------------------------------------------------------------------------


def test_a_centre_line_is_the_axis(tmp_path):
    table = profile(*SPINDLE)
    document = axis_line(
        drawn(table, place=lambda p: (p[0], p[1] + 40)), (-5, 40), (60, 40), **CENTRE
    )
    assert same(read(document, tmp_path).profile, table)


def test_a_layer_of_centre_lines_makes_its_line_the_axis(tmp_path):
    table = profile(*SPINDLE)
    document = axis_line(drawn(table), layer="MIDDLE")
    document.layers.add("MIDDLE", linetype="CENTER")
    assert same(read(document, tmp_path).profile, table)


def test_a_line_with_a_layer_to_itself_is_the_axis(tmp_path):
    table = profile(*SPINDLE)
    document = axis_line(drawn(table, layer="PART"), layer="MIDDLE")
    assert same(read(document, tmp_path).profile, table)


def test_the_layer_of_the_profile_and_that_of_the_axis(tmp_path):
    table = profile(*SPINDLE)
    document = axis_line(drawn(table, layer="PART"), layer="MIDDLE")
    drawn(profile(cylinder(99, 3)), document, layer="BAR")
    assert same(read(document, tmp_path, layer="PART", axis="middle").profile, table)


def test_the_longest_edge_of_a_loop_with_nothing_behind_it_is_the_axis(tmp_path):
    table = profile(*SPINDLE)
    document = drawn(looped(table), place=lambda p: (3 - p[1], p[0]))
    found = read(document, tmp_path)
    assert same(found.profile, table)
    assert "its axis is taken to be the edge from X 3 Y 0 to X 3 Y 55" in found.notes


def test_an_edge_on_the_x_axis_comes_before_longer_ones(tmp_path):
    table = profile(cylinder(40, 6), cylinder(38, 6))
    assert same(read(drawn(looped(table)), tmp_path).profile, table)


def test_a_plain_cylinder_off_the_x_axis_might_turn_about_either_edge(tmp_path):
    document = drawn(looped(profile(cylinder(12, 50))), place=lambda p: (p[0], p[1] + 5))
    (one,) = faults(document, tmp_path)
    assert one.what == "two edges of the loop, 50 mm long, may be its axis"
    assert '"y = 0"' in one.mend


def test_an_open_chain_has_no_axis_of_its_own(tmp_path):
    (one,) = faults(drawn(profile(*SPINDLE)), tmp_path)
    assert one.what == "nothing says where the axis of the half profile is"
    assert "centre line" in one.mend


def test_two_centre_lines(tmp_path):
    document = axis_line(drawn(profile(*SPINDLE)), **CENTRE)
    axis_line(document, (10, -5), (10, 30), **CENTRE)
    (one,) = faults(document, tmp_path)
    assert "more than one straight line that may be the axis" in one.what
    assert "X 10 Y -5" in one.what


def test_a_layer_of_the_axis_that_is_not_there(tmp_path):
    document = axis_line(drawn(profile(*SPINDLE)), layer="MIDDLE")
    (one,) = faults(document, tmp_path, axis="MIDLE")
    assert "did you mean 'MIDDLE'?" in one.mend


# --- what can be wrong ---------------------------------------------------------------------------


def test_a_profile_that_crosses_its_axis(tmp_path):
    (one,) = faults(drawn([Line((0, 5), (10, 5)), Line((10, 5), (20, -5))]), tmp_path, axis="y=0")
    assert one.what == "the profile crosses its axis"
    assert str(one.place) == "spindle.dxf: X 15 Y 0"
    assert one.mend


def test_an_arc_that_dips_below_the_axis(tmp_path):
    dip = [Line((0, 3), (6, 3)), Arc((6, 3), (14, 3), (10, 3), ccw=True), Line((14, 3), (20, 3))]
    (one,) = faults(drawn(dip), tmp_path, axis="y = 0")
    assert one.what == "the profile crosses its axis"


def test_a_profile_that_runs_back_along_its_axis(tmp_path):
    undercut = [
        Line((0, 5), (10, 5)),
        Line((10, 5), (9, 8)),
        Line((9, 8), (20, 8)),
        Arc((20, 8), (20, 12), (20, 10), ccw=True),
        Line((20, 12), (30, 12)),
    ]
    found = faults(drawn(undercut[:3]), tmp_path, axis="y = 0")
    assert [fault.what for fault in found] == ["the profile runs back along its axis"]
    assert found[0].place.at == "X 10 Y 5"
    found = faults(drawn(undercut), tmp_path, axis="y = 0")
    assert [fault.place.at for fault in found] == ["X 10 Y 5", "X 20 Y 8"]


def test_arcs_that_end_square_to_the_axis_do_not_run_back(tmp_path):
    table = profile(cylinder(30, 6, rounding=0.8), taper(25, 24, 10, rounding=2))
    assert same(read(drawn(table), tmp_path, axis="y = 0").profile, table)


def test_a_broken_profile_is_told_with_both_ends_of_its_gap(tmp_path):
    segments = [Line((0, 5), (10, 5)), Line((10.5, 5), (20, 5)), Line((20, 8), (30, 8))]
    found = faults(drawn(segments), tmp_path, axis="y = 0")
    assert [fault.place.at for fault in found] == ["X 10 Y 5", "X 20 Y 5"]
    assert "it goes on at X 10.5 Y 5, 0.5 mm away" in found[0].what
    assert re.search(r"up to 0\.005 mm", found[0].mend)


def test_a_bore_is_left_to_the_table(tmp_path):
    tube = [Line((0, 3), (0, 6)), Line((0, 6), (20, 6)), Line((20, 6), (20, 3))]
    (one,) = faults(drawn([*tube, Line((20, 3), (0, 3))]), tmp_path, axis="y = 0")
    assert one.what == "the loop has no edge on the axis"
    assert "bore" in one.mend


def test_two_loops(tmp_path):
    document = drawn(looped(profile(cylinder(12, 15))))
    drawn(looped(profile(cylinder(12, 15))), document, place=lambda p: (p[0] + 50, p[1]))
    (one,) = faults(document, tmp_path, axis="y = 0")
    assert "2 separate outlines" in one.what


def test_a_fork(tmp_path):
    chain = [Line((0, 5), (10, 5)), Line((10, 5), (20, 5)), Line((10, 5), (10, 9))]
    (one,) = faults(drawn(chain), tmp_path, axis="y = 0")
    assert "either way" in one.what
    assert one.place.at == "X 10 Y 5"


def test_a_profile_that_meets_its_axis_between_its_ends(tmp_path):
    chain = [Line((0, 5), (10, 0)), Line((10, 0), (20, 5))]
    (one,) = faults(drawn(chain), tmp_path, axis="y = 0")
    assert "no thickness" in one.what
    assert one.place.at == "X 10 Y 0"


def test_areas_agree_with_another_engine(tmp_path):
    table = profile(cylinder(12, 15), cylinder(30, 6), taper(25, 24, 10))
    found = read(drawn(reversed(looped(table))), tmp_path)
    points = [(0, 0), (0, 6), (15, 6), (15, 15), (21, 15), (21, 12.5), (31, 12), (31, 0)]
    assert half(found.profile).area == pytest.approx(shapely.Polygon(points).area, abs=1e-9)
