"""All keys of a job file, as data: what may stand where, within which limits, and what it means."""

from __future__ import annotations

from collections.abc import Mapping

from jawcam.job import jaw_keys, part_keys, room_keys, setup_keys, turn_keys
from jawcam.job.key import CHUCK_JAWS, SIZE, TURNED, Key, Limits

__all__ = ["GONE", "JOB", "SETUP"]

_ANY_SETUP = (
    Key(
        "name",
        "file name",
        "its name; the program's file is called so",
        '"side-one"',
        required=True,
    ),
    Key(
        "cut",
        "choice",
        "what to cut",
        '"jaws"',
        required=True,
        choices=("jaws", TURNED, CHUCK_JAWS),
        later=("outside",),
    ),
    Key("post", "text", "the dialect of its program", '"rs274ngc-mill"', required=True),
    Key(
        "work_offset",
        "whole",
        "the number of the work offset",
        "1",
        default=1,
        limits=Limits(least=1, most=9),
    ),
    Key(
        "coolant",
        "choice",
        "the coolant",
        '"flood"',
        default="flood",
        choices=("flood", "mist", "off"),
    ),
)

_MILL_SETUP = (
    *_ANY_SETUP,
    Key("jaws", "table", "the blanks", required=True, keys=setup_keys.JAWS),
    Key("hold", "table", "how the part lies", required=True, keys=setup_keys.HOLD),
    Key("fit", "table", "the clearance", keys=setup_keys.FIT),
    Key("keep", "table", "the least that is left", keys=setup_keys.KEEP),
    Key("bolts", "tables", "the bolts to miss", keys=setup_keys.BOLT),
    Key("face", "table", "the facing of the jaw tops", default=None, keys=setup_keys.FACE),
    Key("rough", "table", "the roughing", keys=setup_keys.ROUGH),
    Key("finish", "table", "the finishing", keys=setup_keys.FINISH),
    Key("corners", "table", "what is done about corners", keys=setup_keys.CORNERS),
    Key("edges", "table", "the breaking of edges", default=None, keys=setup_keys.EDGES),
    Key("holes", "tables", "the holes to drill", keys=setup_keys.HOLE),
    Key("zero", "table", "the program's origin", keys=setup_keys.ZERO),
    Key("clamp", "table", "how hard the vise grips", default=None, keys=setup_keys.CLAMP),
    Key("next_cut", "table", "the next cut on the part", default=None, keys=setup_keys.NEXT_CUT),
    Key("spacers", "tables", "the spacers in the gap", keys=room_keys.SPACER),
    Key("vise", "table", "the vise round the blanks", default=None, keys=room_keys.VISE),
    Key(
        "travel_at",
        "table",
        "where the program's origin stands in the machine's travel",
        keys=room_keys.TRAVEL_AT,
    ),
    Key(
        "clearance",
        "length",
        "how far above the jaw top the cutter moves freely",
        "5",
        default=5.0,
        limits=SIZE,
    ),
)

_TURN_SETUP = (*_ANY_SETUP, *turn_keys.SETUP)
_JAW_SETUP = (*_ANY_SETUP, *jaw_keys.SETUP)

SETUP = Key(
    "setup",
    "tables",
    "the setups",
    required=True,
    keys=_MILL_SETUP,
    filled=True,
    by="cut",
    forms=((TURNED, _TURN_SETUP), (CHUCK_JAWS, _JAW_SETUP)),
)
"""A setup, whose keys depend on what it cuts."""

JOB = (
    Key("title", "text", "what the job is", '"Crank lever"', required=True),
    Key("units", "choice", "the job's units", '"mm"', required=True, choices=("mm", "inch")),
    Key("together", "flag", "whether one program serves all setups of the mill", "true"),
    Key("let", "table", "values with a name"),
    Key("part", "table", "the part", required=True, keys=part_keys.PART),
    Key(
        "tool",
        "tables",
        "the tools",
        required=True,
        keys=part_keys.TOOL,
        filled=True,
        by="kind",
        forms=part_keys.TOOL_FORMS,
    ),
    Key("machine", "table", "what the machine can do", keys=part_keys.MACHINE),
    SETUP,
)
"""The keys at the top of a job file; those of its tables hang below."""

GONE: Mapping[str, str] = {
    "reliefs": 'write corners = { relief = "none" } for false, and leave it out for true',
}
"""Keys that earlier versions had -> what to write in their place."""
