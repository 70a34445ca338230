"""The keys that tell of the part, the tools and the machine."""

from __future__ import annotations

from jawcam.job.key import FEED, NOT_NEGATIVE, SIZE, SURFACE, TOOL_NUMBER, Key, Limits
from jawcam.job.turner_keys import of_drills, of_turners
from jawcam.tools.cutter import KINDS
from jawcam.tools.turner import KINDS as LATHE_KINDS

__all__ = ["MACHINE", "PART", "TOOL", "TOOL_FORMS"]

_SPEED = Limits(over=0, most=300000)

_LAYER = (
    Key("layer", "text", "the layer's name", '"FOOT"', required=True),
    Key(
        "bottom",
        "length",
        "where it begins above the part's underside",
        "0",
        required=True,
        limits=NOT_NEGATIVE,
    ),
    Key(
        "top",
        "length",
        "where it ends above the part's underside",
        "3",
        required=True,
        limits=SIZE,
    ),
)

_PIECE = (
    Key(
        "dia",
        "diameter",
        "its diameter, or those at its start and end for a taper",
        "30",
        required=True,
        limits=SIZE,
    ),
    Key("len", "length", "its length along the axis", "15", required=True, limits=SIZE),
    Key(
        "chamfer",
        "length",
        "the width of the 45 degree chamfers on its outer corners",
        "0.5",
        limits=NOT_NEGATIVE,
    ),
    Key(
        "round",
        "length",
        "the radius that breaks its outer corners",
        "0.8",
        limits=NOT_NEGATIVE,
    ),
    Key(
        "limits",
        "lengths",
        "the upper and the lower deviation of its diameter",
        "[0, -0.021]",
        count=2,
        limits=Limits(least=-10, most=10),
    ),
    Key("thread", "thread", "the designation of its thread", '"M20x2.5 6g"'),
)

PART = (
    Key("material", "text", "what the part is made of", '"brass 360"', default=""),
    Key("outline", "path", "the drawing's file name", '"part.dxf"', default=None),
    Key("layer", "text", "the layer that the outline is on", '"PROFILE"', default=None),
    Key(
        "layers",
        "tables",
        "the layers of a stepped part and the heights that each fills",
        default=(),
        keys=_LAYER,
        filled=True,
    ),
    Key(
        "drawing_units",
        "choice",
        "the units of a drawing that states none",
        '"mm"',
        default=None,
        choices=("mm", "inch"),
    ),
    Key("thickness", "length", "the part's height", "12", default=None, limits=SIZE),
    Key(
        "turned",
        "tables",
        "the diameters of a turned part along its axis, end A first",
        default=(),
        keys=_PIECE,
        filled=True,
    ),
    Key(
        "profile",
        "path",
        "the file name of the drawing of a turned part's half profile, as drawn: it says no limits",
        '"spindle.dxf"',
        default=None,
    ),
    Key(
        "axis",
        "text",
        "where the axis of the half profile is: y = 0, or the layer of its line",
        '"y = 0"',
    ),
    Key(
        "end_a",
        "choice",
        "at which end of the half profile's drawing end A is",
        '"left"',
        choices=("left", "right"),
    ),
    Key("bore", "tables", "the diameters of its bore, from end A", keys=_PIECE, filled=True),
    Key("edge", "length", "how far the part's edges are broken", "0.2", limits=NOT_NEGATIVE),
)

_HOLDER = (
    Key("dia", "length", "its diameter", "32", required=True, limits=SIZE),
    Key("len", "length", "its length along the axis", "40", required=True, limits=SIZE),
)

_ANY_TOOL = (
    Key("number", "whole", "the tool's number", "3", required=True, limits=TOOL_NUMBER),
    Key(
        "kind",
        "choice",
        "its kind",
        '"end mill"',
        required=True,
        choices=tuple(dict.fromkeys((*KINDS, *LATHE_KINDS))),
    ),
    Key("name", "text", "what to call it", '"8 mm rougher"'),
)

TOOL = (
    *_ANY_TOOL,
    Key("dia", "length", "its diameter", "8", required=True, limits=Limits(over=0, most=200)),
    Key("flutes", "whole", "how many flutes it has", "3", limits=Limits(least=1, most=24)),
    Key("flute_len", "length", "the length of its flutes", "22", limits=SIZE),
    Key("stickout", "length", "how far it stands out of its holder", "30", limits=SIZE),
    Key("shank", "length", "the diameter of its shank", "10", limits=Limits(over=0, most=200)),
    Key(
        "holder",
        "tables",
        "the cylinders of its holder, from its face up to the spindle's nose",
        keys=_HOLDER,
        filled=True,
    ),
    Key("corner_radius", "length", "the radius of a bull-nose", "0.5", limits=SIZE),
    Key(
        "angle",
        "angle",
        "the included angle of its point or flanks",
        "90",
        limits=Limits(over=0, most=180),
    ),
    Key("tip_dia", "length", "the flat at its tip", "0.5", limits=NOT_NEGATIVE),
    Key("centre_cutting", "flag", "whether it may plunge straight down", "true"),
    Key("surface", "surface speed", "its cutting speed", "200", limits=SURFACE),
    Key("rpm", "speed", "its spindle speed", "6000", limits=_SPEED),
    Key(
        "chip", "length", "how much each of its teeth takes", "0.05", limits=Limits(over=0, most=3)
    ),
    Key("feed", "feed", "its feed per minute", "900", limits=FEED),
    Key("plunge_feed", "feed", "its feed straight down", "300", limits=FEED),
)
"""Those of a milling cutter."""

TOOL_FORMS = (*of_turners(_ANY_TOOL), ("drill", of_drills(TOOL)))
"""Those of the kinds that a lathe has."""

_TRAVEL = tuple(
    Key(axis, "length", f"how far {axis.upper()} goes", example, default=None, limits=SIZE)
    for axis, example in (("x", "500"), ("y", "400"), ("z", "400"))
)

_LATHE_TRAVEL = (
    Key(
        "x",
        "length",
        "how far X goes, as the programs write it, a diameter or a radius",
        "400",
        default=None,
        limits=SIZE,
    ),
    Key("z", "length", "how far Z goes", "600", default=None, limits=SIZE),
)

_POWER = Limits(over=0, most=1000)  # kW

_CURVE = (
    Key("rpm", "speed", "a spindle speed", "1000", required=True, limits=_SPEED),
    Key("power", "power", "the motor's power there", "0.5", required=True, limits=_POWER),
)

MACHINE = (
    Key("max_rpm", "speed", "the highest spindle speed", "8000", limits=_SPEED),
    Key("max_feed", "feed", "the highest feed per minute", "5000", limits=FEED),
    Key("rapid", "feed", "the speed of rapid moves", "10000", limits=Limits(over=0, most=200000)),
    Key(
        "accel",
        "acceleration",
        "how fast its axes speed up and slow down",
        "2000",
        limits=Limits(over=0, most=100000),
    ),
    Key(
        "corner",
        "feed",
        "how fast it runs round a square corner",
        "200",
        limits=Limits(least=0, most=100000),
    ),
    Key(
        "tool_change",
        "time",
        "how long a tool change takes",
        "10",
        limits=Limits(least=0, most=3600),
    ),
    Key("min_rpm", "speed", "the least spindle speed", "200", limits=Limits(least=0, most=300000)),
    Key("power", "power", "the power of the spindle's motor", '"2.2 kW"', limits=_POWER),
    Key(
        "torque",
        "torque",
        "the highest torque at the spindle",
        '"12 N m"',
        limits=Limits(over=0, most=1e5),
    ),
    Key("curve", "tables", "the motor's power at several speeds", keys=_CURVE, filled=True),
    Key(
        "efficiency",
        "number",
        "what share of the motor's power a cut gets, 1 for all of it",
        "0.8",
        limits=Limits(over=0, most=1),
    ),
    Key("travel", "table", "how far the mill's axes go", keys=_TRAVEL),
    Key("lathe_travel", "table", "how far the lathe's axes go", keys=_LATHE_TRAVEL),
    Key(
        "change_height",
        "length",
        "how far above the jaw top a tip stands at least where the tool is changed",
        "100",
        limits=SIZE,
    ),
    Key(
        "rapids",
        "choice",
        "how its rapids run along several axes",
        '"straight"',
        choices=("straight", "dog-leg"),
    ),
)
