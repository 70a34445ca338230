"""Whether the jaws hold the part against the cut that comes next: guidance, no proof.

Friction on both jaws bears the cutting force, and an upward pull of the cutter; each is looked at
by itself.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from jawcam.job.model import Clamp, NextCut
from jawcam.job.words import quoted
from jawcam.tools.force import Group, cutting_force, group_of, specific_force
from jawcam.tools.grip import (
    FAMILY,
    friction,
    screw_force,
    screw_torque,
    two_jaw_bearing,
    two_jaw_hold,
)
from jawcam.tools.materials import PRACTICE
from jawcam.units import Units

__all__ = ["CAUTION", "LIFT_SHARE", "grip_words"]

LIFT_SHARE = 0.5
"""The cutter's upward pull as a share of the cutting force (common practice, no source)."""

CAUTION = (
    "guidance only: tighten the jaws' screws to the jaw or vise maker's torque and the vise no "
    "harder than its maker allows, cut the jaws at the working pressure, check grip length and "
    "jaw opening before the first part"
)

_NEWTONS_PER_LBF = 4.4482216152605  # NIST SP 811, appendix B.8


@dataclass(frozen=True)
class _Grip:
    """The grip, forces in N: the vise's, what friction bears along the jaws, its coefficient."""

    force: float
    bears: float
    mu: float


def grip_words(
    clamp: Clamp | None, next_cut: NextCut | None, part_material: str, units: Units
) -> tuple[str, ...]:
    """What a person should know of the grip, a line each: the clamping force, the cutting force
    and the margin against slipping and lifting, what was assumed, and what to mind. Without
    `clamp` there is nothing to say.

    Forces are told in N and torques in N m, in lbf and lbf in for a job in inches.
    """
    if clamp is None or (clamp.force is None and clamp.torque is None):
        return ()
    group = group_of(part_material)
    work = FAMILY.get(group.name, "steel") if group else "steel"
    mu = friction(clamp.surface, work)
    force = _clamping(clamp)
    grip = _Grip(force, two_jaw_bearing(mu, force), mu)
    lines = [_pressing(clamp, grip, units)]
    assumed = [*_about_vise(clamp), _about_friction(clamp, work, mu, group, part_material)]
    if next_cut is None or not next_cut.stepdown or not next_cut.chip:
        lines.append(
            "grip: no cutting force to hold it against: give next_cut its stepdown and chip"
        )
    elif group is None:
        lines.append(_unknown(part_material))
    else:
        told, assumptions = _against(clamp, next_cut, grip, group, units)
        lines += told
        assumed += assumptions
    return (*lines, f"grip: assumed {'; '.join(assumed)}", f"grip: {CAUTION}")


def _clamping(clamp: Clamp) -> float:
    if clamp.force is not None:
        return clamp.force
    return screw_force(clamp.torque or 0.0, clamp.lead, clamp.efficiency)


def _pressing(clamp: Clamp, grip: _Grip, units: Units) -> str:
    origin = "as given"
    if clamp.force is None:
        screw = f"its screw of {units.say(clamp.lead)} lead"
        origin = f"from {_torque(clamp.torque or 0.0, units)} on {screw}"
    return (
        f"grip: the vise presses with {_force(grip.force, units)}, {origin}; "
        f"friction on both jaws bears {_force(grip.bears, units)}"
    )


def _about_vise(clamp: Clamp) -> list[str]:
    if clamp.force is not None:
        return []
    return [f"screw's efficiency {clamp.efficiency:g} (vises have 0.25 to 0.45, weak source)"]


def _about_friction(clamp: Clamp, work: str, mu: float, group: Group | None, material: str) -> str:
    named = quoted(material) if material else "a material not named"
    what = work if group else f"{named}, as if it were steel"
    return (
        f"friction {mu:.3g} of smooth jaws on a {clamp.surface} part of {what} "
        f"(a chuck data sheet, for steel jaws)"
    )


def _unknown(material: str) -> str:
    why = "the part's material is not named"
    if material:
        why = f"it is not known how hard {quoted(material)} is to cut"
    return (
        f"grip: no cutting force could be worked out, as {why}: name a known material, "
        f'or its VDI 3323 group, such as material = "bearing steel, group P6"'
    )


def _against(
    clamp: Clamp, cut: NextCut, grip: _Grip, group: Group, units: Units
) -> tuple[list[str], list[str]]:
    """The margins against the next cut in words, and what was assumed for them."""
    depth, chip = cut.stepdown or 0.0, cut.chip or 0.0
    specific = specific_force(group.kc, group.mc, chip)
    cutting = cutting_force(specific, depth, chip) * cut.teeth
    lift = LIFT_SHARE * cutting
    teeth = f"{cut.teeth} {'tooth' if cut.teeth == 1 else 'teeth'} in the cut"
    lines = [
        f"grip: {_cut(depth, chip, teeth, units)} pulls with {_force(cutting, units)}",
        f"grip: {_margins(grip.bears / cutting, grip.bears / lift, clamp.safety)}",
    ]
    if grip.bears < clamp.safety * cutting:
        needed = _needed(two_jaw_hold(cutting, clamp.safety, grip.mu), clamp, units)
        lines.append(f"caution: the grip is too weak for that cut: {needed}")
    name = f"{group.material} ({group.name} of VDI 3323)"
    return lines, [
        f"specific cutting force {_stress(specific, units)} of {name} at that chip, sharp edges",
        f"upward pull {LIFT_SHARE:g} of the cutting force ({PRACTICE})",
        "slipping and lifting each by itself",
        "tipping not counted",
    ]


def _cut(depth: float, chip: float, teeth: str, units: Units) -> str:
    return f"the next cut, {units.say(depth)} deep, chip {units.say(chip)}, {teeth},"


def _margins(slip: float, lift: float, safety: float) -> str:
    return (
        f"it holds {_down(slip)} times that before the part slips, and {_down(lift)} times the "
        f"pull upwards before it lifts; {safety:g} times are asked for"
    )


def _needed(force: float, clamp: Clamp, units: Units) -> str:
    """What would hold, in the way that the job says it."""
    text = f"it takes {_force(force, units, up=True)}"
    if clamp.force is None:
        turn = screw_torque(force, clamp.lead, clamp.efficiency)
        text += f" ({_torque(turn, units, up=True)} on the screw)"
    return f"{text}, or a thinner chip, or a smaller stepdown"


def _force(force: float, units: Units, *, up: bool = False) -> str:
    if units is Units.INCH:
        return f"{_rounded(force / _NEWTONS_PER_LBF, up=up)} lbf"
    if force < 999:
        return f"{_rounded(force, up=up)} N"
    return f"{_rounded(force / 1000, up=up)} kN"


def _torque(torque: float, units: Units, *, up: bool = False) -> str:
    if units is Units.INCH:
        return f"{_rounded(units.from_mm(torque * 1000) / _NEWTONS_PER_LBF, up=up)} lbf in"
    return f"{_rounded(torque, up=up)} N m"


def _stress(stress: float, units: Units) -> str:
    if units is Units.INCH:
        return f"{_rounded(stress * units.in_mm**2 / _NEWTONS_PER_LBF)} lbf/in2"
    return f"{_rounded(stress)} N/mm2"


def _rounded(value: float, *, up: bool = False) -> str:
    """A number to three digits, which is all that such figures are worth; `up`: to the next."""
    if value <= 0:
        return "0"
    digits = 2 - math.floor(math.log10(value))
    scaled = value * 10.0**digits
    whole = math.ceil(scaled - 1e-9) if up else round(scaled)
    return f"{whole * 10.0**-digits:.{max(digits, 0)}f}"


def _down(times: float) -> str:
    """A margin, never told larger than it is."""
    digits = 1 if times >= 0.1 else 3
    return f"{math.floor(times * 10**digits + 1e-9) / 10**digits:.{digits}f}"
