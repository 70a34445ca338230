"""A program that fails its proof is not left behind as one: exit status 1."""

import pypdf
import pytest
from whole_jobs import JOB, disc_drawing, job_with, make_one, put, rounded_drawing
from whole_told import check_told, files

import jawcam.make

BOLT = ("rough = {", "bolts = [{ at = [0, 10], dia = 8, top = -2 }]\nrough = {")


@pytest.fixture
def too_deep(monkeypatch):
    """A planner gone wrong: it cuts a tenth of a millimetre too deep."""
    write = jawcam.make.write

    def wrong(*given, **kwargs):
        return write(*given, **kwargs).replace("Z-5.", "Z-5.1")

    monkeypatch.setattr(jawcam.make, "write", wrong)


@pytest.mark.usefixtures("too_deep")
def test_failed_proof_leaves_no_program(say, tmp_path):
    """Exit status 1, and what was written is called by what it is. The program of an earlier run
    does not survive beside it."""
    out = tmp_path / "out"
    out.mkdir()
    (out / "jaws.nc").write_text("an older one\n")
    status, said, err = say("make", put(tmp_path, JOB, disc_drawing()), "--out", out)
    assert (status, err) == (1, "")
    assert files(out) == ["jaws.json", "jaws.pdf", "jaws.png", "jaws.unproven.txt"]
    assert "not proven" in said
    assert "P401" in said
    assert "jaws.unproven.txt" in said


@pytest.mark.usefixtures("too_deep")
def test_sheet_of_a_failed_program_forbids_to_run_it(say, tmp_path):
    """It takes the place of an older one, which must not be used any more either; it says what is
    wrong, and gives nothing to dial in."""
    out = tmp_path / "out"
    out.mkdir()
    (out / "jaws.pdf").write_text("an older one\n")
    say("make", put(tmp_path, JOB, disc_drawing()), "--out", out)
    told = sheet_text(out / "jaws.pdf")
    assert told.count("DO NOT RUN") == 2
    assert "P401" in told
    assert "jaws.unproven.txt" in told
    assert "jaws.nc" not in told
    assert "WEAR OFFSETS" not in told


def test_sheet_of_a_proven_program_lets_it_run(say, tmp_path):
    out = tmp_path / "out"
    say("make", put(tmp_path, JOB, disc_drawing()), "--out", out)
    told = sheet_text(out / "jaws.pdf")
    assert "DO NOT RUN" not in told
    assert "\nproven" in told
    assert "WEAR OFFSETS" in told


def sheet_text(path):
    (page,) = pypdf.PdfReader(path).pages
    return page.extract_text()


def test_bolt_in_the_pocket_stops_the_job(say, tmp_path):
    """Nothing is planned then, so that there is nothing to prove."""
    status, said, err = say("make", put(tmp_path, job_with(BOLT), disc_drawing()))
    assert (status, said) == (2, "")
    assert "bolts[1]" in err
    check_told(err)


def test_proven_program_takes_away_the_unproven_one(say, tmp_path):
    out = tmp_path / "out"
    out.mkdir()
    (out / "jaws.unproven.txt").write_text("an older one\n")
    assert say("make", put(tmp_path, JOB, disc_drawing()), "--out", out)[0] == 0
    assert files(out) == ["jaws.json", "jaws.nc", "jaws.pdf", "jaws.png"]


@pytest.mark.usefixtures("too_deep")
def test_program_of_a_planner_gone_wrong_is_not_left_behind(say, tmp_path):
    """The proof stands between: a text cut a tenth too deep never becomes a program."""
    job = put(tmp_path, JOB, rounded_drawing())
    status, out, _ = say("make", job, "--out", tmp_path / "out")
    assert status == 1
    assert "P401" in out
    assert not list(tmp_path.rglob("*.nc"))


def test_check_tells_a_good_program_from_a_bad_one(say, tmp_path):
    text = make_one(tmp_path, JOB, disc_drawing()).text
    job, good, bad = (tmp_path / name for name in ("job.toml", "jaws.nc", "bad.nc"))
    good.write_text(text)
    bad.write_text(text.replace("Z-5.", "Z-5.1"))
    assert say("check", good, "--job", job)[0] == 0
    status, out, _ = say("check", bad, "--job", job)
    assert status == 1
    assert "bad.nc:" in out
    assert "P401" in out


def test_check_of_a_missing_program_is_told(say, tmp_path):
    status, out, err = say("check", tmp_path / "no.nc")
    assert (status, out) == (2, "")
    assert "no.nc" in err
    check_told(err)
