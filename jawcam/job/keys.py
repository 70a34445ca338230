"""All keys of a job file, as data: what may stand where, within which limits, and what it means.

Limits and defaults are in mm, degrees and minutes. A key without a default of its own leaves it
to the frozen value that it ends in.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from jawcam.job import quantity
from jawcam.tools.cutter import KINDS

__all__ = ["JOB", "MODEL", "Key", "KeyKind", "Limits"]

KeyKind = (
    quantity.Kind
    | Literal["text", "file name", "flag", "choice", "lengths", "table", "tables", "path"]
)

MODEL = object()
"""The default of a key that leaves it to the model."""


@dataclass(frozen=True)
class Limits:
    """The least and the most a number may be; `over`: it must be more than this."""

    over: float | None = None
    least: float | None = None
    most: float | None = None


@dataclass(frozen=True)
class Key:
    """One key. says: what it means, in words that follow "write"; example: how it looks in a
    job in mm, "" for a table; choices: the texts it may be; later: those still to come; count: how
    many lengths; keys: those of the table, or of each table in a list; a table without them
    takes any.
    """

    name: str
    kind: KeyKind
    says: str
    example: str = ""
    required: bool = False
    default: object = MODEL
    limits: Limits = Limits()
    choices: tuple[str, ...] = ()
    later: tuple[str, ...] = ()
    count: int = 0
    keys: tuple[Key, ...] = ()


_SIZE = Limits(over=0, most=10000)  # mm
_NOT_NEGATIVE = Limits(least=0, most=10000)
_ANYWHERE = Limits(least=-10000, most=10000)
_FEED = Limits(over=0, most=100000)  # mm/min
_SPEED = Limits(over=0, most=300000)
_TOOL_NUMBER = Limits(least=1, most=9999)

_PART = (
    Key("material", "text", "what the part is made of", '"brass 360"', default=""),
    Key("outline", "path", "the drawing's file name", '"part.dxf"', required=True),
    Key("layer", "text", "the layer that the outline is on", '"PROFILE"', default=None),
    Key(
        "drawing_units",
        "choice",
        "the units of a drawing that states none",
        '"mm"',
        default=None,
        choices=("mm", "inch"),
    ),
    Key("thickness", "length", "the part's height", "12", required=True, limits=_SIZE),
)

_TOOL = (
    Key("number", "whole", "the tool's number", "3", required=True, limits=_TOOL_NUMBER),
    Key("kind", "choice", "its kind", '"end mill"', required=True, choices=KINDS),
    Key("name", "text", "what to call it", '"8 mm rougher"'),
    Key("dia", "length", "its diameter", "8", required=True, limits=Limits(over=0, most=200)),
    Key("flutes", "whole", "how many flutes it has", "3", limits=Limits(least=1, most=24)),
    Key("flute_len", "length", "the length of its flutes", "22", limits=_SIZE),
    Key("stickout", "length", "how far it stands out of its holder", "30", limits=_SIZE),
    Key("corner_radius", "length", "the radius of a bull-nose", "0.5", limits=_SIZE),
    Key("centre_cutting", "flag", "whether it may plunge straight down", "true"),
    Key("rpm", "speed", "its spindle speed", "6000", limits=_SPEED),
    Key("feed", "feed", "its feed per minute", "900", limits=_FEED),
    Key("plunge_feed", "feed", "its feed straight down", "300", limits=_FEED),
)

_MACHINE = (
    Key("max_rpm", "speed", "the highest spindle speed", "8000", limits=_SPEED),
    Key("max_feed", "feed", "the highest feed per minute", "5000", limits=_FEED),
    Key("rapid", "feed", "the speed of rapid moves", "10000", limits=Limits(over=0, most=200000)),
)

_JAWS = (
    Key("width", "length", "along the jaws", "130", required=True, limits=_SIZE),
    Key("height", "length", "from the jaw top down", "38", required=True, limits=_SIZE),
    Key("thickness", "length", "each blank, from face to back", "40", required=True, limits=_SIZE),
    Key("gap", "length", "between the blanks", "6", required=True, limits=_NOT_NEGATIVE),
    Key("moving", "choice", "which jaw moves", '"both"', choices=("both", "front", "back")),
    Key("material", "text", "what the blanks are made of", '"aluminium 6061"'),
)

_HOLD = (
    Key(
        "depth",
        "length",
        "how deep the part sits below the jaw top",
        "8",
        required=True,
        limits=_SIZE,
    ),
    Key("turn", "angle", "the angle it is turned by", "90", limits=Limits(least=-360, most=360)),
    Key("flip", "flag", "whether it lies upside down, flipped about Y", "true"),
    Key("at", "lengths", "where its anchor lies", "[0, 0]", count=2, limits=_ANYWHERE),
    Key(
        "anchor",
        "choice",
        "the point of the drawing that lands on `at`",
        '"centre"',
        choices=("origin", "centre"),
    ),
)

_FIT = (
    Key("grip", "length", "clearance all round", "0.03", limits=Limits(least=0, most=50)),
    Key("side", "length", "play along X", "0.1", limits=Limits(least=0, most=50)),
)

_BOLT = (
    Key("at", "lengths", "its centre", "[50, 23]", required=True, count=2, limits=_ANYWHERE),
    Key("dia", "length", "its head's diameter", "14", required=True, limits=_SIZE),
    Key(
        "top",
        "length",
        "the Z of its top, counted down from the jaw top",
        "-20",
        required=True,
        limits=Limits(least=-10000, most=0),
    ),
)

_ROUGH = (
    Key("tool", "whole", "the number of the tool", "3", limits=_TOOL_NUMBER),
    Key("stepdown", "length", "the depth of a cut", "3", limits=_SIZE),
    Key("stepover", "length", "the width of a cut", "3.2", limits=_SIZE),
    Key("leave", "length", "stock to leave on walls", "0.2", limits=Limits(least=0, most=10)),
    Key(
        "leave_floor",
        "length",
        "stock to leave on the floor",
        "0.1",
        limits=Limits(least=0, most=10),
    ),
    Key("feed", "feed", "the feed per minute", "900", limits=_FEED),
    Key("slot_feed", "feed", "the feed at full width of cut", "450", limits=_FEED),
    Key("ramp", "angle", "the angle of helix and ramp", "3", limits=Limits(over=0, most=45)),
)

_FINISH = (
    Key("tool", "whole", "the number of the tool", "4", limits=_TOOL_NUMBER),
    Key("feed", "feed", "the feed per minute", "600", limits=_FEED),
    Key("spring", "whole", "how many spring passes", "1", limits=Limits(least=0, most=10)),
    Key("lead", "length", "the radius of lead-in and lead-out", "2", limits=_SIZE),
    Key("compensation", "whole", "the offset register", "23", limits=Limits(least=1, most=999)),
)

_ZERO = (
    Key("x", "choice", "where X 0 is", '"middle"', choices=("left", "middle", "right")),
    Key(
        "y",
        "choice",
        "where Y 0 is",
        '"mid gap"',
        choices=("front", "front face", "mid gap", "back face", "back"),
    ),
    Key("z", "choice", "where Z 0 is", '"top"', choices=("top", "bottom")),
    Key("shift", "lengths", "a shift of it", "[0, 0, 0]", count=3, limits=_ANYWHERE),
)

_SETUP = (
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
        choices=("jaws",),
        later=("turned profile", "chuck jaws", "outside"),
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
    Key("jaws", "table", "the blanks", required=True, keys=_JAWS),
    Key("hold", "table", "how the part lies", required=True, keys=_HOLD),
    Key("fit", "table", "the clearance", keys=_FIT),
    Key("bolts", "tables", "the bolts to miss", keys=_BOLT),
    Key("rough", "table", "the roughing", keys=_ROUGH),
    Key("finish", "table", "the finishing", keys=_FINISH),
    Key("zero", "table", "the program's origin", keys=_ZERO),
    Key(
        "clearance",
        "length",
        "how far above the jaw top the cutter moves freely",
        "5",
        default=5.0,
        limits=_SIZE,
    ),
    Key(
        "coolant",
        "choice",
        "the coolant",
        '"flood"',
        default="flood",
        choices=("flood", "mist", "off"),
    ),
    Key("reliefs", "flag", "whether to relieve corners", "true", default=True),
)

JOB = (
    Key("title", "text", "what the job is", '"Crank lever"', required=True),
    Key("units", "choice", "the job's units", '"mm"', required=True, choices=("mm", "inch")),
    Key("let", "table", "values with a name"),
    Key("part", "table", "the part", required=True, keys=_PART),
    Key("tool", "tables", "the tools", required=True, keys=_TOOL),
    Key("machine", "table", "what the machine can do", keys=_MACHINE),
    Key("setup", "tables", "the setups", required=True, keys=_SETUP),
)
"""The keys at the top of a job file; those of its tables hang below."""
