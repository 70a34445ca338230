"""Several stations in one program."""

import pytest
from proof_pen import NAN, TARGET, Pen, disc_pocket, program

from jawcam.proof.prove import prove
from jawcam.reader.cuts import Change


def two(z, *changes):
    """The pocket, up to `z`, then on in another work offset."""
    pen = disc_pocket()
    pen.cuts.pop()
    pen.line -= 1
    pen.at = pen.cuts[-1].end
    pen.rapid(z=z)
    line = pen.line
    other = Pen((NAN, NAN, NAN))
    other.line = line + 2
    other.rapid(50.0, 0.0).rapid(z=10.0)
    cuts = [*pen.cuts, *(cut._replace(work_offset=2) for cut in other.cuts)]
    whole = program(cuts)
    extra = tuple(change._replace(line=line + 1) for change in changes)
    told = sorted((*whole.changes, *extra), key=lambda change: change.line)
    report = prove(program(cuts, changes=tuple(told)), TARGET, others=[2])
    return [(f.code, f.grade, f.line - line, f.z) for f in report.findings]


@pytest.mark.parametrize(
    ("z", "grade"), [(10.0, None), (9.0, "warn"), (0.5, "warn"), (-3.0, "stop")]
)
def test_the_tool_rises_before_the_work_offset_changes(z, grade):
    assert two(z) == ([("P117", grade, 3, z)] if grade else [])


def test_a_rise_in_machine_coordinates_counts():
    assert two(-3.0, Change("machine", "Z0", 0, 1)) == []
    assert {code for code, *_ in two(-3.0, Change("machine", "X0 Y0", 0, 1))} == {"P116", "P117"}


def test_a_tool_change_low_down_is_told_once():
    assert {code for code, *_ in two(0.5, Change("tool", "3", 0, 1))} == {"P115"}
