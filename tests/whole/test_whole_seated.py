"""`check --seated`: programs that cut the part while a job's jaws hold it, with the jaws, the
part's height and the datum as that job tells them."""

import re

import pytest
from whole_jobs import JOB, SAMPLES, disc_drawing, job_with, put

ROUND = """\
%
(the knob milled round, {words})
G21 G17 G40 G49 G80 G90 G94
G53 G0 Z0.
T2 M6
G54
S6000 M3
G0 X{far} Y{middle}
G43 H2 Z{top}
G0 Z{deep}
G1 X{near} F600.
G3 X{near} Y{middle} I-17.5 J0.
G1 X{far}
G0 Z{top}
M5
G53 G0 Z0.
M30
%
"""
"""The knob is 30 mm across and 9 mm high, and sits 5 mm deep in blanks 30 mm high, 40 mm thick and
4 mm apart; its pocket has 0.04 mm of grip all round. The cutter is 6 mm across."""


def milled(folder, deep=1.0, *, middle=0.0, top=10.0, z=0.0, name="round.nc", words="as it should"):
    """A program for the knob, its middle at a Y and the jaw top at a Z of the program."""
    path = folder / name
    text = ROUND.format(
        words=words,
        far="50.",
        near="17.5",
        middle=f"{middle:.3f}",
        top=f"{z + top:.3f}",
        deep=f"{z + deep:.3f}",
    )
    path.write_text(text)
    return path


@pytest.fixture
def job(tmp_path):
    return put(tmp_path, JOB, disc_drawing())


def test_a_clean_program_is_proven_and_it_is_said_that_the_part_was_seated(say, job):
    program = milled(job.parent)
    status, out, err = say("check", program, "--job", job, "--seated")
    assert (status, err) == (0, "")
    *_, taken, unjudged, last = out.splitlines()
    assert last == f"{program}: with the part seated: proven"
    assert "the part (solid, all of its silhouette from its underside up to its top)" in taken
    assert "what is left of the part, and whether it stays gripped" in unjudged
    assert say("check", program, "--job", job)[0] == 1, "for the pocket it is no program"


def test_a_cutter_in_the_jaws_is_found_with_all_that_a_person_needs(say, job):
    program = milled(job.parent, -0.3, words="too deep")
    status, out, _ = say("check", program, "--job", job, "--seated")
    assert status == 1
    found = re.findall(r"round.nc:(\d+):(\d+): stop P711: (.*)", out)
    assert [(line, column) for line, column, _ in found] == [("11", "1")] * 2
    for (_, _, what), name, y in zip(found, ("front", "back"), ("-1.96", "1.96"), strict=True):
        assert what.startswith(f"T2 cuts 0.3 mm into the {name} jaw; so do 2 more lines")
        assert what.endswith(f", at X 45 Y {y} Z 0"), "each jaw has come on by 0.04"
    assert out.count("to mend: stay farther above the jaws or off them") == 2
    assert out.splitlines()[-1].endswith("with the part seated: not proven: 2 stops")


def test_a_rapid_through_the_part_is_found(say, job):
    program = milled(job.parent)
    program.write_text(program.read_text().replace("G1 X50.", "G0 X-50."))
    status, out, _ = say("check", program, "--job", job, "--seated")
    assert status == 1
    assert "stop P501: T2 goes through uncut material at rapid, 3 mm below its top" in out


@pytest.mark.parametrize(
    ("changes", "middle", "z"),
    [
        ({"moving": "both", "y": "back"}, -41.96, 0.0),  # 42 - 0.04: it has come on
        ({"moving": "front", "y": "back"}, -41.96, 0.0),  # the part is pushed 0.04 to the back
        ({"moving": "front", "y": "front"}, 41.96, 0.0),  # 42 - 0.08, and 0.04 of the part
        ({"moving": "back", "y": "back face"}, -1.96, 0.0),
        ({"moving": "both", "y": "mid gap", "z": "bottom"}, 0.0, 30.0),
    ],
)
def test_the_program_s_zero_is_the_setup_s_datum_on_the_shut_jaws(
    say, tmp_path, changes, middle, z
):
    """At rapid along X on either side of the part: the radii of part and cutter, 15 and 3, are just
    clear of each other, and 0.01 less aren't."""
    datum = ", ".join(f'{key} = "{value}"' for key, value in changes.items() if key != "moving")
    text = job_with(
        ("gap = 4 }", f'gap = 4, moving = "{changes["moving"]}" }}'),
        ("rough = {", f"zero = {{ {datum} }}\nrough = {{"),
    )
    job = put(tmp_path, text, disc_drawing())
    for apart, findings in ((18.0005, 0), (17.99, 2)):
        program = milled(tmp_path, middle=middle, z=z)
        ways = [
            f"G0 X50. Y{y:.3f}\nG0 X-50. (past it)\nG0 Z{z + 10:.3f}\nG0 X50.\nG0 Z{z + 1:.3f}\n"
            for y in (middle + apart, middle - apart)
        ]
        around = r"G1 X17.5 F600.\nG3 .*\nG1 X50.\n"
        program.write_text(re.sub(around, "".join(ways), program.read_text()))
        status, out, _ = say("check", program, "--job", job, "--seated")
        assert (status, out.count("stop P501")) == (int(findings > 0), findings), out


def test_without_a_job_or_for_the_lathe_it_is_refused_with_another_way(say, job):
    program = milled(job.parent)
    status, out, err = say("check", program, "--seated")
    assert (status, out) == (2, "")
    assert "add --job JOB.toml" in err
    lathe = SAMPLES / "burr-spindle.toml"
    words = ("check", program, "--job", lathe, "--setup", "spindle-end-b", "--seated")
    status, out, err = say(*words)
    assert (status, out) == (2, "")
    assert "no part is seated in the setup 'spindle-end-b'" in err
    assert "to mend: leave --seated out" in err


@pytest.mark.parametrize(
    ("name", "setup", "tool"),
    [("drive-hub", "end-b-down", 3), ("bearing-bracket", "feet-down", 1)],
)
@pytest.mark.parametrize(("deep", "expected"), [(100.0, 0), (-0.5, 1)])
def test_turned_parts_and_parts_of_several_depths_are_seated_too(
    say, tmp_path, name, setup, tool, deep, expected
):
    """High over the part nothing is met, and below the jaw top their jaws are."""
    path = milled(tmp_path, deep, top=200.0)
    path.write_text(path.read_text().replace("T2", f"T{tool}").replace("H2", f"H{tool}"))
    job = SAMPLES / f"{name}.toml"
    status, out, err = say("check", path, "--job", job, "--setup", setup, "--seated")
    assert (status, err) == (expected, ""), out
    assert ("P711" in out) == bool(expected)
