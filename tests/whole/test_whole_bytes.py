"""The same job made again gives the same bytes, whatever the run's hash seed, folder and path."""

import os
import shutil
import subprocess
import sys
from pathlib import Path

import pytest
from whole_jobs import SAMPLES

ROOT = Path(__file__).parents[2]
JOB, SETUP = "crank-lever", "side-one"


@pytest.fixture(scope="module")
def runs(tmp_path_factory):
    """The files of two runs side by side: name -> bytes."""
    started = []
    for seed, place in (("1", "here"), ("4711", "somewhere else/deep down")):
        folder = tmp_path_factory.mktemp("run") / place
        folder.mkdir(parents=True)
        for kind in (".toml", ".dxf"):
            shutil.copy(SAMPLES / f"{JOB}{kind}", folder)
        job = f"{JOB}.toml" if seed == "1" else str(folder / f"{JOB}.toml")
        cwd = folder if seed == "1" else folder.parent
        out = folder / ("out" if seed == "1" else "other/name")
        env = {**os.environ, "PYTHONHASHSEED": seed, "PYTHONPATH": str(ROOT)}
        command = [sys.executable, "-m", "jawcam", "make", job, "--setup", SETUP, "--out", str(out)]
        run = subprocess.Popen(
            command, cwd=cwd, env=env, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True
        )
        started.append((run, out))
    made = []
    for run, out in started:
        said, wrong = run.communicate(timeout=120)
        assert run.returncode == 0, said + wrong
        made.append({path.name: path.read_bytes() for path in out.iterdir()})
    return made


def test_both_runs_leave_the_same_files(runs):
    names = [f"{SETUP}.{kind}" for kind in ("json", "nc", "pdf", "png")]
    assert sorted(runs[0]) == sorted(runs[1]) == names


@pytest.mark.parametrize("kind", ["nc", "json", "png", "pdf"])
def test_same_job_gives_the_same_bytes(runs, kind):
    for name in runs[0]:
        if name.endswith(kind):
            assert runs[0][name] == runs[1][name], name


def test_program_is_text_with_plain_line_ends(runs):
    for name, data in runs[0].items():
        if name.endswith(".nc"):
            assert data.isascii()
            assert b"\r" not in data
            assert data.endswith(b"\n")


def test_no_file_names_the_folder_that_it_was_made_in(runs):
    for name, data in runs[1].items():
        assert b"deep down" not in data, name
        assert b"somewhere" not in data, name
