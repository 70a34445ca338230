"""The benchmarks run and print their table. Their figures are no test: machines differ."""

from __future__ import annotations

import os
import subprocess
import sys

import pytest
from house_help import ROOT

BENCH = ROOT / "tests" / "bench"


def bench(*argv):
    """Run the command; its own folder stands first on its path, so the checkout is named."""
    command = [sys.executable, BENCH / "run.py", *argv]
    env = {**os.environ, "PYTHONPATH": str(ROOT)}
    return subprocess.run(command, cwd=ROOT, env=env, capture_output=True, text=True, check=False)


@pytest.fixture
def measuring(monkeypatch):
    monkeypatch.syspath_prepend(str(BENCH))
    import measuring

    return measuring


def test_rows_are_judged_by_their_ratio(measuring):
    row = measuring.Row
    assert row("a", 3.0, 2.0, 1.5).verdict == "ok"
    assert row("a", 3.1, 2.0, 1.5).verdict == "over"
    assert row("a", 2.0, 40.0).verdict == "20 times faster"
    assert row("a", 2.0, 1.0).verdict == ""
    assert row("a", 2.0).verdict == ""


def test_the_table_stands_in_columns(measuring):
    rows = [measuring.Row("short", 1.234, 2.0, 1.5), measuring.Row("memory", 128.4, unit="MB")]
    assert measuring.rows_as_text(rows).splitlines() == [
        "           ours  baseline  ratio     aim",
        "short   1.23 ms   2.00 ms   0.62  <= 1.5  ok",
        "memory   128 MB         -      -       -",
    ]


def test_our_times_and_the_baseline_s_are_taken_in_turn(measuring):
    done = []
    measuring.best_of(lambda: done.append("ours"), lambda: done.append("theirs"), 3)
    assert done == ["ours", "theirs"] * 4  # the first round does not count


def test_the_command_prints_a_row_for_everything_it_measures():
    run = bench("--quick", "offsets", "reading")
    assert run.returncode in (0, 1), run.stderr
    heads = [line.split("  ")[0] for line in run.stdout.splitlines()[1:]]
    assert heads == [
        "offset 1,000 smooth polygon in / pyclipper",
        "offset 1,000 smooth polygon out / pyclipper",
        "offset 1,000 noisy polygon in / pyclipper",
        "offset 1,000 noisy polygon out / pyclipper",
        "offset 1,000 lines and arcs in / pyclipper",
        "offset 1,000 lines and arcs out / pyclipper",
        "read 2,000 lines / pygcode",
        "one line of 4,000 / of 2,000 with pygcode",
    ]


def test_an_unknown_part_is_refused():
    run = bench("everything")
    assert run.returncode == 2
    assert "no such part: everything" in run.stderr
