"""What is left of the blanks round the pockets, on both sides of each limit."""

from __future__ import annotations

import math

import pytest

from jawcam.errors import InputError, Place
from jawcam.geometry.shapes import Region, circle, polygon
from jawcam.hold.blanks import check_blanks
from jawcam.hold.target import Blanks, Bolt, Groove, Hole, Keep
from jawcam.tolerance import Tolerance
from jawcam.units import Units

# the jaws end at X -60 and 60, Y -43 and 43, and begin at Y -3 and 3
BLANKS = Blanks(width=120, height=30, thickness=40, gap=6)
HAIR = 0.001


def box(x0=-20.0, y0=-15.0, x1=20.0, y1=15.0):
    return Region(polygon([(x0, y0), (x1, y0), (x1, y1), (x0, y1)]))


PLAIN = ((box(),), -8.0)


def place(key: str) -> Place:
    return Place("job.toml", 7, key=key)


def faults(*levels, holes=(), bolts=(), keep=None, groove=None, units=Units.MM, facing=0.0):
    """groove: width and depth."""
    try:
        check_blanks(
            levels or [PLAIN],
            holes,
            BLANKS,
            bolts,
            keep or Keep(),
            groove and Groove(*groove),
            units,
            place,
            Tolerance(),
            facing=facing,
        )
    except InputError as error:
        return error.faults
    return ()


def only(found):
    (fault,) = found
    return fault


def stop(x, y, dia=5.0, depth=10.0, tip=2.0):
    return Hole(x, y, dia, -depth, -depth - tip, 4, "stop")


def test_a_pocket_with_enough_all_round_passes():
    assert faults(holes=[stop(40, 20)], bolts=[Bolt(-40, 20, 14, -20)], groove=(6, 0.5)) == ()


# size


def test_a_pocket_too_large_or_off_the_middle_is_refused_with_all_that_is_wrong():
    told = str(InputError(faults(((Region(circle((0, 0), 70)),), -5.0))))
    assert all(words in told for words in ("X -70", "Y -70", "wider than 140 mm", "67 mm"))
    assert "left" not in told
    fault = only(faults(((Region(circle((0, 20), 10)),), -5.0)))
    assert "the pocket (Y 10 to Y 30) does not reach into both jaws" in fault.what
    assert fault.place.key == "jaws"


def test_only_the_top_level_must_reach_into_both_jaws():
    assert faults(((box(),), -4.0), ((box(y0=5),), -8.0)) == ()


def test_a_pocket_deeper_than_the_blanks_are_high_is_told_as_that():
    fault = only(faults(((box(),), -30.0)))
    assert fault.what == "the pocket is 30 mm deep, the blanks only 30 mm high"
    assert fault.place.key == "hold.depth"


# floor


def test_the_floor_may_be_just_as_thin_as_is_kept():
    assert faults(((box(),), -28.0)) == ()
    assert faults(((box(),), -20.0), ((box(x0=-5, x1=5),), -27.0), groove=(3, 1)) == ()


def test_a_floor_too_thin_is_told_with_its_place_and_thickness():
    fault = only(faults(((box(),), -20.0), ((box(x0=-5, x1=5),), -28.0 - HAIR)))
    assert str(fault) == (
        "job.toml:7: hold.depth: X 5 Y 15 Z -28.001: only 1.999 mm of the blanks is left under "
        "the pocket, 2 mm must be\n"
        "    to mend: hold the part 0.001 mm less deep, or take blanks 0.001 mm higher"
    )
    grooved = only(faults(((box(),), -27.0 - HAIR), groove=(6, 1)))
    assert "1.999 mm of the blanks is left under the pocket with its groove" in grooved.what


def test_the_floor_under_a_drilled_tip_counts_too():
    assert faults(holes=[stop(40, 20, depth=26)]) == ()
    holes = [stop(40, 20), stop(-40, 20, depth=26 + HAIR)]
    fault = only(faults(holes=holes))
    assert (
        "only 1.999 mm of the blanks is left under the tip of the hole drilled at X -40 Y 20"
        in (fault.what)
    )
    assert (fault.place.key, fault.place.at) == ("holes[2].depth", "X -40 Y 20 Z -28.001")
    through = only(faults(holes=[stop(40, 20, depth=29)]))
    assert "goes 1 mm through the bottom" in through.what


# walls


@pytest.mark.parametrize(
    ("change", "where", "at"),
    [
        ({"x0": -59 - HAIR}, "beside the pocket at the left end", "X -59.001 Y -15"),
        ({"x1": 59 + HAIR}, "beside the pocket at the right end", "X 59.001 Y -15"),
        ({"y0": -42 - HAIR}, "behind the pocket in the front jaw", "X -20 Y -42.001"),
        ({"y1": 42 + HAIR}, "behind the pocket in the back jaw", "X -20 Y 42.001"),
    ],
)
def test_a_wall_may_be_just_as_thin_as_is_kept_and_no_thinner(change, where, at):
    enough = {key: value - math.copysign(HAIR, value) for key, value in change.items()}
    assert faults(((box(**enough),), -8.0)) == ()
    fault = only(faults(((box(**change),), -8.0)))
    assert fault.what == f"only 0.999 mm of the blanks is left {where}, 1 mm must be"
    assert fault.place.at == f"{at} Z -8"
    assert "0.001 mm" in fault.mend


def test_a_deeper_level_has_walls_of_its_own():
    # as cut, a relief of a lower level may reach out farther
    fault = only(faults(((box(),), -4.0), ((box(), Region(circle((55, 20), 4.5))), -8.0)))
    assert "0.5 mm of the blanks is left beside the pocket at the right end" in fault.what
    assert fault.place.at == "X 59.5 Y 20 Z -8"


def test_what_bulges_into_the_open_gap_thins_no_wall():
    # at Y 3 the disc ends at sqrt(R2 - 9)
    radius = math.hypot(59, 3)
    disc = Region(circle((0, 0), radius))
    found = faults(((disc,), -8.0))
    assert [fault.what.split(":")[0] for fault in found] == ["the part is larger than the blanks"]
    assert faults(((Region(circle((29, 0), math.hypot(30, 3))),), -8.0)) == ()
    fault = only(faults(((Region(circle((29 + HAIR, 0), math.hypot(30, 3))),), -8.0)))
    assert "only 0.999 mm" in fault.what
    assert fault.place.at in ("X 59.001 Y 3 Z -8", "X 59.001 Y -3 Z -8")


def test_a_drilled_hole_needs_walls_too():
    assert faults(holes=[stop(56.5, 20), stop(-20, 39.5)]) == ()
    fault = only(faults(holes=[stop(40, 20), stop(56.5 + HAIR, 20)]))
    assert fault.what == (
        "only 0.999 mm of the blanks is left beside the hole drilled at X 56.501 Y 20 at the "
        "right end, 1 mm must be"
    )
    assert (fault.place.key, fault.place.at) == ("holes[2]", "X 59.001 Y 20 Z -10")
    assert fault.mend == "shift it 0.001 mm to the left, or take wider blanks"
    out = only(faults(holes=[stop(-20, -41)]))
    assert "breaks out of the blanks in the front jaw by 0.5 mm" in out.what


def test_a_drilled_corner_is_told_once_with_its_pocket():
    hole = Hole(57, 20, 5, -8, -9, 4, "relief")
    fault = only(faults(((box(), Region(circle((57, 20), 2.5))), -8.0), holes=[hole]))
    assert "0.5 mm of the blanks is left beside the pocket" in fault.what


def test_a_drilled_corner_counts_for_a_bolt_where_it_comes_nearer_than_its_pocket():
    pockets = ((box(), Region(circle((20, 20), 2.5))), -8.0)
    hole = Hole(20, 20, 5, -8, -9.5, 4, "relief")
    beside = only(faults(pockets, holes=[hole], bolts=[Bolt(26, 20, 6, -5)]))
    assert "only 0.5 mm is left between the pocket and the bolt" in beside.what
    below = only(faults(pockets, holes=[hole], bolts=[Bolt(20, 20, 6, -10)]))
    assert "only 0.5 mm is left between the hole drilled at X 20 Y 20 and the bolt" in below.what


# drilled holes


@pytest.mark.parametrize(
    ("x", "y"),
    [(59, 0), (-59, 0.5), (62.5, 20), (0, 45.5), (0, -45.5), (60 + 1.5, 43 + 2)],
)
def test_a_hole_beside_both_blanks_is_a_fault(x, y):
    """The last one, off a blank's corner by 1.5 and 2, touches it in one point."""
    fault = only(faults(((box(x1=-15),), -8.0), holes=[stop(40, 20), stop(x, y, depth=40)]))
    assert fault.what.endswith(
        "goes into no blank: they reach from X -60 to X 60, the front one from Y -43 to Y -3 and "
        "the back one from Y 3 to Y 43"
    )
    assert (fault.place.key, fault.place.at) == ("holes[2]", Units.MM.point(x, y))
    assert fault.mend == "put its middle 3.5 mm or more within one of them"


def test_a_hole_keeps_off_the_face_at_the_gap():
    assert faults(holes=[stop(40, 6.5), stop(-40, -6.5)]) == ()
    fault = only(faults(holes=[stop(40, 20), stop(-40, -6.5 + HAIR)]))
    assert fault.what == (
        "only 0.999 mm of the blanks is left between the hole drilled at X -40 Y -6.499 and the "
        "face of the front jaw, 1 mm must be"
    )
    assert (fault.place.key, fault.place.at) == ("holes[2]", "X -40 Y -3")
    assert fault.mend == "shift it 0.001 mm to the front"
    out = only(faults(holes=[stop(40, 1)]))
    assert "breaks out of the face of the back jaw by 4.5 mm" in out.what
    assert out.mend == "shift it 5.5 mm to the back"


def test_a_hole_keeps_off_the_pocket_at_any_height():
    """From the corner (20, 15), 2.1 and 2.8 away: 3.5 straight across."""
    wide, narrow = ((box(),), -4.0), ((box(x0=-5, x1=5),), -8.0)
    assert faults(wide, narrow, holes=[stop(22.1, 17.8, depth=20)]) == ()
    assert faults(narrow, wide, holes=[stop(23.5, 10, depth=1)]) == ()
    fault = only(faults(narrow, wide, holes=[stop(23.5 - HAIR, 10, depth=1)]))
    assert fault.what == (
        "only 0.999 mm of the blanks is left between the hole drilled at X 23.499 Y 10 and the "
        "pocket, 1 mm must be"
    )
    assert (fault.place.key, fault.place.at) == ("holes[1]", "X 20 Y 10")
    assert fault.mend == "shift it 0.001 mm away from the pocket"
    corner = only(faults(wide, narrow, holes=[stop(22.1 - HAIR / 0.6, 17.8)]))
    assert "only 0.999 mm" in corner.what
    assert corner.place.at == "X 20 Y 15"
    inside = only(faults(holes=[stop(0, 10)]))
    assert "the hole drilled at X 0 Y 10 runs 7.5 mm into the pocket" in inside.what


def test_a_hole_keeps_off_a_relief_as_cut():
    relieved = ((box(), Region(circle((20, 15), 2))), -8.0)
    assert faults(relieved, holes=[stop(25.5, 15)]) == ()
    fault = only(faults(relieved, holes=[stop(25.5 - HAIR, 15)]))
    assert "only 0.999 mm of the blanks is left" in fault.what
    assert fault.place.at == "X 22 Y 15"


def test_holes_keep_off_each_other():
    """3 and 4 apart each way, less half of 5 and of 3: 1 is left."""
    pair = stop(40, 20), stop(43, 24, dia=3)
    assert faults(holes=pair) == ()
    fault = only(faults(holes=[pair[0], stop(43 - HAIR / 0.6, 24, dia=3)]))
    assert fault.what == (
        "only 0.999 mm of the blanks is left between the hole drilled at X 40 Y 20 and the hole "
        "drilled at X 42.998 Y 24, 1 mm must be"
    )
    assert fault.place.key == "holes[2]"
    assert fault.place.at == "X 41.799 Y 22.4"  # 3 of the way of 5
    assert fault.mend == "shift one 0.001 mm away from the other"
    twice = only(faults(holes=[stop(40, 20), stop(40, 20)]))
    assert "run 5 mm into each other" in twice.what


def relief(x, y):
    return Hole(x, y, 5, -8, -9, 4, "relief")


def test_a_drilled_corner_may_lie_in_the_pocket_and_at_the_gap_but_keeps_off_other_holes():
    assert faults(holes=[relief(20, 15), relief(20, 5), relief(20, 0), relief(14, 15)]) == ()
    near = only(faults(holes=[relief(20, 15), relief(14 + HAIR, 15)]))
    assert "only 0.999 mm of the blanks is left between the hole drilled at X 20 Y 15" in near.what
    assert near.place.key == "corners"
    assert near.mend.startswith("take a smaller drill for the corners")
    # beside one that is asked for
    assert faults(holes=[stop(26, 15), relief(20, 15)]) == ()
    fault = only(faults(holes=[stop(26 - 2 * HAIR, 15), relief(20, 15)]))
    assert "only 0.998 mm" in fault.what
    assert (fault.place.key, fault.place.at) == ("holes[1]", "X 22.999 Y 15")


def test_a_hole_beside_a_drilled_corner_is_told_once_with_its_pocket():
    pockets = ((box(), Region(circle((20, 15), 2.5))), -8.0)
    fault = only(faults(pockets, holes=[stop(26 - HAIR, 15), relief(20, 15)]))
    assert "between the hole drilled at X 25.999 Y 15 and the pocket" in fault.what


# bolts


def test_a_bolt_beside_the_pocket_keeps_its_distance_in_plan():
    """The corner of the pocket at (20, 15), the bolt 5 + 12 - 13 in radius off: 3, 4, 5."""
    bolt = Bolt(20 + 4.8, 15 + 6.4, 14, -7)
    assert faults(bolts=[bolt]) == ()
    fault = only(faults(bolts=[Bolt(20 + 4.8, 15 + 6.4, 14 + 2 * HAIR, -7)]))
    assert fault.what == (
        "only 0.999 mm is left between the pocket and the bolt at X 24.8 Y 21.4 (14.002 mm, "
        "top at -7 mm), 1 mm must be"
    )
    assert (fault.place.key, fault.place.at) == ("bolts[1]", "X 20 Y 15 Z -7")
    assert fault.mend == "move them 0.001 mm apart, or sink the bolt's top to -9 mm"


def test_a_round_wall_keeps_off_a_bolt_between_their_centres():
    disc = Region(circle((0, 0), 20))
    assert faults(((disc,), -8.0), bolts=[Bolt(0, 28, 14, 0)]) == ()
    fault = only(faults(((disc,), -8.0), bolts=[Bolt(0, 28 - HAIR, 14, 0)]))
    assert "only 0.999 mm" in fault.what
    assert fault.place.at == "X 0 Y 20 Z 0"


def test_a_bolt_in_the_pocket_is_told_by_how_far():
    fault = only(faults(bolts=[Bolt(0, 10, 6, -5)]))
    assert "the pocket runs 8 mm into the bolt at X 0 Y 10" in fault.what
    assert fault.place.at == "X 0 Y 10 Z -5"


def test_a_bolt_under_the_floor_keeps_its_distance_below():
    assert faults(bolts=[Bolt(0, 10, 6, -9)]) == ()
    fault = only(faults(bolts=[Bolt(30, 10, 6, -30), Bolt(0, 10, 6, -9 + HAIR)]))
    assert "only 0.999 mm is left between the pocket and the bolt" in fault.what
    assert (fault.place.key, fault.place.at) == ("bolts[2]", "X 0 Y 10 Z -8")


def test_a_groove_comes_nearer_to_a_bolt_under_it_and_to_no_other():
    """Grooved 5 wide along the wall, the seat's plain floor ends at X 15 and Y 10."""
    assert faults(bolts=[Bolt(0, 0, 6, -9)], groove=(5, 0.5)) == ()
    fault = only(faults(bolts=[Bolt(0, 13, 6, -9)], groove=(5, 0.5)))
    assert "only 0.5 mm is left between the pocket with its groove and the bolt" in fault.what
    assert fault.place.at == "X 0 Y 13 Z -8.5"
    # 0.6 beside and 0.8 below the groove's inner edge
    assert faults(bolts=[Bolt(11.4, 0, 6, -10.8)], groove=(5, 2)) == ()
    near = only(faults(bolts=[Bolt(11.4, 0, 6, -10.8 + HAIR / 0.8)], groove=(5, 2)))
    assert "only 0.999 mm" in near.what
    assert near.place.at == "X 15 Y 0 Z -10"
    # nothing of the floor is left
    assert len(faults(bolts=[Bolt(0, 0, 6, -9)], groove=(30, 0.5))) == 1


def test_a_bolt_below_and_beside_is_measured_straight_across():
    # 0.6 beside and 0.8 below the edge of the floor
    assert faults(bolts=[Bolt(23.6, 10, 6, -8.8)]) == ()
    assert "0.999 mm" in only(faults(bolts=[Bolt(23.6, 10, 6, -8.8 + HAIR / 0.8)])).what


def test_each_level_keeps_off_the_bolts_that_stand_above_its_floor():
    wide, narrow = ((box(),), -4.0), ((box(x1=0),), -12.0)
    assert faults(wide, narrow, bolts=[Bolt(10, 10, 6, -5)]) == ()
    fault = only(faults(wide, narrow, bolts=[Bolt(3.5, 10, 6, -6)]))
    assert "only 0.5 mm is left" in fault.what
    assert fault.place.at == "X 0 Y 10 Z -6"


def test_a_drilled_hole_keeps_off_a_bolt_with_side_and_point():
    side = [stop(40, 20)]
    assert faults(holes=side, bolts=[Bolt(40, 26.5, 6, -5)]) == ()
    fault = only(faults(holes=side, bolts=[Bolt(40, 26.5 - HAIR, 6, -5)]))
    assert "only 0.999 mm is left between the hole drilled at X 40 Y 20 and the bolt" in fault.what
    assert fault.place.key == "bolts[1]"
    # right below the tip
    assert faults(holes=side, bolts=[Bolt(40, 20, 6, -13)]) == ()
    assert "0.999" in only(faults(holes=side, bolts=[Bolt(40, 20, 6, -13 + HAIR)])).what


def test_a_bolt_beside_the_point_of_a_drilled_hole_is_measured_across_its_flank():
    """The point leans from (2.5, -10) to (0, -12), so that (1, -1.25) leads straight off it."""
    size = math.hypot(1, 1.25)
    x, top = 40 + 1.25 + 1 / size + 3, -11 - 1.25 / size
    assert faults(holes=[stop(40, 20)], bolts=[Bolt(x, 20, 6, top)]) == ()
    fault = only(faults(holes=[stop(40, 20)], bolts=[Bolt(x, 20, 6, top + HAIR * size / 1.25)]))
    assert "only 0.999 mm is left between the hole" in fault.what


def test_under_faced_tops_a_bolt_keeps_its_distance_below_the_jaw_top():
    assert faults(bolts=[Bolt(40, 20, 8, -1)], facing=0.4) == ()
    assert faults(bolts=[Bolt(40, 20, 8, 3)]) == ()
    fault = only(faults(bolts=[Bolt(-40, 20, 8, -5), Bolt(40, 20, 8, -1 + HAIR)], facing=0.4))
    assert fault.what == (
        "facing the tops leaves only 0.999 mm above the bolt at X 40 Y 20 (8 mm, top at -0.999 mm)"
        ", 1 mm must be"
    )
    assert (fault.place.key, fault.place.at) == ("bolts[2]", "X 40 Y 20 Z 0")
    assert fault.mend == "sink the bolt's top to -1 mm, or leave the facing out"
    high = only(faults(bolts=[Bolt(40, 20, 8, 0.2)], facing=0.4))
    assert "facing the tops runs 0.2 mm into the bolt at X 40 Y 20" in high.what
    assert high.place.at == "X 40 Y 20 Z 0.2"


# all at once, in inches


def test_other_limits_may_be_set():
    tight = Keep(floor=0.5, wall=0.0, bolt=0.0)
    assert faults(((box(x0=-59.9),), -29.5), bolts=[Bolt(28, 0, 16, 0)], keep=tight) == ()
    wide = Keep(floor=22 + HAIR, wall=25 + HAIR, bolt=1)
    assert len(faults(((box(y1=18),), -8.0), keep=wide)) == 2


def test_all_faults_are_told_in_one_run():
    found = faults(
        ((box(x0=-59.5),), -29.0),
        holes=[stop(57, 20)],
        bolts=[Bolt(30, 0, 8, 0), Bolt(0, 23, 16, 0)],
    )
    assert [fault.place.key for fault in found] == ["hold.depth", "jaws", "holes[1]", "bolts[2]"]


def test_inches_are_told_in_inches():
    fault = only(faults(((box(x0=-59.5),), -8.0), units=Units.INCH))
    assert "only 0.0197 in of the blanks is left" in fault.what
    assert "0.0394 in must be" in fault.what
    assert fault.place.at == "X -2.3425 Y -0.5906 Z -0.315"
