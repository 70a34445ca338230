"""What a kind of control is: all that one reads differently from another, as data."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from jawcam.reader.modal import Group

__all__ = ["Control"]


@dataclass(frozen=True)
class Control:
    """How a kind of control reads.

    letters: of its words, without N; head: letters of the program number at a program's head;
    groups: its G and M words; m_words: how many M words a block may hold.
    blanks: where blanks may stand; comment: the marks round one; longest_line: characters;
    number_digits: of a line number at most; percent: "pair" if a first % line needs a second,
    "number" if the first may hold the program's number; it needs no second then.
    expressions: whether values may be expressions and parameters; parameters: how many there are.
    point: "needed" if a length must show its decimal point (0 needs none), "free" if a whole
    number is that many units.
    centre: what I J K are; radius_arcs: whether R gives an arc; mismatch: how much the radii at
    the two ends of an arc may differ, in mm and in inch; bare_circle: whether a full circle may be
    written without axis words; bare_motion: whether G0 to G3 may.
    home: the axes that G28 and G30 send home; register: what G41 and G42 take without a D word,
    the number of the tool in the spindle, the offset in force or nothing.
    axes: those that the machine has: one without Y is a lathe, whose work turns on Z; plane and
    feed_mode: in force at the start, the plane also the one for compensation; x: "diameter" if X
    words are twice the distance from Z (I and R never are); mirrored: G2 and G3, G41 and G42
    change places, as seen from the other side of the plane; tool_words: T alone, its last two
    digits the offset, or T and M6; lead: letters for the lead of a thread, in order of preference;
    box_lead: the same where the thread is a cycle round a box; box_taper: the letter there of the
    start's X less the end's, a radius, "" if there is none.
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
    point: Literal["free", "needed"]
    centre: Literal["incremental", "absolute"]
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
    tool_words: Literal["T and M6", "T with offset"] = "T and M6"
    lead: str = ""
    box_lead: str = ""
    box_taper: str = ""
