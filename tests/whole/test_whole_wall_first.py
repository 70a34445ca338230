"""finish.first = "wall": the same pocket, each level's wall before its floor, proven both ways."""

import math
import re

import pytest
from whole_jobs import SAMPLES, drawing, job_with, make_all, make_one
from whole_words import blocks

import jawcam.mill.plan
from jawcam.mill.pocket import floors_and_walls

SETUPS = {"crank-lever": "side-one", "bearing-bracket": "boss-down"}


def made(folder, name, *changes):
    """One of a sample's setups, by a job with some of its texts changed."""
    text = (SAMPLES / f"{name}.toml").read_text(encoding="utf-8")
    for old, new in changes:
        assert text.count(old) >= 1, old
        text = text.replace(old, new)
    for sheet in SAMPLES.glob("*.dxf"):
        (folder / sheet.name).write_bytes(sheet.read_bytes())
    path = folder / "job.toml"
    path.write_text(text, encoding="utf-8")
    return next(one for one in make_all(path) if one.name == SETUPS[name])


LEVER = ("finish = { tool = 4, spring = 1,", 'finish = { first = "wall", tool = 4, spring = 1,')
BRACKET = ("edges = { width = 0.3 }", 'edges = { width = 0.3 }\nfinish = { first = "wall" }')


@pytest.fixture(scope="module")
def lever(tmp_path_factory):
    return made(tmp_path_factory.mktemp("lever"), "crank-lever", LEVER)


def passes(text):
    names = [line.strip("()").lower() for line in text.splitlines()]
    return [name for name in names if name.split(",")[0] in ("floor", "wall")]


def cuts(text, name):
    return [b for b in blocks(text) if b.section == name and b.kind != "rapid"]


def level_places(text, name, z):
    """Where a pass cuts level at a height."""
    mine = [b for b in cuts(text, name) if b.level and math.isclose(b.end[2], z)]
    return [(tuple(b.end[:2]), b.kind, b.feed) for b in mine]


def test_the_samples_are_proven_with_either_first(samples, lever, tmp_path):
    assert lever.report.ok
    assert passes(lever.text) == ["wall", "floor"]
    assert passes(samples("crank-lever")["side-one"].text) == ["floor", "wall"]
    bracket = made(tmp_path, "bearing-bracket", BRACKET)
    assert bracket.report.ok
    order = passes(bracket.text)[-4:]
    assert order == [f"{what}, level {k} of 2" for k in (1, 2) for what in ("wall", "floor")]


def test_the_wall_itself_runs_as_it_does_after_the_floor(samples, lever):
    first, last = lever.text, samples("crank-lever")["side-one"].text
    ways = [
        [(at, kind) for at, kind, _ in level_places(text, "wall", -8)] for text in (first, last)
    ]
    # but for the lead and the way to it, each begun where there was most room for it
    assert len(set(ways[0]) & set(ways[1])) >= 12
    assert sum(place in ways[0] for place in ways[1]) >= 0.8 * len(ways[1])


def test_the_floor_keeps_a_stepover_off_the_finished_wall(lever):
    stepover = 2.4  # 0.4 of 6 mm
    floor = [at for at, _, _ in level_places(lever.text, "floor", -8)]
    along = [at for at, _, _ in level_places(lever.text, "wall", -8)]
    # the two flanks of the lever: straight, 3 mm off which the wall pass runs
    rim = max(y for _, y in along)
    assert max(y for _, y in floor) == pytest.approx(rim - stepover, abs=0.01)


@pytest.mark.parametrize("leave", [0.1, 0.9])
def test_what_stands_at_the_floor_is_come_down_into_and_told(lever, tmp_path, leave):
    """0.9 mm is more than the cutter hovers above a floor."""
    whole = lever
    if leave != 0.1:
        more = ("rough = { tool = 3 }", f"rough = {{ tool = 3, leave_floor = {leave} }}")
        whole = made(tmp_path, "crank-lever", LEVER, more)
    assert whole.report.ok
    wall = [b for b in blocks(whole.text) if b.section == "wall"]
    assert min(b.end[2] for b in wall if b.kind == "rapid") >= -8 + leave
    falls = [b for b in wall if b.kind != "rapid" and b.end[2] < b.start[2]]
    assert falls
    assert all(b.arc or b.start[:2] != b.end[:2] for b in falls)
    notes = " ".join(whole.made.notes)
    assert f"wall before floor: its foot takes {leave:g} mm of that all across" in notes


def test_more_left_on_the_floor_is_fed_slower_along_the_wall_and_not_in_the_spring_pass(
    lever, tmp_path
):
    more = ("rough = { tool = 3 }", "rough = { tool = 3, leave_floor = 0.9 }")
    deep = made(tmp_path, "crank-lever", LEVER, more)

    def fed(whole):
        found = {}
        for at, kind, feed in level_places(whole.text, "wall", -8):
            found.setdefault((at, kind), []).append(feed)
        return {key: feeds for key, feeds in found.items() if len(feeds) == 2}

    some, much = fed(lever), fed(deep)
    both = some.keys() & much.keys()
    assert len(both) > 8
    assert all(much[key][0] < some[key][0] for key in both if key[1] == "line")
    assert all(much[key][1] == some[key][1] for key in both)


def test_the_bend_beside_the_wall_is_judged_with_the_floor_in_it(tmp_path):
    """Both held by how far a long cutter bends; with 0.9 mm of floor all across a lot more so."""
    long = ("stickout = 24", "stickout = 40")
    more = ("rough = { tool = 3 }", "rough = { tool = 3, leave_floor = 0.9 }")
    held = []
    for changes in ((more, long), (more, long, LEVER)):
        (tmp_path / str(len(held))).mkdir()
        whole = made(tmp_path / str(len(held)), "crank-lever", *changes)
        words = " ".join(whole.made.why[1].more)
        held.append(float(re.search(r"wall held to (\d+) mm/min", words)[1]))
    assert held[1] < 0.8 * held[0]


def test_a_spot_that_the_wall_s_own_pass_clears_needs_no_way_down(tmp_path):
    """A blind slot of 8 mm round a corner: 5 mm along its walls leave nothing but a spot inside
    the bend, which no helix fits in."""
    document, space = drawing()
    rows = [(-40, -14), (0, -14), (0, 4), (24, 4), (24, -12), (32, -12), (32, 12), (0, 12), (0, 14)]
    space.add_lwpolyline([*rows, (-40, 14)], close=True)
    text = job_with(
        ("dia = 6\n", "dia = 5\n"),
        ("rough = { stepdown = 5 }", 'finish = { first = "wall" }'),
    )
    whole = make_one(tmp_path, text, document)
    assert whole.report.ok
    floor = [at for at, _, _ in level_places(whole.text, "floor", -5)]
    assert floor
    assert max(x for x, _ in floor) < 0


def test_the_floor_left_out_after_the_wall_is_found(tmp_path, monkeypatch):
    def without_floor(work):
        return (one for one in floors_and_walls(work) if not one.name.startswith("floor"))

    passes = tuple(
        without_floor if one is floors_and_walls else one for one in jawcam.mill.plan.PASSES
    )
    monkeypatch.setattr(jawcam.mill.plan, "PASSES", passes)
    report = made(tmp_path, "crank-lever", LEVER).report
    assert not report.ok
    assert "P301" in {finding.code for finding in report.findings}
