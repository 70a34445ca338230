"""What the tests of turned parts share: tables of pieces, and their volumes by other means."""

import itertools
import math

import shapely
from hypothesis import strategies as st
from part_help import dots

from jawcam.errors import InputError, Place
from jawcam.geometry.shapes import Path
from jawcam.part.piece import Piece
from jawcam.part.profile import half_profile
from jawcam.units import Units


def place(key):
    return Place("spindle.toml", key=f"part.{key}")


def cylinder(dia, length, **breaks):
    return Piece(dia, dia, length, **breaks)


def taper(start, end, length, **breaks):
    return Piece(start, end, length, **breaks)


SPINDLE = (
    cylinder(12, 15, chamfer=0.5),
    cylinder(30, 6, rounding=0.8),
    taper(25, 24, 10),
    cylinder(20, 12, limits=(0, -0.021)),
    cylinder(20, 12, thread="M20x2.5 6g", chamfer=1.5),
)
"""The grinder's spindle: all that a table may hold."""


def profile(*pieces, beyond=0.0):
    return half_profile(pieces, units=Units.MM, place=place, beyond=beyond)


def faults(pieces):
    """The key of each fault of a table, and its words."""
    try:
        profile(*pieces)
    except InputError as error:
        return {fault.place.key.removeprefix("part."): str(fault) for fault in error.faults}
    return {}


def rim(segments, sagitta=1e-5):
    """A half profile as dense points (along, radius)."""
    return dots(Path(tuple(segments)), sagitta)


def half(segments):
    """The half section that lies between a half profile and the axis."""
    points = [tuple(point) for point in rim(segments)]
    return shapely.Polygon([(points[0][0], 0), *points, (points[-1][0], 0)])


def frustums(points):
    """The volume of a solid of revolution through points (along, radius): pi h (a2 + ab + b2)/3."""
    return math.fsum(
        math.pi * (z1 - z0) * (a * a + a * b + b * b) / 3
        for (z0, a), (z1, b) in itertools.pairwise(points)
    )


@st.composite
def tables(draw):
    """One to five pieces, broken where there is room for it."""
    widths = st.floats(4, 40).map(lambda width: round(width, 2))
    pieces = []
    for _ in range(draw(st.integers(1, 5))):
        start = draw(widths)
        end = draw(st.one_of(st.just(start), widths))
        size = round(draw(st.floats(0.1, 3)), 2)
        breaks = draw(st.sampled_from([{}, {"chamfer": size}, {"rounding": size}]))
        pieces.append(Piece(start, end, round(draw(st.floats(1, 20)), 2), **breaks))
    for key in faults(pieces):
        at = int(key.removeprefix("turned[").removesuffix("]")) - 1
        pieces[at] = Piece(pieces[at].start, pieces[at].end, pieces[at].length)
    return tuple(pieces)
