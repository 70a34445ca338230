"""Facing: what the passes sweep, how they bite, and that the cutter only comes down in air."""

from __future__ import annotations

import itertools

import pytest
import shapely
from hypothesis import example, given, settings
from hypothesis import strategies as st

from jawcam.job.model import Blanks
from jawcam.mill.face import Face, face_lines, face_tops
from jawcam.mill.links import Air
from jawcam.mill.trail import Trail
from jawcam.motion.moves import LineFeed, Rapid

SEGMENTS = 64


def faced(
    gap: float = 6.0,
    thickness: float = 25.0,
    width: float = 130.0,
    *,
    take: float = 0.5,
    dia: float = 16.0,
    stepover: float = 10.0,
    stepdown: float = 1.0,
) -> Face:
    blanks = Blanks(width, 38.0, thickness, gap)
    return Face(blanks, take, dia, stepover, stepdown, 800.0, Air(5.0, 4000.0))


def blanks_of(face: Face) -> shapely.Geometry:
    blanks = face.blanks
    x, near, far = blanks.width / 2, blanks.gap / 2, blanks.gap / 2 + blanks.thickness
    return shapely.union(shapely.box(-x, near, x, far), shapely.box(-x, -far, x, -near))


def motions_of(face: Face) -> list:
    trail = Trail()
    face_tops(trail, face)
    return trail.motions


def moves_of(face: Face) -> list:
    """(from, motion) of each motion whose start is known."""
    return [(a.to, b) for a, b in itertools.pairwise(motions_of(face))]


def swath(start, end, radius: float) -> shapely.Geometry:
    return shapely.buffer(shapely.LineString([start[:2], end[:2]]), radius, quad_segs=SEGMENTS)


def heights_of(face: Face) -> list[float]:
    cuts = [m.to[2] for m in motions_of(face) if isinstance(m, LineFeed) and m.feed == face.feed]
    return [z for z, _ in itertools.groupby(cuts)]


def cuts_at(face: Face, z: float) -> list:
    return [(a, m) for a, m in moves_of(face) if isinstance(m, LineFeed) and m.to[2] == a[2] == z]


FACES = st.builds(
    faced,
    gap=st.floats(0.0, 40.0),
    thickness=st.floats(8.0, 60.0),
    dia=st.floats(6.0, 63.0),
    stepover=st.floats(2.0, 40.0),
)


@settings(max_examples=60, deadline=None)
@given(FACES)
@example(faced(gap=0.0))
@example(faced(gap=30.0, dia=16.0))
@example(faced(gap=6.0, thickness=8.0, dia=63.0, stepover=40.0))
def test_every_point_of_both_tops_is_swept_at_zero(face: Face):
    swept = [swath(a, m.to, face.dia / 2) for a, m in cuts_at(face, 0.0)]
    left = shapely.difference(blanks_of(face), shapely.union_all(swept))
    assert left.area == pytest.approx(0, abs=1e-9)


@settings(max_examples=60, deadline=None)
@given(FACES)
@example(faced(gap=30.0))
@example(faced(gap=16.0, thickness=16.125, dia=17.0, stepover=16.25))
def test_no_pass_bites_more_than_the_stepover(face: Face):
    left = blanks_of(face)
    for line in face_lines(face):
        bitten = shapely.intersection(left, swath(line.start, line.end, face.dia / 2))
        _, y0, _, y1 = (0, 0, 0, 0) if bitten.is_empty else bitten.bounds
        assert y1 - y0 <= min(face.stepover, face.dia) + 1e-9
        left = shapely.difference(left, bitten)


@settings(max_examples=40, deadline=None)
@given(FACES)
def test_what_is_still_to_cut_lies_on_the_right(face: Face):
    # climb milling with a spindle that turns clockwise; a bite wider than the cutter's radius
    # reaches across its middle, however it goes
    left, radius = blanks_of(face), face.dia / 2
    for line in face_lines(face):
        (x0, y), (x1, _) = line.start, line.end
        ahead = 1 if x1 > x0 else -1
        beside = shapely.box(-1000, y, 1000, y + ahead * radius)
        on_left = shapely.intersection(left, beside)
        if face.stepover <= radius:
            assert on_left.area == pytest.approx(0, abs=1e-6)
        left = shapely.difference(left, swath(line.start, line.end, radius))


@pytest.mark.parametrize("gap", [0.0, 6.0, 30.0])
def test_each_pass_begins_and_ends_clear_of_the_blanks(gap: float):
    face = faced(gap)
    for line in face_lines(face):
        assert line.start[1] == line.end[1]
        for x, _ in (line.start, line.end):
            assert abs(x) - face.blanks.width / 2 >= face.dia / 2 + 1


@pytest.mark.parametrize("stepover", [10.0, 12.0])  # six passes a level, and five
def test_the_cutter_comes_down_in_air_and_goes_over_it_between_the_passes(stepover: float):
    face = faced(take=2.5, stepover=stepover)
    blanks = blanks_of(face)
    assert isinstance(motions_of(face)[0], Rapid)
    for start, motion in moves_of(face):
        apart = shapely.distance(blanks, shapely.LineString([start[:2], motion.to[:2]]))
        low = min(start[2], motion.to[2]) < face.air.clearance
        if isinstance(motion, Rapid) and low:
            assert start[:2] == motion.to[:2], "straight up or down"
            assert apart >= face.dia / 2 + 1
        elif isinstance(motion, LineFeed) and motion.feed != face.feed:
            assert apart >= face.dia / 2 + 1


def test_nothing_is_rapid_but_the_way_there_the_levels_and_the_way_up():
    face = faced(take=2.5, stepdown=1.0)
    rapids = [m for m in motions_of(face) if isinstance(m, Rapid)]
    assert len(rapids) == 1 + 3 + 1
    assert rapids[-1].to[2] == face.air.clearance


def test_a_cutter_that_is_somewhere_low_rises_first():
    trail = Trail()
    trail.at = (3.0, 4.0, -7.0)
    face_tops(trail, faced())
    assert trail.motions[0] == Rapid((3.0, 4.0, 5.0))
    assert trail.motions[1].to[2] == 5.0


@pytest.mark.parametrize(
    ("take", "stepdown", "heights"),
    [
        (0.5, 1.0, [0.0]),
        (1.0, 1.0, [0.0]),
        (2.5, 1.0, [5 / 3, 5 / 6, 0.0]),
        (0.3, 0.1, [0.2, 0.1, 0.0]),
    ],
)
@pytest.mark.parametrize("stepover", [10.0, 12.0])
def test_levels_are_even_and_the_last_is_zero_exactly(take, stepdown, heights, stepover):
    found = heights_of(faced(take=take, stepdown=stepdown, stepover=stepover))
    assert found == pytest.approx(heights)
    assert found[-1] == 0.0


def test_every_level_sweeps_the_same_though_its_passes_may_be_turned():
    face = faced(take=2.5, stepdown=1.0, stepover=12.0)
    assert len(face_lines(face)) % 2 == 1
    for z in heights_of(face):
        swept = [swath(a, m.to, face.dia / 2) for a, m in cuts_at(face, z)]
        assert shapely.difference(blanks_of(face), shapely.union_all(swept)).area < 1e-9
        first = next(a for a, m in cuts_at(face, z) if m.feed == face.feed)
        assert first[0] * first[1] < 0, "front left of the back, or back right of the front"


def test_a_wide_gap_is_not_faced():
    # 25 mm each, bites of 10: three passes a blank, whatever the gap
    assert len(face_lines(faced(gap=60.0))) == 6
    assert len(face_lines(faced(gap=0.0))) == 6
    # 16 mm each: 32.2 mm across in four bites, or two for each blank; with a gap of 1 mm the same
    assert len(face_lines(faced(gap=1.0, thickness=16.0))) == 4
    # two blanks of 21 mm are five bites across, but three each
    assert len(face_lines(faced(gap=6.0, thickness=21.0))) == 5
    # taken for solid these are three bites of 16.15, but the first two leave nothing but the gap
    close = faced(gap=16.0, thickness=16.125, dia=17.0, stepover=16.25)
    assert len(face_lines(close)) == 2


def test_nothing_to_take_is_no_motion():
    assert motions_of(faced(take=0.0)) == []
