"""What can be wrong with what a setup does beside its pocket, and with setups in one program."""

import pytest

from jawcam.job.model import Clamp, Corners, Fit

TOOLS = """\
[[tool]]
number = 7
kind = "chamfer mill"
dia = 6
angle = 90
tip_dia = 0.5
[[tool]]
number = 8
kind = "drill"
dia = 5
[[tool]]
number = 9
kind = "spot drill"
dia = 6
"""
ALL_OF_IT = """\
corners = { relief = "drilled", tool = 8, peck = 2 }
face = { take = 0.5, tool = 3, stepover = 6, feed = 900 }
edges = { width = 0.3, tool = 7, feed = 400 }
holes = [{ at = [40, 20], depth = 12, tool = 8, spot = 9, peck = 3 }]
clamp = { torque = "40 N m", lead = 5, efficiency = 0.35, surface = "machined", safety = 2.5 }
keep = { floor = 2, wall = 1, bolt = 1 }
next_cut = { down = 3, clear = 1, stepdown = 2, chip = 0.08, teeth = 1 }
fit = { grip = "H7/g6", size = 20, step = 0.1 }
"""


@pytest.fixture
def full(good):
    """The good job with a tool of each kind that may work beside an end mill, and work for it."""
    before, setup, after = good.partition("[[setup]]\n")
    return before + TOOLS + setup + ALL_OF_IT + after


FAULTS = [
    # old text, new text, key path, what is wrong, how to mend it
    ("angle = 90", "angle = 0", "tool[3].angle", "more than 0 deg", "included angle"),
    ("angle = 90", "angle = 181", "tool[3].angle", "180 deg or less", "such as 90"),
    ("angle = 90", "angle = 180", "tool[3].angle", "would be flat", "such as 90"),
    ("dia = 8", "dia = 8\nangle = 90", "tool[1].angle", '"end mill" has no angle', "leave it out"),
    ("tip_dia = 0.5", "tip_dia = 6", "tool[3].tip_dia", "smaller than the tool, 6 mm", "smaller"),
    ("tip_dia = 0.5", "tip_dia = -1", "tool[3].tip_dia", "0 mm or more", ""),
    ("dia = 5", "dia = 5\ntip_dia = 1", "tool[4].tip_dia", '"drill" has no', '"chamfer mill"'),
    # corners
    ('"drilled"', '"bored"', "setup[1].corners.relief", "not known", '"drilled" and "none"'),
    ("tool = 8, peck = 2", "peck = 2", "setup[1].corners.tool", "need their drill", "tool = ..."),
    ("tool = 8, peck = 2", "tool = 3", "setup[1].corners.tool", "is an end mill, but", '"drill"'),
    ("tool = 8, peck = 2", "tool = 5", "setup[1].corners.tool", "no tool 5", "3, 4, 7, 8 and 9"),
    ("tool = 8, peck = 2", "tool = 8, peck = 0", "setup[1].corners.peck", "more than 0 mm", "peck"),
    (
        '{ relief = "drilled", tool = 8, peck = 2 }',
        '{ relief = "none", tool = 3 }',
        "setup[1].corners.tool",
        "only where they are drilled",
        'relief = "drilled"',
    ),
    (
        'relief = "drilled", tool = 8, peck = 2',
        "peck = 2",
        "setup[1].corners.peck",
        "only where they are drilled",
        'relief = "drilled"',
    ),
    # facing
    ("take = 0.5, ", "", "setup[1].face.take", "is missing", "how much to face off"),
    ("take = 0.5", "take = 0", "setup[1].face.take", "more than 0 mm", "0.5"),
    ("tool = 3, stepover = 6", "tool = 4", "setup[1].face.tool", "facing takes an end mill", "end"),
    ("stepover = 6", "stepover = 8.1", "setup[1].face.stepover", "only 8 mm wide", "smaller"),
    ("feed = 900", "feed = 5001", "setup[1].face.feed", "5000 mm/min", "machine.max_feed"),
    # edges
    ("width = 0.3, ", "", "setup[1].edges.width", "is missing", "the width of the chamfer"),
    ("tool = 7", "tool = 9", "setup[1].edges.tool", "takes a chamfer mill", '"chamfer mill"'),
    ("feed = 400", "feed = 5001", "setup[1].edges.feed", "5000 mm/min", "machine.max_feed"),
    ("width = 0.3", "width = 2.75", "setup[1].edges.width", "only 2.75 mm wide", "larger"),
    ("width = 0.3, tool = 7", "width = 3", "setup[1].edges.width", "only 2.75 mm", "smaller"),
    # holes
    ("at = [40, 20], ", "", "setup[1].holes[1].at", "is missing", "its centre"),
    ("depth = 12, tool", "tool", "setup[1].holes[1].depth", "is missing", "its full diameter"),
    ("tool = 8, spot", "spot", "setup[1].holes[1].tool", "is missing", "the drill"),
    ("tool = 8, spot", "tool = 9, spot", "setup[1].holes[1].tool", "is a spot drill, but", "drill"),
    ("spot = 9", "spot = 8", "setup[1].holes[1].spot", "takes a spot drill", '"spot drill"'),
    ("spot = 9", "spot = 6", "setup[1].holes[1].spot", "there is no tool 6", "8 and 9"),
    ("depth = 12", "depth = 38", "setup[1].holes[1].depth", "which is 38 mm high", "less deep"),
    ("depth = 12", "depth = 37", "setup[1].holes[1].depth", "drill's point, 1.502 mm", "less deep"),
    ("[{ at = [40", "[2, { at = [40", "setup[1].holes[1]", "a table is due", ""),
    (
        "holes = [{ at = [40, 20], depth = 12, tool = 8, spot = 9, peck = 3 }]",
        "holes = 7",
        "setup[1].holes",
        "a list of tables is due",
        "holes = [ { at = ..., depth = ..., tool = ... } ]",
    ),
    # clamp
    ('torque = "40 N m", lead = 5, ef', "ef", "setup[1].clamp", "neither", 'force = "12 kN"'),
    ('"40 N m"', '"40 N m", force = "9 kN"', "setup[1].clamp.torque", "so is the torque", "leave"),
    ('"40 N m"', '"40 N"', "setup[1].clamp.torque", "a force, but a torque is due", "350 lbf in"),
    ('"40 N m"', '"40 ft lbf"', "setup[1].clamp.torque", "no unit 'ft'", "lbf ft"),
    ('"40 N m"', "0", "setup[1].clamp.torque", "this is 0 N m, but it must be more than 0 N m", ""),
    (
        'torque = "40 N m", lead = 5, efficiency = 0.35',
        'force = "9 kN", lead = 5',
        "setup[1].clamp.lead",
        "only with a torque",
        "leave it out",
    ),
    ("efficiency = 0.35", "efficiency = 35", "setup[1].clamp.efficiency", "1 or less", "0.35"),
    ("efficiency = 0.35", "efficiency = 0", "setup[1].clamp.efficiency", "more than 0", "0.35"),
    ("safety = 2.5", "safety = 0.9", "setup[1].clamp.safety", "1 or more", "must bear"),
    ('"machined"', '"milled"', "setup[1].clamp.surface", "not known", '"raw"'),
    # what is kept, and the next cut
    ("floor = 2", "floor = -1", "setup[1].keep.floor", "0 mm or more", "under the pocket"),
    ("down = 3, ", "", "setup[1].next_cut.down", "is missing", "the part's top"),
    ("teeth = 1", "teeth = 0", "setup[1].next_cut.teeth", "1 or more", "at once"),
    # fit
    ('"H7/g6"', "0.03", "setup[1].fit.size", "only with a grip in letters", "leave it out"),
    ('grip = "H7/g6", ', "", "setup[1].fit.size", "only with a grip in letters", "leave it"),
    ("size = 20", "size = 0", "setup[1].fit.size", "more than 0 mm", "nominal size"),
    ("step = 0.1", "step = 0", "setup[1].fit.step", "more than 0 mm", "taper"),
    ('"H7/g6"', '"h7/g6"', "setup[1].fit.grip", "in capitals", 'write "H7/g6"'),
    ('"H7/g6"', '"g6/H7"', "setup[1].fit.grip", "in capitals", 'write "H7/g6"'),
    ('"H7/g6"', '"H7/G6"', "setup[1].fit.grip", "in capitals", 'write "H7/g6"'),
    ('"H7/g6"', '"h7"', "setup[1].fit.grip", "in capitals", 'write "H7"'),
    ('"H7/g6"', '"H7/g6/k5"', "setup[1].fit.grip", "no name 'H7'", "[let]"),
    ('"H7/g6"', '"3 kN"', "setup[1].fit.grip", "a force, but a length is due", ""),
    ('"H7/g6", size = 20', "-1", "setup[1].fit.grip", "0 mm or more", "0.03"),
    # hold
    ("depth = 8", "depth = 8, lie = true", "setup[1].hold.lie", "only a turned part", "hold.turn"),
    ("depth = 8", "depth = 8, groove = -1", "setup[1].hold.groove", "0 mm or more", "foot"),
    ("depth = 8", "depth = 37, groove = 1", "setup[1].hold.depth", "with its groove", "less deep"),
    # the flag of old
    (
        'cut = "jaws"',
        'cut = "jaws"\nreliefs = false',
        "setup[1].reliefs",
        'no key "reliefs"',
        'write corners = { relief = "none" }',
    ),
    ('title = "Crank lever"', 'title = "a"\ntogether = 1', "together", "true or false", "program"),
]


@pytest.mark.parametrize(("old", "new", "key", "what", "mend"), FAULTS)
def test_a_fault_is_named_once_with_its_place_and_its_mend(jobs, full, old, new, key, what, mend):
    assert old in full
    (fault,) = jobs.faults(full.replace(old, new, 1))
    assert fault.place.key == key
    assert what in fault.what
    assert mend in fault.mend


def test_a_job_with_all_of_it_loads(jobs, full):
    first, second = jobs.load(full).setups
    assert first.corners == Corners("drilled", 8, 2.0)
    assert first.fit == Fit(letters="H7/g6", size=20.0)
    assert first.clamp == Clamp(torque=40.0, lead=5.0)
    assert (second.face, second.edges, second.holes, second.clamp) == (None, None, (), None)


def test_each_relief_loads(jobs, full):
    drilled = 'relief = "drilled", tool = 8, peck = 2'
    for relief in ("bisector", "along wall", "none"):
        job = jobs.load(full.replace(drilled, f'relief = "{relief}"'))
        assert job.setups[0].corners == Corners(relief)
    job = jobs.load(full.replace(drilled, 'relief = "drilled", tool = 8'))
    assert job.setups[0].corners == Corners("drilled", 8, None)


@pytest.mark.parametrize(
    ("written", "letters"),
    [("H7/g6", "H7/g6"), ("H7", "H7"), ("JS8/js6", "JS8/js6"), (" H11 / d9 ", "H11/d9")],
)
def test_a_grip_in_letters_is_kept_as_letters(jobs, full, written, letters):
    fit = jobs.load(full.replace("H7/g6", written)).setups[0].fit
    assert (fit.grip, fit.letters) == (0.0, letters)


def test_a_name_in_let_is_no_class_of_a_fit(jobs, full):
    text = full.replace("[let]", "[let]\nH7 = 0.06\ng6 = 2").replace(", size = 20", "")
    assert jobs.load(text).setups[0].fit == Fit(grip=pytest.approx(0.03))
    (fault,) = jobs.faults(text.replace("\ng6 = 2", ""))
    assert "no name 'g6'" in fault.what


def test_the_only_chamfer_mill_need_not_be_named(jobs, full):
    text = full.replace("width = 0.3, tool = 7", "width = 0.3")
    assert jobs.load(text).setups[0].edges.tool is None
    (fault,) = jobs.faults(text.replace('"spot drill"', '"chamfer mill"').replace(", spot = 9", ""))
    assert fault.place.key == "setup[1].edges"
    assert "2 of the tools are chamfer mills" in fault.what
    assert "tool = ..." in fault.mend
    fewer = text.replace('"chamfer mill"', '"drill"').replace("tip_dia = 0.5\n", "")
    (fault,) = jobs.faults(fewer)
    assert "none of the tools is a chamfer mill" in fault.what
    assert '[[tool]] of the kind "chamfer mill"' in fault.mend


def test_a_faulty_tool_is_no_second_fault_of_what_it_does(jobs, full):
    faults = jobs.faults(full.replace("number = 8", "number = 0").replace('"chamfer mill"', "7"))
    assert {fault.place.key for fault in faults} == {"tool[3].kind", "tool[4].number"}


def test_a_step_without_a_tool_is_not_held_against_a_tool_without_a_number(jobs, full):
    text = full.replace("rough = { tool = 3, stepover = 3 }", "rough = { stepover = 9 }")
    (fault,) = jobs.faults(text.replace("number = 4", "number = 0"))
    assert fault.place.key == "tool[2].number"


def test_a_bare_force_or_torque_is_in_newtons_whatever_the_units(jobs, good):
    for units in ("mm", "inch"):
        text = good.replace('units = "mm"', f'units = "{units}"').replace("dia = 8", "dia = 5")
        text = text.replace("[[setup]]", "[[setup]]\nclamp = { force = 12000 }", 1)
        assert jobs.load(text).setups[0].clamp == Clamp(force=12000.0)
        text = text.replace("force = 12000", "torque = 40")
        assert jobs.load(text).setups[0].clamp == Clamp(torque=40.0)


# --- one program for all setups ----------------------------------------------------------------


def together(good):
    text = good.replace("[let]", "together = true\n[let]")
    first, second = 'name = "side-one"', 'name = "side-two"'
    assert first in text
    return text.replace(second, f"{second}\nwork_offset = 2")


def test_setups_with_work_offsets_of_their_own_go_together(jobs, good):
    assert jobs.load(together(good)).together
    assert not jobs.load(together(good).replace("together = true", "together = false")).together


def test_setups_of_one_program_have_different_work_offsets(jobs, good):
    for same in ("work_offset = 1", ""):
        (fault,) = jobs.faults(together(good).replace("work_offset = 2", same))
        assert fault.place.key == "setup[2].work_offset"
        assert fault.what == "setup[1] has the work offset 1 already"
        assert "each station" in fault.mend
    apart = together(good).replace("work_offset = 2", "").replace("= true", "= false")
    assert jobs.load(apart)


def test_setups_of_one_program_have_the_same_post(jobs, good):
    before, name, after = together(good).partition('"side-two"')
    (fault,) = jobs.faults(before + name + after.replace("rs274ngc-mill", "iso6983-mill"))
    assert fault.place.key == "setup[2].post"
    assert '"iso6983-mill" and "rs274ngc-mill"' in fault.what
    assert "the post of setup[1]" in fault.mend
