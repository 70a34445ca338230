"""Turning: closed forms, and what is chosen where the job leaves it open."""

import math
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from jawcam.errors import InputError, InternalError
from jawcam.tools.cutter import Cutter
from jawcam.tools.feeds import speeds, spindle_speed
from jawcam.tools.insert import edge_length, parse
from jawcam.tools.materials import MATERIALS, PRACTICE
from jawcam.tools.turner import KINDS, Turner
from jawcam.tools.turning import (
    clamp_diameter,
    diameter_change,
    facing_time,
    feed_for,
    half_angle,
    held_speed,
    left_on_taper,
    peak_to_valley,
    peak_to_valley_exact,
    roughness_average,
    roughness_average_by_area,
    set_point_arc,
    shift_x,
    shift_z,
    taper_ratio,
    turning_speeds,
    turning_time,
)
from jawcam.units import Units

some = st.floats(0.01, 10)
angles = st.floats(0, 90)
ROUGHER = Turner(1, "turning", insert=parse("CNMG120408"), approach=95.0)
FINISHER = Turner(2, "turning", insert=parse("DCMT11T304"))
BAR = Turner(3, "boring", insert=parse("CCMT060204"), approach=95.0, inside=True)
GROOVER = Turner(4, "grooving", width=2.5)
PARTER = Turner(5, "parting", width=3.0)
THREADER = Turner(6, "threading")
DRILL = Turner(7, "drill", dia=8.0)
CENTRE = Turner(8, "centre drill", dia=3.15)
ALL = (ROUGHER, FINISHER, BAR, GROOVER, PARTER, THREADER, DRILL, CENTRE)


# Rt = f^2 / 8r (6.25) and both forms of Ra (1.56, 1.60) of the first row as formula pages of
# cutting-tool makers print them; the others by the same formulas, the exact Rt by geometry.
@pytest.mark.parametrize(
    ("feed", "radius", "valley", "exact", "average", "by_area"),
    [
        (0.20, 0.8, 6.250, 6.2746, 1.5625, 1.6038),
        (0.10, 0.4, 3.125, 3.1373, 0.7813, 0.8019),
        (0.25, 1.2, 6.510, 6.5282, 1.6276, 1.6706),
        (0.30, 0.8, 14.063, 14.188, 3.516, 3.608),
    ],
)
def test_roughness(feed, radius, valley, exact, average, by_area):
    assert peak_to_valley(feed, radius) == pytest.approx(valley, abs=5.1e-4)
    assert peak_to_valley_exact(feed, radius) == pytest.approx(exact, abs=5.1e-4)
    assert roughness_average(feed, radius) == pytest.approx(average, abs=5.1e-4)
    assert roughness_average_by_area(feed, radius) == pytest.approx(by_area, abs=5.1e-4)


def test_the_feed_for_a_roughness():
    """Ra 1.6 with a nose of 0.8 mm: f = sqrt(32 x 0.8 x 0.0016)."""
    assert feed_for(1.6, 0.8) == pytest.approx(0.20239, abs=5e-6)


@given(some, some)
def test_a_feed_for_a_roughness_gives_it(roughness, radius):
    assert roughness_average(feed_for(roughness, radius), radius) == pytest.approx(roughness)


@given(some, st.floats(0.01, 2))
def test_circles_leave_more_than_their_parabolas(radius, share):
    feed = share * radius
    exact = peak_to_valley_exact(feed, radius)
    assert exact >= peak_to_valley(feed, radius) * (1 - 1e-12)
    assert (radius - exact / 1000) ** 2 + (feed / 2) ** 2 == pytest.approx(radius**2)


def test_a_feed_beyond_the_whole_nose_is_refused():
    assert peak_to_valley_exact(0.8, 0.4) == pytest.approx(400)
    with pytest.raises(InternalError):
        peak_to_valley_exact(0.81, 0.4)


# By the trade's formulas for a tool whose set point is the corner of its nose's box.
@pytest.mark.parametrize(
    ("angle", "along_z", "along_x", "left"),
    [
        (5, 0.956339, 0.083669, 0.083350),
        (15, 0.868348, 0.232673, 0.224745),
        (30, 0.732051, 0.422650, 0.366025),
        (45, 0.585786, 0.585786, 0.414214),
        (60, 0.422650, 0.732051, 0.366025),
    ],
)
def test_what_a_nose_leaves_on_a_taper(angle, along_z, along_x, left):
    assert shift_z(1, angle) == pytest.approx(along_z, abs=1e-6)
    assert shift_x(1, angle) == pytest.approx(along_x, abs=1e-6)
    assert left_on_taper(1, angle) == pytest.approx(left, abs=1e-6)


def test_a_nose_leaves_nothing_on_cylinders_and_faces():
    assert left_on_taper(0.8, 0) == 0
    assert left_on_taper(0.8, 90) == pytest.approx(0, abs=1e-15)
    assert shift_x(0.8, 0) == pytest.approx(0, abs=1e-15)
    assert shift_z(0.8, 90) == pytest.approx(0, abs=1e-15)


def test_a_nose_in_inches():
    """R 0.015 in on 60 degrees; the shift along X is printed as 0.011 in a trade text."""
    assert shift_z(0.015, 60) == pytest.approx(0.00634, abs=1e-5)
    assert shift_x(0.015, 60) == pytest.approx(0.01098, abs=1e-5)


def test_a_chamfer_with_a_nose_of_0_8():
    assert left_on_taper(0.8, 45) == pytest.approx(0.3314, abs=1e-4)


@given(some, angles)
def test_either_shift_takes_off_what_would_be_left(radius, angle):
    """Moved so far along Z, or along X, the nose touches the line: the shift's part normal to
    it is the layer."""
    slope = math.radians(angle)
    left = left_on_taper(radius, angle)
    assert shift_z(radius, angle) * math.sin(slope) == pytest.approx(left, abs=1e-12)
    assert shift_x(radius, angle) * math.cos(slope) == pytest.approx(left, abs=1e-12)


@given(some, some)
def test_arcs_of_the_set_point_are_parallel_to_the_parts(radius, nose):
    assert set_point_arc(radius, nose, hollow=False) == radius + nose
    if radius >= nose:
        assert set_point_arc(radius, nose, hollow=True) == radius - nose
    else:
        with pytest.raises(InternalError):
            set_point_arc(radius, nose, hollow=True)


def test_the_speed_is_held_to_the_clamp():
    """D = 1000 vc / (pi n): 200 m/min and 2500 rpm meet on 25.4648 mm; and 200 m/min is 1273.24
    rpm on 50 mm, 3183.10 on 20 mm."""
    assert clamp_diameter(200, 2500) == pytest.approx(25.4648, abs=1e-4)
    assert held_speed(200, 50, 2500) == pytest.approx(1273.24, abs=0.01)
    assert held_speed(200, 20, 5000) == pytest.approx(3183.10, abs=0.01)
    assert held_speed(200, 20, 2500) == 2500
    assert held_speed(200, 0, 2500) == 2500
    # n = 1000 vc / (pi D) as a textbook works it out (printed 478 with pi = 3.14)
    assert held_speed(150, 100, 2500) == pytest.approx(477.46, abs=0.01)
    # 12 x 400 ft/min / (pi x 2 in)
    assert held_speed(400 * 0.3048, 50.8, 2500) == pytest.approx(763.94, abs=0.01)


def test_the_time_of_a_face():
    """From 100 mm to the axis at 200 m/min, 0.2 mm a turn, held to 2500 rpm: 0.183617 min at
    constant surface speed and 0.025465 min below the clamp's diameter."""
    held = clamp_diameter(200, 2500)
    assert facing_time(100, held, 200, 0.2, 2500) == pytest.approx(0.183617, abs=1e-6)
    # half of the diameter over 0.2 x 2500 mm/min
    assert facing_time(held, 0, 200, 0.2, 2500) == pytest.approx(0.025465, abs=1e-6)
    assert 60 * facing_time(100, 0, 200, 0.2, 2500) == pytest.approx(12.545, abs=0.01)


@given(st.floats(0, 200), st.floats(0, 200), st.floats(0, 200))
@settings(max_examples=50)
def test_faces_take_as_long_as_their_parts(outer, middle, inner):
    def time(a, b):
        return facing_time(a, b, 150, 0.15, 2000)

    first, second, third = sorted((outer, middle, inner))
    assert time(third, first) == pytest.approx(time(third, second) + time(second, first))
    assert time(first, third) == time(third, first) >= 0


def test_the_time_of_a_face_is_the_sum_over_its_turns():
    """Turn by turn, each as long as the speed at its own diameter says."""
    feed, surface, clamp = 0.01, 180.0, 1800.0
    turns = (1 / held_speed(surface, 60 - 2 * feed * (i + 0.5), clamp) for i in range(2500))
    assert facing_time(60, 10, surface, feed, clamp) == pytest.approx(sum(turns), rel=1e-5)


def test_the_time_along_a_cylinder():
    """50 mm at 0.2 mm a turn and 150 m/min on 40 mm: 1193.66 rpm."""
    assert spindle_speed(150, 40) == pytest.approx(1193.66, abs=0.01)
    assert 60 * turning_time(50, 0.2, spindle_speed(150, 40)) == pytest.approx(12.566, abs=0.001)


# 1:10, 7:24 and 5/8 inch per foot.
@pytest.mark.parametrize(
    ("ratio", "angle"), [(1 / 10, 2.862405), (7 / 24, 8.297145), (5 / 8 / 12, 1.491740)]
)
def test_half_angles_of_tapers(ratio, angle):
    assert half_angle(ratio) == pytest.approx(angle, abs=1e-6)
    assert taper_ratio(half_angle(ratio)) == pytest.approx(ratio)


def test_what_tapers_and_chamfers_add_to_the_diameter():
    assert diameter_change(40, 3) == pytest.approx(4.192622, abs=1e-6)
    assert 30 - diameter_change(1, 45) == pytest.approx(28)
    assert diameter_change(2, 30) == pytest.approx(2.309401, abs=1e-6)


def test_an_included_angle_of_10_degrees_by_an_old_table():
    """0.17498 inch per inch, 2.1 inches per foot: a machinists' text of 1902."""
    assert taper_ratio(5) == pytest.approx(0.17498, abs=1e-4)
    assert 12 * taper_ratio(5) == pytest.approx(2.1, abs=1e-3)


def chosen(tool, material="mild steel", **asked):
    return turning_speeds(tool, material, **{"clamp": 2500.0, **asked})


def test_every_kind_of_tool_has_its_speeds_in_every_material():
    assert {tool.kind for tool in ALL} == set(KINDS)
    for tool in ALL:
        for material in MATERIALS:
            found = chosen(tool, material.name)
            assert 0 < found.surface <= material.surface_speed
            assert found.feed > 0 or tool.kind == "threading"
            assert (found.depth > 0) == (tool.kind in {"turning", "boring"})
            assert all(note.startswith(f"T{tool.number}: ") for note in found.notes)


# Shares of the speed for turning: common practice, no source.
@pytest.mark.parametrize(
    ("tool", "share"),
    [(ROUGHER, 1), (BAR, 0.8), (GROOVER, 0.7), (PARTER, 0.6), (THREADER, 0.6), (DRILL, 0.3)],
)
def test_surface_speeds_are_shares_of_that_for_turning(tool, share):
    """90 m/min is the material's own; the job's goes before it, the tool's before both."""
    assert chosen(tool).surface == pytest.approx(90 * share)
    assert chosen(tool, surface=150.0).surface == pytest.approx(150 * share)
    assert chosen(replace(tool, surface=61.0), surface=150.0).surface == 61.0
    # no material is needed where its speed isn't
    if tool is not DRILL:
        assert chosen(tool, "unheard of", surface=150.0).surface == pytest.approx(150 * share)
    text = "\n".join(chosen(tool).notes)
    assert "mild steel" in text
    assert PRACTICE in text
    assert (f"{share:g} of 90 m/min" in text) == (share != 1)


def test_roughing_feeds_and_depths():
    """A quarter of the nose radius; 2.5 nose radii deep but no more than 0.15 of the edge, in a
    bore half of it (common practice, no source)."""
    rough = chosen(ROUGHER)
    assert rough.feed == pytest.approx(0.2)
    edge = 12.7 / math.sin(math.radians(80))
    assert rough.depth == pytest.approx(0.15 * edge)
    assert chosen(FINISHER).feed == pytest.approx(0.1)
    assert chosen(FINISHER).depth == pytest.approx(1.0)
    small = 0.15 * 6.35 / math.sin(math.radians(80))
    assert chosen(BAR).depth == pytest.approx(small / 2)


def test_finishing_feeds():
    """0.1 mm a turn, or what gives the Ra asked for; half of the nose radius and 0.3 mm at most
    (common practice, no source)."""
    assert chosen(ROUGHER, finish=True).feed == pytest.approx(0.1)
    assert chosen(ROUGHER, finish=True, roughness=1.6).feed == pytest.approx(0.20239, abs=5e-6)
    assert chosen(ROUGHER, finish=True).depth == pytest.approx(0.8)
    tiny = replace(FINISHER, insert=replace(FINISHER.insert, radius=0.1))
    assert chosen(tiny, finish=True).feed == pytest.approx(0.05)
    coarse = chosen(FINISHER, finish=True, roughness=12.5)
    assert coarse.feed == pytest.approx(0.2)
    assert any("held to that from" in note for note in coarse.notes)
    round_tool = Turner(9, "turning", insert=parse("RCMT0803M0"))
    assert chosen(round_tool, finish=True, roughness=3.2).feed == pytest.approx(0.3)
    assert chosen(round_tool).feed == pytest.approx(0.3)


@given(st.sampled_from([ROUGHER, FINISHER, BAR]), st.floats(0.1, 25))
@settings(max_examples=40)
def test_finishing_is_never_rougher_than_asked(tool, roughness):
    found = chosen(tool, finish=True, roughness=roughness)
    assert roughness_average(found.feed, tool.insert.radius) <= roughness * (1 + 1e-9)
    assert not any("rougher" in note for note in found.notes)


def test_a_feed_of_the_tools_own_that_is_too_rough_is_told():
    found = chosen(replace(FINISHER, feed=0.2), finish=True, roughness=1.6)
    assert found.feed == 0.2
    assert any("Ra 3.13" in note for note in found.notes)  # 0.2^2 / (32 x 0.4)
    assert any("rougher than the Ra 1.6" in note for note in found.notes)


def test_roughness_counts_for_finishing_only():
    assert chosen(ROUGHER, roughness=0.4) == chosen(ROUGHER)


# 0.02 of the width, 0.03 to 0.1: common practice, no source.
@pytest.mark.parametrize(("width", "feed"), [(1.0, 0.03), (2.5, 0.05), (3.0, 0.06), (8.0, 0.1)])
def test_feeds_of_grooving_and_parting(width, feed):
    for tool in (GROOVER, PARTER):
        assert chosen(replace(tool, width=width)).feed == pytest.approx(feed)


def test_drills_are_fed_as_on_a_mill():
    found = chosen(DRILL, "brass 360")
    same = speeds(Cutter(7, "drill", 8.0), "brass 360", max_rpm=1e6, max_feed=1e6)
    assert found.feed * same.rpm == pytest.approx(same.feed)
    assert held_speed(found.surface, 8.0, 1e6) == pytest.approx(same.rpm)
    assert chosen(CENTRE).feed < 0.01 * CENTRE.dia
    assert any("2500 rpm" in note for note in chosen(CENTRE, "brass 360").notes)


def test_threads_are_fed_by_their_lead():
    found = chosen(replace(THREADER, feed=0.2))
    assert found.feed == 0
    assert any("lead" in note for note in found.notes)


def test_the_tools_own_numbers_win():
    for tool in (tool for tool in ALL if tool is not THREADER):
        own = replace(tool, surface=55.0, feed=0.07, depth=0.3)
        for finish in (False, True):
            found = chosen(own, "unheard of", finish=finish)
            assert (found.surface, found.feed, found.depth) == (55.0, 0.07, 0.3)
            assert sum("from the job" in note for note in found.notes) == 3
    bare = Turner(10, "turning", surface=55.0, feed=0.07, depth=0.3)
    assert chosen(bare, "unheard of", finish=True).feed == 0.07


def test_all_that_is_missing_is_named_at_once():
    with pytest.raises(InputError) as caught:
        chosen(Turner(3, "turning"), "brss 360")
    assert len(caught.value.faults) == 2
    assert all(fault.mend for fault in caught.value.faults)
    assert "brass 360" in str(caught.value)
    assert "insert" in str(caught.value)


@pytest.mark.parametrize(
    ("tool", "lacking"),
    [
        (replace(BAR, insert=None), "insert"),
        (replace(BAR, insert=None, feed=0.1), "insert"),
        (replace(ROUGHER, insert=replace(ROUGHER.insert, radius=0.0)), "nose radius"),
        (replace(GROOVER, width=None), "width"),
        (replace(PARTER, width=None), "width"),
        (replace(DRILL, dia=None), "diameter"),
        (replace(DRILL, dia=None, feed=0.1), "diameter"),
    ],
)
def test_tools_must_say_what_their_feeds_come_from(tool, lacking):
    with pytest.raises(InputError, match=f"tool {tool.number}, a {tool.kind}.* has no .*{lacking}"):
        chosen(tool)


def test_a_drill_needs_a_known_material_for_its_feed():
    with pytest.raises(InputError, match="unheard of") as caught:
        chosen(replace(DRILL, surface=30.0), "unheard of")
    assert "give tool 7 its surface speed and feed" in caught.value.faults[0].mend
    assert chosen(replace(DRILL, surface=30.0, feed=0.1), "unheard of").feed == 0.1


def test_notes_in_inches():
    found = chosen(ROUGHER, finish=True, roughness=1.6, units=Units.INCH)
    text = "\n".join(found.notes)
    assert "295 ft/min" in text  # 90 m/min
    assert "0.008 in/rev" in text  # 0.20239 mm
    assert "Ra 63 microinches" in text  # 1.6 micrometres, as ISO and inch tables pair them
    assert " mm" not in text
    assert found.feed == chosen(ROUGHER, finish=True, roughness=1.6).feed


def test_the_clamp_is_told_where_it_holds():
    text = "\n".join(chosen(ROUGHER, surface=200.0).notes)
    assert "below a diameter of 25.465 mm" in text


@given(st.sampled_from([ROUGHER, FINISHER, BAR]), st.booleans())
def test_depths_stay_on_the_edge(tool, finish):
    assert chosen(tool, finish=finish).depth <= 0.15 * edge_length(tool.insert) + 1e-12
