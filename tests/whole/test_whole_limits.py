"""What machine and cutter bear, from the job file to the feeds in the text: told, and kept."""

from __future__ import annotations

import math
import re
import shutil

import pytest
from whole_jobs import SAMPLES
from whole_judged import unmeasured

from jawcam.errors import InputError
from jawcam.make import make

DIRECT = "rough = { tool = 3 }"
FINISH = "finish = { tool = 4, spring = 1, compensation = 23 }"


def made(folder, *changes):
    """The crank lever's jaws, of a job with some of its texts changed."""
    text = (SAMPLES / "crank-lever.toml").read_text(encoding="utf-8")
    for old, new in changes:
        assert text.count(old) == 1, old
        text = text.replace(old, new)
    shutil.copy(SAMPLES / "crank-lever.dxf", folder)
    path = folder / "job.toml"
    path.write_text(text, encoding="utf-8")
    with unmeasured():
        (one,) = make(path, shown=path.name, post=None, setups=(), outside=False)
    assert one.proven
    return one


def machine(words):
    return "[[setup]]", f"[machine]\n{words}\n\n[[setup]]"


def feeds(one, tool):
    """The feeds of a tool's level cuts, the crossing of what is cut already left out."""
    most = one.job.machine.max_feed
    cuts = [c for c in one.program.cuts if c.tool == tool and c.kind != "rapid"]
    return {c.feed for c in cuts if c.start[2] == c.end[2] and c.feed < most}


@pytest.fixture(scope="module")
def plain(tmp_path_factory):
    return made(tmp_path_factory.mktemp("plain"))


def test_each_tool_has_one_line_of_reasons_and_the_sheet_gets_the_same(plain):
    lines = [note for note in plain.notes if re.match(r"T\d+: ", note)]
    assert lines == [reasons.line for reasons in plain.why]
    assert [reasons.number for reasons in plain.why] == [3, 4]
    assert plain.why[0].rpm == (
        "7958 rpm: 200 m/min for carbide in aluminium 6061 (common practice, no source)"
    )
    assert plain.why[0].feed == (
        "feed 1559 mm/min: 3 x 0.064 mm a tooth (a shop chart) x 1.02 for thin chips at 3.2 mm wide"
    )
    assert plain.why[1].more[-2:] == ("wall 1219 mm/min", "power not judged: none given")
    assert 1559 in feeds(plain, 3)


def test_roughing_is_fed_for_its_bites_and_the_wall_for_its_arcs(plain):
    """REFERENCE M16, M17, within 0.25 and 1.5, and a tenth less at most where blocks that hardly
    differ share a feed. Arcs of the lead, of the cutter's radius, aside."""
    rough = feeds(plain, 3)
    assert max(rough) > 1.5 * 1559, "where chips are thin"
    assert min(rough) < 0.6 * 1559
    radius = 3.0
    wall = [c for c in plain.program.cuts if c.tool == 4 and c.side == "left" and c.kind == "arc"]
    arcs = [(math.dist(c.start[:2], c.centre), c.turn > 0, c.feed) for c in wall]
    seen = [one for one in arcs if abs(one[0] - radius) > 0.01]
    assert {ccw for _, ccw, _ in seen} == {True, False}
    for way, ccw, feed in seen:
        share = way / (way + radius) if ccw else way / max(way - radius, 1e-9)
        due = 1219.2 * min(max(share, 0.25), 1.5)
        assert due / 1.1 - 1 <= feed <= due + 1


def test_a_weak_spindle_holds_the_feed_and_says_so(tmp_path):
    """REFERENCE M19's power, kc ae ap vf / 60e6, with N22's kc at the mean chip: 0.60 kW and more
    at the table's feed."""
    rings = (DIRECT, 'rough = { tool = 3, way = "rings" }')
    weak = made(tmp_path, machine('power = "0.4 kW"\nefficiency = 1'), rings)
    said = weak.why[0].feed
    assert said.startswith("feed held to ")
    assert ": power 0.4 kW; 1559 mm/min were due" in said
    held = float(re.search(r"held to (\d+)", said)[1])
    flutes = 3
    chip = 2 * held / (flutes * 7957.7) * 3.2 / (8 * math.acos(1 - 2 * 3.2 / 8))
    power = 800 * chip**-0.25 * 3.2 * 4 * held / 60e6
    assert power == pytest.approx(0.4, rel=0.002)
    assert 1559 not in feeds(weak, 3)


def test_a_torque_counts_at_the_speed(tmp_path):
    torque = made(tmp_path, machine('torque = "0.4 N m"'))
    assert "torque 0.4 N m" in torque.why[0].feed


def test_a_cutter_that_stands_out_far_is_fed_slower_or_told_of(plain, tmp_path):
    long = made(tmp_path, ("stickout = 30", "stickout = 70"), ("stickout = 24", "stickout = 48"))
    assert "deep at a time: 0.1 mm bend at 70 mm stick-out" in long.why[0].feed
    assert max(feeds(long, 3)) < 0.6 * max(feeds(plain, 3))
    assert "bend at 48 mm stick-out" in long.why[1].feed
    (caution,) = [n for n in made_cautions(long) if "T4" in n and "wall" in n]
    assert re.search(r"comes to 0\.\d+ mm bend at 48 mm stick-out, more than 0\.\d+ mm", caution)


def made_cautions(one):
    return [note for note in one.notes if note.startswith("caution: T")]


def test_a_weak_spindle_bears_the_widest_bite_of_a_steady_load_too(tmp_path):
    """REFERENCE M19's power, kc ae ap vf / 60e6, with N22's kc at the mean chip; a bite may be
    1.095 times as wide as asked."""
    weak = made(
        tmp_path,
        machine('power = "0.3 kW"\nefficiency = 1'),
        (DIRECT, 'rough = { tool = 3, way = "steady" }'),
    )
    said = weak.why[0].feed
    assert ": power 0.3 kW; " in said
    held = float(re.search(r"feed held to (\d+)", said)[1])
    wide, deep, flutes = 1.095 * 0.96, 7.9, 3
    chip = 2 * held / (flutes * 7957.7) * wide / (8 * math.acos(1 - 2 * wide / 8))
    assert 800 * chip**-0.25 * wide * deep * held / 60e6 == pytest.approx(0.3, rel=0.02)
    rough = [c for c in weak.program.cuts if c.tool == 3 and c.kind == "arc"]
    level = [c.feed for c in rough if c.start[2] == c.end[2]]
    assert max(level) == pytest.approx(held, abs=0.5)


def test_the_wall_keeps_to_the_tolerance_asked(tmp_path):
    fine = made(tmp_path, (FINISH, "finish = { tool = 4, tolerance = 0.02, compensation = 23 }"))
    said = fine.why[1].more[-2]
    assert said.startswith("wall held to ")
    assert said.endswith("0.01 mm bend at 24 mm stick-out, 0.5 of 0.02 mm tolerance")
    held = float(re.search(r"held to (\d+)", said)[1])
    assert held < 1219
    assert held in {round(feed) for feed in feeds(fine, 4)}


def test_numbers_of_the_job_stand_and_what_they_ask_too_much_is_told(tmp_path):
    own = made(
        tmp_path,
        machine('power = "0.4 kW"'),
        (DIRECT, "rough = { tool = 3, feed = 1500, stepdown = 4 }"),
    )
    assert 1500 in feeds(own, 3)
    assert own.why[0].feed == "feed 1500 mm/min: from the job"
    assert any("kW and" in note and "more than power 0.4 kW" in note for note in made_cautions(own))


def test_what_is_not_judged_is_told(tmp_path):
    short = made(tmp_path, ("stickout = 30\n", ""))
    assert "bend not judged: no stickout given" in short.why[0].more
    assert "power not judged: none given" in short.why[0].more
    given = made(tmp_path, machine('power = "2 kW"'))
    assert not any("not judged" in one for reasons in given.why for one in reasons.more)
    soft = made(tmp_path, ("jaws = { width", 'jaws = { material = "acetal", width'))
    for reasons in soft.why:
        assert "load not judged: no cutting force known of acetal" in reasons.more


def test_a_curve_with_a_speed_twice_is_refused(tmp_path):
    rows = "curve = [ { rpm = 1000, power = 1 }, { rpm = 1000, power = 2 } ]\nmin_rpm = 9000"
    with pytest.raises(InputError) as caught:
        made(tmp_path, machine(rows))
    said = str(caught.value)
    assert "the curve has 1000 rpm already" in said
    assert "highest spindle speed is 8000 rpm" in said
