"""What a job says of the lathe: every key arrives, and what can be wrong is named."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from jawcam.errors import InputError
from jawcam.job.places import place_in_setup
from jawcam.job.turn_model import (
    Chuck,
    Drilling,
    Grooving,
    PartingOff,
    Speeds,
    Stock,
    Threading,
    TurnFinish,
    TurnRough,
    TurnSetup,
)
from jawcam.tools.cutter import Cutter
from jawcam.tools.insert import parse
from jawcam.tools.turner import Turner

MILL = """\
[[tool]]
number = 9
kind = "end mill"
dia = 8
[[setup]]
name = "stand"
cut = "jaws"
post = "rs274ngc-mill"
jaws = { width = 130, height = 38, thickness = 40, gap = 6 }
hold = { depth = 8 }
"""


def test_what_a_lathe_job_says_is_what_comes_out(jobs, lathe):
    job = jobs.load(lathe)
    assert job.turnings[0] == TurnSetup(
        "end-a",
        "rs274ngc-lathe",
        1,
        "A",
        Stock(22.0),
        Chuck(18.0),
        20.0,
        rough=TurnRough(1, depth=2.0, feed=0.25),
        finish=TurnFinish(1, surface_ra=1.6),
        groove=Grooving(3),
        thread=Threading(4),
        drill=Drilling(7, 6),
        bore=TurnRough(2),
    )
    assert job.turners == (
        Turner(1, "turning", insert=parse("CNMG120408")),
        Turner(2, "boring", insert=parse("CCMT060204"), inside=True, least_bore=8.0),
        Turner(3, "grooving", width=3.0, radius=0.2, reach=8.0),
        Turner(4, "threading"),
        Turner(5, "parting", width=2.0, reach=16.0),
        Turner(6, "centre drill", dia=3.15),
        Turner(7, "drill", dia=7.0, feed=0.1),
    )
    assert job.tools == (Cutter(7, "drill", 7.0),)
    assert (job.setups, job.order) == ((), ("end-a", "end-b"))


def test_what_a_lathe_setup_leaves_out_has_its_default(jobs, lathe):
    other = jobs.load(lathe).turnings[1]
    assert other == TurnSetup(
        "end-b", "rs274ngc-lathe", 1, "B", Stock(22.0, 7.0), Chuck(10.0), 21.0
    )
    assert (other.drill, other.bore, other.part_off) == (None, None, None)
    assert jobs.load(lathe.replace("reach = 21\n", "")).turnings[1].reach is None


EVERYTHING = """\
title = "All of the lathe"
units = "inch"
[part]
turned = [{ dia = "20 mm", len = 2 }]
[[tool]]
number = 1
kind = "turning"
name = "neutral"
offset = 11
hand = "neutral"
insert = "vcmt160404"
approach = "72.5 deg"
shank = 0.75
overhang = "40 mm"
surface = 600
feed = 0.008
depth = 0.05
[[tool]]
number = 2
kind = "threading"
hand = "left"
pitch_angle = 55
inside = true
least_bore = "12 mm"
surface = "50 m/min"
feed = "0.1 mm/rev"
[[tool]]
number = 3
kind = "centre drill"
dia = "4 mm"
angle = 60
feed = "0.002 in"
[[tool]]
number = 4
kind = "drill"
dia = "7 mm"
angle = 140
stickout = 3
offset = 4
surface = "90 ft/min"
feed = 0.004
[[tool]]
number = 5
kind = "parting"
width = "2 mm"
reach = 0.5
radius = "0.2 mm"
turns = "counter-clockwise"
[[setup]]
name = "bar"
cut = "turned profile"
post = "iso6983-lathe"
work_offset = 2
end = "B"
reach = 1
clearance = 0.1
coolant = "mist"
stock = { dia = 1, bore = "5 mm", allowance = 0.04 }
speeds = { surface = "200 m/min", clamp = "2000 rpm", constant = false }
rough = { tool = 1, way = "profile", depth = 0.1, feed = 0.01, leave = 0.01, leave_face = 0 }
finish = { tool = 1, feed = "0.08 mm", surface_ra = 0.8, compensation = "control" }
groove = { tool = 9, feed = "0.05 mm", peck = 0.05 }
thread = { tool = 2, passes = 9, spring = 2, flank = 0 }
drill = { tool = 4, centre = 3, peck = 0.2 }
bore = { tool = 8, depth = 0.04, feed = 0.004, leave = 0, leave_face = 0.01, way = "along" }
part_off = { tool = 5, feed = "0.05 mm", edge = 0.02 }
[setup.chuck]
grip = 0.8
dia = 8
jaw_height = 1
jaws = 2
max_rpm = 2800
tailstock = false
force = "30 kN"
jaw_mass = 0.8
jaw_radius = 2.5
count = 4
[[tool]]
number = 8
kind = "boring"
insert = "CCMT060204"
inside = true
[[tool]]
number = 9
kind = "grooving"
width = 0.1
reach = 0.3
"""


def test_every_key_of_the_lathe_arrives_where_it_belongs(jobs):
    job = jobs.load(EVERYTHING)
    (bar,) = job.turnings
    mm = pytest.approx
    assert bar == TurnSetup(
        "bar",
        "iso6983-lathe",
        2,
        "B",
        Stock(25.4, 5.0, mm(1.016)),
        Chuck(mm(20.32), mm(203.2), 25.4, 50.8, 2800.0, False, 30000.0, 0.8, 63.5, 4),
        25.4,
        Speeds(200.0, 2000.0, False),
        TurnRough(1, "profile", mm(2.54), mm(0.254), mm(0.254), 0.0),
        TurnFinish(1, 0.08, 0.8, "control"),
        Grooving(9, 0.05, mm(1.27)),
        Threading(2, 9, 2, 0.0),
        Drilling(4, 3, mm(5.08)),
        TurnRough(8, "along", mm(1.016), mm(0.1016), 0.0, mm(0.254)),
        PartingOff(5, 0.05, mm(0.508)),
        mm(2.54),
        "mist",
    )
    turning, threading, centre, drill, parting, boring, _ = job.turners
    assert turning == Turner(
        1,
        "turning",
        "neutral",
        11,
        "neutral",
        parse("VCMT160404"),
        72.5,
        shank=mm(19.05),
        overhang=40.0,
        surface=mm(182.88),  # 600 ft of 0.3048 m
        feed=mm(0.2032),
        depth=mm(1.27),
    )
    assert threading == Turner(
        2,
        "threading",
        hand="left",
        pitch_angle=55.0,
        inside=True,
        least_bore=12.0,
        surface=50.0,
        feed=0.1,
    )
    assert centre == Turner(3, "centre drill", dia=4.0, point_angle=60.0, feed=mm(0.0508))
    assert drill == Turner(
        4,
        "drill",
        "",
        4,
        dia=7.0,
        point_angle=140.0,
        overhang=mm(76.2),
        surface=mm(27.432),
        feed=mm(0.1016),
    )
    assert parting == Turner(
        5, "parting", width=2.0, radius=0.2, reach=12.7, turns="counter-clockwise"
    )
    assert boring.inside


def test_a_tailstock_leaves_the_end_alone_or_what_is_round_its_centre_hole(jobs, lathe):
    assert lathe.count("bore = 7 }") == lathe.count("grip = 10 }") == 1
    faced = lathe.replace("grip = 10 }", "grip = 10, tailstock = true }")
    faced = faced.replace("bore = 7 }", "bore = 7, allowance = 0 }")
    assert jobs.load(faced).turnings[1].chuck == Chuck(10.0, tailstock=True)
    rim = lathe.replace("grip = 10 }", 'grip = 10, tailstock = true, centre = "5 mm" }')
    assert jobs.load(rim).turnings[1].chuck == Chuck(10.0, tailstock=True, centre=5.0)


def test_nothing_is_drilled_or_bored_where_a_tailstock_s_centre_is(jobs, lathe):
    text = lathe.replace("grip = 18, ", "grip = 18, tailstock = true, centre = 4, ")
    drill, bore = jobs.faults(text)
    assert [fault.place.key for fault in (drill, bore)] == ["setup[1].drill", "setup[1].bore"]
    assert "can't be drilled while a tailstock's centre stands in it" in drill.what
    assert "can't be bored" in bore.what
    assert "a setup without the tailstock" in drill.mend


# --- surface speeds and feeds ------------------------------------------------------------------


@pytest.mark.parametrize(
    ("units", "written", "speed"),
    [
        ("mm", "200", 200.0),
        ("mm", '"200 m/min"', 200.0),
        ("mm", '"600 ft/min"', 182.88),
        ("mm", '"200000 mm/min"', 200.0),
        ("mm", '"2 * 100"', 200.0),
        ("inch", "600", 182.88),
        ("inch", '"200 m/min"', 200.0),
    ],
)
def test_a_bare_surface_speed_is_in_metres_or_feet_per_minute(jobs, units, written, speed):
    text = EVERYTHING.replace('units = "inch"', f'units = "{units}"')
    text = text.replace("surface = 600", f"surface = {written}")
    text = text.replace("len = 2", "len = 60").replace("radius = 2.5", "radius = 55")
    text = text.replace("stock = { dia = 1,", "stock = { dia = 22,")
    assert jobs.load(text).turners[0].surface == pytest.approx(speed)


def test_a_bare_feed_of_a_drill_is_per_turn_where_all_is_turned_and_else_per_minute(jobs, lathe):
    assert jobs.load(lathe).turners[-1].feed == 0.1
    both = lathe + MILL
    (fault,) = jobs.faults(both)
    assert fault.place.key == "tool[7].feed"
    assert fault.what == "setup[1] drills with it on the lathe, where feeds are per turn"
    assert fault.mend == 'write it such as "0.1 mm", or leave it out'
    for written in ('"0.1 mm"', '"0.1 mm/rev"'):
        job = jobs.load(both.replace("feed = 0.1", f"feed = {written}"))
        assert job.turners[-1].feed == 0.1
        assert job.tools[0] == Cutter(7, "drill", 7.0)


def test_a_drill_without_work_on_the_lathe_keeps_its_feed_per_minute(jobs, lathe):
    text = lathe.replace("drill = { tool = 7, centre = 6 }\n", "") + MILL
    job = jobs.load(text.replace("feed = 0.1", "feed = 120\nrpm = 3000"))
    assert job.tools[0] == Cutter(7, "drill", 7.0, rpm=3000.0, feed=120.0)
    assert job.turners[-1].feed is None
    (fault,) = jobs.faults(text.replace("feed = 0.1", "feed = 5001"))
    assert (fault.place.key, "5000 mm/min" in fault.what) == ("tool[7].feed", True)


def test_a_drill_with_work_on_the_mill_has_no_feed_per_turn(jobs, lathe):
    text = lathe.replace("feed = 0.1", 'feed = "0.1 mm"')
    text = text.replace("drill = { tool = 7, centre = 6 }\n", "")
    hole = "holes = [{ at = [30, 20], depth = 9, tool = 7 }]\n"
    (fault,) = jobs.faults(text + MILL + hole)
    assert fault.place.key == "tool[7].feed"
    assert fault.what == "setup[3] drills with it on the mill, where feeds are per minute"
    assert "200 mm/min" in fault.mend


def test_the_only_drill_is_the_one_meant_where_none_is_named(jobs, lathe):
    text = lathe.replace("tool = 7, centre", "centre").replace("feed = 0.1", "rpm = 3000")
    (fault,) = jobs.faults(text)
    assert fault.place.key == "tool[7].rpm"
    more = '[[tool]]\nnumber = 8\nkind = "drill"\ndia = 3\n'
    assert jobs.load(text + more)


# --- mill and lathe in one job -----------------------------------------------------------------


def test_a_job_may_hold_setups_of_both(jobs, lathe):
    text = lathe.replace("feed = 0.1", "")
    head, setups = text.split("[[setup]]", 1)
    job = jobs.load(head + MILL + "[[setup]]" + setups)
    assert [setup.name for setup in job.setups] == ["stand"]
    assert [setup.name for setup in job.turnings] == ["end-a", "end-b"]
    assert job.order == ("stand", "end-a", "end-b")
    assert [tool.number for tool in job.tools] == [7, 9]
    assert [tool.number for tool in job.turners] == [1, 2, 3, 4, 5, 6, 7]
    assert place_in_setup(job, job.turnings[0]).key == "setup[2]"
    assert place_in_setup(job, job.setups[0]).key == "setup[1]"


def test_one_program_for_all_setups_concerns_those_of_the_mill_only(jobs, lathe):
    text = lathe.replace("feed = 0.1", "").replace("[part]", "together = true\n[part]")
    assert jobs.load(text + MILL).together


def test_a_drill_is_no_lathe_tool_in_a_job_of_the_mill(jobs, good):
    drill = '[[tool]]\nnumber = 8\nkind = "drill"\ndia = 5\n[[setup]]\nname = "side-one"'
    job = jobs.load(good.replace('[[setup]]\nname = "side-one"', drill))
    assert [tool.number for tool in job.tools] == [3, 4, 8]
    assert job.turners == ()


def test_lathe_tools_are_not_held_against_the_material_of_jaws(jobs, lathe):
    text = lathe.replace("feed = 0.1", 'feed = "0.1 mm"') + MILL
    text = text.replace("gap = 6", 'gap = 6, material = "teak"')
    assert [fault.place.key for fault in jobs.faults(text)] == ["setup[3].jaws.material"]
    text = text.replace("dia = 8\n", "dia = 8\nrpm = 5000\nfeed = 500\n")
    text = text.replace("drill = { tool = 7, centre = 6 }\n", "")
    assert jobs.load(text.replace('feed = "0.1 mm"', "rpm = 900\nfeed = 90"))


# --- faults ------------------------------------------------------------------------------------

FIRST = "setup[1]"
FAULTS = [
    # old text, new text, key path, what is wrong, how to mend it
    # tools
    ('insert = "CNMG120408"\n', "", "tool[1].insert", "is missing", 'insert = "DCMT11T304"'),
    ("CNMG120408", "CNMG120400", "tool[1].insert", "no nose radius to turn with", "04 or 08"),
    ("CNMG120408", "CNMG432", "tool[1].insert", "in inches", "CNMG120408 for CNMG432"),
    ('"CNMG120408"', "432", "tool[1].insert", "a number, but a text is due", "quotation marks"),
    ("width = 3\n", "", "tool[3].width", "is missing", "the width of its edge"),
    ("reach = 8\n", "", "tool[3].reach", "is missing", "how deep it goes"),
    ("width = 2\n", "", "tool[5].width", "is missing", "width = 3"),
    ("reach = 16\n", "", "tool[5].reach", "is missing", "how deep it goes"),
    ("dia = 3.15\n", "", "tool[6].dia", "is missing", "its diameter"),
    ("dia = 7\n", "", "tool[7].dia", "is missing", "its diameter"),
    ("radius = 0.2", "radius = 1.6", "tool[3].radius", "half the edge's width or less, 1.5", ""),
    ("dia = 3.15", "dia = 3.15\nangle = 0", "tool[6].angle", "more than 0 deg", "point"),
    ('"turning"', '"turnning"', "tool[1].kind", "not known", "did you mean turning?"),
    (
        "least_bore = 8",
        "flutes = 2",
        "tool[2].flutes",
        'no key "flutes"',
        'it goes with kind = "end mill" or ',
    ),
    ("width = 3", 'width = 3\ninsert = "x"', "tool[3].insert", "no key", '"turning" or "boring"'),
    ("least_bore = 8", "inside = false", "tool[2].inside", "in a bore", '"turning"'),
    (
        'insert = "CNMG120408"',
        'insert = "CNMG120408"\ninside = true',
        "tool[1].inside",
        "on the outside",
        'make the kind "boring"',
    ),
    ("width = 3", "width = 3\nleast_bore = 9", "tool[3].least_bore", "in a bore", "inside = true"),
    ("width = 3", 'width = 3\nturns = "M4"', "tool[3].turns", "not known", "counter-clockwise"),
    (
        'kind = "threading"',
        'kind = "threading"\nturns = "counter-clockwise"',
        "tool[4].turns",
        "its threads come out left-hand",
        "the other way up",
    ),
    (
        "width = 3",
        "width = 3\nfeed = 200",
        "tool[3].feed",
        "this is 200 mm per turn, but it must be 5 mm per turn or less",
        "its feed per turn, such as 0.2",
    ),
    (
        "width = 3",
        'width = 3\nfeed = "200 mm/min"',
        "tool[3].feed",
        "comes to a feed, but a feed per turn is due",
        "0.2 mm or 0.008 in",
    ),
    (
        "width = 3",
        'width = 3\nsurface = "20 m"',
        "tool[3].surface",
        "no unit 'm'",
        "",
    ),
    (
        "width = 3",
        'width = 3\nsurface = "900 rpm"',
        "tool[3].surface",
        "a spindle speed, but a surface speed is due",
        "200 m/min or 600 ft/min",
    ),
    (
        "width = 3",
        "width = 3\nsurface = 5001",
        "tool[3].surface",
        "this is 5001 m/min, but it must be 5000 m/min or less",
        "its cutting speed",
    ),
    ("feed = 0.1", 'feed = "0.1 deg"', "tool[7].feed", "an angle, but a feed", "mm/min"),
    ("feed = 0.1", "feed = true", "tool[7].feed", "true or false, but a feed", ""),
    ("feed = 0.1", "feed = 90", "tool[7].feed", "90 mm per turn, but it must be 5", "0.1"),
    ("feed = 0.1", 'feed = "90 mm/min"', "tool[7].feed", "where feeds are per turn", '"0.1 mm"'),
    ("feed = 0.1", "rpm = 900", "tool[7].rpm", "follows from surface", "surface = ..."),
    # what a setup needs
    ('end = "A"\n', "", f"{FIRST}.end", "is missing", 'end = "A"'),
    ('end = "A"', 'end = "C"', f"{FIRST}.end", "not known", '"A" and "B"'),
    ("stock = { dia = 22, allowance = 1 }\n", "", f"{FIRST}.stock", "is missing", "dia = ..."),
    ("stock = { dia = 22, ", "stock = { ", f"{FIRST}.stock.dia", "is missing", "its diameter"),
    ("chuck = { grip = 18, ", "chuck = { ", f"{FIRST}.chuck.grip", "is missing", "that is held"),
    ("grip = 18", "grip = 0", f"{FIRST}.chuck.grip", "more than 0 mm", "that is held"),
    ("grip = 18", "grip = 40", f"{FIRST}.chuck.grip", "only 40 mm long", "part_off"),
    ("reach = 20", "reach = 41", f"{FIRST}.reach", "only 40 mm long", "leave it out"),
    ("reach = 20", "reach = 0", f"{FIRST}.reach", "more than 0 mm", "the free end"),
    (
        "reach = 20",
        "reach = 18.9",
        "setup[2].reach",
        "neither this setup nor setup[1] turns 0.1 mm of the part, which is 40 mm long",
        "together 40 mm or more",
    ),
    ('end = "B"', 'end = "A"', "setup[2].end", "setup[1] turns end A already", "leave one"),
    ("bore = 7", "bore = 22", "setup[2].stock.bore", "smaller than the stock, 22 mm", "solid"),
    (
        "grip = 10 }",
        "grip = 10, tailstock = true }",
        "setup[2].stock.allowance",
        "can't be faced to the axis while a tailstock's centre stands in it",
        "write allowance = 0; or give the centre hole's diameter as chuck.centre",
    ),
    (
        "grip = 10 }",
        "grip = 10, centre = 4 }",
        "setup[2].chuck.centre",
        "only a tailstock's centre",
        "add tailstock = true",
    ),
    (
        "grip = 10 }",
        "grip = 10, tailstock = true, centre = 22 }",
        "setup[2].chuck.centre",
        "as wide as the end",
        "make it smaller",
    ),
    ("grip = 18", "grip = 18, count = 1", f"{FIRST}.chuck.count", "2 or more", "jaws"),
    (
        "grip = 18",
        "grip = 18, jaw_mass = 0.8",
        f"{FIRST}.chuck.jaw_mass",
        "without force and jaw_radius",
        "add force = ... and jaw_radius = ..., or leave out jaw_mass",
    ),
    (
        "grip = 18",
        'grip = 18, force = "30 kN", jaw_mass = 0.8',
        f"{FIRST}.chuck.force",
        "without jaw_radius",
        "or leave out force and jaw_mass",
    ),
    ("surface_ra = 1.6", "surface_ra = 0", f"{FIRST}.finish.surface_ra", "more than 0", "Ra"),
    # tools that a setup names
    ("rough = { tool = 1", "rough = { tool = 8", f"{FIRST}.rough.tool", "no tool 8", "6 and 7"),
    (
        "rough = { tool = 1",
        "rough = { tool = 2",
        f"{FIRST}.rough.tool",
        "tool 2 is a boring tool, but roughing takes a turning tool",
        'of the kind "turning"',
    ),
    ("finish = { tool = 1", "finish = { tool = 3", f"{FIRST}.finish.tool", "finishing takes", ""),
    ("groove = { tool = 3", "groove = { tool = 5", f"{FIRST}.groove.tool", "a parting tool", ""),
    ("thread = { tool = 4", "thread = { tool = 3", f"{FIRST}.thread.tool", "a threading tool", ""),
    ("{ tool = 7, c", "{ tool = 6, c", f"{FIRST}.drill.tool", "but drilling takes a drill", ""),
    ("centre = 6", "centre = 7", f"{FIRST}.drill.centre", "takes a centre drill", ""),
    ("bore = { tool = 2", "bore = { tool = 1", f"{FIRST}.bore.tool", "a boring tool", ""),
    (
        "bore = { tool = 2",
        "part_off = { tool = 3",
        f"{FIRST}.part_off.tool",
        "parting off takes a parting tool",
        'of the kind "parting"',
    ),
    # keys of the mill, and of the lathe in a setup of the mill
    ("reach = 20", "jaws = { width = 1 }", f"{FIRST}.jaws", 'no key "jaws"', "chuck = { grip"),
    ("reach = 20", "hold = { depth = 1 }", f"{FIRST}.hold", 'no key "hold"', "end for the end"),
    ("reach = 20", "face = { take = 1 }", f"{FIRST}.face", 'no key "face"', "stock.allowance"),
    ("reach = 20", "holes = []", f"{FIRST}.holes", 'no key "holes"', "drill = { tool = ... }"),
    ("reach = 20", "zero = {}", f"{FIRST}.zero", 'no key "zero"', "the free end"),
    ("reach = 20", "edges = {}", f"{FIRST}.edges", 'no key "edges"', "part.turned"),
    ("reach = 20", "clamp = {}", f"{FIRST}.clamp", 'no key "clamp"', "force = ..."),
    ("reach = 20", "fit = {}", f"{FIRST}.fit", 'no key "fit"', 'it goes with cut = "jaws"'),
    ("depth = 2", "stepdown = 2", f"{FIRST}.rough.stepdown", "no key", "way, depth, feed"),
    ("reach = 20", "grip = 20", f"{FIRST}.grip", "no key", "in the table chuck"),
    ('"turned profile"', '"turned profil"', f"{FIRST}.cut", "not known", "mean turned profile?"),
]


@pytest.mark.parametrize(("old", "new", "key", "what", "mend"), FAULTS)
def test_a_fault_is_named_once_with_its_place_and_its_mend(jobs, lathe, old, new, key, what, mend):
    assert old in lathe
    (fault,) = jobs.faults(lathe.replace(old, new, 1))
    assert fault.place.key == key
    assert what in fault.what
    assert mend in fault.mend


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ("grip = 18", "grip = 39.9"),
        ("reach = 20", "reach = 40"),
        ("reach = 20", "reach = 19"),
        ("reach = 20\n", ""),
        ("bore = 7", "bore = 21.9"),
        ("radius = 0.2", "radius = 1.5"),
        # parted off a bar: how long that is, nobody knows
        ("grip = 18", "grip = 60"),
        ("reach = 20", "reach = 5"),
        ("grip = 18", 'grip = 18, force = "30 kN", jaw_mass = 0.8, jaw_radius = 55'),
    ],
)
def test_what_is_just_right_loads(jobs, lathe, old, new):
    text = lathe.replace(old, new, 1)
    if new in ("grip = 60", "reach = 5"):
        assert jobs.faults(text)
        text = text.replace("bore = { tool = 2 }", "part_off = { tool = 5 }")
    assert jobs.load(text).turnings


def test_all_that_is_wrong_with_an_insert_comes_in_one_run(jobs, lathe):
    faults = jobs.faults(lathe.replace("CNMG120408", "CYMG120400"))
    line = faults[0].place.line
    assert {fault.place.key for fault in faults} == {"tool[1].insert"}
    assert [(fault.place.line, fault.place.column) for fault in faults] == [(line, 12), (line, 19)]
    assert 'in "CYMG120400", character 2' in faults[0].what


def test_only_a_part_with_diameters_is_turned(jobs, lathe):
    start, end = lathe.index("turned = ["), lathe.index("[[tool]]")
    outline = 'outline = "lever.dxf"\nthickness = 12\n'
    faults = jobs.faults(lathe[:start] + outline + lathe[end:])
    assert [fault.place.key for fault in faults] == ["setup[1].cut", "setup[2].cut"]
    assert "only a part with a table of diameters" in faults[0].what
    assert "turned = [ { dia = ..., len = ... } ]" in faults[0].mend
    # a part that is neither is one fault, not three
    assert [fault.place.key for fault in jobs.faults(lathe[:start] + lathe[end:])] == [
        "part.outline"
    ]


@pytest.mark.parametrize(
    ("tool", "table", "place", "what"),
    [
        (1, "rough", "setup[1]", "turning a profile"),
        (2, "bore", "setup[1].bore", "boring"),
        (7, "drill", "setup[1].drill", "no drill"),
        (5, "part_off", "setup[1].part_off", "parting off"),
    ],
)
def test_work_that_no_tool_can_do_is_a_fault(jobs, lathe, tool, table, place, what):
    """It may be left open which tool does it, if there is one of the kind."""
    text = lathe.replace("tool = 1, ", "").replace("tool = 7, ", "")
    text = text.replace("bore = { tool = 2 }", "bore = {}\npart_off = {}")
    assert jobs.load(text)
    start = text.index(f"[[tool]]\nnumber = {tool}\n")
    end = text.index("[[", start + 1)
    faults = [one for one in jobs.faults(text[:start] + text[end:]) if one.place.key == place]
    assert what in faults[0].what
    assert "add a [[tool]] of the kind" in faults[0].mend
    assert table in text


def test_a_key_of_the_lathe_in_a_setup_of_the_mill_names_its_cut(jobs, good):
    faults = jobs.faults(good.replace("work_offset = 1", "chuck = { grip = 3 }\nstock = 3"))
    assert [fault.place.key for fault in faults] == ["setup[1].chuck", "setup[1].stock"]
    for fault in faults:
        assert fault.mend.startswith('leave it out; it goes with cut = "turned profile"')
    (fault,) = jobs.faults(good.replace("dia = 8\n", 'dia = 8\ninsert = "DCMT11T304"\n'))
    assert fault.mend == 'leave it out; it goes with kind = "turning" or "boring"'


def test_a_setup_without_a_cut_is_taken_for_one_of_the_mill(jobs, lathe):
    text = lathe.replace('name = "end-a"\ncut = "turned profile"', 'name = "end-a"')
    keys = [fault.place.key for fault in jobs.faults(text)]
    assert {"setup[1].cut", "setup[1].jaws", "setup[1].hold"} <= set(keys)


def test_faults_of_tools_and_setups_come_in_one_run(jobs, lathe):
    text = lathe.replace("CNMG120408", "CNMG").replace("width = 3", "width = -3")
    text = text.replace("grip = 18", "grip = 40").replace("reach = 21", "reach = 99")
    text = text.replace("bore = 7", "bore = 30").replace(
        "thread = { tool = 4", "thread = { tool = 1"
    )
    assert [fault.place.key for fault in jobs.faults(text)] == [
        "tool[1].insert",
        "tool[3].width",
        "setup[1].chuck.grip",
        "setup[1].thread.tool",
        "setup[2].reach",
        "setup[2].stock.bore",
    ]


@settings(max_examples=150, deadline=None)
@given(data=st.data())
def test_a_spoiled_lathe_job_loads_or_is_refused_with_places(shared_jobs, data):
    text = data.draw(st.sampled_from([EVERYTHING, EVERYTHING + MILL.replace("130", "5")]))
    for _ in range(data.draw(st.integers(1, 4))):
        at = data.draw(st.integers(0, len(text) - 1))
        gone = data.draw(st.integers(0, 9))
        piece = data.draw(st.text(alphabet='=[]{}"\n ,.-/*(09aimn#', max_size=5))
        text = text[:at] + piece + text[at + gone :]
    try:
        shared_jobs.load(text)
    except InputError as error:
        for fault in error.faults:
            assert fault.what
            assert 0 <= fault.place.line <= text.count("\n") + 1


def test_speeds_are_said_in_the_units_of_the_job(jobs):
    (fault,) = jobs.faults(EVERYTHING.replace("surface = 600", "surface = 20000"))
    assert fault.what == "this is 20000 ft/min, but it must be 16404.2 ft/min or less"
    assert fault.mend == 'write its cutting speed, such as "200 m/min"'
    (fault,) = jobs.faults(EVERYTHING.replace("feed = 0.008", "feed = 8"))
    assert fault.what == "this is 8 in per turn, but it must be 0.19685 in per turn or less"
    assert fault.mend == 'write its feed per turn, such as "0.2 mm"'
