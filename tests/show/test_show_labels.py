"""Room for labels; lettering that fits."""

from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from jawcam.show.labels import overlap, place, spread
from jawcam.show.lettering import safe, width, wrap
from jawcam.show.page import Box


@given(st.lists(st.floats(-50, 150), max_size=20))
@settings(max_examples=100)
def test_spread_keeps_order_room_and_distance(wished):
    gap = 5.0
    settled = spread(wished, gap, 0.0, 100.0)
    got = sorted(zip(wished, settled, strict=True))
    for (_, a), (_, b) in pairwise(got):
        assert b - a >= gap - 1e-9
    assert all(-1e-9 <= value <= 100 + 1e-9 for value in settled)


def test_spread_leaves_labels_that_have_room_where_they_are():
    assert spread([40.0, 10.0, 20.0], 5.0, 0.0, 100.0) == [40.0, 10.0, 20.0]


def test_spread_moves_neighbours_apart_evenly():
    assert spread([10.0, 11.0], 5.0, 0.0, 100.0) == [8.0, 13.0]


def test_spread_narrows_the_gap_where_there_is_no_room():
    assert spread([1.0, 1.0, 1.0], 5.0, 0.0, 4.0) == [0.0, 2.0, 4.0]


def test_place_takes_the_first_free_spot_and_keeps_it():
    taken = [Box(0.0, 0.0, 4.0, 4.0)]
    spots = [(1.0, 1.0), (8.0, 1.0), (20.0, 1.0)]
    assert place((2.0, 2.0), spots, taken) == Box(7.0, 0.0, 2.0, 2.0)
    assert place((2.0, 2.0), spots, taken) == Box(19.0, 0.0, 2.0, 2.0)


def test_boxes_that_only_touch_do_not_overlap():
    assert not overlap(Box(0, 0, 2, 2), Box(2, 0, 2, 2))
    assert overlap(Box(0, 0, 2, 2), Box(1, 1, 2, 2))


@given(st.text(max_size=80), st.floats(10, 80))
@settings(max_examples=60)
def test_wrapped_lines_fit(text, room):
    assert all(width(line, 7.0) <= room for line in wrap(text, room, 7.0))


def test_wrapping_keeps_all_the_words():
    text = "Crank lever of the grinder, jaws for side two, second blank pair"
    assert " ".join(wrap(text, 30.0, 7.0)) == text


def test_text_cut_off_says_so():
    lines = wrap("crank lever " * 40, 40.0, 7.0, most=2)
    assert len(lines) == 2
    assert lines[-1].endswith(" ...")


@pytest.mark.parametrize(
    ("given_", "drawn"),
    [
        ("a\tb\n c", "a b c"),
        ("dia \u00d8 8", "dia \u00d8 8"),
        ("\u7c89", "?"),
        ("\x07bell", "?bell"),
    ],
)
def test_characters_that_the_lettering_lacks_become_question_marks(given_, drawn):
    assert safe(given_) == drawn
