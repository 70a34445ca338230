"""The command line starts light: no library that computes or draws is loaded before a command
needs it, and none that draws before there is something to draw."""

from __future__ import annotations

import json
import shutil
import subprocess
import sys

import pytest
from house_help import ROOT

HEAVY = {"ezdxf", "matplotlib", "numpy", "pyclipper", "shapely"}

# Runs the command line on its arguments, then tells which modules are loaded.
PROBE = """
import json, sys
import jawcam.cli
sys.argv[0] = "jawcam"
status = None
if len(sys.argv) > 1:
    try:
        jawcam.cli.main()
    except SystemExit as end:
        status = end.code
print(json.dumps({"status": status, "loaded": sorted(sys.modules)}))
"""


def start(*argv, first=""):
    """Run `jawcam *argv` in a fresh interpreter -> its exit status and which of HEAVY it loaded."""
    run = subprocess.run(
        [sys.executable, "-c", first + PROBE, *argv],
        cwd=ROOT,
        capture_output=True,
        text=True,
        check=False,
    )
    assert run.returncode == 0, run.stderr
    told = json.loads(run.stdout.splitlines()[-1])
    return told["status"], HEAVY & set(told["loaded"])


def test_the_probe_sees_what_is_loaded():
    assert start(first="import matplotlib, ezdxf, pyclipper, shapely") == (None, HEAVY)


@pytest.mark.parametrize(
    ("argv", "status"),
    [
        ([], None),  # only imported
        (["--help"], 0),
        (["--version"], 0),
        (["mkae"], 2),
        (["make"], 2),
        (["make", "--nonsense"], 2),
        (["check", "--help"], 0),
        (["plot", "--help"], 0),
        (["posts"], 0),
        (["new", "jaws"], 0),
    ],
    ids=lambda value: " ".join(value) or "import" if isinstance(value, list) else "",
)
def test_nothing_heavy_is_loaded(argv, status):
    assert start(*argv) == (status, set())


@pytest.mark.parametrize(
    ("good", "bad"),
    [('units = "mm"', 'units = "furlong"'), ("width = 130", "width = 20")],
    ids=["misread", "no room in the blanks"],
)
def test_a_job_that_can_not_be_made_loads_nothing_that_draws(tmp_path, good, bad):
    text = (ROOT / "samples" / "crank-lever.toml").read_text(encoding="utf-8")
    assert good in text
    job = tmp_path / "bad.toml"
    job.write_text(text.replace(good, bad), encoding="utf-8")
    shutil.copy(ROOT / "samples" / "crank-lever.dxf", tmp_path)
    status, loaded = start("make", str(job), "--out", str(tmp_path / "out"))
    assert status == 2
    assert "matplotlib" not in loaded
    assert not (tmp_path / "out").exists()
