"""What the passes of one lathe setup share: the work, which tool does what and how it is driven."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from functools import cached_property

from jawcam.errors import Fault, InputError, Place
from jawcam.geometry.combine import difference, union
from jawcam.geometry.shapes import Region, from_bulges
from jawcam.hold.turning import Chucked
from jawcam.job.model import Job
from jawcam.job.places import place_in_setup
from jawcam.job.turn_model import TurnSetup
from jawcam.motion.moves import Spindle, SurfaceSpeed
from jawcam.part.piece import Piece
from jawcam.part.table import stretches
from jawcam.tolerance import Tolerance
from jawcam.tools.insert import edge_length, set_point_offset, steepest
from jawcam.tools.turner import Turner
from jawcam.tools.turning import TurnSpeeds, held_speed, turning_speeds
from jawcam.turn.edge import CuttingEdge, Workpiece
from jawcam.turn.reach import box, reachable
from jawcam.turn.speed import fixed, held_from, held_words
from jawcam.units import Units

__all__ = ["Driven", "TurnWork"]

SHORT = 10.0
"""mm; how long an edge is taken to be when nobody tells."""

BESIDE = 0.5
"""mm that a boring tool's edge keeps off the wall of the hole that it goes into (common practice,
no source)."""


OVER = 1.0
"""mm that a bore through the end is drilled and bored on behind it (common practice, no source)."""


@dataclass(frozen=True)
class Driven:
    """A tool and how it is driven: m/min, mm per turn, mm."""

    tool: Turner
    speeds: TurnSpeeds
    clamp: float
    constant: bool
    units: Units

    def spindle(self, radius: float) -> Spindle | SurfaceSpeed:
        """The spindle's words; at a steady speed it is that of `radius`."""
        if self.constant:
            return SurfaceSpeed(self.speeds.surface, self.clamp, self._clockwise)
        return self.steady(radius)

    def inwards(self, radius: float) -> Spindle | SurfaceSpeed:
        """For a cut towards the axis from a radius: fixed all along if a surface speed would come
        to its clamp at that radius already."""
        speed = self.spindle(radius)
        held = held_from(speed)
        return speed if held is None or held < radius else fixed(speed)

    def steady(self, radius: float) -> Spindle:
        """A steady speed that gives the cutting speed at a radius: n = 1000 v / (2 pi x)."""
        rpm = held_speed(self.speeds.surface, 2 * max(radius, 0.5), self.clamp)
        return Spindle(round(rpm), self._clockwise)

    @property
    def _clockwise(self) -> bool:
        return self.tool.turns == "clockwise"

    def held_words(self, name: str, speed: Spindle | SurfaceSpeed, inner: float) -> Iterator[str]:
        """What the person should know of the speed of a cut inwards to the radius `inner`."""
        held = held_from(speed)
        if self.constant and (held is None or held > inner):
            yield f"T{self.tool.number}: {held_words(name, speed, self.units)}"


@dataclass(frozen=True)
class TurnWork:
    """One end of a turned part: what is to be made of what."""

    job: Job
    setup: TurnSetup
    held: Chucked
    tolerance: Tolerance

    @property
    def place(self) -> Place:
        """Of the setup, for messages."""
        return place_in_setup(self.job, self.setup)

    @property
    def finished_to(self) -> float:
        """The Z in front of which the part is finished here."""
        target = self.held.target
        return target.limit if target.finished_to is None else target.finished_to

    @property
    def free(self) -> float:
        """The radius at which tools travel along Z clear of all."""
        return self.held.stock.outer.box[3] + self.setup.clearance

    @cached_property
    def piece(self) -> Workpiece:
        """The work as turning tools meet it. Behind the face that is parted off stays as much as
        the part is thick there, so that no other tool parts it."""
        target, part = self.held.target, self.held.finished
        if target.parted is not None:
            rim = [x for z, x, _ in target.finished if abs(z - target.parted) <= 1e-6]
            stub = box(target.limit - 1.0, target.parted + 1e-3, min(rim), max(rim))
            (part, *_) = union([part, stub], self.tolerance)
        return Workpiece(
            part=part,
            stock=self.held.stock,
            limit=target.limit,
            free=self.free,
            clearance=self.setup.clearance,
            keep_off=tuple(Region(from_bulges(list(loop))) for loop in target.keep_off),
            units=target.units,
        )

    @cached_property
    def bore_piece(self) -> Workpiece | None:
        """The work as a boring tool meets it once it is drilled; None without a hole to begin
        in."""
        hole, rows = self._hole, self.bore_rows
        made = self._rows(self.held.made)
        wider = [row[1] for row in rows if max(row[2:]) > hole + BESIDE / 10 and row not in made]
        if not wider or hole <= BESIDE:
            return None
        (z0, _, z1, top), end = self.held.stock.outer.box, rows[-1][1]
        part, beyond = self.held.finished, OVER if end <= -self.held.length + 1e-9 else 0.0
        if beyond:  # through the end the wall goes on, for the nose to run out
            wall = rows[-1][3]
            tube = box(end - beyond - 1.0, end + 1e-3, wall, top)
            (part, *_) = union([part, tube], self.tolerance)
        hollow = box(max(z0 - 1.0, end - beyond), z1 + 1.0, -1.0, hole)
        faced = box(min(self.setup.rough.leave_face, z1), z1 + 1.0, -1.0, top + 1.0)
        (stock, *_) = difference([self.held.stock], [hollow, faced], self.tolerance)
        limit = min(wider) - (beyond if min(wider) == end else 0.0)
        free = hole - BESIDE
        return replace(
            self.piece, part=part, stock=stock, limit=limit, free=free, keep_off=(), front=z1
        )

    @property
    def bore_rows(self) -> list[tuple[float, float, float, float]]:
        """The bore's stretches from the free end on: Z from and to, the radius there."""
        return self._rows(self.held.bore)

    @property
    def front_hole(self) -> float:
        """The radius of the hole in the free end before anything is cut there."""
        made = self._rows(self.held.made)
        return max(self.setup.stock.bore / 2, made[0][2] if made else 0.0)

    @property
    def _hole(self) -> float:
        """The radius that is free all through the bore before it is bored."""
        drill = self.tool(self.setup.drill.tool, "drill") if self.setup.drill else None
        made = [min(radii) for _, _, *radii in self._rows(self.held.made)]
        drilled = (drill.dia or 0.0) / 2 if drill else self.setup.stock.bore / 2
        return max(drilled, min(made, default=0.0))

    def _rows(self, pieces: Sequence[Piece]) -> list[tuple[float, float, float, float]]:
        rows = [(row.begin, row.end, row.first, row.last) for row in stretches(pieces)]
        if self.setup.end == "A":
            return [(-begin, -end, first, last) for begin, end, first, last in rows]
        off = self.held.length
        return [(end - off, begin - off, last, first) for begin, end, first, last in rows[::-1]]

    def reached(self, driven: Driven) -> tuple[Region, ...]:
        """What turning with a tool can leave at best, but for the roundness of its nose."""
        return reachable(self.held.finished, self.edge(driven.tool), self.tolerance)

    def edge(self, tool: Turner) -> CuttingEdge:
        """The cutting end of a turning or boring tool."""
        rises, falls = steepest(tool)
        return CuttingEdge(
            radius=tool.insert.radius if tool.insert else tool.radius,
            falls=falls,
            rises=rises,
            set_point=set_point_offset(tool),
            hand=tool.hand,
            inside=tool.inside,
            length=edge_length(tool.insert) if tool.insert else SHORT,
        )

    def tool(self, number: int | None, kind: str, *, round_nose: bool = False) -> Turner | None:
        """The tool of a kind with a number, or else the first that works on the outside; of
        turning tools the one with the largest nose (`round_nose`) or the smallest."""
        known = self.job.turners
        if number is not None:
            return next((one for one in known if one.number == number), None)
        fit = [one for one in known if one.kind == kind and one.inside == (kind == "boring")]
        if kind == "turning" and fit:
            noses = sorted(fit, key=lambda one: one.insert.radius if one.insert else 0.0)
            return noses[-1] if round_nose else noses[0]
        return fit[0] if fit else None

    def driven(
        self, tool: Turner | None, kind: str, *, finish: bool = False, feed: float | None = None
    ) -> Driven:
        """How a tool is driven in the part's material. Raises InputError without a tool."""
        if tool is None:
            what = f"none of the tools is a {kind} tool"
            raise InputError(Fault(what, self.place, f'add a [[tool]] with kind = "{kind}"'))
        setup, clamp = self.setup, max(math.floor(self.held.target.clamp), 1)
        speeds = turning_speeds(
            tool,
            self.job.part.material,
            clamp=clamp,
            surface=setup.speeds.surface,
            finish=finish,
            roughness=setup.finish.surface_ra if finish else None,
            units=self.job.units,
        )
        if feed is not None:
            speeds = TurnSpeeds(speeds.surface, feed, speeds.depth, speeds.notes)
        return Driven(tool, speeds, clamp, setup.speeds.constant, self.job.units)
