"""The machine's travel and the height where tools are changed, each on both sides of its limit."""

from dataclasses import replace

import pytest
from proof_pen import MILL, TARGET, disc_pocket, program

from jawcam.hold.target import Travel
from jawcam.proof.limits import Limits
from jawcam.proof.scene import scene_of
from jawcam.proof.times import drive_of
from jawcam.proof.travel import travel
from jawcam.proof.untold import unjudged, untold
from jawcam.reader.cuts import Change
from jawcam.tools.cutter import HolderStep
from jawcam.tools.machine import Machine

POCKET = disc_pocket()
"""It reaches 11.05 from the origin either way, from Z -6 up to 10."""
HELD = replace(MILL, holder=(HolderStep(28.0, 70.0),))
"""40 + 70 = 110 from the nose to the tip."""


def scene(machine, target=TARGET, pen=POCKET, **changes):
    drive = drive_of(machine, target.units)
    run = replace(program(pen), **changes)
    return scene_of(run, target, limits=Limits(), drive=drive, others=(), machine=machine)


def found(machine, target=TARGET, pen=POCKET, **changes):
    return [(one.code, one.grade) for one in travel(scene(machine, target, pen, **changes))]


@pytest.mark.parametrize(("goes", "wrong"), [(22.102, False), (22.09, True)])
@pytest.mark.parametrize("axis", ["x", "y"])
def test_moves_must_not_span_more_than_an_axis_goes(axis, goes, wrong):
    """The circle round the wall reaches beyond the ends of its arcs: 2 x 11.05 = 22.1."""
    machine = Machine(travel=Travel(**{axis: goes}))
    assert found(machine) == ([("P822", "stop")] if wrong else [])


@pytest.mark.parametrize(
    ("at", "wrong"), [(11.051, False), (11.04, True), (88.949, False), (88.96, True)]
)
@pytest.mark.parametrize("axis", ["x", "y"])
def test_moves_must_stay_within_the_travel_where_the_origin_is_known(axis, at, wrong):
    machine = Machine(travel=Travel(**{axis: 100.0}))
    target = replace(TARGET, travel_at=Travel(**{axis: at}))
    assert found(machine, target) == ([("P821", "stop")] if wrong else [])


def test_the_origin_is_the_programs_wherever_it_lies_on_the_blanks():
    """Seen from the blanks' left end, 40 off, the cuts end at X 51.05."""
    shifted = replace(TARGET, zero=(-40.0, 0.0, 0.0), travel_at=Travel(x=0.0))
    moved = [
        cut._replace(
            start=(cut.start[0] + 40.0, *cut.start[1:]),
            end=(cut.end[0] + 40.0, *cut.end[1:]),
            centre=cut.centre and (cut.centre[0] + 40.0, cut.centre[1]),
        )
        for cut in POCKET.cuts
    ]
    assert found(Machine(travel=Travel(x=51.06)), shifted, moved) == []
    assert found(Machine(travel=Travel(x=51.04)), shifted, moved) == [("P821", "stop")]


@pytest.mark.parametrize(("goes", "wrong"), [(16.0, False), (15.99, True)])
def test_without_the_tools_length_the_span_of_its_tip_counts_in_z(goes, wrong):
    target = replace(TARGET, travel_at=Travel(z=0.0))
    assert found(Machine(travel=Travel(z=goes)), target) == ([("P822", "stop")] if wrong else [])


@pytest.mark.parametrize(
    ("at", "wrong"), [(-104.0, False), (-104.01, True), (180.0, False), (180.01, True)]
)
def test_in_z_the_spindles_nose_must_stay_within_the_travel(at, wrong):
    """It is 110 above the tip: 104 above the origin at the seat, 120 at the clearance."""
    machine = Machine(travel=Travel(z=300.0))
    target = replace(TARGET, cutters=(HELD,), travel_at=Travel(z=at))
    assert found(machine, target) == ([("P821", "stop")] if wrong else [])


def test_a_move_beyond_is_told_with_how_far_and_how_to_mend_it():
    machine = Machine(travel=Travel(z=300.0))
    target = replace(TARGET, cutters=(HELD,), travel_at=Travel(z=-106.0))
    (low,) = travel(scene(machine, target))
    assert low.what == "Z goes 2 mm beyond the lower end of its travel of 300 mm"
    assert (low.z, low.amount) == (-6.0, pytest.approx(2.0))
    assert low.mend == "let the tool stand out farther, or set the vise up higher"


def second_tool(z):
    """Another tool is called while the first stands at a height."""
    pen = disc_pocket().rapid(z=z)
    changed = pen.line
    return pen.call(5).rapid(0.0, 0.0).rapid(z=100.0), changed


def changes(at, *, raised):
    rises = (Change("machine", "Z0", at, 9),) if raised else ()
    return (Change("machine", "Z0", 0, 1), *rises, Change("tool", "5", at, 9))


@pytest.mark.parametrize(("z", "wrong"), [(60.0, False), (59.99, True)])
def test_a_tool_is_changed_no_lower_than_the_job_says(z, wrong):
    pen, at = second_tool(z)
    machine = Machine(change_height=60.0)
    expected = [("P823", "stop")] if wrong else []
    assert found(machine, pen=pen, changes=changes(at, raised=False)) == expected
    assert found(machine, pen=pen, changes=changes(at, raised=True)) == []
    assert found(Machine(), pen=pen, changes=changes(at, raised=False)) == []


@pytest.mark.parametrize(("at", "wrong"), [(30.0, False), (30.01, True)])
def test_at_the_top_of_z_a_tip_must_hang_high_enough_to_be_changed(at, wrong):
    """200 up, less 110 of tool and holder: the origin may stand 30 up in the travel."""
    machine = Machine(travel=Travel(z=200.0), change_height=60.0)
    target = replace(TARGET, cutters=(HELD,), travel_at=Travel(z=at))
    assert found(machine, target) == ([("P823", "stop")] if wrong else [])


def test_the_report_says_what_of_the_machine_is_not_told():
    assert "the travel of X, Y, Z" in unjudged(scene(Machine()))
    assert "the travel of X, Z" in unjudged(scene(Machine(travel=Travel(y=400.0))))
    said = untold(scene(Machine()))
    assert "the height where tools are changed: the clearance is enough" in said
    machine = Machine(travel=Travel(500.0, 400.0, 300.0), change_height=60.0)
    said = untold(scene(machine))
    only = "where the origin stands in X, Y, Z: only the span of the moves is judged"
    assert only in said
    assert unjudged(scene(machine)) == ("the vise's own jaws and its bed",)
    target = replace(TARGET, travel_at=Travel(100.0, 100.0, 0.0))
    said = untold(scene(machine, target))
    assert "length of T3 with its holder: only the span of Z is judged" in said
    told = replace(target, cutters=(HELD,))
    assert not any("travel" in words or "span" in words for words in untold(scene(machine, told)))
