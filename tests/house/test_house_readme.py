"""What README.md tells people to type works as it stands there."""

from __future__ import annotations

import os
import re
import shlex
import subprocess
import sys

import pytest
from house_help import ROOT

from jawcam.cli import COMMANDS
from jawcam.job.load import load
from jawcam.make import make

README = (ROOT / "README.md").read_text(encoding="utf-8")


def blocks(kind: str) -> list[str]:
    return re.findall(rf"```{kind}\n(.*?)```", README, re.DOTALL)


def table_lines() -> list[str]:
    return re.findall(r"^\| `jawcam ([^`]*)` \|", README, re.MULTILINE)


def jawcam(*words: str, cwd):
    command = [sys.executable, "-m", "jawcam", *words]
    env = {**os.environ, "PYTHONPATH": str(ROOT)}
    return subprocess.run(command, cwd=cwd, env=env, capture_output=True, text=True, check=False)


def test_there_are_two_commands_and_each_makes_its_own_environment():
    sample, tests = blocks("sh")[0].strip().splitlines()
    for line in (sample, tests):
        assert line.startswith("python3 -m venv .venv && .venv/bin/python -m pip install -q -e ")
    assert tests.endswith(".venv/bin/python -m pytest -q")


def test_the_sample_command_makes_what_it_says(tmp_path):
    sample = blocks("sh")[0].splitlines()[0].rpartition("&& ")[2]
    program, *words = shlex.split(sample)
    assert program == ".venv/bin/jawcam"
    words = [str(ROOT / word) if word.startswith("samples/") else word for word in words]
    run = jawcam(*words, cwd=tmp_path)
    assert (run.returncode, run.stderr) == (0, "")
    for name in ("side-one.nc", "side-one.png", "side-one.pdf", "side-one.json"):
        assert f"out/{name}" in README or name.endswith(".json")
        assert (tmp_path / "out" / name).stat().st_size > 0


ROUND_THE_LEVER = """\
%
(round the lever, too low)
G21 G17 G40 G49 G80 G90 G94 G61
G53 G0 Z0.
T3 M6
G54
S6000 M3
G0 X60. Y0.
G43 H3 Z10.
G0 Z-0.4
G1 X46. F600.
G1 Y25.
G1 X-46.
G1 Y-25.
G1 X46.
G1 Y0.
G0 Z10.
M5
G53 G0 Z0.
M30
%
"""


def test_a_program_for_the_held_part_is_told_what_it_says(tmp_path):
    program, *words = shlex.split(blocks("sh")[1])
    assert program == "jawcam"
    (tmp_path / words[1]).write_text(ROUND_THE_LEVER)
    words = [str(ROOT / word) if word.startswith("samples/") else word for word in words]
    run = jawcam(*words, cwd=tmp_path)
    assert (run.returncode, run.stderr) == (1, "")
    assert blocks("text")[-1] in run.stdout


def test_the_job_shown_is_a_whole_job(tmp_path):
    (tmp_path / "job.toml").write_text(blocks("toml")[0], encoding="utf-8")
    drawing = ROOT / "samples" / "crank-lever.dxf"
    (tmp_path / drawing.name).write_bytes(drawing.read_bytes())
    job = load(tmp_path / "job.toml")
    assert [setup.name for setup in job.setups] == ["side-one"]
    (one,) = make(tmp_path / "job.toml", shown="job.toml", post=None, setups=(), outside=False)
    assert one.proven


def test_every_command_is_told_and_its_options_exist():
    told = {line.split()[0] for line in table_lines()}
    assert told == set(COMMANDS) - {"new"}
    assert "`jawcam new jaws`" in README


@pytest.mark.parametrize("line", table_lines())
def test_options_in_the_table_exist(line, tmp_path):
    name, *words = line.split()
    text = jawcam(name, "--help", cwd=tmp_path).stdout
    for option in (word for word in words if word.startswith("--")):
        assert option in text
