"""Jobs that tell of holders, the vise and the machine: what is made of them, what is refused."""

import json

import pypdf
import pytest
from whole_jobs import JOB, SAMPLES, disc_drawing, job_with, make_one, put

OF_TOOLS = """\
stickout = 24
shank = 6
holder = [ { dia = 24, len = 60 } ]

[[tool]]
number = 3
kind = "end mill"
dia = 5
flute_len = 12
stickout = 20
shank = 6
holder = [ { dia = 20, len = 20 }, { dia = 50, len = 40 } ]

[machine]
change_height = 60
rapids = "dog-leg"
travel = { x = 400, y = 300, z = 300 }
"""
OF_SETUP = """\
rough = { stepdown = 5, tool = 2, way = "rings" }
finish = { tool = 3 }
vise = { top = -4, width = 100, back = 45, bed = -32 }
travel_at = { x = 200, y = 150, z = 20 }
"""
ROOMY = job_with(("stickout = 24\n", OF_TOOLS), ("rough = { stepdown = 5 }\n", OF_SETUP))


def made(folder, *changes, post="rs274ngc-mill"):
    return make_one(folder, job_with(*changes, text=ROOMY), disc_drawing(), post=post)


@pytest.mark.parametrize("post", ["rs274ngc-mill", "iso6983-mill", "eia274d-tape"])
def test_a_job_that_tells_all_is_proven_and_little_is_taken_for_granted(tmp_path, post):
    report = made(tmp_path, post=post).report
    assert {finding.code for finding in report.findings} <= {"P112"}, "some know no machine zero"
    assert report.figures.untold == ("the spacer in the gap: lower than any cut",)
    assert report.figures.unjudged == ()
    needs = [(one.tool, one.stickout) for one in report.figures.needs]
    assert needs == [(2, pytest.approx(4.9 + 1.0)), (3, pytest.approx(5.0 + 1.0))]


@pytest.mark.parametrize("post", ["rs274ngc-mill", "eia274d-tape"])
def test_the_tool_rises_to_where_it_is_changed(tmp_path, post):
    """The tape's control has no machine zero to go to."""
    program = made(tmp_path, post=post).made.program
    _, second = [change.when for change in program.changes if change.kind == "tool"]
    last = [cut for cut in program.cuts if cut.when < second][-1]
    assert last.end[2] == pytest.approx(60.0)


@pytest.mark.parametrize(
    ("old", "new", "code"),
    [
        ("z = 300 }", "z = 102 }", "P821"),
        ("x = 400", "x = 20", "P821"),
        ("z = 20 }", "z = 160 }", "P823"),
        ("stickout = 20", "stickout = 12", "P804"),
    ],
)
def test_a_setup_that_would_crash_is_stopped(tmp_path, old, new, code):
    changes = [(old, new)]
    if code == "P804":  # a flange close behind the face, over a vise that stands high
        changes += [("{ dia = 20, len = 20 }", "{ dia = 20, len = 2 }"), ("dia = 50", "dia = 80")]
        changes += [("vise = { top = -4", "clearance = 20\nvise = { top = 14")]
    report = made(tmp_path, *changes).report
    assert not report.ok
    assert code in {finding.code for finding in report.findings if finding.grade == "stop"}
    assert all(finding.mend for finding in report.findings)


@pytest.mark.parametrize(
    ("top", "status", "codes"), [("-6", 0, set()), ("-5.5", 0, {"P710"}), ("-4.9", 1, {"P709"})]
)
def test_a_pocket_that_goes_down_to_its_spacer_is_warned_of_or_refused(
    say, tmp_path, top, status, codes
):
    """It is 5 mm deep, and its cutter keeps 1 mm off."""
    told = f"rough = {{ stepdown = 5 }}\nspacers = [ {{ top = {top}, x = [-45, 45] }} ]\n"
    job = put(tmp_path, job_with(("rough = { stepdown = 5 }\n", told)), disc_drawing())
    made, out, _ = say("make", job, "--out", tmp_path / "out")
    assert made == status
    report = json.loads((tmp_path / "out" / "jaws.json").read_text())
    found = {one["code"]: one for one in report["findings"]}
    assert set(found) & {"P709", "P710"} == codes
    assert all(one["line"] and one["mend"] and one["amount"] for one in found.values() if codes)
    assert (tmp_path / "out" / "jaws.nc").exists() == (status == 0)
    assert not any("spacer" in words for words in report["figures"]["untold"])
    assert ("spacer" in out) == bool(codes)


def test_the_sheet_and_the_section_show_the_spacers(say, tmp_path):
    told = 'spacers = [ { top = -8, x = [-45, -30] }, { top = -9 } ]\nzero = { x = "left" }\n'
    text = job_with(("rough = { stepdown = 5 }\n", f"rough = {{ stepdown = 5 }}\n{told}"))
    job, out = put(tmp_path, text, disc_drawing()), tmp_path / "out"
    assert say("make", job, "--out", out)[0] == 0
    (page,) = pypdf.PdfReader(out / "jaws.pdf").pages
    words = " ".join(page.extract_text().split())
    assert "4 mm, top no higher than Z -8 at X 0 to 15, Z -9; clamp as they will hold" in words
    drawing = out / "jaws.svg"
    assert say("plot", out / "jaws.nc", "--job", job, "--to", drawing)[0] == 0
    assert drawing.read_text().count('id="spacer"') == 2


def test_the_report_in_the_file_says_what_each_tool_needs_and_what_is_not_told(say, tmp_path):
    job = put(tmp_path, JOB, disc_drawing())
    status, _, _ = say("make", job, "--out", tmp_path / "out")
    figures = json.loads((tmp_path / "out" / "jaws.json").read_text())["figures"]
    assert status == 0
    assert figures["needs"] == [{"tool": 2, "flutes": 5.0, "stickout": 10.0, "lowest": -5.0}]
    assert figures["unjudged"] == ["the vise's own jaws and its bed", "the travel of X, Y, Z"]
    assert "the spacer in the gap: lower than any cut" in figures["untold"]


def test_wrong_keys_are_told_with_place_and_mend(say, tmp_path):
    text = job_with(("top = -4", "top = 6"), ("dia = 20, len", "dia = 6, len"), text=ROOMY)
    status, _, err = say("make", put(tmp_path, text, disc_drawing()), "--out", tmp_path / "out")
    assert status == 2
    assert "tool[2].holder[1].dia" in err
    assert "setup[1].vise.top" in err
    assert "give a larger clearance" in err
    assert not (tmp_path / "out").exists()


@pytest.mark.parametrize(("goes", "status"), [(400, 0), (32, 1)])
def test_the_lathe_stays_within_the_travel_that_its_job_tells(say, tmp_path, goes, status):
    """The spindle's blank is 32 mm across: the tool that faces it goes from outside to the axis."""
    text = (SAMPLES / "burr-spindle.toml").read_text()
    text = text.replace(
        "[[tool]]", f"[machine]\nlathe_travel = {{ x = {goes}, z = 900 }}\n[[tool]]", 1
    )
    made = say("make", put(tmp_path, text, None), "--setup", "spindle-end-b", "--out", tmp_path)
    assert made[0] == status, made[1]
    report = json.loads((tmp_path / "spindle-end-b.json").read_text())
    codes = [finding["code"] for finding in report["findings"]]
    assert ("T802" in codes) == bool(status)
    assert not any("travel" in words for words in report["figures"]["unjudged"])
    assert "where the origin stands in X, Z (only the span" in made[1]
