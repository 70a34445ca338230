"""Every program in this folder and the folders in it is read and judged against its folder's
targets, and must give the findings that it says itself: ``(expect CODE:LINE)`` each, the line left
out for a finding about no line, and ``(expect CODE:LINE AMOUNT)`` with how much it is, in mm, where
plane geometry tells; ``(expect nothing)``. ``(read as NAME)``: by another kind of
control."""

import re
from pathlib import Path

import crash_setting
import faulty_setting
import pytest
import seated_setting
import stations_setting
import stepped_setting
from faulty_expected import amounts, expected

from jawcam.proof.codes import CODES
from jawcam.proof.prove import prove
from jawcam.proof.seated import prove_seated
from jawcam.reader.read import read

HERE = Path(__file__).parent
TARGETS = {
    HERE: (faulty_setting.TARGET,),
    HERE / "stepped": (stepped_setting.TARGET,),
    HERE / "stations": stations_setting.TARGETS,
    HERE / "crash": (crash_setting.TARGET,),
    HERE / "seated": (seated_setting.TARGET,),
}
JUDGES = {HERE / "seated": prove_seated}
"""Of programs that cut the part; else those that cut its pocket are judged."""
MACHINES = {HERE / "crash": crash_setting.MACHINE}
PROGRAMS = sorted(path for path in HERE.rglob("*.nc") if path.parent in TARGETS)
ELSEWHERE = {"P302", "P915"}
"""Codes that another target is needed for, and that tests/proof covers."""


@pytest.mark.parametrize("path", PROGRAMS, ids=lambda path: f"{path.parent.name}-{path.stem}")
def test_program_gives_the_findings_that_it_names(path):
    text, targets = path.read_text(), TARGETS[path.parent]
    other = re.search(r"\(read as ([\w-]+)\)", text)
    program = read(text, other[1] if other else "rs274ngc-mill", path.name)
    machine, judge = MACHINES.get(path.parent), JUDGES.get(path.parent, prove)
    found = []
    for target in targets:
        others = [other.work_offset for other in targets if other is not target]
        found += judge(program, target, machine=machine, others=others).findings
    assert sorted((f.code, f.line) for f in found) == expected(text)
    assert all(f.mend for f in found)
    measured = {(f.code, f.line): f.amount for f in found if (f.code, f.line) in amounts(text)}
    assert measured == pytest.approx(amounts(text), abs=0.0005)


def test_every_code_is_given_by_some_program_here():
    said = {code for path in PROGRAMS for code, _ in expected(path.read_text())}
    assert set(CODES) - said == ELSEWHERE
