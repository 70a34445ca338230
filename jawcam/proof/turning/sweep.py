"""The area that a lathe tool sweeps in the half section.

How exact: along a line a convex shape sweeps the hull of itself at both ends, which is exact but
for the chords of the nose, inside it by `NOSE_CHORD` at most. Along an arc the rounds of the edge
sweep sectors of a ring, inside the truth by `CHORD` at most; the wedge behind them is carried along
chords of the arc, `CHORD` off it at most. A tool that goes past the axis sweeps the other side of
the work as well, so what lies below the axis is folded up.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import Any

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely import affinity

from jawcam.proof.curve import Floats, quad_segs
from jawcam.proof.sweep import Arc, ring_sector
from jawcam.proof.turning.form import Disc, Form
from jawcam.proof.turning.path import Move, track

__all__ = ["BODY_CHORD", "CHORD", "FAR", "Shapes", "along", "discs_swept", "folded", "swept"]

CHORD = 1e-4
BODY_CHORD = 0.005
FAR = 1e5
"""mm; beyond everything."""

Shapes = NDArray[Any]
"""An array of shapely geometries."""

_UPPER = shapely.box(-FAR, 0.0, FAR, FAR)


def swept(form: Form, moves: Sequence[Move]) -> list[shapely.Geometry]:
    """What the cutting part sweeps along each of some moves, folded up."""
    lines = [(move.start, move.end) for move in moves if move.kind != "arc"]
    hulls = iter(_hulls(form.outline, np.array(lines, dtype=float).reshape(-1, 2, 2)))
    return [folded(_along_arc(form, move) if move.kind == "arc" else next(hulls)) for move in moves]


def _along_arc(form: Form, move: Move) -> shapely.Geometry:
    return shapely.union_all([*_rounds(form, move), along(form.core, move, CHORD)])


def along(corners: Floats, move: Move, chord: float) -> shapely.Geometry:
    """What a convex shape sweeps along a move, not folded."""
    points = track(move, chord)
    hulls = _hulls(corners, np.stack((points[:-1], points[1:]), axis=1))
    return hulls[0] if len(hulls) == 1 else shapely.union_all(hulls)


def discs_swept(form: Form, move: Move) -> shapely.Geometry:
    """What the rounds of the edge alone sweep, a little grown, folded up."""
    pieces = []
    for z, x, r in form.discs:
        line = track(move, CHORD) + np.array([z, x])
        path = shapely.Point(line[0]) if move.length == 0 else shapely.LineString(line)
        pieces.append(shapely.buffer(path, r + 2 * CHORD, quad_segs=quad_segs(r + CHORD, CHORD)))
    return folded(shapely.union_all(pieces))


def folded(area: shapely.Geometry) -> shapely.Geometry:
    """An area, what lies below the axis mirrored up into what lies above it."""
    if area.is_empty or area.bounds[1] >= 0:
        return area
    above = shapely.intersection(area, _UPPER)
    below = shapely.intersection(affinity.scale(area, 1.0, -1.0, origin=(0, 0)), _UPPER)
    return shapely.union(above, below)


def _hulls(corners: Floats, places: Floats) -> Shapes:
    """The hulls of a convex shape at both ends of some ways, (n, 2, 2)."""
    points = (corners[None, None] + places[:, :, None]).reshape(len(places), 2 * len(corners), 2)
    hulls: Shapes = shapely.convex_hull(shapely.linestrings(points))
    return hulls


def _rounds(form: Form, move: Move) -> list[shapely.Geometry]:
    """The sectors that the rounds sweep along an arc, and the rounds at its ends."""
    pieces: list[shapely.Geometry] = []
    for disc in form.discs:
        if disc[2] > 0:
            pieces += _one_round(disc, move)
    return pieces


def _one_round(disc: Disc, move: Move) -> list[shapely.Geometry]:
    z, x, r = disc
    (cz, cx), (z0, x0), (z1, x1) = move.centre, move.start, move.end
    radii = (move.radius, math.dist(move.end, move.centre))
    arc = Arc((cz + z, cx + x), radii, math.atan2(x0 - cx, z0 - cz), move.turn)
    ends = [shapely.Point(z0 + z, x0 + x), shapely.Point(z1 + z, x1 + x)]
    return [
        ring_sector(arc, r, CHORD),
        *shapely.buffer(ends, r, quad_segs=quad_segs(r, CHORD)),
    ]
