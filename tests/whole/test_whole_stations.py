"""Parts with several depths, in one station or two: what their programs cut, by the text alone."""

import dataclasses
import itertools
import math
import re

import pytest
from whole_jobs import SAMPLES, make_all, only
from whole_judged import found
from whole_words import blocks

from jawcam.job.load import load
from jawcam.make import setups_named, target_of


@pytest.fixture(scope="module")
def hub(samples):
    """The drive hub, a turned part: on its end B, then on its end A."""
    return samples("drive-hub")


@pytest.fixture(scope="module")
def bracket(samples):
    """The bearing bracket: two stations in one program."""
    return samples("bearing-bracket")


def edited(tmp_path, name, *changes):
    """The file of a sample with some of its texts changed."""
    text = (SAMPLES / f"{name}.toml").read_text(encoding="utf-8")
    for old, new in changes:
        assert old in text
        text = text.replace(old, new)
    for drawing in SAMPLES.glob("*.dxf"):
        (tmp_path / drawing.name).write_bytes(drawing.read_bytes())
    path = tmp_path / f"{name}.toml"
    path.write_text(text, encoding="utf-8")
    return path


def made(path, setups=()):
    return {whole.name: whole for whole in make_all(path, setups=setups)}


def judged(whole, text, stations):
    """The report on another text of a program that serves the given stations, without figures."""
    offsets = {one.target.work_offset for one in stations.values()}
    others = offsets - {whole.target.work_offset}
    return found(whole.read_again(text), whole.target, others=others)


def stops(report):
    return {finding.code for finding in report.findings if finding.grade == "stop"}


# --- levels ------------------------------------------------------------------------------------


def test_the_hub_stands_on_either_end_and_both_programs_are_proven(hub):
    assert list(hub) == ["end-b-down", "end-a-down"]
    assert all(whole.report.ok and not whole.report.findings for whole in hub.values())


def test_levels_of_the_hub_are_counted_and_measured_from_the_text(hub):
    """On end B: half of the flange (3 mm), the taper from 28 to 27 mm in 5 steps of 2 mm, the
    shank of 9 mm. Their radii grow by 0.00625 (H7 on 38 mm: its middle is 0.0125)."""
    levels = hub["end-b-down"].figures.levels
    assert [z for z, _ in levels] == pytest.approx([-3, -5, -7, -9, -11, -13, -22])
    # in the jaws alone: the strip of the gap, 8 mm wide, is no floor
    radii = [19, 14, 13.9, 13.8, 13.7, 13.6, 9.99475]
    areas = [ring_in_jaws(r + 0.00625, 4) for r in radii]
    measured = [area for _, area in levels]
    shelves = [a - b for a, b in itertools.pairwise([*areas, 0.0])]
    assert measured == pytest.approx(shelves, abs=0.02)


def ring_in_jaws(radius, half_gap):
    """The area of a disc outside a strip through its middle."""
    angle = math.asin(half_gap / radius)
    strip = 2 * (radius**2 * angle + half_gap * math.sqrt(radius**2 - half_gap**2))
    return math.pi * radius**2 - strip


def test_levels_of_the_other_end(hub):
    levels = hub["end-a-down"].figures.levels
    assert [z for z, _ in levels] == pytest.approx([-3, -11])


def test_no_cut_goes_below_the_floor_under_it(hub):
    """Where the cutter's centre is farther out than a level lets it, it stays above its floor."""
    whole = hub["end-b-down"]
    radius = {3: 4.0, 4: 3.0}
    for block in blocks(whole.text):
        if block.kind == "rapid" or block.end[2] >= 0:
            continue
        reach = max(abs(complex(*p[:2])) for p in block.points(0.001)) + radius[block.tool]
        floors = [
            level.floor
            for level in whole.target.levels
            if reach <= level.outlines[0][0][0] + 0.00625 + 0.001
        ]
        assert min(block.start[2], block.end[2]) >= min(floors) - 1e-6


PLANTED = (
    ("Z-9.", "Z-9.01", "P404"),
    ("Z-22.", "Z-22.01", "P401"),
    ("Z-22.", "Z-21.99", "P403"),
)


@pytest.mark.parametrize(("old", "new", "code"), PLANTED)
def test_a_level_a_hundredth_off_turns_the_proof_red(hub, old, new, code):
    whole = hub["end-b-down"]
    report = judged(whole, whole.text.replace(old, new), hub)
    assert code in stops(report)


def test_a_wall_a_hundredth_too_wide_above_its_floor_turns_the_proof_red(hub):
    """The wall of the fourth level: radius 13.80625, cut with 6 mm."""
    whole = hub["end-b-down"]
    line = only(whole.text, r"^\(wall, level 4 of 7\)")
    ring = next(
        n
        for n, text in enumerate(whole.text.splitlines(), 1)
        if n > line and re.search(r"I-10\.806", text)
    )
    lines = whole.text.splitlines()
    wide = [text.replace("10.806", "10.816") for text in lines[line : ring + 3]]
    report = judged(whole, "\n".join([*lines[:line], *wide, *lines[ring + 3 :]]) + "\n", hub)
    (gouge,) = [f for f in report.findings if f.code == "P201"]
    assert gouge.amount == pytest.approx(0.01, abs=0.001)
    assert gouge.z == pytest.approx(-9)


# --- stations ----------------------------------------------------------------------------------


def test_one_program_serves_both_stations_and_is_proven_for_each(bracket):
    assert len({whole.text for whole in bracket.values()}) == 1
    assert {whole.made.file for whole in bracket.values()} == {"bearing-bracket"}
    assert all(whole.report.ok and not whole.report.findings for whole in bracket.values())


def test_each_tool_is_loaded_once(bracket):
    loads = re.findall(r"^T(\d+) M6", bracket["feet-down"].text, re.MULTILINE)
    assert loads == ["9", "8", "1", "4", "7"]


def test_the_tool_rises_clear_before_it_goes_to_another_station(bracket):
    """Z 0 in machine coordinates comes before every word for another work offset."""
    lines = [line for line in bracket["feet-down"].text.splitlines() if line]
    for number, line in enumerate(lines):
        if line in ("G54", "G55") and number > lines.index("G54"):
            before = lines[:number]
            last = max(k for k, text in enumerate(before) if text == "G53 G0 Z0.")
            assert not [text for text in before[last + 1 :] if re.match(r"G[0-3] |[XYZ]", text)]


def test_levels_of_the_bracket_are_measured_from_the_text(bracket):
    heights = {name: [z for z, _ in whole.figures.levels] for name, whole in bracket.items()}
    assert heights["feet-down"] == pytest.approx([0, -3, -9])
    assert heights["boss-down"] == pytest.approx([0, -3, -11])


def test_swapped_stations_turn_the_proof_red(bracket):
    text = bracket["feet-down"].text
    swapped = text.replace("G54", "G5X").replace("G55", "G54").replace("G5X", "G55")
    for whole in bracket.values():
        assert not judged(whole, swapped, bracket).ok


def test_a_hole_a_tenth_too_deep_or_left_out_turns_the_proof_red(bracket):
    whole = bracket["feet-down"]
    line = only(whole.text, r"^G98 G83 X50\.")
    lines = whole.text.splitlines()
    deep = re.sub(r"Z-[\d.]+", "Z-13.602", lines[line - 1])
    for changed in (deep, ""):
        text = "\n".join([*lines[: line - 1], changed, *lines[line:]]) + "\n"
        assert not judged(whole, text, bracket).ok


def test_the_same_stations_can_have_a_program_each(tmp_path, bracket):
    apart = made(edited(tmp_path, "bearing-bracket", ("together = true", "together = false")))
    assert {whole.made.file for whole in apart.values()} == {"feet-down", "boss-down"}
    for name, whole in apart.items():
        assert whole.report.ok
        assert whole.target == bracket[name].target
        assert whole.figures.volume == pytest.approx(bracket[name].figures.volume, rel=1e-9)


def test_a_turned_part_may_lie_down(tmp_path):
    """Its silhouette, deep enough that the walls reach its axis; 38 mm is its widest."""
    lying = ('hold = { depth = "9 + 10 + flange / 2" }', "hold = { depth = 20, lie = true }")
    fit = ('fit = { grip = "H7/g6", size = 38 }', "fit = { grip = 0.05, side = 0.1 }")
    path = edited(tmp_path, "drive-hub", lying, fit, ("dia = 6\n", "dia = 4\n"))
    whole = made(path, ["end-b-down"])["end-b-down"]
    assert whole.report.ok
    assert len(whole.target.levels) == 1
    assert whole.target.part_top == pytest.approx(38 - 20)  # the floor is raised for that
    assert whole.target.floor == pytest.approx(-20 + 19 - math.sqrt(361 - 16))
    (outline,) = whole.target.levels[0].outlines
    xs = [x for x, _, _ in outline]
    assert max(xs) - min(xs) == pytest.approx(33)


# --- the gap -----------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("name", "old"), [("drive-hub", "gap = 8 "), ("bearing-bracket", "gap = 6\n")]
)
def test_changing_only_the_gap_moves_the_blanks_and_nothing_else(tmp_path, samples, name, old):
    """Part, levels, holes and tools stay where they are; what the closing leaves of the gap
    follows it."""
    number = float(old.split("=")[1])
    path = edited(tmp_path, name, (old, old.replace(f"{number:g}", f"{number + 2:g}")))
    wide = load(path)
    for setup in setups_named(wide, []):
        first, second = samples(name)[setup.name].target, target_of(wide, setup)
        assert second.blanks.gap == first.blanks.gap + 2
        assert dataclasses.replace(second, blanks=first.blanks, notes=first.notes) == first
        changed = [(a, b) for a, b in zip(first.notes, second.notes, strict=True) if a != b]
        (told,) = changed
        gaps = [float(re.search(r"leaving ([\d.]+) mm of gap", text)[1]) for text in told]
        assert gaps[1] - gaps[0] == pytest.approx(2)


def test_a_program_for_some_stations_is_not_called_like_the_one_for_all(bracket):
    """Made into one folder, it must not take the other's place."""
    job = SAMPLES / "bearing-bracket.toml"
    (alone,) = make_all(job, setups=("boss-down",))
    assert alone.made.file == "boss-down"
    assert alone.report.ok
    assert alone.target == bracket["boss-down"].target
