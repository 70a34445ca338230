"""What a lathe's target shows: shapes in the half section, Z across and X, a radius, upwards."""

from __future__ import annotations

from dataclasses import dataclass

import shapely
from shapely.affinity import scale
from shapely.geometry.base import BaseGeometry

from jawcam.hold.turn_target import HalfLoop, TurnTarget
from jawcam.show.outlines import solid
from jawcam.units import Units

__all__ = ["ThreadMark", "TurnScene", "jaw_front", "turned_setting"]

Point = tuple[float, float]


@dataclass(frozen=True)
class ThreadMark:
    """A thread: the line at its crest and the one at its root, from the free end on."""

    crest: tuple[Point, Point]
    root: tuple[Point, Point]
    inside: bool
    words: str


@dataclass(frozen=True)
class TurnScene:
    """The target in the picture's units. part, stock: their half sections; keep_off: of jaws,
    chuck and tailstock; mirrored: the part below the axis; limit, parted: Z; left: places not
    reached, as (z, x, diameter)."""

    part: BaseGeometry
    stock: BaseGeometry
    mirrored: BaseGeometry
    keep_off: tuple[BaseGeometry, ...]
    threads: tuple[ThreadMark, ...]
    limit: float
    parted: float | None
    left: tuple[tuple[float, float, float], ...]

    @property
    def parting(self) -> tuple[Point, Point] | None:
        """The face that parting off leaves, from the inside outwards; None without."""
        if self.parted is None:
            return None
        _, low, _, high = self.stock.bounds
        cut = self.stock & shapely.LineString([(self.parted, low - 1), (self.parted, high + 1)])
        if cut.is_empty:
            return None
        return (self.parted, float(cut.bounds[1])), (self.parted, float(cut.bounds[3]))


def turned_setting(target: TurnTarget, units: Units, chord: float) -> TurnScene:
    """Target -> scene; no flattened arc is more than `chord` mm off."""
    factor = 1 / units.in_mm

    def placed(loop: HalfLoop) -> BaseGeometry:
        return scale(solid((loop,), chord), factor, factor, origin=(0, 0))

    part = placed(target.finished)
    return TurnScene(
        part=part,
        stock=placed(target.stock),
        mirrored=scale(part, 1.0, -1.0, origin=(0, 0)),
        keep_off=tuple(placed(loop) for loop in target.keep_off),
        threads=_threads(target, factor),
        limit=target.limit * factor,
        parted=None if target.parted is None else target.parted * factor,
        left=tuple((p.z * factor, p.x * factor, p.size * factor) for p in target.left),
    )


def jaw_front(target: TurnTarget) -> float | None:
    """The Z of the front of what holds the work, in mm; None if nothing is told of it."""
    behind = [loop for loop in target.keep_off if max(z for z, _, _ in loop) <= target.limit + 1e-6]
    return max((z for loop in behind for z, _, _ in loop), default=None)


def _threads(target: TurnTarget, factor: float) -> tuple[ThreadMark, ...]:
    marks = []
    for thread in target.threads:
        into = thread.depth if thread.inside else -thread.depth
        ends = ((thread.start, thread.first), (thread.end, thread.last))
        crest = [(z * factor, x * factor) for z, x in ends]
        root = [(z * factor, (x + into) * factor) for z, x in ends]
        words = thread.designation or f"thread, pitch {thread.pitch:g} mm"
        marks.append(ThreadMark((crest[0], crest[1]), (root[0], root[1]), thread.inside, words))
    return tuple(marks)
