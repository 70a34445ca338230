"""Tables whose stretches have threads: which tapered ones can't be screwed together."""

import pytest

from jawcam.errors import InputError, Place
from jawcam.hold.threaded import threaded
from jawcam.part.piece import Piece
from jawcam.units import Units

# R 1/2 over 16 mm and Rc 1/2 over 14 mm (ISO 7-1: 20.955 mm in the gauge plane, 1 in 16)
SMALL, LARGE = 20.442, 21.442
BOTTOM, MOUTH = 17.757, 18.632


def outside(first, last, before=None, behind=17.5):
    ends = [Piece(dia, dia, 4.0) for dia in (before, behind) if dia]
    return [*ends[:-1], Piece(first, last, 16.0, thread="R 1/2"), ends[-1]]


def inside(first, last, before=None, behind=12.0):
    ends = [Piece(dia, dia, 5.0) for dia in (before, behind) if dia]
    return [*ends[:-1], Piece(first, last, 14.0, thread="Rc 1/2"), ends[-1]]


def made(pieces, *, bore):
    return threaded(pieces, inside=bore, units=Units.MM, place=lambda key: Place(key=key))


@pytest.mark.parametrize(
    ("pieces", "bore"),
    [
        (outside(SMALL, LARGE, behind=34.0), False),
        (outside(SMALL, LARGE, before=18.0, behind=34.0), False),
        (outside(LARGE, SMALL), False),
        (inside(MOUTH, BOTTOM), True),
        (inside(MOUTH, BOTTOM, before=22.0), True),
        (inside(BOTTOM, MOUTH, before=12.0, behind=19.0), True),
    ],
)
def test_a_tapered_thread_is_screwed_together_from_its_open_end(pieces, bore):
    assert [form is not None for form in made(pieces, bore=bore).forms].count(True) == 1


@pytest.mark.parametrize(
    ("pieces", "bore", "key", "end"),
    [
        (outside(LARGE, SMALL, behind=34.0), False, "turned[1].dia", "end B"),
        (outside(SMALL, LARGE, before=24.0), False, "turned[2].dia", "end A"),
        (inside(BOTTOM, MOUTH), True, "bore[1].dia", "end B"),
        (inside(MOUTH, BOTTOM, before=16.0), True, "bore[2].dia", "end A"),
    ],
)
def test_one_that_tapers_the_wrong_way_is_told(pieces, bore, key, end):
    with pytest.raises(InputError, match=f"is to be screwed together from {end}") as caught:
        made(pieces, bore=bore)
    (fault,) = caught.value.faults
    assert fault.place.key == key
    assert fault.mend == "turn its two diameters round, or what is beyond it"
