"""A bush of a hand-cranked coffee grinder whose bore is made from both ends: a bearing's seat at
end B, a thread with its relief at end A; and a bore that goes through, made from end B alone."""

import pytest
from whole_told import refused
from whole_turned import POSTS, made, stops

TOOLS = """
[[tool]]
number = 1
kind = "turning"
insert = "DCMT11T304"
approach = 93

[[tool]]
number = 3
kind = "drill"
dia = 14
flute_len = 60

[[tool]]
number = 5
kind = "boring"
insert = "CCMT060204"
approach = 95
least_bore = 12
shank = 10
overhang = 45

[[tool]]
number = 6
kind = "threading"
inside = true
least_bore = 15
shank = 12
overhang = 40

[[tool]]
number = 7
kind = "grooving"
inside = true
width = 2
radius = 0.2
reach = 3
least_bore = 15
shank = 10
overhang = 40
"""

SEATED = """
    { dia = [19.2, 18.2], len = 0.5 },
    { dia = 18, len = 11.5, thread = "M18x1.5 6H" },
    { dia = 18.6, len = 4 },
    { dia = 16, len = 8 },
    { dia = 22, len = 10, limits = [0.021, 0] },
"""


def job(bore, first, second):
    return f"""title = "Bush of the burr shaft"
units = "mm"

[part]
material = "brass 360"
edge = 0.3
turned = [ {{ dia = 30, len = 12 }}, {{ dia = 38, len = 12 }}, {{ dia = 30, len = 10 }} ]
bore = [{bore}]
{TOOLS}
[[setup]]
name = "end-b"
cut = "turned profile"
post = "rs274ngc-lathe"
end = "B"
stock = {{ dia = 40, allowance = 1 }}
chuck = {{ grip = 10, max_rpm = 3000 }}
reach = 20
{first}

[[setup]]
name = "end-a"
cut = "turned profile"
post = "rs274ngc-lathe"
end = "A"
stock = {{ dia = 40, allowance = 1 }}
chuck = {{ grip = 10, max_rpm = 3000 }}
{second}
"""


DRILL, BORE = "drill = { tool = 3, peck = 8 }\n", "bore = { tool = 5 }\n"


def farthest(one, tool):
    """How far along Z a tool feeds, and the largest radius that it comes to in there."""
    cuts = [cut for cut in one.program.cuts if cut.tool == tool and cut.kind != "rapid"]
    return min(cut.end[2] for cut in cuts), max(cut.end[0] for cut in cuts if cut.end[2] < -1)


@pytest.mark.parametrize("post", POSTS)
def test_a_bore_is_made_from_both_ends(post):
    """The bush is 34 mm long: end B bores its seat, dia 22.0105 amid its limits, and 16 through;
    end A the thread and its relief, 16 mm deep, with nothing of it drilled again."""
    ends = made(job(SEATED, DRILL + BORE, BORE), post)
    assert [stops(one) for one in ends.values()] == [[], []]
    deep, wide = farthest(ends["end-b"], 5)
    assert deep < -34
    assert wide == pytest.approx(22.0105 / 2, abs=1e-3)
    assert not any(cut.tool in (6, 7) for cut in ends["end-b"].program.cuts)
    assert [one.designation for one in ends["end-b"].target.threads] == []
    assert [one.designation for one in ends["end-a"].target.threads] == ["M18x1.5 6H"]
    deep, _ = farthest(ends["end-a"], 5)
    assert -17 < deep < -11
    assert not any(cut.tool == 3 for cut in ends["end-a"].program.cuts)


def test_the_second_end_is_faced_down_to_the_hole_in_it():
    """The middle of its nose, 0.4 mm, goes a tenth of a millimetre past the rim."""
    ends = made(job(SEATED, DRILL + BORE, BORE), POSTS[0])
    faced = [c for c in ends["end-a"].program.cuts if c.kind == "line" and abs(c.end[2]) < 1e-6]
    assert min(cut.end[0] for cut in faced) == pytest.approx(8 - 0.1 - 0.4, abs=1e-3)


@pytest.mark.parametrize(
    ("first", "second"), [(DRILL + BORE, ""), (DRILL, BORE), ("", DRILL + BORE)]
)
def test_a_bore_through_is_made_by_either_end(first, second):
    ends = made(job(" { dia = 16, len = 34 } ", first, second), POSTS[0])
    assert [stops(one) for one in ends.values()] == [[], []]
    # the boring tool comes in clear of the stock as it was before it was faced
    assert {f.code for one in ends.values() for f in one.report.findings} <= {"T302"}
    (bored,) = [one for one in ends.values() if any(c.tool == 5 for c in one.program.cuts)]
    deep, wide = farthest(bored, 5)
    assert deep < -34
    assert wide == pytest.approx(8)


@pytest.mark.parametrize(
    ("bore", "first", "second", "place", "what"),
    [
        (
            " { dia = 16, len = 20 } ",
            DRILL + BORE,
            "",
            "setup[1].drill",
            "the bore begins at end A and does not go through",
        ),
        (
            " { dia = 16, len = 34 } ",
            DRILL,
            DRILL + BORE,
            "setup[2].drill",
            "'end-b' has drilled the bore already",
        ),
    ],
)
def test_a_bore_that_cant_be_made_so_is_told(say, tmp_path, bore, first, second, place, what):
    err = refused(say, tmp_path, job(bore, first, second), None)
    assert place in err
    assert what in err
