"""The machine as the program sees it: where the tip is, what is in force, what came of it."""

from __future__ import annotations

from collections.abc import Mapping
from math import isnan, nan
from typing import Literal, NamedTuple

from jawcam.reader.arcs import Arc, Rule
from jawcam.reader.controls import Control
from jawcam.reader.cuts import Change, Cut, Point3, ReadFault
from jawcam.reader.faults import BlockError
from jawcam.reader.modal import Modes
from jawcam.units import Units

__all__ = ["UNKNOWN", "Cycle", "Jump", "Machine"]

UNKNOWN: Point3 = (nan, nan, nan)

_INCHES_IN_A_FOOT = 12

_cut = tuple.__new__


class Jump(NamedTuple):
    """Where a block sends the run: to the subprogram of a number, or back (None). word, column: of
    the block's word that does."""

    number: int | None
    word: str
    column: int


class Cycle:
    """The numbers of a canned cycle that hold on from block to block, in mm, seconds: None as
    long as they haven't been given."""

    def __init__(self, mode: str) -> None:
        self.mode = mode
        self.numbers: dict[str, float] = {}


class Machine:
    """All that one reading changes. Lengths in mm.

    at: the tip in the axes of the work offset, without any G92 shift, X of a lathe a radius and Y
    0; scale, x_scale: mm in a unit of the program, and of an X word; rule: for the radii of arcs;
    feed: the F number as written; rpm: 0 under constant surface speed; surface: the S number as
    written under it, else 0; clamp: the highest rpm told; lengths: tool length
    offsets by register, None if they are taken to be in the tip's Z already; shift: what G92 adds
    to programmed coordinates; preset: axes that G92 has set while nobody knew where they were;
    box: the numbers of a thread's cycle that hold on while it is in force, as they are written, by
    letter, "lead" and "taper"; head: no word has been read yet, or none of the subprogram; line:
    being read; step: how many have been run, only counted where some are run again; calls: the
    lines of the open calls; jump: where the block sends the run.
    """

    def __init__(
        self, control: Control, start: Point3 | None, lengths: Mapping[int, float] | None
    ) -> None:
        self.control = control
        self.modes = Modes(plane=control.plane, feed_mode=control.feed_mode)
        self.at = (float(start[0]), float(start[1]), float(start[2])) if start else UNKNOWN
        self.forget("")
        self.choose_units("mm")
        self.feed = 0.0
        self.rpm = 0.0
        self.surface = 0.0
        self.clamp = 0.0
        self.tool = 0
        self.selected = 0
        self.selected_offset = 0
        self.lengths = lengths
        self.length = 0.0
        self.length_offset = 0
        self.work_offset = 1
        self.origins: dict[int, Point3] = {}
        self.register = 0
        self.shift: Point3 = (0.0, 0.0, 0.0)
        self.stored_shift = self.shift
        self.preset: set[int] = set()
        self.cycle = Cycle("")
        self.parameters: dict[int, float] = {}
        self.line = 0
        self.step = 0
        self.calls: tuple[int, ...] = ()
        self.jump: Jump | None = None
        self.head = True
        self.ended = False
        self.cuts: list[Cut] = []
        self.changes: list[Change] = []
        self.faults: list[ReadFault] = []

    def choose_units(self, name: str) -> None:
        """Put mm or inch in force, and the arc rule that goes with it."""
        self.modes.choose("units", name)
        self.box: dict[str, float] = {}
        units = Units(name)
        in_mm, in_inch = self.control.mismatch
        self.scale = units.in_mm
        self.x_scale = units.in_mm / 2 if self.control.x == "diameter" else units.in_mm
        self.rule = Rule(units.to_mm(in_inch if units is Units.INCH else in_mm), units)

    def target(self, x: float | None, y: float | None, z: float | None) -> Point3:
        """Where axis words in the program's units lead; None stays."""
        at_x, at_y, at_z = self.at
        scale, x_scale = self.scale, self.x_scale
        if self.modes.distance == "absolute":
            shift_x, shift_y, shift_z = self.shift
            return (
                at_x if x is None else x * x_scale + shift_x,
                at_y if y is None else y * scale + shift_y,
                at_z if z is None else z * scale + shift_z,
            )
        return (
            at_x if x is None else at_x + x * x_scale,
            at_y if y is None else at_y + y * scale,
            at_z if z is None else at_z + z * scale,
        )

    def go(
        self,
        kind: Literal["rapid", "line", "arc"],
        end: Point3,
        feed: float,
        column: int,
        arc: Arc | None = None,
        lead: float = 0.0,
    ) -> None:
        """Move the tip and note the cut; feed in mm/min or mm a turn, lead in mm a turn."""
        modes = self.modes
        cut = (
            kind,
            self.at,
            end,
            arc.centre if arc else None,
            arc.turn if arc else 0.0,
            modes.plane,
            feed,
            self.rpm,
            modes.spindle,
            self.tool,
            self.length_offset,
            self.work_offset,
            modes.side,
            self.register,
            self.line,
            column,
            lead > 0 or modes.feed_mode == "per turn",
            self.surface and self.surface_speed(),
            self.clamp,
            lead,
            self.step,
            self.calls,
        )
        self.cuts.append(_cut(Cut, cut))  # much quicker than Cut(...)
        self.at = end

    def surface_speed(self) -> float:
        """Constant surface speed in m/min, which S gives in feet with inches; 0 if it is off."""
        if not self.surface:
            return 0.0
        feet = self.modes.units == "inch"
        return self.surface * (Units.INCH.to_mm(_INCHES_IN_A_FOOT) / 1000 if feet else 1.0)

    def choose_speed(self, number: float) -> None:
        """Put an S number in force, for what the speed mode says."""
        surface = self.modes.speed_mode == "surface"
        self.rpm, self.surface = (0.0, number) if surface else (number, 0.0)

    def say_speed(self) -> str:
        """The speed in force in words: rpm alone, or a surface speed with its unit."""
        unit = "ft/min" if self.modes.units == "inch" else "m/min"
        return f"{self.surface:g} {unit}" if self.surface else f"{self.rpm:g}"

    def forget(self, axes: str) -> None:
        """The tip may be anywhere along these axes from now on."""
        x, y, z = (nan if axis in axes else at for axis, at in zip("XYZ", self.at, strict=True))
        self.at = (x, y if "Y" in self.control.axes else 0.0, z)

    def rebase(self, old: Point3, new: Point3) -> None:
        """The program's axes have moved from origin `old` to `new`. Before the first cut that
        changes nothing: a start is given in the axes in which it is first used."""
        if self.cuts:
            x, y, z = (a + b - c for a, b, c in zip(self.at, old, new, strict=True))
            self.at = (x, y, z)
            self.forget("")

    def put(self, axis: int, programmed: float) -> None:
        """G92: the tip's place along an axis is `programmed` from now on."""
        known = not isnan(self.at[axis])
        shift, at = list(self.shift), list(self.at)
        shift[axis] = at[axis] - programmed if known else 0.0
        if not known:
            at[axis] = programmed
            self.preset.add(axis)
        self.shift = (shift[0], shift[1], shift[2])
        self.at = (at[0], at[1], at[2])

    def change(self, kind: str, value: str, column: int) -> None:
        """Note something that is not a move."""
        self.changes.append(Change(kind, value, self.line, column, self.step, self.calls))

    def fault(self, error: BlockError, column: int) -> None:
        """Note a fault in the line being read."""
        fault = ReadFault(error.code, error.what, error.mend, self.line, column, self.calls)
        self.faults.append(fault)
