"""Inserts: their designations and shapes."""

import itertools
import math
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from jawcam.errors import InputError, InternalError
from jawcam.tools.insert import (
    KEPT_CLEAR,
    DesignationError,
    edge_length,
    outline,
    parse,
    set_point_offset,
    steepest,
    wedge,
)
from jawcam.tools.turner import KINDS, Insert, Turner

NAMES = (
    "CNMG120408",
    "DCMT11T304",
    "ECMT130408",
    "KNUX160405",
    "SCMT09T308",
    "TCMT110204",
    "VCMT160404",
    "WNMG080408",
    "RCMT0803M0",
)
POINTED = NAMES[:-1]


def turner(name="DCMT11T304", **values):
    return Turner(1, "turning", insert=parse(name), **values)


# Shape, clearance, size and nose radius as ISO 1832 codes them; edges and inscribed circles as
# tool makers' tables print them.
@pytest.mark.parametrize(
    ("name", "shape", "angle", "clearance", "size", "radius", "edge"),
    [
        ("DCMT11T304", "D", 55, 7, 9.525, 0.4, 11.6),
        ("DNMG150608", "D", 55, 0, 12.7, 0.8, 15.5),
        ("DCMT070202", "D", 55, 7, 6.35, 0.2, 7.75),
        ("CNMG120408", "C", 80, 0, 12.7, 0.8, 12.9),
        ("CCMT060204", "C", 80, 7, 6.35, 0.4, 6.4),
        ("CPMT09T308", "C", 80, 11, 9.525, 0.8, 9.7),
        ("CNMM190624", "C", 80, 0, 19.05, 2.4, 19.3),
        ("VCMT160404", "V", 35, 7, 9.525, 0.4, 16.6),
        ("VBMT110304", "V", 35, 5, 6.35, 0.4, 11.1),
        ("TNMG160408", "T", 60, 0, 9.525, 0.8, 16.5),
        ("TCMT110204", "T", 60, 7, 6.35, 0.4, 11.0),
        ("TNMG220412", "T", 60, 0, 12.7, 1.2, 22.0),
        ("TNMM330924", "T", 60, 0, 19.05, 2.4, 33.0),
        ("WNMG080408", "W", 80, 0, 12.7, 0.8, 8.7),
        ("WNMG060416", "W", 80, 0, 9.525, 1.6, 6.5),
        ("WBMTL30202", "W", 80, 5, 4.76, 0.2, 3.26),
        ("WBMT030204", "W", 80, 5, 5.56, 0.4, 3.8),
        ("CCMT040104", "C", 80, 7, 4.76, 0.4, 4.8),
        ("SNMG150612", "S", 90, 0, 15.875, 1.2, 15.9),
        ("ENMG130408", "E", 75, 0, 12.7, 0.8, 13.1),
        ("MNMG120408", "M", 86, 0, 12.7, 0.8, 12.7),
        ("KNUX160405", "K", 55, 0, 16, 0.5, 16),
        ("RCMT0803M0", "R", 0, 7, 8, 4, 8),
        ("RNMG120400", "R", 0, 0, 12.7, 6.35, 12.7),
    ],
)
def test_designations_of_iso_1832(name, shape, angle, clearance, size, radius, edge):
    insert = parse(name)
    assert insert == Insert(name, shape, angle, clearance, size, pytest.approx(radius))
    assert edge_length(insert) == pytest.approx(edge, abs=0.06)


@pytest.mark.parametrize(
    ("letter", "degrees"),
    [("A", 3), ("B", 5), ("C", 7), ("D", 15), ("E", 20), ("F", 25), ("G", 30), ("N", 0), ("P", 11)],
)
def test_clearance_letters_of_iso_1832(letter, degrees):
    assert parse(f"C{letter}MT120408").clearance == degrees


# The digits of one series of circles, as tool makers' tables print them.
@pytest.mark.parametrize(
    ("circle", "digits"),
    [
        (3.97, "C03 D04 S03 T06"),
        (4.76, "C04 D05 S04 T08"),
        (5.56, "C05 D06 S05 T09 W03"),
        (6.35, "C06 D07 S06 T11 V11 W04"),
        (7.94, "C08 D09 S07 T13 V13 W05"),
        (9.525, "C09 D11 S09 T16 V16 W06"),
        (12.7, "C12 D15 S12 T22 V22 W08"),
        (15.875, "C16 D19 S15 T27 W10"),
        (19.05, "C19 D23 S19 T33 W13"),
        (25.4, "C25 D31 S25 T44"),
    ],
)
def test_digits_of_the_inscribed_circles(circle, digits):
    for shape, *size in digits.split():
        assert parse(f"{shape}NMG{''.join(size)}0404").size == circle


def test_blanks_hyphens_small_letters_and_the_makers_own_signs_are_read():
    for text in ("CNMG 12 04 08", "cnmg-120408", " CNMG120408 "):
        assert parse(text) == parse("CNMG120408")
    for tail in ("EN", " EN", "-XY"):
        named = parse(f"CNMG120408{tail}")
        assert named.designation.startswith("CNMG120408")
        assert named.designation.endswith(tail.strip())
        assert replace(named, designation="CNMG120408") == parse("CNMG120408")


@pytest.mark.parametrize(
    ("text", "columns"),
    [
        ("XCMT11T304", [1]),
        ("LNMG120408", [1]),
        ("DOMT11T304", [2]),
        ("DCZT11T304", [3]),
        ("DCM?11T304", [4]),
        ("DCMT13T304", [5]),
        ("KNUX1 0405", [11]),
        ("KNUX1x0405", [5]),
        ("DCMT11X304", [7]),
        ("DCMT11T300", [9]),
        ("DCMT11T3M0", [9]),
        ("DCMT11T3²²", [9]),
        ("RCMT080304", [9]),
        ("TCMT060224", [9]),
        ("DCMT11T3040", [11]),
        ("DCMT", [5]),
        ("", [1]),
        ("CNMG432", [5]),
        ("XOMT13X3QQ", [1, 2, 7]),
        ("DOZ?13X300", [2, 3, 4, 5, 7, 9]),
        ("D OZ-?", [3, 4, 6, 7]),
        ("ßCMT11T304", [1]),
    ],
)
def test_all_that_is_wrong_is_named_with_its_column_and_the_mend(text, columns):
    with pytest.raises(DesignationError) as caught:
        parse(text)
    slips = caught.value.slips
    assert [slip.column for slip in slips] == columns
    assert all(slip.what and slip.mend for slip in slips)
    assert isinstance(caught.value, InputError)
    for slip, fault in zip(slips, caught.value.faults, strict=True):
        assert (fault.what, fault.mend) == (slip.what, slip.mend)
        assert f"character {slip.column}" in str(fault)


def test_designations_in_inches_are_told_so():
    with pytest.raises(DesignationError, match="in inches"):
        parse("CNMG432")


@given(st.text(max_size=14))
@settings(max_examples=100, deadline=None)
def test_no_text_breaks_the_reading(text):
    try:
        assert parse(text).size > 0
    except DesignationError as error:
        assert error.slips  # noqa: PT017


def test_the_wedge_of_a_right_hand_tool():
    """A 93 degree tool leans 3 degrees back from a square shoulder; 180 - 93 - 55 = 32."""
    main, trailing = wedge(turner(approach=93.0))
    assert main == pytest.approx((math.sin(math.radians(3)), math.cos(math.radians(3))))
    assert trailing == pytest.approx((math.cos(math.radians(32)), math.sin(math.radians(32))))


tools = st.builds(
    lambda name, approach, hand, inside: turner(name, approach=approach, hand=hand, inside=inside),
    st.sampled_from(NAMES),
    st.sampled_from([62.5, 75.0, 90.0, 93.0, 95.0, 107.5]),
    st.sampled_from(["right", "left", "neutral"]),
    st.booleans(),
)


def cross(a, b):
    return a[0] * b[1] - a[1] * b[0]


def off(points, at):
    """The least distance of a point from the lines of a polygon's sides, + inside."""
    found = []
    for a, b in zip(points, [*points[1:], points[0]], strict=True):
        side = (b[0] - a[0], b[1] - a[1])
        found.append(cross(side, (at[0] - a[0], at[1] - a[1])) / math.hypot(*side))
    return min(found)


@given(tools)
@settings(max_examples=60, deadline=None)
def test_outlines_are_convex_and_counter_clockwise(tool):
    points = outline(tool)
    turns = [
        cross((b[0] - a[0], b[1] - a[1]), (c[0] - b[0], c[1] - b[1]))
        for a, b, c in zip(points, [*points[1:], points[0]], points[2:] + points[:2], strict=True)
    ]
    assert min(turns) > -1e-12
    sweep = sum(
        math.atan2(cross(a, b), a[0] * b[0] + a[1] * b[1])
        for a, b in itertools.pairwise([*points, points[0]])
    )
    assert sweep == pytest.approx(2 * math.pi)


@given(tools)
@settings(max_examples=60, deadline=None)
def test_outlines_touch_the_nose_circle_and_run_along_both_edges(tool):
    points, radius = outline(tool), tool.insert.radius
    assert off(points, (0, 0)) == pytest.approx(radius, rel=1e-3)
    if tool.insert.shape == "R":
        assert all(math.hypot(*point) == pytest.approx(radius) for point in points)
        return
    sides = [
        ((b[0] - a[0]) / math.dist(a, b), (b[1] - a[1]) / math.dist(a, b), a, b)
        for a, b in zip(points, [*points[1:], points[0]], strict=True)
        if math.dist(a, b) > 2
    ]
    for z, x in wedge(tool):
        # an edge begins where it touches the nose, so far from the sharp corner
        length = edge_length(tool.insert) - radius / math.tan(math.radians(tool.insert.angle / 2))
        along = [
            (a, b)
            for dz, dx, a, b in sides
            if abs(dz * x - dx * z) < 1e-9
            and min(math.hypot(*a), math.hypot(*b)) == pytest.approx(radius)
        ]
        assert len(along) == 1
        assert math.dist(*along[0]) == pytest.approx(length)
        assert abs(cross(along[0][0], (z, x))) == pytest.approx(radius)


@given(tools)
@settings(max_examples=40, deadline=None)
def test_outlines_lie_in_the_cone_of_the_nose_and_the_wedge(tool):
    if tool.insert.shape == "R":
        return
    edges, radius = wedge(tool), tool.insert.radius
    for point in outline(tool):
        across = cross(edges[0], edges[1])
        # how far beyond either edge's line through the centre; the nose's radius is allowed
        beyond_main = cross(point, edges[0]) * math.copysign(1, across)
        beyond_trailing = cross(edges[1], point) * math.copysign(1, across)
        assert max(beyond_main, beyond_trailing) <= radius + 1e-9


@given(tools)
@settings(max_examples=40, deadline=None)
def test_other_hands_and_inside_are_mirrored(tool):
    plain = replace(tool, hand="right", inside=False)
    z_sign, x_sign = -1 if tool.hand == "left" else 1, -1 if tool.inside else 1
    mirrored = {(round(z_sign * z, 9), round(x_sign * x, 9)) for z, x in outline(plain)}
    assert {(round(z, 9), round(x, 9)) for z, x in outline(tool)} == mirrored
    for (z, x), (z0, x0) in zip(wedge(tool), wedge(plain), strict=True):
        assert (z, x) == (z_sign * z0, x_sign * x0)


@pytest.mark.parametrize("name", POINTED)
def test_the_inscribed_circle_fits_the_other_sides(name):
    """All sides touch the circle that the insert is named by; the parallelogram has none."""
    insert = parse(name)
    points = outline(turner(name))
    sharp = edge_length(insert) * math.cos(math.radians(insert.angle / 2)) * 2
    if insert.shape in "CDEMSV":
        far = max(points, key=lambda point: math.hypot(*point))
        nose = insert.radius / math.sin(math.radians(insert.angle / 2))
        assert math.hypot(*far) == pytest.approx(sharp - nose)
    if insert.shape != "K":
        main, trailing = wedge(turner(name))
        along = (main[0] + trailing[0], main[1] + trailing[1])
        reach = insert.size / 2 / math.sin(math.radians(insert.angle / 2))
        reach -= insert.radius / math.sin(math.radians(insert.angle / 2))
        middle = (reach * along[0] / math.hypot(*along), reach * along[1] / math.hypot(*along))
        assert off(points, middle) == pytest.approx(insert.size / 2)


# The corner of the nose circle's box; tools without a nose are told at their point.
@pytest.mark.parametrize(
    ("hand", "inside", "offset"),
    [
        ("right", False, (-0.4, -0.4)),
        ("left", False, (0.4, -0.4)),
        ("neutral", False, (0.0, -0.4)),
        ("right", True, (-0.4, 0.4)),
        ("left", True, (0.4, 0.4)),
        ("neutral", True, (0.0, 0.4)),
    ],
)
def test_set_point_of_turning_and_boring_tools(hand, inside, offset):
    kind = "boring" if inside else "turning"
    tool = replace(turner(hand=hand, inside=inside), kind=kind)
    assert set_point_offset(tool) == offset


def test_set_points_of_other_tools():
    groove = Turner(2, "grooving", width=2.0, radius=0.2)
    assert set_point_offset(groove) == (-0.2, -0.2)
    assert set_point_offset(replace(groove, kind="parting")) == (-0.2, -0.2)
    assert set_point_offset(replace(groove, inside=True)) == (-0.2, 0.2)
    for kind in sorted(set(KINDS) - {"turning", "boring", "grooving", "parting"}):
        assert set_point_offset(Turner(3, kind, dia=4.0)) == (0.0, 0.0)


@given(tools)
@settings(max_examples=60, deadline=None)
def test_the_set_point_touches_what_the_nose_touches(tool):
    """A cylinder under the set point touches the insert, and a square shoulder ahead of it too,
    if the edges stand back from them."""
    dz, dx = set_point_offset(tool)
    points = outline(tool)
    wall = 1 if tool.inside else -1
    clears = steepest(replace(tool, hand="right"))
    if clears[1] > 0:
        assert max(wall * x for _, x in points) == pytest.approx(wall * dx, rel=2e-3)
    if tool.approach > 90 and tool.hand != "neutral":
        ahead = -1 if tool.hand == "right" else 1
        assert max(ahead * z for z, _ in points) == pytest.approx(ahead * dz, rel=2e-3)


@pytest.mark.parametrize(
    ("name", "approach", "rising", "falling"),
    [
        ("DCMT11T304", 93.0, 91.0, 30.0),
        ("VCMT160404", 93.0, 91.0, 50.0),
        ("CNMG120408", 95.0, 93.0, 3.0),
        ("WNMG080408", 95.0, 93.0, 3.0),
        ("TNMG160408", 91.0, 90.0, 27.0),
        ("TNMG160408", 90.0, 90.0, 28.0),
        ("SCMT09T308", 75.0, 73.0, 13.0),
        ("VCMT160404", 72.5, 70.5, 70.5),
        ("CNMG120408", 99.5, 97.5, 0.0),
    ],
)
def test_the_steepest_walls(name, approach, rising, falling):
    """180 - K - E and K, each less 2 degrees kept clear (common practice, no source)."""
    tool = turner(name, approach=approach)
    assert steepest(tool) == (rising, falling)
    assert steepest(replace(tool, inside=True)) == (rising, falling)
    assert steepest(replace(tool, hand="left")) == (falling, rising)


@given(tools)
@settings(max_examples=40, deadline=None)
def test_walls_as_steep_as_that_are_clear_of_the_edges(tool):
    """Lines at those angles through the nose's tangent point pass the whole insert by, with the
    angle kept between them and the edge."""
    rising, falling = steepest(tool)
    radius, wall = tool.insert.radius, 1 if tool.inside else -1
    for slope, way in ((rising, -1), (falling, 1)):
        if not 0 < slope <= 90:
            continue
        angle = math.radians(slope)
        normal = (way * math.sin(angle), wall * math.cos(angle))
        reach = max(normal[0] * z + normal[1] * x for z, x in outline(tool))
        assert reach == pytest.approx(radius, rel=2e-3)


def test_the_angle_kept_clear_is_the_one_said():
    assert KEPT_CLEAR == 2.0


def test_tools_without_an_insert_are_no_such_tools():
    bare = Turner(4, "threading")
    for ask in (outline, wedge, steepest):
        with pytest.raises(InternalError, match="tool 4"):
            ask(bare)
