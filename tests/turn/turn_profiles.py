"""Random turned parts for property tests: steps, tapers and rounds from z = 0 to z = -60."""

from __future__ import annotations

import math

from hypothesis import strategies as st
from turn_help import turned

LENGTH = 60.0

PIECES = st.tuples(
    st.sampled_from([0, 3, 5, 9, 14]),  # along Z; 0 makes a step
    st.sampled_from([0, 0, 4, 9, 14, -3, -8]),  # twice the rise towards the chuck
    st.sampled_from([0.0, 0.5, 1.5, 3.0]),  # of the corner there
)


@st.composite
def profiles(draw):
    """A solid part: its radius along Z by lines and arcs, some of its corners rounded."""
    z, x = 0.0, float(draw(st.integers(4, 12)))
    corners, rounds = [(z, x)], [0.0]
    for along, rise, radius in draw(st.lists(PIECES, min_size=1, max_size=7)):
        stepped = len(corners) == 1 or corners[-2][0] == z  # no two steps at one place
        z = max(z - (3 if stepped else 0) - along, -46.0)
        x = min(max(x + rise / 2, 3.0), 24.0)
        if (z, x) != corners[-1] and (z > -46 or corners[-1][0] > -46):
            corners.append((z, x))
            rounds.append(radius)
    corners.append((-LENGTH, corners[-1][1]))
    return turned(rounded(corners, rounds), LENGTH)


def rounded(corners, radii):
    """Rows (z, x, bulge) through corners, each rounded by its radius if there is room for it."""
    rows = [(*corners[0], 0.0)]
    for before, at, after, radius in zip(
        corners, corners[1:], corners[2:], radii[1:], strict=False
    ):
        a, b = unit(at, before), unit(at, after)
        dot, cross = a[0] * b[0] + a[1] * b[1], a[0] * b[1] - a[1] * b[0]
        turn = math.pi - math.acos(max(-1.0, min(1.0, dot)))
        leg = radius * math.tan(turn / 2)
        room = min(math.dist(at, before), math.dist(at, after)) / 2
        if radius == 0 or turn < 0.05 or leg > room - 0.01:
            rows.append((*at, 0.0))
            continue
        bulge = math.copysign(math.tan(turn / 4), -cross)
        rows.append((at[0] + leg * a[0], at[1] + leg * a[1], bulge))
        rows.append((at[0] + leg * b[0], at[1] + leg * b[1], 0.0))
    return [*rows, (*corners[-1], 0.0)]


def unit(start, end):
    size = math.dist(start, end)
    return ((end[0] - start[0]) / size, (end[1] - start[1]) / size)
