"""A turned part from the drawing of its half profile is held like the one from its table."""

import dataclasses
import math

import ezdxf
import pytest

from jawcam.errors import InputError
from jawcam.geometry.shapes import Arc
from jawcam.hold.turning import hold_turned
from jawcam.job.model import Job, Machine, Part
from jawcam.job.turn_model import Chuck, PartingOff, Stock, TurnRough, TurnSetup
from jawcam.part.piece import Piece
from jawcam.part.profile import half_profile
from jawcam.tolerance import Tolerance
from jawcam.units import Units

MM = 4  # $INSUNITS
TABLE = (
    Piece(12, 12, 14, chamfer=1),
    Piece(9.5, 9.5, 5),
    Piece(18, 24, 8),
    Piece(30, 30, 10, rounding=1.5),
    Piece(20, 20, 20, rounding=1),
)
BORE = (Piece(6, 6, 57),)
SETUP = TurnSetup("end-a", "rs274ngc-lathe", 1, "A", Stock(32.0), Chuck(18.0))
BORED = dataclasses.replace(SETUP, bore=TurnRough())


def job_of(part, *setups):
    return Job("spindle.toml", "Spindle", Units.MM, part, (), (), Machine(), turnings=setups)


@pytest.fixture
def drawing(tmp_path):
    """The table's half profile, drawn from its first end to its last."""
    segments = half_profile(TABLE, units=Units.MM, place=str)
    document = ezdxf.new("R2010", units=MM)
    space = document.modelspace()
    for segment in segments:
        if isinstance(segment, Arc):
            angles = [
                math.degrees(math.atan2(y - segment.centre[1], x - segment.centre[0]))
                for x, y in (segment.end, segment.start)  # clockwise
            ]
            space.add_arc(segment.centre, math.dist(segment.start, segment.centre), *angles)
        else:
            space.add_line(segment.start, segment.end)
    path = tmp_path / "spindle.dxf"
    document.saveas(path)
    return path


def held(part, setup=SETUP, *others):
    return hold_turned(job_of(part, *others, setup), setup, Tolerance())


def drawn(path, **more):
    return Part("mild steel", 0.0, profile=path, axis="y = 0", **more)


def tabled(**more):
    return Part("mild steel", 57.0, turned=TABLE, **more)


def faults(part, setup=SETUP, *others):
    with pytest.raises(InputError) as caught:
        held(part, setup, *others)
    return caught.value.faults


def begun(loop):
    """The loop from its first corner on, as rows compare to a hundredth."""
    first = min(range(len(loop)), key=lambda k: [round(value, 2) + 0.0 for value in loop[k]])
    return (*loop[first:], *loop[:first])


def near(found, expected):
    found, expected = begun(found), begun(expected)
    assert len(found) == len(expected)
    for one, other in zip(found, expected, strict=True):
        assert one == pytest.approx(other, abs=1e-5)


@pytest.mark.parametrize("end", ["A", "B"])
@pytest.mark.parametrize("bore", [(), BORE])
def test_a_drawing_makes_the_target_of_its_table(drawing, end, bore):
    setup = dataclasses.replace(BORED, end=end)
    found = held(drawn(drawing, bore=bore), setup)
    expected = held(tabled(bore=bore), setup)
    near(found.target.finished, expected.target.finished)
    near(found.target.stock, expected.target.stock)
    assert found.length == pytest.approx(57)
    assert found.target.limit == pytest.approx(expected.target.limit)
    assert set(expected.target.notes) <= set(found.target.notes)


def test_end_a_may_be_at_the_right(drawing):
    found = held(drawn(drawing, end_a="right"))
    expected = held(tabled(), dataclasses.replace(SETUP, end="B"))
    near(found.target.finished, expected.target.finished)


def test_edges_are_cut_as_they_are_drawn(drawing):
    broken = held(drawn(drawing, edge=0.2))
    near(broken.target.finished, held(drawn(drawing)).target.finished)
    (note,) = [one for one in broken.target.notes if one.startswith("part.edge")]
    assert "as drawn" in note
    assert not any(one.startswith("part.edge") for one in held(drawn(drawing)).target.notes)


def test_parting_off_breaks_no_edge_of_a_drawing(drawing):
    setup = dataclasses.replace(SETUP, part_off=PartingOff())
    found = held(drawn(drawing), setup)
    near(found.target.finished, held(drawn(drawing)).target.finished)
    assert found.target.parted == pytest.approx(-57)
    assert any(one.startswith("part_off.edge") for one in found.target.notes)


@pytest.mark.parametrize(
    ("bore", "key", "what"),
    [
        (Piece(6, 6, 58), "part.bore", "58 mm long, and the part only 57 mm"),
        (Piece(9.5, 9.5, 57), "part.bore", "as wide as the part is there"),
        (Piece(6, 14, 13), "part.bore", "as wide as the part is there"),
    ],
)
def test_a_bore_stays_inside_the_drawing(drawing, bore, key, what):
    job = dataclasses.replace(
        job_of(drawn(drawing, bore=(bore,)), BORED), lines=(("part.bore", 3),)
    )
    with pytest.raises(InputError) as caught:
        hold_turned(job, BORED, Tolerance())
    (fault,) = caught.value.faults
    assert fault.place.key.startswith(key)
    assert what in fault.what


def test_a_grip_as_long_as_the_part(drawing):
    (fault,) = faults(drawn(drawing), dataclasses.replace(SETUP, chuck=Chuck(57.0)))
    assert fault.what == "the part is only 57 mm long, and the chuck would hold all of it"


def test_a_reach_longer_than_the_part(drawing):
    (fault,) = faults(drawn(drawing), dataclasses.replace(SETUP, reach=57.1))
    assert fault.what == "the part is only 57 mm long"


def test_ends_that_leave_a_gap_between_them(drawing):
    first = TurnSetup("end-b", "rs274ngc-lathe", 1, "B", Stock(32.0), Chuck(18.0), 20.0)
    second = dataclasses.replace(SETUP, reach=36.5)
    (fault,) = faults(drawn(drawing), second, first)
    assert "turns 0.5 mm of the part" in fault.what
    assert held(
        drawn(drawing),
        dataclasses.replace(SETUP, reach=36.0),
        dataclasses.replace(first, reach=21.0),
    )


def test_a_drawing_that_says_nothing_of_its_axis(drawing):
    (fault,) = faults(dataclasses.replace(drawn(drawing), axis=None))
    assert fault.what == "nothing says where the axis of the half profile is"
    assert fault.place.file == "spindle.dxf"
