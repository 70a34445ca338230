"""What room a thread has to run out in and to begin in, by closed forms.

An insert's flank reaches as far along Z as the tangent of half its angle times how high it stands
there.
"""

import math

import pytest

from jawcam.geometry.shapes import Region, polygon
from jawcam.hold.thread_room import INSERT, PAST, room_behind, room_in_front, tight
from jawcam.hold.turn_target import Thread
from jawcam.units import Units

T30 = math.tan(math.radians(30))
M20 = Thread(0.0, -12.0, 9.9, 9.9, 1.5, 2.5, designation="M20x2.5 6g")
M12 = Thread(0.0, -12.0, 5.1, 5.1, 0.9, 1.75, inside=True, designation="M12x1.75 6H")


def shaft(*rows):
    """A solid half section: rows of Z and X from the free end on."""
    end = rows[-1][0]
    return Region(polygon([(end, 0.0), (0.0, 0.0), *rows]))


def ring(*rows, outer=15.0, rear=-40.0):
    """A bored one: rows of Z and X of the bore from the bottom to the free end."""
    return Region(polygon([*rows, (0.0, outer), (rear, outer), (rear, rows[0][1])]))


def undercut(long, low=8.0, shoulder=12.0):
    far = -12.0 - long
    return shaft((0, 9.9), (-12, 9.9), (-12, low), (far, low), (far, shoulder), (-40, shoulder))


def blind(long, relief=6.1, hole=4.5):
    far = -12.0 - long
    return ring((-30, 0.0), (-30, hole), (far, hole), (far, relief), (-12, relief), (-12, 5.1),
                (0, 5.1))  # fmt: skip


# The root is at 8.4; the shoulder stands 3.6 over it, the insert is 3 high.
def test_an_undercut_less_what_the_flank_reaches_at_its_shoulder():
    room = room_behind(undercut(4.0), M20)
    assert room.far == pytest.approx(4.0)
    assert room.reach == pytest.approx(INSERT * T30)
    low = room_behind(undercut(4.0, shoulder=9.4), M20)
    assert low.reach == pytest.approx(1.0 * T30)
    assert low.run == pytest.approx(4.0 - T30)


def test_a_relief_in_a_bore_likewise():
    """The root is at 6.0; the drilled hole behind it stands 1.5 within it."""
    room = room_behind(blind(3.0), M12)
    assert (room.far, room.reach) == (pytest.approx(3.0), pytest.approx(1.5 * T30))


def test_a_slope_is_met_where_it_is_nearest():
    """A flat one by the foot of the insert, one steeper than its flank by its shoulder."""
    flat = shaft((0, 9.9), (-12, 9.9), (-12, 8), (-16, 8), (-26, 12), (-40, 12))
    # where the slope of 0.4 passes the root
    assert room_behind(flat, M20).far == pytest.approx(5.0, abs=0.01)
    steep = shaft((0, 9.9), (-12, 9.9), (-12, 8), (-16, 8), (-16.5, 12), (-40, 12))
    room = room_behind(steep, M20)
    assert room.far == pytest.approx(4 + 0.5 * 3.4 / 4, abs=0.01)
    assert room.reach == pytest.approx(INSERT * T30)


def test_nothing_behind_is_room_for_ever():
    through = ring((-40, 5.1), (0, 5.1))
    whole = Thread(0.0, -40.0, 5.1, 5.1, 0.9, 1.75, inside=True)
    assert room_behind(through, whole).run == math.inf
    assert room_in_front(through, whole).run == math.inf
    assert tight(through, whole, Units.MM) is None


def test_the_room_in_front_of_a_thread_behind_a_collar():
    part = shaft((0, 12), (-5, 12), (-5, 8), (-8, 8), (-8, 9.9), (-20, 9.9), (-20, 8), (-40, 8))
    thread = Thread(-8.0, -20.0, 9.9, 9.9, 1.5, 2.5)
    room = room_in_front(part, thread)
    assert (room.far, room.reach) == (pytest.approx(3.0), pytest.approx(INSERT * T30))


# A quarter of a pitch of 1.75 and the flank at the hole: 0.4375 + 0.866 = 1.303.
@pytest.mark.parametrize(("long", "enough"), [(1.30, False), (1.31, True)])
def test_a_relief_is_long_enough_or_too_short(long, enough):
    wrong = tight(blind(long), M12, Units.MM)
    assert (wrong is None) == enough
    if wrong:
        assert "too short: 1.3 mm behind it is 12 mm across or more" in wrong[0]
        assert "takes 1.304 mm" in wrong[0]
    assert pytest.approx(1.3035, abs=1e-3) == PAST * 1.75 + 1.5 * T30


@pytest.mark.parametrize("relief", [5.1, 5.5, 5.99])
def test_a_relief_that_is_not_wide_enough_is_none(relief):
    what, mend = tight(blind(4.0, relief=relief), M12, Units.MM)
    assert what == "M12x1.75 6H has no relief to run out in"
    assert "12 mm across or more" in mend
    assert "let it go through" in mend


def test_an_outside_thread_may_end_on_its_own_cylinder_but_not_at_a_shoulder():
    plain = shaft((0, 9.9), (-30, 9.9), (-30, 12), (-40, 12))
    assert tight(plain, M20, Units.MM) is None
    what, mend = tight(shaft((0, 9.9), (-12, 9.9), (-12, 12), (-40, 12)), M20, Units.MM)
    assert what == "M20x2.5 6g has no relief to run out in"
    assert "16.8 mm across or less" in mend
    assert "through" not in mend


def test_the_flanks_of_a_pipe_thread_reach_less():
    pipe = Thread(0.0, -12.0, 9.9, 9.9, 1.5, 2.5, flanks=55.0)
    reach = INSERT * math.tan(math.radians(27.5))
    assert room_behind(undercut(4.0), pipe).reach == pytest.approx(reach)
