"""How far a milling cutter bends away from the wall: a bar held at one end, loaded at the other."""

from __future__ import annotations

import math

__all__ = ["CARBIDE", "FLUTED", "HELIX", "bend", "edge_in_cut"]

CARBIDE = 600_000.0
"""N/mm2, the modulus of elasticity of cemented carbide (common practice, no source)."""

FLUTED = 0.8
"""Of its diameter: as stiff as a round bar of that is an end mill of two or four flutes (the
abstract of "Determination of the Equivalent Diameter of an End Mill Based on its Compliance")."""

HELIX = 30.0
"""Degrees that an end mill's edges wind by (common practice, no source)."""


def bend(
    force: float, length: float, dia: float, modulus: float = CARBIDE, share: float = FLUTED
) -> float:
    """F L^3 / (3 E I), I = pi d^4 / 64: mm from N, mm of stick-out, mm and N/mm2.

    share: of the diameter, the bar's that is as stiff. The whole force counts as pushing at the
    tip, which makes it rather more than less.
    """
    inertia = math.pi * (share * dia) ** 4 / 64
    return force * length**3 / (3 * modulus * inertia)


def edge_in_cut(depth: float, angle: float, dia: float, flutes: int, helix: float = HELIX) -> float:
    """The most of its cutting edges, in mm of depth, that a cutter has in the work at a time.

    depth: of cut, mm; angle: engaged, degrees; helix: degrees, 0 for straight flutes. An edge that
    winds is in the work over no more of the depth than it climbs within the angle; as it turns,
    that grows evenly, stays, and wanes, one flute after the other: the most of their sum comes
    where one of these ends.
    """
    if depth <= 0 or angle <= 0:
        return 0.0
    arc, pitch = math.radians(angle), 2 * math.pi / flutes
    lag = 2 * depth * math.tan(math.radians(helix)) / dia
    if lag < 1e-9:
        return depth * max(math.ceil(arc / pitch - 1e-9), 1)
    low, high = sorted((arc, lag))
    count = math.ceil((low + high) / pitch) + 1
    most = max(
        sum(_overlap(mark % pitch + turn * pitch, low, high) for turn in range(count))
        for mark in (low, high, low + high, 0.0)
    )
    return most * depth / lag


def _overlap(turn: float, low: float, high: float) -> float:
    """How much of one edge is in the work, as an angle, `turn` after its tip came to it."""
    return max(min(turn, low, low + high - turn), 0.0)
