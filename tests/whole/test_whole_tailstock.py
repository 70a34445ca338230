"""Slender work with a tailstock at its free end: faced down to the rim of its centre hole, or
faced before; what stands in the way is found by the planner and by the proof."""

import math

import pytest
from whole_judged import turned
from whole_turned import POSTS, SPINDLE, made

from jawcam.errors import InputError

SLIM, THICK = "rough = { tool = 2 }", "rough = { tool = 1 }"


def job(chuck, allowance=1, rough=SLIM):
    """The sample's end A, 12 mm across and 64 mm out of its jaws, with a tailstock; the holder of
    the threading tool is slim enough to pass that."""
    assert SPINDLE.count('kind = "threading"') == 1
    text = SPINDLE.replace('kind = "threading"', 'kind = "threading"\nshank = 6')
    first, *setups = text.split("[[setup]]")
    ends = [one for one in setups if 'cut = "turned profile"' in one]
    end = ends[1].replace("grip = 18, ", f"grip = 18, tailstock = true, {chuck}")
    end = end.replace("allowance = 1", f"allowance = {allowance}") + rough + "\n"
    assert "tailstock" in end
    return "[[setup]]".join([first, ends[0], end])


def make(text, post=POSTS[0]):
    (one,) = made(text, post, ("spindle-end-a",)).values()
    return one


def stops(report):
    return {finding.code for finding in report.findings if finding.grade == "stop"}


@pytest.fixture(scope="module", params=POSTS)
def faced(request):
    """Faced down to a centre hole of 2.5 mm."""
    return make(job("centre = 2.5, "), request.param)


def test_the_end_is_faced_down_to_the_rim_and_the_rest_is_named(faced):
    """A nose of r that touches the face and a cone of 60 degrees from the rim ends
    r (1 + sin 30) / cos 30 outside of that, and 0.2 mm are kept off; with r = 0.4 and a rim of
    1.25 mm that is 2.143 mm."""
    assert stops(faced.report) == set()
    low = 1.25 + 0.4 * 1.5 / math.cos(math.radians(30)) + 0.2
    face = [c for c in faced.program.cuts if c.kind == "line" and abs(c.end[2]) < 1e-6]
    assert min(cut.end[0] for cut in face) == pytest.approx(low - 0.4, abs=0.001)
    assert not any(cut.end[0] < 1.25 for cut in faced.program.cuts)
    (rest,) = [f for f in faced.report.findings if f.code == "T302" and f.z > 0]
    assert "the tailstock's centre stands there" in rest.what
    assert rest.amount == pytest.approx(1.0, abs=0.1)


def test_with_a_tailstock_it_is_not_warned_that_the_work_stands_far_out(faced):
    assert "caution: more than 3 times" not in "\n".join(faced.notes)
    without = job("centre = 2.5, ").replace("tailstock = true, centre = 2.5, ", "")
    assert "caution: more than 3 times" in "\n".join(make(without).notes)


def test_an_end_that_is_faced_already_is_left_alone():
    one = make(job("centre = 2.5, ", allowance=0))
    assert stops(one.report) == set()
    assert "(facing)" not in one.text
    assert "(finishing the face)" not in one.text
    assert not any(cut.end[0] < 1.25 for cut in one.program.cuts)


def test_a_wide_insert_that_can_not_pass_the_centre_is_refused_with_its_place():
    """The back of an 80 degree insert at 95 degrees rises by 5 degrees, the centre by 30."""
    with pytest.raises(InputError, match="would touch the tailstock's centre") as caught:
        make(job("centre = 2.5, ", rough=THICK))
    (fault,) = caught.value.faults
    assert fault.place.at.startswith("Z ")
    assert "slimmer insert" in fault.mend


@pytest.mark.parametrize(
    ("chuck", "allowance", "key"),
    [("", 1, "setup[2].stock.allowance"), ("centre = 12, ", 1, "setup[2].chuck.centre")],
)
def test_an_end_to_be_faced_to_the_axis_is_refused(chuck, allowance, key):
    with pytest.raises(InputError) as caught:
        make(job(chuck, allowance))
    (fault,) = caught.value.faults
    assert fault.place.key == key
    assert fault.mend


def test_a_drilled_end_is_refused():
    drill = '[[tool]]\nnumber = 9\nkind = "drill"\ndia = 5\n\n[[setup]]'
    text = job("centre = 2.5, ").replace("[[setup]]", drill, 1) + "drill = { tool = 9 }\n"
    text = text.replace(
        "[[tool]]\nnumber = 1\n", "bore = [{ dia = 5, len = 9 }]\n\n[[tool]]\nnumber = 1\n"
    )
    with pytest.raises(InputError) as caught:
        make(text)
    (fault,) = caught.value.faults
    assert fault.place.key == "setup[2].drill"


@pytest.mark.parametrize("post", POSTS)
def test_a_thread_begins_between_the_centre_and_itself(post):
    """Three leads of air in front of M12x1.75 would be 5.25 mm; but the cone from a rim of 2.5 mm
    is as thick as the thread's root, 4.93 mm, at Z 4.21 already."""
    one = make(job("centre = 5, "), post)
    assert stops(one.report) == set()
    root = min(cut.start[0] for cut in one.program.cuts if cut.lead)
    begins = [cut.start[2] for cut in one.program.cuts if cut.lead]
    assert 2 * 1.75 < max(begins) < (root - 2.5) / math.tan(math.radians(30)) - 0.19


def test_a_thread_with_too_little_room_before_the_centre_is_refused():
    with pytest.raises(InputError, match="too little to come up to speed in") as caught:
        make(job("centre = 6, "))
    assert [fault.place.key for fault in caught.value.faults] == ["setup[2]"]


# --- planted faults ----------------------------------------------------------------------------


def test_facing_on_to_the_axis_turns_the_proof_red(faced):
    last = max(
        (c for c in faced.program.cuts if c.kind == "line" and abs(c.end[2]) < 1e-6),
        key=lambda cut: cut.line,
    )
    lines = faced.text.splitlines()
    lines.insert(last.line, "G1 X-1.")
    report = turned(faced, "\n".join(lines) + "\n")
    crashes = [f for f in report.findings if f.code == "T601"]
    assert [f.line for f in crashes] == [last.line + 1]
    assert crashes[0].grade == "stop"


def test_a_rapid_across_the_centre_turns_the_proof_red(faced):
    first = next(c for c in faced.program.cuts if c.kind == "line")
    lines = faced.text.splitlines()
    lines.insert(first.line - 1, "G0 Z12.\nG0 X8.\nG0 X36.\nG0 Z3.")
    assert "T601" in stops(turned(faced, "\n".join(lines) + "\n"))


def test_a_thread_that_would_begin_in_the_centre_is_found_by_the_proof(faced):
    """Where its tip is 0.1 mm inside of the cone of 60 degrees from a rim of 1.25 mm."""
    last = max(cut.line for cut in faced.program.cuts if cut.lead)
    (cut,) = [cut for cut in faced.program.cuts if cut.line == last]
    z = (cut.start[0] - 1.25 + 0.1) / math.tan(math.radians(30))
    lines = faced.text.splitlines()
    lines.insert(last - 2, f"G0 Z{z:.3f}")
    report = turned(faced, "\n".join(lines) + "\n")
    assert "T601" in {f.code for f in report.findings if f.line in (last, last + 1)}
    assert "T601" in stops(report)
