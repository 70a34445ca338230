"""Unusable drawings through the command line: told in one go, with the file, the place and the
mend; exit status 2, nothing written, never a traceback."""

from whole_jobs import JOB, disc_drawing, drawing, job_with, make_one
from whole_told import refused


def test_open_loop_is_told_with_its_place_and_width(say, tmp_path):
    document, space = drawing()
    for start, end in (((-15, -10), (15, -10)), ((15, -10), (15, 10)), ((15, 10), (-15, 10))):
        space.add_line(start, end)
    space.add_line((-15, 10), (-15, -9.75))
    err = refused(say, tmp_path, JOB, document)
    assert "part.dxf" in err
    assert "open" in err
    assert "X -15 Y -9.75" in err
    assert "X -15 Y -10" in err
    assert "0.25 mm" in err


def test_self_crossing_outline_is_told_with_its_place(say, tmp_path):
    document, space = drawing()
    space.add_lwpolyline([(-10, -8), (10, 8), (10, -8), (-10, 8)], close=True)
    err = refused(say, tmp_path, JOB, document)
    assert "part.dxf" in err
    assert "cross" in err
    assert "X 0 Y 0" in err


def test_empty_drawing_is_told(say, tmp_path):
    err = refused(say, tmp_path, JOB, drawing()[0])
    assert "part.dxf" in err
    assert "no outline" in err or "nothing" in err or "empty" in err


def test_unknown_layer_is_told_with_those_there_are(say, tmp_path):
    document, space = drawing()
    space.add_circle((0, 0), 15, dxfattribs={"layer": "PROFILE"})
    space.add_circle((0, 0), 12, dxfattribs={"layer": "HELPERS"})
    text = job_with(('outline = "part.dxf"', 'outline = "part.dxf"\nlayer = "PROFIL"'))
    err = refused(say, tmp_path, text, document)
    assert '"PROFIL"' in err or "'PROFIL'" in err
    assert "PROFILE" in err
    assert "HELPERS" in err


def test_drawing_without_units_is_told(say, tmp_path):
    err = refused(say, tmp_path, JOB, unitless())
    assert "part.dxf" in err
    assert "unit" in err
    assert "drawing_units" in err


def unitless():
    document, space = drawing(units=0)
    space.add_circle((0, 0), 15)
    return document


def test_drawing_without_units_is_taken_when_the_job_says_them(tmp_path):
    text = job_with(('outline = "part.dxf"', 'outline = "part.dxf"\ndrawing_units = "mm"'))
    assert make_one(tmp_path, text, unitless()).report.ok


def test_missing_drawing_is_told_with_the_one_meant(say, tmp_path):
    disc_drawing().saveas(tmp_path / "knob.dxf")
    text = job_with(('outline = "part.dxf"', 'outline = "knop.dxf"'))
    err = refused(say, tmp_path, text, None)
    assert "job.toml:6" in err
    assert "part.outline" in err
    assert "knop.dxf" in err
    assert "did you mean knob.dxf" in err


def test_drawing_that_is_no_drawing_is_told(say, tmp_path):
    (tmp_path / "part.dxf").write_text("two discs, 30 mm apart\n")
    err = refused(say, tmp_path, JOB, None)
    assert "part.dxf" in err
    assert "DXF" in err


def test_drawing_cut_short_is_told(say, tmp_path):
    disc_drawing().saveas(tmp_path / "part.dxf")
    whole = (tmp_path / "part.dxf").read_bytes()
    (tmp_path / "part.dxf").write_bytes(whole[: len(whole) // 2])
    err = refused(say, tmp_path, JOB, None)
    assert "part.dxf" in err


def test_drawing_of_another_kind_is_told_with_those_that_are_known(say, tmp_path):
    (tmp_path / "part.step").write_text("ISO-10303-21;\n")
    err = refused(say, tmp_path, job_with(('"part.dxf"', '"part.step"')), None)
    assert ".step" in err
    assert ".dxf" in err
