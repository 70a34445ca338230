"""How kinds of control read a program: one row for each kind, spelled out in full.

Another kind is another row. No code asks for a row's name.
"""

from __future__ import annotations

import difflib
from dataclasses import dataclass
from typing import Literal

from jawcam.errors import Fault, InputError
from jawcam.reader import modal
from jawcam.reader.modal import Group

__all__ = ["CONTROLS", "Control", "find"]


@dataclass(frozen=True)
class Control:
    """How a kind of control reads.

    letters: of its words, without N; head: letters of the program number at a program's head;
    groups: its G and M words; m_words: how many M words a block may hold.
    blanks: where blanks may stand; comment: the marks round one; longest_line: characters;
    number_digits: of a line number at most; percent: "pair" if a first % line needs a second.
    expressions: whether values may be expressions and parameters; parameters: how many there are.
    point: "needed" if a length must show its decimal point (0 needs none), "free" if a whole
    number is that many units.
    centre: what I J K are; radius_arcs: whether R gives an arc; mismatch: how much the radii at
    the two ends of an arc may differ, in mm and in inch; bare_circle: whether a full circle may be
    written without axis words; bare_motion: whether G0 to G3 may.
    home: the axes that G28 and G30 send home; register: what G41 and G42 take without a D word,
    the number of the tool in the spindle or nothing.
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
    percent: Literal["pair", "free"]
    expressions: bool
    parameters: int
    point: Literal["free", "needed"]
    centre: Literal["incremental", "absolute"]
    radius_arcs: bool
    mismatch: tuple[float, float]
    bare_circle: bool
    bare_motion: bool
    home: Literal["all axes", "named axes"]
    register: Literal["tool", "none"]


# NISTIR 6556, The NIST RS274NGC Interpreter - Version 3, August 2000: sections 3.1 to 3.7.
_RS274NGC_MILL = Control(
    name="rs274ngc-mill",
    title="RS-274 mill as NISTIR 6556 describes it",
    letters="ABCDFGHIJKLMPQRSTXYZ",
    head="",
    groups=(
        Group("motion", "motion", {**modal.MOTION.codes, "G38.2": "probe"}),
        modal.PLANE,
        Group("units", "units", {"G20": "inch", "G21": "mm"}),
        modal.DISTANCE,
        modal.FEED_MODE,
        modal.COMPENSATION,
        modal.LENGTH,
        modal.RETURN,
        Group(
            "work_offset",
            "work offset",
            {"G54": "1", "G55": "2", "G56": "3", "G57": "4", "G58": "5", "G59": "6"}
            | {"G59.1": "7", "G59.2": "8", "G59.3": "9"},
        ),
        Group("path", "path control", {"G61": "path", "G61.1": "stop", "G64": "continuous"}),
        Group(
            "once",
            "words that aren't modal",
            {"G4": "dwell", "G10": "machine origin", "G28": "home", "G30": "home"}
            | {"G53": "machine axes", "G92": "shift"}
            | {"G92.1": "shift cleared", "G92.2": "shift off", "G92.3": "shift on"},
        ),
        Group(
            "stop", "stop", {"M0": "stop", "M1": "stop", "M2": "end", "M30": "end", "M60": "stop"}
        ),
        modal.TOOL,
        modal.SPINDLE,
        modal.COOLANT,
        modal.OVERRIDE,
    ),
    m_words=4,
    blanks="anywhere",
    comment=("(", ")"),
    longest_line=256,
    number_digits=5,
    percent="pair",
    expressions=True,
    parameters=5399,
    point="free",
    centre="incremental",
    radius_arcs=True,
    mismatch=(0.002, 0.0002),
    bare_circle=False,
    bare_motion=False,
    home="all axes",
    register="tool",
)

# Word address with decimal point after ISO 6983-1; G70, G71, G80 to G94 from the ISO and DIN
# 66025 lists; G28, G30, G43, G49, G98, G99, R arcs, work offsets and all limits: common practice,
# no source.
_ISO6983_MILL = Control(
    name="iso6983-mill",
    title="ISO 6983 mill, word address with decimal point",
    letters="ABCDFGHIJKLMPQRSTXYZ",
    head="O:",
    groups=(
        modal.MOTION,
        modal.PLANE,
        Group("units", "units", {"G70": "inch", "G71": "mm"}),
        modal.DISTANCE,
        modal.FEED_MODE,
        modal.COMPENSATION,
        modal.LENGTH,
        modal.RETURN,
        Group(
            "work_offset",
            "work offset",
            {"G54": "1", "G55": "2", "G56": "3", "G57": "4", "G58": "5", "G59": "6"},
        ),
        Group("path", "path control", {"G60": "stop", "G61": "path", "G64": "continuous"}),
        Group(
            "once",
            "words that aren't modal",
            {"G4": "dwell", "G9": "exact stop", "G28": "home", "G30": "home"}
            | {"G53": "machine axes", "G92": "shift"},
        ),
        Group(
            "stop", "stop", {"M0": "stop", "M1": "stop", "M2": "end", "M30": "end", "M60": "stop"}
        ),
        modal.TOOL,
        modal.SPINDLE,
        modal.COOLANT,
        modal.OVERRIDE,
    ),
    m_words=3,
    blanks="not in numbers",
    comment=("(", ")"),
    longest_line=256,
    number_digits=5,
    percent="free",
    expressions=False,
    parameters=0,
    point="needed",
    centre="incremental",
    radius_arcs=True,
    mismatch=(0.005, 0.0005),
    bare_circle=True,
    bare_motion=True,
    home="named axes",
    register="none",
)

CONTROLS = {row.name: row for row in (_RS274NGC_MILL, _ISO6983_MILL)}


def find(name: str) -> Control:
    """The row of a name; `InputError` with the nearest name if there is none."""
    if name in CONTROLS:
        return CONTROLS[name]
    near = difflib.get_close_matches(name, CONTROLS, n=1, cutoff=0.4)
    hint = f"did you mean {near[0]!r}? " if near else ""
    mend = f"{hint}known kinds: {', '.join(sorted(CONTROLS))}"
    raise InputError(Fault(f"no kind of control is called {name!r}", mend=mend))
