"""Cutting force and power from the specific cutting force: kc = kc1.1 h^-mc.

The values by ISO 513 letter and VDI 3323 group are those printed in cutting-tool user guides of
2017 and 2022. Titanium is left out, as the two disagree on it by far, and so is hardened steel,
for which they give no exponent.
"""

from __future__ import annotations

import math
import re
from dataclasses import dataclass

from jawcam.tools.materials import find

__all__ = [
    "GROUPS",
    "Group",
    "corrected_for_rake",
    "cutting_force",
    "cutting_power",
    "group_of",
    "mean_chip",
    "milling_power",
    "removal_rate",
    "specific_force",
    "torque",
    "turning_chip",
]

_PER_KW = 60_000  # N m/min in a kilowatt


@dataclass(frozen=True)
class Group:
    """A group of materials. name: its ISO 513 letter and VDI 3323 number; kc: the specific
    cutting force kc1.1 in N/mm2, of a chip 1 mm wide and 1 mm thick; mc: its exponent."""

    name: str
    material: str
    kc: float
    mc: float


GROUPS = (
    Group("P1", "unalloyed steel below 0.25 % C, annealed", 1350, 0.21),
    Group("P2", "unalloyed steel from 0.25 % C, annealed", 1500, 0.22),
    Group("P3", "unalloyed steel below 0.55 % C, quenched and tempered", 1675, 0.24),
    Group("P4", "unalloyed steel from 0.55 % C, annealed", 1700, 0.24),
    Group("P5", "unalloyed steel from 0.55 % C, quenched and tempered", 1900, 0.24),
    Group("P6", "low-alloy steel, annealed", 1775, 0.24),
    Group("P7", "low-alloy steel, quenched and tempered, 275 HB", 1675, 0.24),
    Group("P8", "low-alloy steel, quenched and tempered, 300 HB", 1725, 0.24),
    Group("P9", "low-alloy steel, quenched and tempered, 350 HB", 1800, 0.24),
    Group("P10", "high-alloy steel, annealed", 2450, 0.23),
    Group("P11", "high-alloy steel, quenched and tempered", 2500, 0.23),
    Group("P12", "ferritic stainless steel", 1875, 0.21),
    Group("P13", "martensitic stainless steel", 1875, 0.21),
    Group("M14", "austenitic stainless steel", 2150, 0.20),
    Group("K15", "grey cast iron, 180 HB", 1150, 0.20),
    Group("K16", "grey cast iron, pearlitic", 1350, 0.28),
    Group("K17", "nodular cast iron, ferritic", 1225, 0.25),
    Group("K18", "nodular cast iron, pearlitic", 1350, 0.28),
    Group("K20", "malleable cast iron, pearlitic", 1420, 0.30),
    Group("N21", "wrought aluminium alloy, not cured", 700, 0.25),
    Group("N22", "wrought aluminium alloy, cured", 800, 0.25),
    Group("N26", "free-cutting copper alloy", 700, 0.27),
    Group("N27", "brass", 700, 0.27),
    Group("N28", "copper", 700, 0.27),
    Group("S31", "iron-base heat-resisting alloy, annealed", 2600, 0.24),
    Group("S32", "iron-base heat-resisting alloy, cured", 3100, 0.24),
    Group("S33", "nickel or cobalt-base alloy, annealed", 3300, 0.24),
    Group("S34", "nickel or cobalt-base alloy, cured", 3300, 0.24),
    Group("S35", "nickel or cobalt-base alloy, cast", 3300, 0.24),
)
_BY_NAME = {group.name: group for group in GROUPS}
_NAMED = re.compile(r"\bgroup ([a-z]\d+)\b", re.IGNORECASE)


def group_of(material: str) -> Group | None:
    """The group of a material: of one known by name, or the one that its name states, such as
    "chrome steel, group P6". None if there is neither."""
    if named := _NAMED.search(material):
        return _BY_NAME.get(named[1].upper())
    known = find(material)
    return _BY_NAME.get(known.group) if known else None


def specific_force(kc: float, mc: float, chip: float) -> float:
    """Specific cutting force in N/mm2 of a chip `chip` mm thick: kc1.1 h^-mc (Kienzle)."""
    return kc * float(chip**-mc)


def corrected_for_rake(kc: float, rake: float) -> float:
    """Specific cutting force (N/mm2) at a rake in degrees, the table's being 0: a hundredth less
    for each degree (common practice, no source)."""
    return kc * (1 - rake / 100)


def cutting_force(kc: float, width: float, thickness: float) -> float:
    """Fc = kc b h: N from N/mm2 and the chip's width and thickness in mm; of a milling cutter's
    tooth, the depth of cut and how thick its chip is."""
    return kc * width * thickness


def turning_chip(feed: float, depth: float, angle: float) -> tuple[float, float]:
    """Width b = ap / sin(kappa) and thickness h = f sin(kappa) in mm of a turned chip, from the
    feed per turn and the depth in mm and the edge's angle to the feed in degrees."""
    slope = math.sin(math.radians(angle))
    return depth / slope, feed * slope


def mean_chip(chip: float, stepover: float, dia: float) -> float:
    """Mean thickness in mm of a milled chip: hm = 2 fz ae / (D phi), phi = arccos(1 - 2 ae / D);
    from the chip load, the stepover (at most D) and the cutter's diameter in mm."""
    return 2 * chip * stepover / (dia * math.acos(1 - 2 * stepover / dia))


def cutting_power(force: float, speed: float, efficiency: float = 1.0) -> float:
    """Pc = Fc vc / (60000 eta): kW from N and m/min; efficiency: of the drive, from 0 to 1."""
    return force * speed / (_PER_KW * efficiency)


def milling_power(
    kc: float, depth: float, stepover: float, feed: float, efficiency: float = 1.0
) -> float:
    """Pc = ae ap vf kc / (60 000 000 eta): kW from N/mm2, mm, mm and mm/min."""
    return kc * depth * stepover * feed / (1000 * _PER_KW * efficiency)


def torque(power: float, rpm: float) -> float:
    """N m from kW and 1/min."""
    return power * _PER_KW / (2 * math.pi * rpm)


def removal_rate(speed: float, depth: float, feed: float) -> float:
    """Q = vc ap f of turning: cm3/min from m/min, mm and mm per turn."""
    return speed * depth * feed
