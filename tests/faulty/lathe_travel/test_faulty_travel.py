"""Every lathe program in this folder is read and judged, and must give the findings that it says
itself, with how much each is: see `faulty_expected`."""

from pathlib import Path

import lathe_travel_setting
import pytest
from faulty_expected import amounts, expected

from jawcam.proof.turning.prove import prove_turning
from jawcam.reader.read import read

PROGRAMS = sorted(Path(__file__).parent.glob("*.nc"))
TARGET, MACHINE = lathe_travel_setting.TARGET, lathe_travel_setting.MACHINE


@pytest.mark.parametrize("path", PROGRAMS, ids=lambda path: path.stem)
def test_program_gives_the_findings_that_it_names(path):
    text = path.read_text()
    program = read(text, "rs274ngc-lathe", path.name)
    report = prove_turning(program, TARGET, machine=MACHINE)
    assert sorted((f.code, f.line) for f in report.findings) == expected(text)
    assert {(f.code, f.line): f.amount for f in report.findings} == pytest.approx(amounts(text))
    assert all(f.mend for f in report.findings)
    assert report.ok == ("(expect nothing)" in text)


def test_there_are_programs_of_each_kind():
    said = {code for path in PROGRAMS for code, _ in expected(path.read_text())}
    assert said == {"T801", "T802", "T803"}
