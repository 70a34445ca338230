"""Every program in this folder is read and judged, and must give the findings that it says itself:
``(expect CODE:LINE)`` each, the line left out for a finding about no line; ``(expect nothing)``."""

import re
from pathlib import Path

import pytest
from faulty_setting import TARGET

from jawcam.proof.codes import CODES
from jawcam.proof.prove import prove
from jawcam.reader.read import read

PROGRAMS = sorted(Path(__file__).parent.glob("*.nc"))
ELSEWHERE = {"P302"}
"""Codes that another target is needed for, and that tests/proof covers."""


def expected(text):
    said = re.findall(r"\(expect ([A-Z]\d+)(?::(\d+))?\)", text)
    assert said or "(expect nothing)" in text
    return sorted((code, int(line or 0)) for code, line in said)


@pytest.mark.parametrize("path", PROGRAMS, ids=lambda path: path.stem)
def test_program_gives_the_findings_that_it_names(path):
    text = path.read_text()
    report = prove(read(text, "rs274ngc-mill", path.name), TARGET)
    assert sorted((f.code, f.line) for f in report.findings) == expected(text)


def test_every_code_is_given_by_some_program_here():
    said = {code for path in PROGRAMS for code, _ in expected(path.read_text())}
    assert set(CODES) - said == ELSEWHERE
