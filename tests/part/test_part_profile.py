"""The half profile of a turned part, against closed forms and against another engine."""

import itertools
import math

import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from part_help import polygon
from turned_help import SPINDLE, cylinder, faults, half, place, profile, rim, tables, taper

from jawcam.errors import InputError
from jawcam.geometry.shapes import Arc, Line
from jawcam.part.half import of_table
from jawcam.part.lying import lying
from jawcam.part.piece import Piece
from jawcam.part.profile import check_turned, half_profile, idle_breaks
from jawcam.units import Units


def about(point):
    return pytest.approx(point, abs=1e-12)


def test_a_cylinder_is_one_line():
    assert profile(cylinder(30, 6)) == (Line((0, 15), (6, 15)),)


def test_a_shoulder_is_a_line_across_the_axis():
    assert profile(cylinder(12, 15), cylinder(30, 6)) == (
        Line((0, 6), (15, 6)),
        Line((15, 6), (15, 15)),
        Line((15, 15), (21, 15)),
    )


def test_a_chamfer_of_1_on_30_runs_from_28_to_30_over_1():
    """Common practice: 1 x 45 degrees takes 1 off along the axis and 2 off the diameter."""
    first, _, last = profile(cylinder(30, 6, chamfer=1))
    assert (first.start, first.end) == ((0, 14), (1, 15))
    assert (last.start, last.end) == ((5, 15), (6, 14))


def test_a_round_is_tangent_a_radius_away_from_its_corner():
    first, _, last = profile(cylinder(30, 6, rounding=0.8))
    assert first == Arc((0, 14.2), (0.8, 15), (0.8, 14.2), ccw=False)
    assert (last.start, last.end) == (about((5.2, 15)), about((6, 14.2)))
    assert last.centre == about((5.2, 14.2))


def test_the_half_angles_of_tapers():
    """1:10 has the half angle atan(1/20), 7:24 atan(7/48); to a millionth of a degree."""
    for (start, end, length), degrees in {(12, 11, 10): 2.862405, (31, 24, 24): 8.297145}.items():
        (line,) = profile(taper(start, end, length))
        drop = (line.start[1] - line.end[1]) / (line.end[0] - line.start[0])
        assert math.degrees(math.atan(drop)) == pytest.approx(degrees, abs=1e-6)


def test_the_diameter_change_of_a_half_angle_of_3_degrees_over_40():
    """2 L tan(angle) = 4.192622."""
    (line,) = profile(taper(24, 24 - 4.192622, 40))
    assert math.degrees(math.atan2(line.start[1] - line.end[1], 40)) == pytest.approx(3, abs=1e-6)


def test_limits_are_cut_to_their_middle():
    assert profile(cylinder(20, 12, limits=(0, -0.021)))[0].start[1] == pytest.approx(19.9895 / 2)
    assert profile(cylinder(20, 12, limits=(0.021, -0.021)))[0].start[1] == 10


def test_a_thread_has_its_major_diameter():
    assert profile(cylinder(20, 12, thread="M20x2.5 6g")) == (Line((0, 10), (12, 10)),)


def test_only_the_corner_that_stands_out_is_broken():
    pieces = [cylinder(12, 15, chamfer=1), cylinder(30, 6), cylinder(12, 9, chamfer=1)]
    drawn = profile(*pieces)
    assert [seg for seg in drawn if abs(seg.end[1] - seg.start[1]) == pytest.approx(1)] == [
        Line((0, 5), (1, 6)),
        Line((29, 6), (30, 5)),
    ]


def test_equal_neighbours_have_no_corner_between_them():
    drawn = profile(cylinder(20, 5, chamfer=1), cylinder(20, 5, chamfer=1), taper(20, 10, 5))
    assert drawn[:3] == (Line((0, 9), (1, 10)), Line((1, 10), (5, 10)), Line((5, 10), (10, 10)))


def test_limits_make_no_corner_beside_the_same_nominal_diameter():
    ground, thread = cylinder(20, 12, limits=(0, -0.021)), cylinder(20, 12, chamfer=1.5)
    for pieces in ([ground, thread], [thread, ground]):
        assert sum(seg.length == pytest.approx(1.5 * 2**0.5) for seg in profile(*pieces)) == 1


def test_breaks_of_up_to_a_size_can_be_left_out():
    drawn = profile(cylinder(30, 6, chamfer=1), cylinder(20, 6, chamfer=1.5), beyond=1)
    assert drawn[0] == Line((0, 15), (6, 15))
    assert drawn[-1] == Line((10.5, 10), (12, 8.5))


# --- on tapers -------------------------------------------------------------------------------


def test_a_chamfer_on_a_taper_is_as_long_along_the_axis_and_at_45_degrees():
    (*_, last) = profile(taper(20, 30, 10, chamfer=1))
    assert last.start == about((9, 14.5))
    assert last.end == about((10, 13.5))


def test_a_steep_taper_has_nothing_to_chamfer_at_its_small_end():
    drawn = profile(taper(10, 40, 10, chamfer=1))
    assert drawn[0].start == (0, 5)
    assert len(drawn) == 2
    assert idle_breaks([taper(10, 40, 10, chamfer=1)]) == ()


WIDTHS, LENGTHS = st.floats(12, 40), st.floats(8, 30)


@given(st.lists(st.tuples(WIDTHS, WIDTHS, LENGTHS), min_size=1, max_size=2), st.floats(0.1, 2))
@settings(max_examples=100)
def test_rounds_are_what_a_disc_rolled_inside_leaves(rows, radius):
    """It reaches all of the silhouette but its outer corners: a morphological opening."""
    pieces = [taper(*row, rounding=radius) for row in rows]
    if faults(pieces) or len({end for _, end, _ in rows[:-1]} - {rows[-1][0]}) < len(rows) - 1:
        return  # two slopes that meet at a crest have no corner to break
    (outline,) = lying(of_table(pieces, (), units=Units.MM, place=place)).silhouette
    points = rim(profile(*(taper(*row) for row in rows)))
    middle = points[-1][0] / 2
    sharp = shapely.Polygon(
        [(x - middle, r) for x, r in points] + [(x - middle, -r) for x, r in points[::-1]]
    )
    rolled = sharp.buffer(-radius, 400, join_style="round").buffer(radius, 400)
    assert polygon(outline).symmetric_difference(rolled).area < 2e-3 * radius


@given(tables())
@settings(max_examples=80)
def test_a_profile_runs_on_without_a_break_and_stays_inside_the_sharp_one(pieces):
    drawn = profile(*pieces)
    length = math.fsum(piece.length for piece in pieces)
    assert all(a.end == b.start for a, b in itertools.pairwise(drawn))
    assert drawn[0].start[0] == 0
    assert drawn[-1].end[0] == pytest.approx(length)
    sharp = profile(*(Piece(p.start, p.end, p.length) for p in pieces))
    assert half(drawn).area <= half(sharp).area + 1e-9
    assert half(drawn).difference(half(sharp).buffer(1e-6)).is_empty
    assert half(drawn).is_valid


# --- areas -----------------------------------------------------------------------------------


def test_areas_of_simple_cases():
    assert half(profile(taper(30, 20, 10))).area == pytest.approx(10 * (15 + 10) / 2)
    assert half(profile(cylinder(30, 6, chamfer=1))).area == pytest.approx(6 * 15 - 2 * 0.5)
    corner = 0.8**2 * (1 - math.pi / 4)
    assert half(profile(cylinder(30, 6, rounding=0.8))).area == pytest.approx(90 - 2 * corner)


def test_a_ball_on_the_end():
    drawn = profile(cylinder(10, 20, rounding=5))
    assert drawn[0] == Arc((0, 0), (5, 5), (5, 0), ccw=False)
    assert drawn[-1].end == (20, 0)
    assert half(drawn).area == pytest.approx(50 + math.pi * 25 / 2, rel=1e-5)


# --- what can be wrong -----------------------------------------------------------------------


def test_a_break_must_fit_on_its_piece_and_on_its_shoulder():
    pieces = [
        cylinder(20, 10, chamfer=2),
        cylinder(22, 10, rounding=1.5),
        cylinder(20, 3, chamfer=2),
    ]
    found = faults(pieces)
    assert set(found) == {"turned[2]"}
    assert "a round of 1.5 mm is too large" in found["turned[2]"]
    assert "at most 1 mm" in found["turned[2]"]
    assert "at most 1.5 mm" in faults([cylinder(20, 3, chamfer=1.6)])["turned[1]"]
    assert set(faults([cylinder(20, 3, chamfer=2), cylinder(30, 4, rounding=3)])) == {"turned[2]"}


def test_every_break_without_room_is_told_in_one_run():
    assert set(faults([cylinder(20, 3, chamfer=11), cylinder(10, 4, rounding=6)])) == {
        "turned[1]",
        "turned[2]",
    }


def test_a_break_that_just_fits_will_do():
    assert len(profile(cylinder(20, 3, chamfer=1.5))) == 2
    assert len(profile(cylinder(1.0 / 3, 3, rounding=0.167))) == 3


def test_a_size_told_can_be_taken():
    """The mend's own figure, rounded, is no fault."""
    pieces = [taper(23.3, 22.1, 7.7, rounding=9)]
    told = float(faults(pieces)["turned[1]"].split("at most ")[-1].removesuffix(" mm"))
    assert faults([taper(23.3, 22.1, 7.7, rounding=told)]) == {}


def test_a_corner_has_one_break():
    assert "both" in faults([cylinder(20, 5, chamfer=1, rounding=1)])["turned[1]"]


def test_a_break_that_breaks_nothing_is_noted():
    (note,) = idle_breaks([cylinder(20, 5), cylinder(10, 5, chamfer=1), cylinder(20, 5)])
    assert "chamfer of piece 2 breaks nothing" in note
    assert idle_breaks(SPINDLE) == ()


def test_the_words_are_in_the_units_of_the_job():
    with pytest.raises(InputError, match=r"a chamfer of 0\.1 in is too large"):
        half_profile([cylinder(20, 3, chamfer=2.54)], units=Units.INCH, place=place)


@pytest.mark.parametrize(
    ("bore", "words"),
    [
        ([cylinder(8, 55)], None),
        ([cylinder(8, 56)], "the bore is 56 mm deep, the part only 55 mm long"),
        ([cylinder(12, 10)], "as wide as the part itself, 0 mm from end A"),
        ([cylinder(8, 15), cylinder(29, 4), cylinder(8, 3)], None),
        ([cylinder(8, 15), taper(20, 26, 12)], "21 mm from end A|27 mm from end A"),
    ],
)
def test_a_bore_must_stay_inside(bore, words):
    if words is None:
        check_turned(SPINDLE, bore, units=Units.MM, place=place)
        return
    with pytest.raises(InputError, match=words) as caught:
        check_turned(SPINDLE, bore, units=Units.MM, place=place)
    assert caught.value.faults[0].place.key == f"part.bore[{len(bore)}]"
    assert caught.value.faults[0].mend


def test_all_that_is_wrong_is_told_in_one_run():
    pieces, bore = [cylinder(20, 3, chamfer=2)], [cylinder(8, 4)]
    with pytest.raises(InputError) as caught:
        check_turned(pieces, bore, units=Units.MM, place=place)
    assert [fault.place.key for fault in caught.value.faults] == ["part.turned[1]", "part.bore[1]"]
