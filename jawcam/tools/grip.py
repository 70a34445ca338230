"""How hard jaws must grip, and what they can bear: forces in N, lengths in mm, torques in N m.

Chuck jaws after VDI 3106 and EN 1550; vise screws and friction after statics.
"""

from __future__ import annotations

import math
from typing import Literal

__all__ = [
    "COLLET_FRICTION",
    "EN_1550_SHARE",
    "FAMILY",
    "JAW_FRICTION",
    "LEAST_FACTOR",
    "WORK_FACTOR",
    "Jaw",
    "Surface",
    "allowed_speed",
    "centrifugal_force",
    "force_at_rest",
    "friction",
    "grip_torque",
    "lost_at_most",
    "screw_force",
    "screw_force_by_friction",
    "screw_torque",
    "single_face_hold",
    "two_jaw_bearing",
    "two_jaw_hold",
]

Surface = Literal["ground", "machined", "raw"]
"""Of the part where it is gripped: fine-turned or ground; machined rough to medium; unmachined."""
Jaw = Literal["smooth", "diamond", "serrated"]
"""The face of a jaw: smooth as soft jaws are, with diamond-shaped points, or serrated."""

JAW_FRICTION: dict[Surface, dict[Jaw, float]] = {
    "ground": {"smooth": 0.07, "diamond": 0.12, "serrated": 0.20},
    "machined": {"smooth": 0.10, "diamond": 0.20, "serrated": 0.35},
    "raw": {"smooth": 0.15, "diamond": 0.30, "serrated": 0.45},
}
"""Clamping coefficients of jaws on steel parts: a chuck data sheet in the manner of VDI 3106.
Friction of dry metals out of textbooks (aluminium on mild steel 0.61) is no use here: coolant and
vibration take most of it (Hurtado and Melkote, Wear 231, 1999)."""

WORK_FACTOR = {"steel": 1.0, "aluminium": 0.95, "brass": 0.90, "grey iron": 0.80}
"""What the coefficients are multiplied by for other parts: the same sheet; another maker's says
0.97, 0.92 and 0.80."""

FAMILY = {
    "K15": "grey iron",
    "K16": "grey iron",
    "N21": "aluminium",
    "N22": "aluminium",
    "N26": "brass",
    "N27": "brass",
    "N28": "brass",
}
"""A material's group of VDI 3323 -> its row in WORK_FACTOR; the others count as steel."""

COLLET_FRICTION: dict[Surface, tuple[float, float]] = {
    "ground": (0.06, 0.08),
    "machined": (0.10, 0.13),
    "raw": (0.14, 0.16),
}
"""Coefficients round and along a smooth collet: a chuck data sheet."""

LEAST_FACTOR = 1.5
"""The least of either safety factor in VDI 3106."""

EN_1550_SHARE = 0.67
"""What share of its force at rest a chuck may lose by speed at most: EN 1550."""


def friction(surface: Surface, work: str = "steel", jaw: Jaw = "smooth") -> float:
    """The clamping coefficient of a jaw on a part, work: a key of WORK_FACTOR."""
    return JAW_FRICTION[surface][jaw] * WORK_FACTOR[work]


def centrifugal_force(moment: float, rpm: float) -> float:
    """Fc = sum(m r) (pi n / 30)^2: N from all jaws' masses times the radii of their centres of
    gravity, in kg m together, and 1/min. VDI 3106."""
    return moment * (math.pi * rpm / 30) ** 2


def force_at_rest(
    needed: float,
    lost: float,
    *,
    cutting_factor: float = LEAST_FACTOR,
    chuck_factor: float = LEAST_FACTOR,
    inside: bool = False,
) -> float:
    """How hard a chuck must grip at rest: Fsp0 = Ssp (Fsp +- Fc), Fsp = Sz Fspz. VDI 3106.

    needed: what the cut asks for (Fspz); lost: the jaws' centrifugal force (Fc), which gripping
    from outside loses and gripping a bore (`inside`) gains.
    """
    return chuck_factor * (cutting_factor * needed + (-lost if inside else lost))


def allowed_speed(
    at_rest: float, working: float, moment: float, *, chuck_factor: float = LEAST_FACTOR
) -> float:
    """The 1/min at which a chuck gripping from outside still has the force `working` (Fsp, the
    cut's factor included): n = 30 / pi sqrt((Fsp0 / Ssp - Fsp) / sum(m r)). VDI 3106.

    moment as in `centrifugal_force`. 0 if it hasn't that force at rest.
    """
    spare = at_rest / chuck_factor - working
    return 30 / math.pi * math.sqrt(max(spare, 0.0) / moment)


def lost_at_most(at_rest: float) -> float:
    """The largest centrifugal force of its jaws that a chuck may run at: EN 1550."""
    return EN_1550_SHARE * at_rest


def grip_torque(mu: float, force: float, dia: float) -> float:
    """The N m that jaws hold by friction: mu F d / 2, of the force of all jaws together and the
    diameter gripped."""
    return mu * force * dia / 2 / 1000


def screw_force(torque: float, lead: float, efficiency: float) -> float:
    """F = 2 pi T eta / lead: the work at the screw less what friction takes. Vises have an
    efficiency of 0.25 to 0.45 (common practice, weak source)."""
    return 2 * math.pi * torque * 1000 * efficiency / lead


def screw_torque(force: float, lead: float, efficiency: float) -> float:
    """The torque on the screw that gives a force: `screw_force` the other way round."""
    return force * lead / (2 * math.pi * efficiency) / 1000


def screw_force_by_friction(torque: float, radius: float, lead: float, mu: float) -> float:
    """F = T / (r tan(phi + theta)), tan(phi) = mu, tan(theta) = lead / (2 pi r): a square-threaded
    screw of mean radius r, its thread's friction alone (Hibbeler, Statics, 14th edition, chapter
    8)."""
    angle = math.atan(mu) + math.atan(lead / (2 * math.pi * radius))
    return torque * 1000 / (radius * math.tan(angle))


def two_jaw_bearing(mu: float, force: float) -> float:
    """2 mu F: the pull along the faces of two jaws at which the part slips."""
    return 2 * mu * force


def two_jaw_hold(cutting: float, safety: float, mu: float) -> float:
    """F >= K Fc / (2 mu): how hard two jaws must grip against a pull along their faces."""
    return safety * cutting / (2 * mu)


def single_face_hold(cutting: float, safety: float, mu: float) -> float:
    """F >= K Fc / mu: the cautious form, in which one face alone bears."""
    return safety * cutting / mu
