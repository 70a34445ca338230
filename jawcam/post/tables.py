"""A dialect: all that a control's way of writing a program differs in, as data.

A post file is one flat TOML file with a table for each dataclass here and every key spelled out.
Nothing in it runs, it takes nothing over from another file, and no code asks a post's name.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Annotated, Literal

from jawcam.motion.passes import PASSES
from jawcam.motion.rounding import CentreWords
from jawcam.post.fields import Braces, OneOf, PerUnit, Within

__all__ = [
    "Arcs",
    "Blocks",
    "Comments",
    "Compensation",
    "Coolant",
    "Cycles",
    "Dialect",
    "Moves",
    "Numbering",
    "Numbers",
    "Program",
    "Spindle",
    "Stations",
    "Tools",
]

# The names that may stand in braces.
_HEAD_PLACES = ("name", "number", "units", "plane", "offset")
_STOP_PLACES = ("spindle_off", "coolant_off", "clear")
_TOOL_PLACES = ("tool", "length_offset", "tool_name")


@dataclass(frozen=True)
class Numbers:
    """How numbers are written. decimals: of X Y Z; centre_decimals: of arc centres and radii;
    point: "always" (X5.), "as needed" (X5), "never" (X5000: whole steps of the last decimal);
    largest: the largest coordinate that the control takes."""

    decimals: Annotated[PerUnit[int], Within(0, 6)]
    centre_decimals: Annotated[PerUnit[int], Within(0, 6)]
    feed_decimals: Annotated[PerUnit[int], Within(0, 6)]
    speed_decimals: Annotated[int, Within(0, 3)]
    point: Literal["always", "as needed", "never"]
    trailing_zeros: bool
    leading_zero: bool
    largest: Annotated[PerUnit[float], Within(1, 1e6)]


@dataclass(frozen=True)
class Blocks:
    """How a line is made up. modal: what is left out of a block if it has not changed;
    max_length: characters on a line, comments included."""

    spaces: bool
    blank_lines: bool
    max_length: Annotated[int, Within(32, 10000)]
    modal: Annotated[tuple[str, ...], OneOf(("motion", "coordinates", "feed"))]


@dataclass(frozen=True)
class Numbering:
    """Sequence numbers: from `start` in steps of `step` (0: none), starting over after
    `largest`."""

    letter: str
    start: Annotated[int, Within(0, 99999999)]
    step: Annotated[int, Within(0, 10000)]
    largest: Annotated[int, Within(1, 99999999)]


@dataclass(frozen=True)
class Comments:
    """Comments. open, close: the marks round one, open = "" if there are none; characters: those
    allowed inside; letters: what to write for one that isn't; unknown: for any other."""

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
    head: Annotated[tuple[str, ...], Braces(_HEAD_PLACES)]
    start: Annotated[tuple[str, ...], Braces(_HEAD_PLACES)]
    end: Annotated[tuple[str, ...], Braces((*_HEAD_PLACES, *_STOP_PLACES))]
    tail: Annotated[tuple[str, ...], Braces(_HEAD_PLACES)]


@dataclass(frozen=True)
class Tools:
    """A tool change. first: the lines before the first one; leave: before any later one; load:
    the change itself; length_on: with the first Z word after it; approach: how to write the
    first rapid after it and after another work offset."""

    largest: Annotated[int, Within(1, 99999999)]
    comment: Annotated[str, Braces(_TOOL_PLACES)]
    first: Annotated[tuple[str, ...], Braces(("spindle_off", "coolant_off"))]
    leave: Annotated[tuple[str, ...], Braces(_STOP_PLACES)]
    load: Annotated[tuple[str, ...], Braces((*_TOOL_PLACES, "spindle_off", "coolant_off"))]
    length_on: Annotated[str, Braces(_TOOL_PLACES)]
    approach: Literal["xy, then z", "together"]


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

    left: Annotated[str, Braces(("register",))]
    right: Annotated[str, Braces(("register",))]
    off: str
    largest_register: Annotated[int, Within(0, 99999999)]


@dataclass(frozen=True)
class Moves:
    """The words of straight moves. dwell: of a stay, "" if there is none; axes: the letters of X,
    Y and Z; feed: the letter."""

    rapid: str
    line: str
    dwell: Annotated[str, Braces(("seconds",))]
    axes: tuple[str, str, str]
    feed: str


@dataclass(frozen=True)
class Arcs:
    """Arcs. centre: written as increments from the start, as a point, or not (the radius is);
    words: the letters of the centre; zero_words: whether a 0 among them is written; radius: its
    letter; largest_sweep: degrees; chord: how far lines in place of an arc may lie off it;
    helix_chord: the same for whole turns of a helix;
    mismatch: the largest difference of an arc's two radii that the control takes."""

    cw: str
    ccw: str
    plane: str
    centre: CentreWords
    words: tuple[str, str]
    zero_words: bool
    radius: str
    full_circles: bool
    helices: bool
    largest_sweep: Annotated[float, Within(1, 360)]
    largest_radius: Annotated[PerUnit[float], Within(0.001, 1e9)]
    chord: Annotated[PerUnit[float], Within(1e-6, 1)]
    helix_chord: Annotated[PerUnit[float], Within(1e-6, 1)]
    mismatch: Annotated[PerUnit[float], Within(1e-6, 1)]


@dataclass(frozen=True)
class Cycles:
    """Drilled holes; "" for what the control lacks. drill: the block of a plain one; dwell: with a
    stay at the bottom; peck: in pecks; peck_dwell: both; hole stands for X, Y, Z and `retract`, the
    letter of the height from which the feed begins; each returns to the height it came from. off:
    the block before anything else."""

    drill: Annotated[str, Braces(("hole",))]
    dwell: Annotated[str, Braces(("hole", "dwell"))]
    peck: Annotated[str, Braces(("hole", "peck"))]
    peck_dwell: Annotated[str, Braces(("hole", "peck", "dwell"))]
    retract: str
    off: str


@dataclass(frozen=True)
class Stations:
    """Several stations in one program. between: the lines before another work offset, to rise over
    whatever stands between the two stations."""

    between: Annotated[tuple[str, ...], Braces(("clear",))]


@dataclass(frozen=True)
class Dialect:
    """One post. control: which row of the reader's table reads its programs; passes: the
    rewrites to run before printing, in this order; work_offsets: the words of 1, 2, ..."""

    name: str
    title: str
    control: str
    passes: Annotated[tuple[str, ...], OneOf(tuple(PASSES))]
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
    cycles: Cycles
    stations: Stations
