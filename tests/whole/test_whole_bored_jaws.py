"""A chuck's soft jaws bored to the part, from the job to proven programs, and planted faults."""

import re

import pytest
from whole_jobs import SAMPLES
from whole_judged import turned

import jawcam.make
from jawcam.errors import InputError

JOB = SAMPLES / "burr-spindle.toml"
NAME = "jaws-end-b"
POSTS = ("rs274ngc-lathe", "iso6983-lathe")
GROOVE = "groove = { tool = 6 }\n"


def make(path=JOB, post=None):
    (made,) = jawcam.make.make(path, shown=path.name, post=post, setups=(NAME,), outside=False)
    return made


def changed(tmp_path, *changes):
    """The sample with some of its texts changed."""
    text = JOB.read_text(encoding="utf-8")
    for old, new in changes:
        assert text.count(old) == 1, old
        text = text.replace(old, new)
    path = tmp_path / "job.toml"
    path.write_text(text, encoding="utf-8")
    return path


@pytest.fixture(scope="module", params=POSTS)
def bored(request):
    return make(post=request.param)


@pytest.fixture(scope="module")
def plain():
    return make()


def stops(report):
    return {finding.code for finding in report.findings if finding.grade == "stop"}


def test_jaws_are_proven_in_every_dialect_and_nothing_is_left(bored):
    assert bored.proven
    assert not bored.report.findings
    assert bored.report.figures.gouge <= 0.002


def test_the_bore_measured_from_the_text_is_a_little_narrower_than_the_part(plain):
    """The part's end B is 20 mm across; the boring tool's last stroke is the finishing one."""
    boring = plain.text.partition("boring the jaws")[2].partition("T6")[0]
    across = [float(x) for x in re.findall(r"X([0-9.]+)", boring)]
    deep = [-float(z) for z in re.findall(r"Z(-[0-9.]+)", boring)]
    assert max(across) == 19.975
    assert max(deep) == 18.0


def test_the_relief_measured_from_the_text_is_half_a_millimetre_deep(plain):
    relief = plain.text.partition("relieving the foot of the bore")[2].partition("G53")[0]
    across = [float(x) for x in re.findall(r"X([0-9.]+)", relief)]
    deep = [-float(z) for z in re.findall(r"Z(-[0-9.]+)", relief)]
    assert max(across) == pytest.approx(19.975 + 2 * 0.5)
    assert max(deep) == 18.0


def test_tools_leave_the_bore_along_the_axis(plain):
    """The last move before each stop of the spindle ends in front of the jaws."""
    before_stops = plain.text.split("\nM5")[:-1]
    assert len(before_stops) == 2
    for part in before_stops:
        moves = [line for line in part.splitlines() if re.match(r"G[0123] |[XZ]", line)]
        assert moves[-1].removeprefix("G0 ") == "Z2."


def test_the_head_tells_how_the_jaws_are_clamped(plain):
    head = " ".join(plain.text.partition("G21")[0].replace(")\n(", " ").split())
    for words in ("soft jaws bored for end B", "plug", "pressure", "the jaws' front", "3500 rpm"):
        assert words in head


def test_a_bore_without_a_relief_is_proven_and_its_corner_is_named(tmp_path):
    """The largest disc in the corner that a nose of 0.4 leaves: 0.8 (sqrt 2 - 1) / (sqrt 2 + 1)."""
    made = make(changed(tmp_path, (GROOVE, "")))
    assert made.proven
    (found,) = made.report.findings
    assert found.code == "T302"
    assert found.amount == pytest.approx(0.8 * (2**0.5 - 1) / (2**0.5 + 1), abs=0.002)


def test_jaws_shallower_than_the_grip_are_refused(tmp_path):
    with pytest.raises(InputError) as error:
        make(changed(tmp_path, ("depth = 18 ", "depth = 17 ")))
    (fault,) = error.value.faults
    assert fault.place.key == "setup[2].depth"
    assert "18 mm" in fault.mend


def test_a_relief_without_a_tool_for_bores_is_refused(tmp_path):
    with pytest.raises(InputError) as error:
        make(changed(tmp_path, (GROOVE, "groove = { tool = 3 }\n")))
    (fault,) = error.value.faults
    assert fault.place.key == "setup[2].groove.tool"


# --- planted faults ----------------------------------------------------------------------------


def test_a_hundredth_too_wide_turns_the_proof_red(plain):
    """On the diameter, so 0.005 mm on radius."""
    assert plain.text.count("X19.975") > 1
    report = turned(plain, plain.text.replace("X19.975", "X19.985"))
    gouges = [found for found in report.findings if found.code == "T201"]
    assert gouges
    assert max(found.amount for found in gouges) == pytest.approx(0.005, abs=0.001)


def test_a_hundredth_too_narrow_turns_the_proof_red(plain):
    report = turned(plain, plain.text.replace("X19.975", "X19.955"))
    assert "T301" in stops(report)


def test_too_shallow_turns_the_proof_red(plain):
    assert "T301" in stops(turned(plain, plain.text.replace("Z-18.", "Z-17.98")))


def test_too_deep_turns_the_proof_red(plain):
    assert "T201" in stops(turned(plain, plain.text.replace("Z-18.", "Z-18.01")))


def test_running_on_into_the_plug_turns_the_proof_red(plain):
    lines = plain.text.splitlines()
    at = lines.index("(boring the jaws)") + 2
    assert not turned(plain, "\n".join([*lines[:at], "X16.", "Z-30.", *lines[at:]]) + "\n").ok
