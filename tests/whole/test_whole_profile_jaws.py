"""Jaws of both kinds for a turned part that is drawn as a half profile, against those for the
table that it was drawn from, and from the command line."""

import pytest
from whole_judged import unmeasured
from whole_profile import MILL, SAMPLE, both_jobs, plain_table
from whole_turned import POSTS, made_from

from jawcam.part.half import AS_DRAWN

VISE = ("end-b-down", "end-a-down", "lying")
CHUCK = ("jaws-end-b", "jaws-end-a")
NEAR = 1e-4
"""mm; the drawing is read to six decimals."""

JAWS_A = """
[[setup]]                                     # the jaws that would hold end A
name = "jaws-end-a"
cut = "chuck jaws"
post = "rs274ngc-lathe"
grips = "A"
depth = 14
jaws = { opening = 11, outer = 70, length = 40, ring = "plug" }
chuck = { max_rpm = 3500 }
speeds = { clamp = 2500 }
bore = { tool = 7 }

[[tool]]
number = 7
kind = "boring"
insert = "CCMT060204"
approach = 95
least_bore = 9
shank = 8
overhang = 30
"""


@pytest.fixture(scope="module")
def jobs(tmp_path_factory):
    """Both ends on the lathe, the chuck's jaws for end B and the vise's jaws, all in one job."""
    text = plain_table(SAMPLE.read_text(encoding="utf-8"), ["turned profile", "chuck jaws"])
    return both_jobs(tmp_path_factory.mktemp("jaws"), text + MILL)


@pytest.fixture(scope="module")
def chucks(tmp_path_factory):
    """The chuck's jaws alone, for either end."""
    text = plain_table(SAMPLE.read_text(encoding="utf-8"), ["chuck jaws"])
    return both_jobs(tmp_path_factory.mktemp("chucks"), text + JAWS_A)


@pytest.fixture(scope="module")
def made(jobs):
    """The vise's jaws of the table's job, and all setups of the drawing's."""
    table, drawn = jobs
    with unmeasured():
        tabled = made_from(table, None, VISE)
    return tabled, made_from(drawn, None)


def near(rows, others):
    """Rows of x, y and bulge, each within `NEAR`."""
    assert len(rows) == len(others)
    for one, other in zip(rows, others, strict=True):
        assert one == pytest.approx(other, abs=NEAR)
    return True


def test_one_job_makes_both_ends_and_both_kinds_of_jaws(made):
    _, drawn = made
    assert list(drawn) == ["spindle-end-b", "jaws-end-b", "spindle-end-a", *VISE]
    assert all(one.proven for one in drawn.values())
    assert all(found.grade != "stop" for one in drawn.values() for found in one.report.findings)


@pytest.mark.parametrize("name", VISE)
def test_the_vise_s_jaws_are_those_of_the_table(made, name):
    table, drawn = (each[name].target for each in made)
    assert len(drawn.levels) == len(table.levels)
    for one, other in zip(drawn.levels, table.levels, strict=True):
        assert (one.top, one.floor) == pytest.approx((other.top, other.floor), abs=NEAR)
        assert len(one.outlines) == len(other.outlines)
        assert all(near(a, b) for a, b in zip(one.outlines, other.outlines, strict=True))
    assert all(near(a, b) for a, b in zip(drawn.silhouette, table.silhouette, strict=True))
    assert len(drawn.body) == len(table.body)
    assert drawn.part_top == pytest.approx(table.part_top, abs=NEAR)
    assert drawn.grip == table.grip


@pytest.mark.parametrize("name", VISE)
def test_what_is_said_is_what_is_said_of_the_table(made, name):
    """And that the drawing says no limits."""
    table, drawn = (each[name].notes for each in made)
    assert [note for note in drawn if note != AS_DRAWN] == list(table)
    assert AS_DRAWN in drawn


def test_standing_it_has_a_step_for_each_piece_that_is_wider_than_those_below(made):
    """On end B the flange is reached; on end A the collar and, in the taper, its first steps."""
    _, drawn = made
    floors = [round(level.floor, 3) for level in drawn["end-b-down"].target.levels]
    assert floors == [-4, -24]
    deep = [round(level.floor, 3) for level in drawn["end-a-down"].target.levels]
    assert deep[-2:] == [-19, -38]
    assert len(deep) > 2
    assert any("taper from 18 mm to 24 mm" in note for note in drawn["end-a-down"].notes)


@pytest.mark.parametrize("name", CHUCK)
@pytest.mark.parametrize("post", POSTS)
def test_the_chuck_s_jaws_are_those_of_the_table_in_every_dialect(chucks, name, post):
    table, drawn = (made_from(path, post, (name,))[name] for path in chucks)
    assert drawn.proven
    assert drawn.report.figures.gouge <= 0.002
    near(drawn.target.finished, table.target.finished)
    near(drawn.target.stock, table.target.stock)
    assert (drawn.target.limit, drawn.target.finished_to) == pytest.approx(
        (table.target.limit, table.target.finished_to), abs=NEAR
    )
    assert blocks(drawn.text) == blocks(table.text)
    assert set(drawn.notes) - set(table.notes) == {AS_DRAWN}


def blocks(text):
    return [line for line in text.splitlines() if not line.startswith("(")]
