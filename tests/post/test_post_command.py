"""Posts at the command line: the list, one laid open, one's own, and a wrong one."""

from __future__ import annotations

import re
import sys
import tomllib

import pytest

from jawcam.cli import main
from jawcam.post.dialect import load, names
from jawcam.resources import folder

SAMPLE = folder("samples") / "hopper-flange.toml"


@pytest.fixture
def say(monkeypatch, capsys):
    """Run the command line in this process: exit status, standard output, standard error."""

    def run(*words):
        monkeypatch.setattr(sys, "argv", ["jawcam", *map(str, words)])
        with pytest.raises(SystemExit) as stopped:
            main()
        said = capsys.readouterr()
        return stopped.value.code, said.out, said.err

    return run


def test_the_list_has_a_line_for_each_post_and_says_how_they_differ(say):
    status, out, err = say("posts")
    assert (status, err) == (0, "")
    lines = [line.split("  ", 1) for line in out.splitlines()]
    assert [name.strip() for name, _ in lines] == list(names())
    assert len({title for _, title in lines}) == len(lines) >= 10
    assert len({out.splitlines()[0].index(lines[0][1].strip())}) == 1
    assert max(map(len, out.splitlines())) <= 120


@pytest.mark.parametrize("name", names())
def test_a_post_is_printed_as_it_stands_and_tells_a_person_what_to_look_up(say, name):
    status, out, err = say("posts", name)
    assert (status, err) == (0, "")
    assert out == (folder("posts") / f"{name}.toml").read_text(encoding="utf-8")
    head = out[: out.index("title =")]
    assert len(head.splitlines()) >= 4
    assert "Every key is needed" in head
    assert re.search("no source|from memory|NISTIR 6556", head)
    assert tomllib.loads(out)["kind"] in ("mill", "lathe")
    assert len(re.findall(r"(?m)^\w+ = .*\S +# ", out)) >= 10  # keys with a word on them


@pytest.mark.parametrize("name", names())
def test_every_shipped_post_spells_out_every_key_in_the_same_order_as_its_kind(name):
    """So that two posts can be compared line by line."""
    ours = tomllib.loads((folder("posts") / f"{name}.toml").read_text(encoding="utf-8"))
    first = next(other for other in names() if load(other).kind == ours["kind"])
    theirs = tomllib.loads((folder("posts") / f"{first}.toml").read_text(encoding="utf-8"))
    assert list(ours) == list(theirs)
    for table, keys in ours.items():
        if isinstance(keys, dict) and table != "comments":
            assert list(keys) == list(theirs[table]), table


def test_an_unknown_post_is_told_the_nearest(say):
    status, out, err = say("posts", "iso6983-mil")
    assert (status, out) == (2, "")
    assert "did you mean 'iso6983-mill'?" in err


def test_one_s_own_post_writes_the_program(say, tmp_path):
    _, text, _ = say("posts", "iso6983-mill")
    own = tmp_path / "mine.toml"
    own.write_text(text.replace('rapid = "G00"', 'rapid = "G0"').replace("step = 10", "step = 3"))
    status, _, err = say("make", SAMPLE, "--post", own, "--out", tmp_path / "out")
    assert (status, err) == (0, "")
    program = (tmp_path / "out" / "flange-jaws.nc").read_text()
    assert " G0 X" in program
    assert "\nN13 " in program


def test_a_wrong_post_names_all_its_faults_with_their_places_and_leaves_nothing(say, tmp_path):
    _, text, _ = say("posts", "iso6983-mill")
    for old, new in (
        ("leading_zero =", "leading_zeroes ="),
        ('sign = "minus"', 'sign = "plus"'),
        ('control = "iso6983-mill" ', 'control = "iso6983-milll" '),
        ("max_length = 76", "max_length = 96"),
        ('"T{tool:2} M06"', '"T{tol:2} M06"'),
    ):
        assert text.count(old) == 1, old
        text = text.replace(old, new)
    own = tmp_path / "mine.toml"
    own.write_text(text)
    status, out, err = say("make", SAMPLE, "--post", own, "--out", tmp_path / "out")
    assert status == 2
    places = re.findall(r"mine\.toml:(\d+):(\d+): ([\w.\[\]]+):", err)
    assert [key for *_, key in places] == [  # in the order of the file
        "control",
        "numbers.leading_zero",  # missing: told at its table
        "numbers.sign",
        "numbers.leading_zeroes",
        "comments.max_length",
        "tools.load[1]",
    ]
    for mend in ("'leading_zero'", "minus", "'iso6983-mill'", "'tool'"):
        assert mend in err
    assert "Traceback" not in out + err
    assert not (tmp_path / "out").exists()


LATHE = folder("samples") / "burr-spindle.toml"


@pytest.mark.parametrize(("job", "post"), [(SAMPLE, "iso6983-lathe"), (LATHE, "eia274d-mill")])
def test_a_post_of_another_kind_of_machine_is_refused(say, tmp_path, job, post):
    status, _, err = say("make", job, "--post", post, "--out", tmp_path / "out")
    assert status == 2
    assert "choose the post of a" in err
    assert not (tmp_path / "out").exists()
