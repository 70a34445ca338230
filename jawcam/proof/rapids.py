"""Rapids below the jaw top: the whole cutter stays in what is cleared, or in air.

A rapid must be clear along the straight line to its end. Many controls drive each axis as fast as
it goes, so that a rapid along two axes or three bends (see `dogleg`): where the job says so, the
bent way must be clear too. It is warned of, unless the machine or the kind of control is known to
run straight, where the rectangle over its ends isn't clear as well, at its lowest Z.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from typing import Literal, NamedTuple

import shapely

from jawcam.proof.contact import first_contact
from jawcam.proof.dogleg import bends, legs
from jawcam.proof.move import Move, below
from jawcam.proof.passage import Passage, passage
from jawcam.proof.report import Finding
from jawcam.proof.scene import Place, Scene
from jawcam.proof.telling import MOST
from jawcam.proof.touch import touched

__all__ = ["rapids"]


class _Hit(NamedTuple):
    """A rapid in uncut material: the code for it, where it first meets any, and the straight pieces
    of its way from there on."""

    code: Literal["P501", "P503"]
    move: Move
    at: Place
    way: tuple[Move, ...]


def rapids(scene: Scene) -> list[Finding]:
    """One finding for each rapid that meets uncut material. Straight up leads out of it."""
    found, hits = [], []
    for move in scene.low:
        straight_up = move.upright and move.end[2] >= move.start[2]
        if move.kind == "rapid" and not straight_up:
            met = _met(scene, move)
            found += [met] if isinstance(met, Finding) else []
            hits += [met] if isinstance(met, _Hit) else []
    return [*found, *_told(scene, hits)]


def _told(scene: Scene, hits: Sequence[_Hit]) -> Iterator[Finding]:
    """How deep and how long is measured of as many of each code as are told one by one."""
    seen: Counter[str] = Counter()
    for hit in sorted(hits, key=lambda hit: (hit.move.line, hit.move.column)):
        seen[hit.code] += 1
        through = passage(scene, hit.way) if seen[hit.code] <= MOST else None
        yield _finding(scene, hit, through)


def _finding(scene: Scene, hit: _Hit, through: Passage | None) -> Finding:
    move, at, tool = hit.move, hit.at, f"T{hit.move.cutter.number}"
    what = f"{tool} goes through uncut material at rapid"
    mend = f"rise above {scene.rim} before this rapid, or feed"
    if hit.code == "P503":
        what = f"this rapid bends, and {tool} goes through uncut material"
        mend = _stepwise(scene)
    if through is None:
        return scene.find(hit.code, "stop", what, by=move, at=at, mend=mend)
    depth, length = scene.say(through.depth), scene.say(round(through.length, 2))
    what = f"{what}, {depth} below its top and along {length} of the way"
    return scene.find(hit.code, "stop", what, by=move, at=at, amount=through.depth, mend=mend)


def _met(scene: Scene, low: Move) -> Finding | _Hit | None:
    met = touched(scene, low, spare=scene.limits.rapid, lift=scene.limits.level)
    if not met.is_empty:
        return _Hit("P501", low, _first(scene, low, met), (low,))
    whole = next(move for move in scene.moves if move.index == low.index)
    one_axis = sum(a != b for a, b in zip(whole.start, whole.end, strict=True)) < 2
    if one_axis or bends(scene) == "straight":
        return None
    bent = _bent(scene, low, whole)
    if bent is not None and bends(scene) == "dog-leg":
        return bent
    over = shapely.box(*shapely.MultiPoint([whole.start[:2], whole.end[:2]]).bounds)
    reach = shapely.buffer(over, low.radius - scene.limits.rapid, quad_segs=32)
    met = scene.stock.uncut(reach, low.low + scene.limits.level, low.index)
    if met.is_empty:
        return None
    what = (
        "this rapid is clear only if its axes move in step; where each runs on its own, the path "
        "bends into uncut material"
    )
    at = bent.at if bent else _nearest(low, met)
    return scene.find("P502", "warn", what, by=low, at=at, mend=_stepwise(scene))


def _stepwise(scene: Scene) -> str:
    return f"rise above {scene.rim} first, or move one axis at a time"


def _bent(scene: Scene, low: Move, whole: Move) -> _Hit | None:
    """Where the bent way of a rapid first meets uncut material."""
    pieces = (below(leg, scene.target.facing - scene.limits.level) for leg in legs(whole))
    way = [p for p in pieces if p and not (p.upright and p.end[2] >= p.start[2])]
    for k, piece in enumerate(way):
        met = touched(scene, piece, spare=scene.limits.rapid, lift=scene.limits.level)
        if not met.is_empty:
            return _Hit("P503", low, _first(scene, piece, met), tuple(way[k:]))
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
