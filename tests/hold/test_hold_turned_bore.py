"""Which end makes what of a bore, and what is said of one that can't be made from there."""

import math
from types import SimpleNamespace

import pytest

from jawcam.errors import FaultList, Place
from jawcam.hold.threaded import Threaded
from jawcam.hold.turned_bore import bore_share, check_bored
from jawcam.part.piece import Piece

DRILLED = 4.0


def setup(end, *, drill=False, bore=False):
    """The little of a setup that counts here."""
    asked = SimpleNamespace()
    return SimpleNamespace(
        name=f"end-{end}", end=end, drill=asked if drill else None, bore=asked if bore else None
    )


def hollow(*rows):
    """A bore of stretches (diameter, length) or (diameter, diameter, length), from end A."""
    pieces = tuple(Piece(row[0], row[-2], row[-1]) for row in rows)
    return Threaded(pieces, (None,) * len(pieces), inside=True)


def ends(share):
    return [(piece.start, piece.end, piece.length) for piece in share]


BOTH = hollow((20, 18, 2), (17, 10), (19, 3), (16, 8), (22, 10))
"""From end A a taper, a cylinder, a relief, the waist; from end B a seat."""


def shares(table, first, second, drilled=DRILLED):
    """What both setups make."""
    one = bore_share(table, first, before=None, after=second, drilled=drilled)
    two = bore_share(table, second, before=first, after=None, drilled=drilled)
    return one, two


def test_the_first_end_makes_what_gets_no_wider_and_the_second_the_rest():
    one, two = shares(BOTH, setup("B", drill=True, bore=True), setup("A", bore=True))
    assert ends(one.pieces) == [(16, 16, 2), (16, 16, 10), (16, 16, 3), (16, 16, 8), (22, 22, 10)]
    assert (one.made, two.made, two.pieces) == ((), one.pieces, BOTH.pieces)


def test_begun_from_end_a_it_has_the_relief_as_well():
    one, _ = shares(BOTH, setup("A", drill=True, bore=True), setup("B", bore=True))
    assert one.pieces[:4] == BOTH.pieces[:4]
    assert ends(one.pieces)[4] == (16, 16, 10)


def test_a_taper_belongs_to_the_end_where_it_is_wide():
    table = hollow((16, 22, 10), (22, 5))
    one, _ = shares(table, setup("A", drill=True, bore=True), setup("B", bore=True))
    assert ends(one.pieces) == [(16, 16, 10), (16, 16, 5)]
    one, _ = shares(table, setup("B", drill=True, bore=True), setup("A", bore=True))
    assert one.pieces == table.pieces


def test_an_end_that_only_drills_leaves_the_drills_diameter():
    one, two = shares(BOTH, setup("B", drill=True), setup("A", bore=True))
    assert {piece[:2] for piece in ends(one.pieces)} == {(2 * DRILLED, 2 * DRILLED)}
    assert (two.made, two.pieces) == (one.pieces, BOTH.pieces)


@pytest.mark.parametrize("end", "AB")
def test_an_end_that_bores_alone_makes_all(end):
    other = setup("A" if end == "B" else "B")
    one, two = shares(BOTH, setup(end, drill=True, bore=True), other)
    assert one.pieces == two.pieces == two.made == BOTH.pieces
    one, two = shares(BOTH, other, setup(end, drill=True, bore=True))
    assert (one.pieces, two.made, two.pieces) == ((), (), BOTH.pieces)


def test_each_end_cuts_the_threads_of_what_it_makes():
    thread = object()
    table = Threaded(BOTH.pieces, (None, thread, None, None, thread), inside=True)
    one, two = shares(table, setup("B", drill=True, bore=True), setup("A", bore=True))
    assert one.table.forms == (None, None, None, None, thread)
    assert two.table.forms == (None, thread, None, None, None)
    _, two = shares(table, setup("B", drill=True, bore=True), setup("A"))
    assert two.table.forms == ()


@pytest.mark.parametrize(
    ("one", "before", "long", "key"),
    [
        (setup("B", drill=True), None, 40, "drill"),
        (setup("B", bore=True), None, 40, "bore"),
        (setup("A", drill=True), setup("B", drill=True), 33, "drill"),
        (setup("A", drill=True), setup("B"), 33, None),
        (setup("B", drill=True), None, 33, None),
        (setup("A", drill=True), None, 40, None),
        (setup("B"), None, 40, None),
    ],
)
def test_a_bore_that_cant_be_made_from_there_is_told(one, before, long, key):
    """The bore is 33 mm long."""
    faults = FaultList()
    assert math.isclose(sum(piece.length for piece in BOTH.pieces), 33)
    check_bored(BOTH, one, before, long, faults, lambda name: Place(key=name))
    assert [fault.place.key for fault in faults.faults] == ([key] if key else [])
