"""Wrong jobs and command lines: told in one go, with the file, the place and the mend;
exit status 2, nothing written, never a traceback."""

import re

import pytest
from whole_jobs import JOB, disc_drawing, drawing, job_with, put
from whole_told import check_told, command, refused


def test_part_larger_than_the_blanks_is_told(say, tmp_path):
    err = refused(say, tmp_path, job_with(("width = 90", "width = 25")), disc_drawing(15))
    assert "larger than the blanks" in err
    assert "X -15.04" in err
    assert "X 12.5" in err
    assert "job.toml:21: setup[1].jaws" in err


def test_cutter_larger_than_the_pocket_is_told(say, tmp_path):
    document, space = drawing()
    space.add_lwpolyline([(-20, -2.5), (20, -2.5), (20, 2.5), (-20, 2.5)], close=True)
    err = refused(say, tmp_path, job_with(("gap = 4", "gap = 2")), document)
    assert "6 mm" in err
    assert "larger than the pocket" in err
    assert "5.08 mm" in err  # 5 mm and the grip of 0.04 mm on either side


def test_flutes_shorter_than_the_pocket_is_deep_is_told(say, tmp_path):
    text = job_with(("flute_len = 14", "flute_len = 4"))
    err = refused(say, tmp_path, text, disc_drawing())
    assert "tool 2" in err
    assert "flutes of 4 mm" in err
    assert "5 mm deep" in err


def test_roughing_flutes_shorter_than_the_pocket_is_deep_are_told(say, tmp_path):
    """The one named for roughing reaches just as deep."""
    more = '[[tool]]\nnumber = 3\nkind = "end mill"\ndia = 8\nflute_len = 4\n\n[[setup]]'
    text = job_with(("[[setup]]", more), ("rough = { ", "rough = { tool = 3, "))
    err = refused(say, tmp_path, text, disc_drawing())
    assert "tool 3" in err


def test_unknown_key_is_told_with_the_one_meant(say, tmp_path):
    err = refused(say, tmp_path, job_with(("thickness = 9", "thicknes = 9")), disc_drawing())
    assert "job.toml:7" in err
    assert "thicknes" in err
    assert "did you mean thickness" in err


def test_wrong_type_is_told(say, tmp_path):
    err = refused(say, tmp_path, job_with(("flutes = 3", "flutes = [3]")), disc_drawing())
    assert "job.toml:13" in err
    assert "flutes" in err
    assert "list" in err


def test_all_faults_are_told_in_one_run(say, tmp_path):
    text = job_with(
        ("thickness = 9", "thicknes = 9"), ("dia = 6", "dia = -6"), ("gap = 4", 'gap = "4 parsec"')
    )
    err = refused(say, tmp_path, text, disc_drawing())
    assert err.count("error: ") >= 3
    assert "tool[1].dia" in err or "dia" in err
    assert "parsec" in err


def test_job_that_is_not_toml_is_told_with_its_line(say, tmp_path):
    err = refused(say, tmp_path, job_with(('kind = "end mill"', "kind = end mill")), disc_drawing())
    assert re.search(r"job\.toml:11:\d+", err)
    assert "TOML" in err


def test_job_that_is_missing_is_told(say, tmp_path):
    put(tmp_path, JOB, disc_drawing())
    status, out, err = say("make", tmp_path / "jop.toml", "--out", tmp_path / "out")
    assert (status, out) == (2, "")
    assert "jop.toml" in err
    assert "did you mean job.toml" in err
    check_told(err)


def test_drawing_outside_the_jobs_folder_is_told(say, tmp_path):
    disc_drawing().saveas(tmp_path / "elsewhere.dxf")
    text = job_with(('"part.dxf"', '"../elsewhere.dxf"'))
    err = refused(say, tmp_path / "job", text, None)
    assert "elsewhere.dxf" in err
    assert "--outside" in err


def test_drawing_outside_the_jobs_folder_is_taken_when_asked_to(say, tmp_path):
    disc_drawing().saveas(tmp_path / "elsewhere.dxf")
    text = job_with(('"part.dxf"', '"../elsewhere.dxf"'))
    job = put(tmp_path / "job", text, None)
    status, out, err = say("make", job, "--outside", "--out", tmp_path / "out")
    assert status == 0, err
    assert "proven" in out
    assert (tmp_path / "out" / "jaws.nc").is_file()


def test_link_that_leads_outside_the_jobs_folder_is_told(say, tmp_path):
    (tmp_path / "job").mkdir()
    disc_drawing().saveas(tmp_path / "elsewhere.dxf")
    (tmp_path / "job" / "part.dxf").symlink_to(tmp_path / "elsewhere.dxf")
    assert "--outside" in refused(say, tmp_path / "job", JOB, None)


def test_unknown_post_is_told_with_the_one_meant(say, tmp_path):
    text = job_with(('post = "rs274ngc-mill"', 'post = "rs274ngc-mil"'))
    err = refused(say, tmp_path, text, disc_drawing())
    assert "rs274ngc-mil" in err
    assert "rs274ngc-mill" in err.replace('"rs274ngc-mil"', "").replace("'rs274ngc-mil'", "")


def test_unknown_post_on_the_command_line_is_told(say, tmp_path):
    err = refused(say, tmp_path, JOB, disc_drawing(), "--post", "iso6983mill")
    assert "iso6983mill" in err
    assert "iso6983-mill" in err


def test_unknown_setup_is_told_with_those_there_are(say, tmp_path):
    err = refused(say, tmp_path, JOB, disc_drawing(), "--setup", "jows")
    assert "jows" in err
    assert "its setups are: jaws" in err


def test_stepover_of_more_than_half_the_cutter_is_told(say, tmp_path):
    text = job_with(("rough = { ", "rough = { stepover = 3.2, "))
    err = refused(say, tmp_path, text, disc_drawing())
    assert "stepover of 3.2 mm" in err
    assert "3 mm or less" in err


def test_folder_that_is_a_file_is_told(say, tmp_path):
    (tmp_path / "out").write_text("in the way")
    err = refused(say, tmp_path, JOB, disc_drawing())
    assert str(tmp_path / "out") in err
    assert "--out" in err
    assert (tmp_path / "out").read_text() == "in the way"


def test_pocket_as_deep_as_the_blanks_are_high_is_told(say, tmp_path):
    text = job_with(("depth = 5", "depth = 35"), ("flute_len = 14", "flute_len = 40"), ("24", "60"))
    assert "high" in refused(say, tmp_path, text, disc_drawing())


def test_pocket_that_misses_a_jaw_is_told(say, tmp_path):
    text = job_with(("hold = { depth = 5 }", "hold = { depth = 5, at = [0, 19] }"))
    assert "does not reach into both jaws" in refused(say, tmp_path, text, disc_drawing())


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ("thickness = 9", "thicknes = 9"),
        ('post = "rs274ngc-mill"', 'post = "no-such-post"'),
        ('outline = "part.dxf"', 'outline = "part.dxf"\nlayer = "NONE"'),
    ],
)
def test_wrong_input_of_any_kind_ends_with_status_two(say, tmp_path, old, new):
    refused(say, tmp_path, job_with((old, new)), disc_drawing())


def test_it_ends_a_process_of_its_own_with_status_two(tmp_path):
    put(
        tmp_path,
        job_with(('outline = "part.dxf"', 'outline = "part.dxf"\nlayer = "NONE"')),
        disc_drawing(),
    )
    status, out, err = command("make", "job.toml", cwd=tmp_path)
    assert (status, out) == (2, "")
    check_told(err)
    assert not (tmp_path / "out").exists()


def test_names_are_told_as_they_were_typed(say, tmp_path, monkeypatch):
    """Not as absolute paths, and not by where the package lies."""
    put(tmp_path / "jobs", job_with(("dia = 6", "dia = 60")), disc_drawing())
    monkeypatch.chdir(tmp_path)
    status, _, err = say("make", "jobs/job.toml")
    assert status == 2
    assert err.startswith("error: jobs/job.toml:")
    assert str(tmp_path) not in err
