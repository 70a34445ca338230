"""Running the command line, and what every refusal must hold to."""

import contextlib
import io
import os
import re
import subprocess
import sys
from pathlib import Path

import pytest
from whole_jobs import put

from jawcam.cli import main

ROOT = Path(__file__).parents[2]


def said(*words):
    """Run the command line in this process: exit status, standard output, standard error."""
    out, err = io.StringIO(), io.StringIO()
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(sys, "argv", ["jawcam", *map(str, words)])
        with (
            contextlib.redirect_stdout(out),
            contextlib.redirect_stderr(err),
            pytest.raises(SystemExit) as stopped,
        ):
            main()
    return stopped.value.code, out.getvalue(), err.getvalue()


def command(*words, cwd):
    """The same in a process of its own."""
    env = {**os.environ, "PYTHONPATH": str(ROOT)}
    run = subprocess.run(
        [sys.executable, "-m", "jawcam", *map(str, words)],
        cwd=cwd,
        env=env,
        capture_output=True,
        text=True,
        timeout=120,
        check=False,
    )
    return run.returncode, run.stdout, run.stderr


def files(folder):
    return sorted(str(path.relative_to(folder)) for path in folder.rglob("*"))


def refused(say, folder, text, document, *words):
    """What is said of a job that can't be made; nothing must have been written."""
    job = put(folder, text, document)
    before = files(folder)
    status, out, err = say("make", job, "--out", folder / "out", *words)
    assert status == 2, out + err
    assert out == ""
    assert files(folder) == before
    check_told(err)
    return err


def check_told(err):
    """One or more faults, each `error: PLACE: WHAT` with a line on how to mend it."""
    assert "Traceback" not in err
    told = re.split(r"^error: ", err, flags=re.MULTILINE)
    assert told[0] == ""
    assert len(told) > 1
    for fault in told[1:]:
        assert re.search(r"\n    to mend: \S", fault), fault
