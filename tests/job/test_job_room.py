"""What a job tells of shanks, holders, the vise and the machine's travel, and what can be wrong."""

import pytest

from jawcam.job.model import Spacer, Travel, Vise
from jawcam.tools.cutter import Cutter, HolderStep

TOLD = {
    "stickout = 30\n": "stickout = 30\nshank = 8\n"
    "holder = [ { dia = 28, len = 30 }, { dia = 50, len = 40 } ]\n",
    "rough = {": "vise = { top = -5, width = 150, back = 50, bed = -40 }\n"
    "spacers = [ { top = -12, x = [-60, -40] }, { top = -12 } ]\n"
    "travel_at = { x = 250, z = -50 }\nrough = {",
}
MACHINE = """\
[machine]
change_height = 100
rapids = "dog-leg"
travel = { x = 500, y = 400, z = 350 }
"""


@pytest.fixture
def told(good):
    for old, new in TOLD.items():
        good = good.replace(old, new, 1)
    return good.replace("[[tool]]", MACHINE + "[[tool]]", 1)


def test_what_a_job_tells_arrives(jobs, told):
    job = jobs.load(told)
    cutter, other = job.tools
    assert cutter.shank == 8
    assert cutter.holder == (HolderStep(28.0, 30.0), HolderStep(50.0, 40.0))
    assert (cutter.length, other.length) == (100.0, None)
    assert (other.shank, other.shank_dia) == (None, 6.0)
    assert (job.machine.change_height, job.machine.rapids) == (100.0, "dog-leg")
    assert job.machine.travel == Travel(500.0, 400.0, 350.0)
    first, second = job.setups
    assert first.vise == Vise(-5.0, 150.0, 50.0, -40.0)
    assert first.spacers == (Spacer(-12.0, (-60.0, -40.0)), Spacer(-12.0))
    assert first.travel_at == Travel(250.0, None, -50.0)
    assert (second.vise, second.travel_at) == (None, Travel())


def test_a_tool_is_as_long_as_its_stick_out_and_its_holder():
    step = (HolderStep(32.0, 45.0),)
    assert Cutter(1, "end mill", 8.0, stickout=30.0, holder=step).length == 75
    assert Cutter(1, "end mill", 8.0, holder=step).length is None
    assert Cutter(1, "end mill", 8.0, stickout=30.0).length is None


FAULTS = [
    # old text, new text, key path, what is wrong, how to mend it
    ("shank = 8", "shank = 0", "tool[1].shank", "more than 0 mm", "shank"),
    ("dia = 28, ", "", "tool[1].holder[1].dia", "is missing", "its diameter"),
    (", len = 40", "", "tool[1].holder[2].len", "is missing", "along the axis"),
    ("dia = 28", "dia = 8", "tool[1].holder[1].dia", "no thicker than the shank", "outer"),
    ("{ dia = 28, len = 30 }, { dia = 50, len = 40 }", "", "tool[1].holder", "is empty", "holder"),
    ("holder = [", "holders = [", "tool[1].holders", 'no key "holders"', "holder"),
    ('"dog-leg"', '"bent"', "machine.rapids", "not known", '"straight" and "dog-leg"'),
    ("change_height = 100", "change_height = -1", "machine.change_height", "more than 0", "tip"),
    ("z = 350", "z = 0", "machine.travel.z", "more than 0 mm", "how far Z goes"),
    ("y = 400", "w = 400", "machine.travel.w", 'no key "w"', "x, y and z"),
    ("x = 500, ", "", "setup[1].travel_at.x", "travel in X isn't told", "x = ..."),
    ("top = -5", "top = 5", "setup[1].vise.top", "as high as the clearance", "larger clearance"),
    ("top = -5, ", "", "setup[1].vise.top", "is missing", "behind the blanks"),
    ("bed = -40", "bed = -37", "setup[1].vise.bed", "higher than the underside", "negative"),
    ("top = -5", "top = -40", "setup[1].vise.top", "end below its bed", "upwards"),
    ("top = -12, x", "top = 1, x", "setup[1].spacers[1].top", "0 mm or less", "jaw top"),
    ("x = [-60, -40]", "x = [-60]", "setup[1].spacers[1].x", "2 lengths", "along X"),
    ("x = [-60, -40]", "x = [-40, -60]", "setup[1].spacers[1].x", "before it begins", "left end"),
    ("width = 150", "width = 0", "setup[1].vise.width", "more than 0 mm", "along X"),
]


@pytest.mark.parametrize(("old", "new", "key", "what", "mend"), FAULTS)
def test_a_fault_is_named_once_with_its_place_and_its_mend(jobs, told, old, new, key, what, mend):
    assert old in told
    (fault,) = jobs.faults(told.replace(old, new, 1))
    assert fault.place.key == key
    assert what in fault.what
    assert mend in fault.mend


def test_a_place_in_a_travel_that_is_not_told_is_a_fault(jobs, told):
    (fault, more) = jobs.faults(told.replace("travel = { x = 500, y = 400, z = 350 }\n", ""))
    assert (fault.place.key, more.place.key) == ("setup[1].travel_at.x", "setup[1].travel_at.z")


def test_a_vise_just_below_the_clearance_and_a_bed_at_the_blanks_are_right(jobs, told):
    text = told.replace("top = -5", "top = 4.9").replace("bed = -40", "bed = -38")
    assert jobs.load(text).setups[0].vise == Vise(4.9, 150.0, 50.0, -38.0)


SLIDES = """\
[machine]
lathe_travel = { x = 400, z = 600 }
"""


@pytest.fixture
def slid(lathe):
    text = lathe.replace("[[tool]]", SLIDES + "[[tool]]", 1)
    text = text.replace('kind = "turning"\n', 'kind = "turning"\ntip = [60, -40]\n', 1)
    return text.replace("[[setup]]\n", "[[setup]]\ntravel_at = { x = 30, z = 350 }\n", 1)


def test_what_a_job_tells_of_a_lathe_s_travel_arrives(jobs, slid):
    job = jobs.load(slid)
    assert job.machine.lathe_travel == Travel(x=400.0, z=600.0)
    assert job.turnings[0].travel_at == Travel(x=30.0, z=350.0)
    assert job.turners[0].tip == (60.0, -40.0)
    assert {tool.tip for tool in job.turners[1:]} == {None}


SLIDE_FAULTS = [
    ("z = 600", "y = 600", "machine.lathe_travel.y", 'no key "y"', "x and z"),
    ("x = 400", "x = -1", "machine.lathe_travel.x", "more than 0 mm", "a diameter or a radius"),
    ("tip = [60, -40]", "tip = [60]", "tool[1].tip", "2 lengths", "tip"),
    ("x = 400, ", "", "setup[1].travel_at.x", "the lathe's travel in X", "lathe_travel = { x ="),
    ("x = 30", "y = 30", "setup[1].travel_at.y", 'no key "y"', "x and z"),
    ("lathe_travel", "travel", "machine.travel", "a mill's travel", "lathe_travel"),
]


@pytest.mark.parametrize(("old", "new", "key", "what", "mend"), SLIDE_FAULTS)
def test_a_fault_of_a_lathe_s_travel_is_named(jobs, slid, old, new, key, what, mend):
    assert old in slid
    found = jobs.faults(slid.replace(old, new, 1))
    named = {fault.place.key: fault for fault in found}
    assert key in named
    assert what in named[key].what
    assert mend in named[key].mend


def test_a_lathe_s_travel_in_a_job_for_the_mill_alone_is_a_fault(jobs, good):
    (fault,) = jobs.faults(good.replace("[[tool]]", SLIDES + "[[tool]]", 1))
    assert fault.place.key == "machine.lathe_travel"
    assert "a lathe's travel" in fault.what


def test_spacers_stand_in_a_gap_only(jobs, told):
    found = jobs.faults(told.replace("gap = 6", "gap = 0", 1))
    keys = [fault.place.key for fault in found if "no spacer stands" in fault.what]
    assert keys == ["setup[1].spacers[1]", "setup[1].spacers[2]"]
