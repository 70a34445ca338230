"""The heights at which the jaws touch a part are the part's own, not those of the cavity."""

from __future__ import annotations

import ezdxf
import pytest

from jawcam.hold.jaws import hold
from jawcam.hold.solid import drawn_part, solid_of
from jawcam.job.load import load
from jawcam.tolerance import Tolerance

JOB = """
title = "Hopper ring"
units = "mm"

[part]
material = "aluminium 6061"
{part}

[[tool]]
number = 4
kind = "end mill"
name = "6 mm finisher"
dia = 6
flutes = 3
flute_len = 25
stickout = 32

[[setup]]
name = "one"
cut = "jaws"
post = "rs274ngc-mill"
work_offset = 1
jaws = {{ width = 120, height = 40, thickness = 50, gap = 6 }}
hold = {{ depth = {depth}, groove = 0.2 }}
fit = {{ grip = 0.02, step = 0.2 }}
finish = {{ tool = 4 }}
"""


def told(folder, part, depth):
    """What the person is told of the closing, without travel and gap."""
    path = folder / "job.toml"
    path.write_text(JOB.format(part=part, depth=depth), encoding="utf-8")
    job = load(path, shown=path.name, outside=False)
    (setup,) = job.setups
    solid = solid_of(job, setup, drawn_part(job, Tolerance()), Tolerance())
    notes = hold(job, setup, solid, Tolerance()).target.notes
    return [note for note in notes if "touch" in note]


def turned(*pieces):
    return f"turned = [ {', '.join(f'{{ {piece} }}' for piece in pieces)} ]"


def heights(line):
    return [place.partition("Z ")[2].partition(")")[0] for place in line.split("mm,")[1:]]


def test_a_waist_between_two_discs_is_not_touched(tmp_path):
    """The waist runs from Z -8 to -4; the pocket goes straight past it."""
    ring = turned("dia = 50, len = 10", "dia = 30, len = 4", "dia = 50, len = 4")
    back, front = told(tmp_path, ring, 12)
    assert heights(back) == heights(front) == ["0 to -4", "-8 to -12"]


def test_a_wide_slab_under_a_narrow_one_is_touched_along_its_own_height(tmp_path):
    ring = turned("dia = 40, len = 14", "dia = 60, len = 4")
    back, front, caution = told(tmp_path, ring, 12)
    assert heights(back) == heights(front) == ["-8 to -12"]
    assert "only from Z -8 down, by its foot" in caution


def test_a_taper_on_its_wide_end_is_held_by_its_foot(tmp_path):
    """4 mm of diameter in 20: steps of 2 in height stand 0.2 off, near enough (10 of them)."""
    back, front, caution = told(tmp_path, turned("dia = [56, 60], len = 20"), 10)
    assert heights(back) == heights(front) == ["-8 to -10"]
    assert "only from Z -8 down, by its foot" in caution


def test_a_taper_on_its_narrow_end_is_held_all_along(tmp_path):
    """The step that the jaw top cuts through counts too."""
    back, front = told(tmp_path, turned("dia = [60, 56], len = 20"), 10)
    assert heights(back) == heights(front) == ["0 to -10, in 5 steps"]


def test_one_slab_alone_has_no_heights(tmp_path):
    back, front = told(tmp_path, turned("dia = 50, len = 20"), 12)
    assert "Z" not in back + front


def rectangle(space, layer, x, y):
    corners = [(-x, -y), (x, -y), (x, y), (-x, y)]
    space.add_lwpolyline(corners, close=True, dxfattribs={"layer": layer})


def test_a_layer_of_some_heights_is_touched_between_them_only(tmp_path):
    """A rib from 4 to 8 above the underside stands out of a bar, which fits below it and is free
    above it; held 12 deep, the rib's top lies at Z -4."""
    drawing = ezdxf.new(units=4)
    rectangle(drawing.modelspace(), "BAR", 15, 12)
    rectangle(drawing.modelspace(), "RIB", 20, 20)
    drawing.saveas(tmp_path / "part.dxf")
    layers = """outline = "part.dxf"
layers = [
    { layer = "BAR", bottom = 0, top = 20 },
    { layer = "RIB", bottom = 4, top = 8 },
]
"""
    back, front = told(tmp_path, layers, 12)
    assert heights(back) == heights(front) == ["-4 to -8", "-8 to -12"]


@pytest.mark.parametrize(("proud", "told_top"), [(2, 0), (-1, -1)])
def test_heights_end_at_the_jaw_top_and_at_the_part_s_own(tmp_path, proud, told_top):
    back, _ = told(tmp_path, turned(f"dia = 50, len = {8 + proud}", "dia = 30, len = 4"), 12)
    assert heights(back) == [f"{told_top} to -8", "-8 to -12"]
