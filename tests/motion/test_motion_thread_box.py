"""Which four moves are a box, and which are not."""

from __future__ import annotations

import itertools

import pytest
from hypothesis import given
from hypothesis import strategies as st

from jawcam.motion.arcs import moves_from
from jawcam.motion.moves import (
    LineFeed,
    Rapid,
    Remark,
    Spindle,
    ThreadBox,
    ThreadCut,
    ToolChange,
    WorkOffset,
)
from jawcam.motion.thread_box import boxed

START = Rapid((5.0, 12.0, 0.0))
ACROSS, CUT = Rapid((5.0, 9.0, 0.0)), ThreadCut((-20.0, 9.0, 0.0), 1.5)
OUT, BACK = Rapid((-20.0, 12.0, 0.0)), Rapid((5.0, 12.0, 0.0))
BOX = ThreadBox((5.0, 12.0, 0.0), (5.0, 9.0, 0.0), (-20.0, 9.0, 0.0), 1.5)


def run(*motions, tapered=True):
    return boxed(motions, tapered=tapered)


def test_four_moves_are_one_box():
    assert run(START, ACROSS, CUT, OUT, BACK) == (START, BOX)
    twice = run(START, ACROSS, CUT, OUT, BACK, ACROSS, CUT, OUT, BACK, Spindle(0))
    assert twice == (START, BOX, BOX, Spindle(0))


def test_the_next_start_may_lie_elsewhere_along_z():
    """Nearer as the flank is followed, farther as the next start of the thread begins there."""
    for z in (4.9, 6.5):
        on = Rapid((z, 12.0, 0.0))
        across = Rapid((z, 8.9, 0.0))
        found = run(START, ACROSS, CUT, OUT, on, across, CUT, OUT, on)
        second = ThreadBox(on.to, across.to, (-20.0, 9.0, 0.0), 1.5)
        # The second is tapered, as its cut ends at another X than it begins.
        assert found == (START, BOX, on, second)
        assert run(START, ACROSS, CUT, OUT, on, tapered=False) == (START, BOX, on)


def test_inside_a_bore_it_is_the_other_way_round():
    start, across = Rapid((5.0, 8.0, 0.0)), Rapid((5.0, 9.0, 0.0))
    out, back = Rapid((-20.0, 8.0, 0.0)), Rapid((5.0, 8.0, 0.0))
    box = ThreadBox(start.to, across.to, CUT.to, 1.5)
    assert run(start, across, CUT, out, back) == (start, box)


def test_a_tapered_pass_is_a_box_if_the_control_can_say_so():
    motions = (START, ACROSS, ThreadCut((-20.0, 10.0, 0.0), 1.5), OUT, BACK)
    assert run(*motions)[1] == ThreadBox(BOX.start, BOX.begin, (-20.0, 10.0, 0.0), 1.5)
    assert run(*motions, tapered=False) == motions


@pytest.mark.parametrize(
    "motions",
    [
        (ACROSS, CUT, OUT, BACK),  # from nowhere
        (START, ToolChange(3, "a"), ACROSS, CUT, OUT, BACK),
        (START, WorkOffset(2), ACROSS, CUT, OUT, BACK),
        (START, Rapid((4.0, 9.0, 0.0)), CUT, OUT, BACK),  # in at a slant
        (START, LineFeed((5.0, 9.0, 0.0), 0.1), CUT, OUT, BACK),  # in at a feed
        (START, ACROSS, LineFeed((-20.0, 9.0, 0.0), 0.1), OUT, BACK),  # no thread
        (START, ACROSS, CUT, ThreadCut((-21.0, 12.0, 0.0), 1.5), BACK),  # out in the thread
        (START, ACROSS, CUT, Rapid((-21.0, 12.0, 0.0)), BACK),  # out at a slant
        (START, ACROSS, CUT, Rapid((-20.0, 11.0, 0.0)), BACK),  # not out as far
        (START, ACROSS, CUT, Rapid((-20.0, 11.0, 0.0)), Rapid((5.0, 11.0, 0.0))),
        (START, ACROSS, CUT, OUT, Rapid((5.0, 13.0, 0.0))),  # back at a slant
        (START, ACROSS, CUT, OUT, LineFeed((5.0, 12.0, 0.0), 0.1)),  # back at a feed
        (START, ACROSS, CUT, OUT, Rapid((-25.0, 12.0, 0.0))),  # on, not back
        (START, ACROSS, CUT, OUT, Remark("a word"), BACK),
        (START, ACROSS, CUT, OUT),
        (START, ACROSS, Spindle(900), CUT, OUT, BACK),
        # The cut crosses the X of the start.
        (START, ACROSS, ThreadCut((-20.0, 13.0, 0.0), 1.5), OUT, BACK),
    ],
)
def test_all_else_is_left_alone(motions):
    assert run(*motions) == motions


NUMBERS = st.integers(0, 3).map(float)


@st.composite
def moves(draw):
    """Some moves among few points: one, or four that are a box or nearly one."""
    z, x, end, depth, back = (draw(NUMBERS) for _ in range(5))
    if draw(st.booleans()):
        return [draw(st.sampled_from([Rapid((z, x, 0.0)), ThreadCut((z, x, 0.0), 1.5)]))]
    near = draw(st.sampled_from([0.0, 0.0, 0.0, 1.0]))
    return [
        Rapid((z, x, 0.0)),
        Rapid((z, depth, 0.0)),
        ThreadCut((end, depth + draw(st.sampled_from([0.0, 0.5])), 0.0), 1.5),
        Rapid((end + near, x, 0.0)),
        Rapid((back, x, 0.0)),
    ]


def written_out(motions):
    for motion in motions:
        if not isinstance(motion, ThreadBox):
            yield motion
            continue
        yield Rapid(motion.begin)
        yield ThreadCut(motion.to, motion.lead)
        yield Rapid((motion.to[0], motion.start[1], 0.0))
        yield Rapid(motion.start)


@given(st.lists(moves(), max_size=6).map(lambda parts: [move for part in parts for move in part]))
def test_boxes_mean_the_moves_that_they_were_made_of(motions):
    """The same cuts from the same points, and rapids along the same lines, some of them in two
    goes or there and back."""
    motions = [m for m, after in itertools.pairwise([*motions, None]) if m != after]
    found = boxed(motions, tapered=True)
    both = [list(moves_from(tuple(written_out(one)))) for one in (motions, found)]
    cuts = [[pair for pair in one if isinstance(pair[1], ThreadCut)] for one in both]
    assert cuts[0] == cuts[1]
    corners = [{m.to for _, m in one} for one in both]
    # A box's start is a corner already.
    assert corners[0] == corners[1]
    for start, motion in moves_from(found):
        if isinstance(motion, ThreadBox):
            assert start == motion.start
