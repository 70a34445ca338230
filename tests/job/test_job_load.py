"""A job file becomes the frozen job, in mm, degrees and minutes."""

import dataclasses
import os
import pathlib

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from jawcam.errors import InputError
from jawcam.job import model
from jawcam.job.jaw_model import BoringChuck, ChuckJaws, JawSetup
from jawcam.job.key import MODEL
from jawcam.job.keys import JOB
from jawcam.job.load import load
from jawcam.job.model import (
    Blanks,
    Bolt,
    Clamp,
    Corners,
    Datum,
    DrillHole,
    EdgeBreak,
    Facing,
    Finish,
    Fit,
    Hold,
    Keep,
    Layer,
    Machine,
    NextCut,
    Rough,
)
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
from jawcam.part.piece import Piece
from jawcam.tools.cutter import Cutter
from jawcam.tools.turner import KINDS, Turner
from jawcam.units import Units


def test_what_a_job_says_is_what_comes_out(jobs, good):
    job = jobs.load(good)
    assert (job.file, job.title, job.units) == ("lever.toml", "Crank lever", Units.MM)
    assert job.part == model.Part("brass 360", 12.0, jobs.folder / "lever.dxf")
    assert job.tools == (
        Cutter(3, "end mill", 8.0, flute_len=22.0, stickout=30.0),
        Cutter(4, "bull-nose end mill", 6.0, corner_radius=0.5),
    )
    first, second = job.setups
    assert first.jaws == Blanks(130.0, 38.0, 40.0, 6.0)
    assert first.rough == Rough(tool=3, stepover=3.0)
    assert second.hold == Hold(6.0)
    assert second.bolts == (Bolt(50.0, 23.0, 14.0, -20.0),)


def test_what_a_job_leaves_out_has_its_default(jobs, good):
    job = jobs.load(good.replace('material = "brass 360"\n', ""))
    setup = job.setups[1]
    assert job.part.material == ""
    assert job.machine == Machine()
    assert (setup.work_offset, setup.clearance) == (1, 5.0)
    assert (setup.coolant, setup.corners.relief) == ("flood", "bisector")
    assert (setup.fit, setup.rough, setup.finish) == (Fit(), Rough(), Finish())
    assert (setup.zero, job.setups[0].bolts) == (Datum(), ())
    assert (setup.keep, setup.corners, setup.holes) == (Keep(), Corners(), ())
    assert (setup.face, setup.edges, setup.clamp, setup.next_cut) == (None, None, None, None)
    assert not job.together
    assert setup.jaws.material == "aluminium 6061"


EVERYTHING = """\
title = "All of it"
units = "inch"
together = true
[let]
wide = "4 in"
[part]
material = "acetal"
outline = "lever.dxf"
layer = "PROFILE"
drawing_units = "mm"
thickness = "3/8 in"
edge = 0.01
[machine]
max_rpm = 9000
max_feed = 200
rapid = "10000 mm/min"
accel = 80
corner = 10
tool_change = 6
[[tool]]
number = 1
kind = "end mill"
name = "rougher"
dia = "1/4 in"
flutes = "1 + 2"
flute_len = 0.75
stickout = 1
centre_cutting = true
rpm = "8000 rpm"
feed = 30
plunge_feed = "254 mm/min"
[[tool]]
number = 7
kind = "chamfer mill"
dia = 0.5
angle = 82
tip_dia = 0.05
surface = "100 m/min"
chip = 0.001
[[tool]]
number = 8
kind = "drill"
dia = "5 mm"
rpm = 3000
feed = 10
[[tool]]
number = 9
kind = "spot drill"
dia = "6 mm"
rpm = 3000
feed = 10
[[setup]]
name = "one"
cut = "jaws"
post = "iso6983-mill"
work_offset = 9
clearance = "2.54 mm"
coolant = "mist"
corners = { relief = "drilled", tool = 8, peck = 0.05 }
keep = { floor = 0.1, wall = "2 mm", bolt = 0.05 }
face = { take = 0.02, tool = 1, stepover = 0.2, feed = 40 }
edges = { width = "0.3 mm", tool = 7, feed = 15 }
holes = [{ at = [1.5, "20 mm"], depth = 0.5, tool = 8, spot = 9, peck = 0.1 }]
clamp = { torque = "350 lbf in", lead = 0.2, efficiency = 0.4, surface = "raw", safety = 3 }
next_cut = { down = 0.1, clear = 0.05, stepdown = 0.04, chip = 0.002, teeth = 2 }
jaws = { width = "wide", height = 2, thickness = 1, gap = 0, moving = "back", material = "nylon" }
fit = { grip = 0.001, side = "0.1 mm" }
zero = { x = "left", y = "front face", z = "bottom", shift = [0.1, 0, "1 mm"] }
[setup.hold]
depth = 0.5
turn = "45 deg"
flip = true
at = [1, "-1 mm"]
anchor = "centre"
groove = 0.01
[setup.rough]
tool = 1
stepdown = 0.1
stepover = 0.05
leave = 0.01
leave_floor = 0
feed = 20
slot_feed = 10
ramp = 2.5
way = "steady"
[setup.finish]
tool = 1
feed = 15
spring = 2
lead = 0.04
compensation = 21
first = "wall"
"""


def test_every_key_arrives_where_it_belongs(jobs):
    job = jobs.load(EVERYTHING)
    (cutter, chamferer, *_), (setup,) = job.tools, job.setups
    assert cutter == Cutter(
        1,
        "end mill",
        6.35,
        3,
        pytest.approx(19.05),
        25.4,
        0.0,
        True,
        8000.0,
        762.0,
        254.0,
        "rougher",
    )
    assert job.machine == Machine(9000.0, 5080.0, 10000.0, pytest.approx(2032.0), 254.0, 6.0)
    assert chamferer.angle == 82
    assert (chamferer.rpm, chamferer.feed) == (None, None)
    assert (chamferer.surface, chamferer.chip) == (pytest.approx(100), pytest.approx(0.0254))
    assert chamferer.tip_dia == pytest.approx(1.27)
    assert job.together
    assert (job.part.layer, job.part.drawing_units) == ("PROFILE", Units.MM)
    assert job.part.edge == pytest.approx(0.254)
    assert job.part.thickness == pytest.approx(9.525)
    assert setup.jaws == Blanks(pytest.approx(101.6), 50.8, 25.4, 0.0, "back", "nylon")
    assert setup.hold == Hold(12.7, 45.0, True, False, (25.4, -1.0), "centre", pytest.approx(0.254))
    assert setup.fit == Fit(pytest.approx(0.0254), 0.1)
    assert setup.zero == Datum("left", "front face", "bottom", (pytest.approx(2.54), 0.0, 1.0))
    step, wide, leave = (pytest.approx(inches * 25.4) for inches in (0.1, 0.05, 0.01))
    assert setup.rough == Rough(1, step, wide, leave, 0.0, 508.0, 254.0, 2.5, "steady")
    assert setup.finish == Finish(1, 381.0, 2, pytest.approx(1.016), 21, first="wall")
    assert (setup.work_offset, setup.clearance, setup.coolant) == (9, 2.54, "mist")
    assert setup.corners == Corners("drilled", 8, pytest.approx(1.27))
    assert setup.keep == Keep(pytest.approx(2.54), 2.0, pytest.approx(1.27))
    assert setup.face == Facing(pytest.approx(0.508), 1, pytest.approx(5.08), 1016.0)
    assert setup.edges == EdgeBreak(0.3, 7, 381.0)
    assert setup.holes == (DrillHole(pytest.approx(38.1), 20.0, 12.7, 8, 9, pytest.approx(2.54)),)
    torque = 350 * 4.4482216152605 * 0.0254  # NIST SP 811, appendix B.8
    assert setup.clamp == Clamp(None, pytest.approx(torque), pytest.approx(5.08), 0.4, "raw", 3.0)
    assert setup.next_cut == NextCut(
        pytest.approx(2.54),
        pytest.approx(1.27),
        pytest.approx(1.016),
        pytest.approx(0.0508),
        2,
    )


STEPPED = """\
outline = "lever.dxf"
layers = [
  { layer = "FOOT", bottom = 0, top = "5 mm" },
  { layer = "BODY", bottom = "5 mm", top = 1 },
]
"""
TURNED = """\
turned = [
  { dia = 0.5, len = 1, chamfer = 0.02, thread = "1/2-13 UNC 2A" },
  { dia = "30 mm", len = "6 mm", round = "0.8 mm" },
  { dia = [1, "24 mm"], len = 0.5 },
  { dia = [0.75, 0.75], len = "two / 4", limits = [0, -0.001] },
]
bore = [{ dia = "5 mm", len = 1 }]
"""


def with_part(good, part):
    """The good job in inches, its part but for the material another one; hold.lie in one setup."""
    start, end = good.index("outline"), good.index("[[tool]]")
    text = good[:start] + part + good[end:]
    text = text.replace('units = "mm"', 'units = "inch"').replace("[let]", "[let]\ntwo = 2")
    return text.replace("dia = 8", "dia = 4").replace("dia = 6", "dia = 3")


def test_a_stepped_part_is_as_high_as_its_highest_layer(jobs, good):
    part = jobs.load(with_part(good, STEPPED)).part
    assert part.layers == (Layer("FOOT", 0.0, 5.0), Layer("BODY", 5.0, 25.4))
    assert part.thickness == 25.4


def test_a_turned_part_is_as_long_as_its_lengths(jobs, good):
    job = jobs.load(with_part(good, TURNED).replace("depth = 8", "depth = 8, lie = true"))
    part = job.part
    assert part.outline is None
    assert part.turned == (
        Piece(12.7, 12.7, 25.4, chamfer=pytest.approx(0.508), thread="1/2-13 UNC 2A"),
        Piece(30.0, 30.0, 6.0, rounding=0.8),
        Piece(25.4, 24.0, 12.7),
        Piece(*[pytest.approx(19.05)] * 2, 12.7, limits=(0.0, pytest.approx(-0.0254))),
    )
    assert part.bore == (Piece(5.0, 5.0, 25.4),)
    assert part.thickness == pytest.approx(56.8)
    assert [setup.hold.lie for setup in job.setups] == [True, False]


def declared(key, form=""):
    return {inner.name: inner for inner in dict(key.forms).get(form, key.keys)}


LATHE = "setup:turned profile"
PIECE = {"start": "dia", "end": "dia", "length": "len", "rounding": "round"}


@pytest.mark.parametrize(
    ("table", "made", "named_otherwise"),
    [
        ("part", model.Part, {}),
        ("part.layers", Layer, {}),
        ("part.turned", Piece, PIECE),
        ("part.bore", Piece, PIECE),
        ("tool", Cutter, {}),
        ("machine", Machine, {}),
        ("setup", model.Setup, {}),
        ("setup.jaws", Blanks, {}),
        ("setup.hold", Hold, {}),
        ("setup.fit", Fit, {"letters": "grip"}),
        ("setup.keep", Keep, {}),
        ("setup.corners", Corners, {}),
        ("setup.face", Facing, {}),
        ("setup.edges", EdgeBreak, {}),
        ("setup.holes", DrillHole, {"x": "at", "y": "at"}),
        ("setup.clamp", Clamp, {}),
        ("setup.next_cut", NextCut, {}),
        ("setup.bolts", Bolt, {"x": "at", "y": "at"}),
        ("setup.spacers", model.Spacer, {}),
        ("setup.vise", model.Vise, {}),
        ("setup.rough", Rough, {}),
        ("setup.finish", Finish, {}),
        ("setup.zero", Datum, {}),
        (f"{LATHE}.stock", Stock, {}),
        (f"{LATHE}.chuck", Chuck, {}),
        (f"{LATHE}.speeds", Speeds, {}),
        (f"{LATHE}.rough", TurnRough, {}),
        (f"{LATHE}.finish", TurnFinish, {}),
        (f"{LATHE}.groove", Grooving, {}),
        (f"{LATHE}.thread", Threading, {}),
        (f"{LATHE}.drill", Drilling, {}),
        (f"{LATHE}.bore", TurnRough, {}),
        (f"{LATHE}.part_off", PartingOff, {}),
        ("setup:chuck jaws.jaws", ChuckJaws, {}),
        ("setup:chuck jaws.chuck", BoringChuck, {}),
        ("setup:chuck jaws.bore", TurnRough, {}),
        ("setup:chuck jaws.groove", Grooving, {}),
    ],
)
def test_each_field_has_its_key_and_its_default_from_one_of_the_two(table, made, named_otherwise):
    found = {key.name: key for key in JOB}
    for step in table.split("."):
        name, _, form = step.partition(":")
        key = found[name]
        found = declared(key, form)
    fields = dataclasses.fields(made)
    assert {named_otherwise.get(field.name, field.name) for field in fields} == set(found)
    for field in fields:
        one = found[named_otherwise.get(field.name, field.name)]
        own = one.default is not MODEL or one.kind in ("table", "tables")
        assert one.required or own or field.default is not dataclasses.MISSING, field.name
        if one.default is not MODEL and field.default is not dataclasses.MISSING:
            assert one.default == field.default or field.name == "letters"


def test_each_field_of_a_lathe_setup_has_its_key():
    found = declared(next(key for key in JOB if key.name == "setup"), "turned profile")
    assert {field.name for field in dataclasses.fields(TurnSetup)} == set(found) - {"cut"}
    found = declared(next(key for key in JOB if key.name == "setup"), "chuck jaws")
    assert {field.name for field in dataclasses.fields(JawSetup)} == set(found) - {"cut"}


def test_each_field_of_a_lathe_tool_has_its_key_in_some_kind():
    tool = next(key for key in JOB if key.name == "tool")
    kinds = [declared(tool, kind) for kind in KINDS if kind != "drill"]
    found = set().union(*kinds) - {"angle"} | {"point_angle"}
    assert {field.name for field in dataclasses.fields(Turner)} == found
    assert set(declared(tool, "drill")) == set(declared(tool)) | {"offset", "surface", "tip"}


def test_numbers_come_out_as_their_kind(jobs, good):
    job = jobs.load(
        good.replace("number = 3", 'number = "6 / 2"').replace("depth = 8", "depth = 7")
    )
    assert type(job.tools[0].number) is int
    assert type(job.setups[0].hold.depth) is float


def test_the_name_shown_is_the_path_unless_told(jobs, good):
    jobs.load(good)
    assert load(jobs.path).file == str(jobs.path)


def test_windows_line_ends_and_byte_order_mark_are_no_fault(jobs, good):
    jobs.path.write_bytes(b"\xef\xbb\xbf" + good.replace("\n", "\r\n").encode())
    assert load(jobs.path).lines == jobs.load(good).lines


def test_the_same_file_gives_the_same_job(jobs, good):
    assert jobs.load(good) == jobs.load(good)


# --- files that can't be read ------------------------------------------------------------------


def refused(path):
    with pytest.raises(InputError) as caught:
        load(path, shown="typed.toml")
    (fault,) = caught.value.faults
    assert fault.place.file == "typed.toml"
    return fault


def test_a_missing_file_names_the_one_meant(jobs, good):
    jobs.load(good)
    fault = refused(jobs.folder / "levr.toml")
    assert fault.what == "there is no such file"
    assert fault.mend == "did you mean lever.toml?"
    assert "lever.toml" in refused(jobs.folder / "zzz").mend
    assert "folder" in refused(jobs.folder / "no" / "such.toml").mend


def test_a_folder_is_no_job(jobs):
    assert refused(jobs.folder).what == "this is a folder"


@pytest.mark.parametrize("name", ["a" * 5000, "a\x00b"])
def test_an_impossible_name_is_no_job(jobs, name):
    assert refused(pathlib.Path(f"{jobs.folder}/{name}"))


@pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="this system has no named pipes")
def test_a_pipe_is_not_waited_for(jobs):
    os.mkfifo(jobs.folder / "pipe.toml")
    assert refused(jobs.folder / "pipe.toml").what == "there is no such file"


def test_a_text_in_another_encoding_has_its_line_named(jobs):
    jobs.path.write_bytes('title = "a"\n# f\xfcr\n'.encode("latin-1"))
    fault = refused(jobs.path)
    assert (fault.what, fault.place.line) == ("this is not UTF-8 text", 2)


def test_a_huge_file_is_not_read(jobs):
    jobs.path.write_bytes(b"#" * 1_000_001)
    assert "too long" in refused(jobs.path).what


@pytest.mark.parametrize(
    ("text", "line", "column", "what", "mend"),
    [
        ("a = 1\nb = 9,5\n", 2, 6, "after a statement", "9.5"),
        ("a = 1\nb = gap / 2\n", 2, 5, "invalid value", '"gap / 2"'),
        ("a = \n", 1, 5, "invalid value", ""),
        ("a = 1\na = 2\n", 2, 6, "overwrite", "given twice"),
        ("[a]\n[a]\n", 2, 3, "twice", "given twice"),
        ('a = """\n\n', 1, 0, "unterminated", ""),
        ("[a\n", 1, 3, "']'", ""),
        ("a = " + "[" * 5000, 0, 0, "can be read", ""),
        ("a = " + "9" * 5000, 0, 0, "can be read", ""),
        ("\x00", 1, 1, "invalid", ""),
    ],
)
def test_a_text_that_is_no_toml_has_line_and_column_named(jobs, text, line, column, what, mend):
    (fault,) = jobs.faults(text)
    assert (fault.place.line, fault.place.column) == (line, column)
    assert what in fault.what
    assert mend in fault.mend


@settings(max_examples=250, deadline=None)
@given(data=st.data())
def test_a_spoiled_job_loads_or_is_refused_with_places(shared_jobs, data):
    text = EVERYTHING
    if data.draw(st.booleans()):
        start, end = text.index("outline = "), text.index("[machine]")
        text = text[:start] + TURNED.replace('"two / 4"', "0.5") + text[end:]
    assert shared_jobs.load(text)
    for _ in range(data.draw(st.integers(1, 4))):
        at = data.draw(st.integers(0, len(text) - 1))
        gone = data.draw(st.integers(0, 6))
        piece = data.draw(st.text(alphabet='=[]{}"\n ,.-/*(09aimn#', max_size=5))
        text = text[:at] + piece + text[at + gone :]
    try:
        shared_jobs.load(text)
    except InputError as error:
        for fault in error.faults:
            assert fault.what
            assert 0 <= fault.place.line <= text.count("\n") + 1
