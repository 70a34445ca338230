"""Threading passes: where they go, and where they never go."""

import math
from dataclasses import replace
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from jawcam.errors import InputError, InternalError, Place
from jawcam.hold.turn_target import Thread
from jawcam.motion.moves import Rapid, ThreadCut
from jawcam.part.threads import thread_of
from jawcam.tools.turner import Turner
from jawcam.turn.infeed import even_chips, flank_shift, passes_for
from jawcam.turn.thread import LEAD_IN, ThreadCutting, cut_thread
from jawcam.turn.trail import TurnTrail
from jawcam.units import Units

OUTSIDE = Turner(5, "threading")
INSIDE = Turner(6, "threading", inside=True, least_bore=12)
M20 = Thread(0, -18, 10, 10, thread_of("M20").depth, 2.5, designation="M20")
BORE = Thread(0, -18, 8.647, 8.647, thread_of("M20 6H").depth, 2.5, inside=True, designation="M20")


def cutting(thread, **changes):
    depths = even_chips(thread.depth, passes_for(thread.pitch))
    tool = INSIDE if thread.inside else OUTSIDE
    return replace(ThreadCutting(tool, depths), **changes)


def motions(thread, at=None, **changes):
    trail = TurnTrail()
    trail.at = at
    cut_thread(trail, thread, cutting(thread, **changes))
    return trail.motions


def passes(found):
    """The cuts, each as its start, its end and its lead, with what comes before and after."""
    return [
        (before.to[:2], cut.to[:2], cut.lead, after.to[:2])
        for before, cut, after in zip(found, found[1:], found[2:], strict=False)
        if isinstance(cut, ThreadCut)
    ]


def crest(thread, z):
    share = (z - thread.start) / (thread.end - thread.start)
    return thread.first + share * (thread.last - thread.first)


def depth_at(thread, point):
    z, x = point
    return (x - crest(thread, z)) * (1 if thread.inside else -1)


def test_straight_infeed_of_m20_move_by_move():
    thread = replace(M20, depth=1.5)
    found = motions(thread, depths=(1.0, 1.5), spring=0, flank=0.0)
    assert found == [
        Rapid((7.5, 12.0, 0.0)),
        Rapid((7.5, 9.0, 0.0)),
        ThreadCut((-18.0, 9.0, 0.0), 2.5),
        Rapid((-18.0, 12.0, 0.0)),
        Rapid((7.5, 12.0, 0.0)),
        Rapid((7.5, 8.5, 0.0)),
        ThreadCut((-18.0, 8.5, 0.0), 2.5),
        Rapid((-18.0, 12.0, 0.0)),
        Rapid((7.5, 12.0, 0.0)),
    ]


def test_an_inside_thread_is_the_outside_one_mirrored():
    found = motions(replace(BORE, depth=1.5), depths=(1.0, 1.5), spring=0, flank=0.0)
    outside = motions(replace(M20, depth=1.5), depths=(1.0, 1.5), spring=0, flank=0.0)
    assert [type(one) for one in found] == [type(one) for one in outside]
    for one, other in zip(found, outside, strict=True):
        assert one.to[0] == other.to[0]
        assert one.to[1] - 8.647 == pytest.approx(10 - other.to[1])


@pytest.mark.parametrize("thread", [M20, BORE], ids=["outside", "inside"])
def test_the_passes_reach_their_depths_and_spring_passes_the_last(thread):
    found = passes(motions(thread, spring=2))
    wanted = even_chips(thread.depth, 10)
    depths = [depth_at(thread, end) for _, end, _, _ in found]
    assert depths == pytest.approx([*wanted, thread.depth, thread.depth])
    assert [depth_at(thread, start) for start, *_ in found] == pytest.approx(depths)
    assert found[-1] == found[-2] == found[-3]


# 0.61343 x 2.5 below a radius of 10; ISO's basic d3 of M20 is 16.933.
def test_the_last_pass_of_m20_leaves_its_root():
    _, end, _, _ = passes(motions(M20))[-1]
    assert 2 * end[1] == pytest.approx(16.933, abs=1e-3)


# From the first pass on the tool goes towards the chuck as it goes deeper: the flank ahead cuts.
def test_flank_infeed_moves_the_tool_the_way_that_it_travels():
    found = passes(motions(M20, flank=29.5, spring=0))
    for (start, end, _, _), (deeper, farther, _, _) in pairwise(found):
        sideways, down = deeper[0] - start[0], start[1] - deeper[1]
        assert sideways == pytest.approx(-flank_shift(down, 29.5))
        assert farther[0] - end[0] == pytest.approx(sideways)
    assert found[-1][0][0] == LEAD_IN * 2.5
    assert found[-1][1][0] == -18


def test_a_tool_that_travels_away_from_the_chuck_is_shifted_the_other_way():
    away = replace(M20, start=-18, end=0)
    found = passes(motions(away, spring=0))
    for (start, _, _, _), (deeper, _, _, _) in pairwise(found):
        assert deeper[0] > start[0]
    assert found[-1][0][0] == -18 - LEAD_IN * 2.5
    assert found[-1][1][0] == 0


# The point of each pass lies on a line at the angle of infeed through that of the last one, so on
# a cone nothing is cut outside of the last groove either: 29.5 degrees and not 30.
@pytest.mark.parametrize("slope", [1 / 32, -1 / 32, 0.26, -0.26])
@pytest.mark.parametrize("thread", [M20, BORE], ids=["outside", "inside"])
def test_flank_infeed_keeps_its_angle_on_a_cone(thread, slope):
    cone = replace(thread, last=thread.first + 18 * slope)
    found = (
        passes(motions(cone, spring=0, tool=replace(INSIDE, least_bore=None)))
        if (thread.inside)
        else passes(motions(cone, spring=0))
    )
    (z0, x0), *_ = found[-1]
    for (z, x), *_ in found[:-1]:
        assert (z - z0) / abs(x - x0) == pytest.approx(math.tan(math.radians(29.5)))


def test_a_thread_at_55_degrees_takes_a_tool_for_that():
    pipe = replace(M20, flanks=55.0)
    tool = replace(OUTSIDE, pitch_angle=55)
    assert passes(motions(pipe, tool=tool, flank=27.0))
    with pytest.raises(InputError, match=r"an infeed at 29\.5 degrees"):
        motions(pipe, tool=tool)
    with pytest.raises(InputError, match="flanks at 60 degrees, and those of M20 are at 55"):
        motions(pipe, flank=27.0)


def test_the_narrowest_place_on_the_way_in_sets_how_far_it_draws_back():
    narrow = motions(BORE, narrowest=7.0)
    assert min(one.to[1] for one in narrow) == pytest.approx(7.0 - 2.0)
    with pytest.raises(InputError, match="needs a bore of 12 mm and room to draw back"):
        motions(BORE, narrowest=6.0)


# Each start begins a pitch further back, so the spindle stands a starts-th of a turn further.
def test_each_start_is_a_pitch_further_back():
    thread = replace(M20, starts=3)
    found = passes(motions(thread, spring=1))
    assert {lead for _, _, lead, _ in found} == {7.5}
    assert len(found) == 3 * (10 + 1)
    for first in range(0, len(found), 3):
        starts, ends = zip(*(one[:2] for one in found[first : first + 3]), strict=True)
        assert [z - starts[0][0] for z, _ in starts] == pytest.approx([0, 2.5, 5])
        assert len(set(ends)) == 1
    assert found[-3][0][0] == LEAD_IN * 7.5


def test_a_single_start_advances_by_its_pitch():
    assert {lead for _, _, lead, _ in passes(motions(M20))} == {2.5}


def test_the_cut_runs_out_into_a_groove():
    found = passes(motions(M20, run_out=1.5, spring=0))
    assert found[-1][1][0] == -19.5
    assert found[-1][3] == (-19.5, 12.0)


def test_a_taper_keeps_its_depth_all_along():
    thread = replace(M20, first=10, last=11.125)
    found = motions(thread)
    for start, end, _, _ in passes(found):
        assert depth_at(thread, start) == pytest.approx(depth_at(thread, end))
        assert (end[1] - start[1]) / (start[0] - end[0]) == pytest.approx(1 / 16)
    assert max(one.to[1] for one in found) == pytest.approx(11.125 + 2)


def test_the_tool_comes_one_axis_at_a_time():
    far = motions(M20, at=(50.0, 40.0), flank=0.0)
    assert [one.to[:2] for one in far[:2]] == [(7.5, 40), (7.5, 12)]
    low = motions(M20, at=(3.0, 11.0), flank=0.0)
    assert [one.to[:2] for one in low[:2]] == [(3, 12), (7.5, 12)]
    last = motions(replace(M20, starts=2), at=(50.0, 40.0), flank=0.0)
    assert [one.to[:2] for one in last[:3]] == [(17.5, 40), (17.5, 12), (15, 12)]


def test_into_a_bore_the_tool_comes_from_the_front():
    thread = replace(BORE, start=-20, end=-30)
    found = motions(thread, at=(60.0, 40.0), front=3.0, flank=0.0)
    clear = 8.647 - 2
    assert [one.to[:2] for one in found[:3]] == [(60, clear), (3, clear), (-12.5, clear)]
    assert found[-1].to[:2] == (3, clear)
    behind = motions(thread, at=(-5.0, 5.0), front=3.0, flank=0.0)
    assert [one.to[:2] for one in behind[:3]] == [(3, 5), (3, clear), (-12.5, clear)]
    unknown = motions(thread, front=3.0, flank=0.0)
    assert [one.to[:2] for one in unknown[:2]] == [(3, clear), (-12.5, clear)]


def test_the_free_radius_may_be_told():
    assert max(one.to[1] for one in motions(M20, clear=15.0)) == 15
    assert min(one.to[1] for one in motions(BORE, clear=6.0)) == 6


# The bar takes 12 mm of the 17.294: it draws back until it is by the other side.
def test_a_bar_that_nearly_fills_its_bore_draws_back_less():
    tight = replace(INSIDE, least_bore=16)
    clear = min(one.to[1] for one in motions(BORE, tool=tight))
    assert 8.647 - clear == pytest.approx(2 * 8.647 - 16)
    assert min(one.to[1] for one in motions(BORE, tool=replace(INSIDE, least_bore=None))) > 0


@pytest.mark.parametrize(
    ("thread", "changes", "what", "mend"),
    [
        (M20, {"tool": INSIDE}, "tool 6 can't cut an outside thread", "for an outside thread"),
        (BORE, {"tool": OUTSIDE}, "tool 5 can't cut an inside thread", "for an inside thread"),
        (M20, {"tool": replace(OUTSIDE, kind="turning")}, "can't cut", "threading tool"),
        (M20, {"tool": replace(OUTSIDE, pitch_angle=55)}, "flanks at 55", "60 degrees"),
        (M20, {"flank": 31}, "an infeed at 31 degrees", "29.5"),
        (M20, {"flank": -1}, "infeed at -1 degrees", "29.5"),
        (M20, {"lead_in": 4.9}, "4.9 mm in front of the thread M20 is too little", "make room"),
        (
            BORE,
            {"tool": replace(INSIDE, least_bore=17.2)},
            "needs a bore of 17.2 mm",
            "smaller bar",
        ),
        (BORE, {"clear": 1.0}, "room to draw back", "smaller bar"),
        (replace(M20, first=1.0), {}, "runs to the axis", "less steep"),
    ],
)
def test_what_cant_be_cut_is_refused(thread, changes, what, mend):
    trail = TurnTrail()
    with pytest.raises(InputError) as caught:
        cut_thread(trail, thread, cutting(thread, **changes, place=Place(key="setup[1]")))
    (fault,) = caught.value.faults
    assert what in fault.what
    assert mend in fault.mend
    assert fault.place.key == "setup[1]"
    assert trail.motions == []


def test_all_faults_are_named_in_one_run_in_the_units_of_the_job():
    with pytest.raises(InputError) as caught:
        motions(M20, tool=INSIDE, flank=40, lead_in=2.54, units=Units.INCH)
    assert len(caught.value.faults) == 3
    assert "0.1 in in front" in str(caught.value)


@pytest.mark.parametrize(
    "changes",
    [
        *({"depths": depths} for depths in [(), (1.0,), (1.0, 0.5, M20.depth), (0.0, M20.depth)]),
        *({"run_out": -1}, {"clearance": -1}, {"spring": -1}),
    ],
)
def test_a_plan_that_makes_no_sense_is_a_bug(changes):
    with pytest.raises(InternalError):
        motions(M20, **changes)
    with pytest.raises(InternalError):
        motions(replace(M20, end=0))


threads = st.builds(
    lambda pitch, start, leads, crest, slope, starts, inside, back: Thread(
        start - back * leads * pitch,
        start - (1 - back) * leads * pitch,
        crest,
        crest + slope * leads * pitch,
        (0.54127 if inside else 0.61343) * pitch,
        pitch,
        starts,
        inside,
    ),
    st.sampled_from([0.5, 1.0, 1.5, 25.4 / 13, 2.5, 4.0]),
    st.floats(-40, 0),
    st.floats(1, 20),
    st.floats(20, 60),
    st.sampled_from([0.0, 0.0, 1 / 32, -1 / 32]),
    st.integers(1, 4),
    st.booleans(),
    st.sampled_from([0, 0, 1]),
)


@settings(max_examples=60)
@given(
    threads,
    st.floats(0, 30),
    st.integers(0, 3),
    st.floats(0, 5),
    st.sampled_from([None, (90.0, 80.0)]),
)
def test_any_thread_is_cut_to_its_depth_and_met_at_full_speed_nowhere(
    thread, flank, spring, run_out, at
):
    found = motions(thread, at=at, flank=flank, spring=spring, run_out=run_out)
    count = passes_for(thread.pitch)
    cuts = passes(found)
    assert len(cuts) == (count + spring) * thread.starts
    assert {lead for _, _, lead, _ in cuts} == {thread.starts * thread.pitch}
    depths = [depth_at(thread, end) for _, end, _, _ in cuts]
    assert depths == pytest.approx(sorted(depths))
    assert max(depths) == pytest.approx(thread.depth)
    way = 1 if thread.end > thread.start else -1
    last = thread.end + way * run_out
    for start, end, lead, after in cuts:
        # in the air by so much, and never past the end
        assert (thread.start - start[0]) * way >= LEAD_IN * lead - 1e-9
        assert (last - end[0]) * way >= -1e-9
        assert depth_at(thread, start) == pytest.approx(depth_at(thread, end))
        assert after[0] == end[0]
    assert cuts[-1][1][0] == pytest.approx(last)
    check_rapids(thread, found, at, last, way)


def check_rapids(thread, found, at, last, way):
    """No rapid is below the crest from the thread's start to the last turn, but straight out."""
    places = [at, *(one.to[:2] for one in found)]
    for k, one in enumerate(found):
        if not isinstance(one, Rapid) or places[k] is None:
            continue
        start, end = places[k], places[k + 1]
        out_of_the_groove = start[0] == end[0] and isinstance(found[k - 1], ThreadCut)
        for point in (start, end):
            within = (point[0] - thread.start) * way >= 0 and (last - point[0]) * way >= -1e-9
            if within and not (out_of_the_groove and point == start):
                assert depth_at(thread, point) <= -0.5
        if start[0] != end[0]:
            assert start[1] == end[1]
            low = [depth_at(thread, (z, start[1])) for z in (thread.start, thread.end)]
            assert max(low) <= -0.5 or start == at
