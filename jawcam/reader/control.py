"""What a kind of control is: all that one reads differently from another, as data."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Literal

from jawcam.reader.modal import Group

__all__ = ["Control", "Implied", "Subprograms"]


@dataclass(frozen=True)
class Implied:
    """The format of a letter's numbers, which hold no point. mm, inch: digits left and right of it;
    suppressed: the zeros that may be left out."""

    mm: tuple[int, int]
    inch: tuple[int, int]
    suppressed: Literal["leading", "trailing", "none"]


@dataclass(frozen=True)
class Subprograms:
    """How a kind of control calls subprograms, whose words mean "call" and "return" in its groups.
    They stand behind the main program's end, headed by a letter of `head` and their number.

    letter: of the number in a call; largest: of those numbers; deepest: how many calls may be open
    at once; most: how many of their lines are run in all, so that a reading ends.
    """

    letter: str
    largest: int
    deepest: int
    most: int = 1_000_000


@dataclass(frozen=True)
class Control:
    """How a kind of control reads.

    letters: of its words, without N; head: letters of the program number at a program's head;
    groups: its G and M words; m_words: how many M words a block may hold.
    characters: those that a program may hold, "" for any; blanks: where blanks may stand; comment:
    the marks round one, the second "" if it ends with its line; block_end: the mark that ends each
    block, "" for none; longest_line: characters.
    numbered: whether each block needs a line number; number_digits: of one at most; percent: "pair"
    if a first % line needs a second, "number" if the first may hold the program's number; it needs
    no second then.
    expressions: whether values may be expressions and parameters; parameters: how many there are.
    point: "needed" if a length must show its decimal point (0 needs none), "free" if a whole
    number is that many units, "implied" if the formats of the letters in implied put it in.
    centre: what I J K are, "unsigned" if increments without their signs, of arcs that each stay
    within a quadrant; radius_arcs: whether R gives an arc; mismatch: how much the radii at the two
    ends of an arc may differ, in mm and in inch; bare_circle: whether a full circle may be written
    without axis words; bare_motion: whether G0 to G3 may.
    dwell: the letter of a stay's time, and the seconds in its unit.
    home: the axes that G28 and G30 send home; further_offsets: how many work offsets P chooses
    after the word for them, counted on from the others.
    register: what G41 and G42 take without a D word, the number of the tool in the spindle, the
    offset in force or nothing; length_letter: of the register that G43 takes; tool_words: T alone,
    its last two digits the offset, T and M6, or both.
    axes: those that the machine has: one without Y is a lathe, whose work turns on Z; plane and
    feed_mode: in force at the start, the plane also the one for compensation; x: "diameter" if X
    words are twice the distance from Z (I and R never are); mirrored: G2 and G3, G41 and G42
    change places, as seen from the other side of the plane.
    lead: letters for the lead of a thread, in order of preference; box_lead: the same where the
    thread is a cycle round a box; box_taper: the letter there of the start's X less the end's, a
    radius, "" if there is none.
    off_beside: whether the word that ends a cycle may stand beside another one for the motion.
    steps: letters that count on from where the tip is, and the axis that each means.
    subprograms: how they are called, None if they aren't read.
    rapids: "straight" if all axes of a rapid end together, "dog-leg" if each runs on its own,
    "either" if nobody knows, as ISO 6983 leaves the way open.
    """

    name: str
    title: str
    letters: str
    head: str
    groups: tuple[Group, ...]
    m_words: int
    blanks: Literal["anywhere", "not in numbers"]
    comment: tuple[str, str]
    longest_line: int
    number_digits: int
    percent: Literal["pair", "free", "number"]
    expressions: bool
    parameters: int
    point: Literal["free", "needed", "implied"]
    centre: Literal["incremental", "unsigned", "absolute"]
    radius_arcs: bool
    mismatch: tuple[float, float]
    bare_circle: bool
    bare_motion: bool
    home: Literal["all axes", "named axes"]
    register: Literal["tool", "offset", "none"]
    axes: Literal["XYZ", "XZ"] = "XYZ"
    plane: Literal["XY", "XZ"] = "XY"
    feed_mode: Literal["per minute", "per turn"] = "per minute"
    x: Literal["length", "diameter"] = "length"
    mirrored: bool = False
    tool_words: Literal["T and M6", "T with offset", "T with offset and M6"] = "T and M6"
    lead: str = ""
    box_lead: str = ""
    box_taper: str = ""
    implied: Mapping[str, Implied] = field(default_factory=dict)
    numbered: bool = False
    block_end: str = ""
    characters: str = ""
    dwell: tuple[str, float] = ("P", 1.0)
    length_letter: str = "H"
    further_offsets: int = 0
    off_beside: bool = False
    steps: Mapping[str, Literal["X", "Z"]] = field(default_factory=dict)
    subprograms: Subprograms | None = None
    rapids: Literal["straight", "dog-leg", "either"] = "either"
