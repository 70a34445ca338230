"""Programs as people write them, in habits that no post here has: each is read as the kind of
control that it names, judged, and must give the findings that it says itself: ``(expect
CODE:LINE)`` each, the line left out for a finding about no line; ``(expect nothing)``."""

import re
from functools import partial
from pathlib import Path

import faulty_setting
import pytest
import stepped_setting
import turning_setting
from faulty_expected import expected

from jawcam.proof.prove import prove
from jawcam.proof.turning.prove import prove_turning
from jawcam.reader.read import read

PROGRAMS = sorted(Path(__file__).parent.glob("*.nc"))
JUDGES = {
    "axle": partial(prove_turning, target=turning_setting.TARGET),
    "burr_carrier": partial(prove, target=stepped_setting.TARGET),
}
RING = partial(prove, target=faulty_setting.TARGET)


@pytest.mark.parametrize("path", PROGRAMS, ids=lambda path: path.stem)
def test_program_gives_the_findings_that_it_names(path):
    text = path.read_text()
    kind = re.search(r"\(read as ([a-z0-9-]+)\)", text)[1]
    report = JUDGES.get(path.stem, RING)(read(text, kind, path.name))
    assert sorted((f.code, f.line) for f in report.findings) == expected(text)
    assert all(f.mend for f in report.findings)


@pytest.mark.parametrize("name", ["called", "macros", "named_loops"])
def test_calls_that_are_not_read_are_refused_in_clear_words(name):
    text = Path(__file__).with_name(f"{name}.nc").read_text()
    kind = re.search(r"\(read as ([a-z0-9-]+)\)", text)[1]
    faults = [fault for fault in read(text, kind, name).faults if fault.code == "R604"]
    assert faults
    for fault in faults:
        assert re.search("subprogram|macro", fault.what)
        assert "write" in fault.mend
        assert "blocks" in fault.mend
