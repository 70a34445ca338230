"""Every lathe program in this folder is read and judged, and must give the findings that it says
itself: ``(expect CODE:LINE)`` each, the line left out for a finding about no line, and ``(expect
CODE:LINE AMOUNT)`` with how much it is, in mm, where plane geometry tells; ``(expect nothing)``.
Notes count as well. Where nothing stops the program it says ``(only warned of)``."""

from pathlib import Path

import pytest
import turning_setting
from faulty_expected import amounts, expected

from jawcam.proof.turning.prove import prove_turning
from jawcam.reader.read import read

PROGRAMS = sorted(Path(__file__).parent.glob("*.nc"))


@pytest.mark.parametrize("path", PROGRAMS, ids=lambda path: path.stem)
def test_program_gives_the_findings_that_it_names(path):
    text = path.read_text()
    report = prove_turning(read(text, "rs274ngc-lathe", path.name), turning_setting.TARGET)
    assert sorted((f.code, f.line) for f in report.findings) == expected(text)
    found = {(f.code, f.line): f.amount for f in report.findings}
    measured = {place: found[place] for place in amounts(text)}
    assert measured == pytest.approx(amounts(text), abs=0.0005)
    assert report.ok == ("(expect nothing)" in text or "(only warned of)" in text)


def test_there_are_programs():
    assert {"good", "pass_deep", "lead_wrong"} <= {path.stem for path in PROGRAMS}
