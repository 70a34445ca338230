"""Whether the blanks can hold the pockets: their size, and what is left of them all round.

Floor, walls and bolts each keep a least thickness or distance, exactly met at the limit; all
that falls short is told in one run, with its place and the distance.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, field, replace

import numpy as np

from jawcam.errors import FaultList, Place
from jawcam.geometry.offset import shrink
from jawcam.geometry.shapes import Arc, Path, Point, Region, circle
from jawcam.hold.bolts import check_bolt, check_faced
from jawcam.hold.holes import Drilled, check_holes, enters
from jawcam.hold.target import Blanks, Bolt, Groove, Hole, Keep
from jawcam.tolerance import Tolerance
from jawcam.units import Units

__all__ = ["check_blanks"]

_EVEN = 1e-9  # mm; what falls short by less is enough


def check_blanks(
    levels: Sequence[tuple[tuple[Region, ...], float]],
    holes: Sequence[Hole],
    blanks: Blanks,
    bolts: Sequence[Bolt],
    keep: Keep,
    groove: Groove | None,
    units: Units,
    place: Callable[[str], Place],
    tolerance: Tolerance,
    *,
    facing: float = 0.0,
) -> None:
    """Raise InputError with all places where the blanks are too small, a jaw is left without a
    grip, or less is left than `keep` says.

    levels: from the top down, the pockets as they are cut and the floor (Z) of each; groove: in
    the last one's floor; holes: all that are drilled, those in corners being part of the pockets
    too; place: of a key of the setup; facing: how much is faced off the tops. In mm and jaw
    coordinates.
    """
    pockets = [_Pocket(regions, floor) for regions, floor in levels]
    if groove is not None:
        pockets.append(_grooved(pockets[-1], groove, tolerance))
    check = _Check(pockets, holes, blanks, keep, units, place)
    check.size()
    check.floors()
    check.walls()
    levelled = [regions for regions, _ in levels]
    check_holes(check.named(), levelled, blanks, keep.wall, units, place, check.faults)
    floors = [(one.name, one.regions, one.floor) for one in pockets]
    for number, bolt in enumerate(bolts, 1):
        spot = place(f"bolts[{number}]")
        if facing > 0:
            check_faced(bolt, keep.bolt, units, spot, check.faults)
        check_bolt(bolt, floors, check.drilled(), keep.bolt, units, spot, check.faults)
    check.faults.raise_if_any()


_PLAIN, _GROOVED = "the pocket", "the pocket with its groove"


@dataclass(frozen=True)
class _Pocket:
    regions: tuple[Region, ...]
    floor: float
    name: str = _PLAIN

    @property
    def box(self) -> tuple[float, float, float, float]:
        x0, y0, x1, y1 = zip(*(region.outer.box for region in self.regions), strict=True)
        return min(x0), min(y0), max(x1), max(y1)


def _grooved(seat: _Pocket, groove: Groove, tolerance: Tolerance) -> _Pocket:
    """The band along the seat's walls that the groove is cut in."""
    bands = []
    for region in seat.regions:
        inner = shrink([region], groove.width, tolerance)
        holes = tuple(path.reversed() for one in inner for path in one.paths)
        bands.append(Region(region.outer, (*region.holes, *holes)))
    return _Pocket(tuple(bands), seat.floor - groove.depth, _GROOVED)


@dataclass(frozen=True)
class _Side:
    """One side of the pair of blanks: where it lies along an axis (0: X, 1: Y) in the direction
    `sign`; in words, how and where that is from a pocket, and what leads away from it."""

    axis: int
    sign: int
    limit: float
    how: str
    where: str
    away: str
    mend: str

    def left(self, point: Point) -> float:
        return self.limit - self.sign * point[self.axis]


@dataclass(frozen=True)
class _Check:
    pockets: Sequence[_Pocket]
    holes: Sequence[Hole]
    blanks: Blanks
    keep: Keep
    units: Units
    place: Callable[[str], Place]
    faults: FaultList = field(default_factory=FaultList)

    @property
    def near(self) -> float:
        return self.blanks.gap / 2

    @property
    def far(self) -> float:
        return self.near + self.blanks.thickness

    def size(self) -> None:
        """The pockets end within the blanks and reach into both."""
        say, n, place = self.units.say, self._n, self.place("jaws")
        half, far, near = self.blanks.width / 2, self.far, self.near
        lows, highs = zip(*((one.box[:2], one.box[2:]) for one in self.pockets), strict=True)
        (x0, y0), (x1, y1) = np.min(lows, axis=0).tolist(), np.max(highs, axis=0).tolist()
        if x0 <= -half or x1 >= half:
            self.faults.add(
                f"the part is larger than the blanks: its pocket runs from X {n(x0)} to X {n(x1)}, "
                f"the blanks end at X {n(-half)} and X {n(half)}",
                place,
                f"take blanks wider than {say(2 * max(-x0, x1))}, or turn or shift the part",
            )
        if y0 <= -far or y1 >= far:
            self.faults.add(
                f"the part is larger than the blanks: its pocket runs from Y {n(y0)} to Y {n(y1)}, "
                f"the blanks end at Y {n(-far)} and Y {n(far)}",
                place,
                f"take blanks thicker than {say(max(-y0, y1) - near)}, or turn or shift the part",
            )
        _, y0, _, y1 = self.pockets[0].box
        if y1 <= near or y0 >= -near:
            self.faults.add(
                f"the pocket (Y {n(y0)} to Y {n(y1)}) does not reach into both jaws, which begin "
                f"at Y {n(-near)} and Y {n(near)}",
                place,
                "make the gap smaller, or shift the part towards the middle of the gap",
            )

    def floors(self) -> None:
        """Enough is left under the deepest floor and under the tips of the drilled holes."""
        say, height = self.units.say, self.blanks.height
        deepest = min(self.pockets, key=lambda one: one.floor)
        if -deepest.floor >= height:
            self.faults.add(
                f"{deepest.name} is {say(-deepest.floor)} deep, the blanks only {say(height)} high",
                self.place("hold.depth"),
                "take higher blanks, or hold the part less deep",
            )
        else:
            at = max((p for r in deepest.regions for p in _marks(r.outer, self.near)), key=_back)
            self._floor(deepest.name, (*at, deepest.floor), "hold.depth", "hold the part")
        for one in self.drilled():
            key, name, hole = one.key, one.name, one.hole
            deep = "hold.depth" if hole.kind == "relief" else f"{key}.depth"
            mend = "hold the part" if hole.kind == "relief" else "drill it"
            self._floor(f"the tip of {name}", (hole.x, hole.y, hole.tip), deep, mend)

    def _floor(self, name: str, at: tuple[float, float, float], key: str, mend: str) -> None:
        left = self.blanks.height + at[2]
        if left >= self.keep.floor - _EVEN:
            return
        say, lack = self.units.say, self.units.say(self.keep.floor - left)
        what = (
            f"only {say(left)} of the blanks is left under {name}, {say(self.keep.floor)} must be"
        )
        if left <= 0:
            what = f"{name} goes {say(-left)} through the bottom of the blanks"
        place = replace(self.place(key), at=self.units.point(*at))
        self.faults.add(what, place, f"{mend} {lack} less deep, or take blanks {lack} higher")

    def walls(self) -> None:
        """Enough is left beside the pockets and the drilled holes, and behind them."""
        half, wide, thick = self.blanks.width / 2, "take wider blanks", "take thicker blanks"
        for side in (
            _Side(0, -1, half, "beside", "at the left end", "to the right", wide),
            _Side(0, 1, half, "beside", "at the right end", "to the left", wide),
            _Side(1, -1, self.far, "behind", "in the front jaw", "to the back", thick),
            _Side(1, 1, self.far, "behind", "in the back jaw", "to the front", thick),
        ):
            spots = [
                (*point, one.floor)
                for one in self.pockets
                for region in one.regions
                for point in self._in_blanks(region.outer)
            ]
            thinnest = min((side.left(point[:2]) for point in spots), default=math.inf)
            if thinnest > 0:  # a pocket that ends beyond the blanks is told of its size
                self._wall(side, spots, _PLAIN, "jaws")
            for one in self.drilled():
                key, name, hole = one.key, one.name, one.hole
                rim = self._in_blanks(circle((hole.x, hole.y), hole.dia / 2))
                left = min(side.left(point) for point in rim)
                if hole.kind == "stop" or left < thinnest - _EVEN:
                    self._wall(side, [(*point, hole.floor) for point in rim], name, key)

    def _wall(
        self, side: _Side, spots: Sequence[tuple[float, float, float]], name: str, key: str
    ) -> None:
        if not spots:
            return
        at = min(spots, key=lambda p: (round(side.left(p[:2]), 9), -p[2], p))
        left = side.left(at[:2])
        if left >= self.keep.wall - _EVEN:
            return
        say, lack = self.units.say, self.units.say(self.keep.wall - left)
        what = (
            f"only {say(left)} of the blanks is left {side.how} {name} {side.where}, "
            f"{say(self.keep.wall)} must be"
        )
        if left <= 0:
            what = f"{name} breaks out of the blanks {side.where} by {say(-left)}"
        moved = "it" if key.startswith("holes") else "the part"
        place = replace(self.place(key), at=self.units.point(*at))
        self.faults.add(what, place, f"shift {moved} {lack} {side.away}, or {side.mend}")

    def named(self) -> list[Drilled]:
        """All holes. Stops are counted as given."""
        stops, found = 0, []
        for hole in self.holes:
            stops += hole.kind == "stop"
            key = "corners" if hole.kind == "relief" else f"holes[{stops}]"
            name = f"the hole drilled at {self.units.point(hole.x, hole.y)}"
            found.append(Drilled(key, name, hole))
        return found

    def drilled(self) -> list[Drilled]:
        """The holes that go into the blanks."""
        return [one for one in self.named() if enters(one.hole, self.blanks)]

    def _in_blanks(self, path: Path) -> list[Point]:
        """The marked points of a path that do not lie in the gap."""
        return [p for p in _marks(path, self.near) if abs(p[1]) >= self.near - _EVEN]

    def _n(self, value: float) -> str:
        return self.units.number(value, 4 if self.units is Units.INCH else 3)


def _back(point: Point) -> tuple[float, float]:
    return (round(point[1], 9), point[0])


def _marks(path: Path, near: float) -> Iterator[Point]:
    """The points of a path among which its outermost one lies, on either side of the gap: the
    ends of its pieces, the compass points of its arcs, and where it crosses Y = near and -near."""
    for segment in path.segments:
        (x0, y0), (x1, y1) = segment.start, segment.end
        yield segment.start
        if isinstance(segment, Arc):
            yield from (p for p in _round(segment, near) if _passes(segment, p))
            continue
        for level in (near, -near):
            if (y0 - level) * (y1 - level) < 0:
                yield (x0 + (level - y0) * (x1 - x0) / (y1 - y0), level)


def _round(arc: Arc, near: float) -> Iterator[Point]:
    (x, y), r = arc.centre, arc.radius
    yield from ((x + r, y), (x - r, y), (x, y + r), (x, y - r))
    for level in (near, -near):
        if abs(level - y) < r:
            reach = math.sqrt(r**2 - (level - y) ** 2)
            yield from ((x + reach, level), (x - reach, level))


def _passes(arc: Arc, point: Point) -> bool:
    return Arc(arc.start, point, arc.centre, arc.ccw).sweep <= arc.sweep
