"""How kinds of control read a program: one row for each kind.

Another kind is another row. No code asks for a row's name.
"""

from __future__ import annotations

import difflib
from dataclasses import replace

from jawcam.errors import Fault, InputError
from jawcam.reader import modal
from jawcam.reader.calling import calling, choosing_by_g20
from jawcam.reader.control import Control
from jawcam.reader.mills import (
    DIN66025_MILL,
    EIA274D_MILL,
    EIA274D_TAPE,
    ISO6983_MILL,
    RS274NGC_MILL,
)
from jawcam.reader.modal import Group

__all__ = ["CONTROLS", "Control", "find"]

# The same forms of words with the lathe words of EIA RS-274-D: G33 with the lead in K, G95 to G97.
# G50 S for the highest speed, X as a diameter, I as a radius, per turn at the start: common
# practice, no source. No canned cycles, no G10 and no G92.
_RS274NGC_LATHE = replace(
    RS274NGC_MILL,
    name="rs274ngc-lathe",
    title="RS-274 lathe: the words of NISTIR 6556 with G33 and G95 to G97",
    letters="DFGHIKLMPQRSTXZ",
    groups=(
        modal.TURNING,
        modal.PLANE,
        Group("units", "units", {"G20": "inch", "G21": "mm"}),
        modal.DISTANCE,
        modal.FEED_PER,
        modal.SPEED,
        modal.COMPENSATION,
        modal.LENGTH,
        *(group for group in RS274NGC_MILL.groups if group.name in ("work_offset", "path")),
        Group(
            "once",
            "words that aren't modal",
            {"G4": "dwell", "G28": "home", "G30": "home", "G50": "clamp", "G53": "machine axes"},
        ),
        *(group for group in RS274NGC_MILL.groups if group.name in ("stop", "tool", "spindle")),
        modal.COOLANT,
        modal.OVERRIDE,
    ),
    register="offset",
    axes="XZ",
    plane="XZ",
    feed_mode="per turn",
    x="diameter",
    lead="KF",
)

# G33 with the lead in K, G92 S for the highest speed, T with the offset in its last two digits:
# DIN 66025 and German practice, from memory; the rest as above.
_ISO6983_LATHE = replace(
    ISO6983_MILL,
    name="iso6983-lathe",
    title="ISO 6983 lathe, word address with decimal point",
    letters="DFGHIKLMPQRSTXZ",
    groups=(
        modal.TURNING,
        modal.PLANE,
        Group("units", "units", {"G70": "inch", "G71": "mm"}),
        modal.DISTANCE,
        modal.FEED_PER,
        modal.SPEED,
        modal.COMPENSATION,
        *(group for group in ISO6983_MILL.groups if group.name in ("work_offset", "path")),
        Group(
            "once",
            "words that aren't modal",
            {"G4": "dwell", "G9": "exact stop", "G28": "home", "G30": "home"}
            | {"G53": "machine axes", "G92": "clamp"},
        ),
        *(group for group in ISO6983_MILL.groups if group.name in ("stop", "spindle")),
        modal.COOLANT,
        modal.OVERRIDE,
    ),
    register="offset",
    axes="XZ",
    plane="XZ",
    feed_mode="per turn",
    x="diameter",
    tool_words="T with offset",
    lead="KF",
)

# Feeds the other way round, G98 per minute and G99 per turn, where ISO lists leave both words to
# the control, as they do G20 and G21 for the units and G32 for a pass of a thread with its lead in
# F; G50 S for the highest speed; G92 a thread round a box, R its taper; P the milliseconds of a
# stay; absolute throughout, so that G90 and G91 are no such words, but for U and W, which count on
# from where the tip is. All of this: common practice, no source.
_ISO6983_LATHE_G98 = replace(
    _ISO6983_LATHE,
    name="iso6983-lathe-g98",
    title="ISO 6983 lathe with G98 per minute, G99 per turn, G50 S and a thread cycle",
    letters="DFGHIKLMPQRSTUWXZ",
    groups=(
        Group(
            "motion",
            "motion",
            {"G0": "rapid", "G1": "line", "G2": "arc cw", "G3": "arc ccw", "G32": "thread"}
            | {"G80": "off", "G92": "thread box"},
        ),
        Group("units", "units", {"G20": "inch", "G21": "mm"}),
        Group("feed_mode", "feed mode", {"G98": "per minute", "G99": "per turn"}),
        Group(
            "once",
            "words that aren't modal",
            {"G4": "dwell", "G28": "home", "G30": "home", "G50": "clamp", "G53": "machine axes"},
        ),
        *(
            group
            for group in _ISO6983_LATHE.groups
            if group.name in ("plane", "speed_mode", "side", "work_offset", "stop", "spindle")
            or group.name in ("coolant", "override")
        ),
    ),
    dwell=("P", 0.001),
    lead="F",
    box_lead="F",
    box_taper="R",
    steps={"U": "X", "W": "Z"},
)

# DIN 66025 as above, but for the program's number behind the percent sign and whole numbers that
# need no point: from memory. A lead is K alone.
_DIN66025_LATHE = replace(
    _ISO6983_LATHE,
    name="din66025-lathe",
    title="DIN 66025 lathe, word address, the program's number behind the percent sign",
    head="",
    percent="number",
    point="free",
    lead="K",
)


def _seen_otherwise(row: Control) -> tuple[Control, ...]:
    """A lathe, and the same with X in radii, for a front turret whose words are exchanged, both."""
    radius, front = "X in radii", "arcs and sides as seen from a front turret"
    return (
        row,
        replace(row, name=f"{row.name}-radius", title=f"{row.title}; {radius}", x="length"),
        replace(row, name=f"{row.name}-front", title=f"{row.title}; {front}", mirrored=True),
        replace(
            row,
            name=f"{row.name}-front-radius",
            title=f"{row.title}; {radius}; {front}",
            x="length",
            mirrored=True,
        ),
    )


CONTROLS = {
    row.name: row
    for row in (
        RS274NGC_MILL,
        ISO6983_MILL,
        calling(ISO6983_MILL),
        choosing_by_g20(ISO6983_MILL, "iso6983-mill-g20"),
        DIN66025_MILL,
        EIA274D_MILL,
        EIA274D_TAPE,
        *_seen_otherwise(_RS274NGC_LATHE),
        *_seen_otherwise(_ISO6983_LATHE),
        *_seen_otherwise(_ISO6983_LATHE_G98),
        *_seen_otherwise(_DIN66025_LATHE),
    )
}


def find(name: str) -> Control:
    """The row of a name; `InputError` with the nearest name if there is none."""
    if name in CONTROLS:
        return CONTROLS[name]
    near = difflib.get_close_matches(name, CONTROLS, n=1, cutoff=0.4)
    hint = f"did you mean {near[0]!r}? " if near else ""
    mend = f"{hint}known kinds: {', '.join(sorted(CONTROLS))}"
    raise InputError(Fault(f"no kind of control is called {name!r}", mend=mend))
