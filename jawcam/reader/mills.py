"""Rows of the table of controls: mills after NISTIR 6556, ISO 6983, DIN 66025 and EIA RS-274-D.

Of the last two, G70 and G71 for inch and mm, G00 to G04, G17 to G19, G40 to G44, G53 to G59, G80,
G90 to G94 and the M words are in the published lists of their words; EIA's points that are not
written, its suppressed zeros and its format of a block (X4.3 Y4.3 ...) too. What else is said here,
how the cycles G81 to G89 move too, is from memory or common practice, no source: the texts of the
standards were not at hand.
"""

from __future__ import annotations

from jawcam.reader import modal
from jawcam.reader.control import Control, Implied
from jawcam.reader.modal import Group

__all__ = ["DIN66025_MILL", "EIA274D_MILL", "EIA274D_TAPE", "ISO6983_MILL", "RS274NGC_MILL"]

_NO_CYCLES = Group(
    "motion",
    "motion",
    {"G0": "rapid", "G1": "line", "G2": "arc cw", "G3": "arc ccw", "G80": "off"},
)
_UNITS = Group("units", "units", {"G70": "inch", "G71": "mm"})
_OFFSETS = Group(
    "work_offset",
    "work offset",
    {"G54": "1", "G55": "2", "G56": "3", "G57": "4", "G58": "5", "G59": "6"},
)
_ONCE = Group(
    "once", "words that aren't modal", {"G4": "dwell", "G9": "exact stop", "G92": "shift"}
)
_STOP = Group("stop", "stop", {"M0": "stop", "M1": "stop", "M2": "end", "M30": "end"})

# NISTIR 6556, The NIST RS274NGC Interpreter - Version 3, August 2000: sections 3.1 to 3.7. Rapids
# are coordinated linear motion there (3.5.1, from memory).
RS274NGC_MILL = Control(
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
    rapids="straight",
)

# Word address with decimal point after ISO 6983-1; G70, G71, G80 to G94 from the ISO and DIN
# 66025 lists; G28, G30, G43, G49, G98, G99, R arcs, work offsets, G54.1 P with those beyond six and
# all limits: common practice, no source.
ISO6983_MILL = Control(
    name="iso6983-mill",
    title="ISO 6983 mill, word address with decimal point",
    letters="ABCDFGHIJKLMPQRSTXYZ",
    head="O:",
    groups=(
        modal.MOTION,
        modal.PLANE,
        _UNITS,
        modal.DISTANCE,
        modal.FEED_MODE,
        modal.COMPENSATION,
        modal.LENGTH,
        modal.RETURN,
        Group(
            "work_offset",
            "work offset",
            {"G54": "1", "G55": "2", "G56": "3", "G57": "4", "G58": "5", "G59": "6"}
            | {"G54.1": "further"},
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
    further_offsets=48,
)

# The program's number behind the percent sign, a point only where it is needed. D is the register
# of any tool offset, its length with G43 and its radius with G41 and G42: from memory.
DIN66025_MILL = Control(
    name="din66025-mill",
    title="DIN 66025 mill, word address, the program's number behind the percent sign",
    letters="ABCDFGIJKLMPQRSTXYZ",
    head="",
    groups=(
        modal.MOTION,
        modal.PLANE,
        _UNITS,
        modal.DISTANCE,
        modal.FEED_MODE,
        modal.COMPENSATION,
        Group("length", "length offset", {"G43": "on"}),
        modal.RETURN,
        _OFFSETS,
        Group("path", "path control", {"G60": "stop", "G64": "continuous"}),
        _ONCE,
        _STOP,
        modal.TOOL,
        modal.SPINDLE,
        modal.COOLANT,
    ),
    m_words=3,
    blanks="not in numbers",
    comment=("(", ")"),
    longest_line=256,
    number_digits=5,
    percent="number",
    expressions=False,
    parameters=0,
    point="free",
    centre="incremental",
    radius_arcs=False,
    mismatch=(0.005, 0.0005),
    bare_circle=False,
    bare_motion=True,
    home="named axes",
    register="none",
    length_letter="D",
)

# Digits alone, 4.3 of mm and 3.4 of inches, leading zeros suppressed; a stay in milliseconds.
EIA274D_MILL = Control(
    name="eia274d-mill",
    title="EIA RS-274-D mill, no decimal point, leading zeros suppressed",
    letters="ABCDFGHIJKLMPQRSTXYZ",
    head="",
    groups=(
        modal.MOTION,
        modal.PLANE,
        _UNITS,
        modal.DISTANCE,
        modal.FEED_MODE,
        modal.COMPENSATION,
        modal.LENGTH,
        modal.RETURN,
        _OFFSETS,
        _ONCE,
        _STOP,
        modal.TOOL,
        modal.SPINDLE,
        modal.COOLANT,
    ),
    m_words=1,
    blanks="not in numbers",
    comment=("(", ")"),
    longest_line=256,
    number_digits=4,
    percent="free",
    expressions=False,
    parameters=0,
    point="implied",
    centre="incremental",
    radius_arcs=False,
    mismatch=(0.005, 0.0005),
    bare_circle=False,
    bare_motion=True,
    home="named axes",
    register="none",
    implied={
        **dict.fromkeys("XYZIJKQR", Implied(mm=(4, 3), inch=(3, 4), suppressed="leading")),
        "F": Implied(mm=(5, 0), inch=(4, 1), suppressed="leading"),
        "S": Implied(mm=(5, 0), inch=(5, 0), suppressed="leading"),
    },
    dwell=("P", 0.001),
)

# Punched tape as it is printed: a number in each block, a sign for its end, capitals alone, at
# most 80 columns. The first digit of a number has its place, trailing zeros may be left out. An arc
# stays in a quadrant and its I and J have no sign. T holds the tool and the offset of its length.
EIA274D_TAPE = Control(
    name="eia274d-tape",
    title="EIA RS-274-D tape, trailing zeros suppressed, arcs of one quadrant",
    letters="DFGIJKMPSTXYZ",
    head="",
    groups=(
        _NO_CYCLES,
        _UNITS,
        modal.DISTANCE,
        modal.FEED_MODE,
        modal.COMPENSATION,
        _OFFSETS,
        _ONCE,
        _STOP,
        modal.TOOL,
        modal.SPINDLE,
        modal.COOLANT,
    ),
    m_words=1,
    blanks="not in numbers",
    comment=("(", ")"),
    longest_line=80,
    number_digits=4,
    percent="free",
    expressions=False,
    parameters=0,
    point="implied",
    centre="unsigned",
    radius_arcs=False,
    mismatch=(0.005, 0.0005),
    bare_circle=False,
    bare_motion=False,
    home="named axes",
    register="none",
    tool_words="T with offset and M6",
    implied={
        **dict.fromkeys("XYZIJK", Implied(mm=(4, 3), inch=(3, 4), suppressed="trailing")),
        "F": Implied(mm=(5, 0), inch=(4, 1), suppressed="trailing"),
        "S": Implied(mm=(5, 0), inch=(5, 0), suppressed="none"),
    },
    numbered=True,
    block_end="$",
    characters=" $%'()*+,-./0123456789:=ABCDEFGHIJKLMNOPQRSTUVWXYZ",
    dwell=("P", 0.001),
)
