"""Every command does on a good day what it says, in this process, on small jobs."""

import tomllib

import pytest
from whole_jobs import CONTROLS, JOB, SAMPLES, disc_drawing, make_one, put

from jawcam.cli import COMMANDS


def test_every_command_has_its_help(say):
    for name in COMMANDS:
        status, out, err = say(name, "--help")
        assert (status, err) == (0, "")
        assert f"jawcam {name}" in out


def test_outline_tells_the_size_and_the_loops_of_a_drawing(say):
    """The crank lever: discs of 17 and 9 mm radius, 58 mm apart, with two holes."""
    status, out, err = say("outline", SAMPLES / "crank-lever.dxf")
    assert (status, err) == (0, "")
    assert "84 mm by 34 mm" in out
    assert "inner loops: 2" in out


def test_posts_lists_the_dialects(say):
    status, out, err = say("posts")
    assert (status, err) == (0, "")
    listed = [line.split(maxsplit=1) for line in out.splitlines()]
    shipped = sorted(path.stem for path in (SAMPLES.parent / "posts").glob("*.toml"))
    assert [name for name, _ in listed] == shipped
    assert {*CONTROLS} < {*shipped}
    assert len({title for _, title in listed}) == len(shipped)  # each is told from the others


def test_post_laid_open_serves_as_a_post(say, tmp_path):
    """What `posts NAME` prints, saved, gives the same program but for nothing."""
    status, out, _ = say("posts", CONTROLS[0])
    assert status == 0
    own = tmp_path / "own.toml"
    own.write_text(out, encoding="utf-8")
    by_name = make_one(tmp_path, JOB, disc_drawing())
    by_file = make_one(tmp_path, JOB, disc_drawing(), post=str(own))
    assert by_file.text == by_name.text


def test_new_job_makes_a_proven_program_as_it_stands(say, tmp_path):
    status, out, err = say("new", "jaws")
    assert (status, err) == (0, "")
    assert tomllib.loads(out)["setup"]
    assert make_one(tmp_path, out, disc_drawing(17)).report.ok


@pytest.fixture
def program(tmp_path):
    """A job and its program in a folder."""
    (tmp_path / "jaws.nc").write_text(make_one(tmp_path, JOB, disc_drawing()).text)
    return tmp_path / "jaws.nc"


def test_check_with_the_job_proves_a_program(say, program):
    status, out, err = say("check", program, "--job", program.parent / "job.toml")
    assert (status, err) == (0, "")
    assert out.splitlines()[-1].endswith("proven")


def test_check_without_a_job_does_not_say_that_it_proved_anything(say, program):
    """Only what a control would refuse was looked for: no gouge, no depth, no rapid."""
    status, out, err = say("check", program)
    assert (status, err) == (0, "")
    assert "no job given" in out
    assert "proven" not in out.splitlines()[-1]


def test_check_of_half_a_program_finds_that_it_does_not_end(say, program):
    text = program.read_text()
    program.write_text(text[: text.index("(wall)")])
    status, out, _ = say("check", program)
    assert status == 1
    assert "jaws.nc:" in out


@pytest.mark.parametrize("kind", ["svg", "png"])
def test_plot_draws_a_program_into_a_file(say, program, kind):
    """A vector file holds its text, a picture its signature (PNG specification, section 5.2)."""
    path = program.parent / f"picture.{kind}"
    status, out, err = say("plot", program, "--to", path)
    assert (status, err) == (0, "")
    assert str(path) in out
    head = path.read_bytes()[:200]
    assert head.startswith(b"\x89PNG\r\n\x1a\n") if kind == "png" else b"<svg" in path.read_bytes()


def test_other_post_can_be_asked_for(say, tmp_path):
    job = put(tmp_path, JOB, disc_drawing())
    status, out, _ = say("make", job, "--post", CONTROLS[1], "--out", tmp_path / "out")
    assert status == 0, out
    text = (tmp_path / "out" / "jaws.nc").read_text()
    assert "G71" in text
    assert "O0001" in text


def test_a_program_without_a_job_says_as_what_it_is_read(say, tmp_path):
    program = tmp_path / "by-hand.nc"
    program.write_text("G21 G90 G94\nG0 X1\nM30\n")
    assert "read as rs274ngc-mill, another kind with --post" in say("check", program)[1]
    told = say("check", program, "--post", "iso6983-mill")[1]
    assert "(read as iso6983-mill)" in told


def test_remarks_may_have_umlauts_of_an_old_editor(say, tmp_path):
    program = tmp_path / "by-hand.nc"
    program.write_bytes("(Backen f\u00fcr die M\u00fchle)\nG21 G90\nM30\n".encode("iso8859-1"))
    status, out, err = say("check", program)
    assert (status, err) == (0, ""), out


def test_a_text_marked_as_utf_8_is_read_as_well(say, tmp_path):
    program = tmp_path / "by-hand.nc"
    program.write_bytes(b"\xef\xbb\xbf%\r\nG21 G90\r\nM30\r\n%\r\n")
    status, out, err = say("check", program)
    assert (status, err) == (0, ""), out


def test_what_is_no_text_is_not_read_as_a_program(say, tmp_path):
    program = tmp_path / "picture.nc"
    program.write_bytes(b"\x89PNG\r\n\x1a\n\x00\x00\xff")
    status, out, err = say("check", program)
    assert (status, out) == (2, "")
    assert "not a text file" in err
