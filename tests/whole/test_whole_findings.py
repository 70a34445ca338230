"""What the proof finds is told alike wherever a person may meet it: on the terminal, in the .json,
in every view of the picture and on the setup sheet, each with its grade, line and column, place and
mend."""

import json
import re

import pypdf
import pytest
import whole_told
from whole_jobs import JOB, SAMPLES, disc_drawing, put

import jawcam.make
import jawcam.make_turned

FAULTS = {
    "mill": {"Z-5.": "Z-5.1", "G43 H2": "G43 H3", "M5\n": ""},
    "lathe": {"\nG1 X24.\n": "\nG1 X23.9\n"},
}
"""Texts of a program, and what a planner gone wrong writes instead."""

GRADES = ["stop", "warn", "note"]


@pytest.fixture(scope="module", params=list(FAULTS))
def made(request, tmp_path_factory):
    """The .json's report on a program that failed, and the words of the other three places."""
    folder = tmp_path_factory.mktemp(request.param)
    if request.param == "mill":
        job, setup = put(folder, JOB, disc_drawing()), "jaws"
    else:
        job, setup = SAMPLES / "burr-spindle.toml", "spindle-end-b"
    out, picture = folder / "out", folder / "picture.pdf"
    with pytest.MonkeyPatch.context() as patch:
        for module in (jawcam.make, jawcam.make_turned):
            patch.setattr(module, "write", gone_wrong(module.write, FAULTS[request.param]))
        _, terminal, _ = whole_told.said("make", job, "--setup", setup, "--out", out)
    program = (out / f"{setup}.unproven.txt", "--job", job, "--setup", setup)
    whole_told.said("plot", *program, "--to", picture)
    views = {}
    if request.param == "mill":
        for view in ("oblique", "levels"):
            whole_told.said("plot", *program, "--view", view, "--to", folder / f"{view}.pdf")
            views[view] = on_paper(folder / f"{view}.pdf")
    report = json.loads((out / f"{setup}.json").read_text("utf-8"))
    assert not report["ok"]
    words = {
        "terminal": terminal,
        "check": whole_told.said("check", *program)[1],
        "picture": on_paper(picture),
        "sheet": on_paper(out / f"{setup}.pdf"),
        **views,
    }
    return report, words


@pytest.fixture(scope="module")
def told(made):
    """The findings as the .json has them, and the words of the other three."""
    report, words = made
    return report["findings"], words


def gone_wrong(write, faults):
    def wrong(*given, **kwargs):
        text = write(*given, **kwargs)
        for old, new in faults.items():
            assert old in text, old
            text = text.replace(old, new)
        return text

    return wrong


def on_paper(path):
    (page,) = pypdf.PdfReader(path).pages
    return page.extract_text()


def close(words):
    """Without blanks: where a line ends is no matter."""
    return "".join(words.split())


def place(finding):
    """To three decimals, without zeros at the end."""
    pairs = [(axis.upper(), finding[axis]) for axis in "xyz" if finding[axis] is not None]
    said = [(axis, f"{v:.3f}".rstrip("0").rstrip(".")) for axis, v in pairs]
    return " ".join(f"{axis} {'0' if v == '-0' else v}" for axis, v in said)


def sentence(finding):
    line, column = finding["line"], finding["column"]
    where = [f"line {line}", f"column {column}"] if line else []
    where = ", ".join(part for part in (finding["code"], *where, place(finding)) if part)
    return f"{where}: {finding['what']}; to mend: {finding['mend']}"


def test_each_has_all_that_a_person_needs(told):
    findings, _ = told
    assert {finding["grade"] for finding in findings} >= {"stop", "warn"}
    assert any(finding["line"] and place(finding) and finding["amount"] for finding in findings)
    for finding in findings:
        assert finding["grade"] in GRADES
        assert finding["what"]
        assert finding["mend"]
        assert bool(finding["line"]) == bool(finding["column"])
        assert finding["line"] or place(finding) or finding["code"] == "P107"


def test_the_terminal_tells_those_of_the_json_and_no_others(told):
    findings, words = told
    said = re.findall(r"^\S+?((?::\d+)*): (stop|warn|note) (.*)$", words["terminal"], re.MULTILINE)
    assert said == [
        (
            f":{f['line']}:{f['column']}" if f["line"] else "",
            f["grade"],
            f"{f['code']}: {f['what']}" + (f", at {place(f)}" if place(f) else ""),
        )
        for f in findings
    ]
    assert re.findall(r"to mend: (.*)", words["terminal"]) == [f["mend"] for f in findings]


def test_pictures_and_sheet_tell_them_in_the_same_words_the_gravest_first(told):
    """In all the views that a program has."""
    findings, words = told
    ranked = sorted(findings, key=lambda finding: GRADES.index(finding["grade"]))
    for paper in set(words) - {"terminal", "check"}:
        said = close(words[paper])
        places = [said.find(close(sentence(finding))) for finding in ranked]
        assert -1 not in places, (paper, ranked[places.index(-1)])
        assert places == sorted(places)
        assert said.count("tomend:") == len(findings)


def test_picture_and_sheet_tell_their_grades(told):
    """On the sheet before each; on the pictures by the shape of its flag, which the key names."""
    findings, words = told
    pictures = [close(words[view]) for view in ("picture", "oblique", "levels") if view in words]
    sheet = close(words["sheet"])
    for finding in findings:
        assert close(f"{finding['grade'].upper()} {sentence(finding)}") in sheet
    named = {"stop": "stop", "warn": "warning", "note": "note"}
    for grade, name in named.items():
        told_of = grade in {finding["grade"] for finding in findings}
        assert all((f"finding:{name}" in picture) == told_of for picture in pictures)
    assert all("Donotrunthisprogram." in picture for picture in pictures)
    assert "DONOTRUN" in sheet


@pytest.mark.parametrize("where", ["terminal", "check"])
def test_the_terminal_tells_what_is_taken_for_granted_and_what_is_not_judged(made, where):
    """A line each, and each thing once."""
    report, words = made
    figures, lines = report["figures"], words[where].splitlines()
    taken = [f"{what} ({how})" for what, how in (one.split(": ", 1) for one in figures["untold"])]
    for head, said in (
        ("the times take for granted", ", ".join(figures["assumed"])),
        ("not told, and taken so", "; ".join(taken)),
        ("not told, and so not judged", "; ".join(figures["unjudged"])),
    ):
        told = [line for line in lines if f": {head}: " in line]
        assert len(told) == bool(said)
        assert all(line.endswith(f": {head}: {said}") for line in told)
