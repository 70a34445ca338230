"""Drawings as they come from real life, from the file to the proven program; judged by the proof
and once more by a sweep of the printed blocks over the outline's closed form."""

import math

import numpy as np
import pytest
import shapely
from whole_cases import DRAWN, GAP, SAMPLED, sampled_outline
from whole_jobs import JOB, SAMPLES, drawing, job_with, make_one
from whole_swept import farthest, grown, jaws, swept
from whole_words import blocks, section

WALL = 0.002
"""mm; what the wall may lie off the truth. The chords of this sweep add up to 0.0006."""


def check_figures(whole):
    figures = whole.figures
    assert whole.report.ok, whole.report.findings
    assert figures.gouge <= 0.002
    assert figures.left_over <= 0.02
    assert abs(figures.floor_error) <= 0.001


def in_jaws(block, zero):
    """The same block in jaw coordinates."""
    dx, dy, dz = zero
    move = {
        key: (x + dx, y + dy, z + dz)
        for key, (x, y, z) in (("start", block.start), ("end", block.end))
    }
    return block.__class__(
        **{**block.__dict__, **move, "centre": (block.centre[0] + dx, block.centre[1] + dy)}
    )


def check_sweep(whole, outline, slack=0.0):
    """The wall pass against the outline grown by the fit: no farther out, and all of it reached
    down at the floor. slack: how far the drawing itself is off the closed form."""
    target, floor = whole.target, whole.target.floor
    cavity = grown(outline, target.grip, target.side)
    cuts = [in_jaws(b, target.zero) for b in blocks(whole.text) if b.kind != "rapid"]
    low = [b for b in cuts if max(b.start[2], b.end[2]) < floor + 0.001]
    assert {b.section for b in low} - {"corner relief"} == {"floor", "wall"}
    radii = {cutter.number: cutter.dia / 2 for cutter in target.cutters}

    wall = [b for b in low if b.section == "wall"]
    reach = swept(wall, radii[wall[0].tool])
    assert farthest(shapely.intersection(reach, jaws(target.blanks)), cavity) <= WALL + slack

    inner = [b for b in low if b.section != "wall"]
    reach = shapely.union(reach, swept(inner, radii[inner[0].tool], 2e-3))
    solid = shapely.intersection(cavity, jaws(target.blanks))
    left = shapely.difference(solid, reach)
    assert shapely.buffer(left, -WALL - slack / 2).is_empty, left.bounds


@pytest.mark.parametrize("name", DRAWN)
def test_drawing_becomes_a_proven_program(drawn, name):
    check_figures(drawn(name))


@pytest.mark.parametrize("name", DRAWN)
def test_wall_pass_sweeps_the_outline_grown_by_the_fit(drawn, name):
    slack = GAP / 2 if name == "loose belt" else 0.0
    check_sweep(drawn(name), DRAWN[name][1](), slack)


@pytest.mark.parametrize(("job", "setup"), SAMPLED)
def test_sample_becomes_proven_programs(samples, job, setup):
    check_figures(samples(job)[setup])


@pytest.mark.parametrize(("job", "setup"), SAMPLED)
def test_wall_pass_of_a_sample_sweeps_its_outline(samples, job, setup):
    check_sweep(samples(job)[setup], sampled_outline(SAMPLES, job, setup))


def test_inner_loop_of_a_washer_is_told_and_not_cut(drawn):
    washer = drawn("washer")
    assert "1 inner loop: shown, not cut" in washer.made.notes
    assert len(washer.target.holes) == 1
    # A disc of 16 mm + 0.04 grip without an island: all of it is cleared.
    solid = jaws(washer.target.blanks).intersection(shapely.Point(0, 0).buffer(16.04, 256))
    assert washer.figures.area == pytest.approx(solid.area, rel=1e-4)


def test_hole_of_a_washer_leaves_no_trace_in_the_blocks(drawn, tmp_path):
    document = DRAWN["disc in inches"][0]()
    document.modelspace().add_circle((0, 0), 0.3)
    holed = make_one(tmp_path, JOB, document)
    assert holed.text == drawn("disc in inches").text


def test_sharp_corners_are_relieved_so_that_the_part_seats(drawn):
    whole = drawn("hexagon")
    target = whole.target
    # The two corners in the gap meet no jaw; the other four do.
    corners = DRAWN["hexagon"][1]()[::40]
    upright = corners[np.abs(corners[:, 1]) > target.blanks.gap / 2]
    assert len(target.reliefs) == len(upright) == 4
    cuts = section(whole.text, "wall", level=-5.0) + section(
        whole.text, "corner relief", level=-5.0
    )
    reach = swept(cuts, 3.0)
    for x, y in upright:
        assert reach.contains(shapely.Point(x, y))


def test_relief_takes_no_more_of_the_wall_than_it_must(drawn):
    """A cutter of radius r whose edge just passes the tip of a corner of 120 degrees has its
    centre r sin 60 off either wall: it bites r (1 - sin 60) into both."""
    whole = drawn("hexagon")
    cavity = grown(DRAWN["hexagon"][1](), whole.target.grip, whole.target.side)
    reach = swept(section(whole.text, "corner relief", level=-5.0), 3.0)
    bite = 3 * (1 - math.sin(math.radians(60)))
    assert farthest(reach, cavity) == pytest.approx(bite, abs=0.03)


PLAY = 0.5
"""mm either way along X."""


def wedge_drawing():
    """A sharp tip between two long flanks."""
    document, space = drawing()
    space.add_lwpolyline(WEDGE, close=True)
    return document


WEDGE = [(-18, -10), (18, -10), (0, 20)]


def test_sharp_tip_seats_wherever_the_part_plays(tmp_path):
    """`side` is play along the jaws: the part goes down at either end of it as in the middle."""
    text = job_with(("grip = 0.04", f"grip = 0.02, side = {PLAY}"), ("gap = 4", "gap = 1"))
    whole = make_one(tmp_path, text, wedge_drawing())
    cuts = [b for b in section(whole.text, "wall") if b.end[2] == b.start[2] == -5.0]
    cuts += section(whole.text, "corner relief", level=-5.0)
    inner = section(whole.text, "floor", level=-5.0)
    reach = shapely.union(swept(cuts, 3.0), swept(inner, 3.0, 2e-3))
    blanks = jaws(whole.target.blanks)
    for shift in (0.0, -PLAY, PLAY):
        part = shapely.Polygon([(x + shift, y) for x, y in WEDGE])
        left = shapely.difference(shapely.intersection(part, blanks), reach)
        assert shapely.buffer(left, -0.01).is_empty, (shift, left.bounds)
