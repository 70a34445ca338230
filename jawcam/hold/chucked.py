"""The chuck: where its jaws are, what it keeps tools off, and what is to be said of holding."""

from __future__ import annotations

from collections.abc import Iterator

from jawcam.geometry.shapes import Region
from jawcam.hold.tailstock import centre_of
from jawcam.hold.turn_target import HalfLoop
from jawcam.job.turn_model import Chuck, TurnSetup
from jawcam.tools.grip import centrifugal_force, lost_at_most
from jawcam.units import Units

__all__ = ["SLENDER", "chuck_words", "jaw_face", "keep_off"]

SLENDER = 3.0
"""Times its diameter that work may stand out of the chuck without a tailstock (trade guide, common
practice, no source)."""


def jaw_face(setup: TurnSetup, behind: float) -> float:
    """The Z of the jaws' front. behind: how far the stock reaches behind the finished face."""
    if setup.part_off:
        return -(behind + setup.chuck.jaws / 2)
    return -behind + setup.chuck.grip


def keep_off(setup: TurnSetup, stock: Region, front: float) -> Iterator[HalfLoop]:
    """Half sections that nothing may touch: a jaw, the chuck's body, a tailstock's centre."""
    chuck = setup.chuck
    held = _held_radius(stock, front)
    outer = held + chuck.jaw_height
    yield _box(front - chuck.jaws, front, held, outer)
    yield _box(front - chuck.jaws - chuck.dia, front - chuck.jaws, 0.0, max(chuck.dia / 2, outer))
    if chuck.tailstock:
        yield centre_of(chuck.centre, max(z for z, _ in _corners(stock)))


def chuck_words(setup: TurnSetup, stands_out: float, thick: float, units: Units) -> Iterator[str]:
    """What the person should know of it. stands_out: of the work in front of the jaws; thick:
    its least diameter, mm."""
    say, chuck = units.say, setup.chuck
    yield (
        f"the chuck holds {say(chuck.grip)}, the work stands {say(stands_out)} out of its jaws, "
        f"{stands_out / thick:.1f} times its least diameter"
    )
    if stands_out > SLENDER * thick and not chuck.tailstock:
        yield (
            f"caution: more than {SLENDER:g} times its diameter without a tailstock: the work "
            "bends and may come out"
        )
    yield from _speed_words(chuck, setup.speeds.clamp)


def _speed_words(chuck: Chuck, clamp: float) -> Iterator[str]:
    """What the jaws lose by turning (VDI 3106, EN 1550), as guidance."""
    if chuck.force is None or chuck.jaw_mass is None or chuck.jaw_radius is None:
        return
    moment = chuck.count * chuck.jaw_mass * chuck.jaw_radius / 1000
    rpm = min(clamp, chuck.max_rpm)
    lost = centrifugal_force(moment, rpm)
    most = lost_at_most(chuck.force)
    yield f"at {rpm:.0f} rpm the jaws lose {lost / 1000:.1f} of {chuck.force / 1000:.1f} kN of grip"
    if lost > most:
        yield f"caution: more than {most / 1000:.1f} kN (EN 1550): lower the clamp of the speed"


def _held_radius(stock: Region, front: float) -> float:
    return max(x for z, x in _corners(stock) if z < front - 1e-6)


def _corners(stock: Region) -> list[tuple[float, float]]:
    return [point for segment in stock.outer.segments for point in (segment.start, segment.end)]


def _box(z0: float, z1: float, x0: float, x1: float) -> HalfLoop:
    return ((z0, x0, 0.0), (z1, x0, 0.0), (z1, x1, 0.0), (z0, x1, 0.0))
