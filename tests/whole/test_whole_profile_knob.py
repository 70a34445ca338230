"""Jaws for a half profile from the command line: what `make` writes, and what it refuses."""

import json

import pytest
from whole_jobs import drawing, put
from whole_profile import drawing_of
from whole_told import refused

from jawcam.geometry.shapes import Arc, Line

KNOB = (
    Line((0, 6), (10, 6)),
    Line((10, 6), (10, 9)),
    Line((10, 9), (14, 9)),
    Arc((14, 9), (18, 13), (14, 13), ccw=True),
    Line((18, 13), (18, 15)),
    Line((18, 15), (38, 15)),
    Arc((38, 15), (53, 0), (38, 0), ccw=False),
)
"""A knob of the grinder's crank: a stem, a shoulder, a hollow round, the grip with a ball end."""

HEAD = """\
title = "Knob of the crank"
units = "mm"

[part]
material = "brass 360"
profile = "part.dxf"
axis = "y = 0"
edge = 0.2

"""
VISE = (
    HEAD
    + """\
[[tool]]
number = 1
kind = "end mill"
dia = 6
flutes = 3
flute_len = 30
centre_cutting = true

[[setup]]
name = "stem-down"
cut = "jaws"
post = "rs274ngc-mill"
jaws = { width = 90, height = 40, thickness = 40, gap = 6 }
hold = { depth = 22, flip = true }
rough = { way = "rings" }
fit = { grip = 0.02, step = 0.3 }

[[setup]]
name = "ball-down"
cut = "jaws"
post = "rs274ngc-mill"
jaws = { width = 90, height = 40, thickness = 40, gap = 6 }
hold = { depth = 12 }
rough = { way = "rings" }
fit = { grip = 0.02, step = 0.5 }

[[setup]]
name = "lying"
cut = "jaws"
post = "rs274ngc-mill"
jaws = { width = 90, height = 40, thickness = 40, gap = 6 }
hold = { depth = 16, lie = true }
rough = { way = "rings" }
fit = { grip = 0.02, side = 0.1 }
"""
)
CHUCK = (
    HEAD
    + """\
[[tool]]
number = 1
kind = "boring"
insert = "CCMT060204"
approach = 95
least_bore = 9
shank = 8
overhang = 30

[[setup]]
name = "jaws"
cut = "chuck jaws"
post = "rs274ngc-lathe"
grips = "A"
depth = 10
jaws = { opening = 10, outer = 60, length = 40 }
chuck = { max_rpm = 3000 }
"""
)


def knob(segments=KNOB):
    """Drawn on its axis, without a centre line."""
    document = drawing_of(segments, "PART")
    for line in document.modelspace().query('LINE[linetype=="CENTER"]'):
        document.modelspace().delete_entity(line)
    return document


def changed(text, old, new):
    assert text.count(old) == 1
    return text.replace(old, new)


# --- made ------------------------------------------------------------------------------------


@pytest.fixture(scope="module")
def folder(tmp_path_factory):
    """Where the job of the vise jaws is, and what it is made into."""
    folder = tmp_path_factory.mktemp("knob")
    put(folder, VISE, knob())
    return folder


@pytest.fixture(scope="module")
def made(say, folder):
    """What is said when it is made."""
    return say("make", folder / "job.toml", "--out", folder / "out")


def test_vise_jaws_for_a_drawn_knob_are_proven_standing_and_lying(folder, made):
    """Rounds of both kinds, which no table says, are stepped; lying, they are arcs."""
    status, out, err = made
    assert status == 0, err
    assert out.count(": proven") == 3
    assert "lower edge is" not in out  # part.edge breaks it, by hand
    assert "the hollow round of 4 mm at 26 mm is taken as 7 steps" in out
    assert "the round of 15 mm at 30 mm is taken as" in out
    for name in ("stem-down", "ball-down", "lying"):
        assert (folder / "out" / f"{name}.png").stat().st_size > 10000
        figures = json.loads((folder / "out" / f"{name}.json").read_text(encoding="utf-8"))
        assert figures["figures"]["gouge"] <= 0.002
    text = (folder / "out" / "lying.nc").read_text(encoding="utf-8")
    wall = text.partition("(wall)")[2].partition("G53")[0]
    assert sum(line.startswith(("G2 ", "G3 ")) for line in wall.splitlines()) >= 3


def test_the_program_is_proven_again_by_itself(say, folder, made, tmp_path):
    assert made[0] == 0
    job, program = folder / "job.toml", folder / "out" / "stem-down.nc"
    status, _, err = say("check", program, "--job", job, "--setup", "stem-down")
    assert status == 0, err
    spoiled = tmp_path / "stem-down.nc"
    text = program.read_text(encoding="utf-8").replace("Z-22.", "Z-22.01")
    spoiled.write_text(text, encoding="utf-8")
    assert say("check", spoiled, "--job", job, "--setup", "stem-down")[0] == 1


@pytest.mark.parametrize("post", ["rs274ngc-lathe", "iso6983-lathe"])
def test_chuck_jaws_for_a_drawn_knob_are_proven(say, tmp_path, post):
    job = put(tmp_path, CHUCK, knob())
    status, out, err = say("make", job, "--out", tmp_path / "out", "--post", post)
    assert status == 0, err
    assert "bored for end A: 12 mm less 0.025 mm" in out
    assert "it will not seat" in out  # the stem's edge is sharp, and there is no relief
    assert "part.edge breaks no edges of a half profile" in out
    assert "no limits and no threads" in out


# --- refused ---------------------------------------------------------------------------------


def test_a_gripped_end_that_is_a_round_is_told(say, tmp_path):
    text = changed(CHUCK, 'grips = "A"', 'grips = "B"')
    err = refused(say, tmp_path, text, knob())
    assert "setup[1].depth" in err
    assert "on a round that begins 0 mm from it" in err
    assert "hold the other end" in err


def test_a_gripped_end_that_is_a_cone_is_told_with_how_deep_to_bore(say, tmp_path):
    cone = (Line((0, 6), (8, 6)), Line((8, 6), (14, 9)), Line((14, 9), (30, 9)))
    err = refused(say, tmp_path, CHUCK, knob(cone))
    assert "job.toml:24: setup[1].depth" in err
    assert "within 10 mm of end A the part is widest, 14 mm across, on a cone" in err
    assert "bore them 8 mm deep at most" in err


def test_jaws_bored_deeper_than_the_drawing_is_long_are_told(say, tmp_path):
    short = (Line((0, 6), (8, 6)),)
    err = refused(say, tmp_path, CHUCK, knob(short))
    assert "setup[1].depth: the part is only 8 mm long" in err


@pytest.mark.parametrize("text", [VISE, CHUCK])
def test_a_profile_that_goes_back_on_itself_is_told_once_with_its_place(say, tmp_path, text):
    undercut = (*KNOB[:4], Line((18, 13), (17, 15)), Line((17, 15), (38, 15)), KNOB[-1])
    err = refused(say, tmp_path, text, knob(undercut))
    assert err.count("error: ") == 1
    assert "part.dxf: X 18 Y 13: the profile runs back along its axis" in err
    assert "no undercuts" in err


@pytest.mark.parametrize("text", [VISE, CHUCK])
def test_an_open_profile_is_told_once_with_its_gap(say, tmp_path, text):
    gap = (*KNOB[:2], Line((10.5, 9), (14, 9)), *KNOB[3:])
    err = refused(say, tmp_path, text, knob(gap))
    assert err.count("error: ") == 1
    assert "part.dxf: X 10 Y 9: the profile is broken" in err
    assert "X 10.5 Y 9, 0.5 mm away" in err


@pytest.mark.parametrize("text", [VISE, CHUCK])
def test_a_profile_that_crosses_its_axis_is_told(say, tmp_path, text):
    crossing = (Line((0, 6), (20, 6)), Line((20, 6), (30, -2)), Line((30, -2), (40, -2)))
    err = refused(say, tmp_path, text, knob(crossing))
    assert "the profile crosses its axis" in err


@pytest.mark.parametrize("text", [VISE, CHUCK])
def test_a_bore_that_breaks_out_of_the_drawing_is_told(say, tmp_path, text):
    bored = changed(text, 'axis = "y = 0"\n', 'axis = "y = 0"\nbore = [ { dia = 12, len = 5 } ]\n')
    err = refused(say, tmp_path, bored, knob())
    assert "part.bore[1]: the bore is as wide as the part is there" in err


def test_an_empty_drawing_is_told(say, tmp_path):
    assert "part.dxf" in refused(say, tmp_path, VISE, drawing()[0])


def test_what_does_not_fit_the_drawn_part_is_told_of_every_setup(say, tmp_path):
    """Lying less deep than its axis, and a taper of too many steps."""
    text = changed(VISE, "depth = 16, lie", "depth = 14, lie")
    text = changed(text, "step = 0.5", "step = 0.001")
    err = refused(say, tmp_path, text, knob())
    assert "setup[3].hold.depth: lying, the part must sit to its axis at least, 15 mm" in err
    assert "setup[2].fit.step" in err
