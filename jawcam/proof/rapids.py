"""Rapids below the jaw top: the whole cutter stays in what is cleared, or in air.

A rapid must be clear along the straight line to its end. Many controls drive each axis as fast as
it goes, so that a rapid along two axes or three bends (see `dogleg`): where the job says so, the
bent way must be clear too. It is warned of, unless the machine or the kind of control is known to
run straight, where the rectangle over its ends isn't clear as well, at its lowest Z.
"""

from __future__ import annotations

import shapely

from jawcam.proof.contact import first_contact
from jawcam.proof.dogleg import bends, legs
from jawcam.proof.move import Move, below
from jawcam.proof.report import Finding
from jawcam.proof.scene import Place, Scene
from jawcam.proof.touch import touched

__all__ = ["rapids"]


def rapids(scene: Scene) -> list[Finding]:
    """One finding for each rapid that meets uncut material. Straight up leads out of it."""
    found = []
    for move in scene.low:
        straight_up = move.upright and move.end[2] >= move.start[2]
        if move.kind == "rapid" and not straight_up:
            found += _rapid(scene, move)
    return found


def _rapid(scene: Scene, low: Move) -> list[Finding]:
    met = touched(scene, low, spare=scene.limits.rapid, lift=scene.limits.level)
    if not met.is_empty:
        what = f"T{low.cutter.number} goes through uncut material at rapid"
        mend = "rise above the jaw top before this rapid, or feed"
        return [scene.find("P501", "stop", what, by=low, at=_first(scene, low, met), mend=mend)]
    whole = next(move for move in scene.moves if move.index == low.index)
    one_axis = sum(a != b for a, b in zip(whole.start, whole.end, strict=True)) < 2
    if one_axis or bends(scene) == "straight":
        return []
    mend = "rise above the jaw top first, or move one axis at a time"
    spot = _bent(scene, whole)
    if spot is not None and bends(scene) == "dog-leg":
        what = f"this rapid bends, and T{low.cutter.number} goes through uncut material"
        return [scene.find("P503", "stop", what, by=low, at=spot, mend=mend)]
    over = shapely.box(*shapely.MultiPoint([whole.start[:2], whole.end[:2]]).bounds)
    reach = shapely.buffer(over, low.radius - scene.limits.rapid, quad_segs=32)
    met = scene.stock.uncut(reach, low.low + scene.limits.level, low.index)
    if met.is_empty:
        return []
    what = (
        "this rapid is clear only if its axes move in step; where each runs on its own, the path "
        "bends into uncut material"
    )
    at = spot or _nearest(low, met)
    return [scene.find("P502", "warn", what, by=low, at=at, mend=mend)]


def _bent(scene: Scene, whole: Move) -> Place | None:
    """Where the bent way of a rapid first meets uncut material."""
    for leg in legs(whole):
        piece = below(leg, scene.target.facing - scene.limits.level)
        if piece is None or (piece.upright and piece.end[2] >= piece.start[2]):
            continue
        met = touched(scene, piece, spare=scene.limits.rapid, lift=scene.limits.level)
        if not met.is_empty:
            return _first(scene, piece, met)
    return None


def _first(scene: Scene, move: Move, met: shapely.Geometry) -> Place:
    """Where the move first meets what it meets."""
    spare, lift = scene.limits.rapid, scene.limits.level
    return first_contact(scene, move, met, spare=spare, lift=lift)


def _nearest(move: Move, met: shapely.Geometry) -> Place:
    """The point of what lies beside a move that is the nearest to its start."""
    start = shapely.Point(move.start[:2])
    near = shapely.get_coordinates(shapely.shortest_line(met, start))[0]
    return (float(near[0]), float(near[1]), move.low)
