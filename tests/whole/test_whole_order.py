"""The way between cuts, from the written programs: shorter than in the order in which the places
were asked for or found, and each tool is loaded once."""

import itertools
import math

import pytest
from whole_jobs import SAMPLES, drawing, job_with, make_all, make_one
from whole_words import blocks

import jawcam.mill.holes
import jawcam.mill.rough
import jawcam.mill.visits

HOLES = [
    (x, y) for x in (-40, 40, -24, 8, 24, -8) for y in (30, -30, 19, -19)
]  # to and fro, as nobody would drill them
DRILLS = (
    'number = 2\nkind = "end mill"\n',
    """number = 8
kind = "drill"
dia = 4

[[tool]]
number = 9
kind = "drill"
dia = 5

[[tool]]
number = 2
kind = "end mill"
""",
)


def asked() -> str:
    """The holes by turns for either drill, every third of them pecked."""
    rows = [
        f"    {{ at = [{x}, {y}], depth = 6, tool = {8 + k % 2}{', peck = 2' * (k % 3 == 0)} }},\n"
        for k, (x, y) in enumerate(HOLES)
    ]
    return "holes = [\n" + "".join(rows) + "]\n"


@pytest.fixture(scope="module")
def drilled(tmp_path_factory):
    document, space = drawing()
    space.add_circle((0, 0), 14)
    post = ('post = "rs274ngc-mill"', 'post = "iso6983-mill"')  # holes as moves
    text = job_with(DRILLS, post) + asked()
    return make_one(tmp_path_factory.mktemp("drilled"), text, document)


def test_holes_are_drilled_by_a_much_shorter_way_than_asked(drilled):
    assert drilled.report.ok
    for tool in (8, 9):
        mine = HOLES[tool - 8 :: 2]
        moves = [b for b in blocks(drilled.text) if b.tool == tool and b.kind == "rapid"]
        places = [b.end[:2] for b in moves if b.start[:2] != b.end[:2]]
        assert sorted(dict.fromkeys(places)) == sorted(mine)
        found, in_turn = (
            sum(math.dist(a, b) for a, b in itertools.pairwise(one)) for one in (places, mine)
        )
        assert found < 0.5 * in_turn


def test_each_drill_is_loaded_once_though_only_some_of_its_holes_are_pecked(drilled):
    lines = drilled.text.splitlines()
    assert sum("M06" in line for line in lines) == 3
    assert sum(line.endswith("(DRILLING)") for line in lines) == 2


def linked(text, link_feed):
    """How far a program goes without cutting between a tool change and the next, seen from above:
    at full speed, or low down at the link feed."""
    return sum(
        math.dist(b.start[:2], b.end[:2])
        for b in blocks(text)
        if not math.isnan(b.start[0]) and (b.kind == "rapid" or b.feed == link_feed)
    )


def test_pockets_walls_and_corners_are_visited_by_a_shorter_way_than_as_they_were_found(
    samples, monkeypatch
):
    def as_found(stops, _here=None):
        return list(range(len(stops)))

    bracket = samples("bearing-bracket")["feet-down"]
    for module in (jawcam.mill.visits, jawcam.mill.rough, jawcam.mill.holes):
        monkeypatch.setattr(module, "in_order", as_found)
    plain = make_all(SAMPLES / "bearing-bracket.toml")[0]
    assert bracket.report.ok
    assert plain.report.ok
    link_feed = bracket.made.job.machine.max_feed
    short, long = (linked(one.text, link_feed) for one in (bracket, plain))
    assert short < 0.95 * long
