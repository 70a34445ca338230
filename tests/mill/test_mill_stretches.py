"""Ways along a wall in few pieces: never beyond it, and nothing is left that counts.

How far a way lies from the wall is measured by another engine (GEOS).
"""

from __future__ import annotations

import itertools
import math

import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from jawcam.geometry.cut import tangent_at
from jawcam.geometry.fit import Sample, fit_arcs
from jawcam.geometry.flatten import polyline
from jawcam.geometry.shapes import Arc, Line, Segment
from jawcam.geometry.uncut import SKIN
from jawcam.mill.stretches import CRUMB, eased

FINE = 0.0002  # mm, of the chords that it is measured by


def spiral(growth: float, turn: float, tolerance: float) -> list[Segment]:
    """An Archimedean spiral to the left, r = 20 + growth x angle, as a drawing's curve is read."""
    samples: list[Sample] = []
    for k in range(2001):
        angle = turn * k / 2000
        r = 20 + growth * angle
        way = (
            growth * math.cos(angle) - r * math.sin(angle),
            growth * math.sin(angle) + r * math.cos(angle),
        )
        samples.append(((r * math.cos(angle), r * math.sin(angle)), way))
    return list(fit_arcs(samples, tolerance).segments)


def dots(pieces: list[Segment]) -> list[tuple[float, float]]:
    found = [pieces[0].start]
    for piece in pieces:
        found += polyline(piece, FINE)[1:]
    return found


@settings(max_examples=25, deadline=None)
@given(growth=st.floats(-2.0, 2.0), turn=st.floats(0.8, 5.0))
def test_a_curve_in_arcs_comes_out_in_fewer_and_close_inside(growth: float, turn: float):
    whole = spiral(growth, turn, 1e-4)
    few = eased(whole)
    assert len(few) <= len(whole)
    wall, way = shapely.LineString(dots(whole)), dots(few)
    assert max(shapely.distance(wall, shapely.points(way))) <= SKIN
    for x, y in way[5:-5]:  # the curve's inside is on its left, towards the middle
        assert math.hypot(x, y) <= 20 + growth * (math.atan2(y, x) % (2 * math.pi)) + 2 * FINE
    for a, b in itertools.pairwise(few):
        assert a.end == b.start


def test_a_curve_of_many_arcs_takes_less_than_half_as_many():
    whole = spiral(1.5, 5.0, 1e-4)
    assert len(whole) > 25
    assert len(eased(whole)) < len(whole) / 2


def test_crumbs_at_the_ends_are_left_out():
    pieces = [
        Line((0, 0), (CRUMB / 2, 0)),
        Line((CRUMB / 2, 0), (10, 0)),
        Arc((10, 0), (12, 2), (10, 2), True),
        Line((12, 2), (12, 2 + CRUMB / 3)),
    ]
    assert eased(pieces) == pieces[1:3]
    assert eased(pieces[:1]) == pieces[:1]


@pytest.mark.parametrize("count", [1, 3])
def test_what_has_few_pieces_stays_as_it_is(count: int):
    pieces: list[Segment] = [Line((5.0 * k, 0), (5.0 * k + 5, 0)) for k in range(count)]
    assert eased(pieces) == pieces


def test_corners_stay():
    square: list[Segment] = [
        Line((0, 0), (10, 0)), Line((10, 0), (10, 10)), Line((10, 10), (0, 10)),
        Line((0, 10), (0, 20)), Line((0, 20), (-5, 20)),
    ]  # fmt: skip
    few = eased(square)
    turns = [tangent_at(a, a.end) != tangent_at(b, b.start) for a, b in itertools.pairwise(few)]
    assert len(few) == len(square)
    assert all(turns)


@settings(max_examples=30, deadline=None)
@given(
    lengths=st.lists(st.floats(0.2, 30.0), min_size=3, max_size=5),
    turns=st.lists(st.floats(0.01, 0.4) | st.floats(-0.4, -0.01), min_size=5, max_size=5),
)
def test_lines_and_gentle_arcs_are_followed_all_along(lengths: list[float], turns: list[float]):
    pieces: list[Segment] = []
    at, heading = (0.0, 0.0), 0.0
    for length, turn in zip(lengths, turns, strict=False):
        to = (at[0] + length * math.cos(heading), at[1] + length * math.sin(heading))
        pieces.append(Line(at, to))
        radius, side = 4.0, math.copysign(1.0, turn)
        centre = (
            to[0] - side * radius * math.sin(heading),
            to[1] + side * radius * math.cos(heading),
        )
        heading += turn
        at = (
            centre[0] + side * radius * math.sin(heading),
            centre[1] - side * radius * math.cos(heading),
        )
        pieces.append(Arc(to, at, centre, turn > 0))
    pieces.append(Line(at, (at[0] + math.cos(heading), at[1] + math.sin(heading))))
    wall, way = shapely.LineString(dots(pieces)), shapely.LineString(dots(eased(pieces)))
    assert shapely.hausdorff_distance(wall, way, densify=0.01) <= SKIN
