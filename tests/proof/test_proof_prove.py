"""A correct program has no findings; each planted fault has its own, by its own line."""

import math
from dataclasses import replace

import pytest
from proof_pen import (
    GOOD,
    MILL,
    TARGET,
    WALL,
    Pen,
    at_line,
    disc_pocket,
    found,
    judged,
    program,
)

from jawcam.hold.target import Keep, Level, Relief, Unreached
from jawcam.proof.limits import Limits, limits_for
from jawcam.proof.prove import CHECKS, MOST, prove, refusals
from jawcam.reader.cuts import ReadFault
from jawcam.tools.machine import Machine


def test_a_correct_program_has_no_findings():
    report = judged(GOOD)
    assert report.findings == ()
    assert report.ok


def test_the_figures_of_a_correct_program():
    figures = judged(GOOD, machine=Machine(rapid=5000.0)).figures
    assert figures.gouge < 1e-4
    assert figures.left_over == 0
    assert figures.floor_error == pytest.approx(0, abs=1e-9)
    assert figures.deepest == -6.0
    assert figures.bolt_clearance is None
    assert figures.floor_left == pytest.approx(24.0)
    assert figures.wall_left == pytest.approx(3 + 30 - 15.05, abs=1e-4)
    in_gap = 2 * (3 * math.sqrt(15.05**2 - 9) + 15.05**2 * math.asin(3 / 15.05))
    assert figures.area == pytest.approx(math.pi * 15.05**2 - in_gap, abs=0.01)
    assert figures.volume == pytest.approx(6 * figures.area, rel=0.02)
    assert figures.rapid_length == pytest.approx(9.5 + 16)
    assert figures.rapid_minutes == pytest.approx(25.5 / 5000)
    feeds = sum(cut.feed > 0 for cut in GOOD.cuts)
    assert feeds > 10
    assert figures.feed_minutes == pytest.approx(figures.feed_length / 600)


def test_the_target_may_lie_anywhere_from_the_programs_zero():
    """The same cuts as seen from another origin."""
    shift = (12.5, -33.0, 30.0)
    moved = [
        cut._replace(
            start=tuple(a - b for a, b in zip(cut.start, shift, strict=True)),
            end=tuple(a - b for a, b in zip(cut.end, shift, strict=True)),
            centre=cut.centre and (cut.centre[0] - shift[0], cut.centre[1] - shift[1]),
        )
        for cut in disc_pocket(wall=11.06).cuts
    ]
    report = judged(moved, replace(TARGET, zero=shift))
    assert found(report) == [("P201", WALL)]
    (finding,) = report.findings
    assert finding.amount == pytest.approx(0.01, abs=1e-4)
    x, y = finding.x + shift[0], finding.y + shift[1]
    assert math.hypot(x, y) == pytest.approx(15.06, abs=1e-3)
    assert finding.z + shift[2] == pytest.approx(-6.0)


@pytest.mark.parametrize(("out", "flagged"), [(0.001, False), (0.003, True), (0.5, True)])
def test_a_wall_too_far_out_is_a_gouge_beyond_the_limit(out, flagged):
    report = judged(disc_pocket(wall=11.05 + out))
    assert found(report) == ([("P201", WALL)] if flagged else [])
    assert report.figures.gouge == pytest.approx(out, abs=1e-4)


@pytest.mark.parametrize(("stays", "flagged"), [(0.004, False), (0.01, True), (0.4, True)])
def test_a_wall_not_far_enough_out_leaves_a_ring(stays, flagged):
    """One finding for each blank's half of the ring, as large as the ring is thick."""
    report = judged(disc_pocket(wall=11.05 - stays, rings=(3.0, 6.0, 9.0, 10.6)))
    assert [code for code, _ in found(report)] == ["P301"] * (2 if flagged else 0)
    for finding in report.findings:
        assert finding.amount == pytest.approx(stays, abs=2e-3)
        assert abs(finding.y) > 3, "not in the gap"


def test_an_arc_centre_that_is_off_gouges_on_the_far_side():
    """The wall's radius is 0.01 too large and its centre 0.01 off: 0.02 too far on the left."""
    report = judged(at_line(GOOD.cuts, WALL, centre=(-0.01, 0.0)))
    assert found(report) == [("P201", WALL)]
    assert report.findings[0].x < -14
    assert report.findings[0].amount == pytest.approx(0.01 + 0.01 * 14.75 / 15.05, abs=3e-4)


def test_a_cutter_that_is_thicker_than_the_job_says_gouges():
    thick = replace(TARGET, cutters=(replace(MILL, dia=8.2),))
    report = judged(GOOD, thick)
    assert found(report) == [("P201", WALL)]
    assert report.findings[0].amount == pytest.approx(0.1, abs=1e-3)


def test_a_cut_below_the_seat_is_named_by_its_line():
    deep = disc_pocket(floor=-6.01)
    first = next(cut.line for cut in deep.cuts if cut.end[2] == -6.01)
    report = judged(deep)
    assert found(report) == [("P401", first)]
    assert report.findings[0].amount == pytest.approx(0.01)
    assert report.figures.floor_error == pytest.approx(-0.01)
    assert found(judged(disc_pocket(floor=-6.0009))) == []


def test_a_seat_left_too_high_is_named_by_the_first_cut_there():
    high = disc_pocket(floor=-5.98)
    first = next(cut.line for cut in high.cuts if cut.end[2] == -5.98)
    assert found(judged(high)) == [("P403", first)]
    never = judged(disc_pocket(floor=-5.0))
    assert [code for code, _ in found(never)] == ["P301", "P301", "P402"]


def test_a_corner_that_the_job_foretold_is_a_note():
    """A square pocket's corners in the round: the largest disc in what a cutter of radius r leaves
    of a right corner touches both walls and the cutter: r (sqrt 2 - 1) / (sqrt 2 + 1)."""
    half = 15.0
    square = tuple((x, y, 0.0) for x, y in ((-half, -half), (half, -half), (half, half)))
    square += ((-half, half, 0.0),)
    reach = half - 4.0
    pen = Pen().rapid(0.0, 0.0).rapid(z=10.0)
    pen.feed(z=0.0).feed(3.0).circle(-6.0, turns=6)
    for ring in (3.0, 7.0, reach):
        pen.feed(ring, -ring).feed(ring, ring).feed(-ring, ring).feed(-ring, -ring)
        pen.feed(ring, -ring)
    pen.rapid(z=10.0)
    target = replace(TARGET, levels=(Level(0.0, -6.0, (square,)),), grip=0.0)
    size = 2 * 4.0 * (math.sqrt(2) - 1) / (math.sqrt(2) + 1)
    report = judged(pen, target)
    assert [code for code, _ in found(report)] == ["P301"] * 4
    assert [f.amount for f in report.findings] == pytest.approx([size] * 4, abs=0.005)
    at = half - size / 2
    places = tuple(
        Unreached(x, y, size, "a sharp corner", seats=True, floor=-6.0)
        for x in (-at, at)
        for y in (-at, at)
    )
    report = judged(pen, replace(target, unreached=places))
    assert [(f.code, f.grade) for f in report.findings] == [("P302", "note")] * 4
    assert report.ok
    report = judged(pen, replace(target, unreached=places[1:]))
    assert sorted(code for code, _ in found(report)) == ["P301", "P302", "P302", "P302"]


def test_a_relief_must_be_cut_as_well():
    relief = Relief((13.0, 10.0), (14.0, 10.0), 2.0, (14.0, 10.0), -6.0)
    report = judged(GOOD, replace(TARGET, reliefs=(relief,)))
    assert [code for code, _ in found(report)] == ["P301"]


def test_the_program_must_end():
    assert found(prove(program(GOOD, ended=False), TARGET)) == [("P106", 0)]
    fault = ReadFault("R601", "no end", "end it", 3, 1)
    whole = program(GOOD, ended=False, faults=(fault,))
    assert found(prove(whole, TARGET)) == [("R601", 3)], "said once"


def test_the_readers_faults_stop_the_program():
    fault = ReadFault("R204", "the radii differ", "mend the centre", 4, 7)
    report = prove(program(GOOD, faults=(fault,)), TARGET)
    assert [(f.code, f.grade, f.line, f.column) for f in report.findings] == [
        ("R204", "stop", 4, 7)
    ]
    assert report.findings[0].source == "block 4"
    assert report.findings[0].mend == "mend the centre"


def test_a_program_that_does_nothing_is_not_proven():
    report = judged([])
    assert [f.code for f in report.findings] == ["P301", "P301", "P402"]
    assert report.figures.deepest is None


def test_inch_programs_may_be_rounded_to_their_last_digit():
    """8.0010 mm is what 0.3150 in, the nearest to 8 mm with four decimals, comes to."""
    deep = disc_pocket(floor=-6.00125, wall=11.053)
    assert {code for code, _ in found(judged(deep))} == {"P201", "P401"}
    assert found(prove(program(deep, units="inch"), TARGET)) == []
    assert limits_for("mm") == Limits()
    kept = limits_for("inch", Keep(3.0, 2.0, 1.5))
    assert (kept.floor, kept.wall, kept.bolt) == (3.0, 2.0, 1.5)
    assert replace(kept, floor=2.0, wall=1.0, bolt=1.0) == limits_for("inch")
    assert found(judged(deep, limits=Limits(gouge=0.004, level=0.002))) == []


def test_the_proof_is_the_same_each_time():
    wide = disc_pocket(wall=11.1, floor=-6.02)
    assert judged(wide) == judged(wide)
    names = [name for name, _ in CHECKS]
    assert len(set(names)) == len(names)


def test_one_mistake_all_round_is_told_in_few_findings():
    """A ring about as thin as the limit falls into hundreds of spots that a disc fits into."""
    for stays in (0.0201, 0.0203, 0.03):
        report = judged(disc_pocket(wall=11.05 - stays))
        assert {code for code, _ in found(report)} == {"P301"}
        assert len(report.findings) <= MOST
        assert report.figures.left_over == pytest.approx(stays, abs=5e-4)


def test_findings_alike_beyond_a_number_are_counted():
    faults = tuple(ReadFault("R103", "no number", "add one", n, 1) for n in range(1, 26))
    report = refusals(program(GOOD, faults=faults))
    assert [f.line for f in report.findings] == list(range(1, MOST + 1))
    assert report.findings[-1].what == f"no number (and {25 - MOST} more like this)"
    few = program(GOOD, faults=faults[:MOST])
    assert [f.what for f in refusals(few).findings] == ["no number"] * MOST
