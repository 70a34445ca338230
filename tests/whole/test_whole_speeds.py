"""How fast the spindle turns, read back from whole programs: it never jumps between one move and
the next, and where the diameter runs out it is fixed. Expected figures are closed forms."""

import itertools
import math
import re

import pytest
from test_whole_turned_cuts import PIN
from whole_turned import POSTS, SPINDLE, made, stops

from jawcam.job.template import template
from jawcam.post.dialect import load as load_dialect
from jawcam.proof.turning.path import moves_of
from jawcam.proof.turning.prove import prove_turning
from jawcam.proof.turning.times import minutes
from jawcam.reader.read import read

DISC = """\
title = "Disc under the crank"
units = "mm"

[part]
material = "mild steel"
turned = [ { dia = 90, len = 12 }, { dia = 60, len = 20 } ]

[[tool]]
number = 1
kind = "turning"
insert = "CNMG120408"
approach = 95

[[setup]]
name = "disc"
cut = "turned profile"
post = "rs274ngc-lathe"
end = "A"
reach = 14
stock = { dia = 96, allowance = 1 }
chuck = { grip = 12, max_rpm = 3500 }
speeds = { surface = 200, clamp = 2500 }
rough = { feed = 0.2, depth = 1, leave_face = 0 }
finish = { feed = 0.2 }
"""

INCH = DISC.replace('"mm"', '"inch"')
for old, new in (
    ("dia = 90, len = 12", "dia = 3.5, len = 0.5"),
    ("dia = 60, len = 20", "dia = 2.4, len = 0.8"),
    ("reach = 14", "reach = 0.6"),
    ("dia = 96, allowance = 1", "dia = 3.75, allowance = 0.04"),
    ("grip = 12", "grip = 0.5"),
    ("surface = 200", 'surface = "655.5 ft/min"'),
    ("feed = 0.2, depth = 1", "feed = 0.008, depth = 0.04"),
    ("feed = 0.2 }", "feed = 0.008 }"),
):
    assert INCH.count(old) == 1, old
    INCH = INCH.replace(old, new)


@pytest.fixture(scope="module", params=POSTS)
def programs(request):
    """Lathe programs of all kinds in one dialect, by name."""
    texts = (PIN, DISC, INCH.replace('"disc"', '"inch-disc"'), template("lathe"), SPINDLE)
    return {name: one for text in texts for name, one in made(text, request.param).items()}


def rpm(cut, x):
    """n = 1000 v / (pi D), or the clamp (V1, V4), or the fixed speed."""
    if not cut.surface:
        return cut.rpm
    return cut.clamp if x == 0 else min(1000 * cut.surface / (math.tau * abs(x)), cut.clamp)


def test_the_spindle_s_speed_never_jumps(programs):
    """From one move to the next of a tool at most half a turn, which is what S is rounded to, and
    what the last digit of X makes of it."""
    for one in programs.values():
        assert stops(one) == []
        digit = 0.0005 if one.job.units.in_mm == 1 else 0.00005 * 25.4
        cuts = one.program.cuts
        pairs = [(a, b) for a, b in itertools.pairwise(cuts) if a.tool == b.tool]
        assert any(a.surface and not b.surface for a, b in pairs) or "jaws" in one.file
        for a, b in pairs:
            x = b.start[0]
            before, after = rpm(a, x), rpm(b, x)
            spare = 0.5 + before * digit / max(2 * abs(x), digit)
            assert before == pytest.approx(after, abs=spare), (one.file, a.line, b.line)


def test_every_cut_to_the_axis_gets_there_at_a_fixed_speed(programs):
    axis = [
        cut
        for one in programs.values()
        for cut in one.program.cuts
        if cut.kind == "line" and cut.end[0] <= 0 and cut.start[0] > 0
    ]
    assert len(axis) > 5
    assert all(cut.surface == 0 and cut.rpm > 0 for cut in axis)


def test_a_clamp_is_told_before_every_surface_speed(programs):
    for one in programs.values():
        lines = one.text.splitlines()
        starts = [k for k, line in enumerate(lines) if "G96" in line]
        assert starts
        for k in starts:
            assert "S2500" in lines[k - 1] or "S3000" in lines[k - 1], lines[k - 1]


@pytest.mark.parametrize("post", POSTS)
def test_the_time_of_a_face_is_that_of_the_closed_form(post):
    """From 100 mm to the axis at 200 m/min and 0.2 mm a turn, clamped at 2500 rpm, REFERENCE V5:
    pi r1^2 / (1000 v f) to the clamp's diameter of 25.4648 mm (V4), from there r2 / (f n): in all
    12.545 s. The set point goes 0.9 mm past the axis, a nose's radius and 0.1 mm."""
    one = made(DISC, post)["disc"]
    moves = [m for m in moves_of(one.program, one.target) if m.kind == "line"]
    first = next(k for k, move in enumerate(moves) if move.start[1] == 50)
    outer, inner = moves[first : first + 2]
    assert 2 * outer.end[1] == pytest.approx(25.4648, abs=0.0005)
    assert inner.cut.rpm == 2500
    assert minutes(outer, 1e4) == pytest.approx(0.183617, abs=1e-5)
    past = 0.9 / (0.2 * 2500)
    assert minutes(inner, 1e4) - past == pytest.approx(0.025465, abs=1e-6)
    whole = minutes(outer, 1e4) + minutes(inner, 1e4) - past
    assert 60 * whole == pytest.approx(12.545, abs=0.001)


def test_it_is_told_in_the_notes():
    told = "\n".join(made(DISC, POSTS[0])["disc"].notes)
    assert "T1: facing: below a diameter of 25.465 mm" in told
    assert "at a fixed 2500 rpm" in told


def test_stock_that_the_clamp_holds_all_along_is_faced_at_that_fixed_speed():
    """600 m/min reach 2500 rpm on 76 mm; the stock is 18 mm across."""
    fast = PIN.replace("chuck = { grip = 30 }", "chuck = { grip = 30 }\nspeeds = { surface = 600 }")
    one = made(fast, POSTS[0])["pin"]
    assert stops(one) == []
    assert "facing: all of it at a fixed 2500 rpm" in "\n".join(one.notes)
    to_axis = [c for c in one.program.cuts if c.kind == "line" and c.end[0] <= 0]
    assert to_axis
    assert all(cut.surface == 0 and cut.rpm == 2500 for cut in to_axis)


def test_a_setup_at_fixed_speeds_has_nothing_to_change():
    still = PIN.replace(
        "chuck = { grip = 30 }", "chuck = { grip = 30 }\nspeeds = { constant = false }"
    )
    one = made(still, POSTS[0])["pin"]
    assert stops(one) == []
    assert all(cut.surface == 0 for cut in one.program.cuts)
    assert "fixed" not in "\n".join(one.notes)


@pytest.mark.parametrize("post", POSTS)
def test_the_spindle_turns_for_each_tool_as_the_job_says(post):
    """The turning tool upside down, the others not; the spindle is stopped in between."""
    upside_down = "approach = 93\nturns = 'counter-clockwise'"
    assert PIN.count("approach = 93") == 1
    one = made(PIN.replace("approach = 93", upside_down), post)["pin"]
    assert stops(one) == []
    cutting = [cut for cut in one.program.cuts if cut.kind != "rapid"]
    assert {(cut.tool, cut.spindle) for cut in cutting} == {(1, "ccw"), (3, "cw"), (5, "cw")}
    words = re.findall(r"\bM0?([345])\b", one.text)
    assert ["4", "5", "3"] in [words[k : k + 3] for k in range(len(words))]
    assert "43" not in "".join(words)
    back = re.sub(r"\bM(0?)4\b", r"M\g<1>3", one.text)
    report = prove_turning(read(back, load_dialect(one.dialect).control, "pin.nc"), one.target)
    assert "T105" in {finding.code for finding in report.findings}
