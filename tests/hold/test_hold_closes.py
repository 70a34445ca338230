"""The jaws of a job are closed on its part, and a job whose jaws meet first is refused."""

from __future__ import annotations

import pytest

from jawcam.errors import InputError
from jawcam.make import make
from jawcam.resources import folder

JOB = (folder("samples") / "crank-lever.toml").read_text(encoding="utf-8")


def made(tmp_path, text):
    (tmp_path / "job.toml").write_text(text, encoding="utf-8")
    drawing = folder("samples") / "crank-lever.dxf"
    (tmp_path / drawing.name).write_bytes(drawing.read_bytes())
    path = tmp_path / "job.toml"
    return make(path, shown=path.name, post=None, setups=(), outside=False)


def test_what_the_operator_should_know_of_the_closing_is_told(tmp_path):
    # the lever is 0.03 mm smaller all round: each jaw closes by that onto the big boss
    (one,) = made(tmp_path, JOB)
    assert "jaws close by 0.06 mm onto the part, leaving 5.94 mm of gap" in one.notes
    assert any(note.startswith("back jaw touches at X -25.") for note in one.notes)


def test_jaws_that_meet_before_the_part_are_refused_with_the_gap_to_cut_at(tmp_path):
    with pytest.raises(InputError) as error:
        made(tmp_path, JOB.replace("gap = 6 ", "gap = 0.05 "))
    (fault,) = error.value.faults
    assert "the jaws meet each other before they grip the part" in fault.what
    assert "0.56 mm" in fault.mend
    assert fault.place.line > 0
