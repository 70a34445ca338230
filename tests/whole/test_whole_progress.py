"""Long work tells a person how far it is, tells a pipe nothing, and can be stopped at any time."""

import contextlib
import os
import re
import signal
import subprocess
import sys
import time

import pytest

from jawcam.deliver import deliver
from jawcam.proof.prove import prove
from jawcam.reader.read import read

if sys.platform == "win32":
    pytest.skip("no pseudo terminals", allow_module_level=True)

import pty

LINES = 50_000


@pytest.fixture(scope="module")
def long_program(tmp_path_factory):
    """More than is read in the time after which progress is told."""
    path = tmp_path_factory.mktemp("long") / "long.nc"
    head, end = ["G21 G17 G90 G94", "G0 X0 Y0 Z5", "S1000 M3", "G1 Z-1 F100"], ["M30"]
    body = [f"X{k % 977 / 10} Y{k % 13} (a remark)" for k in range(LINES - len(head) - len(end))]
    path.write_text("\n".join([*head, *body, *end]) + "\n")
    return path


def jawcam(*words):
    return [sys.executable, "-m", "jawcam", *map(str, words)]


@contextlib.contextmanager
def on_a_terminal(*words):
    """The command with its standard error on a pseudo terminal: it, and what a person hears."""
    person, end = pty.openpty()
    with subprocess.Popen(jawcam(*words), stdout=subprocess.PIPE, stderr=end, text=True) as run:
        os.close(end)

        def heard(until=None):
            """What is said, up to the end or to a pattern."""
            said = ""
            while until is None or not re.search(until, said):
                try:
                    more = os.read(person, 4096).decode()
                except OSError:  # how a terminal says that nobody writes to it any more
                    break
                if not more:
                    break
                said += more
            return said

        yield run, heard
    os.close(person)


def test_on_a_terminal_the_blocks_read_are_counted_and_wiped_away(long_program):
    with on_a_terminal("check", long_program) as (run, heard):
        said = heard()
        out = run.communicate()[0]
    assert run.returncode == 0
    told = re.findall(r"\rblocks read: ([0-9,]+) of 50,000", said)
    counts = [int(text.replace(",", "")) for text in told]
    assert counts == sorted(set(counts))
    assert counts
    assert re.search(r"\r +\r$", said), "the line is wiped at the end"
    assert "blocks read" not in out


def test_in_a_pipe_nothing_is_told(say, long_program):
    status, _, err = say("check", long_program)
    assert (status, err) == (0, "")


def test_ctrl_c_while_reading_leaves_nothing_behind(long_program, tmp_path):
    picture = tmp_path / "new" / "long.png"
    with on_a_terminal("plot", long_program, "--to", picture) as (run, heard):
        heard(r"blocks read: ")
        run.send_signal(signal.SIGINT)
        said = heard()
        assert run.wait() == 130
    assert said.strip().endswith("stopped")
    assert "Traceback" not in said
    assert list(tmp_path.iterdir()) == []


def test_ctrl_c_while_a_film_is_drawn_leaves_nothing_behind(tmp_path):
    program = tmp_path / "part.nc"
    body = [f"X{k} Y{k % 2}" for k in range(200)]
    program.write_text("\n".join(["G21 G90 G94", "G1 Z-1 F100", *body, "M30"]))
    with on_a_terminal("plot", program, "--to", tmp_path / "part.gif") as (run, heard):
        heard(r"pictures drawn: ")
        run.send_signal(signal.SIGINT)
        heard()
        assert run.wait() == 130
    assert list(tmp_path.iterdir()) == [program]


def test_ctrl_c_while_a_file_is_written_leaves_nothing_behind(tmp_path):
    def save(path):
        path.write_text("half")
        os.kill(os.getpid(), signal.SIGINT)
        time.sleep(5)

    with pytest.raises(KeyboardInterrupt):
        deliver(tmp_path / "out", {"part.nc": save})
    assert list(tmp_path.iterdir()) == []


def test_ctrl_c_while_names_are_given_waits_for_the_last_of_them(tmp_path, monkeypatch):
    """A new program never stands beside an old picture."""
    (tmp_path / "part.nc").write_text("old")
    (tmp_path / "part.png").write_text("old")
    path = type(tmp_path)
    replace = path.replace

    def interrupted(self, target):
        os.kill(os.getpid(), signal.SIGINT)
        return replace(self, target)

    monkeypatch.setattr(path, "replace", interrupted)
    before = signal.getsignal(signal.SIGINT)
    files = {name: lambda at: at.write_text("new") for name in ("part.nc", "part.png")}
    with pytest.raises(KeyboardInterrupt):
        deliver(tmp_path, files)
    assert {one.name: one.read_text() for one in tmp_path.iterdir()} == {
        "part.nc": "new",
        "part.png": "new",
    }
    assert signal.getsignal(signal.SIGINT) is before


def test_reading_tells_how_many_of_the_blocks_it_has_read():
    told = []
    read("X1\n" * 25_000, "rs274ngc-mill", told=lambda *words: told.append(words))
    assert told == [("blocks read", n, 25_000) for n in (10_000, 20_000, 25_000)]


def test_proving_tells_how_many_of_the_levels_it_has_proven(lever):
    """The levels that the text cuts, from the deepest up."""
    told, program, target = [], lever.made.program, lever.made.target
    heights = {round(cut.end[2], 6) for cut in program.cuts if cut.kind != "rapid"}
    report = prove(program, target, told=lambda *words: told.append(words))
    assert report == prove(program, target)
    assert [done for _, done, _ in told] == list(range(1, len(told) + 1))
    assert {(what, whole) for what, _, whole in told} == {("levels proven", len(told))}
    assert 1 < len(told) <= len(heights)
