"""Speeds and feeds."""

import math

import pytest

from jawcam.errors import InputError, InternalError
from jawcam.tools.cutter import KINDS, Cutter
from jawcam.tools.feeds import arc_feed, chip_load, feed_rate, speeds, spindle_speed
from jawcam.tools.materials import MATERIALS, find
from jawcam.units import Units

MILL = Cutter(3, "end mill", 8.0, flutes=3)
FREE = {"max_rpm": 1e6, "max_feed": 1e6}


# n = 1000 vc / (pi D); the first as worked out in a turning textbook (printed 478 with pi = 3.14),
# the others by the same formula.
@pytest.mark.parametrize(
    ("surface_speed", "dia", "rpm"),
    [(150, 100, 477.46), (200, 50, 1273.24), (200, 20, 3183.10), (200, 10, 6366.20)],
)
def test_spindle_speed_follows_the_formula(surface_speed, dia, rpm):
    assert spindle_speed(surface_speed, dia) == pytest.approx(rpm, abs=0.01)


def test_spindle_speed_agrees_with_the_shop_rule_for_inches():
    """rpm = 3.82 x ft/min / diameter in inches: 400 ft/min on 2 in is 764."""
    assert spindle_speed(400 * 0.3048, 2 * 25.4) == pytest.approx(764.0, abs=0.1)


def test_feed_is_speed_times_flutes_times_chip():
    """n z fz: 6366.2 rpm x 3 x 0.06 mm."""
    assert feed_rate(spindle_speed(200, 10), 3, 0.06) == pytest.approx(1145.92, abs=0.01)


def test_a_cutting_speed_and_a_chip_of_the_job_win():
    """n = 1000 vc / (pi D) and vf = n z fz; what nothing is known of needs no table then."""
    own = Cutter(3, "end mill", 8.0, flutes=3, surface=60.0, chip=0.03)
    rpm = 1000 * 60 / (math.pi * 8)
    for material in ("aluminium 6061", "teak"):
        found = speeds(own, material, **FREE)
        assert found.rpm == pytest.approx(rpm)
        assert found.feed == pytest.approx(rpm * 3 * 0.03)
        assert not found.own_feed  # thin chips and limits still count
    assert found.reasons.rpm == "2387 rpm: 60 m/min, from the job"
    assert found.reasons.feed == "feed 215 mm/min: 3 x 0.03 mm a tooth, from the job"
    inch = speeds(own, "teak", **FREE, units=Units.INCH).reasons
    assert "197 ft/min, from the job" in inch.rpm
    assert "3 x 0.0012 in a tooth, from the job" in inch.feed


def test_one_of_them_leaves_the_other_to_the_table():
    slow = speeds(Cutter(3, "end mill", 8.0, flutes=3, surface=60.0), "6061", **FREE)
    assert slow.feed / slow.rpm == pytest.approx(
        speeds(MILL, "6061", **FREE).feed / speeds(MILL, "6061", **FREE).rpm
    )
    thick = speeds(Cutter(3, "end mill", 8.0, flutes=3, chip=0.1), "6061", **FREE)
    assert thick.rpm == speeds(MILL, "6061", **FREE).rpm


# F (R - r) / R inside and F (R + r) / R outside: F 500 R 10 r 5 and F 300 R 25 r 6.
@pytest.mark.parametrize(
    ("feed", "radius", "cutter", "inside", "outside"),
    [(500, 10, 5, 250, 750), (300, 25, 6, 228, 372)],
)
def test_the_feed_of_the_centre_on_arcs(feed, radius, cutter, inside, outside):
    assert arc_feed(feed, radius, cutter, inside=True) == pytest.approx(inside, rel=1e-12)
    assert arc_feed(feed, radius, cutter, inside=False) == pytest.approx(outside, rel=1e-12)


@pytest.mark.parametrize(("radius", "inside"), [(5, True), (4, True), (0, False), (-1, False)])
def test_an_arc_that_the_cutter_cannot_follow_has_no_feed(radius, inside):
    with pytest.raises(InternalError):
        arc_feed(500, radius, 5, inside=inside)


# Inches per tooth by end mill diameter in inches, from a shop chart.
@pytest.mark.parametrize(
    ("material", "row"),
    [
        ("aluminium 6061", (0.001, 0.002, 0.002, 0.003, 0.004, 0.005, 0.006, 0.007)),
        ("aluminium 7075", (0.001, 0.002, 0.002, 0.003, 0.004, 0.005, 0.006, 0.007)),
        ("brass 360", (0.001, 0.001, 0.002, 0.0025, 0.003, 0.004, 0.004, 0.005)),
    ],
)
def test_chip_loads_are_those_of_the_chart(material, row):
    sizes = (1 / 8, 3 / 16, 1 / 4, 3 / 8, 1 / 2, 5 / 8, 3 / 4, 1)
    found = [chip_load(find(material).chips, size * 25.4) / 25.4 for size in sizes]
    assert found == pytest.approx(row, rel=1e-9)


def test_chip_load_between_below_and_beyond_the_rows():
    chips = ((2.0, 0.02), (4.0, 0.06))
    assert chip_load(chips, 3.0) == pytest.approx(0.04)
    assert chip_load(chips, 1.0) == pytest.approx(0.01)
    assert chip_load(chips, 9.0) == pytest.approx(0.06)


@pytest.mark.parametrize("material", MATERIALS, ids=lambda material: material.name)
def test_a_larger_cutter_never_gets_a_smaller_chip(material):
    found = [chip_load(material.chips, dia / 4) for dia in range(1, 140)]
    assert found == sorted(found)
    assert found[0] > 0


def test_speeds_follow_from_cutter_and_material():
    found = speeds(MILL, "aluminium 6061", **FREE)
    material = find("aluminium 6061")
    assert found.rpm == pytest.approx(1000 * material.surface_speed / (math.pi * 8))
    assert found.feed == pytest.approx(found.rpm * 3 * chip_load(material.chips, 8))
    assert found.slot_feed == pytest.approx(found.feed / 2)
    assert found.plunge_feed == pytest.approx(found.feed / 2)


def test_the_numbers_of_the_job_win():
    cutter = Cutter(3, "end mill", 8.0, rpm=5000.0, feed=900.0, plunge_feed=100.0)
    found = speeds(cutter, "no such material", **FREE)
    assert (found.rpm, found.feed, found.plunge_feed) == (5000, 900, 100)
    assert found.slot_feed == 450
    assert found.own_feed
    assert found.reasons.line == (
        "T3: 5000 rpm: from the job; feed 900 mm/min: from the job; "
        "straight down 100 mm/min: from the job"
    )


def test_one_number_of_the_job_leaves_the_others_to_be_worked_out():
    found = speeds(Cutter(3, "end mill", 8.0, flutes=3, rpm=5000.0), "aluminium 6061", **FREE)
    assert found.feed == pytest.approx(5000 * 3 * chip_load(find("aluminium 6061").chips, 8))
    found = speeds(Cutter(3, "end mill", 8.0, flutes=3, feed=500.0), "aluminium 6061", **FREE)
    assert found.rpm == speeds(MILL, "aluminium 6061", **FREE).rpm
    assert found.feed == 500


def test_nothing_exceeds_the_machine_and_the_chip_stays():
    found = speeds(MILL, "aluminium 6061", max_rpm=4000, max_feed=1e6)
    assert found.rpm == 4000
    assert found.feed == pytest.approx(4000 * 3 * chip_load(find("aluminium 6061").chips, 8))
    assert found.reasons.rpm.startswith("4000 rpm, the machine's highest: 7958 were due")
    cutter = Cutter(3, "end mill", 8.0, rpm=9000.0, feed=2000.0, plunge_feed=1500.0)
    found = speeds(cutter, "acetal", max_rpm=8000, max_feed=1000)
    assert (found.rpm, found.feed, found.plunge_feed, found.slot_feed) == (8000, 1000, 1000, 500)
    assert found.reasons.feed == (
        "feed 1000 mm/min: the machine's highest; from the job would be more"
    )
    found = speeds(MILL, "aluminium 6061", min_rpm=9000, **FREE)
    assert found.rpm == 9000
    assert found.reasons.rpm.startswith("9000 rpm, the machine's least: 7958 were due")


def test_reasons_name_tool_values_and_where_they_come_from():
    reasons = speeds(MILL, "6061", **FREE).reasons
    assert reasons.number == 3
    assert reasons.rpm == (
        "7958 rpm: 200 m/min for carbide in aluminium 6061 (common practice, no source)"
    )
    assert reasons.feed == ("feed 1528 mm/min: 3 x 0.064 mm a tooth (a shop chart)")
    assert reasons.line == f"T3: {reasons.rpm}; {reasons.feed}; {reasons.more[0]}"
    assert reasons.more == ("straight down 764 mm/min: half",)


def test_reasons_come_in_the_units_of_the_job():
    line = speeds(MILL, "6061", **FREE, units=Units.INCH).reasons.line
    assert "656 ft/min" in line
    assert "in/min" in line
    assert " mm" not in line


def test_a_material_without_data_is_refused():
    with pytest.raises(InputError, match=r"'alumium 6061'(.|\n)*did you mean aluminium 6061\?"):
        speeds(MILL, "alumium 6061", **FREE)
    with pytest.raises(InputError, match="choose from aluminium 6061"):
        speeds(MILL, "teak", **FREE)


@pytest.mark.parametrize("kind", KINDS)
def test_every_kind_of_cutter_has_data_and_yields_to_the_job(kind):
    assert speeds(Cutter(1, kind, 6.0), "brass 360", **FREE).feed > 0
    own = Cutter(1, kind, 6.0, rpm=1000.0, feed=100.0)
    assert speeds(own, "no such material", **FREE).feed == 100


def test_a_kind_of_tool_without_data_is_refused():
    with pytest.raises(InputError, match="tool 1, a reamer"):
        speeds(Cutter(1, "reamer", 6.0), "brass 360", **FREE)


def test_a_chamfer_mill_is_driven_like_an_end_mill_of_its_diameter():
    chamfer = Cutter(3, "chamfer mill", 8.0, flutes=3, angle=90.0)
    assert speeds(chamfer, "acetal", **FREE) == speeds(MILL, "acetal", **FREE)


# --- drills ----------------------------------------------------------------------------------
# Common practice, no source: drills of high-speed steel at 0.3 of carbide's surface speed; fed
# 0.015 of the diameter each turn, 0.010 in steel, spot drills half of it.


@pytest.mark.parametrize(
    ("material", "kind", "per_turn"),
    [
        ("aluminium 6061", "drill", 0.075),
        ("brass 360", "drill", 0.075),
        ("acetal", "drill", 0.075),
        ("mild steel", "drill", 0.050),
        ("aluminium 7075", "spot drill", 0.0375),
        ("mild steel", "spot drill", 0.025),
    ],
)
def test_drills_are_fed_a_share_of_their_diameter_each_turn(material, kind, per_turn):
    found = speeds(Cutter(4, kind, 5.0), material, **FREE)
    assert found.rpm == pytest.approx(1000 * 0.3 * find(material).surface_speed / (math.pi * 5))
    assert found.feed / found.rpm == pytest.approx(per_turn)
    assert found.plunge_feed == found.slot_feed == found.feed


def test_a_drill_at_a_speed_as_tables_for_high_speed_steel_have_it():
    # 25 to 30 m/min in mild steel, 60 to 90 m/min in aluminium alloys: common practice, no source
    for material, least, most in (("mild steel", 25, 30), ("aluminium 6061", 60, 90)):
        surface = speeds(Cutter(4, "drill", 5.0), material, **FREE).rpm * math.pi * 5 / 1000
        assert least <= surface * (1 + 1e-9)
        assert surface <= most * (1 + 1e-9)


def test_a_drill_held_to_the_machine_keeps_its_feed_each_turn():
    found = speeds(Cutter(4, "drill", 2.0), "aluminium 6061", max_rpm=5000, max_feed=1e6)
    assert found.rpm == 5000
    assert found.feed == pytest.approx(5000 * 0.03)
    found = speeds(Cutter(4, "drill", 2.0), "aluminium 6061", max_rpm=5000, max_feed=100)
    assert (found.feed, found.plunge_feed) == (100, 100)


@pytest.mark.parametrize(
    ("own", "feed"),
    [
        ({"feed": 90.0}, 90),
        ({"plunge_feed": 80.0}, 80),
        ({"feed": 90.0, "plunge_feed": 80.0}, 80),
    ],
)
def test_a_drill_goes_down_as_the_job_says(own, feed):
    found = speeds(Cutter(4, "drill", 5.0, rpm=2000.0, **own), "no such material", **FREE)
    assert (found.rpm, found.feed, found.plunge_feed) == (2000, feed, feed)
    assert found.reasons.line.count("from the job") == 2
    worked = speeds(Cutter(4, "drill", 5.0, **own), "brass 360", **FREE)
    assert worked.rpm == speeds(Cutter(4, "drill", 5.0), "brass 360", **FREE).rpm


def test_reasons_of_a_drill_say_what_was_assumed_and_only_what_it_needs():
    reasons = speeds(Cutter(4, "drill", 5.0), "6061", **FREE).reasons
    assert reasons.rpm == (
        "3820 rpm: 60 m/min for a drill of high-speed steel in aluminium 6061 "
        "(0.3 of carbide's, common practice, no source)"
    )
    assert reasons.feed == (
        "feed 286 mm/min: 0.075 mm a turn, 0.015 of the diameter (common practice, no source)"
    )
    assert reasons.more == ()
    drill = Cutter(4, "spot drill", 6.35)
    inches = speeds(drill, "6061", **FREE, units=Units.INCH).reasons.line
    assert "197 ft/min for a spot drill" in inches
    assert " mm" not in inches
