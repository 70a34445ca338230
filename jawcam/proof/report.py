"""What the proof found: findings with their places, and the figures behind them."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

__all__ = ["Figures", "Finding", "Grade", "Peak", "Report", "ToolFigures", "ToolNeed"]

Grade = Literal["stop", "warn", "note"]
"""stop: the program must not run; warn: look before it runs; note: good to know."""


@dataclass(frozen=True)
class Finding:
    """One thing that is wrong or worth knowing.

    code: see `jawcam.proof.codes`; line, column: where in the program, from 1, 0 = nowhere in it;
    x, y, z: where on the jaws, in the program's axes, mm; amount: how much, mm; mend: how to put
    it right, a full clause; source: the line's own text; calls: the lines of the calls that led to
    the line, the first in the main program.
    """

    code: str
    grade: Grade
    what: str
    line: int = 0
    column: int = 0
    x: float | None = None
    y: float | None = None
    z: float | None = None
    amount: float | None = None
    mend: str = ""
    source: str = ""
    calls: tuple[int, ...] = ()


@dataclass(frozen=True)
class Peak:
    """The most of something and where it first is: the program's line, and the tip in its axes."""

    most: float
    line: int
    x: float
    y: float
    z: float


@dataclass(frozen=True)
class ToolFigures:
    """What one tool bites off and how long it takes; mm, mm3 and minutes.

    width, depth, rate: the widest, the thickest and the fullest bite (mm3 a minute), None if it
    cuts nothing; volume: all that it takes; air: the share of its way at feed that cuts nothing,
    None without one; *_minutes: as of the whole.
    """

    tool: int
    width: Peak | None = None
    depth: Peak | None = None
    rate: Peak | None = None
    volume: float = 0.0
    air: float | None = None
    feed_minutes: float = 0.0
    rapid_minutes: float = 0.0
    ramp_minutes: float = 0.0

    @property
    def minutes(self) -> float:
        """All that its moves take."""
        return self.feed_minutes + self.rapid_minutes + self.ramp_minutes


@dataclass(frozen=True)
class ToolNeed:
    """What one tool must have at least, mm: how long its flutes are, and how far it stands out of
    its holder; lowest: the Z in the program's axes that its tip cuts down to."""

    tool: int
    flutes: float
    stickout: float
    lowest: float


@dataclass(frozen=True)
class Figures:
    """What was measured; mm, mm2, mm3 and minutes. None: there was nothing to measure.

    gouge: the farthest that the cutter reaches into what must stay; left_over: the diameter of the
    largest disc of material left in the cavity, 0 if none is above the limit; floor_error: the
    deepest cut's height over the seat, or over the floor of its groove, negative below it; deepest:
    the Z of that cut in the program's axes; bolt_clearance: the least distance of cutter and
    bolts; wall_left, floor_left: the least thickness left beside or behind and under the cavity
    (the depths are without drilled holes); feed_*, rapid_*: path lengths and the time they take at
    the speeds asked for; ramp_minutes: what speeding up and slowing down adds; change_minutes,
    dwell_minutes: tool changes and dwells; assumed: what the times take for granted, in words;
    area, volume: what is removed from the blanks; levels: the flat floors that the cuts leave, as
    rows (Z in the program's axes, area), from the top down; tools: in the order of their first cut;
    needs: of those that cut, likewise; untold: what the job doesn't tell of what can crash, and how
    it is taken, in words; unjudged: what isn't judged, as it doesn't tell that either.
    """

    gouge: float = 0.0
    left_over: float = 0.0
    floor_error: float | None = None
    deepest: float | None = None
    bolt_clearance: float | None = None
    wall_left: float | None = None
    floor_left: float | None = None
    feed_length: float = 0.0
    rapid_length: float = 0.0
    feed_minutes: float = 0.0
    rapid_minutes: float = 0.0
    ramp_minutes: float = 0.0
    change_minutes: float = 0.0
    dwell_minutes: float = 0.0
    assumed: tuple[str, ...] = ()
    area: float = 0.0
    volume: float = 0.0
    levels: tuple[tuple[float, float], ...] = ()
    tools: tuple[ToolFigures, ...] = ()
    needs: tuple[ToolNeed, ...] = ()
    untold: tuple[str, ...] = ()
    unjudged: tuple[str, ...] = ()

    @property
    def minutes(self) -> float:
        """The whole time; what the spindle takes to speed up is not in it."""
        moving = self.feed_minutes + self.rapid_minutes + self.ramp_minutes
        return moving + self.change_minutes + self.dwell_minutes


@dataclass(frozen=True)
class Report:
    """The outcome of a proof."""

    findings: tuple[Finding, ...] = ()
    figures: Figures = Figures()

    @property
    def ok(self) -> bool:
        """Whether nothing was found that stops the program."""
        return all(finding.grade != "stop" for finding in self.findings)
