"""Both ends of a turned part, from its table to proven programs, and faults planted in them."""

import dataclasses
import re

import pytest
from whole_jobs import only
from whole_judged import turned
from whole_turned import SPINDLE, made

from jawcam.post.dialect import load as load_dialect
from jawcam.post.dialect import names
from jawcam.tools.insert import parse

POSTS = tuple(name for name in names() if load_dialect(name).kind == "lathe")


@pytest.fixture(scope="module", params=POSTS)
def ends(request):
    """The sample's two ends, in each dialect."""
    return made(SPINDLE, request.param)


@pytest.fixture(scope="module")
def end_a():
    return made(SPINDLE, "rs274ngc-lathe")["spindle-end-a"]


def stops(report):
    return {finding.code for finding in report.findings if finding.grade == "stop"}


def changed(made, line, old, new):
    """The text with one thing changed in one line."""
    lines = made.text.splitlines()
    assert lines[line - 1].count(old) == 1, lines[line - 1]
    lines[line - 1] = lines[line - 1].replace(old, new)
    return "\n".join(lines) + "\n"


def test_both_ends_are_proven_in_every_dialect(ends):
    assert list(ends) == ["spindle-end-b", "jaws-end-b", "spindle-end-a"]
    for one in ends.values():
        assert one.proven
        assert not stops(one.report)


def test_nothing_is_gouged_and_what_is_left_is_named(ends):
    """0.002 mm on radius; every place left larger than 0.005 mm stands in the target."""
    for one in ends.values():
        assert one.report.figures.gouge <= 0.002
        left = [f for f in one.report.findings if f.code == "T302"]
        assert len(left) <= len(one.target.left)
        assert "T301" not in {f.code for f in one.report.findings}


def test_speed_is_clamped_before_it_follows_the_diameter(ends):
    for one in ends.values():
        assert one.program.cuts
        assert all(cut.clamp == 2500 for cut in one.program.cuts if cut.surface)


def test_each_tool_is_loaded_once(end_a):
    loads = re.findall(r"^T(\d+) M6", end_a.text, re.MULTILINE)
    assert loads == ["1", "2", "3", "4"]


def test_thread_is_cut_in_passes_of_equal_area(end_a):
    """Depths a sqrt(i / N) below the crest, the last one twice: a spring pass. M12 6g: major
    diameter 11.701 to 11.966, pitch diameter 10.679 to 10.829 (ISO 965-2, from memory), and
    across the rounded root 2/3 H less than the latter."""
    crest, height = (11.701 + 11.966) / 2, 3**0.5 / 2 * 1.75
    depth = (crest - (10.679 + 10.829) / 2 + 2 / 3 * height) / 2
    passes = [cut for cut in end_a.program.cuts if cut.lead]
    depths = [crest / 2 - cut.start[0] for cut in passes]
    count = len(depths) - 1
    for number, found in enumerate(depths[:-1], 1):
        assert found == pytest.approx(depth * (number / count) ** 0.5, abs=0.001)
    assert depths[-1] == depths[-2]
    assert {cut.lead for cut in passes} == {1.75}


# --- planted faults ----------------------------------------------------------------------------


def with_nose(target, number, designation):
    """The target as if another insert were in the holder."""
    tools = tuple(
        dataclasses.replace(tool, insert=parse(designation)) if tool.number == number else tool
        for tool in target.tools
    )
    return dataclasses.replace(target, tools=tools)


@pytest.mark.parametrize("designation", ["DCMT11T308", "DCMT11T302"])
def test_a_nose_that_is_another_one_turns_the_proof_red(end_a, designation):
    report = turned(end_a, end_a.text, with_nose(end_a.target, 2, designation))
    assert stops(report) & {"T201", "T301"}


def test_a_wrong_lead_turns_the_proof_red(end_a):
    report = turned(end_a, end_a.text.replace("K1.75", "K1.8"))
    assert not report.ok


def test_a_pass_a_hundredth_too_deep_turns_the_proof_red(end_a):
    """On radius: 0.02 on the diameter of the finished cylinder's start."""
    line = only(end_a.text, r"^G3 X17\.991 ")
    report = turned(end_a, changed(end_a, line, "X17.991", "X17.971"))
    gouges = [f for f in report.findings if f.code == "T201"]
    assert gouges
    assert max(f.amount for f in gouges) == pytest.approx(0.01, abs=0.002)
    assert line in {f.line for f in gouges} | {f.line - 1 for f in gouges}


def test_a_clamp_left_out_turns_the_proof_red(end_a):
    assert not turned(end_a, end_a.text.replace("G50 S2500\n", "")).ok


def test_a_rapid_across_the_shoulder_turns_the_proof_red(end_a):
    line = only(end_a.text, r"^G1 Z-34|^G1 Z-35")
    lines = end_a.text.splitlines()
    lines.insert(line - 1, "G0 Z-50.")
    assert not turned(end_a, "\n".join(lines) + "\n").ok


def test_a_chamfer_left_out_turns_the_proof_red(end_a):
    """Straight on to the corner: the material of the chamfer stays."""
    line = only(end_a.text, r"^X11\.599 Z-1\.117")
    lines = end_a.text.splitlines()
    del lines[line - 1]
    assert not turned(end_a, "\n".join(lines) + "\n").ok


def test_each_pass_of_a_thread_is_one_block_where_the_control_has_a_cycle():
    """The same cuts as where each is written out as four moves."""
    cycled, written = (
        made(SPINDLE, post)["spindle-end-a"] for post in ("iso6983-lathe-g98", "din66025-lathe")
    )
    passes = [[cut for cut in one.program.cuts if cut.lead] for one in (cycled, written)]
    assert len({cut.line for cut in passes[0]}) == len(passes[0]) == 9
    for one, other in zip(*passes, strict=True):
        assert (one.start, one.end, one.lead) == (other.start, other.end, other.lead)
    assert "G32" not in cycled.text
    wrong = changed(cycled, passes[0][0].line, "F1.75", "F1.7")
    assert stops(turned(cycled, wrong)) == {"T403"}
