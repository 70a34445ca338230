"""Wrong lathe jobs by the command line: told with their place and how to mend it, exit status 2,
nothing written."""

import re

import pytest
from test_whole_turned_cuts import PIN
from whole_jobs import SAMPLES, drawing, job_with
from whole_told import refused

SPINDLE = (SAMPLES / "burr-spindle.toml").read_text(encoding="utf-8")
BORED = "bore = [ { dia = 16, len = 6 } ]\n\n[[tool]]\nnumber = 1"
NARROW = "{ dia = 16, len = 6 }, { dia = 12, len = 1.5 }, { dia = 16, len = 2, round = 0.5 }"


@pytest.mark.parametrize(
    ("change", "place", "what", "mend"),
    [
        (
            ("stock = { dia = 18", "stock = { dia = 15"),
            "job.toml:35: setup[1].stock.dia",
            "the stock, 15 mm across, is thinner than the part, 16 mm",
            "take stock of 16 mm or more",
        ),
        (
            ("[[tool]]\nnumber = 1", BORED),
            "job.toml:10:18: part.bore[1].dia",
            "the bore is as wide as the part is there, 10 mm",
            "make it smaller",
        ),
        (
            ('"DCMT11T304"', '"XCMT11T304"'),
            "job.toml:13:11: tool[1].insert",
            'in "XCMT11T304", character 1',
            "choose from C, D, E",
        ),
        (
            ("{ dia = 10, len = 12, chamfer", '{ dia = 10, len = 12, thread = "M10z1", chamfer'),
            "job.toml:7:43: part.turned[1].thread",
            '"M10z1" is no designation of a thread',
            "M20x2.5 6g",
        ),
        (
            ("{ dia = 16, len = 8, round = 1 }", NARROW),
            "setup[1]: Z -18.",
            "the groove is 1.5 mm wide half-way down, the insert 2 mm",
            "take a grooving tool at most 1.5 mm wide",
        ),
        (
            ("chuck = { grip = 30 }", "chuck = { grip = 30 }\nreach = 90"),
            "setup[1].reach",
            "the part is only 26 mm long",
            "make it smaller",
        ),
    ],
)
def test_a_wrong_job_is_told(say, tmp_path, change, place, what, mend):
    err = refused(say, tmp_path, job_with(change, text=PIN), None)
    assert err.count("error: ") == 1
    assert place in err
    assert what in err
    assert mend in err.partition("to mend: ")[2]


def test_a_profile_that_goes_back_on_itself_is_told(say, tmp_path):
    """A drawn face groove would need that too: none can be asked for."""
    document, space = drawing()
    points = [(0, 0), (0, 9), (12, 9), (12, 12), (8, 12), (8, 15), (30, 15), (30, 0)]
    space.add_lwpolyline(points, close=True)
    tabled = re.search(r"turned = \[.*?\n {11}.*?\]\n", PIN, re.DOTALL).group()
    text = job_with((tabled, 'profile = "part.dxf"\naxis = "y = 0"\n'), text=PIN)
    err = refused(say, tmp_path, text, document)
    assert "part.dxf" in err
    assert "the profile runs back along its axis" in err
    assert "X 12 Y 12" in err


def test_all_that_is_wrong_is_told_in_one_run(say, tmp_path):
    text = job_with(
        ("chuck = { grip = 30, ", "chuck = { "),
        ('insert = "CNMG120408"', 'insert = "CNMG"'),
        ('kind = "threading"', 'kind = "threading"\nturns = "counter-clockwise"'),
        text=SPINDLE,
    )
    err = refused(say, tmp_path, text, None)
    assert err.count("error: ") == 3
    for key in ("setup[1].chuck.grip", "tool[1].insert", "tool[4].turns"):
        assert key in err
