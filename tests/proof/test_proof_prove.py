"""A correct program has no findings; each planted fault has its own, by its own line."""

import math
from dataclasses import replace

import pytest
from proof_pen import MILL, NAN, TARGET, Pen, at_line, disc_pocket, found, program

from jawcam.hold.target import Bolt, Relief, Unreached
from jawcam.proof.limits import Limits, limits_for
from jawcam.proof.prove import CHECKS, prove
from jawcam.reader.cuts import Change, ReadFault
from jawcam.tools.cutter import Cutter

GOOD = disc_pocket()
WALL = next(cut.line for cut in GOOD.cuts if cut.turn == math.tau and cut.end[0] == 11.05)


def judged(pen_or_cuts, target=TARGET, **options):
    return prove(program(pen_or_cuts), target, **options)


def test_a_correct_program_has_no_findings():
    report = judged(GOOD)
    assert report.findings == ()
    assert report.ok


def test_the_figures_of_a_correct_program():
    figures = judged(GOOD, rapid=5000.0).figures
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


@pytest.mark.parametrize(("stays", "flagged"), [(0.015, False), (0.03, True), (0.4, True)])
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
    target = replace(TARGET, outline=square, grip=0.0)
    size = 2 * 4.0 * (math.sqrt(2) - 1) / (math.sqrt(2) + 1)
    report = judged(pen, target)
    assert [code for code, _ in found(report)] == ["P301"] * 4
    assert [f.amount for f in report.findings] == pytest.approx([size] * 4, abs=0.005)
    at = half - size / 2
    places = tuple(Unreached(x, y, size, "a sharp corner") for x in (-at, at) for y in (-at, at))
    report = judged(pen, replace(target, unreached=places))
    assert [(f.code, f.grade) for f in report.findings] == [("P302", "note")] * 4
    assert report.ok
    report = judged(pen, replace(target, unreached=places[1:]))
    assert sorted(code for code, _ in found(report)) == ["P301", "P302", "P302", "P302"]


def test_a_relief_must_be_cut_as_well():
    relief = Relief((13.0, 10.0), (14.0, 10.0), 2.0, (14.0, 10.0))
    report = judged(GOOD, replace(TARGET, reliefs=(relief,)))
    assert [code for code, _ in found(report)] == ["P301"]


def test_a_rapid_through_a_blank():
    pen = disc_pocket()
    pen.cuts.pop()  # the last retract
    pen.at, pen.line = pen.cuts[-1].end, pen.cuts[-1].line
    pen.rapid(x=25.0).rapid(z=10.0)
    out = pen.line - 1
    assert found(judged(pen)) == [("P201", out), ("P501", out)]


def test_the_order_of_the_cuts_matters_to_a_rapid():
    """The same rapid down is through material before the level is cut, and clear after."""
    early = Pen().rapid(3.0, 0.0).rapid(z=10.0).rapid(z=-3.0).rapid(z=10.0)
    down = early.line - 1
    early = disc_pocket(pen=early)
    assert ("P501", down) in found(judged(early))
    late = disc_pocket().rapid(3.0, 0.0).rapid(z=-3.0).rapid(z=10.0)
    assert found(judged(late)) == []


def test_a_sloping_rapid_is_judged_at_the_height_that_it_has():
    def down(x, z):
        """From 2 mm above the jaw top at x to z at the pocket's middle."""
        pen = disc_pocket().rapid(x, 0.0).rapid(z=2.0).rapid(x=0.0, z=z).rapid(z=10.0)
        return [(code, pen.line - line) for code, line in found(judged(pen))]

    assert ("P501", 1) in down(30.0, -5.0), "below the jaw top from X 21.4 on"
    assert down(30.0, -1.0) == [("P502", 1)], "from X 10 on, if the axes move in step"
    assert down(10.0, -6.0) == []


def test_a_rapid_in_the_gap_or_outside_the_blanks_is_in_air():
    thin = replace(TARGET, cutters=(replace(MILL, dia=6.0),))
    gap = Pen().rapid(60.0, 0.0).rapid(z=10.0).rapid(z=-5.0).rapid(x=-60.0).rapid(z=10.0)
    assert "P501" not in {code for code, _ in found(judged(gap, thin))}
    assert ("P501", 4) in found(judged(gap)), "8 mm is thicker than the gap"
    outside = Pen().rapid(0.0, 60.0).rapid(z=10.0).rapid(z=-5.0).rapid(z=10.0)
    assert "P501" not in {code for code, _ in found(judged(outside))}


def straight_down(tool):
    pen = Pen().rapid(3.0, 0.0).rapid(z=10.0)
    down = pen.feed(z=-3.0).line
    pen.feed(z=0.0)
    report = judged(disc_pocket(pen=pen), replace(TARGET, cutters=(tool,)))
    return found(report), [("P601", down)]


def test_a_plunge_needs_a_cutter_that_cuts_at_its_centre():
    got, fault = straight_down(MILL)
    assert got == fault
    got, _ = straight_down(replace(MILL, centre_cutting=True))
    assert got == []


def test_a_plunge_where_it_is_clear_is_none():
    clear = disc_pocket().rapid(3.0, 0.0).feed(z=-6.0).rapid(z=10.0)
    assert found(judged(clear)) == []


@pytest.mark.parametrize(("run", "flagged"), [(5.0, True), (17.1, False)])
def test_a_ramp_steeper_than_ten_degrees_is_a_plunge(run, flagged):
    """atan(3 / 5) is 31 degrees, atan(3 / 17.1) 9.95."""
    pen = Pen().rapid(-8.5, 0.0).rapid(z=10.0).feed(z=0.0).feed(x=-8.5 + run, z=-3.0)
    down = pen.line
    pen.feed(x=3.0, z=0.5)
    assert found(judged(disc_pocket(pen=pen))) == ([("P602", down)] if flagged else [])


@pytest.mark.parametrize(
    ("code", "grade", "changes"),
    [
        ("P101", "stop", {"spindle": "off"}),
        ("P101", "stop", {"rpm": 0.0}),
        ("P102", "stop", {"feed": 0.0}),
        ("P105", "stop", {"spindle": "ccw"}),
        ("P108", "warn", {"length_offset": 0}),
        ("P109", "warn", {"length_offset": 5}),
        ("P111", "note", {"side": "left"}),
    ],
)
def test_the_state_of_one_cut(code, grade, changes):
    report = judged(at_line(GOOD.cuts, WALL, **changes))
    assert [(f.code, f.grade, f.line) for f in report.findings] == [(code, grade, WALL)]


def test_a_stretch_of_cuts_without_what_they_need_is_one_finding():
    cuts = [cut._replace(feed=0.0) if 8 <= cut.line <= 11 else cut for cut in GOOD.cuts]
    assert found(judged(cuts)) == [("P102", 8)]


def test_moves_in_another_work_offset_are_not_proven_unless_another_setup_answers():
    pen = disc_pocket()
    stray = pen.cuts[-1]._replace(work_offset=2, line=pen.line + 1)
    assert found(judged([*pen.cuts, stray])) == [("P110", stray.line)]
    assert found(judged([*pen.cuts, stray], others=[2])) == []


def test_a_tool_that_the_job_does_not_have_cuts_nothing_that_counts():
    codes = [
        code for code, _ in found(judged([c._replace(tool=9, length_offset=9) for c in GOOD.cuts]))
    ]
    assert codes == ["P104", "P301", "P301", "P402"]


def test_an_upright_arc_is_not_proven():
    cuts = at_line(GOOD.cuts, WALL, plane="XZ")
    assert ("P203", WALL) in found(judged(cuts))


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


def test_the_spindle_should_stop_and_the_tool_rise():
    running = program(GOOD, changes=(Change("machine", "Z0", 0, 1), Change("end", "M30", 99, 1)))
    assert found(prove(running, TARGET)) == [("P107", 0)]
    low = program(GOOD.cuts[:-1])
    assert found(prove(low, TARGET)) == [("P115", GOOD.cuts[-2].line)]


def test_a_tool_change_low_down_is_warned_of():
    at = WALL + 1  # after the lead-out, before the retract
    changes = (*program(GOOD).changes, Change("tool", "3", at, 50))
    changes = tuple(sorted(changes, key=lambda change: change.line))
    assert ("P115", at) in found(prove(program(GOOD, changes=changes), TARGET))


def test_the_first_approach():
    start = GOOD.cuts[0]._replace(kind="line", feed=100.0)
    assert found(judged([start, *GOOD.cuts[1:]])) == [("P113", 1)]
    low = at_line(GOOD.cuts, 2, end=(3.0, 0.0, 9.0))
    report = judged(at_line(low, 3, start=(3.0, 0.0, 9.0)))
    assert [(f.code, f.grade) for f in report.findings] == [("P114", "warn")]
    sideways = Pen((NAN, NAN, -2.0)).rapid(3.0, 0.0)
    assert ("P114", 1) in found(judged(disc_pocket(pen=sideways.rapid(z=10.0))))
    unraised = program(GOOD, changes=program(GOOD).changes[1:])
    assert found(prove(unraised, TARGET)) == [("P112", 1)]


@pytest.mark.parametrize(
    ("off", "code", "grade"), [(-0.01, "P705", "stop"), (0.5, "P706", "warn"), (1.01, None, None)]
)
def test_a_bolt_in_the_way(off, code, grade):
    bolt = Bolt(0.0, 15.05 + 5.0 + off, 10.0, -2.0)
    report = judged(GOOD, replace(TARGET, bolts=(bolt,)))
    assert [(f.code, f.grade) for f in report.findings] == ([(code, grade)] if code else [])
    assert report.figures.bolt_clearance == pytest.approx(off, abs=1e-3)
    for finding in report.findings:
        assert (finding.x, finding.y) == (0.0, bolt.y)
        assert finding.amount == pytest.approx(off, abs=1e-3)


def test_a_bolt_below_the_cutter_counts_by_its_depth():
    low = Bolt(5.0, 10.0, 10.0, -8.0)
    report = judged(GOOD, replace(TARGET, bolts=(low,)))
    assert report.findings == ()
    assert report.figures.bolt_clearance == pytest.approx(2.0)
    touching = replace(TARGET, bolts=(replace(low, top=-5.0),))
    assert [f.code for f in judged(GOOD, touching).findings] == ["P705"]


def test_the_floor_left_under_the_cut():
    def blank(height):
        blanks = replace(TARGET.blanks, height=height)
        report = judged(GOOD, replace(TARGET, blanks=blanks))
        return [(f.code, f.grade) for f in report.findings], report.figures.floor_left

    assert blank(8.5) == ([], pytest.approx(2.5))
    assert blank(7.5) == ([("P702", "warn")], pytest.approx(1.5))
    assert blank(5.0) == ([("P701", "stop")], pytest.approx(-1.0))


@pytest.mark.parametrize(
    ("width", "thickness", "code"),
    [(80, 12.6, "P704"), (80, 12.0, "P703"), (31, 30, "P704"), (30, 30, "P703"), (34, 14, None)],
)
def test_the_walls_left_beside_and_behind(width, thickness, code):
    blanks = replace(TARGET.blanks, width=width, thickness=thickness)
    codes = [f.code for f in judged(GOOD, replace(TARGET, blanks=blanks)).findings]
    assert codes == ([code, code] if code else [])


def test_the_cutter_reaches():
    def tool(**changes):
        report = judged(GOOD, replace(TARGET, cutters=(replace(MILL, **changes),)))
        return [(f.code, f.grade) for f in report.findings]

    assert tool(flute_len=6.0, stickout=16.0) == []
    assert tool(flute_len=5.9) == [("P801", "stop")]
    assert tool(stickout=15.0) == [("P802", "warn")]
    assert tool(flute_len=None, stickout=None) == []


@pytest.mark.parametrize("kind", ["ball end mill", "bull-nose end mill", "drill", "chamfer mill"])
def test_cutters_that_are_not_flat_are_not_proven(kind):
    tool = Cutter(3, kind, 8.0)
    codes = [f.code for f in judged(GOOD, replace(TARGET, cutters=(tool,))).findings]
    assert codes.count("P202") == 1
    rounded = replace(MILL, corner_radius=0.5)
    codes = [f.code for f in judged(GOOD, replace(TARGET, cutters=(rounded,))).findings]
    assert codes.count("P202") == 1


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
    assert found(judged(deep, limits=Limits(gouge=0.004, level=0.002))) == []


def test_the_proof_is_the_same_each_time():
    wide = disc_pocket(wall=11.1, floor=-6.02)
    assert judged(wide) == judged(wide)
    names = [name for name, _ in CHECKS]
    assert len(set(names)) == len(names)
