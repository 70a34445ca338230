"""Which centre to write for an arc whose ends were rounded.

A control works out the radius at both ends and refuses an arc whose two radii differ by more than
a limit (NISTIR 6556 section 3.5.3.2). Rounding the ends and the centre each for itself breaks that
rule now and then. So the ends are rounded first and the centre is then picked, among the points
that can be written, for the least of deviation and difference of radii together.

Points of the plane are complex numbers here.
"""

from __future__ import annotations

import cmath
import math
from collections.abc import Iterable, Iterator
from dataclasses import dataclass

__all__ = ["Lattice", "TrueArc", "best_centre", "best_radius", "line_deviation"]

_NEAR = 2  # steps about a good centre that are tried, each way
_WALK = 12  # centres tried along the bisector, each way
_SAMPLES = 8  # points at which an arc is compared with the true one, over half a turn
_SAME = 1e-9  # mm: no distance
_ALLOWED = 0.6  # of the limit on the difference of radii: an arc that needs more goes in pieces


@dataclass(frozen=True)
class Lattice:
    """The points that a centre can be written at: `origin` plus whole `step`s, mm."""

    origin: complex
    step: float

    def about(self, point: complex, reach: int) -> Iterator[complex]:
        """The lattice point next to `point` and those within `reach` steps of it each way."""
        i = round((point.real - self.origin.real) / self.step)
        j = round((point.imag - self.origin.imag) / self.step)
        for di in range(-reach, reach + 1):
            for dj in range(-reach, reach + 1):
                yield self.origin + complex(i + di, j + dj) * self.step


@dataclass(frozen=True)
class TrueArc:
    """The arc meant. radius: mm; turn: the signed sweep in radians, + counter-clockwise;
    middle: the point half way along it."""

    centre: complex
    radius: float
    turn: float
    middle: complex

    def off(self, point: complex) -> float:
        """How far `point` lies off the circle, mm."""
        return abs(abs(point - self.centre) - self.radius)


def best_centre(
    arc: TrueArc,
    start: complex,
    end: complex,
    lattice: Lattice,
    limit: float,
    *,
    within: bool = False,
) -> tuple[complex, float] | None:
    """The centre to write for `arc` between the rounded `start` and `end`, and how far the arc
    written lies off the true one, in mm; None if no centre keeps the two radii within `limit`, or,
    with `within`, none of those also keeps the arc in the quadrant that the true one lies in."""
    allowed = limit * _ALLOWED
    ends_off = max(arc.off(start), arc.off(end))
    candidates = set(_candidates(arc, start, end, lattice)) - {start, end}
    if within:
        candidates = {c for c in candidates if _in_its_quadrant(arc, start, end, c)}
    best: tuple[float, complex, float] | None = None
    for mismatch, centre in sorted(
        ((abs(abs(start - c) - abs(end - c)), c) for c in candidates),
        key=lambda pair: (pair[0], pair[1].real, pair[1].imag),
    ):
        if mismatch > allowed or (best is not None and mismatch + ends_off >= best[0]):
            break
        off = _deviation(arc, start, end, centre)
        if off is not None and (best is None or mismatch + off < best[0]):
            best = (mismatch + off, centre, off)
    return None if best is None else best[1:]


def best_radius(
    arc: TrueArc, start: complex, end: complex, step: float
) -> tuple[complex, float] | None:
    """The same where the radius is written in place of a centre, in whole `step`s, for an arc of
    under half a turn: the centre that the control will work out, and the deviation."""
    half = abs(end - start) / 2
    if half == 0:
        return None
    towards = (end - start) / (2 * half) * (1j if arc.turn > 0 else -1j)
    ideal = _through(start, end, arc.middle)
    wanted = arc.radius if ideal is None else abs(start - ideal)
    best: tuple[float, float, complex] | None = None
    for steps in range(-_NEAR, _NEAR + 2):
        size = (math.floor(wanted / step) + steps) * step
        if size < half:
            continue
        centre = (start + end) / 2 + towards * math.sqrt(size * size - half * half)
        off = _deviation(arc, start, end, centre)
        if off is not None and (best is None or (off, size) < best[:2]):
            best = (off, size, centre)
    return None if best is None else (best[2], best[0])


def line_deviation(arc: TrueArc, start: complex, end: complex) -> float:
    """How far the straight line from `start` to `end` lies off the arc at worst, mm."""
    return max(arc.off(start + (end - start) * k / _SAMPLES) for k in range(_SAMPLES + 1))


def _candidates(arc: TrueArc, start: complex, end: complex, lattice: Lattice) -> Iterable[complex]:
    yield from lattice.about(arc.centre, _NEAR)
    ideal = _through(start, end, arc.middle)
    if ideal is None:
        return
    yield from lattice.about(ideal, _NEAR)
    # The flatter the arc, the further its centre may wander along the bisector unnoticed.
    along = (end - start) / abs(end - start) * 1j
    freedom = lattice.step / 2 / max(1 - math.cos(arc.turn / 2), 1e-3)
    for k in range(-_WALK, _WALK + 1):
        yield from lattice.about(ideal + along * freedom * k / _WALK, 0)


def _through(start: complex, end: complex, middle: complex) -> complex | None:
    """The centre of the arc over the chord from `start` to `end` that rises as high over it as
    `middle` does; None if there is no such arc."""
    if start == end:
        return None
    across = (end - start) / abs(end - start) * 1j
    rise = ((middle - (start + end) / 2) * across.conjugate()).real
    if rise == 0:
        return None
    size = (abs(end - start) ** 2 / 4 + rise * rise) / (2 * rise)
    return (start + end) / 2 + across * (rise - size)


def _in_its_quadrant(arc: TrueArc, start: complex, end: complex, centre: complex) -> bool:
    """Whether the arc written lies in the quadrant about its centre that the middle of the true one
    lies in, and goes along both axes, by which a control tells the quadrant."""
    outwards = arc.middle - arc.centre
    east, north = math.copysign(1, outwards.real), math.copysign(1, outwards.imag)
    inside = all(
        away.real * east > -_SAME and away.imag * north > -_SAME
        for away in (start - centre, end - centre)
    )
    # Counter-clockwise in the first quadrant X falls and Y rises; each mirror turns one round.
    turned = east * north * math.copysign(1, arc.turn)
    along = end - start
    return inside and along.real * east * turned < -_SAME and along.imag * north * turned > _SAME


def _deviation(arc: TrueArc, start: complex, end: complex, centre: complex) -> float | None:
    """The most that the arc written lies off the true one; None if a control would take it the
    long way round in place of the short one, or the reverse."""
    turn = math.copysign(math.tau, arc.turn)
    if start != end:
        turn = (cmath.phase(end - centre) - cmath.phase(start - centre)) % turn
    if abs(turn - arc.turn) > math.pi / 2:
        return None
    first, last = start - centre, end - centre
    grow, count = abs(last) - abs(first), _SAMPLES * (2 if abs(turn) > math.pi else 1)
    return max(
        arc.off(centre + cmath.rect(abs(first) + grow * t, cmath.phase(first) + turn * t))
        for t in (k / count for k in range(count + 1))
    )
