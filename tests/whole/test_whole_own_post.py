"""A post of one's own, beside the job or elsewhere."""

from __future__ import annotations

import pytest

from jawcam.errors import InputError
from jawcam.make import make
from jawcam.resources import folder

JOB = (folder("samples") / "crank-lever.toml").read_text(encoding="utf-8")
POST = (folder("posts") / "rs274ngc-mill.toml").read_text(encoding="utf-8")


@pytest.fixture
def shop(tmp_path):
    (tmp_path / "jobs").mkdir()
    drawing = folder("samples") / "crank-lever.dxf"
    (tmp_path / "jobs" / drawing.name).write_bytes(drawing.read_bytes())
    for place in (tmp_path, tmp_path / "jobs"):
        (place / "mine.toml").write_text(POST.replace('G0"', 'G00"'), encoding="utf-8")
    return tmp_path


def made(shop, post, *, outside=False):
    path = shop / "jobs" / "job.toml"
    path.write_text(JOB.replace('"rs274ngc-mill"', f'"{post}"'), encoding="utf-8")
    (one,) = make(path, shown=str(path), post=None, setups=(), outside=outside)
    return one


def test_a_post_beside_the_job_is_taken(shop):
    one = made(shop, "mine.toml")
    assert one.report.ok
    assert "G00 X" in one.text


def test_a_post_outside_the_jobs_folder_only_if_asked_for(shop):
    with pytest.raises(InputError) as error:
        made(shop, "../mine.toml")
    (fault,) = error.value.faults
    assert "lies outside the job's own folder" in fault.what
    assert fault.place.line > 0
    assert "--outside" in fault.mend
    assert made(shop, "../mine.toml", outside=True).report.ok
