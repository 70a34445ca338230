"""Every lathe program in this folder is read and judged, and must give the findings that it says
itself: ``(expect CODE:LINE)`` each, the line left out for a finding about no line; ``(expect
nothing)``. Notes count as well."""

from pathlib import Path

import pytest
import threaded_setting
from faulty_expected import expected

from jawcam.proof.turning.prove import prove_turning
from jawcam.reader.read import read

PROGRAMS = sorted(Path(__file__).parent.glob("*.nc"))


@pytest.mark.parametrize("path", PROGRAMS, ids=lambda path: path.stem)
def test_program_gives_the_findings_that_it_names(path):
    text = path.read_text()
    report = prove_turning(read(text, "rs274ngc-lathe", path.name), threaded_setting.TARGET)
    assert sorted((f.code, f.line) for f in report.findings) == expected(text)
    assert report.ok == ("(expect nothing)" in text)


def test_there_are_programs():
    assert {"good", "taper_off", "inside_deep"} <= {path.stem for path in PROGRAMS}
