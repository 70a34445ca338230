"""The quicker way to rough is taken unless the job says which, and both times are told."""

import re
import shutil

import pytest
from whole_jobs import SAMPLES

ROUGH = "rough = { tool = 3 }"


@pytest.fixture
def made(say, tmp_path):
    """Make the crank lever, changed; what is said."""

    def make(*changes):
        text = (SAMPLES / "crank-lever.toml").read_text(encoding="utf-8")
        for old, new in changes:
            assert old in text
            text = text.replace(old, new)
        (tmp_path / "job.toml").write_text(text, encoding="utf-8")
        shutil.copy(SAMPLES / "crank-lever.dxf", tmp_path)
        code, out, err = say("make", tmp_path / "job.toml", "--out", tmp_path / "out")
        assert code == 0, err
        return out + err

    return make


def minutes(words):
    found = re.fullmatch(r"(?:(\d+) min )?(\d+) s", words)
    assert found is not None
    return int(found[1] or 0) + int(found[2]) / 60


def test_a_deep_pocket_is_roughed_at_a_steady_load(made):
    said = made(("depth = 8,", "depth = 16,"))
    found = re.search(r"roughs at a steady load: (.*?), by rings (.*? s)\b", said)
    assert found is not None
    assert minutes(found[1]) < minutes(found[2])
    (why,) = re.findall(r"side-one: (T3: .*roughs at a steady load.*)", said)
    assert "full width" not in why  # nowhere does it cut all across at that feed
    bites = re.search(r"T3: .*bites at most ([\d.]+) mm wide \(line \d+\), ([\d.]+) mm deep", said)
    assert bites is not None
    assert float(bites[2]) > 15  # all of it in one go


def test_a_shallow_one_goes_by_rings(lever):
    said = next(note for note in lever.made.notes if "roughs" in note)
    found = re.search(r"roughs by rings: (.*?), a steady load would take more than (.*? s)\b", said)
    assert found is not None
    assert minutes(found[1]) <= minutes(found[2])


def test_a_load_asked_for_that_needs_rings_somewhere_says_so(made):
    # with a cutter as wide there is no room to wind down a helix
    said = made(("dia = 8", "dia = 26"), (ROUGH, 'rough = { tool = 3, way = "steady" }'))
    assert "roughs at a steady load, as asked, 1 of 1 places by rings, for want of room" in said


def test_a_pass_left_out_of_a_steady_load_is_found_by_the_check(made, say, tmp_path):
    made((ROUGH, 'rough = { tool = 3, way = "steady" }'))
    path = tmp_path / "out" / "side-one.nc"
    lines = path.read_text(encoding="utf-8").splitlines(keepends=True)
    feed = max(re.findall(r"^G3 .*F(\d+)$", "".join(lines), re.MULTILINE), key=int)
    first = next(k for k, line in enumerate(lines[150:], 150) if line.endswith(f"F{feed}\n"))
    ends = next(k for k in range(first + 1, len(lines)) if lines[k].startswith("G1 "))
    assert ends - first == 3  # a bow of three arcs
    path.write_text("".join(lines[:first] + lines[ends:]), encoding="utf-8")
    code, out, err = say("check", path, "--job", tmp_path / "job.toml", "--setup", "side-one")
    found = re.search(r":(\d+):1: warn P611: T3 bites ([\d.]+) mm wide", out + err)
    assert found is not None
    assert first < int(found[1]) < ends + 20
    assert float(found[2]) > 1.8
    assert code == 0  # a warning: look before it runs
