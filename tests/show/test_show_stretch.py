"""A stretch of a program is drawn alone."""

from dataclasses import replace

import pytest

from jawcam.errors import InputError
from jawcam.reader.read import read
from jawcam.show.picture import picture
from jawcam.show.stretch import WHOLE, Stretch, stretch_of
from jawcam.show.words import facts
from jawcam.units import Units

TEXT = "\n".join(["G21 G90 G94 G17", "S1000 M3", *(f"G1 X{k} F100" for k in range(8)), "M30"])


@pytest.fixture
def program():
    return read(TEXT, "rs274ngc-mill", "part.nc")


def lines(program, *ends):
    return [cut.line for cut in stretch_of(program, Stretch(*ends)).cuts]


def test_a_stretch_holds_both_its_lines_and_those_between(program):
    assert lines(program, 4, 6) == [4, 5, 6]
    assert lines(program, None, 4) == [3, 4]
    assert lines(program, 9, None) == [9, 10]
    assert lines(program, 5, 5) == [5]


def test_the_whole_program_is_left_as_it_is(program):
    assert stretch_of(program, WHOLE) is program


def test_moves_of_a_subprogram_count_for_the_line_that_calls_it(program):
    called = replace(program, cuts=tuple(c._replace(calls=(2,), line=30) for c in program.cuts))
    assert len(stretch_of(called, Stretch(2, 2)).cuts) == 8


@pytest.mark.parametrize(
    ("ends", "what"),
    [((6, 4), "begin with line 6 and end with line 4"), ((1, 2), "no move lies in lines 1 to 2")],
)
def test_a_stretch_without_moves_is_refused(program, ends, what):
    with pytest.raises(InputError, match=what):
        stretch_of(program, Stretch(*ends))


def test_it_is_told_where_the_moves_lie(program):
    with pytest.raises(InputError) as refused:
        stretch_of(program, Stretch(50, 60))
    assert refused.value.faults[0].mend == "the moves lie in lines 3 to 10"


def test_a_picture_measures_and_names_its_stretch_alone(program):
    shown = picture(program, None, Units.MM, (), 10000.0, Stretch(4, 6))
    assert shown.measures.cutting == pytest.approx(3.0)
    assert dict(facts(shown, None, 10000.0))["drawn"] == "lines 4 to 6 alone"
    whole = picture(program, None, Units.MM, (), 10000.0)
    assert "drawn" not in dict(facts(whole, None, 10000.0))
