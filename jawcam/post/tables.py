"""A dialect: all that a control's way of writing a program differs in, as data.

A post file is one flat TOML file with a table for each dataclass of its kind and every key spelled
out. Nothing in it runs, it takes nothing over from another file, and no code asks a post's name.
The tables here are those of every kind; `mill_tables` and `lathe_tables` make a post of them.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Annotated, Literal

from jawcam.motion.moves import Point3
from jawcam.motion.rounding import CentreWords
from jawcam.post.fields import Braces, OneOf, PerUnit, Within
from jawcam.units import Units

__all__ = [
    "HEAD_PLACES",
    "MODAL",
    "STOP_PLACES",
    "Arcs",
    "Axis",
    "Blocks",
    "Comments",
    "Compensation",
    "Coolant",
    "Dialect",
    "Moves",
    "Numbering",
    "Numbers",
    "Program",
    "Spindle",
    "Tools",
]

HEAD_PLACES = ("name", "number", "units", "plane", "offset")
"""The names that may stand in braces in the lines round a program."""

STOP_PLACES = ("spindle_off", "coolant_off")
"""Those of lines before which the tool still cuts."""

MODAL = ("motion", "arcs", "coordinates", "arc ends", "feed")
"""What may be left out of a block where it has not changed."""


@dataclass(frozen=True)
class Axis:
    """One axis as it is written. name: x, y or z; letter: of its word; index: which coordinate of a
    point it is; factor: what that is multiplied by."""

    name: str
    letter: str
    index: int
    factor: int = 1


@dataclass(frozen=True)
class Numbers:
    """How numbers are written. digits: the most that the control takes left of the point; decimals:
    those written right of it, of coordinates; centre_...: of arc centres and radii; point:
    "always" (X5.), "as needed" (X5), "never" (X5000: whole steps of the last decimal); suppress:
    the zeros left out where no point is written: "leading" (X5000), "trailing" (X0005, the place of
    each digit then counts from the left), "none" (X0005000); sign: "minus" alone, or "always"
    (X+5.); trailing_zeros, leading_zero: whether those beside a point that is written stay;
    largest: the largest coordinate that the control takes."""

    digits: Annotated[PerUnit[int], Within(1, 7)]
    centre_digits: Annotated[PerUnit[int], Within(1, 7)]
    feed_digits: Annotated[PerUnit[int], Within(1, 7)]
    speed_digits: Annotated[int, Within(1, 7)]
    decimals: Annotated[PerUnit[int], Within(0, 6)]
    centre_decimals: Annotated[PerUnit[int], Within(0, 6)]
    feed_decimals: Annotated[PerUnit[int], Within(0, 6)]
    speed_decimals: Annotated[int, Within(0, 3)]
    point: Literal["always", "as needed", "never"]
    suppress: Literal["leading", "trailing", "none"]
    feed_suppress: Literal["leading", "trailing", "none"]
    speed_suppress: Literal["leading", "trailing", "none"]
    sign: Literal["minus", "always"]
    trailing_zeros: bool
    leading_zero: bool
    largest: Annotated[PerUnit[float], Within(1, 1e6)]


@dataclass(frozen=True)
class Blocks:
    """How a line is made up. end: a mark that ends each block, "" if the line's own end is enough;
    max_length: characters on a line, comments and that mark included; order: the letters of the
    words in a block, in their order, those not named last; () as they come; modal: what is left out
    of a block if it has not changed: the words of "motion", of "arcs", "coordinates", the ends of
    arcs too ("arc ends"), "feed"."""

    spaces: bool
    blank_lines: bool
    end: str
    max_length: Annotated[int, Within(32, 10000)]
    order: tuple[str, ...]
    modal: Annotated[tuple[str, ...], OneOf(MODAL)]


@dataclass(frozen=True)
class Numbering:
    """Sequence numbers: of "every block" or where a tool is changed only; from `start` in steps of
    `step` (0: none), of so many `digits` at least. No number comes twice, or a search for one would
    stop at the wrong block: where they would go beyond `largest` the step becomes smaller; beyond:
    what to do where that isn't enough."""

    where: Literal["every block", "tool changes"]
    letter: str
    start: Annotated[int, Within(0, 99999999)]
    step: Annotated[int, Within(0, 10000)]
    digits: Annotated[int, Within(1, 8)]
    largest: Annotated[int, Within(1, 99999999)]
    beyond: Literal["tool changes", "refuse"]


@dataclass(frozen=True)
class Comments:
    """Comments. open, close: the marks round one, open = "" if there are none, close = "" if a
    comment ends with its line; characters: those allowed inside; letters: what to write for one
    that isn't; unknown: for any other."""

    open: str
    close: str
    characters: str
    case: Literal["upper", "keep"]
    letters: Mapping[str, str]
    unknown: str
    max_length: Annotated[int, Within(16, 10000)]


@dataclass(frozen=True)
class Program:
    """The lines round a program. head and tail have no sequence numbers, start and end have;
    number: the program number if the program's name holds none up to `largest_number`."""

    number: Annotated[int, Within(0, 99999999)]
    largest_number: Annotated[int, Within(0, 99999999)]
    head: Annotated[tuple[str, ...], Braces(HEAD_PLACES)]
    start: Annotated[tuple[str, ...], Braces(HEAD_PLACES)]
    end: tuple[str, ...]
    tail: Annotated[tuple[str, ...], Braces(HEAD_PLACES)]


@dataclass(frozen=True)
class Tools:
    """A tool change. first: the lines before the first one; leave: before any later one; load:
    the change itself; approach: how to write the first rapid after it and after another work
    offset: the axes of its blocks in their order, or "together"."""

    largest: Annotated[int, Within(1, 99999999)]
    comment: str
    first: tuple[str, ...]
    leave: tuple[str, ...]
    load: tuple[str, ...]
    approach: str


@dataclass(frozen=True)
class Spindle:
    """The spindle. run: the words of a start; cw, ccw, off: the words of its direction."""

    run: Annotated[str, Braces(("speed", "direction"))]
    cw: str
    ccw: str
    off: str


@dataclass(frozen=True)
class Coolant:
    """The words of the coolant; "" for what the control lacks."""

    flood: str
    mist: str
    off: str


@dataclass(frozen=True)
class Compensation:
    """The words of cutter compensation; "" for what the control lacks."""

    left: Annotated[str, Braces(())]
    right: Annotated[str, Braces(())]
    off: str


@dataclass(frozen=True)
class Moves:
    """The words of straight moves. dwell: of a stay, "" if there is none; axes: the letters of the
    axes, in the order in which they are written; feed: the letter."""

    rapid: str
    line: str
    dwell: Annotated[str, Braces(("seconds", "milliseconds"))]
    axes: tuple[str, ...]
    feed: str


@dataclass(frozen=True)
class Arcs:
    """Arcs. centre: written as increments from the start, as those without their signs (an arc then
    stays within a quadrant), as a point, or not (the radius is); words: the letters of the centre,
    in the order of the axes; zero_words: whether a 0 among them is written; radius: its letter;
    largest_sweep: degrees; chord: how far lines in place of an arc may lie off it; mismatch: the
    largest difference of an arc's two radii that the control takes.
    """

    cw: str
    ccw: str
    plane: str
    centre: CentreWords
    words: tuple[str, str]
    zero_words: bool
    radius: str
    full_circles: bool
    largest_sweep: Annotated[float, Within(1, 360)]
    largest_radius: Annotated[PerUnit[float], Within(0.001, 1e9)]
    chord: Annotated[PerUnit[float], Within(1e-6, 1)]
    mismatch: Annotated[PerUnit[float], Within(1e-6, 1)]


@dataclass(frozen=True)
class Dialect:
    """One post. kind: of machine, which says the set of tables; control: which row of the reader's
    table reads its programs; passes: the rewrites to run before printing, in this order;
    work_offsets: the words of 1, 2, ..."""

    name: str
    title: str
    kind: Literal["mill", "lathe"]
    control: str
    passes: tuple[str, ...]
    units: PerUnit[str]
    work_offsets: tuple[str, ...]
    numbers: Numbers
    blocks: Blocks
    numbering: Numbering
    comments: Comments
    program: Program
    tools: Tools
    spindle: Spindle
    coolant: Coolant
    compensation: Compensation
    moves: Moves
    arcs: Arcs

    @property
    def axes(self) -> tuple[Axis, ...]:
        """The axes of the machine, in the order in which they are written."""
        raise NotImplementedError

    @property
    def centres(self) -> tuple[Axis, ...]:
        """The same of the two words of an arc's centre, which are never multiplied."""
        plane = (axis for axis in self.axes if axis.index < 2)
        letters = zip(self.arcs.words, plane, strict=True)
        return tuple(Axis(axis.name, letter, axis.index) for letter, axis in letters)

    @property
    def factors(self) -> tuple[int, int, int]:
        """What each coordinate of a point is multiplied by when it is written."""
        by_index = {axis.index: axis.factor for axis in self.axes}
        return (by_index[0], by_index[1], by_index.get(2, 1))

    @property
    def mirrored(self) -> bool:
        """Whether arcs and sides are named as seen from the other side of the plane."""
        return False

    def say_point(self, point: Point3, units: Units) -> str:
        """A point in mm -> words such as ``X 3.2 Y -1``."""
        return units.point(*point)
