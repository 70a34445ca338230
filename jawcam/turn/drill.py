"""The bore's beginning: a centre, then a hole on the axis."""

from __future__ import annotations

import math
from dataclasses import dataclass, field, replace

from jawcam.errors import FaultList, Place
from jawcam.motion.holes import BACK_OFF
from jawcam.motion.moves import Dwell
from jawcam.turn.plunge import spot_words
from jawcam.turn.trail import TurnTrail
from jawcam.units import Units

__all__ = ["MOUTH", "AxisDrill", "centre_axis", "drill_axis", "point_length"]

START = 1.0
"""mm in front of the face where the feed begins and where pecks come out to (common practice, no
source)."""

MOUTH = 0.9
"""How wide a centre is at the face, of what will be drilled, so that the drill's corners do not
ride on it (common practice, no source)."""


@dataclass(frozen=True)
class AxisDrill:
    """A hole along the axis, in mm.

    top: the Z of the face that it begins in; depth: how far down from there it has its full
    diameter; clear: the Z at which the tool moves freely across. dia, point_angle: of the drill,
    in mm and degrees. feed: as the program counts, commonly mm per turn; rpm: the spindle's. peck:
    None = in one go. reach: how deep the drill goes, its point included, None = not known. units,
    where: for messages.
    """

    top: float
    depth: float
    clear: float
    dia: float
    feed: float
    rpm: float
    point_angle: float = 118.0
    peck: float | None = None
    reach: float | None = None
    units: Units = Units.MM
    where: Place = field(default_factory=Place)

    @property
    def tip(self) -> float:
        """The Z of the drill's tip at the bottom."""
        return self.top - self.depth - point_length(self.dia, self.point_angle)


def point_length(dia: float, angle: float) -> float:
    """How far a drill's tip stands before its full diameter: (dia / 2) / tan(angle / 2)."""
    return dia / 2 / math.tan(math.radians(angle) / 2)


def drill_axis(trail: TurnTrail, cut: AxisDrill) -> None:
    """Drill along Z at x = 0, with full retracts in front of the face to clear the chips, going
    back in to half a millimetre above where it was, and a turn's dwell at the bottom.

    The spindle turns at a steady `rpm`, which the caller starts: at constant surface speed it
    would run at its clamp on the axis. The tool ends at `clear` on the axis. Raises InputError
    when the drill is too short.
    """
    _check(cut)
    _drill(trail, cut, cut.tip)


def centre_axis(trail: TurnTrail, cut: AxisDrill, drilled: float) -> None:
    """Centre the face for a drill of the diameter `drilled`, at a steady `rpm` as for
    `drill_axis`.

    The centre drill goes in, pecking if told to, until the centre is nine tenths as wide at the
    face as the drill, but no wider than its own diameter; `depth` is not heeded.
    """
    mouth = min(cut.dia, MOUTH * drilled)
    _drill(trail, cut, cut.top - point_length(mouth, cut.point_angle))


def _drill(trail: TurnTrail, cut: AxisDrill, tip: float) -> None:
    start = min(cut.top + START, cut.clear)
    if trail.at is not None and trail.at[0] < cut.clear:
        trail.rapid(cut.clear, trail.at[1])
    trail.rapid(cut.clear, 0.0)
    trail.rapid(start, 0.0)
    deep = cut.top - tip
    count = 1 if cut.peck is None else max(1, math.ceil(deep / cut.peck - 1e-9))
    for k in range(1, count):
        z = cut.top - deep * k / count
        trail.feed(z, 0.0, cut.feed)
        trail.rapid(start, 0.0)
        trail.rapid(min(z + BACK_OFF, start), 0.0)
    trail.feed(tip, 0.0, cut.feed)
    trail.add(Dwell(60 / cut.rpm))
    trail.rapid(cut.clear, 0.0)


def _check(cut: AxisDrill) -> None:
    faults, deep = FaultList(), cut.top - cut.tip
    if cut.reach is not None and deep > cut.reach + 1e-9:
        say = cut.units.say
        faults.add(
            f"the hole is {say(deep)} deep with its point, the drill reaches {say(cut.reach)}",
            replace(cut.where, at=spot_words(cut.tip, 0.0, cut.units)),
            f"take a drill that reaches at least {say(deep)}, or drill less deep",
        )
    faults.raise_if_any()
