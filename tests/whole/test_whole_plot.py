"""Any program is drawn: its views, a stretch of it, a moving picture; what can't be is refused."""

import pytest
from whole_jobs import JOB, disc_drawing, make_one

PNG = b"\x89PNG\r\n\x1a\n"


@pytest.fixture(scope="module")
def folder(tmp_path_factory):
    """A job and its program."""
    path = tmp_path_factory.mktemp("plot")
    (path / "jaws.nc").write_text(make_one(path, JOB, disc_drawing()).text)
    return path


@pytest.mark.parametrize("view", ["oblique", "levels"])
@pytest.mark.parametrize("with_job", [True, False])
def test_other_views_go_to_files_too(say, folder, tmp_path, view, with_job):
    job = ("--job", folder / "job.toml") if with_job else ()
    status, _, err = say(
        "plot", folder / "jaws.nc", *job, "--view", view, "--to", tmp_path / "a.png"
    )
    assert (status, err) == (0, "")
    assert (tmp_path / "a.png").read_bytes().startswith(PNG)


def test_a_stretch_and_a_file_are_both_named_by_to(say, folder, tmp_path):
    """A number alone is a line; a file has its ending."""
    lines = (folder / "jaws.nc").read_text().splitlines()
    wall = lines.index("(wall)") + 1
    words = (
        "plot",
        folder / "jaws.nc",
        "--from",
        wall,
        "--to",
        wall + 6,
        "--to",
        tmp_path / "w.svg",
    )
    status, out, err = say(*words)
    assert (status, err) == (0, "")
    assert out == f"wrote {tmp_path / 'w.svg'}\n"


def test_a_program_runs_as_a_moving_picture(say, folder, tmp_path):
    status, _, err = say("plot", folder / "jaws.nc", "--to", tmp_path / "run.gif", "--from", 20)
    assert (status, err) == (0, "")
    assert (tmp_path / "run.gif").read_bytes().startswith(b"GIF89a")


@pytest.mark.parametrize(
    ("words", "what"),
    [
        (("--to", "3", "--to", "4"), "--to names the last line to draw twice"),
        (("--to", "a.png", "--to", "b.png"), "--to names the file twice"),
        (("--from", "9", "--to", "5"), "begin with line 9 and end with line 5"),
        (("--to", "1"), "no move lies in lines 1 to 1"),
        (("--to", "run.mp4"), "can't be written as .mp4"),
        (("--view", "sideways"), "sideways"),
        (("--from", "0"), "0"),
        (("--show",), "no window can be opened"),
    ],
)
def test_what_can_not_be_drawn_is_refused_and_nothing_is_left(
    say, folder, monkeypatch, words, what
):
    monkeypatch.chdir(folder)
    before = sorted(folder.iterdir())
    status, out, err = say("plot", "jaws.nc", *words)
    assert (status, out) == (2, "")
    assert what in err
    assert sorted(folder.iterdir()) == before
