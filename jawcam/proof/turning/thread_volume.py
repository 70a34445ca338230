"""How much passes of threads take off.

Seen in one half plane through the axis, a pass has cut wherever its tool stood when that plane came
by: places a lead apart. From plane to plane these shift along, by a lead in a turn. The volume is
the mean over the planes of what the places take, turned about the axis.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence

import numpy as np
import shapely

from jawcam.proof.curve import Floats
from jawcam.proof.turning.form import Form
from jawcam.proof.turning.path import Move
from jawcam.proof.turning.scene import Scene
from jawcam.proof.turning.section import revolved

__all__ = ["thread_volumes"]

PLANES = 12


def thread_volumes(scene: Scene, remaining: shapely.Geometry) -> dict[int, float]:
    """mm3 by the tools' numbers. remaining: the half section that all other cuts leave."""
    passes = [move for move in scene.moves if move.threads and move.kind != "rapid"]
    numbers = dict.fromkeys(move.tool.number for move in passes)
    return {
        number: _volume(
            [m for m in passes if m.tool.number == number], scene.forms[number], remaining
        )
        for number in numbers
    }


def _volume(passes: Sequence[Move], form: Form, remaining: shapely.Geometry) -> float:
    reach = shapely.box(*shapely.total_bounds([_placed(form, _ends(passes))]))
    near = shapely.intersection(remaining, reach)
    total = 0.0
    for plane in range(PLANES):
        places = [_places(move, (plane + 0.5) / PLANES) for move in passes]
        cut = shapely.union_all(_placed(form, np.concatenate(places)))
        total += revolved(shapely.intersection(near, cut))
    return total / PLANES


def _ends(passes: Iterable[Move]) -> Floats:
    return np.array([point for move in passes for point in (move.start, move.end)])


def _places(move: Move, turn: float) -> Floats:
    """Where a pass's tool is, Z and X, (n, 2), each time a plane comes by, the part `turn` of one
    after the place that passes begin from."""
    (z0, x0), (z1, x1) = move.start, move.end
    lead, way = move.cut.lead, abs(z1 - z0)
    along = np.arange(turn * lead, way, lead)
    share = along / way if way > 0 else along
    return np.column_stack((z0 + (z1 - z0) * share, x0 + (x1 - x0) * share))


def _placed(form: Form, places: Floats) -> Sequence[shapely.Geometry]:
    """The form at each place."""
    corners = form.outline[None, :, :] + places[:, None, :]
    shapes: Sequence[shapely.Geometry] = shapely.polygons(corners)
    return shapes
